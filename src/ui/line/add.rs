//! Adding places.

use super::super::places::add_place;
use super::super::store::Store;
use crate::calculator::Subject;
use crate::calculator::subject::SORTS;
use bathbook_view::view;
use leptos::prelude::*;

/// What an empty plan says.
#[component]
pub fn FirstStep() -> impl IntoView {
    let store = Store::here();
    view! {
        <section class="part first">
            <p class="lead">
                "Begin with a bath: say what is in it and how much, and its streams, routes and drains can follow from it."
            </p>
            <div class="buttons">
                <button class="primary" on:click=move |_| add_place(store, Subject::Bath)>
                    {Subject::Bath.sort().add}
                </button>
            </div>
            <h2>"Or begin elsewhere"</h2>
            <div class="buttons">{buttons(store, |subject| subject != Subject::Bath)}</div>
        </section>
    }
}

/// A button for each sort of place.
#[component]
pub fn AddPart() -> impl IntoView {
    let store = Store::here();
    view! {
        <section class="adding" aria-labelledby="add-title">
            <h2 id="add-title">"Add a place"</h2>
            <div class="buttons">{buttons(store, |_| true)}</div>
        </section>
    }
}

fn buttons(store: Store, wanted: impl Fn(Subject) -> bool) -> impl IntoView {
    let sorts = SORTS.iter().filter(|sort| !sort.add.is_empty() && wanted(sort.subject));
    let button = |sort: &'static crate::calculator::subject::Sort| {
        view! { <button on:click=move |_| add_place(store, sort.subject)>{sort.add}</button> }
    };
    sorts.map(button).collect_view()
}
