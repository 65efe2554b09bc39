//! While nothing can be kept, the app goes on in memory: it says so below every screen of a plan and on the first
//! page, always in view, and offers what does not depend on the browser.

use super::home::save_several;
use super::store::Store;
use crate::address::Address;
use crate::ui::element::Show;
use bathbook_view::view;
use leptos::prelude::*;

/// The strip. Why a plan that is open cannot be kept stands in the bar on top.
#[component]
pub fn Unkept() -> impl IntoView {
    let store = Store::here();
    let shelf = store.shelf;
    let of_plan =
        move || shelf.failed.get() && store.open.with(Option::is_some) && store.address.with(has_document);
    let of_all = move || shelf.held.with(Option::is_some) && store.address.with(|it| *it == Address::Home);
    let why = move || shelf.held.with(|held| held.as_ref().map(|trouble| trouble.words()));
    view! {
        <Show when=of_all>
            <div class="viewed unkept no-print" role="alert">
                <span>"Not every plan is saved: what is held in this window alone is gone when it is closed. "{why}</span>
                <button class="primary" on:click=move |_| save_several(store, &[], true)>"Save all as one file"</button>
                <button on:click=move |_| shelf.flush(&store)>"Try again"</button>
            </div>
        </Show>
        <Show when=of_plan>
            <div class="viewed unkept no-print" role="alert">
                <span>"What you type is held in this window, and is gone when it is closed. A file keeps it."</span>
                <button class="primary" on:click=move |_| super::file::save(store)>"Save it as a file"</button>
                <button on:click=move |_| {
                    shelf.keep(&store);
                    shelf.flush(&store);
                }>"Try again"</button>
            </div>
        </Show>
    }
}

fn has_document(address: &Address) -> bool {
    address.is_of_plan() || matches!(address, Address::Quick(_))
}
