//! Neutralisation: how much reagent, how many stages, how hot, and the tank that evens the flow.

use super::Refusal;
use super::bounds::{above_zero, positive};
use super::ph::{Activities, Portion, Reagent, Solution, known, reagent_to_reach};
use crate::quantity::Q;
use crate::units::{KJ_PER_MOL, L, MOL_PER_L, NUMBER};

/// The pH of which a strong acid or base can be told: beyond, it goes by amount.
pub const TOLD: [f64; 2] = [0.5, 13.0];

/// Strong acid that gives water a pH, in mol/L; less than none is strong base.
///
/// From the charge balance of [`Solution`], activities counted; holds from pH 0.5 to 13. An acid that is weak holds
/// more than its pH says: that is titrated or worked out by name. Source: PHREEQC 3.8.6 agrees, see the rows of pH.
pub fn strong_acid_at(ph: Q, t: Q) -> Result<Q, Refusal> {
    if !(TOLD[0]..=TOLD[1]).contains(&ph.si) {
        return Err(Refusal::new(
            "this strong an acid or base is not told by its pH: it is below 0.5 or above 13",
            "Take it by its amount: titrate it, and give what is dissolved.",
        ));
    }
    Ok(-Solution::new(Vec::new(), t, Activities::Counted)?.base_to(ph))
}

/// The pH of water with strong acid in it, in mol/L; less than none is strong base. The inverse of [`strong_acid_at`].
///
/// An indication for mixed water: what is weak, buffers, binds or falls moves it. Refuses outside of pH 0.5 to 13.
pub fn ph_of_strong(acid: Q, t: Q) -> Result<Q, Refusal> {
    let (name, c) = if acid.si < 0.0 { ("Potassium hydroxide", -acid) } else { ("Hydrochloric acid", acid) };
    let portions = known(name).map(|substance| Portion { substance, c }).into_iter().collect();
    let ph = Solution::new(portions, t, Activities::Counted)?.ph();
    if !(TOLD[0]..=TOLD[1]).contains(&ph.si) {
        return Err(Refusal::new(
            "this strong an acid or base has no pH that is told: it is below 0.5 or above 13",
            "Take it by its amount.",
        ));
    }
    Ok(ph)
}

/// Reagent to each litre of water, mol, that brings it to a pH while metal falls as hydroxide.
///
/// `portions` what is dissolved but the metal, `metals` hydroxide that the metal takes along (mol/L: charge times what
/// falls). A metal that falls leaves the acid of its salt, so that counts as strong acid. Symbols, range and trust:
/// [`reagent_to_reach`]. Source: PHREEQC 3.8.6 agrees with 0.0598 and 0.0503 mol for copper and nickel waste to 1 %.
pub fn reagent_for<'a>(
    mut portions: Vec<Portion<'a>>,
    metals: Q,
    reagent: Reagent<'a>,
    ph: Q,
    t: Q,
) -> Result<Q, Refusal> {
    if metals.si > 0.0
        && let Some(acid) = known("Hydrochloric acid")
    {
        portions.push(Portion { substance: acid, c: metals });
    }
    reagent_to_reach(&Solution::new(portions, t, Activities::Counted)?, reagent, ph)
}

/// Reagent that takes up an amount of strong acid or base: `n·e/e_r`.
///
/// n amount, e hydrogen ions (or hydroxide) that one gives off, e_r those that one of the reagent takes up. Holds
/// from pH 4 to 11 at the end, where what is left free is nothing beside it; carbonate takes up two if its gas
/// leaves. Source: equation of reaction.
pub fn by_equivalents(n: Q, e: f64, reagent: f64) -> Result<Q, Refusal> {
    let each = above_zero(Q::from(reagent), "a reagent that takes nothing up does nothing")?;
    Ok(n * e / each)
}

/// Heat given off as one mole of hydrogen ions meets hydroxide in much water: 55.815 kJ/mol at 25 °C.
///
/// Source: CODATA Key Values for Thermodynamics (1989), water −285.830 and hydroxide −230.015 kJ/mol. What stock and
/// acid still give off on dilution comes on top: `heat_of_mixing::heat_to_infinite_dilution`.
pub fn heat_of_neutralisation() -> Q {
    Q::constant("ΔH", 285.830 - 230.015, KJ_PER_MOL)
}

/// Stirred tanks one after the other that a pH takes to be held: one from pH 4 to 10, two from 2 to 12, else three.
///
/// Common practice, no source: each step of pH takes ten times less reagent, and one pump and valve cannot do both.
pub fn stages(ph: Q) -> Q {
    let number = match ph.si {
        x if (4.0..=10.0).contains(&x) => 1.0,
        x if (2.0..=12.0).contains(&x) => 2.0,
        _ => 3.0,
    };
    Q::call("stages for", &[ph], number, NUMBER)
}

/// The volume that a tank must take up so that what leaves it is even: the range of the running surplus.
///
/// Times and volumes that run in, one period after the other; the day repeats, and what leaves is the mean. The
/// working heel and a margin come on top. Exact. Source: conservation of volume.
pub fn equalisation_volume(periods: &[(Q, Q)]) -> Result<Q, Refusal> {
    let time = positive(periods.iter().map(|(t, _)| *t).sum(), "the time of all periods")?;
    let mean = periods.iter().map(|(_, v)| v.si).sum::<f64>() / time.si;
    let (mut surplus, mut low, mut high) = (0.0f64, 0.0f64, 0.0f64);
    for (t, v) in periods {
        surplus += v.si - mean * t.si;
        (low, high) = (low.min(surplus), high.max(surplus));
    }
    let arguments: Vec<Q> = periods.iter().flat_map(|(t, v)| [*t, *v]).collect();
    Ok(Q::call("range of the running surplus", &arguments, L.from_si(high - low), L))
}

/// Reagent between the ends of a band around the target, as a share of all of it: how true the dosing must be.
///
/// pH from and to of the band, `n` the whole reagent in strong base or acid to a litre. Source: charge balance.
pub fn band_share(portions: Vec<Portion>, (from, to): (Q, Q), n: Q, t: Q) -> Result<Q, Refusal> {
    let solution = Solution::new(portions, t, Activities::Counted)?;
    let band = solution.base_to(to) - solution.base_to(from);
    let all = above_zero(n, "nothing is dosed")?;
    Ok(band / all)
}

/// Amount of metal in a litre, of a mass in it, times its charge: hydroxide that it takes along as it falls.
///
/// c what falls, M molar mass of the metal, z its charge. Source: equation of reaction.
pub fn hydroxide_with(c: Q, molar_mass: Q, charge: f64) -> Q {
    c / molar_mass * charge
}

/// None of it, in mol/L.
pub fn none() -> Q {
    Q::constant("0", 0.0, MOL_PER_L)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::heat_of_mixing::{Heating, heat_to_infinite_dilution};
    use crate::science::ph::{Reagent, SUBSTANCES};
    use crate::units::*;

    fn number(x: f64) -> Q {
        Q::constant("x", x, NUMBER)
    }

    fn at_25() -> Q {
        Q::constant("T", 25.0, CELSIUS)
    }

    /// PHREEQC 3.8.6, phreeqc.dat: 0.01 mol/kg of HCl is pH 2.0405, 0.1 of NaOH 12.878.
    #[test]
    fn a_ph_tells_how_much_strong_acid_there_is() {
        let acid = |ph| strong_acid_at(number(ph), at_25()).unwrap().number(MOL_PER_L);
        assert!((acid(2.0405) - 0.01).abs() < 2e-4, "{}", acid(2.0405));
        assert!((acid(12.878) + 0.1).abs() < 2e-3, "{}", acid(12.878));
        // The textbook’s 10^−pH leaves activities out: 9 % too little at pH 2.
        assert!(acid(2.0) > 1.08e-2);
        assert!(strong_acid_at(number(0.4), at_25()).is_err());
        for ph in [2.0, 7.0, 12.0] {
            let found = ph_of_strong(strong_acid_at(number(ph), at_25()).unwrap(), at_25()).unwrap();
            assert!((found.si - ph).abs() < 1e-3, "{ph}: {}", found.si);
        }
        let strong = Q::constant("c", 1.0, MOL_PER_L);
        assert!(ph_of_strong(strong, at_25()).is_err() && ph_of_strong(-strong, at_25()).is_err());
    }

    /// OpenStax Chemistry 2e, section 5.2, from memory: 50.0 mL of 1.00 mol/L each of HCl and NaOH give off 2.9 kJ.
    /// Thomsen, from memory: a mole of dilute sulfuric acid gives off 131 kJ with dilute caustic.
    #[test]
    fn heat_comes_from_water_and_from_dilution() {
        let to_come = |what, n| heat_to_infinite_dilution(what, number(n)).unwrap().number(KJ_PER_MOL);
        let water = heat_of_neutralisation().number(KJ_PER_MOL);
        let salt = to_come(Heating::HydrochloricAcid, 55.5) + to_come(Heating::SodiumHydroxide, 55.5);
        assert!((0.05 * (water + salt) / 2.9 - 1.0).abs() < 0.02, "{}", 0.05 * (water + salt));
        let sulfuric = 2.0 * water + to_come(Heating::SulfuricAcid, 100.0);
        assert!((sulfuric / 131.0 - 1.0).abs() < 0.02, "{sulfuric}");
        // Caustic of 50 % gives off a third as much again as the neutralisation itself.
        assert!((to_come(Heating::SodiumHydroxide, 2.2) / water - 0.36).abs() < 0.02);
    }

    /// Common practice, no source.
    #[test]
    fn the_further_the_ph_from_neutral_the_more_stages() {
        for (ph, expected) in
            [(0.8, 3.0), (2.0, 2.0), (3.9, 2.0), (4.0, 1.0), (10.0, 1.0), (11.0, 2.0), (12.5, 3.0)]
        {
            assert_eq!(stages(number(ph)).si, expected, "{ph}");
        }
    }

    /// numpy 2.4.6, cumulative sum: 97.5 L for eight equal periods of 0, 0, 40, 120, 10, 0, 80 and 0 L.
    #[test]
    fn an_evening_tank_is_not_sized_on_the_mean() {
        let hour = Q::constant("t", 1.0, HOUR);
        let flows = [0.0, 0.0, 40.0, 120.0, 10.0, 0.0, 80.0, 0.0];
        let periods = flows.map(|v| (hour, Q::constant("V", v, L)));
        assert!((equalisation_volume(&periods).unwrap().number(L) - 97.5).abs() < 1e-9);
        assert!(equalisation_volume(&[]).is_err());
    }

    /// By hand: water alone takes 1e-6 mol/L from pH 6 to 8 (2·1e-6 less 2·1e-8), 2 in 10 000 of 0.01 mol/L.
    #[test]
    fn near_neutral_a_hair_of_reagent_moves_the_ph() {
        let acid = SUBSTANCES.iter().find(|s| s.name == "Hydrochloric acid").unwrap();
        let c = Q::constant("c", 0.01, MOL_PER_L);
        let share = band_share(vec![Portion { substance: acid, c }], (number(6.0), number(8.0)), c, at_25());
        let share = share.unwrap().si;
        assert!((1.9e-4..2.4e-4).contains(&share), "{share}");
        assert!(band_share(Vec::new(), (number(6.0), number(8.0)), none(), at_25()).is_err());
    }

    /// PHREEQC 3.8.6, minteq.v4.dat: 0.01 mol/kg of copper sulfate with 0.02 of sulfuric acid takes 0.0598 to pH 9.
    #[test]
    fn metal_takes_reagent_along() {
        let acid = known("Sulfuric acid").unwrap();
        let portions = vec![Portion { substance: acid, c: Q::constant("c", 0.02, MOL_PER_L) }];
        let caustic = Reagent { substance: known("Sodium hydroxide").unwrap(), strength: None };
        let metal = Q::constant("c", 63.546e-2, G_PER_L_METAL);
        let molar = Q::constant("M", 63.546, G_PER_MOL_METAL);
        let n =
            reagent_for(portions, hydroxide_with(metal, molar, 2.0), caustic, number(9.0), at_25()).unwrap();
        assert!((n.number(MOL_PER_L) / 0.059833 - 1.0).abs() < 0.01, "{}", n.number(MOL_PER_L));
    }
}
