//! The numbers and words that go into a calculator, and where a symbol lives.

use super::Outcome;
use crate::units::Value;
use std::sync::Arc;

/// The name of a row, such as `Cu`: rows of the same key are the same thing at every place.
pub type Key = Arc<str>;

/// One input's value: a number, the position of a chosen word, or a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Datum {
    /// The number or position; `NaN` inside an optional input that nobody filled.
    pub value: Value,
    /// The text, if it is a text input.
    pub text: Option<Arc<str>>,
}

impl From<Value> for Datum {
    fn from(value: Value) -> Datum {
        Datum { value, text: None }
    }
}

/// The numbers of each table, in rows, each under its key; and first the single inputs or answers,
/// which are a table of one row whose key is empty. So one code serves both.
pub type Tables<T> = Vec<Vec<(Key, Vec<T>)>>;

/// What a calculator is given, in the order of the declaration.
pub type Given = Tables<Datum>;

/// Where a symbol of a calculator lives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Port {
    /// Which table; 0 for single inputs and answers.
    pub table: usize,
    /// Which of its columns or answers.
    pub column: usize,
    /// Whether it is an answer.
    pub answer: bool,
}

/// The number at a port; `row` counts only in tables. Answers need an outcome.
pub fn number(port: Port, row: usize, given: &Given, outcome: Option<&Outcome>) -> Option<f64> {
    let row = if port.table == 0 { 0 } else { row };
    if port.answer {
        return outcome?.answers.get(port.table)?.get(row)?.1.get(port.column).copied();
    }
    Some(given.get(port.table)?.get(row)?.1.get(port.column)?.value.si)
}

/// The position of a key in rows, added with a `blank` row if it is not there.
pub fn find_or_push<K, T>(rows: &mut Vec<(K, T)>, key: &str, blank: impl FnOnce() -> T) -> usize
where
    K: AsRef<str> + for<'a> From<&'a str>,
{
    rows.iter().position(|(known, _)| known.as_ref() == key).unwrap_or_else(|| {
        rows.push((key.into(), blank()));
        rows.len() - 1
    })
}
