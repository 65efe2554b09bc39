//! A box to tick, with its words.

use bathbook_view::view;
use leptos::prelude::*;

/// The box. `set` is told what it is ticked to.
#[component]
pub fn TickBox(
    #[prop(into)] label: Signal<String>,
    is_in: Signal<bool>,
    set: Callback<bool>,
) -> impl IntoView {
    view! {
        <label class="pick-line">
            <input type="checkbox" prop:checked=move || is_in.get() on:change=move |event| set.run(event_target_checked(&event)) />
            <span>{move || label.get()}</span>
        </label>
    }
}

/// A tick of fixed words that holds a signal.
pub fn tick_box(label: &'static str, signal: RwSignal<bool>) -> AnyView {
    let set = Callback::new(move |is_in| signal.set(is_in));
    view! { <TickBox label=Signal::stored(label.to_string()) is_in=signal.into() set /> }.into_any()
}
