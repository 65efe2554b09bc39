//! Bathbook.
pub mod units;
pub mod quantity;
pub mod science;
pub mod picture;
pub mod keep;
