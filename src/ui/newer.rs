//! A newer version of the app lies ready on the device: offered, never forced. What is being typed is kept
//! first.

use super::store::Store;
use crate::ui::element::Show;
use bathbook_view::view;
use leptos::prelude::*;
use std::time::Duration;
use web_sys::Event;

/// `boot.js` marks the page with this, and sends it as an event.
const READY: &str = "bathbook:new-version";
/// And waits for this.
const CHANGE_OVER: &str = "bathbook:change-over";

/// The offer.
#[component]
pub fn Newer() -> impl IntoView {
    let store = Store::here();
    let is_ready = RwSignal::new(page_has("data-new-version"));
    let _ = window_event_listener_untyped(READY, move |_| is_ready.set(true));
    view! {
        <Show when=move || is_ready.get()>
            <div class="viewed no-print" role="status">
                <span>"A new version of Bathbook is ready. Your plans stay as they are."</span>
                <button class="primary" on:click=move |_| change_over(store, 50)>"Change to it"</button>
                <button on:click=move |_| is_ready.set(false)>"Later"</button>
            </div>
        </Show>
    }
}

/// Changes over once all is saved; looks again so many times.
fn change_over(store: Store, tries: u32) {
    store.settle();
    store.shelf.flush(&store);
    if !store.shelf.is_busy() {
        if let Ok(event) = Event::new(CHANGE_OVER) {
            let _ = window().dispatch_event(&event);
        }
    } else if tries > 0 {
        set_timeout(move || change_over(store, tries - 1), Duration::from_millis(100));
    } else {
        store.said.set(Some("Not changed: the plan is not saved yet. Save a file of it first.".into()));
    }
}

/// Whether the page itself carries a mark.
pub fn page_has(mark: &str) -> bool {
    document().document_element().is_some_and(|page| page.has_attribute(mark))
}
