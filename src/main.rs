//! The page: starts the interface. There is nothing to run outside a browser.

#[cfg(target_arch = "wasm32")]
mod ui;

fn main() {
    #[cfg(target_arch = "wasm32")]
    ui::start();
}
