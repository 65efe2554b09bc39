//! How often each component is due, and the level that suits.

use super::*;
use crate::calculator::{Row, Severity, Stop, Work};
use crate::calculators::choose::choose;
use crate::quantity::Q;

/// What the components ask for together.
struct Wanted {
    components: usize,
    takes_instrument: bool,
    takes_test_cell: bool,
    /// Determinations a day.
    a_day: Q,
    /// The component due most often, in days of service.
    soonest: Q,
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let wanted = wanted(w)?;
    let [volume, hours, there, has, sample] = w.inputs(["V", "hours", "t_s", "t_p", "v_s"])?;
    let [n_h, t_h, t_b, t_c, x_m] = w.inputs(["n_h", "t_h", "t_b", "t_c", "x_m"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    // A day of service is these hours.
    let interval = w.answer("t_n", wanted.soonest * hours / one_day)?;
    let a_day = w.answer("n_d", wanted.a_day)?;
    let taken = w.answer("x_s", sample / volume * one_day / wanted.soonest)?;
    let [m_h, m_b, m_a] = w.inputs(["m_h", "m_b", "m_a"])?;
    let hands = ORDER.map(|level| match level {
        BY_HAND => a_day * m_h * one_day,
        BENCH => a_day * m_b * one_day,
        _ => m_a,
    });
    for (level, minutes) in ORDER.into_iter().zip(hands) {
        let row = w.row(LEVELS, level)?;
        w.give(&row, "m_l", minutes)?;
    }
    // While nobody is there who can analyse, a sample that falls due waits.
    let is_alone = hours - there > interval;
    let criteria = [("by_m", METHODS), ("by_f", OFTEN), ("by_p", PEOPLE), ("by_n", NOBODY), ("by_v", VOLUME)];
    let choice = choose(w, LEVELS, &ORDER, &criteria, |level, criterion| {
        let is_manned = [BY_HAND, BENCH].contains(&level);
        Some(match criterion {
            "by_m" if level == BY_HAND => wanted.takes_instrument || wanted.components as f64 > n_h.si,
            "by_m" => !is_manned && wanted.takes_test_cell,
            "by_f" => match level {
                BY_HAND => interval < t_h,
                BENCH => interval < t_b,
                AUTOMATIC => interval < t_c,
                _ => false,
            },
            "by_p" => ORDER.iter().zip(hands).any(|(known, takes)| *known == level && takes > has),
            "by_n" => is_manned && is_alone,
            _ => taken > x_m,
        })
    })?;
    w.say(&top, "level", choice.suits.unwrap_or(NONE))?;
    w.say(&top, "why", choice.why)?;
    if choice.suits.is_none() {
        let text = "No level serves this bath as it stands: let it drift less (doses by count that are nearer), let it be off by more, or give people more time.";
        w.add_finding(&top, "level", Severity::Caution, text);
    }
    choice.check_plan(w, "plan")
}

/// Component by component: its drift, and how often it is due.
fn wanted(w: &mut Work) -> Result<Wanted, Stop> {
    let rows = w.rows(TABLE)?;
    let [latest, daily] = w.inputs(["t_x", "t_pH"])?;
    let mut not_counted = Vec::new();
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let mut wanted = Wanted {
        components: rows.len(),
        takes_instrument: false,
        takes_test_cell: false,
        a_day: Q::constant("none", 0.0, PER_DAY),
        soonest: latest,
    };
    if rows.is_empty() {
        let remedy = "Add what the bath is analysed for, or make the bath up.";
        return Err(Stop::todo("method", "No component is listed", remedy));
    }
    for row in &rows {
        let is_dosed = w.optional(row, "u")?.is_some();
        let listed = if w.optional(row, "is_b")?.is_some() { w.word(row, "is_b")? } else { "" };
        let is_ph = listed == sort::BY_PH || &*row.key == sort::PH;
        let is_additive = is_dosed || listed == sort::ADDITIVE;
        if is_additive && !is_dosed && w.optional(row, "x")?.is_none() {
            not_counted.push(row.key.to_string());
        }
        match w.word(row, "method")? {
            INSTRUMENT => wanted.takes_instrument = true,
            TEST_CELL => wanted.takes_test_cell = true,
            AS_USUAL if is_additive => wanted.takes_instrument = true,
            _ => {}
        }
        let [band] = w.of(row, ["b"])?;
        if let Some(target) = w.optional(row, "c_C")? {
            w.give(row, "b_C", band * target)?;
        }
        let (latest, at_latest) = if is_ph { (latest.min(daily), READ_DAILY) } else { (latest, LATEST) };
        let drift = match drift(w, row, is_ph)? {
            Some(drift) => Some(w.give(row, "x_k", drift)?),
            None => None,
        };
        let lasts = drift.filter(|drift| drift.si > 0.0).map(|drift| band / drift * one_day);
        let (every, why) = match lasts.filter(|lasts| *lasts < latest) {
            Some(lasts) => (lasts, DRIFT),
            None if drift.is_none() && !is_ph => (latest, NOT_KNOWN),
            None => (latest, at_latest),
        };
        if every.si <= 0.0 {
            let remedy = "Type a time above zero.";
            let at = if is_ph { "t_pH" } else { "t_x" };
            return Err(Stop::at(at, "Nothing can be due every moment", remedy));
        }
        let every = w.give(row, "t_k", every)?;
        w.say(row, "why_k", why)?;
        let often = w.give(row, "n_k", Q::from(1.0) / every)?;
        (wanted.a_day, wanted.soonest) = (wanted.a_day + often, wanted.soonest.min(every));
    }
    if !not_counted.is_empty() {
        let text = format!(
            "What current, wafers and time use up is not counted of: {}. Add the sheet of additive dosing, or type the drift of each.",
            not_counted.join(", ")
        );
        w.add_finding(&w.top(), "t_n", Severity::Note, text);
    }
    Ok(wanted)
}

/// What a component drifts a day, of what is wanted: as known; of a dosed additive what its doses do not meet; of a
/// metal what the anode does not give back; else what drag-out takes, but for a pH. `None` if none of that is known.
fn drift(w: &mut Work, row: &Row, is_ph: bool) -> Result<Option<Q>, Stop> {
    let [volume, drag_out, off] = w.inputs(["V", "D", "off"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    if let Some(known) = w.optional(row, "x")? {
        return Ok(Some(known));
    }
    if let (Some(used), Some(dose)) = (w.optional(row, "u")?, w.optional(row, "C")?) {
        return Ok(Some(off * used * one_day / (volume * dose)));
    }
    let target = w.optional(row, "c_C")?.filter(|target| target.si > 0.0);
    if let (Some(metal), Some(target)) = (w.optional(row, "m_r")?, target) {
        let metal = metal.max(-metal) / Q::constant("metal", 100.0, PERCENT_METAL);
        return Ok(Some(metal * one_day / (volume * target)));
    }
    Ok((drag_out.si > 0.0 && !is_ph).then(|| drag_out * one_day / volume))
}
