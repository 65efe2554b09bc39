//! To come.
use leptos::prelude::*;
/// To come.
#[component]
pub fn Home() -> impl IntoView {
    view! { <main class="sheet"><h1>"Home"</h1></main> }
}
