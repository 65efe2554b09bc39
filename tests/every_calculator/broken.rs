//! Each check can fail.
