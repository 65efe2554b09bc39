//! What goes into a bath: salt, liquid concentrate and water.

use super::Refusal;
use super::bounds::{not_negative, positive, share};
use super::formula::Formula;
use crate::quantity::Q;

/// Molar mass of water, g/mol (IUPAC 2021).
pub const WATER_G_PER_MOL: f64 = 18.015;

/// Mass of a salt that brings a concentration of its metal to a bath.
///
/// `m = c_M·V/(x·p)`.
///
/// `V` volume of the bath, `c_M` concentration of the metal, `x` mass fraction of the metal in the
/// salt with its water of hydration, `p` purity.
///
/// Holds for `0 < p ≤ 1` and volumes taken to the mark after dissolving.
///
/// Trust: exact but for purity and the molar mass.
///
/// Source: mass balance (the definition of mass concentration).
pub fn salt_for_metal(v: Q, c_metal: Q, x_metal: Q, purity: Q) -> Result<Q, Refusal> {
    not_negative(v, "the volume")?;
    not_negative(c_metal, "the concentration")?;
    positive(x_metal, "the share of metal in the salt")?;
    Ok(c_metal * v / (x_metal * share(purity, "the purity")?))
}

/// Mass of a compound that brings a concentration of the compound itself to a bath.
///
/// `m = c·V/p`.
///
/// `V` volume of the bath, `c` concentration as g of the compound per litre, `p` purity.
///
/// Holds for `0 < p ≤ 1`.
///
/// Trust: exact but for purity.
///
/// Source: mass balance.
pub fn compound_mass(v: Q, c: Q, purity: Q) -> Result<Q, Refusal> {
    not_negative(v, "the volume")?;
    not_negative(c, "the concentration")?;
    Ok(c * v / share(purity, "the purity")?)
}

/// Concentration of a compound that holds a concentration of its metal.
///
/// `c = c_M/x`.
///
/// `c_M` concentration of the metal, `x` mass fraction of the metal in the compound.
///
/// Holds always; `c·x` is the way back.
///
/// Trust: exact but for the molar mass.
///
/// Source: mass balance.
pub fn compound_for_metal(c_metal: Q, x_metal: Q) -> Result<Q, Refusal> {
    not_negative(c_metal, "the concentration")?;
    Ok(c_metal / positive(x_metal, "the share of metal in the salt")?)
}

/// Volume of a liquid concentrate, given its strength by mass.
///
/// `v = c·V/(w·ρ)`.
///
/// `V` volume of the bath, `c` concentration wanted, `w` mass fraction of the concentrate, `ρ` its
/// density.
///
/// Holds for `0 < w ≤ 1` and a target no stronger than the concentrate.
///
/// Trust: as that of `w` and `ρ`.
///
/// Source: mass balance.
pub fn concentrate_by_mass_share(v: Q, c: Q, w: Q, density: Q) -> Result<Q, Refusal> {
    not_negative(v, "the volume")?;
    not_negative(c, "the concentration")?;
    let strength = share(w, "the strength of the concentrate")? * positive(density, "the density")?;
    weaker(c, strength)?;
    Ok(c * v / strength)
}

/// Volume of a liquid concentrate, given its strength in the same measure as the target.
///
/// `v = C·V/C_stock`.
///
/// `V` volume of the bath, `C` strength wanted, `C_stock` strength of the concentrate, both in mol/L
/// or both in g/L (of metal, or of compound).
///
/// Holds for a target no stronger than the concentrate.
///
/// Trust: as that of the strengths.
///
/// Source: balance of the amount.
pub fn concentrate_by_strength(v: Q, c: Q, c_stock: Q) -> Result<Q, Refusal> {
    not_negative(v, "the volume")?;
    not_negative(c, "the concentration")?;
    positive(c_stock, "the strength of the concentrate")?;
    weaker(c, c_stock)?;
    Ok(c * v / c_stock)
}

/// Volume of an additive that is given as volume per volume of bath.
///
/// `v = d·V`.
///
/// `V` volume of the bath, `d` dose, such as 10 mL/L.
///
/// Holds for `0 ≤ d ≤ 1`, counted on the finished bath.
///
/// Trust: exact.
///
/// Source: the definition of the dose.
pub fn concentrate_by_dose(v: Q, dose: Q) -> Result<Q, Refusal> {
    not_negative(v, "the volume")?;
    not_negative(dose, "the dose")?;
    if dose.si > 1.0 {
        return Err(Refusal::new(
            "the dose is more than 1 L for each litre of bath",
            "check the dose: it is counted on the finished bath",
        ));
    }
    Ok(dose * v)
}

fn weaker(c: Q, stock: Q) -> Result<(), Refusal> {
    if c.si <= stock.si * (1.0 + 1e-12) {
        return Ok(());
    }
    Err(Refusal::new(
        "the strength wanted is above the strength of the concentrate",
        "use a stronger concentrate, or a solid, or lower the target",
    ))
}

/// Mass of water that a bath still needs.
///
/// `m_w = V·ρ − Σ m`.
///
/// `V` volume of the finished bath, `ρ` its density, `m` masses of everything else that goes in,
/// concentrates with their own water and hydrates with theirs.
///
/// Holds for every mixture: masses add, volumes do not.
///
/// Trust: as that of `ρ`: 1 % of the density is 1 % of the bath's mass in water.
///
/// Source: mass balance.
pub fn water_mass(v: Q, density: Q, added: &[Q]) -> Result<Q, Refusal> {
    let whole = not_negative(v, "the volume")? * positive(density, "the density of the bath")?;
    let water = if added.is_empty() { whole } else { whole - added.iter().copied().sum::<Q>() };
    if water.si < -1e-9 * whole.si.abs() {
        return Err(Refusal::new(
            "what goes in weighs more than the finished bath: there is no room for it",
            "check the density of the bath, or use stronger concentrates or solids",
        ));
    }
    Ok(water)
}

/// Water that a hydrate brings along.
///
/// `m_w = m·w`.
///
/// `m` mass of the salt, `w` mass fraction of its water of hydration
/// ([`Formula::water_fraction`]).
///
/// Holds for the hydrate as written on the label.
///
/// Trust: exact but for drying out or damp in store.
///
/// Source: mass balance.
pub fn water_of_salt(m: Q, formula: &Formula) -> Q {
    m * formula.water_fraction()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn close(got: Q, expected: f64) {
        assert!((got.si / expected - 1.0).abs() < 4e-4, "{} is not {expected}", got.si);
    }

    #[test]
    fn a_bath_gets_its_salt_by_metal_or_by_salt() {
        let (v, c) = (Q::constant("V", 200.0, L), Q::constant("c", 40.0, G_PER_L_METAL));
        let x = Formula::read("CuSO4·5H2O").unwrap().metal_fraction("Cu").unwrap();
        let p = |number| Q::constant("p", number, SHARE);
        // molmass and pint: 31.91227 kg for 200 L, 40 g/L of copper, purity 0.985.
        close(salt_for_metal(v, c, x, p(0.985)).unwrap(), 31.91227);
        close(compound_mass(v, compound_for_metal(c, x).unwrap(), p(0.985)).unwrap(), 31.91227);
        assert!(salt_for_metal(v, c, x, p(0.0)).is_err() && salt_for_metal(v, c, x, p(1.01)).is_err());
        assert_eq!(salt_for_metal(v, c * 0.0, x, p(1.0)).unwrap().si, 0.0);
    }

    #[test]
    fn concentrates_are_measured_by_volume() {
        let (v, c) = (Q::constant("V", 100.0, L), Q::constant("c", 180.0, G_PER_L));
        let (w, rho) = (Q::constant("w", 0.96, SHARE), Q::constant("ρ", 1.84, KG_PER_L));
        // pint: 10.19022 L of 96 % acid.
        close(concentrate_by_mass_share(v, c, w, rho).unwrap(), 10.19022e-3);
        assert!(concentrate_by_mass_share(v, c * 12.0, w, rho).is_err(), "stronger than the acid");
        assert!(concentrate_by_strength(v, c, c * 0.5).is_err());
        assert_eq!(concentrate_by_dose(v, Q::constant("d", 10.0, ML_PER_L)).unwrap().si, 1e-3);
    }

    #[test]
    fn water_is_what_is_left_of_the_mass() {
        let (v, rho) = (Q::constant("V", 100.0, L), Q::constant("ρ", 1.2, KG_PER_L));
        let salt = Q::constant("m", 40.0, KG);
        close(water_mass(v, rho, &[salt, salt * 0.5]).unwrap(), 60.0);
        close(water_mass(v, rho, &[]).unwrap(), 120.0);
        assert!(water_mass(v, rho, &[salt * 4.0]).is_err());
        // 1 kg of CuSO4·5H2O brings 0.361 kg of water (identity, 5 × 18.015/249.68).
        let blue = Formula::read("CuSO4·5H2O").unwrap();
        assert!((water_of_salt(Q::constant("m", 1.0, KG), &blue).si - 0.361).abs() < 5e-4);
    }
}
