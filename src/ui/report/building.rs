//! The building request: a page of its own, and a part of the report.

use super::super::line::address_of;
use super::super::paper::{self, Marks};
use super::super::store::Store;
use super::super::words::{breadth, severity_mark};
use crate::calculator::Finding;
use crate::calculators::{site, utilities};
use crate::report::{Part, Request, Total, building};
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// What the plan asks of its building; `None` without its sheet.
pub fn asked(store: Store) -> Memo<Option<Request>> {
    Memo::new(move |_| {
        store.history.with(|history| store.results.with(|results| building(history.plan(), results)))
    })
}

/// The page.
#[component]
pub fn BuildingPage() -> impl IntoView {
    let store = Store::here();
    let asked = asked(store);
    let marks = paper::marks(store);
    let id = utilities::CALCULATOR.id;
    let site = move || store.history.with(|history| history.plan().site().map(|site| site.id));
    let add = move |_| {
        if let Some(site) = site() {
            store.act(|plan| plan.add_sheet(site, id));
        }
    };
    let body = move || {
        match asked.get() {
        Some(request) => {
            let sheet = address_of(store, site().map(|site| (site, id)));
            view! {
                <div class="actions no-print">
                    <button class="primary" on:click=move |_| { let _ = window().print(); }>"Print, or save as PDF"</button>
                    <a class="btn" href=sheet>"Items of your own, on the sheet of utilities"</a>
                </div>
                {view_of(store, marks, request, "hide")}
            }
            .into_any()
        }
        None => view! {
            <p>"It is summed up by the sheet of utilities, which this plan does not have yet."</p>
            <div class="actions"><button class="primary" on:click=add>"Add the sheet of utilities"</button></div>
        }
        .into_any(),
    }
    };
    view! {
        <main id="main" class="report">
            <h1 class="no-print">"Building request"</h1>
            <p class="ask no-print">"What the line asks of the building, on one page for its engineer."</p>
            {body}
        </main>
    }
}

/// The request, as it is handed over.
pub fn view_of(store: Store, marks: Marks, request: Request, heading: &'static str) -> AnyView {
    let author = store.history.with_untracked(|history| {
        let plan = history.plan();
        let entries = &plan.site()?.sheets.get(site::CALCULATOR.id)?.entries;
        entries.get(site::AUTHOR).map(|entry| entry.text.clone()).filter(|text| !text.is_empty())
    });
    let author =
        author.map(|author| view! { <div class="pair"><dt>"Prepared by"</dt><dd>{author}</dd></div> });
    let Request { stop, totals, parts, findings, cautions } = request;
    let stop = stop.map(|text| view! { <p class="why"><b>"No answer. "</b>{text}</p> });
    let totals = (!totals.is_empty()).then(|| in_all(totals));
    view! {
        <section class="report-part request" data-part="building">
            <h2 class=heading>"Building request"</h2>
            <dl class="lines">
                <div class="pair"><dt>"Plan"</dt><dd>{move || marks.name.get()}</dd></div>
                <div class="pair"><dt>"Day"</dt><dd>{move || marks.day.get()}</dd></div>
                {author}
                <div class="pair"><dt>"Plan check"</dt><dd>{move || marks.sum.get()}</dd></div>
            </dl>
            {stop}
            {to_look_at(findings)}
            {totals}
            <div class="parts">{parts.into_iter().map(part).collect_view()}</div>
            <ul class="plain cautions">{cautions.into_iter().map(|text| view! { <li>{text}</li> }).collect_view()}</ul>
            <div class="signs"><span>"Asked by, day"</span><span>"For the building, day"</span></div>
        </section>
    }
    .into_any()
}

fn to_look_at(findings: Vec<Finding>) -> AnyView {
    let one = |finding: Finding| {
        let (class, shape, word) = severity_mark(finding.severity);
        view! { <li><span class=format!("mark {class}")>{shape}" "{word}</span>" "{finding.text}</li> }
    };
    (!findings.is_empty())
        .then(|| view! { <ul class="plain">{findings.into_iter().map(one).collect_view()}</ul> })
        .into_any()
}

const HEADS: [&str; 3] = ["Peak", "Mean", "A day"];

fn in_all(totals: Vec<Total>) -> AnyView {
    let heads = HEADS.map(|head| view! { <th scope="col" class="n">{head}</th> });
    let row = |total: Total| {
        let cells = total.values.into_iter().zip(HEADS);
        let cells =
            cells.map(|(text, label)| view! { <td class="n" data-label=label>{text}</td> }).collect_view();
        let besides = total.besides.into_iter().map(|(label, value)| format!("{label} {value}"));
        let besides = besides.collect::<Vec<_>>().join("; ");
        view! { <tr><th scope="row">{total.label}</th>{cells}<td class="besides" data-label="Besides">{besides}</td></tr> }
    };
    view! {
        <h3>"In all"</h3>
        <div class="data-frame" tabindex="0" role="region" aria-label="In all">
            <table class="data some">
                <thead><tr><th scope="col">"What"</th>{heads.collect_view()}<th scope="col">"Besides"</th></tr></thead>
                <tbody>{totals.into_iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
    .into_any()
}

fn part(part: Part) -> AnyView {
    let Part { label, head, rows } = part;
    let mut labels = head.into_iter();
    let name = labels.next().unwrap_or_default();
    let labels: Vec<_> = labels.collect();
    let heads = labels.iter().map(|label| view! { <th scope="col" class="n">{*label}</th> }).collect_view();
    let row = |(key, cells): (crate::calculator::Key, Vec<String>)| {
        let cells = cells.into_iter().zip(&labels);
        let cells =
            cells.map(|(text, label)| view! { <td class="n" data-label=*label>{text}</td> }).collect_view();
        view! { <tr><th scope="row">{key.to_string()}</th>{cells}</tr> }
    };
    let class = format!("data {}", breadth(1 + labels.len()));
    let rows = rows.into_iter().map(row).collect_view();
    view! {
        <div class="request-part">
            <h3>{label}</h3>
            <div class="data-frame" tabindex="0" role="region" aria-label=label>
                <table class=class>
                    <thead><tr><th scope="col">{name}</th>{heads}</tr></thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
        </div>
    }
    .into_any()
}
