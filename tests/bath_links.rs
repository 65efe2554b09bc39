//! A bath and its sheets: that what one of them knows arrives at the next.
//!
//! The bath is invented. What a test expects is worked out by hand beside it.

use bathbook::calculator::Subject;
use bathbook::calculators::find;
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{G_METAL, G_PER_L, L, NUMBER, Unit};

/// An acid copper bath of 200 L with 40 g/L of copper and 180 g/L of acid, as it was made up.
fn copper_bath() -> (Plan, Id) {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Copper");
    type_in(&mut plan, bath, "make-up", "V_t", "200 L");
    type_in(&mut plan, bath, "make-up", "class", "acid");
    row(&mut plan, bath, ("make-up", "ingredients"), "Copper sulfate", &[("c_m", "40 g/L")]);
    row(&mut plan, bath, ("make-up", "ingredients"), "Sulfuric acid", &[("c_s", "180 g/L")]);
    (plan, bath)
}

fn type_in(plan: &mut Plan, place: Id, calculator: &'static str, symbol: &'static str, text: &str) {
    plan.type_in(&Field::single(place, calculator, symbol), text, None);
}

fn row(
    plan: &mut Plan,
    place: Id,
    (calculator, table): (&'static str, &'static str),
    key: &str,
    cells: &[(&'static str, &str)],
) {
    plan.add_row(place, calculator, table, key);
    for (symbol, text) in cells {
        plan.type_in(&Field::cell(place, calculator, table, key, symbol), text, None);
    }
}

#[track_caller]
fn answer(plan: &Plan, place: Id, calculator: &str, symbol: &str, key: &str, unit: &Unit) -> f64 {
    assert!(find(calculator).is_some(), "{calculator}");
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(place, calculator).expect("a sheet of that name");
    let found = results.answer(cell, symbol, key);
    let (_, si) = found.unwrap_or_else(|| panic!("{calculator} gives no {symbol}: {:?}", results.stop(cell)));
    unit.from_si(si)
}

/// 11.33 mL of 0.1 mol/L EDTA for 2 mL are 36.0 g/L of copper. To 40 g/L with 65 g/L of concentrate, in a
/// full tank of 200 L: (200 − x)·36 + 65·x = 8000, so x = 27.6 L out and in, with 992 g of copper.
#[test]
fn an_analysis_is_corrected_to_what_the_bath_was_made_up_to() {
    let (mut plan, bath) = copper_bath();
    row(&mut plan, bath, ("analysis", "determinations"), "Cu", &[("V_a", "2 mL"), ("v_1", "11.33 mL")]);
    assert!((answer(&plan, bath, "analysis", "c_x", "Cu", G_PER_L) - 36.0).abs() < 0.01);
    for (symbol, text) in [("added_as", "a liquid"), ("s", "65 g/L")] {
        plan.type_in(&Field::cell(bath, "correction", "components", "Cu", symbol), text, None);
    }
    let measured = answer(&plan, bath, "analysis", "c_x", "Cu", G_PER_L);
    let expected = 200.0 * (40.0 - measured) / (65.0 - measured);
    assert!((answer(&plan, bath, "correction", "V_x", "", L) - expected).abs() < 1e-6);
    assert!((answer(&plan, bath, "correction", "m_M", "Cu", G_METAL) - measured * expected).abs() < 1e-3);
    assert!((answer(&plan, bath, "correction", "c_end", "Cu", G_PER_L) - 40.0).abs() < 1e-9);
}

/// What the make-up calls cyanide is cyanide on the sheets after it: no acid is offered there.
#[test]
fn the_class_of_a_bath_follows_it() {
    let (mut plan, bath) = copper_bath();
    row(&mut plan, bath, ("ph", "solutes"), "Citric acid", &[("C", "0.2 mol/L")]);
    type_in(&mut plan, bath, "ph", "pH_w", "1.5");
    assert!(answer(&plan, bath, "ph", "pH", "", NUMBER) > 1.5);
    assert!(answer(&plan, bath, "ph", "V_r", "", L) > 0.0);
    let lowers = Field::single(bath, "ph", "down");
    assert!(Results::of(&plan, None).asks(&lowers));
    let gold = plan.add(Subject::Bath, "Gold");
    type_in(&mut plan, gold, "make-up", "V_t", "100 L");
    type_in(&mut plan, gold, "make-up", "class", "cyanide");
    row(&mut plan, gold, ("ph", "solutes"), "Citric acid", &[("C", "0.2 mol/L")]);
    type_in(&mut plan, gold, "ph", "pH_w", "1.5");
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(gold, "ph").expect("a pH sheet");
    let stop = results.stop(cell).expect("a refusal");
    assert!(stop.reason.contains("cyanide"), "{stop:?}");
    assert!(!results.asks(&Field::single(gold, "ph", "down")));
}
