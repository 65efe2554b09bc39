//! What a link shows: the plan to look at, beside one's own, until it is kept.

use crate::address::Address;
use crate::keep::link::{self, Packed};
use crate::keep::record::marked_name;
use crate::keep::unpack::unpack;
use crate::plan::foreign::read;
use crate::ui::app::go;
use crate::ui::element::Show;
use crate::ui::extras::{self, Unmade};
use crate::ui::shelf::LINK;
use crate::ui::store::Store;
use bathbook_view::view;
use leptos::prelude::*;

/// Opens what a link carries, or says what is wrong with it. Nothing that is kept is touched.
pub fn open_link(store: Store, carried: String) {
    wasm_bindgen_futures::spawn_local(async move {
        let address = match unpacked(&carried).await {
            Ok(text) => {
                // Another link may have been open before, under the same address.
                store.open.set(None);
                store.shelf.show_link(text);
                Address::Line(LINK.into())
            }
            Err(why) => {
                store
                    .shelf
                    .notes
                    .update(|notes| notes.push(format!("{why} Your own plans are as they were.")));
                Address::Home
            }
        };
        // In place of the link: back leads to where one was before it.
        let _ = window().location().replace(&address.text());
    });
}

async fn unpacked(carried: &str) -> Result<String, String> {
    let bytes = match link::unwrap(carried)? {
        Packed::Alone(packed) => unpack(&packed).await,
        Packed::WithWords(packed) => match extras::unpack(&packed, link::most(packed.len())).await {
            Err(Unmade::NotLoaded) => {
                return Err("This link could not be opened, as a part of the page is missing: reload the page with a network, then open the link again.".into());
            }
            bytes => bytes.ok(),
        },
    };
    let text = bytes.and_then(|bytes| String::from_utf8(bytes).ok());
    let text = text.ok_or("This link cannot be unpacked: it holds no plan, or this browser is too old.")?;
    match read(&text) {
        Ok(_) => Ok(text),
        Err(why) => Err(format!("This link was not opened: {why}")),
    }
}

/// Keeps a copy of the plan that came by link, and opens it.
pub fn keep_copy(store: Store) {
    let mut plan = store.history.with_untracked(|history| history.plan().clone());
    let here = store.shelf.all();
    while here.iter().any(|known| known.plan.name == plan.name) {
        plan.name = marked_name(&plan.name);
    }
    let id = store.shelf.add(plan);
    go(&match store.address.get_untracked() {
        Address::Sheet { place, calculator, .. } => Address::Sheet { plan: id, place, calculator },
        _ => Address::Line(id),
    });
    store.said.set(Some("Kept as a plan of your own.".into()));
}

/// Above a plan that came by link: what it is, and whether one keeps it already.
#[component]
pub fn Viewed() -> impl IntoView {
    let store = Store::here();
    let known = move || {
        let linked = store.history.with(|history| history.plan().clone());
        let here = store.shelf.all();
        let mut listed = here.iter().filter(|known| !known.in_bin).map(|known| &known.plan);
        if let Some(same) = listed.clone().find(|known| known.is_same_but_for_its_name(&linked)) {
            return format!("You keep the same already, as “{}”.", same.name);
        }
        match listed.find(|known| known.name == linked.name) {
            Some(other) => {
                let places = linked.differences(other);
                let first =
                    places.first().map(|(place, _)| format!(" at {}", place.name)).unwrap_or_default();
                format!("You keep a plan of this name too, which differs{first}. A copy comes beside it.")
            }
            None => "Nothing of it is kept on this device.".into(),
        }
    };
    view! {
        <Show when=move || store.is_viewed()>
            <div class="viewed no-print" role="region" aria-label="Plan from a link">
                <span>"This plan came by link. It is only shown; “Keep a copy” makes it a plan of your own. "{known}</span>
            </div>
        </Show>
    }
}
