//! Lime as a reagent: what it takes up, the heat that it gives off, and the gypsum that falls with sulfate.

use super::Refusal;
use super::bounds::not_negative;
use super::ph::activity::{Size, debye_huckel, log_gamma};
use super::ph::substance::{Ion, Partner, Role, SODIUM, Substance};
use super::solve::bisect;
use super::water;
use crate::quantity::Q;
use crate::units::{CELSIUS, KELVIN, KG_PER_L, KJ_PER_MOL, MOL_PER_L};
use std::borrow::Cow;

/// Calcium and sulfate, as phreeqc.dat has their sizes.
const CALCIUM: Size = Size::Sized(5.0, 0.165);
const SULFATE: Size = Size::Sized(5.0, -0.04);
/// The pair of sodium and sulfate, and the decadic logarithm of its constant at 25 °C.
const SODIUM_PAIR: Size = Size::Sized(5.5, 0.0);
const WITH_SODIUM: f64 = 1.21;

/// Hydrated lime. Sulfate pairs with calcium about as with the metals: logarithms 2.25 and 2.30 to 2.36.
pub static LIME: Substance = Substance {
    name: Cow::Borrowed("Calcium hydroxide"),
    formula: "Ca(OH)2",
    role: Role::Base,
    forms: Cow::Borrowed(&[]),
    acids: 0.0,
    ions: &[Ion { charge: 2, count: 1.0, size: CALCIUM, partner: Some(Partner::Metal) }],
    source: "strong: wholly dissociated, as far as it dissolves",
};

/// The highest pH that lime is taken to reach: saturated it stands at 12.5 at 25 °C, and at 12.0 at 40 °C.
/// Source: portlandite of minteq.v4.dat, PHREEQC 3.8.6.
pub const HIGHEST_PH: f64 = 11.5;

/// Heat that a mole of solid lime gives off as it takes up two of strong acid: 128.62 kJ, its dissolving among it.
///
/// Source: portlandite of minteq.v4.dat, PHREEQC 3.8.6. Twice 55.815 for water and 16.9 for dissolving come to the same.
pub fn heat_of_neutralisation() -> Q {
    Q::constant("ΔH", 128.62, KJ_PER_MOL)
}

/// Gypsum, CaSO4·2H2O, that falls from a litre: what of calcium `C` and sulfate `S` is beyond `a_Ca·a_SO4 = K`.
///
/// `N` sodium, `I_o` ionic strength of all ions but calcium and sulfate; all mol/L. Sulfate in pairs with calcium and
/// sodium is counted. From 5 to 60 °C, up to 0.5 mol/L of ions. What falls at once; gypsum is slow, and goes on
/// falling as scale. Trust: 5 % of what stays dissolved.
///
/// Source: gypsum and CaSO4 of phreeqc.dat, PHREEQC 3.8.6, which it agrees with: see the rows.
pub fn gypsum(calcium: Q, sulfate: Q, sodium: Q, others: Q, t: Q) -> Result<Q, Refusal> {
    let all = [(calcium, "calcium"), (sulfate, "sulfate"), (sodium, "sodium"), (others, "the other ions")];
    for (q, what) in all {
        not_negative(q, what)?;
    }
    if !(5.0..=60.0).contains(&t.number(CELSIUS)) {
        return Err(Refusal::new(
            "what dissolves of gypsum is known from 5 to 60 °C",
            "Give the temperature of the water in the tank.",
        ));
    }
    let kelvin = t.number(KELVIN);
    let at = Gypsum {
        log_k: 68.2401 - 3221.51 / kelvin - 25.0627 * kelvin.log10(),
        // van ’t Hoff, with 1.325 kcal/mol.
        sodium: sodium.number(MOL_PER_L),
        log_pair: 2.25 + 5.5438 * (1.0 / 298.15 - 1.0 / kelvin) / (8.314462618e-3 * std::f64::consts::LN_10),
        constants: debye_huckel(kelvin, water::density(t)?.number(KG_PER_L)),
        others: others.number(MOL_PER_L),
    };
    let (c, s) = (calcium.number(MOL_PER_L), sulfate.number(MOL_PER_L));
    let beyond = |fallen: f64| at.log_product(c - fallen, s - fallen) - at.log_k;
    let falls = if c.min(s) > 0.0 && beyond(0.0) > 0.0 { bisect(beyond, 0.0, c.min(s)) } else { 0.0 };
    Ok(Q::call("gypsum of", &[calcium, sulfate, sodium, others, t], falls, MOL_PER_L))
}

/// What holds gypsum in solution.
struct Gypsum {
    log_k: f64,
    log_pair: f64,
    constants: (f64, f64),
    sodium: f64,
    others: f64,
}

impl Gypsum {
    /// The logarithm of the activities of calcium and sulfate, multiplied.
    fn log_product(&self, c: f64, s: f64) -> f64 {
        // Pairs and ionic strength settle by substitution: what is free only falls from one side.
        let (mut free_c, mut free_s, mut free_n) = (c, s, self.sodium);
        let mut product = f64::NEG_INFINITY;
        for _ in 0..80 {
            let i = 2.0 * (free_c + free_s) + self.others;
            let log_gamma = |size, z| log_gamma(size, z, i, self.constants);
            let sulfate = log_gamma(SULFATE, -2);
            let felt = log_gamma(CALCIUM, 2) + sulfate;
            let pairing = 10f64.powf(self.log_pair + felt - log_gamma(Size::Neutral, 0));
            let with_sodium = WITH_SODIUM + log_gamma(SODIUM, 1) + sulfate - log_gamma(SODIUM_PAIR, -1);
            let with_sodium = 10f64.powf(with_sodium);
            free_s = s / (1.0 + pairing * free_c + with_sodium * free_n);
            free_c = c / (1.0 + pairing * free_s);
            free_n = self.sodium / (1.0 + with_sodium * free_s);
            product = (free_c * free_s).log10() + felt;
        }
        product
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::ph::{Portion, Reagent, known};
    use crate::units::NUMBER;

    fn mol(number: f64) -> Q {
        Q::constant("c", number, MOL_PER_L)
    }

    fn at(celsius: f64) -> Q {
        Q::constant("T", celsius, CELSIUS)
    }

    /// PHREEQC 3.8.6, phreeqc.dat: of 0.02 mol/kg of sulfuric acid that lime brings to pH 9 0.004949 fall, of 0.01 none.
    #[test]
    fn sulfate_beyond_what_dissolves_falls_as_gypsum() {
        let found = |c| gypsum(mol(c), mol(c), mol(0.0), mol(0.0), at(25.0)).unwrap().number(MOL_PER_L);
        assert!((found(0.02) / 0.004949 - 1.0).abs() < 0.05, "{}", found(0.02));
        assert_eq!(found(0.01), 0.0);
        assert_eq!(gypsum(mol(0.0), mol(0.1), mol(0.0), mol(0.0), at(25.0)).unwrap().si, 0.0);
        assert!(gypsum(mol(0.02), mol(0.02), mol(0.0), mol(0.0), at(80.0)).is_err());
        assert!(gypsum(mol(-0.02), mol(0.02), mol(0.0), mol(0.0), at(25.0)).is_err());
    }

    /// PHREEQC 3.8.6, phreeqc.dat: 0.02 and 0.1 mol/kg of sulfuric acid take 0.020007 and 0.10001 mol of lime to pH 9.
    #[test]
    fn a_mole_of_lime_takes_up_one_of_sulfuric_acid() {
        for (acid, lime) in [(0.02, 0.020007), (0.1, 0.10001)] {
            let portions = vec![Portion { substance: known("Sulfuric acid").unwrap(), c: mol(acid) }];
            let reagent = Reagent { substance: &LIME, strength: None };
            let none = mol(0.0);
            let ph = Q::constant("pH", 9.0, NUMBER);
            let found = crate::science::neutralisation::reagent_for(portions, none, reagent, ph, at(25.0));
            assert!((found.unwrap().number(MOL_PER_L) / lime - 1.0).abs() < 2e-3);
        }
    }

    /// CODATA Key Values (1989): 55.815 kJ for a mole of hydroxide; Ca²⁺ −543.0, and Ca(OH)2 −986.1 from memory.
    #[test]
    fn heat_of_lime_is_that_of_its_hydroxide_and_of_dissolving() {
        let dissolving: f64 = -986.1 - (-543.0 - 2.0 * 230.015);
        assert!((2.0 * 55.815 + dissolving - heat_of_neutralisation().number(KJ_PER_MOL)).abs() < 0.5);
    }
}
