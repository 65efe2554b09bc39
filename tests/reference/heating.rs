//! Heating and cooling a stirred tank.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::{Refusal, evaporation, exchange::*, heating::*, open_tank::*, water};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("K.time-isothermal", time),
        ("K.time-flowing", time),
        ("K.time-electric", time),
        ("K.time-external-exchanger", time),
        ("K.time-unreachable", time),
        ("K.final-isothermal", settles),
        ("K.final-flowing", settles),
        ("K.final-electric", settles),
        ("K.final-overflow-rinse", |row| overflow_rinse(row, final_temperature)),
        ("K.final-plating-heat", |row| {
            let tank = Tank { capacity: Q::constant("C", 1.0, KJ_PER_K), ..losing(row)? };
            let heat = plating_heat(row.q("I", AMPERE)?, row.q("U", VOLT)?);
            Ok(Found::Quantity(final_temperature(tank, Drive::power(heat))?, CELSIUS))
        }),
        ("K.temperature-after", after),
        ("K.temperature-after-flowing", after),
        ("K.temperature-after-electric", after),
        ("K.temperature-after-overflow-rinse", |row| {
            let (t0, time) = (row.q("T0", CELSIUS)?, row.q("t", MINUTE)?);
            overflow_rinse(row, |tank, drive| Ok(temperature_after(tank, drive, t0, time)))
        }),
        ("K.time-constant", |row| {
            let drive = Drive::medium(row.q("UA", KW_PER_K)?, Q::constant("Ts", 0.0, CELSIUS));
            let tank = Tank {
                capacity: capacity(row)?,
                loss: row.q("loss", KW_PER_K)?,
                room: Q::constant("Ta", 0.0, CELSIUS),
            };
            Ok(Found::Quantity(time_constant(tank, drive)?, MINUTE))
        }),
        ("K.outlet-at-start", |row| {
            let (k, c) = (stream(row)?, stream_capacity(row, "flow", "cp_stream")?);
            Ok(Found::Quantity(
                outlet_temperature(k, c, row.q("T_in", CELSIUS)?, row.q("T0", CELSIUS)?),
                CELSIUS,
            ))
        }),
        ("K.duty-at-start", |row| {
            let medium = Medium { conductance: stream(row)?, temperature: row.q("T_in", CELSIUS)? };
            Ok(Found::Quantity(duty(medium, row.q("T0", CELSIUS)?), KW))
        }),
        ("K.energy", |row| {
            let (t0, rise) = (Q::constant("T0", 20.0, CELSIUS), row.q("dT", KELVINS)?);
            Ok(Found::Quantity(energy(row.q("m", KG)?, row.q("cp", KJ_PER_KG_K)?, t0, t0 + rise), KWH))
        }),
        ("K.plating-heat", |row| {
            Ok(Found::Quantity(plating_heat(row.q("I", AMPERE)?, row.q("U", VOLT)?), KW))
        }),
        ("K.hold-duty", |row| {
            let tank = Tank { capacity: Q::constant("C", 1.0, KJ_PER_K), ..losing(row)? };
            Ok(Found::Quantity(duty_to_hold(tank, row.q("T", CELSIUS)?, None, None), KW))
        }),
        ("K.hold-duty-full", |row| {
            let wet = evaporation::heat_of_evaporation(
                row.q("evaporation", KG_PER_H)?,
                row.q("heat of evaporation", KJ_PER_KG)?,
            );
            let given = plating_heat(row.q("I", AMPERE)?, row.q("U", VOLT)?) + row.q("pump heat", KW)?;
            Ok(Found::Quantity(duty_to_hold(losing(row)?, row.q("T", CELSIUS)?, Some(wet), Some(given)), KW))
        }),
        ("K.heating-rate", |row| {
            let room = Q::constant("Ta", 21.0, CELSIUS);
            let tank = Tank { capacity: capacity(row)?, loss: Q::constant("L", 0.0, KW_PER_K), room };
            Ok(Found::Quantity(
                heating_rate(tank, Drive::power(row.q("net power", KW)?), room),
                KELVIN_PER_HOUR,
            ))
        }),
        ("K.least-source-temperature", |row| {
            let found =
                least_source_temperature(tank(row)?, row.q("UA", KW_PER_K)?, None, row.q("T", CELSIUS)?);
            Ok(Found::Quantity(found?, CELSIUS))
        }),
        ("K.source-temperature-for-time", |row| {
            let found = source_temperature_for_time(
                tank(row)?,
                row.q("UA", KW_PER_K)?,
                None,
                way(row)?,
                row.q("t", MINUTE)?,
            );
            Ok(Found::Quantity(found?, CELSIUS))
        }),
        ("K.power-for-time", |row| {
            let (t0, t) = way(row)?;
            Ok(Found::Quantity(power_for_time(tank(row)?, t0, t, row.q("t", MINUTE)?)?, KW))
        }),
        ("K.UA-for-time", |row| {
            let ts = row.q("T_source", CELSIUS)?;
            Ok(Found::Quantity(
                conductance_for_time(tank(row)?, ts, None, way(row)?, row.q("t", MINUTE)?)?,
                KW_PER_K,
            ))
        }),
        ("K.flow-for-time", |row| {
            let k = conductance_for_time(
                tank(row)?,
                row.q("T_in", CELSIUS)?,
                None,
                way(row)?,
                row.q("t", MINUTE)?,
            )?;
            let c = stream_for_conductance(row.q("UA", KW_PER_K)?, k)?;
            Ok(Found::Quantity(c / row.q("cp_stream", KJ_PER_KG_K)?, KG_PER_MIN))
        }),
        ("K.time-electric-with-evaporation", |row| {
            let room = water::vapour_pressure(row.q("T_room", CELSIUS)?)?;
            let surface = Surface {
                area: row.q("A", M2)?,
                air_speed: row.q("air speed", M_PER_S)?,
                room_pressure: row.number("RH")? * room,
            };
            let drive = Drive::power(row.q("P", KW)?);
            let time = time_with_evaporation(tank(row)?, drive, surface, water::vapour_pressure, way(row)?)?;
            Ok(Found::Quantity(time, MINUTE))
        }),
    ]
}

fn capacity(row: &Row) -> Result<Q, Problem> {
    let cp = row.q("cp", KJ_PER_KG_K)?;
    if row.given("m").is_some() {
        return Ok(row.q("m", KG)? * cp);
    }
    Ok(heat_capacity(row.q("V", L)?, row.q("rho", KG_PER_L)?, cp))
}

/// A tank of which only the loss matters.
fn losing(row: &Row) -> Result<Tank, Problem> {
    let capacity = Q::constant("C", 1.0, KJ_PER_K);
    Ok(Tank { capacity, loss: row.q("loss", KW_PER_K)?, room: row.q("T_room", CELSIUS)? })
}

fn tank(row: &Row) -> Result<Tank, Problem> {
    let room = match row.given("T_room") {
        Some(_) => row.q("T_room", CELSIUS)?,
        None => Q::constant("Ta", 20.0, CELSIUS),
    };
    Ok(Tank { capacity: capacity(row)?, loss: row.q(named(row, &["loss", "dry loss"]), KW_PER_K)?, room })
}

fn way(row: &Row) -> Result<(Q, Q), Problem> {
    Ok((row.q("T0", CELSIUS)?, row.q("T", CELSIUS)?))
}

/// The first of several names that a row gives.
fn named(row: &Row, names: &[&'static str]) -> &'static str {
    names.iter().find(|name| row.given(name).is_some()).or(names.first()).copied().unwrap_or_default()
}

fn stream_capacity(row: &Row, flow: &str, cp: &str) -> Result<Q, Problem> {
    Ok(row.q(flow, KG_PER_MIN)? * row.q(cp, KJ_PER_KG_K)?)
}

fn stream(row: &Row) -> Result<Q, Problem> {
    Ok(stream_conductance(row.q("UA", KW_PER_K)?, stream_capacity(row, "flow", "cp_stream")?)?)
}

fn drive(row: &Row) -> Result<Drive, Problem> {
    if row.given("P").is_some() {
        return Ok(Drive::power(row.q("P", KW)?));
    }
    if row.given("loop").is_some() {
        let (medium, bath) =
            (stream_capacity(row, "flow", "cp_stream")?, stream_capacity(row, "loop", "cp_loop")?);
        let k = exchanger_conductance(row.q("UA", KW_PER_K)?, medium, bath)?;
        return Ok(Drive::medium(k, row.q("T_in", CELSIUS)?));
    }
    if row.given("T_in").is_some() {
        return Ok(Drive::medium(stream(row)?, row.q("T_in", CELSIUS)?));
    }
    if row.given("UA").is_none() {
        return Ok(Drive::default());
    }
    Ok(Drive::medium(row.q("UA", KW_PER_K)?, row.q("T_source", CELSIUS)?))
}

fn time(row: &Row) -> Outcome {
    let (t0, t) = way(row)?;
    Ok(Found::Quantity(time_to_temperature(tank(row)?, drive(row)?, t0, t)?, MINUTE))
}

fn settles(row: &Row) -> Outcome {
    Ok(Found::Quantity(final_temperature(tank(row)?, drive(row)?)?, CELSIUS))
}

fn after(row: &Row) -> Outcome {
    let found = temperature_after(tank(row)?, drive(row)?, row.q("T0", CELSIUS)?, row.q("t", MINUTE)?);
    Ok(Found::Quantity(found, CELSIUS))
}

fn overflow_rinse(row: &Row, ask: impl Fn(Tank, Drive) -> Result<Q, Refusal>) -> Outcome {
    let medium = Medium {
        conductance: stream_capacity(row, named(row, &["overflow rinse flow", "flow"]), "cp_stream")?,
        temperature: row.q("T_in", CELSIUS)?,
    };
    let drive = Drive { medium: Some(medium), power: Some(row.q("P", KW)?) };
    Ok(Found::Quantity(ask(tank(row)?, drive)?, CELSIUS))
}
