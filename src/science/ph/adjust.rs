//! Bringing a bath to a pH, and holding it there.

use super::solution::{Portion, Solution};
use super::substance::Substance;
use crate::quantity::Q;
use crate::science::solve::bisect;
use crate::science::{Refusal, above_zero};
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
pub fn reagent_to_reach(solution: &Solution, reagent: Reagent, ph: Q) -> Result<Q, Refusal> {
    let now = solution.state().ph;
    let mut arguments = solution.arguments();
    arguments.extend(reagent.strength);
    arguments.push(ph);
    let call = |n: f64| Ok(Q::call("reagent to reach", &arguments, n, MOL_PER_L));
    // To the third figure of a pH it is there.
    if (now - ph.si).abs() < 5e-4 {
        return call(0.0);
    }
    let up = ph.si > now;
    // How far the pH is still on the near side of the target.
    let short = |n: f64| -> f64 {
        match after(solution, reagent, n) {
            Ok(reached) if up => ph.si - reached,
            Ok(reached) => reached - ph.si,
            Err(_) => f64::INFINITY,
        }
    };
    let mut most = 1e-6;
    while short(most) > 0.0 {
        most *= 4.0;
        if most > 60.0 {
            let name = &reagent.substance.name;
            return Err(Refusal::new(
                format!("{name} does not bring this to pH {:.2}: it stands at pH {now:.2}", ph.si),
                "Take the bottle that pulls the other way, or a stronger one, or another pH.",
            ));
        }
    }
    call(bisect(short, 0.0, most))
}

/// The pH after an amount of a reagent, in mol to each litre of the bath as it was.
pub fn ph_after(solution: &Solution, reagent: Reagent, n: Q) -> Result<Q, Refusal> {
    let mut arguments = solution.arguments();
    arguments.extend(reagent.strength);
    arguments.push(n);
    Ok(Q::call("pH after", &arguments, after(solution, reagent, n.number(MOL_PER_L))?, NUMBER))
}

fn after(solution: &Solution, reagent: Reagent, n: f64) -> Result<f64, Refusal> {
    let share = match reagent.strength {
        Some(strength) if !above_zero(strength) => {
            return Err(Refusal::new("a reagent without strength does nothing", "Type its strength."));
        }
        Some(strength) => 1.0 / (1.0 + n / strength.number(MOL_PER_L)),
        None => 1.0,
    };
    let more = Portion { substance: reagent.substance, c: Q::constant("c", n * share, MOL_PER_L) };
    Ok(solution.with(share, more)?.state().ph)
}

/// How far one dose moves the pH of a bath: Δ = C·v/(β·V).
///
/// C strength of the bottle in mol/L of strong acid or base, v one dose, β buffer capacity, V volume.
/// For steps that β hardly changes over.
pub fn step_of_a_dose(strength: Q, dose: Q, capacity: Q, volume: Q) -> Result<Q, Refusal> {
    if !above_zero(capacity) || !above_zero(volume) {
        return Err(Refusal::new(
            "nothing holds this pH: no buffer, or no bath",
            "Type the volume of the bath and what it holds.",
        ));
    }
    Ok(strength * dose / (capacity * volume))
}

/// The narrowest dead band, from the end where one bottle starts to where the other does, that two
/// bottles do not hunt in: the two steps, each as often as it is given before the probe shows it, and
/// twice what the probe repeats to.
///
/// One bottle must not carry the pH past where the other starts. Common practice, no source.
pub fn least_dead_band(up: Q, down: Q, doses_unseen: Q, probe: Q) -> Q {
    up.max(down) * doses_unseen + 2.0 * probe
}

/// What a drift takes: the volume of a bottle a day, β·V·d/C.
pub fn volume_for_drift(capacity: Q, volume: Q, drift: Q, strength: Q) -> Result<Q, Refusal> {
    if !above_zero(strength) {
        return Err(Refusal::new("a bottle without strength does nothing", "Type its strength."));
    }
    Ok(capacity * volume * drift / strength)
}
