//! Hydroxide precipitation: what stays dissolved at a pH, the pH at which least does, and the sludge.
//!
//! A curve of theory, not a promise: two published sets part by up to a hundred times, the water holds what
//! the curve does not (carbonate, complexants), and what does not settle counts as metal too.

pub mod sets;
pub mod sludge;
#[cfg(test)]
mod tests;

pub use sets::Set;

use super::Refusal;
use super::elements;
use super::ph::activity::{Size, debye_huckel, log_gamma};
use super::solve::bisect;
use crate::quantity::Q;
use crate::units::{MG_PER_L_METAL, NUMBER, Unit};
use std::sync::OnceLock;

/// The salt in the water that the curves stand for, mol/kg of sodium nitrate.
pub const BACKGROUND: f64 = 0.1;
/// The pH between which the curves are drawn.
pub const RANGE: [f64; 2] = [2.0, 13.0];
/// The pH between which the least is looked for.
const SEARCHED: [f64; 2] = [5.0, 13.0];

/// The two published sets of a metal; `None` where none is known here.
pub fn sets_of(metal: &str) -> Option<[&'static Set; 2]> {
    let of = |sets: &'static [Set]| sets.iter().find(|set| set.metal == metal);
    Some([of(sets::FIRST)?, of(sets::SECOND)?])
}

/// Debye and Hückel's constants at 25 °C.
fn constants() -> (f64, f64) {
    static AT_25: OnceLock<(f64, f64)> = OnceLock::new();
    *AT_25.get_or_init(|| debye_huckel(298.15, 0.99704))
}

/// mol/L that stay dissolved at a pH, all forms of the metal together.
fn dissolved(set: &Set, ph: f64) -> f64 {
    let log_gamma = |size, charge| log_gamma(size, charge, BACKGROUND, constants());
    let nitrate = BACKGROUND.log10() + log_gamma(Size::Davies, -1);
    let ion = set.log_k - set.charge * ph;
    let of = |species: &sets::Species| {
        let (metals, nitrates) = (f64::from(species.metals), f64::from(species.nitrates));
        let log = metals * ion + species.log_k + f64::from(species.lost) * ph + nitrates * nitrate
            - log_gamma(species.size, species.charge);
        metals * 10f64.powf(log)
    };
    set.species.iter().map(of).sum()
}

/// The constant of the solid: it says in a working which set was asked.
fn constant(set: &Set) -> Q {
    Q::constant("log K_s", set.log_k, NUMBER)
}

fn per_litre(set: &Set, ph: f64) -> f64 {
    1000.0 * dissolved(set, ph) * elements::weight(set.metal).unwrap_or(f64::NAN)
}

/// Metal that stays dissolved over its hydroxide at a pH: `M·Σ n·K_s^n·β·a_H^(…)/γ`, all its forms together.
///
/// At 25 °C, in 0.1 mol/kg of sodium nitrate, without carbonate and without anything that binds the metal, once
/// the solid is there and has settled down. Written in hydrogen ions, so that it needs no constant of water.
/// Refuses outside of pH 2 to 13.
///
/// Trust: the two sets part by up to 200 times (copper and nickel from pH 9 on). Source: PHREEQC 3.8.6 with
/// minteq.v4.dat, wateq4f.dat and sit.dat, which it agrees with to 5 %.
pub fn solubility(set: &'static Set, ph: Q) -> Result<Q, Refusal> {
    if !(RANGE[0]..=RANGE[1]).contains(&ph.si) {
        return Err(Refusal::new(
            format!("what stays dissolved is known from pH {} to {}", RANGE[0], RANGE[1]),
            "Hold the pH within that.",
        ));
    }
    Ok(Q::call(
        "dissolved over the hydroxide at",
        &[constant(set), ph],
        per_litre(set, ph.si),
        MG_PER_L_METAL,
    ))
}

/// Where a bowed function is least.
fn least(f: impl Fn(f64) -> f64, [mut low, mut high]: [f64; 2]) -> f64 {
    for _ in 0..48 {
        let third = (high - low) / 3.0;
        let (a, b) = (low + third, high - third);
        if f(a) <= f(b) { high = b } else { low = a }
    }
    0.5 * (low + high)
}

/// The pH at which least of a metal stays dissolved, and how much: below and above it more dissolves.
///
/// The logarithm of the sum is bowed over the pH (each form is a straight line), so a search by thirds finds it.
/// Symbols, range and source: [`solubility`].
pub fn least_soluble(set: &'static Set) -> (Q, Q) {
    let ph = least(|ph| per_litre(set, ph), SEARCHED);
    (
        Q::call("pH of least dissolved", &[constant(set)], ph, NUMBER),
        Q::call("least dissolved", &[constant(set)], per_litre(set, ph), MG_PER_L_METAL),
    )
}

/// A metal among others that are brought down at one pH.
pub struct Together<'a> {
    /// The sets that count: the one of which more stays dissolved does.
    pub sets: &'a [&'static Set],
    /// What is left besides, with solids that do not settle.
    pub besides: Q,
    /// What may be left of it.
    pub limit: Q,
}

impl Together<'_> {
    fn left(&self, ph: f64) -> f64 {
        let worst = self.sets.iter().map(|set| per_litre(set, ph)).fold(0.0, f64::max);
        worst + self.besides.number(MG_PER_L_METAL)
    }

    fn share(&self, ph: f64) -> f64 {
        self.left(ph) / self.limit.number(MG_PER_L_METAL)
    }
}

/// What one pH does for several metals.
#[derive(Clone, Copy, Debug)]
pub struct Common {
    /// Where the one that is worst, against its limit, is best.
    pub ph: Q,
    /// That one, as a share of its limit.
    pub share: Q,
    /// Where all are within their limits, from and to; `None` if nowhere.
    pub window: Option<(Q, Q)>,
}

/// The pH at which the worst of several metals, each against its limit, stays lowest, and where all keep them.
///
/// The largest of bowed curves is bowed, so it has one lowest place. Refuses where there is no metal or a limit is nought.
/// Source and trust: [`solubility`].
pub fn best_common_ph(metals: &[Together]) -> Result<Common, Refusal> {
    if metals.is_empty() || metals.iter().any(|metal| metal.limit.si.is_nan() || metal.limit.si <= 0.0) {
        return Err(Refusal::new("no metal has a limit above nought", "Give a limit for each."));
    }
    let worst = |ph: f64| metals.iter().map(|metal| metal.share(ph)).fold(0.0, f64::max);
    let best = least(worst, SEARCHED);
    let limits: Vec<Q> = metals.iter().map(|metal| metal.limit).collect();
    let call = |name, number, unit: &'static Unit| Q::call(name, &limits, number, unit);
    let is_kept = worst(best) <= 1.0;
    let window = is_kept.then(|| {
        let edge = |end: f64| {
            if worst(end) <= 1.0 { end } else { bisect(|ph| 1.0 - worst(ph), best, end) }
        };
        (
            call("lowest pH that keeps", edge(SEARCHED[0]), NUMBER),
            call("highest pH that keeps", edge(SEARCHED[1]), NUMBER),
        )
    });
    let ph = call("best common pH for", best, NUMBER);
    Ok(Common { ph, share: call("worst share of", worst(best), NUMBER), window })
}
