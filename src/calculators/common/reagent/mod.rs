//! Water that is brought to a pH and the reagent that does it: what the sheets of treatment ask for alike.
//!
//! - this file: words and inputs;
//! - [`water`]: the water as it comes, and the reagent that it takes;
//! - [`stock`]: the reagent and its strength;
//! - [`gypsum`]: what lime makes of sulfate;
//! - [`meets`]: what must not meet the reagent.

mod gypsum;
mod meets;
mod stock;
mod water;

pub use gypsum::gypsum;
pub use meets::{carries, refuse_what_must_not_meet};
pub use stock::{Stock, Strength, strong, substance};
pub use water::{Water, molar_mass, nothing};

use super::routes;
use crate::calculator::{Input, Output, When, choice, input, output};
use crate::calculators::ph::bottles::NAMES;
use crate::calculators::{CLASSES, UNKNOWN};
use crate::science::neutralisation::TOLD;
use crate::units::{G_PER_L, KG_PER_L, MASS_PERCENT, MOL_PER_L, NUMBER};

/// The acidity is given as the pH of water whose acid is strong.
pub const BY_PH: &str = "its pH: strong acid or base alone";
/// The acidity is given as what is dissolved.
pub const BY_NAME: &str = "what is dissolved";
const GRAMS: &str = "g/L";
const MOLES: &str = "mol/L";
/// The strength of the stock is an amount.
pub const STOCK_MOLES: &str = "in mol/L";
/// The strength of the stock is a mass in a volume.
pub const STOCK_GRAMS: &str = "in g/L";
/// The strength of the stock is by mass.
pub const STOCK_SHARE: &str = "in % by mass";
/// How the strength of a liquid may be given.
pub const STRENGTHS: &[(&str, f64)] = &[(STOCK_MOLES, 0.0), (STOCK_GRAMS, 0.0), (STOCK_SHARE, 0.0)];
/// What raises.
pub const BASES: &[(&str, f64)] = &[("Sodium hydroxide", 1.0), (POTASH, 1.0), (SODA, 2.0), (LIME, 2.0)];
/// Its heat of dilution is in no table here.
pub const POTASH: &str = "Potassium hydroxide";
/// Carbonate: it foams, and its heat is another.
pub const SODA: &str = "Sodium carbonate";
/// Lime: a slurry, slow, and gypsum with sulfate.
pub const LIME: &str = "Calcium hydroxide";
/// What lowers.
pub const ACIDS: &[(&str, f64)] = &[("Sulfuric acid", 2.0), ("Hydrochloric acid", 1.0)];
/// The table of what is dissolved.
pub const DISSOLVED: &str = "acids";
/// The table of what arrives.
pub const ARRIVING: &str = "arriving";

/// What the route is for.
pub const fn kind() -> Input {
    choice("kind_r", "What the route is for", crate::units::MG_PER_L_METAL, routes::KINDS)
        .starts_at(1)
        .follows(&[("route", "kind")])
        .group("Water")
        .help("What must not meet the reagent is refused by it, and by the classes of the streams below.")
}

/// The classes of what arrives.
pub const CLASS_OF_STREAM: Input = choice("class_s", "Class", NUMBER, CLASSES)
    .starts_at(UNKNOWN)
    .follows(&[("route", "class")])
    .help("Follows the stream by way of the route.");

/// How the acidity is given.
pub const fn given() -> Input {
    choice("given", "Acidity is given as", NUMBER, &[(BY_PH, 0.0), (BY_NAME, 0.0)])
        .group("Water")
        .help("A pH tells strong acid alone: weak ones and what buffers hold far more, and strong acid of bath strength goes by amount.")
}

/// The pH of the water.
pub const fn ph_in() -> Input {
    input("pH_0", "pH of the water", NUMBER, TOLD, [1.0, 12.0])
        .needed()
        .group("Water")
        .help("As it comes, all streams mixed. Below 0.5 give what is dissolved.")
        .when(When::Is("given", &[BY_PH]))
}

/// In a row of what is dissolved: its unit.
pub const fn unit_of_acid() -> Input {
    choice("as_a", "Given in", NUMBER, &[(GRAMS, 0.0), (MOLES, 0.0)])
        .help("Of the substance itself, in the mixed water.")
        .when(When::Is("given", &[BY_NAME]))
}

/// By mass.
pub const fn acid_by_mass() -> Input {
    input("c_a", "In the water", G_PER_L, [0.0, 1000.0], [0.0, 100.0])
        .needed()
        .help("Of the pure substance: of sulfuric acid, H2SO4.")
        .when(When::Is("as_a", &[GRAMS]))
}

/// By amount.
pub const fn acid_by_amount() -> Input {
    input("C_a", "In the water", MOL_PER_L, [0.0, 20.0], [0.0, 1.0])
        .needed()
        .help("Of the pure substance; not equivalents.")
        .when(When::Is("as_a", &[MOLES]))
}

/// Names to offer for what is dissolved.
pub const DISSOLVED_NAMES: &[&str] = NAMES;

/// The amount in the water.
pub const AMOUNT: Output = output("C_0", "Amount in the water", MOL_PER_L).missing("the pH alone is given");

/// The base.
pub const fn base() -> Input {
    choice("up", "Base that raises", NUMBER, BASES).group("Reagent").help(
        "Calcium hydroxide is hydrated lime, as a slurry: with sulfate it makes gypsum, which is sludge too.",
    )
}

/// How its strength is given.
pub const fn strength_as() -> Input {
    choice("as_b", "Strength of the stock is given", NUMBER, STRENGTHS)
        .group("Reagent")
        .help("Of the liquid in the reagent’s container.")
}

/// In mol/L.
pub const fn strength_by_amount() -> Input {
    input("C_b", "Strength of the stock", MOL_PER_L, [0.001, 30.0], [0.1, 20.0])
        .needed()
        .group("Reagent")
        .help("mol/L of the substance; not equivalents.")
        .when(When::Is("as_b", &[STOCK_MOLES]))
}

/// In g/L.
pub const fn strength_by_mass() -> Input {
    input("c_b", "Strength of the stock", G_PER_L, [0.05, 2000.0], [5.0, 1000.0])
        .needed()
        .group("Reagent")
        .help("Of the pure substance in a litre of the stock.")
        .when(When::Is("as_b", &[STOCK_GRAMS]))
}

/// By mass.
pub const fn strength_by_share() -> Input {
    input("w_b", "Strength of the stock", MASS_PERCENT, [0.01, 98.0], [1.0, 96.0])
        .needed()
        .group("Reagent")
        .help("By mass, from the label: 10, 25 or 50 % caustic are usual.")
        .when(When::Is("as_b", &[STOCK_SHARE]))
}

/// Its density.
pub const fn density() -> Input {
    input("ρ_b", "Density of the stock", KG_PER_L, [0.8, 2.5], [0.95, 1.9])
        .optional()
        .group("Reagent")
        .help("Left out, the density of the pure substance in water at 20 °C.")
        .when(When::Is("as_b", &[STOCK_SHARE]))
}

/// Sulfate in the water, for the gypsum of lime.
pub const fn sulfate() -> Input {
    input("c_4", "Sulfate in the water", G_PER_L, [0.0, 1000.0], [0.0, 100.0])
        .optional()
        .group("Reagent")
        .help("Of acids and salts together. Left out, that of the acid and the salts named below, without that of the metals’ own salts.")
        .when(When::Is("up", &[LIME]))
}

/// Why there is no gypsum.
pub const NO_GYPSUM: &str = "only with lime, where the sulfate in the water is known";

/// Metal in the water.
pub const fn metal_in() -> Input {
    input("c_m", "In the water", crate::units::MG_PER_L_METAL, [0.0, 100_000.0], [0.0, 5000.0])
        .needed()
        .follows(&[("route", "c_mean")])
        .help("Mean of the route, or as measured.")
}
