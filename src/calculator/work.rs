//! What a `work` function holds while it runs, and what comes out of it.

use super::lookup::{answer_of, column_of};
use super::{Calculator, Finding, Given, Input, Key, Severity, Stop, Tables, find_or_push, number};
use crate::quantity::{Q, Shown};
use crate::units::{Style, Unit, Value};
use std::fmt::Display;
use std::sync::Arc;

/// How much an evaluation is to give.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Depth {
    /// Answers alone: for sweeps and solving.
    Answers,
    /// Findings and cautions too.
    Findings,
    /// The working and the work order too, with dimensions checked: for the sheet that is read.
    Working,
}

/// One line of the working.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The symbol that the line defines.
    pub symbol: String,
    /// What it is.
    pub label: String,
    /// Formula and numbers put in.
    pub shown: Shown,
    /// The result, in its unit.
    pub result: String,
}

impl Line {
    /// Its numbers put in, where that says more than the result, and the result: "= 40·200 = 8000 g".
    pub fn numbers(&self) -> String {
        let shown = &self.shown;
        let is_plain = shown.formula == shown.numbers || shown.numbers == self.result;
        let put_in = if is_plain { String::new() } else { format!("= {} ", shown.numbers) };
        format!("{put_in}= {}", self.result)
    }
}

/// One step of a work order.
#[derive(Clone, Debug, PartialEq)]
pub struct Instruction {
    /// What to do.
    pub text: String,
    /// The row that it adds, if any.
    pub row: Option<Key>,
    /// The amount wanted, as text.
    pub wanted: String,
    /// The same in SI, and the unit in which it is measured out; `None` where nothing is measured.
    pub amount: Option<(f64, &'static Unit)>,
    /// The same amount measured another way, as text: litres beside kilograms. May be empty.
    pub also: String,
}

/// Answers in SI, in the order of the declaration; and, by depth, everything there is to read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outcome {
    /// One number per declared answer; `NaN` only in an optional one that is missing.
    pub answers: Tables<f64>,
    /// The working.
    pub lines: Vec<Line>,
    /// What to look at, the worst first.
    pub findings: Vec<Finding>,
    /// The cautions that apply.
    pub cautions: Vec<&'static str>,
    /// The steps of the work order.
    pub order: Vec<Instruction>,
}

/// A row of a table, while the sum runs.
#[derive(Clone, Debug)]
pub struct Row {
    pub(super) table: usize,
    pub(super) at: usize,
    /// Its name.
    pub key: Key,
}

/// What a `work` function holds: it takes named inputs from it and gives named answers to it.
pub struct Work<'a> {
    pub(super) calculator: &'a Calculator,
    pub(super) given: &'a Given,
    pub(super) depth: Depth,
    /// How numbers in texts are written.
    pub style: Style,
    /// The key of the single inputs and answers: none.
    pub(super) top: Key,
    pub(super) outcome: Outcome,
}

impl Work<'_> {
    /// The inputs of these symbols, in this order. A choice gives the number that its word carries.
    pub fn inputs<const N: usize>(&self, symbols: [&str; N]) -> Result<[Q; N], Stop> {
        self.of(&self.top(), symbols)
    }

    /// The same for the columns of a row.
    pub fn of<const N: usize>(&self, row: &Row, symbols: [&str; N]) -> Result<[Q; N], Stop> {
        let mut quantities = [Q::from(0.0); N];
        for (quantity, symbol) in quantities.iter_mut().zip(symbols) {
            *quantity = self.quantity(row, symbol)?;
        }
        Ok(quantities)
    }

    fn quantity(&self, row: &Row, symbol: &str) -> Result<Q, Stop> {
        let (input, value) = self.input(row, symbol)?;
        if value.si.is_nan() {
            let reason = match &*row.key {
                "" => format!("“{}” is still to be typed", input.label),
                key => format!("{key}: “{}” is still to be typed", input.label),
            };
            return Err(Stop::todo(input.symbol, reason, "Type it.").row(&row.key));
        }
        Ok(Q::named(At(symbol, &row.key), self.as_read(input, input.carried(value))))
    }

    /// An input that may be left out.
    pub fn optional(&self, row: &Row, symbol: &str) -> Result<Option<Q>, Stop> {
        let (_, value) = self.input(row, symbol)?;
        Ok((!value.si.is_nan()).then(|| Q::named(At(symbol, &row.key), value)))
    }

    /// What was typed is shown in its own unit, all else in the unit in which answers read.
    fn as_read(&self, input: &Input, value: Value) -> Value {
        // Only a working is read; a sweep has no reader.
        let is_read = self.depth == Depth::Working && std::ptr::eq(value.unit, input.unit);
        Value { unit: if is_read { self.style.best(value.si, value.unit) } else { value.unit }, ..value }
    }

    /// The word that was chosen in a row, or in [`Work::top`].
    pub fn word(&self, row: &Row, symbol: &str) -> Result<&'static str, Stop> {
        let (input, value) = self.input(row, symbol)?;
        input.word(value.si).ok_or_else(|| Stop::fault(format!("{symbol} is not a choice")))
    }

    /// The text in a row, or in [`Work::top`].
    pub fn text(&self, row: &Row, symbol: &str) -> Result<Arc<str>, Stop> {
        self.input(row, symbol)?;
        let column = self.calculator.port(symbol).map_or(0, |port| port.column);
        let text = self.given[row.table][row.at].1[column].text.clone();
        text.ok_or_else(|| Stop::fault(format!("{symbol} is not a text")))
    }

    fn input(&self, row: &Row, symbol: &str) -> Result<(&'static Input, Value), Stop> {
        let inputs = self.calculator.columns(row.table);
        let index = column_of(inputs, symbol);
        let index = index.ok_or_else(|| Stop::fault(format!("no input {symbol}")))?;
        if !self.calculator.asks_in(&inputs[index], row.table, row.at, self.given) {
            return Err(Stop::fault(format!("{symbol} is hidden and yet used")));
        }
        let datum =
            self.given.get(row.table).and_then(|rows| rows.get(row.at)).and_then(|row| row.1.get(index));
        let datum = datum.ok_or_else(|| Stop::fault(format!("{symbol} has no value")))?;
        Ok((&inputs[index], datum.value))
    }

    /// The one row of the single inputs and answers.
    pub fn top(&self) -> Row {
        Row { table: 0, at: 0, key: self.top.clone() }
    }

    /// The rows of a table.
    pub fn rows(&self, table: &str) -> Result<Vec<Row>, Stop> {
        let table = self.table(table)?;
        let keys = self.outcome.answers[table].iter().enumerate();
        Ok(keys.map(|(at, (key, _))| Row { table, at, key: key.clone() }).collect())
    }

    /// The row of this key in a table without columns, made if it is not there.
    pub fn row(&mut self, table: &str, key: &str) -> Result<Row, Stop> {
        let table = self.table(table)?;
        let blank = vec![f64::NAN; self.calculator.answers(table).len()];
        let at = find_or_push(&mut self.outcome.answers[table], key, || blank);
        Ok(Row { table, at, key: self.outcome.answers[table][at].0.clone() })
    }

    fn table(&self, id: &str) -> Result<usize, Stop> {
        self.calculator.table_named(id).ok_or_else(|| Stop::fault(format!("no table {id}")))
    }

    /// Names an intermediate result: a line of the working, and a symbol for the lines after it.
    pub fn step(&mut self, symbol: impl Display, label: &str, unit: &'static Unit, q: Q) -> Result<Q, Stop> {
        self.line(&symbol, label, unit, q)
    }

    fn line(&mut self, symbol: &dyn Display, label: &str, unit: &'static Unit, q: Q) -> Result<Q, Stop> {
        if !q.si.is_finite() {
            return Err(Stop::fault(format!("{symbol} has no finite value")));
        }
        let Some(shown) = q.shown() else { return Ok(q) };
        if shown.dim != unit.kind.dim() && !q.is_bare_zero() {
            return Err(Stop::fault(format!("{symbol} is {:?}, not {}", shown.dim, unit.kind.called())));
        }
        let unit = self.style.best(q.si, unit);
        let (name, label, result) = (symbol.to_string(), label.into(), self.style.show(q.si, unit));
        if self.outcome.lines.iter().any(|line| line.symbol == name) || self.is_given(&name) {
            return Err(Stop::fault(format!("{name} stands for something else already")));
        }
        self.outcome.lines.push(Line { symbol: name, label, shown, result });
        Ok(Q::named(symbol, Value { si: q.si, unit }))
    }

    /// Whether a symbol of the working is an input that has a value. A table's value may stand in for one that
    /// is left out or hidden, under its symbol.
    fn is_given(&self, name: &str) -> bool {
        let (symbol, key) = name.trim_end_matches(']').split_once('[').unwrap_or((name, &self.top));
        let Some(port) = self.calculator.port(symbol).filter(|port| !port.answer) else { return false };
        let rows = self.given.get(port.table).into_iter().flatten();
        let Some(row) = rows.into_iter().position(|(known, _)| **known == *key) else { return false };
        number(port, row, self.given, None).is_some_and(f64::is_finite)
            && self
                .calculator
                .input_at(port)
                .is_some_and(|input| self.calculator.asks_in(input, port.table, row, self.given))
    }

    /// The same in a row: the symbol gets the row's key.
    pub fn step_in(
        &mut self,
        row: &Row,
        symbol: &str,
        label: &str,
        unit: &'static Unit,
        q: Q,
    ) -> Result<Q, Stop> {
        self.step(At(symbol, &row.key), label, unit, q)
    }

    /// Gives a declared answer.
    pub fn answer(&mut self, symbol: &str, q: Q) -> Result<Q, Stop> {
        self.give(&self.top(), symbol, q)
    }

    /// Gives a declared answer of a row.
    pub fn give(&mut self, row: &Row, symbol: &str, q: Q) -> Result<Q, Stop> {
        let answers = self.calculator.answers(row.table);
        let index = answer_of(answers, symbol);
        let index = index.ok_or_else(|| Stop::fault(format!("no answer {symbol}")))?;
        self.outcome.answers[row.table][row.at].1[index] = q.si;
        self.step(At(symbol, &row.key), answers[index].label, answers[index].unit, q)
    }

    /// Gives an answer that is a word.
    pub fn say(&mut self, row: &Row, symbol: &str, word: &str) -> Result<(), Stop> {
        let answers = self.calculator.answers(row.table);
        let index = answer_of(answers, symbol);
        let index = index.ok_or_else(|| Stop::fault(format!("no answer {symbol}")))?;
        let at = answers[index].words.iter().position(|known| *known == word);
        let at = at.ok_or_else(|| Stop::fault(format!("“{word}” is no word of {symbol}")))?;
        self.outcome.answers[row.table][row.at].1[index] = at as f64;
        Ok(())
    }

    /// A finding if an answer of a row is above a limit that the sum itself gives.
    pub fn at_most(&mut self, row: &Row, symbol: &str, limit: Q, severity: Severity, why: &str) {
        self.compare(row, symbol, limit, 1.0, severity, why);
    }

    /// A finding if an answer of a row is below a limit that the sum itself gives.
    pub fn at_least(&mut self, row: &Row, symbol: &str, limit: Q, severity: Severity, why: &str) {
        self.compare(row, symbol, limit, -1.0, severity, why);
    }

    fn compare(&mut self, row: &Row, symbol: &str, limit: Q, sign: f64, severity: Severity, why: &str) {
        let port = self.calculator.port(symbol).filter(|_| self.depth > Depth::Answers);
        let finding = port.and_then(|port| {
            let si = number(port, row.at, self.given, Some(&self.outcome))?;
            let output = self.calculator.output_at(port)?;
            output.beyond(si, limit.si, sign, severity, why, &row.key, &self.style)
        });
        self.outcome.findings.extend(finding);
    }

    /// A finding in words, about a row or the whole sheet.
    pub fn add_finding(&mut self, row: &Row, symbol: &str, severity: Severity, text: impl Into<String>) {
        if self.depth > Depth::Answers {
            let at = if symbol.is_empty() { String::new() } else { At(symbol, &row.key).to_string() };
            self.outcome.findings.push(Finding { severity, text: text.into(), at, limit: None });
        }
    }

    /// Whether there is a reader of the work order: only of the sheet that is open.
    pub fn has_order(&self) -> bool {
        self.depth == Depth::Working
    }

    /// A step of the work order; `wanted` is an amount in the unit in which it is measured out.
    pub fn instruct(
        &mut self,
        row: Option<&Row>,
        text: impl Into<String>,
        wanted: Option<(Q, &'static Unit)>,
    ) {
        if self.has_order() {
            let amount = wanted.map(|(q, unit)| (q.si, unit));
            let wanted = amount.map(|(si, unit)| self.style.answer(si, unit)).unwrap_or_default();
            let row = row.map(|row| row.key.clone());
            let also = String::new();
            self.outcome.order.push(Instruction { text: text.into(), row, wanted, amount, also });
        }
    }

    /// Says the amount of the last step in another way of measuring it too: litres beside kilograms.
    pub fn or_measured(&mut self, q: Q, unit: &'static Unit) {
        if let Some(step) = self.outcome.order.last_mut() {
            step.also = self.style.answer(q.si, unit);
        }
    }
}

/// A symbol as in the working: `c`, or `c[Cu]` in a row.
pub(super) struct At<'a>(pub &'a str, pub &'a str);

impl Display for At<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        if self.1.is_empty() { f.write_str(self.0) } else { write!(f, "{}[{}]", self.0, self.1) }
    }
}
