//! The films and the wall of a tube, and what holds it back.

use super::{BY_BATH, BY_FOULING, BY_MEDIUM, BY_WALL};
use crate::quantity::Q;
use crate::science::coil::{
    Flow, Still, difference_at_rest, film, nusselt_across, nusselt_at_rest, nusselt_inside, on_outside,
    overall, prandtl, rayleigh, wall,
};
use crate::science::{Refusal, pipe, water};
use crate::units::{CELSIUS, NUMBER};

/// A liquid, as films need it.
#[derive(Clone, Copy)]
pub(super) struct Liquid {
    pub rho: Q,
    pub cp: Q,
    pub mu: Q,
    pub k: Q,
}

impl Liquid {
    /// Water at a temperature.
    pub fn water(t: Q) -> Result<Liquid, Refusal> {
        Ok(Liquid {
            rho: water::density(t)?,
            cp: water::heat_capacity(t)?,
            mu: water::viscosity(t)?,
            k: water::conductivity(t)?,
        })
    }
}

/// How the bath passes the tube.
#[derive(Clone, Copy)]
pub(super) enum Side {
    /// Its film is typed.
    Typed(Q),
    /// It flows across the tube at this speed.
    Across(Liquid, Q),
    /// It stands at a temperature; between it and the medium is this difference.
    AtRest { liquid: Liquid, t: Q, difference: Q },
}

/// What is common to all tubes that are compared.
#[derive(Clone, Copy)]
pub(super) struct Around {
    pub medium: Liquid,
    /// Through one tube.
    pub flow: Q,
    pub coil: Option<Q>,
    pub side: Side,
    pub fouling: Q,
}

/// One tube's wall.
#[derive(Clone, Copy)]
pub(super) struct Wall {
    pub outside: Q,
    pub bore: Q,
    pub k: Q,
}

/// A tube worked out.
pub(super) struct Tube {
    pub reynolds: Q,
    pub speed: Q,
    pub flow: Flow,
    pub inner: Q,
    pub outer: Q,
    pub wall: Q,
    pub u: Q,
    pub limit: &'static str,
}

pub(super) fn work_out(around: &Around, of: Wall) -> Result<Tube, Refusal> {
    let Around { medium, flow, coil, side, fouling } = *around;
    let speed = pipe::velocity(flow, of.bore)?;
    let reynolds = pipe::reynolds(medium.rho, speed, of.bore, medium.mu);
    let (kind, nusselt) = nusselt_inside(reynolds, prandtl(medium.mu, medium.cp, medium.k), of.bore, coil)?;
    let inner = film(nusselt, medium.k, of.bore);
    let referred = on_outside(inner, of.bore, of.outside);
    let wall = wall(of.outside, of.bore, of.k)?;
    let rest = 1.0 / (1.0 / referred + wall + fouling);
    let outer = outer(side, of.outside, rest)?;
    let u = overall(outer, wall, referred, fouling);
    let resistances = [
        (wall.si, BY_WALL),
        (1.0 / outer.si, BY_BATH),
        (1.0 / referred.si, BY_MEDIUM),
        (fouling.si, BY_FOULING),
    ];
    let most =
        resistances.into_iter().fold((0.0, BY_WALL), |most, next| if next.0 > most.0 { next } else { most });
    Ok(Tube { reynolds, speed, flow: kind, inner, outer, wall, u, limit: most.1 })
}

/// The film on the bath's side.
fn outer(side: Side, d: Q, rest: Q) -> Result<Q, Refusal> {
    let prandtl = |bath: Liquid| prandtl(bath.mu, bath.cp, bath.k);
    match side {
        Side::Typed(film) => Ok(film),
        Side::Across(bath, speed) => {
            let reynolds = pipe::reynolds(bath.rho, speed, d, bath.mu);
            Ok(film(nusselt_across(reynolds, prandtl(bath))?, bath.k, d))
        }
        Side::AtRest { liquid: bath, t, difference } => {
            let Liquid { rho, cp, mu, k } = bath;
            let still = Still { rho, mu, cp, k, d, expansion: expansion(t)? };
            let difference = difference_at_rest(&still, rest, difference)?;
            let ra = Q::call("Ra at the wall", &[difference, d], rayleigh(&still, difference.si), NUMBER);
            Ok(film(nusselt_at_rest(ra, prandtl(bath))?, k, d))
        }
    }
}

/// Thermal expansion of water in 1/K, from its density a kelvin to both sides.
fn expansion(t: Q) -> Result<f64, Refusal> {
    let celsius = t.number(CELSIUS).clamp(1.0, 99.0);
    let at = |celsius: f64| water::density(Q::constant("T", celsius, CELSIUS)).map(|rho| rho.si);
    let numbers = || Ok((at(celsius - 1.0)?, at(celsius + 1.0)?));
    let (low, high) = crate::quantity::with_tape(None, numbers).0?;
    // Water is heaviest at 4 °C; below that it moves as little.
    Ok(((low - high) / (low + high)).abs())
}
