//! Everything that a plan holds and comes to as rows of one table, for files of other programs: each number plain,
//! in the unit that stands beside it.

use super::item;
use crate::calculator::{Form, Input, Output};
use crate::plan::{Field, Plan};
use crate::results::Results;

/// What stands in the column of values.
#[derive(Clone, Debug, PartialEq)]
pub enum Amount {
    /// A number, in the unit beside it.
    Number(f64),
    /// A word, a text, or why there is no number.
    Text(String),
}

/// One row.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Place of the plan.
    pub place: String,
    /// Title of the sheet.
    pub sheet: &'static str,
    /// Which of its tables; empty for single numbers.
    pub table: &'static str,
    /// Which row of that.
    pub row: String,
    /// What it is.
    pub label: &'static str,
    /// Its symbol in the working.
    pub symbol: &'static str,
    /// How much.
    pub amount: Amount,
    /// In which unit; empty for bare numbers and texts.
    pub unit: String,
    /// "typed", "usual value", what it follows, or "answer".
    pub from: String,
}

/// The heads of the columns, in the order of [`Figure::cells`].
pub const HEAD: [&str; 9] =
    ["Place", "Sheet", "Table", "Row", "Quantity", "Symbol", "Value", "Unit", "Where from"];

/// How an answer is marked.
const ANSWER: &str = "answer";

impl Figure {
    /// What stands before the value, and behind it.
    pub fn cells(&self) -> ([&str; 6], &Amount, [&str; 2]) {
        let Figure { place, sheet, table, row, label, symbol, amount, unit, from } = self;
        ([place, sheet, table, row, label, symbol], amount, [unit, from])
    }
}

/// A number without the figures that arithmetic in binary adds: 12 digits.
fn plain(number: f64) -> f64 {
    format!("{number:.11e}").parse().unwrap_or(number)
}

/// Every input and answer of a plan, in the order of its places and sheets, with what there is to look at.
pub fn figures(plan: &Plan) -> Vec<Figure> {
    let results = Results::of(plan, None);
    let mut all = Vec::new();
    for place in &plan.places {
        let cells = results.network.cells.iter().enumerate().filter(|(_, cell)| cell.place == place.id);
        for (cell, _) in cells {
            of_sheet(plan, &results, cell, &mut all);
        }
    }
    all
}

fn of_sheet(plan: &Plan, results: &Results, cell: usize, all: &mut Vec<Figure>) {
    let found = &results.network.cells[cell];
    let calculator = found.calculator;
    let blank = |label, symbol| Figure {
        place: found.name.to_string(),
        sheet: calculator.title,
        table: "",
        row: String::new(),
        label,
        symbol,
        amount: Amount::Text(String::new()),
        unit: String::new(),
        from: String::new(),
    };
    let input = |field: &Field, input: &'static Input| {
        let item = item(plan, results, field, input)?;
        let (datum, _) = results.datum(field)?;
        let unit = results.field(field, plan.entry(field)).map(|view| view.unit);
        let number = unit.filter(|_| input.form == Form::Number && datum.value.si.is_finite());
        let (amount, unit) = match number {
            Some(unit) => (Amount::Number(plain(unit.from_si(datum.value.si))), results.style().symbol(unit)),
            None => (Amount::Text(item.value), String::new()),
        };
        Some(Figure { amount, unit, from: item.from, ..blank(item.label, item.symbol) })
    };
    let answer = |output: &'static Output, key: &str| {
        let (_, si) = results.answer(cell, output.symbol, key)?;
        let unit = results.style().best(si, output.unit);
        let (amount, unit) = match output.words.get(si as usize) {
            Some(word) => (Amount::Text((*word).into()), String::new()),
            None => (Amount::Number(plain(unit.from_si(si))), results.style().symbol(unit)),
        };
        Some(Figure { amount, unit, from: ANSWER.into(), ..blank(output.label, output.symbol) })
    };
    for (at, table) in calculator.all_tables().enumerate() {
        let keys = if at == 0 { vec![Default::default()] } else { results.rows(cell, at) };
        for key in keys {
            let inputs = table.columns.iter().filter_map(|column| {
                input(&Field::cell(found.place, calculator.id, table.id, &key, column.symbol), column)
            });
            let answers = table.answers.iter().filter_map(|output| answer(output, &key));
            let of_row = |figure: Figure| match at {
                0 => figure,
                _ => Figure { table: table.label, row: key.to_string(), ..figure },
            };
            all.extend(inputs.chain(answers).map(of_row));
        }
    }
    if let Some(stop) = results.stop(cell) {
        all.push(Figure { amount: Amount::Text(stop.text()), ..blank("No answer", "") });
    }
    for finding in results.outcome(cell).into_iter().flat_map(|outcome| &outcome.findings) {
        all.push(Figure { amount: Amount::Text(finding.text.clone()), ..blank(finding.severity.word(), "") });
    }
}

/// The rows as comma-separated values (RFC 4180), in UTF-8 with the mark that tells programs so. The decimal sign is
/// a point whatever the plan's, as the comma parts the cells.
pub fn csv(figures: &[Figure]) -> String {
    let mut text = String::from("\u{feff}");
    let mut line = |cells: &[String]| {
        text += &cells.join(",");
        text += "\r\n";
    };
    line(&HEAD.map(csv_cell));
    for figure in figures {
        let (before, amount, behind) = figure.cells();
        let amount = match amount {
            Amount::Number(number) => number.to_string(),
            Amount::Text(text) => csv_cell(text),
        };
        let cells: Vec<String> =
            before.map(csv_cell).into_iter().chain([amount]).chain(behind.map(csv_cell)).collect();
        line(&cells);
    }
    text
}

/// A text as a cell. A program for tables takes what begins so for a formula and would run it: an apostrophe
/// before it makes it a text.
fn csv_cell(text: &str) -> String {
    let runs = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
    let text = if runs { format!("'{text}") } else { text.to_string() };
    let is_quoted = text.contains([',', '"', '\r', '\n']);
    if is_quoted { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculator::Subject;
    use crate::plan::examples;

    fn rows(text: &str) -> Vec<csv::StringRecord> {
        let mut reader = csv::ReaderBuilder::new().from_reader(text.as_bytes());
        assert_eq!(reader.headers().expect("heads").iter().collect::<Vec<_>>(), HEAD);
        reader.records().map(|row| row.expect("as many cells as heads")).collect()
    }

    #[test]
    fn each_number_stands_plain_with_its_unit() {
        let mut plan = Plan::new("Line");
        let bath = plan.add(Subject::Bath, "Copper, first");
        plan.type_in(&Field::single(bath, "make-up", "V_t"), "200.5 L", None);
        let figures = figures(&plan);
        let volume = figures.iter().find(|figure| figure.symbol == "V_t").expect("the volume");
        assert_eq!((&volume.amount, volume.unit.as_str()), (&Amount::Number(200.5), "L"));
        assert_eq!(volume.from, "typed");
        let text = csv(&figures);
        let rows = rows(&text);
        assert_eq!(rows.len(), figures.len());
        let row = rows.iter().find(|row| &row[5] == "V_t").expect("the volume");
        assert_eq!([&row[0], &row[6], &row[7]], ["Copper, first", "200.5", "L"]);
    }

    #[test]
    fn the_examples_have_their_answers_and_no_cell_runs() {
        for (id, ..) in examples::ALL {
            let plan = examples::plan(id).expect("an example");
            let figures = figures(&plan);
            assert!(figures.iter().filter(|figure| figure.from == ANSWER).count() > 50, "{id}");
            for row in rows(&csv(&figures)) {
                for (at, cell) in row.iter().enumerate() {
                    let is_number = at == 6 && cell.parse::<f64>().is_ok_and(f64::is_finite);
                    assert!(is_number || !cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{cell}");
                }
            }
        }
    }

    #[test]
    fn what_would_run_in_a_table_is_a_text_there() {
        for begins in ["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\r=1"] {
            assert!(csv_cell(begins).trim_start_matches('"').starts_with('\''), "{begins:?}");
        }
        // By hand after RFC 4180, section 2, rules 5 to 7.
        assert_eq!(csv_cell("say \"a\", b"), "\"say \"\"a\"\", b\"");
        assert_eq!(csv_cell("µm\u{a0}a day"), "µm\u{a0}a day");
    }
}
