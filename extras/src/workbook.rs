//! A workbook: sheets of texts and numbers. No cell holds a formula: each number is a result of the plan, whose
//! working the plan shows, and a formula here would be another sum than the one that ran.

use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, XlsxError};
use serde::Deserialize;

/// What the page hands over.
#[derive(Deserialize)]
pub struct Given {
    /// The day it was made, as 2026-11-29.
    pub day: String,
    /// The title of the workbook.
    pub title: String,
    /// Its sheets, in order.
    pub sheets: Vec<Sheet>,
}

/// One sheet.
#[derive(Deserialize)]
pub struct Sheet {
    /// What its tab is to say.
    pub name: String,
    /// The widths of its columns, in letters.
    pub widths: Vec<f64>,
    /// Its rows.
    pub rows: Vec<Row>,
}

/// One row.
#[derive(Deserialize)]
pub struct Row {
    /// Whether it is a heading.
    #[serde(default)]
    pub head: bool,
    /// Its cells, from the first column on.
    pub cells: Vec<Cell>,
}

/// What a cell holds.
#[derive(Deserialize)]
#[serde(untagged)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// A number.
    Number(f64),
    /// A text, which is never taken for a formula.
    Text(String),
}

/// The longest name of a tab, in characters of UTF-16. From memory: programs for workbooks take no more.
const LONGEST_NAME: usize = 31;

/// The bytes of the workbook, or `None` if `json` is not a [`Given`] or cannot be written.
pub fn of(json: &str) -> Option<Vec<u8>> {
    let given: Given = serde_json::from_str(json).ok()?;
    written(&given).ok()
}

fn written(given: &Given) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    // Without it the clock would be asked, and there is none here.
    let day = ExcelDateTime::parse_from_str(&given.day)?;
    book.set_properties(&DocProperties::new().set_title(&given.title).set_creation_datetime(&day));
    let (bold, wrapped) = (Format::new().set_bold(), Format::new().set_text_wrap());
    let mut names: Vec<String> = Vec::new();
    for sheet in &given.sheets {
        let name = tab(&sheet.name, &names);
        let page = book.add_worksheet();
        page.set_name(&name)?;
        names.push(name);
        for (column, width) in (0..).zip(&sheet.widths) {
            page.set_column_width(column, *width)?;
        }
        for (at, row) in (0..).zip(&sheet.rows) {
            for (column, cell) in (0..).zip(&row.cells) {
                match cell {
                    Cell::Number(number) if number.is_finite() => page.write_number(at, column, *number)?,
                    Cell::Text(text) if row.head => page.write_string_with_format(at, column, text, &bold)?,
                    Cell::Text(text) => page.write_string_with_format(at, column, text, &wrapped)?,
                    Cell::Empty | Cell::Number(_) => continue,
                };
            }
        }
        if sheet.rows.first().is_some_and(|row| row.head) {
            page.set_freeze_panes(1, 0)?;
        }
    }
    book.save_to_buffer()
}

/// A name that a tab may have and no other one has: not too long, without signs that are not allowed there,
/// and told apart without regard to capitals.
fn tab(wanted: &str, taken: &[String]) -> String {
    let kept: String =
        wanted.chars().map(|c| if "[]:*?/\\'".contains(c) || c.is_control() { ' ' } else { c }).collect();
    let kept = if kept.trim().is_empty() { "Sheet" } else { kept.trim() };
    // The page's rule against tables of all alphabets is not for what is loaded when it is wanted.
    #[allow(clippy::disallowed_methods)]
    let free = |name: &String| taken.iter().all(|known| known.to_lowercase() != name.to_lowercase());
    let numbered = (2..).map(|k| {
        let end = format!(" {k}");
        cut(kept, LONGEST_NAME - end.len()) + &end
    });
    std::iter::once(cut(kept, LONGEST_NAME)).chain(numbered).find(free).unwrap_or_default()
}

/// The first `most` characters of UTF-16 of a text.
fn cut(text: &str, most: usize) -> String {
    let mut length = 0;
    let fits = |c: &char| {
        length += c.len_utf16();
        length <= most
    };
    let kept: String = text.chars().take_while(fits).collect();
    kept.trim().into()
}
