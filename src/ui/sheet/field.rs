//! One input: label, field with its unit, where its value comes from, what is wrong with it.

use super::units::UnitPicker;
use crate::calculator::{Form, Input};
use crate::network::Origin;
use crate::plan::{Entry, Field};
use crate::results::FieldView;
use crate::ui::element::Show;
use crate::ui::signals::{Effect, Memo};
use crate::ui::store::Store;
use crate::ui::words::formula;
use crate::units::{Unit, Unread};
use bathbook_view::view;
use leptos::prelude::*;

/// An id that is unique on the page.
pub fn field_id(field: &Field) -> String {
    let key: String = field.key.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let symbol: String = field
        .symbol
        .chars()
        .map(|c| if c.is_ascii() { c.to_string() } else { format!("u{:x}", c as u32) })
        .collect();
    let table = if field.table.is_empty() { String::new() } else { format!("{}-{key}-", field.table) };
    format!("f-{table}{symbol}")
}

/// A row of a form. In a table's row (`compact`) the help is left out.
#[component]
pub fn FieldRow(field: Field, input: &'static Input, #[prop(optional)] compact: bool) -> impl IntoView {
    let store = Store::here();
    let field = StoredValue::new(field);
    let shown = Memo::new(move |_| field.with_value(|field| store.field(field)));
    let asked =
        Memo::new(move |_| field.with_value(|field| store.results.with(|results| results.asks(field))));
    view! {
        <Show when=move || asked.get()>
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
        Form::Text => {
            view! { <TextField field shown input id=id.clone() hint_id=hint_id.clone() /> }.into_any()
        }
    };
    let is_bad = move || shown.with(|view| view.as_ref().is_some_and(|view| view.issue.is_some()));
    view! {
        <div class="row" class:bad=is_bad class:compact=compact>
            <div class="label">
                <label for=id>{input.label}{symbol}</label>
                {(!compact).then(|| view! { <div class="hint">{hint(input)}</div> })}
            </div>
            {body}
            <Message field shown input id=hint_id compact />
        </div>
    }
}

/// What to enter: the help, and what is usual.
fn hint(input: &'static Input) -> impl IntoView {
    let store = Store::here();
    let usual = move || {
        let is_narrower = input.form == Form::Number && input.usual != input.hard;
        is_narrower.then(|| {
            let style = store.results.with(|results| results.style());
            format!(" Usual {}.", input.range_text(input.usual, &style))
        })
    };
    view! { {input.help} <span class="usual">{usual}</span> }
}

/// The line below a field: what is wrong and what stands, or where the value comes from.
#[component]
fn Message(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
    id: String,
    compact: bool,
) -> impl IntoView {
    let store = Store::here();
    let take = move |text: String| {
        store.act(|plan| field.with_value(|field| plan.type_in(field, &text, None)));
    };
    let content = move || {
        let view = shown.get()?;
        if let Some(issue) = view.issue {
            let stands = issue.stands;
            return Some(match issue.unread {
                Unread::Ambiguous(readings) => {
                    let buttons = readings.map(|reading| {
                        let label = format!("Take {reading}");
                        view! { <button on:click=move |_| take(reading.clone())>{label}</button> }
                    });
                    view! {
                        <div class="err">
                            "This can be read in two ways. " {stands}
                            <div class="actions">{buttons.into_iter().collect_view()}</div>
                        </div>
                    }
                    .into_any()
                }
                Unread::Wrong(why) => {
                    view! { <div class="err">{crate::sentence::sentence(&why)} " " {stands}</div> }.into_any()
                }
                Unread::Empty => ().into_any(),
            });
        }
        if view.is_unusual {
            let style = store.results.with(|results| results.style());
            let text = format!("● Unusual: usual is {}.", input.range_text(input.usual, &style));
            return Some(view! { <div class="note">{text}</div> }.into_any());
        }
        if compact && view.origin == Origin::Default && input.form == Form::Number && !input.optional {
            return Some(view! { <div class="hint">"Usual value, not typed"</div> }.into_any());
        }
        None
    };
    view! { <div class="message" id=id aria-live="polite">{content}</div> }
}

/// The box of a linked value, with a button to type over it.
#[component]
fn Linked(
    shown: Memo<Option<FieldView>>,
    typing: RwSignal<bool>,
    input: &'static Input,
    #[prop(into)] id: String,
) -> impl IntoView {
    let value = move || {
        shown.with(|view| {
            let view = view.as_ref()?;
            Some(super::answer::joined(
                &view.text,
                if input.form == Form::Number { view.unit.symbol } else { "" },
            ))
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
fn LinkAgain(
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
                    <button aria-label=format!("Link {} again", input.label) on:click=again>"Link again"</button>
                </div>
            }
        })
    }
}

#[component]
fn NumberField(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
    id: String,
    hint_id: String,
) -> impl IntoView {
    let store = Store::here();
    let (draft, typing) = (RwSignal::new(None::<String>), RwSignal::new(false));
    let at_start = StoredValue::new((None::<&'static Unit>, None::<Entry>));
    let step = field.with_value(|field| format!("{field:?}"));
    let picking = RwSignal::new(false);
    let local = RwSignal::new(None::<&'static Unit>);
    let origin = move || shown.with(|view| view.as_ref().map(|view| view.origin));
    let is_linked =
        Memo::new(move |_| origin() == Some(Origin::Linked) && !typing.get() && draft.with(Option::is_none));
    let text = move || {
        draft
            .get()
            .unwrap_or_else(|| shown.with(|view| view.as_ref().map(|v| v.text.clone()).unwrap_or_default()))
    };
    let unit = Memo::new(move |_| {
        let has_text = shown.with(|view| view.as_ref().is_some_and(|view| !view.text.is_empty()));
        let own = shown.with(|view| view.as_ref().map_or(input.unit, |view| view.unit));
        if has_text { own } else { local.get().unwrap_or(own) }
    });
    // How the field stood when the user began to type.
    let begin = move || {
        let entry =
            field.with_value(|field| store.history.with_untracked(|h| h.plan().entry(field).cloned()));
        at_start.set_value((Some(unit.get_untracked()), entry));
    };
    Effect::new(move |_| {
        store.epoch.track();
        draft.set(None);
        begin();
    });
    let typed = move |event| {
        let text: String = event_target_value(&event);
        // Typed over in one go, it is another number and no longer the same one growing.
        let is_another = draft.with_untracked(|was| {
            was.as_ref().is_some_and(|was| !text.starts_with(was) && !was.starts_with(&text))
        });
        if is_another {
            begin();
        }
        draft.set(Some(text.clone()));
        let (unit, before) = at_start.get_value();
        store.edit(&step, |plan| field.with_value(|field| plan.type_over(field, before, &text, unit)));
    };
    let node = NodeRef::<leptos::html::Input>::new();
    Effect::new(move |_| {
        if let (true, Some(node)) = (typing.get(), node.get()) {
            let _ = node.focus();
        }
    });
    let left = move |_| {
        draft.set(None);
        typing.set(false);
        store.settle();
    };
    let entered = move |event: leptos::ev::KeyboardEvent| {
        if event.key() == "Enter" {
            draft.set(None);
            store.settle();
            begin();
        }
    };
    let mode = if input.hard[0] >= 0.0 { "decimal" } else { "text" };
    let (linked_id, input_id) = (id.clone(), id.clone());
    let unit_label = move || {
        let symbol = unit.get().symbol;
        if symbol.is_empty() { "number".to_string() } else { symbol.to_string() }
    };
    let has_units = input.unit.kind.units().count() > 1;
    let field_view = move || {
        let (typed, left, entered) = (typed.clone(), left, entered);
        view! {
            <div class="field" class:bare=input.unit.symbol.is_empty() class:untouched=move || origin() == Some(Origin::Default)>
                <input
                    id=input_id.clone()
                    node_ref=node
                    inputmode=mode
                    autocomplete="off"
                    spellcheck="false"
                    aria-describedby=hint_id.clone()
                    aria-invalid=move || shown.with(|v| v.as_ref().is_some_and(|v| v.issue.is_some())).to_string()
                    prop:value=text
                    placeholder=if input.optional { "not typed" } else { "" }
                    on:focus=move |event| {
                        begin();
                        select_all(&event);
                    }
                    on:input=typed
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
                    (!input.unit.symbol.is_empty()).then(|| view! { <span class="unit">{input.unit.symbol}</span> }).into_any()
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
                <UnitPicker field shown input done=picking local />
            </Show>
        </div>
    }
}

#[component]
fn ChoiceField(
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

#[component]
fn TextField(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
    id: String,
    hint_id: String,
) -> impl IntoView {
    let store = Store::here();
    let draft = RwSignal::new(None::<String>);
    let step = field.with_value(|field| format!("{field:?}"));
    Effect::new(move |_| {
        store.epoch.track();
        draft.set(None);
    });
    let text = move || {
        draft.get().unwrap_or_else(|| shown.with(|v| v.as_ref().map(|v| v.text.clone()).unwrap_or_default()))
    };
    let typed = move |event| {
        let text = event_target_value(&event);
        draft.set(Some(text.clone()));
        store.edit(&step, |plan| field.with_value(|field| plan.type_in(field, &text, None)));
    };
    let left = move |_| {
        draft.set(None);
        store.settle();
    };
    view! {
        <div class="control">
            <div class="field">
                <input
                    id=id
                    class="words"
                    autocomplete="off"
                    spellcheck="false"
                    aria-label=input.label
                    aria-describedby=hint_id
                    prop:value=text
                    on:input=typed
                    on:blur=left
                />
            </div>
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
