//! What plumbing codes ask of a drain beside its slope: cleanouts, and the vent of each trap. The local code rules.

use super::drain::is_nominally;
use crate::quantity::Q;
use crate::units::*;

/// Which turns of a pipe need a cleanout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Turns {
    /// One each time that the sum of the turns exceeds 135°.
    InSum,
    /// One at each turn of more than 45°; but only one for each 40 ft of the pipe.
    Each,
}

/// One set of rules. By size, in inches and feet, smallest first; a size between two takes the smaller one's.
#[derive(Clone, Copy, Debug)]
pub struct PipeRule {
    /// What it is, in words; codes differ, the user picks.
    pub name: &'static str,
    /// How far apart cleanouts may be.
    pub spacing: &'static [(f64, f64)],
    /// Which turns need one.
    pub turns: Turns,
    /// How far a trap may be from its vent, along the pipe.
    pub to_vent: &'static [(f64, f64)],
}

/// Uniform Plumbing Code 2012, 707.4, as quoted in a trade forum; Table 1002.2 as printed in a plumber's manual of
/// calculations. Municipal Code of Chicago, 18-29-708.3.1 and 708.3.3; International Plumbing Code, Table 909.1, from
/// memory, as a trade journal has it too.
pub static PIPE_RULES: [PipeRule; 2] = [
    PipeRule {
        name: "each 100 ft, and above 135° in sum; vent within 2 1/2 to 10 ft",
        spacing: &[(0.0, 100.0)],
        turns: Turns::InSum,
        to_vent: &[(0.0, 2.5), (1.5, 3.5), (2.0, 5.0), (3.0, 6.0), (4.0, 10.0)],
    },
    PipeRule {
        name: "each 50 to 150 ft, and at turns above 45°; vent within 5 to 16 ft",
        spacing: &[(0.0, 50.0), (5.0, 100.0), (10.0, 150.0)],
        turns: Turns::Each,
        to_vent: &[(0.0, 5.0), (1.5, 6.0), (2.0, 8.0), (3.0, 12.0), (4.0, 16.0)],
    },
];

fn by_size(lines: &[(f64, f64)], bore: Q) -> f64 {
    let line = lines.iter().rev().find(|(inches, _)| is_nominally(bore, *inches)).or(lines.first());
    line.map_or(0.0, |(_, feet)| *feet)
}

/// Cleanouts that a run needs: the one at its upper end, those on the way, and those of its turns.
///
/// `bends` are those of 90° and those of 45°. Tables, and counted. Source: as [`PIPE_RULES`].
pub fn cleanouts(rule: &PipeRule, run: Q, bore: Q, [right, half]: [Q; 2]) -> Q {
    let feet = run.number(FOOT);
    let above = |number: f64| (number - 1e-9).ceil().max(1.0);
    let on_the_way = above(feet / by_size(rule.spacing, bore));
    let of_turns = match rule.turns {
        Turns::InSum => above((90.0 * right.si + 45.0 * half.si) / 135.0) - 1.0,
        Turns::Each => right.si.min(above(feet / 40.0)),
    };
    Q::call("cleanouts", &[run, bore, right, half], on_the_way + of_turns, NUMBER)
}

/// How far, along the pipe, a trap of this bore may be from its vent, so that it is not sucked empty.
///
/// Table. Source: as [`PIPE_RULES`].
pub fn furthest_vent(rule: &PipeRule, bore: Q) -> Q {
    Q::call("furthest vent", &[bore], by_size(rule.to_vent, bore), FOOT)
}

/// Least bore of the vent of a drain: half of the drain's, and 32 mm (1 1/4 in) at least.
///
/// Above 40 ft of vent the next larger size. Source: both model codes, from memory.
pub fn vent_bore(drain: Q) -> Q {
    (drain / 2.0).max(Q::constant("32 mm", 32.0, MM))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Uniform Plumbing Code 2012, 707.4: one at the upper end, one for each 100 ft or part of it, one more for each
    /// 135° that turns exceed in sum. Municipal Code of Chicago, 18-29-708.3: 50 ft apart up to 4 in, 150 ft from 10 in;
    /// one at each turn above 45°, and only one for each 40 ft. By hand from these words: 115 ft of 4 in with two turns.
    #[test]
    fn cleanouts_of_two_codes() {
        let count = |rule: usize, feet: f64, inches: f64, right: f64, half: f64| {
            let [run, bore] = [Q::constant("l", feet, FOOT), Q::constant("D", inches, INCH)];
            cleanouts(&PIPE_RULES[rule], run, bore, [Q::from(right), Q::from(half)]).si
        };
        for ((rule, feet, inches, right, half), expected) in [
            ((0, 115.0, 4.0, 2.0, 0.0), 3.0),
            ((0, 100.0, 4.0, 1.0, 1.0), 1.0),
            ((0, 100.0, 4.0, 1.0, 2.0), 2.0),
            ((0, 90.0, 2.0, 0.0, 0.0), 1.0),
            ((1, 115.0, 4.0, 2.0, 0.0), 5.0),
            ((1, 115.0, 5.0, 2.0, 0.0), 4.0),
            ((1, 115.0, 10.0, 2.0, 4.0), 3.0),
            ((1, 30.0, 2.0, 3.0, 0.0), 2.0),
        ] {
            assert_eq!(
                count(rule, feet, inches, right, half),
                expected,
                "{feet} ft of {inches} in, rule {rule}"
            );
        }
    }

    /// Uniform Plumbing Code, Table 1002.2, and International Plumbing Code, Table 909.1: 5 and 8 ft for 2 in.
    #[test]
    fn vents_stand_near_their_traps() {
        let feet =
            |rule: usize, mm: f64| furthest_vent(&PIPE_RULES[rule], Q::constant("D", mm, MM)).number(FOOT);
        for (mm, first, second) in
            [(32.0, 2.5, 5.0), (40.0, 3.5, 6.0), (50.0, 5.0, 8.0), (75.0, 6.0, 12.0), (150.0, 10.0, 16.0)]
        {
            assert!((feet(0, mm) - first).abs() < 1e-9 && (feet(1, mm) - second).abs() < 1e-9, "{mm} mm");
        }
        for (drain, vent) in [(50.0, 32.0), (75.0, 37.5), (40.0, 32.0)] {
            assert!((vent_bore(Q::constant("D", drain, MM)).number(MM) - vent).abs() < 1e-9);
        }
    }
}
