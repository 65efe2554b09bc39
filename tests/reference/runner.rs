//! Reads the rows of published values, runs what a topic is mapped to, and compares.
//!
//! A row's inputs are text, `name=value unit; name=value unit`, read by the app's own reader of
//! units. What is expected is a number with a tolerance relative to it, or a word such as `refuse`.

// Each subject uses what it needs of this.
#![allow(dead_code)]

use bathbook::quantity::{Q, with_tape};
use bathbook::science::Refusal;
use bathbook::units::{Style, Unit, Unread, Value, read};
use std::collections::BTreeMap;
use std::path::Path;

/// One published value.
#[derive(Debug)]
pub struct Row {
    pub id: String,
    pub topic: String,
    /// As written in the file.
    pub inputs: String,
    pub expected: String,
    pub unit: String,
    pub tol_rel: f64,
    pub kind: String,
    pub source: String,
}

/// What came out of a public function.
#[derive(Debug)]
pub enum Found {
    /// A quantity, compared in the row's unit, which must be of this unit's kind.
    Quantity(Q, &'static Unit),
    /// A pH, which is a logarithm: compared to 0.02 whatever its size, as rows of pH say in their notes.
    Ph(f64),
    /// A number of whatever the row's unit says, where the app has no such unit.
    Number(f64),
    /// A word, compared as it stands.
    Word(String),
}

/// Why nothing came out.
#[derive(Debug)]
pub enum Problem {
    /// The function refused; right if the row expects that.
    Refused(Refusal),
    /// The row cannot be read: a fault in the row or in the mapping.
    Unread(String),
    /// This row asks for something that the app does not do, with the reason.
    LeftOut(&'static str),
}

impl From<Refusal> for Problem {
    fn from(refusal: Refusal) -> Problem {
        Problem::Refused(refusal)
    }
}

pub type Outcome = Result<Found, Problem>;

/// A topic's name and the function that a row of it is put to.
pub type Topic = (&'static str, fn(&Row) -> Outcome);

/// Words in the column `expected` that mean a refusal.
const REFUSALS: [&str; 4] = ["refuse", "refused", "impossible", "error"];

impl Row {
    /// The text of an input.
    pub fn text(&self, name: &str) -> Result<&str, Problem> {
        self.given(name).ok_or_else(|| Problem::Unread(format!("no input {name} in “{}”", self.inputs)))
    }

    /// The text of an input that may be missing: from `name=` to the next `;` or the next ` name=`.
    pub fn given(&self, name: &str) -> Option<&str> {
        let mark = format!("{name}=");
        let starts = |at: usize| at == 0 || self.inputs[..at].ends_with([';', ' ', ',']);
        let (at, _) = self.inputs.match_indices(&mark).find(|(at, _)| starts(*at))?;
        let rest = self.inputs.get(at + mark.len()..)?.split(';').next()?;
        let next = rest.find('=').and_then(|equals| rest[..equals].rfind(' '));
        Some(rest.get(..next.unwrap_or(rest.len()))?.trim())
    }

    /// The number that stands before a word: 46.57 in "water 46.57 mol".
    pub fn number_before(&self, word: &str) -> Result<f64, Problem> {
        let words: Vec<_> = self.inputs.split([' ', ';', '=', ',']).collect();
        let found = words.windows(2).find(|pair| pair[1] == word).and_then(|pair| pair[0].parse().ok());
        found.ok_or_else(|| Problem::Unread(format!("no number before {word} in “{}”", self.inputs)))
    }

    /// An input as a quantity; `unit` is what a bare number is in, and fixes the kind.
    pub fn q(&self, name: &str, unit: &'static Unit) -> Result<Q, Problem> {
        Ok(Q::named(name, value(self.text(name)?, unit)?))
    }

    /// An input as a bare number, which may be infinite; a unit behind it is not looked at.
    pub fn number(&self, name: &str) -> Result<f64, Problem> {
        let text = self.text(name)?;
        let word = text.split_whitespace().next().unwrap_or_default();
        word.parse().map_err(|_| Problem::Unread(format!("“{text}” is not a number")))
    }
}

/// Other people's spellings of units, and the app's own. What stands after the unit ("as H2SO4",
/// "(printed)") is for people to read.
const SPELLINGS: &[(&str, &str)] = &[
    ("mPa.s", "mPa·s"),
    ("kJ/kg/K", "kJ/(kg·K)"),
    ("W/m/K", "W/(m·K)"),
    ("g/g", "kg/kg"),
    ("A.h", "A·h"),
    ("A.min", "A·min"),
    ("Pa.s", "Pa·s"),
    ("1/h", "per hour"),
    ("1/min", "per min"),
    ("um", "µm"),
    ("kA.h", "kA·h"),
];

/// A number with its unit, as rows write it: the decimal sign is a point, nothing groups, and
/// remarks may follow ("180 g/L as H2SO4", "100 kPa absolute").
pub fn value(text: &str, unit: &'static Unit) -> Result<Value, Problem> {
    let (number, rest) = text.trim().split_once(' ').unwrap_or((text.trim(), ""));
    let mut last = Problem::Unread(format!("“{text}” is not understood"));
    // The whole of the rest may be the unit, or its first words.
    let ends = rest.match_indices(' ').map(|(at, _)| at).chain([rest.len()]).collect::<Vec<_>>();
    for end in ends.into_iter().rev() {
        match number_with_unit(number, rest[..end].trim(), unit) {
            Ok(value) => return Ok(value),
            Err(unread) => last = Problem::Unread(format!("“{text}”: {unread:?}")),
        }
    }
    // A plain number has no unit: all that follows it is a remark.
    if unit.symbol.is_empty() && !rest.is_empty() { value(number, unit) } else { Err(last) }
}

fn number_with_unit(number: &str, symbol: &str, unit: &'static Unit) -> Result<Value, Unread> {
    let symbol = SPELLINGS.iter().find(|(theirs, _)| *theirs == symbol).map_or(symbol, |(_, ours)| ours);
    let attempt = |number: &str| read(format!("{number} {symbol}").trim(), unit, &Style::default());
    match attempt(number) {
        // "1.231": in a row a point is always the decimal sign.
        Err(Unread::Ambiguous(_)) => attempt(&format!("{number}0")),
        other => other,
    }
}

/// Compares a row with what came out; the error says what is wrong.
pub fn compare(row: &Row, outcome: Outcome) -> Result<(), String> {
    let expected = row.expected.trim();
    let got = match outcome {
        Err(Problem::Refused(_)) if REFUSALS.contains(&expected) => return Ok(()),
        Err(problem) => return Err(format!("{problem:?}, not {expected}")),
        Ok(Found::Word(word)) if word == expected => return Ok(()),
        Ok(Found::Word(word)) => return Err(format!("“{word}”, not “{expected}”")),
        Ok(Found::Ph(ph)) => {
            let number: f64 = expected.parse().map_err(|_| format!("{ph}, not “{expected}”"))?;
            let is_same = (ph - number).abs() <= 0.02;
            return if is_same { Ok(()) } else { Err(format!("pH {ph}, not {expected} within 0.02")) };
        }
        Ok(Found::Number(number)) => number,
        Ok(Found::Quantity(q, unit)) => {
            // A plain number's unit says what it is of: "depth/D", "- (Darcy)".
            let plain = unit.symbol.is_empty();
            let unit = if plain {
                unit
            } else {
                value(&format!("1 {}", row.unit), unit).map_err(|p| format!("{p:?}"))?.unit
            };
            q.number(unit)
        }
    };
    let number: f64 = expected.parse().map_err(|_| format!("{got}, not “{expected}”"))?;
    // Of an expected zero the tolerance is what the row states, as it is.
    let allowed = if number == 0.0 { row.tol_rel } else { row.tol_rel * number.abs() };
    if (got - number).abs() <= allowed {
        return Ok(());
    }
    Err(format!("{got}, not {expected} {} within {}", row.unit, row.tol_rel))
}

/// The rows of every file in a folder, in the order of the files' names.
pub fn rows(folder: &Path) -> Vec<Row> {
    let entries = std::fs::read_dir(folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    let mut files: Vec<_> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
    files.retain(|file| file.extension().is_some_and(|end| end == "csv"));
    files.sort();
    files.iter().flat_map(|file| rows_of(file)).collect()
}

/// The rows of one file; none if it has no column `topic`.
fn rows_of(file: &Path) -> Vec<Row> {
    let mut reader = csv::Reader::from_path(file).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
    let header = reader.headers().cloned().unwrap_or_default();
    let column = |name: &str| header.iter().position(|h| h == name);
    if column("topic").is_none() {
        return Vec::new();
    }
    let read = |record: csv::StringRecord| {
        let field = |name| column(name).and_then(|k| record.get(k)).unwrap_or_default().trim().to_string();
        Row {
            id: field("id"),
            topic: field("topic"),
            inputs: field("inputs"),
            expected: field("expected"),
            unit: field("unit"),
            tol_rel: field("tol_rel").parse().unwrap_or(0.0),
            kind: field("kind"),
            source: field("source"),
        }
    };
    let records = reader.records().map(|record| record.unwrap_or_else(|e| panic!("{}: {e}", file.display())));
    records.map(read).collect()
}

/// How a folder's rows came out.
#[derive(Default)]
pub struct Report {
    /// Rows that agree, by topic.
    pub agreed: BTreeMap<String, usize>,
    /// Rows that do not, in words.
    pub wrong: Vec<String>,
    /// Rows of topics that are not mapped, or left out by their mapping, with the reason if there is one.
    pub uncovered: BTreeMap<(String, String), usize>,
}

/// What a row comes to, with its dimensions checked as a sheet's working has them checked: a law that loses the
/// metal of its mass, or gives another kind than the topic says, is wrong whatever the number.
fn measured(row: &Row, topic: fn(&Row) -> Outcome) -> Outcome {
    let (outcome, fault) = with_tape(Some(Style::default()), || {
        let outcome = topic(row)?;
        if let Found::Quantity(q, unit) = outcome
            && let Some(shown) = q.shown()
            && shown.dim != unit.kind.dim()
            && !q.is_bare_zero()
        {
            return Err(Problem::Unread(format!("gives {:?} and not {}", shown.dim, unit.kind.called())));
        }
        Ok(outcome)
    });
    match fault {
        Some(fault) => Err(Problem::Unread(format!("the law {fault}"))),
        None => outcome,
    }
}

/// Puts every row to its topic's function.
pub fn run(rows: &[Row], topics: &[Topic], reasons: &[(&str, &str)]) -> Report {
    let mut report = Report::default();
    for row in rows {
        let Some((_, topic)) = topics.iter().find(|(name, _)| *name == row.topic) else {
            let reason = reasons.iter().find(|(name, _)| *name == row.topic).map_or("", |(_, why)| why);
            *report.uncovered.entry((row.topic.clone(), reason.into())).or_default() += 1;
            continue;
        };
        match measured(row, *topic) {
            Err(Problem::LeftOut(why)) => {
                *report.uncovered.entry((row.topic.clone(), why.into())).or_default() += 1;
            }
            outcome => match compare(row, outcome) {
                Ok(()) => *report.agreed.entry(row.topic.clone()).or_default() += 1,
                Err(why) => report.wrong.push(format!("{} {} ({}): {why}", row.id, row.topic, row.inputs)),
            },
        }
    }
    report
}
