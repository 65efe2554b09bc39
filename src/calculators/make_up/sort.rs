//! What sort of bath it is by what goes in: whether its pH is held, whether additives are dosed, whether it plates.
//! What is not listed is not known: it is not taken for none.

use super::ingredient::Ingredient;
use super::words::{Supply, Wanted};
use super::{meets, recipes};
use crate::calculator::{Stop, Work};
use crate::calculators::class_of;
use crate::science::segregation::Class;

/// The table of what an analysis counts besides the components that are wanted in g/L.
pub const BESIDES: &str = "besides";

/// The row of the pH there.
pub const PH: &str = "pH";

pub const YES: &str = "yes";
pub const NO: &str = "no";
pub const NOT_KNOWN: &str = "not known";
/// Every word, in the order of the list.
pub const SAID: &[&str] = &[YES, NO, NOT_KNOWN];
/// The same as the words of a choice.
pub const SAID_WORDS: &[(&str, f64)] = &[(YES, 0.0), (NO, 0.0), (NOT_KNOWN, 0.0)];

pub const ADDITIVE: &str = "an additive";
pub const LIQUID: &str = "a liquid dosed by volume";
pub const BY_PH: &str = "what acid or base holds";
/// What a row of [`BESIDES`] may be.
pub const SORTS: &[&str] = &[ADDITIVE, LIQUID, BY_PH];
/// The same as the words of a choice.
pub const SORT_WORDS: &[(&str, f64)] = &[(ADDITIVE, 0.0), (LIQUID, 0.0), (BY_PH, 0.0)];

/// Says it, and lists what an analysis counts besides.
pub fn say(w: &mut Work, ingredients: &[Ingredient], holds_metal: bool) -> Result<(), Stop> {
    let top = w.top();
    let is_listed = !ingredients.is_empty() || w.word(&top, "recipe")? == recipes::WATER_ONLY;
    let held = held(class_of(w.word(&top, "class")?), ingredients);
    w.say(&top, "held", held)?;
    let has_additives = ingredients.iter().any(|i| i.supply == Supply::DOSE);
    w.say(&top, "adds", said(has_additives, is_listed))?;
    // What has no formula may be the metal.
    let all_known = ingredients.iter().all(|i| i.supply == Supply::DOSE || i.formula.is_some());
    w.say(&top, "plates", said(holds_metal, is_listed && all_known))?;
    for ingredient in ingredients.iter().filter(|i| i.wanted == Wanted::DOSE) {
        let row = w.row(BESIDES, &ingredient.row.key)?;
        w.say(&row, "is_D", if ingredient.supply == Supply::DOSE { ADDITIVE } else { LIQUID })?;
        if let Some(dose) = w.optional(&ingredient.row, ingredient.goal().0)? {
            w.give(&row, "d_D", dose)?;
        }
    }
    if held == YES {
        let row = w.row(BESIDES, PH)?;
        w.say(&row, "is_D", BY_PH)?;
    }
    Ok(())
}

fn said(is_so: bool, is_known: bool) -> &'static str {
    match (is_so, is_known) {
        (true, _) => YES,
        (false, true) => NO,
        (false, false) => NOT_KNOWN,
    }
}

/// Whether a bath is run on its pH, by common practice: all but strong acid, oxidisers and solvents. A bath called
/// acid is weakly so where boric acid or another weak one is in it, or nickel without strong acid.
fn held(class: Class, ingredients: &[Ingredient]) -> &'static str {
    let has_weak = ingredients.iter().any(meets::holds_weak_acid);
    let has_strong = meets::has(ingredients, &[meets::STRONG_ACID, meets::NITRIC]);
    match class {
        Class::Oxidiser | Class::Solvent => NO,
        Class::Acid | Class::Unknown if has_weak => YES,
        Class::Acid | Class::Unknown if has_strong => NO,
        Class::Acid | Class::Unknown if meets::has(ingredients, &[meets::NICKEL]) => YES,
        Class::Acid | Class::Unknown => NOT_KNOWN,
        _ => YES,
    }
}
