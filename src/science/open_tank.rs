//! Heating and cooling a stirred tank with an open surface: evaporation grows so fast with temperature
//! that there is no closed form.

use super::bounds::is_above_zero;
use super::heating::{Drive, Tank, celsius, net_heat};
use super::{Refusal, solve};
use crate::quantity::Q;
use crate::units::*;

/// An open surface from which water evaporates, as [`evaporation_heat`](super::evaporation::evaporation_heat).
#[derive(Clone, Copy, Debug)]
pub struct Surface {
    /// Open area.
    pub area: Q,
    /// Air speed at the surface.
    pub air_speed: Q,
    /// Pressure of water vapour in the room.
    pub room_pressure: Q,
}

/// Net heat with evaporation taken off; the vapour pressure at the surface is that of `t`.
fn net_heat_wet<P>(tank: Tank, drive: Drive, surface: Surface, pressure: &P, t: Q) -> Result<Q, Refusal>
where
    P: Fn(Q) -> Result<Q, Refusal>,
{
    let Surface { area, air_speed, room_pressure } = surface;
    let wet = super::evaporation::evaporation_heat(area, pressure(t)?, room_pressure, air_speed);
    Ok(net_heat(tank, drive, t) - wet)
}

/// Time from one temperature to another with evaporation from an open surface.
///
/// `t = ∫ C/(q(T) − E(T)) dT`, with [`net_heat`] `q` and
/// [`evaporation_heat`](super::evaporation::evaporation_heat) `E`; adaptive Simpson's rule, to 1e-8.
/// `pressure` gives the vapour pressure at the surface for a temperature; water's is the upper bound
/// for a bath. Holds for a constant level, stirred. As good as the evaporation: a factor of 2.
/// Refuses a temperature that is not reached against losses and evaporation.
/// Source: integral of the balance; checked against numerical integration (scipy `solve_ivp`).
pub fn time_with_evaporation<P>(
    tank: Tank,
    drive: Drive,
    surface: Surface,
    pressure: P,
    (t0, t): (Q, Q),
) -> Result<Q, Refusal>
where
    P: Fn(Q) -> Result<Q, Refusal>,
{
    let rise = t.si - t0.si;
    if rise == 0.0 {
        return Ok(Q::constant("0 s", 0.0, SECOND));
    }
    let numbers = || -> Result<f64, Refusal> {
        // A coarse walk first: the integrand has a pole where the tank settles.
        for step in 0..=64 {
            let at = Q::from(t0.si + rise * f64::from(step) / 64.0);
            let heat = net_heat_wet(tank, drive, surface, &pressure, at)?.si;
            if !is_above_zero(Q::from(heat * rise)) {
                return Err(held(at, t, rise > 0.0));
            }
        }
        let slowness = |kelvin: f64| {
            net_heat_wet(tank, drive, surface, &pressure, Q::from(kelvin))
                .map(|heat| tank.capacity.si / heat.si)
        };
        solve::integral(slowness, t0.si, t.si, 1e-8)
    };
    let seconds = crate::quantity::with_tape(None, numbers).0?;
    if !seconds.is_finite() {
        return Err(held(t, t, rise > 0.0));
    }
    Ok(Q::call(
        "time against losses and evaporation",
        &arguments(tank, drive, surface, &[t0, t]),
        seconds,
        SECOND,
    ))
}

/// Temperature after a time with evaporation from an open surface.
///
/// Runge–Kutta steps of the fourth order on the balance of [`time_with_evaporation`], halved until
/// two runs agree to 1e-6 K. Holds as there. Source: as there.
pub fn temperature_with_evaporation<P>(
    tank: Tank,
    drive: Drive,
    surface: Surface,
    pressure: P,
    t0: Q,
    time: Q,
) -> Result<Q, Refusal>
where
    P: Fn(Q) -> Result<Q, Refusal>,
{
    let rate = |kelvin: f64| {
        net_heat_wet(tank, drive, surface, &pressure, Q::from(kelvin)).map(|heat| heat.si / tank.capacity.si)
    };
    let kelvin = crate::quantity::with_tape(None, || solve::follow(rate, t0.si, time.si, 1e-6)).0?;
    let arguments = arguments(tank, drive, surface, &[t0, time]);
    Ok(Q::call("temperature against losses and evaporation", &arguments, kelvin, KELVIN))
}

/// Temperature at which a tank with an open surface settles.
///
/// `q(T) = E(T)`, with the terms of [`time_with_evaporation`]; bisection between `low` and `high`, to
/// the last figure: net heat only falls with temperature. Holds as there.
/// Refuses a balance that lies outside of the two: it would boil, or freeze.
/// Source: steady balance of a stirred tank.
pub fn final_temperature_with_evaporation<P>(
    tank: Tank,
    drive: Drive,
    surface: Surface,
    pressure: P,
    (low, high): (Q, Q),
) -> Result<Q, Refusal>
where
    P: Fn(Q) -> Result<Q, Refusal>,
{
    let net =
        |kelvin: f64| net_heat_wet(tank, drive, surface, &pressure, Q::from(kelvin)).map(|heat| heat.si);
    let root = || -> Result<f64, Refusal> {
        if net(low.si)? < 0.0 {
            return Err(Refusal::new(
                format!("It would settle below {}.", celsius(low)),
                "Use a warmer source, or less of it.",
            ));
        }
        if net(high.si)? > 0.0 {
            return Err(Refusal::new(
                format!("It would come to {}.", celsius(high)),
                "Use less power or a cooler source, with an over-temperature cut-out of its own.",
            ));
        }
        Ok(solve::bisect(|kelvin| net(kelvin).unwrap_or(f64::NAN), low.si, high.si))
    };
    let kelvin = crate::quantity::with_tape(None, root).0?;
    let arguments = arguments(tank, drive, surface, &[]);
    Ok(Q::call("temperature at which losses and evaporation balance", &arguments, kelvin, KELVIN))
}

fn arguments(tank: Tank, drive: Drive, surface: Surface, more: &[Q]) -> Vec<Q> {
    let medium = drive.medium.map(|medium| [medium.conductance, medium.temperature]);
    let given = drive.power.into_iter().chain(medium.into_iter().flatten());
    let fixed = [tank.capacity, tank.loss, tank.room, surface.area, surface.air_speed, surface.room_pressure];
    fixed.into_iter().chain(given).chain(more.iter().copied()).collect()
}

fn held(at: Q, t: Q, heats: bool) -> Refusal {
    Refusal::new(
        format!(
            "The tank does not come to {}: near {} losses and evaporation {}.",
            celsius(t),
            celsius(at),
            if heats { "take all the heat" } else { "no longer cool it" }
        ),
        if heats {
            "Cover the surface, insulate, or give more power or a hotter source."
        } else {
            "Give a colder source, or choose a higher target."
        },
    )
}
