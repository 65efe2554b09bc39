//! Example plans, set in invented plants. Their figures are for trying things out and check nothing.
//!
//! They are files of the app's own format, so they also hold that old plans can be read.

use super::Plan;

/// Stable id, name, and one line on what it shows.
pub static ALL: &[(&str, &str, &str)] = &[
    (
        "alder-row",
        "Alder Row (invented)",
        "One 40 L copper bath run by hand, drums, no floor below. All in order; small numbers.",
    ),
    (
        "heron-mere",
        "Heron Mere (invented)",
        "Gold and nickel on 150 mm, with reclaim. One rinse is led where it must not go.",
    ),
    (
        "gannet-point",
        "Gannet Point (invented)",
        "Copper, nickel and tin–silver on 300 mm. A rinse is too rich, and the trench is far.",
    ),
];

/// An example as a plan of the reader's own, marked as invented in its name.
pub fn plan(id: &str) -> Option<Plan> {
    let text = match id {
        "alder-row" => include_str!("examples/alder-row.json"),
        "heron-mere" => include_str!("examples/heron-mere.json"),
        "gannet-point" => include_str!("examples/gannet-point.json"),
        _ => return None,
    };
    let plan: Plan = serde_json::from_str(text).ok()?;
    Some(plan.mended())
}
