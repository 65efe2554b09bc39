//! What may be added to a bath of which class, and the words of the sheet.

use super::DOWN;
use crate::calculator::{Stop, Work};
use crate::calculators::class_of;
use crate::calculators::reagent::{Strength, substance};
use crate::quantity::Q;
use crate::science::ph::{Reagent, Substance};
use crate::science::segregation::{Class, must_not_meet};

/// What raises a pH.
pub const RAISE: &[(&str, f64)] = &[
    ("Sodium hydroxide", 0.0),
    ("Potassium hydroxide", 0.0),
    ("Ammonia", 0.0),
    ("Sodium carbonate", 0.0),
    ("Sodium hydrogencarbonate", 0.0),
];

/// What lowers a pH.
pub const LOWER: &[(&str, f64)] = &[
    ("Sulfuric acid", 0.0),
    ("Hydrochloric acid", 0.0),
    ("Methanesulfonic acid", 0.0),
    ("Sulfamic acid", 0.0),
    ("Citric acid", 0.0),
    ("Phosphoric acid", 0.0),
    ("Acetic acid", 0.0),
];

/// Names to offer for a new row.
pub const NAMES: &[&str] = &[
    "Boric acid",
    "Nickel sulfamate",
    "Nickel sulfate",
    "Nickel chloride",
    "Citric acid",
    "Sulfuric acid",
    "Hydrochloric acid",
    "Methanesulfonic acid",
    "Sulfamic acid",
    "Phosphoric acid",
    "Acetic acid",
    "Formic acid",
    "Tartaric acid",
    "Nitric acid",
    "Hydrofluoric acid",
    "Sodium hydroxide",
    "Potassium hydroxide",
    "Ammonia",
    "Sodium carbonate",
    "Sodium hydrogencarbonate",
    "Sodium acetate",
    "Sodium hydrogensulfate",
    "Sodium chloride",
    "Sodium sulfate",
    "Copper sulfate",
    "Cobalt sulfate",
    "Zinc sulfate",
    "Boric acid, single borate only",
];

/// Where the constants of a substance come from, as its law says it.
pub const SOURCES: &[&str] = &[
    "phreeqc.dat of PHREEQC 3.8.6",
    "minteq.v4.dat of PHREEQC 3.8.6 (EPA MINTEQA2 v4; NIST 46)",
    "strong: wholly dissociated",
    "pKa −1.9, from memory: strong",
    "from memory",
    "typed",
];

pub const RAISES: &str = "the one that raises";
pub const LOWERS: &str = "the one that lowers";
pub const NEITHER: &str = "none";

/// Which bottle it takes.
pub const VERDICTS: &[&str] = &[NEITHER, RAISES, LOWERS];

const RAISING: Strength = Strength {
    given: "as_up",
    moles: "C_up",
    grams: "c_up",
    share: "w_up",
    density: "ρ_up",
    steps: ["ρ_u", "C_u"],
    called: "what raises",
};

const LOWERING: Strength = Strength {
    given: "as_down",
    moles: "C_down",
    grams: "c_down",
    share: "w_down",
    density: "ρ_down",
    steps: ["ρ_l", "C_l"],
    called: "what lowers",
};

/// What is in a bottle, and its strength.
#[derive(Clone, Copy)]
pub struct Bottle {
    /// What is in it.
    pub substance: &'static Substance,
    /// How much of it a litre holds.
    pub strength: Q,
}

impl Bottle {
    /// As a reagent of the laws of pH.
    pub fn reagent(self) -> Reagent<'static> {
        Reagent { substance: self.substance, strength: Some(self.strength) }
    }
}

/// The two bottles of the sheet.
pub struct Bottles {
    /// The one that raises.
    pub up: Bottle,
    /// The one that lowers, or why there is none.
    pub down: Result<Bottle, String>,
}

impl Bottles {
    /// Reads them; a class that must not meet acid has none that lowers.
    pub fn read(w: &mut Work) -> Result<Bottles, Stop> {
        let class = class_of(w.word(&w.top(), "class_p")?);
        let down = match why_no_acid(class) {
            Some(why) => Err(why),
            None => Ok(bottle(w, "down", &LOWERING)?),
        };
        Ok(Bottles { up: bottle(w, "up", &RAISING)?, down })
    }

    /// The one that moves the pH up or down; where acid would be needed and must not be, that is refused.
    pub fn that(&self, raises: bool, at: &'static str) -> Result<Bottle, Stop> {
        if raises {
            return Ok(self.up);
        }
        self.down.clone().map_err(|why| {
            let remedy = "Nothing is worked out for this. The maker of the bath says how it is corrected, and a licensed person decides.";
            Stop::at(at, why, remedy)
        })
    }

    /// The one that the curve is drawn with.
    pub fn chosen(&self, w: &Work) -> Result<Bottle, Stop> {
        match &self.down {
            Ok(_) if w.word(&w.top(), "with")? == DOWN => self.that(false, "with"),
            _ => Ok(self.up),
        }
    }
}

fn bottle(w: &mut Work, symbol: &'static str, strength: &Strength) -> Result<Bottle, Stop> {
    let substance = substance(w.word(&w.top(), symbol)?)?;
    Ok(Bottle { substance, strength: strength.read(w, substance)?.0 })
}

/// Why a bath of this class is never offered acid; `None` if it may be.
pub fn why_no_acid(class: Class) -> Option<String> {
    if class == Class::Unknown {
        return Some(
            "an unknown bath may hold cyanide, and is offered no acid: find out its class first".into(),
        );
    }
    let conflict = must_not_meet(class, Class::Acid)?;
    Some(format!("no acid is ever added to a {} bath: {}", class.name(), conflict.consequence))
}
