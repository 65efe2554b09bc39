//! Water through a bed of beads: velocity, size and pressure.

use super::Refusal;
use super::bounds::{above_zero, not_negative};
use super::pipe::gravity;
use super::solve::bisect;
use crate::quantity::Q;
use crate::units::{M_PER_S, NUMBER};

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

/// Upward velocity that widens a bed by a share `x` of its depth: `v_t·ε_x^n`, `ε_x = 1 − (1 − ε)/(1 + x)`.
///
/// `v_t` velocity at which one bead sinks, `n = 4.45·Re_t^−0.1`. Beads of one size, without the drag of the wall;
/// for Reynolds numbers of one bead from 1 to 260. Fine beads leave first: the maker’s curve rules. Trust: 10 %.
/// Source: Richardson and Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35, exponent from memory; drag by Clift, Grace and
/// Weber (1978), which agrees with `fluids` 1.3.1 `v_terminal` to 2 %.
pub fn backwash_velocity(bed: &Bed, bead_density: Q, widened: Q) -> Result<Q, Refusal> {
    bed.terms()?;
    let heavier = above_zero(bead_density - bed.density, "Beads as light as water do not sink in it.")?;
    not_negative(widened, "the expansion")?;
    // A bead sinks where its weight is the drag; of spheres, for Re up to 20 and up to 260.
    let weight = 4.0 / 3.0 * gravity() * bed.bead * heavier / bed.density;
    let re = |v: f64| v * bed.bead.si * bed.density.si / bed.viscosity.si;
    let drag = |re: f64| match re {
        re if re <= 20.0 => 24.0 / re * (1.0 + 0.1315 * re.powf(0.82 - 0.05 * re.log10())),
        re => 24.0 / re * (1.0 + 0.1935 * re.powf(0.6305)),
    };
    let sinks = bisect(|v| weight.si - drag(re(v)) * v * v, 1e-9, 10.0);
    let reynolds = re(sinks);
    if !(1.0..=260.0).contains(&reynolds) {
        return Err(Refusal::new(
            "Beads so small, so large or so heavy are outside of what the law of their sinking holds for.",
            "Check their size and density.",
        ));
    }
    let arguments = [bed.bead, bead_density, bed.density, bed.viscosity];
    let sinks = Q::call("sinking velocity of a bead", &arguments, sinks, M_PER_S);
    let void = 1.0 - (1.0 - bed.void) / (1.0 + widened);
    let n = 4.45 * reynolds.powf(-0.1);
    Ok(sinks * Q::call("of it in a widened bed", &[void, sinks], void.si.powf(n), NUMBER))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::water;
    use crate::units::{CELSIUS, KG_PER_L, KPA, M, M_PER_H, MM};

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

    /// fluids 1.3.1 v_terminal with Richardson and Zaki’s exponent: 14.1247 m/h for beads of 1.25 kg/L and 50 %.
    #[test]
    fn a_bed_widens_in_the_velocity_of_the_law() {
        let widened = |density, share| {
            let density = Q::constant("ρ", density, KG_PER_L);
            backwash_velocity(&bed(20.0), density, Q::from(share)).map(|v| v.number(M_PER_H))
        };
        assert!((widened(1.25, 0.5).unwrap() / 14.1247 - 1.0).abs() < 0.03);
        assert!(widened(1.08, 0.5).unwrap() < 0.5 * widened(1.25, 0.5).unwrap(), "light beads leave early");
        assert!(widened(1.25, 0.2).unwrap() < widened(1.25, 0.5).unwrap());
        assert!(widened(0.99, 0.5).is_err() && widened(1.0003, 0.5).is_err() && widened(1.25, -0.1).is_err());
    }

    #[test]
    fn a_bed_without_void_is_refused() {
        let solid = Bed { void: Q::from(0.0), ..bed(20.0) };
        assert!(solid.pressure_gradient(Q::constant("v", 10.0, M_PER_H)).is_err());
        assert!(bed(20.0).velocity_for(Q::from(0.0)).is_err());
    }
}
