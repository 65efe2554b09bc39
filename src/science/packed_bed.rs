//! Water through a bed of beads: velocity, size and pressure.

use super::Refusal;
use super::bounds::above_zero;
use crate::quantity::Q;

/// Bed and water: bead size `d`, share of void `ε`, density `ρ` and viscosity `µ` of the water.
#[derive(Clone, Copy, Debug)]
pub struct Bed {
    /// Diameter of the beads.
    pub bead: Q,
    /// Share of the bed's volume between the beads.
    pub void: Q,
    /// Density of the water.
    pub density: Q,
    /// Viscosity of the water.
    pub viscosity: Q,
}

/// Cross-section of a column: `π/4·D²`. Source: geometry.
pub fn cross_section(bore: Q) -> Q {
    std::f64::consts::FRAC_PI_4 * bore.pow(2, 1)
}

/// Bore of a column for a flow at a velocity: `√(4·q/(π·v))`. Refuses a velocity that is not above zero.
/// Source: geometry.
pub fn bore_for(flow: Q, velocity: Q) -> Result<Q, Refusal> {
    above_zero(velocity, "Nothing flows at that velocity.")?;
    Ok((flow / velocity / std::f64::consts::FRAC_PI_4).sqrt())
}

impl Bed {
    /// Pressure that a clean bed takes per length: `150·µ·(1−ε)²·v/(ε³·d²) + 1.75·ρ·(1−ε)·v²/(ε³·d)`.
    ///
    /// `v` flow over the whole cross-section. Holds for spheres of one size and clean water; fines, swelling
    /// and dirt come on top, and `ε` in error by 0.02 moves it by 20 %. Refuses a bed without beads or void.
    /// Source: Ergun, Chem. Eng. Prog. 48 (1952) 89, as in `fluids` 1.3.1 `Ergun`.
    pub fn pressure_gradient(&self, velocity: Q) -> Result<Q, Refusal> {
        let (viscous, inertial) = self.terms()?;
        Ok(viscous * velocity + inertial * velocity.pow(2, 1))
    }

    /// Velocity at which a clean bed takes a pressure per length: the positive root of
    /// [`pressure_gradient`](Bed::pressure_gradient).
    ///
    /// Source: inverse of the same; `scipy` 1.17.1 `brentq` over `fluids` 1.3.1 `Ergun`.
    pub fn velocity_for(&self, gradient: Q) -> Result<Q, Refusal> {
        above_zero(gradient, "There is no pressure to drive water through the bed.")?;
        let (viscous, inertial) = self.terms()?;
        let root = (viscous.pow(2, 1) + 4.0 * inertial * gradient).sqrt();
        Ok(2.0 * gradient / (viscous + root))
    }

    /// Reynolds number between the beads: `ρ·v·d/((1−ε)·µ)`; below 10 the viscous term of
    /// [`pressure_gradient`](Bed::pressure_gradient) alone would do.
    /// Source: Abulencia and Theodore, Fluid Flow for the Practicing Chemical Engineer, example 26.3.
    pub fn reynolds(&self, velocity: Q) -> Q {
        self.density * velocity * self.bead / ((1.0 - self.void) * self.viscosity)
    }

    fn terms(&self) -> Result<(Q, Q), Refusal> {
        above_zero(self.bead, "The beads have no size.")?;
        if !(self.void.si > 0.0 && self.void.si < 1.0) {
            return Err(Refusal::new(
                "The void between the beads must be more than 0 and less than 100 %.",
                "Settled resin has 35 to 40 %.",
            ));
        }
        let (solid, cubed) = (1.0 - self.void, self.void.pow(3, 1));
        let viscous = 150.0 * self.viscosity * solid.pow(2, 1) / (cubed * self.bead.pow(2, 1));
        Ok((viscous, 1.75 * self.density * solid / (cubed * self.bead)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::water;
    use crate::units::{CELSIUS, KPA, M, M_PER_H, MM};

    fn bed(celsius: f64) -> Bed {
        let t = Q::constant("T", celsius, CELSIUS);
        Bed {
            bead: Q::constant("d", 0.6, MM),
            void: Q::from(0.38),
            density: water::density(t).unwrap(),
            viscosity: water::viscosity(t).unwrap(),
        }
    }

    /// fluids 1.3.1 Ergun with iapws 1.5.5 water: 8.4, 21.9 and 36.5 kPa/m at 10, 25 and 40 m/h and 20 °C.
    #[test]
    fn a_bed_of_resin_takes_the_pressure_that_the_correlation_gives() {
        for (v, expected) in [(10.0, 8.4), (25.0, 21.9), (40.0, 36.5)] {
            let gradient = bed(20.0).pressure_gradient(Q::constant("v", v, M_PER_H)).unwrap();
            let found = (gradient * Q::constant("h", 1.0, M)).number(KPA);
            assert!((found - expected).abs() < 0.06, "{v}: {found}");
            let back = bed(20.0).velocity_for(gradient).unwrap();
            assert!((back.number(M_PER_H) / v - 1.0).abs() < 1e-12);
        }
    }

    /// The same: cold water, 5 against 25 °C, costs 1.6 to 1.7 times the pressure.
    #[test]
    fn cold_water_costs_more_pressure() {
        let v = Q::constant("v", 28.8, M_PER_H);
        let at = |t| bed(t).pressure_gradient(v).unwrap().si;
        assert!((1.6..1.7).contains(&(at(5.0) / at(25.0))));
    }

    #[test]
    fn a_bed_without_void_is_refused() {
        let solid = Bed { void: Q::from(0.0), ..bed(20.0) };
        assert!(solid.pressure_gradient(Q::constant("v", 10.0, M_PER_H)).is_err());
        assert!(bed(20.0).velocity_for(Q::from(0.0)).is_err());
    }
}
