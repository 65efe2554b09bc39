//! What stands at the top of a printed page: plan, place, date. Not on screen.

use super::store::Store;
use super::when;
use bathbook_view::view;
use leptos::prelude::*;

/// The head of a printed page. Give the day anew when printing: the page may have been open for days.
#[component]
pub fn PrintHead(
    /// Which sheet it is.
    #[prop(into)]
    what: Signal<String>,
) -> impl IntoView {
    let store = Store::here();
    let name = move || store.history.with(|history| history.plan().name.clone());
    let day = RwSignal::new(when::day(when::now()));
    let printing = leptos::ev::Custom::<leptos::ev::Event>::new("beforeprint");
    let handle = window_event_listener(printing, move |_| day.set(when::day(when::now())));
    on_cleanup(move || handle.remove());
    view! {
        <div class="print-head" aria-hidden="true">
            <b>{name}</b>
            <span>{move || what.get()}</span>
            <span>{move || day.get()}</span>
            <span>"Bathbook "{env!("CARGO_PKG_VERSION")}</span>
        </div>
    }
}
