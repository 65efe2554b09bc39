//! How much a plan may hold. What is read is held to it, and so is every edit: the page makes no plan that it could
//! not open again.

use super::{Entry, Plan, Sheet};

/// More places than any line has; the sums of so many still take less than a blink.
pub const MOST_PLACES: usize = 300;
/// More rows than any table needs.
pub const MOST_ROWS: usize = 200;
/// More steps than any work order has, in a sheet.
pub const MOST_TICKS: usize = 2 * MOST_ROWS;
/// Longer than anything that is typed into a field, in characters.
pub const LONGEST_ENTRY: usize = 400;
/// The longest remarks on a plan, in characters.
pub const LONGEST_NOTES: usize = 20_000;
/// The largest plan, in bytes as it is kept: a large line has some tens of thousands.
pub const LARGEST: usize = 1_000_000;

/// What of a plan is more than it may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TooMuch {
    /// More than [`MOST_PLACES`].
    Places,
    /// More than [`MOST_ROWS`] in a table.
    Rows,
    /// More than [`MOST_TICKS`] at a sheet.
    Ticks,
    /// A text of more than [`LONGEST_ENTRY`].
    Text,
    /// More than [`LONGEST_NOTES`].
    Remarks,
    /// All of it comes to more than [`LARGEST`].
    Whole,
}

impl TooMuch {
    /// What is too much of a plan, if anything is.
    pub fn of(plan: &Plan) -> Option<TooMuch> {
        let sheets = || plan.places.iter().flat_map(|place| place.sheets.values());
        let tables = || sheets().flat_map(|sheet| sheet.rows.values());
        let rows = || tables().flatten().map(|(_, entries)| entries);
        let mut entries = sheets().map(|sheet| &sheet.entries).chain(rows()).flat_map(|all| all.values());
        let is_longer = |text: &str, most: usize| text.len() > most && text.chars().count() > most;
        let is_long = |text: &str| is_longer(text, LONGEST_ENTRY);
        let of_entry = |entry: &Entry| texts_of(entry).any(is_long);
        let mut ticks = sheets().flat_map(|sheet| &sheet.ticks);
        if plan.places.len() > MOST_PLACES {
            Some(TooMuch::Places)
        } else if tables().any(|rows| rows.len() > MOST_ROWS) {
            Some(TooMuch::Rows)
        } else if sheets().any(|sheet| sheet.ticks.len() > MOST_TICKS) {
            Some(TooMuch::Ticks)
        } else if is_longer(&plan.notes, LONGEST_NOTES) {
            Some(TooMuch::Remarks)
        } else if entries.any(of_entry) || ticks.any(|(step, at)| is_long(step) || is_long(at)) {
            Some(TooMuch::Text)
        } else {
            (size(plan) > LARGEST).then_some(TooMuch::Whole)
        }
    }

    /// Of a plan that was found, in a clause.
    pub fn found(self) -> String {
        match self {
            TooMuch::Places => format!("it has more than {MOST_PLACES} places."),
            TooMuch::Rows => format!("a table in it has more than {MOST_ROWS} rows."),
            TooMuch::Ticks => format!("a work order in it has more than {MOST_TICKS} ticks."),
            TooMuch::Text => format!("a field in it holds more than {LONGEST_ENTRY} characters."),
            TooMuch::Remarks => format!("its remarks hold more than {LONGEST_NOTES} characters."),
            TooMuch::Whole => format!("it holds more than {} kB.", LARGEST / 1000),
        }
    }

    /// Of an edit that was not made: what is wrong, what stands, and what to do.
    pub fn told(self) -> String {
        match self {
            TooMuch::Places => format!(
                "A plan holds up to {MOST_PLACES} places. Nothing was added. Take a place away first, or begin another plan."
            ),
            TooMuch::Rows => format!(
                "A table holds up to {MOST_ROWS} rows. Nothing was added. Take a row away first, or put two into one."
            ),
            TooMuch::Ticks => format!(
                "A work order holds up to {MOST_TICKS} ticks. Nothing was ticked. Take all ticks of it away first."
            ),
            TooMuch::Text => {
                format!(
                    "A field holds up to {LONGEST_ENTRY} characters: what was typed last is not kept. Make it shorter."
                )
            }
            TooMuch::Remarks => format!(
                "Remarks hold up to {LONGEST_NOTES} characters: what was typed last is not kept. Make them shorter."
            ),
            TooMuch::Whole => format!(
                "A plan holds up to {} kB. The last change was not made. Take something away first, or begin another plan.",
                LARGEST / 1000
            ),
        }
    }
}

fn texts_of(entry: &Entry) -> impl Iterator<Item = &str> {
    [Some(&entry.text), entry.stands.as_ref(), entry.show.as_ref()].into_iter().flatten().map(String::as_str)
}

/// At least as many bytes as the plan takes when it is kept, and hardly more. Counted rather than written out, as this
/// is asked at every key.
fn size(plan: &Plan) -> usize {
    // What stands around the texts in a plan, a place, a sheet, a table, a row, and a plain entry or a tick.
    let [whole, place, sheet, table, row, plain] = [80, 110, 50, 6, 8, 6];
    let of_entries = |entries: &super::Entries| {
        let of_entry = |(symbol, entry): (&String, &Entry)| {
            let words = if entry.stands.is_some() || entry.show.is_some() { 31 } else { 0 };
            plain + words + written(symbol) + texts_of(entry).map(written).sum::<usize>()
        };
        entries.iter().map(of_entry).sum::<usize>()
    };
    let of_sheet = |(id, held): (&String, &std::sync::Arc<Sheet>)| {
        let of_row = |(key, entries): &(String, super::Entries)| row + written(key) + of_entries(entries);
        let rows = held.rows.iter();
        let rows = rows.map(|(id, rows)| table + written(id) + rows.iter().map(of_row).sum::<usize>());
        let ticks = held.ticks.iter().map(|(step, at)| plain + written(step) + written(at));
        sheet + written(id) + of_entries(&held.entries) + rows.sum::<usize>() + ticks.sum::<usize>()
    };
    let of_place =
        |held: &super::Place| place + written(&held.name) + held.sheets.iter().map(of_sheet).sum::<usize>();
    let places = plan.places.iter().map(of_place).sum::<usize>();
    whole + written(&plan.name) + written(&plan.notes) + places
}

/// As many bytes as a text takes in JSON, between its quotation marks.
fn written(text: &str) -> usize {
    let escaped = |byte: u8| match byte {
        b'"' | b'\\' => 1,
        0..=0x1f => 5,
        _ => 0,
    };
    text.len() + text.bytes().map(escaped).sum::<usize>()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculator::Subject;
    use crate::plan::foreign::read;
    use crate::plan::steps::text_of;
    use crate::plan::{Field, History, examples};

    /// The page as it edits: the last edit, and what is told of it.
    fn refused(history: &mut History, change: impl FnOnce(&mut Plan)) -> Option<TooMuch> {
        let before = history.plan().clone();
        let refused = history.edit("", change).1.err();
        assert!(refused.is_none() || *history.plan() == before, "what was refused has left a trace");
        assert_eq!(
            read(&text_of(history.plan())).as_ref(),
            Ok(history.plan()),
            "it could not be opened again"
        );
        refused
    }

    #[test]
    fn a_row_a_place_or_a_letter_too_many_is_refused_by_name_and_what_stands_opens_again() {
        let mut history = History::of(Plan::new("Line"));
        let bath = history.edit("", |plan| plan.add(Subject::Bath, "Bath")).0;
        let add_row = |plan: &mut Plan| {
            plan.add_row(bath, "make-up", "ingredients", "Salt");
        };
        for _ in 0..MOST_ROWS {
            assert_eq!(history.edit("", add_row).1, Ok(true));
        }
        assert_eq!(refused(&mut history, add_row), Some(TooMuch::Rows));
        let add = |plan: &mut Plan| {
            plan.add(Subject::Stream, "Stream");
        };
        for _ in 2..MOST_PLACES {
            assert_eq!(history.edit("", add).1, Ok(true));
        }
        assert_eq!(refused(&mut history, add), Some(TooMuch::Places));
        assert_eq!((history.plan().places.len(), history.undo()), (MOST_PLACES, true));

        let field = Field::cell(bath, "make-up", "ingredients", "Salt", "formula");
        let typed = |many: usize| {
            let field = field.clone();
            move |plan: &mut Plan| plan.type_in(&field, &"é".repeat(many), None)
        };
        assert_eq!(refused(&mut history, typed(LONGEST_ENTRY)), None);
        assert_eq!(refused(&mut history, typed(LONGEST_ENTRY + 1)), Some(TooMuch::Text));
        let noted = |many: usize| move |plan: &mut Plan| plan.notes = "é".repeat(many);
        assert_eq!(refused(&mut history, noted(LONGEST_NOTES)), None);
        assert_eq!(refused(&mut history, noted(LONGEST_NOTES + 1)), Some(TooMuch::Remarks));
        let ticked = |many: usize| {
            move |plan: &mut Plan| {
                let sheet = plan.sheet_mut(bath, "make-up").expect("a sheet");
                sheet.ticks = (0..many).map(|k| (format!("[{k}]"), String::new())).collect();
            }
        };
        assert_eq!(refused(&mut history, ticked(MOST_TICKS)), None);
        assert_eq!(refused(&mut history, ticked(MOST_TICKS + 1)), Some(TooMuch::Ticks));
    }

    #[test]
    fn the_examples_are_far_from_the_limits() {
        for plan in examples::ALL.iter().filter_map(|(id, ..)| examples::plan(id)) {
            assert!(size(&plan) < LARGEST / 10 && size(&plan) >= text_of(&plan).len());
        }
    }
}
