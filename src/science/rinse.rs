//! Rinsing and drag-out.
//!
//! Concentrations may be of a metal or of anything else, all of one sort; what is carried in equals
//! what is carried out; every stage is stirred.

use super::bounds::above_zero;
use super::{Refusal, solve};
use crate::quantity::Q;
use crate::units::*;
use std::f64::consts::PI;

/// Concentration in one rinse that runs.
///
/// `Cf + (C0 − Cf)·D/(D + Q)`. `C0` bath, `Cf` feed water, `D` drag-out, `Q` water, flows.
/// Exact for a stirred stage in steady state. Refuses neither water nor drag-out.
/// Source: mass balance; dilution of Yates, Ten Minutes to Better Rinsing, Products Finishing 1991.
///
/// No sheet uses it yet: it waits for “Drag-out and rinse”.
pub fn single_rinse(c0: Q, feed: Q, d: Q, q: Q) -> Result<Q, Refusal> {
    Ok(feed + (c0 - feed) / dilution_ratio(d, q)?)
}

/// Dilution of one rinse.
///
/// `(D + Q)/D`. 1000 is a good start (Surface Finishing Guidebook 2011-12 p. 81); 5000 to 20 000 after
/// some baths (Yates). Refuses no drag-out: then nothing is to be rinsed. Source: Yates 1991.
pub fn dilution_ratio(d: Q, q: Q) -> Result<Q, Refusal> {
    if d.si > 0.0 { Ok((d + q) / d) } else { Err(no_drag_out()) }
}

/// How many times a counterflow rinse dilutes: `1 + r + r² + … + r^n`, the sum of
/// `(r^(n+1) − 1)/(r − 1)`, which has no hole at `r = 1`.
fn counterflow_dilution(r: Q, stages: u8) -> Q {
    (1..=stages.min(MOST_STAGES)).fold(Q::from(1.0), |sum, k| sum + r.pow(k as i8, 1))
}

/// The most stages that are computed; more than any line has room for.
pub const MOST_STAGES: u8 = 12;

fn stages_are(stages: u8) -> Result<(), Refusal> {
    if (1..=MOST_STAGES).contains(&stages) {
        return Ok(());
    }
    Err(Refusal::new(
        format!("A rinse of {stages} stages is not computed."),
        format!("Give 1 to {MOST_STAGES} stages; 2 or 3 are usual."),
    ))
}

/// Concentration in the last stage of a counterflow rinse.
///
/// `Cn = Cf + (C0 − Cf)/(1 + r + … + r^n)`, `r = Q/D`, `n` stages. Exact for stirred stages in steady
/// state; the usual `r^−n` is 10 % off at `r = 10`. Without water it comes to the bath's own.
/// Refuses no drag-out. Source: stage balances; numpy `linalg.solve` of them.
pub fn counterflow_last(c0: Q, feed: Q, d: Q, q: Q, stages: u8) -> Result<Q, Refusal> {
    stages_are(stages)?;
    if d.si <= 0.0 {
        return Err(no_drag_out());
    }
    if q.si <= 0.0 {
        return Err(no_water());
    }
    Ok(feed + (c0 - feed) / counterflow_dilution(q / d, stages))
}

/// Concentration in what a counterflow rinse overflows to the drain, from its first stage.
///
/// `Cf + D·(C0 − Cn)/Q`, with `Cn` of [`counterflow_last`]: more stages do not dilute it.
/// Refuses no water. Source: balance over the whole rinse.
pub fn counterflow_overflow(c0: Q, feed: Q, d: Q, q: Q, stages: u8) -> Result<Q, Refusal> {
    let last = counterflow_last(c0, feed, d, q, stages)?;
    Ok(feed + d * (c0 - last) / q)
}

/// Water that brings the last stage of a counterflow rinse down to a target.
///
/// Solves [`counterflow_last`] for `Q`, to the last figure. None, where the target is the bath's own
/// or more. Refuses a target that the feed water alone exceeds.
/// Source: inverse of [`counterflow_last`]; scipy `brentq` on the stage balances.
///
/// No sheet uses it yet: it waits for “Drag-out and rinse”.
pub fn flow_for_target(c0: Q, feed: Q, target: Q, d: Q, stages: u8) -> Result<Q, Refusal> {
    stages_are(stages)?;
    if d.si <= 0.0 {
        return Err(no_drag_out());
    }
    if target <= feed {
        return Err(Refusal::new(
            "The feed water alone carries as much as the last rinse may.",
            "Rinse with purer water, or allow more in the last rinse.",
        ));
    }
    let dilution = (c0 - feed) / (target - feed);
    if dilution.si <= 1.0 {
        return Ok(d * Q::call("water per drag-out", &[dilution], 0.0, NUMBER));
    }
    let most = dilution.si.powf(1.0 / f64::from(stages));
    let short = |r: f64| dilution.si - counterflow_dilution(Q::from(r), stages).si;
    let r = crate::quantity::with_tape(None, || solve::bisect(short, 0.0, most)).0;
    Ok(d * Q::call("water per drag-out", &[dilution, Q::from(f64::from(stages))], r, NUMBER))
}

/// Concentration in a rinse that stands, after a number of loads.
///
/// `C0·(1 − (V/(V + d))^N)`. `V` volume, `d` drag-out of a load, mixed and then withdrawn; filled with
/// pure water. Exact for that; it comes to the bath's own. Refuses no volume.
/// Source: recursion of the balance, summed.
///
/// No sheet uses it yet: it waits for “Drag-out and rinse”.
pub fn standing_rinse(c0: Q, v: Q, d: Q, loads: Q) -> Result<Q, Refusal> {
    above_zero(v, "The rinse has no volume.")?;
    Ok(c0 * (1.0 - (loads * (v / (v + d)).ln()).exp()))
}

/// Concentration in a stirred tank after clean water has overflowed for a time.
///
/// `C·exp(−Q·t/V)`. Refuses no volume. Source: integral of the balance; scipy `solve_ivp`.
pub fn overflow_decay(c: Q, q: Q, t: Q, v: Q) -> Result<Q, Refusal> {
    above_zero(v, "The rinse has no volume.")?;
    Ok(c * (-(q * t / v)).exp())
}

/// Concentration that a drag-in gives a tank at once: `C·d/V`. Source: mass balance at a constant level.
///
/// No sheet uses it yet: it waits for “Drag-out and rinse”.
pub fn drag_in(c: Q, d: Q, v: Q) -> Result<Q, Refusal> {
    above_zero(v, "The rinse has no volume.")?;
    Ok(c * d / v)
}

/// Film left on a spinning wafer.
///
/// `h = h0/(1 + 4·ρ·ω²·h0²·t/(3·μ))^(1/2)`, `ω = 2·π·s`. `h0` film at the start, `s` turns per time,
/// `t` spin time. Holds for a flat wafer, no evaporation, no pattern; below about 2 µm evaporation and
/// trapped volume rule, so the film is then a guess. No measured wafer data were found.
/// Source: Emslie, Bonner & Peck, J. Appl. Phys. 29, 858 (1958).
///
/// No sheet uses it yet: it waits for “Drag-out and rinse”.
pub fn spin_film(h0: Q, speed: Q, t: Q, mu: Q, rho: Q) -> Result<Q, Refusal> {
    above_zero(mu, "The liquid has no viscosity.")?;
    let omega = 2.0 * PI * speed;
    Ok(h0 / (1.0 + 4.0 * rho * omega.pow(2, 1) * h0.pow(2, 1) * t / (3.0 * mu)).sqrt())
}

/// Liquid that a wafer carries out on one or both faces.
///
/// `π·D²/4·h·n`. `D` wafer, `h` film, `n` faces. What fixture and cup carry is often more.
/// Source: definition.
///
/// No sheet uses it yet: it waits for “Drag-out and rinse”.
pub fn film_volume(d: Q, h: Q, faces: Q) -> Q {
    PI * d.pow(2, 1) / 4.0 * h * faces
}

/// How a part leaves the bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DragOut {
    /// Part and drainage, in words.
    pub part: &'static str,
    /// US gallons per 1000 ft².
    pub gallons: f64,
}

/// Drag-out of parts that are not spun. Table of a cleaner's; the bath's own viscosity is not in it.
/// Source: Metal Finishing Guide Book 2012-13, p. 103, table II, Typical Cleaner Dragout.
///
/// No sheet uses it yet: it waits for “Drag-out and rinse”.
pub static DRAG_OUT: [DragOut; 7] = [
    DragOut { part: "vertical, well drained", gallons: 0.4 },
    DragOut { part: "vertical, poorly drained", gallons: 2.0 },
    DragOut { part: "vertical, very poorly drained", gallons: 4.0 },
    DragOut { part: "horizontal, well drained", gallons: 0.8 },
    DragOut { part: "horizontal, very poorly drained", gallons: 10.0 },
    DragOut { part: "cup-shaped, least", gallons: 8.0 },
    DragOut { part: "cup-shaped, most of the table", gallons: 24.0 },
];

/// Film of a part that is not spun, as a volume per area of surface (both faces count).
///
/// Looked up by name in [`DRAG_OUT`]; a typical value, of which no spread is given. Refuses a part that is not in it.
/// Source: as there.
///
/// No sheet uses it yet: it waits for “Drag-out and rinse”.
pub fn drag_out_film(part: &str) -> Result<Q, Refusal> {
    let found = DRAG_OUT.iter().find(|row| row.part == part).ok_or_else(|| {
        let known: Vec<_> = DRAG_OUT.iter().map(|row| row.part).collect();
        Refusal::new(
            format!("No drag-out is known for “{part}”."),
            format!("Choose one of: {}.", known.join("; ")),
        )
    })?;
    Ok(Q::call(found.part, &[], found.gallons, GALLON_PER_1000_FT2))
}

fn no_drag_out() -> Refusal {
    Refusal::new("Nothing is dragged out, so there is nothing to rinse.", "Give a drag-out above zero.")
}

fn no_water() -> Refusal {
    Refusal::new(
        "Without water the rinse comes to the bath's own concentration.",
        "Give a flow of rinse water, or compute it as a rinse that stands.",
    )
}

#[cfg(test)]
#[path = "rinse_tests.rs"]
mod tests;
