//! A plan as a file on the device: saved by download, opened by picking. Its age is shown, so that
//! nobody takes the browser's storage for a safe.

use super::shelf::key;
use super::store::Store;
use crate::keep::quick;
use crate::plan::foreign::{LONGEST, read};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::js_sys::{Array, Date};

/// "no file yet", "file 3 days old".
pub fn age(id: &str) -> String {
    let Some(at) = quick::file_saved_at(id) else { return "no file yet".into() };
    let days = ((Date::now() - at) / 86_400_000.0).floor();
    match days {
        d if d < 1.0 => "file saved today".into(),
        d if d < 2.0 => "file 1 day old".into(),
        d => format!("file {d:.0} days old"),
    }
}

/// Saves the open plan as a file.
pub fn save(store: Store) {
    let Some(open) = store.open.get_untracked() else { return };
    let (text, name) = store.history.with_untracked(|history| {
        (serde_json::to_string_pretty(history.plan()).unwrap_or_default(), history.plan().name.clone())
    });
    if hand_over(store, &name, ("bathbook.json", "application/json"), &text) {
        quick::set_file_saved(&key(&open), Date::now());
        store.shelf.say_again(&key(&open));
        // Whoever saves a file has work worth keeping.
        store.shelf.ask_to_last();
    }
}

/// Hands a text to the browser as a file of this name, ending and sort; whether it was taken.
pub fn hand_over(store: Store, name: &str, (ending, sort): (&str, &str), text: &str) -> bool {
    let safe: String =
        name.chars().map(|c| if c.is_alphanumeric() || " -_".contains(c) { c } else { '-' }).collect();
    let file = format!("{}.{ending}", safe.trim());
    let is_taken = download(&file, sort, text).is_some();
    store.said.set(Some(match is_taken {
        true => format!("Handed to the browser as {file}. Earlier files are unchanged."),
        false => "The browser did not take the file. The plan is as it was.".into(),
    }));
    is_taken
}

fn download(name: &str, sort: &str, text: &str) -> Option<()> {
    let parts = Array::of1(&text.into());
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(sort);
    let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &options).ok()?;
    let url = web_sys::Url::create_object_url_with_blob(&blob).ok()?;
    let link: web_sys::HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
    link.set_href(&url);
    link.set_download(name);
    link.click();
    let _ = web_sys::Url::revoke_object_url(&url);
    Some(())
}

/// Opens a picked file as a new plan beside the others; nothing is replaced.
pub fn open(store: Store, event: &leptos::ev::Event) {
    let Some(input) = event.target().and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok())
    else {
        return;
    };
    let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
    let shelf = store.shelf;
    if file.size() > LONGEST as f64 {
        store.said.set(Some("That file is too large to be a plan. Nothing was changed.".into()));
        return;
    }
    wasm_bindgen_futures::spawn_local(async move {
        let text =
            wasm_bindgen_futures::JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
        input.set_value("");
        match text.map(|text| read(&text)) {
            Some(Ok(plan)) => {
                let id = shelf.add(plan);
                super::app::go(&crate::address::Address::Line(id));
            }
            Some(Err(why)) => {
                store.said.set(Some(format!("The file was not opened: {why} Nothing was changed.")))
            }
            None => store.said.set(Some("The file could not be read. Nothing was changed.".into())),
        }
    });
}
