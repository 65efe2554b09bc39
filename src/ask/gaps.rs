//! All that a sheet still asks for: its sum stops at the first of it.

use crate::calculator::{Calculator, Datum, Depth, Form, Given, Port, Stop};
use crate::network::{Cell, Network};
use crate::plan::Field;
use crate::units::Style;

/// Where in its usual range a number is tried where no example of the sheet goes far enough.
const SHARES: [f64; 4] = [0.5, 0.25, 0.75, 0.1];

/// The fields that a sheet waits for, in the order in which its sum asks for them; none if something else
/// is in the way.
///
/// Behind each field that is empty the sum is tried with what the sheet's own examples have there, or a
/// number of its usual range, and says what it lacks next. Nobody sees such a number. What is no field of
/// its own, such as a row still to be added, ends the list.
pub fn gaps(network: &Network, cell: usize) -> Vec<Field> {
    let mut most = Vec::new();
    let Some(cell) = network.cells.get(cell).filter(|cell| cell.broken.is_none()) else { return most };
    let examples = cell.calculator.examples.iter().filter_map(|example| cell.calculator.given(example).ok());
    let shares = SHARES.iter().map(|share| (None, *share));
    for (example, share) in examples.map(|given| (Some(given), SHARES[0])).chain(shares) {
        let (fields, is_all) = walk(cell, &network.style, example.as_ref(), share);
        if is_all {
            return fields;
        }
        if fields.len() > most.len() {
            most = fields;
        }
    }
    most
}

/// How a sum ends.
enum End {
    Answers,
    /// Something is still to be typed: where.
    Lacks(Port, usize, Stop),
    Refuses,
}

fn end(calculator: &Calculator, given: &Given, style: &Style) -> End {
    let stop = match calculator.evaluate(given, style, Depth::Answers) {
        Ok(_) => return End::Answers,
        Err(stop) => stop,
    };
    let port = stop.at.and_then(|at| calculator.port(at)).filter(|port| stop.todo && !port.answer);
    let row = |port: &Port| {
        let row = given.get(port.table)?.iter().position(|(key, _)| **key == *stop.row);
        row.or((port.table == 0).then_some(0))
    };
    match port.and_then(|port| Some((port, row(&port)?))) {
        Some((port, row)) => End::Lacks(port, row, stop),
        None => End::Refuses,
    }
}

/// The fields found with stand-ins of one sort, and whether they are all.
fn walk(cell: &Cell, style: &Style, example: Option<&Given>, share: f64) -> (Vec<Field>, bool) {
    let (calculator, mut given, mut fields) = (cell.calculator, cell.given.clone(), Vec::new());
    loop {
        let (port, row, stop) = match end(calculator, &given, style) {
            End::Answers => return (fields, true),
            End::Refuses => return (fields, false),
            End::Lacks(port, row, stop) => (port, row, stop),
        };
        let table = calculator.table(port.table);
        let Some(input) = table.columns.get(port.column) else { return (fields, false) };
        let field = Field::cell(cell.place, calculator.id, table.id, &stop.row, input.symbol);
        if fields.contains(&field) {
            return (fields, false);
        }
        fields.push(field);
        let is_empty = |datum: &Datum| match input.form {
            Form::Number => datum.value.si.is_nan(),
            Form::Text => datum.text.as_deref().unwrap_or_default().is_empty(),
            Form::Choice(_) => false,
        };
        let datum = given.get_mut(port.table).and_then(|rows| rows.get_mut(row)?.1.get_mut(port.column));
        let Some(datum) = datum.filter(|datum| is_empty(datum)) else { return (fields, true) };
        let like = example.and_then(|example| {
            let rows = example.get(port.table)?.iter();
            rows.filter_map(|(_, data)| data.get(port.column)).find(|datum| !is_empty(datum))
        });
        match like {
            Some(like) => *datum = like.clone(),
            None if input.form == Form::Number => {
                let [low, high] = input.usual;
                datum.value.si = input.unit.to_si(low + (high - low) * share);
            }
            None => return (fields, false),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculators::{ALL, find};

    fn asked_for(calculator: &'static Calculator, given: Given) -> Vec<String> {
        let fields = gaps(&Network::alone(calculator, given), 0);
        fields.into_iter().map(|field| format!("{}[{}]", field.symbol, field.key)).collect()
    }

    /// Every number of an example without which its sum says that it is still to be typed.
    fn needed(calculator: &'static Calculator, given: &Given) -> Vec<(usize, usize, usize, String)> {
        let mut found = Vec::new();
        for (t, table) in calculator.all_tables().enumerate() {
            for (row, (key, _)) in given[t].iter().enumerate() {
                for (column, input) in table.columns.iter().enumerate() {
                    let mut without = given.clone();
                    let Some(datum) = without[t][row].1.get_mut(column) else { continue };
                    if input.form != Form::Number || !datum.value.si.is_finite() {
                        continue;
                    }
                    datum.value.si = f64::NAN;
                    let is_it = |port: Port, at: usize| (port.table, port.column, at) == (t, column, row);
                    if matches!(end(calculator, &without, &Style::default()), End::Lacks(port, at, _) if is_it(port, at))
                    {
                        found.push((t, row, column, format!("{}[{key}]", input.symbol)));
                    }
                }
            }
        }
        found
    }

    #[test]
    fn a_sheet_of_which_much_is_missing_names_all_of_it() {
        let mut tried = 0;
        for calculator in ALL {
            for example in calculator.examples {
                let given = calculator.given(example).expect("an example");
                let needed = needed(calculator, &given);
                let mut without = given.clone();
                for (t, row, column, _) in &needed {
                    without[*t][*row].1[*column].value.si = f64::NAN;
                }
                let named = asked_for(calculator, without);
                let left_out: Vec<_> =
                    needed.iter().filter(|(.., name)| !named.contains(name)).map(|(.., name)| name).collect();
                tried += needed.len();
                assert!(
                    left_out.is_empty(),
                    "{}: {left_out:?} of {}, named {named:?}",
                    calculator.id,
                    example.source
                );
            }
        }
        assert!(tried > 100, "{tried}");
    }

    #[test]
    fn a_sheet_that_answers_asks_for_nothing() {
        for calculator in ALL {
            for example in calculator.examples {
                let given = calculator.given(example).expect("an example");
                assert_eq!(asked_for(calculator, given), [""; 0], "{}", calculator.id);
            }
        }
    }

    #[test]
    fn a_new_bath_to_heat_asks_for_what_only_the_plant_knows() {
        let calculator = find("heat-up").expect("heat-up");
        let example =
            crate::calculator::Example { source: "", inputs: &[], rows: &[], answers: &[], within: 0.0 };
        let named = asked_for(calculator, calculator.given(&example).expect("nothing typed"));
        for symbol in ["V[]", "T[]"] {
            assert!(named.contains(&symbol.to_string()), "{symbol} in {named:?}");
        }
    }
}
