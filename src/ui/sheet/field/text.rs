//! A field of words, such as a formula or initials.

use super::draft::Draft;
use crate::plan::Field;
use crate::results::FieldView;
use crate::ui::signals::Memo;
use crate::ui::store::Store;
use bathbook_view::view;
use leptos::prelude::*;

/// The field.
#[component]
pub fn TextField(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    id: String,
    hint_id: String,
) -> impl IntoView {
    let store = Store::here();
    let draft = Draft::new(store, field, shown);
    let entered = move |event: leptos::ev::KeyboardEvent| {
        if event.key() == "Enter" {
            draft.enter();
        }
    };
    view! {
        <div class="control">
            <div class="field">
                <input
                    id=id
                    class="words"
                    autocomplete="off"
                    spellcheck="false"
                    readonly=move || store.is_viewed()
                    aria-describedby=hint_id
                    prop:value=move || draft.text()
                    on:focus=move |_| draft.touched()
                    on:input=move |event| draft.type_in(event_target_value(&event))
                    on:blur=move |_| draft.leave()
                    on:keydown=entered
                />
            </div>
        </div>
    }
}
