//! Example plans, set in invented plants. Their figures are for trying things out and check nothing.

use super::Plan;

/// Stable id, name, and one line on what it shows.
pub static ALL: &[(&str, &str, &str)] = &[];

/// An example as a plan of the reader's own, marked as invented in its name.
pub fn plan(_id: &str) -> Option<Plan> {
    None
}
