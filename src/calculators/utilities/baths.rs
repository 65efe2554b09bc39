//! What each bath asks for, by its sheets; and what must never meet in one duct.

use super::BATHS;
use super::sum::{
    AIR_USED, Bill, COLD_WATER, COOLING, DI_WATER, EXHAUSTED, HOT_HEAT, HOT_WATER, STEAM_HEAT, TO_THE_ROOM,
};
use super::{basis, floor};
use crate::calculator::{Refuse, Row, Stop, Work};
use crate::calculators::{class_of, coil, heat_up, routes};
use crate::quantity::Q;
use crate::science::electricity::{demand, rectifier_input};
use crate::science::segregation::Class;
use crate::science::throughput::whole_chambers;
use crate::units::{DAYS, HOUR, KW, L_PER_MIN, NUMBER};

/// Counts every bath.
pub fn count(w: &mut Work, bill: &mut Bill, room: Q, service: Q) -> Result<(), Stop> {
    refuse_shared_ducts(w)?;
    for row in w.rows(BATHS)? {
        let line = w.of::<1>(&row, ["supply"])?[0].si as usize;
        let hot = w.optional(&row, "h_b")?.unwrap_or(Q::constant("24 h", 24.0, HOUR));
        let counted = heat(w, bill, &row, line, hot)?;
        coils(w, bill, &row, counted)?;
        rectifier(w, bill, &row, line)?;
        rest(w, bill, &row, hot)?;
        loss(w, bill, &row, room)?;
        water_and_air(w, bill, &row)?;
        exhaust(w, bill, &row)?;
        delivery(w, bill, &row, service)?;
        floor::of_place(w, bill, &row, ["b_b", "t_b", "c_b"], Some("its tank"))?;
    }
    Ok(())
}

/// What the liquid of a source does that is counted already.
#[derive(Clone, Copy, PartialEq)]
enum Liquid {
    Heats,
    Cools,
}

/// The heater or the liquid of a coil, with its heat; what is counted of a liquid.
fn heat(w: &mut Work, bill: &mut Bill, row: &Row, line: usize, hours: Q) -> Result<Option<Liquid>, Stop> {
    if w.optional(row, "source")?.is_none() {
        return Ok(None);
    }
    let known = (w.optional(row, "P_0")?, w.optional(row, "P_t")?, w.optional(row, "P_h")?);
    let (Some(start), Some(end), Some(hold)) = known else {
        bill.unknown.push(format!("{}: heat-up and holding", row.key));
        return Ok(None);
    };
    let none = Q::constant("none", 0.0, KW);
    let cools = start.si < 0.0;
    // What the source gives at the target is on for the share of the time that holding takes.
    let (peak, hold) = if cools { (-start, -hold) } else { (start, hold) };
    let mean = hold.max(none).min(peak);
    match w.word(row, "source")? {
        heat_up::ELECTRIC => {
            let factor = Q::constant("1", 1.0, NUMBER);
            let name = format!("{}: heater", row.key);
            bill.load(w, &name, basis::HOLDS, (peak, mean), (line, factor), hours)?;
        }
        // Of a stream so large that it stays as cold the flow is not known.
        heat_up::STEADY => {
            let heat = if cools { &COOLING } else { &STEAM_HEAT };
            bill.add(w, heat, &row.key, basis::HOLDS, peak, mean)?;
            return Ok(Some(if cools { Liquid::Cools } else { Liquid::Heats }));
        }
        _ => {
            let Some(flow) = w.optional(row, "q_c")? else { return Ok(None) };
            let at_target = if cools { -end } else { end };
            let share = if at_target.si > 0.0 {
                (hold.max(none) / at_target).min(Q::constant("all", 1.0, NUMBER))
            } else {
                Q::constant("all", 1.0, NUMBER)
            };
            let (water, heat) = if cools { (&COLD_WATER, &COOLING) } else { (&HOT_WATER, &HOT_HEAT) };
            bill.add(w, water, &row.key, basis::HOLDS, flow, demand(flow, share))?;
            bill.add(w, heat, &row.key, basis::HOLDS, peak, mean)?;
            return Ok(Some(if cools { Liquid::Cools } else { Liquid::Heats }));
        }
    }
    Ok(None)
}

/// A coil, where heat-up does not count it already.
fn coils(w: &mut Work, bill: &mut Bill, row: &Row, counted: Option<Liquid>) -> Result<(), Stop> {
    if w.optional(row, "use")?.is_none() {
        return Ok(());
    }
    let cools = w.word(row, "use")? == coil::COOL;
    if counted == Some(if cools { Liquid::Cools } else { Liquid::Heats }) {
        return Ok(());
    }
    let (Some(flow), Some(heat)) = (w.optional(row, "q_k")?, w.optional(row, "Q_k")?) else {
        bill.unknown.push(format!("{}: exchanger and coil", row.key));
        return Ok(());
    };
    let name = format!("{}: coil", row.key);
    let (water, carried) = if cools { (&COLD_WATER, &COOLING) } else { (&HOT_WATER, &HOT_HEAT) };
    bill.add(w, water, &name, basis::STEADY, flow, flow)?;
    bill.add(w, carried, &name, basis::STEADY, heat, heat)?;
    Ok(())
}

/// Direct current in the mean, and with all chambers at their highest; what is lost warms the room.
fn rectifier(w: &mut Work, bill: &mut Bill, row: &Row, line: usize) -> Result<(), Stop> {
    let Some(hours) = w.optional(row, "t_p")? else { return Ok(()) };
    let (Some(mean), Some(one)) = (w.optional(row, "I_b")?, w.optional(row, "I_1")?) else {
        bill.unknown.push(format!("{}: plating load", row.key));
        return Ok(());
    };
    let [voltage, efficiency] = w.of(row, ["U_b", "η_b"])?;
    let [factor] = w.inputs(["φ"])?;
    if one.si <= 0.0 {
        return Ok(());
    }
    // Chambers that nobody counted are as many as plate at once.
    let chambers = match w.optional(row, "n_c")? {
        Some(chambers) => chambers,
        None => whole_chambers(mean / one),
    };
    let most = (chambers * one).max(mean);
    let [peak, mean] = [most, mean].map(|current| rectifier_input(current, voltage, efficiency));
    let (peak, mean) = (peak.or_stop_row("η_b", &row.key)?, mean.or_stop_row("η_b", &row.key)?);
    let name = format!("{}: rectifier", row.key);
    let (peak, mean) = bill.load(w, &name, basis::PLATES, (peak, mean), (line, factor), hours)?;
    let lost = 1.0 - efficiency;
    bill.add(w, &TO_THE_ROOM, &name, basis::PLATES, peak * lost, mean * lost)?;
    Ok(())
}

/// Pumps, filters and the rest, from the sheet of cost.
fn rest(w: &mut Work, bill: &mut Bill, row: &Row, hours: Q) -> Result<(), Stop> {
    let Some(power) = w.optional(row, "P_e")?.filter(|power| power.si > 0.0) else { return Ok(()) };
    let share = w.optional(row, "d_e")?.unwrap_or(Q::constant("all", 1.0, NUMBER));
    let [factor] = w.inputs(["φ"])?;
    let name = format!("{}: pumps and the rest", row.key);
    let both = (power, demand(power, share));
    let (peak, mean) = bill.load(w, &name, basis::IN_USE, both, (0, factor), hours)?;
    bill.add(w, &TO_THE_ROOM, &name, basis::IN_USE, peak, mean)?;
    Ok(())
}

/// Dry loss of a warm bath; what evaporates leaves with the exhaust.
fn loss(w: &mut Work, bill: &mut Bill, row: &Row, room: Q) -> Result<(), Stop> {
    let (Some(loss), Some(t)) = (w.optional(row, "L_b")?, w.optional(row, "T_b")?) else { return Ok(()) };
    if loss.si > 0.0 && t.si > room.si {
        let heat = loss * (t - room);
        bill.add(w, &TO_THE_ROOM, &format!("{}: dry loss", row.key), basis::STEADY, heat, heat)?;
    }
    Ok(())
}

/// Water that evaporates and fills.
fn water_and_air(w: &mut Work, bill: &mut Bill, row: &Row) -> Result<(), Stop> {
    match (w.optional(row, "h_b")?, w.optional(row, "q_v")?) {
        // A cold bath gains water, and gives none back.
        (_, Some(lost)) if lost.si > 0.0 => {
            bill.add(w, &DI_WATER, &format!("{}: evaporation", row.key), basis::STEADY, lost, lost)?;
            bill.water.push(lost);
        }
        (Some(_), None) => bill.unknown.push(format!("{}: evaporation", row.key)),
        _ => (),
    }
    if let Some(fills) = w.optional(row, "q_f")?.filter(|fills| fills.si > 0.0) {
        let fills = w.step_in(row, "q_x", "Water when it is filled", L_PER_MIN, fills)?;
        bill.fills.push(fills);
    }
    Ok(())
}

/// Air drawn off, and the fan.
fn exhaust(w: &mut Work, bill: &mut Bill, row: &Row) -> Result<(), Stop> {
    if w.optional(row, "h2")?.is_none() {
        // What nobody classed yet is asked for on its own sheet.
        let class = class_of(w.word(row, "class")?);
        if class != Class::Unknown {
            bill.unknown.push(format!(
                "{}: exhaust, as its class is {} and it has no sheet of it",
                row.key,
                class.name()
            ));
        }
        return Ok(());
    }
    let (Some(all), Some(mean)) = (w.optional(row, "Q_e")?, w.optional(row, "Q_o")?) else {
        bill.unknown.push(format!("{}: exhaust", row.key));
        return Ok(());
    };
    bill.add(w, &EXHAUSTED, &row.key, basis::OPEN, all, mean)?;
    bill.replaced.extend(w.optional(row, "H_e")?);
    if let Some(fan) = w.optional(row, "P_f")?.filter(|fan| fan.si > 0.0) {
        let [factor] = w.inputs(["φ"])?;
        let all_day = Q::constant("24 h", 24.0, HOUR);
        let name = format!("{}: exhaust fan", row.key);
        // Its motor stands outside of the room.
        bill.load(w, &name, basis::ALWAYS, (fan, fan), (0, factor), all_day)?;
    }
    Ok(())
}

/// The pump of its delivery line: by air or by power, for the share of the time that its supply takes.
fn delivery(w: &mut Work, bill: &mut Bill, row: &Row, service: Q) -> Result<(), Stop> {
    if w.optional(row, "line")?.is_none() {
        return Ok(());
    }
    if w.optional(row, "V_l")?.is_none() {
        bill.unknown.push(format!("{}: delivery line", row.key));
        return Ok(());
    }
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let (how, share) = match (w.optional(row, "Q_l")?, w.optional(row, "q_d")?) {
        (Some(a_day), Some(flow)) if flow.si > 0.0 => {
            let share = a_day * one_day / service / flow;
            (basis::DELIVERS, share.min(Q::constant("all", 1.0, NUMBER)))
        }
        _ => (basis::UNKNOWN_SUPPLY, Q::constant("all", 1.0, NUMBER)),
    };
    let name = format!("{}: delivery pump", row.key);
    let is_pushed = w.optional(row, "p_d")?.is_some();
    if !is_pushed && w.optional(row, "a_k")?.is_none() && w.optional(row, "P_d")?.is_none() {
        bill.drives.push(name.clone());
    }
    if let Some(air) = w.optional(row, "a_k")? {
        let (_, mean) = bill.add(w, &AIR_USED, &name, how, air, demand(air, share))?;
        bill.air.push(mean * service);
    }
    if let Some(power) = w.optional(row, "P_d")? {
        let [factor] = w.inputs(["φ"])?;
        let both = (power, demand(power, share));
        let (peak, mean) = bill.load(w, &name, how, both, (0, factor), service)?;
        bill.add(w, &TO_THE_ROOM, &name, how, peak, mean)?;
    }
    Ok(())
}

/// Baths that share a duct, by its number, must bear each other.
fn refuse_shared_ducts(w: &Work) -> Result<(), Stop> {
    let mut seen: Vec<(f64, String, Class)> = Vec::new();
    for row in w.rows(BATHS)? {
        let Some(duct) = w.optional(&row, "duct")? else { continue };
        let class = class_of(w.word(&row, "class")?);
        let others = seen.iter().filter(|(number, ..)| *number == duct.si);
        for (_, other, other_class) in others {
            let Some(reason) = routes::conflict((&row.key, class), (other, *other_class)) else { continue };
            let reason = format!("Duct {}: {reason}", duct.si);
            let remedy = format!("Give {} a duct of its own on its sheet of exhaust.", row.key);
            return Err(Stop::at("duct", reason, remedy).row(&row.key));
        }
        seen.push((duct.si, row.key.to_string(), class));
    }
    Ok(())
}
