//! pH of mixtures of acids, bases and salts, what brings them to another pH, and what holds it there.
//!
//! - [`activity`]: what ions do to each other, and water's own dissociation;
//! - [`substance`]: acids, bases and salts with their constants;
//! - [`solution`]: the charge balance, solved by bracketing, never by Newton from pH 7;
//! - [`adjust`]: reagent to reach a pH, dead band, volume a day.

pub mod activity;
pub mod adjust;
pub mod solution;
pub mod substance;
#[cfg(test)]
mod tests;

pub use activity::{Activities, neutral_ph, water_dissociation};
pub use adjust::{Reagent, least_dead_band, ph_after, reagent_to_reach};
pub use solution::{Portion, Solution};
pub use substance::{Role, SUBSTANCES, Substance, known};

use crate::quantity::Q;
use crate::units::{KELVIN, NUMBER};

/// The share of the free cyanide that is hydrogen cyanide at a pH: 1/(1 + 10^(pH − pKa)), dilute.
///
/// pKa 9.21 at 25 °C with 43.63 kJ/mol (minteq.v4.dat of PHREEQC 3.8.6, NIST 46). Half of it at pH 9.2,
/// one part in a hundred at 11; it is the gas that kills.
pub fn hydrogen_cyanide_share(ph: Q, t: Q) -> Q {
    let shift = 43.63 * (1.0 / 298.15 - 1.0 / t.number(KELVIN)) / (8.314462618e-3 * std::f64::consts::LN_10);
    let pka = Q::call("pKa of HCN at", &[t], 9.21 - shift, NUMBER);
    1.0 / (1.0 + ((ph - pka) * std::f64::consts::LN_10).exp())
}
