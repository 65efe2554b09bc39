//! What streams, drains, routes and discharges ask for: water, air, stirring, containers, floor.

use super::sum::{AIR_USED, Bill, DI_WATER, TAKEN, TO_DRAINS, TO_THE_ROOM, sum_of};
use super::{DISCHARGES, DRAINS, ROUTES, SEWER, STREAMS, basis, floor};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::calculators::{drain, ion_exchange, rinse, routes, stream};
use crate::quantity::Q;
use crate::science::electricity::demand;
use crate::science::gas::amount_flow;
use crate::units::{KG, KG_PER_DAY, L_PER_DAY, NUMBER};

fn counted(number: usize) -> Q {
    Q::constant("counted", number as f64, NUMBER)
}

/// Water that rinses take in: by their streams, or by their sheets of rinse where the stream has no answer.
pub fn streams(w: &mut Work, bill: &mut Bill) -> Result<(), Stop> {
    let mut by_wafer = Vec::new();
    for row in w.rows(STREAMS)? {
        if w.word(&row, "kind")? != stream::RINSE {
            continue;
        }
        let by_stream = w.optional(&row, "Q_s")?.zip(w.optional(&row, "q_s")?);
        let by_rinse = w.optional(&row, "Q_r")?.zip(w.optional(&row, "q_r")?);
        let Some((a_day, runs)) = by_stream.or(by_rinse) else {
            bill.unknown.push(format!("{}: the stream", row.key));
            continue;
        };
        let is_by_wafer = w.optional(&row, "water")?.is_some() && w.word(&row, "water")? == stream::BY_WAFER;
        let is_at_once = w.optional(&row, "rinses")?.is_some()
            && [rinse::SPRAYED, rinse::DUMPED].contains(&w.word(&row, "rinses")?);
        let how = if is_by_wafer || is_at_once { basis::BY_DAY } else { basis::RUNS };
        if is_by_wafer || is_at_once {
            by_wafer.push(row.key.to_string());
        }
        bill.add(w, &DI_WATER, &row.key, how, runs, runs)?;
        bill.water.push(a_day);
    }
    if !by_wafer.is_empty() {
        let text = format!(
            "Given by the wafer, sprayed or dumped, and so counted with the mean flow: {}. While a valve is open it takes more.",
            by_wafer.join("; ")
        );
        w.add_finding(&w.top(), "w_p", Severity::Note, text);
    }
    Ok(())
}

/// How many drains, how many of them with a lift, what runs into them, and the air of their pumps.
pub fn drains(w: &mut Work, bill: &mut Bill, (t, pressure, hours): (Q, Q, Q)) -> Result<(), Stop> {
    let rows = w.rows(DRAINS)?;
    let mut stations = 0;
    for row in &rows {
        let Some(arrives) = w.optional(row, "q_m")? else {
            bill.unknown.push(format!("{}: the drain", row.key));
            continue;
        };
        let is_lifted = w.optional(row, "station")?.is_some() && w.word(row, "station")? == drain::PLANNED;
        stations += usize::from(is_lifted);
        let mut peak = w.optional(row, "q_p")?.unwrap_or(arrives);
        // Of all tanks one is let out at a time, as one drain has one tank.
        if let Some(dump) = w.optional(row, "q_t")? {
            peak = peak + dump;
        }
        bill.add(w, &TO_DRAINS, &row.key, basis::ARRIVES, peak, arrives)?;
        if !is_lifted {
            continue;
        }
        let name = format!("{}: lift station", row.key);
        // It pumps for the share of the time that what arrives takes.
        let all = Q::constant("all", 1.0, NUMBER);
        let share = match w.optional(row, "q_n")? {
            Some(pump) if pump.si > 0.0 => (arrives / pump).min(all),
            _ => all,
        };
        let (air, power) = (w.optional(row, "q_a")?, w.optional(row, "P_l")?);
        if air.is_none() && power.is_none() {
            bill.unknown.push(format!("{name}, power or air of its pump"));
        }
        if let Some(power) = power {
            let [factor] = w.inputs(["φ"])?;
            let both = (power, demand(power, share));
            let (peak, mean) = bill.load(w, &name, basis::PUMPS, both, (0, factor), hours)?;
            bill.add(w, &TO_THE_ROOM, &name, basis::PUMPS, peak, mean)?;
        }
        if let Some(used) = air {
            let used = amount_flow(used, t, pressure).or_stop("T_room")?;
            let pumps = demand(used, share);
            let (_, mean) = bill.add(w, &AIR_USED, &name, basis::PUMPS, used, pumps)?;
            bill.air.push(mean * hours);
        }
        match w.optional(row, "A_s")?.filter(|area| area.si > 0.0) {
            Some(area) => {
                let [c] = w.of(row, ["c_d"])?;
                let side = area.sqrt() + 2.0 * c;
                bill.add(w, &TAKEN, &name, basis::STANDS, area, side * side)?;
            }
            None => floor::missing(w, bill, format!("{name}, its floor"))?,
        }
    }
    w.answer("n_d", counted(rows.len()))?;
    w.answer("n_l", counted(stations))?;
    Ok(())
}

/// How many routes, those that have a pipe of their own to the end, and what collects and treats them.
pub fn routes(w: &mut Work, bill: &mut Bill, hours: Q) -> Result<(), Stop> {
    let mut apart = 0;
    let (mut containers, mut masses, mut sludge) = (Vec::new(), Vec::new(), Vec::new());
    let rows = w.rows(ROUTES)?;
    for row in &rows {
        let kind = w.word(row, "route")?;
        apart += usize::from(![routes::ACID_BASE, routes::DILUTE, routes::CONCENTRATE].contains(&kind));
        let mut stands = false;
        if w.optional(row, "arr")?.is_some() {
            stands = true;
            let [in_use] = w.of(row, ["arr"])?;
            let number = w.optional(row, "n_b")?.map_or(in_use, |others| in_use + others);
            containers.push(number);
            match w.optional(row, "m_f")? {
                Some(full) => masses.push(number * full),
                None => bill.unknown.push(format!("{}: collection", row.key)),
            }
        }
        let treated = [w.optional(row, "even")?, w.optional(row, "set")?, w.optional(row, "resin")?];
        if !stands
            && treated.iter().all(Option::is_none)
            && [routes::CONCENTRATE, routes::RECLAIM].contains(&kind)
        {
            bill.unknown.push(format!("{}: its container, as it has no sheet of collection", row.key));
        }
        if w.optional(row, "even")?.is_some() {
            stands = true;
            stirrers(w, bill, row, hours)?;
        }
        if w.optional(row, "set")?.is_some() {
            stands = true;
            match w.optional(row, "m_d")? {
                Some(a_day) => sludge.push(a_day),
                None => bill.unknown.push(format!("{}: precipitation", row.key)),
            }
        }
        if w.optional(row, "resin")?.is_some() {
            stands = true;
            resin(w, bill, row)?;
        }
        floor::of_place(w, bill, row, ["b_r", "t_r", "c_r"], stands.then_some("what collects or treats it"))?;
    }
    w.answer("n_r", counted(rows.len()))?;
    w.answer("n_o", counted(apart))?;
    w.answer("n_k", sum_of(&containers, NUMBER))?;
    w.answer("m_k", sum_of(&masses, KG))?;
    w.answer("m_s", sum_of(&sludge, KG_PER_DAY))?;
    Ok(())
}

/// The stirrers of a neutralisation; what their motors lose warms the room, the rest the water.
fn stirrers(w: &mut Work, bill: &mut Bill, row: &Row, hours: Q) -> Result<(), Stop> {
    let (Some(stages), Some(each)) = (w.optional(row, "N_s")?, w.optional(row, "P_s")?) else {
        bill.unknown.push(format!("{}: neutralisation", row.key));
        return Ok(());
    };
    let [factor, efficiency] = w.inputs(["φ", "η_m"])?;
    let (name, taken) = (format!("{}: stirrers", row.key), stages * each / efficiency);
    let (peak, mean) = bill.load(w, &name, basis::RUNS, (taken, taken), (0, factor), hours)?;
    let lost = 1.0 - efficiency;
    bill.add(w, &TO_THE_ROOM, &name, basis::RUNS, peak * lost, mean * lost)?;
    Ok(())
}

/// Water of a regeneration, where it is done here: all of it is counted as water.
fn resin(w: &mut Work, bill: &mut Bill, row: &Row) -> Result<(), Stop> {
    if w.word(row, "resin")? != ion_exchange::HERE {
        return Ok(());
    }
    let known = (w.optional(row, "V_b")?, w.optional(row, "s_2")?, w.optional(row, "Q_g")?);
    let (Some(bed), Some(rate), Some(a_day)) = known else {
        bill.unknown.push(format!("{}: ion exchange", row.key));
        return Ok(());
    };
    bill.add(w, &DI_WATER, &format!("{}: regeneration", row.key), basis::RINSES, bed * rate, a_day)?;
    bill.water.push(a_day);
    Ok(())
}

/// What leaves as treated water.
pub fn discharges(w: &mut Work, bill: &mut Bill) -> Result<(), Stop> {
    let mut all = Vec::new();
    for row in w.rows(DISCHARGES)? {
        let Some(a_day) = w.optional(&row, "Q_x")? else {
            bill.unknown.push(format!("{}: discharge", row.key));
            continue;
        };
        let what = w.word(&row, "what")?;
        let named = w.row(SEWER, &row.key)?;
        all.push(w.give(&named, "x_1", a_day)?);
        w.say(&named, "x_y", what)?;
    }
    w.answer("x_d", sum_of(&all, L_PER_DAY))?;
    Ok(())
}
