//! The bar on top: where one is, whether it is saved, undo and redo.

use super::shelf::Shelf;
use super::store::Store;
use crate::address::Address;
use crate::ui::element::Show;
use bathbook_view::view;
use leptos::prelude::*;

/// The bar.
#[component]
pub fn Bar() -> impl IntoView {
    let (store, shelf) = (Store::here(), Shelf::here());
    let name = move || match store.open.get() {
        Some(open) if !matches!(store.address.get(), Address::Home | Address::About | Address::Link(_)) => {
            match open.quick {
                Some(_) => "Quick sum".to_string(),
                None => store.history.with(|history| history.plan().name.clone()),
            }
        }
        _ => "Bathbook".to_string(),
    };
    let at_home = move || matches!(store.address.get(), Address::Home);
    let has_document =
        move || !matches!(store.address.get(), Address::Home | Address::About | Address::Link(_));
    let has_places = move || store.address.with(Address::is_of_plan);
    let status = move || {
        if has_document() {
            shelf.status.get()
        } else {
            "Sums for a plating line’s baths and wastes".into()
        }
    };
    view! {
        <header class="bar" class:failed=move || shelf.failed.get() && has_document()>
            <Show when=move || !at_home()>
                <a class="btn home" href="#/" aria-label="All plans">"‹ Plans"</a>
            </Show>
            <div class="name">
                <span class="title">{name}</span>
                <small role="status" aria-live="polite">{status}</small>
            </div>
            <Show when=has_places>
                <button
                    class="narrow"
                    aria-expanded=move || store.places_open.get().to_string()
                    on:click=move |_| {
                        store.places_open.update(|open| *open = !*open);
                        // They stand on top of the page, wherever on it one was.
                        if store.places_open.get_untracked() {
                            window().scroll_to_with_x_and_y(0.0, 0.0);
                        }
                    }
                >
                    "Places"
                </button>
            </Show>
            <Show when=has_document>
                <button
                    aria-label="Undo"
                    on:click=move |_| store.undo()
                    disabled=move || store.history.with(|history| !history.can_undo())
                >
                    "↶ Undo"
                </button>
                <button
                    class="wide"
                    aria-label="Redo"
                    on:click=move |_| store.redo()
                    disabled=move || store.history.with(|history| !history.can_redo())
                >
                    "↷ Redo"
                </button>
                <Show when=has_places>
                    <button class="wide" on:click=move |_| super::file::save(store)>"Save a file"</button>
                </Show>
                <button class="wide" on:click=move |_| { let _ = window().print(); }>"Print"</button>
            </Show>
        </header>
        <Show when=has_document>
            <p class="saved-below no-print" aria-hidden="true">{status}</p>
        </Show>
    }
}
