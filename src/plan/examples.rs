//! Example plans, set in invented plants. Their figures are for trying things out and check nothing.

use super::Plan;

/// Stable id, name, and one line on what it shows.
pub static ALL: &[(&str, &str, &str)] = &[
    (
        "alder-row",
        "Alder Row pilot line (invented)",
        "One acid copper bath, six wafers a day, and nothing out of order: the smallest complete plan.",
    ),
    (
        "heron-mere",
        "Heron Mere compound line (invented)",
        "Gold and nickel, with a gold rinse led where it must not go.",
    ),
    (
        "gannet-point",
        "Gannet Point bumping line (invented)",
        "Copper pillar, nickel and tin-silver, with a rinse too rich for its route and a drain that needs a lift.",
    ),
];

/// An example as a plan of the reader's own, marked as invented in its name.
pub fn plan(id: &str) -> Option<Plan> {
    // Plan files like any other, so they also keep watch over the file format.
    let text = match id {
        "alder-row" => include_str!("examples/alder-row.json"),
        "heron-mere" => include_str!("examples/heron-mere.json"),
        "gannet-point" => include_str!("examples/gannet-point.json"),
        _ => return None,
    };
    serde_json::from_str::<Plan>(text).ok().map(Plan::mended)
}
