//! A field of a number, with its unit and the named values that it offers.

use super::draft::Draft;
use super::linked::{LinkAgain, Linked};
use crate::calculator::Input;
use crate::network::Origin;
use crate::plan::Field;
use crate::results::FieldView;
use crate::ui::element::Show;
use crate::ui::sheet::units::UnitPicker;
use crate::ui::signals::{Effect, Memo};
use crate::ui::store::Store;
use bathbook_view::view;
use leptos::prelude::*;

/// The field.
#[component]
pub fn NumberField(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
    id: String,
    hint_id: String,
) -> impl IntoView {
    let store = Store::here();
    let draft = Draft::new(store, field, shown);
    let (typing, picking) = (RwSignal::new(false), RwSignal::new(false));
    let origin = move || shown.with(|view| view.as_ref().map(|view| view.origin));
    let is_linked =
        Memo::new(move |_| origin() == Some(Origin::Linked) && !typing.get() && !draft.is_typing());
    let unit = Memo::new(move |_| shown.with(|view| view.as_ref().map_or(input.unit, |view| view.unit)));
    let node = NodeRef::<leptos::html::Input>::new();
    Effect::new(move |_| {
        if let (true, Some(node)) = (typing.get(), node.get()) {
            let _ = node.focus();
        }
    });
    let left = move |_| {
        draft.leave();
        typing.set(false);
    };
    let entered = move |event: leptos::ev::KeyboardEvent| {
        if event.key() == "Enter" {
            draft.enter();
        }
    };
    let mode = if input.hard[0] >= 0.0 { "decimal" } else { "text" };
    let (linked_id, input_id) = (id.clone(), id.clone());
    let unit_label = move || {
        let symbol = store.style().symbol(unit.get());
        if symbol.is_empty() { "number".to_string() } else { symbol }
    };
    let has_units = input.unit.kind.units().count() > 1;
    let field_view = move || {
        view! {
            <div class="field" class:bare=input.unit.symbol.is_empty() class:untouched=move || origin() == Some(Origin::Default)>
                <input
                    id=input_id.clone()
                    node_ref=node
                    inputmode=mode
                    autocomplete="off"
                    spellcheck="false"
                    readonly=move || store.is_viewed()
                    aria-describedby=hint_id.clone()
                    aria-invalid=move || shown.with(|v| v.as_ref().is_some_and(|v| v.issue.is_some())).to_string()
                    prop:value=move || draft.text()
                    placeholder=if input.optional { "not typed" } else { "" }
                    on:focus=move |event| {
                        draft.touched();
                        select_all(&event);
                    }
                    on:input=move |event| draft.type_in(event_target_value(&event))
                    on:blur=left
                    on:keydown=entered
                />
                {if has_units {
                    view! {
                        <button
                            class="unit"
                            aria-expanded=move || picking.get().to_string()
                            aria-label=move || format!("Unit of {}: {}; choose another", input.label, unit_label())
                            on:click=move |_| picking.update(|p| *p = !*p)
                        >
                            {unit_label}
                        </button>
                    }
                    .into_any()
                } else {
                    (!input.unit.symbol.is_empty()).then(|| view! { <span class="unit">{unit_label}</span> }).into_any()
                }}
            </div>
        }
    };
    let picks = move || {
        let one = |(word, _): &'static (&'static str, f64)| {
            let pick = move |_| {
                store.act(|plan| field.with_value(|field| plan.type_in(field, word, None)));
            };
            view! { <button class="pick" on:click=pick>{*word}</button> }
        };
        let label = format!("Usual values for {}", input.label);
        view! { <div class="picks" role="group" aria-label=label>{input.picks.iter().map(one).collect_view()}</div> }
    };
    view! {
        <div class="control">
            {move || if is_linked.get() {
                view! { <Linked shown typing input id=linked_id.clone() /> }.into_any()
            } else {
                field_view().into_any()
            }}
            <LinkAgain field shown input />
            <Show when=move || !is_linked.get() && !input.picks.is_empty()>{picks}</Show>
            <Show when=move || picking.get()>
                <UnitPicker field shown input done=picking />
            </Show>
        </div>
    }
}

/// A touch on a number is mostly meant to replace it.
fn select_all(event: &leptos::ev::FocusEvent) {
    use wasm_bindgen::JsCast;
    if let Some(input) = event.target().and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok())
    {
        input.select();
    }
}
