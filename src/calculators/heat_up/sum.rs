//! The sum of the heat-up sheet.

use super::*;
use crate::calculator::{Refuse, Stop, Work};
use crate::calculators::bath_inputs;
use crate::quantity::{Q, with_tape};
use crate::science::evaporation::{evaporation_heat, make_up_water, water_evaporated};
use crate::science::exchange::{
    effectiveness_in_tank, outlet_temperature, stream_conductance, stream_for_conductance,
};
use crate::science::heating::{
    Drive, Medium, Tank, below_boiling, conductance_for_time, duty, duty_to_hold, final_temperature,
    heat_capacity, heating_rate, least_source_temperature, plating_heat, power_for_time,
    source_temperature_for_time, temperature_after, time_constant, time_to_temperature,
};
use crate::science::open_tank::{
    Surface, final_temperature_with_evaporation, temperature_with_evaporation, time_with_evaporation,
};
use crate::science::plastics::{SECOND_SOFTENS, soft_at};
use crate::science::{air, water};
use crate::units::{DAYS, KJ_PER_K, KJ_PER_KG, KPA, KW_PER_K};

/// Nearer to the target than this, settling above it is no matter, in kelvins.
const CLOSE: f64 = 2.0;

/// What the steps share.
struct Sheet {
    tank: Tank,
    drive: Drive,
    /// Evaporation on the way, if it is counted there.
    on_the_way: Option<Surface>,
    /// Heat of evaporation at the target, if it is counted at all.
    wet: Option<Q>,
    /// Heat that comes anyway.
    given: Q,
    /// The same, if it is counted on the way.
    anyway: Option<Q>,
    t0: Q,
    t: Q,
    boils: Q,
    stream: Option<Stream>,
}

/// What flows through the coil.
struct Stream {
    flow: Q,
    rate: Q,
    ua: Q,
}

impl Sheet {
    fn heats(&self) -> bool {
        self.t >= self.t0
    }
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [v, t0, t, loss, room, height] = w.inputs(["V", "T_0", "T", "L", "T_room", "z_site"])?;
    let rho = bath_inputs::density_or_usual(w)?;
    let cp = bath_inputs::heat_capacity_or_usual(w)?;
    let capacity = w.step("C", "Heat capacity of the bath", KJ_PER_K, heat_capacity(v, rho, cp))?;
    let tank = Tank { capacity, loss, room };
    // The law of boiling ends at sea level; below it the bath boils a little later than this.
    let pressure = air::pressure(height).or_stop("z_site")?.min(Q::constant("101.325 kPa", 101.325, KPA));
    let pressure = w.step("p", "Pressure of the air", KPA, pressure)?;
    let boils = w.answer("T_boil", water::boiling_point(pressure).or_stop("z_site")?)?;
    if below_boiling(t, boils).is_err() {
        let reason = format!("The target of {} lies where water boils here.", degrees(w, t));
        let remedy = format!("Choose a target below {}.", degrees(w, boils));
        return Err(Stop::at("T", reason, remedy));
    }

    let pump = w.inputs::<1>(["P_pump"])?[0];
    let [current] = w.inputs(["I"])?;
    let given = if current.si > 0.0 {
        let [voltage] = w.inputs(["U"])?;
        plating_heat(current, voltage) + pump
    } else {
        pump
    };
    let given = w.step("Q_any", "Heat that comes anyway", KW, given)?;
    let is_on_the_way = w.word(&top, "anyway")? == ON_THE_WAY && given.si > 0.0;
    let anyway = is_on_the_way.then_some(given);

    let (drive, stream) = drive(w, anyway)?;
    let (on_the_way, wet) = evaporation(w, t)?;
    let hold = w.answer("Q_hold", duty_to_hold(tank, t, wet, Some(given)))?;
    let sheet = Sheet { tank, drive, on_the_way, wet, given, anyway, t0, t, boils, stream };

    source(w, &sheet, hold)?;
    w.answer("r_0", heating_rate(tank, drive, t0))?;
    let settles = settle(w, &sheet)?;
    let time = match sheet.on_the_way {
        None => time_to_temperature(tank, drive, t0, t),
        Some(surface) => time_with_evaporation(tank, drive, surface, water::vapour_pressure, (t0, t)),
    };
    let time = time.map_err(|_| unreachable(w, &sheet, settles))?;
    w.answer("t_up", time)?;
    if let Some(end) = settles
        && (end.si - t0.si).abs() > 1e-9
    {
        w.answer("way", (t - t0) / (end - t0))?;
    }
    if let Ok(constant) = time_constant(tank, drive) {
        w.answer("τ", constant)?;
    }
    in_the_time_allowed(w, &sheet)?;
    remarks(w, &sheet, cp, rho)
}

/// What heats: the source and, where it is counted, the heat that comes anyway.
fn drive(w: &mut Work, anyway: Option<Q>) -> Result<(Drive, Option<Stream>), Stop> {
    let top = w.top();
    let source = w.word(&top, "source")?;
    if source == ELECTRIC {
        let [power] = w.inputs(["P"])?;
        let power = anyway.map_or(power, |anyway| power + anyway);
        return Ok((Drive::power(power), None));
    }
    let [ts, ua] = w.inputs(["T_s", "UA"])?;
    if source == STEADY {
        return Ok((
            Drive { medium: Some(Medium { conductance: ua, temperature: ts }), power: anyway },
            None,
        ));
    }
    let [flow] = w.inputs(["q"])?;
    let (rho, cp) = if w.word(&top, "medium")? == OTHER {
        let [rho, cp] = w.inputs(["ρ_m", "c_m"])?;
        (rho, cp)
    } else {
        let rho = water::density(ts).or_stop("T_s")?;
        let rho = w.step("ρ_w", "Density of water as it enters", KG_PER_L, rho)?;
        let cp = water::heat_capacity(ts).or_stop("T_s")?;
        (rho, w.step("c_w", "Heat capacity of water as it enters", KJ_PER_KG_K, cp)?)
    };
    let rate =
        w.step("C_s", "Heat that the flow carries for each kelvin", KW_PER_K, heat_rate(flow, rho, cp))?;
    w.answer("ε", effectiveness_in_tank(ua, rate))?;
    let conductance = stream_conductance(ua, rate).or_stop("q")?;
    let conductance = w.step("k", "Exchanged for each kelvin from inlet to bath", KW_PER_K, conductance)?;
    let medium = Medium { conductance, temperature: ts };
    Ok((Drive { medium: Some(medium), power: anyway }, Some(Stream { flow, rate, ua })))
}

fn heat_rate(flow: Q, rho: Q, cp: Q) -> Q {
    flow * rho * cp
}

/// Evaporation at the target, and the surface if it counts on the way.
fn evaporation(w: &mut Work, t: Q) -> Result<(Option<Surface>, Option<Q>), Stop> {
    let top = w.top();
    let choice = w.word(&top, "evap")?;
    let is_dry_counted = w.inputs::<1>(["L"])?[0].si > 0.0;
    let counted = match (choice, is_dry_counted) {
        (ALWAYS, true) => DRY_AND_WET,
        (ALWAYS, false) => WET,
        (WARM, true) => WET_HOLDING,
        (WARM, false) => ONLY_WET_HOLDING,
        (_, true) => DRY,
        (_, false) => NO_LOSS,
    };
    w.say(&top, "counted", counted)?;
    if choice == LEFT_OUT {
        return Ok((None, None));
    }
    let [open, form, air_speed, humidity, room] = w.inputs(["A", "φ", "v_air", "RH", "T_room"])?;
    // The form of the sheet of evaporation, by the area that loses as much by this one.
    let area = w.step("A_f", "Open surface, as the form chosen counts it", M2, open * form)?;
    let room_pressure = air::vapour_pressure(room, humidity).or_stop("T_room")?;
    let room_pressure = w.step("p_a", "Pressure of water vapour in the room", KPA, room_pressure)?;
    let at_surface = water::vapour_pressure(t).or_stop("T")?;
    let at_surface = w.step("p_w", "The same at the surface, at the target", KPA, at_surface)?;
    let heat = w.answer("Q_wet", evaporation_heat(area, at_surface, room_pressure, air_speed))?;
    let latent = water::heat_of_vaporisation(t).or_stop("T")?;
    let latent = w.step("h", "Heat of vaporisation at the target", KJ_PER_KG, latent)?;
    let lost = w.answer("w", water_evaporated(heat, latent))?;
    let rho = water::density(Q::constant("20 °C", 20.0, CELSIUS)).or_stop("T")?;
    let rho = w.step("ρ_20", "Density of make-up water", KG_PER_L, rho)?;
    let day = Q::constant("1 day", 1.0, DAYS);
    w.answer("q_water", make_up_water(lost, day, rho) / day)?;
    let surface = Surface { area, air_speed, room_pressure };
    Ok(((choice == ALWAYS).then_some(surface), Some(heat)))
}

/// What the source gives at both ends, how near it comes, and whether it can hold the target.
fn source(w: &mut Work, sheet: &Sheet, hold: Q) -> Result<(), Stop> {
    let Sheet { tank, drive, t0, t, wet, given, .. } = sheet;
    let (start, end) = match drive.medium {
        Some(medium) => (duty(medium, *t0), duty(medium, *t)),
        None => {
            let [power] = w.inputs(["P"])?;
            (power, power)
        }
    };
    w.answer("Q_0", start)?;
    let end = w.answer("Q_top", end)?;
    if let Some(medium) = drive.medium {
        let ts = medium.temperature;
        w.answer("ΔT", if sheet.heats() { ts - *t } else { *t - ts })?;
        if let Some(stream) = &sheet.stream {
            w.answer("T_out", outlet_temperature(medium.conductance, stream.rate, ts, *t0))?;
        }
        let others = wet.map_or(*given, |wet| *given - wet);
        let least = least_source_temperature(*tank, medium.conductance, Some(others), *t).or_stop("UA")?;
        w.answer("T_hold", least)?;
    }
    w.answer("Q_spare", if sheet.heats() { end - hold } else { hold - end })?;
    Ok(())
}

/// Where it settles, if that is between freezing and boiling; else a finding.
fn settle(w: &mut Work, sheet: &Sheet) -> Result<Option<Q>, Stop> {
    let Sheet { tank, drive, boils, .. } = sheet;
    let ice = Q::constant("0 °C", 0.0, CELSIUS);
    let (end, is_hot) = match sheet.on_the_way {
        Some(surface) => {
            let range = (ice, *boils);
            (
                final_temperature_with_evaporation(*tank, *drive, surface, water::vapour_pressure, range)
                    .ok(),
                sheet.heats(),
            )
        }
        None => {
            let end = final_temperature(*tank, *drive).ok();
            let is_hot = end.map_or(sheet.heats(), |end| end >= *boils);
            (end.filter(|end| (ice.si..boils.si).contains(&end.si)), is_hot)
        }
    };
    let top = w.top();
    if let Some(end) = end {
        let end = w.answer("T_end", end)?;
        if sheet.heats() && end.si > sheet.t.si + CLOSE {
            overshoot(w, end, end.si - sheet.t.si);
        }
        return Ok(Some(end));
    }
    let text = if is_hot {
        format!("Left on by itself, the source brings it to boiling, {} here.", degrees(w, *boils))
    } else {
        "Left on by itself, the source brings it to freezing.".into()
    };
    w.add_finding(&top, "T_end", Severity::Caution, text);
    Ok(None)
}

/// A source that goes beyond the target by itself is held back only by what controls it.
fn overshoot(w: &mut Work, end: Q, beyond: f64) {
    let (reached, number) = (degrees(w, end), end.number(CELSIUS));
    let beyond = w.style.answer(beyond, KELVINS);
    let mut text = format!(
        "Left on by itself the source brings it to {reached}, {beyond} above the target: it needs a controller and an independent cut-out."
    );
    let soft = soft_at(number);
    if !soft.is_empty() {
        text += &format!(" There tanks, pipes and pumps of {soft} soften (from memory).");
    }
    let severity = if number > SECOND_SOFTENS { Severity::Caution } else { Severity::Note };
    w.add_finding(&w.top(), "T_end", severity, text);
}

/// Why the target is not reached, and what would do it.
fn unreachable(w: &Work, sheet: &Sheet, settles: Option<Q>) -> Stop {
    let (t, style) = (sheet.t, w.style);
    let reason = match settles {
        Some(end) => {
            format!("The bath does not come to {}: it settles at {}.", degrees(w, t), degrees(w, end))
        }
        None => format!("The bath does not come to {}: it goes the other way.", degrees(w, t)),
    };
    let numbers = || {
        let wet = if sheet.on_the_way.is_some() { sheet.wet } else { None };
        let needed = duty_to_hold(sheet.tank, t, wet, sheet.anyway);
        let heats = sheet.heats();
        let side = if heats { "above" } else { "below" };
        let Some(Medium { conductance, temperature }) = sheet.drive.medium else {
            return match heats {
                true => format!("Give more than {}.", style.show_beyond(needed.si, KW, true)),
                false => format!("A heater does not cool: take a liquid {side} {} in a coil.", degrees(w, t)),
            };
        };
        let least = t + needed / conductance;
        let mut remedy = format!("Use a source {side} {}", style.show_beyond(least.si, CELSIUS, heats));
        let per_kelvin = needed / (temperature - t);
        if per_kelvin > conductance {
            match &sheet.stream {
                Some(stream) => {
                    if let Ok(rate) = stream_for_conductance(stream.ua, per_kelvin) {
                        let flow = rate / (stream.rate / stream.flow);
                        remedy += &format!(", or more than {}", style.show_beyond(flow.si, L_PER_MIN, true));
                    }
                }
                None => {
                    remedy += &format!(", or a UA above {}", style.show_beyond(per_kelvin.si, W_PER_K, true));
                }
            }
        }
        remedy + "; well beyond that, to be there in good time."
    };
    let remedy = with_tape(None, numbers).0;
    Stop::at(if sheet.drive.medium.is_some() { "T_s" } else { "P" }, reason, remedy)
}

/// Where it is after the time allowed, and what takes it to the target by then.
fn in_the_time_allowed(w: &mut Work, sheet: &Sheet) -> Result<(), Stop> {
    let Sheet { tank, drive, anyway, t0, t, boils, .. } = *sheet;
    let [time] = w.inputs(["t"])?;
    let after = match sheet.on_the_way {
        None => Some(temperature_after(tank, drive, t0, time)),
        Some(surface) => {
            // After 40 time constants it has settled to the last figure shown.
            let time = time_constant(tank, drive).map_or(time, |constant| time.min(40.0 * constant));
            temperature_with_evaporation(tank, drive, surface, water::vapour_pressure, t0, time).ok()
        }
    };
    let ice = CELSIUS.to_si(0.0);
    if let Some(after) = after.filter(|after| (ice..boils.si).contains(&after.si)) {
        w.answer("T_after", after)?;
    }
    if sheet.on_the_way.is_some() {
        return Ok(());
    }
    let Some(Medium { conductance, temperature }) = drive.medium else {
        let power = power_for_time(tank, t0, t, time).or_stop("t")?;
        let power = anyway.map_or(power, |anyway| power - anyway);
        if power.si > 0.0 {
            w.answer("P_need", power)?;
        }
        return Ok(());
    };
    let source = source_temperature_for_time(tank, conductance, anyway, (t0, t), time).or_stop("t")?;
    if (-50.0..250.0).contains(&source.number(CELSIUS)) {
        w.answer("T_need", source)?;
    }
    let Ok(needed) = conductance_for_time(tank, temperature, anyway, (t0, t), time) else { return Ok(()) };
    let Some(stream) = &sheet.stream else {
        w.answer("UA_need", needed)?;
        return Ok(());
    };
    let needed = w.step("k_t", "To be exchanged for each kelvin in that time", KW_PER_K, needed)?;
    if let Ok(rate) = stream_for_conductance(stream.ua, needed) {
        let rate = w.step("C_t", "Heat that the flow must carry for each kelvin", KW_PER_K, rate)?;
        w.answer("q_need", rate / (stream.rate / stream.flow))?;
    }
    Ok(())
}

/// What is easily overlooked.
fn remarks(w: &mut Work, sheet: &Sheet, cp: Q, rho: Q) -> Result<(), Stop> {
    let top = w.top();
    let of_water = 4.18;
    if rho.number(KG_PER_L) > 1.05 && (cp.number(KJ_PER_KG_K) / of_water - 1.0).abs() < 0.01 {
        let text = "That is water’s heat capacity with a bath’s density: the time reads 8 to 29 % long. Take both from the bath, or both from water.";
        w.add_finding(&top, "c_p", Severity::Note, text);
    }
    if sheet.on_the_way.is_none() && sheet.heats() && sheet.t.number(CELSIUS) > 40.0 {
        let loss = with_tape(None, || {
            let [area, still] = [Q::constant("A", 1.0, M2), Q::constant("v", 0.2, M_PER_S)];
            let at = water::vapour_pressure(sheet.t).ok()?;
            let room = water::vapour_pressure(sheet.tank.room).ok()?;
            Some(evaporation_heat(area, at, 0.5 * room, still))
        })
        .0;
        // In a room below freezing nobody knows how much; that it is left out stands.
        let much = loss.map_or(String::new(), |loss| {
            let shown = w.style.answer(loss.si, KW);
            format!(": from each open m² it would take about {shown} at the target")
        });
        let text = format!("Evaporation is left out on the way{much}, so the time is a lower bound.");
        w.add_finding(&top, "counted", Severity::Note, text);
    }
    if sheet.tank.loss.si == 0.0 && sheet.heats() {
        let text = "No dry loss is counted: the time is a lower bound, and it settles lower than said.";
        w.add_finding(&top, "L", Severity::Note, text);
    }
    if !sheet.heats() && sheet.anyway.is_none() && sheet.given.si > 0.0 {
        let text = "Heat from plating and pumps is not counted on the way down: if they run, it takes longer and may not get there.";
        w.add_finding(&top, "anyway", Severity::Note, text);
    }
    Ok(())
}

fn degrees(w: &Work, t: Q) -> String {
    w.style.answer(t.si, CELSIUS)
}
