//! Water that leaves an open surface.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::{evaporation::*, water};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("L.evaporation-pool-form", |row| {
            let (pw, pa) = pressures(row)?;
            let heat = evaporation_heat(row.q("A", M2)?, pw, pa, row.q("air speed", M_PER_S)?);
            Ok(Found::Quantity(
                water_evaporated(heat, water::heat_of_vaporisation(row.q("T", CELSIUS)?)?),
                KG_PER_H,
            ))
        }),
        ("L.evaporation-sign", |row| {
            let (pw, pa) = pressures(row)?;
            let one = |unit| Q::constant("x", 1.0, unit);
            let heat = evaporation_heat(one(M2), pw, pa, one(M_PER_S));
            Ok(Found::Word(if heat.si < 0.0 { "condenses" } else { "evaporates" }.into()))
        }),
        ("L.evaporation-heat", |row| {
            let heat = water::heat_of_vaporisation(row.q("T", CELSIUS)?)?;
            Ok(Found::Quantity(heat_of_evaporation(row.q("evaporation", KG_PER_H)?, heat), KW))
        }),
        ("L.make-up-water", |row| {
            let rho = water::density(row.q("make-up", CELSIUS)?)?;
            let volume = make_up_water(row.q("evaporation", KG_PER_H)?, row.q("hours", HOUR)?, rho);
            Ok(Found::Quantity(volume / Q::constant("day", 1.0, DAYS), L_PER_DAY))
        }),
    ]
}

fn pressures(row: &Row) -> Result<(Q, Q), Problem> {
    let room = water::vapour_pressure(row.q("T_room", CELSIUS)?)?;
    Ok((water::vapour_pressure(row.q("T", CELSIUS)?)?, row.number("RH")? * room))
}
