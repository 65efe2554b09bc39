//! What a step of the work order says of an ingredient: what to take off the shelf, and what it is for.

use super::ingredient::Ingredient;
use super::words::{Supply, Wanted};
use crate::calculator::{Stop, Work};
use crate::quantity::Q;
use crate::units::{G_PER_L, ML_PER_L, MOL_PER_L, PERCENT, Unit};

impl Ingredient {
    /// Name, formula, strength and what is wanted of it, as for the hand that takes it off the shelf.
    pub fn described(&self, w: &Work) -> Result<String, Stop> {
        let mut text = self.row.key.to_string();
        if let Some(formula) = &self.formula {
            text += &format!(", {}", formula.text());
        }
        let counted = || self.formula.as_ref().and_then(|formula| self.counted(formula).ok());
        let said = |symbol, unit| -> Result<String, Stop> {
            Ok(w.optional(&self.row, symbol)?.map_or(String::new(), |q| plain(w, q, unit)))
        };
        let strength = match self.supply {
            Supply::SOLID if w.of(&self.row, ["p"])?[0].si >= 1.0 => String::new(),
            Supply::SOLID => said("p", PERCENT)?,
            Supply::BY_MASS => said("w", PERCENT)?,
            Supply::BY_MOL => said("C_k", MOL_PER_L)?,
            Supply::BY_METAL => {
                let metal = counted().unwrap_or_else(|| self.species.clone());
                format!("{} of {metal}", said("k_m", G_PER_L)?)
            }
            Supply::BY_GRAMS => said("k_s", G_PER_L)?,
            _ => String::new(),
        };
        if !strength.is_empty() {
            text += &format!(", {strength}");
        }
        let unit = match self.wanted {
            Wanted::AMOUNT => MOL_PER_L,
            Wanted::DOSE => ML_PER_L,
            _ => G_PER_L,
        };
        text += &format!(", for {}", said(self.goal().0, unit)?);
        if [Wanted::METAL, Wanted::ION].contains(&self.wanted) {
            text += &format!(" of {}", self.species);
        }
        Ok(text)
    }
}

/// A number as it is written on a label: 99 %, not 99.0.
fn plain(w: &Work, q: Q, unit: &'static Unit) -> String {
    let unit = w.style.best(q.si, unit);
    let number = unit.from_si(q.si);
    let digits = 6 - number.abs().max(1e-9).log10().ceil() as i32;
    let scale = 10f64.powi(digits.clamp(0, 12));
    format!("{}\u{a0}{}", w.style.literal((number * scale).round() / scale), unit.symbol)
}
