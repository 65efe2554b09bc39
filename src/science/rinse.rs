//! Rinsing and drag-out.
//!
//! Concentrations may be of a metal or of anything else, all of one sort; what is carried in equals
//! what is carried out; every stage is stirred.

use super::bounds::above_zero;
use super::{Refusal, solve};
use crate::quantity::Q;
use crate::units::*;
use std::f64::consts::PI;

/// How a rinse is run. All water runs in fresh at the last stage, or freshly at each time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rinse {
    /// So many stirred stages; wafers go one way, water the other. One stage is a single rinse.
    Counterflow(u8),
    /// So many times one after the other, each time with as much fresh water, of which a share mixes with what
    /// the wafers carry: sprays, and dumps, where the share is 1.
    Fresh(u8, Q),
}

/// The most stages of counterflow, and the most times with fresh water, that are computed.
pub const MOST_STAGES: u8 = 12;
/// See [`MOST_STAGES`].
pub const MOST_TIMES: u8 = 50;

impl Rinse {
    fn stages(self) -> Result<u8, Refusal> {
        let (stages, most) = match self {
            Rinse::Counterflow(stages) => (stages, MOST_STAGES),
            Rinse::Fresh(times, _) => (times, MOST_TIMES),
        };
        if (1..=most).contains(&stages) {
            return Ok(stages);
        }
        Err(Refusal::new(
            format!("A rinse of {stages} stages is not computed."),
            format!("Give 1 to {most} stages; 2 or 3 are usual."),
        ))
    }

    /// Without what a tape holds of it, to be run many times.
    fn plain(self) -> Rinse {
        match self {
            Rinse::Counterflow(_) => self,
            Rinse::Fresh(times, share) => Rinse::Fresh(times, Q::from(share.si)),
        }
    }

    /// See [`dilution_up_to`].
    fn dilutes(self, r: Q, k: u8) -> Q {
        let power = |base: Q, k: u8| if k == 1 { base } else { base.pow(k as i8, 1) };
        let sum = |n: u8| (1..=n).fold(Q::from(1.0), |sum, k| sum + power(r, k));
        match self {
            Rinse::Counterflow(n) if k >= n => sum(n),
            Rinse::Counterflow(n) => sum(n) / sum(n - k),
            Rinse::Fresh(times, share) => power(1.0 + share * r / f64::from(times), k),
        }
    }
}

/// How many times a rinse dilutes what wafers carry in, with `r` volumes of water to one of drag-out.
///
/// Counterflow of `n` stages: `1 + r + … + r^n`, the sum of `(r^(n+1) − 1)/(r − 1)`, which has no hole at `r = 1`; of
/// one stage `(D + Q)/D`. `n` times fresh water: `(1 + η·r/n)^n`, `η` the share of it that mixes. 1000 is a good start
/// (Surface Finishing Guidebook 2011-12 p. 81); 5000 to 20 000 after some baths (Yates). Exact for stirred stages in
/// steady state; the usual `r^n` is 10 % off at `r = 10`. Of a spray the share is a guess: 0.3 to 0.7 by common
/// practice. Refuses more stages than are computed.
/// Source: stage balances; Yates, Ten Minutes to Better Rinsing, Products Finishing 1991, for one stage.
pub fn dilution(r: Q, rinse: Rinse) -> Result<Q, Refusal> {
    dilution_up_to(r, rinse, rinse.stages()?)
}

/// The same up to one of the stages, counted from the first that wafers come to.
///
/// Counterflow: `S_n/S_(n−k)`, `S_n = 1 + r + … + r^n`; fresh water: `(1 + η·r/n)^k`. Refuses a stage that is not there.
/// Source: as there.
pub fn dilution_up_to(r: Q, rinse: Rinse, stage: u8) -> Result<Q, Refusal> {
    let stages = rinse.stages()?;
    if !(1..=stages).contains(&stage) {
        return Err(Refusal::new(format!("There is no stage {stage}."), format!("Give 1 to {stages}.")));
    }
    Ok(rinse.dilutes(r, stage))
}

/// Concentration of what was diluted: `Cf + (C0 − Cf)/x`.
///
/// `C0` in what comes in, `Cf` in the rinse water, `x` of [`dilution`], or of [`dilution_up_to`] for one of the stages.
/// The last stage is what stays on the wafers. The rinse water is its floor. Source: stage balances; numpy
/// `linalg.solve` of them.
pub fn diluted(c0: Q, feed: Q, times: Q) -> Q {
    feed + (c0 - feed) / times
}

/// Concentration in what a rinse lets out to the drain: of counterflow, what its first stage overflows.
///
/// `Cf + (C0 − Cn)/r`, with `Cn` of the last stage and `r` volumes of water to one of drag-out: more stages do not
/// dilute it. Refuses no water. Source: balance over the whole rinse.
pub fn overflow(c0: Q, feed: Q, last: Q, r: Q) -> Result<Q, Refusal> {
    if r.si > 0.0 { Ok(feed + (c0 - last) / r) } else { Err(no_water()) }
}

/// Water that dilutes so many times: [`dilution`] solved for `Q`, to the last figure. None for a dilution of 1.
///
/// Refuses no drag-out. Source: inverse of [`dilution`].
pub fn flow_for_dilution(times: Q, d: Q, rinse: Rinse) -> Result<Q, Refusal> {
    let stages = rinse.stages()?;
    if d.si <= 0.0 {
        return Err(no_drag_out());
    }
    let r = match rinse {
        _ if times.si <= 1.0 => 0.0,
        Rinse::Counterflow(_) => untraced(|| {
            let short = |r: f64| times.si - rinse.plain().dilutes(Q::from(r), stages).si;
            solve::bisect(short, 0.0, times.si.powf(1.0 / f64::from(stages)))
        }),
        Rinse::Fresh(_, share) => {
            above_zero(share, "None of the spray rinses.")?;
            let each = (times.ln() / f64::from(stages)).exp() - 1.0;
            return Ok(d * each * f64::from(stages) / share);
        }
    };
    Ok(d * Q::call("water per drag-out", &[times, Q::from(f64::from(stages))], r, NUMBER))
}

/// Water that brings the last stage of a rinse down to a target.
///
/// Solves [`diluted`] for the water, to the last figure. None, where the target is the bath's own or more.
/// Refuses a target that the feed water alone exceeds.
/// Source: inverse of [`diluted`]; scipy `brentq` on the stage balances.
pub fn flow_for_target(c0: Q, feed: Q, target: Q, d: Q, rinse: Rinse) -> Result<Q, Refusal> {
    flow_for_dilution(dilution_wanted(c0, feed, target)?, d, rinse)
}

/// How many times a rinse must dilute to come to a target: `(C0 − Cf)/(Ct − Cf)`.
///
/// Refuses a target that the feed water alone exceeds. Source: definition.
pub fn dilution_wanted(c0: Q, feed: Q, target: Q) -> Result<Q, Refusal> {
    if target > feed {
        return Ok((c0 - feed) / (target - feed));
    }
    Err(Refusal::new(
        "The feed water alone carries as much as that.",
        "Rinse with purer water, or allow more.",
    ))
}

/// Water by the usual rule of the n-th root, for comparison: `D·x^(1/n)`, `x` the dilution, `n` stages.
///
/// Too much by a share of about `1/(n·r)`; 1 % above for `r` above 100. Refuses no stages.
/// Source: common practice of the trade.
pub fn flow_by_root(times: Q, d: Q, stages: u8) -> Result<Q, Refusal> {
    let stages = Rinse::Counterflow(stages).stages()?;
    Ok(d * (times.ln() / f64::from(stages)).exp())
}

/// Water with which a rinse lets out no more than a limit.
///
/// Solves [`overflow`] for `Q`, to the last figure. None, where that holds with the least water. More stages
/// hardly change it. Refuses a limit that the feed water alone exceeds.
/// Source: inverse of [`overflow`]; scipy `brentq` on the stage balances.
pub fn flow_for_overflow(c0: Q, feed: Q, limit: Q, d: Q, rinse: Rinse) -> Result<Q, Refusal> {
    let stages = rinse.stages()?;
    if d.si <= 0.0 {
        return Err(no_drag_out());
    }
    let wanted = dilution_wanted(c0, feed, limit)?;
    let r = untraced(|| {
        // What leaves, as a share of what comes in, above what is allowed.
        let over = |r: f64| (1.0 - 1.0 / rinse.plain().dilutes(Q::from(r), stages).si) / r - 1.0 / wanted.si;
        let least = 1e-9;
        if wanted.si <= 1.0 || over(least) <= 0.0 { 0.0 } else { solve::bisect(over, least, wanted.si) }
    });
    Ok(d * Q::call("water per drag-out to the drain", &[wanted, Q::from(f64::from(stages))], r, NUMBER))
}

/// The fewest dumps of a tank that dilute so many times: `ln x/ln(1 + V/d)`, rounded up.
///
/// `d` what a load carries in, `V` what a dump lets out. Refuses no drag-out, no volume, and more than
/// [`MOST_TIMES`]. Source: inverse of [`dilution`].
pub fn dumps_for_dilution(times: Q, d: Q, v: Q) -> Result<Q, Refusal> {
    above_zero(v, "The rinse has no volume.")?;
    if d.si <= 0.0 {
        return Err(no_drag_out());
    }
    let exact = times.ln() / (1.0 + v / d).ln();
    whole_dumps(exact)
}

/// The fewest dumps of a tank that let out no more than a limit in the mean: see [`overflow`].
///
/// Refuses as [`dumps_for_dilution`] and [`flow_for_overflow`]. Source: as there.
pub fn dumps_for_overflow(c0: Q, feed: Q, limit: Q, d: Q, v: Q) -> Result<Q, Refusal> {
    above_zero(v, "The rinse has no volume.")?;
    if d.si <= 0.0 {
        return Err(no_drag_out());
    }
    let wanted = dilution_wanted(c0, feed, limit)?;
    let r = v.si / d.si;
    let lets_out = |n: u8| (1.0 - (1.0 + r).powi(-i32::from(n))) / (r * f64::from(n));
    let fewest = (1..=MOST_TIMES).find(|n| lets_out(*n) * wanted.si <= 1.0 + 1e-12);
    let fewest = fewest.ok_or_else(too_many_dumps)?;
    Ok(Q::call("fewest dumps", &[wanted, v / d], f64::from(fewest), NUMBER))
}

/// Dumps are whole: the next number above, at least one. Refuses more than [`MOST_TIMES`].
pub fn whole_dumps(exact: Q) -> Result<Q, Refusal> {
    let whole = (exact.si - 1e-9).ceil().max(1.0);
    if whole > f64::from(MOST_TIMES) {
        return Err(too_many_dumps());
    }
    Ok(Q::call("next whole number", &[exact], whole, NUMBER))
}

/// Conductivity of a liquid that was diluted with water, about: [`diluted`], of conductivities.
///
/// An approximation: it takes ions to conduct as well before as after. Diluted, they conduct better: of potassium
/// chloride 4 % from 10 to 1 mmol/L, and a bath itself conducts half or less of what it does diluted. So measure
/// a litre that holds a millilitre of the bath, times 1000. Source: limiting law of Kohlrausch, from memory.
pub fn diluted_conductivity(start: Q, feed: Q, times: Q) -> Q {
    diluted(start, feed, times)
}

fn untraced(solved: impl FnOnce() -> f64) -> f64 {
    crate::quantity::with_tape(None, solved).0
}

/// Concentration in a stirred tank after clean water has overflowed for a time.
///
/// `C·exp(−Q·t/V)`. Refuses no volume. Source: integral of the balance; scipy `solve_ivp`.
pub fn overflow_decay(c: Q, q: Q, t: Q, v: Q) -> Result<Q, Refusal> {
    above_zero(v, "The rinse has no volume.")?;
    Ok(c * (-(q * t / v)).exp())
}

/// Film left on a spinning wafer.
///
/// `h = h0/(1 + 4·ρ·ω²·h0²·t/(3·μ))^(1/2)`, `ω = 2·π·s`. `h0` film at the start, `s` turns per time,
/// `t` spin time. Holds for a flat wafer, a Newtonian liquid, no evaporation, no pattern; see [`by_spinning`] for
/// how thin. No measured wafer data were found. Refuses less than one turn: then the film is still about to flow.
/// Source: Emslie, Bonner & Peck, J. Appl. Phys. 29, 858 (1958).
pub fn spin_film(h0: Q, speed: Q, t: Q, mu: Q, rho: Q) -> Result<Q, Refusal> {
    let omega = turning(speed, t, mu)?;
    Ok(h0 / (1.0 + 4.0 * rho * omega.pow(2, 1) * h0.pow(2, 1) * t / (3.0 * mu)).sqrt())
}

/// The most that spinning leaves, however thick the film was at the start.
///
/// `h = (3·μ/(4·ρ·ω²·t))^(1/2)`: [`spin_film`] for a thick `h0`. Holds and refuses as there. Source: as there.
pub fn spin_film_at_most(speed: Q, t: Q, mu: Q, rho: Q) -> Result<Q, Refusal> {
    let omega = turning(speed, t, mu)?;
    Ok((3.0 * mu / (4.0 * rho * omega.pow(2, 1) * t)).sqrt())
}

fn turning(speed: Q, t: Q, mu: Q) -> Result<Q, Refusal> {
    above_zero(mu, "The liquid has no viscosity.")?;
    if speed.si * t.si < 1.0 {
        return Err(Refusal::new(
            "The wafer turns less than once, and the law of the spun film does not hold yet.",
            "Type the speed and the time of the whole spin, or weigh some wafers.",
        ));
    }
    Ok(2.0 * PI * speed)
}

/// The thinnest film that spinning rules, µm: below it evaporation and what the pattern holds do (common
/// practice, no source).
pub const THINNEST_FILM: f64 = 2.0;

/// A spun film, if spinning still rules it. Refuses one below [`THINNEST_FILM`]. Source: as there.
pub fn by_spinning(film: Q) -> Result<Q, Refusal> {
    if film.number(UM) >= THINNEST_FILM {
        return Ok(film);
    }
    Err(Refusal::new(
        format!(
            "The film would be {:.2} µm; below {THINNEST_FILM} µm evaporation and the pattern rule it, and the law does not hold.",
            film.number(UM)
        ),
        "Weigh some wafers and choose that, or spin shorter or slower.",
    ))
}

/// Liquid that a wafer carries out on one or both faces.
///
/// `π·D²/4·h·n`. `D` wafer, `h` film, `n` faces. What fixture and cup carry is often more.
/// Source: definition.
pub fn film_volume(d: Q, h: Q, faces: Q) -> Q {
    PI * d.pow(2, 1) / 4.0 * h * faces
}

/// Drag-out of parts that are not spun: part and drainage, and US gallons per 1000 ft². Table of a cleaner's; the
/// bath's own viscosity is not in it.
/// Source: Metal Finishing Guide Book 2012-13, p. 103, table II, Typical Cleaner Dragout.
pub const DRAG_OUT: &[(&str, f64)] = &[
    ("vertical, well drained", 0.4),
    ("vertical, poorly drained", 2.0),
    ("vertical, very poorly drained", 4.0),
    ("horizontal, well drained", 0.8),
    ("horizontal, very poorly drained", 10.0),
    ("cup-shaped, least", 8.0),
    ("cup-shaped, most of the table", 24.0),
];

/// Film of a part that is not spun, as a volume per area of surface (both faces count).
///
/// Looked up by name in [`DRAG_OUT`]; a typical value, of which no spread is given. Refuses a part that is not in it.
/// Source: as there.
pub fn drag_out_film(part: &str) -> Result<Q, Refusal> {
    let found = DRAG_OUT.iter().find(|(known, _)| *known == part).ok_or_else(|| {
        let known: Vec<_> = DRAG_OUT.iter().map(|(known, _)| *known).collect();
        Refusal::new(
            format!("No drag-out is known for “{part}”."),
            format!("Choose one of: {}.", known.join("; ")),
        )
    })?;
    Ok(Q::call(found.0, &[], found.1, GALLON_PER_1000_FT2))
}

fn no_drag_out() -> Refusal {
    Refusal::new("Nothing is dragged out, so there is nothing to rinse.", "Give a drag-out above zero.")
}

fn too_many_dumps() -> Refusal {
    Refusal::new(
        format!("That takes more than {MOST_TIMES} dumps."),
        "Take a larger tank, smaller loads, or less drag-out.",
    )
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
