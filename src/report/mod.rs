//! A plan as it stands on paper: each sheet with what went in, where that is from, what came out and how.
//!
//! Made of a plan and what it comes to, in text; how it looks is for the views.

mod building;
mod check;
mod figures;
mod book;

pub use book::book;
pub use building::{Part, Request, Total, building};
pub use check::check_sum;
pub use figures::{Amount, Figure, csv, figures};

use crate::calculator::{Calculator, Depth, Finding, Form, Input, Key, Line, Missing, Output, Over};
use crate::calculators::site;
use crate::network::Origin;
use crate::plan::{Field, Id, Plan};
use crate::results::Results;

/// Digits of the answers in a report.
const DIGITS: usize = 4;

/// One line of a list: what it is, its symbol, what it reads, and where that is from.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is.
    pub label: &'static str,
    /// Its symbol in the working.
    pub symbol: &'static str,
    /// Number and unit, a word or a text.
    pub value: String,
    /// "typed", "usual value", or what it follows; empty for answers.
    pub from: String,
}

/// A table of a sheet: inputs, then answers, row by row.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// What it is of.
    pub label: &'static str,
    /// The heads of its columns; the first is that of the rows' names. Columns in which no row has
    /// anything are left out.
    pub head: Vec<Key>,
    /// Name and cells of each row.
    pub rows: Vec<(Key, Vec<String>)>,
}

/// Tables of more columns than this are turned, if they have fewer rows.
const WIDEST: usize = 7;

impl Grid {
    /// Whether it is too wide for a page however it is turned: then each row is told in words.
    pub fn is_too_wide(&self) -> bool {
        self.head.len() > WIDEST && self.rows.len() >= WIDEST
    }

    /// A row in words: "It takes exhaust; Exhaust of one 450 m³/h". What is empty is left out.
    pub fn in_words(&self, cells: &[String]) -> String {
        let told = self.head.iter().skip(1).zip(cells).filter(|(_, cell)| !cell.is_empty());
        told.map(|(head, cell)| format!("{head} {cell}")).collect::<Vec<_>>().join("; ")
    }

    /// A table that is too wide for a page is turned: its rows stand side by side, so that no word is cut.
    pub fn fitted(self) -> Grid {
        if self.head.len() <= WIDEST || self.rows.len() >= WIDEST {
            return self;
        }
        let mut labels = self.head.into_iter();
        let names = labels.next().into_iter().chain(self.rows.iter().map(|(key, _)| key.clone()));
        let head = names.collect();
        let cells =
            |at: usize| self.rows.iter().map(move |(_, cells)| cells.get(at).cloned().unwrap_or_default());
        let rows = labels.enumerate().map(|(at, label)| (label, cells(at).collect())).collect();
        Grid { label: self.label, head, rows }
    }
}

/// A sheet as it is reported.
#[derive(Clone)]
pub struct SheetReport {
    /// At which place.
    pub place: Id,
    /// What that is called.
    pub name: String,
    /// Which calculator.
    pub calculator: &'static Calculator,
    /// What went in.
    pub inputs: Vec<Item>,
    /// Tables of inputs and answers.
    pub grids: Vec<Grid>,
    /// What came out.
    pub answers: Vec<Item>,
    /// Answers that are missing: why, and which.
    pub missing: Vec<(String, Vec<&'static str>)>,
    /// Why there is no answer.
    pub stop: Option<String>,
    /// The working.
    pub working: Vec<Line>,
    /// What to look at.
    pub findings: Vec<Finding>,
    /// The cautions that apply.
    pub cautions: Vec<&'static str>,
    /// Usual values in rows of tables that nobody typed: of each what it is and its value, once for all rows
    /// in which it is the same, with these.
    assumed_in_rows: Vec<(&'static str, String, Vec<Key>)>,
}

impl SheetReport {
    /// The usual values that nobody typed, single ones and those in rows: what the answer assumes.
    pub fn assumed(&self) -> Vec<String> {
        let single = self.inputs.iter().filter(|item| item.from == USUAL);
        let single = single.map(|item| format!("{} {}", item.label, item.value));
        let in_rows = self.assumed_in_rows.iter();
        single
            .chain(in_rows.map(|(label, value, keys)| format!("{label} {value} ({})", keys.join(", "))))
            .collect()
    }
}

/// What is said alike of the sheets of one calculator, told once.
#[derive(Clone)]
pub struct Shared {
    /// Of which calculator.
    pub calculator: &'static Calculator,
    /// What is said.
    pub text: String,
    /// The places that it is said of, in the order of the plan.
    pub places: Vec<String>,
}

/// What `says` tells of each sheet, each text once for all places that it is said of, by calculator in the
/// order in which the plan has them.
pub fn shared(sheets: &[SheetReport], says: impl Fn(&SheetReport) -> Vec<String>) -> Vec<Shared> {
    let mut all: Vec<Shared> = Vec::new();
    for sheet in sheets {
        for text in says(sheet) {
            let is_of = |one: &Shared| std::ptr::eq(one.calculator, sheet.calculator);
            let place = sheet.name.clone();
            match all.iter_mut().find(|one| is_of(one) && one.text == text) {
                Some(one) if one.places.contains(&place) => (),
                Some(one) => one.places.push(place),
                None => {
                    let end = all.iter().rposition(is_of).map_or(all.len(), |last| last + 1);
                    all.insert(end, Shared { calculator: sheet.calculator, text, places: vec![place] });
                }
            }
        }
    }
    all
}

/// How a usual value that nobody typed is marked.
pub const USUAL: &str = "usual value";

/// Every sheet of a plan, in the order of its places, each with its working.
pub fn sheets(plan: &Plan) -> Vec<SheetReport> {
    let results = Results::worked(plan);
    let mut sheets = Vec::new();
    for place in &plan.places {
        let cells = results.network.cells.iter().enumerate().filter(|(_, cell)| cell.place == place.id);
        sheets.extend(cells.map(|(cell, _)| sheet(plan, &results, cell)));
    }
    sheets
}

fn sheet(plan: &Plan, results: &Results, cell: usize) -> SheetReport {
    let found = &results.network.cells[cell];
    let calculator = found.calculator;
    let outcome = results.outcome(cell);
    let inputs = calculator.inputs.iter().filter(|input| !is_on_cover(calculator, input));
    let inputs = inputs.filter_map(|input| {
        item(plan, results, &Field::single(found.place, calculator.id, input.symbol), input)
    });
    let inputs = inputs.collect();
    let mut assumed_in_rows = Vec::new();
    let grids = (1..=calculator.tables.len())
        .filter_map(|table| grid(plan, results, cell, table, &mut assumed_in_rows))
        .collect();
    let (mut answers, mut missing) = (Vec::new(), Vec::<(String, Vec<&'static str>)>::new());
    for output in calculator.outputs.iter().filter(|_| outcome.is_some()) {
        let (label, symbol) = (output.label, output.symbol);
        if let Some(value) = answer(results, cell, output, "") {
            answers.push(Item { label, symbol, value, from: String::new() });
            continue;
        }
        let why = output.missing.map_or("–".into(), Missing::text);
        match missing.iter_mut().find(|(known, _)| *known == why) {
            Some((_, labels)) => labels.push(label),
            None => missing.push((why, vec![label])),
        }
    }
    SheetReport {
        place: found.place,
        name: found.name.to_string(),
        calculator,
        inputs,
        answers,
        missing,
        grids,
        assumed_in_rows,
        stop: results.stop(cell).map(|stop| stop.text()),
        working: outcome.map(|outcome| outcome.lines.clone()).unwrap_or_default(),
        findings: outcome.map(|outcome| outcome.findings.clone()).unwrap_or_default(),
        cautions: outcome.map(|outcome| outcome.cautions.clone()).unwrap_or_default(),
    }
}

/// An input as it stands, if it is asked for and there is anything to say of it.
fn item(plan: &Plan, results: &Results, field: &Field, input: &'static Input) -> Option<Item> {
    let view =
        results.field(field, plan.entry(field)).filter(|view| view.is_asked && !view.text.is_empty())?;
    let unit = if input.form == Form::Number { results.style().symbol(view.unit) } else { String::new() };
    // What a preset or a recipe filled in counts as usual, as long as it reads the same.
    let from = match (view.origin, view.follows, input.form) {
        _ if results.is_usual(field) => USUAL.into(),
        (Origin::Typed, _, Form::Number | Form::Text) => "typed".into(),
        (Origin::Typed, _, Form::Choice(_)) => "chosen".into(),
        (Origin::Overtyped, Some(follows), _) => format!("typed, in place of {follows}"),
        (Origin::Overtyped, None, _) => "typed".into(),
        (Origin::Linked, Some(follows), _) => follows,
        (Origin::Linked, None, _) | (Origin::Default, _, Form::Number) => USUAL.into(),
        (Origin::Default, _, _) => "not chosen".into(),
    };
    Some(Item { label: input.label, symbol: input.symbol, value: joined(&view.text, &unit), from })
}

fn answer(results: &Results, cell: usize, output: &Output, key: &str) -> Option<String> {
    let (number, unit) = results.answer_text(cell, output.symbol, key, DIGITS)?;
    Some(joined(&number, unit))
}

/// Whether a usual value in a row is an assumption: not what a link brought, nor the nought of a sum of nothing.
fn is_assumed(results: &Results, field: &Field, input: &Input) -> bool {
    let is_sum = input.follows.is_some_and(|follows| follows.over == Over::Sum);
    let default = input.default_datum().value.si.to_bits();
    let is_default = results.datum(field).is_some_and(|(datum, _)| datum.value.si.to_bits() == default);
    results.is_usual(field) || is_default && !is_sum && !input.only_followed
}

/// What stands on the cover does not stand among the inputs a second time.
fn is_on_cover(calculator: &Calculator, input: &Input) -> bool {
    calculator.id == site::CALCULATOR.id && input.symbol == site::AUTHOR
}

fn grid(
    plan: &Plan,
    results: &Results,
    cell: usize,
    table: usize,
    assumed: &mut Vec<(&'static str, String, Vec<Key>)>,
) -> Option<Grid> {
    let found = &results.network.cells[cell];
    let declared = found.calculator.table(table);
    let keys = results.rows(cell, table);
    let columns = declared.columns.iter().map(|input| {
        let text = |key: &Key| {
            let field = Field::cell(found.place, found.calculator.id, declared.id, key, input.symbol);
            let item = item(plan, results, &field, input)?;
            if item.from == USUAL && is_assumed(results, &field, input) {
                let known =
                    assumed.iter().position(|(label, value, _)| *label == item.label && *value == item.value);
                match known {
                    Some(known) => assumed[known].2.push(key.clone()),
                    None => assumed.push((item.label, item.value.clone(), vec![key.clone()])),
                }
            }
            Some(item.value)
        };
        (input.label, keys.iter().map(text).collect::<Vec<_>>())
    });
    let answers = declared.answers.iter().map(|output| {
        (output.label, keys.iter().map(|key| answer(results, cell, output, key)).collect::<Vec<_>>())
    });
    let shown: Vec<_> =
        columns.chain(answers).filter(|(_, cells)| cells.iter().any(Option::is_some)).collect();
    let labels = std::iter::once(declared.key_label).chain(shown.iter().map(|(label, _)| *label));
    let head = labels.map(Key::from).collect();
    let row = |(at, key): (usize, &Key)| {
        (key.clone(), shown.iter().map(|(_, cells)| cells[at].clone().unwrap_or_default()).collect())
    };
    let rows: Vec<_> = keys.iter().enumerate().map(row).collect();
    (!rows.is_empty()).then_some(Grid { label: declared.label, head, rows })
}

/// A number and its unit, kept together.
fn joined(number: &str, unit: &str) -> String {
    if unit.is_empty() { number.to_string() } else { format!("{number}\u{a0}{unit}") }
}

impl Results {
    /// A plan with the working of every sheet: for paper, where all of it is read.
    pub fn worked(plan: &Plan) -> Results {
        let mut network = crate::network::Network::of(plan);
        let outcomes = network.run_all(Depth::Working);
        Results { network, outcomes, ..Results::default() }
    }
}

/// The working as text that can be pasted anywhere: of each step what it is, its formula, and the numbers put in.
pub fn working_text(title: &str, lines: &[Line]) -> String {
    let mut text = format!("{title}\n");
    for line in lines {
        text += &format!("\n{}\n{} = {}\n{}\n", line.label, line.symbol, line.shown.formula, line.numbers());
    }
    text
}
