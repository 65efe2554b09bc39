//! Exhaust: how much air captures what a bath gives off, what its duct takes, and what dilution would take.

use super::Refusal;
use super::bounds::{above_zero, positive, share};
use super::formula::Formula;
use crate::quantity::Q;
use crate::units::{J_PER_MOL_K, KELVIN, M, M2};
use std::f64::consts::PI;

/// Air through an opening of an enclosure: `V·A`. `V` face velocity. Source: definition.
pub fn face_flow(velocity: Q, area: Q) -> Q {
    velocity * area
}

/// How far a hood captures, in diameters of its opening.
const REACH: f64 = 1.5;

/// Air into a plain opening beside the source: `V·(10·x² + A)`.
///
/// `V` velocity that captures at the source, `x` its distance from the opening, `A` the opening: the flow grows
/// with the square of the distance. Holds up to 1.5 diameters of the opening, and refuses beyond.
/// Source: form of the ventilation handbooks (DallaValle), from memory.
pub fn plain_opening_flow(velocity: Q, distance: Q, area: Q) -> Result<Q, Refusal> {
    above_zero(area, "The opening has no area.")?;
    let reach = REACH * (4.0 * area.number(M2) / PI).sqrt();
    if distance.number(M) > reach {
        return Err(Refusal::new(
            format!(
                "The source is farther from the opening than 1.5 of its diameters, {:.2} m here: no published form holds there",
                reach
            ),
            "bring the hood nearer, make its opening larger, or enclose the source",
        ));
    }
    Ok(velocity * (10.0 * distance.pow(2, 1) + area))
}

/// Air into an opening with a flange all round: 0.75 of [`plain_opening_flow`], and holds as that does.
/// Source: form of the ventilation handbooks, from memory.
pub fn flanged_opening_flow(velocity: Q, distance: Q, area: Q) -> Result<Q, Refusal> {
    Ok(0.75 * plain_opening_flow(velocity, distance, area)?)
}

/// Air into a slot: `3.7·L·V·x`, with a flange `2.6·L·V·x`.
///
/// `L` length of the slot, `V` velocity that captures at the distance `x`. Holds for a slot much longer than it is
/// wide. Source: form of the ventilation handbooks, from memory.
pub fn slot_flow(length: Q, velocity: Q, distance: Q, has_flange: bool) -> Q {
    (if has_flange { 2.6 } else { 3.7 }) * length * velocity * distance
}

/// Bore of a duct for a flow and a velocity: `(4·Q/(π·v))^(1/2)`. Refuses no velocity. Source: definition.
pub fn duct_diameter(flow: Q, velocity: Q) -> Result<Q, Refusal> {
    Ok((4.0 * flow / (PI * positive(velocity, "the velocity in the duct")?)).sqrt())
}

/// Pressure of moving air: `ρ·v²/2`. Source: definition.
pub fn velocity_pressure(density: Q, velocity: Q) -> Q {
    density * velocity.pow(2, 1) / 2.0
}

/// Power that a fan takes: `Q·p/η`, `p` the whole pressure that it gives. Refuses an efficiency outside 0 to
/// 100 %. Source: definition.
pub fn fan_power(flow: Q, pressure: Q, efficiency: Q) -> Result<Q, Refusal> {
    Ok(flow * pressure / share(efficiency, "the efficiency of the fan")?)
}

/// Mass of a vapour in a volume of air, from its share by volume: `y·M·p/(R·T)`.
///
/// `y` share by volume (ppm), `M` molar mass, `p` and `T` of the air, R 8.314462618 J/(mol·K) (CODATA 2018); at
/// 25 °C and 1 atm a mole fills 24.45 L. Refuses absolute zero. Source: law of ideal gases.
pub fn mass_in_air(share: Q, molar_mass: Q, t: Q, p: Q) -> Result<Q, Refusal> {
    let kelvins = t - Q::constant("0 K", 0.0, KELVIN);
    let thermal = Q::constant("R", 8.314462618, J_PER_MOL_K) * positive(kelvins, "the temperature")?;
    Ok(share * molar_mass * p / thermal)
}

/// Clean air that keeps a room at a limit: `K·G/(C − C0)`.
///
/// `G` vapour given off, `C` limit, `C0` in the air that comes in, `K` factor for incomplete mixing, 3 to 10 (from
/// memory). Steady. Refuses air that comes in at the limit already: no flow helps.
/// Source: balance of a stirred room; `K` as the ventilation handbooks have it, from memory.
pub fn dilution_flow(generated: Q, limit: Q, incoming: Q, mixing: Q) -> Result<Q, Refusal> {
    let room = limit - incoming;
    if room.si <= 0.0 {
        return Err(Refusal::new(
            "The air that comes in holds as much as the limit allows already: no flow helps",
            "clean the air that comes in, or capture at the source",
        ));
    }
    Ok(mixing * generated / room)
}

/// Air that keeps a gas at a share by volume: `q·(1 − y)/y`. `q` gas given off, `y` its share. Steady.
/// Refuses a share that is not above 0 and at most 1. Source: balance of a stirred room.
pub fn air_for_share(gas: Q, fraction: Q) -> Result<Q, Refusal> {
    share(fraction, "the share of the gas")?;
    Ok(gas * (1.0 - fraction) / fraction)
}

/// Time in which clean air, or nitrogen, brings what a space holds down to a share of it: `V/Q·ln(1/s)`.
///
/// `V` the space, `Q` what flows through it, `s` what is left of what was there. Nothing more is given off;
/// perfect mixing, so a lower bound. Refuses no flow. Source: balance of a stirred room; `scipy` 1.17.1
/// `solve_ivp`.
pub fn time_to_clear(space: Q, flow: Q, left: Q) -> Result<Q, Refusal> {
    share(left, "the share that is left")?;
    Ok(space / positive(flow, "the flow through the space")? * (1.0 / left).ln())
}

/// Heat for the air that replaces what is drawn off: `ρ·Q·cp·ΔT`. `ΔT` room less outside. What moisture takes
/// is not in it. Source: definition.
pub fn replacement_air_heat(flow: Q, density: Q, cp: Q, rise: Q) -> Q {
    density * flow * cp * rise
}

/// Gases that kill or harm at so little that they are captured and interlocked, never left to dilution:
/// atoms in the order of the alphabet, and the name. From memory.
const NEVER_DILUTED: &[(&[(&str, f64)], &str)] = &[
    (&[("C", 1.0), ("H", 1.0), ("N", 1.0)], "hydrogen cyanide"),
    (&[("F", 1.0), ("H", 1.0)], "hydrogen fluoride"),
    (&[("Cl", 2.0)], "chlorine"),
    (&[("H", 2.0), ("S", 1.0)], "hydrogen sulfide"),
    (&[("As", 1.0), ("H", 3.0)], "arsine"),
    (&[("H", 3.0), ("P", 1.0)], "phosphine"),
];

/// The name of a gas that is never left to dilution; `None` of others, which is no promise that they may be.
/// Source: from memory.
pub fn never_diluted(formula: &Formula) -> Option<&'static str> {
    let counts = || formula.counts().iter().map(|(symbol, number)| (*symbol, *number));
    NEVER_DILUTED.iter().find(|(atoms, _)| counts().eq(atoms.iter().copied())).map(|(_, name)| *name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn plain(x: f64) -> Result<Q, Refusal> {
        let q = Q::constant;
        plain_opening_flow(q("V", 0.5, M_PER_S), q("x", x, M), q("A", 0.1, M2))
    }

    /// Form of the ventilation handbooks, from memory: V·(10·x² + A). Far from the opening twice the distance
    /// takes four times the air that the distance takes.
    #[test]
    fn capture_falls_with_the_square_of_the_distance() {
        let beyond = |x: f64| plain(x).unwrap().si - 0.5 * 0.1;
        assert!((beyond(0.4) / beyond(0.2) - 4.0).abs() < 1e-12);
        assert!((plain(0.3).unwrap().number(M3_PER_H) - 1800.0).abs() < 1e-9);
    }

    /// By hand: 1.5 diameters of 0.1 m² are 0.535 m.
    #[test]
    fn a_hood_too_far_off_is_refused() {
        assert!(plain(0.53).is_ok());
        assert!(plain(0.54).unwrap_err().reason.contains("0.54 m"));
    }

    #[test]
    fn what_is_never_diluted_is_known_by_its_formula() {
        let name = |text| never_diluted(&Formula::read(text).unwrap());
        for text in ["HCN", "CHN", "HF", "Cl2"] {
            assert!(name(text).is_some(), "{text}");
        }
        for text in ["HCl", "H2", "C3H8O", "NH3", "CH3CN"] {
            assert_eq!(name(text), None, "{text}");
        }
    }
}
