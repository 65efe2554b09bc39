//! The sum of the rinse sheet.

use super::{BY_DILUTION, BY_DRAIN, BY_LAST, DUMPED, SPRAYED, TABLE, TYPED, rinse_of};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::metals;
use crate::science::rinse::{
    Rinse, diluted, diluted_conductivity, dilution, dilution_up_to, dilution_wanted, dumps_for_dilution,
    dumps_for_overflow, flow_by_root, flow_for_dilution, flow_for_overflow, flow_for_target, overflow,
    whole_dumps,
};
use crate::units::{DAYS, MG_PER_L_METAL, NUMBER, US_PER_CM};

/// All metals together: in what comes in, and in the rinse water.
struct Together {
    comes_in: Q,
    feed: Q,
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let [d_w, wafers, hours] = w.inputs(["d_w", "N", "hours"])?;
    if d_w.si <= 0.0 {
        let reason = "nothing is carried in, so there is nothing to rinse";
        return Err(Stop::at("d_w", reason, "Type a drag-out above zero."));
    }
    let together = together(w)?;
    let (rinse, water) = water(w, d_w, together.as_ref())?;
    let water = w.answer("v_w", water)?;
    if water.si <= 0.0 {
        let remedy = "Ask for less in the rinse, or for more water.";
        return Err(Stop::at(target_of(w)?, "that takes no rinse water", remedy));
    }
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let a_day = w.answer("Q_day", wafers * water)?;
    let flow = w.answer("q", a_day * one_day / hours)?;
    w.answer("Q_h", flow)?;
    let r = w.answer("r", water / d_w)?;
    let times = w.answer("x", dilution(r, rinse).or_stop("stages")?)?;
    if let Rinse::Counterflow(stages) = rinse {
        w.answer("v_r", flow_by_root(times, d_w, stages).or_stop("stages")?)?;
    }
    metals(w, r, times)?;
    stages(w, r, rinse, together.as_ref())?;
    if let Some(together) = together {
        all_metals(w, r, times, &together)?;
    }
    let top = w.top();
    if let Some(comes_in) = w.optional(&top, "κ_0")? {
        let feed = w.optional(&top, "κ_f")?.unwrap_or(Q::constant("next to none", 0.0, US_PER_CM));
        w.answer("κ_n", diluted_conductivity(comes_in, feed, times))?;
    }
    Ok(())
}

/// None, where no metal is asked for.
fn together(w: &mut Work) -> Result<Option<Together>, Stop> {
    let mut sum: Option<(Q, Q)> = None;
    for row in w.rows(metals::TABLE)? {
        let [c_in, c_f] = w.of(&row, ["c_in", "c_f"])?;
        sum = Some(sum.map_or((c_in, c_f), |(comes_in, feed)| (comes_in + c_in, feed + c_f)));
    }
    let Some((comes_in, feed)) = sum else { return Ok(None) };
    let comes_in = w.step("c_0", "All metals in what comes in", MG_PER_L_METAL, comes_in)?;
    let feed = w.step("c_fT", "All metals in the rinse water", MG_PER_L_METAL, feed)?;
    Ok(Some(Together { comes_in, feed }))
}

/// How the rinse is run, and the water that a wafer takes.
fn water(w: &mut Work, d_w: Q, together: Option<&Together>) -> Result<(Rinse, Q), Stop> {
    let top = w.top();
    let target = w.word(&top, "target")?;
    let at = target_of(w)?;
    let held = || {
        let known = together.filter(|together| together.comes_in.si > 0.0);
        known.map(|together| (together.comes_in, together.feed)).ok_or_else(|| {
            let reason = "how much metal comes in is still to be typed";
            Stop::todo(at, reason, "Add its metals, or go by how many times it dilutes.")
        })
    };
    let [wanted] = w.inputs([at])?;
    let [stages] = w.inputs(["stages"])?;
    let full = Q::constant("all of it", 1.0, NUMBER);
    if w.word(&top, "stages")? == DUMPED {
        let [tank, load] = w.inputs(["V_q", "n_l"])?;
        let carried = load * d_w;
        let dumps = match target {
            BY_DILUTION => dumps_for_dilution(wanted, carried, tank).or_stop("V_q")?,
            BY_LAST => {
                let (c_0, feed) = held()?;
                let times = dilution_wanted(c_0, feed, wanted).or_stop(at)?;
                dumps_for_dilution(times, carried, tank).or_stop("V_q")?
            }
            BY_DRAIN => {
                let (c_0, feed) = held()?;
                dumps_for_overflow(c_0, feed, wanted, carried, tank).or_stop("V_q")?
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
        BY_LAST => {
            let (c_0, feed) = held()?;
            flow_for_target(c_0, feed, wanted, d_w, rinse).or_stop(at)?
        }
        BY_DRAIN => {
            let (c_0, feed) = held()?;
            flow_for_overflow(c_0, feed, wanted, d_w, rinse).or_stop(at)?
        }
        _ => wanted,
    };
    Ok((rinse, water))
}

/// Metal by metal: what stays on the wafers, and what goes to the drain.
fn metals(w: &mut Work, r: Q, times: Q) -> Result<(), Stop> {
    for row in w.rows(metals::TABLE)? {
        let [c_in, c_f] = w.of(&row, ["c_in", "c_f"])?;
        let last = w.give(&row, "c_n", diluted(c_in, c_f, times))?;
        w.give(&row, "c_d", overflow(c_in, c_f, last, r).or_stop("d_w")?)?;
    }
    Ok(())
}

/// Stage by stage.
fn stages(w: &mut Work, r: Q, rinse: Rinse, together: Option<&Together>) -> Result<(), Stop> {
    let (Rinse::Counterflow(stages) | Rinse::Fresh(stages, _)) = rinse;
    for k in 1..=stages {
        let row = w.row(TABLE, &format!("Stage {k}"))?;
        let times = w.give(&row, "x_s", dilution_up_to(r, rinse, k).or_stop("stages")?)?;
        if let Some(together) = together {
            w.give(&row, "c_s", diluted(together.comes_in, together.feed, times))?;
        }
    }
    Ok(())
}

/// Why the drain is too rich, and what would do.
const TOO_RICH: &str = "Spin longer or faster over the bath; or let a first rinse of its own, with little water, go to the concentrate route, and this one follow it. More stages do not dilute it.";

/// All metals together, and whether they are more than was wanted.
fn all_metals(w: &mut Work, r: Q, times: Q, together: &Together) -> Result<(), Stop> {
    let top = w.top();
    let last = w.answer("c_nT", diluted(together.comes_in, together.feed, times))?;
    w.answer("c_T", overflow(together.comes_in, together.feed, last, r).or_stop("d_w")?)?;
    let target = w.word(&top, "target")?;
    let at_drain = if target == BY_DRAIN { None } else { w.optional(&top, "c_y")? };
    if let Some(wanted) = at_drain {
        w.at_most(&top, "c_T", wanted, Severity::Caution, TOO_RICH);
    }
    let in_last = if target == TYPED { w.optional(&top, "c_g")? } else { None };
    if let Some(wanted) = in_last {
        let why = "Wafers carry that on. A stage more in counterflow does it with the same water.";
        w.at_most(&top, "c_nT", wanted, Severity::Caution, why);
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
