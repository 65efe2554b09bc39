//! One evaluation: checks, the sum, findings, cautions.

use super::work::At;
use super::{
    Calculator, Caution, Datum, Depth, Finding, Form, Given, Input, Key, Outcome, Output, Port, Severity,
    Stop, When, Work, number,
};
use crate::quantity::with_tape;
use crate::units::{Style, Value};

impl Calculator {
    /// Evaluates once.
    pub fn evaluate(&self, given: &Given, style: &Style, depth: Depth) -> Result<Outcome, Stop> {
        let asked: Vec<_> = self.asked(given).collect();
        for (input, datum, key) in &asked {
            input.refuse(&datum.value, style).map_err(|stop| stop.row(key))?;
        }
        let blank = |(t, rows): (usize, &Vec<(Key, Vec<Datum>)>)| {
            let answers = self.answers(t).len();
            rows.iter().map(|(key, _)| (key.clone(), vec![f64::NAN; answers])).collect()
        };
        let answers = given.iter().enumerate().map(blank).collect();
        let outcome = Outcome { answers, ..Outcome::default() };
        let top =
            given.first().and_then(|rows| rows.first()).map_or_else(|| "".into(), |(key, _)| key.clone());
        let mut work = Work { calculator: self, given, depth, style: *style, top, outcome };
        let tape = (depth == Depth::Working).then_some(*style);
        let (done, fault) = with_tape(tape, || (self.work)(&mut work));
        if let Some(fault) = fault {
            return Err(Stop::fault(fault));
        }
        done?;
        let mut outcome = work.outcome;
        let missing =
            self.answered(&outcome).find(|(output, si, _)| !si.is_finite() && output.missing.is_none());
        if let Some((output, ..)) = missing {
            return Err(Stop::fault(format!("{} was not given", output.symbol)));
        }
        if depth > Depth::Answers {
            let mut findings = std::mem::take(&mut outcome.findings);
            findings
                .extend(self.answered(&outcome).flat_map(|(output, si, key)| output.limits(si, key, style)));
            findings.extend(asked.iter().filter_map(|(input, datum, key)| input.remark(datum, key, style)));
            crate::order::sort_by_key(&mut findings, |finding| std::cmp::Reverse(finding.severity));
            outcome.findings = findings;
            let rows = outcome.answers.iter().map(Vec::len).max().unwrap_or(0);
            let applies = |c: &&Caution| {
                (0..rows).any(|row| c.when.iter().all(|w| self.holds(w, None, row, given, Some(&outcome))))
            };
            outcome.cautions = self.cautions.iter().filter(applies).map(|caution| caution.text).collect();
        }
        Ok(outcome)
    }

    /// Every input and cell that is not hidden.
    fn asked<'a>(&'a self, given: &'a Given) -> impl Iterator<Item = (&'static Input, &'a Datum, &'a Key)> {
        given.iter().enumerate().flat_map(move |(t, rows)| {
            rows.iter().enumerate().flat_map(move |(at, (key, data))| {
                let cells = self.columns(t).iter().zip(data).map(move |(input, datum)| (input, datum, key));
                cells.filter(move |(input, ..)| self.asks_in(input, t, at, given))
            })
        })
    }

    /// Every answer, with its row's key.
    pub fn answered<'a>(
        &self,
        outcome: &'a Outcome,
    ) -> impl Iterator<Item = (&'static Output, f64, &'a Key)> {
        outcome.answers.iter().enumerate().flat_map(|(t, rows)| {
            let declared = self.answers(t);
            let cells = move |(key, numbers): &'a (Key, Vec<f64>)| {
                declared.iter().zip(numbers).map(move |(output, &si)| (output, si, key))
            };
            rows.iter().flat_map(cells)
        })
    }

    /// Whether an input is asked for: its condition holds, or it has none.
    pub fn asks(&self, input: &Input, row: usize, given: &Given) -> bool {
        input.when.is_none_or(|when| self.holds(&when, None, row, given, None))
    }

    /// The same where the table is known, which is quicker.
    pub(super) fn asks_in(&self, input: &Input, table: usize, row: usize, given: &Given) -> bool {
        input.when.is_none_or(|when| self.holds(&when, Some(table), row, given, None))
    }

    /// Whether a condition holds; `table` is where its symbol probably lives.
    fn holds(
        &self,
        when: &When,
        table: Option<usize>,
        row: usize,
        given: &Given,
        outcome: Option<&Outcome>,
    ) -> bool {
        let (When::Is(symbol, _) | When::Not(symbol, _) | When::Above(symbol, _)) = *when;
        let near = table.and_then(|table| {
            let column = self.columns(table).iter().position(|input| same(input.symbol, symbol))?;
            Some(Port { table, column, answer: false })
        });
        let Some(port) = near.or_else(|| self.port(symbol)) else { return false };
        let Some(si) = number(port, row, given, outcome) else { return false };
        let is_hidden = |input: &Input| {
            !input.when.is_none_or(|when| self.holds(&when, Some(port.table), row, given, None))
        };
        if self.input_at(port).is_some_and(is_hidden) {
            return false;
        }
        let word = || match (self.input_at(port), self.output_at(port)) {
            (Some(input), _) => input.word(si).unwrap_or_default(),
            (_, Some(output)) => output.words.get(si as usize).copied().unwrap_or_default(),
            _ => "",
        };
        match when {
            When::Is(_, words) => words.contains(&word()),
            When::Not(_, words) => !words.contains(&word()),
            When::Above(_, least) => self.unit(port).from_si(si) > *least,
        }
    }
}

#[cfg(test)]
impl Calculator {
    /// What it makes of typed texts, with its working: for the tests of sheets.
    #[track_caller]
    pub fn tried(
        &self,
        inputs: super::Texts,
        rows: &'static [(&'static str, &'static str, super::Texts)],
    ) -> Result<Outcome, Stop> {
        let example = super::Example { source: "", inputs, rows, answers: &[], within: 0.0 };
        let given = self.given(&example).unwrap_or_else(|why| panic!("{why}"));
        self.evaluate(&given, &Style::default(), Depth::Working)
    }
}

impl Input {
    fn refuse(&self, value: &Value, style: &Style) -> Result<(), Stop> {
        self.check(value, style).map_err(|_| {
            let reason =
                format!("{} of {} is out of range", self.label, style.said_back(value.si, value.unit));
            Stop::at(self.symbol, reason, format!("Enter {}.", self.range_text(self.hard, value.unit, style)))
        })
    }

    fn remark(&self, datum: &Datum, key: &str, style: &Style) -> Option<Finding> {
        let value = &datum.value;
        let is_left_out = self.optional && value.si.is_nan();
        if self.form != Form::Number || is_left_out || self.is_within(self.usual, value) {
            return None;
        }
        let (label, shown, range) = (
            self.label,
            style.said_back(value.si, value.unit),
            self.range_text(self.usual, value.unit, style),
        );
        let what = if key.is_empty() { label.to_string() } else { format!("{key}, {label}") };
        let text = format!("{what}: {shown} is unusual; usual is {range}.");
        let at = At(self.symbol, key).to_string();
        Some(Finding { severity: Severity::Note, text, at, limit: None })
    }
}

impl Output {
    fn limits(&self, si: f64, key: &str, style: &Style) -> impl Iterator<Item = Finding> {
        let limit = |declared: Option<(f64, Severity, &str)>, sign: f64| {
            let (limit, severity, why) = declared?;
            self.beyond(si, self.unit.to_si(limit), sign, severity, why, key, style)
        };
        limit(self.above, 1.0).into_iter().chain(limit(self.below, -1.0))
    }

    /// The finding, if `si` is above (`sign` 1) or below (−1) the limit by more than rounding.
    #[allow(clippy::too_many_arguments)]
    pub(super) fn beyond(
        &self,
        si: f64,
        limit: f64,
        sign: f64,
        severity: Severity,
        why: &str,
        key: &str,
        style: &Style,
    ) -> Option<Finding> {
        // A missing answer (NaN) is beyond nothing.
        let beyond = sign * (si - limit) > 1e-9 * si.abs().max(limit.abs());
        if !beyond {
            return None;
        }
        let side = if sign > 0.0 { "above" } else { "below" };
        let what = if key.is_empty() { self.label.into() } else { format!("{key}, {}", self.label) };
        let unit = style.best(si, self.unit);
        let [shown, limit_text] = style.told_apart([si, limit], unit);
        let text = format!("{what}: {shown}, {side} {limit_text}. {why}");
        Some(Finding { severity, text, at: At(self.symbol, key).to_string(), limit: Some(limit) })
    }
}

/// Whether two symbols of declarations are the same: mostly the very same text in memory.
fn same(a: &'static str, b: &'static str) -> bool {
    std::ptr::eq(a, b) || a == b
}
