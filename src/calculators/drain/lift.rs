//! The lift station of a drain: volume, time to overflow, head, air.

use super::*;
use crate::calculator::{Refuse, Stop, Work};
use crate::quantity::Q;
use crate::science::lift::{
    air_free, level_rise, ride_through, ride_through_weak_pump, run_fraction, starts_per_time, stop_level,
    storage_for_dump, total_head, volume_for_starts,
};
use crate::science::pipe::{friction_factor, head_lost, reynolds, velocity};
use crate::science::{air, gas};

/// A tank that may be let out.
pub(super) struct Tank {
    pub(super) area: Q,
    pub(super) level: Q,
    pub(super) cd: Q,
    pub(super) valve: Q,
    pub(super) peak: Q,
}

/// Answers for a station that is planned.
pub(super) fn station(w: &mut Work, q_m: Q, q_p: Q, tank: &Option<Tank>) -> Result<(), Stop> {
    let top = w.top();
    let pump = match w.optional(&top, "q_pump")? {
        Some(pump) => pump,
        None if q_p.si > 0.0 => 2.0 * q_p,
        None => {
            let text = "The lift station has no volume and no head yet: neither the pump’s flow nor what arrives is known.";
            w.add_finding(&top, "q_pump", Severity::Note, text);
            return Ok(());
        }
    };
    let pump = w.answer("q_lift", pump)?;
    w.answer("run", run_fraction(q_p, pump).or_stop("q_pump")?)?;
    let [starts, pipes, reaction] = w.inputs(["s", "V_p", "t_r"])?;
    let reserve = w.optional(&top, "V_o")?;
    let between = w.answer("V_b", volume_for_starts(pump, starts).or_stop("s")?)?;
    let between = yours(w, q_p, pump, starts)?.unwrap_or(between);
    for (symbol, inflow) in [("t_o", q_p), ("t_om", q_m)] {
        if let Some(Ok(time)) = reserve.map(|reserve| ride_through(reserve, pipes, inflow, reaction)) {
            w.answer(symbol, time)?;
        }
    }
    if let (Some(reserve), Some(weak)) = (reserve, w.optional(&top, "q_w")?)
        && let Ok(time) = ride_through_weak_pump(reserve, q_p, weak)
    {
        w.answer("t_ow", time)?;
    }
    if let Some(Tank { area, level, cd, valve, .. }) = *tank {
        // What arrives on the mean takes its part of the pump meanwhile.
        let stored = storage_for_dump(area, level, cd, valve, pump - q_m).or_stop("d_v")?;
        let stored = w.answer("V_st", stored)?;
        if let Some(reserve) = reserve {
            w.answer("V_spare", between + reserve - stored)?;
        }
    }
    stop(w, q_p)?;
    head(w, pump)?;
    if let Some(pressure) = w.optional(&top, "p_air")? {
        let [factor, height, t] = w.inputs(["k_air", "z_site", "T_room"])?;
        let around = air::pressure(height).or_stop("z_site")?;
        let around = w.step("p_a", "Pressure of the room’s air", KPA, around)?;
        let used = w.answer("air", air_free(pump, pressure, around, factor))?;
        w.answer("air_n", gas::amount_flow(used, t, around).or_stop("T_room")?)?;
    }
    place::find(w)
}

/// How often a station of a given volume between its levels starts; gives that volume, if there is one.
fn yours(w: &mut Work, q_p: Q, pump: Q, starts: Q) -> Result<Option<Q>, Stop> {
    let top = w.top();
    let Some(between) = w.optional(&top, "V_lv")? else { return Ok(None) };
    w.answer("n_s", starts_per_time(pump / 2.0, pump, between).or_stop("V_lv")?)?;
    let why = "The pump starts too often where half of its flow arrives: set the levels further apart, or take a pump that bears it.";
    w.at_most(&top, "n_s", starts, Severity::Caution, why);
    if q_p.si > 0.0 {
        w.answer("n_p", starts_per_time(q_p, pump, between).or_stop("q_pump")?)?;
    }
    Ok(Some(between))
}

/// A station that is needed and of which too little is typed to build it says what is still to be typed.
pub(super) fn say_what_is_missing(w: &mut Work, q_p: Q) -> Result<(), Stop> {
    let top = w.top();
    let mut missing = Vec::new();
    for symbol in ["q_pump", "V_o", "z_l", "l_d", "d_d"] {
        // The pump’s flow follows from what arrives.
        let is_known = w.optional(&top, symbol)?.is_some() || (symbol == "q_pump" && q_p.si > 0.0);
        let label = CALCULATOR.port(symbol).map_or(symbol, |port| CALCULATOR.label(port));
        missing.extend((!is_known).then(|| format!("“{label}”")));
    }
    if !missing.is_empty() {
        w.say(&top, "lift", NOT_SIZED)?;
        let text =
            format!("A lift station is needed and not yet sized. Still to be typed: {}.", missing.join(", "));
        w.add_finding(&top, "lift", Severity::Caution, text);
    }
    Ok(())
}

/// The level at which the inflow must be told to stop, if the tank is known.
fn stop(w: &mut Work, q_p: Q) -> Result<(), Stop> {
    let top = w.top();
    let [pipes, reaction] = w.inputs(["V_p", "t_r"])?;
    let (Some(area), Some(overflow)) = (w.optional(&top, "A_s")?, w.optional(&top, "H_o")?) else {
        return Ok(());
    };
    match stop_level(overflow, pipes, q_p, reaction, area) {
        Ok(level) => {
            let level = w.answer("h_stop", level)?;
            let Some(warning) = w.optional(&top, "t_w")? else { return Ok(()) };
            let slow = level - level_rise(q_p, warning, area).or_stop("A_s")?;
            if slow.si > 0.0 {
                w.answer("h_slow", slow)?;
            } else {
                let text = "There is no level for “slow”: so long before “stop” the station is empty. Take less time between the two, or a wider one.";
                w.add_finding(&top, "h_slow", Severity::Caution, text);
            }
            Ok(())
        }
        Err(refusal) => {
            w.add_finding(&top, "h_stop", Severity::Caution, refusal.text());
            Ok(())
        }
    }
}

/// The head that the pump must give, rise and friction.
fn head(w: &mut Work, pump: Q) -> Result<(), Stop> {
    let top = w.top();
    let Some(bore) = w.optional(&top, "d_d")? else { return Ok(()) };
    let [fittings, wall, rho, mu] = w.inputs(["K", "e", "ρ", "μ"])?;
    let v = w.answer("v_d", velocity(pump, bore).or_stop("d_d")?)?;
    let (Some(rise), Some(run)) = (w.optional(&top, "z_l")?, w.optional(&top, "l_d")?) else { return Ok(()) };
    let re = w.step("Re", "Reynolds number", NUMBER, reynolds(rho, v, bore, mu))?;
    let f = w.step("f", "Friction factor", NUMBER, friction_factor(re, wall / bore).or_stop("e")?)?;
    let lost = w.step("h_f", "Head lost to friction", M, head_lost(f, run, bore, fittings, v))?;
    let open = Q::constant("0 kPa", 0.0, KPA);
    w.answer("h_tot", total_head(rise, lost, open, rho))?;
    Ok(())
}
