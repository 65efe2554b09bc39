//! Formulas, molar masses and shares.

use crate::runner::*;
use bathbook::science::formula::Formula;
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("A.molar-mass", |row| {
            Ok(Found::Quantity(Formula::read(row.text("formula")?)?.molar_mass(), G_PER_MOL))
        }),
        ("A.metal-fraction", |row| {
            let formula = Formula::read(row.text("formula")?)?;
            Ok(Found::Number(formula.metal_fraction(row.text("metal")?)?.number(PERCENT_METAL) / 100.0))
        }),
    ]
}
