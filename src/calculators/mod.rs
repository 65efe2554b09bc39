//! The calculators, one file each.
//!
//! To add one: write its file, name the file here, and list it **after** whatever it follows.
//! (A file that is not listed is dead code, which the compiler reports.) Its tests come by themselves.

pub mod site;
mod make_up;
mod analysis;
mod correction;
mod dilution;
mod heat_up;
mod stream;
mod route;
mod drain;
mod balance;

use crate::calculator::{Calculator, Subject};
use crate::science::segregation::Class;

/// Every calculator, in the order of evaluation.
pub static ALL: &[&Calculator] = &[
    &site::CALCULATOR,
    &make_up::CALCULATOR,
    &analysis::CALCULATOR,
    &correction::CALCULATOR,
    &dilution::CALCULATOR,
    &heat_up::CALCULATOR,
    &stream::CALCULATOR,
    &route::CALCULATOR,
    &drain::CALCULATOR,
    &balance::CALCULATOR,
];

/// The calculator of this id.
pub fn find(id: &str) -> Option<&'static Calculator> {
    ALL.iter().copied().find(|calculator| calculator.id == id)
}

/// The calculators that a new place of this sort starts with.
pub fn offered_at(subject: Subject) -> impl Iterator<Item = &'static Calculator> {
    ALL.iter().copied().filter(move |calculator| calculator.subject == subject)
}

/// What a liquid is by hazard, wherever it is asked for: the words of [`Class`], in its order.
pub const CLASSES: &[(&str, f64)] = &[
    ("acid", 0.0),
    ("alkaline", 0.0),
    ("cyanide", 0.0),
    ("fluoride", 0.0),
    ("solvent", 0.0),
    ("oxidiser", 0.0),
    ("sulfite", 0.0),
    ("ammonia or complexed", 0.0),
    ("unknown", 0.0),
];

/// The position of "unknown" among the classes.
pub const UNKNOWN: usize = 8;

/// The class that a word of [`CLASSES`] names; what is no such word is unknown.
pub fn class_of(word: &str) -> Class {
    Class::ALL.into_iter().find(|class| class.name() == word).unwrap_or(Class::Unknown)
}

/// What a route is for, wherever that is asked or said.
pub mod routes {
    /// Acid and base water, without metal.
    pub const ACID_BASE: &str = "acid and base water";
    /// Rinse water with a little metal.
    pub const DILUTE: &str = "dilute metal";
    /// Liquid rich in metal, for recovery.
    pub const CONCENTRATE: &str = "concentrate for recovery";
    /// Valuable metal, on its way back.
    pub const RECLAIM: &str = "reclaim of valuable metal";
    /// Segregated, one route for each class.
    pub const CYANIDE: &str = "segregated: cyanide";
    /// Hydrofluoric acid and fluoride.
    pub const FLUORIDE: &str = "segregated: fluoride";
    /// Solvents.
    pub const SOLVENTS: &str = "segregated: solvents";
    /// Oxidisers and nitric acid.
    pub const OXIDISERS: &str = "segregated: oxidisers";
    /// Ammonia and complexed metal.
    pub const AMMONIA: &str = "segregated: ammonia or complexed";
    /// Sulfite.
    pub const SULFITE: &str = "segregated: sulfite";
    /// A route that the user defines.
    pub const OWN: &str = "a route of your own";
    /// What is said of a liquid whose class is not known.
    pub const FIND_OUT: &str = "find out its class first";

    /// Every word, in the order of the lists.
    pub const ALL: &[&str] = &[
        ACID_BASE,
        DILUTE,
        CONCENTRATE,
        RECLAIM,
        CYANIDE,
        FLUORIDE,
        SOLVENTS,
        OXIDISERS,
        AMMONIA,
        SULFITE,
        OWN,
        FIND_OUT,
    ];
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_of_the_classes_are_those_of_the_law() {
        assert!(CLASSES.iter().map(|(word, _)| *word).eq(Class::ALL.map(Class::name)));
        assert_eq!(CLASSES[UNKNOWN].0, "unknown");
    }
}
