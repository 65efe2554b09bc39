//! Density, heat capacity and viscosity of solutions.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::formula::Formula;
use bathbook::science::solutions::{self, Part, known_solute};
use bathbook::units::*;

/// The solution that a row is about: `solute=…;w=…`.
fn parts(row: &Row) -> Result<[Part; 1], Problem> {
    Ok([(known_solute(&Formula::read(row.text("solute")?)?)?, row.q("w", MASS_FRACTION)?)])
}

fn density(row: &Row) -> Outcome {
    Ok(Found::Quantity(solutions::density(&parts(row)?, row.q("T", CELSIUS)?)?, KG_PER_M3))
}

/// Names of several solutes are in the inputs' own: `w_CuSO4=0.08;w_H2SO4=0.1`.
fn mixture(row: &Row) -> Result<Vec<Part>, Problem> {
    let parts = row.inputs.split(';').filter_map(|part| part.trim().strip_prefix("w_")?.split_once('='));
    parts
        .map(|(name, _)| {
            let solute = known_solute(&Formula::read(name)?)?;
            Ok((solute, row.q(&format!("w_{name}"), MASS_FRACTION)?))
        })
        .collect()
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("A.density", density),
        ("A.density-table", density),
        ("A.density-strong-acid", density),
        ("A.density-mix", |row| {
            Ok(Found::Quantity(solutions::density(&mixture(row)?, row.q("T", CELSIUS)?)?, KG_PER_M3))
        }),
        ("A.density-molality", |row| {
            let formula = Formula::read(row.text("solute")?)?;
            let n = Q::constant("n", row.number("m")?, MOL);
            let water = Q::constant("m_w", 1.0, KG);
            let w = solutions::mass_fraction_of_amount(n, formula.molar_mass(), water)?;
            let parts = [(known_solute(&formula)?, w)];
            Ok(Found::Quantity(solutions::density(&parts, row.q("T", CELSIUS)?)?, KG_PER_M3))
        }),
        ("J.solution-heat-capacity", |row| {
            let cp = solutions::heat_capacity(&parts(row)?, row.q("T", CELSIUS)?)?;
            Ok(Found::Quantity(cp, KJ_PER_KG_K))
        }),
        ("J.solution-viscosity", |row| {
            Ok(Found::Quantity(solutions::viscosity(&parts(row)?, row.q("T", CELSIUS)?)?, MPAS))
        }),
    ]
}
