//! Friction in a pipe that runs full.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::pipe::*;
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("N.velocity", |row| Ok(Found::Quantity(speed(row)?, M_PER_S))),
        ("N.reynolds", |row| {
            let v = match row.given("velocity") {
                Some(_) => row.q("velocity", M_PER_S)?,
                None => speed(row)?,
            };
            Ok(Found::Quantity(
                reynolds(row.q("rho", KG_PER_M3)?, v, row.q("bore", MM)?, row.q("mu", MPAS)?),
                NUMBER,
            ))
        }),
        ("N.friction-factor", friction),
        ("N.friction-factor-upper-bound", friction),
        ("N.pressure-drop-given-friction", |row| {
            let (d, f) = (row.q("bore", MM)?, row.q("Darcy f", NUMBER)?);
            let drop =
                pressure_drop(f, row.q("run", M)?, d, Q::from(0.0), row.q("rho", KG_PER_M3)?, speed(row)?);
            Ok(Found::Quantity(drop, KPA))
        }),
    ]
}

fn speed(row: &Row) -> Result<Q, Problem> {
    Ok(velocity(row.q("flow", L_PER_MIN)?, row.q("bore", MM)?)?)
}

fn friction(row: &Row) -> Outcome {
    Ok(Found::Quantity(friction_factor(row.q("Re", NUMBER)?, row.q("eD", NUMBER)?)?, NUMBER))
}
