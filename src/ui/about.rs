//! To come.
use leptos::prelude::*;
/// To come.
#[component]
pub fn About() -> impl IntoView {
    view! { <main class="sheet"><h1>"About"</h1></main> }
}
