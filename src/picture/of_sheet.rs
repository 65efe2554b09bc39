//! The picture of a sheet: any answer against any number that it takes.

use super::chart::Curve;
use crate::ask::sweep;
use crate::calculator::Form;
use crate::network::Spot;
use crate::results::Results;
use crate::units::{Kind, Unit};

/// Points of a curve: enough for a smooth line, few enough to be drawn while one waits.
const STEPS: usize = 56;

/// Points more where the curve jumps.
const FINER: usize = 24;

/// One thing to choose for an axis: its symbol (`c`, or `c[Cu]` in a row) and what it is called.
pub type Choice = (String, String);

/// Choices that stand together under a heading; it is empty for what the sheet says first.
pub type Group = (&'static str, Vec<Choice>);

fn put(groups: &mut Vec<Group>, heading: &'static str, choice: Choice) {
    match groups.iter_mut().find(|(known, _)| *known == heading) {
        Some((_, choices)) => choices.push(choice),
        None => groups.push((heading, vec![choice])),
    }
}

/// The numbers of a sheet that can stand along the bottom: those asked for now, under the sheet's headings.
pub fn across_choices(results: &Results, cell: usize) -> Vec<Group> {
    let Some(found) = results.network.cells.get(cell) else { return Vec::new() };
    let mut all = Vec::new();
    for (t, table) in found.calculator.all_tables().enumerate() {
        for input in table.columns.iter().filter(|input| input.form == Form::Number) {
            for (row, (key, data)) in found.given[t].iter().enumerate() {
                let column = table.columns.iter().position(|other| other.symbol == input.symbol).unwrap_or(0);
                let is_there = data.get(column).is_some_and(|datum| datum.value.si.is_finite());
                if is_there && found.calculator.asks(input, row, &found.given) {
                    let heading = if t == 0 { input.group } else { table.label };
                    put(&mut all, heading, named(t, input.symbol, input.label, key));
                }
            }
        }
    }
    all
}

/// The answers of a sheet that can stand up the side: those that have a number now, the headline first, and
/// those of rows under the heading of their table. A sheet without an answer may have one elsewhere on the
/// curve: then every single answer.
pub fn up_choices(results: &Results, cell: usize) -> Vec<Group> {
    let Some(found) = results.network.cells.get(cell) else { return Vec::new() };
    let outcome = results.outcome(cell);
    let mut all = Vec::new();
    for (t, table) in found.calculator.all_tables().enumerate() {
        let heading = if t == 0 { "" } else { table.label };
        for (column, output) in table.answers.iter().enumerate().filter(|(_, output)| output.words.is_empty())
        {
            let rows = outcome.and_then(|outcome| outcome.answers.get(t)).into_iter().flatten();
            let known = rows.filter(|(_, numbers)| numbers.get(column).is_some_and(|si| si.is_finite()));
            for (key, _) in known {
                put(&mut all, heading, named(t, output.symbol, output.label, key));
            }
            if t == 0 && outcome.is_none() {
                put(&mut all, heading, named(t, output.symbol, output.label, ""));
            }
        }
    }
    all
}

fn named(table: usize, symbol: &str, label: &str, key: &str) -> Choice {
    if table == 0 {
        (symbol.into(), label.into())
    } else {
        (format!("{symbol}[{key}]"), format!("{key}, {label}"))
    }
}

/// The range that a picture starts with, in the unit that it is shown in.
pub fn usual_range(results: &Results, cell: usize, across: &str) -> Option<([f64; 2], &'static Unit)> {
    let spot = results.network.spot_in(cell, across)?;
    let input = results.network.input(&spot)?;
    let now = value_now(results, &spot);
    let unit = results.style().best(now.unwrap_or(input.unit.to_si(input.usual[1])), input.unit);
    let shown = |number: f64| unit.from_si(input.unit.to_si(number));
    let [hard_low, hard_high] = input.hard.map(shown);
    let [mut low, mut high] = input.usual.map(shown);
    if let Some(now) = now.map(|si| unit.from_si(si)) {
        // A range of many decades is cut down to where the value stands.
        let is_wide = input.unit.kind != Kind::Temperature
            && now > 0.0
            && (low <= 0.0 || high / low > 30.0)
            && high > 3.0 * now;
        if is_wide {
            // What starts at nothing is shown from there: a titration from no dose on.
            (low, high) = (if low == 0.0 { 0.0 } else { 0.25 * now }, 2.5 * now);
        }
        (low, high) = (low.min(now), high.max(now));
    }
    let ends = [low.max(hard_low), high.min(hard_high)];
    Some((ends, unit)).filter(|(ends, _)| ends[0] < ends[1])
}

fn value_now(results: &Results, spot: &Spot) -> Option<f64> {
    let cell = results.network.cells.get(spot.cell)?;
    let key = spot.key.as_deref().unwrap_or("");
    let (_, data) = cell.given.get(spot.port.table)?.iter().find(|(known, _)| **known == *key)?;
    data.get(spot.port.column).map(|datum| datum.value.si).filter(|si| si.is_finite())
}

/// The curve over a range given in `unit`.
pub fn curve(
    results: &Results,
    cell: usize,
    across: &str,
    up: &str,
    range: [f64; 2],
    unit: &'static Unit,
) -> Option<Curve> {
    let network = &results.network;
    let (x, y) = (network.spot_in(cell, across)?, network.spot_in(cell, up)?);
    let (input, output) = (network.input(&x)?, network.output(&y)?);
    let swept = sweep(network, &x, range.map(|end| unit.to_si(end)), &y, (STEPS, FINER));
    let largest = swept
        .iter()
        .filter_map(|(_, y)| *y)
        .fold(0.0f64, |most, y| if y.abs() > most.abs() { y } else { most });
    let y_unit = results.style().best(largest, output.unit);
    let points = swept.into_iter().map(|(x, y)| (unit.from_si(x), y.map(|y| y_unit.from_si(y)))).collect();
    let answer = up.split_once('[').map_or("", |(_, key)| key.trim_end_matches(']'));
    let symbol = up.split('[').next().unwrap_or_default();
    let now_y = results.answer(cell, symbol, answer).map(|(_, si)| y_unit.from_si(si));
    let now = value_now(results, &x).map(|si| unit.from_si(si)).zip(now_y);
    let label = |label: &str, symbol: &str| match symbol.split_once('[') {
        Some((_, key)) => format!("{}, {label}", key.trim_end_matches(']')),
        None => label.to_string(),
    };
    Some(Curve {
        x_label: label(input.label, across),
        x_unit: results.style().symbol(unit),
        y_label: label(output.label, up),
        y_unit: results.style().symbol(y_unit),
        points,
        now,
    })
}
