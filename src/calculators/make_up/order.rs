//! The work order: water, acid, boric acid, salts, chloride, additives, salts of precious metals, water to the mark.

use super::ingredient::{Amount, Ingredient};
use super::meets;
use super::words::{LIGHT, Supply};
use crate::calculator::{Row, Stop, Work};
use crate::calculators::class_of;
use crate::quantity::Q;
use crate::science::formula::{Counts, Formula};
use crate::science::metals::{is_precious, symbol_of};
use crate::science::segregation::Class;
use crate::units::{CELSIUS, KG, L, NUMBER, Unit};
use std::sync::OnceLock;

/// While acid or caustic goes in, it is cooled from here, °C (common practice).
pub const STOP_AT: f64 = 45.0;
/// The share of all water that waits until the bath is cold: it shrinks by 1 % from 45 to 20 °C as water does, and
/// the mark is set with what is left (common practice, from memory).
const LEFT_FOR_THE_MARK: f64 = 0.03;

/// The steps, in which each kind of ingredient has its place.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Stage {
    Heating,
    /// It dissolves slowly, and least once the salts are in (common practice, from memory).
    Boric,
    Salts,
    Chloride,
    Additives,
    /// Once all is in that holds the pH and binds the metal (common practice, from memory).
    Precious,
}

fn stage(ingredient: &Ingredient) -> Stage {
    let holds = |element| ingredient.formula.as_ref().is_some_and(|formula| formula.contains(element));
    let metals = ingredient.formula.as_ref().map(|formula| formula.metals()).unwrap_or_default();
    let is_salt = metals.iter().any(|metal| !LIGHT.contains(metal));
    match ingredient.hazard {
        _ if metals.iter().any(|metal| is_precious(metal))
            || is_precious(&symbol_of(&ingredient.species)) =>
        {
            Stage::Precious
        }
        _ if ingredient.supply == Supply::DOSE => Stage::Additives,
        _ if ingredient.species == "Cl" || (holds("Cl") && !is_salt) => Stage::Chloride,
        _ if ingredient.formula.as_ref().is_some_and(is_boric_acid) => Stage::Boric,
        meets::STRONG_ACID | meets::NITRIC | meets::CAUSTIC | meets::OXIDISER if !is_salt => Stage::Heating,
        _ => Stage::Salts,
    }
}

/// Whether a formula is that of boric acid.
pub fn is_boric_acid(formula: &Formula) -> bool {
    static BORIC: OnceLock<Option<Counts>> = OnceLock::new();
    let boric = BORIC.get_or_init(|| Formula::read("H3BO3").ok().map(|boric| boric.anhydrous()));
    boric.as_ref() == Some(&formula.anhydrous())
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
    /// The names of those of which more is wanted than stays dissolved at 20 °C.
    pub too_much: &'a [String],
}

impl Order<'_> {
    /// Writes the steps in their order.
    pub fn write(&self, w: &mut Work, first: Q, rest: Q, t: Q, rho_w: Q) -> Result<(), Stop> {
        if !w.has_order() {
            return Ok(());
        }
        let cold = w.style.answer(t.si, CELSIUS);
        let text = format!("Water at {cold} into the tank, pump and exhaust on.");
        self.step(w, None, text, (first, KG));
        w.or_measured(first / rho_w, L);
        self.stage(w, Stage::Heating)?;
        self.stage(w, Stage::Boric)?;
        self.stage(w, Stage::Salts)?;
        let mut rest = rest;
        if self.is_hot {
            let last = rest.min((first + rest) * Q::constant("last", LEFT_FOR_THE_MARK, NUMBER));
            let most = rest - last;
            rest = last;
            let text = "Most of the rest of the water, while it is still warm: cooled before, salts may crystallise.";
            self.step(w, None, text.into(), (most, KG));
            w.or_measured(most / rho_w, L);
            let until = if self.too_much.is_empty() { "stir until clear" } else { "look for crystals" };
            w.instruct(None, format!("Cool to {cold}; {until}."), None);
        }
        self.stage(w, Stage::Chloride)?;
        self.stage(w, Stage::Additives)?;
        self.set_ph(w)?;
        self.stage(w, Stage::Precious)?;
        let text = format!(
            "The rest of the water, to the mark: the mark decides, not the sum. It is meant at {cold}."
        );
        self.step(w, None, text, (rest, KG));
        w.or_measured(rest / rho_w, L);
        w.instruct(None, "Mix for 30 minutes (common practice), then analyse before use.", None);
        Ok(())
    }

    /// The pH is set before a salt of a precious metal goes in: with cyanide in, no acid may follow.
    fn set_ph(&self, w: &mut Work) -> Result<(), Stop> {
        let (precious, others): (Vec<&Ingredient>, Vec<&Ingredient>) =
            self.ingredients.iter().partition(|ingredient| stage(ingredient) == Stage::Precious);
        let holds_cyanide = |all: &[&Ingredient]| all.iter().any(|one| one.hazard == meets::CYANIDE);
        let is_acid = class_of(w.word(&w.top(), "class")?) == Class::Acid;
        if precious.is_empty() || is_acid || holds_cyanide(&others) {
            return Ok(());
        }
        let after = if holds_cyanide(&precious) { " No acid once the cyanide is in." } else { "" };
        let text = format!("Measure the pH and set it now, as the data sheet says.{after}");
        w.instruct(None, text, None);
        Ok(())
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

    fn stage(&self, w: &mut Work, wanted: Stage) -> Result<(), Stop> {
        let all = self.ingredients.iter().zip(self.amounts);
        for (ingredient, amount) in all.filter(|(ingredient, _)| stage(ingredient) == wanted) {
            let what = ingredient.described(w)?;
            let text = match wanted {
                Stage::Heating if ingredient.hazard == meets::CAUSTIC => format!(
                    "{what}: slowly, in small portions, into the stirred water. Cool between; stop at {STOP_AT} °C."
                ),
                Stage::Heating => format!(
                    "{what}: slowly, in portions, into the stirred water; never water into acid. Cool between; stop at {STOP_AT} °C."
                ),
                _ if self.too_much.contains(&ingredient.row.key.to_string()) => format!(
                    "{what}: more than stays dissolved at 20 °C. Settle that first; then in portions, stirring."
                ),
                Stage::Boric if ingredient.supply == Supply::SOLID => {
                    format!("{what}: in portions; usually warm, in part of the water. Stir until clear.")
                }
                Stage::Salts | Stage::Precious if ingredient.supply == Supply::SOLID => {
                    format!("{what}: in portions; stir until clear before the next.")
                }
                Stage::Precious => format!("{what}: last, slowly, stirring."),
                Stage::Boric | Stage::Salts | Stage::Chloride => format!("{what}: slowly, stirring."),
                Stage::Additives if self.ingredients.iter().any(|one| stage(one) == Stage::Precious) => {
                    format!("{what}: slowly, stirring.")
                }
                Stage::Additives => format!("{what}: last of the ingredients."),
            };
            let wanted = amount.volume.map_or((amount.mass, KG), |volume| (volume, L));
            self.step(w, Some(&ingredient.row), text, wanted);
            if amount.volume.is_some() {
                w.or_measured(amount.mass, KG);
            }
        }
        Ok(())
    }
}
