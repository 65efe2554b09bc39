//! What tests of plans do: type into a sheet, add a row, read an answer. A toolbox: not every test takes every tool.
#![allow(dead_code)]

use bathbook::calculators::find;
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::Unit;

/// Types into single inputs of a sheet.
pub fn type_in(plan: &mut Plan, place: Id, calculator: &'static str, texts: &[(&'static str, &str)]) {
    for (symbol, text) in texts {
        plan.type_in(&Field::single(place, calculator, symbol), text, None);
    }
}

/// Adds a row to a table of a sheet and types into it.
pub fn row(
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

/// An answer of a sheet; else why there is none.
pub fn found(
    plan: &Plan,
    place: Id,
    calculator: &str,
    symbol: &str,
    key: &str,
    unit: &Unit,
) -> Result<f64, String> {
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(place, calculator).expect("a sheet of that name");
    let answer = results.answer(cell, symbol, key).map(|(_, si)| unit.from_si(si));
    answer.ok_or_else(|| results.stop(cell).map_or("no such answer".into(), |stop| stop.reason.to_string()))
}

/// An answer of a sheet that must have one.
#[track_caller]
pub fn answer(plan: &Plan, place: Id, calculator: &str, symbol: &str, key: &str, unit: &Unit) -> f64 {
    assert!(find(calculator).is_some(), "{calculator}");
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(place, calculator).expect("a sheet of that name");
    let found = results.answer(cell, symbol, key);
    let (_, si) = found.unwrap_or_else(|| panic!("{calculator} gives no {symbol}: {:?}", results.stop(cell)));
    unit.from_si(si)
}

/// It is there and as expected, to rounding.
#[track_caller]
pub fn near(found: Result<f64, String>, expected: f64) {
    let found = found.unwrap_or_else(|why| panic!("{why}"));
    assert!((found / expected - 1.0).abs() < 1e-9, "{found} is not {expected}");
}
