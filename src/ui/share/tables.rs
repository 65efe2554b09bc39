//! What the plan comes to, for other programs.

use super::spare::Spare;
use crate::report::{book, csv, figures};
use crate::ui::extras;
use crate::ui::file::hand_over;
use crate::ui::store::Store;
use bathbook_view::view;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::js_sys::{Date, Uint8Array};

/// The sort of a workbook. Source: ISO/IEC 29500-1.
const WORKBOOK: (&str, &str) = ("xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet");

/// The part.
#[component]
pub fn TablesPart(spare: Spare) -> impl IntoView {
    let store = Store::here();
    let name = move || store.history.with_untracked(|history| format!("{} - results", history.plan().name));
    let save_csv = move |_| {
        let text = csv(&figures(&untrack(|| spare.plan(store))));
        hand_over(store, &name(), ("csv", "text/csv"), &text.into());
    };
    let save_book = move |_| {
        let day = String::from(Date::new_0().to_iso_string());
        let day = day.split('T').next().unwrap_or_default();
        let text = book(&untrack(|| spare.plan(store)), day);
        spawn_local(async move {
            match extras::workbook(&text).await {
                Some(bytes) => {
                    hand_over(store, &name(), WORKBOOK, &Uint8Array::from(&bytes[..]).into());
                }
                None => store.said.set(Some(
                    "The workbook could not be made: open the page once with a network, and try again. The same stands in the table of values parted by commas.".into(),
                )),
            }
        });
    };
    view! {
        <section class="part">
            <h2>"As tables for other programs"</h2>
            <p>"Every number of the plan with its unit, and what there is to look at. Numbers are plain, and no cell is a formula: the sums stay here, with their working."</p>
            <div class="buttons">
                <button on:click=save_book>"Save a workbook (XLSX)"</button>
                <button on:click=save_csv>"Save a table (CSV)"</button>
            </div>
        </section>
    }
}
