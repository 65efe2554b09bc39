//! The document: what the user typed and which links the user chose. Nothing that can be computed.
//!
//! - [`document`]: plans, places, sheets, entries.
//! - [`edit`]: every change that a user can make.
//! - [`history`]: undo and redo.
//! - [`examples`]: plans of invented plants.

pub mod document;
pub mod edit;
pub mod history;
pub mod examples;

pub use document::{Entries, Entry, FORMAT, Id, Place, Plan, Sheet};
pub use edit::Field;
pub use history::History;
