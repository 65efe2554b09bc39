//! Volume, metals and acid of a stream, and what each route says of it.

use super::*;
use crate::calculator::{Refuse, Row, Stop, Work};
use crate::calculators::class_of;
use crate::calculators::rinse::rinse_of;
use crate::quantity::Q;
use crate::science::neutralisation::strong_acid_at;
use crate::science::rinse::{Rinse, diluted, dilution, overflow};
use crate::units::CELSIUS;

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let kind = w.word(&top, "kind")?;
    let class = class_of(w.word(&top, "class")?);
    if FROM_A_PLACE.contains(&kind)
        && w.rows(metals::TABLE)?.is_empty()
        && w.optional(&top, "c_from")?.is_none()
    {
        let reason = "Where it comes from, or how much metal it holds, is still to be typed.";
        let remedy =
            "Choose the place that it comes from, or add its metals. What holds none is “another liquid”.";
        return Err(Stop::todo("kind", reason, remedy));
    }
    let stands = w.optional(&top, "V_z")?;
    if (kind == STANDING) != stands.is_some() && FOR_WAFERS.contains(&kind) {
        let (reason, remedy) = if stands.is_some() {
            ("this place has a sheet of a standing rinse", "Choose “standing rinse”, or take that sheet off.")
        } else {
            (
                "how much the standing rinse holds is not known",
                "Add its sheet, “Standing rinse”, by “+ Sheet”.",
            )
        };
        return Err(Stop::todo("kind", reason, remedy));
    }
    let [hours] = w.inputs(["hours"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    // In a rinse the water that leaves is what runs in; the wafers carry out what they carried in.
    let (volume, drag_out) = match kind {
        RINSE => {
            let [n, d_w] = w.inputs(["N", "d_w"])?;
            let drag_out = w.answer("D", n * d_w)?;
            let water = if w.word(&top, "water")? == BY_WAFER {
                let [v_w] = w.inputs(["v_w"])?;
                n * v_w
            } else {
                let [q] = w.inputs(["q"])?;
                q * hours / one_day
            };
            (water, drag_out)
        }
        STANDING => {
            let [n, d_w] = w.inputs(["N", "d_w"])?;
            let drag_out = w.answer("D", n * d_w)?;
            (w.optional(&top, "Q_z")?.ok_or_else(not_known)?, drag_out)
        }
        DUMP => {
            let [v_d, t_d] = w.inputs(["V_d", "t_d"])?;
            (v_d / t_d, none(w)?)
        }
        DRAW => {
            let [v_k, t_k] = w.inputs(["V_k", "t_k"])?;
            (v_k / t_k, none(w)?)
        }
        _ => {
            let followed = match kind {
                BLEED => w.optional(&top, "Q_b")?,
                SAMPLES => w.optional(&top, "Q_p")?,
                _ => None,
            };
            let q_t = match (w.optional(&top, "Q_t")?, followed.filter(|flow| flow.si > 0.0)) {
                (None, Some(followed)) => followed,
                _ => w.inputs::<1>(["Q_t"])?[0],
            };
            (q_t, none(w)?)
        }
    };
    let volume = w.answer("Q_day", volume)?;
    let at_once = match kind {
        DUMP => w.inputs::<1>(["V_d"])?[0],
        DRAW => w.inputs::<1>(["V_k"])?[0],
        STANDING => stands.filter(|_| volume.si > 0.0).unwrap_or(Q::constant("none", 0.0, L)),
        _ => Q::constant("none", 0.0, L),
    };
    let at_once = w.answer("V_once", at_once)?;
    w.answer("q_run", volume * one_day / hours)?;
    let rinsed = if kind == RINSE { rinsed(w, volume, drag_out)? } else { None };
    let shares = if kind == STANDING { Some(shares(w)?) } else { None };
    acidity(w, kind, [rinsed, shares], (volume, drag_out))?;

    let mut together = Q::constant("none", 0.0, MG_PER_L_METAL);
    let mut together_on = Q::constant("none", 0.0, G_PER_L_METAL);
    let mut is_valuable = false;
    for row in w.rows(metals::TABLE)? {
        let c_in = held(w, &row, kind)?;
        let clean = Q::constant("0", 0.0, G_PER_L_METAL);
        let (c_w, c_on, m_in, m_feed) = if kind == RINSE {
            let feed = w.optional(&row, "c_f")?.filter(|feed| feed.si > 0.0);
            let m_feed = feed.map(|feed| feed * volume);
            let feed = feed.unwrap_or(clean);
            let (c_w, c_on) = match rinsed {
                None => (feed, feed),
                Some((r, times)) => {
                    let last = diluted(c_in, feed, times);
                    (overflow(c_in, feed, last, r).or_stop("d_w")?, last)
                }
            };
            (c_w, c_on, c_in * drag_out, m_feed)
        } else if let Some((last, mean)) = shares {
            let (last, mean) = (c_in * last, c_in * mean);
            // What goes back to the bath has not left it.
            (last, mean, last * volume + mean * drag_out, None)
        } else {
            (c_in, clean, c_in * volume, None)
        };
        let all_in = m_feed.map_or(m_in, |m_feed| m_in + m_feed);
        let all_in = w.give(&row, "m_in", all_in)?;
        let c_w = w.give(&row, "c_w", c_w)?;
        w.give(&row, "m_w", c_w * volume)?;
        let c_on = w.give(&row, "c_on", c_on)?;
        together_on = together_on + c_on;
        w.give(&row, "m_on", c_on * drag_out)?;
        let before = if FOR_WAFERS.contains(&kind) { w.optional(&row, "m_prev")? } else { None };
        let nothing = Q::constant("0", 0.0, G_PER_DAY_METAL);
        let from_bath = match before {
            // Less what a standing rinse gives back to it.
            Some(before) if kind == STANDING => all_in - before,
            Some(_) => m_feed.unwrap_or(nothing),
            None => all_in,
        };
        w.give(&row, "m_bath", from_bath)?;
        w.give(&row, "m_rinse", before.unwrap_or(nothing))?;
        w.give(&row, "m_once", c_w * at_once)?;
        together = together + c_w;
        is_valuable |= metals::is_valuable(&row.key) && c_w.si > 0.0;
    }
    let together = w.answer("c_T", together)?;
    w.answer("m_T", together * volume)?;
    w.answer("c_Ton", together_on)?;
    let mg_per_l = together.number(MG_PER_L_METAL);
    let belongs = routes::suggestion(class, is_valuable, mg_per_l);
    w.say(&top, "belongs", belongs)?;
    for (kind, _) in routes::KINDS {
        let row = w.row("routes", kind)?;
        w.say(&row, "takes", routes::takes(kind, class, belongs, mg_per_l))?;
    }
    Ok(())
}

/// Strong acid in it, if anybody knows: a rinse thins that of what it comes from as it thins the metals.
fn acidity(
    w: &mut Work,
    kind: &str,
    [rinsed, shares]: [Option<(Q, Q)>; 2],
    (volume, drag_out): (Q, Q),
) -> Result<(), Stop> {
    let none = Q::constant("none", 0.0, EQ_PER_DAY);
    let (mut comes_in, mut carried_on, mut before) = (None, none, None);
    let acid = match w.word(&w.top(), "ac")? {
        BY_PH => {
            let [ph] = w.inputs(["pH"])?;
            strong_acid_at(ph, Q::constant("25 °C", 25.0, CELSIUS)).or_stop("pH")?
        }
        FREE_ACID => w.inputs::<1>(["A"])?[0],
        FREE_BASE => -w.inputs::<1>(["B"])?[0],
        FROM_ORIGIN => {
            let [held] = w.inputs(["A_0"])?;
            let clean = Q::constant("none", 0.0, MEQ_PER_L);
            match rinsed {
                None if let Some((last, mean)) = shares => {
                    let mean = w.answer("e_on", held * mean)?;
                    let last = held * last;
                    carried_on = mean * drag_out;
                    comes_in = Some(last * volume + carried_on);
                    before = w.optional(&w.top(), "a_prev")?;
                    last
                }
                Some((r, times)) => {
                    let last = w.answer("e_on", diluted(held, clean, times))?;
                    (comes_in, carried_on) = (Some(held * drag_out), last * drag_out);
                    before = w.optional(&w.top(), "a_prev")?;
                    overflow(held, clean, last, r).or_stop("d_w")?
                }
                // Nothing is dragged in, and so nothing stays on the wafers.
                None if kind == RINSE => w.answer("e_on", clean)?,
                None => held,
            }
        }
        _ => return Ok(()),
    };
    let acid = w.answer("e", acid)?;
    let leaves = w.answer("a_w", acid * volume)?;
    w.answer("a_on", carried_on)?;
    let comes_in = comes_in.unwrap_or(leaves);
    let from_bath = match before {
        Some(before) if kind == STANDING => comes_in - before,
        Some(_) => none,
        None => comes_in,
    };
    w.answer("a_bath", from_bath)?;
    w.answer("a_rinse", before.unwrap_or(none))?;
    Ok(())
}

/// What the liquid holds of a metal where it comes from: a draw-off what was measured, others what the make-up
/// says, and what was measured where that has no such metal.
fn held(w: &Work, row: &Row, kind: &str) -> Result<Q, Stop> {
    let measured = w.optional(row, "c_k")?;
    let made_up = w.optional(row, "c_in")?;
    match if kind == DRAW { measured.or(made_up) } else { made_up.or(measured) } {
        Some(held) => Ok(held),
        None => w.of::<1>(row, ["c_in"]).map(|[c_in]| c_in),
    }
}

/// Water to one of drag-out, and how many times that dilutes; none where nothing is dragged in, or neither metal nor
/// acid is asked for.
fn rinsed(w: &mut Work, water: Q, drag_out: Q) -> Result<Option<(Q, Q)>, Stop> {
    if w.rows(metals::TABLE)?.is_empty() && w.word(&w.top(), "ac")? != FROM_ORIGIN {
        return Ok(None);
    }
    if water.si <= 0.0 {
        let reason = "no water runs through this rinse";
        return Err(Stop::at("kind", reason, "Type its water, a wafer or by flow."));
    }
    if drag_out.si <= 0.0 {
        return Ok(None);
    }
    let r = w.step("r", "Water to one of drag-out", NUMBER, water / drag_out)?;
    let times = dilution(r, rinse(w)?).or_stop("stages")?;
    Ok(Some((r, w.step("x", "Times diluted", NUMBER, times)?)))
}

/// How the rinse is run.
fn rinse(w: &Work) -> Result<Rinse, Stop> {
    let [stages] = w.inputs(["stages"])?;
    let full = Q::constant("all of it", 1.0, NUMBER);
    match w.word(&w.top(), "stages")? {
        SPRAYED => {
            let [times, share] = w.inputs(["m_x", "η"])?;
            rinse_of(stages, times, share)
        }
        DUMPED => rinse_of(stages, w.inputs::<1>(["m_x"])?[0], full),
        _ => rinse_of(stages, full, full),
    }
}

/// Of what comes in, what is in a standing rinse at its change, and in the mean.
fn shares(w: &Work) -> Result<(Q, Q), Stop> {
    let top = w.top();
    let (last, mean) = (w.optional(&top, "f_z")?, w.optional(&top, "f_za")?);
    last.zip(mean).ok_or_else(not_known)
}

fn not_known() -> Stop {
    Stop::todo("kind", "what the standing rinse comes to is not known", "See its sheet, “Standing rinse”.")
}

fn none(w: &mut Work) -> Result<Q, Stop> {
    w.answer("D", Q::constant("none", 0.0, L_PER_DAY))
}
