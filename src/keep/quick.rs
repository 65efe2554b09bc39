//! The second copy: local storage, written at once with every change.

use gloo_storage::{LocalStorage, Storage, errors::StorageError};

use super::record::{Aside, Mark, Record, decode};
use super::trouble::Trouble;

/// All apps of one address share the store, so keys carry a prefix.
const PLAN: &str = "bathbook/plan/";
const ASIDE: &str = "bathbook/aside/";

/// The store, if the browser gives one; gloo-storage would stop the program where it does not.
fn store() -> Result<web_sys::Storage, Trouble> {
    web_sys::window().and_then(|window| window.local_storage().ok().flatten()).ok_or(Trouble::Refused)
}

fn trouble(error: StorageError) -> Trouble {
    match error {
        StorageError::JsError(error) => Trouble::named(&error.name, &error.message),
        other => Trouble::Unknown(other.to_string()),
    }
}

/// Every plan as key and raw text, unread.
pub fn read_all() -> Result<Vec<(String, String)>, Trouble> {
    under(PLAN)
}

/// What was set aside here because the database could not take it.
pub fn read_aside() -> Vec<Aside> {
    let found = under(ASIDE).unwrap_or_default().into_iter();
    found.filter_map(|(_, raw)| serde_json::from_str(&raw).ok()).collect()
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

/// Which state of a plan it holds; none if none, or a damaged one.
pub fn mark(id: &str) -> Option<Mark> {
    let raw = store().ok()?.get_item(&format!("{PLAN}{id}")).ok()??;
    decode(id, &raw).ok().map(|record| record.mark())
}

/// Writes a plan, and reads it back: a store that takes a text and forgets it has failed.
pub fn put(record: &Record) -> Result<(), Trouble> {
    let store = store()?;
    let key = format!("{PLAN}{}", record.id);
    LocalStorage::set(&key, record).map_err(trouble)?;
    let back = store.get_item(&key).ok().flatten();
    let whole = back.and_then(|raw| decode(&record.id, &raw).ok()).is_some_and(|read| read == *record);
    if whole { Ok(()) } else { Err(Trouble::Unknown("the second copy was not kept".into())) }
}

/// Removes the copy of a plan that is in the bin, or gone for good.
pub fn remove(id: &str) {
    if store().is_ok() {
        LocalStorage::delete(format!("{PLAN}{id}"));
    }
}

/// Removes what was set aside here.
pub fn remove_aside(key: &str) {
    if store().is_ok() {
        LocalStorage::delete(format!("{ASIDE}{key}"));
    }
}

/// Moves a damaged copy out of the way, where the database can't take it.
pub fn set_aside(id: &str, aside: &Aside) -> Result<(), Trouble> {
    store()?;
    LocalStorage::set(format!("{ASIDE}{}", aside.key), aside).map_err(trouble)?;
    remove(id);
    Ok(())
}
