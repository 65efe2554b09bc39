//! What a link shows: the plan to look at, beside one's own, until it is kept.

use crate::address::Address;
use crate::keep::link::{self, Packed};
use crate::keep::pack;
use crate::plan::foreign::read;
use crate::ui::app::go;
use crate::ui::element::Show;
use crate::ui::extras;
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
        Packed::Alone(packed) => pack::unpack(&packed).await,
        Packed::WithWords(packed) => extras::unpack(&packed, link::most(packed.len())).await.ok_or(
            "This link could not be opened, as a part of the page is missing: reload the page with a network, then open the link again.",
        )?,
    };
    let text = bytes.and_then(|bytes| String::from_utf8(bytes).ok());
    let text = text.ok_or("This link cannot be unpacked: it holds no plan, or this browser is too old.")?;
    match read(&text) {
        Ok(_) => Ok(text),
        Err(why) => Err(format!("This link was not opened: {why}")),
    }
}

/// Above a plan that came by link: what it is, and the way to keep it.
#[component]
pub fn Viewed() -> impl IntoView {
    let store = Store::here();
    let keep = move |_| {
        let plan = store.history.with_untracked(|history| history.plan().clone());
        let id = store.shelf.add(plan);
        go(&Address::Line(id));
        store.said.set(Some("Kept as a plan of your own.".into()));
    };
    view! {
        <Show when=move || store.is_viewed()>
            <div class="viewed no-print" role="region" aria-label="Plan from a link">
                <span>"This plan came by link. It is only shown: nothing of it is kept on this device."</span>
                <button class="primary" on:click=keep>"Keep a copy"</button>
            </div>
        </Show>
    }
}
