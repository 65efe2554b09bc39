//! How much of a salt dissolves in water, and in sulfuric acid.

use super::Refusal;
use super::bounds::not_negative;
use super::fit::{between, celsius_within};
use super::formula::Formula;
use crate::quantity::Q;
use crate::units::MASS_FRACTION;

/// kg of the salt, as named, for a kg of all the water at about 20 °C. From memory, each to about 10 %.
const AT_20: [(&str, f64); 2] = [("NiSO4·6H2O", 0.65), ("H3BO3", 0.047)];

const BLUE: &str = "CuSO4·5H2O";

/// °C, and g of CuSO4 in 100 g of water. Handbook values, from memory, to 2 %.
const COPPER_SULFATE: [(f64, f64); 7] =
    [(0.0, 14.3), (10.0, 17.2), (20.0, 20.5), (30.0, 24.4), (40.0, 28.7), (50.0, 33.7), (60.0, 39.5)];
/// g of CuSO4 in a g of CuSO4·5H2O.
const ANHYDROUS: f64 = 0.6393;
/// By how much a kg of acid for each kg of water lowers it, in its logarithm.
const BY_ACID: f64 = 2.24;

fn is(formula: &Formula, text: &str) -> bool {
    Formula::read(text).is_ok_and(|known| known.counts() == formula.counts())
}

/// Whether acid and temperature count in [`solubility`] of this.
pub fn counts_acid(formula: &Formula) -> bool {
    is(formula, BLUE)
}

/// Solubility of a salt: kg of it, as named, for each kg of all the water there is, its own and the acid's
/// included.
///
/// A table. For copper sulfate `s = s(T)·exp(−2.24·a)`, as sulfate is an ion of both.
///
/// `T` temperature, `a` kg of sulfuric acid for each kg of water.
///
/// Holds for copper sulfate from 0 to 60 °C, and up to `a` = 0.4; above that it is carried on. For others at
/// about 20 °C in water: acid and cold lower it, and are not counted.
///
/// Trust: a warning, never a design figure. Copper sulfate to 2 % in water, to 10 % up to `a` = 0.2 and 20 % at
/// 0.4; others to 10 %.
///
/// Source: solubilities in water from memory. Acid: fitted to PHREEQC 3.8.6 with pitzer.dat at 25 °C, to which
/// CuSO4 was added (Pitzer’s parameters from memory), with iron’s or magnesium’s parameters beside hydrogen sulfate
/// standing for copper’s: the two span 0.63 to 0.68 of the solubility in water at `a` = 0.2, and 0.37 to 0.49 at
/// 0.4. `None` for what the table does not hold.
pub fn solubility(formula: &Formula, t: Q, acid: Q) -> Result<Option<Q>, Refusal> {
    if !counts_acid(formula) {
        let known = AT_20.iter().find(|(text, _)| is(formula, text));
        return Ok(known.map(|(text, number)| Q::constant(&format!("s({text})"), *number, MASS_FRACTION)));
    }
    let celsius = celsius_within(t, 0.0, 60.0, "the temperature at which copper sulfate dissolves")?;
    let acid = not_negative(acid, "the acid")?;
    let in_water = between(&COPPER_SULFATE, celsius) / 100.0 / ANHYDROUS;
    let in_water = Q::call("solubility in water", &[t], in_water, MASS_FRACTION);
    Ok(Some(if acid.si > 0.0 { in_water * (-BY_ACID * acid).exp() } else { in_water }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::CELSIUS;

    fn blue(celsius: f64, acid: f64) -> f64 {
        let (t, acid) = (Q::constant("T", celsius, CELSIUS), Q::constant("a", acid, MASS_FRACTION));
        solubility(&Formula::read(BLUE).unwrap(), t, acid).unwrap().unwrap().si
    }

    /// Handbook tables, from memory: 20.5 g of CuSO4, that is 32 g of the hydrate, in 100 g of water at 20 °C, and
    /// more in warm water.
    #[test]
    fn blue_vitriol_dissolves_in_three_times_its_mass_of_water_and_in_less_when_warm() {
        assert!((blue(20.0, 0.0) / 0.3207 - 1.0).abs() < 1e-3);
        assert!((blue(60.0, 0.0) / blue(20.0, 0.0) - 39.5 / 20.5).abs() < 1e-9);
        let t = Q::constant("T", 70.0, CELSIUS);
        assert!(solubility(&Formula::read(BLUE).unwrap(), t, Q::constant("a", 0.0, MASS_FRACTION)).is_err());
    }

    /// PHREEQC 3.8.6, pitzer.dat with CuSO4 added (0.2340, 2.527, −48.33, 0.0044, from memory), 25 °C, solubility
    /// over that in water at 1, 2, 3 and 4 mol of H2SO4 in a kg of water: with iron’s parameters beside hydrogen
    /// sulfate 0.801, 0.631, 0.486, 0.374; with magnesium’s 0.802, 0.684, 0.581, 0.494.
    #[test]
    fn sulfuric_acid_drives_copper_sulfate_out() {
        let spans = [(1.0, 0.801, 0.802), (2.0, 0.631, 0.684), (3.0, 0.486, 0.581), (4.0, 0.374, 0.494)];
        for (molality, low, high) in spans {
            let share = blue(25.0, molality * 0.098_08) / blue(25.0, 0.0);
            assert!((low - 0.005..=high + 0.005).contains(&share), "{molality} mol/kg: {share}");
        }
    }

    #[test]
    fn what_is_not_known_to_dissolve_badly_has_no_limit() {
        let (t, none) = (Q::constant("T", 20.0, CELSIUS), Q::constant("a", 0.0, MASS_FRACTION));
        let of = |text| solubility(&Formula::read(text).unwrap(), t, none).unwrap().map(|q| q.si);
        assert_eq!((of("AgNO3"), of("H3BO3")), (None, Some(0.047)));
    }
}
