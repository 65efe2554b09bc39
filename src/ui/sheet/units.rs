//! The units of a field, to pick by touch: the value stays, and each shows what it is in that unit.

use crate::calculator::Input;
use crate::plan::Field;
use crate::results::FieldView;
use crate::ui::signals::Memo;
use crate::ui::store::Store;
use crate::units::Unit;
use bathbook_view::view;
use leptos::prelude::*;

/// The list.
#[component]
pub fn UnitPicker(
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    input: &'static Input,
    done: RwSignal<bool>,
) -> impl IntoView {
    let store = Store::here();
    let one = move |unit: &'static Unit| {
        let value = move || {
            let style = store.style();
            let si = field
                .with_value(|field| store.results.with(|r| r.datum(field).map(|(datum, _)| datum.value.si)));
            si.filter(|si| si.is_finite())
                .map(|si| style.show(si, unit))
                .unwrap_or_else(|| unit.symbol.to_string())
        };
        let is_now = move || shown.with(|view| view.as_ref().is_some_and(|view| view.unit == unit));
        let pick = move |_| {
            store.act(|plan| field.with_value(|field| plan.show_in(field, unit)));
            done.set(false);
        };
        view! { <button class="unit-choice" aria-pressed=move || is_now().to_string() on:click=pick>{value}</button> }
    };
    view! {
        <div class="unit-list" role="group" aria-label=format!("Units of {}", input.label)>
            {input.unit.kind.units().filter(|unit| !unit.symbol.is_empty()).map(one).collect_view()}
        </div>
    }
}
