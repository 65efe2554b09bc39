//! Lists of which an item stays as it is for as long as it is listed: Leptos' own, with one code for all.
//!
//! Leptos compiles its lists anew for each type of item, some 6 kB every time.

use super::element::fixed;
use bathbook_view::view;
use leptos::prelude::*;

struct Item {
    key: String,
    /// Asked for only where the key is new.
    view: Box<dyn FnOnce() -> AnyView + Send>,
}

/// Shows each of the items by a view that stays, with what is typed there, while an item of its key is listed.
#[component]
pub fn For<E, I, T, K, C, V>(each: E, key: K, children: C) -> impl IntoView
where
    E: Fn() -> I + Send + 'static,
    I: IntoIterator<Item = T>,
    T: Send + 'static,
    K: Fn(&T) -> String + Send + 'static,
    C: Fn(T) -> V + Clone + Send + 'static,
    V: IntoView + 'static,
{
    let item = move |item: T| {
        let (key, children) = (key(&item), children.clone());
        Item { key, view: Box::new(move || fixed(children(item))) }
    };
    list(Box::new(move || each().into_iter().map(&item).collect()))
}

#[inline(never)]
fn list(items: Box<dyn Fn() -> Vec<Item> + Send>) -> AnyView {
    view! {
        <leptos::prelude::For each=items key=|item: &Item| item.key.clone() children=|item: Item| (item.view)() />
    }
}
