//! The answer, first and largest; and the other answers below.

use super::Here;
use crate::calculator::Output;
use crate::ui::element::Show;
use crate::ui::signals::{Effect, Memo};
use crate::ui::words::formula;
use bathbook_view::view;
use leptos::prelude::*;

/// An answer's text and unit as they stand; `None` where there is none.
fn text(here: Here, output: &'static Output, key: &str) -> Option<(String, &'static str)> {
    let cell = here.cell()?;
    let digits = here.store.digits.get();
    here.store.results.with(|results| results.answer_text(cell, output.symbol, key, digits))
}

/// The box with the headline.
#[component]
pub fn Answer(here: Here) -> impl IntoView {
    let store = here.store;
    let outputs = here.calculator.outputs;
    let stop = Memo::new(move |_| {
        let cell = here.cell()?;
        store.results.with(|results| results.stop(cell).cloned())
    });
    let headline = outputs.first();
    let big = move || {
        headline.map(|output| {
            let shown = Memo::new(move |_| text(here, output, ""));
            let missing = output.optional.unwrap_or("–");
            view! {
                <div>
                    <div class="what">{output.label}</div>
                    <output class="big" data-symbol=output.symbol>
                        {move || shown.get().map_or(missing.to_string(), |(number, _)| number)}
                        " " <small>{move || shown.get().map_or("", |(_, unit)| unit)}</small>
                    </output>
                </div>
            }
        })
    };
    let beside = outputs.iter().skip(1).filter(|output| output.beside);
    let beside = beside
        .map(|output| {
            let shown = Memo::new(move |_| text(here, output, ""));
            view! {
                <Show when=move || shown.get().is_some()>
                    <div class="side">
                        <span class="what">{output.label}</span>
                        <b data-symbol=output.symbol>
                            {move || shown.get().map(|(number, unit)| joined(&number, unit))}
                        </b>
                    </div>
                </Show>
            }
        })
        .collect_view();
    let refused = move || {
        stop.get().map(|stop| {
            let (class, head) =
                if stop.todo { ("todo", "Still to do") } else { ("refused", "■ No answer") };
            view! {
                <div class=class>
                    <div class="what">{head}</div>
                    <p class="why">{stop.reason}</p>
                    <p class="remedy">{stop.remedy}</p>
                </div>
            }
        })
    };
    view! {
        <section class="answer" class:none=move || stop.get().is_some() aria-label="Answer">
            <div class="numbers" class:hide-all=move || stop.get().is_some()>{big} {beside}</div>
            {refused}
        </section>
        <Announce here />
    }
}

/// Says the answer to a screen reader a second after the last change, once.
#[component]
fn Announce(here: Here) -> impl IntoView {
    let store = here.store;
    let said = RwSignal::new(String::new());
    let now = Memo::new(move |_| {
        let cell = here.cell()?;
        let findings = store.results.with(|results| {
            let marks = results.marks(cell);
            let many = marks.stops + marks.cautions;
            if many == 0 {
                String::new()
            } else {
                format!(" {} to look at.", crate::results::count(many, "finding"))
            }
        });
        if let Some(stop) = store.results.with(|results| results.stop(cell).cloned()) {
            return Some(format!("No answer. {}", stop.text()));
        }
        let output = here.calculator.outputs.first()?;
        let (number, unit) = text(here, output, "")?;
        Some(format!("{}: {}.{findings}", output.label, joined(&number, unit)))
    });
    let timer = StoredValue::new(None::<TimeoutHandle>);
    Effect::new(move |before: Option<()>| {
        let text = now.get().unwrap_or_default();
        if before.is_none() {
            return;
        }
        timer.update_value(|timer| {
            if let Some(timer) = timer.take() {
                timer.clear();
            }
            let later = set_timeout_with_handle(move || said.set(text), std::time::Duration::from_secs(1));
            *timer = later.ok();
        });
    });
    on_cleanup(move || {
        timer.update_value(|timer| {
            if let Some(timer) = timer.take() {
                timer.clear();
            }
        })
    });
    view! { <p class="hide" role="status" aria-live="polite">{said}</p> }
}

/// Every other single answer, in a list.
#[component]
pub fn MoreAnswers(here: Here) -> impl IntoView {
    let rest: Vec<_> = here.calculator.outputs.iter().skip(1).filter(|output| !output.beside).collect();
    if rest.is_empty() {
        return ().into_any();
    }
    let one = |output: &'static Output| {
        let shown = Memo::new(move |_| text(here, output, ""));
        let missing = output.optional.map_or("–".to_string(), why_missing);
        view! {
            <div class="pair" class:missing=move || shown.get().is_none()>
                <dt>{output.label} " " <i>{formula(output.symbol)}</i></dt>
                <dd data-symbol=output.symbol>
                    {move || shown.get().map_or_else(|| missing.clone(), |(number, unit)| joined(&number, unit))}
                </dd>
            </div>
        }
    };
    let store = here.store;
    let more = move |_| store.digits.update(|digits| *digits = if *digits == 3 { 6 } else { 3 });
    view! {
        <section class="part">
            <h2>
                "More answers"
                <button class="no-print" aria-pressed=move || (store.digits.get() > 3).to_string() on:click=more>
                    {move || if store.digits.get() > 3 { "Fewer figures" } else { "More figures" }}
                </button>
            </h2>
            <dl class="lines">{rest.into_iter().map(one).collect_view()}</dl>
        </section>
    }
    .into_any()
}

/// Why an answer is not there: what it needs, or the whole reason as it was declared.
fn why_missing(needs: &str) -> String {
    let is_whole = ["type ", "only ", "none ", "choose "].iter().any(|start| needs.starts_with(start));
    if is_whole { needs.to_string() } else { format!("needs {needs}") }
}

/// A number and its unit.
pub fn joined(number: &str, unit: &str) -> String {
    if unit.is_empty() { number.to_string() } else { format!("{number}\u{a0}{unit}") }
}
