//! The steps from the inputs to the answers: formula, numbers put in, result.

use super::Here;
use crate::calculator::Line;
use crate::report::working_text;
use crate::ui::element::Show;
use crate::ui::file;
use crate::ui::list::For;
use crate::ui::signals::Memo;
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
    let count = Memo::new(move |_| lines.with(Vec::len));
    // Formulas stay while one types; only numbers change.
    let one = move |at: usize| {
        let of = move |part: fn(&Line) -> String| {
            Memo::new(move |_| lines.with(|lines| lines.get(at).map(part).unwrap_or_default()))
        };
        let label = of(|line| line.label.clone());
        let left = of(|line| line.symbol.clone());
        let right = of(|line| line.shown.formula.clone());
        let numbers = of(Line::numbers);
        view! {
            <li>
                <b>{move || label.get()}</b>
                <div>
                    <div class="eq">{move || formula(&left.get())} " = " {move || formula(&right.get())}</div>
                    <div class="num">{move || numbers.get()}</div>
                </div>
            </li>
        }
    };
    let copy = move |_| {
        let text = lines.with_untracked(|lines| working_text(here.calculator.title, lines));
        file::copy(&text, move |said| store.said.set(Some(said.into())));
    };
    view! {
        <Show when=move || !lines.with(Vec::is_empty)>
            <section class="part">
                <h2>
                    "Working"
                    <button class="no-print" aria-expanded=move || is_open.get().to_string() on:click=move |_| is_open.update(|o| *o = !*o)>
                        {move || if is_open.get() { "Hide" } else { "Show" }}
                    </button>
                    <button class="no-print" on:click=copy>"Copy the working"</button>
                </h2>
                <Show when=move || is_open.get()>
                    <ol class="steps"><For each=move || 0..count.get() key=|at| at.to_string() children=one /></ol>
                    <p class="hint">"Numbers are rounded for show; the sum is done with all figures."</p>
                </Show>
            </section>
        </Show>
    }
}
