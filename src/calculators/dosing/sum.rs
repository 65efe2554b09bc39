//! The sum of the dosing sheet.

use super::{BY_CHARGE, BY_MINUTES, BY_TIME, BY_WAFERS, FRESH, LATER, NEXT, TABLE};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::bath_balance::Balance;
use crate::science::dosing::{counter_after, dose_now, dosed_after, lasts, trigger_interval};
use crate::units::{AH_PER_DAY, DAYS, ML_PER_AH, ML_PER_DAY, ML_PER_L, NUMBER};

/// Common practice, no source: a tenth off the dose to hold is where an additive is corrected.
const OFF: f64 = 0.1;

/// What all additives share.
struct Bath {
    volume: Q,
    wafers: Q,
    charge: Q,
    drag_out: Q,
    bleed: Q,
    is_fed_fresh: bool,
}

/// One additive as its bath uses it.
struct Use {
    dose: Q,
    /// At rates that do not hang on the concentration.
    constant: Q,
    decay: Q,
    /// All of it at the dose to hold.
    all: Q,
}

impl Bath {
    /// The balance at a rate of dosing; `more` scales what is used at constant rates.
    fn balance(&self, of: &Use, dosed: Q, more: Option<Q>) -> Balance {
        let used = more.map_or(of.constant, |more| of.constant * more);
        let gained = if self.is_fed_fresh { dosed - used + self.bleed * of.dose } else { dosed - used };
        Balance { volume: self.volume, gained, out: self.drag_out + self.bleed, decay: of.decay }
    }
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [volume, wafers, per_wafer, d_w, bleed, t_a, days] =
        w.inputs(["V", "N", "q_w", "d_w", "q_b", "t_a", "days"])?;
    let is_fed_fresh = bleed.si > 0.0 && w.word(&top, "feed")? == FRESH;
    let charge = w.step("Q_d", "Charge a day", AH_PER_DAY, wafers * per_wafer)?;
    let drag_out = w.answer("D", d_w * wafers)?;
    w.answer("Q_a", counter_after(wafers, per_wafer, t_a))?;
    let bath = Bath { volume, wafers, charge, drag_out, bleed, is_fed_fresh };
    let one_day = Q::constant("1 day", 1.0, DAYS);

    let rows = w.rows(TABLE)?;
    if rows.is_empty() {
        let remedy = "Add the additives of the bath, with what is used of each.";
        return Err(Stop::todo("C", "No additive is given", remedy));
    }
    let (mut all, mut changes): (Option<Q>, Option<Q>) = (None, None);
    let mut next: Vec<Q> = Vec::new();
    for row in &rows {
        let of = used(w, row, &bath)?;
        let [bottle] = w.of(row, ["v_b"])?;
        let pumped = doses(w, row, &bath, &of)?;
        let a_year = w.give(row, "v_y", pumped * one_day * days)?;
        let a_year = a_year / bottle;
        next.push(bottles(w, row, pumped)?);
        all = Some(all.map_or(pumped, |sum| sum + pumped));
        changes = Some(changes.map_or(a_year, |sum| sum + a_year));
    }
    w.answer("u_all", all.unwrap_or_else(|| Q::constant("none", 0.0, ML_PER_DAY)))?;
    w.answer("n_year", changes.unwrap_or_else(|| Q::constant("none", 0.0, NUMBER)))?;
    let soonest = next.iter().copied().reduce(|least, next| least.min(next));
    for (row, time) in rows.iter().zip(&next) {
        let is_next = soonest.is_some_and(|soonest| *time <= soonest);
        w.say(row, "order", if is_next { NEXT } else { LATER })?;
    }
    if let Some(soonest) = soonest {
        w.answer("t_next", soonest)?;
    }
    Ok(())
}

/// What is used a day, and by what.
fn used(w: &mut Work, row: &Row, bath: &Bath) -> Result<Use, Stop> {
    let [dose, by_wafer, by_time, decay] = w.of(row, ["C", "k_w", "k_t", "k"])?;
    let is_used = [by_wafer, by_time, decay].into_iter().any(|of| of.si > 0.0);
    let by_charge = match w.optional(row, "k_q")? {
        Some(typed) => typed,
        None if is_used => Q::constant("not counted", 0.0, ML_PER_AH),
        None => w.of::<1>(row, ["k_q"])?[0],
    };
    let by_charge = w.step_in(row, "u_q", "Used by charge", ML_PER_DAY, by_charge * bath.charge)?;
    let by_wafer = w.step_in(row, "u_w", "Used by wafers", ML_PER_DAY, by_wafer * bath.wafers)?;
    let carried = w.step_in(row, "u_d", "Carried out", ML_PER_DAY, bath.drag_out * dose)?;
    let decays = w.step_in(row, "u_k", "Decays", ML_PER_DAY, decay * bath.volume * dose)?;
    let constant = by_charge + by_wafer + by_time;
    let mut all = constant + carried + decays;
    if bath.bleed.si > 0.0 && !bath.is_fed_fresh {
        all = all + w.step_in(row, "u_b", "Bled", ML_PER_DAY, bath.bleed * dose)?;
    }
    if all.si <= 0.0 {
        let reason = format!("{}: nothing of it is used, so nothing is dosed", row.key);
        let remedy = "Give what is used by charge, by wafer or by time, its decay, or drag-out.";
        return Err(Stop::at("k_q", reason, remedy).row(&row.key));
    }
    let all = w.give(row, "u", all)?;
    Ok(Use { dose, constant, decay, all })
}

/// Doses in whole steps by the counter; where it settles; how far it may drift. Gives what is pumped a day.
fn doses(w: &mut Work, row: &Row, bath: &Bath, of: &Use) -> Result<Q, Stop> {
    let [step, hours] = w.inputs(["v_s", "hours"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let counter = w.word(row, "counter")?;
    // The counter's own rate, the answer that its interval is, and the input that sets it.
    let (rate, interval, set) = match counter {
        BY_WAFERS => (bath.wafers, "i_w", "x_w"),
        BY_TIME => (hours / one_day, "i_t", "x_t"),
        BY_MINUTES => (bath.wafers * w.inputs::<1>(["t_w"])?[0], "i_m", "x_m"),
        _ => (bath.charge, "i_q", "x_q"),
    };
    if rate.si <= 0.0 {
        let what = if counter == BY_CHARGE { "charge" } else { "wafers" };
        let reason = format!("{}: the counter stands still, for there is no {what}", row.key);
        return Err(Stop::at("counter", reason, "Dose it by time, or give wafers and charge.").row(&row.key));
    }
    let due = w.give(row, interval, trigger_interval(step, of.all / rate).or_stop("v_s")?)?;
    let every = w.optional(row, set)?.unwrap_or(due);
    let a_day = w.give(row, "n_d", rate / every)?;
    let need = w.give(row, "v_n", of.all / a_day)?;
    let set = w.optional(row, "v_t")?;
    let at_once = set.unwrap_or(need);
    let now = match w.optional(row, "v_c")? {
        Some(carried) => dose_now(at_once + carried, step),
        None => dose_now(at_once, step),
    };
    let now = w.give(row, "v_now", now.or_stop("v_s")?)?;
    w.give(row, "v_10", dosed_after(at_once, step, 10.0).or_stop("v_s")?)?;
    // A dose is never less than a step, so neither is the tooth that it makes.
    w.give(row, "saw", now.max(step) / bath.volume)?;

    let dosed = w.give(row, "g", if set.is_some() { at_once * a_day } else { of.all })?;
    let kept = bath.balance(of, dosed, None);
    settles(w, row, of, kept, set.is_some())?;
    drift(w, row, bath, of, dosed)?;
    Ok(dosed)
}

fn settles(w: &mut Work, row: &Row, of: &Use, kept: Balance, is_set: bool) -> Result<(), Stop> {
    let Ok(end) = kept.settles_at() else {
        if is_set && (kept.gained.si.abs() > 0.01 * of.all.si.abs()) {
            let way = if kept.gained.si > 0.0 { "rises" } else { "falls" };
            let text = format!("{}: with the dose that is set it {way} without end.", row.key);
            w.add_finding(row, "v_t", Severity::Caution, text);
        }
        return Ok(());
    };
    w.give(row, "τ", kept.time_constant().or_stop("V")?)?;
    if end.si < 0.0 {
        let text =
            format!("{}: with the dose that is set it is used up, for more is used than dosed.", row.key);
        w.add_finding(row, "v_t", Severity::Caution, text);
        return Ok(());
    }
    let end = w.give(row, "C_s", end)?;
    if is_set && (end.si - of.dose.si).abs() > OFF * of.dose.si {
        let (end, wanted) = (w.style.answer(end.si, ML_PER_L), w.style.answer(of.dose.si, ML_PER_L));
        let text = format!(
            "{}: with the dose that is set it settles at {end}, where {wanted} is to be held. Set what is needed at a trigger.",
            row.key
        );
        w.add_finding(row, "v_t", Severity::Caution, text);
    }
    if let Some(most) = w.optional(row, "C_high")? {
        w.at_most(row, "C_s", most, Severity::Caution, "Dose less.");
    }
    if let Some(least) = w.optional(row, "C_low")? {
        w.at_least(row, "C_s", least, Severity::Caution, "Dose more.");
    }
    Ok(())
}

/// How far it may go until the next analysis, and how long it lasts without dosing.
fn drift(w: &mut Work, row: &Row, bath: &Bath, of: &Use, dosed: Q) -> Result<(), Stop> {
    let [t_a, off] = w.inputs(["t_a", "off"])?;
    let low = w.optional(row, "C_low")?;
    let (more, less) = (1.0 + off, 1.0 - off);
    match bath.balance(of, dosed, Some(more)).after(of.dose, t_a) {
        Ok(found) => {
            w.give(row, "C_min", found)?;
            if let Some(low) = low {
                let why = "It may get there before somebody looks: analyse more often.";
                w.at_least(row, "C_min", low, Severity::Caution, why);
            }
        }
        Err(_) => {
            let text = format!(
                "{}: if that much more is used, it is used up before the next analysis. Analyse more often.",
                row.key
            );
            w.add_finding(row, "C_min", Severity::Caution, text);
        }
    }
    if let Ok(found) = bath.balance(of, dosed, Some(less)).after(of.dose, t_a) {
        w.give(row, "C_max", found)?;
        if let Some(high) = w.optional(row, "C_high")? {
            let why = "It may get there before somebody looks: analyse more often.";
            w.at_most(row, "C_max", high, Severity::Caution, why);
        }
    }
    let none = Q::constant("no dosing", 0.0, ML_PER_DAY);
    let idle = bath.balance(of, none, None);
    if let Ok(time) = idle.time_to_zero(of.dose) {
        w.give(row, "t_out", time)?;
    }
    if let Some(low) = low
        && low < of.dose
        && let Ok(time) = idle.time_to(of.dose, low)
    {
        w.give(row, "t_low", time)?;
    }
    Ok(())
}

/// How long bottles last, and when the one in use is empty.
fn bottles(w: &mut Work, row: &Row, pumped: Q) -> Result<Q, Stop> {
    let [bottle, count] = w.of(row, ["v_b", "n_b"])?;
    let left = w.optional(row, "v_l")?.unwrap_or(bottle);
    if left > bottle {
        let reason = format!("{}: more is left than a bottle holds", row.key);
        return Err(Stop::at("v_l", reason, "Check what is left and the size of the bottle.").row(&row.key));
    }
    w.give(row, "t_b", lasts(bottle * count, pumped).or_stop_row("v_t", &row.key)?)?;
    let next = lasts(left, pumped).or_stop_row("v_t", &row.key)?;
    let next = w.give(row, "t_n", next)?;
    if let Some(keeps) = w.optional(row, "t_o")? {
        let one = lasts(bottle, pumped).or_stop_row("v_t", &row.key)?;
        if one > keeps {
            let shown = w.style.answer(one.si, DAYS);
            let text =
                format!("{}: a bottle lasts {shown} and is too old by then. Take smaller ones.", row.key);
            w.add_finding(row, "t_b", Severity::Note, text);
        }
    }
    Ok(next)
}
