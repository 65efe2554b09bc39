//! The rail of the plan's places and their sheets.
//!
//! Only the place that is open, or that was unfolded by a touch, shows its sheets; others show their name
//! and what there is to look at.

use super::store::Store;
use super::words::marks_view;
use crate::address::Address;
use crate::calculator::subject::SORTS;
use crate::calculator::{Calculator, Subject};
use crate::calculators::{find, for_places_of, from_start};
use crate::plan::{Id, Place};
use crate::results::Marks;
use crate::ui::element::Show;
use crate::ui::list::For;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::prelude::*;

#[derive(Clone, PartialEq)]
struct Listed {
    id: Id,
    name: String,
    sheets: Vec<&'static str>,
}

/// What the reader folded or unfolded by a touch: it goes before which place is open.
type Folds = RwSignal<Vec<(Id, bool)>>;

/// The rail.
#[component]
pub fn Places() -> impl IntoView {
    let store = Store::here();
    let folds: Folds = RwSignal::new(Vec::new());
    let here = Memo::new(move |_| place_here(store));
    Effect::new(move |_| {
        store.address.track();
        store.places_open.set(false);
    });
    Effect::new(move |_| {
        // A place that is gone to shows its sheets, whatever was folded before.
        here.track();
        folds.update(|folds| folds.retain(|(_, unfolded)| *unfolded));
    });
    let line = move || matches!(store.address.get(), Address::Line(_)).then_some("page");
    let marks = Memo::at_once(move |_| Marks { todo: false, waits: false, ..marks_where(store, |_| true) });
    view! {
        <nav class="places" class:open=move || store.places_open.get() aria-label="Plan">
            <a href=move || store.line_address().text() aria-current=line>
                <span>"The line"</span>
                {move || marks_view(marks.get())}
            </a>
            {SORTS.iter().map(|sort| view! { <Group subject=sort.subject folds here /> }).collect_view()}
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

/// The place whose sheet is open.
fn place_here(store: Store) -> Option<Id> {
    match store.address.get() {
        Address::Sheet { place, .. } => Some(place),
        _ => None,
    }
}

/// What there is to look at on the sheets of some places, all together.
fn marks_where(store: Store, wanted: impl Fn(Id) -> bool) -> Marks {
    store.results.with(|results| {
        let cells = results.network.cells.iter().enumerate().filter(|(_, cell)| wanted(cell.place));
        cells.map(|(at, _)| results.marks(at)).fold(Marks::default(), Marks::plus)
    })
}

/// All places of one sort.
#[component]
fn Group(subject: Subject, folds: Folds, here: Memo<Option<Id>>) -> impl IntoView {
    let store = Store::here();
    let sort = subject.sort();
    let places = Memo::new(move |_| {
        store.history.with(|history| {
            let of_sort = history.plan().places.iter().filter(|place| place.subject == subject);
            let listed = |place: &Place| {
                let sheets = for_places_of(subject).map(|c| c.id).filter(|id| place.sheets.contains_key(*id));
                Listed { id: place.id, name: place.name.clone(), sheets: sheets.collect() }
            };
            of_sort.map(listed).collect::<Vec<_>>()
        })
    });
    let add = move |_| add_place(store, subject);
    // There is one site, and its name stands on it.
    let is_added = !sort.add.is_empty();
    view! {
        <section class="place-group">
            <h2 class:hide=!is_added>{sort.plural}</h2>
            <For each=move || places.get() key=|place| format!("{} {} {:?}", place.id, place.name, place.sheets) let:place>
                <PlaceItem place subject folds here />
            </For>
            {is_added.then(|| view! { <button class="add-place" on:click=add>"+ " {sort.add}</button> })}
        </section>
    }
}

/// Adds a place of a sort and goes to its first sheet.
pub fn add_place(store: Store, subject: Subject) {
    let id = store.act(|plan| plan.add(subject, subject.sort().title));
    store.go_to_new(id, from_start(subject).next().map(|first| first.id));
}

/// A place with one sheet is its own link, where its sort starts with one; others unfold.
#[component]
fn PlaceItem(place: Listed, subject: Subject, folds: Folds, here: Memo<Option<Id>>) -> impl IntoView {
    let store = Store::here();
    let id = place.id;
    let is_single = place.sheets.len() == 1 && from_start(subject).count() == 1;
    let is_here = move || here.get() == Some(id);
    let sheets = place.sheets.iter().filter_map(|sheet| find(sheet));
    if is_single {
        let links = sheets.map(|calculator| link(store, id, calculator, place.name.clone())).collect_view();
        return view! {
            <div class="place single" class:here=is_here>
                {links}
                <Show when=is_here>
                    <AddSheet place=place.clone() subject />
                    <Tools place=place.clone() subject />
                </Show>
            </div>
        }
        .into_any();
    }
    let is_unfolded = Memo::new(move |_| {
        let touched = folds.with(|folds| folds.iter().find(|(known, _)| *known == id).map(|(_, is)| *is));
        touched.unwrap_or(here.get() == Some(id))
    });
    let turn = move |_| {
        let now = is_unfolded.get_untracked();
        folds.update(|folds| {
            folds.retain(|(known, _)| *known != id);
            folds.push((id, !now));
        });
    };
    let sheets: Vec<_> = sheets.collect();
    let list = format!("sheets-{id}");
    let controls = list.clone();
    // A sheet that only waits for another is nothing to mend at this place.
    let marks = Memo::at_once(move |_| Marks { waits: false, ..marks_where(store, |place| place == id) });
    let name = place.name.clone();
    let unfolded = move || {
        let links = sheets.iter().map(|calculator| link(store, id, calculator, calculator.title.to_string()));
        view! {
            {links.collect_view()}
            <AddSheet place=place.clone() subject />
            <Tools place=place.clone() subject />
        }
    };
    view! {
        <div class="place" class:here=is_here>
            <h3>
                <button
                    class="fold"
                    aria-expanded=move || is_unfolded.get().to_string()
                    aria-controls=controls
                    on:click=turn
                >
                    <span class="called">{name}</span>
                    {move || (!is_unfolded.get()).then(|| marks_view(marks.get()))}
                </button>
            </h3>
            <div id=list>{move || is_unfolded.get().then(&unfolded)}</div>
        </div>
    }
    .into_any()
}

fn link(store: Store, id: Id, calculator: &'static Calculator, text: String) -> impl IntoView {
    let is_here = move || match store.address.get() {
        Address::Sheet { place, calculator: open, .. } if place == id && open == calculator.id => {
            Some("page")
        }
        _ => None,
    };
    let marks = Memo::at_once(move |_| {
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
}

/// The sheets that a place does not have yet, each with its question.
#[component]
fn AddSheet(place: Listed, subject: Subject) -> impl IntoView {
    let store = Store::here();
    let (id, name) = (place.id, place.name);
    let missing = for_places_of(subject).filter(|c| !place.sheets.contains(&c.id));
    let one = |calculator: &'static Calculator| {
        let add = move |_| {
            store.act(|plan| plan.add_sheet(id, calculator.id));
            if !untrack(|| store.is_viewed()) {
                super::app::go(&store.sheet_address(id, calculator.id));
            }
        };
        view! { <button on:click=add><b>{calculator.title}</b> <small>{calculator.question}</small></button> }
    };
    let all: Vec<_> = missing.map(one).collect();
    (!all.is_empty()).then(|| {
        let (spoken, title) = (format!("+ Sheet for {name}"), format!("Add a sheet to {name}"));
        flyout(format!("add-{id}"), "add-sheet", ("+ Sheet", spoken), title, all.collect_view().into_any())
    })
}

/// A list beside the rail, which is too narrow for it: a touch or key opens it, Escape or a touch elsewhere
/// closes it. The browser does all of that, and puts the focus back.
fn flyout(
    id: String,
    class: &'static str,
    (words, spoken): (&'static str, String),
    title: String,
    list: AnyView,
) -> impl IntoView {
    let [opens, closes] = [id.clone(), id.clone()];
    view! {
        <button class=format!("more {class}") aria-label=spoken popovertarget=opens>{words}</button>
        <div class=format!("flyout {class}-list") id=id popover="auto" role="dialog" aria-label=title.clone()>
            <div class="flyout-head">
                <b>{title}</b>
                <button popovertarget=closes popovertargetaction="hide">"Close"</button>
            </div>
            <div class="flyout-list">{list}</div>
        </div>
    }
}

/// Taking a sheet off its place, or the place out of the plan.
#[component]
fn Tools(place: Listed, subject: Subject) -> impl IntoView {
    let store = Store::here();
    let Listed { id, name, sheets } = place;
    let stays = subject.sort().add.is_empty();
    let removable = move || {
        store.history.with_untracked(|history| {
            let sheets = sheets.iter().filter(|sheet| history.plan().may_remove_sheet(id, sheet));
            sheets.filter_map(|sheet| find(sheet)).collect::<Vec<_>>()
        })
    };
    let take_off = move |calculator: &'static Calculator| {
        let take_off = move |_| {
            let is_touched = store.history.with_untracked(|history| {
                let sheet = history.plan().place(id).and_then(|place| place.sheets.get(calculator.id));
                sheet.is_some_and(|sheet| sheet.is_touched())
            });
            let title = calculator.title;
            store.act(|plan| plan.remove_sheet(id, calculator.id));
            let with = if is_touched { ", with what was typed there" } else { "" };
            store.said.set(Some(format!("{title} taken off{with}. Undo brings it back.")));
            if store.sheet().is_some_and(|open| open == (id, calculator.id)) {
                let left = store.history.with_untracked(|history| first_sheet(history.plan().place(id)?));
                let address = left.map(|sheet| store.sheet_address(id, sheet));
                super::app::go(&address.unwrap_or_else(|| store.line_address()));
            }
        };
        view! { <button on:click=take_off>"Take “" {calculator.title} "” off"</button> }
    };
    let removable = removable();
    let is_empty = removable.is_empty() && stays;
    let remove = {
        let name = name.clone();
        move |_| {
            let was_here = place_here(store) == Some(id);
            store.act(|plan| plan.remove(id));
            store.said.set(Some(format!("{name} taken out of the plan. Undo brings it back.")));
            if was_here {
                super::app::go(&store.line_address());
            }
        }
    };
    (!is_empty).then(|| {
        let list = view! {
            {removable.into_iter().map(take_off).collect_view()}
            {(!stays).then(|| view! { <button class="whole" on:click=remove>"Take " {name.clone()} " out of the plan"</button> })}
        }
        .into_any();
        let spoken = format!("Remove {name}, or a sheet of it");
        flyout(format!("remove-{id}"), "remove", ("⋯ Remove", spoken), format!("Remove from {name}"), list)
    })
}

/// The first sheet that a place has.
fn first_sheet(place: &Place) -> Option<&'static str> {
    for_places_of(place.subject).map(|c| c.id).find(|id| place.sheets.contains_key(*id))
}
