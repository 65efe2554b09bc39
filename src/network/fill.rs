//! Fetching what a cell follows: values, and the rows that links bring.

use super::{Answered, Cell, Origin, Spot};
use crate::calculator::{Input, Key, Outcome, Over, Port, Stop, find_or_push, number};
use std::sync::Arc;

impl Cell {
    /// All that it follows.
    pub fn sources(&self) -> impl Iterator<Item = &Spot> {
        self.links.iter().flat_map(|link| &link.from)
    }

    /// The numbers at a spot of this cell, each with its row; a single number has the place's name.
    /// Answers need an outcome.
    pub(super) fn numbers<'a>(
        &'a self,
        outcome: Option<&'a Outcome>,
        spot: &'a Spot,
    ) -> impl Iterator<Item = (&'a Key, f64)> {
        let table = spot.port.table;
        let key = move |at: usize| match spot.port.answer {
            true => outcome?.answers.get(table)?.get(at).map(|(key, _)| key),
            false => self.given.get(table)?.get(at).map(|(key, _)| key),
        };
        let rows = (0..).map_while(move |at| Some((at, key(at)?)));
        let wanted = rows.filter(|(_, key)| spot.key.as_ref().is_none_or(|wanted| wanted == *key));
        wanted.filter_map(move |(at, key)| {
            let key = if table == 0 { &self.name } else { key };
            Some((key, number(spot.port, at, &self.given, outcome)?))
        })
    }

    /// Whether a spot is an input whose value is there.
    fn is_typed_in(&self, spot: &Spot) -> bool {
        let mut numbers = self.numbers(None, spot).peekable();
        !spot.port.answer && numbers.peek().is_some() && numbers.all(|(_, si)| si.is_finite())
    }

    /// Hidden entries are neither read nor checked. Whether one is hidden may hang on a linked value.
    pub(super) fn pass_over_hidden_issues(&mut self) {
        let Cell { calculator, given, issues, .. } = self;
        issues.retain(|issue| {
            let rows = given.get(issue.at.table);
            let row = rows.and_then(|rows| rows.iter().position(|(key, _)| **key == *issue.key)).unwrap_or(0);
            calculator.input_at(issue.at).is_some_and(|input| calculator.asks(input, row, given))
        });
    }

    /// Fetches the linked values from the cells before this one.
    pub(super) fn fill(&mut self, before: &[Arc<Cell>], outcomes: &[Answered]) -> Result<(), Stop> {
        if let Some(stop) = &self.broken {
            return Err(stop.clone());
        }
        // What only looks up comes after what brings rows.
        let Cell { calculator, given, origins, links, .. } = self;
        let brings = links.iter().filter(|link| link.over != Over::Site);
        let looks_up = links.iter().filter(|link| link.over == Over::Site);
        // The first refusal is the sheet's; what can be fetched besides is there to be read.
        let mut refused = None;
        'links: for link in brings.chain(looks_up).filter(|link| !link.from.is_empty()) {
            let Port { table, column, .. } = link.to;
            let origins = &mut origins[table];
            let is_typed =
                |row: &Vec<Origin>| matches!(row.get(column), Some(Origin::Typed | Origin::Overtyped));
            let typed_rows: Vec<bool> = origins.iter().map(is_typed).collect();
            let typed = |at: usize| typed_rows.get(at).copied().unwrap_or(false);
            if table == 0 && (typed(0) || !calculator.asks(link.input, 0, given)) {
                continue;
            }
            let rows = &mut given[table];
            let free = |(at, _): &(usize, _)| !typed(*at);
            rows.iter_mut().enumerate().filter(free).for_each(|(_, row)| row.1[column].value.si = f64::NAN);
            let join = if link.over == Over::Largest { f64::max } else { |sum, next| sum + next };
            for spot in &link.from {
                let source = &before[spot.cell];
                let outcome = match &outcomes[spot.cell] {
                    Ok(outcome) => Some(&**outcome),
                    // What was typed there is known, whatever the sheet comes to.
                    Err(_) if source.is_typed_in(spot) => None,
                    Err(_) if link.input.follows.is_some_and(|follows| follows.if_known) => continue,
                    Err(stop) => {
                        refused.get_or_insert_with(|| passed_on(source, stop, link.input));
                        continue 'links;
                    }
                };
                let is_word = !link.input.words().is_empty();
                for (key, si) in source.numbers(outcome, spot) {
                    // A single input takes the rows of a table together.
                    let key = if table == 0 { "" } else { key };
                    let known = rows.iter().position(|(row, _)| **row == *key);
                    let at = match known {
                        Some(at) => at,
                        None if link.over == Over::Site => continue,
                        None => find_or_push(rows, key, || calculator.fresh(link.to)),
                    };
                    let datum = &mut rows[at].1[column];
                    if is_word {
                        datum.value.unit = crate::units::NUMBER;
                    }
                    let sum = &mut datum.value.si;
                    if !typed(at) {
                        *sum = if sum.is_nan() { si } else { join(*sum, si) };
                    }
                }
            }
            // What no source mentions: none of it in a sum, left out where that is allowed; else refused.
            for (at, (key, row)) in rows.iter_mut().enumerate() {
                if typed(at) || !row[column].value.si.is_nan() || (link.input.optional && table > 0) {
                    continue;
                }
                match link.over {
                    Over::Sum => row[column].value.si = 0.0,
                    Over::Site | Over::Each | Over::EachFromHere => row[column] = link.input.default_datum(),
                    // What is followed may be missing there by its declaration, or not be known: then the usual
                    // value stands.
                    _ if table == 0 || link.input.follows.is_some_and(|follows| follows.if_known) => {
                        row[column] = link.input.default_datum();
                        if let Some(origin) = origins.get_mut(at).and_then(|row| row.get_mut(column)) {
                            *origin = Origin::Default;
                        }
                    }
                    _ => {
                        let reason = format!("{key} is not in what this follows");
                        let remedy = "Add it there, or type a value here.";
                        refused.get_or_insert(Stop::at(link.input.symbol, reason, remedy).row(key));
                    }
                }
            }
        }
        refused.map_or(Ok(()), Err)
    }
}

fn passed_on(source: &Cell, stop: &Stop, input: &Input) -> Stop {
    let place = if source.name.is_empty() { String::new() } else { format!(" of {}", source.name) };
    // The first cause is told once, however long the chain.
    let reason = if stop.passed_on {
        stop.reason.clone()
    } else {
        format!("{}{place} has no answer. {}", source.calculator.title, stop.reason)
    };
    let remedy = if input.only_followed { "Mend it there." } else { "Mend it there, or type a value here." };
    let mut passed = Stop::at(input.symbol, reason, remedy);
    (passed.todo, passed.passed_on) = (stop.todo, true);
    passed
}
