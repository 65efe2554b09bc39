//! The work order on one page of paper: cautions on top, boxes to tick and lines to sign by hand.

use super::Here;
use super::findings::{CautionBox, cautions};
use super::work_order::{Step, by_hand, steps};
use crate::calculator::{Finding, Form, Input};
use crate::plan::Field;
use crate::ui::element::Show;
use crate::ui::print_head::PrintHead;
use crate::ui::signals::Memo;
use crate::ui::words::severity_mark;
use bathbook_view::view;
use leptos::prelude::*;

/// While this stands on the page's body, the paper is printed and not the sheet.
const MARK: &str = "data-print";

/// Prints the paper alone, once it is built.
pub fn print(printing: RwSignal<bool>) {
    printing.set(true);
    request_animation_frame(|| {
        let Some(body) = document().body() else { return };
        let _ = body.set_attribute(MARK, "order");
        let _ = window().print();
    });
}

/// The paper; never on the screen, and only built to be printed.
#[component]
pub fn OrderPaper(here: Here, printing: RwSignal<bool>) -> impl IntoView {
    view! { <Show when=move || printing.get()><Paper here printing /></Show> }
}

#[component]
fn Paper(here: Here, printing: RwSignal<bool>) -> impl IntoView {
    let Some(declared) = here.calculator.work_order else { return ().into_any() };
    let store = here.store;
    let printed = leptos::ev::Custom::<leptos::ev::Event>::new("afterprint");
    let handle = window_event_listener(printed, move |_| {
        if let Some(body) = document().body() {
            let _ = body.remove_attribute(MARK);
        }
        printing.set(false);
    });
    on_cleanup(move || handle.remove());
    let steps = steps(here);
    let cautions = cautions(here);
    let name = Memo::new(move |_| {
        let name = store.history.with(|h| h.plan().place(here.place).map(|place| place.name.clone()));
        format!("{}: work order, {}", name.unwrap_or_default(), here.calculator.title.to_ascii_lowercase())
    });
    // An amount is weighed or measured, so that all numbers share one column; each text has its own.
    let is_number = |input: &&'static Input| input.form == Form::Number;
    let amounts = by_hand(here, declared).filter(is_number);
    let texts = by_hand(here, declared).filter(move |input| !is_number(input));
    let labels: Vec<&'static str> =
        amounts.clone().take(1).chain(texts.clone()).map(|input| input.label).collect();
    let head = move || {
        let hands = labels.iter().map(|label| view! { <th class="hand">{*label}</th> }).collect_view();
        view! { <tr><th class="tick"><span class="hide">"Done"</span></th><th>"Step"</th><th class="n">"Wanted"</th>{hands}</tr> }
    };
    let one = move |step: Step| {
        let typed = |input: &'static Input| {
            let key = step.says.row.as_ref()?;
            let field = Field::cell(here.place, here.calculator.id, declared.table, key, input.symbol);
            let is_asked = store.results.with(|results| results.asks(&field));
            let view = store.field(&field).filter(|view| is_asked && !view.text.is_empty())?;
            let unit = if is_number(&input) { store.style().symbol(view.unit) } else { String::new() };
            Some(super::answer::joined(&view.text, &unit))
        };
        let amount = view! { <td class="hand">{amounts.clone().find_map(typed)}</td> };
        let signed = texts.clone().map(|input| view! { <td class="hand">{typed(input)}</td> }).collect_view();
        let remark = step.remark().map(|remark| view! { <small>"▲ "{remark}</small> });
        let done = if step.tick.is_some() { "✓" } else { "" };
        view! {
            <tr>
                <td class="tick"><span class="paper-box">{done}</span></td>
                <td>{step.says.text} {remark}</td>
                <td class="n"><b>{step.says.wanted}</b> <small>{step.says.also}</small></td>
                {amount}
                {signed}
            </tr>
        }
    };
    // What the order is for, and what the sheet says of it: whoever works from paper sees nothing else.
    let about = move || {
        let answers = here.calculator.outputs.iter().enumerate();
        let told = answers.filter(|(at, output)| *at == 0 || output.beside).filter_map(|(_, output)| {
            let (number, unit) = super::answer::text(here, output, "")?;
            Some(format!("{}: {}", output.label, super::answer::joined(&number, unit)))
        });
        told.collect::<Vec<_>>().join(" · ")
    };
    let found = move || {
        let findings = here.cell().and_then(|cell| {
            store.results.with(|results| results.outcome(cell).map(|outcome| outcome.findings.clone()))
        });
        let one =
            |finding: Finding| view! { <li>{severity_mark(finding.severity).1} " " {finding.text}</li> };
        findings.unwrap_or_default().into_iter().map(one).collect_view()
    };
    let rows = move || steps.get().into_iter().map(&one).collect_view();
    view! {
        <Show when=move || !steps.with(Vec::is_empty)>
            <section class="order-paper" aria-hidden="true">
                <PrintHead what=Signal::derive(move || name.get()) />
                <Show when=move || !cautions.with(Vec::is_empty)><CautionBox texts=cautions /></Show>
                <p class="for">{about}</p>
                <ul class="found">{found}</ul>
                <table>
                    <thead>{head()}</thead>
                    <tbody>{rows.clone()}</tbody>
                </table>
                <div class="signs">
                    <span>{declared.done_by}</span><span>"Date and time"</span><span>"Checked by a second person"</span>
                </div>
            </section>
        </Show>
    }
    .into_any()
}
