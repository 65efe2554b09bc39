//! Published values against the public functions that the sheets call, row by row.
//!
//! The rows are in `tests/reference/*.csv`, each with its source. `BATHBOOK_REFERENCE=folder` runs
//! the rows of another folder as well. To add a topic: a line in the `topics()` of its subject. To
//! add a subject: a file, its `mod` line and a line in [`SUBJECTS`]. A topic that is not mapped
//! needs a reason in [`LEFT_OUT`]. Rows whose law no sheet uses yet are counted apart (`waiting`).

#[path = "reference/runner.rs"]
mod runner;
#[path = "reference/waiting.rs"]
mod waiting;

#[path = "reference/dilution.rs"]
mod dilution;
#[path = "reference/formulas.rs"]
mod formulas;
#[path = "reference/make_up.rs"]
mod make_up;
#[path = "reference/solutions.rs"]
mod solutions;
#[path = "reference/units.rs"]
mod units;
#[path = "reference/water.rs"]
mod water;
#[path = "reference/heating.rs"]
mod heating;
#[path = "reference/evaporation.rs"]
mod evaporation;
#[path = "reference/exchange.rs"]
mod exchange;
#[path = "reference/drain.rs"]
mod drain;
#[path = "reference/lift.rs"]
mod lift;
#[path = "reference/pipe.rs"]
mod pipe;
#[path = "reference/line.rs"]
mod line;
#[path = "reference/container.rs"]
mod container;
#[path = "reference/rinse.rs"]
mod rinse;
#[path = "reference/regulation.rs"]
mod regulation;
#[path = "reference/ion_exchange.rs"]
mod ion_exchange;
#[path = "reference/ph.rs"]
mod ph;
#[path = "reference/titration.rs"]
mod titration;
#[path = "reference/replicates.rs"]
mod replicates;
#[path = "reference/correction.rs"]
mod correction;

#[path = "reference/neutralisation.rs"]
mod neutralisation;
#[path = "reference/precipitation.rs"]
mod precipitation;

#[path = "reference/cost.rs"]
mod cost;
#[path = "reference/exhaust.rs"]
mod exhaust;
#[path = "reference/faraday.rs"]
mod faraday;
#[path = "reference/bath_balance.rs"]
mod bath_balance;
#[path = "reference/capacity.rs"]
mod capacity;
#[path = "reference/utilities.rs"]
mod utilities;

use runner::{Report, Topic, rows, run};
use std::io::Write;
use std::path::Path;

const SUBJECTS: &[fn() -> Vec<Topic>] = &[
    formulas::topics,
    make_up::topics,
    solutions::topics,
    dilution::topics,
    water::topics,
    units::topics,
    heating::topics,
    evaporation::topics,
    exchange::topics,
    drain::topics,
    lift::topics,
    pipe::topics,
    line::topics,
    container::topics,
    rinse::topics,
    regulation::topics,
    ion_exchange::topics,
    faraday::topics,
    bath_balance::topics,
    capacity::topics,
    ph::topics,
    titration::topics,
    replicates::topics,
    correction::topics,
    cost::topics,
    exhaust::topics,
    utilities::topics,
    neutralisation::topics,
    precipitation::topics,
];

const NO_DRAWS: &str = "no sheet says how sure its answer is yet";
/// Radiation, convection and walls: what makes up the dry loss.
const DRY_LOSS: &str = "the dry loss is typed as one number, measured or by the surface; no sheet makes it up from walls and plates";
const NO_COOLANT: &str = "no sheet has a coolant other than water yet";
const GRAINS: &str =
    "capacity in grains of calcium carbonate is a unit of softening, which the app does not offer";
const ONE_FRICTION: &str = "the sheets use Colebrook’s law, of which this is an approximation";
const SUDDEN: &str = "a change of bore is a fitting among others, given by its number";
const NO_CURVE: &str = "no sheet asks for the curve of a pump: the maker’s is laid over the line’s answer";
const NO_SIPHON: &str = "no sheet empties a tank by its own height through a long line";
/// Topics of our own rows that no function answers, and why.
const LEFT_OUT: &[(&str, &str)] = &[
    ("K.wafer-heat-load", "wafers are nothing beside the bath; no sheet asks for it"),
    ("O.part-full-darcy", "part-full drains are sized by Manning; a second law would serve no sheet"),
    ("O.dump-time-laminar-pipe", "no liquid of a bath is thick enough to run laminar out of a tank’s valve"),
    ("I.dilution-criterion", "a rule of the trade, quoted in words, not computed"),
    ("I.rule-of-thumb", "a rule of the trade, quoted in words, not computed"),
    (
        "G.bed-volume",
        "a resin bought by its moist mass is asked for by no sheet: they ask for the settled bed",
    ),
    (
        "G.pilot-resin-mass",
        "a resin bought by its moist mass is asked for by no sheet: they ask for the settled bed",
    ),
    ("G.unit-conversion", GRAINS),
    ("G.capacity-as-calcium", GRAINS),
    ("G.throughput", GRAINS),
    ("G.design-range", "limits of the trade that the sheet holds its answers to, not computed"),
    ("N.swamee-jain", ONE_FRICTION),
    ("N.haaland", ONE_FRICTION),
    ("N.K-contraction", SUDDEN),
    ("N.K-expansion", SUDDEN),
    ("N.head-lost-expansion", SUDDEN),
    ("N.affinity-flow", NO_CURVE),
    ("N.affinity-head", NO_CURVE),
    ("N.affinity-power", NO_CURVE),
    ("N.operating-point", NO_CURVE),
    ("N.gravity-transfer-time", NO_SIPHON),
    ("N.level-for-flow", NO_SIPHON),
    (
        "Q.fire-water",
        "no sheet sizes for the water of a fire: its density and time are the local fire code’s",
    ),
    ("R.velocity-from-bed-volumes", "an identity of units; the sheet takes the velocity from flow and bore"),
    ("U.first-order", NO_DRAWS),
    ("U.monte-carlo", NO_DRAWS),
    ("U.monte-carlo-97.5", NO_DRAWS),
    ("L.radiation", DRY_LOSS),
    ("L.horizontal-plate-hot-up", DRY_LOSS),
    ("L.horizontal-plate-hot-up-Rohsenow", DRY_LOSS),
    ("L.horizontal-plate-hot-up-VDI", DRY_LOSS),
    ("L.vertical-plate", DRY_LOSS),
    ("L.wall-convection", DRY_LOSS),
    ("L.wall-loss", DRY_LOSS),
    ("J.glycol-density", NO_COOLANT),
    ("J.glycol-heat-capacity", NO_COOLANT),
    ("J.glycol-viscosity", NO_COOLANT),
    ("J.glycol-freezing", NO_COOLANT),
];

/// Prints the rows of each topic, past the capture of a passing test.
fn print(title: &str, report: &Report) {
    let mut text = format!("\n{title}\n");
    let waiting = waiting::waiting_topics(&topics().iter().map(|(name, _)| *name).collect::<Vec<_>>());
    let mut counts = [0, 0];
    for (topic, count) in &report.agreed {
        let waits = waiting.contains(topic);
        counts[usize::from(waits)] += count;
        text +=
            &format!("  {count:4}  {topic}{}\n", if waits { " (no sheet uses all of it yet)" } else { "" });
    }
    text += &format!("  {:4}  rows agree with what sheets use\n", counts[0]);
    text += &format!("  {:4}  rows agree with what no sheet uses yet\n", counts[1]);
    for ((topic, reason), count) in &report.uncovered {
        let reason = if reason.is_empty() { "not mapped" } else { reason };
        text += &format!("  {count:4}  {topic}: left out, {reason}\n");
    }
    let _ = std::io::stdout().write_all(text.as_bytes());
}

fn topics() -> Vec<Topic> {
    SUBJECTS.iter().flat_map(|subject| subject()).collect()
}

#[test]
fn our_rows_agree_and_none_is_left_out_without_a_reason() {
    let rows = rows(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference"));
    let report = run(&rows, &topics(), LEFT_OUT);
    print("Reference rows", &report);
    assert!(!report.agreed.is_empty(), "no rows were found");
    assert!(report.wrong.is_empty(), "{}", report.wrong.join("\n"));
    let silent: Vec<_> = report.uncovered.keys().filter(|(_, reason)| reason.is_empty()).collect();
    assert!(silent.is_empty(), "left out without a reason: {silent:?}");
}

/// Eight grams of salt are not eight grams of metal, and no sum of grams and litres.
#[test]
fn a_row_whose_dimension_is_lost_is_wrong() {
    use bathbook::units::{G_METAL, GRAM, L};
    let row = |topic: &str| runner::Row {
        id: "1".into(),
        topic: topic.into(),
        inputs: "m=8 g; V=1 L".into(),
        expected: "8".into(),
        unit: "g".into(),
        tol_rel: 1e-9,
        kind: String::new(),
        source: String::new(),
    };
    let topics: &[Topic] = &[
        ("mass", |row| Ok(runner::Found::Quantity(row.q("m", GRAM)?, GRAM))),
        ("metal", |row| Ok(runner::Found::Quantity(row.q("m", GRAM)?, G_METAL))),
        ("sum", |row| Ok(runner::Found::Quantity(row.q("m", GRAM)? + row.q("V", L)?, GRAM))),
    ];
    let wrong = |topic: &str| run(&[row(topic)], topics, &[]).wrong.join("");
    assert_eq!(wrong("mass"), "");
    assert!(wrong("metal").contains("gives kg and not a mass of metal"), "{}", wrong("metal"));
    assert!(wrong("sum").contains("the law adds kg and m^3"), "{}", wrong("sum"));
}

#[test]
fn every_topic_is_mapped_once_and_has_a_row() {
    let rows = rows(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference"));
    let topics = topics();
    for (name, _) in &topics {
        assert_eq!(topics.iter().filter(|(other, _)| other == name).count(), 1, "{name}");
        assert!(rows.iter().any(|row| row.topic == *name), "no row asks for {name}");
    }
}

#[test]
fn every_row_names_its_source_once() {
    let rows = rows(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference"));
    for row in &rows {
        assert!(!row.source.is_empty() && !row.kind.is_empty(), "{} has no source or kind", row.id);
        assert_eq!(rows.iter().filter(|other| other.id == row.id).count(), 1, "{} stands twice", row.id);
    }
}

/// A law without a sheet is deleted, or says which one it waits for; once a sheet uses it, it says so no more.
#[test]
fn laws_that_no_sheet_uses_say_so_and_no_others() {
    let wrong = waiting::wrong_marks();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_rows_of_a_folder_of_your_own_agree() {
    let Ok(folder) = std::env::var("BATHBOOK_REFERENCE") else {
        let text = "\nNo rows of your own were run: BATHBOOK_REFERENCE=folder names their folder.\n";
        let _ = std::io::stdout().write_all(text.as_bytes());
        return;
    };
    let report = run(&rows(Path::new(&folder)), &topics(), LEFT_OUT);
    print(&folder, &report);
    assert!(report.wrong.is_empty(), "{}", report.wrong.join("\n"));
}
