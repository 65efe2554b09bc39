//! What stands below a field.

use super::usual_range;
use crate::calculator::{Form, Input};
use crate::network::Origin;
use crate::plan::Field;
use crate::results::FieldView;
use crate::ui::signals::Memo;
use crate::ui::store::Store;
use crate::units::Unread;
use bathbook_view::view;
use leptos::prelude::*;

/// The line below a field: what is wrong and what stands, or where the value comes from.
#[component]
pub fn Message(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
    id: String,
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
        if let Some(why) = view.refused {
            return Some(view! { <div class="err">{why}</div> }.into_any());
        }
        if view.is_unusual {
            let text = format!("● Unusual: usual is {}.", usual_range(input, shown));
            return Some(view! { <div class="note">{text}</div> }.into_any());
        }
        if view.origin == Origin::Default && input.form == Form::Number && !input.optional {
            return Some(view! { <div class="hint">"Usual value, not typed"</div> }.into_any());
        }
        None
    };
    view! { <div class="message" id=id aria-live="polite">{content}</div> }
}
