//! Declarations: calculators, inputs, tables, answers, cautions, examples.

use super::{Datum, Given, Key, Port, Stop, Subject, Weight, Work, find_or_push};
use crate::units::{NUMBER, Style, Unit, Unread, Value, read};
use std::sync::Arc;

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
    /// Whether it may be left out: there is then no default, and `work` asks with [`Work::optional`].
    pub optional: bool,
    /// What to enter, and where to find it.
    pub help: &'static str,
    /// Whether it is there only to be followed: shown where it follows something, and never typed.
    pub quiet: bool,
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
}

/// A declared link to symbols of earlier calculators, or of this one at an earlier place. A column
/// that follows brings the rows of what it follows.
#[derive(Clone, Copy)]
pub struct Follows {
    /// Ids of calculators, each with the symbol of an answer, an input or a column.
    pub from: &'static [Source],
    /// From where.
    pub over: Over,
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
    /// One row for each place that leads here, named after it.
    Each,
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
    /// If it may be missing: what has to be typed for it.
    pub optional: Option<&'static str>,
    /// A limit, how bad it is to be above, and why.
    pub above: Option<(f64, Weight, &'static str)>,
    /// A limit, how bad it is to be below, and why.
    pub below: Option<(f64, Weight, &'static str)>,
    /// The inputs, here or at places that this one draws on, that would bring it back within limits.
    pub cures: &'static [Source],
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

/// Declares a number: symbol, label, unit, hard range, usual range, default.
pub const fn input(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    hard: [f64; 2],
    usual: [f64; 2],
    default: f64,
) -> Input {
    Input {
        symbol,
        label,
        unit,
        form: Form::Number,
        hard,
        usual,
        default,
        optional: false,
        quiet: false,
        help: "",
        as_cure: "",
        picks: &[],
        group: "",
        when: None,
        follows: None,
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
    Input { form: Form::Choice(words), ..input(symbol, label, unit, range, range, 0.0) }
}

/// Declares a text: symbol and label. It may be empty.
pub const fn note(symbol: &'static str, label: &'static str) -> Input {
    Input { form: Form::Text, ..input(symbol, label, NUMBER, [0.0, 0.0], [0.0, 0.0], 0.0) }
}

/// Declares an answer: symbol, label, unit.
pub const fn output(symbol: &'static str, label: &'static str, unit: &'static Unit) -> Output {
    Output {
        symbol,
        label,
        unit,
        words: &[],
        beside: false,
        optional: None,
        above: None,
        below: None,
        cures: &[],
    }
}

/// Declares an answer that is one of some words.
pub const fn verdict(symbol: &'static str, label: &'static str, words: &'static [&'static str]) -> Output {
    Output { words, ..output(symbol, label, NUMBER) }
}

impl Input {
    /// What to enter, and where to find it.
    pub const fn help(self, help: &'static str) -> Input {
        Input { help, ..self }
    }

    /// May be left out.
    pub const fn optional(self) -> Input {
        Input { optional: true, default: f64::NAN, ..self }
    }

    /// Starts at this word of its list.
    pub const fn starts_at(self, position: usize) -> Input {
        Input { default: position as f64, ..self }
    }

    /// Is left out unless it follows something.
    pub const fn only_followed(self) -> Input {
        Input { quiet: true, ..self.optional() }
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
        Input { group, ..self }
    }

    /// Asked only when a condition on a choice holds.
    pub const fn when(self, when: When) -> Input {
        Input { when: Some(when), ..self }
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

    const fn over(self, from: &'static [Source], over: Over) -> Input {
        Input { follows: Some(Follows { from, over }), ..self }
    }

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
                None => {
                    Err(Unread::Wrong(format!("“{text}” is none of {}", self.range_text(self.hard, style))))
                }
            },
            Form::Number => {
                let pick = self.picks.iter().find(|(word, _)| *word == text);
                let value = match pick {
                    Some((_, number)) => Value::new(*number, self.unit),
                    None => {
                        read(text, self.unit, style).map_err(|unread| self.likelier_first(unread, style))?
                    }
                };
                self.check(&value, style)?;
                Ok(value.into())
            }
        }
    }

    /// Of two readings, the one that this input may have stands first.
    fn likelier_first(&self, unread: Unread, style: &Style) -> Unread {
        let Unread::Ambiguous([first, second]) = unread else { return unread };
        let fits =
            |text: &str| read(text, self.unit, style).is_ok_and(|value| self.is_within(self.usual, &value));
        if !fits(&first) && fits(&second) {
            Unread::Ambiguous([second, first])
        } else {
            Unread::Ambiguous([first, second])
        }
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

    /// A range in its unit, or the words of a choice.
    pub fn range_text(&self, [low, high]: [f64; 2], style: &Style) -> String {
        if !self.words().is_empty() {
            return self.words().iter().map(|(word, _)| *word).collect::<Vec<_>>().join(", ");
        }
        let short = |number: f64| {
            let text = style.number(number);
            match text.split_once(['.', ',']) {
                Some((whole, part)) if part.chars().all(|c| c == '0') => whole.to_string(),
                Some((_, part)) if part.chars().all(|c| c.is_ascii_digit()) => {
                    text.trim_end_matches('0').to_string()
                }
                _ => text,
            }
        };
        // Ranges follow the preferred units, as answers do.
        let unit = style.best(self.unit.to_si(high), self.unit);
        let [low, high] = [low, high].map(|end| short(unit.from_si(self.unit.to_si(end))));
        crate::units::show::joined(format!("{low} to {high}"), unit)
    }

    /// Refuses what lies outside the hard range.
    pub fn check(&self, value: &Value, style: &Style) -> Result<(), Unread> {
        if self.form != Form::Number
            || self.is_within(self.hard, value)
            || (self.optional && value.si.is_nan())
        {
            return Ok(());
        }
        let shown = style.show(value.si, value.unit);
        Err(Unread::Wrong(format!("{shown} is out of range; enter {}", self.range_text(self.hard, style))))
    }
}

impl Output {
    /// Stands beside the headline.
    pub const fn beside(self) -> Output {
        Output { beside: true, ..self }
    }

    /// May be missing until something is typed.
    pub const fn optional(self, needs: &'static str) -> Output {
        Output { optional: Some(needs), ..self }
    }

    /// A finding when the answer is above a limit.
    pub const fn above(self, most: f64, weight: Weight, why: &'static str) -> Output {
        Output { above: Some((most, weight, why)), ..self }
    }

    /// A finding when the answer is below a limit.
    pub const fn below(self, least: f64, weight: Weight, why: &'static str) -> Output {
        Output { below: Some((least, weight, why)), ..self }
    }

    /// What would bring it back within its limits.
    pub const fn cured_by(self, cures: &'static [Source]) -> Output {
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

impl Table {
    /// A row of defaults.
    pub fn default_row(&self) -> Vec<Datum> {
        self.columns.iter().map(Input::default_datum).collect()
    }
}

impl Calculator {
    /// The tables, of which the first is the single inputs and answers.
    pub fn all_tables(&self) -> impl Iterator<Item = Table> {
        (0..=self.tables.len()).map(|t| self.table(t))
    }

    /// A table by number; 0 is the single inputs and answers.
    pub fn table(&self, t: usize) -> Table {
        let single = Table {
            id: "",
            label: self.title,
            key_label: "",
            add: None,
            suggest: &[],
            presets: &[],
            columns: self.inputs,
            answers: self.outputs,
        };
        t.checked_sub(1).and_then(|t| self.tables.get(t)).copied().unwrap_or(single)
    }

    /// The number of a table by its id; the empty one is 0.
    pub fn table_named(&self, id: &str) -> Option<usize> {
        self.all_tables().position(|table| table.id == id)
    }

    /// Where a symbol lives.
    pub fn port(&self, symbol: &str) -> Option<Port> {
        self.all_tables().enumerate().find_map(|(table, declared)| {
            let column = declared.columns.iter().position(|input| input.symbol == symbol);
            let answer = declared.answers.iter().position(|output| output.symbol == symbol);
            Some(Port { table, column: column.or(answer)?, answer: column.is_none() })
        })
    }

    /// The declared input at a port; `None` if an answer is there.
    pub fn input_at(&self, port: Port) -> Option<&'static Input> {
        if port.answer { None } else { self.table(port.table).columns.get(port.column) }
    }

    /// The declared answer at a port; `None` if an input is there.
    pub fn output_at(&self, port: Port) -> Option<&'static Output> {
        if port.answer { self.table(port.table).answers.get(port.column) } else { None }
    }

    /// The declared unit at a port.
    pub fn unit(&self, port: Port) -> &'static Unit {
        let input = self.input_at(port).map(|input| input.unit);
        input.or(self.output_at(port).map(|output| output.unit)).unwrap_or(NUMBER)
    }

    /// What a port is called.
    pub fn label(&self, port: Port) -> &'static str {
        let input = self.input_at(port).map(|input| input.label);
        input.or(self.output_at(port).map(|output| output.label)).unwrap_or_default()
    }

    /// A row as a link brings it: defaults, and nothing yet in the column that follows.
    pub fn fresh(&self, column: Port) -> Vec<Datum> {
        let mut row = self.table(column.table).default_row();
        if let Some(datum) = row.get_mut(column.column) {
            datum.value.si = f64::NAN;
        }
        row
    }

    /// Every input at its default, and no rows.
    pub fn defaults(&self) -> Given {
        let rows = |t| -> Vec<(Key, Vec<Datum>)> {
            if t == 0 { vec![("".into(), self.table(t).default_row())] } else { Vec::new() }
        };
        (0..=self.tables.len()).map(rows).collect()
    }

    /// Reads an example's texts, as a form would.
    pub fn given(&self, example: &Example) -> Result<Given, String> {
        let mut given = self.defaults();
        for (table, key, texts) in [("", "", example.inputs)].iter().chain(example.rows) {
            let t = self.table_named(table).ok_or_else(|| format!("no table {table}"))?;
            let at = find_or_push(&mut given[t], key, || self.table(t).default_row());
            for (symbol, text) in *texts {
                let port = self.port(symbol).filter(|port| port.table == t && !port.answer);
                let k = port.ok_or_else(|| format!("no input {symbol}"))?.column;
                let read = self.table(t).columns[k].read(text, &Style::default());
                given[t][at].1[k] = read.map_err(|unread| format!("{symbol}: {unread:?}"))?;
            }
        }
        Ok(given)
    }
}
