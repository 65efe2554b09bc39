//! The bath as a whole: density, heat capacity, heat of mixing, metals.

use super::ingredient::{Amount, Ingredient, added};
use super::sum::total;
use super::words::{LIGHT, Supply};
use super::{ADDED, MODEL, meets};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::dilution::Liquid;
use crate::science::heat_of_mixing::{self, Heating, Warm};
use crate::science::plastics::{BURNS_SKIN, FIRST_SOFTENS, plastics_soften};
use crate::science::solutions::{self, Part, solute};
use crate::science::{metals, water};
use crate::units::{
    CELSIUS, G_PER_L, G_PER_L_METAL, KELVINS, KG_PER_L, KJ, KJ_PER_KG_K, L, MASS_FRACTION, MASS_PERCENT,
    VOLUME_PERCENT,
};

/// What the model does not know counts as water, up to this much: g/L.
const TRACE: f64 = 2.0;
/// So do liquids without a formula, up to this much of the bath.
const TRACE_VOLUME: f64 = 0.05;
/// Mass of a litre of crystals, kg. Hydrates lie between 1.5 and 2.3 (from memory).
pub const CRYSTALS: f64 = 2.0;

const TYPE_IT: &str =
    "Choose “typed” as the density of the bath and give the measured one, or choose the estimate by volumes.";

/// Density of the bath, in the way that was chosen.
pub fn density(
    w: &mut Work,
    parts: Result<&[Part], &Stop>,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    v: Q,
    t: Q,
) -> Result<Q, Stop> {
    let top = w.top();
    match w.word(&top, "by")? {
        MODEL => match parts {
            Ok([]) => water::density(t).or_stop("T_m"),
            // Nobody can measure a bath that is still to be made.
            Ok(parts) => solutions::density_of_concentrations(parts, t).or_stop("by").map_err(|mut stop| {
                stop.remedy =
                    format!("Choose “{ADDED}” as the density of the bath, or take a weaker solution.");
                stop
            }),
            Err(unknown) => added_up(w, ingredients, amounts, v, t, &unknown.reason),
        },
        ADDED => added_up(w, ingredients, amounts, v, t, ""),
        _ => w.optional(&top, "ρ_typed")?.ok_or_else(|| {
            let reason = "The measured density is still to be typed";
            Stop::todo("ρ_typed", reason, "Type it, or choose another way above it.")
        }),
    }
}

/// The bath as the solution model sees it: known solutes and grams of each, anhydrous, in a litre.
/// Traces that the model does not know count as water; the inner error says what else it does not know.
pub fn parts(
    w: &mut Work,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    v: Q,
) -> Result<Result<Vec<Part>, Stop>, Stop> {
    let unknown = |reason: String| Ok(Err(Stop::at("by", reason, TYPE_IT)));
    let mut parts: Vec<Part> = Vec::new();
    let mut doses = 0.0;
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let row = &ingredient.row;
        let own = ingredient.formula.as_ref().zip(amount.substance);
        let carried = ingredient.carries.as_ref().zip(amount.volume);
        let carried = carried.map(|((formula, c), volume)| (formula, *c * volume));
        if own.is_none() && ingredient.supply == Supply::DOSE {
            doses += amount.volume.map_or(0.0, |volume| volume.si / v.si);
            continue;
        }
        if own.is_none() && amount.mass.si / v.si > TRACE {
            return unknown(format!("The solution model does not know what {} holds", row.key));
        }
        for ((formula, mass), symbol) in
            own.into_iter().map(|own| (own, "c_a")).chain(carried.into_iter().map(|part| (part, "c_b")))
        {
            match solute(formula) {
                Some(solute) if mass.si > 0.0 => {
                    let c = if formula.water_of_hydration() > 0.0 {
                        mass / v * (formula.anhydrous_molar_mass() / formula.molar_mass())
                    } else {
                        mass / v
                    };
                    let c =
                        w.step_in(row, symbol, "In a litre of the bath, without its water", G_PER_L, c)?;
                    match parts.iter_mut().find(|(known, _)| *known == solute) {
                        Some((_, sum)) => *sum = *sum + c,
                        None => parts.push((solute, c)),
                    }
                }
                None if mass.si / v.si > TRACE => {
                    return unknown(format!(
                        "The solution model does not know {} ({})",
                        formula.text(),
                        row.key
                    ));
                }
                _ => (),
            }
        }
    }
    if doses > TRACE_VOLUME {
        return unknown(format!(
            "Additives make up {:.0} % of the bath by volume: the solution model does not know them",
            VOLUME_PERCENT.from_si(doses)
        ));
    }
    Ok(Ok(parts))
}

/// What goes in but the water, volumes added up.
pub fn filled(amounts: &[Amount]) -> Q {
    let crystals = Q::constant("ρ_crystals", CRYSTALS, KG_PER_L);
    total(amounts.iter().map(|amount| amount.volume.unwrap_or(amount.mass / crystals)), L)
}

/// The estimate: water fills what liquids and crystals leave, as if volumes added up.
/// `why` says why it stands where the model was chosen.
fn added_up(
    w: &mut Work,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    v: Q,
    t: Q,
    why: &str,
) -> Result<Q, Stop> {
    let filled = filled(amounts);
    if filled > v {
        let largest = ingredients.iter().zip(amounts).max_by(|a, b| a.1.mass.si.total_cmp(&b.1.mass.si));
        let key = largest.map_or("", |(ingredient, _)| &*ingredient.row.key);
        let reason = "What goes in fills more than the bath: there is no room for it";
        let remedy = "Use stronger concentrates or solids, or lower what is wanted.";
        return Err(Stop::at("supply", reason, remedy).row(key));
    }
    let top = w.top();
    let text = format!(
        "{why} The density is an estimate from volumes added up, crystals at 2 kg/L: measure it before use, and type it."
    );
    let text = text.trim_start();
    w.add_finding(&top, "ρ", Severity::Note, text);
    let water = (v - filled) * water::density(t).or_stop("T_m")?;
    let mass = amounts.iter().fold(water, |sum, amount| sum + amount.mass);
    Ok(mass / v)
}

/// Heat capacity, as typed or from the solution model; left out where neither is there.
pub fn heat_capacity(w: &mut Work, parts: Option<&[Part]>, rho: Q, t: Q) -> Result<(), Stop> {
    let top = w.top();
    let modelled = || {
        let shares: Vec<Part> = parts?.iter().map(|(solute, c)| (*solute, *c / rho)).collect();
        solutions::heat_capacity(&shares, t).ok()
    };
    if let Some(c) = w.optional(&top, "c_typed")?.or_else(modelled) {
        w.answer("c_p", c)?;
    }
    Ok(())
}

/// Heat that acids and caustic give off in the first water, and what that comes to if nothing cools.
/// Each is counted by itself in all of that water. Gives the temperature, if there is any heat.
pub fn heat_of_mixing(
    w: &mut Work,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    m_w1: Q,
    t: Q,
) -> Result<Option<Q>, Stop> {
    let top = w.top();
    let pure = Q::constant("w", 1.0, MASS_FRACTION);
    let none = Q::constant("none", 0.0, MASS_FRACTION);
    let (mut heats, mut mass) = (Vec::new(), m_w1);
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
            w.add_finding(&ingredient.row, "m", Severity::Caution, text);
        }
        // Only acids and caustic are looked up: it is the slowest part of the sum.
        let may_heat = [meets::STRONG_ACID, meets::NITRIC, meets::CAUSTIC].contains(&ingredient.hazard);
        let Some(what) = may_heat.then(|| Heating::of(formula)).flatten() else { continue };
        let strength = if ingredient.supply == Supply::SOLID {
            pure
        } else {
            w.step_in(&ingredient.row, "w_s", "Strength by mass", MASS_PERCENT, substance / amount.mass)?
        };
        let liquids = [Liquid { mass: amount.mass, w: strength }, Liquid { mass: m_w1, w: none }];
        let part =
            heat_of_mixing::heat_of_mixing(what, &liquids).or_stop_row("supply", &ingredient.row.key)?;
        heats.push(w.step_in(&ingredient.row, "H", "Heat in the first water", KJ, part)?);
        mass = mass + amount.mass;
        match solute(formula) {
            Some(known) => solutes.push((known, substance)),
            None => is_known = false,
        }
    }
    let heat = w.answer("H", total(heats.into_iter(), KJ))?;
    if heat.si <= 0.0 {
        w.answer("ΔT", Q::constant("none", 0.0, KELVINS))?;
        w.answer("T_mix", t)?;
        return Ok(None);
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
        w.at_most(&top, "T_mix", limit(90.0), Severity::Serious, why);
    } else if reached.number(CELSIUS) > FIRST_SOFTENS {
        let why =
            concat!("Add it in portions and stop to cool at 45 °C, or start colder. ", plastics_soften!());
        w.at_most(&top, "T_mix", limit(FIRST_SOFTENS), Severity::Caution, why);
    } else {
        let why = "It burns skin (common practice): add it in portions and stop to cool at 45 °C, well below where plastics soften.";
        w.at_most(&top, "T_mix", limit(BURNS_SKIN), Severity::Note, why);
    }
    Ok(Some(reached))
}

/// A metal of the bath, as it adds up.
struct Metal {
    name: String,
    wanted: Q,
    /// By the amounts really added; `None` as soon as one of them is not typed.
    added: Option<Q>,
    /// Whether any is typed.
    is_begun: bool,
}

/// Metals of the finished bath, for the sheets that follow: as wanted, and once the amounts of all that
/// brings a metal are typed, as really added. Gives whether there is any.
pub fn metals(w: &mut Work, ingredients: &[Ingredient], amounts: &[Amount], v: Q) -> Result<bool, Stop> {
    let mut found: Vec<Metal> = Vec::new();
    let mut add = |name: &str, mass: Q, ratio: Option<Q>| {
        let really = ratio.map(|ratio| ratio * mass);
        match found.iter_mut().find(|known| known.name == name) {
            Some(known) => {
                known.wanted = known.wanted + mass;
                known.added = known.added.zip(really).map(|(sum, part)| sum + part);
                known.is_begun |= really.is_some();
            }
            None => found.push(Metal {
                name: name.into(),
                wanted: mass,
                added: really,
                is_begun: really.is_some(),
            }),
        }
    };
    let counted = |metal: &&str| !LIGHT.contains(metal);
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let row = &ingredient.row;
        let ratio = added(w, ingredient, amount)?.map(|(_, added, wanted)| added / wanted);
        let carried = ingredient.carries.as_ref().zip(amount.volume);
        let carried = carried.map(|((formula, c), volume)| (formula, *c * volume));
        let own = ingredient.formula.as_ref().zip(amount.substance);
        for (formula, mass) in [own, carried].into_iter().flatten() {
            for metal in formula.metals().into_iter().filter(counted) {
                add(metal, mass * formula.metal_fraction(metal).or_stop_row("formula", &row.key)?, ratio);
            }
        }
        if own.is_none()
            && ingredient.supply == Supply::BY_METAL
            && let (Some(volume), Some(content)) = (amount.volume, w.optional(row, "k_m")?)
        {
            let metal = if ingredient.species.is_empty() { &*row.key } else { &ingredient.species };
            add(metal, content * volume, ratio);
        }
    }
    let mut together = Q::constant("none", 0.0, G_PER_L_METAL);
    for Metal { name, wanted, added, is_begun } in found {
        let row = w.row(metals::TABLE, &name)?;
        let wanted = w.give(&row, "c_M_want", wanted / v)?;
        let c = w.give(&row, "c_M", added.map_or(wanted, |added| added / v))?;
        together = together + c;
        let said = |c: Q| w.style.answer(c.si, G_PER_L_METAL);
        let text = match added {
            Some(_) => format!(
                "{name}: {} by the amounts added, {} was wanted. The streams and all that follows them take what was added.",
                said(c),
                said(wanted)
            ),
            None if is_begun => format!(
                "{name}: not every amount added is typed yet. What is wanted, {}, counts until then.",
                said(wanted)
            ),
            None => continue,
        };
        w.add_finding(&row, "c_M", Severity::Note, text);
    }
    Ok(w.answer("c_T", together)?.si > 0.0)
}
