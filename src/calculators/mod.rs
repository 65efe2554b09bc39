//! The calculators, one file each.
//!
//! To add one: write its file, name the file here, and list it **after** whatever it follows.
//! (A file that is not listed is dead code, which the compiler reports.) Its tests come by themselves.

pub mod site;

use crate::calculator::{Calculator, Subject};

/// Every calculator, in the order of evaluation.
pub static ALL: &[&Calculator] = &[&site::CALCULATOR];

/// The calculator of this id.
pub fn find(id: &str) -> Option<&'static Calculator> {
    ALL.iter().copied().find(|calculator| calculator.id == id)
}

/// The calculators that a new place of this sort starts with.
pub fn offered_at(subject: Subject) -> impl Iterator<Item = &'static Calculator> {
    ALL.iter().copied().filter(move |calculator| calculator.subject == subject)
}
