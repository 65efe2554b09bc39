//! Files that are opened: picked, or dragged onto the page. What is in them comes beside the plans that are here.

use super::app::go;
use super::file::just_saved;
use super::store::Store;
use crate::address::Address;
use crate::keep::archive::{self, Found, LONGEST};
use crate::ui::element::Show;
use bathbook_view::view;
use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{DragEvent, File, FileList, HtmlInputElement};

/// Opens the files that were picked.
pub fn picked(store: Store, event: &ev::Event) {
    let input = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
    let Some(input) = input else { return };
    if let Some(files) = input.files() {
        take(store, &files);
    }
    // The same file may be picked again.
    input.set_value("");
}

fn take(store: Store, files: &FileList) {
    let files: Vec<File> = (0..files.length()).filter_map(|at| files.get(at)).collect();
    spawn_local(async move {
        let (mut found, mut refused) = (Vec::new(), Vec::new());
        for file in &files {
            match of_file(file).await {
                Ok(opened) => {
                    found.extend(opened.plans);
                    refused.extend(opened.refused);
                }
                Err(why) => refused.push((file.name(), why)),
            }
        }
        let all = found.len();
        let merged = archive::merge(&store.shelf.all(), found);
        let added = &merged.added;
        let ids: Vec<String> = added.iter().map(|found| store.shelf.add_found(found)).collect();
        // Each has a file: the one that it came from.
        ids.iter().for_each(|id| just_saved(id));
        // One plan that was opened is what is wanted to be seen.
        if let ([Found { in_bin: false, .. }], [id], true) = (&added[..], &ids[..], all == 1) {
            go(&Address::Line(id.clone()));
        }
        let is_plain = all == 1 && added.len() == 1 && refused.is_empty() && merged.named.is_empty();
        if !is_plain {
            store.said.set(Some(archive::told(&merged, all - added.len(), &refused)));
        }
    });
}

async fn of_file(file: &File) -> Result<archive::Opened, String> {
    if file.size() > LONGEST as f64 {
        return Err("it is too large for a plan.".into());
    }
    let text = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
    archive::open(&text.ok_or("it could not be read.")?)
}

/// Takes files that are dragged onto the page, and says so while they hang over it.
#[component]
pub fn DropZone() -> impl IntoView {
    let store = Store::here();
    let is_over = RwSignal::new(false);
    let has_files = |event: &DragEvent| {
        event.data_transfer().is_some_and(|data| data.types().includes(&"Files".into(), 0))
    };
    let _ = window_event_listener(ev::dragover, move |event| {
        if has_files(&event) {
            // Or the browser would leave the page for the file.
            event.prevent_default();
            is_over.set(true);
        }
    });
    let _ = window_event_listener(ev::dragleave, move |event| {
        if event.related_target().is_none() {
            is_over.set(false);
        }
    });
    let _ = window_event_listener(ev::drop, move |event| {
        is_over.set(false);
        if has_files(&event) {
            event.prevent_default();
            if let Some(files) = event.data_transfer().and_then(|data| data.files()) {
                take(store, &files);
            }
        }
    });
    view! {
        <Show when=move || is_over.get()>
            <div class="drop-zone" aria-hidden="true"><p>"Let go to open it beside your plans"</p></div>
        </Show>
    }
}
