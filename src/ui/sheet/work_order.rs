//! The work order: what to do in order, amounts wanted and added, signed by two persons.

use super::Here;
use crate::calculator::{Form, Instruction};
use crate::plan::Field;
use crate::ui::element::Show;
use crate::ui::sheet::field::FieldRow;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// The order; nothing where the calculator has none.
#[component]
pub fn Order(here: Here) -> impl IntoView {
    let Some(declared) = here.calculator.work_order else { return ().into_any() };
    let store = here.store;
    let steps = Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        let order = store.results.with(|results| results.outcome(cell).map(|outcome| outcome.order.clone()));
        order.unwrap_or_default()
    });
    // By place and row: what changes with every key is the amounts, not which steps there are.
    let keys = Memo::new(move |_| {
        steps.with(|steps: &Vec<Instruction>| {
            let keys = steps.iter().map(|step| step.row.as_ref().map(|key| key.to_string()));
            keys.enumerate().collect::<Vec<_>>()
        })
    });
    let signed = RwSignal::new(false);
    let one = move |(at, row): (usize, Option<String>)| {
        let said = Memo::new(move |_| {
            steps.with(|steps| {
                steps.get(at).map(|step| (step.text.clone(), step.wanted.clone())).unwrap_or_default()
            })
        });
        let by_hand = row.as_ref().map(|key| {
            let symbols = std::iter::once(declared.added).chain(declared.signed.iter().copied());
            let inputs = symbols.filter_map(|symbol| {
                let port = here.calculator.port(symbol)?;
                here.calculator.input_at(port)
            });
            let fields = inputs.map(|input| {
                let field = Field::cell(here.place, here.calculator.id, declared.table, key, input.symbol);
                let class = if input.form == Form::Text { "by-hand words" } else { "by-hand" };
                view! { <div class=class><FieldRow field input compact=true /></div> }
            });
            view! { <div class="hands" class:open=move || signed.get()>{fields.collect_view()}</div> }
        });
        let wanted = move || {
            let wanted = said.with(|(_, wanted)| wanted.clone());
            (!wanted.is_empty()).then(|| view! { <b class="wanted">{wanted}</b> })
        };
        let box_id = format!("done-{at}");
        view! {
            <li>
                <input type="checkbox" id=box_id.clone() class="box" />
                <label for=box_id class="do">{move || said.with(|(text, _)| text.clone())} " " {wanted}</label>
                {by_hand}
            </li>
        }
    };
    view! {
        <Show when=move || !steps.with(Vec::is_empty)>
            <section class="part order">
                <h2>
                    "Work order"
                    <button class="no-print" aria-pressed=move || signed.get().to_string() on:click=move |_| signed.update(|s| *s = !*s)>
                        {move || if signed.get() { "Hide what was added" } else { "Type what was added" }}
                    </button>
                </h2>
                <ol><For each=move || keys.get() key=|key| key.clone() children=one /></ol>
                <p class="sign">"Made up by ____________________  Date __________  Checked by a second person ____________________"</p>
            </section>
        </Show>
    }
    .into_any()
}
