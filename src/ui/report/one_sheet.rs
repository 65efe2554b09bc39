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
        view! {
            <tr>
                <th scope="row">{item.label} " " <i>{formula(item.symbol)}</i></th>
                <td class="n">{item.value}</td>
                <td class="from">{item.from}</td>
            </tr>
        }
    };
    view! {
        <h3>{heading}</h3>
        <table class="data"><tbody>{items.into_iter().map(one).collect_view()}</tbody></table>
    }
    .into_any()
}

fn grid(grid: Grid) -> AnyView {
    let row = |(key, cells): (crate::calculator::Key, Vec<String>)| {
        let cells = cells.into_iter().map(|text| view! { <td>{text}</td> }).collect_view();
        view! { <tr><th scope="row">{key.to_string()}</th>{cells}</tr> }
    };
    view! {
        <h3>{grid.label}</h3>
        <table class="data grid">
            <thead><tr>{grid.head.into_iter().map(|head| view! { <th scope="col">{head}</th> }).collect_view()}</tr></thead>
            <tbody>{grid.rows.into_iter().map(row).collect_view()}</tbody>
        </table>
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

fn list(heading: &'static str, items: Vec<AnyView>) -> AnyView {
    if items.is_empty() {
        return ().into_any();
    }
    view! { <h3>{heading}</h3> <ul class="plain">{items}</ul> }.into_any()
}

/// The sheet, as it will be printed; on a new page if it is the first of its place.
pub fn view_of(sheet: SheetReport, with_working: bool, is_first_of_place: bool) -> AnyView {
    let heading = title(&sheet);
    let calculator = sheet.calculator;
    let cautions = sheet.cautions.into_iter().map(|text| view! { <li>{text}</li> }.into_any()).collect();
    let findings = sheet.findings.into_iter().map(finding).collect();
    let stop = sheet.stop.map(|text| view! { <p class="why"><b>"No answer. "</b>{text}</p> });
    let working = (with_working && !sheet.working.is_empty()).then(|| {
        view! {
            <h3>"Working"</h3>
            <ol class="steps">{sheet.working.into_iter().map(step).collect_view()}</ol>
        }
    });
    let sources = calculator.sources.iter().map(|source| view! { <li>{*source}</li> }.into_any()).collect();
    view! {
        <article class="report-part one" class:first=is_first_of_place data-sheet=calculator.id>
            <h2>{heading}</h2>
            <p class="ask">{calculator.question}</p>
            {stop}
            {items("Answers", sheet.answers)}
            {list("To look at", findings)}
            {list("Cautions", cautions)}
            {items("What it takes", sheet.inputs)}
            {sheet.grids.into_iter().map(grid).collect_view()}
            {working}
            {list("Sources", sources)}
        </article>
    }
    .into_any()
}
