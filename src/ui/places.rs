//! The rail of the plan's places and their sheets.
use leptos::prelude::*;
/// To come.
#[component]
pub fn Places() -> impl IntoView {
    view! { <nav class="places" aria-label="Plan"></nav> }
}
