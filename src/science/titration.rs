//! From titrant and aliquot to what a bath holds.
//!
//! By equation of reaction and amounts of substance, exact. What each method counts, and its traps, are
//! those of the sheet.

use crate::quantity::Q;
use crate::science::Refusal;
use crate::science::bounds::above_zero;
use crate::science::formula::Formula;

/// Amount of the substance sought that a titration found, mol: `r·f·C·(V − V_0)`.
///
/// C titrant, f its factor (true over nominal strength), V what was run in, V_0 the blank, r mol of the
/// substance for one mol of titrant. Refuses a volume below the blank: that is a mistake, not zero.
pub fn amount_found(c: Q, f: Q, v: Q, blank: Q, r: Q) -> Result<Q, Refusal> {
    if v < blank {
        return Err(Refusal::new(
            "the blank took more titrant than the sample",
            "Check the two volumes: nothing is found below the blank.",
        ));
    }
    Ok(r * f * c * (v - blank))
}

/// Amount found by back titration, mol: what was given in excess less what was left of it.
///
/// `r·(n_given − n_left)`; r mol of the substance for one mol of what was given. The second titration is
/// taken off, never added.
pub fn amount_found_back(given: Q, left: Q, r: Q) -> Result<Q, Refusal> {
    if given < left {
        return Err(Refusal::new(
            "more was left than was given in excess",
            "Check the two titrants: what was left is taken off what was given.",
        ));
    }
    Ok(r * (given - left))
}

/// Amount of a titrant, mol: `f·C·V`.
pub fn amount_of(c: Q, f: Q, v: Q) -> Q {
    f * c * v
}

/// Concentration in the bath, mol/L: `n·D/V_a`.
///
/// n amount in the portion titrated, V_a that portion, D how many times the sample was diluted before it
/// was taken.
pub fn concentration(n: Q, aliquot: Q, dilution: Q) -> Result<Q, Refusal> {
    Ok(n * dilution / above_zero(aliquot, "no sample was taken")?)
}

/// An amount, or an amount in a volume, by mass: `n·M`, `C·M`. Source: the definition of the molar mass.
pub fn by_mass(c: Q, molar_mass: Q) -> Q {
    c * molar_mass
}

/// Volume of titrant that a sample should take: `C_s·V_a/(r·C)`. Source: the equation of the reaction.
pub fn volume_needed(sample: Q, aliquot: Q, r: Q, c: Q) -> Result<Q, Refusal> {
    Ok(sample * aliquot / (r * above_zero(c, "a titrant without strength takes no end")?))
}

/// Gravimetric factor: mass of what is sought in a mass of what is weighed, `k·M_sought/M_weighed`.
///
/// k how many of the sought a formula unit of the weighed holds. Molar masses: IUPAC 2021, abridged.
pub fn gravimetric_factor(k: Q, sought: &Formula, weighed: &Formula) -> Q {
    k * sought.molar_mass() / weighed.molar_mass()
}

/// Share of what was added to a sample that is found again: `(c_2·(V + V_s) − c_1·V)/(C_s·V_s)`.
///
/// c_1 found before and c_2 after adding V_s of a liquid of strength C_s to the sample V.
pub fn spike_recovery(before: Q, sample: Q, after: Q, strength: Q, spike: Q) -> Result<Q, Refusal> {
    let given = above_zero(strength * spike, "nothing was added to the sample")?;
    Ok((after * (sample + spike) - before * sample) / given)
}

/// Current density along the panel of a slanted test cell of 267 mL, in A/dm²: `I·(5.10 − 5.24·log₁₀ x)`.
///
/// I current in A, x distance from the end near the anode in cm, 0.64 to 8.25 cm. Common practice, from
/// memory; it is an average of many solutions, good to 10 to 20 %. Refuses outside of the range.
pub fn slanted_cell(current: Q, x: Q) -> Result<Q, Refusal> {
    use crate::units::{A_PER_DM2, AMPERE, CM};
    let centimetres = x.number(CM);
    if !(0.64..=8.25).contains(&centimetres) {
        return Err(Refusal::new(
            "the rule for the slanted panel holds from 0.64 to 8.25 cm",
            "Measure from the end of the panel that is near the anode.",
        ));
    }
    let number = current.number(AMPERE) * (5.10 - 5.24 * centimetres.log10());
    Ok(Q::call("slanted panel", &[current, x], number, A_PER_DM2))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn is(found: f64, expected: f64, within: f64) {
        assert!((found - expected).abs() <= within, "{found}, not {expected}");
    }

    fn q(number: f64, unit: &'static Unit) -> Q {
        Q::constant("x", number, unit)
    }

    /// Metrohm Application Bulletin 195/2e: 0.25 mL of a nickel bath, end points at 0.834 and 2.786 mL of
    /// 0.1 mol/L NaOH: 48.28 g/L of boric acid, between the two end points.
    #[test]
    fn boric_acid_is_what_is_between_the_two_end_points() {
        let n = amount_found(q(0.1, MOL_PER_L), q(1.0, NUMBER), q(2.786, ML), q(0.834, ML), q(1.0, NUMBER));
        let c = concentration(n.unwrap(), q(0.25, ML), q(1.0, NUMBER)).unwrap();
        let boric = Formula::read("H3BO3").unwrap().molar_mass();
        is(by_mass(c, boric).number(G_PER_L), 48.28, 0.02);
    }

    /// A worked sheet that goes round adds the back titration. By hand: 1.5 mmol given, 0.15 mmol left, 1.35 found.
    #[test]
    fn a_back_titration_is_taken_off_and_never_added() {
        let (given, left) = (q(1.5e-3, MOL), q(0.15e-3, MOL));
        is(amount_found_back(given, left, q(1.0, NUMBER)).unwrap().number(MOL), 1.35e-3, 1e-15);
        assert!(amount_found_back(left, given, q(1.0, NUMBER)).is_err());
    }

    #[test]
    fn a_blank_above_the_sample_and_an_empty_aliquot_are_refused() {
        assert!(
            amount_found(q(0.1, MOL_PER_L), q(1.0, NUMBER), q(1.0, ML), q(1.1, ML), q(1.0, NUMBER)).is_err()
        );
        assert!(concentration(q(1.0, MOL), q(0.0, ML), q(1.0, NUMBER)).is_err());
    }

    /// Barium sulfate holds 41.16 % of sulfate: 96.06/233.39, from any table of gravimetric factors.
    #[test]
    fn a_gravimetric_factor() {
        let [sought, weighed] = ["SO4", "BaSO4"].map(|formula| Formula::read(formula).unwrap());
        is(gravimetric_factor(q(1.0, NUMBER), &sought, &weighed).si, 0.4116, 1e-4);
    }

    /// By hand: 10 mL of 5 g/L with 1 mL of 50 g/L hold 100 mg; found again at 9.0 g/L in 11 mL, 98 %.
    #[test]
    fn what_was_added_is_found_again() {
        let found =
            spike_recovery(q(5.0, G_PER_L), q(10.0, ML), q(9.0, G_PER_L), q(50.0, G_PER_L), q(1.0, ML));
        is(found.unwrap().number(PERCENT), 98.0, 1e-9);
    }
}
