//! While nothing can be kept, the app goes on in memory: it says so below every screen of a plan, always in view,
//! and offers what does not depend on the browser.

use super::store::Store;
use crate::ui::element::Show;
use bathbook_view::view;
use leptos::prelude::*;

/// The strip; why nothing can be kept stands in the bar on top.
#[component]
pub fn Unkept() -> impl IntoView {
    let store = Store::here();
    let shelf = store.shelf;
    let is_shown =
        move || shelf.failed.get() && store.open.with(Option::is_some) && store.address.with(has_document);
    view! {
        <Show when=is_shown>
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

fn has_document(address: &crate::address::Address) -> bool {
    use crate::address::Address;
    address.is_of_plan() || matches!(address, Address::Quick(_))
}
