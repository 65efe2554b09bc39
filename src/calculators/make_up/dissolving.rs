//! What dissolves: in the first water, where salts follow the acid, and in the finished bath when it is cold.

use super::bath::{CRYSTALS, filled};
use super::ingredient::{Amount, Ingredient};
use super::meets;
use super::order::{STOP_AT, goes_before_salts, is_boric_acid};
use super::sum::total;
use super::words::Supply;
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::formula::{Counts, Formula};
use crate::science::solubility::{counts_acid, solubility};
use crate::science::solution_make_up::water_of_salt;
use crate::science::solutions::{self, solute};
use crate::science::water;
use crate::units::{CELSIUS, KG, KG_PER_L, MASS_FRACTION, PERCENT};
use std::sync::OnceLock;

/// How sure the limit beside acid is: more than this is surely too much.
pub const SURE: f64 = 1.15;
/// In water that is to be filled up at once it takes more to crystallise: it stays supersaturated for a while
/// (common practice, from memory).
const SURE_ON_THE_WAY: f64 = 1.25;

/// Water to dissolve in, and the acid in it.
struct Solvent {
    water: Q,
    acid: Q,
}

impl Solvent {
    /// kg of acid for a kg of water.
    fn strength(&self) -> Q {
        if self.acid.si > 0.0 { self.acid / self.water } else { Q::constant("none", 0.0, MASS_FRACTION) }
    }
}

/// The first water with what goes in before the salts, and all the water with all the acid.
fn solvents(ingredients: &[Ingredient], amounts: &[Amount], [m_w, m_w1]: [Q; 2]) -> [Solvent; 2] {
    let all = || ingredients.iter().zip(amounts);
    let of_salt = |(i, amount): (&Ingredient, &Amount)| {
        let formula = i.formula.as_ref().filter(|formula| formula.water_of_hydration() > 0.0)?;
        Some(water_of_salt(amount.substance?, formula))
    };
    // Where the content of a liquid is not known, all of it counts as water.
    let of_liquid = |(i, amount): (&Ingredient, &Amount)| {
        let own = amount.substance.map_or(0.0, |own| own.si);
        (i.supply != Supply::SOLID)
            .then(|| Q::constant("water of liquids", (amount.mass.si - own).max(0.0), KG))
    };
    let own_acid = |(i, amount): (&Ingredient, &Amount)| {
        i.formula.as_ref().filter(|formula| is_sulfuric_acid(formula)).and(amount.substance)
    };
    let carried_acid = |(i, amount): (&Ingredient, &Amount)| {
        let (_, c) = i.carries.as_ref().filter(|(formula, _)| is_sulfuric_acid(formula))?;
        Some(*c * amount.volume?)
    };
    let solids = total(all().filter(|(i, _)| i.supply == Supply::SOLID).filter_map(of_salt), KG);
    let before = || all().filter(|(i, _)| goes_before_salts(i));
    let first = Solvent {
        water: m_w1 + total(before().filter_map(of_liquid), KG) + solids,
        acid: total(before().filter_map(own_acid), KG),
    };
    let whole = Solvent {
        water: m_w + total(all().filter_map(of_liquid), KG) + total(all().filter_map(of_salt), KG),
        acid: total(all().filter_map(own_acid).chain(all().filter_map(carried_acid)), KG),
    };
    [first, whole]
}

/// Whether a formula is that of sulfuric acid.
pub fn is_sulfuric_acid(formula: &Formula) -> bool {
    static ACID: OnceLock<Option<Counts>> = OnceLock::new();
    let acid = ACID.get_or_init(|| Formula::read("H2SO4").ok().map(|acid| acid.anhydrous()));
    acid.as_ref() == Some(&formula.anhydrous())
}

/// How boric acid is brought into solution: more of it dissolves warm, and slowly (common practice).
fn warm(formula: &Formula) -> &'static str {
    if is_boric_acid(formula) {
        " It is usually dissolved warm, in part of the water, before the other salts (common practice)."
    } else {
        ""
    }
}

/// A salt of which more is wanted than water dissolves is refused; near the limit it is remarked on, and so
/// is what does not dissolve in the first water. `hot` is what acid or caustic brings that water to.
/// Gives the names of those of which more is wanted than stays dissolved.
pub fn check(
    w: &mut Work,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    water: [Q; 2],
    (t, hot): (Q, Option<Q>),
) -> Result<Vec<String>, Stop> {
    let mut too_much = Vec::new();
    let [first, whole] = solvents(ingredients, amounts, water);
    let none = Q::constant("none", 0.0, MASS_FRACTION);
    let cold = Q::constant("20 °C", 20.0, CELSIUS);
    let is_cool = t.number(CELSIUS) <= 25.0;
    // Salts go in while it is still warm from the acid; the order of work stops at 45 °C.
    let warm_at = hot.map_or(t, |hot| hot.min(Q::constant("45 °C", STOP_AT, CELSIUS)));
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let (Some(formula), Some(mass)) = (&ingredient.formula, amount.substance) else { continue };
        let (row, key) = (&ingredient.row, &*ingredient.row.key);
        let limit = |t: Q, acid: Q| solubility(formula, t, acid).or_stop_row("supply", key);
        let (Some(in_water), Some(cold_limit)) = (limit(cold, none)?, limit(cold, whole.strength())?) else {
            continue;
        };
        let is_solid = ingredient.supply == Supply::SOLID;
        let counted = counts_acid(formula) && whole.acid.si > 0.0;
        let is_far = mass.si > 1.1 * in_water.si * whole.water.si;
        if is_far && is_cool && is_solid {
            let reason = format!(
                "{key}: {:.0} g of {} for each kilogram of water; about {:.0} g dissolve at 20 °C",
                1000.0 * mass.si / whole.water.si.max(1e-9),
                formula.text(),
                1000.0 * in_water.si
            );
            let remedy = "Lower what is wanted, or make up warmer if the bath is also run warm.";
            return Err(Stop::at("supply", reason, remedy).row(key));
        }
        let share = mass.si / (cold_limit.si * whole.water.si).max(1e-9);
        let has_acid = meets::has(ingredients, &[meets::STRONG_ACID]);
        let (doubt, near) = match (counted, has_acid) {
            (true, _) => ("the acid is counted, to about 15 %", 0.9),
            (false, true) => ("from memory; less in acid", 0.7),
            (false, false) => ("from memory", 0.9),
        };
        if share > near && (is_solid || counted) {
            let close = if share > 1.0 { "more than dissolves" } else { "close to what dissolves" };
            if share > 1.0 {
                too_much.push(key.to_string());
            }
            let text = format!(
                "{key}: {close}, about {:.0} g of {} for each kilogram of water at 20 °C ({doubt}). It may crystallise when cold.{}",
                1000.0 * cold_limit.si,
                formula.text(),
                warm(formula)
            );
            // The limit itself is no surer than that.
            let is_sure = is_far || (counted && share > SURE);
            w.add_finding(row, "m", if is_sure { Severity::Caution } else { Severity::Note }, text);
        }
        if first.water.si <= 0.0 || !is_solid {
            continue;
        }
        let acid = first.strength();
        let Some(at_work) = limit(warm_at, acid)? else { continue };
        let s_1 = w.give(row, "s_1", mass / (at_work * first.water))?;
        let in_acid = counts_acid(formula) && acid.si > 0.0;
        // Only of copper sulfate is it known how much more dissolves warm.
        let celsius = if counts_acid(formula) { warm_at.number(CELSIUS) } else { 20.0 };
        let how = match (in_acid, has_acid) {
            (true, _) => "even while it is warm (the acid is counted, to about 15 %)".to_string(),
            (false, true) => format!("at {celsius:.0} °C (limit from memory; less in acid)"),
            (false, false) => format!("at {celsius:.0} °C (limit from memory)"),
        };
        let why = format!(
            "It does not all dissolve in the first water {how}: start with more of the water.{}",
            warm(formula)
        );
        // What is usually dissolved warm is no reason to change the first water.
        let is_a_worry = if in_acid { s_1.si > SURE } else { is_cool && warm(formula).is_empty() };
        let severity = if is_a_worry { Severity::Caution } else { Severity::Note };
        w.at_most(row, "s_1", Q::constant("limit", 100.0, PERCENT), severity, &why);
        let Some(once_cold) = limit(cold, acid)?.filter(|_| in_acid) else { continue };
        let s_c = w.give(row, "s_c", mass / (once_cold * first.water))?;
        let why = "It crystallises if it cools before the rest of the water is in (the acid is counted, to about 15 %): keep it warm until then, as in the work order, or start with more of the water.";
        let severity = if s_c.si > SURE_ON_THE_WAY { Severity::Caution } else { Severity::Note };
        w.at_most(row, "s_c", Q::constant("limit", 100.0, PERCENT), severity, why);
    }
    Ok(too_much)
}

/// What a refusal of the density would hide: that so much copper sulfate does not dissolve beside so much acid.
/// The water is taken by volumes added up, for this alone.
pub fn also_too_much(mut stop: Stop, ingredients: &[Ingredient], amounts: &[Amount], v: Q, t: Q) -> Stop {
    let filled = filled(amounts);
    let Ok(density) = water::density(t) else { return stop };
    if filled >= v {
        return stop;
    }
    let m_w = (v - filled) * density;
    let [_, whole] = solvents(ingredients, amounts, [m_w, m_w]);
    let cold = Q::constant("20 °C", 20.0, CELSIUS);
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let (Some(formula), Some(mass)) = (&ingredient.formula, amount.substance) else { continue };
        let Ok(Some(limit)) = solubility(formula, cold, whole.strength()) else { continue };
        let wanted = mass / whole.water;
        if counts_acid(formula) && wanted.si > SURE * limit.si {
            let beside = if whole.acid.si > 0.0 { " beside the acid" } else { "" };
            let also = format!(
                " {} is also more than dissolves: about {:.0} g of {} for each kilogram of water, and about {:.0} g stay dissolved{beside} at 20 °C.",
                ingredient.row.key,
                1000.0 * wanted.si,
                formula.text(),
                1000.0 * limit.si
            );
            stop.reason += &also;
            stop.remedy += " Less copper or less acid cures both.";
            break;
        }
    }
    stop
}

/// Water in a volume of a bath that holds so much of a salt and of sulfuric acid: by the solution model, and where
/// that ends by volumes added up, crystals at 2 kg/L and acid at 1.84 (from memory; to about 5 %).
pub fn water_beside(salt: Q, formula: &Formula, acid: Q) -> Option<Q> {
    let cold = Q::constant("20 °C", 20.0, CELSIUS);
    let dry = salt * (formula.anhydrous_molar_mass() / formula.molar_mass());
    let mut parts = Vec::new();
    parts.extend(solute(formula).filter(|_| salt.si > 0.0).map(|known| (known, dry)));
    let sulfuric = Formula::read("H2SO4").ok();
    parts.extend(sulfuric.as_ref().and_then(solute).filter(|_| acid.si > 0.0).map(|known| (known, acid)));
    let modelled = solute(formula).and_then(|_| solutions::density_of_concentrations(&parts, cold).ok());
    let water = match modelled {
        Some(density) => density - dry - acid,
        None => {
            let of = |c: Q, density| c / Q::constant("ρ", density, KG_PER_L);
            let left = Q::from(1.0) - of(salt, CRYSTALS) - of(acid, 1.84);
            left * water::density(cold).ok()? + water_of_salt(salt, formula)
        }
    };
    (water.si > 0.0).then_some(water)
}
