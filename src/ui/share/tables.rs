//! What the plan comes to, for other programs.

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
pub fn TablesPart() -> impl IntoView {
    let store = Store::here();
    let name = move || {
        let end = if store.spare.get_untracked().is_nothing() { "" } else { " to hand on" };
        store.history.with_untracked(|history| format!("{} - results{end}", history.plan().name))
    };
    let save_csv = move |_| {
        let text = csv(&figures(&untrack(|| store.plan_to_hand_on())));
        hand_over(store, &name(), ("csv", "text/csv"), &text.into());
    };
    let save_book = move |_| {
        let day = String::from(Date::new_0().to_iso_string());
        let day = day.split('T').next().unwrap_or_default();
        let name = name();
        let text = book(&untrack(|| store.plan_to_hand_on()), day);
        spawn_local(async move {
            match extras::workbook(&text).await {
                Ok(bytes) => {
                    hand_over(store, &name, WORKBOOK, &Uint8Array::from(&bytes[..]).into());
                }
                Err(why) => store.said.set(Some(format!(
                    "No workbook was made. {} The same numbers stand in the table (CSV).",
                    why.words()
                ))),
            }
        });
    };
    view! {
        <section class="part">
            <h2>"As tables for other programs"</h2>
            <p>"Every number of the plan with its unit, and what there is to look at. Numbers are plain, and no cell is a formula: the sums stay here, with their working."</p>
            <p class="hint">{move || store.spare.get().words()}</p>
            <div class="buttons">
                <button on:click=save_book>"Save a workbook (XLSX)"</button>
                <button on:click=save_csv>"Save a table (CSV)"</button>
            </div>
        </section>
    }
}
