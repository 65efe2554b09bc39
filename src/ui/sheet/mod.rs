//! To come.
use crate::plan::Id;
use leptos::prelude::*;
/// To come.
#[component]
pub fn SheetPage(place: Id, calculator: &'static str) -> impl IntoView {
    view! { <main class="sheet"><h1>{format!("{place} {calculator}")}</h1></main> }
}
