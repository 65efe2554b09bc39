//! Bathbook: linked sums for a wafer plating line's baths and wastes.
//!
//! Data flows one way, and each module knows only the ones above it:
//!
//! ```text
//! order        sorting of short lists
//! sentence     texts as sentences
//! units        what a number means              "12 gal"  <->  0.0454 m³
//! quantity     arithmetic that shows its work   Q * Q      ->  "c·V/x"
//! science      sourced laws, written in Q
//! calculator   what a declaration is, and how one is evaluated
//! calculators  the declarations, a file or folder each, in one ordered list
//! plan         what the user typed or linked, edits, undo, examples
//! network      the plan resolved into numbers, evaluated in order
//! ask          backwards, cures, gaps, sweep, self-check
//! results      what a plan comes to, and what views ask of it
//! report       a plan as it stands on paper, and all its figures for tables
//! address      the address of every screen
//! picture      charts and the line map: models, and the canvas painter
//! keep         this device's storage, links, files of several plans
//! ui           views; no sum is done here
//! ```
//!
//! **Invariants**, held by the types or by the test named:
//! - A module uses only those listed before it (`every_calculator`, `house`).
//! - A plan can have no cycle: a sheet links only to a calculator declared before its own, or to its own at
//!   the place that it comes from (`every_calculator`, `links`); and no place comes from itself, by however
//!   many others, as edits leave that out and `Plan::mended` takes it out of a file (`random_plans`).
//!   Rows of the same key are the same thing everywhere.
//! - A place leads to at most one place, so that nothing is counted twice.
//! - The plan stores text that the user typed and links that the user chose; nothing computed, but for
//!   the amount that a step of a work order was ticked at: a record of what was done.
//! - Inside the core every number is SI; units exist only in text that enters or leaves.
//! - No result is ever `NaN`: it is a finite number, a declared "not known yet", or a
//!   [`calculator::Stop`] with a remedy (`random_plans`; `every_calculator`, `tried`).
//! - Nothing outside `ui`, `keep` and the canvas painter touches the browser (`every_calculator`, `house`).

pub mod order;
pub mod sentence;
pub mod units;
pub mod quantity;
pub mod science;
pub mod calculator;
pub mod calculators;
pub mod plan;
pub mod network;
pub mod ask;
pub mod results;
pub mod report;
pub mod address;
pub mod picture;
pub mod keep;
#[cfg(target_arch = "wasm32")]
pub mod ui;
