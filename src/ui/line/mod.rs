//! To come.
use leptos::prelude::*;
/// To come.
#[component]
pub fn LinePage() -> impl IntoView {
    view! { <main class="sheet"><h1>"Line"</h1></main> }
}
