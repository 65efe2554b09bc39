//! All plans of this device, or some, as one file.

use crate::ui::element::Show;
use crate::ui::file::{PLAN, hand_over, just_saved};
use crate::ui::shelf::{Kept, Shelf};
use crate::ui::signals::Memo;
use crate::ui::store::Store;
use crate::ui::tick_box::{TickBox, tick_box};
use crate::ui::when;
use bathbook_view::view;
use leptos::prelude::*;

/// Which plans, and the button. Not there while there are none.
#[component]
pub fn SaveSeveral() -> impl IntoView {
    let (shelf, store) = (Shelf::here(), Store::here());
    let listed = Memo::new(move |_| {
        shelf.plans.with(|plans| plans.iter().filter(|plan| !plan.binned).cloned().collect::<Vec<_>>())
    });
    let left_out = RwSignal::new(Vec::<String>::new());
    let with_rest = RwSignal::new(true);
    let one = move |Kept { id, name, .. }: Kept| {
        let known = id.clone();
        let is_in = Signal::derive(move || left_out.with(|left_out| !left_out.contains(&known)));
        let set = Callback::new(move |wanted: bool| {
            left_out.update(|left_out| {
                left_out.retain(|known| *known != id);
                if !wanted {
                    left_out.push(id.clone());
                }
            });
        });
        view! { <TickBox label=Signal::stored(name) is_in set /> }
    };
    let save = move |_| {
        left_out.with_untracked(|left_out| save_several(store, left_out, with_rest.get_untracked()));
    };
    view! {
        <Show when=move || shelf.plans.with(|plans| !plans.is_empty())>
            <details class="part bin several">
                <summary>"Save several plans as one file"</summary>
                <p class="hint">"“Open a file” brings them back, here or elsewhere: what is there already is left alone, and what differs comes beside it."</p>
                {move || listed.get().into_iter().map(one).collect_view()}
                {tick_box("The bin and the quick sums too", with_rest)}
                <div class="buttons"><button on:click=save>"Save as one file"</button></div>
            </details>
        </Show>
    }
}

/// Saves the plans of the list but for some, and where it is wanted the bin and the quick sums too.
pub fn save_several(store: Store, left_out: &[String], with_rest: bool) {
    let (text, ids) = match store.shelf.archive(left_out, with_rest) {
        Ok(made) => made,
        Err(why) => return store.said.set(Some(why)),
    };
    let name = format!("Plans of {}", when::day(when::now()));
    if hand_over(store, &name, PLAN, &text.into()) {
        ids.iter().for_each(|id| just_saved(id));
        store.said.update(|said| {
            if let Some(said) = said {
                said.push_str(" It holds all of each plan, prices and remarks too.");
            }
        });
    }
}
