//! Bringing a bath to a pH, and holding it there.

use super::solution::{Portion, Solution};
use super::substance::Substance;
use crate::quantity::Q;
use crate::science::Refusal;
use crate::science::bounds::above_zero;
use crate::science::solve::bracket;
use crate::units::{MOL_PER_L, NUMBER};

/// A reagent as it stands in its bottle.
#[derive(Clone, Copy)]
pub struct Reagent<'a> {
    /// What is in it.
    pub substance: &'a Substance,
    /// Its strength; `None` for one so strong, or solid, that its volume does not count.
    pub strength: Option<Q>,
}

/// The amount of a reagent, in mol to each litre of the bath as it is, that brings it to a pH.
///
/// Counts the reagent's own weakness, its ions and, where a strength is given, the thinning by its
/// volume. Titrates the charge balance: the pH moves one way only, so a bracket always closes. Refuses
/// where the reagent pulls the other way or cannot get there. Source: PHREEQC 3.8.6 agrees, see the rows.
pub fn reagent_to_reach<'b>(solution: &Solution<'b>, reagent: Reagent<'b>, ph: Q) -> Result<Q, Refusal> {
    let now = solution.state().ph;
    let mut arguments = solution.arguments();
    arguments.extend(reagent.strength);
    arguments.push(ph);
    let call = |n: f64| Ok(Q::call("reagent to reach", &arguments, n, MOL_PER_L));
    // To the third figure of a pH it is there.
    if (now - ph.si).abs() < 5e-4 {
        return call(0.0);
    }
    // Strong base that is still missing at the target, or strong acid: nearly a straight line over the amount.
    let up = ph.si > now;
    let missing = |n: f64| -> f64 {
        match mixed(solution, reagent, n) {
            Ok(mixture) if up => mixture.at(ph.si).base,
            Ok(mixture) => -mixture.at(ph.si).base,
            Err(_) => f64::INFINITY,
        }
    };
    // As much as a strong one would take, and a little more; weak ones take more again.
    let mut most = 1.1 * missing(0.0) + 1e-9;
    while missing(most) > 0.0 {
        most *= 4.0;
        if most > 60.0 {
            let name = &reagent.substance.name;
            return Err(Refusal::new(
                format!("{name} does not bring this to pH {:.2}: it stands at pH {now:.2}", ph.si),
                "Take the bottle that pulls the other way, or a stronger one, or another pH.",
            ));
        }
    }
    call(bracket(missing, 0.0, most, 1e-11))
}

/// The pH after an amount of a reagent, in mol to each litre of the bath as it was.
pub fn ph_after<'b>(solution: &Solution<'b>, reagent: Reagent<'b>, n: Q) -> Result<Q, Refusal> {
    let mut arguments = solution.arguments();
    arguments.extend(reagent.strength);
    arguments.push(n);
    Ok(Q::call("pH after", &arguments, mixed(solution, reagent, n.number(MOL_PER_L))?.state().ph, NUMBER))
}

/// A litre of the solution with an amount of a reagent, in mol, and thinned by its volume.
fn mixed<'b>(solution: &Solution<'b>, reagent: Reagent<'b>, n: f64) -> Result<Solution<'b>, Refusal> {
    let share = match reagent.strength {
        Some(strength) => {
            let strength = above_zero(strength, "a reagent without strength does nothing")?;
            1.0 / (1.0 + n / strength.number(MOL_PER_L))
        }
        None => 1.0,
    };
    let more = Portion { substance: reagent.substance, c: Q::constant("c", n * share, MOL_PER_L) };
    solution.with(share, more)
}

/// The narrowest dead band, from where one bottle starts to where the other does, in which two bottles do
/// not hunt: the larger step of the two, as often as it is given before the probe shows it, and what the
/// probe repeats to at either end.
///
/// One bottle must not carry the pH past where the other starts. Common practice, no source.
pub fn least_dead_band(up: Q, down: Q, doses_unseen: Q, probe: Q) -> Q {
    up.max(down) * doses_unseen + 2.0 * probe
}
