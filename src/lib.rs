//! Bathbook: sums for a plating line's baths and wastes.
pub mod units;
pub mod quantity;
pub mod science;
pub mod calculator;
pub mod calculators;
pub mod plan;
pub mod network;
pub mod ask;
#[cfg(target_arch = "wasm32")]
pub mod ui;
