//! Lift stations: volume between levels, how long they last without a pump, head and air.

use super::bounds::above_zero;
use super::{Refusal, drain, pipe::gravity};
use crate::quantity::Q;
use crate::units::*;

/// Volume between the levels that start and stop the pump, for a shortest cycle.
///
/// `V = qp·T/4`. `qp` pump flow at the station's own head, `T` the shortest time between two starts.
/// The worst inflow is half of the pump's flow. Source: formula as printed in a US Army engineering
/// instruction for domestic wastewater (EI 11C201, 1997); 10 to 15 min there for motors below 15 kW.
/// Air-operated pumps have no motor limit.
pub fn volume_between_levels(pump: Q, cycle: Q) -> Q {
    pump * cycle / 4.0
}

/// Volume between levels for a most number of starts per time: [`volume_between_levels`] with
/// `T = 1/starts`. Refuses no starts.
pub fn volume_for_starts(pump: Q, starts: Q) -> Result<Q, Refusal> {
    above_zero(starts, "No starts are allowed.")?;
    Ok(volume_between_levels(pump, 1.0 / starts))
}

/// Time from one start of the pump to the next.
///
/// `V/qi + V/(qp − qi)`: to fill and to empty. `qi` steady inflow, `qp` pump flow, `V` volume between
/// levels. Refuses an inflow that the pump does not catch up with, and none.
/// Source: volume balance.
pub fn cycle_time(inflow: Q, pump: Q, v: Q) -> Result<Q, Refusal> {
    catches_up(inflow, pump)?;
    above_zero(inflow, "Nothing flows in: the pump never starts.")?;
    Ok(v / inflow + v / (pump - inflow))
}

/// Starts per time: one over [`cycle_time`]. Refuses as that does, and no volume between levels.
pub fn starts_per_time(inflow: Q, pump: Q, v: Q) -> Result<Q, Refusal> {
    let cycle = cycle_time(inflow, pump, v)?;
    above_zero(cycle, "There is no volume between the levels.")?;
    Ok(1.0 / cycle)
}

/// Share of the time that the pump runs.
///
/// `qi/qp`. Refuses an inflow that the pump does not catch up with. Source: volume balance.
pub fn run_fraction(inflow: Q, pump: Q) -> Result<Q, Refusal> {
    catches_up(inflow, pump)?;
    Ok(inflow / pump)
}

/// Time to overflow when the pump stops, left after somebody or something has reacted; negative where
/// the stop signal comes too late.
///
/// `(V − pipes)/qi − t`. `V` from the high level to overflow, `pipes` what still drains from them
/// after the inflow is shut, `t` reaction time. Refuses no inflow: it never overflows.
/// Source: volume balance.
pub fn ride_through(v: Q, pipes: Q, inflow: Q, reaction: Q) -> Result<Q, Refusal> {
    above_zero(inflow, "Nothing flows in: it does not overflow.")?;
    Ok((v - pipes) / inflow - reaction)
}

/// Time to overflow with a pump that is too weak.
///
/// `V/(qi − qp)`. Refuses a pump that keeps up: it does not overflow. Source: volume balance.
pub fn ride_through_weak_pump(v: Q, inflow: Q, pump: Q) -> Result<Q, Refusal> {
    if inflow <= pump {
        return Err(Refusal::new(
            "The pump keeps up with the inflow, so the station does not overflow.",
            "Ask for the time with a lower pump flow, or with the pump stopped.",
        ));
    }
    Ok(v / (inflow - pump))
}

/// Level at which the inflow must be told to stop, above the bottom.
///
/// `H − (pipes + qi·t)/A`. `H` level of overflow, `A` area of the tank; the others as
/// [`ride_through`]. Add the level switch's tolerance and foam. Refuses where the tank is too small.
/// Source: volume balance.
pub fn stop_level(overflow: Q, pipes: Q, inflow: Q, reaction: Q, area: Q) -> Result<Q, Refusal> {
    above_zero(area, "The tank has no area.")?;
    let late = pipes + inflow * reaction;
    let level = overflow - late / area;
    if level.si > 0.0 {
        return Ok(level);
    }
    let style = Style::default();
    Err(Refusal::new(
        format!(
            "{} still comes after the signal, more than the tank holds: there is no level to stop at.",
            style.show(late.si, L)
        ),
        format!(
            "Use a tank of more than {}, a quicker signal, or less inflow.",
            style.show(late.si / overflow.si.max(1e-9), M2)
        ),
    ))
}

/// Rise of the level in a time.
///
/// `q·t/A`. `q` inflow less pump flow. Source: volume balance.
pub fn level_rise(net: Q, t: Q, area: Q) -> Result<Q, Refusal> {
    above_zero(area, "The tank has no area.")?;
    Ok(net * t / area)
}

/// Most that a station has to hold when a tank is dumped into it, empty and pumping from the start.
///
/// `A·(H − h) − qp·t`, at the moment when the dump has fallen to the pump's flow:
/// `h = (qp/(Cd·a))²/(2·g)`, `t` from [`dump_time`](drain::dump_time). None where the pump takes the
/// peak. `A` area of the dumped tank, `H` its level above the valve, `Cd·a` the valve.
/// Closed form. Source: volume balance with Torricelli; scipy `solve_ivp` of both tanks.
pub fn storage_for_dump(area: Q, h: Q, cd: Q, valve: Q, pump: Q) -> Result<Q, Refusal> {
    above_zero(cd * valve, "The valve has no opening.")?;
    if drain::dump_peak(cd, valve, h) <= pump {
        return Ok(Q::constant("0 L", 0.0, L));
    }
    let level = (pump / (cd * valve)).pow(2, 1) / (2.0 * gravity());
    let time = drain::dump_time(area, (h, level), cd, valve)?;
    Ok(area * (h - level) - pump * time)
}

/// Head that a pump must give at its flow, as height of the liquid itself.
///
/// `z + h + p/(ρ·g)`. `z` static lift, `h` lost ([`head_lost`](super::pipe::head_lost)), `p` pressure
/// at the end, `ρ` density. Source: energy balance.
pub fn total_head(lift: Q, lost: Q, end_pressure: Q, rho: Q) -> Q {
    lift + lost + end_pressure / (rho * gravity())
}

/// Free air that an air-operated pump takes, from the liquid that it moves.
///
/// `q·(p + pa)/pa·k`. `q` liquid, `p` gauge pressure of the air, `pa` atmosphere, `k` a factor for
/// dead volume and exhaust (1 for the lower bound; 1.2 to 2 common practice, no source).
/// A lower bound: the maker's curve rules. Source: displacement at pressure, ideal gas.
pub fn air_free(q: Q, p: Q, pa: Q, k: Q) -> Q {
    q * (p + pa) / pa * k
}

/// Air that an air-operated pump takes, from its swept volume.
///
/// `(p + pa)·V·s/(R·T)`. `V` swept in a full cycle by both chambers, `s` cycles per time, `T` the
/// air's temperature, `R` 8.314462618 J/(mol·K) (CODATA 2018); shown at a stated reference.
/// A lower bound: the maker's curve rules. Source: ideal gas.
pub fn air_from_strokes(v: Q, s: Q, p: Q, pa: Q, t: Q) -> Q {
    let kelvins = t - Q::constant("0 K", 0.0, KELVIN);
    (p + pa) * v * s / (Q::constant("R", 8.314462618, J_PER_MOL_K) * kelvins)
}

fn catches_up(inflow: Q, pump: Q) -> Result<(), Refusal> {
    if inflow < pump {
        return Ok(());
    }
    let style = Style::default();
    let shown = |flow: Q| style.show(flow.si, L_PER_MIN);
    Err(Refusal::new(
        format!("{} flows in and the pump takes {}: it never catches up.", shown(inflow), shown(pump)),
        "Use a pump of more than the inflow (twice is usual), or reduce the inflow.",
    ))
}

#[cfg(test)]
#[path = "lift_tests.rs"]
mod tests;
