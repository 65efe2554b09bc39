//! The interface. For now a page that proves the build: one field, one answer.

pub mod chart;

use leptos::prelude::*;

/// Puts the page in place of the shell that `index.html` shows while the program loads, and marks it ready.
pub fn start() {
    let Some(body) = web_sys::window().and_then(|window| window.document()).and_then(|doc| doc.body()) else {
        return;
    };
    if let Ok(Some(shell)) = body.query_selector("#shell") {
        shell.remove();
    }
    mount_to_body(Page);
    if let Some(performance) = web_sys::window().and_then(|window| window.performance()) {
        let _ = performance.mark("ready");
    }
    // Tests wait for this.
    let _ = body.set_attribute("data-ready", "");
}

#[component]
fn Page() -> impl IntoView {
    let typed = RwSignal::new("12".to_string());
    let litres = move || typed.read().trim().parse::<f64>().ok().filter(|gallons| gallons.is_finite());
    let answer = move || {
        litres().map_or("Not a number".to_string(), |gallons| format!("{:.1} L", gallons * 3.785_411_784))
    };
    view! {
        <main class="shell">
            <h1>"Bathbook"</h1>
            <label for="gallons">"Volume, US gal"</label>
            <input id="gallons" inputmode="decimal" bind:value=typed />
            <output for="gallons">{answer}</output>
        </main>
    }
}
