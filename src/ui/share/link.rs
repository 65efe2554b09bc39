//! The plan as a link.

use crate::address::Address;
use crate::keep::link;
use crate::ui::element::Show;
use crate::ui::extras::Unmade;
use crate::ui::newer::page_has;
use crate::ui::signals::Effect;
use crate::ui::store::Store;
use crate::ui::{extras, file};
use bathbook_view::view;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// Up to so many characters a code is read off a phone's screen as well (common practice, no source).
const COARSE: usize = 800;

/// How far the link is.
#[derive(Clone, PartialEq)]
enum Made {
    Packing,
    Whole(String),
    Cannot(Unmade),
}

impl Made {
    fn text(&self) -> &str {
        if let Made::Whole(text) = self { text } else { "" }
    }
}

/// The part.
#[component]
pub fn LinkPart() -> impl IntoView {
    let store = Store::here();
    let made = RwSignal::new(Made::Packing);
    let done = RwSignal::new("");
    let code = RwSignal::new(None::<String>);
    let counter = StoredValue::new(0u32);
    Effect::new(move |_| {
        let plan = store.plan_to_hand_on();
        done.set("");
        code.set(None);
        // What is no longer wanted is not to be copied meanwhile.
        made.set(Made::Packing);
        // Packing takes a moment: only the newest is shown.
        counter.update_value(|counter| *counter += 1);
        let turn = counter.get_value();
        spawn_local(async move {
            // A plan is texts and numbers of our own; writing it out cannot fail.
            let text = serde_json::to_string(&plan).unwrap_or_default();
            let packed = extras::pack(&text).await;
            // None once the page is left.
            if counter.try_get_value() == Some(turn) {
                let address = |packed: Vec<u8>| {
                    let href = window().location().href().unwrap_or_default();
                    let site = href.split('#').next().unwrap_or_default();
                    format!("{site}{}", Address::Link(link::wrap(&packed)).text())
                };
                made.set(packed.map_or_else(Made::Cannot, |packed| Made::Whole(address(packed))));
            }
        });
    });
    let length = move || made.with(|made| made.text().len());
    let is_safe = move || length() <= link::SAFE;
    let copy = move |_| {
        if let Made::Whole(text) = made.get_untracked() {
            file::copy(&text, move |said| done.set(said));
        }
    };
    let is_scanned = move || length() <= link::SCANNED;
    let show_code = move |_| {
        let Made::Whole(text) = made.get_untracked() else { return };
        spawn_local(async move {
            match extras::code(&text).await {
                Ok(svg) if made.with_untracked(|made| made.text() == text) => code.set(Some(svg)),
                Ok(_) => (),
                Err(why) => done.set(why.words()),
            }
        });
    };
    let picture = move || {
        let svg = String::from(web_sys::js_sys::encode_uri_component(&code.get()?));
        let words = format!("The link as a code for a camera, {} characters", length());
        Some(view! { <img class="code" alt=words src=format!("data:image/svg+xml,{svg}") /> })
    };
    let code_part = move || {
        let style = store.style();
        let most = style.plain(link::SCANNED as f64);
        if !is_scanned() {
            let said = format!(
                "A code for a camera holds up to {most} characters (ISO/IEC 18004), so this link has none."
            );
            return view! { <p class="hint">{said}</p> }.into_any();
        }
        let hint = (length() > COARSE).then(|| view! { <p class="hint">"A long link makes a fine code: show it on a large screen, and hold the camera close."</p> });
        view! {
            <div class="buttons"><button on:click=show_code>"Show it as a code for a camera"</button></div>
            {hint}
            {picture}
        }
        .into_any()
    };
    let why_not = move || made.with(|made| if let Made::Cannot(why) = made { Some(*why) } else { None });
    let size = move || {
        let style = store.style();
        let [letters, safe] = [length(), link::SAFE].map(|n| style.plain(n as f64));
        if is_safe() {
            let along = store.spare.get().words();
            format!("{along} {letters} characters. Up to {safe} arrive whole nearly everywhere.")
        } else {
            format!(
                "{letters} characters: too long to arrive whole everywhere, as mail, chat and servers need not take more than {safe} (RFC 9110, section 4.1). Save a file and send that."
            )
        }
    };
    let offer = move || {
        view! {
            <p>"The link holds the plan itself. It opens for looking at, with “Keep a copy”. What stands behind its # stays in the browser that opens it; but whoever gets the link has the plan, so send it as you would send the plan."</p>
            <Show when=move || why_not().is_none() fallback=move || view! { <p class="hint">{move || why_not().map(Unmade::words)}</p> }>
                <p class:hint=is_safe class:cautionbox=move || !is_safe()>{size}</p>
                <Show when=is_safe>
                    <div class="buttons"><button class="primary" on:click=copy>"Copy the link"</button></div>
                    <p role="status">{move || done.get()}</p>
                    <label class="whole-link">
                        <span>"The link"</span>
                        <textarea readonly=true rows="3" prop:value=move || made.with(|made| made.text().to_string())></textarea>
                    </label>
                    {code_part}
                </Show>
            </Show>
        }
    };
    view! {
        <section class="part">
            <h2>"As a link"</h2>
            {if page_has("data-one-file") {
                view! { <p class="hint">"This page runs from a file on this device, so a link to it would open nowhere else. Save a file and send that."</p> }.into_any()
            } else {
                offer().into_any()
            }}
        </section>
    }
}
