//! What to look at, the worst first, and what to do next.

use super::super::gaps::gaps_view;
use super::super::store::Store;
use super::super::words::severity_mark;
use super::address_of;
use crate::calculator::Subject;
use crate::plan::Field;
use crate::results::Results;
use crate::ui::element::Show;
use bathbook_view::view;
use leptos::prelude::*;

/// The place of a cell, or the sheet's own title where that says more.
fn where_it_is(results: &Results, cell: usize) -> Option<(String, (crate::plan::Id, &'static str))> {
    let found = results.network.cells.get(cell)?;
    let title = found.calculator.title;
    let name = match found.calculator.subject {
        Subject::Site => title.to_string(),
        _ => format!("{} · {}", found.name, title),
    };
    Some((name, (found.place, found.calculator.id)))
}

/// Everything found in the plan.
#[component]
pub fn ToLookAt() -> impl IntoView {
    let store = Store::here();
    let list = move || {
        let found = store.results.with(|results| {
            let all = results.findings().into_iter();
            all.filter_map(|found| Some((found.finding, where_it_is(results, found.cell)?)))
                .collect::<Vec<_>>()
        });
        if found.is_empty() {
            // No tick: that nothing was found is no approval.
            return view! { <p class="hint">"Nothing so far."</p> }.into_any();
        }
        let item = |(finding, (name, sheet)): (crate::calculator::Finding, (String, _))| {
            let (class, shape, word) = severity_mark(finding.severity);
            view! {
                <li>
                    <a class="look" href=address_of(store, Some(sheet))>
                        <span class=format!("mark {class}")>{shape}" "{word}</span>
                        " "
                        <b>{name}</b>
                        <span class="why">{finding.text}</span>
                    </a>
                </li>
            }
        };
        view! { <ul class="looks">{found.into_iter().map(item).collect_view()}</ul> }.into_any()
    };
    view! {
        <section aria-labelledby="look-title">
            <h2 id="look-title">"To look at"</h2>
            {list}
        </section>
    }
}

/// One thing to do: on which sheet, what, and at which fields.
struct Step {
    name: String,
    what: String,
    href: String,
    fields: Vec<Field>,
}

/// What is still to be typed or chosen.
#[component]
pub fn DoNext() -> impl IntoView {
    let store = Store::here();
    let steps = move || -> Vec<Step> {
        let mut steps: Vec<_> = store.results.with(|results| {
            let waiting = results.todo().into_iter();
            let step = |(cell, stop): (usize, &crate::calculator::Stop)| {
                let (name, sheet) = where_it_is(results, cell)?;
                let fields = results.gaps(cell);
                let what = if fields.len() > 1 { "Still to be typed:".into() } else { stop.text() };
                Some(Step { name, what, href: address_of(store, Some(sheet)), fields })
            };
            let unread = results.network.cells.iter().enumerate().filter(|(_, cell)| !cell.issues.is_empty());
            let mend = |(at, cell): (usize, &crate::network::Cell)| {
                let (name, sheet) = where_it_is(results, at)?;
                let what = crate::results::count(cell.issues.len(), "field") + " cannot be read.";
                Some(Step { name, what, href: address_of(store, Some(sheet)), fields: results.unread(at) })
            };
            waiting.filter_map(step).chain(unread.filter_map(mend)).collect()
        });
        store.history.with(|history| {
            let lost = history.plan().places.iter();
            let lost = lost.filter(|place| place.subject == Subject::Stream && place.to.is_none());
            let sheet = |id| store.results.with(|results| crate::picture::flows::sheet_at(results, id));
            steps.extend(lost.map(|place| Step {
                name: place.name.clone(),
                what: "No route yet. Choose where it goes.".into(),
                href: address_of(store, sheet(place.id)),
                fields: Vec::new(),
            }));
        });
        steps
    };
    let item = move |step: Step| {
        let Step { name, what, href, fields } = step;
        let first = fields.first().cloned();
        let list = (fields.len() > 1).then(|| gaps_view(store, fields));
        view! {
            <li>
                <a class="look" href=href on:click=move |_| store.wanted.set(first.clone())>
                    <b>{name}</b>
                    <span class="why">{what}</span>
                </a>
                {list}
            </li>
        }
    };
    view! {
        <Show when=move || !steps().is_empty()>
            <section aria-labelledby="next-title">
                <h2 id="next-title">"Do next"</h2>
                <ul class="looks">{move || steps().into_iter().map(item).collect_view()}</ul>
            </section>
        </Show>
    }
}
