//! A plan, or what a plan comes to, as a file on the device: saved by download. Its age is shown, so that nobody
//! takes the browser's storage for a safe. How files are opened is in `open`.

use super::shelf::key;
use super::store::Store;
use crate::keep::quick;
use crate::plan::Plan;
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::{Array, Date};

/// The ending and the sort of a plan's file, and of several plans in one.
pub const PLAN: (&str, &str) = ("bathbook.json", "application/json");

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
    if hand_over(store, &name, PLAN, &text.into()) {
        just_saved(&key(&open));
        store.shelf.say_again(&key(&open));
        // Whoever saves a file has work worth keeping.
        store.shelf.ask_to_last();
    }
}

/// Saves what is handed on of the open plan. It is less than the plan, so it does not count as its file.
pub fn save_less(store: Store, less: &Plan) {
    let text = serde_json::to_string_pretty(less).unwrap_or_default();
    hand_over(store, &format!("{} - to hand on", less.name), PLAN, &text.into());
}

/// Notes that a plan was saved as a file just now.
pub fn just_saved(id: &str) {
    quick::set_file_saved(id, Date::now());
}

/// Hands a text or bytes to the browser as a file of this name, ending and sort; whether it was taken.
pub fn hand_over(store: Store, name: &str, (ending, sort): (&str, &str), content: &JsValue) -> bool {
    let safe: String =
        name.chars().map(|c| if c.is_alphanumeric() || " -_".contains(c) { c } else { '-' }).collect();
    let file = format!("{}.{ending}", safe.trim());
    let is_taken = blob(sort, content).and_then(|blob| download(&file, &blob)).is_some();
    store.said.set(Some(match is_taken {
        true => format!("Handed to the browser as {file}. Earlier files are unchanged."),
        false => "The browser did not take the file. The plan is as it was.".into(),
    }));
    is_taken
}

fn blob(sort: &str, content: &JsValue) -> Option<web_sys::Blob> {
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(sort);
    // Bytes do as well: it is the same constructor.
    web_sys::Blob::new_with_str_sequence_and_options(&Array::of1(content), &options).ok()
}

fn download(name: &str, blob: &web_sys::Blob) -> Option<()> {
    let url = web_sys::Url::create_object_url_with_blob(blob).ok()?;
    let link: web_sys::HtmlAnchorElement = document().create_element("a").ok()?.dyn_into().ok()?;
    link.set_href(&url);
    link.set_download(name);
    link.click();
    let _ = web_sys::Url::revoke_object_url(&url);
    Some(())
}

/// Copies a text to where it can be pasted from; `say` is told how that went.
pub fn copy(text: &str, say: impl Fn(&'static str) + 'static) {
    let copied = JsFuture::from(window().navigator().clipboard().write_text(text));
    spawn_local(async move {
        say(match copied.await {
            Ok(_) => "Copied. It can be pasted now.",
            Err(_) => "This browser did not allow copying. Mark the text on the page and copy it by hand.",
        });
    });
}
