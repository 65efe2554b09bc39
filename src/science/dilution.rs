//! Diluting and mixing: amounts and masses add up, volumes do not.

use super::Refusal;
use super::bounds::{not_negative, positive};
use crate::quantity::Q;

fn too_strong() -> Refusal {
    Refusal::new(
        "the strength wanted is above that of the stock: diluting cannot reach it",
        "use a stronger stock, or lower the target",
    )
}

/// Strength after a stock is brought to a larger volume.
///
/// `C₂ = C₁·V₁/V₂`.
///
/// `C₁`, `V₁` strength and volume of the stock, `V₂` final volume, to the mark.
///
/// Holds for strengths per volume (mol/L, g/L) and `V₂ ≥ V₁`.
///
/// Trust: exact for a volume brought to the mark; not for volumes that are added.
///
/// Source: balance of the amount.
pub fn strength_after(c1: Q, v1: Q, v2: Q) -> Result<Q, Refusal> {
    not_negative(c1, "the strength of the stock")?;
    not_negative(v1, "the volume of the stock")?;
    positive(v2, "the final volume")?;
    if v2.si < v1.si {
        return Err(Refusal::new(
            "the final volume is smaller than that of the stock: that is no dilution",
            "check the two volumes",
        ));
    }
    Ok(c1 * v1 / v2)
}

/// Volume of stock for a volume of a weaker solution.
///
/// `V₁ = C₂·V₂/C₁`.
///
/// `C₁` strength of the stock, `C₂`, `V₂` strength and volume wanted.
///
/// Holds for strengths per volume and `C₂ ≤ C₁`, filled up to the mark.
///
/// Trust: exact.
///
/// Source: balance of the amount.
pub fn stock_volume(c1: Q, c2: Q, v2: Q) -> Result<Q, Refusal> {
    positive(c1, "the strength of the stock")?;
    not_negative(c2, "the strength wanted")?;
    not_negative(v2, "the final volume")?;
    if c2.si > c1.si * (1.0 + 1e-12) {
        return Err(too_strong());
    }
    Ok(c2 * v2 / c1)
}

/// Mass of stock for a mass of a weaker solution.
///
/// `m₁ = m₂·(w₂ − w₀)/(w₁ − w₀)`.
///
/// `w₁` mass fraction of the stock, `w₂`, `m₂` those wanted, `w₀` of what it is diluted with: 0 for
/// water.
///
/// Holds for `w₀ ≤ w₂ ≤ w₁`, `w₀ < w₁`; the rest, `m₂ − m₁`, is the diluent.
///
/// Trust: exact.
///
/// Source: mass balance (lever rule).
pub fn stock_mass(w1: Q, w0: Q, w2: Q, m2: Q) -> Result<Q, Refusal> {
    positive(w1, "the strength of the stock")?;
    not_negative(w0, "the strength of the diluent")?;
    not_negative(m2, "the final mass")?;
    if w2.si.is_nan() || w2.si > w1.si * (1.0 + 1e-12) || w1.si <= w0.si {
        return Err(too_strong());
    }
    if w2.si < w0.si {
        return Err(Refusal::new(
            "the strength wanted is below that of the diluent",
            "dilute with something weaker, such as water",
        ));
    }
    Ok(m2 * (w2 - w0) / (w1 - w0))
}

/// A quantity of liquid: its mass and the mass fraction of what it holds.
#[derive(Clone, Copy, Debug)]
pub struct Liquid {
    /// Mass.
    pub mass: Q,
    /// Mass fraction of the solute.
    pub w: Q,
}

/// What two liquids make together.
///
/// `m = m₁ + m₂`, `w = (m₁·w₁ + m₂·w₂)/m`.
///
/// `m` masses, `w` mass fractions of the same solute.
///
/// Holds for liquids that do not react with one another. The volume is `m/ρ(w)`, not the sum of the
/// volumes.
///
/// Trust: exact.
///
/// Source: mass balance.
pub fn mix(a: Liquid, b: Liquid) -> Result<Liquid, Refusal> {
    for liquid in [a, b] {
        not_negative(liquid.mass, "each mass")?;
        not_negative(liquid.w, "each mass fraction")?;
    }
    let mass = positive(a.mass + b.mass, "the mass of both together")?;
    Ok(Liquid { mass, w: (a.mass * a.w + b.mass * b.w) / mass })
}

/// Volume that is lost when liquids are mixed; negative when volume is gained.
///
/// `ΔV = Σ V_i − V`.
///
/// `V_i` volumes before, `V` volume of the mixture at the same temperature.
///
/// Holds always.
///
/// Trust: the difference of densities: 10 % of itself for strong acid.
///
/// Source: the definition.
pub fn contraction(before: &[Q], after: Q) -> Q {
    before.iter().copied().sum::<Q>() - after
}

/// Volume of a mass of liquid: `V = m/ρ`.
pub fn volume(m: Q, density: Q) -> Result<Q, Refusal> {
    Ok(m / positive(density, "the density")?)
}

/// Amount per volume of a mass that is dissolved and brought to a volume.
///
/// `C = m/(M·V)`.
///
/// `m` mass, `M` molar mass, with water of hydration if the mass has it, `V` final volume.
///
/// Holds always; exact.
///
/// Source: the definition of the amount of substance.
pub fn molarity_of_mass(m: Q, molar_mass: Q, v: Q) -> Result<Q, Refusal> {
    not_negative(m, "the mass")?;
    Ok(m / (positive(molar_mass, "the molar mass")? * positive(v, "the volume")?))
}

/// Mass that a volume of an amount per volume holds: `m = C·V·M`, the inverse of
/// [`molarity_of_mass`].
pub fn mass_of_molarity(c: Q, v: Q, molar_mass: Q) -> Result<Q, Refusal> {
    Ok(not_negative(c, "the strength")?
        * not_negative(v, "the volume")?
        * positive(molar_mass, "the molar mass")?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::formula::Formula;
    use crate::science::solutions::{density, solute};
    use crate::units::*;

    fn c(number: f64) -> Q {
        Q::constant("C", number, MOL_PER_L)
    }

    fn v(number: f64) -> Q {
        Q::constant("V", number, L)
    }

    fn w(number: f64) -> Q {
        Q::constant("w", number, MASS_FRACTION)
    }

    fn kg(number: f64) -> Q {
        Q::constant("m", number, KG)
    }

    #[test]
    fn a_stock_is_diluted_by_volume() {
        // OpenStax Chemistry 2e, m68703: 0.850 L of 5.00 mol/L to 1.80 L is 2.36 mol/L.
        assert!((strength_after(c(5.0), v(0.85), v(1.8)).unwrap().number(MOL_PER_L) - 2.36).abs() < 0.005);
        // The same: 0.314 L of 1.59 mol/L for 5.00 L of 0.100 mol/L.
        assert!((stock_volume(c(1.59), c(0.1), v(5.0)).unwrap().number(L) - 0.314).abs() < 0.001);
        assert!(stock_volume(c(1.0), c(2.0), v(1.0)).is_err());
        assert!(stock_volume(c(0.0), c(0.0), v(1.0)).is_err());
        assert!(strength_after(c(1.0), v(2.0), v(1.0)).is_err());
        assert!(strength_after(c(f64::NAN), v(1.0), v(2.0)).is_err());
    }

    #[test]
    fn a_stock_is_diluted_by_mass() {
        // Identity: 30 kg of 10 % out of 30 % and water is 10 kg and 20 kg.
        assert!((stock_mass(w(0.3), w(0.0), w(0.1), kg(30.0)).unwrap().si - 10.0).abs() < 1e-12);
        assert!(stock_mass(w(0.3), w(0.0), w(0.31), kg(1.0)).is_err());
        assert!(stock_mass(w(0.3), w(0.3), w(0.3), kg(1.0)).is_err());
        assert!(stock_mass(w(0.3), w(0.1), w(0.05), kg(1.0)).is_err());
        let both = mix(Liquid { mass: kg(10.0), w: w(0.3) }, Liquid { mass: kg(20.0), w: w(0.0) }).unwrap();
        assert!((both.w.si - 0.1).abs() < 1e-12 && both.mass.si == 30.0);
        assert!(mix(Liquid { mass: kg(0.0), w: w(0.3) }, Liquid { mass: kg(0.0), w: w(0.0) }).is_err());
    }

    #[test]
    fn strong_acid_and_water_shrink() {
        let acid = solute(&Formula::read("H2SO4").unwrap()).unwrap();
        let t = Q::constant("T", 20.0, CELSIUS);
        let litres = |m: f64, share: f64| volume(kg(m), density(&[(acid, w(share))], t).unwrap()).unwrap();
        let before = [litres(100.0, 0.9), litres(200.0, 0.0)];
        let lost = contraction(&before, litres(300.0, 0.3)) / (before[0] + before[1]);
        // chempy's Myhre density of 90 %, thermo's of 30 %, iapws water: 3.65 %, to a tenth of it.
        assert!((lost.si / 0.03652 - 1.0).abs() < 0.1, "{}", lost.si);
    }
}
