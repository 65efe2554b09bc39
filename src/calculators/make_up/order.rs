//! The work order: water, acid, salts, chloride, additives, water to the mark.

use super::ingredient::{Amount, Ingredient, LIGHT, Supply};
use super::meets;
use crate::calculator::Work;
use crate::quantity::Q;
use crate::units::{CELSIUS, KG, L};

/// The steps, in which each kind of ingredient has its place.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Stage {
    Heating,
    Salts,
    Chloride,
    Additives,
}

fn stage(ingredient: &Ingredient) -> Stage {
    let holds = |element| ingredient.formula.as_ref().is_some_and(|formula| formula.contains(element));
    let metals = ingredient.formula.as_ref().map(|formula| formula.metals()).unwrap_or_default();
    let is_salt = metals.iter().any(|metal| !LIGHT.contains(metal));
    match ingredient.hazard {
        _ if ingredient.supply == Supply::DOSE => Stage::Additives,
        _ if ingredient.species == "Cl" || (holds("Cl") && !is_salt) => Stage::Chloride,
        meets::STRONG_ACID | meets::CAUSTIC | meets::OXIDISER if !is_salt => Stage::Heating,
        _ => Stage::Salts,
    }
}

/// Writes the steps in their order.
pub fn write(
    w: &mut Work,
    ingredients: &[Ingredient],
    amounts: &[Amount],
    first: Q,
    rest: Q,
    t: Q,
    is_hot: bool,
) {
    let cold = w.style.answer(t.si, CELSIUS);
    w.instruct(None, format!("Water at {cold} into the tank, pump and exhaust on."), Some((first, KG)));
    let step = |wanted: Stage, w: &mut Work| {
        for (ingredient, amount) in ingredients.iter().zip(amounts).filter(|(i, _)| stage(i) == wanted) {
            let key = &ingredient.row.key;
            let text = match wanted {
                Stage::Heating if ingredient.hazard == meets::CAUSTIC => {
                    format!(
                        "{key}, slowly, in small portions, into the stirred water. Cool between; stop at 45 °C."
                    )
                }
                Stage::Heating => format!(
                    "{key}, slowly, in portions, into the stirred water; never water into acid. Cool between; stop at 45 °C."
                ),
                Stage::Salts if ingredient.supply == Supply::SOLID => {
                    format!("{key}, in portions; stir until clear before the next.")
                }
                Stage::Salts => format!("{key}, slowly, stirring."),
                Stage::Chloride => format!("{key}, slowly, stirring."),
                Stage::Additives => format!("{key}, last of the ingredients."),
            };
            let wanted = amount.volume.map_or((amount.mass, KG), |volume| (volume, L));
            w.instruct(Some(&ingredient.row), text, Some(wanted));
        }
    };
    step(Stage::Heating, w);
    step(Stage::Salts, w);
    if is_hot {
        w.instruct(None, format!("Cool to {cold}."), None);
    }
    step(Stage::Chloride, w);
    step(Stage::Additives, w);
    w.instruct(None, "The rest of the water, to the mark: the mark decides, not the sum.", Some((rest, KG)));
    w.instruct(None, "Mix for 30 minutes (common practice), then analyse before use.", None);
}
