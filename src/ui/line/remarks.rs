//! What is written about the plan, for whoever opens it.

use super::super::store::Store;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::prelude::*;

/// The part: open where something is written.
#[component]
pub fn Remarks() -> impl IntoView {
    let store = Store::here();
    let remarks = Memo::new(move |_| store.history.with(|history| history.plan().notes.clone()));
    // What is typed stands in the field as it is; only undo and the like replace it.
    let shown = RwSignal::new(remarks.get_untracked());
    Effect::new(move |_| {
        store.epoch.track();
        shown.set(remarks.get_untracked());
    });
    let is_open = !remarks.get_untracked().is_empty();
    let typed = move |event| {
        let typed = event_target_value(&event);
        shown.set(typed.clone());
        store.edit("remarks", |plan| plan.notes = typed);
    };
    view! {
        <details class="remarks no-print" open=is_open>
            <summary>"Remarks on the plan"</summary>
            <label>
                <span class="hide">"Remarks on the plan"</span>
                <textarea
                    rows="3"
                    placeholder="What whoever opens this plan should know."
                    readonly=move || store.is_viewed()
                    prop:value=move || shown.get()
                    on:input=typed
                    on:blur=move |_| store.settle()
                ></textarea>
            </label>
        </details>
        <p class="on-paper lines-kept">{move || remarks.get()}</p>
    }
}
