//! What to look at, the worst first, and what to do next.

use super::super::gaps::gaps_view;
use super::super::sheet::findings::PAUSE;
use super::super::store::Store;
use super::super::words::severity_mark;
use super::address_of;
use crate::ask::{Cure, cures};
use crate::calculator::Subject;
use crate::picture::flows::Sheet;
use crate::picture::map::as_title;
use crate::plan::{Field, Id};
use crate::results::{Found, Results};
use crate::ui::element::Show;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::prelude::*;
use std::time::Duration;

/// The place of a cell, or the sheet's own title where that says more.
fn where_it_is(results: &Results, cell: usize) -> Option<(String, Sheet)> {
    let found = results.network.cells.get(cell)?;
    let title = found.calculator.title;
    let name = match found.calculator.subject {
        Subject::Site => title.to_string(),
        _ => format!("{} · {}", found.name, title),
    };
    Some((name, (found.place, found.calculator.id)))
}

/// One finding, where it is, and on which sheet.
#[derive(Clone, PartialEq)]
struct Look {
    found: Found,
    name: String,
    sheet: Sheet,
}

/// Everything found in the plan.
#[component]
pub fn ToLookAt() -> impl IntoView {
    let store = Store::here();
    let looks = Memo::new(move |_| {
        store.results.with(|results| {
            let look = |found: Found| {
                let (name, sheet) = where_it_is(results, found.cell)?;
                Some(Look { found, name, sheet })
            };
            results.findings().into_iter().filter_map(look).collect::<Vec<_>>()
        })
    });
    let cured = cures_one_by_one(store, looks);
    let list = move || {
        let looks = looks.get();
        if looks.is_empty() {
            // No tick: that nothing was found is no approval.
            return view! { <p class="hint">"Nothing so far."</p> }.into_any();
        }
        let item = |(at, look): (usize, Look)| {
            let Look { found: Found { finding, .. }, name, sheet } = look;
            let (class, shape, word) = severity_mark(finding.severity);
            let offered = move || {
                let list = cured.with(|all| all.get(at).cloned()).filter(|list| !list.is_empty())?;
                Some(offers(store, list, sheet.0))
            };
            view! {
                <li>
                    <a class="look" href=address_of(store, Some(sheet))>
                        <span class=format!("mark {class}")>{shape}" "{word}</span>
                        " "
                        <b>{name}</b>
                        <span class="why">{finding.text}</span>
                    </a>
                    {offered}
                </li>
            }
        };
        view! { <ul class="looks">{looks.into_iter().enumerate().map(item).collect_view()}</ul> }.into_any()
    };
    view! {
        <section aria-labelledby="look-title">
            <h2 id="look-title">"To look at"</h2>
            {list}
        </section>
    }
}

/// What alone would cure each of some findings, looked for once the plan rests: one after the other, so that the
/// page answers in between.
fn cures_one_by_one(store: Store, looks: Memo<Vec<Look>>) -> RwSignal<Vec<Vec<Cure>>> {
    let cured = RwSignal::new(Vec::new());
    let timer = StoredValue::new(None::<TimeoutHandle>);
    let stop = move || {
        timer.update_value(|timer| {
            if let Some(timer) = timer.take() {
                timer.clear();
            }
        })
    };
    fn next(
        store: Store,
        looks: Memo<Vec<Look>>,
        cured: RwSignal<Vec<Vec<Cure>>>,
        timer: StoredValue<Option<TimeoutHandle>>,
    ) {
        let (Some(at), results) = (cured.try_with_untracked(Vec::len), store.results.get_untracked()) else {
            return;
        };
        let Some(look) = looks.with_untracked(|looks| looks.get(at).cloned()) else { return };
        let found = cures(&results.network, look.found.cell, &look.found.finding);
        cured.update(|cured| cured.push(found));
        let again = move || next(store, looks, cured, timer);
        timer.set_value(set_timeout_with_handle(again, Duration::ZERO).ok());
    }
    // By what is found, not by each edit: whoever types a name here finds the page awake.
    Effect::new(move |_| {
        looks.track();
        stop();
        cured.set(Vec::new());
        let begin = move || next(store, looks, cured, timer);
        timer.set_value(set_timeout_with_handle(begin, PAUSE).ok());
    });
    on_cleanup(stop);
    cured
}

/// Cures, each a touch away from the field that it is typed into.
fn offers(store: Store, cures: Vec<Cure>, here: Id) -> AnyView {
    let one = |cure: Cure| {
        let href = store.sheet_address(cure.place, cure.calculator).text();
        let said = cure.said(here);
        view! { <li><a href=href on:click=move |_| store.wanted.set(cure.field())>{said}</a></li> }
    };
    view! {
        <div class="gaps">
            <span>"What alone would do it:"</span>
            <ul>{cures.into_iter().map(one).collect_view()}</ul>
        </div>
    }
    .into_any()
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
            let mend = |(at, cell): (usize, &std::sync::Arc<crate::network::Cell>)| {
                let (name, sheet) = where_it_is(results, at)?;
                let what = crate::results::count(cell.issues.len(), "field") + " cannot be read.";
                Some(Step { name, what, href: address_of(store, Some(sheet)), fields: results.unread(at) })
            };
            waiting.filter_map(step).chain(unread.filter_map(mend)).collect()
        });
        store.history.with(|history| {
            let lost = history.plan().places.iter();
            let lost = lost.filter(|place| place.subject.sort().is_flow() && place.to.is_none());
            let sheet = |id| store.results.with(|results| crate::picture::flows::sheet_at(results, id));
            steps.extend(lost.map(|place| Step {
                name: place.name.clone(),
                what: as_title(place.subject.sort().leads_nowhere) + ". Choose where it goes.",
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
