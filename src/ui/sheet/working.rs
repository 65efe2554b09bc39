//! The steps from the inputs to the answers: formula, numbers put in, result.

use super::Here;
use crate::calculator::Line;
use crate::ui::element::Show;
use crate::ui::words::formula;
use bathbook_view::view;
use leptos::prelude::*;

/// The working.
#[component]
pub fn Working(here: Here) -> impl IntoView {
    let store = here.store;
    let lines = Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        store
            .results
            .with(|results| results.outcome(cell).map(|outcome| outcome.lines.clone()).unwrap_or_default())
    });
    let is_open = RwSignal::new(true);
    let one = |line: Line| {
        let is_plain = line.shown.formula == line.shown.numbers || line.shown.numbers == line.result;
        let numbers = (!is_plain).then(|| format!("= {} ", line.shown.numbers));
        view! {
            <li>
                <b>{line.label}</b>
                <div>
                    <div class="eq">{formula(&line.symbol)} " = " {formula(&line.shown.formula)}</div>
                    <div class="num">{numbers} "= " {line.result}</div>
                </div>
            </li>
        }
    };
    view! {
        <Show when=move || !lines.with(Vec::is_empty)>
            <section class="part">
                <h2>
                    "Working"
                    <button class="no-print" aria-expanded=move || is_open.get().to_string() on:click=move |_| is_open.update(|o| *o = !*o)>
                        {move || if is_open.get() { "Hide" } else { "Show" }}
                    </button>
                </h2>
                <Show when=move || is_open.get()>
                    <ol class="steps">{move || lines.get().into_iter().map(one).collect_view()}</ol>
                    <p class="hint">"Numbers are rounded for show; the sum is done with all figures."</p>
                </Show>
            </section>
        </Show>
    }
}
