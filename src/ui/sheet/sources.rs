//! Where the sheet's formulas come from, and its published examples, run on request.

use super::Here;
use crate::ask::self_check;
use bathbook_view::view;
use leptos::prelude::*;

/// Sources and checks.
#[component]
pub fn Sources(here: Here) -> impl IntoView {
    let calculator = here.calculator;
    let checked = RwSignal::new(None::<Vec<String>>);
    let count = crate::results::count(calculator.examples.len(), "worked example");
    let verdict = move || {
        checked.get().map(|wrong| match wrong.len() {
            0 => format!("All agree, to the figures given ({count})."),
            _ => format!("These do not agree: {}. Please report this.", wrong.join("; ")),
        })
    };
    view! {
        <section class="part sources">
            <h2>"Sources and checks"</h2>
            <ul>{calculator.sources.iter().map(|source| view! { <li>{*source}</li> }).collect_view()}</ul>
            <details>
                <summary>"Worked examples that this sheet is checked against"</summary>
                <ul>{calculator.examples.iter().map(|example| view! { <li>{example.source}</li> }).collect_view()}</ul>
                <button class="no-print" on:click=move |_| checked.set(Some(self_check(calculator)))>"Run them now"</button>
                <p role="status">{verdict}</p>
            </details>
        </section>
    }
}
