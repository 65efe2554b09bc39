//! Gravity drains.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::drain::*;
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("O.fall-needed", |row| Ok(Found::Quantity(fall_needed(row.q("run", M)?, slope(row)?), MM))),
        ("O.furthest-run", |row| {
            Ok(Found::Quantity(furthest_run(row.q("fall", MM)?, Q::constant("0", 0.0, MM), slope(row)?)?, M))
        }),
        ("O.furthest-run-with-offset", |row| {
            let (height, offsets) =
                (row.q("height of tool outlet above branch", MM)?, row.q("vertical offsets and trap", MM)?);
            Ok(Found::Quantity(furthest_run(height, offsets, slope(row)?)?, M))
        }),
        ("O.invert-at-end", |row| {
            Ok(Found::Quantity(invert_at_end(row.q("start invert", MM)?, row.q("run", M)?, slope(row)?), MM))
        }),
        ("O.slope-angle", |row| Ok(Found::Quantity(slope_angle(slope(row)?), DEGREE))),
        ("O.slope-one-in", |row| Ok(Found::Quantity(slope_one_in(slope(row)?)?, NUMBER))),
        ("O.manning-flow", |row| Ok(Found::Quantity(part(row)?.flow, L_PER_MIN))),
        ("O.manning-velocity", |row| Ok(Found::Quantity(part(row)?.velocity, M_PER_S))),
        ("O.segment-area", |row| ratio(row, |segment| segment.area)),
        ("O.hydraulic-radius-ratio", |row| ratio(row, |segment| segment.hydraulic_radius)),
        ("O.top-width-ratio", |row| {
            let width = |depth| Ok::<_, Problem>(segment(Q::constant("D", 1.0, M), depth)?.top_width);
            Ok(Found::Quantity(width(depth(row)?)? / width(Q::from(0.5))?, NUMBER))
        }),
        ("O.section-factor-ratio", section_factor),
        ("O.flow-ratio", |row| Ok(Found::Quantity(flow_ratio(depth(row)?)?, NUMBER))),
        ("O.depth-of-most-flow", |_| Ok(Found::Number(DEPTH_OF_MOST_FLOW))),
        ("O.most-flow-ratio", |_| Ok(Found::Quantity(flow_ratio(Q::from(DEPTH_OF_MOST_FLOW))?, NUMBER))),
        ("O.depth-of-most-velocity", |_| Ok(Found::Number(DEPTH_OF_MOST_VELOCITY))),
        ("O.most-velocity-ratio", |_| {
            Ok(Found::Quantity(velocity_ratio(Q::from(DEPTH_OF_MOST_VELOCITY))?, NUMBER))
        }),
        ("O.depth-for-flow", |row| {
            let found = depth_for_flow(
                row.q("flow", L_PER_MIN)?,
                row.q("D", MM)?,
                slope(row)?,
                row.q("n", ROUGHNESS)?,
            );
            Ok(Found::Quantity(found?, NUMBER))
        }),
        ("O.slope-for-full-flow", |row| {
            let (flow, d, full) = (row.q("flow", L_PER_MIN)?, row.q("D", MM)?, Q::from(1.0));
            Ok(Found::Quantity(slope_for_flow(flow, d, full, row.q("n", ROUGHNESS)?)?, NUMBER))
        }),
        ("O.slope-for-velocity", |row| {
            let v = row.q("velocity", M_PER_S)?;
            Ok(Found::Quantity(
                slope_for_velocity(v, row.q("D", MM)?, depth(row)?, row.q("n", ROUGHNESS)?)?,
                NUMBER,
            ))
        }),
        ("O.code-least-slope", |row| {
            Ok(Found::Quantity(
                code_least_slope(&PLUMBING_CODES[0], row.q("pipe size", INCH)?),
                INCH_PER_FOOT,
            ))
        }),
        ("O.dump-peak", |row| {
            Ok(Found::Quantity(dump_peak(row.q("Cd", NUMBER)?, valve(row)?, row.q("depth", M)?), L_PER_MIN))
        }),
        ("O.dump-time", |row| {
            let (area, depth) = match row.given("holds") {
                Some(_) => {
                    let area = bore_area(row.q("tank D", M)?);
                    (area, row.q("holds", M3)? / area)
                }
                None => (row.q("tank area", M2)?, row.q("depth", M)?),
            };
            let levels = (depth, Q::constant("0", 0.0, M));
            Ok(Found::Quantity(dump_time(area, levels, row.q("Cd", NUMBER)?, valve(row)?)?, MINUTE))
        }),
        ("O.dump-time-between-levels", |row| {
            let levels = (row.q("from", M)?, row.q("to", M)?);
            Ok(Found::Quantity(
                dump_time(row.q("tank area", M2)?, levels, row.q("Cd", NUMBER)?, valve(row)?)?,
                MINUTE,
            ))
        }),
        ("O.dump-time-through-pipe", |row| {
            let (d, levels) = (row.q("bore", MM)?, (row.q("from", M)?, row.q("to", M)?));
            let cd = discharge_coefficient(row.q("Darcy f", NUMBER)?, row.q("length", M)?, d, Q::from(0.0));
            Ok(Found::Quantity(dump_time(bore_area(row.q("tank D", M)?), levels, cd, bore_area(d))?, MINUTE))
        }),
        ("O.dump-to-drain-ratio", |row| {
            let peak = dump_peak(row.q("Cd", NUMBER)?, valve(row)?, row.q("level", M)?);
            let drain = part_full(row.q("drain D", MM)?, depth(row)?, slope(row)?, row.q("n", ROUGHNESS)?)?;
            Ok(Found::Quantity(dump_to_drain_ratio(peak, drain.flow)?, NUMBER))
        }),
        ("O.valve-bore-for-peak", |row| {
            let peak = row.q("allowed peak", L_PER_MIN)?;
            Ok(Found::Quantity(valve_bore_for_peak(peak, row.q("level", M)?, row.q("Cd", NUMBER)?)?, MM))
        }),
    ]
}

/// A bare number is fall per run.
fn slope(row: &Row) -> Result<Q, Problem> {
    match row.text("slope")? {
        bare if bare.parse::<f64>().is_ok() => row.q("slope", NUMBER),
        _ => row.q("slope", INCH_PER_FOOT),
    }
}

fn depth(row: &Row) -> Result<Q, Problem> {
    row.q("depth/D", NUMBER)
}

fn valve(row: &Row) -> Result<Q, Problem> {
    match row.given("opening area") {
        Some(_) => row.q("opening area", M2),
        None => Ok(bore_area(row.q("valve bore", MM)?)),
    }
}

fn part(row: &Row) -> Result<PartFull, Problem> {
    Ok(part_full(row.q("D", MM)?, depth(row)?, slope(row)?, row.q("n", ROUGHNESS)?)?)
}

/// Part over full.
fn ratio(row: &Row, ask: fn(Segment) -> Q) -> Outcome {
    let d = Q::constant("D", 1.0, M);
    Ok(Found::Quantity(ask(segment(d, depth(row)?)?) / ask(segment(d, Q::from(1.0))?), NUMBER))
}

/// `A·R^(2/3)` at a share of the full area, over its full value: the flow's ratio at that depth.
fn section_factor(row: &Row) -> Outcome {
    let wanted = row.number("A/Afull")?;
    let d = Q::constant("D", 1.0, M);
    let area = |depth: f64| Ok::<_, Problem>(segment(d, Q::from(depth))?.area.si);
    let full = area(1.0)?;
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if area(middle)? < wanted * full { low = middle } else { high = middle }
    }
    Ok(Found::Quantity(flow_ratio(Q::from(low))?, NUMBER))
}
