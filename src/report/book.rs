//! The same rows as pages of a workbook, one page a place, as the text that the writer of workbooks takes (`extras/`).

use super::check_sum;
use super::figures::{Amount, Figure, HEAD, figures};
use crate::plan::Plan;
use serde::Serialize;

#[derive(Serialize)]
struct Book<'a> {
    day: &'a str,
    title: &'a str,
    sheets: Vec<Page<'a>>,
}

#[derive(Serialize)]
struct Page<'a> {
    name: &'a str,
    widths: &'static [u8],
    rows: Vec<Row<'a>>,
}

#[derive(Serialize)]
struct Row<'a> {
    head: bool,
    cells: Vec<Cell<'a>>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Cell<'a> {
    Number(f64),
    Text(&'a str),
}

/// Widths of the columns behind that of the place, in letters.
const WIDTHS: [u8; 8] = [22, 16, 18, 34, 10, 16, 12, 30];

/// What stands on the first page, under the plan's name.
const ABOUT: &str = "Values as they were on that day, each in the unit beside it. No cell is a formula: what follows from what, and by which sum, stands in the plan.";

/// The results of a plan as JSON for the writer of workbooks. `day` is as 2026-11-29.
pub fn book(plan: &Plan, day: &str) -> String {
    let (all, sum) = (figures(plan), check_sum(plan));
    let text = |texts: &[&'static str]| texts.iter().map(|text| Cell::Text(text)).collect::<Vec<_>>();
    let fact =
        |name: &'static str, value| Row { head: false, cells: vec![Cell::Text(name), Cell::Text(value)] };
    let mut sheets = vec![Page {
        name: "Plan",
        widths: &[16, 70],
        rows: vec![fact("Plan", &plan.name), fact("Made on", day), fact("Plan check", &sum), fact("", ABOUT)],
    }];
    for place in &plan.places {
        let mut rows = vec![Row { head: true, cells: text(&HEAD[1..]) }];
        rows.extend(all.iter().filter(|figure| figure.place == place.name).map(row));
        sheets.push(Page { name: &place.name, widths: &WIDTHS, rows });
    }
    // Texts and finite numbers always have a JSON form.
    serde_json::to_string(&Book { day, title: &plan.name, sheets }).unwrap_or_default()
}

fn row(figure: &Figure) -> Row<'_> {
    let (before, amount, behind) = figure.cells();
    let amount = match amount {
        Amount::Number(number) => Cell::Number(*number),
        Amount::Text(text) => Cell::Text(text),
    };
    let (before, behind) = (before[1..].iter(), behind.iter());
    let before = before.map(|text| Cell::Text(text)).chain([amount]);
    Row { head: false, cells: before.chain(behind.map(|text| Cell::Text(text))).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::examples;
    use calamine::{Data, Reader, Xlsx};

    #[test]
    fn a_workbook_has_a_page_for_each_place_and_numbers_as_numbers() {
        for (id, ..) in examples::ALL {
            let plan = examples::plan(id).expect("an example");
            let bytes = bathbook_extras::workbook::of(&book(&plan, "2026-11-29")).expect("a workbook");
            let mut read = Xlsx::new(std::io::Cursor::new(bytes)).expect("a workbook that is read");
            assert_eq!(read.sheet_names().len(), plan.places.len() + 1);
            let pages = read.worksheets();
            let (mut rows, mut numbers) = (0, 0);
            for (_, page) in &pages[1..] {
                rows += page.rows().count() - 1;
                numbers += page.rows().filter(|row| matches!(row[5], Data::Float(_))).count();
            }
            let figures = figures(&plan);
            assert_eq!(rows, figures.len());
            assert_eq!(numbers, figures.iter().filter(|it| matches!(it.amount, Amount::Number(_))).count());
        }
    }
}
