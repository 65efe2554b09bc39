//! One evaluation: checks, the sum, findings, cautions.

use super::lookup::column_of;
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
        let asked = self.asked(given);
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
        let mut findings = std::mem::take(&mut outcome.findings);
        let answered: Vec<_> = self.answered(&outcome).collect();
        let missing = answered.iter().find(|(output, si, _)| !si.is_finite() && output.missing.is_none());
        if let Some((output, ..)) = missing {
            return Err(Stop::fault(format!("{} was not given", output.symbol)));
        }
        if depth > Depth::Answers {
            for (output, si, key) in answered {
                for (declared, sign) in [(output.above, 1.0), (output.below, -1.0)] {
                    if let Some((limit, severity, why)) = declared {
                        let limit = output.unit.to_si(limit);
                        findings.extend(output.beyond(si, limit, sign, severity, why, key, style));
                    }
                }
            }
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
    fn asked<'a>(&self, given: &'a Given) -> Vec<(&'static Input, &'a Datum, &'a Key)> {
        let mut all = Vec::new();
        for (t, rows) in given.iter().enumerate() {
            for (at, (key, data)) in rows.iter().enumerate() {
                for (input, datum) in self.columns(t).iter().zip(data) {
                    if self.asks_in(input, t, at, given) {
                        all.push((input, datum, key));
                    }
                }
            }
        }
        all
    }

    /// Every answer, with its row's key.
    pub fn answered<'a>(
        &self,
        outcome: &'a Outcome,
    ) -> impl Iterator<Item = (&'static Output, f64, &'a Key)> {
        let mut all = Vec::new();
        for (t, rows) in outcome.answers.iter().enumerate() {
            for (key, numbers) in rows {
                let cells = self.answers(t).iter().zip(numbers);
                all.extend(cells.map(|(output, &si)| (output, si, key)));
            }
        }
        all.into_iter()
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
            let column = column_of(self.columns(table), symbol)?;
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
