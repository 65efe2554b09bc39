//! The page: starts the interface. There is nothing to run outside a browser.

fn main() {
    #[cfg(target_arch = "wasm32")]
    bathbook::ui::start();
}
