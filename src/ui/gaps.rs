//! The fields that are still to be typed or to be mended, each one touch away.

use super::store::Store;
use crate::plan::Field;
use bathbook_view::view;
use leptos::prelude::*;

/// How many stand in sight; the others unfold.
const IN_SIGHT: usize = 5;

/// A field as it is called on its sheet, with its row.
fn called(field: &Field) -> String {
    let label = field.input().map_or(field.symbol, |input| input.label);
    if field.key.is_empty() { label.to_string() } else { format!("{}: {label}", field.key) }
}

/// The list.
pub fn gaps_view(store: Store, fields: Vec<Field>) -> AnyView {
    let one = |field: Field| {
        let href = store.sheet_address(field.place, field.calculator).text();
        let name = called(&field);
        view! { <li><a href=href on:click=move |_| store.wanted.set(Some(field.clone()))>{name}</a></li> }
    };
    let (sight, more) = fields.split_at(fields.len().min(IN_SIGHT));
    let more = (!more.is_empty()).then(|| {
        view! {
            <details>
                <summary>{format!("and {} more", more.len())}</summary>
                <ul>{more.iter().cloned().map(one).collect_view()}</ul>
            </details>
        }
    });
    view! { <div class="gaps"><ul>{sight.iter().cloned().map(one).collect_view()}</ul>{more}</div> }
        .into_any()
}
