//! The sum of the supply, liquid by liquid.

use super::rule::{Case, Limits, ORDER, against, suits};
use super::*;
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::calculators::{class_of, routes};
use crate::quantity::Q;
use crate::science::container::{calendar_time, filled_mass, lifting_limit, time_to_full, usable};
use crate::science::segregation::Class;

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    refuse(w)?;
    let limits = limits(w)?;
    let (mut all, mut changes) = (Q::constant("none", 0.0, L_PER_DAY), Q::constant("none", 0.0, NUMBER));
    let (mut soonest, mut most) = (None, NOTHING);
    let mut ways = ORDER.map(|_| (0.0, Q::constant("none", 0.0, L_PER_DAY), 0.0));
    for row in w.rows(LIQUIDS)? {
        let hazard = hazard(w, &row)?;
        w.say(&row, "hz", hazard)?;
        let (day, at_once) = used(w, &row)?;
        all = all + day;
        if day.si <= 0.0 && at_once.si <= 0.0 {
            w.say(&row, "way", NOTHING)?;
            w.say(&row, "why", NO_LIQUID)?;
            continue;
        }
        let [lasts, run, rise] = w.inputs(["t_w", "l", "z"])?;
        let between = day * lasts;
        let case = Case { hazard, day, at_once, between, run, rise };
        let (way, why) = suits(&case, &limits);
        w.say(&row, "way", way)?;
        w.say(&row, "why", why)?;
        let chosen = planned(w, &row, &case, &limits, way)?;
        for (known, (count, sum, does)) in ORDER.iter().zip(&mut ways) {
            if *known == chosen {
                (*count, *sum) = (*count + 1.0, *sum + day);
            }
            if against(known, &case, &limits).is_none() {
                *does += 1.0;
            }
        }
        let place = |way: &str| ORDER.iter().position(|known| *known == way);
        if place(way) > place(most) {
            most = way;
        }
        if let Some((time, number)) = container(w, &row, day, between)? {
            soonest = Some(soonest.map_or(time, |known: Q| known.min(time)));
            changes = changes + number;
        }
        weigh(w, &row)?;
    }
    for (way, (count, sum, does)) in ORDER.into_iter().zip(ways) {
        let row = w.row(WAYS, way)?;
        w.give(&row, "n_w", Q::constant("count", count, NUMBER))?;
        w.give(&row, "Q_w", sum)?;
        w.give(&row, "n_ok", Q::constant("count", does, NUMBER))?;
    }
    w.say(&w.top(), "most", most)?;
    w.answer("Q_all", all)?;
    w.answer("n_all", changes)?;
    if let Some(soonest) = soonest {
        w.answer("t_min", soonest)?;
    }
    water(w)
}

/// The limits of the rule.
fn limits(w: &Work) -> Result<Limits, Stop> {
    let [poured_a_day, poured_at_once, beside, tube_run, tube_rise, cabinet, cabinet_run, part] =
        w.inputs(["q_p", "v_p", "v_d", "l_d", "z_d", "v_k", "l_k", "f_u"])?;
    let (beside, cabinet) = (usable(beside, part), usable(cabinet, part));
    Ok(Limits { poured_a_day, poured_at_once, beside, tube_run, tube_rise, cabinet, cabinet_run })
}

/// How a liquid is handled: as chosen, or by its name.
fn hazard(w: &Work, row: &Row) -> Result<&'static str, Stop> {
    match w.word(row, "as")? {
        BY_NAME => Ok(meets::hazard_by_name(&row.key)),
        chosen => Ok(chosen),
    }
}

/// What must not meet in the bath or in one cabinet is refused.
fn refuse(w: &Work) -> Result<(), Stop> {
    let bath = class_of(w.word(&w.top(), "class")?);
    let rows = w.rows(LIQUIDS)?;
    let mut shared: Vec<(&Row, Class)> = Vec::new();
    for row in &rows {
        let Some(class) = meets::class_by(hazard(w, row)?) else { continue };
        if let Some(reason) = routes::bath_conflict((&row.key, class), bath) {
            return Err(Stop::at(
                "as",
                reason,
                "Bring it to no bath of that class; say the bath’s class, if it is not known.",
            )
            .row(&row.key));
        }
        if w.word(row, "store")? == SHARED {
            let other = shared
                .iter()
                .find_map(|(other, known)| routes::conflict((&row.key, class), (&other.key, *known)));
            if let Some(reason) = other {
                let remedy =
                    format!("Give {} a cabinet of its own, with its own containment and exhaust.", row.key);
                return Err(Stop::at("store", reason, remedy).row(&row.key));
            }
            shared.push((row, class));
        }
    }
    Ok(())
}

/// What is used of a liquid on a mean day, and most at one time.
fn used(w: &mut Work, row: &Row) -> Result<(Q, Q), Stop> {
    let top = w.top();
    let [mut day] = w.of(row, ["q_o"])?;
    if let Some(dosed) = w.optional(row, "u")? {
        day = day + dosed;
    }
    let mut at_once = Q::constant("0 L", 0.0, L);
    for (volume, every) in [("v_m", "t_m"), ("v_c", "t_k")] {
        let Some(volume) = w.optional(row, volume)? else { continue };
        at_once = at_once.max(volume);
        if let Some(every) = w.optional(&top, every)? {
            day = day + volume / every;
        }
    }
    Ok((w.give(row, "q_d", day)?, w.give(row, "v_1", at_once)?))
}

/// The way that is planned, with what speaks against it.
fn planned(
    w: &mut Work,
    row: &Row,
    case: &Case,
    limits: &Limits,
    suits: &'static str,
) -> Result<&'static str, Stop> {
    let plan = w.word(row, "plan")?;
    if plan == AS_SUITS {
        return Ok(suits);
    }
    if let Some(why) = against(plan, case, limits) {
        let severity = if why == HAZARD { Severity::Serious } else { Severity::Caution };
        let text = format!("{}, {plan}: {why} speaks against it. What suits it: {suits}.", row.key);
        w.add_finding(row, "way", severity, text);
    }
    Ok(plan)
}

/// How long its container lasts, and how many are changed a year.
fn container(w: &mut Work, row: &Row, day: Q, between: Q) -> Result<Option<(Q, Q)>, Stop> {
    let [part, days, lasts] = w.inputs(["f_u", "days", "t_w"])?;
    let enough = SIZES
        .into_iter()
        .map(|litres| Q::constant("v", litres, L))
        .find(|size| usable(*size, part) >= between);
    let enough = match enough.filter(|_| day.si > 0.0) {
        Some(size) => Some(w.give(row, "v_r", size)?),
        None => None,
    };
    let (Some(brim), true) = (w.optional(row, "v_b")?, day.si > 0.0) else { return Ok(None) };
    let time = w.give(row, "t_c", time_to_full(usable(brim, part), day).or_stop("days")?)?;
    let number = w.give(row, "n_c", days * Q::constant("1 day", 1.0, DAYS) / time)?;
    if time.si < lasts.si * (1.0 - 1e-9) {
        let [has, wanted] = [time, lasts].map(|time| w.style.show(time.si, DAYS));
        let larger = enough.map_or(String::from("no usual one lasts so long"), |size| {
            format!("one of {} does", w.style.show(size.si, L))
        });
        let text =
            format!("{}: its container lasts {has}, less than the {wanted} wanted; {larger}.", row.key);
        w.add_finding(row, "t_c", Severity::Note, text);
    }
    if let Some(keeps) = w.optional(row, "t_o")? {
        let open = calendar_time(time, days).or_stop("days")?;
        if open > keeps {
            let [open, keeps] = [open, keeps].map(|time| w.style.show(time.si, DAYS));
            let text = format!(
                "{}: a container stands open for {open}, and keeps {keeps}. Take a smaller one.",
                row.key
            );
            w.add_finding(row, "t_o", Severity::Caution, text);
        }
    }
    Ok(Some((time, number)))
}

/// What a full container holds, in mass.
fn weigh(w: &mut Work, row: &Row) -> Result<(), Stop> {
    let (Some(brim), Some(rho)) = (w.optional(row, "v_b")?, w.optional(row, "ρ")?) else { return Ok(()) };
    let mass = w.give(row, "m_c", filled_mass(brim, rho, Q::constant("0 kg", 0.0, KG)))?;
    if mass > lifting_limit() {
        let shown = w.style.show(mass.si, KG);
        let text = format!(
            "{}: a full container holds {shown}, more than one person lifts at best (23 kg, NIOSH 94-110): trolley, drum truck or hoist.",
            row.key
        );
        w.add_finding(row, "m_c", Severity::Note, text);
    }
    Ok(())
}

/// Water that evaporates comes from its own line.
fn water(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [evaporates, poured] = w.inputs(["q_w", "q_p"])?;
    let needed = w.answer("Q_DI", evaporates.max(Q::constant("0 L/day", 0.0, L_PER_DAY)))?;
    if needed > poured {
        let shown = w.style.show(needed.si, L_PER_DAY);
        let text = format!(
            "{shown} of water evaporate: a line of DI water with a level control that cannot overfill, not a can."
        );
        w.add_finding(&top, "Q_DI", Severity::Note, text);
    }
    Ok(())
}
