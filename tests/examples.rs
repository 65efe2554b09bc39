//! What each example plan has to say when it is opened, and nothing besides.
//!
//! The plants are invented; what they are meant to show is named here, finding by finding.

use bathbook::calculator::Severity::{self, Caution, Note, Serious};
use bathbook::plan::{Plan, examples};
use bathbook::results::Results;

/// Severity, place, sheet, what it is about.
type Intended = (Severity, &'static str, &'static str, &'static str);

/// Said of every open bath: what evaporates is replaced by DI water.
const WATER: &str = "q_water";
/// Published forms that differ by a factor.
const SPREAD: &str = "k_s";
/// A source that goes beyond the target by itself.
const OVERSHOOT: &str = "T_end";
/// Evaporation left out on the way, where the tank is covered.
const COVERED: &str = "counted";

/// A pilot line in order: notes that always belong to such a bath, and no caution.
const ALDER_ROW: &[Intended] = &[
    (Note, "Copper bath", "evaporation", WATER),
    (Note, "Copper bath", "evaporation", SPREAD),
    (Note, "Copper bath", "heat-up", OVERSHOOT),
    // Only the copper was titrated that day.
    (Note, "Copper bath", "correction", "c[H2SO4]"),
    (Note, "Copper bath", "correction", "c[Cl]"),
];

/// Gold led to the dilute route, which is refused; one nickel chamber that is just enough.
const HERON_MERE: &[Intended] = &[
    (Serious, "Dilute rinse", "route", "kind"),
    (Note, "Nickel bath", "make-up", "m[Boric acid]"),
    (Note, "Nickel bath", "make-up", "s_1[Boric acid]"),
    (Note, "Nickel bath", "chambers", "load"),
    (Note, "Nickel bath", "evaporation", WATER),
    (Note, "Nickel bath", "evaporation", SPREAD),
    (Note, "Gold bath", "evaporation", WATER),
    (Note, "Gold bath", "evaporation", SPREAD),
    (Note, "Nickel bath", "heat-up", OVERSHOOT),
    (Note, "Nickel bath", "heat-up", COVERED),
    (Note, "Gold bath", "heat-up", OVERSHOOT),
    (Note, "Gold bath", "heat-up", COVERED),
    (Note, "Nickel bath", "correction", "c[H3BO3]"),
    (Note, "Nickel bath", "correction", "V_x"),
    (Note, "Nickel bath", "correction", "f_x"),
];

/// A copper rinse too rich for its route, and a drain that needs its lift station.
const GANNET_POINT: &[Intended] = &[
    (Caution, "Dilute rinse", "route", "c_s[Copper first rinse]"),
    (Note, "Nickel bath", "make-up", "m[Boric acid]"),
    (Note, "Nickel bath", "make-up", "s_1[Boric acid]"),
    (Note, "Tin-silver bath", "chambers", "load"),
    (Note, "Copper bath", "evaporation", WATER),
    (Note, "Nickel bath", "evaporation", WATER),
    (Note, "Nickel bath", "evaporation", "T"),
    (Note, "Nickel bath", "evaporation", SPREAD),
    (Note, "Tin-silver bath", "evaporation", WATER),
    (Note, "Copper bath", "heat-up", OVERSHOOT),
    (Note, "Copper bath", "heat-up", "Q_hold"),
    (Note, "Nickel bath", "heat-up", OVERSHOOT),
    (Note, "Nickel bath", "heat-up", COVERED),
    (Note, "Tin-silver bath", "heat-up", OVERSHOOT),
    (Note, "Tin-silver bath", "correction", "c[CH4O3S]"),
    (Note, "Tin-silver bath", "correction", "V_x"),
    (Note, "Tin-silver bath", "correction", "f_x"),
    (Note, "Dilute rinse", "route", "c_mix"),
    (Note, "Dilute drain to the trench", "drain", "spare"),
    (Note, "Dilute drain to the trench", "drain", "V_1"),
];

fn all() -> [(Plan, &'static [Intended]); 3] {
    [("alder-row", ALDER_ROW), ("heron-mere", HERON_MERE), ("gannet-point", GANNET_POINT)]
        .map(|(id, intended)| (examples::plan(id).expect("an example of that name"), intended))
}

#[test]
fn each_example_shows_what_it_is_meant_to_show_and_nothing_else() {
    assert_eq!(examples::ALL.len(), all().len());
    for (plan, intended) in all() {
        let results = Results::of(&plan, None);
        let found = results.findings();
        let told: Vec<(Severity, &str, &str, &str)> = found
            .iter()
            .map(|found| {
                let cell = &results.network.cells[found.cell];
                (found.finding.severity, &*cell.name, cell.calculator.id, &*found.finding.at)
            })
            .collect();
        for (one, found) in told.iter().zip(&found) {
            assert!(intended.contains(one), "{} says besides: {one:?}: {}", plan.name, found.finding.text);
        }
        for one in intended {
            assert!(told.contains(one), "{} no longer says: {one:?}", plan.name);
        }
    }
}

/// The refused route takes along what follows it, and nothing else is without an answer.
#[test]
fn no_sheet_of_an_example_is_without_an_answer_but_for_what_a_refusal_takes_along() {
    for (plan, intended) in all() {
        let results = Results::of(&plan, None);
        let refuses = intended.iter().any(|(severity, ..)| *severity == Serious);
        for (at, cell) in results.network.cells.iter().enumerate() {
            let Some(stop) = results.stop(at) else { continue };
            assert!(refuses && !stop.todo, "{}, {}: {stop:?}", cell.name, cell.calculator.id);
            assert!(["route", "drain", "balance"].contains(&cell.calculator.id), "{}: {stop:?}", cell.name);
        }
    }
}

#[test]
fn every_bath_of_an_example_shows_its_evaporation_its_cost_and_what_heats_it() {
    for (plan, _) in all() {
        for place in plan.places.iter().filter(|place| place.sheets.contains_key("make-up")) {
            for sheet in ["plating", "chambers", "dosing", "ageing", "evaporation", "heat-up", "cost"] {
                assert!(place.sheets.contains_key(sheet), "{}, {}: no {sheet}", plan.name, place.name);
            }
            let is_electric = plan.name.starts_with("Alder Row");
            assert_eq!(place.sheets.contains_key("coil"), !is_electric, "{}", place.name);
        }
    }
}
