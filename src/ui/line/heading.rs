//! The plan's name, which may be changed where it stands.

use super::super::store::Store;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::prelude::*;

/// The heading.
#[component]
pub fn Heading() -> impl IntoView {
    let store = Store::here();
    let name = Memo::new(move |_| store.history.with(|history| history.plan().name.clone()));
    // What is typed stands in the field as it is, spaces at its end too; only undo and the like replace it.
    let shown = RwSignal::new(name.get_untracked());
    Effect::new(move |_| {
        store.epoch.track();
        shown.set(name.get_untracked());
    });
    let typed = move |event| {
        let typed = event_target_value(&event);
        let text: String = typed.trim().chars().filter(|c| !c.is_control()).take(80).collect();
        shown.set(typed);
        if !text.is_empty() {
            store.edit("plan name", |plan| plan.name = text);
        }
    };
    let left = move |_| {
        store.settle();
        // An empty name is not taken: the last one stands again. Nothing is shown any more where the line itself was
        // left with the focus in the field.
        shown.try_set(store.history.with_untracked(|history| history.plan().name.clone()));
    };
    view! {
        <h1 class="hide">{move || format!("The line of {}", name.get())}</h1>
        <label class="plan-name">
            <span class="hide">"Name of the plan"</span>
            <input type="text" maxlength="80" autocomplete="off" prop:value=shown on:input=typed on:blur=left />
            <span class="pen" aria-hidden="true">"✎"</span>
        </label>
        <p class="ask">"What goes in, what comes out, and by which way each litre and each gram of metal leaves, per day."</p>
    }
}
