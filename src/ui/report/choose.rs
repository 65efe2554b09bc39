//! What goes into the report.

use super::Chosen;
use crate::plan::Id;
use crate::report::SheetReport;
use crate::results::count;
use crate::ui::element::Show;
use crate::ui::share::SpareTicks;
use crate::ui::signals::Memo;
use crate::ui::tick_box::{TickBox, tick_box};
use bathbook_view::view;
use leptos::prelude::*;

/// A sheet: its place, id and title.
type One = (Id, &'static str, &'static str);

/// The choice, and the button that prints.
#[component]
pub fn Choose(chosen: Chosen, all: RwSignal<Vec<SheetReport>>, has_request: Memo<bool>) -> impl IntoView {
    let ids = move || {
        all.with(|all| all.iter().map(|sheet| (sheet.place, sheet.calculator.id)).collect::<Vec<_>>())
    };
    let places = move || {
        all.with(|all| {
            let mut places: Vec<(String, Vec<One>)> = Vec::new();
            for sheet in all {
                let one = (sheet.place, sheet.calculator.id, sheet.calculator.title);
                match places.last_mut().filter(|(name, _)| *name == sheet.name) {
                    Some((_, sheets)) => sheets.push(one),
                    None => places.push((sheet.name.clone(), vec![one])),
                }
            }
            places
        })
    };
    let tick = move |(place, id, title): One| {
        let is_in = Signal::derive(move || chosen.without.with(|without| !without.contains(&(place, id))));
        let set = Callback::new(move |is_in: bool| {
            chosen.without.update(|without| {
                without.retain(|other| *other != (place, id));
                if !is_in {
                    without.push((place, id));
                }
            });
        });
        view! { <TickBox label=Signal::stored(title.to_string()) is_in set /> }
    };
    let group = move |(name, sheets): (String, Vec<One>)| {
        view! {
            <fieldset>
                <legend>{name}</legend>
                {sheets.into_iter().map(tick).collect_view()}
            </fieldset>
        }
    };
    let working = Signal::derive(move || {
        let has_working = |sheet: &&SheetReport| !sheet.working.is_empty() && chosen.has(sheet);
        let many = all.with(|all| all.iter().filter(has_working).count());
        format!("The working of each sheet ({})", count(many, "sheet"))
    });
    view! {
        <section class="choose no-print" aria-label="What goes in">
            <div class="actions">
                <button class="primary" on:click=move |_| { let _ = window().print(); }>"Print, or save as PDF"</button>
            </div>
            {tick_box("What to look at", chosen.findings)}
            <Show when=move || has_request.get()>{tick_box("Building request", chosen.building)}</Show>
            {tick_box("Map, streams, routes and balances", chosen.line)}
            <TickBox label=working is_in=chosen.working.into() set=Callback::new(move |is_in| chosen.working.set(is_in)) />
            <SpareTicks />
            <details>
                <summary>
                    {move || {
                        let (all, without) = (all.with(Vec::len), chosen.without.with(Vec::len));
                        format!("Sheets: {} of {all}", all.saturating_sub(without))
                    }}
                </summary>
                <div class="actions">
                    <button on:click=move |_| chosen.without.set(Vec::new())>"All"</button>
                    <button on:click=move |_| chosen.without.set(ids())>"None"</button>
                </div>
                <div class="groups">{move || places().into_iter().map(group).collect_view()}</div>
            </details>
        </section>
    }
}
