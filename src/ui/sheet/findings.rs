//! What there is to look at on this sheet, with what would cure it; and the cautions.

use super::Here;
use super::field::go_to;
use crate::ask::{Cure, cures};
use crate::calculator::{Finding, Severity};
use crate::plan::Plan;
use crate::ui::element::Show;
use crate::ui::list::For;
use crate::ui::signals::{Effect, Memo};
use crate::ui::words::severity_mark;
use bathbook_view::view;
use leptos::prelude::*;
use std::time::Duration;

/// Cures are looked for once the user pauses, as each takes many evaluations.
pub const PAUSE: Duration = Duration::from_millis(350);

/// The findings of the sheet: those that say stop, which stand by the answer, or the others.
#[component]
pub fn Findings(here: Here, #[prop(optional)] stops: bool) -> impl IntoView {
    let store = here.store;
    let found = Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        store.results.with(|results| {
            let all = results.outcome(cell).map(|outcome| outcome.findings.clone()).unwrap_or_default();
            all.into_iter()
                .filter(|finding| (finding.severity == Severity::Serious) == stops)
                .collect::<Vec<_>>()
        })
    });
    let title = if stops { "What to stop for" } else { "To look at here" };
    let cured = RwSignal::new(Vec::<(Finding, Vec<Cure>)>::new());
    let timer = StoredValue::new(None::<TimeoutHandle>);
    let stop_timer = move || {
        timer.update_value(|timer| {
            if let Some(timer) = timer.take() {
                timer.clear();
            }
        })
    };
    let look = move || {
        let Some(cell) = here.cell() else { return };
        let results = store.results.get_untracked();
        let wanted = found.get_untracked();
        cured.set(wanted.into_iter().map(|f| (f.clone(), cures(&results.network, cell, &f))).collect());
    };
    Effect::new(move |_| {
        store.results.track();
        stop_timer();
        timer.set_value(set_timeout_with_handle(look, PAUSE).ok());
    });
    on_cleanup(stop_timer);
    let one = move |finding: Finding| {
        let (class, shape, word) = severity_mark(finding.severity);
        let text = finding.text.clone();
        let offered = move || {
            let list =
                cured.with(|all| all.iter().find(|(f, _)| *f == finding).map(|(_, cures)| cures.clone()))?;
            (!list.is_empty()).then(|| {
                view! {
                    <div class="cures no-print">
                        <span>"What alone would do it:"</span>
                        {list.into_iter().map(|cure| view! { <Offer here cure /> }).collect_view()}
                    </div>
                }
            })
        };
        view! {
            <li class=format!("finding {class}") tabindex="-1">
                <span class=format!("mark {class}")>{shape} " " {word}</span>
                <p>{text}</p>
                {offered}
            </li>
        }
    };
    view! {
        <Show when=move || !found.with(Vec::is_empty)>
            <section class="part findings" aria-label=title>
                <h2>{title}</h2>
                <ul>
                    <For each=move || found.get() key=|finding| finding.text.clone() children=one />
                </ul>
            </section>
        </Show>
    }
}

/// One cure, to take by touch.
#[component]
fn Offer(here: Here, cure: Cure) -> impl IntoView {
    let store = here.store;
    let label = cure.said(here.place);
    let take = move |_| {
        let Some(field) = cure.field() else { return };
        let text = cure.text.clone();
        let take = |plan: &mut Plan| plan.type_in(&field, &text.replace('\u{202f}', ""), None);
        store.act_and_say("Taken. Undo takes it back.", take);
        // A word brings fields of its own, next to it.
        if cure.is_choice() && field.place == here.place && field.calculator == here.calculator.id {
            go_to(&field);
        }
    };
    view! { <button on:click=take>{label}</button> }
}

/// The cautions that apply, on the sheet and in print.
#[component]
pub fn Cautions(here: Here) -> impl IntoView {
    let texts = cautions(here);
    view! {
        <Show when=move || !texts.with(Vec::is_empty)>
            <section class="part" aria-label="Cautions">
                <h2>"Cautions"</h2>
                <CautionBox texts />
            </section>
        </Show>
    }
}

/// The texts of the cautions that apply.
pub fn cautions(here: Here) -> Memo<Vec<&'static str>> {
    Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        here.store
            .results
            .with(|results| results.outcome(cell).map(|outcome| outcome.cautions.clone()).unwrap_or_default())
    })
}

/// Cautions, and who decides.
#[component]
pub fn CautionBox(texts: Memo<Vec<&'static str>>) -> impl IntoView {
    view! {
        <div class="cautionbox">
            {move || texts.get().into_iter().map(|text| view! { <p>{text}</p> }).collect_view()}
            <p>"Your site’s rules, local codes and a licensed or trained person decide."</p>
        </div>
    }
}
