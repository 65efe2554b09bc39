//! The report of a plan: all that a reader needs to work it out again stands on it.
//!
//! The plan is invented; what is expected is worked out by hand.

use bathbook::calculator::Subject;
use bathbook::plan::examples;
use bathbook::plan::{Field, Plan};
use bathbook::report::{Grid, SheetReport, USUAL, shared, sheets};
use bathbook::results::Results;

fn find<'a>(all: &'a [SheetReport], calculator: &str) -> &'a SheetReport {
    all.iter().find(|sheet| sheet.calculator.id == calculator).expect("that sheet")
}

fn copper_bath() -> Plan {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Copper");
    let set = |plan: &mut Plan, symbol, text| {
        plan.type_in(&Field::single(bath, "make-up", symbol), text, None);
    };
    set(&mut plan, "V_t", "200 L");
    set(&mut plan, "class", "acid");
    plan.add_row(bath, "make-up", "ingredients", "Copper sulfate");
    let field = Field::cell(bath, "make-up", "ingredients", "Copper sulfate", "c_m");
    plan.type_in(&field, "40 g/L", None);
    plan
}

/// 200 L of 40 g/L are 8 kg of copper, in 8/0.2545 = 31.43 kg of CuSO4·5H2O.
#[test]
fn a_sheet_tells_what_was_typed_what_is_usual_what_came_out_and_how() {
    let all = sheets(&copper_bath());
    let make_up = find(&all, "make-up");
    let typed = make_up.inputs.iter().find(|item| item.symbol == "V_t").unwrap();
    assert_eq!((typed.value.as_str(), typed.from.as_str()), ("200\u{a0}L", "typed"));
    let class = make_up.inputs.iter().find(|item| item.symbol == "class").unwrap();
    assert_eq!((class.value.as_str(), class.from.as_str()), ("acid", "chosen"));
    let usual = make_up.inputs.iter().filter(|item| item.from == USUAL).count();
    assert!(usual > 0, "a make-up of two numbers rests on usual values");
    // Those of a row too: a salt as bought is taken for pure.
    let assumed = make_up.assumed();
    assert!(assumed.len() > usual, "{assumed:?}");
    let purity = assumed.iter().find(|text| text.contains("(Copper sulfate)"));
    assert!(purity.is_some_and(|text| text.contains("100\u{a0}%")), "{assumed:?}");
    let grid = &make_up.grids[0];
    assert_eq!(grid.rows[0].0.as_ref(), "Copper sulfate");
    assert_eq!(grid.head.len(), grid.rows[0].1.len() + 1);
    assert!(grid.rows[0].1.iter().any(|cell| cell.starts_with("31.43")), "{:?}", grid.rows);
    assert!(!make_up.working.is_empty(), "each sheet has its working");
    assert!(make_up.working.iter().all(|line| line.numbers().starts_with("= ")));
}

#[test]
fn a_followed_number_names_the_sheet_that_it_follows() {
    let all = sheets(&copper_bath());
    let heat = find(&all, "heat-up");
    let followed = heat.inputs.iter().filter(|item| item.from == "Make-up").count();
    assert!(followed > 0, "{:?}", heat.inputs);
}

/// What a row follows from another place is no assumption, whatever it comes to.
#[test]
fn what_a_row_follows_is_not_assumed() {
    let mut plan = copper_bath();
    let bath = plan.places.iter().find(|place| place.subject == Subject::Bath).expect("a bath").id;
    let site = plan.site().expect("a site").id;
    plan.add_sheet(site, "utilities");
    plan.type_in(&Field::single(bath, "heat-up", "T"), "51 °C", None);
    let all = sheets(&plan);
    let assumed = find(&all, "utilities").assumed();
    assert!(assumed.iter().any(|text| text.starts_with("Efficiency of its rectifier 85")), "{assumed:?}");
    assert!(!assumed.iter().any(|text| text.contains("51")), "{assumed:?}");
    let balance = find(&all, "balance").assumed();
    assert!(!balance.iter().any(|text| text.contains("(Cu)")), "{balance:?}");
}

#[test]
fn a_sheet_without_an_answer_says_why_and_gives_no_number() {
    let mut plan = Plan::new("Empty (invented)");
    plan.add(Subject::Bath, "Bath");
    let all = sheets(&plan);
    let make_up = find(&all, "make-up");
    assert!(
        make_up.stop.as_deref().is_some_and(|text| text.contains("still to be typed")),
        "{:?}",
        make_up.stop
    );
    assert!(make_up.answers.is_empty() && make_up.working.is_empty());
}

/// The same findings as on screen, none lost and none made up, in all of the examples.
#[test]
fn the_examples_are_reported_whole() {
    for (id, ..) in examples::ALL {
        let plan = examples::plan(id).expect("an example");
        let all = sheets(&plan);
        let results = Results::of(&plan, None);
        assert_eq!(all.len(), results.network.cells.len(), "{}", plan.name);
        let reported: usize = all.iter().map(|sheet| sheet.findings.len()).sum();
        let shown: usize = (0..all.len()).filter_map(|c| results.outcome(c)).map(|o| o.findings.len()).sum();
        assert_eq!(reported, shown, "{}", plan.name);
        for sheet in &all {
            let is_told = sheet.stop.is_some() || !sheet.answers.is_empty() || !sheet.grids.is_empty();
            assert!(is_told, "{}: {} tells nothing", sheet.name, sheet.calculator.id);
        }
    }
}

/// Told once for all places, no caution of any sheet is lost, and none is said of a place that it does not hold for.
#[test]
fn each_caution_is_told_once_with_the_places_that_it_holds_for() {
    for (id, ..) in examples::ALL {
        let all = sheets(&examples::plan(id).expect("an example"));
        let told = shared(&all, |sheet| sheet.cautions.iter().map(|text| text.to_string()).collect());
        for sheet in &all {
            for shared in told.iter().filter(|one| one.calculator.id == sheet.calculator.id) {
                let is_said = sheet.cautions.contains(&shared.text.as_str());
                assert_eq!(shared.places.contains(&sheet.name), is_said, "{}: {}", sheet.name, shared.text);
            }
            for text in &sheet.cautions {
                let is_it = |one: &&bathbook::report::Shared| {
                    one.calculator.id == sheet.calculator.id && one.text == *text
                };
                assert_eq!(told.iter().filter(is_it).count(), 1, "{}: {text}", sheet.name);
            }
        }
    }
}

/// Ten columns and two rows become three columns and nine rows, each number beside its label and under its row.
#[test]
fn a_table_too_wide_for_paper_is_turned_and_another_stays() {
    let grid = |columns: usize| Grid {
        label: "Additives",
        head: (0..columns).map(|at| format!("head {at}").into()).collect(),
        rows: ["a", "b"]
            .map(|key| (key.into(), (1..columns).map(|at| format!("{key}{at}")).collect()))
            .into(),
    };
    assert_eq!(grid(5).fitted(), grid(5));
    // Ten columns of ten rows have room in neither way.
    let mut long = grid(10);
    long.rows = (0..10).map(|at| (format!("row {at}").into(), vec![at.to_string(), String::new()])).collect();
    assert!(long.is_too_wide() && !grid(10).is_too_wide() && !grid(5).is_too_wide());
    assert_eq!(long.in_words(&long.rows[3].1), "head 1 3");
    let turned = grid(10).fitted();
    assert_eq!(turned.head.iter().map(|head| &**head).collect::<Vec<_>>(), ["head 0", "a", "b"]);
    assert_eq!(turned.rows.len(), 9);
    assert_eq!(turned.rows[3], ("head 4".into(), vec!["a4".to_string(), "b4".to_string()]));
}
