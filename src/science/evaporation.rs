//! Water that leaves an open surface, and the heat that it takes along.

use super::Refusal;
use super::air::sutherland;
use super::bounds::{above_zero, is_above_zero};
use crate::quantity::Q;
use crate::units::*;

/// Heat that evaporation takes from an open surface; negative where water condenses on it.
///
/// `E = A·(pw − pa)·(a + b·v)`, `a = 0.089 kW/(m²·kPa)`, `b = 0.0782` of the same per m/s of air.
/// `A` open surface, `pw` vapour pressure at the surface's temperature, `pa` pressure of vapour in the
/// room, `v` air speed at the surface.
/// Made for indoor pools of water at 25 to 30 °C; hotter it is an extrapolation. An estimate within
/// a factor of 2: quiet pools were measured at 74 % of it, busy ones up to 126 %; the usual forms
/// differ by 1.5 at 45 °C and 2 at 75 °C, acid lowers `pw`, exhaust sets `v`.
/// Source: Carrier 1918; in inch and pound units, (95 + 0.425 v)(pw − pa), as printed in the abstract
/// of Smith, Loef & Jones, ASHRAE Transactions 104, 1998; the SI coefficients from memory.
pub fn evaporation_heat(a: Q, pw: Q, pa: Q, v: Q) -> Q {
    let still = Q::constant("a", 0.089, KW_PER_M2_KPA);
    let moving = Q::constant("b", 0.0782, NUMBER);
    a * (pw - pa) * (still + moving * v)
}

/// Water that an amount of heat evaporates.
///
/// `w = E/h`. `h` heat of vaporisation at the surface's temperature: its value at 100 °C used at
/// 25 °C is 8 % low. Source: definition.
pub fn water_evaporated(e: Q, h: Q) -> Q {
    e / h
}

/// Heat that an amount of evaporating water takes: `E = w·h`, see [`water_evaporated`].
pub fn heat_of_evaporation(w: Q, h: Q) -> Q {
    w * h
}

/// Volume of make-up water for what evaporates in a time.
///
/// `V = w·t/ρ`. `ρ` density of the make-up water. Pure water only: what is dragged out is another
/// matter. Source: mass balance.
pub fn make_up_water(w: Q, t: Q, rho: Q) -> Q {
    w * t / rho
}

/// Water that evaporates, by the difference of the humidity ratios; negative where water condenses.
///
/// `w = A·(xs − x)·(a + b·v)`, `a = 25 kg/(h·m²)`, `b = 19` of the same per m/s of air.
/// `A` open surface, `xs` humidity ratio of air saturated at the surface's temperature
/// ([`humidity_ratio_over`](super::air::humidity_ratio_over)), `x` of the room, `v` air speed.
/// Made for pools; hotter than 50 °C `xs` grows without bound towards boiling, and so does this.
/// An estimate within a factor of 2.
/// Source: an engineering reference page on evaporation from water surfaces, whose example it
/// reproduces (500 m², 0.5 m/s, 0.0200 and 0.0098 kg/kg: 0.049 kg/s).
pub fn evaporation_by_ratio(a: Q, xs: Q, x: Q, v: Q) -> Q {
    let still = Q::constant("a", 25.0, KG_PER_H_M2);
    let moving = Q::constant("b", 19.0 / 3600.0, KG_PER_M3);
    a * (xs - x) * (still + moving * v)
}

/// Water that evaporates outdoors into dry air that moves.
///
/// `w = 0.284·v^0.78·M^(2/3)·A·pw/(82.05·T)` in lb/min, with m/s, g/mol, ft², mmHg and K.
/// `A` open surface, `pw` vapour pressure at the surface's temperature `t`, `v` air speed.
/// Made for spills outdoors, 1.5 m/s and more; the humidity of the room is left out, and in still air
/// nothing evaporates by it: a low reading indoors.
/// Source: US EPA, offsite consequence guidance, EPA 550-B-99-009; its coefficient from memory.
pub fn evaporation_of_spill(a: Q, pw: Q, t: Q, v: Q) -> Result<Q, Refusal> {
    above_zero(v, "The air does not move, and this form holds for moving air.")?;
    let mass = 18.015_f64.powf(2.0 / 3.0);
    let (mmhg, feet) = (pw.si / 133.322, a.number(FT2));
    let w = 0.284 * v.si.powf(0.78) * mass * feet * mmhg / (82.05 * t.si);
    Ok(Q::call("spill form", &[a, pw, t, v], w, LB_PER_MIN))
}

/// What a square open surface and the air over it are, for the analogies of heat and mass transfer.
#[derive(Clone, Copy, Debug)]
pub struct Film {
    /// Open surface.
    pub area: Q,
    /// Temperature of the surface.
    pub surface: Q,
    /// Temperature of the room.
    pub room: Q,
    /// Vapour pressure at the surface.
    pub at_surface: Q,
    /// Pressure of vapour in the room.
    pub in_room: Q,
    /// Pressure of the air.
    pub pressure: Q,
}

/// Numbers that both analogies need, in SI.
struct Numbers {
    length: f64,
    film: f64,
    diffusivity: f64,
    viscosity: f64,
    excess: f64,
}

/// Gas constant, J/(mol·K), CODATA 2018; molar masses of water and dry air, kg/mol (from memory).
const R: f64 = 8.314_462_618;
const WATER: f64 = 18.015_268e-3;
const AIR: f64 = 28.964_7e-3;

impl Film {
    /// Film at the mean temperature: `D = 2.26e-5 (T/273.15)^1.81 m²/s`, viscosity of air by Sutherland.
    fn numbers(&self) -> Numbers {
        let film = 0.5 * (self.surface.si + self.room.si);
        let of_vapour = |p: Q, t: Q| p.si * WATER / (R * t.si);
        Numbers {
            length: self.area.si.max(0.0).sqrt(),
            film,
            diffusivity: 2.26e-5 * (film / 273.15).powf(1.81),
            viscosity: sutherland(film),
            excess: of_vapour(self.at_surface, self.surface) - of_vapour(self.in_room, self.room),
        }
    }

    /// Density of the moist air at a temperature and a pressure of vapour.
    fn air(&self, vapour: Q, t: Q) -> f64 {
        ((self.pressure.si - vapour.si) * AIR + vapour.si * WATER) / (R * t.si)
    }

    fn arguments(&self) -> Vec<Q> {
        vec![self.area, self.surface, self.room, self.at_surface, self.in_room, self.pressure]
    }
}

/// Water that evaporates into air that streams over a square surface, as heat leaves a flat plate.
///
/// `Sh = 0.664·Re^(1/2)·Sc^(1/3)`, `w = A·Sh·D/l·(ρs − ρr)`, side `l` the root of the area, `D`
/// diffusivity of vapour, `ρs` and `ρr` mass of vapour in a volume of air at the surface and in the room.
/// Holds for laminar flow, `Re` up to 5e5, and leaves out free convection: a lower bound.
/// Refuses air that does not move, and `Re` beyond. Source: Pohlhausen's plate, by analogy; diffusivity
/// and Sutherland's constants from memory.
pub fn evaporation_of_plate(film: &Film, v: Q) -> Result<Q, Refusal> {
    above_zero(v, "The air does not move, and this form holds for moving air.")?;
    let n = film.numbers();
    let nu = n.viscosity * R * n.film / (film.pressure.si * AIR);
    let reynolds = v.si * n.length / nu;
    if reynolds > 5e5 {
        return Err(Refusal::new(
            "The air over the surface is turbulent, and this form holds for laminar flow.",
            "Take another form.",
        ));
    }
    let sherwood = 0.664 * reynolds.sqrt() * (nu / n.diffusivity).cbrt();
    let w = film.area.si * sherwood * n.diffusivity / n.length * n.excess;
    let arguments = [film.arguments(), vec![v]].concat();
    Ok(Q::call("laminar plate", &arguments, w, KG_PER_S))
}

/// Water that evaporates into still air over a square surface, by free convection of moist air.
///
/// `Sh = 0.54·Ra^(1/4)` up to `Ra = 2e7`, above `0.14·Ra^(1/3)`, with `Ra` on the densities of the moist
/// air at the surface and in the room; `w = A·Sh·D/l·(ρs − ρr)` as [`evaporation_of_plate`].
/// Holds where the air at the surface is the lighter, without a draught: a lower bound for an exhausted
/// tank. Refuses a surface whose air does not rise.
/// Source: McAdams, hot plate facing up, coefficients from memory, by analogy.
pub fn evaporation_in_still_air(film: &Film) -> Result<Q, Refusal> {
    let n = film.numbers();
    let (at, room) = (film.air(film.at_surface, film.surface), film.air(film.in_room, film.room));
    let mean = 0.5 * (at + room);
    let nu = n.viscosity / mean;
    let rayleigh = 9.80665 * (room - at) / mean * n.length.powi(3) / (nu * n.diffusivity);
    if !is_above_zero(Q::from(rayleigh)) {
        return Err(Refusal::new(
            "The air over a bath this cold does not rise, and this form holds for air that does.",
            "Take another form.",
        ));
    }
    let sherwood = if rayleigh <= 2e7 { 0.54 * rayleigh.powf(0.25) } else { 0.14 * rayleigh.cbrt() };
    let w = film.area.si * sherwood * n.diffusivity / n.length * n.excess;
    Ok(Q::call("still air", &film.arguments(), w, KG_PER_S))
}

/// Surface that evaporates as if it were open, under a cover of part of it.
///
/// `Ao = A·(1 − f·k)`. `f` share of the surface that is covered, `k` share of evaporation that the cover
/// holds back: 70 to 90 % for a lid or floating balls, common practice. Source: definition.
pub fn open_area(a: Q, covered: Q, held_back: Q) -> Q {
    a * (1.0 - covered * held_back)
}

/// Time in which a bath that is not topped up comes to a greater concentration.
///
/// `t = V·(1 − 1/(1 + s))·ρ/w`. `s` rise of all that does not evaporate, `ρ` density of water, `w` water
/// that evaporates. Drag-out is another matter: it takes bath along and raises nothing.
/// Refuses where nothing evaporates. Source: mass balance.
pub fn time_to_concentrate(v: Q, s: Q, rho: Q, w: Q) -> Result<Q, Refusal> {
    above_zero(w, "Nothing evaporates, so nothing grows stronger.")?;
    Ok(v * (1.0 - 1.0 / (1.0 + s)) * rho / w)
}

/// By how much all that does not evaporate rises in a time without topping up.
///
/// `s = V/(V − w·t/ρ) − 1`. Refuses a time in which the whole bath would be gone. Source: mass balance.
pub fn rise_without_water(v: Q, w: Q, t: Q, rho: Q) -> Result<Q, Refusal> {
    let left = above_zero(v - make_up_water(w, t, rho), "By then the whole bath has evaporated.")?;
    Ok(v / left - 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A = 0.5 m², 45 °C, room 21 °C and 45 % RH, 0.3 m/s: 0.716589 kg/h, same form with vapour
    /// pressures 9.5944 and 1.1194 kPa and 2394.0 kJ/kg of `iapws` 1.5.5.
    #[test]
    fn a_warm_bath_loses_water() {
        let q = Q::constant;
        let heat = |pw| {
            let (a, v) = (q("A", 0.5, M2), q("v", 0.3, M_PER_S));
            evaporation_heat(a, q("pw", pw, KPA), q("pa", 1.1194, KPA), v)
        };
        let water = water_evaporated(heat(9.5944), q("h", 2394.0, KJ_PER_KG));
        assert!((water.number(KG_PER_H) / 0.716589 - 1.0).abs() < 5e-3, "{}", water.number(KG_PER_H));
        // At 12 °C (1.403 kPa) in a room of 21 °C and 60 % RH (1.493 kPa) water condenses: `iapws` 1.5.5.
        assert!(
            evaporation_heat(q("A", 1.0, M2), q("pw", 1.403, KPA), q("pa", 1.493, KPA), q("v", 0.1, M_PER_S))
                .si
                < 0.0
        );
    }
}
