//! The calculators: each a file, or a folder with its declaration in `mod.rs` and its sum in `sum.rs`.
//!
//! `common` is what several of them share, and no calculator.
//!
//! To add one: write its file, name the file here, and list it **after** whatever it follows. A file that
//! nobody names is not compiled, and nobody would notice: a test below does. The tests of every calculator
//! come by themselves.

mod common;
pub mod site;
mod wafers;
mod make_up;
mod dilution;
mod strength;
mod drag_out;
mod plating;
mod chambers;
mod throughput;
mod evaporation;
mod coil;
mod heat_up;
mod heating_unit;
mod exhaust;
mod ageing;
mod dosing;
mod analysis_level;
mod analysis;
mod sampling;
mod correction;
mod ph;
mod start_stop;
mod supply;
mod delivery_line;
mod standing_rinse;
mod rinse;
mod stream;
mod cost;
mod route;
mod column_test;
mod neutralisation;
mod precipitation;
mod ion_exchange;
mod collection;
mod drain_runs;
mod drain;
mod treated;
mod discharge;
mod balance;
mod metrology;
mod placement;
pub mod utilities;

pub use common::routes;
use common::{bath_inputs, cautions, choose, reagent, rules};

use crate::calculator::{Calculator, Subject};
use crate::science::segregation::Class;

/// Every calculator, in the order of evaluation.
pub static ALL: &[&Calculator] = &[
    &site::CALCULATOR,
    &wafers::CALCULATOR,
    &make_up::CALCULATOR,
    &dilution::CALCULATOR,
    &strength::CALCULATOR,
    &drag_out::CALCULATOR,
    &plating::CALCULATOR,
    &chambers::CALCULATOR,
    &throughput::CALCULATOR,
    &evaporation::CALCULATOR,
    &coil::CALCULATOR,
    &heat_up::CALCULATOR,
    &heating_unit::CALCULATOR,
    &exhaust::CALCULATOR,
    &ageing::CALCULATOR,
    &dosing::CALCULATOR,
    &analysis_level::CALCULATOR,
    &analysis::CALCULATOR,
    &sampling::CALCULATOR,
    &correction::CALCULATOR,
    &ph::CALCULATOR,
    &start_stop::CALCULATOR,
    &supply::CALCULATOR,
    &delivery_line::CALCULATOR,
    &standing_rinse::CALCULATOR,
    &rinse::CALCULATOR,
    &stream::CALCULATOR,
    &cost::CALCULATOR,
    &route::CALCULATOR,
    &column_test::CALCULATOR,
    &neutralisation::CALCULATOR,
    &precipitation::CALCULATOR,
    &ion_exchange::CALCULATOR,
    &collection::CALCULATOR,
    &drain_runs::CALCULATOR,
    &drain::CALCULATOR,
    &treated::CALCULATOR,
    &discharge::CALCULATOR,
    &balance::CALCULATOR,
    &metrology::CALCULATOR,
    &placement::CALCULATOR,
    &utilities::CALCULATOR,
];

/// The calculator of this id.
pub fn find(id: &str) -> Option<&'static Calculator> {
    ALL.iter().copied().find(|calculator| calculator.id == id)
}

/// The calculators of a sort of place: it may have a sheet of each.
pub fn for_places_of(subject: Subject) -> impl Iterator<Item = &'static Calculator> {
    ALL.iter().copied().filter(move |calculator| calculator.subject == subject)
}

/// Those of them that a new place has a sheet of.
pub fn from_start(subject: Subject) -> impl Iterator<Item = &'static Calculator> {
    for_places_of(subject).filter(|calculator| calculator.from_start)
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

    /// A file that no `mod.rs` names, or a calculator that [`ALL`] does not list, would be left out unseen.
    #[test]
    fn every_file_is_named_and_every_calculator_is_listed() {
        let top = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/calculators");
        let read = |path: &std::path::Path| std::fs::read_to_string(path).unwrap_or_default();
        let mut folders = vec![top.clone()];
        let mut declared = 0;
        while let Some(folder) = folders.pop() {
            let names = read(&folder.join("mod.rs"));
            for entry in std::fs::read_dir(&folder).unwrap().flatten() {
                let path = entry.path();
                let stem = path.file_stem().unwrap().to_string_lossy().into_owned();
                let file = if path.is_dir() { path.join("mod.rs") } else { path.clone() };
                assert!(file.exists(), "{path:?} has no mod.rs");
                assert!(
                    !path.is_dir() || !path.with_extension("rs").exists(),
                    "{path:?} has a file beside it"
                );
                assert!(stem == "mod" || names.contains(&format!("mod {stem};")), "{path:?} is not named");
                if path.is_dir() {
                    folders.push(path);
                }
                let text = read(&file);
                if folder == top && stem != "mod" && text.contains("pub static CALCULATOR: ") {
                    declared += 1;
                    let (id, name) = (stem.replace('_', "-"), file.strip_prefix(&top).unwrap().display());
                    assert!(
                        text.contains(&format!("id: \"{id}\"")),
                        "file {name} declares no calculator of id `{id}`: a file is named by its id, with _ for -"
                    );
                    let listed = ALL.iter().any(|calculator| calculator.id == id);
                    assert!(listed, "file {name} declares `{id}`, which is not in the list");
                }
            }
        }
        assert_eq!(declared, ALL.len());
    }

    #[test]
    fn the_words_of_the_classes_are_those_of_the_law() {
        assert!(CLASSES.iter().map(|(word, _)| *word).eq(Class::ALL.map(Class::name)));
        assert_eq!(CLASSES[UNKNOWN].0, "unknown");
    }
}
