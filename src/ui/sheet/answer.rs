//! The answer, first and largest; and the other answers below.

use super::Here;
use super::field::go_to;
use crate::calculator::{Missing, Output};
use crate::network::Origin;
use crate::results::count;
use crate::ui::element::Show;
use crate::ui::gaps::gaps_view;
use crate::ui::signals::{Effect, Memo};
use crate::ui::words::formula;
use bathbook_view::view;
use leptos::prelude::*;

/// An answer's text and unit as they stand; `None` where there is none.
pub fn text(here: Here, output: &'static Output, key: &str) -> Option<(String, &'static str)> {
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
            let shown = Memo::at_once(move |_| text(here, output, ""));
            let missing = why_missing(output);
            view! {
                <div>
                    <div class="what">{output.label}</div>
                    <output class="big" data-symbol=output.symbol>
                        {move || shown.get().map_or_else(|| missing.clone(), |(number, _)| number)}
                        " " <small>{move || shown.get().map_or("", |(_, unit)| unit)}</small>
                    </output>
                </div>
            }
        })
    };
    let beside = outputs.iter().skip(1).filter(|output| output.beside);
    let beside = beside
        .map(|output| {
            let shown = Memo::at_once(move |_| text(here, output, ""));
            let is_word = !output.words.is_empty();
            view! {
                <Show when=move || shown.get().is_some()>
                    <div class="side" class:word=is_word>
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
                    <p class="why">{stop.reason.clone()}</p>
                    <p class="remedy">{stop.remedy.clone()}</p>
                </div>
            }
        })
    };
    view! {
        <section class="answer" class:none=move || stop.get().is_some() aria-label="Answer">
            // On a phone this stays in view while one types.
            <div class="head">
                <div class="numbers" class:hide-all=move || stop.get().is_some()>{big}</div>
                {refused}
                <Status here />
            </div>
            <div class="sides" class:hide-all=move || stop.get().is_some()>{beside}</div>
            <RestsOn here />
            <Gaps here />
        </section>
        <Announce here />
    }
}

/// What there is to look at, in colour and words, each one touch away.
#[component]
fn Status(here: Here) -> impl IntoView {
    let store = here.store;
    let marks = Memo::new(move |_| {
        here.cell().map(|cell| store.results.with(|results| results.marks(cell))).unwrap_or_default()
    });
    let unread = Memo::new(move |_| {
        here.cell().map(|cell| store.results.with(|results| results.unread(cell))).unwrap_or_default()
    });
    let to_findings = move |_| {
        let first = |css: &str| document().query_selector(css).ok().flatten();
        let worst = first(".finding.stop, .finding.caution").or_else(|| first(".finding"));
        crate::ui::go_to_element(worst);
    };
    let found = move || {
        let marks = marks.get();
        let is_refused = here.cell().is_some_and(|cell| store.results.with(|r| r.stop(cell).is_some()));
        if is_refused {
            return ().into_any();
        }
        if marks.stops + marks.cautions + marks.notes == 0 {
            let is_clean = marks.fields == 0;
            return is_clean
                .then(|| view! { <span class="mark ok">"✓ Nothing to look at here"</span> })
                .into_any();
        }
        let stops = (marks.stops > 0)
            .then(|| view! { <span class="mark stop">"■ "{count(marks.stops, "stop")}</span> });
        let cautions = (marks.cautions > 0)
            .then(|| view! { <span class="mark caution">"▲ "{count(marks.cautions, "caution")}</span> });
        let notes = (marks.notes > 0 && marks.stops + marks.cautions == 0)
            .then(|| view! { <span class="mark note">"● "{count(marks.notes, "note")}</span> });
        view! { <button class="to-look" on:click=to_findings>{stops} {cautions} {notes}</button> }.into_any()
    };
    let fields = move || {
        unread.with(|fields| {
            let first = fields.first()?.clone();
            let origins = fields.iter().map(|field| store.field(field).map(|view| view.origin));
            let is_typed = |origin: Option<Origin>| matches!(origin, Some(Origin::Typed | Origin::Overtyped));
            let stands = match (fields.len(), origins.clone().all(is_typed)) {
                (1, true) => "the last good value stands",
                (1, false) if origins.clone().all(|origin| origin == Some(Origin::Linked)) => {
                    "the linked value stands"
                }
                (1, false) if first.input().is_some_and(|input| input.optional) => "it counts as left out",
                (1, false) => "the usual value stands",
                (_, true) => "the last good values stand",
                (_, false) => "what stood in them before stands",
            };
            let are = if fields.len() == 1 { "is" } else { "are" };
            let text = format!("{} {are} not taken: {stands}", count(fields.len(), "field"));
            Some(view! { <button class="to-look" on:click=move |_| go_to(&first)><span class="mark stop">"▲ "{text}</span></button> })
        })
    };
    view! { <div class="status">{found} {fields} <WhereItGoes here /></div> }
}

/// A stop at the place that this one leads to is told here as well: it is mostly about what comes from here.
#[component]
fn WhereItGoes(here: Here) -> impl IntoView {
    let store = here.store;
    let stopped = Memo::new(move |_| {
        store.results.with(|results| {
            let to =
                store.history.with_untracked(|h| h.plan().place(here.place).and_then(|place| place.to))?;
            let there = &results.network.cells[results.stopped_at(to)?];
            Some((there.name.to_string(), store.sheet_address(to, there.calculator.id)))
        })
    });
    move || {
        stopped.get().map(|(name, address)| {
            view! {
                <a class="to-look" href=address.text()>
                    <span class="mark stop">"■ Stop at "{name}", where it goes"</span>
                </a>
            }
        })
    }
}

/// Everything that is still to be typed, where the sum says the first of it alone.
#[component]
fn Gaps(here: Here) -> impl IntoView {
    let store = here.store;
    let gaps = Memo::new(move |_| {
        here.cell().map(|cell| store.results.with(|results| results.gaps(cell))).unwrap_or_default()
    });
    view! {
        <Show when=move || gaps.with(|gaps| gaps.len() > 1)>
            <div class="all-gaps no-print" role="group" aria-label="All that is still to be typed">
                <span class="what">"All that is still to be typed"</span>
                {move || gaps_view(store, gaps.get())}
            </div>
        </Show>
    }
}

/// How much of the answer nobody typed: the first such field is one touch away.
#[component]
fn RestsOn(here: Here) -> impl IntoView {
    let store = here.store;
    let usual = Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        store
            .results
            .with(|results| if results.stop(cell).is_some() { Vec::new() } else { results.usual(cell) })
    });
    move || {
        usual.with(|fields| {
            let first = fields.first()?.clone();
            let text = format!("{} not typed", count(fields.len(), "usual value"));
            Some(view! {
                <p class="rests no-print">
                    "Rests on " <button class="quiet" on:click=move |_| go_to(&first)>{text}</button>
                </p>
            })
        })
    }
}

/// Says the answer to a screen reader a second after the last change, once; nothing that was said stays
/// to be read later, when it may not hold any more.
#[component]
fn Announce(here: Here) -> impl IntoView {
    let store = here.store;
    let said = RwSignal::new(String::new());
    let now = Memo::new(move |_| {
        let cell = here.cell()?;
        let findings = store.results.with(|results| {
            let marks = results.marks(cell);
            let many = marks.stops + marks.cautions;
            if many == 0 { String::new() } else { format!(" {} to look at.", count(many, "finding")) }
        });
        if let Some(stop) = store.results.with(|results| results.stop(cell).cloned()) {
            return Some(format!("No answer. {}", stop.text()));
        }
        let output = here.calculator.outputs.first()?;
        let (number, unit) = text(here, output, "")?;
        Some(format!("{}: {}.{findings}", output.label, joined(&number, unit)))
    });
    let timer = StoredValue::new(None::<TimeoutHandle>);
    let stop = move || {
        timer.try_update_value(|running| {
            if let Some(running) = running.take() {
                running.clear();
            }
        });
    };
    let wait = move |what: Box<dyn FnOnce()>, seconds: u64| {
        let later = set_timeout_with_handle(what, std::time::Duration::from_secs(seconds)).ok();
        timer.try_update_value(|running| *running = later);
    };
    Effect::new(move |before: Option<()>| {
        let text = now.get().unwrap_or_default();
        if before.is_none() {
            return;
        }
        stop();
        said.set(String::new());
        let say = move || {
            // Disposed with the sheet, if that is gone by then.
            let _ = said.try_set(text);
            let forget = move || drop(said.try_set(String::new()));
            wait(Box::new(forget), 8);
        };
        wait(Box::new(say), 1);
    });
    on_cleanup(stop);
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
        let shown = Memo::at_once(move |_| text(here, output, ""));
        let missing = why_missing(output);
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
                    {move || if store.digits.get() > 3 { "Fewer figures everywhere" } else { "More figures everywhere" }}
                </button>
            </h2>
            <dl class="lines">{rest.into_iter().map(one).collect_view()}</dl>
        </section>
    }
    .into_any()
}

/// What stands in place of an answer that is not there.
fn why_missing(output: &Output) -> String {
    output.missing.map_or("–".to_string(), Missing::text)
}

/// A number and its unit.
pub fn joined(number: &str, unit: &str) -> String {
    if unit.is_empty() { number.to_string() } else { format!("{number}\u{a0}{unit}") }
}
