//! Gravity drains: fall, part-full flow, and what a dumped tank sends down.
//!
//! Depths are shares of the bore, `y/D` above 0 and up to 1; slopes are fall per run.

use super::bounds::above_zero;
use super::{Refusal, pipe::gravity, solve};
use crate::quantity::Q;
use crate::units::*;
use std::f64::consts::PI;

/// Depth at which a circular pipe carries most, as a share of the bore, with `n` constant; 1.076 of
/// what it carries full. Not a design depth: any wave fills the pipe.
/// Source: the root of `3θ − 5θ·cos θ + 2·sin θ = 0`; scipy `minimize_scalar` on Manning's form.
pub const DEPTH_OF_MOST_FLOW: f64 = 0.938_181_216_16;

/// Depth at which a circular pipe runs fastest, as a share of the bore, with `n` constant; 1.140 of
/// its velocity when full. Source: the root of `tan θ = θ`; scipy `minimize_scalar`.
pub const DEPTH_OF_MOST_VELOCITY: f64 = 0.812_803_127_3;

/// Fall that a run needs.
///
/// `z·S`. `run` length, `S` slope. Vertical drops are not counted as slope.
/// Source: definition; 1/4 in per ft is 2.083 %, common practice, no source.
pub fn fall_needed(run: Q, slope: Q) -> Q {
    run * slope
}

/// Fall to spare; negative where the drain must start higher, or a lift station is needed.
///
/// `height − offsets − run·S`. `height` of the outlet above the branch, `offsets` taken by vertical
/// offsets and the trap. Source: definition.
pub fn fall_to_spare(height: Q, offsets: Q, run: Q, slope: Q) -> Q {
    height - offsets - fall_needed(run, slope)
}

/// The furthest run that a height allows; none, where offsets and trap take it all: lift station.
///
/// `(height − offsets)/S`. Refuses a slope of none. Source: inverse of [`fall_needed`].
pub fn furthest_run(height: Q, offsets: Q, slope: Q) -> Result<Q, Refusal> {
    above_zero(slope, "A level pipe does not drain.")?;
    Ok(((height - offsets) / slope).max(Q::constant("0 m", 0.0, M)))
}

/// Invert (inside bottom of the pipe) at the end of a run; both heights above the same mark.
///
/// `start − run·S`. Source: definition.
pub fn invert_at_end(start: Q, run: Q, slope: Q) -> Q {
    start - fall_needed(run, slope)
}

/// A slope as an angle, in radians: 1/4 in per ft is 1.19°, not 2.08.
///
/// `atan(S)`. Source: definition.
pub fn slope_angle(slope: Q) -> Q {
    Q::call("atan", &[slope], slope.si.atan(), NUMBER)
}

/// Run for one of fall: a slope of 1/4 in per ft is 1 in 48. Refuses a slope of none.
///
/// `1/S`. Source: definition.
pub fn slope_one_in(slope: Q) -> Result<Q, Refusal> {
    above_zero(slope, "A level pipe does not drain.")?;
    Ok(1.0 / slope)
}

/// The wetted part of a circular pipe's section.
#[derive(Clone, Copy, Debug)]
pub struct Segment {
    /// Angle that the water's surface spans at the centre, in radians: `θ = 2·acos(1 − 2·y/D)`.
    pub angle: Q,
    /// Area `D²/8·(θ − sin θ)`.
    pub area: Q,
    /// Hydraulic radius, area over wetted length: `D/4·(1 − sin θ/θ)`.
    pub hydraulic_radius: Q,
    /// Width of the surface: `D·sin(θ/2)`.
    pub top_width: Q,
}

/// The wetted part of a circular pipe of bore `d`, filled to a share `depth` of it.
///
/// Exact geometry. Refuses a depth that is not above 0 and up to 1.
/// Source: circular segment; within 0.2 % of the tables of the US EPA storm-water model
/// (`xsect.dat`), within 1 % near full.
pub fn segment(d: Q, depth: Q) -> Result<Segment, Refusal> {
    above_zero(d, "The pipe has no bore.")?;
    let angle = angle(depth)?;
    Ok(Segment {
        angle,
        area: d.pow(2, 1) / 8.0 * (angle - angle.sin()),
        hydraulic_radius: d / 4.0 * (1.0 - angle.sin() / angle),
        top_width: d * (angle / 2.0).sin(),
    })
}

fn angle(depth: Q) -> Result<Q, Refusal> {
    if !(depth.si > 0.0 && depth.si <= 1.0) {
        return Err(Refusal::new(
            "The depth of flow is not between empty and full.",
            "Give a depth above 0 and up to 1 bore; 0.5 to 0.8 is usual for design.",
        ));
    }
    let cosine = 1.0 - 2.0 * depth;
    Ok(2.0 * Q::call("acos", &[cosine], cosine.si.clamp(-1.0, 1.0).acos(), NUMBER))
}

/// Mean velocity under gravity in a channel or a partly filled pipe.
///
/// `v = R^(2/3)·S^(1/2)/n`. `R` hydraulic radius, `S` slope, `n` Manning's roughness.
/// Holds for turbulent flow of water or what is as thin, on an even slope. ±20 % (common practice, no source): `n` is an estimate
/// (0.009 plastic, 0.011 to 0.013 others, from memory), held constant here; Camp's chart lets it rise
/// when part full, which takes 20 % off the flow at half depth.
/// Source: Manning's equation, as in `fluids` `V_Manning`.
pub fn manning_velocity(r: Q, s: Q, n: Q) -> Q {
    r.pow(2, 3) * s.pow(1, 2) / n
}

/// Flow in a part-full pipe.
#[derive(Clone, Copy, Debug)]
pub struct PartFull {
    /// Mean velocity. Self-cleaning is 0.6 m/s (2 ft/s in plumbing texts); over 3 m/s is noisy
    /// (common practice, no source).
    pub velocity: Q,
    /// Flow.
    pub flow: Q,
}

/// Velocity and flow in a pipe of bore `d` on slope `s`, filled to a share `depth` of the bore.
///
/// [`manning_velocity`] with the [`segment`]; flow is velocity times area.
/// Refuses a depth outside of the pipe, a slope or a roughness that is not above zero.
/// Source: as there.
pub fn part_full(d: Q, depth: Q, s: Q, n: Q) -> Result<PartFull, Refusal> {
    above_zero(s, "A level pipe does not drain.")?;
    above_zero(n, "The roughness must be above zero.")?;
    let segment = segment(d, depth)?;
    let velocity = manning_velocity(segment.hydraulic_radius, s, n);
    Ok(PartFull { velocity, flow: velocity * segment.area })
}

/// Flow at a depth over the flow of the full pipe, with `n` constant.
///
/// `Q/Qfull`: 0.5 at half, 0.977 at 0.8, 1.076 at 0.938, 1 when full.
/// `(θ − sin θ)/(2·π)·(1 − sin θ/θ)^(2/3)`. Source: [`segment`] and [`manning_velocity`]; `fluids` 1.3.1.
pub fn flow_ratio(depth: Q) -> Result<Q, Refusal> {
    let angle = angle(depth)?;
    Ok((angle - angle.sin()) / (2.0 * PI) * velocity_ratio(depth)?)
}

/// Velocity at a depth over the velocity of the full pipe, with `n` constant; most 1.140 at 0.813.
///
/// `(1 − sin θ/θ)^(2/3)`. Source: [`segment`] and [`manning_velocity`].
pub fn velocity_ratio(depth: Q) -> Result<Q, Refusal> {
    let angle = angle(depth)?;
    Ok((1.0 - angle.sin() / angle).pow(2, 3))
}

/// Depth at which a pipe carries a flow, as a share of its bore: the lower of the two where there are
/// two (between 1.00 and 1.076 of full flow).
///
/// Bisection on [`part_full`], below [`DEPTH_OF_MOST_FLOW`]. Refuses more than the pipe carries
/// without pressure. Source: inverse of Manning's equation; scipy `brentq` on `fluids`.
pub fn depth_for_flow(flow: Q, d: Q, s: Q, n: Q) -> Result<Q, Refusal> {
    above_zero(flow, "Nothing flows.")?;
    let most = part_full(d, Q::from(DEPTH_OF_MOST_FLOW), s, n)?.flow;
    if flow > most {
        let style = Style::default();
        let shown = |flow: Q| style.show(flow.si, L_PER_MIN);
        return Err(Refusal::new(
            format!(
                "The pipe carries at most {} by gravity, not {}: it would run under pressure and back up.",
                shown(most),
                shown(flow)
            ),
            format!(
                "Use a bore of at least {}, a slope {} times as steep, or throttle the flow.",
                style.show((d * (flow / most).pow(3, 8)).si * 1.0005, MM),
                style.number((flow / most).si.powi(2) * 1.0005),
            ),
        ));
    }
    let spare =
        |depth: f64| part_full(d, Q::from(depth), s, n).map_or(f64::NAN, |part| flow.si - part.flow.si);
    let depth = crate::quantity::with_tape(None, || solve::bisect(spare, 0.0, DEPTH_OF_MOST_FLOW)).0;
    Ok(Q::call("depth for the flow", &[flow, d, s, n], depth, NUMBER))
}

/// Slope at which a pipe, filled to a share `depth` of its bore, carries a flow.
///
/// `S = (v·n/R^(2/3))²`, `v = Q/A`; full, `R` is `D/4`. Source: inverse of [`manning_velocity`].
pub fn slope_for_flow(flow: Q, d: Q, depth: Q, n: Q) -> Result<Q, Refusal> {
    let wetted = segment(d, depth)?;
    Ok(slope_for(flow / wetted.area, wetted.hydraulic_radius, n))
}

/// Slope at which a pipe, filled to a share `depth` of its bore, runs at a velocity.
///
/// `S = (v·n/R^(2/3))²`. Source: inverse of [`manning_velocity`].
pub fn slope_for_velocity(v: Q, d: Q, depth: Q, n: Q) -> Result<Q, Refusal> {
    Ok(slope_for(v, segment(d, depth)?.hydraulic_radius, n))
}

fn slope_for(v: Q, r: Q, n: Q) -> Q {
    (v * n / r.pow(2, 3)).pow(2, 1)
}

/// One line of a plumbing code: pipes up to a size need a slope.
#[derive(Clone, Copy, Debug)]
pub struct CodeSlope {
    /// Least size that the line is for, in inches.
    pub from_inches: f64,
    /// Least slope, in inches per foot.
    pub inches_per_foot: f64,
}

/// A plumbing code's least slopes.
#[derive(Clone, Copy, Debug)]
pub struct PlumbingCode {
    /// What it is, in words; codes differ, the user picks.
    pub name: &'static str,
    /// By size, smallest first; a size between two lines takes the steeper.
    pub lines: &'static [CodeSlope],
    /// Where it was read.
    pub source: &'static str,
}

const fn line(from_inches: f64, inches_per_foot: f64) -> CodeSlope {
    CodeSlope { from_inches, inches_per_foot }
}

/// Least slopes of horizontal drains in plumbing codes. The local code rules.
pub static PLUMBING_CODES: [PlumbingCode; 2] = [
    PlumbingCode {
        name: "1/4 in per ft up to 2 1/2 in, 1/8 up to 6 in, 1/16 above",
        lines: &[line(0.0, 0.25), line(3.0, 0.125), line(8.0, 0.0625)],
        source: "Chicago Municipal Code, Table 18-29-704.1",
    },
    PlumbingCode {
        name: "1/4 in per ft up to 3 in, 1/8 above by permission",
        lines: &[line(0.0, 0.25), line(4.0, 0.125)],
        source: "from memory: a second model code; secondary pages disagree on it",
    },
];

/// How far a metric bore may be below the inches of the same nominal size: 75 mm are 2.953 in.
const NOMINAL: f64 = 0.02;

/// Whether a bore is of a nominal size, or above it.
pub(super) fn is_nominally(bore: Q, inches: f64) -> bool {
    bore.number(INCH) >= inches * (1.0 - NOMINAL)
}

/// Least slope that a code asks of a pipe size.
///
/// Table; a size between two lines takes the steeper. Codes mean nominal sizes: a bore within 2 % of
/// one counts as it, so 75 mm is 3 in, and 100 mm 4 in. The local code rules. Source: the code's own line.
pub fn code_least_slope(code: &PlumbingCode, size: Q) -> Q {
    let line = code.lines.iter().rev().find(|line| is_nominally(size, line.from_inches));
    let least = line.or(code.lines.first()).map_or(0.25, |line| line.inches_per_foot);
    Q::call("least slope by code", &[size], least, INCH_PER_FOOT)
}

/// Area of a round opening of bore `d`: `π·D²/4`.
pub fn bore_area(d: Q) -> Q {
    PI * d.pow(2, 1) / 4.0
}

/// Flow at the start of a dump, the most that the drain sees.
///
/// `Cd·a·(2·g·H)^(1/2)`. `Cd` discharge coefficient (0.6 sharp, 0.8 short tube; common practice), `a`
/// area of the open valve, `H` level above it, `g` 9.80665 m/s².
/// Holds where the drain after it does not throttle. Source: Torricelli, as in Schaschke, Fluid
/// Mechanics: Worked Examples for Engineers, example 6.6.
pub fn dump_peak(cd: Q, a: Q, h: Q) -> Q {
    cd * a * (2.0 * gravity() * h).sqrt()
}

/// Time in which a tank of upright walls falls from one level to another above its valve.
///
/// `2·A·(H1^(1/2) − H2^(1/2))/(Cd·a·(2·g)^(1/2))`. `A` the tank's area; the others as [`dump_peak`].
/// For a long pipe `Cd` is [`discharge_coefficient`]. Refuses levels that do not fall, and no opening.
/// Source: integral of [`dump_peak`]; Schaschke, example 6.3.
pub fn dump_time(area: Q, (h1, h2): (Q, Q), cd: Q, a: Q) -> Result<Q, Refusal> {
    falls(h1, h2)?;
    above_zero(cd * a, "The valve has no opening.")?;
    Ok(2.0 * area * (h1.sqrt() - h2.sqrt()) / (cd * a * (2.0 * gravity()).sqrt()))
}

/// Discharge coefficient of a pipe that runs full between a tank and a free outlet.
///
/// `1/(1 + f·l/D + ΣK)^(1/2)`; the 1 is the velocity head at the outlet. `f` Darcy friction factor,
/// held constant, `l` length, `K` losses of entrance and fittings; a valve of coefficient `Cd` loses `1/Cd² − 1`.
/// The pipe's own fall is left out.
/// Source: energy balance; Coulson & Richardson, Chemical Engineering vol. 1, example 3.3.
pub fn discharge_coefficient(f: Q, l: Q, d: Q, k: Q) -> Q {
    1.0 / (1.0 + f * l / d + k).sqrt()
}

/// Peak of a dump over what the drain carries at its design depth: above 1, throttle the valve or
/// enlarge the pipe.
///
/// [`dump_peak`] over [`part_full`]'s flow. Source: as there.
pub fn dump_to_drain_ratio(peak: Q, drain: Q) -> Result<Q, Refusal> {
    above_zero(drain, "The drain carries nothing.")?;
    Ok(peak / drain)
}

/// Valve bore that keeps a dump's peak to what is allowed.
///
/// `(4·Q/(π·Cd·(2·g·H)^(1/2)))^(1/2)`. Source: inverse of [`dump_peak`].
pub fn valve_bore_for_peak(peak: Q, h: Q, cd: Q) -> Result<Q, Refusal> {
    above_zero(h, "There is no level above the valve.")?;
    above_zero(cd, "The discharge coefficient must be above zero.")?;
    Ok((4.0 * peak / (PI * cd * (2.0 * gravity() * h).sqrt())).sqrt())
}

fn falls(h1: Q, h2: Q) -> Result<(), Refusal> {
    if h1.si > 0.0 && h2.si >= 0.0 && h2 <= h1 {
        return Ok(());
    }
    Err(Refusal::new(
        "The level does not fall to that height.",
        "Give two levels above the valve, the first one higher.",
    ))
}

#[cfg(test)]
#[path = "drain_tests.rs"]
mod tests;
