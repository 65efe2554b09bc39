//! The calculators, one file each.
//!
//! To add one: write its file, name the file here, and list it **after** whatever it follows.
//! (A file that is not listed is dead code, which the compiler reports.) Its tests come by themselves.

pub mod site;
pub mod routes;
mod make_up;
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_of_the_classes_are_those_of_the_law() {
        assert!(CLASSES.iter().map(|(word, _)| *word).eq(Class::ALL.map(Class::name)));
        assert_eq!(CLASSES[UNKNOWN].0, "unknown");
    }
}
