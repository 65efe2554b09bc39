//! Heat that strong acids and caustic give off when they meet water, and how hot it gets.
//!
//! Always add acid to water, slowly, with stirring and cooling; never water to acid.

use super::Refusal;
use super::bounds::{positive, share};
use super::dilution::Liquid;
use super::fit::between;
use super::formula::Formula;
use super::solution_make_up::WATER_G_PER_MOL;
use crate::quantity::Q;
use crate::units::{G_PER_MOL, KJ, KJ_PER_MOL, NUMBER};

/// What gives off heat with water, as far as it is known here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heating {
    /// H2SO4, counted from the pure liquid.
    SulfuricAcid,
    /// HCl, counted from the acid with one water to one HCl.
    HydrochloricAcid,
    /// HNO3, counted from the acid with one water to one HNO3.
    NitricAcid,
    /// NaOH, counted from the solid.
    SodiumHydroxide,
}

/// kJ evolved per mol of H2SO4(l) in n mol of water.
///
/// Source: n 1, 10, 50, 100, 1000, 100 000 and infinite: NBS TN 270 in Petrucci and others, General
/// Chemistry, 10th edition, ch. 7; n 2 to 5 and 20: Felder & Rousseau, table B.11, an older family,
/// up to 1 % higher.
const SULFURIC: [(f64, f64); 11] = [
    (1.0, 27.8),
    (2.0, 41.93),
    (3.0, 49.0),
    (4.0, 54.06),
    (5.0, 58.04),
    (10.0, 66.5),
    (20.0, 71.51),
    (50.0, 72.8),
    (100.0, 73.7),
    (1e3, 78.3),
    (1e5, 93.3),
];
const SULFURIC_INFINITE: f64 = 95.3;

/// Molality of HCl, and kJ still to come per mol on dilution without end.
///
/// Source: CRC Handbook, "Heat of dilution of acids", 25 °C, after Parker, NSRDS-NBS 2 (1965).
#[rustfmt::skip]
const HYDROCHLORIC: [(f64, f64); 20] = [
    (55.506, 45.61), (20.0, 19.87), (15.0, 15.40), (10.0, 10.24), (9.0, 9.213), (8.0, 8.201), (7.0, 7.217),
    (6.0, 6.268), (5.0, 5.318), (4.0, 4.402), (3.0, 3.506), (2.0, 2.623), (1.5, 2.167), (1.0, 1.695),
    (0.5, 1.172), (0.2, 0.761), (0.1, 0.556), (0.05, 0.406), (0.0111, 0.197), (0.00111, 0.067),
];

/// The same of HNO3. What comes below 1 mol/kg, 0.5 kJ/mol, is left out.
#[rustfmt::skip]
const NITRIC: [(f64, f64); 14] = [
    (55.506, 19.73), (20.0, 9.498), (15.0, 6.883), (10.0, 3.933), (9.0, 3.368), (8.0, 2.791), (7.0, 2.251),
    (6.0, 1.749), (5.0, 1.310), (4.0, 0.958), (3.0, 0.665), (2.0, 0.527), (1.5, 0.506), (1.0, 0.506),
];

/// kJ evolved per mol of NaOH(s) in n mol of water.
///
/// Source: Koretsky, Engineering and Chemical Thermodynamics, table 6.1, in a public copy; the same
/// family as Felder & Rousseau, table B.11. n 2.2, for 50 % caustic, is the line through 3 and 4
/// carried on in ln n: an estimate of ours, to 15 %.
/// The table's value without end stands at n = 10 000.
const CAUSTIC: [(f64, f64); 9] = [
    (2.2, 22.9),
    (3.0, 28.886),
    (4.0, 34.43),
    (5.0, 37.761),
    (10.0, 42.501),
    (20.0, 42.865),
    (50.0, 42.526),
    (100.0, 42.334),
    (1e4, 42.869),
];

/// Straight lines in ln n.
fn in_logarithm(points: impl IntoIterator<Item = (f64, f64)>, n: f64) -> f64 {
    let points: Vec<_> = points.into_iter().map(|(n, q)| (n.ln(), q)).collect();
    between(&points, n.ln())
}

impl Heating {
    /// What a formula names, if its heat is known here.
    pub fn of(formula: &Formula) -> Option<Heating> {
        let all =
            [Heating::SulfuricAcid, Heating::HydrochloricAcid, Heating::NitricAcid, Heating::SodiumHydroxide];
        let counts = formula.anhydrous();
        all.into_iter().find(|heating| Formula::read(heating.formula()).is_ok_and(|f| *f.counts() == counts))
    }

    /// Its formula.
    pub fn formula(self) -> &'static str {
        match self {
            Heating::SulfuricAcid => "H2SO4",
            Heating::HydrochloricAcid => "HCl",
            Heating::NitricAcid => "HNO3",
            Heating::SodiumHydroxide => "NaOH",
        }
    }

    /// Its molar mass.
    pub fn molar_mass(self) -> Q {
        let grams = Formula::read(self.formula()).map_or(f64::NAN, |f| f.molar_mass().number(G_PER_MOL));
        Q::constant("M", grams, G_PER_MOL)
    }
}

/// Heat given off by a mole in water, from the state that [`Heating`] counts from.
///
/// A table of `q` against `n`, in straight lines of `ln n`; for sulfuric acid with `n < 1`
/// `q = 27.8·n·2.7983/(n + 1.7983)`.
///
/// `n` moles of water to one of solute; may be infinite.
///
/// Holds at 25 °C: sulfuric acid from the pure acid on; hydrochloric and nitric acid from `n = 1`
/// (67 and 78 % by mass); sodium hydroxide, `n = 0` the solid, else from `n = 2.2` (50 % by mass).
///
/// Trust: 1.5 % for sulfuric acid, 5 % below `n = 1`; 3 % for the others, 15 % for 50 % caustic.
/// Only differences mean anything.
///
/// Source: see the tables in this file; the form below `n = 1` is Thomsen's (from memory), scaled by
/// 0.991 to meet the table.
pub fn heat_of_solution(what: Heating, n: Q) -> Result<Q, Refusal> {
    let moles = n.si;
    if moles.is_nan() || moles < 0.0 {
        return Err(Refusal::new(
            "the water per mole of solute is not a number above 0",
            "check the strengths",
        ));
    }
    // Rounding in a strength such as 50 % must not fall off the table's end.
    let least = |limit: f64, says: &str| {
        if moles >= limit * 0.99 {
            return Ok(moles.max(limit));
        }
        Err(Refusal::new(
            format!("the heat of so strong a solution is not known: {says}"),
            "start from a weaker solution, or ask the maker for the heat of dilution",
        ))
    };
    let q = match what {
        Heating::SulfuricAcid if moles < 1.0 => 27.8 * 2.7983 * moles / (moles + 1.7983),
        Heating::SulfuricAcid if moles > 1e5 => SULFURIC_INFINITE - (SULFURIC_INFINITE - 93.3) * 1e5 / moles,
        Heating::SulfuricAcid => in_logarithm(SULFURIC, moles),
        Heating::HydrochloricAcid => {
            let n = least(1.0, "hydrochloric acid is known up to 67 % by mass")?;
            45.61 - to_come(&HYDROCHLORIC, n)
        }
        Heating::NitricAcid => {
            let n = least(1.0, "nitric acid is known up to 78 % by mass")?;
            19.73 - in_logarithm(NITRIC.map(|(m, q)| (55.506 / m, q)), n)
        }
        Heating::SodiumHydroxide if moles == 0.0 => 0.0,
        Heating::SodiumHydroxide => {
            in_logarithm(CAUSTIC, least(2.2, "caustic is known as a solid and up to 50 % by mass")?)
        }
    };
    Ok(Q::call("heat of solution", &[n], q, KJ_PER_MOL))
}

/// kJ/mol still to come on dilution from n to infinite. Beyond the table's end it goes with the root
/// of the strength (Debye and Hückel).
fn to_come(table: &[(f64, f64)], n: f64) -> f64 {
    let points = table.iter().map(|(molality, q)| (55.506 / molality, *q));
    match points.clone().next_back() {
        Some((last, q)) if n > last => q * (last / n).sqrt(),
        _ => in_logarithm(points, n),
    }
}

/// Heat that a solution still gives off when diluted without end.
///
/// `q = q(∞) − q(n)`, otherwise as [`heat_of_solution`].
pub fn heat_to_infinite_dilution(what: Heating, n: Q) -> Result<Q, Refusal> {
    let endless = Q::constant("∞", f64::INFINITY, NUMBER);
    Ok(heat_of_solution(what, endless)? - heat_of_solution(what, n)?)
}

/// Moles of water to one of solute in a solution of a mass fraction.
///
/// `n = (1 − w)/w·M/M_w`.
///
/// `w` mass fraction of the solute, `M` its molar mass, `M_w` that of water.
///
/// Holds for `0 < w ≤ 1`.
///
/// Trust: exact.
///
/// Source: the definition of the amount of substance.
pub fn water_per_mole(w: Q, molar_mass: Q) -> Result<Q, Refusal> {
    share(w, "the mass fraction")?;
    positive(molar_mass, "the molar mass")?;
    Ok((1.0 - w) / w * molar_mass / Q::constant("M_w", WATER_G_PER_MOL, G_PER_MOL))
}

/// Heat given off when liquids that hold the same solute are mixed.
///
/// `H = Σ m_i·w_i/M·(q(n) − q(n_i))`.
///
/// `m_i`, `w_i` masses and mass fractions; `n_i`, `n` moles of water to one of solute before and
/// after; `q` as in [`heat_of_solution`]. Water is a liquid with `w = 0`.
///
/// Holds as [`heat_of_solution`], for a solution that is weaker at the end than its strongest part.
///
/// Trust: 5 %.
///
/// Source: enthalpy balance with [`heat_of_solution`].
pub fn heat_of_mixing(what: Heating, liquids: &[Liquid]) -> Result<Q, Refusal> {
    let molar_mass = what.molar_mass();
    let holding: Vec<_> = liquids.iter().filter(|l| l.mass.si > 0.0 && l.w.si != 0.0).collect();
    if holding.is_empty() {
        return Ok(Q::constant("H", 0.0, KJ));
    }
    let mass = positive(liquids.iter().map(|l| l.mass).sum(), "the mass in all")?;
    let w: Q = holding.iter().map(|l| l.mass * l.w).sum::<Q>() / mass;
    let after = heat_of_solution(what, water_per_mole(w, molar_mass)?)?;
    let parts = holding.iter().map(|l| {
        let before = heat_of_solution(what, water_per_mole(l.w, molar_mass)?)?;
        Ok(l.mass * l.w / molar_mass * (after - before))
    });
    Ok(parts.collect::<Result<Vec<Q>, Refusal>>()?.into_iter().sum())
}

/// Rise of temperature if no heat is lost.
///
/// `ΔT = H/(m·c_p)`.
///
/// `H` heat given off, `m` mass of the mixture, `c_p` its heat capacity.
///
/// Holds without cooling, vessel and boiling: an upper bound.
///
/// Trust: 6 %.
///
/// Source: enthalpy balance.
pub fn adiabatic_rise(heat: Q, mass: Q, heat_capacity: Q) -> Result<Q, Refusal> {
    Ok(heat / (positive(mass, "the mass")? * positive(heat_capacity, "the heat capacity")?))
}

/// A liquid on its way into a mixture: heat capacity of the whole of it (mass times `c_p`) and its
/// temperature.
#[derive(Clone, Copy, Debug)]
pub struct Warm {
    /// Mass times heat capacity.
    pub capacity: Q,
    /// Temperature.
    pub temperature: Q,
}

/// Temperature that a mixture reaches if no heat is lost.
///
/// `T = T_1 + (Σ C_i·(T_i − T_1) + H)/C`.
///
/// `C_i`, `T_i` heat capacities and temperatures of what goes in, `C` heat capacity of the mixture,
/// `H` heat given off.
///
/// Holds without cooling, vessel and boiling: an upper bound. Refuses what would boil (100 °C).
///
/// Trust: 6 % of the rise.
///
/// Source: enthalpy balance.
pub fn temperature_reached(warm: &[Warm], heat: Q, capacity: Q) -> Result<Q, Refusal> {
    let Some(first) = warm.first() else {
        return Err(Refusal::new("nothing is mixed", "give what goes in"));
    };
    positive(capacity, "the heat capacity of the mixture")?;
    let carried = warm.iter().skip(1).map(|w| w.capacity * (w.temperature - first.temperature));
    let reached = first.temperature + carried.fold(heat, |sum, term| term + sum) / capacity;
    if !reached.si.is_finite() || reached.si > 373.15 {
        return Err(Refusal::new(
            "mixed at once without cooling it would boil and spit",
            "add the acid or caustic slowly with stirring and cooling, or make a weaker solution first",
        ));
    }
    Ok(reached)
}

/// Temperature that water must start from so that a mixture ends at a temperature without cooling.
///
/// `T_0 = T − H/C`.
///
/// `T` temperature at the end, at which what is added goes in, `H` heat given off, `C` heat capacity
/// that takes it up.
///
/// Holds as a sum. Below 0 °C there is no such water: the caller says so and asks for cooling.
///
/// Trust: 6 % of the difference.
///
/// Source: enthalpy balance.
pub fn starting_temperature(end: Q, heat: Q, capacity: Q) -> Result<Q, Refusal> {
    Ok(end - heat / positive(capacity, "the heat capacity")?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::solutions::{self, solute};
    use crate::units::*;

    const ALL: [Heating; 4] =
        [Heating::SulfuricAcid, Heating::HydrochloricAcid, Heating::NitricAcid, Heating::SodiumHydroxide];

    fn q(what: Heating, n: f64) -> f64 {
        heat_of_solution(what, Q::constant("n", n, NUMBER)).unwrap().number(KJ_PER_MOL)
    }

    fn liquid(mass: f64, w: f64) -> Liquid {
        Liquid { mass: Q::constant("m", mass, KG), w: Q::constant("w", w, MASS_FRACTION) }
    }

    #[test]
    fn heats_are_the_published_ones() {
        // Petrucci and others, General Chemistry, 10th edition, ch. 7 problem 126.
        assert_eq!([1.0, 10.0, f64::INFINITY].map(|n| q(Heating::SulfuricAcid, n)), [27.8, 66.5, 95.3]);
        // Felder & Rousseau, solution 8.88(a): 67.6 kJ/mol at n = 11.64.
        assert!((q(Heating::SulfuricAcid, 11.64) / 67.6 - 1.0).abs() < 0.01);
        // CRC Handbook, heat of dilution of acids: HCl 1.695 at 1 mol/kg.
        let n = Q::constant("n", 55.506, NUMBER);
        let hcl = heat_to_infinite_dilution(Heating::HydrochloricAcid, n).unwrap();
        assert!((hcl.number(KJ_PER_MOL) / 1.695 - 1.0).abs() < 1e-3);
        // Koretsky, table 6.1: NaOH 42.501 at n = 10.
        assert!((q(Heating::SodiumHydroxide, 10.0) - 42.501).abs() < 1e-9);
        assert_eq!(Heating::of(&Formula::read("NaOH").unwrap()), Some(Heating::SodiumHydroxide));
        assert_eq!(Heating::of(&Formula::read("CuSO4").unwrap()), None);
    }

    #[test]
    fn more_water_gives_more_heat_without_a_step() {
        for what in ALL {
            let mut last = f64::NEG_INFINITY;
            for k in 0..800 {
                let n = 10f64.powf(f64::from(k) / 80.0 - 3.0);
                let Ok(got) = heat_of_solution(what, Q::constant("n", n, NUMBER)) else { continue };
                let got = got.number(KJ_PER_MOL);
                // Caustic alone gives a little back between n = 20 and 100.
                assert!(got >= last - 0.1 && got.is_finite(), "{what:?} {n}: {got} after {last}");
                assert!(last.is_infinite() || got - last < 1.5, "{what:?} {n}: {got} after {last}");
                last = got;
            }
        }
    }

    #[test]
    fn acid_into_water_gets_hot() {
        let acid = solute(&Formula::read("H2SO4").unwrap()).unwrap();
        let t = Q::constant("T", 25.0, CELSIUS);
        // Felder table B.11 with thermo's heat capacity: 19.42 K and 41.83 K, to 6 %.
        for (mass, expected) in [(10.0, 19.42), (20.0, 41.83)] {
            let parts = [liquid(mass, 1.0), liquid(100.0 - mass, 0.0)];
            let heat = heat_of_mixing(Heating::SulfuricAcid, &parts).unwrap();
            let w = Q::constant("w", mass / 100.0, MASS_FRACTION);
            let cp = solutions::heat_capacity(&[(acid, w)], t).unwrap();
            let rise = adiabatic_rise(heat, Q::constant("m", 100.0, KG), cp).unwrap();
            assert!((rise.si / expected - 1.0).abs() < 0.06, "{}", rise.si);
            let capacity = Q::constant("C", 400.0, KJ_PER_K);
            let both = [Warm { capacity, temperature: t }, Warm { capacity, temperature: t }];
            let end = temperature_reached(&both, heat, Q::constant("m", 100.0, KG) * cp).unwrap();
            assert!((end.si - t.si - rise.si).abs() < 1e-9);
            assert!(temperature_reached(&both, heat * 10.0, capacity).is_err(), "boils");
        }
    }

    #[test]
    fn what_is_not_known_is_refused() {
        let n = |number| Q::constant("n", number, NUMBER);
        assert!(heat_of_solution(Heating::HydrochloricAcid, n(0.5)).is_err());
        assert!(heat_of_solution(Heating::SodiumHydroxide, n(1.0)).is_err());
        assert!(heat_of_solution(Heating::SulfuricAcid, n(-1.0)).is_err());
        assert!(heat_of_solution(Heating::SulfuricAcid, n(f64::NAN)).is_err());
        assert_eq!(heat_of_mixing(Heating::SulfuricAcid, &[liquid(1.0, 0.0)]).unwrap().si, 0.0);
        assert_eq!(heat_of_mixing(Heating::SulfuricAcid, &[]).unwrap().si, 0.0);
        assert!(heat_of_mixing(Heating::SulfuricAcid, &[liquid(1.0, 1.5)]).is_err());
        assert!(
            temperature_reached(&[], Q::constant("H", 1.0, KJ), Q::constant("C", 1.0, KJ_PER_K)).is_err()
        );
    }
}
