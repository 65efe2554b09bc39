//! Friction in a pipe that runs full.

use super::Refusal;
use super::bounds::above_zero;
use crate::quantity::Q;
use crate::units::*;
use std::f64::consts::PI;

/// Reynolds number below which flow in a pipe is laminar.
pub const LAMINAR: f64 = 2000.0;

/// Standard acceleration of free fall, 9.80665 m/s². Source: exact by definition (CGPM 1901).
pub fn gravity() -> Q {
    Q::constant("g", 9.80665, M_PER_S2)
}

/// Mean velocity in a bore.
///
/// `v = 4·Q/(π·D²)`. Refuses a bore of none. Source: definition.
pub fn velocity(q: Q, d: Q) -> Result<Q, Refusal> {
    above_zero(d, "The pipe has no bore.")?;
    Ok(4.0 * q / (PI * d.pow(2, 1)))
}

/// Reynolds number.
///
/// `Re = ρ·v·D/μ`. `μ` dynamic viscosity: not the kinematic one. Source: definition.
pub fn reynolds(rho: Q, v: Q, d: Q, mu: Q) -> Q {
    rho * v * d / mu
}

/// Darcy friction factor (four times Fanning's) in a round pipe.
///
/// `64/Re` up to 2000; above, Colebrook's `1/f^(1/2) = −2·log10(ε/(3.7·D) + 2.51/(Re·f^(1/2)))`.
/// Between 2000 and 4000 either may be found: the turbulent, greater one is given, to design on; the
/// lower bound there is [`friction_factor_laminar`]. `roughness` is `ε/D`, up to 0.05.
/// As good as the roughness (0.0015 mm for smooth plastic, from memory).
/// Refuses no flow and a roughness out of range. Source: Colebrook, as in `fluids` 1.3.1 `Colebrook`.
pub fn friction_factor(re: Q, roughness: Q) -> Result<Q, Refusal> {
    above_zero(re, "Nothing flows in the pipe.")?;
    if !(0.0..=0.05).contains(&roughness.si) {
        return Err(Refusal::new(
            "The roughness is not between 0 and 0.05 of the bore.",
            "Give the roughness of the pipe's wall: 0.0015 mm is usual for plastic.",
        ));
    }
    if re.si <= LAMINAR {
        return Ok(friction_factor_laminar(re));
    }
    Ok(Q::call("Colebrook", &[re, roughness], colebrook(re.si, roughness.si), NUMBER))
}

/// Darcy friction factor of laminar flow: `64/Re`. Holds up to Reynolds 2000; above that it is the
/// lower bound. Source: Hagen–Poiseuille.
pub fn friction_factor_laminar(re: Q) -> Q {
    64.0 / re
}

fn colebrook(re: f64, roughness: f64) -> f64 {
    // Fixed point in 1/√f: each turn gains a figure or more.
    let mut x = 7.0;
    for _ in 0..60 {
        let next = -2.0 * (roughness / 3.7 + 2.51 * x / re).log10();
        if (next - x).abs() < 1e-14 * x.abs() {
            break;
        }
        x = next;
    }
    1.0 / (x * x)
}

/// Head lost to friction and fittings, as height of the liquid itself.
///
/// `h = (f·l/D + ΣK)·v²/(2·g)`. Source: Darcy–Weisbach.
pub fn head_lost(f: Q, l: Q, d: Q, k: Q, v: Q) -> Q {
    (f * l / d + k) * v.pow(2, 1) / (2.0 * gravity())
}

/// Pressure lost to friction and fittings.
///
/// `Δp = (f·l/D + ΣK)·ρ·v²/2`. Source: Darcy–Weisbach.
pub fn pressure_drop(f: Q, l: Q, d: Q, k: Q, rho: Q, v: Q) -> Q {
    (f * l / d + k) * rho * v.pow(2, 1) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn f(re: f64, roughness: f64) -> f64 {
        friction_factor(Q::from(re), Q::from(roughness)).unwrap().si
    }

    /// `fluids` 1.3.1 `Colebrook`: Re 1e4, ε/D 1e-4 gives 0.0310372; Re 3000, smooth, 0.0435192;
    /// Re 2500, 0.001, 0.0468842. Laminar 64/Re is Hagen–Poiseuille.
    #[test]
    fn friction_factors_of_the_library() {
        for (re, roughness, expected) in
            [(1e4, 1e-4, 0.0310372), (3e3, 0.0, 0.0435192), (2.5e3, 1e-3, 0.0468842)]
        {
            assert!((f(re, roughness) / expected - 1.0).abs() < 1e-5, "{}", f(re, roughness));
        }
        assert_eq!(f(1000.0, 0.01), 0.064);
        assert!(friction_factor(Q::from(0.0), Q::from(0.0)).is_err());
    }
}
