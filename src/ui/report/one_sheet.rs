//! One sheet on paper.

use super::super::words::{formula, severity_mark};
use super::cover::title;
use crate::calculator::{Finding, Line};
use crate::report::{Grid, Item, SheetReport};
use bathbook_view::view;
use leptos::prelude::*;

fn items(heading: &'static str, items: Vec<Item>) -> AnyView {
    if items.is_empty() {
        return ().into_any();
    }
    let one = |item: Item| {
        let from = (!item.from.is_empty()).then(|| view! { " " <span class="whence">{item.from}</span> });
        view! {
            <tr>
                <th scope="row">{item.label} " " <i>{formula(item.symbol)}</i></th>
                <td class="n">{item.value}{from}</td>
            </tr>
        }
    };
    view! {
        <h3>{heading}</h3>
        <div class="two"><table class="data items"><tbody>{items.into_iter().map(one).collect_view()}</tbody></table></div>
    }
    .into_any()
}

/// Answers that are missing, once for each reason.
fn missing(all: Vec<(String, Vec<&'static str>)>) -> AnyView {
    let one = |(why, labels): (String, Vec<&'static str>)| format!("{}: {why}", labels.join("; "));
    let all: Vec<_> = all.into_iter().map(one).collect();
    (!all.is_empty())
        .then(|| view! { <p class="none"><b>"No answer to "</b>{all.join(". ")}"."</p> })
        .into_any()
}

/// Tables of at most this many columns run on in a second one on paper.
const NARROW: usize = 3;

/// A table that no page has room for: each row in words.
fn list(grid: &Grid) -> AnyView {
    let row = |(key, cells): &(crate::calculator::Key, Vec<String>)| {
        let words = grid.in_words(cells);
        view! { <li><b>{key.to_string()}</b> " " {words}</li> }
    };
    view! {
        <h3>{grid.label}</h3>
        <ul class="plain rows-told">{grid.rows.iter().map(row).collect_view()}</ul>
    }
    .into_any()
}

fn grid(grid: Grid) -> AnyView {
    if grid.is_too_wide() {
        return list(&grid);
    }
    let grid = grid.fitted();
    let is_narrow = grid.head.len() <= NARROW;
    let row = |(key, cells): (crate::calculator::Key, Vec<String>)| {
        let cells = cells.into_iter().map(|text| view! { <td>{text}</td> }).collect_view();
        view! { <tr><th scope="row">{key.to_string()}</th>{cells}</tr> }
    };
    view! {
        <h3>{grid.label}</h3>
        <div class="scroll" class:two=is_narrow tabindex="0">
        <table class="data grid">
            <thead><tr>{grid.head.into_iter().map(|head| view! { <th scope="col">{head.to_string()}</th> }).collect_view()}</tr></thead>
            <tbody>{grid.rows.into_iter().map(row).collect_view()}</tbody>
        </table>
        </div>
    }
    .into_any()
}

fn finding(finding: Finding) -> AnyView {
    let (class, shape, word) = severity_mark(finding.severity);
    view! { <li><span class=format!("mark {class}")>{shape}" "{word}</span>" "{finding.text}</li> }.into_any()
}

fn step(line: Line) -> AnyView {
    let numbers = line.numbers();
    view! {
        <li>
            <b>{line.label}</b>
            <div>
                <div class="eq">{formula(&line.symbol)} " = " {formula(&line.shown.formula)}</div>
                <div class="num">{numbers}</div>
            </div>
        </li>
    }
    .into_any()
}

fn to_look_at(findings: Vec<AnyView>) -> AnyView {
    if findings.is_empty() {
        return ().into_any();
    }
    view! { <h3>"To look at"</h3> <ul class="plain">{findings}</ul> }.into_any()
}

/// The sheet, as it will be printed.
pub fn view_of(sheet: SheetReport, with_working: bool) -> AnyView {
    let heading = title(&sheet);
    let calculator = sheet.calculator;
    let findings = sheet.findings.into_iter().map(finding).collect();
    let stop = sheet.stop.map(|text| view! { <p class="why"><b>"No answer. "</b>{text}</p> });
    let working = (with_working && !sheet.working.is_empty()).then(|| {
        view! {
            <h3>"Working"</h3>
            <ol class="steps">{sheet.working.into_iter().map(step).collect_view()}</ol>
        }
    });
    view! {
        <article class="report-part one" data-sheet=calculator.id>
            <h2>{heading}</h2>
            <p class="ask">{calculator.question}</p>
            {stop}
            {items("Answers", sheet.answers)}
            {missing(sheet.missing)}
            {to_look_at(findings)}
            {items("What it takes", sheet.inputs)}
            {sheet.grids.into_iter().map(grid).collect_view()}
            {working}
        </article>
    }
    .into_any()
}
