//! Water as it comes to a treatment: what is in it, and the reagent that it takes.

use super::{BASES, BY_PH, DISSOLVED, GRAMS, Stock, strong};
use crate::calculator::{Refuse, Row, Stop, Work};
use crate::quantity::Q;
use crate::science::neutralisation::{TOLD, by_equivalents, none, reagent_for, strong_acid_at};
use crate::science::ph::{Activities, Portion, SUBSTANCES, Solution, Substance};
use crate::science::{elements, lime};
use crate::units::{G_PER_MOL_METAL, MOL_PER_L, Value};

/// Strong acids and bases, with the hydrogen ions that one gives off; less than none is hydroxide.
const STRONG: &[(&str, f64)] = &[
    ("Sulfuric acid", 2.0),
    ("Hydrochloric acid", 1.0),
    ("Nitric acid", 1.0),
    ("Methanesulfonic acid", 1.0),
    ("Sulfamic acid", 1.0),
    ("Sodium hydrogensulfate", 1.0),
    ("Sodium hydroxide", -1.0),
    ("Potassium hydroxide", -1.0),
    ("Sodium chloride", 0.0),
    ("Sodium sulfate", 0.0),
];
/// Where what is left free is nothing beside the amount taken up.
const BY_AMOUNT: [f64; 2] = [4.0, 11.0];

/// The water as it comes.
pub struct Water {
    /// What is dissolved, but for metals, and how much of it.
    pub holds: Vec<(&'static Substance, Q)>,
    /// Its temperature.
    pub t: Q,
    /// Its pH, where it is told by one.
    pub ph: Q,
    /// Whether it is so strong that it goes by amount.
    pub is_strong: bool,
}

impl Water {
    /// Reads it.
    pub fn read(w: &mut Work, t: Q) -> Result<Water, Stop> {
        let top = w.top();
        if w.word(&top, "given")? == BY_PH {
            let [ph] = w.inputs(["pH_0"])?;
            let acid = w.step(
                "C_s",
                "Strong acid, negative if base",
                MOL_PER_L,
                strong_acid_at(ph, t).or_stop("pH_0")?,
            )?;
            return Ok(Water { holds: vec![strong(acid)?], t, ph, is_strong: false });
        }
        let mut holds = Vec::new();
        for row in w.rows(DISSOLVED)? {
            holds.push(dissolved(w, &row)?);
        }
        if holds.is_empty() {
            return Err(Stop::todo("given", "nothing is dissolved yet", "Add an acid or a base below."));
        }
        let ph = Solution::new(portions(&holds), t, Activities::Counted).or_stop("T")?.ph();
        Ok(Water { holds, t, ph, is_strong: !(TOLD[0]..=TOLD[1]).contains(&ph.si) })
    }

    /// Strong acid in it less strong base; `None` where something else is dissolved too.
    pub fn equivalents(&self) -> Option<f64> {
        let each = |(substance, c): &(&'static Substance, Q)| {
            let known = STRONG.iter().find(|(name, _)| *name == substance.name)?;
            Some(c.si * known.1)
        };
        self.holds.iter().map(each).sum()
    }

    /// For the laws of pH.
    pub fn portions(&self) -> Vec<Portion<'static>> {
        portions(&self.holds)
    }

    /// Reagent to a litre that brings it to a pH while `metals` (in hydroxide) fall.
    pub fn reagent(
        &self,
        w: &mut Work,
        stock: &Stock,
        metals: Q,
        target: Q,
        at: &'static str,
    ) -> Result<Q, Stop> {
        if stock.is_lime() && target.si > lime::HIGHEST_PH {
            let reason = format!("lime dissolves too little to be sure of a pH above {}", lime::HIGHEST_PH);
            return Err(Stop::at(at, reason, "Take caustic, or a lower pH."));
        }
        if !self.is_strong {
            return reagent_for(self.portions(), metals, stock.reagent(), target, self.t).or_stop(at);
        }
        if !(BY_AMOUNT[0]..=BY_AMOUNT[1]).contains(&target.si) {
            let reason = format!(
                "so strong an acid or base goes by amount, and that ends between pH {} and {}",
                BY_AMOUNT[0], BY_AMOUNT[1]
            );
            return Err(Stop::at(at, reason, "Take a pH between them."));
        }
        let mut ions = if metals.si > 0.0 { vec![metals] } else { Vec::new() };
        for (substance, c) in &self.holds {
            let each = STRONG.iter().find(|(name, _)| *name == substance.name).ok_or_else(|| {
                let reason = format!("{} beside so strong an acid is not told by amount", substance.name);
                Stop::at("given", reason, "Titrate the water, and give the strong acid that it comes to.")
            })?;
            ions.push(*c * each.1);
        }
        let is_base = BASES.iter().any(|(name, _)| *name == stock.substance.name);
        let ions: Q = ions.into_iter().sum();
        let ions =
            w.step("C_e", "Taken up, in hydrogen ions", MOL_PER_L, if is_base { ions } else { -ions })?;
        if ions.si <= 0.0 {
            return Err(Stop::at(
                at,
                "the reagent pulls the other way",
                "Take the one that pulls towards the pH wanted.",
            ));
        }
        by_equivalents(ions, 1.0, stock.takes_up).or_stop(at)
    }
}

fn portions(holds: &[(&'static Substance, Q)]) -> Vec<Portion<'static>> {
    holds.iter().map(|(substance, c)| Portion { substance, c: *c }).collect()
}

fn dissolved(w: &mut Work, row: &Row) -> Result<(&'static Substance, Q), Stop> {
    let name = row.key.trim();
    let found = SUBSTANCES.iter().find(|known| known.name.eq_ignore_ascii_case(name));
    let substance = found.ok_or_else(|| {
        Stop::at("as_a", format!("“{name}” is not known by its name"), "Take a name of the list.")
            .row(&row.key)
    })?;
    let c = if w.word(row, "as_a")? == GRAMS {
        w.of(row, ["c_a"])?[0] / substance.molar_mass().or_stop_row("c_a", &row.key)?
    } else {
        w.of(row, ["C_a"])?[0]
    };
    Ok((substance, w.give(row, "C_0", c)?))
}

/// The molar mass of a metal, as a mass of metal.
pub fn molar_mass(metal: &str) -> Result<Q, Stop> {
    let weight = elements::weight(metal).ok_or_else(|| Stop::fault(format!("{metal} has no weight")))?;
    Ok(Q::named(format!("M({metal})"), Value::new(weight, G_PER_MOL_METAL)))
}

/// No hydroxide.
pub fn nothing() -> Q {
    none()
}
