//! Water, its vapour and the air over it.

use crate::runner::*;
use bathbook::science::{air, water};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    let density: fn(&Row) -> Outcome =
        |row| Ok(Found::Quantity(water::density(row.q("T", CELSIUS)?)?, KG_PER_M3));
    vec![
        ("J.water-density", density),
        ("A.water-density", density),
        ("J.water-heat-capacity", |row| {
            Ok(Found::Quantity(water::heat_capacity(row.q("T", CELSIUS)?)?, KJ_PER_KG_K))
        }),
        ("J.water-viscosity", |row| Ok(Found::Quantity(water::viscosity(row.q("T", CELSIUS)?)?, MPAS))),
        ("J.water-conductivity", |row| {
            Ok(Found::Quantity(water::conductivity(row.q("T", CELSIUS)?)?, W_PER_M_K))
        }),
        ("J.water-vapour-pressure", |row| {
            Ok(Found::Quantity(water::vapour_pressure(row.q("T", CELSIUS)?)?, KPA))
        }),
        ("J.water-heat-of-vaporisation", |row| {
            Ok(Found::Quantity(water::heat_of_vaporisation(row.q("T", CELSIUS)?)?, KJ_PER_KG))
        }),
        ("J.water-expansion", |row| {
            let [t1, t2] = [row.q("T1", CELSIUS)?, row.q("T2", CELSIUS)?];
            Ok(Found::Quantity(water::expansion(row.q("V", L)?, t1, t2)?, L))
        }),
        ("J.boiling-point", |row| Ok(Found::Quantity(water::boiling_point(row.q("p", KPA)?)?, CELSIUS))),
        ("J.atmospheric-pressure", |row| Ok(Found::Quantity(air::pressure(row.q("altitude", M)?)?, KPA))),
        ("J.dew-point", |row| {
            Ok(Found::Quantity(air::dew_point(row.q("T_room", CELSIUS)?, row.q("RH", SHARE)?)?, CELSIUS))
        }),
        ("J.humidity-ratio", |row| {
            let (t, rh, p) = (row.q("T", CELSIUS)?, row.q("RH", SHARE)?, row.q("p", KPA)?);
            Ok(Found::Number(air::humidity_ratio(t, rh, p)?.si))
        }),
        ("J.air-density", |row| {
            Ok(Found::Quantity(air::density(row.q("T", CELSIUS)?, row.q("p", KPA)?)?, KG_PER_M3))
        }),
    ]
}
