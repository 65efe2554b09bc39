//! A field as a view shows it: its text and unit, where its value came from, and what is wrong with it.

use super::{Results, count};
use crate::calculator::{Form, Stop, Subject};
use crate::network::{Issue, Link, Origin, Spot};
use crate::plan::{Entry, Field};
use crate::units::{Style, Unit, read::split};

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

impl Results {
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
pub(super) fn short(number: String) -> String {
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
