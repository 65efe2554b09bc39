//! Bathbook.
pub mod units;
pub mod quantity;
pub mod science;
