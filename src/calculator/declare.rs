//! Declarations: calculators, inputs, tables, answers, cautions, examples. How they are written: `builders`.

use super::{Severity, Stop, Subject, Work};
use crate::units::{Style, Unit};

/// One declared calculator.
pub struct Calculator {
    /// Stable name in files, links and addresses: never changed once released.
    pub id: &'static str,
    /// As shown.
    pub title: &'static str,
    /// The question that it answers, in plain words.
    pub question: &'static str,
    /// What it is about.
    pub subject: Subject,
    /// Whether it makes sense by itself, without a plan.
    pub quick: bool,
    /// Whether a new place of its sort has it from the start; if not, it is added by a touch.
    pub from_start: bool,
    /// Single numbers that it asks for.
    pub inputs: &'static [Input],
    /// Tables: rows of ingredients, metals, fittings …
    pub tables: &'static [Table],
    /// What it answers; the first is the headline.
    pub outputs: &'static [Output],
    /// The picture to show first.
    pub picture: Option<Picture>,
    /// A work order, if the answer is something that hands do.
    pub work_order: Option<WorkOrder>,
    /// Starting points to fill the sheet in with.
    pub recipes: &'static [Recipe],
    /// Where somebody can be hurt.
    pub cautions: &'static [Caution],
    /// Where its formulas and constants come from.
    pub sources: &'static [&'static str],
    /// Worked examples with known answers; each one is a test.
    pub examples: &'static [Example],
    /// The sum itself. See [`Work`].
    pub work: fn(&mut Work) -> Result<(), Stop>,
}

/// How an input is filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// A number with a unit.
    Number,
    /// One word of a closed list; each carries a number in the input's unit. The value is the position.
    Choice(&'static [(&'static str, f64)]),
    /// A text, such as a formula or initials.
    Text,
}

/// One declared input. Ranges and default are in `unit`, which also fixes the kind of quantity.
#[derive(Clone, Copy)]
pub struct Input {
    /// As in formulas.
    pub symbol: &'static str,
    /// As in forms.
    pub label: &'static str,
    /// The unit of the ranges, the default, and of numbers typed without a unit.
    pub unit: &'static Unit,
    /// How it is filled.
    pub form: Form,
    /// Outside this a typed number is not taken.
    pub hard: [f64; 2],
    /// Outside this it answers and remarks on it.
    pub usual: [f64; 2],
    /// Used until the user types something.
    pub default: f64,
    /// Whether there is no default: `work` asks with [`Work::optional`] if it may be left out; else
    /// the sheet says that it is still to be typed.
    pub optional: bool,
    /// What to enter, and where to find it.
    pub help: &'static str,
    /// Whether it is there only to follow: shown where it follows something, and never typed.
    pub only_followed: bool,
    /// The answer of a place with which this starts, where a new place is made for that one to lead to.
    pub takes_on: Option<Source>,
    /// Calculators of whose sheet a place is made, each with the word with which this then begins. Of the last one
    /// it begins with the first word whose sheet is there.
    pub begins_as: &'static [(&'static str, &'static str)],
    /// What must be said where a change of it is offered as a cure.
    pub as_cure: &'static str,
    /// Named values to pick from, in `unit`; others may be typed.
    pub picks: &'static [(&'static str, f64)],
    /// The heading under which it stands; empty for none.
    pub group: &'static str,
    /// Asked only when this holds; a hidden input keeps its text and is neither read nor checked.
    pub when: Option<When>,
    /// What this follows unless the user types over it.
    pub follows: Option<Follows>,
    /// What the line map takes it for, if anything.
    pub role: Option<Role>,
}

/// A declared link to symbols of earlier calculators, or of this one at an earlier place. A column
/// that follows brings the rows of what it follows.
#[derive(Clone, Copy)]
pub struct Follows {
    /// Ids of calculators, each with the symbol of an answer, an input or a column.
    pub from: &'static [Source],
    /// From where.
    pub over: Over,
    /// Whether it is left out, or has its usual value, while what it follows has no answer; else the sheet
    /// waits for that.
    pub if_known: bool,
}

/// A calculator's id and one of its symbols.
pub type Source = (&'static str, &'static str);

/// The places that a link takes its value from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Over {
    /// The same place.
    Here,
    /// The place that this one comes from.
    Origin,
    /// The site.
    Site,
    /// The sum over the places that lead here; every place leads to the site.
    Sum,
    /// The largest of the places that lead here.
    Largest,
    /// One row for each place that leads here, named after it; or, of what stands in rows there, all rows.
    Each,
    /// The same for each place that comes from this one, directly or by others.
    EachFromHere,
}

impl Over {
    /// Whether it brings a row for each place.
    pub fn is_each(self) -> bool {
        matches!(self, Over::Each | Over::EachFromHere)
    }
}

/// What the line map, and the tables beside it, take an input or an answer for. They name no calculator
/// and no symbol: they ask a place's sheets for roles. A sheet has each role once at most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Role {
    /// The volume that a bath holds.
    Volume,
    /// The volume of a stream or a route in a time.
    Flow,
    /// What it is by hazard, in a word.
    Class,
    /// The sort of a stream; with one of these words its water is its own, not that of the bath before it.
    OwnWater(&'static [&'static str]),
    /// The route that suits a stream, in a word.
    Suggested,
    /// In rows of metals: mass per volume.
    Concentration,
    /// In rows of metals: mass in a time.
    Load,
}

/// Texts, each with the symbol that it is for.
pub type Texts = &'static [(&'static str, &'static str)];

/// A declared table. Its rows are those typed, those brought by a column that follows, and those
/// that `work` makes.
#[derive(Clone, Copy)]
pub struct Table {
    /// Stable name in files.
    pub id: &'static str,
    /// As shown above it.
    pub label: &'static str,
    /// What a row is named by: "Ingredient".
    pub key_label: &'static str,
    /// What the button says that adds a row; `None` if rows only come by links or from `work`.
    pub add: Option<&'static str>,
    /// Names to offer for a new row.
    pub suggest: &'static [&'static str],
    /// What a new row of a name starts with: name, and cells as typed.
    pub presets: &'static [(&'static str, Texts)],
    /// What it asks for in each row.
    pub columns: &'static [Input],
    /// What it answers for each row; the first stands on the row, the others below it.
    pub answers: &'static [Output],
}

/// A condition on an input or an answer, of the same row if it is in a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum When {
    /// The choice is one of these words.
    Is(&'static str, &'static [&'static str]),
    /// The choice is none of these words.
    Not(&'static str, &'static [&'static str]),
    /// The number, in its declared unit, is greater.
    Above(&'static str, f64),
}

/// A caution: where all conditions hold, it is shown on the sheet and in the report.
pub struct Caution {
    /// All must hold, those on a table in one and the same row.
    pub when: &'static [When],
    /// In plain words.
    pub text: &'static str,
}

/// One declared answer. Limits are in `unit`, which also fixes the kind that the sum must give.
#[derive(Clone, Copy)]
pub struct Output {
    /// As in formulas.
    pub symbol: &'static str,
    /// As shown.
    pub label: &'static str,
    /// The unit to show it in.
    pub unit: &'static Unit,
    /// If it is a word: the list, the answer being a position in it.
    pub words: &'static [&'static str],
    /// Whether it stands beside the headline.
    pub beside: bool,
    /// If it may be missing: why it is, then.
    pub missing: Option<Missing>,
    /// A limit, how bad it is to be above, and why.
    pub above: Option<(f64, Severity, &'static str)>,
    /// A limit, how bad it is to be below, and why.
    pub below: Option<(f64, Severity, &'static str)>,
    /// The inputs, here or at places that this one draws on, that would bring it back within limits.
    pub cures: &'static [Source],
    /// What the line map takes it for, if anything.
    pub role: Option<Role>,
}

impl Output {
    /// An answer as text: the word, or the number in the unit in which it reads best.
    pub fn text(&self, si: f64, style: &Style) -> String {
        match self.words.get(si as usize) {
            Some(word) => (*word).into(),
            None => style.answer(si, self.unit),
        }
    }
}

/// Why an answer is missing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Missing {
    /// It needs this.
    Needs(&'static str),
    /// For this reason, in whole.
    Because(&'static str),
}

impl Missing {
    /// As it stands in place of the answer.
    pub fn text(self) -> String {
        match self {
            Missing::Needs(what) => format!("needs {what}"),
            Missing::Because(why) => why.into(),
        }
    }
}

/// Which answer against which input the picture shows first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Picture {
    /// The input along the bottom.
    pub across: &'static str,
    /// The answer up the side.
    pub up: &'static str,
}

/// Which columns a work order fills in by hand: amount added, lot, initials, second person.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkOrder {
    /// The table whose rows are added.
    pub table: &'static str,
    /// The column of the amount that was added.
    pub added: &'static str,
    /// Text columns to fill in: lot, initials, checked by.
    pub signed: &'static [&'static str],
    /// Under the line on paper where signs who did it: "Made up by".
    pub done_by: &'static str,
}

/// A starting point to fill a sheet in with: what is typed, and the range of each that is usual.
pub struct Recipe {
    /// What it is called: what it plates, never a product.
    pub name: &'static str,
    /// Where its ranges come from: "common practice, no source" or "from memory".
    pub source: &'static str,
    /// Single inputs that it types.
    pub inputs: Texts,
    /// The table whose rows it fills; those that were typed there give way.
    pub table: &'static str,
    /// Rows: key, and cells as typed.
    pub rows: &'static [(&'static str, Texts)],
    /// By row and column: the least and the most that is usual, in the column's unit.
    pub ranges: &'static [(&'static str, &'static str, [f64; 2])],
}

impl Recipe {
    /// Its ranges as a text: `Copper sulfate 40 to 60 g/L of metal; …`.
    pub fn ranges_text(&self, calculator: &Calculator, style: &Style) -> String {
        let one = |(key, symbol, range): &(&str, &str, [f64; 2])| {
            let input = calculator.port(symbol).and_then(|port| calculator.input_at(port))?;
            Some(format!("{key} {}", input.range_text(*range, input.unit, style)))
        };
        self.ranges.iter().filter_map(one).collect::<Vec<_>>().join("; ")
    }
}

/// A worked example, in text as a user would type it.
pub struct Example {
    /// Who computed it, or where it is printed.
    pub source: &'static str,
    /// Inputs; those left out keep their default.
    pub inputs: Texts,
    /// Rows: table, key, and cells as with inputs.
    pub rows: &'static [(&'static str, &'static str, Texts)],
    /// Outputs (`m`, or `c[Cu]` in a row), and the values expected.
    pub answers: &'static [(&'static str, &'static str)],
    /// The relative deviation allowed.
    pub within: f64,
}
