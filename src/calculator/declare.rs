//! Declarations: calculators, inputs, tables, answers, cautions, examples.

use super::{Severity, Stop, Subject, Work};
use crate::units::{NUMBER, Style, Unit};

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

/// Declares a number: symbol, label, unit, hard range, usual range. Behind it stands how it starts: `usually`,
/// `needed` or `optional` (or `only_followed`).
pub const fn input(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    hard: [f64; 2],
    usual: [f64; 2],
) -> Input {
    Input {
        symbol,
        label,
        unit,
        form: Form::Number,
        hard,
        usual,
        default: f64::NAN,
        optional: false,
        only_followed: false,
        help: "",
        takes_on: None,
        begins_as: &[],
        as_cure: "",
        picks: &[],
        group: "",
        when: None,
        follows: None,
        role: None,
    }
}

/// Declares a choice: symbol, label, and words with the numbers that they carry (in `unit`).
pub const fn choice(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    words: &'static [(&'static str, f64)],
) -> Input {
    let range = [0.0, words.len() as f64 - 1.0];
    Input { form: Form::Choice(words), default: 0.0, ..input(symbol, label, unit, range, range) }
}

/// Declares a text: symbol and label. It may be empty.
pub const fn note(symbol: &'static str, label: &'static str) -> Input {
    Input { form: Form::Text, default: 0.0, ..input(symbol, label, NUMBER, [0.0, 0.0], [0.0, 0.0]) }
}

/// Declares an answer: symbol, label, unit.
pub const fn output(symbol: &'static str, label: &'static str, unit: &'static Unit) -> Output {
    Output {
        symbol,
        label,
        unit,
        words: &[],
        beside: false,
        missing: None,
        above: None,
        below: None,
        cures: &[],
        role: None,
    }
}

/// Declares an answer that is one of some words.
pub const fn verdict(symbol: &'static str, label: &'static str, words: &'static [&'static str]) -> Output {
    Output { words, ..output(symbol, label, NUMBER) }
}

impl Input {
    /// What to enter, and where to find it.
    pub const fn help(self, help: &'static str) -> Input {
        assert!(self.help.is_empty(), "an input has one help");
        Input { help, ..self }
    }

    /// Has this value, in its unit, until something else is typed: only what is usual practice everywhere.
    pub const fn usually(self, default: f64) -> Input {
        Input { default, ..self.not_started() }
    }

    /// May be left out.
    pub const fn optional(self) -> Input {
        Input { optional: true, ..self.not_started() }
    }

    const fn not_started(self) -> Input {
        let is_open = self.default.is_nan() && !self.optional;
        assert!(is_open, "an input starts in one way: usually, needed, optional or only_followed");
        self
    }

    /// Has no default, as no two plants share it: there is no answer until it is typed.
    pub const fn needed(self) -> Input {
        self.optional()
    }

    /// Starts at this word of its list.
    pub const fn starts_at(self, position: usize) -> Input {
        Input { default: position as f64, ..self }
    }

    /// Is left out unless it follows something.
    pub const fn only_followed(self) -> Input {
        Input { only_followed: true, ..self.optional() }
    }

    /// Starts, at a new place that is made for another to lead to, with an answer of that other one.
    pub const fn takes_on(self, calculator: &'static str, symbol: &'static str) -> Input {
        assert!(self.takes_on.is_none(), "an input takes on one answer");
        Input { takes_on: Some((calculator, symbol)), ..self }
    }

    /// Begins with one of these words, at a new place that is made of a sheet of its calculator to come from its
    /// place. Made of the last one listed, it begins as the first whose sheet that place has.
    pub const fn begins_as(self, words: &'static [(&'static str, &'static str)]) -> Input {
        assert!(self.begins_as.is_empty(), "an input begins by one list");
        Input { begins_as: words, ..self }
    }

    /// Says something where a change of it is offered as a cure.
    pub const fn as_cure(self, remark: &'static str) -> Input {
        Input { as_cure: remark, ..self }
    }

    /// Named values to pick from.
    pub const fn picks(self, picks: &'static [(&'static str, f64)]) -> Input {
        Input { picks, ..self }
    }

    /// Stands under a heading.
    pub const fn group(self, group: &'static str) -> Input {
        assert!(self.group.is_empty(), "an input has one heading");
        Input { group, ..self }
    }

    /// Asked only when a condition on a choice holds.
    pub const fn when(self, when: When) -> Input {
        assert!(self.when.is_none(), "an input has one condition");
        Input { when: Some(when), ..self }
    }

    /// Is taken for this by the line map.
    pub const fn role(self, role: Role) -> Input {
        assert!(self.role.is_none(), "an input has one role");
        Input { role: Some(role), ..self }
    }

    /// Follows, at the same place, the first of these that is there.
    pub const fn follows(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Here)
    }

    /// Follows the first of these at the place that this one comes from.
    pub const fn from_origin(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Origin)
    }

    /// Follows the site.
    pub const fn from_site(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Site)
    }

    /// Sums these over the places that lead here; rows of the same key add up.
    pub const fn sums(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Sum)
    }

    /// Takes the largest of these over the places that lead here.
    pub const fn largest(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Largest)
    }

    /// Takes a row for each place that leads here.
    pub const fn each(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Each)
    }

    /// Takes a row for each place that comes from this one, directly or by others.
    pub const fn each_from_here(self, from: &'static [Source]) -> Input {
        self.over(from, Over::EachFromHere)
    }

    const fn over(self, from: &'static [Source], over: Over) -> Input {
        assert!(self.follows.is_none(), "an input follows in one way");
        Input { follows: Some(Follows { from, over, if_known: false }), ..self }
    }

    /// Does not wait for what it follows: it is left out, or has its usual value, until that has an answer.
    pub const fn if_known(self) -> Input {
        match self.follows {
            Some(follows) => Input { follows: Some(Follows { if_known: true, ..follows }), ..self },
            None => panic!("if_known stands behind what the input follows"),
        }
    }
}

impl Output {
    /// Stands beside the headline.
    pub const fn beside(self) -> Output {
        Output { beside: true, ..self }
    }

    /// May be missing while something is not there: a thing, as in “needs a coil or a jacket”.
    pub const fn needs(self, what: &'static str) -> Output {
        self.may_be_missing(Missing::Needs(what))
    }

    /// May be missing, and says so in these words: “type the volume”, “only liquids are measured”.
    pub const fn missing(self, why: &'static str) -> Output {
        self.may_be_missing(Missing::Because(why))
    }

    const fn may_be_missing(self, why: Missing) -> Output {
        assert!(self.missing.is_none(), "an answer is missing for one reason");
        Output { missing: Some(why), ..self }
    }

    /// A finding when the answer is above a limit.
    pub const fn above(self, most: f64, severity: Severity, why: &'static str) -> Output {
        assert!(self.above.is_none(), "an answer has one limit above");
        Output { above: Some((most, severity, why)), ..self }
    }

    /// A finding when the answer is below a limit.
    pub const fn below(self, least: f64, severity: Severity, why: &'static str) -> Output {
        assert!(self.below.is_none(), "an answer has one limit below");
        Output { below: Some((least, severity, why)), ..self }
    }

    /// Is taken for this by the line map.
    pub const fn role(self, role: Role) -> Output {
        assert!(self.role.is_none(), "an answer has one role");
        Output { role: Some(role), ..self }
    }

    /// What would bring it back within its limits.
    pub const fn cured_by(self, cures: &'static [Source]) -> Output {
        assert!(self.cures.is_empty(), "the cures of an answer are one list");
        Output { cures, ..self }
    }

    /// An answer as text: the word, or the number in the unit in which it reads best.
    pub fn text(&self, si: f64, style: &Style) -> String {
        match self.words.get(si as usize) {
            Some(word) => (*word).into(),
            None => style.answer(si, self.unit),
        }
    }
}
