//! A reagent as it stands in its container.

use super::{LIME, STOCK_GRAMS, STOCK_SHARE};
use crate::calculator::{Refuse, Stop, Work};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::ph::{Reagent, Substance, known};
use crate::science::{lime, solutions};
use crate::units::{CELSIUS, KG_PER_L, MOL_PER_L};

/// What asks for the strength of a liquid: the inputs, and the steps of the working.
pub struct Strength {
    /// How it is given, one of [`STRENGTHS`].
    pub given: &'static str,
    /// In mol/L.
    pub moles: &'static str,
    /// In g/L.
    pub grams: &'static str,
    /// In % by mass.
    pub share: &'static str,
    /// Its density, if typed.
    pub density: &'static str,
    /// The steps of density and strength.
    pub steps: [&'static str; 2],
    /// What the liquid is called.
    pub called: &'static str,
}

const STOCK: Strength = Strength {
    given: "as_b",
    moles: "C_b",
    grams: "c_b",
    share: "w_b",
    density: "ρ_b",
    steps: ["ρ_r", "C_r"],
    called: "the stock",
};

impl Strength {
    /// The strength in mol/L, and the share by mass where that is how it is given.
    pub fn read(&self, w: &mut Work, substance: &Substance) -> Result<(Q, Option<Q>), Stop> {
        let top = w.top();
        let (given, grams, by_mass) = (self.given, self.grams, self.share);
        let [density_step, strength_step] = self.steps;
        let molar_mass = substance.molar_mass().or_stop(given)?;
        let word = w.word(&top, given)?;
        let (strength, share) = match word {
            STOCK_SHARE => {
                let solute = solutions::solute(&Formula::read(substance.formula).or_stop(given)?);
                let [share] = w.inputs([by_mass])?;
                let density = match (w.optional(&top, self.density)?, solute) {
                    (Some(typed), _) => typed,
                    (None, Some(solute)) => {
                        let at_20 = Q::constant("20 °C", 20.0, CELSIUS);
                        let found = solutions::density(&[(solute, share)], at_20).or_stop(by_mass)?;
                        w.step(density_step, &format!("Density of {}", self.called), KG_PER_L, found)?
                    }
                    (None, None) => {
                        let reason = format!("no density of {} is known here", substance.name);
                        return Err(Stop::todo(self.density, reason, "Type it, from the label."));
                    }
                };
                (solutions::molarity(share, density, molar_mass).or_stop(by_mass)?, Some(share))
            }
            STOCK_GRAMS => (w.inputs([grams])?[0] / molar_mass, None),
            _ => (w.inputs([self.moles])?[0], None),
        };
        let label = format!("Strength of {}", self.called);
        Ok((w.step(strength_step, &label, MOL_PER_L, strength)?, share))
    }
}

/// A stock of reagent.
pub struct Stock {
    /// What is in it.
    pub substance: &'static Substance,
    /// Its molar mass.
    pub molar_mass: Q,
    /// Hydrogen ions, or hydroxide, that one takes up.
    pub takes_up: f64,
    /// Its strength, mol/L.
    pub strength: Q,
    /// Its strength by mass, where it is known.
    pub share: Option<Q>,
}

impl Stock {
    /// Reads it; `symbol` is the choice of what it is.
    pub fn read(w: &mut Work, symbol: &'static str) -> Result<Stock, Stop> {
        let top = w.top();
        let name = w.word(&top, symbol)?;
        let lime = (name == LIME).then_some(&lime::LIME);
        let substance = match lime {
            Some(lime) => lime,
            None => substance(name)?,
        };
        let [takes_up] = w.inputs([symbol])?;
        let molar_mass = substance.molar_mass().or_stop(symbol)?;
        let (strength, share) = STOCK.read(w, substance)?;
        if share.is_some() {
            return Ok(Stock { substance, molar_mass, takes_up: takes_up.si, strength, share });
        }
        let solute = solutions::solute(&Formula::read(substance.formula).or_stop(symbol)?);
        let at_20 = Q::constant("20 °C", 20.0, CELSIUS);
        let mass = strength * molar_mass;
        let density =
            solute.and_then(|solute| solutions::density_of_concentrations(&[(solute, mass)], at_20).ok());
        Ok(Stock {
            substance,
            molar_mass,
            takes_up: takes_up.si,
            strength,
            share: density.map(|rho| mass / rho),
        })
    }

    /// Whether it is lime.
    pub fn is_lime(&self) -> bool {
        self.substance.name == LIME
    }

    /// As a reagent of the pH law.
    pub fn reagent(&self) -> Reagent<'static> {
        Reagent { substance: self.substance, strength: Some(self.strength) }
    }
}

/// The substance of a name that a sheet itself gives.
pub fn substance(name: &str) -> Result<&'static Substance, Stop> {
    known(name).ok_or_else(|| Stop::fault(format!("{name} is not known")))
}

/// Strong acid, or strong base where it is less than none.
pub fn strong(acid: Q) -> Result<(&'static Substance, Q), Stop> {
    Ok(if acid.si < 0.0 {
        (substance("Potassium hydroxide")?, -acid)
    } else {
        (substance("Hydrochloric acid")?, acid)
    })
}
