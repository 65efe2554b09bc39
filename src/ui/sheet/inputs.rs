//! The single inputs of a sheet, in groups, one a line.

use super::Here;
use super::field::FieldRow;
use crate::plan::Field;
use bathbook_view::view;
use leptos::prelude::*;

/// The inputs.
#[component]
pub fn Inputs(here: Here) -> impl IntoView {
    let calculator = here.calculator;
    if calculator.inputs.is_empty() {
        return ().into_any();
    }
    let mut groups: Vec<(&'static str, Vec<AnyView>)> = Vec::new();
    for input in calculator.inputs {
        let field = Field::single(here.place, calculator.id, input.symbol);
        let row = view! { <FieldRow field input /> }.into_any();
        match groups.iter_mut().find(|(name, _)| *name == input.group) {
            Some((_, rows)) => rows.push(row),
            None => groups.push((input.group, vec![row])),
        }
    }
    let one = |(name, rows): (&'static str, Vec<AnyView>)| {
        let label = if name.is_empty() { "What it takes" } else { name };
        view! {
            <section class="inputs" aria-label=label>
                {(!name.is_empty()).then(|| view! { <h2 class="group">{name}</h2> })}
                {rows}
            </section>
        }
    };
    groups.into_iter().map(one).collect_view().into_any()
}
