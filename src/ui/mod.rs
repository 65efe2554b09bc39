//! The interface: views derived from declarations. No sum is done here.
//!
//! - [`store`]: the document that is open and what it comes to; [`shelf`]: the plans on this device.
//! - [`app`]: the frame of every screen; one file or folder for each screen and part, named as on it.

pub mod store;
pub mod shelf;
pub mod app;
pub mod bar;
pub mod places;
pub mod home;
pub mod about;
pub mod line;
pub mod sheet;
pub mod words;
pub mod when;
pub mod print_head;
pub mod fresh;

/// Puts the page in place of the shell that `index.html` shows while the program loads, and marks it
/// ready; tests wait for that mark.
pub fn start() {
    let body = web_sys::window().and_then(|window| window.document()).and_then(|doc| doc.body());
    let Some(body) = body else { return };
    if let Ok(Some(shell)) = body.query_selector("#shell") {
        shell.remove();
    }
    leptos::mount::mount_to_body(app::App);
    let _ = body.set_attribute("data-ready", "");
}
