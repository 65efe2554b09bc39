//! Heating and cooling a stirred tank: how fast, how far, and with what.
//!
//! One balance serves coil, stream, immersion heater, inline exchanger, overflow rinse and the heat
//! of plating: `C·dT/dt = P + k·(Ts − T) + L·(Ta − T)`. Heating and cooling are the same sum; what
//! cannot be reached is refused with the temperature at which the tank settles.

use super::bounds::{above_zero, is_above_zero};
use super::{Refusal, solve};
use crate::quantity::Q;
use crate::units::*;

/// What is heated: a stirred tank that loses heat to its room.
#[derive(Clone, Copy, Debug)]
pub struct Tank {
    /// Heat capacity `C` of all that changes temperature.
    pub capacity: Q,
    /// Dry loss `L` to the room per kelvin, zero or more. Evaporation is apart.
    pub loss: Q,
    /// Room temperature `Ta`.
    pub room: Q,
}

/// A medium that exchanges heat with the tank: `k·(Ts − T)`.
#[derive(Clone, Copy, Debug)]
pub struct Medium {
    /// Conductance `k`: `UA` of steam in a coil, [`stream_conductance`](super::exchange::stream_conductance),
    /// [`exchanger_conductance`](super::exchange::exchanger_conductance),
    /// or `m·cp` of water that flows through the tank itself.
    pub conductance: Q,
    /// Its temperature `Ts`: where it enters, or of the steam.
    pub temperature: Q,
}

/// What heats or cools a tank: a medium, a power (electric, plating, pump), both or neither.
#[derive(Clone, Copy, Debug, Default)]
pub struct Drive {
    /// Coil, exchanger or through-flow.
    pub medium: Option<Medium>,
    /// Power put in; negative takes out.
    pub power: Option<Q>,
}

impl Drive {
    /// A medium alone.
    pub fn medium(conductance: Q, temperature: Q) -> Drive {
        Drive { medium: Some(Medium { conductance, temperature }), power: None }
    }

    /// A power alone.
    pub fn power(power: Q) -> Drive {
        Drive { medium: None, power: Some(power) }
    }
}

/// Heat capacity of a tank's contents.
///
/// `C = V·ρ·cp`. `V` volume in circulation, `ρ` density, `cp` heat capacity per mass.
/// Holds where `ρ` and `cp` are both the bath's, or both water's (error below 5 % for the usual
/// baths); water's `cp` with the bath's density reads 8 to 29 % high. The vessel itself is left out.
/// Source: definition.
pub fn heat_capacity(v: Q, rho: Q, cp: Q) -> Q {
    v * rho * cp
}

/// Heat to bring a mass from one temperature to another; negative to cool.
///
/// `E = m·cp·(T − T0)`. Holds for a constant heat capacity and no losses. Source: definition.
pub fn energy(m: Q, cp: Q, t0: Q, t: Q) -> Q {
    m * cp * (t - t0)
}

/// Heat of plating.
///
/// `P = I·U`. `I` current, `U` voltage at the tank (not at the rectifier).
/// An upper bound: part of the work is chemical. Source: definition.
pub fn plating_heat(i: Q, u: Q) -> Q {
    i * u
}

/// Heat that a medium gives to a tank; negative when it cools.
///
/// `k·(Ts − T)`. Source: definition of the conductance.
pub fn duty(medium: Medium, t: Q) -> Q {
    medium.conductance * (medium.temperature - t)
}

/// Heat that keeps a tank at a temperature; negative means that it must be cooled.
///
/// `L·(T − Ta) + w·h − P`. `w·h` heat taken by evaporation (see
/// [`evaporation_heat`](super::evaporation::evaporation_heat)), `P` heat that comes anyway: plating
/// and pumps. The other terms are left out when they are not given. Make-up water is taken to come at
/// bath temperature; if not, add `m·cp·(T − T_makeup)`.
/// Exact balance; plating heat is an upper bound, so heating may be a little more than this.
/// Source: steady balance.
pub fn duty_to_hold(tank: Tank, t: Q, evaporation: Option<Q>, given: Option<Q>) -> Q {
    let dry = tank.loss * (t - tank.room);
    let wet = evaporation.map_or(dry, |heat| dry + heat);
    given.map_or(wet, |power| wet - power)
}

/// Heat that goes into the tank's contents, all told: what is put in less what is lost.
///
/// `q = P + k·(Ts − T) − L·(T − Ta)`. Source: heat balance of a stirred tank.
pub fn net_heat(tank: Tank, drive: Drive, t: Q) -> Q {
    let lost = tank.loss * (t - tank.room);
    match given(drive, t) {
        Some(gained) => gained - lost,
        None => -lost,
    }
}

fn given(drive: Drive, t: Q) -> Option<Q> {
    match (drive.medium.map(|medium| duty(medium, t)), drive.power) {
        (Some(heat), Some(power)) => Some(power + heat),
        (heat, power) => heat.or(power),
    }
}

/// What pulls the tank towards the temperature at which it settles, per kelvin: `k + L`.
fn pull(tank: Tank, drive: Drive) -> Q {
    drive.medium.map_or(tank.loss, |medium| medium.conductance + tank.loss)
}

/// How fast the temperature rises at a temperature.
///
/// `dT/dt = q/C`, with [`net_heat`]. Source: heat balance of a stirred tank.
pub fn heating_rate(tank: Tank, drive: Drive, t: Q) -> Q {
    net_heat(tank, drive, t) / tank.capacity
}

/// Time constant: 95 % of the way takes 3.00 of them, 99 % takes 4.61.
///
/// `C/(k + L)`. Refuses where nothing depends on temperature: then it never settles.
/// Source: solution of the balance.
pub fn time_constant(tank: Tank, drive: Drive) -> Result<Q, Refusal> {
    let g = pull(tank, drive);
    if g.si > 0.0 { Ok(tank.capacity / g) } else { Err(never_settles()) }
}

/// Temperature at which the tank settles.
///
/// `T∞ = Ta + (P + k·(Ts − Ta))/(k + L)`. For an overflow rinse `k = m·cp` of its water and `Ts` its
/// inlet. Linear losses only, so above some 50 °C it reads far too high: evaporation will hold it
/// lower. Refuses where nothing depends on temperature. Check it against boiling with
/// [`below_boiling`]. Source: steady balance of a stirred tank.
pub fn final_temperature(tank: Tank, drive: Drive) -> Result<Q, Refusal> {
    let g = pull(tank, drive);
    if g.si <= 0.0 {
        return Err(never_settles());
    }
    Ok(given(drive, tank.room).map_or(tank.room, |gained| tank.room + gained / g))
}

/// Refuses a temperature at or above boiling.
pub fn below_boiling(t: Q, boiling: Q) -> Result<Q, Refusal> {
    if t < boiling {
        return Ok(t);
    }
    Err(Refusal::new(
        format!("It would come to {}, and boils at {}.", celsius(t), celsius(boiling)),
        "Choose a lower temperature, or less power with an over-temperature cut-out of its own.",
    ))
}

/// Time from one temperature to another, up or down.
///
/// `t = C/(k + L)·ln(q(T0)/q(T))`, with [`net_heat`] `q`; where nothing depends on temperature
/// `C·(T − T0)/q`. Holds for constant properties and conductances, stirred, no evaporation (see
/// [`time_with_evaporation`](super::open_tank::time_with_evaporation)): a lower bound for a warm open tank.
/// Refuses a temperature at or beyond the one at which the tank settles.
/// Source: integral of the balance; checked against numerical integration (scipy `solve_ivp`) and
/// Coulson & Richardson, Chemical Engineering vol. 1, example 9.25.
pub fn time_to_temperature(tank: Tank, drive: Drive, t0: Q, t: Q) -> Result<Q, Refusal> {
    if t == t0 {
        return Ok(Q::constant("0 s", 0.0, SECOND));
    }
    let (start, end) = (net_heat(tank, drive, t0), net_heat(tank, drive, t));
    let rise = t.si - t0.si;
    if !(start.si * rise > 0.0 && end.si * rise > 0.0) {
        return Err(unreachable(tank, drive, t0, t));
    }
    let g = pull(tank, drive);
    if g.si * rise.abs() < 1e-7 * start.si.abs() {
        return Ok(tank.capacity * (t - t0) / start);
    }
    Ok(tank.capacity / g * (start / end).ln())
}

/// Temperature after a time.
///
/// `T = T0 + q(T0)/(k + L)·(1 − exp(−(k + L)·t/C))`, with [`net_heat`] `q`; where nothing depends on
/// temperature `T0 + q·t/C`. Holds as [`time_to_temperature`]. Source: as there.
pub fn temperature_after(tank: Tank, drive: Drive, t0: Q, time: Q) -> Q {
    let (start, g) = (net_heat(tank, drive, t0), pull(tank, drive));
    if g.si * time.si < 1e-7 * tank.capacity.si {
        return t0 + start * time / tank.capacity;
    }
    t0 + start / g * (1.0 - (-(g * time / tank.capacity)).exp())
}

/// The least source temperature that holds a tank at `t` (for cooling the greatest), in infinite time.
///
/// `Ts = T + (L·(T − Ta) − P)/k`. `power` is heat that comes anyway. Refuses `k = 0`.
/// Source: steady balance.
pub fn least_source_temperature(tank: Tank, k: Q, power: Option<Q>, t: Q) -> Result<Q, Refusal> {
    above_zero(k, "The source exchanges no heat with the tank.")?;
    Ok(t + duty_to_hold(tank, t, None, power) / k)
}

/// The source temperature that brings the tank from `t0` to `t` in a time.
///
/// `Ts = Ta + ((k + L)·(T∞ − Ta) − P)/k` with `T∞ = T0 + (T − T0)/(1 − exp(−(k + L)·t/C))`.
/// Closed form. Refuses `k = 0` and no time. Source: inverse of [`temperature_after`].
pub fn source_temperature_for_time(
    tank: Tank,
    k: Q,
    power: Option<Q>,
    (t0, t): (Q, Q),
    time: Q,
) -> Result<Q, Refusal> {
    above_zero(k, "The source exchanges no heat with the tank.")?;
    above_zero(time, "No time is given to get there.")?;
    let g = k + tank.loss;
    let settles = t0 + (t - t0) / (1.0 - (-(g * time / tank.capacity)).exp());
    let needed = g * (settles - tank.room);
    Ok(tank.room + power.map_or(needed, |power| needed - power) / k)
}

/// The power that brings the tank from `t0` to `t` in a time; negative to cool.
///
/// `P = L·(T0 − Ta) + L·(T − T0)/(1 − exp(−L·t/C))`, and `C·(T − T0)/t` without losses.
/// Closed form. Refuses no time. Source: inverse of [`temperature_after`].
pub fn power_for_time(tank: Tank, t0: Q, t: Q, time: Q) -> Result<Q, Refusal> {
    above_zero(time, "No time is given to get there.")?;
    if tank.loss.si * time.si < 1e-7 * tank.capacity.si {
        return Ok(tank.capacity * (t - t0) / time);
    }
    let way = 1.0 - (-(tank.loss * time / tank.capacity)).exp();
    Ok(tank.loss * (t0 - tank.room) + tank.loss * (t - t0) / way)
}

/// The conductance that brings the tank from `t0` to `t` in a time, from a source at `ts`.
///
/// Bracketed on [`time_to_temperature`], to 1e-12. Where the tank would get there by itself in that
/// time it is refused, as is a source on the wrong side of the target.
/// Source: inverse of [`time_to_temperature`].
pub fn conductance_for_time(
    tank: Tank,
    ts: Q,
    power: Option<Q>,
    (t0, t): (Q, Q),
    time: Q,
) -> Result<Q, Refusal> {
    above_zero(time, "No time is given to get there.")?;
    let rise = t.si - t0.si;
    if !is_above_zero(Q::from((ts.si - t.si) * rise)) {
        return Err(Refusal::new(
            format!("A source at {} never brings the tank to {}.", celsius(ts), celsius(t)),
            format!("Use a source {} {}.", if rise > 0.0 { "above" } else { "below" }, celsius(t)),
        ));
    }
    let root = crate::quantity::with_tape(None, || {
        let late = |k: f64| {
            let medium = Some(Medium { conductance: Q::from(k), temperature: ts });
            match time_to_temperature(tank, Drive { medium, power }, t0, t) {
                Ok(taken) => taken.si - time.si,
                Err(_) => f64::INFINITY,
            }
        };
        if late(0.0) <= 0.0 {
            return None;
        }
        let mut most = tank.capacity.si / time.si;
        while late(most) > 0.0 && most < 1e15 {
            most *= 4.0;
        }
        Some(solve::bisect(late, 0.0, most))
    })
    .0;
    let Some(k) = root else {
        return Err(Refusal::new(
            format!("The tank comes to {} in that time without the source.", celsius(t)),
            "No exchanger is needed; choose a shorter time to size one.",
        ));
    };
    let arguments = [tank.capacity, tank.loss, tank.room, ts, t0, t, time];
    Ok(Q::call("UA for the time", &arguments, k, W_PER_K))
}

fn never_settles() -> Refusal {
    Refusal::new(
        "With no loss and no exchange the temperature never settles.",
        "Give the tank's loss to the room, or ask for the temperature after a time.",
    )
}

fn unreachable(tank: Tank, drive: Drive, t0: Q, t: Q) -> Refusal {
    crate::quantity::with_tape(None, || {
        let heats = t > t0;
        let settles = match final_temperature(tank, drive) {
            Ok(end) => format!("it settles at {}", celsius(end)),
            Err(_) => "nothing moves it that way".to_string(),
        };
        let (more, least) = if heats { ("more", "at least") } else { ("less", "at most") };
        let remedy = match drive.medium {
            Some(Medium { conductance, .. }) => {
                match least_source_temperature(tank, conductance, drive.power, t) {
                    Ok(ts) => format!(
                        "Use a source {} {} ({} to get there in good time), or a larger exchanger or flow.",
                        if heats { "above" } else { "below" },
                        celsius(ts),
                        if heats { "well above" } else { "well below" },
                    ),
                    Err(_) => "Let the source exchange heat with the tank.".to_string(),
                }
            }
            None => {
                let power = duty_to_hold(tank, t, None, None);
                let watts = Style::default().show(power.si, KW);
                format!("It takes {least} {watts} to stay there, and {more} to get there in good time.")
            }
        };
        Refusal::new(format!("The tank does not come to {}: {settles}.", celsius(t)), remedy)
    })
    .0
}

pub(super) fn celsius(t: Q) -> String {
    Style::default().show(t.si, CELSIUS)
}

#[cfg(test)]
#[path = "heating_tests.rs"]
mod tests;
