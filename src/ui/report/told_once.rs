//! What holds for more than one sheet, told once: usual values, cautions and sources.

use crate::report::{Shared, SheetReport, shared};
use bathbook_view::view;
use leptos::prelude::*;

/// A table of calculators, what is said of each, and of which places.
fn table(all: Vec<Shared>, with_places: bool) -> AnyView {
    let one = |shared: Shared| {
        let is_named_so = shared.places.iter().all(|place| *place == shared.calculator.title);
        let places = (with_places && !is_named_so)
            .then(|| view! { " " <span class="whence">"("{shared.places.join(", ")}")"</span> });
        view! { <tr><th scope="row">{shared.calculator.title}</th><td>{shared.text}{places}</td></tr> }
    };
    view! { <table class="data once"><tbody>{all.into_iter().map(one).collect_view()}</tbody></table> }
        .into_any()
}

fn part(heading: &'static str, all: Vec<Shared>, with_places: bool) -> AnyView {
    if all.is_empty() {
        return ().into_any();
    }
    view! { <section class="report-part"><h2>{heading}</h2>{table(all, with_places)}</section> }.into_any()
}

/// The usual values that nobody typed.
pub fn assumed(sheets: &[SheetReport]) -> AnyView {
    let says = |sheet: &SheetReport| {
        Some(sheet.assumed().join("; ")).filter(|text| !text.is_empty()).into_iter().collect()
    };
    table(shared(sheets, says), true)
}

/// The cautions that apply.
pub fn cautions(sheets: &[SheetReport]) -> AnyView {
    let says = |sheet: &SheetReport| sheet.cautions.iter().map(|text| text.to_string()).collect();
    part("Cautions", shared(sheets, says), true)
}

/// The sources of each calculator.
pub fn sources(sheets: &[SheetReport]) -> AnyView {
    let says = |sheet: &SheetReport| vec![sheet.calculator.sources.join(" ")];
    part("Sources", shared(sheets, says), false)
}
