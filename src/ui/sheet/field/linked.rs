//! A value that follows another sheet, and the way back to it once something is typed over it.

use crate::calculator::{Form, Input};
use crate::network::Origin;
use crate::plan::Field;
use crate::results::FieldView;
use crate::ui::sheet::answer::joined;
use crate::ui::signals::Memo;
use crate::ui::store::Store;
use bathbook_view::view;
use leptos::prelude::*;

/// The box of a linked value, with a button to type over it.
#[component]
pub fn Linked(
    shown: Memo<Option<FieldView>>,
    typing: RwSignal<bool>,
    input: &'static Input,
    #[prop(into)] id: String,
) -> impl IntoView {
    let store = Store::here();
    let value = move || {
        shown.with(|view| {
            let view = view.as_ref()?;
            let is_number = input.form == Form::Number;
            if is_number && view.text.is_empty() {
                return Some("not typed there".into());
            }
            let unit = if is_number { store.style().symbol(view.unit) } else { String::new() };
            Some(joined(&view.text, &unit))
        })
    };
    let from = move || {
        shown.with(|view| {
            view.as_ref().and_then(|view| view.follows.clone()).map(|from| format!("from {from}"))
        })
    };
    let label = input.label;
    let button = format!("{id}-over");
    view! {
        <div class="from">
            <output id=id><b>{value}</b> <small>{from}</small></output>
            <button
                id=button
                aria-label=format!("Type a value for {label} in place of the linked one")
                on:click=move |_| typing.set(true)
            >
                "Type a value"
            </button>
        </div>
    }
}

/// Beside a value typed over a link: one touch links it again.
#[component]
pub fn LinkAgain(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
) -> impl IntoView {
    let store = Store::here();
    let over = move || {
        shown.with(|view| {
            let view = view.as_ref().filter(|view| view.origin == Origin::Overtyped)?;
            view.follows.clone()
        })
    };
    let again = move |_| {
        store.act(|plan| field.with_value(|field| plan.clear(field)));
    };
    move || {
        over().map(|from| {
            view! {
                <div class="over">
                    <span>"Typed over " {from}</span>
                    <button aria-label=format!("Link again: {}", input.label) on:click=again>"Link again"</button>
                </div>
            }
        })
    }
}
