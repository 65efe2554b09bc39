//! Water that leaves an open surface.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::{air, evaporation::*, water};
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
        ("L.evaporation-humidity-ratio-form", |row| {
            let (area, v) = (row.q("A", M2)?, row.q("air speed", M_PER_S)?);
            let (xs, x) = match row.given("xs") {
                Some(_) => (Q::from(row.number("xs")?), Q::from(row.number("x")?)),
                None => {
                    let ((pw, pa), p) = (pressures(row)?, row.q("p", KPA)?);
                    (air::humidity_ratio_over(pw, p)?, air::humidity_ratio_over(pa, p)?)
                }
            };
            Ok(Found::Quantity(evaporation_by_ratio(area, xs, x, v), KG_PER_H))
        }),
        ("L.evaporation-spill-form", |row| {
            let t = row.q("T", CELSIUS)?;
            let v = row.q("air speed", M_PER_S)?;
            Ok(Found::Quantity(
                evaporation_of_spill(row.q("A", M2)?, water::vapour_pressure(t)?, t, v)?,
                KG_PER_H,
            ))
        }),
        ("L.evaporation-plate-analogy", |row| {
            Ok(Found::Quantity(evaporation_of_plate(&over(row)?, row.q("air speed", M_PER_S)?)?, KG_PER_H))
        }),
        ("L.evaporation-still-air-analogy", |row| {
            Ok(Found::Quantity(evaporation_in_still_air(&over(row)?)?, KG_PER_H))
        }),
        ("L.days-to-concentrate", |row| {
            let rise = row.number_before("%")? / 100.0;
            let rho = Q::constant("ρ", row.number_before("kg/L")?, KG_PER_L);
            let time =
                time_to_concentrate(row.q("V", L)?, Q::from(rise), rho, row.q("evaporation", KG_PER_H)?)?;
            Ok(Found::Quantity(time, DAYS))
        }),
    ]
}

/// The air over a square surface at 101.325 kPa.
fn over(row: &Row) -> Result<Film, Problem> {
    let (at_surface, in_room) = pressures(row)?;
    let text = row.text("A")?.replace(" square", "");
    let area: f64 = text.split_whitespace().next().and_then(|text| text.parse().ok()).unwrap_or(f64::NAN);
    Ok(Film {
        area: Q::constant("A", area, M2),
        surface: row.q("T", CELSIUS)?,
        room: row.q("T_room", CELSIUS)?,
        at_surface,
        in_room,
        pressure: Q::constant("p", 101.325, KPA),
    })
}

fn pressures(row: &Row) -> Result<(Q, Q), Problem> {
    let room = water::vapour_pressure(row.q("T_room", CELSIUS)?)?;
    Ok((water::vapour_pressure(row.q("T", CELSIUS)?)?, row.number("RH")? * room))
}
