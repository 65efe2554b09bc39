//! The document: what the user typed and which links the user chose. Nothing that can be computed,
//! but for the amount that a step of a work order was ticked at, which is a record of what was done.
//!
//! - [`document`]: plans, places, sheets, entries.
//! - [`edit`]: every change that a user can make.
//! - [`ticks`]: the steps of a work order that are done.
//! - [`history`]: undo and redo; [`steps`]: what they are made of, and how they are kept.
//! - [`foreign`]: plans from outside, read within [`limits`] that hold for every edit too; [`spare`]: what is left out before a plan is handed on.
//! - [`examples`]: plans of invented plants.

pub mod document;
pub mod edit;
pub mod ticks;
pub mod steps;
pub mod history;
pub mod limits;
pub mod foreign;
pub mod spare;
pub mod examples;

pub use document::{Entries, Entry, FORMAT, Id, Place, Plan, Sheet};
pub use edit::Field;
pub use history::History;
pub use limits::TooMuch;
pub use ticks::Tick;
