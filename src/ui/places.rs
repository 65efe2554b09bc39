//! The rail of the plan's places and their sheets.

use super::store::Store;
use super::words::marks_view;
use crate::address::Address;
use crate::calculator::Subject;
use crate::calculator::subject::SORTS;
use crate::calculators::for_places_of;
use crate::plan::Id;
use crate::results::Marks;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::prelude::*;

#[derive(Clone, PartialEq)]
struct Listed {
    id: Id,
    name: String,
    sheets: Vec<&'static str>,
}

/// The rail.
#[component]
pub fn Places() -> impl IntoView {
    let store = Store::here();
    let close = move || store.places_open.set(false);
    Effect::new(move |_| {
        store.address.track();
        close();
    });
    let line = move || matches!(store.address.get(), Address::Line(_)).then_some("page");
    let marks = move || {
        store.results.with(|results| {
            (0..results.network.cells.len())
                .map(|cell| results.marks(cell))
                .fold(Marks::default(), Marks::plus)
        })
    };
    view! {
        <nav class="places" class:open=move || store.places_open.get() aria-label="Plan">
            <a href=move || store.line_address().text() aria-current=line>
                <span>"The line"</span>
                {move || marks_view(Marks { todo: false, waits: false, ..marks() })}
            </a>
            {SORTS.iter().map(|sort| view! { <Group subject=sort.subject /> }).collect_view()}
            <div class="actions narrow-tools">
                <button
                    on:click=move |_| store.redo()
                    disabled=move || store.history.with(|history| !history.can_redo())
                >
                    "↷ Redo"
                </button>
                <button on:click=move |_| super::file::save(store)>"Save a file"</button>
                <button on:click=move |_| { let _ = window().print(); }>"Print"</button>
            </div>
        </nav>
    }
}

/// All places of one sort.
#[component]
fn Group(subject: Subject) -> impl IntoView {
    let store = Store::here();
    let sort = subject.sort();
    let places = Memo::new(move |_| {
        store.history.with(|history| {
            let of_sort = history.plan().places.iter().filter(|place| place.subject == subject);
            let listed = of_sort.map(|place| Listed {
                id: place.id,
                name: place.name.clone(),
                sheets: for_places_of(subject)
                    .filter(|c| place.sheets.contains_key(c.id))
                    .map(|c| c.id)
                    .collect(),
            });
            listed.collect::<Vec<_>>()
        })
    });
    let add = move |_| add_place(store, subject);
    let is_site = subject == Subject::Site;
    view! {
        <section class="place-group">
            <h2>{sort.plural}</h2>
            <For each=move || places.get() key=|place| (place.id, place.name.clone(), place.sheets.clone()) let:place>
                <PlaceItem place subject />
            </For>
            {(!is_site).then(|| view! { <button class="add-place" on:click=add>"+ " {sort.add}</button> })}
        </section>
    }
}

/// Adds a place of a sort and goes to its first sheet.
pub fn add_place(store: Store, subject: Subject) {
    let id = store.act(|plan| plan.add(subject, subject.sort().title));
    if let Some(first) = for_places_of(subject).next() {
        super::app::go(&store.sheet_address(id, first.id));
    }
}

#[component]
fn PlaceItem(place: Listed, subject: Subject) -> impl IntoView {
    let store = Store::here();
    let id = place.id;
    let missing: Vec<_> = for_places_of(subject).filter(|c| !place.sheets.contains(&c.id)).collect();
    let is_site = subject == Subject::Site;
    let single = place.sheets.len() == 1 && missing.is_empty();
    let sheets = place.sheets.iter().filter_map(|sheet| crate::calculators::find(sheet));
    let link = move |calculator: &'static crate::calculator::Calculator, text: String| {
        let is_here = move || match store.address.get() {
            Address::Sheet { place, calculator: open, .. } if place == id && open == calculator.id => {
                Some("page")
            }
            _ => None,
        };
        let marks = Memo::new(move |_| {
            store.results.with(|results| {
                results.network.cell_at(id, calculator.id).map(|cell| results.marks(cell)).unwrap_or_default()
            })
        });
        view! {
            <a href=move || store.sheet_address(id, calculator.id).text() aria-current=is_here>
                <span class="sub">{text}</span>
                {move || marks_view(marks.get())}
            </a>
        }
    };
    let heading = if single || is_site { None } else { Some(place.name.clone()) };
    let links = sheets.map(|calculator| {
        let text = if single && !is_site { place.name.clone() } else { calculator.title.to_string() };
        link(calculator, text)
    });
    let links = links.collect_view();
    let remove = {
        let name = place.name.clone();
        move |_| {
            store.act(|plan| plan.remove(id));
            store.said.set(Some(format!("{name} taken out of the plan. Undo brings it back.")));
            if matches!(store.address.get_untracked(), Address::Sheet { place, .. } if place == id) {
                super::app::go(&store.line_address());
            }
        }
    };
    let add_sheets = missing.into_iter().map(|calculator| {
        let add = move |_| {
            store.act(|plan| plan.add_sheet(id, calculator.id));
            super::app::go(&store.sheet_address(id, calculator.id));
        };
        view! { <button on:click=add>"+ " {calculator.title}</button> }
    });
    let add_sheets = add_sheets.collect_view();
    let drop_sheet = {
        let sheets = place.sheets.clone();
        move || {
            let open = match store.address.get() {
                Address::Sheet { place, calculator, .. } if place == id && sheets.len() > 1 => {
                    Some(calculator)
                }
                _ => None,
            };
            open.and_then(crate::calculators::find).map(|calculator| {
                let take_off = move |_| {
                    store.act(|plan| plan.remove_sheet(id, calculator.id));
                    store.said.set(Some(format!("{} taken off. Undo brings it back.", calculator.title)));
                    super::app::go(&store.line_address());
                };
                view! { <button on:click=take_off>"Take the sheet “" {calculator.title} "” off"</button> }
            })
        }
    };
    let name = place.name.clone();
    view! {
        <div class="place" class:single=single && !is_site>
            {heading.map(|name| view! { <h3>{name}</h3> })}
            {links}
            {(!is_site).then(|| view! {
                <details class="more">
                    <summary aria-label=format!("More about {name}")>"⋯"</summary>
                    {add_sheets}
                    {drop_sheet}
                    <button on:click=remove>"Take " {name.clone()} " out"</button>
                </details>
            })}
        </div>
    }
}
