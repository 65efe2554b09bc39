//! How numbers are read and shown on a sheet, and where that is set.

use super::Here;
use super::field::FieldRow;
use crate::calculators::site;
use crate::plan::Field;
use crate::ui::signals::Memo;
use crate::units::{Decimal, Gallon, System};
use bathbook_view::view;
use leptos::prelude::*;

/// A line near the units; in a quick sum, which has no site to go to, it opens.
#[component]
pub fn ShownAs(here: Here) -> impl IntoView {
    let store = here.store;
    if here.calculator.id == site::CALCULATOR.id {
        return ().into_any();
    }
    let words = Memo::new(move |_| {
        let style = store.style();
        let mut words = match style.system {
            System::Us => "US units".to_string(),
            System::Metric => "Metric units".to_string(),
        };
        if style.gallon == Gallon::Imperial {
            words += ", imperial gallon";
        }
        if style.decimal == Decimal::Comma {
            words += ", decimal comma";
        }
        words
    });
    let Some(place) = store.history.with_untracked(|history| history.plan().site().map(|site| site.id))
    else {
        return ().into_any();
    };
    let is_quick = store.open.with_untracked(|open| open.as_ref().is_some_and(|open| open.quick.is_some()));
    if !is_quick {
        let address = store.sheet_address(place, site::CALCULATOR.id).text();
        return view! {
            <p class="shown-as no-print">
                {move || words.get()} ", " <a class="btn quiet" href=address>"set at the site"</a>
            </p>
        }
        .into_any();
    }
    let wanted = site::words(store.style()).map(|(symbol, _)| symbol);
    let inputs = site::CALCULATOR.inputs.iter().filter(|input| wanted.contains(&input.symbol));
    let rows = inputs.map(|input| {
        let field = Field::single(place, site::CALCULATOR.id, input.symbol);
        view! { <FieldRow field input compact=true /> }
    });
    view! {
        <details class="shown-as no-print">
            <summary>{move || words.get()} <span class="link">"change"</span></summary>
            <div class="fields">{rows.collect_view()}</div>
        </details>
    }
    .into_any()
}
