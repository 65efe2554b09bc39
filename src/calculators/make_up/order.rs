//! The work order: water, acid, salts, chloride, additives, water to the mark.

use super::ingredient::{Amount, Ingredient};
use super::meets;
use super::words::{LIGHT, Supply};
use crate::calculator::{Row, Work};
use crate::quantity::Q;
use crate::units::{CELSIUS, KG, L, Unit};

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
        meets::STRONG_ACID | meets::NITRIC | meets::CAUSTIC | meets::OXIDISER if !is_salt => Stage::Heating,
        _ => Stage::Salts,
    }
}

/// Whether it goes into the first water before the salts.
pub fn goes_before_salts(ingredient: &Ingredient) -> bool {
    stage(ingredient) == Stage::Heating
}

/// What a work order is written from.
pub struct Order<'a> {
    pub ingredients: &'a [Ingredient],
    pub amounts: &'a [Amount],
    /// The share of the bath that one batch is, if it is made in batches.
    pub batch: Option<f64>,
    /// Whether anything heats the water.
    pub is_hot: bool,
}

impl Order<'_> {
    /// Writes the steps in their order.
    pub fn write(&self, w: &mut Work, first: Q, rest: Q, t: Q, rho_w: Q) {
        let cold = w.style.answer(t.si, CELSIUS);
        let text = format!("Water at {cold} into the tank, pump and exhaust on.");
        self.step(w, None, text, (first, KG));
        w.or_measured(first / rho_w, L);
        self.stage(w, Stage::Heating);
        self.stage(w, Stage::Salts);
        if self.is_hot {
            w.instruct(None, format!("Cool to {cold}."), None);
        }
        self.stage(w, Stage::Chloride);
        self.stage(w, Stage::Additives);
        let text = "The rest of the water, to the mark: the mark decides, not the sum.";
        self.step(w, None, text.into(), (rest, KG));
        w.or_measured(rest / rho_w, L);
        w.instruct(None, "Mix for 30 minutes (common practice), then analyse before use.", None);
    }

    fn step(&self, w: &mut Work, row: Option<&Row>, text: String, wanted: (Q, &'static Unit)) {
        let text = match self.batch {
            Some(share) => {
                let each = w.style.answer(wanted.0.si * share, wanted.1);
                format!("{text} That is {each} for each batch; in all:")
            }
            None => text,
        };
        w.instruct(row, text, Some(wanted));
    }

    fn stage(&self, w: &mut Work, wanted: Stage) {
        let all = self.ingredients.iter().zip(self.amounts);
        for (ingredient, amount) in all.filter(|(ingredient, _)| stage(ingredient) == wanted) {
            let key = &ingredient.row.key;
            let text = match wanted {
                Stage::Heating if ingredient.hazard == meets::CAUSTIC => format!(
                    "{key}, slowly, in small portions, into the stirred water. Cool between; stop at 45 °C."
                ),
                Stage::Heating => format!(
                    "{key}, slowly, in portions, into the stirred water; never water into acid. Cool between; stop at 45 °C."
                ),
                Stage::Salts if ingredient.supply == Supply::SOLID => {
                    format!("{key}, in portions; stir until clear before the next.")
                }
                Stage::Salts | Stage::Chloride => format!("{key}, slowly, stirring."),
                Stage::Additives => format!("{key}, last of the ingredients."),
            };
            let wanted = amount.volume.map_or((amount.mass, KG), |volume| (volume, L));
            self.step(w, Some(&ingredient.row), text, wanted);
            if amount.volume.is_some() {
                w.or_measured(amount.mass, KG);
            }
        }
    }
}
