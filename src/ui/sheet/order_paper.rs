//! The work order on one page of paper: cautions on top, boxes to tick and lines to sign by hand.

use super::Here;
use super::findings::{CautionBox, cautions};
use super::work_order::{Step, by_hand, steps};
use crate::plan::Field;
use crate::ui::element::Show;
use crate::ui::print_head::PrintHead;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// While this stands on the page's body, the paper is printed and not the sheet.
const MARK: &str = "data-print";

/// Prints the paper alone.
pub fn print(_: leptos::ev::MouseEvent) {
    let Some(body) = document().body() else { return };
    let _ = body.set_attribute(MARK, "order");
    let _ = window().print();
}

/// The paper; never on the screen.
#[component]
pub fn OrderPaper(here: Here) -> impl IntoView {
    let Some(declared) = here.calculator.work_order else { return ().into_any() };
    let store = here.store;
    let printed = leptos::ev::Custom::<leptos::ev::Event>::new("afterprint");
    let handle = window_event_listener(printed, move |_| {
        if let Some(body) = document().body() {
            let _ = body.remove_attribute(MARK);
        }
    });
    on_cleanup(move || handle.remove());
    let steps = steps(here);
    let cautions = cautions(here);
    let name = Memo::new(move |_| {
        let name = store.history.with(|h| h.plan().place(here.place).map(|place| place.name.clone()));
        format!("{}: work order, {}", name.unwrap_or_default(), here.calculator.title.to_lowercase())
    });
    // Columns that some row is asked for.
    let columns = Memo::new(move |_| {
        let rows: Vec<String> = steps.with(|steps| {
            steps.iter().filter_map(|step| step.says.row.as_ref().map(|key| key.to_string())).collect()
        });
        let is_asked = |symbol: &'static str| {
            rows.iter().any(|key| {
                let field = Field::cell(here.place, here.calculator.id, declared.table, key, symbol);
                store.results.with(|results| results.asks(&field))
            })
        };
        by_hand(here, declared).map(|input| input.symbol).filter(|symbol| is_asked(symbol)).collect::<Vec<_>>()
    });
    let inputs = move || by_hand(here, declared).filter(move |i| columns.with(|all| all.contains(&i.symbol)));
    let head = move || {
        let hands = inputs().map(|input| view! { <th class="hand">{input.label}</th> });
        view! { <tr><th class="tick"><span class="hide">"Done"</span></th><th>"Step"</th><th class="n">"Wanted"</th>{hands.collect_view()}</tr> }
    };
    let one = move |step: Step| {
        let typed = |symbol: &'static str| {
            let key = step.says.row.as_ref()?;
            let field = Field::cell(here.place, here.calculator.id, declared.table, key, symbol);
            let view = store.field(&field).filter(|view| !view.text.is_empty())?;
            let is_number = field.input().is_some_and(|i| i.form == crate::calculator::Form::Number);
            Some(super::answer::joined(&view.text, if is_number { view.unit.symbol } else { "" }))
        };
        let hands = inputs().map(|input| view! { <td class="hand">{typed(input.symbol)}</td> }).collect_view();
        let remark = step.remark().map(|remark| view! { <small>"▲ "{remark}</small> });
        let done = if step.tick.is_some() { "✓" } else { "" };
        view! {
            <tr>
                <td class="tick"><span class="paper-box">{done}</span></td>
                <td>{step.says.text} {remark}</td>
                <td class="n"><b>{step.says.wanted}</b> <small>{step.says.also}</small></td>
                {hands}
            </tr>
        }
    };
    view! {
        <Show when=move || !steps.with(Vec::is_empty)>
            <section class="order-paper" aria-hidden="true">
                <PrintHead what=Signal::derive(move || name.get()) />
                <Show when=move || !cautions.with(Vec::is_empty)><CautionBox texts=cautions /></Show>
                <table>
                    <thead>{head}</thead>
                    <tbody>{move || steps.get().into_iter().map(one).collect_view()}</tbody>
                </table>
                <div class="signs">
                    <span>"Made up by"</span><span>"Date and time"</span><span>"Checked by a second person"</span>
                </div>
            </section>
        </Show>
    }
    .into_any()
}
