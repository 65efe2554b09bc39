//! The second copy: local storage, written at once with every change.

use super::durable::trouble;
use super::record::{Aside, Record, decode};
use super::trouble::Trouble;
use web_sys::{Storage, window};

/// All apps of one address share the store, so keys carry a prefix.
const PLAN: &str = "bathbook/plan/";
const ASIDE: &str = "bathbook/aside/";
/// When a file of a plan was saved last.
const FILE: &str = "bathbook/file-saved/";
/// What is left out of a plan that is handed on, in words.
const LEFT_OUT: &str = "bathbook/left-out/";
/// Where a tab holds the plan of a link, so that a reload shows it again.
const LINKED: &str = "bathbook/link";

/// The store, if the browser gives one: asking for it may fail where it gives none.
fn store() -> Result<Storage, Trouble> {
    window().and_then(|window| window.local_storage().ok().flatten()).ok_or(Trouble::Refused)
}

/// The store of this tab alone, if the browser gives one.
fn store_of_tab() -> Option<Storage> {
    window()?.session_storage().ok().flatten()
}

fn drop_key(key: &str) {
    if let Ok(store) = store() {
        // Where it cannot be removed, it cannot be read either.
        let _ = store.remove_item(key);
    }
}

/// When a file of this plan was saved last, in ms since 1970.
pub fn file_saved_at(id: &str) -> Option<f64> {
    store().ok()?.get_item(&format!("{FILE}{id}")).ok()??.parse().ok().filter(|at: &f64| at.is_finite())
}

/// Notes that a file of this plan was saved. Only said beside the plan, so nothing is told if it fails.
pub fn set_file_saved(id: &str, at: f64) {
    if let Ok(store) = store() {
        let _ = store.set_item(&format!("{FILE}{id}"), &at.to_string());
    }
}

/// What is left out of this plan when it is handed on.
pub fn left_out(id: &str) -> String {
    let kept = || store().ok()?.get_item(&format!("{LEFT_OUT}{id}")).ok()?;
    kept().unwrap_or_default()
}

/// Keeps what is left out of this plan when it is handed on. What goes along is said beside each way to hand it on, so
/// nothing more is told where this fails.
pub fn set_left_out(id: &str, words: &str) {
    if let Ok(store) = store() {
        let _ = store.set_item(&format!("{LEFT_OUT}{id}"), words);
    }
}

/// Holds the text of a link for as long as this tab is open. Where that fails, a reload asks for the link again.
pub fn hold_link(text: &str) {
    if let Some(store) = store_of_tab() {
        let _ = store.set_item(LINKED, text);
    }
}

/// The text of the link that this tab opened last.
pub fn held_link() -> Option<String> {
    store_of_tab()?.get_item(LINKED).ok()?
}

/// Every plan as key and raw text, unread.
pub fn read_all() -> Result<Vec<(String, String)>, Trouble> {
    under(PLAN)
}

/// What was set aside here.
pub fn read_aside() -> Vec<Aside> {
    let found = under(ASIDE).unwrap_or_default().into_iter();
    found.map(|(key, raw)| Aside::read(key, raw)).collect()
}

fn under(prefix: &str) -> Result<Vec<(String, String)>, Trouble> {
    let store = store()?;
    let count = store.length().map_err(|_| Trouble::Refused)?;
    let keys: Vec<String> = (0..count).filter_map(|at| store.key(at).ok().flatten()).collect();
    let found = keys.iter().filter_map(|key| {
        let id = key.strip_prefix(prefix)?;
        Some((id.to_string(), store.get_item(key).ok().flatten()?))
    });
    Ok(found.collect())
}

/// What it holds of a plan, unread.
pub fn found(id: &str) -> Option<String> {
    store().ok()?.get_item(&format!("{PLAN}{id}")).ok()?
}

/// Writes a plan, and reads it back: a store that takes a text and forgets it has failed.
pub fn put(record: &Record) -> Result<(), Trouble> {
    let store = store()?;
    let key = format!("{PLAN}{}", record.id);
    store.set_item(&key, &record.encode()).map_err(trouble)?;
    let back = store.get_item(&key).ok().flatten();
    let whole = back.and_then(|raw| decode(&record.id, &raw).ok()).is_some_and(|read| read == *record);
    if whole { Ok(()) } else { Err(Trouble::Unknown("the second copy was not kept".into())) }
}

/// Removes the copy of a plan that is in the bin, or gone for good.
pub fn remove(id: &str) {
    drop_key(&format!("{PLAN}{id}"));
}

/// Removes what was set aside here.
pub fn remove_aside(key: &str) {
    drop_key(&format!("{ASIDE}{key}"));
}

/// Moves a copy that cannot be read out of the way, as it is: where the database can't take it, or not at once.
pub fn set_aside(id: &str, aside: &Aside) -> Result<(), Trouble> {
    // Texts and a number, which always have a JSON form.
    let text = serde_json::to_string(aside).unwrap_or_default();
    store()?.set_item(&format!("{ASIDE}{}", aside.key), &text).map_err(trouble)?;
    remove(id);
    Ok(())
}
