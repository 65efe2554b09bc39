//! Acids, bases and salts: what each brings into a solution, and how it gives off hydrogen ions.

use super::activity::Size::{self, Davies, Neutral, Sized};
use crate::quantity::Q;
use crate::science::Refusal;
use crate::science::formula::Formula;
use std::borrow::Cow;

/// One form of an acid: made of `units` of its fullest form by giving off `lost` hydrogen ions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Form {
    /// How many of the fullest form it is made of; 1 but for clusters.
    pub units: i32,
    /// Hydrogen ions given off.
    pub lost: i32,
    /// Sodium ions, and ions of a divalent metal, bound to it as a pair.
    pub binds: [i32; 2],
    /// Decadic logarithm of the constant of that, at 25 °C and infinite dilution.
    pub log_k: f64,
    /// Heat that it takes up, kJ/mol.
    pub heat: f64,
    /// Its charge.
    pub charge: i8,
    /// How its activity is found.
    pub size: Size,
}

/// An ion that takes no part in the acid's game: charge, how many in a formula, size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ion {
    /// Its charge.
    pub charge: i8,
    /// How many a formula unit brings.
    pub count: f64,
    /// How its activity is found.
    pub size: Size,
    /// Whether some acids pair with it.
    pub partner: Option<Partner>,
}

/// Ions that some acids pair with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Partner {
    /// Na⁺.
    Sodium = 0,
    /// Ni²⁺, Co²⁺, Cu²⁺ or Zn²⁺: with sulfate their constants are alike (logarithms 2.30 to 2.36).
    Metal = 1,
}

/// What a substance is used for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// It lowers the pH.
    Acid,
    /// It raises the pH.
    Base,
    /// Neither; it is there.
    Salt,
}

/// A substance as it goes into the water.
#[derive(Clone, Debug, PartialEq)]
pub struct Substance {
    /// Its name.
    pub name: Cow<'static, str>,
    /// Without water of hydration.
    pub formula: &'static str,
    /// What it is used for.
    pub role: Role,
    /// The forms of its acid, the fullest first; empty for strong acids and bases.
    pub forms: Cow<'static, [Form]>,
    /// How many acids a formula unit brings.
    pub acids: f64,
    /// Its other ions.
    pub ions: &'static [Ion],
    /// Where its constants come from.
    pub source: &'static str,
}

impl Substance {
    /// Its molar mass.
    pub fn molar_mass(&self) -> Result<Q, Refusal> {
        Ok(Formula::read(self.formula)?.molar_mass())
    }

    /// An acid whose constants are typed: `pka` at 25 °C and infinite dilution, in the order in which
    /// it gives off its hydrogen ions. Without any it counts as strong.
    pub fn typed(name: &str, pka: &[f64]) -> Substance {
        let mut forms = Vec::new();
        let mut log_k = 0.0;
        if !pka.is_empty() {
            forms.push(form(1, 0, 0.0, 0.0, 0, Neutral));
        }
        for (k, pk) in pka.iter().enumerate() {
            log_k -= pk;
            let lost = k as i32 + 1;
            forms.push(form(1, lost, log_k, 0.0, -(lost as i8), Davies));
        }
        let ions: &[Ion] = if pka.is_empty() { ONE_ANION } else { &[] };
        let name = Cow::Owned(name.to_string());
        Substance {
            name,
            formula: "",
            role: Role::Acid,
            forms: forms.into(),
            acids: 1.0,
            ions,
            source: "typed",
        }
    }

    /// A base whose constant is typed: the pKa of its acid, charged once. Without it it counts as strong.
    pub fn typed_base(name: &str, pka: Option<f64>) -> Substance {
        let forms = match pka {
            Some(pk) => vec![form(1, 0, 0.0, 0.0, 1, Davies), form(1, 1, -pk, 0.0, 0, Neutral)],
            None => Vec::new(),
        };
        let ions: &[Ion] = if pka.is_none() { ONE_CATION } else { &[] };
        Substance { role: Role::Base, forms: forms.into(), ions, ..Substance::typed(name, &[]) }
    }
}

/// The substance of this name.
pub fn known(name: &str) -> Option<&'static Substance> {
    SUBSTANCES.iter().find(|substance| substance.name == name)
}

const fn form(units: i32, lost: i32, log_k: f64, heat: f64, charge: i8, size: Size) -> Form {
    Form { units, lost, binds: [0, 0], log_k, heat, charge, size }
}

const fn pair(lost: i32, sodium: i32, log_k: f64, heat: f64, charge: i8, size: Size) -> Form {
    Form { binds: [sodium, 0], ..form(1, lost, log_k, heat, charge, size) }
}

const fn ion(charge: i8, count: f64, size: Size) -> Ion {
    Ion { charge, count, size, partner: None }
}

const fn sodium(count: f64) -> Ion {
    Ion { partner: Some(Partner::Sodium), ..ion(1, count, SODIUM) }
}

const fn substance(
    name: &'static str,
    formula: &'static str,
    role: Role,
    (acids, forms): (f64, &'static [Form]),
    ions: &'static [Ion],
    source: &'static str,
) -> Substance {
    Substance { name: Cow::Borrowed(name), formula, role, forms: Cow::Borrowed(forms), acids, ions, source }
}

/// Sizes as phreeqc.dat has them.
pub(super) const HYDROGEN: Size = Sized(9.0, 0.0);
pub(super) const HYDROXIDE: Size = Sized(3.5, 0.0);
const DIVALENT: Ion = Ion { partner: Some(Partner::Metal), ..ion(2, 1.0, METAL) };
pub(in crate::science) const SODIUM: Size = Sized(4.08, 0.082);
const POTASSIUM: Size = Sized(3.5, 0.015);
const CHLORIDE: Size = Sized(3.63, 0.017);
const NITRATE: Size = Sized(3.0, 0.0);
/// Kielland, J. Am. Chem. Soc. 59 (1937) 1675, for Ni, Cu, Co and Zn.
pub(super) const METAL: Size = Sized(6.0, 0.0);

const SULFATE: &[Form] = &[
    form(1, 0, 0.0, 0.0, -1, Davies),
    form(1, 1, -1.988, -16.1, -2, Sized(5.0, -0.04)),
    pair(1, 1, -0.776, -10.0, -1, Sized(5.5, 0.0)),
    Form { binds: [0, 1], ..form(1, 1, 0.312, -10.3, 0, Neutral) },
];
const BORATE: &[Form] = &[
    form(1, 0, 0.0, 0.0, 0, Neutral),
    form(1, 1, -9.236, 13.0, -1, Sized(2.5, 0.0)),
    form(2, 1, -9.306, 8.4, -1, Sized(2.5, 0.0)),
    form(3, 1, -7.306, 29.4, -1, Sized(2.5, 0.0)),
    pair(1, 1, -9.036, 0.0, 0, Neutral),
];
const SINGLE_BORATE: &[Form] =
    &[form(1, 0, 0.0, 0.0, 0, Neutral), form(1, 1, -9.24, 13.5, -1, Sized(2.5, 0.0))];
const FLUORIDE: &[Form] = &[
    form(1, 0, 0.0, 0.0, 0, Neutral),
    form(1, 1, -3.18, -13.3, -1, Sized(3.5, 0.0)),
    form(2, 1, -2.60, -7.6, -1, Davies),
    pair(1, 1, -3.42, 0.0, 0, Neutral),
];
const ACETATE: &[Form] = &[
    form(1, 0, 0.0, 0.0, 0, Neutral),
    form(1, 1, -4.757, -0.41, -1, Davies),
    pair(1, 1, -4.937, 11.6, 0, Neutral),
];
const FORMATE: &[Form] = &[form(1, 0, 0.0, 0.0, 0, Neutral), form(1, 1, -3.745, -0.17, -1, Davies)];
const CITRATE: &[Form] = &[
    form(1, 0, 0.0, 0.0, 0, Neutral),
    form(1, 1, -3.128, 4.06, -1, Davies),
    form(1, 2, -7.889, 6.11, -2, Davies),
    form(1, 3, -14.285, 2.76, -3, Davies),
    pair(2, 1, -7.835, -0.84, -1, Davies),
    pair(3, 1, -13.255, -0.04, -2, Davies),
    pair(3, 2, -12.785, -2.34, -1, Davies),
];
const TARTRATE: &[Form] = &[
    form(1, 0, 0.0, 0.0, 0, Neutral),
    form(1, 1, -3.036, 2.93, -1, Davies),
    form(1, 2, -7.402, 3.68, -2, Davies),
    pair(1, 1, -2.822, 0.84, 0, Neutral),
    pair(2, 1, -6.502, 2.85, -1, Davies),
];
const PHOSPHATE: &[Form] = &[
    form(1, 0, 0.0, 0.0, 0, Neutral),
    form(1, 1, -2.148, -7.9, -1, Sized(5.4, 0.0)),
    form(1, 2, -9.346, -4.9, -2, Sized(5.0, 0.0)),
    form(1, 3, -21.721, 10.1, -3, Sized(4.0, 0.0)),
    pair(2, 1, -8.276, 10.1, -1, Sized(5.4, 0.0)),
];
const CARBONATE: &[Form] = &[
    form(1, 0, 0.0, 0.0, 0, Neutral),
    form(1, 1, -6.352, 9.16, -1, Sized(5.4, 0.0)),
    form(1, 2, -16.681, 23.76, -2, Sized(5.4, 0.0)),
    pair(1, 1, -6.602, -4.57, 0, Neutral),
    pair(2, 1, -15.411, 3.41, -1, Sized(5.4, 0.0)),
];
const AMMONIUM: &[Form] = &[form(1, 0, 0.0, 0.0, 1, Sized(2.5, 0.0)), form(1, 1, -9.244, 52.0, 0, Neutral)];
const SULFAMATE: &[Form] = &[form(1, 0, 0.0, 0.0, 0, Neutral), form(1, 1, -1.0, 0.0, -1, Davies)];
const ONE_ANION: &[Ion] = &[ion(-1, 1.0, Davies)];
const ONE_CATION: &[Ion] = &[ion(1, 1.0, Davies)];
const NO_ACID: (f64, &[Form]) = (0.0, &[]);
const STRONG: &str = "strong: wholly dissociated";
const PHREEQC: &str = "phreeqc.dat of PHREEQC 3.8.6";
const MINTEQ: &str = "minteq.v4.dat of PHREEQC 3.8.6 (EPA MINTEQA2 v4; NIST 46)";
const MEMORY: &str = "from memory";

/// Every substance that is known by name. Acids and bases come first, then salts.
pub static SUBSTANCES: &[Substance] = &[
    substance("Sulfuric acid", "H2SO4", Role::Acid, (1.0, SULFATE), &[], PHREEQC),
    substance("Hydrochloric acid", "HCl", Role::Acid, NO_ACID, &[ion(-1, 1.0, CHLORIDE)], STRONG),
    substance("Nitric acid", "HNO3", Role::Acid, NO_ACID, &[ion(-1, 1.0, NITRATE)], STRONG),
    substance(
        "Methanesulfonic acid",
        "CH4O3S",
        Role::Acid,
        NO_ACID,
        &[ion(-1, 1.0, Davies)],
        "pKa −1.9, from memory: strong",
    ),
    substance("Sulfamic acid", "NH2SO3H", Role::Acid, (1.0, SULFAMATE), &[], MEMORY),
    substance("Phosphoric acid", "H3PO4", Role::Acid, (1.0, PHOSPHATE), &[], MINTEQ),
    substance("Boric acid", "H3BO3", Role::Acid, (1.0, BORATE), &[], MINTEQ),
    substance("Boric acid, single borate only", "H3BO3", Role::Acid, (1.0, SINGLE_BORATE), &[], PHREEQC),
    substance("Citric acid", "C6H8O7", Role::Acid, (1.0, CITRATE), &[], MINTEQ),
    substance("Acetic acid", "CH3COOH", Role::Acid, (1.0, ACETATE), &[], MINTEQ),
    substance("Formic acid", "CH2O2", Role::Acid, (1.0, FORMATE), &[], MINTEQ),
    substance("Tartaric acid", "C4H6O6", Role::Acid, (1.0, TARTRATE), &[], MINTEQ),
    substance("Hydrofluoric acid", "HF", Role::Acid, (1.0, FLUORIDE), &[], PHREEQC),
    substance("Sodium hydroxide", "NaOH", Role::Base, NO_ACID, &[sodium(1.0)], STRONG),
    substance("Potassium hydroxide", "KOH", Role::Base, NO_ACID, &[ion(1, 1.0, POTASSIUM)], STRONG),
    substance("Ammonia", "NH3", Role::Base, (1.0, AMMONIUM), &[], MINTEQ),
    substance("Sodium carbonate", "Na2CO3", Role::Base, (1.0, CARBONATE), &[sodium(2.0)], MINTEQ),
    substance("Sodium hydrogencarbonate", "NaHCO3", Role::Base, (1.0, CARBONATE), &[sodium(1.0)], MINTEQ),
    substance("Sodium acetate", "CH3COONa", Role::Salt, (1.0, ACETATE), &[sodium(1.0)], MINTEQ),
    substance("Sodium hydrogensulfate", "NaHSO4", Role::Acid, (1.0, SULFATE), &[sodium(1.0)], PHREEQC),
    substance("Sodium chloride", "NaCl", Role::Salt, NO_ACID, &[sodium(1.0), ion(-1, 1.0, CHLORIDE)], STRONG),
    substance("Sodium sulfate", "Na2SO4", Role::Salt, (1.0, SULFATE), &[sodium(2.0)], PHREEQC),
    substance("Nickel sulfate", "NiSO4", Role::Salt, (1.0, SULFATE), &[DIVALENT], PHREEQC),
    substance("Nickel chloride", "NiCl2", Role::Salt, NO_ACID, &[DIVALENT, ion(-1, 2.0, CHLORIDE)], STRONG),
    substance("Nickel sulfamate", "Ni(SO3NH2)2", Role::Salt, (2.0, SULFAMATE), &[DIVALENT], MEMORY),
    substance("Copper sulfate", "CuSO4", Role::Salt, (1.0, SULFATE), &[DIVALENT], PHREEQC),
    substance("Cobalt sulfate", "CoSO4", Role::Salt, (1.0, SULFATE), &[DIVALENT], PHREEQC),
    substance("Zinc sulfate", "ZnSO4", Role::Salt, (1.0, SULFATE), &[DIVALENT], PHREEQC),
];
