//! The words that a row of ingredients is filled with, and names to pick from.

use crate::calculator::Texts;

/// Common names, offered for a new row, each with the formula that it stands for.
pub const KNOWN: &[(&str, &str)] = &[
    ("Copper sulfate", "CuSO4·5H2O"),
    ("Sulfuric acid", "H2SO4"),
    ("Hydrochloric acid", "HCl"),
    ("Nickel sulfamate", "Ni(SO3NH2)2·4H2O"),
    ("Boric acid", "H3BO3"),
    ("Additive", ""),
    ("Nickel sulfate", "NiSO4·6H2O"),
    ("Nickel chloride", "NiCl2·6H2O"),
    ("Sodium sulfite", "Na2SO3"),
    ("Methanesulfonic acid", "CH4O3S"),
    ("Tin methanesulfonate", "Sn(CH3SO3)2"),
    ("Silver methanesulfonate", "AgCH3SO3"),
    ("Tin sulfate", "SnSO4"),
    ("Nitric acid", "HNO3"),
    ("Phosphoric acid", "H3PO4"),
    ("Sodium hydroxide", "NaOH"),
    ("Potassium hydroxide", "KOH"),
    ("Sodium chloride", "NaCl"),
    ("Zinc sulfate", "ZnSO4·7H2O"),
    ("Cobalt sulfate", "CoSO4·7H2O"),
];

/// The names of [`KNOWN`].
pub const NAMES: &[&str] = &{
    let mut names = [""; KNOWN.len()];
    let mut k = 0;
    while k < KNOWN.len() {
        names[k] = KNOWN[k].0;
        k += 1;
    }
    names
};

/// How an ingredient is supplied.
pub struct Supply;

impl Supply {
    pub const SOLID: &str = "solid";
    pub const BY_MASS: &str = "solution by mass %";
    pub const BY_MOL: &str = "solution by mol/L";
    pub const BY_METAL: &str = "solution by g/L of metal";
    pub const BY_GRAMS: &str = "solution by g/L of the substance";
    pub const DOSE: &str = "additive by mL/L";
    pub const WORDS: &[(&str, f64)] = &[
        (Self::SOLID, 0.0),
        (Self::BY_MASS, 0.0),
        (Self::BY_MOL, 0.0),
        (Self::BY_METAL, 0.0),
        (Self::BY_GRAMS, 0.0),
        (Self::DOSE, 0.0),
    ];
}

/// As what an ingredient is wanted.
pub struct Wanted;

impl Wanted {
    pub const METAL: &str = "its metal";
    pub const ION: &str = "an ion or part of it";
    pub const SUBSTANCE: &str = "the substance itself";
    pub const AMOUNT: &str = "mol/L of the substance";
    pub const DOSE: &str = "mL/L of the liquid";
    pub const WORDS: &[(&str, f64)] = &[
        (Self::METAL, 0.0),
        (Self::ION, 0.0),
        (Self::SUBSTANCE, 0.0),
        (Self::AMOUNT, 0.0),
        (Self::DOSE, 0.0),
    ];
}

/// Metals of common salts and alkalis, which no route, permit or balance counts.
pub const LIGHT: &[&str] = &["Li", "Na", "K", "Rb", "Cs", "Mg", "Ca", "Sr", "Ba"];

/// How a new row of a common name starts: its formula, and how it is usually bought and wanted. Strengths
/// are those that acids are commonly sold at (common practice); the label rules.
pub const PRESETS: &[(&str, Texts)] = &[
    ("Copper sulfate", &[("formula", "CuSO4·5H2O"), ("species", "Cu")]),
    (
        "Sulfuric acid",
        &[("formula", "H2SO4"), ("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("w", "96 %")],
    ),
    (
        "Hydrochloric acid",
        &[
            ("formula", "HCl"),
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::ION),
            ("species", "Cl"),
            ("w", "37 %"),
        ],
    ),
    ("Boric acid", &[("formula", "H3BO3"), ("wanted", Wanted::SUBSTANCE)]),
    (
        "Nickel sulfamate",
        &[
            // In solution: its water counts as water of the solution.
            ("formula", "Ni(SO3NH2)2"),
            ("species", "Ni"),
            ("supply", Supply::BY_METAL),
            ("k_m", "180 g/L"),
        ],
    ),
    ("Additive", &[("supply", Supply::DOSE)]),
];
