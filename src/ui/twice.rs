//! A button for what cannot be taken back: it asks once more.

use crate::ui::element::Show;
use bathbook_view::view;
use leptos::prelude::*;

/// The button; `label` is what it is called where it is heard and not seen.
#[component]
pub fn Twice(
    words: &'static str,
    label: String,
    warning: &'static str,
    then: impl Fn() + Clone + Send + Sync + 'static,
) -> impl IntoView {
    let is_asked = RwSignal::new(false);
    let first = move || {
        let label = label.clone();
        view! { <button aria-label=label on:click=move |_| is_asked.set(true)>{words}</button> }
    };
    view! {
        <Show when=move || is_asked.get() fallback=first>
            {
                let then = then.clone();
                view! {
                    <span role="alert">{warning}</span>
                    <button on:click=move |_| {
                        is_asked.set(false);
                        then();
                    }>"Yes, remove it"</button>
                    <button on:click=move |_| is_asked.set(false)>"No, keep it"</button>
                }
            }
        </Show>
    }
}
