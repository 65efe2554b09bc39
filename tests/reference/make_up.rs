//! What goes into a bath, and strengths in other measures.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::formula::Formula;
use bathbook::science::{dilution, solution_make_up, solutions};
use bathbook::units::*;

/// mol/L of a liquid whose strength by mass and density are printed.
fn molarity(row: &Row, formula: &str, w: Q) -> Outcome {
    let molar_mass = Formula::read(row.text(formula)?)?.molar_mass();
    Ok(Found::Quantity(solutions::molarity(w, row.q("density", KG_PER_L)?, molar_mass)?, MOL_PER_L))
}

fn molar_mass(row: &Row) -> Result<Q, Problem> {
    match row.given("M") {
        Some(_) => row.q("M", G_PER_MOL),
        None => Ok(Formula::read(row.text("solute")?)?.molar_mass()),
    }
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("A.salt-mass", |row| {
            let x = Formula::read(row.text("salt")?)?.metal_fraction(row.text("metal")?)?;
            let (v, c) = (row.q("V", L)?, row.q("target_metal", G_PER_L_METAL)?);
            let m = solution_make_up::salt_for_metal(v, c, x, row.q("purity", SHARE)?)?;
            Ok(Found::Quantity(m, KG))
        }),
        ("A.liquid-conc", |row| {
            let (v, c) = (row.q("V", L)?, row.q("target", G_PER_L)?);
            let (w, density) = (row.q("wt_frac", MASS_FRACTION)?, row.q("density", KG_PER_L)?);
            Ok(Found::Quantity(solution_make_up::concentrate_by_mass_share(v, c, w, density)?, L))
        }),
        ("A.molarity", |row| molarity(row, "formula", row.q("wt_frac", MASS_FRACTION)?)),
        ("A.commercial-molarity", |row| molarity(row, "reagent", row.q("wt_pct", MASS_PERCENT)?)),
        ("A.molarity-table", |row| molarity(row, "solute", row.q("w", MASS_FRACTION)?)),
        ("A.mass-to-molarity", |row| {
            let c = dilution::molarity_of_mass(row.q("m", GRAM)?, molar_mass(row)?, row.q("V", L)?)?;
            Ok(Found::Quantity(c, MOL_PER_L))
        }),
        ("A.molarity-to-mass", |row| {
            let m = dilution::mass_of_molarity(row.q("C", MOL_PER_L)?, row.q("V", L)?, molar_mass(row)?)?;
            Ok(Found::Quantity(m, GRAM))
        }),
    ]
}
