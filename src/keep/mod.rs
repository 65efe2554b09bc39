//! Plans on this device: kept in the browser's database, with a second copy in its local storage.
//!
//! "Saved" is said only after a database transaction that the browser was asked to finish on the disk.
//! The second copy is for an instant start and for the day when the first is damaged; both are compared
//! at start. Nothing is overwritten by a window that has not seen what it overwrites: then both texts are
//! kept. What is damaged is set aside, never deleted. Deleting a plan moves it to the bin. With each plan go
//! the steps that led to it, and some of its earlier versions, written in the same transaction.
//!
//! - [`record`], [`compare`], [`queue`], [`earlier`], [`trouble`]: what holds whatever the browser does; tested
//!   natively.
//! - [`link`]: a plan within an address; `unpack` is the browser's part of it.
//! - [`archive`]: several plans in one file, and what opening a file brings.
//! - `durable`, `quick`, `tabs`, `saver`: the browser's part.

pub mod record;
pub mod trouble;
pub mod compare;
pub mod queue;
pub mod earlier;
pub mod link;
pub mod archive;
#[cfg(test)]
mod schema;
#[cfg(target_arch = "wasm32")]
pub mod unpack;
#[cfg(target_arch = "wasm32")]
pub mod durable;
#[cfg(target_arch = "wasm32")]
pub mod quick;
#[cfg(target_arch = "wasm32")]
pub mod tabs;
#[cfg(target_arch = "wasm32")]
pub mod saver;

pub use queue::{Event, SaveState};
pub use record::{Aside, Draft, Entry, Record};
pub use trouble::Trouble;

#[cfg(target_arch = "wasm32")]
pub use saver::{Loaded, Saver, fresh_id};
