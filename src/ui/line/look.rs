//! What to look at, the worst first, and what to do next.

use super::super::store::Store;
use super::super::words::severity_mark;
use super::address_of;
use crate::calculator::Subject;
use crate::picture::map::as_title;
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

/// What is still to be typed or chosen.
#[component]
pub fn DoNext() -> impl IntoView {
    let store = Store::here();
    let steps = move || -> Vec<(String, String, String)> {
        let mut steps: Vec<_> = store.results.with(|results| {
            let waiting = results.todo().into_iter();
            let step = |(cell, stop): (usize, &crate::calculator::Stop)| {
                let (name, sheet) = where_it_is(results, cell)?;
                Some((name, stop.text(), address_of(store, Some(sheet))))
            };
            let unread = results.network.cells.iter().enumerate().filter(|(_, cell)| !cell.issues.is_empty());
            let mend = |(at, cell): (usize, &crate::network::Cell)| {
                let (name, sheet) = where_it_is(results, at)?;
                let fields = crate::results::count(cell.issues.len(), "field");
                Some((name, format!("{fields} cannot be read."), address_of(store, Some(sheet))))
            };
            waiting.filter_map(step).chain(unread.filter_map(mend)).collect()
        });
        store.history.with(|history| {
            let lost = history.plan().places.iter();
            let lost = lost.filter(|place| place.subject.sort().is_flow() && place.to.is_none());
            let sheet = |id| store.results.with(|results| crate::picture::flows::sheet_at(results, id));
            steps.extend(lost.map(|place| {
                let what = as_title(place.subject.sort().leads_nowhere) + ". Choose where it goes.";
                (place.name.clone(), what, address_of(store, sheet(place.id)))
            }));
        });
        steps
    };
    let item = |(name, what, href): (String, String, String)| {
        view! {
            <li><a class="look" href=href><b>{name}</b><span class="why">{what}</span></a></li>
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
