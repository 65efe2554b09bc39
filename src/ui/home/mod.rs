//! Home: the plans on this device, examples, and quick sums.

mod plans;
mod archive;
mod aside;
mod bin;
mod offers;

pub use archive::save_several;

use super::app::go;
use super::newer::page_has;
use super::shelf::Shelf;
use super::store::Store;
use crate::address::Address;
use crate::plan::Plan;
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// The home page.
#[component]
pub fn Home() -> impl IntoView {
    let shelf = Shelf::here();
    let is_first = Memo::new(move |_| shelf.plans.with(Vec::is_empty));
    let notes = move || {
        let notes = shelf.notes.get().into_iter().map(|note| view! { <li>{note}</li> });
        notes.collect_view()
    };
    view! {
        <main id="main" class="home-page">
            <h1 class="hide">"Bathbook: plans and quick sums"</h1>
            <Show when=move || shelf.notes.with(|notes| !notes.is_empty())>
                <ul class="notes cautionbox" role="status">{notes}</ul>
            </Show>
            // A first visit sees the examples first, as there are no plans of its own to see.
            <Show when=move || is_first.get() fallback=|| view! { <plans::Plans /><archive::SaveSeveral /><offers::Examples /> }>
                <section class="part welcome">
                    <p class="lead">
                        "Work out how a wafer plating line’s baths are charged, heated and drained, and where every litre and every gram of metal leaves. Each number shows its working."
                    </p>
                    <p>"Begin with an example, an empty plan, or a single sum."</p>
                    <div class="buttons">
                        <button class="primary" on:click=|_| begin()>"New, empty plan"</button>
                        <OpenFile />
                    </div>
                    <p class="hint">{WHERE_KEPT}</p>
                </section>
                <offers::Examples />
            </Show>
            <offers::QuickSums />
            <aside::Aside />
            <bin::Bin />
            <footer class="home-foot">
                {page_has("data-offline").then(|| view! { <p class="hint">"This page is kept on this device: it opens without a network too."</p> })}<a href=Address::About.text()>"About Bathbook: what is checked, what is kept, and where"</a>
            </footer>
        </main>
    }
}

/// Picks files: plans, or archives of plans. What is in them comes beside the others.
#[component]
fn OpenFile() -> impl IntoView {
    let store = Store::here();
    view! {
        <label class="btn file">
            "Open a file"
            <input
                type="file"
                class="hide"
                multiple=true
                accept=".json,application/json"
                on:change=move |event| crate::ui::open::picked(store, &event)
            />
        </label>
    }
}

/// Where plans are, and what that is worth.
pub const WHERE_KEPT: &str = "Plans are kept in this browser on this device only. Nothing is sent anywhere, and nobody else has a copy: clearing this browser’s data removes them. A file saved from a plan opens here again.";

/// Makes an empty plan and opens it. Asks nothing: the name can be changed on the page that opens.
fn begin() {
    open(super::fresh::plan());
}

/// Puts a plan on the shelf and opens it.
fn open(plan: Plan) {
    go(&Address::Line(Shelf::here().add(plan)));
}
