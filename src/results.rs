//! What a plan comes to, and what the views ask of it: here its numbers; what a field shows, and what there is to look
//! at, in the files beside.

mod field;
mod findings;

pub use field::FieldView;
pub use findings::{Found, Marks};

use crate::calculator::{Calculator, Datum, Form, Input, Key, Outcome, Output, Port, Recipe, Stop, Subject};
use crate::network::{Answered, Cell, Link, Network, Origin, Ran};
use crate::plan::{Field, Id, Plan};
use crate::units::Style;
use field::short;

/// A plan, resolved and evaluated.
#[derive(Clone, Default)]
pub struct Results {
    /// The cells with their values.
    pub network: Network,
    /// The same before any followed its links.
    pub resolved: Network,
    /// What each cell came to.
    pub outcomes: Vec<Answered>,
    /// The cell whose working is there.
    pub open: Option<usize>,
}

impl Results {
    /// Evaluates a plan; the working only of the sheet that is open.
    pub fn of(plan: &Plan, open: Option<(Id, &str)>) -> Results {
        Results::default().after_edit(plan, open)
    }

    /// The same where these are the results of the plan before an edit: what has not changed is taken over.
    pub fn after_edit(&self, plan: &Plan, open: Option<(Id, &str)>) -> Results {
        let resolved = self.resolved.after_edit(plan);
        let mut network = resolved.clone();
        let open = open.and_then(|(place, calculator)| network.cell_at(place, calculator));
        let Network { cells, style, .. } = &self.network;
        let (resolved_then, outcomes) = (&self.resolved.cells, &self.outcomes);
        let last = Ran { resolved: resolved_then, cells, outcomes, open: self.open, style: Some(*style) };
        let outcomes = network.run_after(open, &last);
        Results { network, resolved, outcomes, open }
    }

    /// How numbers are shown.
    pub fn style(&self) -> Style {
        self.network.style
    }

    /// What a cell came to, if it has an answer.
    pub fn outcome(&self, cell: usize) -> Option<&Outcome> {
        self.outcomes.get(cell)?.as_deref().ok()
    }

    /// Why a cell has no answer.
    pub fn stop(&self, cell: usize) -> Option<&Stop> {
        self.outcomes.get(cell)?.as_ref().err()
    }

    /// The port and row of a field.
    fn place_of(&self, field: &Field) -> Option<(usize, Port, usize)> {
        let cell = self.network.cell_at(field.place, field.calculator)?;
        let found = self.network.cells.get(cell)?;
        let port = found.calculator.port(field.symbol)?;
        let row = found.given.get(port.table)?.iter().position(|(key, _)| **key == *field.key)?;
        Some((cell, port, row))
    }

    /// The value of a field and where it came from.
    pub fn datum(&self, field: &Field) -> Option<(&Datum, Origin)> {
        let (cell, port, row) = self.place_of(field)?;
        self.datum_at(cell, port, row)
    }

    fn datum_at(&self, cell: usize, port: Port, row: usize) -> Option<(&Datum, Origin)> {
        let cell = self.network.cells.get(cell)?;
        let datum = cell.given.get(port.table)?.get(row)?.1.get(port.column)?;
        let known =
            cell.origins.get(port.table).and_then(|rows| rows.get(row)).and_then(|row| row.get(port.column));
        let brought = || {
            let linked = cell.links.iter().any(|link| link.to == port && !link.from.is_empty());
            if linked { Origin::Linked } else { Origin::Default }
        };
        Some((datum, known.copied().unwrap_or_else(brought)))
    }

    /// Whether a field is asked for: a hidden one keeps its text and is not shown.
    pub fn asks(&self, field: &Field) -> bool {
        let Some((cell, port, row)) = self.place_of(field) else { return false };
        let cell = &self.network.cells[cell];
        cell.calculator.input_at(port).is_some_and(|input| cell.calculator.asks(input, row, &cell.given))
    }

    /// Whether a sheet takes what a link brings: its input is asked for, in some row, and nobody typed over it.
    pub fn takes(&self, cell: usize, link: &Link) -> bool {
        let Some(found) = self.network.cells.get(cell) else { return false };
        let rows = found.given.get(link.to.table).into_iter().flatten().enumerate();
        let typed = |row: usize| {
            let origins = found.origins.get(link.to.table).and_then(|rows| rows.get(row));
            origins.and_then(|row| row.get(link.to.column)).is_some_and(|origin| *origin != Origin::Linked)
        };
        rows.into_iter().any(|(row, _)| !typed(row) && found.calculator.asks(link.input, row, &found.given))
    }

    /// The fields of a cell that are shown and stand at their usual value, which nobody typed: a default, or
    /// what a preset or the recipe filled in and nobody changed.
    pub fn usual(&self, cell: usize) -> Vec<Field> {
        self.fields_where(cell, |found, input, port, key, origin| {
            let is_unread = found.issues.iter().any(|issue| issue.at == port && issue.key == key);
            let is_number = input.form == Form::Number && !input.only_followed && !is_unread;
            let is_usual = match origin {
                Origin::Default => !input.optional,
                Origin::Typed | Origin::Overtyped => self.is_as_filled_in(found, input, port, key),
                Origin::Linked => false,
            };
            is_number && is_usual
        })
    }

    /// Whether a number is the usual one though it was filled in: by the preset of its row, or by a recipe.
    pub fn is_usual(&self, field: &Field) -> bool {
        let Some((cell, port, _)) = self.place_of(field) else { return false };
        let found = &self.network.cells[cell];
        let input = found.calculator.input_at(port).filter(|input| input.form == Form::Number);
        let is_typed = |(_, origin): (&Datum, Origin)| matches!(origin, Origin::Typed | Origin::Overtyped);
        self.datum(field).is_some_and(is_typed)
            && input.is_some_and(|input| self.is_as_filled_in(found, input, port, &field.key))
    }

    /// Whether a number is what the preset of its row, or the recipe that the sheet names, fills in there.
    fn is_as_filled_in(&self, found: &Cell, input: &Input, port: Port, key: &str) -> bool {
        let (calculator, table) = (found.calculator, found.calculator.table(port.table));
        let datum = |port: Port, key: &str| {
            let rows = found.given.get(port.table)?;
            rows.iter().find(|(known, _)| **known == *key)?.1.get(port.column)
        };
        let Some(now) = datum(port, key) else { return false };
        let is_named = |recipe: &&Recipe| {
            recipe.inputs.iter().filter(|(_, text)| *text == recipe.name).any(|(symbol, name)| {
                let named = calculator.port(symbol).and_then(|at| Some((calculator.input_at(at)?, at)));
                named.is_some_and(|(input, at)| {
                    datum(at, "").and_then(|datum| input.word(datum.value.si)) == Some(*name)
                })
            })
        };
        let recipe = calculator.recipes.iter().find(is_named);
        let rows = recipe.filter(|recipe| recipe.table == table.id).map_or(&[][..], |recipe| recipe.rows);
        let single = recipe.filter(|_| port.table == 0).map_or(&[][..], |recipe| recipe.inputs);
        let cells = table.presets.iter().chain(rows).filter(|(name, _)| *name == key);
        cells.flat_map(|(_, cells)| *cells).chain(single).any(|(symbol, text)| {
            *symbol == input.symbol && input.read(text, &self.style()).is_ok_and(|read| read == *now)
        })
    }

    /// The fields of a cell that cannot be read.
    pub fn unread(&self, cell: usize) -> Vec<Field> {
        if self.network.cells.get(cell).is_none_or(|cell| cell.issues.is_empty()) {
            return Vec::new();
        }
        self.fields_where(cell, |found, _, port, key, _| {
            found.issues.iter().any(|issue| issue.at == port && issue.key == key)
        })
    }

    /// The fields of a cell, as they stand on its sheet, for which something holds.
    fn fields_where(
        &self,
        cell: usize,
        holds: impl Fn(&Cell, &Input, Port, &str, Origin) -> bool,
    ) -> Vec<Field> {
        let Some(found) = self.network.cells.get(cell) else { return Vec::new() };
        let mut all = Vec::new();
        for (at, table) in found.calculator.all_tables().enumerate() {
            // Rows that only come by links are shown to be read.
            if at > 0 && table.add.is_none() {
                continue;
            }
            for (row, (key, _)) in found.given.get(at).into_iter().flatten().enumerate() {
                for (column, input) in table.columns.iter().enumerate() {
                    let port = Port { table: at, column, answer: false };
                    let origin = self.datum_at(cell, port, row).map(|(_, origin)| origin);
                    if origin.is_some_and(|origin| holds(found, input, port, key, origin))
                        && found.calculator.asks(input, row, &found.given)
                    {
                        let (place, sheet) = (found.place, found.calculator.id);
                        all.push(Field::cell(place, sheet, table.id, key, input.symbol));
                    }
                }
            }
        }
        all
    }

    /// The keys of a table's rows, in order: typed ones, linked ones, and those that the sum makes.
    pub fn rows(&self, cell: usize, table: usize) -> Vec<Key> {
        let Some(found) = self.network.cells.get(cell) else { return Vec::new() };
        let mut keys: Vec<Key> =
            found.given.get(table).into_iter().flatten().map(|(key, _)| key.clone()).collect();
        let made = self.outcome(cell).and_then(|outcome| outcome.answers.get(table)).into_iter().flatten();
        for (key, _) in made {
            if !keys.contains(key) {
                keys.push(key.clone());
            }
        }
        keys
    }

    /// A declared answer and its value in a row (`""` for single answers); `None` if there is none.
    pub fn answer(&self, cell: usize, symbol: &str, key: &str) -> Option<(&'static Output, f64)> {
        let calculator = self.network.cells.get(cell)?.calculator;
        let port = calculator.port(symbol)?;
        let rows = self.outcome(cell)?.answers.get(port.table)?;
        let (_, numbers) = rows.iter().find(|(known, _)| **known == *key)?;
        let si = *numbers.get(port.column)?;
        Some((calculator.output_at(port)?, si)).filter(|_| si.is_finite())
    }

    /// An answer as text, number and unit apart.
    pub fn answer_text(
        &self,
        cell: usize,
        symbol: &str,
        key: &str,
        digits: usize,
    ) -> Option<(String, &'static str)> {
        let (output, si) = self.answer(cell, symbol, key)?;
        if let Some(word) = output.words.get(si as usize) {
            return Some(((*word).into(), ""));
        }
        let style = self.style().with_digits(digits);
        let unit = style.best(si, output.unit);
        let number = style.number(unit.from_si(si));
        // What is counted is whole: 8 chambers, not 8.00.
        let is_count = output.unit == crate::units::NUMBER && si.fract() == 0.0;
        Some(style.with_currency(if is_count { short(number) } else { number }, unit))
    }

    /// Makes a new place for another to lead to, which starts with what that one says of it.
    pub fn lead_to_new(&self, plan: &mut Plan, from: Id, subject: Subject) -> Id {
        let new = plan.add(subject, subject.sort().title);
        plan.set_to(from, Some(new));
        for calculator in crate::calculators::for_places_of(subject) {
            for input in calculator.inputs {
                let said = input.takes_on.and_then(|(id, symbol)| {
                    let (output, si) = self.answer(self.network.cell_at(from, id)?, symbol, "")?;
                    let word = output.text(si, &self.style());
                    input.read(&word, &self.style()).ok().map(|_| word)
                });
                if let Some(word) = said {
                    plan.type_in(&Field::single(new, calculator.id, input.symbol), &word, None);
                }
            }
        }
        new
    }

    /// The calculator of a cell.
    pub fn calculator(&self, cell: usize) -> Option<&'static Calculator> {
        self.network.cells.get(cell).map(|cell| cell.calculator)
    }
}

/// "1 place", "3 places".
pub fn count(n: usize, what: &str) -> String {
    if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") }
}
