//! What a plan comes to, and what the views ask of it.

use crate::calculator::{
    Calculator, Datum, Finding, Form, Input, Key, Outcome, Output, Port, Recipe, Severity, Stop, Subject,
};
use crate::network::{Answered, Cell, Issue, Link, Network, Origin, Ran, Spot};
use crate::plan::{Entry, Field, Id, Plan};
use crate::units::{Style, Unit, read::split};

/// A plan, resolved and evaluated.
#[derive(Clone, Default)]
pub struct Results {
    /// The cells with their values.
    pub network: Network,
    /// The same before any followed its links.
    pub resolved: Network,
    /// What each cell came to.
    pub outcomes: Vec<Answered>,
    /// The cell whose working is there.
    pub open: Option<usize>,
}

/// How much there is to look at somewhere.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Marks {
    /// Findings that say stop, and refusals.
    pub stops: usize,
    /// Findings that say caution.
    pub cautions: usize,
    /// Findings that only note something.
    pub notes: usize,
    /// Fields that cannot be read.
    pub fields: usize,
    /// Whether something is still to be typed before there is an answer.
    pub todo: bool,
    /// Whether there is no answer because another sheet has none; the stop is counted there.
    pub waits: bool,
}

impl Marks {
    /// Both together.
    pub fn plus(self, other: Marks) -> Marks {
        Marks {
            stops: self.stops + other.stops,
            cautions: self.cautions + other.cautions,
            notes: self.notes + other.notes,
            fields: self.fields + other.fields,
            todo: self.todo || other.todo,
            waits: self.waits || other.waits,
        }
    }
}

/// A field as a view shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldView {
    /// What stands in the field while nobody types there.
    pub text: String,
    /// The unit beside it.
    pub unit: &'static Unit,
    /// Where the value came from.
    pub origin: Origin,
    /// What it follows, or would follow: "Copper bath, Make-up"; of its own place, "Make-up".
    pub follows: Option<String>,
    /// What cannot be read, if anything.
    pub issue: Option<Issue>,
    /// Why the sheet has no answer, if it is this field that stands in the way.
    pub refused: Option<String>,
    /// Whether the value lies outside what is usual.
    pub is_unusual: bool,
    /// Whether it is asked for: a hidden field keeps its text and is not shown.
    pub is_asked: bool,
}

/// A finding of the whole plan, and where it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// In which cell.
    pub cell: usize,
    /// What.
    pub finding: Finding,
}

impl Results {
    /// Evaluates a plan; the working only of the sheet that is open.
    pub fn of(plan: &Plan, open: Option<(Id, &str)>) -> Results {
        Results::default().after_edit(plan, open)
    }

    /// The same where these are the results of the plan before an edit: what is given to a sheet is worked out
    /// anew, and only where it has changed what comes of it.
    pub fn after_edit(&self, plan: &Plan, open: Option<(Id, &str)>) -> Results {
        let resolved = self.resolved.after_edit(plan);
        let mut network = resolved.clone();
        let open = open.and_then(|(place, calculator)| network.cell_at(place, calculator));
        let Network { cells, style, .. } = &self.network;
        let (resolved_then, outcomes) = (&self.resolved.cells, &self.outcomes);
        let last = Ran { resolved: resolved_then, cells, outcomes, open: self.open, style: Some(*style) };
        let outcomes = network.run_after(open, &last);
        Results { network, resolved, outcomes, open }
    }

    /// How numbers are shown.
    pub fn style(&self) -> Style {
        self.network.style
    }

    /// What a cell came to, if it has an answer.
    pub fn outcome(&self, cell: usize) -> Option<&Outcome> {
        self.outcomes.get(cell)?.as_deref().ok()
    }

    /// Why a cell has no answer.
    pub fn stop(&self, cell: usize) -> Option<&Stop> {
        self.outcomes.get(cell)?.as_ref().err()
    }

    /// The port and row of a field.
    fn place_of(&self, field: &Field) -> Option<(usize, Port, usize)> {
        let cell = self.network.cell_at(field.place, field.calculator)?;
        let found = self.network.cells.get(cell)?;
        let port = found.calculator.port(field.symbol)?;
        let row = found.given.get(port.table)?.iter().position(|(key, _)| **key == *field.key)?;
        Some((cell, port, row))
    }

    /// The value of a field and where it came from.
    pub fn datum(&self, field: &Field) -> Option<(&Datum, Origin)> {
        let (cell, port, row) = self.place_of(field)?;
        self.datum_at(cell, port, row)
    }

    fn datum_at(&self, cell: usize, port: Port, row: usize) -> Option<(&Datum, Origin)> {
        let cell = self.network.cells.get(cell)?;
        let datum = cell.given.get(port.table)?.get(row)?.1.get(port.column)?;
        let known =
            cell.origins.get(port.table).and_then(|rows| rows.get(row)).and_then(|row| row.get(port.column));
        let brought = || {
            let linked = cell.links.iter().any(|link| link.to == port && !link.from.is_empty());
            if linked { Origin::Linked } else { Origin::Default }
        };
        Some((datum, known.copied().unwrap_or_else(brought)))
    }

    /// Whether a field is asked for: a hidden one keeps its text and is not shown.
    pub fn asks(&self, field: &Field) -> bool {
        let Some((cell, port, row)) = self.place_of(field) else { return false };
        let cell = &self.network.cells[cell];
        cell.calculator.input_at(port).is_some_and(|input| cell.calculator.asks(input, row, &cell.given))
    }

    /// Whether a sheet takes what a link brings: its input is asked for, in some row, and nobody typed over it.
    pub fn takes(&self, cell: usize, link: &Link) -> bool {
        let Some(found) = self.network.cells.get(cell) else { return false };
        let rows = found.given.get(link.to.table).into_iter().flatten().enumerate();
        let typed = |row: usize| {
            let origins = found.origins.get(link.to.table).and_then(|rows| rows.get(row));
            origins.and_then(|row| row.get(link.to.column)).is_some_and(|origin| *origin != Origin::Linked)
        };
        rows.into_iter().any(|(row, _)| !typed(row) && found.calculator.asks(link.input, row, &found.given))
    }

    /// The fields of a cell that are shown and stand at their usual value, which nobody typed: a default, or
    /// what a preset or the recipe filled in and nobody changed.
    pub fn usual(&self, cell: usize) -> Vec<Field> {
        self.fields_where(cell, |found, input, port, key, origin| {
            let is_unread = found.issues.iter().any(|issue| issue.at == port && issue.key == key);
            let is_number = input.form == Form::Number && !input.only_followed && !is_unread;
            let is_usual = match origin {
                Origin::Default => !input.optional,
                Origin::Typed | Origin::Overtyped => self.is_as_filled_in(found, input, port, key),
                Origin::Linked => false,
            };
            is_number && is_usual
        })
    }

    /// Whether a number is the usual one though it was filled in: by the preset of its row, or by a recipe.
    pub fn is_usual(&self, field: &Field) -> bool {
        let Some((cell, port, _)) = self.place_of(field) else { return false };
        let found = &self.network.cells[cell];
        let input = found.calculator.input_at(port).filter(|input| input.form == Form::Number);
        let is_typed = |(_, origin): (&Datum, Origin)| matches!(origin, Origin::Typed | Origin::Overtyped);
        self.datum(field).is_some_and(is_typed)
            && input.is_some_and(|input| self.is_as_filled_in(found, input, port, &field.key))
    }

    /// Whether a number is what the preset of its row, or the recipe that the sheet names, fills in there.
    fn is_as_filled_in(&self, found: &Cell, input: &Input, port: Port, key: &str) -> bool {
        let (calculator, table) = (found.calculator, found.calculator.table(port.table));
        let datum = |port: Port, key: &str| {
            let rows = found.given.get(port.table)?;
            rows.iter().find(|(known, _)| **known == *key)?.1.get(port.column)
        };
        let Some(now) = datum(port, key) else { return false };
        let is_named = |recipe: &&Recipe| {
            recipe.inputs.iter().filter(|(_, text)| *text == recipe.name).any(|(symbol, name)| {
                let named = calculator.port(symbol).and_then(|at| Some((calculator.input_at(at)?, at)));
                named.is_some_and(|(input, at)| {
                    datum(at, "").and_then(|datum| input.word(datum.value.si)) == Some(*name)
                })
            })
        };
        let recipe = calculator.recipes.iter().find(is_named);
        let rows = recipe.filter(|recipe| recipe.table == table.id).map_or(&[][..], |recipe| recipe.rows);
        let single = recipe.filter(|_| port.table == 0).map_or(&[][..], |recipe| recipe.inputs);
        let cells = table.presets.iter().chain(rows).filter(|(name, _)| *name == key);
        cells.flat_map(|(_, cells)| *cells).chain(single).any(|(symbol, text)| {
            *symbol == input.symbol && input.read(text, &self.style()).is_ok_and(|read| read == *now)
        })
    }

    /// The fields of a cell that cannot be read.
    pub fn unread(&self, cell: usize) -> Vec<Field> {
        if self.network.cells.get(cell).is_none_or(|cell| cell.issues.is_empty()) {
            return Vec::new();
        }
        self.fields_where(cell, |found, _, port, key, _| {
            found.issues.iter().any(|issue| issue.at == port && issue.key == key)
        })
    }

    /// The fields of a cell, as they stand on its sheet, for which something holds.
    fn fields_where(
        &self,
        cell: usize,
        holds: impl Fn(&Cell, &Input, Port, &str, Origin) -> bool,
    ) -> Vec<Field> {
        let Some(found) = self.network.cells.get(cell) else { return Vec::new() };
        let mut all = Vec::new();
        for (at, table) in found.calculator.all_tables().enumerate() {
            // Rows that only come by links are shown to be read.
            if at > 0 && table.add.is_none() {
                continue;
            }
            for (row, (key, _)) in found.given.get(at).into_iter().flatten().enumerate() {
                for (column, input) in table.columns.iter().enumerate() {
                    let port = Port { table: at, column, answer: false };
                    let origin = self.datum_at(cell, port, row).map(|(_, origin)| origin);
                    if origin.is_some_and(|origin| holds(found, input, port, key, origin))
                        && found.calculator.asks(input, row, &found.given)
                    {
                        let (place, sheet) = (found.place, found.calculator.id);
                        all.push(Field::cell(place, sheet, table.id, key, input.symbol));
                    }
                }
            }
        }
        all
    }

    /// Everything that a field's view needs.
    pub fn field(&self, field: &Field, entry: Option<&Entry>) -> Option<FieldView> {
        let (cell, port, row) = self.place_of(field)?;
        let found = &self.network.cells[cell];
        let input = found.calculator.input_at(port)?;
        let (datum, origin) = self.datum_at(cell, port, row)?;
        let style = self.style();
        let value = datum.value;
        // What is only followed is there where it follows something.
        let is_there = !input.only_followed || value.si.is_finite() || entry.is_some();
        let is_asked = is_there && found.calculator.asks(input, row, &found.given);
        let issue = found.issues.iter().find(|issue| issue.at == port && issue.key == field.key).cloned();
        let shown = entry.and_then(|entry| Unit::named(input.unit.kind, entry.show.as_deref()?));
        let shown = shown.filter(|unit| input.shows(unit));
        let unit = match (shown, origin) {
            (Some(unit), _) => unit,
            (None, Origin::Typed | Origin::Overtyped) => value.unit,
            _ if value.si.is_finite() => style.best(value.si, input.unit),
            // Nothing stands there yet: the declared unit, or its counterpart among those preferred.
            _ => style.best(input.unit.to_si(1.0), input.unit),
        };
        let number = |digits: usize| {
            if value.si.is_finite() {
                typed_again(style.with_digits(digits).number(unit.from_si(value.si)))
            } else {
                String::new()
            }
        };
        let typed = entry.filter(|entry| !entry.is_unit_only());
        let text = match (input.form, typed) {
            (Form::Text, _) => datum.text.as_deref().unwrap_or_default().to_string(),
            (Form::Choice(_), _) => input.word(value.si).unwrap_or_default().to_string(),
            (_, Some(entry)) if issue.is_some() => entry.text.clone(),
            (_, Some(_)) if shown.is_some() => number(6),
            (_, Some(entry)) => match split(&entry.text) {
                (digits, _) if input.picks.iter().any(|(word, _)| *word == entry.text) => {
                    if digits.is_empty() { entry.text.clone() } else { number(6) }
                }
                (digits, _) if digits.is_empty() => number(6),
                // Typed with both separators it could be read in one way only; it is shown as it was read.
                (digits, _) if digits.contains('.') && digits.contains(',') => {
                    plain_number(unit, unit, value.si, &style)
                }
                (digits, _) => digits,
            },
            (_, None) if origin == Origin::Default => plain_number(input.unit, unit, value.si, &style),
            _ => short(number(4)),
        };
        let stands_in_the_way = |stop: &&Stop| {
            let is_own = !stop.todo && !stop.passed_on && stop.at == Some(input.symbol);
            is_own && (stop.row.is_empty() || stop.row == field.key)
        };
        let refused = self.stop(cell).filter(stands_in_the_way).map(|stop| stop.text());
        let link = found.links.iter().find(|link| link.to == port);
        // A row for each place follows the place that it is named after.
        let own = link.filter(|link| link.over.is_each()).map(|link| {
            let named = |spot: &&Spot| *self.network.cells[spot.cell].name == *field.key;
            Link { from: link.from.iter().filter(named).cloned().collect(), ..link.clone() }
        });
        let follows = own.as_ref().or(link).and_then(|link| self.link_text(link));
        let is_number = input.form == Form::Number && value.si.is_finite();
        let is_unusual = is_number && !input.is_within(input.usual, &value);
        Some(FieldView { text, unit, origin, follows, issue, refused, is_unusual, is_asked })
    }

    /// What a link takes its value from, in words; `None` if nothing is there to follow.
    pub fn link_text(&self, link: &Link) -> Option<String> {
        use crate::calculator::Over;
        let mut cells: Vec<usize> = link.from.iter().map(|spot| spot.cell).collect();
        cells.dedup();
        let name = |spot: &Spot| {
            let cell = &self.network.cells[spot.cell];
            if cell.calculator.subject == Subject::Site {
                return cell.calculator.title.to_string();
            }
            format!("{}, {}", cell.name, cell.calculator.title)
        };
        let first = link.from.first()?;
        Some(match link.over {
            Over::Here => self.network.cells[first.cell].calculator.title.to_string(),
            Over::Origin | Over::Site => name(first),
            Over::Sum if cells.len() > 1 => format!("{} added up", count(cells.len(), "place")),
            Over::Largest if cells.len() > 1 => format!("the largest of {}", count(cells.len(), "place")),
            _ => name(first),
        })
    }

    /// The keys of a table's rows, in order: typed ones, linked ones, and those that the sum makes.
    pub fn rows(&self, cell: usize, table: usize) -> Vec<Key> {
        let Some(found) = self.network.cells.get(cell) else { return Vec::new() };
        let mut keys: Vec<Key> =
            found.given.get(table).into_iter().flatten().map(|(key, _)| key.clone()).collect();
        let made = self.outcome(cell).and_then(|outcome| outcome.answers.get(table)).into_iter().flatten();
        for (key, _) in made {
            if !keys.contains(key) {
                keys.push(key.clone());
            }
        }
        keys
    }

    /// A declared answer and its value in a row (`""` for single answers); `None` if there is none.
    pub fn answer(&self, cell: usize, symbol: &str, key: &str) -> Option<(&'static Output, f64)> {
        let calculator = self.network.cells.get(cell)?.calculator;
        let port = calculator.port(symbol)?;
        let rows = self.outcome(cell)?.answers.get(port.table)?;
        let (_, numbers) = rows.iter().find(|(known, _)| **known == *key)?;
        let si = *numbers.get(port.column)?;
        Some((calculator.output_at(port)?, si)).filter(|_| si.is_finite())
    }

    /// An answer as text, number and unit apart.
    pub fn answer_text(
        &self,
        cell: usize,
        symbol: &str,
        key: &str,
        digits: usize,
    ) -> Option<(String, &'static str)> {
        let (output, si) = self.answer(cell, symbol, key)?;
        if let Some(word) = output.words.get(si as usize) {
            return Some(((*word).into(), ""));
        }
        let style = self.style().with_digits(digits);
        let unit = style.best(si, output.unit);
        let number = style.number(unit.from_si(si));
        // What is counted is whole: 8 chambers, not 8.00.
        let is_count = output.unit == crate::units::NUMBER && si.fract() == 0.0;
        Some(style.with_currency(if is_count { short(number) } else { number }, unit))
    }

    /// How much there is to look at in a cell.
    pub fn marks(&self, cell: usize) -> Marks {
        let fields = self.network.cells.get(cell).map_or(0, |cell| cell.issues.len());
        match self.outcomes.get(cell) {
            Some(Ok(outcome)) => {
                let count =
                    |severity| outcome.findings.iter().filter(|finding| finding.severity == severity).count();
                Marks {
                    stops: count(Severity::Serious),
                    cautions: count(Severity::Caution),
                    notes: count(Severity::Note),
                    fields,
                    ..Marks::default()
                }
            }
            Some(Err(stop)) => Marks {
                stops: usize::from(!stop.todo && !stop.passed_on),
                fields,
                todo: stop.todo,
                waits: !stop.todo && stop.passed_on,
                ..Marks::default()
            },
            None => Marks::default(),
        }
    }

    /// The first cell at a place that says stop, or has no answer for a reason of its own.
    pub fn stopped_at(&self, place: Id) -> Option<usize> {
        let mut cells = (0..self.network.cells.len()).filter(|at| self.network.cells[*at].place == place);
        cells.find(|cell| self.marks(*cell).stops > 0)
    }

    /// All findings of the plan, the worst first; refusals that only pass another one on are left out.
    pub fn findings(&self) -> Vec<Found> {
        let mut all = Vec::new();
        for (cell, outcome) in self.outcomes.iter().enumerate() {
            match outcome {
                Ok(outcome) => {
                    all.extend(outcome.findings.iter().map(|f| Found { cell, finding: f.clone() }))
                }
                Err(stop) if stop.todo || stop.passed_on => (),
                Err(stop) => {
                    let text = format!("No answer. {}", stop.text());
                    let at = stop.at.unwrap_or_default().to_string();
                    all.push(Found {
                        cell,
                        finding: Finding { severity: Severity::Serious, text, at, limit: None },
                    });
                }
            }
        }
        crate::order::sort_by_key(&mut all, |found| std::cmp::Reverse(found.finding.severity));
        all
    }

    /// What is still to be typed before there is an answer: cell, and what.
    pub fn todo(&self) -> Vec<(usize, &Stop)> {
        let waiting = self
            .outcomes
            .iter()
            .enumerate()
            .filter_map(|(cell, outcome)| Some((cell, outcome.as_ref().err()?)));
        waiting.filter(|(_, stop)| stop.todo && !stop.passed_on).collect()
    }

    /// The fields that a cell still waits for before it has an answer, in the order of its sum.
    pub fn gaps(&self, cell: usize) -> Vec<Field> {
        let is_own = self.stop(cell).is_some_and(|stop| stop.todo && !stop.passed_on);
        if is_own { crate::ask::gaps(&self.network, cell) } else { Vec::new() }
    }

    /// Makes a new place for another to lead to, which starts with what that one says of it.
    pub fn lead_to_new(&self, plan: &mut Plan, from: Id, subject: Subject) -> Id {
        let new = plan.add(subject, subject.sort().title);
        plan.set_to(from, Some(new));
        for calculator in crate::calculators::for_places_of(subject) {
            for input in calculator.inputs {
                let said = input.takes_on.and_then(|(id, symbol)| {
                    let (output, si) = self.answer(self.network.cell_at(from, id)?, symbol, "")?;
                    let word = output.text(si, &self.style());
                    input.read(&word, &self.style()).ok().map(|_| word)
                });
                if let Some(word) = said {
                    plan.type_in(&Field::single(new, calculator.id, input.symbol), &word, None);
                }
            }
        }
        new
    }

    /// The calculator of a cell.
    pub fn calculator(&self, cell: usize) -> Option<&'static Calculator> {
        self.network.cells.get(cell).map(|cell| cell.calculator)
    }
}

/// A default as it was declared, without figures that nobody wrote: 250, not 250.00.
fn plain_number(declared: &Unit, shown: &Unit, si: f64, style: &Style) -> String {
    if !si.is_finite() {
        return String::new();
    }
    let number = shown.from_si(si);
    let text = if declared.symbol == shown.symbol {
        style.literal((number * 1e9).round() / 1e9)
    } else {
        style.with_digits(4).number(number)
    };
    text.replace('−', "-")
}

/// Without noughts at the end of decimals: 24, not 24.00.
fn short(number: String) -> String {
    let is_plain = number.chars().all(|c| c.is_ascii_digit() || ".,−\u{202f}".contains(c));
    if is_plain && number.contains(['.', ',']) {
        return number.trim_end_matches('0').trim_end_matches(['.', ',']).to_string();
    }
    number
}

/// A number as it may be typed again: without noughts at the end, but for the one that keeps 1.836 from
/// being read in two ways.
fn typed_again(number: String) -> String {
    let number = short(number);
    let Some((whole, part)) = number.split_once(['.', ',']) else { return number };
    let whole = whole.trim_start_matches('−');
    let is_doubtful = part.len() == 3 && whole.len() <= 3 && !whole.starts_with('0');
    if is_doubtful { number + "0" } else { number }
}

/// "1 place", "3 places".
pub fn count(n: usize, what: &str) -> String {
    if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") }
}
