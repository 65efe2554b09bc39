//! A delivery line: pressure for a flow and back, what a pump can suck, filling, power.

use super::bounds::{above_zero, positive};
use super::pipe::{friction_factor, gravity, pressure_drop, reynolds, velocity};
use super::solve::bisect;
use super::{Refusal, bounds};
use crate::quantity::{Q, with_tape};
use crate::units::*;
use std::f64::consts::PI;

/// Reynolds number above which flow in a pipe is turbulent; from [`LAMINAR`](super::pipe::LAMINAR) to this it is
/// unstable, and either may be found.
pub const TURBULENT: f64 = 4000.0;

/// A pipe that runs full.
#[derive(Clone, Copy)]
pub struct Line {
    /// Length.
    pub run: Q,
    /// Inside diameter.
    pub bore: Q,
    /// Sum of the loss coefficients.
    pub k: Q,
    /// Height of the wall's roughness.
    pub wall: Q,
}

/// What flows in it.
#[derive(Clone, Copy)]
pub struct Liquid {
    /// Density.
    pub rho: Q,
    /// Dynamic viscosity: not the kinematic one.
    pub mu: Q,
}

/// Pressure lost in a line at a flow: [`pressure_drop`] with the [`friction_factor`] of its Reynolds number, the
/// greater one where the flow is unstable. Nothing flows, nothing is lost. Refuses as these do.
/// Source: Darcy–Weisbach with Colebrook, as in `fluids` 1.3.1.
pub fn friction_pressure(line: Line, liquid: Liquid, q: Q) -> Result<Q, Refusal> {
    let arguments = [q, line.bore, line.run, line.k, liquid.rho, liquid.mu];
    let found = with_tape(None, || lost(line, liquid, q)).0?;
    Ok(Q::call("friction pressure", &arguments, found.si, PASCAL))
}

fn lost(Line { run, bore, k, wall }: Line, Liquid { rho, mu }: Liquid, q: Q) -> Result<Q, Refusal> {
    let v = velocity(q, bore)?;
    if q.si <= 0.0 {
        return Ok(Q::from(0.0));
    }
    let f = friction_factor(reynolds(rho, v, bore, positive(mu, "the viscosity")?), wall / bore)?;
    Ok(pressure_drop(f, run, bore, k, rho, v))
}

/// Flow for a pressure that is spent on friction alone: the inverse of [`friction_pressure`], by halving.
///
/// `p` friction pressure; of a line that runs by gravity [`static_pressure`] of its fall. Where the pressure lies
/// between what laminar and what turbulent flow take at Reynolds 2000, it is the flow at that number.
/// Refuses no pressure and no resistance. Source: as there; `scipy` 1.17.1 `brentq` over `fluids` 1.3.1.
pub fn flow_for_pressure(line: Line, liquid: Liquid, p: Q) -> Result<Q, Refusal> {
    above_zero(p, "There is no pressure to drive it.")?;
    let arguments = [p, line.bore, line.run, line.k, liquid.rho, liquid.mu];
    let found = with_tape(None, || {
        above_zero(line.bore, "The pipe has no bore.")?;
        // No friction factor of any pipe is below 0.004.
        let least = 0.004 * line.run.si / line.bore.si + line.k.si;
        above_zero(Q::from(least), "The line has neither length nor fittings.")?;
        let most = (2.0 * p.si / (positive(liquid.rho, "the density")?.si * least)).sqrt();
        let most = 1.01 * most * PI / 4.0 * line.bore.si.powi(2);
        lost(line, liquid, Q::from(most))?;
        let left = |q: f64| lost(line, liquid, Q::from(q)).map_or(f64::NEG_INFINITY, |lost| p.si - lost.si);
        Ok(bisect(left, 0.0, most))
    });
    Ok(Q::call("flow for pressure", &arguments, found.0?, M3_PER_S))
}

/// Bore for a flow at a friction pressure, by halving: then take the next larger tube.
///
/// Refuses no pressure, no flow, and what no bore up to 2 m does. Source: as [`flow_for_pressure`].
pub fn bore_for_pressure(line: Line, liquid: Liquid, q: Q, p: Q) -> Result<Q, Refusal> {
    above_zero(p, "There is no pressure to drive it.")?;
    above_zero(q, "Nothing flows in the pipe.")?;
    let arguments = [q, p, line.run, line.k, liquid.rho, liquid.mu];
    let found = with_tape(None, || {
        let over = |bore: f64| {
            let line = Line { bore: Q::from(bore), ..line };
            // A wall that is rough for so narrow a bore lets less through.
            lost(line, liquid, q).map_or(f64::INFINITY, |lost| lost.si - p.si)
        };
        if over(2.0) > 0.0 {
            return Err(Refusal::new("No bore up to 2 m does.", "Give more pressure or a shorter run."));
        }
        Ok(bisect(over, 1e-4, 2.0))
    });
    Ok(Q::call("bore for pressure", &arguments, found.0?, M))
}

/// Bore for a flow at a velocity: `D = (4·Q/(π·v))^(1/2)`. Refuses no velocity. Source: definition.
pub fn bore_for_velocity(q: Q, v: Q) -> Result<Q, Refusal> {
    above_zero(v, "The liquid stands still.")?;
    Ok((4.0 * q / (PI * v)).sqrt())
}

/// Pressure of a column of the liquid itself: `ρ·g·h`. Ten metres of 96 % acid are 180 kPa, of water 98.
/// Source: hydrostatics.
pub fn static_pressure(rho: Q, h: Q) -> Q {
    rho * gravity() * h
}

/// Pressure that a line needs at its start: `Δp + ρ·g·z + p`.
///
/// `Δp` friction, `z` rise, `p` pressure at the end, all gauge. Negative where it falls more than it loses.
/// Source: energy balance.
pub fn supply_pressure(friction: Q, rho: Q, rise: Q, end: Q) -> Q {
    friction + static_pressure(rho, rise) + end
}

/// Head of the liquid above its vapour pressure that a pump finds at its inlet: `(pa − pv)/(ρ·g) − z − h`.
///
/// `pa` pressure of the air on the liquid, absolute; `pv` its vapour pressure; `z` lift, negative for flooded
/// suction; `h` head lost in the suction line. Refuses a liquid that boils. Source: energy balance, as in
/// Abulencia & Theodore, Fluid Flow for the Practicing Chemical Engineer, example 22.10.
pub fn npsh_available(pa: Q, pv: Q, rho: Q, lift: Q, lost: Q) -> Result<Q, Refusal> {
    Ok(head_of_air(pa, pv, rho)? - lift - lost)
}

/// Highest lift at which a pump still finds a margin: `(pa − pv)/(ρ·g) − h − m`, the symbols of
/// [`npsh_available`], `m` what the pump needs. Source: as there.
pub fn suction_lift_limit(pa: Q, pv: Q, rho: Q, lost: Q, margin: Q) -> Result<Q, Refusal> {
    Ok(head_of_air(pa, pv, rho)? - lost - margin)
}

fn head_of_air(pa: Q, pv: Q, rho: Q) -> Result<Q, Refusal> {
    if pv.si > pa.si {
        return Err(Refusal::new(
            "The liquid boils at this pressure of the air.",
            "Take it colder, or give its own vapour pressure.",
        ));
    }
    Ok((pa - pv) / (positive(rho, "the density")? * gravity()))
}

/// Volume of a line: `π/4·D²·l`. It is lost or flushed at each change of chemical. Source: geometry.
pub fn line_volume(d: Q, l: Q) -> Q {
    PI / 4.0 * d.pow(2, 1) * l
}

/// Time to fill a volume through a line: `(V + V_l)/Q`, `V_l` of a line that is empty at the start, else none.
/// Refuses no flow. Source: volume balance.
pub fn fill_time(v: Q, line: Q, q: Q) -> Result<Q, Refusal> {
    above_zero(q, "Nothing flows in the pipe.")?;
    Ok((v + line) / q)
}

/// Power that a pump takes: `ρ·g·H·Q/η`. Refuses no efficiency. Source: definition.
pub fn pump_power(head: Q, q: Q, rho: Q, efficiency: Q) -> Result<Q, Refusal> {
    Ok(rho * gravity() * head * q / bounds::share(efficiency, "the efficiency")?)
}

/// Loss coefficient of a valve from its `Kv`: `2·p₀·(π/4·D²)²/(ρ₀·Kv²)`, 1.6e-3·D⁴/Kv² with mm and m³/h.
///
/// `Kv` flow of water at `p₀` = 1 bar, `ρ₀` = 1000 kg/m³, `D` bore of the line. `Cv` is 1.156 `Kv`: never mix them.
/// Refuses no `Kv`. Source: definition of `Kv`; `fluids` 1.3.1 `Kv_to_K`.
pub fn loss_from_kv(kv: Q, d: Q) -> Result<Q, Refusal> {
    let (bar, water) = (Q::constant("p₀", 1.0, BAR), Q::constant("ρ₀", 1000.0, KG_PER_M3));
    let kv = positive(kv, "the Kv")?;
    Ok(2.0 * bar * (PI / 4.0 * d.pow(2, 1)).pow(2, 1) / (water * kv.pow(2, 1)))
}

/// Strokes of a pump in a time: `Q/V`, `V` delivered by a full stroke. Refuses none. Source: displacement.
pub fn strokes(q: Q, v: Q) -> Result<Q, Refusal> {
    Ok(q / positive(v, "the volume of a stroke")?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn q(number: f64, unit: &'static Unit) -> Q {
        Q::constant("x", number, unit)
    }

    fn near(got: Q, unit: &Unit, expected: f64, within: f64) {
        let got = got.number(unit);
        assert!((got / expected - 1.0).abs() < within, "{got} is not {expected}");
    }

    fn line(run: f64, bore: f64, k: f64) -> Line {
        Line { run: q(run, M), bore: q(bore, MM), k: Q::from(k), wall: q(0.0015, MM) }
    }

    fn water() -> Liquid {
        Liquid { rho: q(998.2, KG_PER_M3), mu: q(1.002, MPAS) }
    }

    fn acid() -> Liquid {
        Liquid { rho: q(1836.0, KG_PER_M3), mu: q(23.8, MPAS) }
    }

    /// `scipy` 1.17.1 `brentq` over `fluids` 1.3.1: 8.80895 L/min of water and 6.14848 of 96 % acid; 16.7279 mm.
    #[test]
    fn pressure_gives_flow_and_flow_gives_bore() {
        let flow = |line, liquid, kpa| flow_for_pressure(line, liquid, q(kpa, KPA)).unwrap();
        near(flow(line(30.0, 12.7, 8.0), water(), 50.0), L_PER_MIN, 8.80895, 2e-3);
        near(flow(line(20.0, 12.7, 6.0), acid(), 80.0), L_PER_MIN, 6.14848, 2e-3);
        let bore = bore_for_pressure(line(30.0, 1.0, 8.0), water(), q(20.0, L_PER_MIN), q(60.0, KPA));
        near(bore.unwrap(), MM, 16.7279, 2e-3);
        let back =
            friction_pressure(line(30.0, 12.7, 8.0), water(), flow(line(30.0, 12.7, 8.0), water(), 50.0));
        near(back.unwrap(), KPA, 50.0, 1e-9);
    }

    /// Between laminar and turbulent flow a pressure has no flow of its own: the lesser one counts.
    #[test]
    fn in_the_gap_at_reynolds_2000_the_lesser_flow_counts() {
        let l = line(50.0, 9.5, 0.0);
        let edge = reynolds(water().rho, Q::from(1.0), l.bore, water().mu).si;
        let at = |re: f64| q(re / edge, M_PER_S) * line_volume(l.bore, q(1.0, M)) / q(1.0, M);
        let [laminar, turbulent] =
            [2000.0 - 1e-6, 2000.0 + 1e-6].map(|re| friction_pressure(l, water(), at(re)).unwrap());
        assert!(turbulent.si > 1.4 * laminar.si);
        let between = flow_for_pressure(l, water(), 0.5 * (laminar + turbulent)).unwrap();
        near(between, M3_PER_S, at(2000.0).si, 1e-6);
    }

    /// iapws 1.5.5: water at 20 °C 10.1 m, 96 % acid 5.6 m because it is heavy; at 1500 m (84.56 kPa) 8.4 m.
    #[test]
    fn a_heavy_liquid_is_sucked_less_high() {
        let limit = |pa: f64, rho: f64| {
            suction_lift_limit(q(pa, KPA), q(2.339, KPA), q(rho, KG_PER_M3), q(0.0, M), q(0.0, M)).unwrap()
        };
        near(limit(101.325, 998.2), M, 10.1, 0.01);
        near(limit(101.325, 1836.0), M, 5.6, 0.03);
        near(limit(84.56, 998.2), M, 8.4, 0.01);
        assert!(
            npsh_available(q(2.0, KPA), q(2.339, KPA), q(998.0, KG_PER_M3), q(0.0, M), q(0.0, M)).is_err()
        );
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert!(flow_for_pressure(line(0.0, 12.7, 0.0), water(), q(50.0, KPA)).is_err());
        assert!(flow_for_pressure(line(10.0, 12.7, 0.0), water(), q(0.0, KPA)).is_err());
        assert!(bore_for_pressure(line(10.0, 1.0, 0.0), water(), q(0.0, L_PER_MIN), q(50.0, KPA)).is_err());
        assert!(bore_for_pressure(line(1e6, 1.0, 1e9), acid(), q(1e6, L_PER_MIN), q(1e-3, PASCAL)).is_err());
        assert!(fill_time(q(10.0, L), q(0.0, L), q(0.0, L_PER_MIN)).is_err());
        assert!(pump_power(q(10.0, M), q(10.0, L_PER_MIN), q(1.0, KG_PER_L), Q::from(0.0)).is_err());
        assert!(bore_for_velocity(q(10.0, L_PER_MIN), q(0.0, M_PER_S)).is_err());
        assert!(loss_from_kv(q(0.0, M3_PER_H), q(12.7, MM)).is_err());
    }
}
