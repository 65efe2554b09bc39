//! The sum of the collection: filling, changing, catching, lifting, taking away.

use super::*;
use crate::calculator::{Refuse, Stop, Work};
use crate::quantity::Q;
use crate::science::container::{
    calendar_time, containers_for, containment, containment_of_largest, fill_limit, filled_mass,
    lifting_limit, metal_held, pick_ups_a_year, pump_out_time, time_to_full, usable, warning_time,
};
use crate::science::cost::cost_of;
use crate::science::water;
use crate::units::KG_PER_M3;

/// One container, and what comes.
struct Filled {
    brim: Q,
    usable: Q,
    peak: Q,
    dump: Q,
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    meets::refuse(w)?;
    let filled = fill(w)?;
    weigh(w, &filled)?;
    alarms(w, &filled)?;
    ways(w, &filled)?;
    catch(w)?;
    let all = pick_up(w, &filled)?;
    metals(w, &filled)?;
    price(w, all)?;
    if let Some(pump) = w.optional(&w.top(), "q_e")?.filter(|pump| pump.si > 0.0) {
        let [heel] = w.inputs(["V_h"])?;
        w.answer("t_e", pump_out_time(filled.usable, heel, pump).or_stop("V_h")?)?;
    }
    meets::remarks(w)
}

/// How soon it is full, in the mean and at the peak, and how full it may be.
fn fill(w: &mut Work) -> Result<Filled, Stop> {
    let top = w.top();
    let [mean, dump, days, brim, f] = w.inputs(["Q", "V_1", "days", "V", "f"])?;
    let peak = w.optional(&top, "q_p")?.unwrap_or(mean);
    if peak.si < mean.si * (1.0 - 1e-9) {
        return Err(Stop::at(
            "q_p",
            "The peak flow is less than the day’s volume spread over the day.",
            "Type all that may run at one time, or leave it out.",
        ));
    }
    let usable = w.answer("V_u", usable(brim, f))?;
    let lasts = w.answer("t_d", time_to_full(usable, mean).or_stop("Q")?)?;
    w.answer("t_cal", calendar_time(lasts, days).or_stop("days")?)?;
    w.answer("t_pk", time_to_full(usable, peak).or_stop("Q")?)?;
    let [cold, hot, share, grows] = w.inputs(["T_1", "T_2", "s_h", "grow"])?;
    let rho_1 =
        w.step("ρ_1", "Density of water as it is filled", KG_PER_M3, water::density(cold).or_stop("T_1")?)?;
    let rho_2 =
        w.step("ρ_2", "Density of water when it is hottest", KG_PER_M3, water::density(hot).or_stop("T_2")?)?;
    if rho_2.si > rho_1.si {
        return Err(Stop::at(
            "T_2",
            "it is hottest below the temperature at which it is filled",
            "Type the higher one here.",
        ));
    }
    let most = w.answer("V_w", fill_limit(brim, share, rho_1, rho_2, grows).or_stop("T_2")?)?;
    w.at_most(&top, "V_u", most, Severity::Caution, "It grows as it warms and runs over: fill it less.");
    Ok(Filled { brim, usable, peak, dump })
}

/// What a full one weighs.
fn weigh(w: &mut Work, filled: &Filled) -> Result<(), Stop> {
    let top = w.top();
    let [rho, empty, marked] = w.inputs(["ρ", "m_t", "ρ_u"])?;
    let full = w.answer("m_f", filled_mass(filled.usable, rho, empty))?;
    let limit = lifting_limit();
    w.say(&top, "lift", if full.si > limit.si { BY_AIDS } else { BY_HAND })?;
    if [CARBOY, BOTTLE, GLASS].contains(&w.word(&top, "what")?) {
        let why = "That is the most that one person lifts in the best posture (NIOSH 94-110): take a smaller one, or a trolley and a hoist.";
        w.at_most(&top, "m_f", limit, Severity::Caution, why);
    }
    if rho.si > marked.si * (1.0 + 1e-9) {
        let [has, bears] = [rho, marked].map(|rho| w.style.show(rho.si, KG_PER_L));
        let text = format!(
            "The liquid has {has}, and the container is marked for {bears} at most. Take one that is marked for it."
        );
        w.add_finding(&top, "ρ", Severity::Serious, text);
    }
    Ok(())
}

/// The levels at which something happens, and what has no level.
fn alarms(w: &mut Work, filled: &Filled) -> Result<(), Stop> {
    let top = w.top();
    let [call, full, over, rho, empty] = w.inputs(["a", "f", "f_h", "ρ", "m_t"])?;
    if over.si <= full.si {
        let reason = "The overfill switch stands no higher than what counts as full.";
        return Err(Stop::at("f_h", reason, "Set it above the usable part."));
    }
    w.answer("t_w", warning_time(filled.brim, full, call, filled.peak).or_stop("a")?)?;
    let is_dual = w.word(&top, "arr")? == DUAL;
    let levels = [
        ("Call", Some(call), CALLS),
        ("Full", Some(full), if is_dual { CHANGES } else { CLOSES }),
        ("Overfill", Some(over), CUTS),
        ("Leak in the containment", None, CUTS),
        ("Exhaust lost", None, CUTS),
    ];
    for (name, share, does) in levels {
        let row = w.row(ALARMS, name)?;
        w.say(&row, "does", does)?;
        if let Some(share) = share {
            w.give(&row, "f_a", share)?;
            let volume = w.give(&row, "V_a", usable(filled.brim, share))?;
            w.give(&row, "m_a", filled_mass(volume, rho, empty))?;
        }
    }
    Ok(())
}

/// One container against two in turn: what stops, what is left for a dump, what is to be caught.
fn ways(w: &mut Work, filled: &Filled) -> Result<(), Stop> {
    let top = w.top();
    let [call, full, days, mean] = w.inputs(["a", "f", "days", "Q"])?;
    let (there, swap) = (w.optional(&top, "t_r")?, w.optional(&top, "t_s")?);
    let warned = warning_time(filled.brim, full, call, filled.peak).or_stop("a")?;
    let turn = time_to_full(filled.usable, filled.peak).or_stop("Q")?;
    let year = w.step("V_y", "Collected in a year", L, mean * days * Q::constant("1 day", 1.0, DAYS))?;
    let chosen = w.word(&top, "arr")?;
    for way in [SINGLE, DUAL] {
        let row = w.row(WAYS, way)?;
        let is_dual = way == DUAL;
        w.say(&row, "gives", if is_dual { GOES_ON } else { STOPS })?;
        let in_time = w.give(&row, "t_g", if is_dual { turn } else { warned })?;
        if let (Some(there), Some(swap)) = (there, swap) {
            let none = Q::constant("0 min", 0.0, MINUTE);
            // Two in turn stop only where the full one is not gone before the other is full.
            let late = none.max(if is_dual { there + swap - in_time } else { there - in_time });
            let stopped = w.give(&row, "t_x", if is_dual { late } else { late + swap })?;
            w.give(&row, "t_xy", stopped * (year / filled.usable))?;
            if way == chosen && late.si > 0.0 {
                let text = format!(
                    "At the peak it is full {} before {}. Call sooner, be there sooner, or take a larger container.",
                    w.style.show(late.si, MINUTE),
                    if is_dual { "the other one is changed" } else { "somebody is there" }
                );
                w.add_finding(&top, "t_w", Severity::Caution, text);
            }
        }
        let room = if is_dual { filled.usable } else { filled.brim * (full - call) };
        let room = w.give(&row, "V_r", room)?;
        let spare = w.give(&row, "V_rs", room - filled.dump)?;
        if way == chosen {
            w.answer("spare", spare)?;
        }
        let (_, published, _) = caught(w, if is_dual { 2.0 } else { 1.0 })?;
        w.give(&row, "V_n", published)?;
    }
    Ok(())
}

/// The largest container there, the containment by the published rule, and by 110 % of the largest.
fn caught(w: &Work, in_use: f64) -> Result<(Q, Q, Q), Stop> {
    let [brim, beside, others] = w.inputs(["V", "n_s", "V_x"])?;
    let mut largest = brim;
    if others.si > 0.0 {
        let [other] = w.inputs(["V_l"])?;
        if other.si > others.si * (1.0 + 1e-9) {
            return Err(Stop::at("V_l", "the largest is more than all of them", "Type its own volume."));
        }
        largest = brim.max(other);
    }
    let total = (Q::from(in_use) + beside) * brim + others;
    Ok((largest, containment(total, largest), containment_of_largest(largest)))
}

/// What must be caught under the arrangement chosen, and whether it is.
fn catch(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let in_use = if w.word(&top, "arr")? == DUAL { 2.0 } else { 1.0 };
    let (_, published, practice) = caught(w, in_use)?;
    let published = w.answer("V_need", published)?;
    let practice = w.answer("V_110", practice)?;
    let Some(holds) = w.optional(&top, "V_c")? else { return Ok(()) };
    w.answer("V_sp", holds - published)?;
    if holds.si >= published.si && holds.si < practice.si * (1.0 - 1e-9) {
        let text = "The containment holds what the federal rule asks and less than 110 % of the largest container, which many local codes and insurers ask.";
        w.add_finding(&top, "V_c", Severity::Note, text);
    }
    Ok(())
}

/// Containers a year, how often somebody comes, and the next times; gives containers and pick-ups a year.
fn pick_up(w: &mut Work, filled: &Filled) -> Result<[Q; 2], Stop> {
    let top = w.top();
    let [mean, days, at_once, held] = w.inputs(["Q", "days", "n_p", "V_0"])?;
    if held.si > filled.brim.si {
        return Err(Stop::at(
            "V_0",
            "there is more in it than it holds",
            "Type what is in the one that fills now.",
        ));
    }
    let year = mean * days * Q::constant("1 day", 1.0, DAYS);
    let all = w.answer("n_y", containers_for(year, filled.usable).or_stop("V")?)?;
    let allowed = w.optional(&top, "t_a")?;
    let by_calendar = |volume: Q| {
        let full = calendar_time(volume / mean, days);
        full.map(|full| allowed.map_or(full, |allowed| full.min(allowed)))
    };
    let every = by_calendar(at_once * filled.usable).or_stop("days")?;
    let every = w.answer("t_up", every)?;
    let ups = w.answer("n_up", pick_ups_a_year(every).or_stop("n_p")?)?;
    let whole = calendar_time(at_once * filled.usable / mean, days).or_stop("days")?;
    if let Some(allowed) = allowed.filter(|allowed| whole.si > allowed.si * (1.0 + 1e-9)) {
        let text = format!(
            "It goes after {}, before {} full: that is as long as it may stand. Smaller or fewer containers at a pick-up would go full.",
            w.style.show(allowed.si, DAYS),
            if at_once.si > 1.0 { "all are" } else { "it is" }
        );
        w.add_finding(&top, "t_up", Severity::Caution, text);
    }
    let none = Q::constant("0 L", 0.0, L);
    let left = none.max(at_once * filled.usable - held);
    let mut next = by_calendar(left).or_stop("days")?;
    for name in ["First", "Second", "Third", "Fourth"] {
        let row = w.row(PICK_UPS, name)?;
        next = w.give(&row, "t_n", next)? + every;
    }
    Ok([all, ups])
}

/// Metal in a full one, and what it is worth.
fn metals(w: &mut Work, filled: &Filled) -> Result<(), Stop> {
    let mut together = Q::constant("none", 0.0, KG_METAL);
    let mut worth = None;
    for row in w.rows(metals::TABLE)? {
        let [c] = w.of(&row, ["c_M"])?;
        let held = w.give(&row, "m_M", metal_held(filled.usable, c))?;
        together = together + held;
        if let Some(price) = w.optional(&row, "p_M")? {
            let value = w.give(&row, "w_M", cost_of(held, price))?;
            worth = Some(worth.map_or(value, |sum: Q| sum + value));
        }
    }
    w.answer("m_T", together)?;
    worth.map_or(Ok(()), |worth| w.answer("worth", worth).map(drop))
}

/// What taking away costs in a year, of what has a price.
fn price(w: &mut Work, [all, ups]: [Q; 2]) -> Result<(), Stop> {
    let top = w.top();
    let each = w.optional(&top, "p_c")?.map(|price| cost_of(all, price));
    let visit = w.optional(&top, "p_u")?.map(|price| cost_of(ups, price));
    let cost = match (each, visit) {
        (Some(each), Some(visit)) => Some(each + visit),
        (one, other) => one.or(other),
    };
    cost.map_or(Ok(()), |cost| w.answer("cost", cost).map(drop))
}
