//! Deleted plans, which can be put back.

use super::super::shelf::{Kept, Shelf};
use super::super::twice::Twice;
use super::super::when;
use crate::results::count;
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// The bin; not there while it is empty.
#[component]
pub fn Bin() -> impl IntoView {
    let shelf = Shelf::here();
    let binned = Memo::new(move |_| {
        shelf.plans.with(|plans| plans.iter().filter(|plan| plan.binned).cloned().collect::<Vec<_>>())
    });
    let row = move |kept: Kept| {
        let Kept { id, name, saved_at, .. } = kept;
        let (label, removes) = (format!("Put back {name}"), format!("Remove {name} for good"));
        let gone = id.clone();
        view! {
            <li>
                <span><b>{name}</b><small>"changed "{when::moment(saved_at)}</small></span>
                <span class="buttons">
                    <button aria-label=label on:click=move |_| shelf.bin(&id, false)>"Put back"</button>
                    <Twice
                        words="Remove for good"
                        label=removes
                        warning="It goes with its earlier versions, and nobody can bring it back."
                        then=move || shelf.erase(gone.clone())
                    />
                </span>
            </li>
        }
    };
    view! {
        <Show when=move || binned.with(|binned| !binned.is_empty())>
            <details class="part bin">
                <summary>"Bin: "{move || count(binned.with(Vec::len), "plan")}</summary>
                <ul>{move || binned.get().into_iter().map(row).collect_view()}</ul>
            </details>
        </Show>
    }
}
