//! The bath as a whole: density, heat capacity, heat of mixing, what dissolves, metals.

use super::ingredient::{Amount, Ingredient, LIGHT, Supply};
use super::{ADDED, MODEL};
use crate::calculator::{Refuse, Stop, Weight, Work};
use crate::quantity::Q;
use crate::science::dilution::Liquid;
use crate::science::heat_of_mixing::{self, Heating, Warm};
use crate::science::solution_make_up::solubility;
use crate::science::solutions::{self, Part, solute};
use crate::science::{metals, water};
use crate::units::{CELSIUS, G_PER_L, KELVINS, KG_PER_L, KJ, KJ_PER_KG_K, MASS_FRACTION, VOLUME_PERCENT};

/// What the model does not know counts as water, up to this much.
const TRACE_G_PER_L: f64 = 2.0;
/// So do liquids without a formula, up to this much of the bath.
const TRACE_VOLUME: f64 = 0.05;
/// Mass of a litre of crystals, kg. Hydrates lie between 1.5 and 2.3 (from memory).
const CRYSTALS: f64 = 2.0;

const TYPE_IT: &str =
    "Choose “typed” as the density of the bath and give the measured one, or choose the estimate by volumes.";

/// Density of the bath, in the way that was chosen.
pub fn density(w: &mut Work, ingredients: &[Ingredient], amounts: &[Amount], v: Q, t: Q) -> Result<Q, Stop> {
    let top = w.top();
    match w.word(&top, "by")? {
        MODEL => {
            let parts = parts(ingredients, amounts, v)?;
            if parts.is_empty() {
                return water::density(t).or_stop("T_m");
            }
            solutions::density_of_concentrations(&parts, t).or_stop("by")
        }
        ADDED => added_up(w, ingredients, amounts, v, t),
        _ => w.optional(&top, "ρ_typed")?.ok_or_else(|| {
            let reason = "The measured density is still to be typed";
            Stop::todo("ρ_typed", reason, "Type it, or choose another way above it.")
        }),
    }
}

/// The bath as the solution model sees it: known solutes and grams of each, anhydrous, in a litre.
/// Refuses what it does not know, unless it is a trace.
fn parts(ingredients: &[Ingredient], amounts: &[Amount], v: Q) -> Result<Vec<Part>, Stop> {
    let mut parts: Vec<Part> = Vec::new();
    let mut doses = 0.0;
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let key = &ingredient.row.key;
        let volume = amount.volume.map_or(0.0, |volume| volume.si / v.si);
        let own = match (&ingredient.formula, amount.substance) {
            (Some(formula), Some(mass)) => Some((formula, mass / v)),
            _ => None,
        };
        let carried = ingredient.carries.as_ref().map(|(formula, c)| (formula, *c * volume));
        if own.is_none() && ingredient.supply == Supply::DOSE {
            doses += volume;
            continue;
        }
        if own.is_none() && (amount.mass / v).number(G_PER_L) > TRACE_G_PER_L {
            let reason = format!("The solution model does not know what {key} holds");
            return Err(Stop::at("by", reason, TYPE_IT));
        }
        for (formula, c) in [own, carried].into_iter().flatten() {
            match solute(formula) {
                Some(solute) => {
                    let anhydrous = c * (formula.anhydrous_molar_mass() / formula.molar_mass());
                    match parts.iter_mut().find(|(known, _)| *known == solute) {
                        Some((_, sum)) => *sum = *sum + anhydrous,
                        None => parts.push((solute, anhydrous)),
                    }
                }
                None if c.number(G_PER_L) <= TRACE_G_PER_L => (),
                None => {
                    let reason = format!("The solution model does not know {} ({key})", formula.text());
                    return Err(Stop::at("by", reason, TYPE_IT));
                }
            }
        }
    }
    if doses > TRACE_VOLUME {
        let reason = format!(
            "Additives make up {:.0} % of the bath by volume: the solution model does not know them",
            VOLUME_PERCENT.from_si(doses)
        );
        return Err(Stop::at("by", reason, TYPE_IT));
    }
    parts.retain(|(_, c)| c.si > 0.0);
    Ok(parts)
}

/// The estimate: water fills what liquids and crystals leave, as if volumes added up.
fn added_up(w: &mut Work, ingredients: &[Ingredient], amounts: &[Amount], v: Q, t: Q) -> Result<Q, Stop> {
    let crystals = Q::constant("ρ_crystals", CRYSTALS, KG_PER_L);
    let volumes = amounts.iter().map(|amount| amount.volume.unwrap_or(amount.mass / crystals));
    let filled = volumes.fold(0.0 * v, |sum, volume| sum + volume);
    if filled > v {
        let largest = ingredients.iter().zip(amounts).max_by(|a, b| a.1.mass.si.total_cmp(&b.1.mass.si));
        let key = largest.map_or("", |(ingredient, _)| &*ingredient.row.key);
        let reason = "What goes in fills more than the bath: there is no room for it";
        let remedy = "Use stronger concentrates or solids, or lower what is wanted.";
        return Err(Stop::at("supply", reason, remedy).row(key));
    }
    let top = w.top();
    let text = "The density is an estimate from volumes added up, crystals at 2 kg/L: measure it before use.";
    w.find(&top, "ρ", Weight::Note, text);
    let water = (v - filled) * water::density(t).or_stop("T_m")?;
    let mass = amounts.iter().fold(water, |sum, amount| sum + amount.mass);
    Ok(mass / v)
}

/// Heat capacity, as typed or from the solution model; left out where neither is there.
pub fn heat_capacity(
    w: &mut Work,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    v: Q,
    rho: Q,
    t: Q,
) -> Result<(), Stop> {
    let top = w.top();
    let typed = w.optional(&top, "c_typed")?;
    let modelled = || {
        let parts: Vec<Part> =
            parts(ingredients, amounts, v).ok()?.into_iter().map(|(s, c)| (s, c / rho)).collect();
        solutions::heat_capacity(&parts, t).ok()
    };
    if let Some(c) = typed.or_else(modelled) {
        w.answer("c_p", c)?;
    }
    Ok(())
}

/// A salt of which more is wanted than dissolves is refused; near the limit it is remarked on.
pub fn refuse_insoluble(
    w: &mut Work,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    m_w: Q,
    t: Q,
) -> Result<(), Stop> {
    // The water of concentrates dissolves too; where their content is not known, all of it counts.
    let brought = ingredients.iter().zip(amounts).filter(|(i, _)| i.supply != Supply::SOLID);
    let solvent = brought
        .fold(m_w, |sum, (_, amount)| sum + amount.mass - amount.substance.unwrap_or(0.0 * amount.mass));
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let (Some(formula), Some(mass)) = (&ingredient.formula, amount.substance) else { continue };
        let Some(limit) = solubility(formula).filter(|_| ingredient.supply == Supply::SOLID) else {
            continue;
        };
        let row = &ingredient.row;
        let is_far = mass.si > 1.1 * limit.si * solvent.si;
        if is_far && t.number(CELSIUS) <= 25.0 {
            let reason = format!(
                "{}: {:.0} g for each kilogram of water; about {:.0} g dissolve at 20 °C",
                row.key,
                1000.0 * mass.si / solvent.si.max(1e-9),
                1000.0 * limit.si
            );
            let remedy = "Lower what is wanted, or make up warmer if the bath is also run warm.";
            return Err(Stop::at("supply", reason, remedy).row(&row.key));
        }
        if mass.si > 0.9 * limit.si * solvent.si {
            let text = format!(
                "{}: close to what dissolves, about {:.0} g for each kilogram of water at 20 °C (from memory; less in acid). It may fall out when cold.",
                row.key,
                1000.0 * limit.si
            );
            w.find(row, "m", Weight::Caution, text);
        }
    }
    Ok(())
}

/// Heat that acids and caustic give off in the first water, and what that comes to if nothing cools.
/// Each is counted by itself in all of that water. Gives whether there is any.
pub fn heat_of_mixing(
    w: &mut Work,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    m_w1: Q,
    t: Q,
) -> Result<bool, Stop> {
    let top = w.top();
    let none = Q::constant("none", 0.0, KJ);
    let pure = Q::constant("w", 1.0, MASS_FRACTION);
    let (mut heat, mut mass) = (none, m_w1);
    let mut solutes: Vec<Part> = Vec::new();
    let mut is_known = true;
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let (Some(formula), Some(substance)) = (&ingredient.formula, amount.substance) else { continue };
        if substance.si <= 0.0 {
            continue;
        }
        if formula.text().trim() == "KOH" {
            let text = format!(
                "{}: its heat is not counted here; it heats water as strongly as sodium hydroxide.",
                ingredient.row.key
            );
            w.find(&ingredient.row, "m", Weight::Caution, text);
        }
        let Some(what) = Heating::of(formula) else { continue };
        let strength = if ingredient.supply == Supply::SOLID { pure } else { substance / amount.mass };
        let liquids = [Liquid { mass: amount.mass, w: strength }, Liquid { mass: m_w1, w: 0.0 * pure }];
        let part =
            heat_of_mixing::heat_of_mixing(what, &liquids).or_stop_row("supply", &ingredient.row.key)?;
        heat = heat + w.step_in(&ingredient.row, "H", "Heat in the first water", KJ, part)?;
        mass = mass + amount.mass;
        match solute(formula) {
            Some(known) => solutes.push((known, substance)),
            None => is_known = false,
        }
    }
    let heat = w.answer("H", heat)?;
    if heat.si <= 0.0 {
        w.answer("ΔT", Q::constant("none", 0.0, KELVINS))?;
        w.answer("T_mix", t)?;
        return Ok(false);
    }
    let shares: Vec<Part> = solutes.iter().map(|(known, substance)| (*known, *substance / mass)).collect();
    let modelled = if is_known { solutions::heat_capacity(&shares, t).ok() } else { None };
    // Without the model, water alone takes up the heat: the rise is then an upper bound.
    let (mass, c) = match modelled {
        Some(c) => (mass, c),
        None => (m_w1, water::heat_capacity(t).or_stop("T_m")?),
    };
    let c = w.step("c_1", "Heat capacity that takes it up", KJ_PER_KG_K, c)?;
    let rise = heat_of_mixing::adiabatic_rise(heat, mass, c).or_stop("f_1")?;
    w.answer("ΔT", rise)?;
    let capacity = mass * c;
    let reached = heat_of_mixing::temperature_reached(&[Warm { capacity, temperature: t }], heat, capacity)
        .or_stop("f_1")?;
    let reached = w.answer("T_mix", reached)?;
    let limit = |number| Q::constant("limit", number, CELSIUS);
    if reached.number(CELSIUS) > 90.0 {
        let why =
            "Added at once it spits. Add it in small portions, stir and cool, and start with more water.";
        w.at_most(&top, "T_mix", limit(90.0), Weight::Stop, why);
    } else {
        let why = "PVC and PP tanks soften (common practice). Add it in portions and cool between, or start colder.";
        w.at_most(&top, "T_mix", limit(60.0), Weight::Caution, why);
    }
    Ok(true)
}

/// Metals of the finished bath, for the sheets that follow.
pub fn metals(w: &mut Work, ingredients: &[Ingredient], amounts: &[Amount], v: Q) -> Result<(), Stop> {
    let mut found: Vec<(String, Q)> = Vec::new();
    let mut add = |metal: &str, mass: Q| match found.iter_mut().find(|(known, _)| known == metal) {
        Some((_, sum)) => *sum = *sum + mass,
        None => found.push((metal.into(), mass)),
    };
    let counted = |metal: &&str| !LIGHT.contains(metal);
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let row = &ingredient.row;
        let carried = ingredient.carries.as_ref().zip(amount.volume);
        let carried = carried.map(|((formula, c), volume)| (formula, *c * volume));
        let own = ingredient.formula.as_ref().zip(amount.substance);
        for (formula, mass) in [own, carried].into_iter().flatten() {
            for metal in formula.metals().into_iter().filter(counted) {
                add(metal, mass * formula.metal_fraction(metal).or_stop_row("formula", &row.key)?);
            }
        }
        if own.is_none()
            && ingredient.supply == Supply::BY_METAL
            && let (Some(volume), Some(content)) = (amount.volume, w.optional(row, "k_m")?)
        {
            let metal = if ingredient.species.is_empty() { &*row.key } else { &ingredient.species };
            add(metal, content * volume);
        }
    }
    for (metal, mass) in found {
        let row = w.row(metals::TABLE, &metal)?;
        w.give(&row, "c_M", mass / v)?;
    }
    Ok(())
}
