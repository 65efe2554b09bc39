//! Bathbook.
