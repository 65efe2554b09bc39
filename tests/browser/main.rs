//! Bathbook in a real browser: headless Chromium does what a user would, on the built site.
//!
//! `cargo xtask test` runs these. By hand, after `cargo xtask build`:
//! `cargo test --features browser-tests --test browser -- NAME`.
//!
//! # Writing one
//! A test is named for the job it does and lives with its kin in a file beside this one. It opens its own
//! [`harness::Browser`], which is a fresh profile on a server of its own, and needs no clearing up:
//!
//! ```ignore
//! #[test]
//! fn a_larger_bath_takes_longer_to_heat() {
//!     let browser = Browser::open();            // the site's first page, ready, 1180x820
//!     browser.click_named("Example plan");      // a button or link, by the words on it
//!     browser.goto("#/nickel/heat-up");         // an address within the site
//!     browser.retype(&browser.field("Bath volume"), "400 L");
//!     browser.wait_text("output.answer", "126.8 min");
//!     browser.screenshot("heat-up");            // target/screens/heat-up-1180x820-light.png
//!     browser.assert_quiet();                   // clean console, no request to anybody else
//! }
//! ```
//!
//! Every helper waits for what it acts on, and [`harness::Browser::until`] waits for anything else: never
//! sleep a fixed time. A failing test leaves `target/screens/failed/TEST.png` and prints the console.
//! Run a new test 20 times before trusting it. Figures (times, never asserted) are tests named `figure_…`
//! that are ignored and call [`harness::figure`]; `cargo xtask figures` runs and prints them.

mod harness;

mod axe;
mod steps;

mod addresses;
mod bath_jobs;
mod drain;
mod figures;
mod files;
mod first_visit;
mod gaps;
mod keeping;
mod keyboard;
mod loading;
mod offline;
mod one_file;
mod main_job;
mod picture;
mod places;
mod recipes;
mod rinse;
mod report;
mod screens;
mod sharing;
mod storage;
mod treatment;
mod typing;
mod unkept;
mod undo;
mod waste_jobs;
mod work_order;
