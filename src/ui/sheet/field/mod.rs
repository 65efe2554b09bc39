//! One input: label, field with its unit, where its value comes from, what is wrong with it.

mod choice;
mod draft;
mod linked;
mod message;
mod number;
mod text;

use crate::calculator::{Form, Input};
use crate::plan::Field;
use crate::results::FieldView;
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use crate::ui::store::Store;
use crate::ui::words::formula;
use bathbook_view::view;
use choice::ChoiceField;
use leptos::prelude::*;
use message::Message;
use number::NumberField;
use text::TextField;

/// An id that is unique on the page.
pub fn field_id(field: &Field) -> String {
    let key = plain_id(&field.key);
    let symbol: String = field
        .symbol
        .chars()
        .map(|c| if c.is_ascii() { c.to_string() } else { format!("u{:x}", c as u32) })
        .collect();
    let table = if field.table.is_empty() { String::new() } else { format!("{}-{key}-", field.table) };
    format!("f-{table}{symbol}")
}

/// A name as a part of an id.
pub fn plain_id(name: &str) -> String {
    name.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect()
}

/// A row of a form. In a table's row (`compact`) the help is left out.
#[component]
pub fn FieldRow(field: Field, input: &'static Input, #[prop(optional)] compact: bool) -> impl IntoView {
    let store = Store::here();
    let field = StoredValue::new(field);
    let shown = Memo::at_once(move |_| field.with_value(|field| store.field(field)));
    let is_asked = move || shown.with(|view| view.as_ref().is_some_and(|view| view.is_asked));
    view! {
        <Show when=is_asked>
            <Asked field shown input compact />
        </Show>
    }
}

#[component]
fn Asked(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
    compact: bool,
) -> impl IntoView {
    let id = field.with_value(field_id);
    let hint_id = format!("{id}-hint");
    let symbol = (input.form == Form::Number).then(|| view! { <i>{formula(input.symbol)}</i> });
    let body = match input.form {
        Form::Number => {
            view! { <NumberField field shown input id=id.clone() hint_id=hint_id.clone() /> }.into_any()
        }
        Form::Choice(_) => {
            view! { <ChoiceField field shown input id=id.clone() hint_id=hint_id.clone() /> }.into_any()
        }
        Form::Text => view! { <TextField field shown id=id.clone() hint_id=hint_id.clone() /> }.into_any(),
    };
    let is_bad = move || {
        shown.with(|view| view.as_ref().is_some_and(|view| view.issue.is_some() || view.refused.is_some()))
    };
    view! {
        <div class="row" class:bad=is_bad class:compact=compact>
            <div class="label">
                <label for=id>{input.label}{symbol}</label>
                {(!compact).then(|| view! { <div class="hint">{hint(input, shown)}</div> })}
            </div>
            {body}
            <Message field shown input id=hint_id />
        </div>
    }
}

/// What to enter: the help, and what is usual, in the unit that the field shows.
fn hint(input: &'static Input, shown: Memo<Option<FieldView>>) -> impl IntoView {
    let usual = move || {
        let is_narrower = input.form == Form::Number && input.usual != input.hard;
        is_narrower.then(|| format!(" Usual {}.", usual_range(input, shown)))
    };
    view! { {input.help} <span class="usual">{usual}</span> }
}

/// What is usual for a number, in the unit that its field shows.
fn usual_range(input: &'static Input, shown: Memo<Option<FieldView>>) -> String {
    let unit = shown.with(|view| view.as_ref().map_or(input.unit, |view| view.unit));
    input.range_text(input.usual, unit, &Store::here().style())
}

/// Goes to a field of the sheet that is open, as one touch leads there.
pub fn go_to(field: &Field) {
    let id = field_id(field);
    // A linked value has no field of its own; the button that would type over it stands for it.
    let there = |id: &str| document().get_element_by_id(id);
    let found = there(&format!("{id}-over")).or_else(|| there(&id));
    crate::ui::go_to_element(found);
}
