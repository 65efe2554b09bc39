//! Water that leaves an open surface, and the heat that it takes along.

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
///
/// No sheet uses it yet: it waits for “Evaporation”.
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
