//! The building request: what the line asks of the building, on one page for its engineer.
//!
//! All numbers are those of the sheet of utilities. However many places a plan has, it is one page: of a long
//! table the largest rows stand there, and the others as one.

use super::{DIGITS, answer};
use crate::calculator::{Finding, Key, Output, Severity};
use crate::calculators::utilities::{self, request};
use crate::plan::{Field, Plan};
use crate::results::Results;
use crate::units::NUMBER;

/// Rows of all tables together that a page has room for.
const ROOM: usize = 48;
/// A table keeps at least this many.
const LEAST: usize = 2;

/// One line of what is asked for in all.
#[derive(Clone, Debug, PartialEq)]
pub struct Total {
    /// What is asked for.
    pub label: &'static str,
    /// Peak, mean, a day: empty where there is none.
    pub values: [String; 3],
    /// What else belongs to it: label and value.
    pub besides: Vec<(&'static str, String)>,
}

/// A table of where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is of.
    pub label: &'static str,
    /// The heads of its columns; the first is that of the rows' names.
    pub head: Vec<&'static str>,
    /// Name and cells of each row, the largest first.
    pub rows: Vec<(Key, Vec<String>)>,
}

/// The request of a plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Request {
    /// Why there is none, if there is none.
    pub stop: Option<String>,
    /// What is asked for in all.
    pub totals: Vec<Total>,
    /// Where it comes from.
    pub parts: Vec<Part>,
    /// What to look at, the worst first; what is left out is among them.
    pub findings: Vec<Finding>,
    /// The cautions that apply.
    pub cautions: Vec<&'static str>,
}

/// What a plan asks of its building; `None` if it has no sheet of utilities.
pub fn building(plan: &Plan, results: &Results) -> Option<Request> {
    let site = plan.site()?.id;
    let id = utilities::CALCULATOR.id;
    let cell = results.network.cell_at(site, id)?;
    let Some(outcome) = results.outcome(cell) else {
        let stop = results.stop(cell).map(|stop| stop.text());
        return Some(Request { stop, ..Request::default() });
    };
    let style = results.style().with_digits(DIGITS);
    let single = |symbol: &str| -> Option<(&'static str, f64, String)> {
        let calculator = &utilities::CALCULATOR;
        if let Some(output) = calculator.outputs.iter().find(|output| output.symbol == symbol) {
            return Some((
                output.label,
                results.answer(cell, symbol, "")?.1,
                answer(results, cell, output, "")?,
            ));
        }
        let input = calculator.inputs.iter().find(|input| input.symbol == symbol)?;
        let field = Field::single(site, id, input.symbol);
        let (datum, _) = results.datum(&field)?;
        let value = super::item(plan, results, &field, input)?.value;
        Some((input.label, datum.value.si, value))
    };
    let is_asked = |si: f64| si != 0.0;
    let total = |sum: &request::Sum| {
        let found = sum.symbols.map(&single);
        let is_any = found.iter().flatten().any(|(_, si, _)| is_asked(*si));
        let besides = sum.besides.iter().filter_map(|symbol| single(symbol));
        let besides: Vec<_> =
            besides.filter(|(_, si, _)| is_asked(*si)).map(|(label, _, value)| (label, value)).collect();
        let values = found.map(|found| found.map_or(String::new(), |(.., value)| value));
        (is_any || !besides.is_empty()).then_some(Total { label: sum.label, values, besides })
    };
    let mut tables: Vec<Table> = request::TABLES.iter().filter_map(|id| table(results, cell, id)).collect();
    shorten(&mut tables);
    let show = |output: &Output, si: f64| if si.is_finite() { output.text(si, &style) } else { "–".into() };
    let part = |table: Table| {
        let cells = |numbers: &[f64]| table.outputs.iter().zip(numbers).map(|(o, si)| show(o, *si)).collect();
        let mut rows: Vec<_> =
            table.rows.iter().map(|(key, numbers)| (key.clone(), cells(numbers))).collect();
        if table.more > 0 {
            let blank = |text: String| if text == "–" { String::new() } else { text };
            let together: Vec<String> = cells(&table.rest);
            let name = format!("{} more, together", table.more);
            rows.push((name.into(), together.into_iter().map(blank).collect()));
        }
        let labels = table.outputs.iter().map(|output| output.label);
        Part { label: table.label, head: std::iter::once(table.key_label).chain(labels).collect(), rows }
    };
    let mut findings = outcome.findings.clone();
    crate::order::sort_by_key(&mut findings, |finding| std::cmp::Reverse(finding.severity));
    findings
        .retain(|finding| finding.severity > Severity::Note || finding.at == "w_p" || finding.at == "I_f");
    Some(Request {
        stop: None,
        totals: request::SUMS.iter().filter_map(total).collect(),
        parts: tables.into_iter().map(part).collect(),
        findings,
        cautions: outcome.cautions.clone(),
    })
}

/// A table in SI, before it is known how much of it has room.
struct Table {
    label: &'static str,
    key_label: &'static str,
    outputs: Vec<&'static Output>,
    rows: Vec<(Key, Vec<f64>)>,
    /// How many rows found no room, and what they come to together.
    more: usize,
    rest: Vec<f64>,
}

/// A table of the sheet, without the words that say what peak and mean are; `None` if it has no rows.
fn table(results: &Results, cell: usize, id: &str) -> Option<Table> {
    let calculator = &utilities::CALCULATOR;
    let at = calculator.table_named(id)?;
    let declared = calculator.table(at);
    let columns: Vec<usize> =
        (0..declared.answers.len()).filter(|at| declared.answers[*at].words.is_empty()).collect();
    let found = results.outcome(cell)?.answers.get(at)?.iter();
    let is_asked = |numbers: &[f64]| numbers.iter().any(|si| si.is_finite() && *si != 0.0);
    let rows = found.map(|(key, numbers)| (key.clone(), columns.iter().map(|at| numbers[*at]).collect()));
    let rows: Vec<(Key, Vec<f64>)> =
        rows.filter(|(_, numbers): &(Key, Vec<f64>)| is_asked(numbers)).collect();
    let outputs: Vec<_> = columns.iter().map(|at| &declared.answers[*at]).collect();
    // A column in which nothing is known says nothing.
    let is_known: Vec<bool> =
        (0..outputs.len()).map(|at| rows.iter().any(|(_, numbers)| numbers[at].is_finite())).collect();
    let kept = |at: &usize| is_known[*at];
    let outputs = (0..outputs.len()).filter(kept).map(|at| outputs[at]).collect();
    let rows: Vec<(Key, Vec<f64>)> = rows
        .into_iter()
        .map(|(key, numbers)| (key, (0..numbers.len()).filter(kept).map(|at| numbers[at]).collect()))
        .collect();
    let (label, key_label) = (declared.label, declared.key_label);
    (!rows.is_empty()).then_some(Table { label, key_label, outputs, rows, more: 0, rest: Vec::new() })
}

/// Leaves as many rows of each table as all of them have room for together: the largest, in their order.
fn shorten(tables: &mut [Table]) {
    let lines = |most: usize| tables.iter().map(|table| table.rows.len().min(most)).sum::<usize>();
    let longest = tables.iter().map(|table| table.rows.len()).max().unwrap_or(0);
    let most = (LEAST..=longest).rev().find(|most| lines(*most) <= ROOM).unwrap_or(LEAST);
    for table in tables.iter_mut().filter(|table| table.rows.len() > most) {
        let size = |row: &(Key, Vec<f64>)| row.1.iter().copied().find(|si| si.is_finite()).unwrap_or(0.0);
        // The largest, and of rows as large the first; one line is for the rest.
        let mut order: Vec<usize> = (0..table.rows.len()).collect();
        crate::order::sort(&mut order, |a, b| size(&table.rows[*b]).total_cmp(&size(&table.rows[*a])));
        order.truncate(most - 1);
        let (mut kept, mut rest) = (Vec::new(), vec![f64::NAN; table.outputs.len()]);
        for (at, row) in std::mem::take(&mut table.rows).into_iter().enumerate() {
            if order.contains(&at) {
                kept.push(row);
                continue;
            }
            table.more += 1;
            for ((sum, si), output) in rest.iter_mut().zip(&row.1).zip(&table.outputs) {
                // A share of one is no share of several.
                if si.is_finite() && output.unit != NUMBER {
                    *sum = if sum.is_nan() { *si } else { *sum + si };
                }
            }
        }
        (table.rows, table.rest) = (kept, rest);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::examples;

    /// What the engineer does not need: how the sheet counts, and what it costs to run.
    const NOT_ASKED: &[&str] = &["known", "t_l", "V_n", "c_a", "c_n"];

    #[test]
    fn all_that_the_sheet_answers_stands_on_the_request() {
        let calculator = &utilities::CALCULATOR;
        let sums = request::SUMS.iter().flat_map(|sum| sum.symbols.iter().chain(sum.besides));
        let named: Vec<&str> = sums.copied().filter(|symbol| !symbol.is_empty()).collect();
        for symbol in &named {
            assert!(calculator.port(symbol).is_some_and(|port| port.table == 0), "{symbol}");
        }
        for output in calculator.outputs {
            let is_named = named.contains(&output.symbol) != NOT_ASKED.contains(&output.symbol);
            assert!(is_named, "{}: {}", output.symbol, output.label);
        }
        for table in calculator.tables.iter().filter(|table| !table.answers.is_empty()) {
            assert!(request::TABLES.contains(&table.id), "{}", table.id);
        }
        assert!(request::TABLES.iter().all(|id| calculator.table_named(id).is_some()));
    }

    #[test]
    fn what_has_no_room_on_the_page_is_one_line_and_not_lost() {
        let outputs: Vec<&Output> = utilities::CALCULATOR.outputs.iter().take(1).collect();
        let table = |n: usize| Table {
            label: "",
            key_label: "",
            outputs: outputs.clone(),
            // Many of a size, as in a line of like baths.
            rows: (0..n).map(|k| (format!("{k}").into(), vec![((k * 7) % n / 3 + 1) as f64])).collect(),
            more: 0,
            rest: Vec::new(),
        };
        let sum = |table: &Table| {
            let rest = table.rest.first().copied().unwrap_or(0.0);
            table.rows.iter().map(|row| row.1[0]).sum::<f64>() + rest
        };
        for sizes in [vec![3, 4, 5], vec![30, 30, 3], vec![200], vec![60; 13], vec![1; 13]] {
            let mut tables: Vec<Table> = sizes.iter().map(|n| table(*n)).collect();
            let before: Vec<f64> = tables.iter().map(sum).collect();
            shorten(&mut tables);
            let lines: usize =
                tables.iter().map(|table| table.rows.len() + usize::from(table.more > 0)).sum();
            assert!(lines <= ROOM.max(LEAST * sizes.len()), "{sizes:?}: {lines}");
            assert_eq!(tables.iter().map(sum).collect::<Vec<_>>(), before, "{sizes:?}");
            for table in tables.iter().filter(|table| table.more > 0) {
                assert!(table.more > 1, "one line for one row is no gain");
                let least = table.rows.iter().map(|row| row.1[0]).fold(f64::INFINITY, f64::min);
                assert!(table.rest[0] / (table.more as f64) <= least && !table.rows.is_empty());
            }
        }
    }

    #[test]
    fn every_example_line_asks_its_building() {
        for (id, ..) in examples::ALL {
            let mut plan = examples::plan(id).expect("an example");
            let site = plan.site().expect("a site").id;
            plan.remove_sheet(site, utilities::CALCULATOR.id);
            assert_eq!(building(&plan, &Results::of(&plan, None)), None);
            plan.add_sheet(site, utilities::CALCULATOR.id);
            let asked = building(&plan, &Results::of(&plan, None)).expect("a request");
            assert_eq!(asked.stop, None, "{id}");
            let labels: Vec<_> = asked.totals.iter().map(|total| total.label).collect();
            for wanted in ["Electrical load", "DI water", "Heat to the room"] {
                assert!(labels.contains(&wanted), "{id}: {labels:?}");
            }
            assert!(asked.totals.iter().all(|total| total.values.iter().any(|value| !value.is_empty())));
            assert!(
                asked.parts.iter().all(|part| part.rows.iter().all(|row| row.1.len() + 1 == part.head.len()))
            );
            assert!(!asked.cautions.is_empty());
        }
    }
}
