//! A field in which one word of a few is chosen.

use super::linked::{LinkAgain, Linked};
use crate::calculator::Input;
use crate::network::Origin;
use crate::plan::Field;
use crate::results::FieldView;
use crate::ui::signals::Memo;
use crate::ui::store::Store;
use bathbook_view::view;
use leptos::prelude::*;

/// The field.
#[component]
pub fn ChoiceField(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
    id: String,
    hint_id: String,
) -> impl IntoView {
    let store = Store::here();
    let typing = RwSignal::new(false);
    let is_linked = Memo::new(move |_| {
        shown.with(|v| v.as_ref().is_some_and(|v| v.origin == Origin::Linked)) && !typing.get()
    });
    let choose = move |event| {
        let word = event_target_value(&event);
        store.act(|plan| field.with_value(|field| plan.type_in(field, &word, None)));
        typing.set(false);
    };
    let now = Memo::new(move |_| {
        shown.with(|view| view.as_ref().map(|view| view.text.clone()).unwrap_or_default())
    });
    let (linked_id, select_id) = (id.clone(), id);
    let select = move || {
        // A plan that is only shown keeps its word: what was chosen gives way to it.
        if store.is_viewed() {
            store.epoch.track();
        }
        let options = input.words().iter().map(|(word, _)| {
            view! { <option value=*word selected=move || now.get() == *word>{*word}</option> }
        });
        view! {
            <div class="field choice">
                <select id=select_id.clone() aria-describedby=hint_id.clone() on:change=choose prop:value=now>
                    {options.collect_view()}
                </select>
            </div>
        }
    };
    view! {
        <div class="control">
            {move || if is_linked.get() {
                view! { <Linked shown typing input id=linked_id.clone() /> }.into_any()
            } else {
                select().into_any()
            }}
            <LinkAgain field shown input />
        </div>
    }
}
