//! What an input makes of typed text: a datum within its range, or why not.

use super::Datum;
use super::declare::{Form, Input};
use crate::units::show::joined;
use crate::units::{NUMBER, Style, Unit, Unread, Value, read};
use std::sync::Arc;

impl Input {
    /// The words of a choice; empty for others.
    pub const fn words(&self) -> &'static [(&'static str, f64)] {
        match self.form {
            Form::Choice(words) => words,
            _ => &[],
        }
    }

    /// What the user typed or picked, as a datum within the hard range.
    pub fn read(&self, text: &str, style: &Style) -> Result<Datum, Unread> {
        let text = text.trim();
        match self.form {
            Form::Text if text.chars().count() > 200 => {
                Err(Unread::Wrong("this is longer than 200 characters; shorten it".into()))
            }
            Form::Text => Ok(Datum { text: Some(Arc::from(text)), ..self.default_datum() }),
            Form::Choice(words) => match words.iter().position(|(word, _)| *word == text) {
                Some(k) => Ok(Value { si: k as f64, unit: NUMBER }.into()),
                None => Err(Unread::Wrong(format!(
                    "“{text}” is none of {}",
                    self.range_text(self.hard, NUMBER, style)
                ))),
            },
            Form::Number => {
                let pick = self.picks.iter().find(|(word, _)| *word == text);
                let value = match pick {
                    Some((_, number)) => Value::new(*number, self.unit),
                    None => read(text, self.unit, style).or_else(|unread| self.told_apart(unread, style))?,
                };
                self.check(&value, style)?;
                Ok(value.into())
            }
        }
    }

    /// Whether a field can show this in a unit: one of its kind that can be written behind a number.
    pub fn shows(&self, unit: &Unit) -> bool {
        unit.kind == self.unit.kind && (!unit.symbol.is_empty() || *unit == *self.unit)
    }

    /// Of two readings, the only one that this input may have; where both may be, they are asked back, and the
    /// one that is usual stands first. "1.197" of a density in kg/L is no 1197 kg/L.
    fn told_apart(&self, unread: Unread, style: &Style) -> Result<Value, Unread> {
        let Unread::Ambiguous([first, second]) = unread else { return Err(unread) };
        let within = |range, text: &str| {
            read(text, self.unit, style).ok().filter(|value| self.is_within(range, value))
        };
        match (within(self.hard, &first), within(self.hard, &second)) {
            (Some(value), None) | (None, Some(value)) => return Ok(value),
            _ => {}
        }
        let is_usual = |text: &str| within(self.usual, text).is_some();
        Err(Unread::Ambiguous(if !is_usual(&first) && is_usual(&second) {
            [second, first]
        } else {
            [first, second]
        }))
    }

    /// The default, as a datum.
    pub fn default_datum(&self) -> Datum {
        match self.form {
            Form::Choice(_) => Value { si: self.default, unit: NUMBER }.into(),
            Form::Text => Datum { value: Value { si: 0.0, unit: NUMBER }, text: Some(Arc::from("")) },
            Form::Number => Value::new(self.default, self.unit).into(),
        }
    }

    /// The chosen word, if this is a choice.
    pub fn word(&self, si: f64) -> Option<&'static str> {
        self.words().get(si as usize).map(|(word, _)| *word)
    }

    /// The value itself, or the one that the chosen word carries.
    pub fn carried(&self, value: Value) -> Value {
        match self.words().get(value.si as usize) {
            Some((_, number)) => Value::new(*number, self.unit),
            None => value,
        }
    }

    /// A hair of room, so that a limit typed in another unit is still within.
    pub fn is_within(&self, [low, high]: [f64; 2], value: &Value) -> bool {
        let number = if self.words().is_empty() { self.unit.from_si(value.si) } else { value.si };
        let hair = 1e-12 * (high - low).abs().max(high.abs());
        (low - hair..=high + hair).contains(&number)
    }

    /// A range in the unit that a field shows, or the words of a choice. Never with a power of ten: an end
    /// that no plain number says in that unit has a unit of its own.
    pub fn range_text(&self, [low, high]: [f64; 2], unit: &'static Unit, style: &Style) -> String {
        if !self.words().is_empty() {
            return self.words().iter().map(|(word, _)| *word).collect::<Vec<_>>().join(", ");
        }
        let end = |number: f64| {
            let si = self.unit.to_si(number);
            let unit = if is_plain(unit.from_si(si)) { unit } else { style.best(si, unit) };
            (style.plain(unit.from_si(si)), unit)
        };
        let ((low, low_unit), (high, high_unit)) = (end(low), end(high));
        if low_unit == high_unit || low == "0" {
            return joined(format!("{low} to {high}"), high_unit);
        }
        format!("{} to {}", joined(low, low_unit), joined(high, high_unit))
    }

    /// Refuses what lies outside the hard range.
    pub fn check(&self, value: &Value, style: &Style) -> Result<(), Unread> {
        if self.form != Form::Number
            || self.is_within(self.hard, value)
            || (self.optional && value.si.is_nan())
        {
            return Ok(());
        }
        let shown = style.said_back(value.si, value.unit);
        Err(Unread::Wrong(format!(
            "{shown} is out of range; enter {}",
            self.range_text(self.hard, value.unit, style)
        )))
    }
}

/// Whether a number reads well without a power of ten.
fn is_plain(number: f64) -> bool {
    number == 0.0 || (1e-3..1e7).contains(&number.abs())
}
