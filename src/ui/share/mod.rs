//! The ways to hand a plan on: as a link, a file, tables. And what is shown when a link is opened.

mod link;
mod opened;
mod spare;
mod tables;

pub use opened::{Viewed, keep_copy, open_link};
pub use spare::{Spare, SpareTicks};

use super::store::Store;
use bathbook_view::view;
use leptos::prelude::*;

/// The share page.
#[component]
pub fn SharePage() -> impl IntoView {
    let store = Store::here();
    let name = move || store.history.with(|history| history.plan().name.clone());
    let save = move |_| match store.spare.get_untracked().is_nothing() {
        true => super::file::save(store),
        false => super::file::save_less(store, &untrack(|| store.plan_to_hand_on())),
    };
    view! {
        <main id="main" class="home-page share">
            <h1>"Share “"{name}"”"</h1>
            <p class="lead">"Whoever gets it has a copy of their own. Nothing is sent to a server, and what either of you changes later does not reach the other."</p>
            <spare::SparePart />
            <link::LinkPart />
            <section class="part">
                <h2>"As a file"</h2>
                <p>"The plan as one readable file. “Open a file” on the page of plans reads it again, here or on another device; so does dragging it onto the page."</p>
                <p class="hint">{move || store.spare.get().words()}</p>
                <div class="buttons">
                    <button on:click=save>
                        {move || if store.spare.get().is_nothing() { "Save a file" } else { "Save a file to hand on" }}
                    </button>
                </div>
            </section>
            <tables::TablesPart />
            <p><a href=move || store.line_address().text()>"Back to the line"</a></p>
        </main>
    }
}
