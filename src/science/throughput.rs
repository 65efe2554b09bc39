//! How many wafers chambers plate, and how many chambers a number of wafers takes.

use super::Refusal;
use super::bounds::{not_negative, positive};
use crate::quantity::Q;
use crate::units::NUMBER;

/// Share of the calendar in which a tool can run: `(calendar − planned − failures)/calendar`.
///
/// Refuses stops longer than the calendar. Source: definition; arithmetic.
pub fn uptime(calendar: Q, planned: Q, failures: Q) -> Result<Q, Refusal> {
    let left = calendar - planned - failures;
    if left.si <= 0.0 {
        return Err(Refusal::new(
            "The stops take all of the time.",
            "Give planned stops and failures that leave time to run.",
        ));
    }
    Ok(left / positive(calendar, "the time that is looked at")?)
}

/// Wafers that chambers plate in a time: `n·b·u/(t + h)`.
///
/// `n` chambers, `b` wafers in one at once, `t` plating, `h` rinse and handling in which the chamber plates
/// nothing, `u` uptime. Holds if a wafer is always at hand. Refuses no time and no uptime.
/// Source: arithmetic (common practice; what waits between stations is not in it).
pub fn wafers_per_time(chambers: Q, at_once: Q, plating: Q, handling: Q, uptime: Q) -> Result<Q, Refusal> {
    Ok(chambers * one_chamber(at_once, plating, handling, uptime)?)
}

/// Wafers that one chamber plates in a time: [`wafers_per_time`] of one.
pub fn one_chamber(at_once: Q, plating: Q, handling: Q, uptime: Q) -> Result<Q, Refusal> {
    let cycle = positive(plating + handling, "the time of plating and handling")?;
    if !(uptime.si > 0.0 && uptime.si <= 1.0) {
        return Err(Refusal::new(
            "The uptime is not above 0 and at most 100 %.",
            "Give the share of the time in which the chambers can run.",
        ));
    }
    Ok(positive(at_once, "the number of wafers in a chamber")? * uptime / cycle)
}

/// Chambers that a number of wafers takes, before rounding: wanted over [`one_chamber`]. Source: its inverse.
pub fn chambers_before_rounding(wanted: Q, each: Q) -> Result<Q, Refusal> {
    Ok(not_negative(wanted, "the wafers wanted")? / positive(each, "the wafers of one chamber")?)
}

/// Whole chambers: rounded up, but what is whole to a part in 10⁹ is not rounded up to one more.
///
/// Source: arithmetic; exact fractions in the reference rows.
pub fn whole_chambers(chambers: Q) -> Q {
    Q::call("whole, rounded up", &[chambers], (chambers.si * (1.0 - 1e-9)).ceil().max(0.0), NUMBER)
}

/// What a line plates in which every wafer visits all stations: the slowest one's, and which that is.
///
/// Refuses no station. Source: arithmetic: the least of the stations' own numbers.
pub fn line_rate(stations: &[Q]) -> Result<(Q, usize), Refusal> {
    let slowest = stations.iter().enumerate().min_by(|a, b| a.1.si.total_cmp(&b.1.si));
    let (at, _) = slowest.ok_or_else(|| {
        Refusal::new("No station is given.", "Add a bath with its chambers, or the rate of the robot.")
    })?;
    let least = stations[1..].iter().fold(stations[0], |least, next| least.min(*next));
    Ok((least, at))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn minutes(number: f64) -> Q {
        Q::constant("t", number, MINUTE)
    }

    fn rate(chambers: f64, plating: f64, handling: f64, uptime: f64) -> f64 {
        let made =
            wafers_per_time(chambers.into(), 1.0.into(), minutes(plating), minutes(handling), uptime.into());
        made.unwrap().number(PER_HOUR)
    }

    #[test]
    fn handling_and_uptime_count() {
        // By hand: 4 × 60/(22 + 3) × 0.85 = 8.16 an hour; without either it would read 10.9.
        assert!((rate(4.0, 22.0, 3.0, 0.85) - 8.16).abs() < 1e-12);
        let half = one_chamber(1.0.into(), minutes(10.0), minutes(2.0), 0.0.into());
        assert!(half.is_err());
    }

    #[test]
    fn exactly_three_chambers_are_not_four() {
        // By hand in whole numbers: 12 an hour, 15 min each: 3. In floating point 12/3600 × 900 may read 3.0000000000000004.
        for (wanted, cycle, expected) in [(12.0, 15.0, 3.0), (10.0, 30.0, 5.0), (7.0, 60.0 / 7.0, 1.0)] {
            let each = one_chamber(1.0.into(), minutes(cycle), minutes(0.0), 1.0.into()).unwrap();
            let raw = chambers_before_rounding(Q::constant("N", wanted, PER_HOUR), each).unwrap();
            assert_eq!(whole_chambers(raw).si, expected);
        }
        assert_eq!(whole_chambers(3.001.into()).si, 4.0);
        assert_eq!(whole_chambers(0.0.into()).si, 0.0);
    }

    #[test]
    fn the_slowest_station_rules_the_line() {
        let stations = [40.0, 8.16, 12.0].map(Q::from);
        let (least, at) = line_rate(&stations).unwrap();
        assert_eq!((least.si, at), (8.16, 1));
        assert!(line_rate(&[]).is_err());
    }

    #[test]
    fn uptime_is_of_the_calendar() {
        // By hand: (8760 − 400 − 160)/8760.
        let hours = |number| Q::constant("t", number, HOUR);
        assert!((uptime(hours(8760.0), hours(400.0), hours(160.0)).unwrap().si - 0.936073).abs() < 1e-6);
        assert!(uptime(hours(10.0), hours(6.0), hours(4.0)).is_err());
    }
}
