//! The line of a plan: the map, the same in tables, what to look at and what to do next.

mod heading;
pub mod map;
pub mod streams;
pub mod balance;
pub mod look;
mod add;
mod remarks;

use super::print_head::PrintHead;
use super::store::Store;
use crate::address::Address;
use crate::picture::flows::Sheet;
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// The line page.
#[component]
pub fn LinePage() -> impl IntoView {
    let store = Store::here();
    let is_begun = Memo::new(move |_| store.history.with(|history| history.plan().places.len() > 1));
    view! {
        <main id="main" class="line">
            <PrintHead what="The line" />
            <header class="line-head">
                <heading::Heading />
                <remarks::Remarks />
                <Show when=move || is_begun.get()>
                    <p class="papers no-print">
                        <a class="btn" href=move || store.plan_address(Address::Report).text()>"Report of the plan"</a>
                        " "
                        <a class="btn" href=move || store.plan_address(Address::Building).text()>"Building request"</a>
                        " "
                        <a class="btn" href=move || store.plan_address(Address::Share).text()>"Share the plan"</a>
                        " "
                        <a class="btn" href=move || store.plan_address(Address::Earlier).text()>"Earlier versions"</a>
                    </p>
                </Show>
            </header>
            <div class="line-body">
                <Show when=move || is_begun.get() fallback=|| view! { <add::FirstStep /> }>
                    <map::MapPart />
                    <streams::FlowTables />
                    <balance::BalancePart />
                </Show>
            </div>
            <aside class="line-side">
                <Show when=move || is_begun.get()>
                    <look::ToLookAt />
                    <look::DoNext />
                    <add::AddPart />
                </Show>
            </aside>
        </main>
    }
}

/// The address of a sheet, or of nothing in particular.
pub fn address_of(store: Store, sheet: Option<Sheet>) -> String {
    match sheet {
        Some((place, calculator)) => store.sheet_address(place, calculator).text(),
        None => store.line_address().text(),
    }
}
