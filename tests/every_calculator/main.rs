//! The tests that every calculator gets by being declared: `cargo test --test every_calculator`.
//!
//! - `declared`: what a declaration can be held to without running it; `links`: what it follows, and cures.
//! - `tried`: what shows only when it runs: over its examples and many inputs of its ranges.
//! - `broken`: each of these checks can fail.
//! - `house`: what holds of the whole source.

mod broken;
mod declared;
mod house;
mod links;
mod tried;

use bathbook::ask::self_check;
use bathbook::calculator::Calculator;
use bathbook::calculators::ALL;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Fails with the faults of every calculator, each under its id. As many at a time as the machine has cores:
/// the longest of these tests would else run alone at the end.
fn none_of(faults: impl Fn(&'static Calculator) -> Vec<String> + Sync) {
    let next = AtomicUsize::new(0);
    let report = Mutex::new(String::new());
    let work = || {
        while let Some(calculator) = ALL.get(next.fetch_add(1, Ordering::Relaxed)) {
            let found = faults(calculator);
            if !found.is_empty() {
                let text = format!("\n{}:\n  {}\n", calculator.id, found.join("\n  "));
                report.lock().expect("no test holds it while it fails").push_str(&text);
            }
        }
    };
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(work);
        }
    });
    let report = report.into_inner().unwrap_or_default();
    assert!(report.is_empty(), "\n{report}");
}

#[test]
fn published_examples_hold() {
    none_of(self_check);
}

#[test]
fn declarations_are_complete() {
    none_of(declared::faults);
}

#[test]
fn ids_and_titles_are_unique() {
    assert_eq!(declared::twins(ALL), Vec::<String>::new());
}

/// The line map and the tables beside it find what they show.
#[test]
fn places_have_what_the_line_map_asks_for() {
    assert_eq!(declared::roles_not_given(ALL), Vec::<String>::new());
}

#[test]
fn links_reach_only_backwards_and_cures_can_be_typed() {
    none_of(links::faults);
}

/// Any values within the declared ranges give an answer or a remedy, never a fault; the answer with the
/// working is the answer without it, to the last bit; all that is declared is read or reached by some of
/// them; and all texts are sentences.
#[test]
fn ranges_hold_what_they_promise() {
    none_of(tried::faults);
}
