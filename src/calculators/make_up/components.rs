//! The components of the finished bath by the names that an analysis gives them (Cu, Cl, H2SO4), each with what
//! is wanted of it and what brings it: what a correction follows.

use super::ingredient::{Amount, Ingredient};
use super::words::{LIGHT, Supply, Wanted};
use crate::calculator::{Refuse, Stop, Work};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::metals;
use crate::units::{MASS_PERCENT, PERCENT_METAL};

/// The table of components.
pub const TABLE: &str = "components";

pub const NOTHING: &str = "nothing";
pub const SOLID: &str = "a solid";
pub const LIQUID: &str = "a liquid";
/// How a component is added to a bath.
pub const ADDED_AS: &[&str] = &[NOTHING, SOLID, LIQUID];

/// A component, as one ingredient is there for it.
struct Component<'a> {
    name: String,
    wanted: Q,
    /// Its share of the substance that the formula names; `None` without a formula.
    share: Option<Q>,
    of: &'a Ingredient,
    amount: &'a Amount,
}

/// Lists the components, and what is known of the solid or the liquid that brings each.
pub fn list(w: &mut Work, ingredients: &[Ingredient], amounts: &[Amount]) -> Result<(), Stop> {
    let mut found: Vec<Component> = Vec::new();
    for (ingredient, amount) in ingredients.iter().zip(amounts) {
        found.extend(component(w, ingredient, amount)?.filter(|component| component.wanted.si > 0.0));
    }
    let mut names: Vec<String> = Vec::new();
    for component in &found {
        let name = &component.name;
        if names.contains(name) {
            continue;
        }
        names.push(name.clone());
        let row = w.row(TABLE, name)?;
        let same = found.iter().filter(|other| other.name == *name).map(|other| other.wanted);
        if let Some(wanted) = same.reduce(|sum, next| sum + next) {
            w.give(&row, "c_C", wanted)?;
        }
        let of = component.of;
        w.say(&row, "h_C", of.hazard)?;
        // What brings another component too is told by its formula alone, which is not passed on.
        let is_alone = of.carries.is_none()
            && !found.iter().any(|other| other.name != *name && holds(of.formula.as_ref(), &other.name));
        let volume = component.amount.volume.filter(|volume| volume.si > 0.0);
        match (volume, component.share) {
            (None, share) if of.supply == Supply::SOLID => {
                w.say(&row, "as_C", SOLID)?;
                w.give(&row, "p_C", w.of(&of.row, ["p"])?[0])?;
                if let Some(share) = share.filter(|_| is_alone) {
                    w.give(&row, "x_C", share)?;
                }
            }
            (volume, share) => {
                w.say(&row, "as_C", LIQUID)?;
                let content = volume.zip(component.amount.substance).map(|(volume, mass)| mass / volume);
                let strength = match content.zip(share) {
                    Some((content, share)) => Some(content * share),
                    None if of.supply == Supply::BY_METAL && of.wanted == Wanted::METAL => {
                        w.optional(&of.row, "k_m")?.map(as_mass)
                    }
                    None => None,
                };
                if let Some(strength) = strength.filter(|_| is_alone) {
                    w.give(&row, "s_C", strength)?;
                }
            }
        }
    }
    Ok(())
}

/// What an ingredient is there for; `None` for a dose, and for a salt that is wanted as itself: its metals are
/// listed apart.
fn component<'a>(
    w: &Work,
    ingredient: &'a Ingredient,
    amount: &'a Amount,
) -> Result<Option<Component<'a>>, Stop> {
    let (row, formula) = (&ingredient.row, ingredient.formula.as_ref());
    let Some(wanted) = w.optional(row, ingredient.goal().0)? else { return Ok(None) };
    let part = |name: &str| {
        let share = formula.map(|formula| formula.part_fraction(name).or_stop_row("species", &row.key));
        share.transpose()
    };
    let itself = formula.filter(|formula| !formula.metals().iter().any(|metal| !LIGHT.contains(metal)));
    let (name, wanted, share) = match (ingredient.wanted, itself) {
        (Wanted::METAL, _) => (ingredient.species.clone(), as_mass(wanted), part(&ingredient.species)?),
        (Wanted::ION, _) => (ingredient.species.clone(), wanted, part(&ingredient.species)?),
        (Wanted::SUBSTANCE, Some(formula)) => (formula.text().trim().to_string(), wanted, Some(all())),
        (Wanted::AMOUNT, Some(formula)) => {
            (formula.text().trim().to_string(), wanted * formula.molar_mass(), Some(all()))
        }
        _ => return Ok(None),
    };
    Ok(Some(Component { name, wanted, share, of: ingredient, amount }))
}

fn all() -> Q {
    Q::constant("all", 100.0, MASS_PERCENT)
}

/// Mass of metal as mass like any other, as an analysis gives it.
fn as_mass(metal: Q) -> Q {
    metal / Q::constant("metal", 100.0, PERCENT_METAL)
}

/// Whether a formula holds a component.
fn holds(formula: Option<&Formula>, name: &str) -> bool {
    let part = as_part(name).zip(formula);
    part.is_some_and(|(part, formula)| formula.part_fraction(part.text()).is_ok_and(|share| share.si > 0.0))
}

/// The component as a part that a salt may be made of; a whole substance, such as an acid, is none.
pub fn as_part(component: &str) -> Option<Formula> {
    let part = Formula::read(&metals::symbol_of(component)).ok()?;
    (part.counts().len() == 1 || !part.contains("H")).then_some(part)
}
