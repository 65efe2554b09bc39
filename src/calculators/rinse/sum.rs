//! The sum of the rinse sheet.

use super::{BY_DILUTION, BY_DRAIN, BY_LAST, DUMPED, SPRAYED, TABLE, rinse_of};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::metals;
use crate::science::rinse::{
    Rinse, diluted_conductivity, dilution, dilution_up_to, dilution_wanted, dumps_for_dilution,
    dumps_for_overflow, flow_by_root, flow_for_dilution, flow_for_overflow, flow_for_target, last_stage,
    overflow, stage, whole_dumps,
};
use crate::units::{DAYS, MG_PER_L_METAL, NUMBER, US_PER_CM};

/// All metals together: in what comes in, and in the rinse water.
struct Together {
    comes_in: Q,
    feed: Q,
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [d_w, wafers, hours] = w.inputs(["d_w", "N", "hours"])?;
    if d_w.si <= 0.0 {
        let reason = "nothing is carried in, so there is nothing to rinse";
        return Err(Stop::at("d_w", reason, "Type a drag-out above zero."));
    }
    let together = together(w)?;
    let (rinse, water) = water(w, d_w, &together)?;
    let water = w.answer("v_w", water)?;
    if water.si <= 0.0 {
        return Err(Stop::at(
            target_of(w)?,
            "that takes no rinse water",
            "Ask for less in the rinse, or for more water.",
        ));
    }
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let a_day = w.answer("Q_day", wafers * water)?;
    let flow = w.answer("q", a_day * one_day / hours)?;
    w.answer("Q_h", flow)?;
    w.answer("r", water / d_w)?;
    let times = w.answer("x", dilution(d_w, water, rinse).or_stop("d_w")?)?;
    let stages = match rinse {
        Rinse::Counterflow(stages) => {
            w.answer("v_r", flow_by_root(times, d_w, stages).or_stop("stages")?)?;
            stages
        }
        Rinse::Fresh(times, _) => times,
    };
    metals(w, d_w, water, rinse)?;
    for k in 1..=stages {
        let row = w.row(TABLE, &format!("Stage {k}"))?;
        let held = stage(together.comes_in, together.feed, d_w, water, rinse, k).or_stop("d_w")?;
        w.give(&row, "c_s", held)?;
        w.give(&row, "x_s", dilution_up_to(d_w, water, rinse, k).or_stop("d_w")?)?;
    }
    w.answer("c_T", overflow(together.comes_in, together.feed, d_w, water, rinse).or_stop("d_w")?)?;
    w.answer("c_nT", last_stage(together.comes_in, together.feed, d_w, water, rinse).or_stop("d_w")?)?;
    if target_of(w)? == "v_x" {
        if let Some(wanted) = w.optional(&top, "c_g")? {
            let why = "Wafers carry that on. A stage more in counterflow does it with the same water.";
            w.at_most(&top, "c_nT", wanted, Severity::Caution, why);
        }
    }
    if let Some(comes_in) = w.optional(&top, "κ_0")? {
        let feed = w.optional(&top, "κ_f")?.unwrap_or(Q::constant("next to none", 0.0, US_PER_CM));
        w.answer("κ_n", diluted_conductivity(comes_in, feed, times))?;
    }
    Ok(())
}

fn together(w: &mut Work) -> Result<Together, Stop> {
    let none = || Q::constant("none", 0.0, MG_PER_L_METAL);
    let (mut comes_in, mut feed) = (none(), none());
    for row in w.rows(metals::TABLE)? {
        let [c_in, c_f] = w.of(&row, ["c_in", "c_f"])?;
        (comes_in, feed) = (comes_in + c_in, feed + c_f);
    }
    let comes_in = w.step("c_0", "All metals in what comes in", MG_PER_L_METAL, comes_in)?;
    let feed = w.step("c_fT", "All metals in the rinse water", MG_PER_L_METAL, feed)?;
    Ok(Together { comes_in, feed })
}

/// How the rinse is run, and the water that a wafer takes.
fn water(w: &mut Work, d_w: Q, together: &Together) -> Result<(Rinse, Q), Stop> {
    let top = w.top();
    let target = w.word(&top, "target")?;
    let at = target_of(w)?;
    if matches!(target, BY_LAST | BY_DRAIN) && together.comes_in.si <= 0.0 {
        let reason = "how much metal comes in is still to be typed";
        return Err(Stop::todo(at, reason, "Add its metals, or go by how many times it dilutes."));
    }
    let [wanted] = w.inputs([at])?;
    let [stages] = w.inputs(["stages"])?;
    let full = Q::constant("all of it", 1.0, NUMBER);
    if w.word(&top, "stages")? == DUMPED {
        let [tank, load] = w.inputs(["V_q", "n_l"])?;
        let carried = load * d_w;
        let dumps = match target {
            BY_DILUTION => dumps_for_dilution(wanted, carried, tank).or_stop("V_q")?,
            BY_LAST => {
                let times = dilution_wanted(together.comes_in, together.feed, wanted).or_stop(at)?;
                dumps_for_dilution(times, carried, tank).or_stop("V_q")?
            }
            BY_DRAIN => {
                dumps_for_overflow(together.comes_in, together.feed, wanted, carried, tank).or_stop("V_q")?
            }
            _ => whole_dumps(wanted * load / tank).or_stop("V_q")?,
        };
        let dumps = w.answer("m_r", dumps)?;
        return Ok((rinse_of(stages, dumps, full)?, dumps * tank / load));
    }
    let (count, share) = match w.word(&top, "stages")? {
        SPRAYED => {
            let [sprays, share] = w.inputs(["m_x", "η"])?;
            (sprays, share)
        }
        _ => (stages, full),
    };
    let rinse = rinse_of(stages, count, share)?;
    w.answer("m_r", count)?;
    let water = match target {
        BY_DILUTION => flow_for_dilution(wanted, d_w, rinse).or_stop("d_w")?,
        BY_LAST => flow_for_target(together.comes_in, together.feed, wanted, d_w, rinse).or_stop(at)?,
        BY_DRAIN => flow_for_overflow(together.comes_in, together.feed, wanted, d_w, rinse).or_stop(at)?,
        _ => wanted,
    };
    Ok((rinse, water))
}

/// Metal by metal: what goes to the drain, and what stays on the wafers.
fn metals(w: &mut Work, d_w: Q, water: Q, rinse: Rinse) -> Result<(), Stop> {
    for row in w.rows(metals::TABLE)? {
        let [c_in, c_f] = w.of(&row, ["c_in", "c_f"])?;
        w.give(&row, "c_d", overflow(c_in, c_f, d_w, water, rinse).or_stop("d_w")?)?;
        w.give(&row, "c_n", last_stage(c_in, c_f, d_w, water, rinse).or_stop("d_w")?)?;
    }
    Ok(())
}

/// The input that says what is wanted.
fn target_of(w: &Work) -> Result<&'static str, Stop> {
    Ok(match w.word(&w.top(), "target")? {
        BY_DILUTION => "x_t",
        BY_LAST => "c_t",
        BY_DRAIN => "c_x",
        _ => "v_x",
    })
}
