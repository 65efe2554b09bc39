//! The sum of the delivery line: friction, pressure, suction, filling, pump.

use super::*;
use crate::calculator::{Refuse, Stop, Work};
use crate::calculators::class_of;
use crate::quantity::Q;
use crate::science::lift::{air_from_strokes, total_head};
use crate::science::line::{
    self, Line, Liquid, bore_for_pressure, bore_for_velocity, fill_time, flow_for_pressure,
    friction_pressure, line_volume, loss_from_kv, npsh_available, pump_power, static_pressure, strokes,
    suction_lift_limit, supply_pressure,
};
use crate::science::segregation::Class;
use crate::science::{air, pipe, water};

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    liquid::check(w)?;
    let flowing = liquid::of(w)?;
    let [run, bore, wall] = w.inputs(["l", "D", "e"])?;
    let line = Line { run, bore, wall, k: fittings(w, bore)? };
    let fastest = fastest(w)?;
    let needed = pressure(w, line, flowing, fastest)?;
    by_pressure(w, line, flowing)?;
    bores(w, line, flowing, fastest)?;
    suction(w, line, flowing)?;
    filling(w, line)?;
    pump(w, flowing, needed)
}

/// Loss coefficients of all fittings and of the outlet.
fn fittings(w: &mut Work, bore: Q) -> Result<Q, Stop> {
    let [outlet] = w.inputs(["K_o"])?;
    let mut sum = outlet;
    for row in w.rows(FITTINGS)? {
        let [n] = w.of(&row, ["n"])?;
        let each = match (w.optional(&row, "K")?, w.optional(&row, "Kv")?) {
            (Some(_), Some(_)) => {
                let reason = format!("{} has a loss coefficient and a Kv", row.key);
                return Err(Stop::at("Kv", reason, "Leave one of them out.").row(&row.key));
            }
            (Some(k), None) => k,
            (None, Some(kv)) => loss_from_kv(kv, bore).or_stop_row("Kv", &row.key)?,
            (None, None) => w.of::<1>(&row, ["K"])?[0],
        };
        sum = sum + w.give(&row, "K_n", n * each)?;
    }
    w.step("ΣK", "Loss coefficients, the outlet’s with them", NUMBER, sum)
}

/// The velocity up to which it is usual to flow.
fn fastest(w: &Work) -> Result<Q, Stop> {
    let slow = matches!(class_of(w.word(&w.top(), "class")?), Class::Solvent | Class::Oxidiser);
    Ok(Q::constant("v_max", if slow { 1.0 } else { 2.0 }, M_PER_S))
}

/// Pressure needed at the start, and what it is made of.
fn pressure(w: &mut Work, line: Line, liquid: Liquid, fastest: Q) -> Result<Q, Stop> {
    let top = w.top();
    let [q, rise, end] = w.inputs(["q", "z", "p_e"])?;
    let Line { run, bore, k, wall } = line;
    let v = w.answer("v", pipe::velocity(q, bore).or_stop("D")?)?;
    w.answer("D_v", bore_for_velocity(q, fastest).or_stop("q")?)?;
    let (severity, why) = if fastest.si < 2.0 {
        (
            Severity::Caution,
            "Solvents charge up and peroxide gasses in fast flow: slower is usual, common practice.",
        )
    } else {
        (Severity::Note, "Faster than usual (common practice): it wears, hammers and charges up.")
    };
    w.at_most(&top, "v", fastest, severity, why);
    let re = w.answer("Re", pipe::reynolds(liquid.rho, v, bore, liquid.mu))?;
    let f = w.answer("f", pipe::friction_factor(re, wall / bore).or_stop("e")?)?;
    let regime = match re.si {
        re if re <= pipe::LAMINAR => LAMINAR,
        re if re < line::TURBULENT => UNSTABLE,
        _ => TURBULENT,
    };
    w.say(&top, "regime", regime)?;
    let lost = w.answer("p_f", pipe::pressure_drop(f, run, bore, k, liquid.rho, v))?;
    if regime == UNSTABLE {
        let low = pipe::pressure_drop(pipe::friction_factor_laminar(re), run, bore, k, liquid.rho, v);
        let low = w.answer("p_low", low)?;
        let [low, high] = [low, lost].map(|p| w.style.show(p.si, KPA));
        let text = format!(
            "Between Reynolds 2000 and 4000 the flow changes by itself: friction is from {low} to {high}. The greater one counts."
        );
        w.add_finding(&top, "regime", Severity::Note, text);
    }
    w.answer("k_w", lost / friction_pressure(line, liquid::water()?, q).or_stop("q")?)?;
    w.answer("p_z", static_pressure(liquid.rho, rise))?;
    let needed = w.answer("p_s", supply_pressure(lost, liquid.rho, rise, end))?;
    let head = pipe::head_lost(f, run, bore, k, v);
    w.answer("h", total_head(rise, head, end, liquid.rho))?;
    if needed.si < 0.0 {
        w.add_finding(
            &top,
            "p_s",
            Severity::Note,
            "It runs by itself, faster than wanted: it needs no pump, and a valve.",
        );
    }
    if let Some(there) = w.optional(&top, "p_av")? {
        let is_too_high = there.si <= needed.si - lost.si;
        let why = if is_too_high {
            "Rise and end alone take more than there is: no bore does, only more pressure or a lower outlet."
        } else {
            "There is less pressure than that: take a wider bore, a shorter run or more pressure."
        };
        w.at_most(&top, "p_s", there, Severity::Serious, why);
    }
    Ok(needed)
}

/// Flow and bore for a pressure that there is, and flow by gravity alone.
fn by_pressure(w: &mut Work, line: Line, liquid: Liquid) -> Result<(), Stop> {
    let top = w.top();
    let [q, rise, end] = w.inputs(["q", "z", "p_e"])?;
    let taken = static_pressure(liquid.rho, rise) + end;
    let has_resistance = line.run.si > 0.0 || line.k.si > 0.0;
    if let Some(there) = w.optional(&top, "p_av")? {
        let left = there - taken;
        if left.si > 0.0 && has_resistance {
            let left = w.step("p_l", "Left for friction", KPA, left)?;
            w.answer("q_a", flow_for_pressure(line, liquid, left).or_stop("p_av")?)?;
            w.answer("D_p", bore_for_pressure(line, liquid, q, left).or_stop("p_av")?)?;
        }
    }
    if taken.si < 0.0 && has_resistance {
        let driven = w.step("p_g", "Pressure of the fall", KPA, -taken)?;
        w.answer("q_g", flow_for_pressure(line, liquid, driven).or_stop("z")?)?;
    }
    Ok(())
}

/// The usual bores at this flow.
fn bores(w: &mut Work, line: Line, liquid: Liquid, fastest: Q) -> Result<(), Stop> {
    let [q, rise, end] = w.inputs(["q", "z", "p_e"])?;
    let there = w.optional(&w.top(), "p_av")?;
    for (name, millimetres) in TUBES {
        let bore = Q::constant("D_i", millimetres, MM);
        let line = Line { bore, ..line };
        // A wall that is rough for so narrow a bore has no known friction.
        let Ok(lost) = friction_pressure(line, liquid, q) else { continue };
        let row = w.row(BORES, name)?;
        let needed = w.give(&row, "p_b", supply_pressure(lost, liquid.rho, rise, end))?;
        let v = w.give(&row, "v_b", pipe::velocity(q, bore).or_stop("q")?)?;
        w.give(&row, "V_b", line_volume(bore, line.run))?;
        let fits = match there {
            Some(there) if needed > there => TOO_MUCH,
            _ if v > fastest => TOO_FAST,
            _ => DOES,
        };
        w.say(&row, "fits", fits)?;
    }
    Ok(())
}

/// Whether the pump sucks as high as it stands.
fn suction(w: &mut Work, line: Line, liquid: Liquid) -> Result<(), Stop> {
    let top = w.top();
    let Some(lift) = w.optional(&top, "z_s")? else { return Ok(()) };
    let [q, run, k, margin, height, t] = w.inputs(["q", "l_s", "K_s", "h_m", "z_site", "T"])?;
    if run.si > line.run.si * (1.0 + 1e-9) {
        return Err(Stop::at(
            "l_s",
            "the suction is longer than the whole line",
            "Type the part before the pump.",
        ));
    }
    let around = w.step("p_a", "Pressure of the air", KPA, air::pressure(height).or_stop("z_site")?)?;
    let class = class_of(w.word(&top, "class")?);
    let is_volatile = matches!(class, Class::Solvent | Class::Ammonia)
        || (w.word(&top, "by")? == MODEL && w.word(&top, "sub")? == VOLATILE);
    if is_volatile && w.optional(&top, "p_v")?.is_none() {
        let reason = "It has more vapour pressure than water, and how much is not known here";
        let remedy = "Type it from its data sheet, or leave the lift to the pump out.";
        return Err(Stop::todo("p_v", reason, remedy));
    }
    if class == Class::Oxidiser && lift.si > 0.0 {
        let text =
            "What gases breaks off in a suction: let peroxide and its like flow to the pump from above.";
        w.add_finding(&top, "z_s", Severity::Caution, text);
    }
    let vapour = match w.optional(&top, "p_v")? {
        Some(vapour) => vapour,
        None => {
            w.step("p_vw", "Vapour pressure, as water’s", KPA, water::vapour_pressure(t).or_stop("T")?)?
        }
    };
    let before = Line { run, k, ..line };
    let lost = friction_pressure(before, liquid, q).or_stop("K_s")?;
    let lost = w.step("h_f", "Head lost in the suction", M, lost / (liquid.rho * pipe::gravity()))?;
    let has = npsh_available(around, vapour, liquid.rho, lift, lost).or_stop("p_v")?;
    w.answer("h_s", has)?;
    let most =
        w.answer("z_m", suction_lift_limit(around, vapour, liquid.rho, lost, margin).or_stop("p_v")?)?;
    w.answer("z_sp", most - lift)?;
    if let Some(dry) = w.optional(&top, "z_dry")? {
        // The maker lifts water: a heavier liquid stands less high on the same suction.
        let dry = w.step("z_dl", "Dry lift with this liquid", M, dry * liquid::water()?.rho / liquid.rho)?;
        if lift > dry {
            let shown = w.style.show(dry.si, M);
            let text = format!(
                "Dry it lifts this liquid {shown} at most and does not start: set it lower, or keep its suction filled."
            );
            w.add_finding(&top, "z_s", Severity::Serious, text);
        }
    }
    Ok(())
}

/// What stands in the line, and how long filling takes.
fn filling(w: &mut Work, line: Line) -> Result<(), Stop> {
    let top = w.top();
    let [q, changes] = w.inputs(["q", "n_c"])?;
    let stands = w.answer("V_l", line_volume(line.bore, line.run))?;
    w.answer("V_ly", changes * stands)?;
    if let Some(volume) = w.optional(&top, "V_f")? {
        let first = if w.word(&top, "start")? == EMPTY { stands } else { Q::constant("0 L", 0.0, L) };
        w.answer("t_f", fill_time(volume, first, q).or_stop("q")?)?;
    }
    Ok(())
}

/// Strokes and air, or power, of the pump.
fn pump(w: &mut Work, liquid: Liquid, needed: Q) -> Result<(), Stop> {
    let top = w.top();
    let [q, height, t] = w.inputs(["q", "z_site", "T"])?;
    let pressure = w.optional(&top, "p_air")?;
    if let Some(stroke) = w.optional(&top, "V_st")? {
        let rate = w.answer("s", strokes(q, stroke).or_stop("V_st")?)?;
        if let Some(pressure) = pressure {
            let around = air::pressure(height).or_stop("z_site")?;
            w.answer("air", air_from_strokes(stroke, rate, pressure, around, t))?;
        }
    }
    if let Some(pressure) = pressure {
        let why = "The air does not push that hard: the pump stalls.";
        w.at_most(&top, "p_s", pressure, Severity::Serious, why);
    }
    if let Some(efficiency) = w.optional(&top, "η")?.filter(|_| needed.si > 0.0) {
        let head = needed / (liquid.rho * pipe::gravity());
        w.answer("P", pump_power(head, q, liquid.rho, efficiency).or_stop("η")?)?;
    }
    Ok(())
}
