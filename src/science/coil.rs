//! Heat through the wall of a tube: the film inside, the wall, the film outside, and what fouls.

use super::Refusal;
use super::bounds::{above_zero, positive};
use super::fit::within;
use super::pipe;
use super::solve;
use crate::quantity::Q;
use crate::units::*;

/// How a medium flows in a tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flow {
    /// In layers.
    Laminar,
    /// Neither for certain: the laminar film, the lower, is taken.
    Uncertain,
    /// Mixed.
    Turbulent,
}

/// Reynolds number up to which flow in a coiled tube stays laminar.
///
/// `Re = 2300·(1 + 8.6·(Di/Dc)^0.45)`: 5,000 to 7,000 for usual coils. `Di` bore, `Dc` diameter of the coil.
/// Holds for `Di` smaller than `Dc`. Source: Schmidt, as in `fluids` 1.3.1 `helical_transition_Re_Schmidt`.
pub fn critical_reynolds(bore: Q, coil: Q) -> Result<Q, Refusal> {
    let r = curvature(bore, coil)?;
    Ok(Q::call("critical Re of a coil", &[bore, coil], 2300.0 * (1.0 + 8.6 * r.powf(0.45)), NUMBER))
}

fn curvature(bore: Q, coil: Q) -> Result<f64, Refusal> {
    positive(bore, "the bore")?;
    if bore.si < coil.si {
        return Ok(bore.si / coil.si);
    }
    Err(Refusal::new(
        "The coil is no wider than its own tube.",
        "Give the diameter of the coil, from centre to centre.",
    ))
}

/// Darcy friction factor of laminar flow in a coiled tube.
///
/// `f = 64/Re·(1 + 0.14·r^0.97·Re^(1 − 0.644·r^0.312))`, `r = Di/Dc`: above that of a straight tube.
/// Holds up to [`critical_reynolds`].
/// Source: Schmidt, as in `fluids` 1.3.1 `helical_laminar_fd_Schmidt`.
pub fn friction_in_coil(re: Q, bore: Q, coil: Q) -> Result<Q, Refusal> {
    above_zero(re, "Nothing flows in the tube.")?;
    let r = curvature(bore, coil)?;
    let f = 64.0 / re.si * (1.0 + 0.14 * r.powf(0.97) * re.si.powf(1.0 - 0.644 * r.powf(0.312)));
    Ok(Q::call("friction in a coil", &[re, bore, coil], f, NUMBER))
}

/// Nusselt number of turbulent flow in a straight tube.
///
/// `Nu = (f/8)·(Re − 1000)·Pr/(1 + 12.7·(f/8)^(1/2)·(Pr^(2/3) − 1))`, `f = (0.79·ln Re − 1.64)^(−2)`.
/// Holds for `Re` 3000 to 5e6 and `Pr` 0.5 to 2000, smooth tubes, within 10 %. Refuses outside.
/// Source: Gnielinski, as in `ht` 1.2.0 `turbulent_Gnielinski`.
pub fn nusselt_turbulent(re: Q, pr: Q) -> Result<Q, Refusal> {
    let x = within(re, NUMBER, 3e3, 5e6, "the Reynolds number")?;
    let p = within(pr, NUMBER, 0.5, 2000.0, "the Prandtl number")?;
    let f = (0.79 * x.ln() - 1.64).powi(-2) / 8.0;
    let nu = f * (x - 1000.0) * p / (1.0 + 12.7 * f.sqrt() * (p.powf(2.0 / 3.0) - 1.0));
    Ok(Q::call("Gnielinski", &[re, pr], nu, NUMBER))
}

/// Nusselt number of turbulent flow in a coiled tube.
///
/// Up to `Re` 22,000 `0.023·(1 + 14.8·(1 + r)·r^(1/3))·Re^(0.8 − 0.22·r^0.1)·Pr^(1/3)`, above
/// `0.023·(1 + 3.6·(1 − r)·r^0.8)·Re^0.8·Pr^(1/3)`, `r = Di/Dc`. Holds from [`critical_reynolds`] to 1.5e5.
/// Source: Schmidt, as in `ht` 1.2.0 `helical_turbulent_Nu_Schmidt`.
pub fn nusselt_in_coil(re: Q, pr: Q, bore: Q, coil: Q) -> Result<Q, Refusal> {
    let x = within(re, NUMBER, 1e3, 1.5e5, "the Reynolds number")?;
    let p = positive(pr, "the Prandtl number")?.si.cbrt();
    let r = curvature(bore, coil)?;
    let nu = if x <= 2.2e4 {
        0.023 * (1.0 + 14.8 * (1.0 + r) * r.cbrt()) * x.powf(0.8 - 0.22 * r.powf(0.1)) * p
    } else {
        0.023 * (1.0 + 3.6 * (1.0 - r) * r.powf(0.8)) * x.powf(0.8) * p
    };
    Ok(Q::call("Schmidt, in a coil", &[re, pr, bore, coil], nu, NUMBER))
}

/// Nusselt number of laminar flow in a tube whose wall keeps its temperature: 3.66, far from the inlet.
/// Short and coiled tubes are better: a lower bound. Source: as in `ht` 1.2.0 `laminar_T_const`.
pub fn nusselt_laminar() -> Q {
    Q::constant("3.66", 3.66, NUMBER)
}

/// How the medium flows, and the Nusselt number inside the tube; `coil` is left out for a straight one.
///
/// Straight: [`nusselt_laminar`] up to `Re` 2300, the same up to 3000 where neither is certain, then
/// [`nusselt_turbulent`]. Coiled: laminar up to [`critical_reynolds`], then [`nusselt_in_coil`].
/// Refuses as they do, and a medium that does not flow. Source: as there.
pub fn nusselt_inside(re: Q, pr: Q, bore: Q, coil: Option<Q>) -> Result<(Flow, Q), Refusal> {
    above_zero(re, "Nothing flows in the tube.")?;
    if let Some(coil) = coil {
        if re <= critical_reynolds(bore, coil)? {
            return Ok((Flow::Laminar, nusselt_laminar()));
        }
        return Ok((Flow::Turbulent, nusselt_in_coil(re, pr, bore, coil)?));
    }
    Ok(match re.si {
        ..=2300.0 => (Flow::Laminar, nusselt_laminar()),
        ..3000.0 => (Flow::Uncertain, nusselt_laminar()),
        _ => (Flow::Turbulent, nusselt_turbulent(re, pr)?),
    })
}

/// Film coefficient from a Nusselt number: `h = Nu·k/d`. Source: definition.
pub fn film(nu: Q, k: Q, d: Q) -> Q {
    nu * k / d
}

/// Prandtl number: `Pr = μ·cp/k`. Source: definition.
pub fn prandtl(mu: Q, cp: Q, k: Q) -> Q {
    mu * cp / k
}

/// Film outside a tube across which the bath flows.
///
/// `Nu = 0.3 + 0.62·Re^(1/2)·Pr^(1/3)/(1 + (0.4/Pr)^(2/3))^(1/4)·(1 + (Re/282000)^(5/8))^(4/5)`, `Re` on
/// the outside diameter. Holds for `Re·Pr` above 0.2, within 20 %. Refuses below.
/// Source: Churchill and Bernstein 1977, as in `ht` 1.2.0 `Nu_cylinder_Churchill_Bernstein`.
pub fn nusselt_across(re: Q, pr: Q) -> Result<Q, Refusal> {
    let peclet = re.si * pr.si;
    if peclet.is_nan() || peclet <= 0.2 {
        return Err(Refusal::new(
            "The bath hardly moves past the tube, and the form for flow across it does not hold.",
            "Take the form for a bath at rest, or type the coefficient.",
        ));
    }
    let (x, p) = (re.si, pr.si);
    let still = 0.62 * x.sqrt() * p.cbrt() / (1.0 + (0.4 / p).powf(2.0 / 3.0)).powf(0.25);
    let nu = 0.3 + still * (1.0 + (x / 282_000.0).powf(0.625)).powf(0.8);
    Ok(Q::call("Churchill–Bernstein", &[re, pr], nu, NUMBER))
}

/// What a liquid at rest around a tube is.
#[derive(Clone, Copy, Debug)]
pub struct Still {
    /// Density.
    pub rho: Q,
    /// Viscosity.
    pub mu: Q,
    /// Heat capacity per mass.
    pub cp: Q,
    /// Thermal conductivity.
    pub k: Q,
    /// Outside diameter of the tube.
    pub d: Q,
    /// Thermal expansion, 1/K.
    pub expansion: f64,
}

/// Nusselt number of free convection around a horizontal tube.
///
/// `Nu = (0.6 + 0.387·Ra^(1/6)/(1 + (0.559/Pr)^(9/16))^(8/27))²`. Holds up to `Ra` 1e12, within 20 %.
/// Source: Churchill and Chu 1975, as in `ht` 1.2.0 `Nu_horizontal_cylinder_Churchill_Chu`.
pub fn nusselt_at_rest(ra: Q, pr: Q) -> Result<Q, Refusal> {
    let x = within(ra, NUMBER, 0.0, 1e12, "the Rayleigh number")?;
    let p = positive(pr, "the Prandtl number")?.si;
    let shape = (1.0 + (0.559 / p).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    let nu = (0.6 + 0.387 * x.powf(1.0 / 6.0) / shape).powi(2);
    Ok(Q::call("Churchill–Chu", &[ra, pr], nu, NUMBER))
}

/// Difference between the wall and a bath at rest, where the film outside carries what the rest of the
/// tube lets through.
///
/// Solves `h(x)·x = u·(ΔT − x)`, `h` by [`nusselt_at_rest`], `u` all of the tube but the outer film, on the
/// outside area, `ΔT` between bath and medium; bisection to the last figure. Source: series of resistances.
pub fn difference_at_rest(still: &Still, u: Q, difference: Q) -> Result<Q, Refusal> {
    above_zero(difference, "Bath and medium have the same temperature.")?;
    let film = |x: f64| -> Result<f64, Refusal> {
        let pr = prandtl(still.mu, still.cp, still.k);
        Ok(nusselt_at_rest(Q::from(rayleigh(still, x)), pr)?.si * still.k.si / still.d.si)
    };
    let root = || -> Result<f64, Refusal> {
        film(difference.si)?;
        let spare = |x: f64| u.si * (difference.si - x) - film(x).unwrap_or(0.0) * x;
        Ok(solve::bisect(spare, 0.0, difference.si))
    };
    let x = crate::quantity::with_tape(None, root).0?;
    Ok(Q::call("difference at the wall", &[u, difference, still.d], x, KELVINS))
}

/// Rayleigh number around a tube in a bath at rest: `Ra = g·β·ΔT·d³·ρ²·cp/(μ·k)`. Source: definition.
pub fn rayleigh(still: &Still, difference: f64) -> f64 {
    let Still { rho, mu, cp, k, d, expansion } = *still;
    pipe::gravity().si * expansion * difference * d.si.powi(3) * rho.si.powi(2) * cp.si / (mu.si * k.si)
}

/// Resistance of the wall of a tube, on its outside area: `R = do/(2·k)·ln(do/di)`.
/// Refuses a bore that is not smaller than the outside. Source: conduction through a cylinder.
pub fn wall(outside: Q, bore: Q, k: Q) -> Result<Q, Refusal> {
    positive(bore, "the bore")?;
    positive(k, "the conductivity of the wall")?;
    if outside <= bore {
        return Err(Refusal::new(
            "The tube has no wall: its bore is not smaller than its outside.",
            "Type both diameters.",
        ));
    }
    Ok(outside / (2.0 * k) * (outside / bore).ln())
}

/// Overall coefficient of a tube, on its **outside** area.
///
/// `1/U = 1/ho + R_w + do/(di·hi) + Rf`. `ho` and `hi` films, `R_w` from [`wall`], `Rf` what fouls, on the
/// outside. Use it with the outside area alone: with the inside area it is wrong by `do/di`.
/// Source: series of resistances; Kern, Process Heat Transfer, example 20.2.
pub fn overall(outer: Q, wall: Q, inner: Q, fouling: Q) -> Q {
    1.0 / (1.0 / outer + wall + 1.0 / inner + fouling)
}

/// The film inside, referred to the outside area: `hi·di/do`. Source: geometry.
pub fn on_outside(inner: Q, bore: Q, outside: Q) -> Q {
    inner * bore / outside
}

#[cfg(test)]
mod tests {
    use super::*;

    fn n(number: f64) -> Q {
        Q::from(number)
    }

    #[track_caller]
    fn near(found: Q, expected: f64) {
        assert!((found.si / expected - 1.0).abs() < 1e-5, "{} is not {expected}", found.si);
    }

    /// `ht` 1.2.0: `Nu_cylinder_Churchill_Bernstein` and `Nu_horizontal_cylinder_Churchill_Chu`.
    #[test]
    fn films_outside_are_those_of_the_library() {
        near(nusselt_across(n(2000.0), n(5.0)).unwrap(), 47.378355);
        near(nusselt_at_rest(n(5e6), n(5.0)).unwrap(), 27.996546);
        assert!(nusselt_across(n(0.01), n(5.0)).is_err());
    }

    #[test]
    fn a_coiled_tube_stays_laminar_far_above_2300() {
        let (bore, coil) = (Q::constant("d", 10.0, MM), Q::constant("D", 300.0, MM));
        assert_eq!(nusselt_inside(n(5000.0), n(7.0), bore, Some(coil)).unwrap().0, Flow::Laminar);
        assert_eq!(nusselt_inside(n(5000.0), n(7.0), bore, None).unwrap().0, Flow::Turbulent);
        assert_eq!(nusselt_inside(n(2500.0), n(7.0), bore, None).unwrap().0, Flow::Uncertain);
    }

    /// The film outside and the rest of the tube in series carry the same heat.
    #[test]
    fn the_wall_settles_where_both_sides_carry_the_same() {
        let q = Q::constant;
        let still = Still {
            rho: q("ρ", 1.0, KG_PER_L),
            mu: q("μ", 0.8, MPAS),
            cp: q("c", 4.18, KJ_PER_KG_K),
            k: q("k", 0.61, W_PER_M_K),
            d: q("d", 12.0, MM),
            expansion: 3e-4,
        };
        let (u, all) = (q("u", 100.0, W_PER_M2_K), q("ΔT", 20.0, KELVINS));
        let x = difference_at_rest(&still, u, all).unwrap();
        let pr = prandtl(still.mu, still.cp, still.k);
        let h = nusselt_at_rest(n(rayleigh(&still, x.si)), pr).unwrap().si * 0.61 / 0.012;
        assert!((h * x.si / (100.0 * (20.0 - x.si)) - 1.0).abs() < 1e-9);
    }
}
