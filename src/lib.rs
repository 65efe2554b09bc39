//! Bathbook.
pub mod units;
pub mod quantity;
pub mod science;
pub mod picture;
pub mod keep;
#[cfg(target_arch = "wasm32")]
pub mod ui;
