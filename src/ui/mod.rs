//! The interface: views derived from declarations. No sum is done here.
//!
//! - [`element`]: what `view!` builds, all of one type; [`value`]: what their attributes may be; [`signals`]: memos and effects;
//!   [`list`]: lists.
//! - [`store`]: the document that is open and what it comes to; [`shelf`]: the plans on this device.
//! - [`app`]: the frame of every screen; one file or folder for each screen and part, named as on it.

pub mod element;
pub mod value;
pub mod signals;
pub mod list;
pub mod store;
pub mod shelf;
pub mod file;
pub mod open;
pub mod extras;
pub mod gaps;
pub mod app;
pub mod bar;
pub mod places;
pub mod home;
pub mod about;
pub mod line;
pub mod report;
pub mod share;
pub mod sheet;
pub mod words;
pub mod tick_box;
pub mod trouble;
pub mod chart;
pub mod when;
pub mod print_head;
pub mod paper;
pub mod newer;
pub mod earlier;
pub mod unkept;
pub mod twice;
pub mod fresh;

/// Puts the page in place of the shell that `index.html` shows while the program loads.
pub fn start() {
    let body = web_sys::window().and_then(|window| window.document()).and_then(|doc| doc.body());
    let Some(body) = body else { return };
    trouble::tell_of_panics();
    if let Ok(Some(shell)) = body.query_selector("#shell") {
        shell.remove();
    }
    leptos::mount::mount_to_body(app::App);
}

/// Puts the focus on a part of the page, which brings it into view.
pub(crate) fn go_to_element(part: Option<web_sys::Element>) {
    use wasm_bindgen::JsCast;
    if let Some(part) = part.and_then(|part| part.dyn_into::<web_sys::HtmlElement>().ok()) {
        let _ = part.focus();
    }
}

/// Marks the page as ready: what is kept has been read, and the screen stands. Tests and figures wait
/// for this.
pub(crate) fn ready() {
    let window = web_sys::window();
    if let Some(body) = window.as_ref().and_then(|window| window.document()).and_then(|doc| doc.body()) {
        let _ = body.set_attribute("data-ready", "");
    }
    if let Some(performance) = window.and_then(|window| window.performance()) {
        let _ = performance.mark("ready");
    }
}
