//! What a row of ingredients says, and how much of it is weighed or measured.

use super::meets;
use super::words::{KNOWN, LIGHT, Supply, Wanted};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::elements::is_metal;
use crate::science::formula::Formula;
use crate::science::solution_make_up::{
    compound_for_metal, compound_mass, concentrate_by_dose, concentrate_by_mass_share,
    concentrate_by_strength, salt_for_metal,
};
use crate::science::solutions::{self, known_solute, solute};
use crate::science::{dilution, metals, water};
use crate::units::{G_PER_L, KG, KG_PER_L, L};

/// What an intermediate result is called.
const OF_IT: &str = "Of the substance itself";

/// What a row says.
pub struct Ingredient {
    pub row: Row,
    pub supply: &'static str,
    pub wanted: &'static str,
    pub formula: Option<Formula>,
    /// The metal or ion that is counted; empty if none is.
    pub species: String,
    /// What a concentrate brings along, and how much of it a litre holds.
    pub carries: Option<(Formula, Q)>,
    pub hazard: &'static str,
}

/// How much of an ingredient goes in.
pub struct Amount {
    pub mass: Q,
    /// If it is a liquid.
    pub volume: Option<Q>,
    /// Mass of the substance itself, as its formula says; `None` where the formula is not known.
    pub substance: Option<Q>,
}

impl Ingredient {
    /// Reads a row; refuses what cannot be read, and asks for what is still to be typed.
    pub fn read(w: &mut Work, row: Row) -> Result<Ingredient, Stop> {
        let supply = w.word(&row, "supply")?;
        let wanted = if supply == Supply::DOSE { Wanted::DOSE } else { w.word(&row, "wanted")? };
        let mut text = w.text(&row, "formula")?.to_string();
        if text.is_empty() {
            let known = KNOWN.iter().find(|(name, _)| name.eq_ignore_ascii_case(row.key.trim()));
            text = known.map(|(_, formula)| (*formula).to_string()).unwrap_or_default();
        }
        let formula = match text.as_str() {
            "" => None,
            text => Some(Formula::read(text).or_stop_row("formula", &row.key)?),
        };
        let asks_species = supply != Supply::DOSE && [Wanted::METAL, Wanted::ION].contains(&wanted);
        let typed = if asks_species { w.text(&row, "species")?.trim().to_string() } else { String::new() };
        let species = species(&row, wanted, formula.as_ref(), &typed)?;
        let carries = if [Supply::SOLID, Supply::DOSE].contains(&supply) { None } else { carried(w, &row)? };
        let hazard = meets::hazard(&row.key, formula.as_ref(), carries.as_ref().map(|(f, _)| f), &species);
        w.say(&row, "hazard", hazard)?;
        Ok(Ingredient { row, supply, wanted, formula, species, carries, hazard })
    }

    /// The formula, which this way of giving the ingredient needs.
    fn needs_formula(&self) -> Result<&Formula, Stop> {
        self.formula.as_ref().ok_or_else(|| {
            Stop::todo("formula", "The formula is not known", "Type it as on the label, with its water.")
                .row(&self.row.key)
        })
    }

    /// A number that has to be typed.
    fn typed(&self, w: &Work, symbol: &'static str, what: &str) -> Result<Q, Stop> {
        w.optional(&self.row, symbol)?.ok_or_else(|| {
            let reason = format!("{}: {what} is still to be typed", self.row.key);
            Stop::todo(symbol, reason, format!("Type {what}.")).row(&self.row.key)
        })
    }

    /// The column of what is wanted, and what to call it.
    pub fn goal(&self) -> (&'static str, &'static str) {
        match self.wanted {
            Wanted::METAL => ("c_m", "what is wanted"),
            Wanted::ION => ("c_i", "what is wanted"),
            Wanted::SUBSTANCE => ("c_s", "what is wanted"),
            Wanted::AMOUNT => ("C_n", "what is wanted"),
            _ if self.supply == Supply::DOSE => ("d", "the dose"),
            _ => ("d_l", "the dose"),
        }
    }

    /// Concentration of the substance that is wanted; `None` for a dose.
    fn target(&self, w: &mut Work) -> Result<Option<Q>, Stop> {
        let key = &self.row.key;
        let what = "what is wanted";
        let c = match self.wanted {
            Wanted::METAL => {
                let c = self.typed(w, "c_m", what)?;
                let x = self.needs_formula()?.metal_fraction(&self.species).or_stop_row("species", key)?;
                compound_for_metal(c, x).or_stop_row("c_m", key)?
            }
            Wanted::ION => {
                let c = self.typed(w, "c_i", what)?;
                let share = self.needs_formula()?.part_fraction(&self.species).or_stop_row("species", key)?;
                c / share
            }
            Wanted::SUBSTANCE => self.typed(w, "c_s", what)?,
            Wanted::AMOUNT => {
                let c = self.typed(w, "C_n", what)?;
                c * self.needs_formula()?.molar_mass()
            }
            _ => return Ok(None),
        };
        w.step_in(&self.row, "c", "Substance wanted", G_PER_L, c).map(Some)
    }

    /// Concentration of the substance in the liquid as supplied; `None` where it is not known.
    fn content(&self, w: &Work, density: Q) -> Result<Option<Q>, Stop> {
        Ok(match (self.supply, &self.formula) {
            (Supply::BY_MASS, _) => Some(self.typed(w, "w", "the strength")? * density),
            (Supply::BY_MOL, Some(formula)) => {
                Some(self.typed(w, "C_k", "the strength")? * formula.molar_mass())
            }
            (Supply::BY_METAL, Some(formula)) => {
                let x =
                    formula.metal_fraction(&self.counted(formula)?).or_stop_row("formula", &self.row.key)?;
                Some(self.typed(w, "k_m", "the content of metal")? / x)
            }
            (Supply::BY_GRAMS, _) => Some(self.typed(w, "k_s", "the content")?),
            _ => None,
        })
    }

    /// The same where there is no working it out without.
    fn known_content(&self, w: &Work, density: Q) -> Result<Q, Stop> {
        self.content(w, density)?.ok_or_else(|| {
            let reason = format!("{}: how much of it the liquid holds is not known", self.row.key);
            Stop::at("supply", reason, "Say how its strength is given, and type it.").row(&self.row.key)
        })
    }

    /// The metal that the label of a concentrate counts.
    pub fn counted(&self, formula: &Formula) -> Result<String, Stop> {
        if is_metal(&self.species) {
            return Ok(self.species.clone());
        }
        the_metal(formula).ok_or_else(|| {
            let reason = format!("{} holds no metal, or more than one", formula.text());
            Stop::at("formula", reason, "Give the content of the substance instead.").row(&self.row.key)
        })
    }

    /// Density of the liquid: as typed, else from the solution model, else as water for an additive.
    fn liquid_density(&self, w: &mut Work, t: Q) -> Result<Q, Stop> {
        if let Some(density) = w.optional(&self.row, "ρ_k")? {
            return Ok(density);
        }
        let key = &self.row.key;
        if self.supply == Supply::DOSE {
            let density = water::density(t).or_stop("T_m")?;
            return w.step_in(&self.row, "ρ_k", "Taken as water", KG_PER_L, density);
        }
        let Some(formula) = &self.formula else {
            let reason = format!("{key}: the density of the liquid is not known");
            return Err(Stop::todo("ρ_k", reason, "Type it from the label, or type the formula.").row(key));
        };
        let Some(solute) = solute(formula) else {
            let reason = format!(
                "{key}: the density of the liquid is still to be typed, as no solution of {} is known here",
                formula.text()
            );
            return Err(Stop::todo("ρ_k", reason, "Type it from the label or a hydrometer.").row(key));
        };
        let anhydrous = formula.anhydrous_molar_mass() / formula.molar_mass();
        let density = if self.supply == Supply::BY_MASS {
            let strength = self.typed(w, "w", "the strength")?;
            solutions::density(&[(solute, strength * anhydrous)], t).or_stop_row("ρ_k", key)?
        } else {
            let none = Q::constant("none", 0.0, KG_PER_L);
            let content = self.known_content(w, none)?;
            let mut parts = vec![(solute, content * anhydrous)];
            if let Some((carried, c)) = &self.carries {
                parts.push((known_solute(carried).or_stop_row("ρ_k", key)?, *c));
            }
            solutions::density_of_concentrations(&parts, t).or_stop_row("ρ_k", key)?
        };
        w.step_in(&self.row, "ρ_k", "Density of the liquid", KG_PER_L, density)
    }

    /// How much goes in, if others bring `brought` of the same substance for each litre of bath.
    fn amount(&self, w: &mut Work, v: Q, t: Q, brought: Option<Q>) -> Result<Amount, Stop> {
        let key = &self.row.key;
        if self.supply == Supply::SOLID {
            return self.solid(w, v, brought);
        }
        // What is wanted is asked for before what only the label says.
        let (symbol, what) = self.goal();
        self.typed(w, symbol, what)?;
        let density = self.liquid_density(w, t)?;
        let volume = if self.wanted == Wanted::DOSE {
            let dose = self.typed(w, symbol, what)?;
            concentrate_by_dose(v, dose).or_stop_row(symbol, key)?
        } else if self.supply == Supply::BY_METAL && self.wanted == Wanted::METAL && brought.is_none() {
            let (c, content) =
                (self.typed(w, "c_m", "what is wanted")?, self.typed(w, "k_m", "the content of metal")?);
            concentrate_by_strength(v, c, content).or_stop_row("c_m", key)?
        } else {
            if self.supply == Supply::BY_MOL || self.supply == Supply::BY_METAL {
                self.needs_formula()?;
            }
            let wanted = self.target(w)?.ok_or_else(|| Stop::fault(format!("{key} is no dose")))?;
            let c = self.less(w, wanted, brought)?;
            if self.supply == Supply::BY_MASS {
                let strength = self.typed(w, "w", "the strength")?;
                concentrate_by_mass_share(v, c, strength, density).or_stop_row("w", key)?
            } else {
                let content = self.known_content(w, density)?;
                concentrate_by_strength(v, c, content).or_stop_row("supply", key)?
            }
        };
        let volume = w.give(&self.row, "v", volume)?;
        let mass = w.give(&self.row, "m", volume * density)?;
        let substance = match self.content(w, density)? {
            Some(content) => Some(w.step_in(&self.row, "m_s", OF_IT, KG, content * volume)?),
            None => None,
        };
        Ok(Amount { mass, volume: Some(volume), substance })
    }

    fn solid(&self, w: &mut Work, v: Q, brought: Option<Q>) -> Result<Amount, Stop> {
        let key = &self.row.key;
        let [purity] = w.of(&self.row, ["p"])?;
        let x = if self.wanted == Wanted::METAL {
            let x = self.needs_formula()?.metal_fraction(&self.species).or_stop_row("species", key)?;
            Some(w.give(&self.row, "x", x)?)
        } else {
            None
        };
        let mass = match (self.wanted, brought) {
            (_, None) if let Some(x) = x => {
                let c = self.typed(w, "c_m", "what is wanted")?;
                salt_for_metal(v, c, x, purity).or_stop_row("p", key)?
            }
            (Wanted::AMOUNT, None) => {
                let c = self.typed(w, "C_n", "what is wanted")?;
                let molar_mass = self.needs_formula()?.molar_mass();
                dilution::mass_of_molarity(c, v, molar_mass).or_stop_row("C_n", key)? / purity
            }
            _ => {
                let Some(wanted) = self.target(w)? else {
                    let reason = format!("{key}: a solid cannot be wanted in mL/L");
                    return Err(Stop::at("wanted", reason, "Say how many grams a litre is to hold.").row(key));
                };
                let c = self.less(w, wanted, brought)?;
                compound_mass(v, c, purity).or_stop_row("p", key)?
            }
        };
        let mass = w.give(&self.row, "m", mass)?;
        let substance = w.step_in(&self.row, "m_s", OF_IT, KG, mass * purity)?;
        Ok(Amount { mass, volume: None, substance: Some(substance) })
    }

    /// What is still wanted after what others bring.
    fn less(&self, w: &mut Work, wanted: Q, brought: Option<Q>) -> Result<Q, Stop> {
        let Some(brought) = brought else { return Ok(wanted) };
        let c = wanted - brought;
        if c.si < -1e-9 * wanted.si.abs() {
            let reason = format!("Concentrates bring more of {} than the bath is to hold", self.row.key);
            let remedy = "Raise what is wanted of it, or use a concentrate that carries less.";
            return Err(Stop::at("carries", reason, remedy).row(&self.row.key));
        }
        let c = if c.si < 0.0 { 0.0 * c } else { c };
        w.step_in(&self.row, "c_add", "Still to add, after what concentrates bring", G_PER_L, c)
    }

    fn is_same(&self, other: &Formula) -> bool {
        self.formula.as_ref().is_some_and(|formula| formula.anhydrous() == other.anhydrous())
    }
}

/// The one metal of a formula that a label would count: alkali metals only where there is no other.
fn the_metal(formula: &Formula) -> Option<String> {
    let all = formula.metals();
    let heavy: Vec<_> = all.iter().copied().filter(|metal| !LIGHT.contains(metal)).collect();
    match (heavy.as_slice(), all.as_slice()) {
        ([metal], _) | ([], [metal]) => Some((*metal).to_string()),
        _ => None,
    }
}

fn species(row: &Row, wanted: &str, formula: Option<&Formula>, typed: &str) -> Result<String, Stop> {
    let key = &row.key;
    let name = match (wanted, typed, formula) {
        (Wanted::METAL, "", Some(formula)) => the_metal(formula).unwrap_or_default(),
        (Wanted::METAL, typed, _) => metals::symbol_of(typed),
        (_, typed, _) => typed.to_string(),
    };
    match wanted {
        Wanted::METAL if name.is_empty() => {
            let reason = format!("{key}: which metal is meant is not known");
            Err(Stop::todo("species", reason, "Type its symbol or name, or the formula.").row(key))
        }
        Wanted::METAL if !is_metal(&name) => {
            let reason = format!("{key}: “{name}” is not a metal");
            let remedy = "Give a metal such as Cu, or choose an ion or the substance itself.";
            Err(Stop::at("species", reason, remedy).row(key))
        }
        Wanted::ION if name.is_empty() => {
            let reason = format!("{key}: which ion is meant is not known");
            Err(Stop::todo("species", reason, "Type it, such as Cl or SO4.").row(key))
        }
        Wanted::ION if is_metal(&metals::symbol_of(&name)) => {
            let reason = format!("{key}: {name} is a metal");
            Err(Stop::at("species", reason, "Choose “its metal” as what is wanted.").row(key))
        }
        _ => Ok(name),
    }
}

fn carried(w: &Work, row: &Row) -> Result<Option<(Formula, Q)>, Stop> {
    let text = w.text(row, "carries")?;
    let content = w.optional(row, "k_c")?;
    match (text.is_empty(), content) {
        (true, None) => Ok(None),
        (true, Some(c)) if c.si == 0.0 => Ok(None),
        (true, Some(_)) => {
            let reason = format!("{}: what the concentrate also carries has no formula", row.key);
            Err(Stop::todo("carries", reason, "Type its formula, such as H2SO4.").row(&row.key))
        }
        (false, None) => {
            let reason = format!("{}: how much it carries is still to be typed", row.key);
            Err(Stop::todo("k_c", reason, "Type the grams in a litre of the concentrate.").row(&row.key))
        }
        (false, Some(c)) => Ok(Some((Formula::read(&text).or_stop_row("carries", &row.key)?, c))),
    }
}

/// How much of every ingredient goes in: first those that bring others along, then the rest.
pub fn amounts(w: &mut Work, ingredients: &[Ingredient], v: Q, t: Q) -> Result<Vec<Amount>, Stop> {
    let mut found: Vec<Option<Amount>> = ingredients.iter().map(|_| None).collect();
    for (ingredient, amount) in ingredients.iter().zip(&mut found).filter(|(i, _)| i.carries.is_some()) {
        *amount = Some(ingredient.amount(w, v, t, None)?);
    }
    for k in 0..ingredients.len() {
        let ingredient = &ingredients[k];
        let is_first = !ingredients[..k].iter().any(|other| {
            other.carries.is_none() && ingredient.formula.as_ref().is_some_and(|f| other.is_same(f))
        });
        let brought =
            if is_first { brought(ingredients, found.iter().map(Option::as_ref), ingredient) } else { None };
        match (&found[k], brought) {
            (Some(_), Some(_)) => {
                let key = &ingredient.row.key;
                let reason = format!("{key} carries something, and is itself carried by another concentrate");
                let remedy = "Leave one of the two out of “also carries”.";
                return Err(Stop::at("carries", reason, remedy).row(key));
            }
            (Some(_), None) => (),
            (None, brought) => {
                let c = brought.map(|mass| mass / v);
                found[k] = Some(ingredient.amount(w, v, t, c)?);
            }
        }
    }
    Ok(found.into_iter().flatten().collect())
}

/// Mass of an ingredient's substance that the concentrates bring.
fn brought<'a>(
    ingredients: &[Ingredient],
    amounts: impl Iterator<Item = Option<&'a Amount>>,
    of: &Ingredient,
) -> Option<Q> {
    let parts = ingredients.iter().zip(amounts).filter_map(|(ingredient, amount)| {
        let (_, c) = ingredient.carries.as_ref().filter(|(carried, _)| of.is_same(carried))?;
        Some(*c * amount?.volume?)
    });
    parts.reduce(|sum, part| sum + part)
}

/// The amount that was really added: its column, the amount, and what was wanted.
pub fn added(
    w: &Work,
    ingredient: &Ingredient,
    amount: &Amount,
) -> Result<Option<(&'static str, Q, Q)>, Stop> {
    let (symbol, wanted) = match amount.volume {
        Some(volume) => ("v_added", volume),
        None => ("added", amount.mass),
    };
    let added = w.optional(&ingredient.row, symbol)?.filter(|_| wanted.si > 0.0);
    Ok(added.map(|added| (symbol, added, wanted)))
}

/// What the amounts that were really added come to.
pub fn reached(w: &mut Work, ingredients: &[Ingredient], amounts: &[Amount], v: Q) -> Result<(), Stop> {
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        let row = &ingredient.row;
        let Some((symbol, added, wanted)) = added(w, ingredient, amount)? else { continue };
        let ratio = added / wanted;
        if (ratio.si - 1.0).abs() > 0.02 {
            let unit = if amount.volume.is_some() { L } else { KG };
            let (shown, asked) = (w.style.answer(added.si, unit), w.style.answer(wanted.si, unit));
            let text = format!("{}: {shown} was added, {asked} was wanted.", row.key);
            w.add_finding(row, symbol, Severity::Caution, text);
        }
        let others = brought(ingredients, amounts.iter().map(Some), ingredient);
        match (ingredient.wanted, &ingredient.formula, amount.substance) {
            (Wanted::METAL, Some(formula), Some(substance)) => {
                let x = formula.metal_fraction(&ingredient.species).or_stop_row("species", &row.key)?;
                w.give(row, "c_m_got", plus(ratio * substance, others) * x / v)?;
            }
            (Wanted::METAL, ..) => {
                let content = ingredient.typed(w, "k_m", "the content of metal")?;
                w.give(row, "c_m_got", added * content / v)?;
            }
            (Wanted::ION, Some(formula), Some(substance)) => {
                let share = formula.part_fraction(&ingredient.species).or_stop_row("species", &row.key)?;
                w.give(row, "c_got", plus(ratio * substance, others) * share / v)?;
            }
            (Wanted::DOSE, ..) => {
                w.give(row, "d_got", added / v)?;
            }
            (_, _, Some(substance)) => {
                w.give(row, "c_got", plus(ratio * substance, others) / v)?;
            }
            _ => (),
        }
    }
    Ok(())
}

fn plus(own: Q, others: Option<Q>) -> Q {
    others.map_or(own, |others| own + others)
}
