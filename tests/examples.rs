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
/// Said of every bath that is let out and rinsed.
const CHANGE: &str = "D_x";
/// Where more evaporates than anybody should pour.
const DI_LINE: &str = "Q_DI";
/// Strong acid taken to neutral: metal falls, the largest batch sizes the tank, one stage does not do, and the last
/// of it is far less than a pump is true to.
const NEUTRALISED: [&str; 4] = ["pH_t", "V_eq", "N_s", "x_b"];

/// A pilot line in order: notes that always belong to such a bath, and no caution.
const ALDER_ROW: &[Intended] = &[
    (Note, "Copper bath", "evaporation", WATER),
    (Note, "Copper bath", "evaporation", SPREAD),
    (Note, "Copper bath", "heat-up", OVERSHOOT),
    // Only the copper was titrated that day.
    (Note, "Copper bath", "correction", "c[H2SO4]"),
    (Note, "Copper bath", "correction", "c[Cl]"),
    (Note, "Copper bath", "start-stop", CHANGE),
    (Note, "Dip, treated by hand", "neutralisation", NEUTRALISED[0]),
    (Note, "Dip, treated by hand", "neutralisation", NEUTRALISED[1]),
    (Note, "Dip, treated by hand", "neutralisation", NEUTRALISED[2]),
    (Note, "Dip, treated by hand", "neutralisation", NEUTRALISED[3]),
    // What its delivery pump runs on is not typed.
    (Note, "Site", "utilities", "known"),
    // Water given by the wafer is a mean flow.
    (Note, "Site", "utilities", "w_p"),
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
    // What the refusal takes along: the building is told that a drain has no answer.
    (Caution, "Site", "utilities", "known"),
    (Note, "Site", "utilities", "known"),
    (Note, "Nickel bath", "start-stop", CHANGE),
    (Note, "Gold bath", "start-stop", CHANGE),
    (Note, "Nickel bath", "supply", "m_c[Nickel sulfamate concentrate]"),
    (Note, "Nickel bath", "supply", DI_LINE),
    (Note, "Gold bath", "supply", DI_LINE),
    // One drum takes a whole bath only while it is nearly empty, and so calls far below what is usual.
    (Note, "Concentrate", "collection", "a"),
    // Sulfite buffers: the pH of its mix is measured.
    (Note, "Gold to reclaim", "route", "pH_m"),
    (Note, "Pre-dip, treated by hand", "neutralisation", NEUTRALISED[0]),
    (Note, "Pre-dip, treated by hand", "neutralisation", NEUTRALISED[1]),
    (Note, "Pre-dip, treated by hand", "neutralisation", NEUTRALISED[2]),
    (Note, "Pre-dip, treated by hand", "neutralisation", NEUTRALISED[3]),
    (Note, "Site", "utilities", "w_p"),
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
    (Note, "Copper bath", "start-stop", CHANGE),
    (Note, "Nickel bath", "start-stop", CHANGE),
    (Note, "Tin-silver bath", "start-stop", CHANGE),
    (Note, "Copper bath", "supply", DI_LINE),
    (Note, "Nickel bath", "supply", "m_c[Nickel sulfamate concentrate]"),
    (Note, "Nickel bath", "supply", DI_LINE),
    (Note, "Tin-silver bath", "supply", "m_c[Tin methanesulfonate concentrate]"),
    (Note, "Tin-silver bath", "supply", "m_c[Methanesulfonic acid]"),
    (Note, "Tin-silver bath", "supply", DI_LINE),
    // Copper, nickel, tin and silver share one container.
    (Note, "Concentrate", "route", "m_T"),
    // Complexed tin and silver may pass a resin.
    (Note, "Dilute rinse", "ion-exchange", "C_m"),
    // They come in below the aim.
    (Note, "Dilute rinse", "ion-exchange", "c_o[Sn]"),
    (Note, "Dilute rinse", "ion-exchange", "c_o[Ag]"),
    (Note, "Cell clean, treated", "neutralisation", NEUTRALISED[0]),
    (Note, "Cell clean, treated", "neutralisation", NEUTRALISED[1]),
    (Note, "Cell clean, treated", "neutralisation", NEUTRALISED[2]),
    (Note, "Cell clean, treated", "neutralisation", NEUTRALISED[3]),
    (Note, "Site", "utilities", "w_p"),
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
        let besides = told.iter().zip(&found).filter(|(one, _)| !intended.contains(one));
        let besides: Vec<_> = besides.map(|(one, found)| (one, &found.finding.text)).collect();
        assert!(besides.is_empty(), "{} says besides: {besides:#?}", plan.name);
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
            let follows = ["route", "ion-exchange", "drain", "treated", "discharge", "balance"];
            assert!(follows.contains(&cell.calculator.id), "{}: {stop:?}", cell.name);
        }
    }
}

/// Nothing of the waste and building side is left out of an example, and each line ends where water leaves the site.
#[test]
fn every_example_has_its_collection_its_treatment_and_what_the_building_gives() {
    for (plan, _) in all() {
        let has = |sheet: &str| plan.places.iter().any(|place| place.sheets.contains_key(sheet));
        let sheets =
            ["collection", "neutralisation", "treated", "discharge", "drain", "delivery-line", "utilities"];
        for sheet in sheets {
            assert!(has(sheet), "{}: no {sheet}", plan.name);
        }
        assert_eq!(has("ion-exchange"), !plan.name.starts_with("Alder Row"));
    }
}

#[test]
fn every_bath_of_an_example_shows_its_evaporation_its_cost_and_what_heats_it() {
    for (plan, _) in all() {
        for place in plan.places.iter().filter(|place| place.sheets.contains_key("make-up")) {
            let bath_side = ["plating", "chambers", "dosing", "ageing", "evaporation", "heat-up", "cost"];
            for sheet in bath_side.into_iter().chain(["exhaust", "start-stop", "supply"]) {
                assert!(place.sheets.contains_key(sheet), "{}, {}: no {sheet}", plan.name, place.name);
            }
            let is_electric = plan.name.starts_with("Alder Row");
            assert_eq!(place.sheets.contains_key("coil"), !is_electric, "{}", place.name);
        }
    }
}
