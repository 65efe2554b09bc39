//! The head of a sheet: what it asks, whose it is, where that comes from and leads to.

use super::Here;
use crate::calculator::Subject;
use crate::plan::{Id, Place};
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// The head.
#[component]
pub fn Head(here: Here) -> impl IntoView {
    let (store, place, calculator) = (here.store, here.place, here.calculator);
    let is_quick = move || store.open.get().is_some_and(|open| open.quick.is_some());
    let name = Memo::new(move |_| {
        store
            .history
            .with(|history| history.plan().place(place).map(|place| place.name.clone()).unwrap_or_default())
    });
    let sort = calculator.subject.sort();
    let is_site = calculator.subject == Subject::Site;
    let rename = move |event| {
        let text = event_target_value(&event);
        store.act(|plan| plan.rename(place, &text));
    };
    view! {
        <h1>{calculator.title}</h1>
        <p class="ask">{calculator.question}</p>
        <Show when=move || !is_quick() && !is_site>
            <div class="whose">
                <div class="row">
                    <label for="place-name">{sort.title}" called"</label>
                    <div class="field"><input id="place-name" class="words" prop:value=name on:change=rename /></div>
                </div>
                {(!sort.comes_from.is_empty())
                    .then(|| view! { <Relation here from=true label=sort.from_label sorts=sort.comes_from /> })}
                {(!sort.leads_to.is_empty())
                    .then(|| view! { <Relation here from=false label=sort.to_label sorts=sort.leads_to /> })}
            </div>
        </Show>
        <Show when=is_quick>
            <div class="actions no-print">
                <button on:click=move |_| keep_as_plan(here)>"Keep as a plan"</button>
                <button on:click=move |_| clear_quick(here)>"Start this sum afresh"</button>
            </div>
        </Show>
    }
}

/// Which place this one comes from, or leads to.
#[component]
fn Relation(here: Here, from: bool, label: &'static str, sorts: &'static [Subject]) -> impl IntoView {
    let (store, place) = (here.store, here.place);
    let end = move |place: &Place| if from { place.from } else { place.to };
    let set = move |target: Option<Id>| {
        store.act(|plan| if from { plan.set_from(place, target) } else { plan.set_to(place, target) });
    };
    let choose = move |event| match event_target_value(&event).as_str() {
        "" => set(None),
        "new" => {
            if let Some(subject) = sorts.first().copied() {
                let results = store.results.get_untracked();
                store.act(|plan| {
                    if from {
                        let new = plan.add(subject, subject.sort().title);
                        plan.set_from(place, Some(new));
                    } else {
                        results.lead_to_new(plan, place, subject);
                    }
                });
            }
        }
        id => set(id.parse().ok()),
    };
    let options = move || {
        store.history.with(|history| {
            let plan = history.plan();
            let now = plan.place(place).and_then(end);
            let fits = |other: &&Place| sorts.contains(&other.subject) && other.id != place;
            let one = |other: &Place| {
                let (id, name) = (other.id.to_string(), other.name.clone());
                view! { <option value=id selected=now == Some(other.id)>{name}</option> }
            };
            plan.places.iter().filter(fits).map(one).collect_view()
        })
    };
    let none = if from { "nowhere in the plan" } else { here.calculator.subject.sort().leads_nowhere };
    let first = sorts.first().map_or("", |subject| subject.sort().title);
    let go = move || {
        let target = store.history.with(|history| {
            let target = history.plan().place(place).and_then(end)?;
            let target = history.plan().place(target)?;
            let sheet = crate::calculators::for_places_of(target.subject)
                .find(|c| target.sheets.contains_key(c.id))?;
            Some((target.id, sheet.id, target.name.clone()))
        });
        target.map(|(id, sheet, name)| {
            let label = format!("Go there: {name}");
            view! { <a class="btn" aria-label=label href=store.sheet_address(id, sheet).text()>"Go there"</a> }
        })
    };
    let id = if from { "comes-from" } else { "leads-to" };
    view! {
        <div class="row">
            <label for=id>{label}</label>
            <div class="field choice">
                <select id=id on:change=choose>
                    <option value="">{none}</option>
                    {options}
                    <option value="new">{format!("a new {}", first.to_ascii_lowercase())}</option>
                </select>
                {go}
            </div>
        </div>
    }
}

fn keep_as_plan(here: Here) {
    let shelf = here.store.shelf;
    let plan = here.store.history.with_untracked(|history| history.plan().clone());
    let id = shelf.add(plan);
    crate::ui::app::go(&crate::address::Address::Sheet {
        plan: id,
        place: here.place,
        calculator: here.calculator.id,
    });
}

fn clear_quick(here: Here) {
    here.store.act(|plan| {
        if let Some(sheet) = plan.sheet_mut(here.place, here.calculator.id) {
            *sheet = Default::default();
        }
    });
    here.store.said.set(Some("Started afresh. Undo brings the numbers back.".into()));
}
