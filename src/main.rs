//! Mounts the app in the browser; there is nothing to run elsewhere.

fn main() {
    #[cfg(target_arch = "wasm32")]
    bathbook::ui::start();
}
