//! The first page: whose plan, which day, by whom, what is in it and what it assumes.

use super::super::paper::Marks;
use super::super::store::Store;
use super::{Chosen, told_once};
use crate::calculators::site;
use crate::plan::Field;
use crate::report::SheetReport;
use crate::results::count;
use crate::ui::element::Show;
use crate::ui::sheet::field::FieldRow;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// The cover.
#[component]
pub fn Cover(
    wanted: Signal<Vec<SheetReport>>,
    chosen: Chosen,
    marks: Marks,
    has_request: Memo<bool>,
) -> impl IntoView {
    let store = Store::here();
    let Marks { name, sum, day } = marks;
    let author =
        store.history.with_untracked(|history| history.plan().site().map(|site| site.id)).and_then(|site| {
            let input = site::CALCULATOR.inputs.iter().find(|input| input.symbol == site::AUTHOR)?;
            Some(view! { <FieldRow field=Field::single(site, site::CALCULATOR.id, site::AUTHOR) input /> })
        });
    let remarks = move || store.history.with(|history| history.plan().notes.clone());
    let units = Memo::new(move |_| match store.style().system {
        crate::units::System::Metric => "metric",
        crate::units::System::Us => "US",
    });
    view! {
        <section class="cover">
            <h1 class="on-paper">{move || name.get()}</h1>
            <p class="on-paper">"Report of a plating line’s baths and wastes"</p>
            <p class="lines-kept">{remarks}</p>
            <div class="author">{author}</div>
            <dl class="lines">
                <div class="pair"><dt>"Day"</dt><dd>{move || day.get()}</dd></div>
                <div class="pair"><dt>"Plan check"</dt><dd data-symbol="check">{move || sum.get()}</dd></div>
                <div class="pair"><dt>"Units of answers"</dt><dd>{move || units.get()}</dd></div>
                <div class="pair"><dt>"Sheets"</dt><dd>{move || wanted.with(Vec::len).to_string()}</dd></div>
                <div class="pair"><dt>"Made with"</dt><dd>"Bathbook "{env!("CARGO_PKG_VERSION")}</dd></div>
            </dl>
            <p>"A calculation aid. Local codes, the permit, the safety data of what is used and licensed people decide. Papers with the same plan check come from the same plan."</p>
        </section>
        <section class="report-part contents">
            <h2>"Contents"</h2>
            <ul>
                <Show when=move || chosen.findings.get()><li>"What to look at"</li></Show>
                <Show when=move || wanted.with(|all| all.iter().any(|sheet| !sheet.cautions.is_empty()))><li>"Cautions"</li></Show>
                <Show when=move || chosen.building.get() && has_request.get()><li>"Building request"</li></Show>
                <Show when=move || chosen.line.get()><li>"Map, streams, routes and balances"</li></Show>
                {move || wanted.with(|all| by_place(all).into_iter().map(|text| view! { <li>{text}</li> }).collect_view())}
                <li>"Sources"</li>
            </ul>
        </section>
        <section class="report-part">
            <h2>"What is assumed"</h2>
            {move || assumptions(wanted)}
        </section>
    }
}

/// The sheets of each place, on a line: "Copper bath: Make-up, Plating load".
fn by_place(all: &[SheetReport]) -> Vec<String> {
    let mut places: Vec<(&str, Vec<&str>)> = Vec::new();
    for sheet in all {
        match places.last_mut().filter(|(name, _)| *name == sheet.name) {
            Some((_, titles)) => titles.push(sheet.calculator.title),
            None => places.push((&sheet.name, vec![sheet.calculator.title])),
        }
    }
    places.into_iter().map(|(name, titles)| format!("{name}: {}", titles.join(", "))).collect()
}

/// "Copper bath: Make-up"; the site's sheets by their own name.
pub fn title(sheet: &SheetReport) -> String {
    if sheet.name == sheet.calculator.title {
        return sheet.name.clone();
    }
    format!("{}: {}", sheet.name, sheet.calculator.title)
}

fn assumptions(wanted: Signal<Vec<SheetReport>>) -> AnyView {
    wanted.with(|all| {
        let head = match all.iter().filter(|sheet| !sheet.assumed().is_empty()).count() {
            0 => "No usual values: all that is asked for was typed, chosen or follows another sheet."
                .to_string(),
            n => format!("Usual values that nobody typed, on {}.", count(n, "sheet")),
        };
        view! { <p>{head}</p> {told_once::assumed(all)} }.into_any()
    })
}
