//! Lift stations.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::{drain::bore_area, lift::*, pipe};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("P.volume-between-levels", |row| {
            let pump = row.q("pump", L_PER_MIN)?;
            let found = match row.given("shortest cycle") {
                Some(_) => volume_between_levels(pump, row.q("shortest cycle", SECOND)?),
                None => volume_for_starts(pump, row.q("most starts per hour", PER_HOUR)?)?,
            };
            Ok(Found::Quantity(found, L))
        }),
        ("P.cycle-time", |row| {
            Ok(Found::Quantity(cycle_time(inflow(row)?, row.q("pump", L_PER_MIN)?, volume(row)?)?, MINUTE))
        }),
        ("P.cycle-refuse", |row| {
            let v = Q::constant("V", 50.0, L);
            Ok(Found::Quantity(cycle_time(inflow(row)?, row.q("pump", L_PER_MIN)?, v)?, MINUTE))
        }),
        ("P.starts-per-hour", |row| {
            Ok(Found::Quantity(
                starts_per_time(inflow(row)?, row.q("pump", L_PER_MIN)?, volume(row)?)?,
                PER_HOUR,
            ))
        }),
        ("P.ride-through", |row| {
            let none = (Q::constant("pipes", 0.0, L), Q::constant("t", 0.0, MINUTE));
            Ok(Found::Quantity(ride_through(volume(row)?, none.0, inflow(row)?, none.1)?, MINUTE))
        }),
        ("P.ride-through-net", |row| {
            let found = ride_through(volume(row)?, pipes(row)?, inflow(row)?, reaction(row)?);
            Ok(Found::Quantity(found?, MINUTE))
        }),
        ("P.ride-through-weak-pump", |row| {
            let pump = row.q("failing pump", L_PER_MIN)?;
            Ok(Found::Quantity(ride_through_weak_pump(volume(row)?, inflow(row)?, pump)?, MINUTE))
        }),
        ("P.stop-level", |row| {
            let late = (pipes(row)?, inflow(row)?, reaction(row)?);
            Ok(Found::Quantity(
                stop_level(row.q("overflow", M)?, late.0, late.1, late.2, row.q("tank area", M2)?)?,
                M,
            ))
        }),
        ("P.level-rise", |row| {
            let found =
                level_rise(row.q("net inflow", L_PER_MIN)?, row.q("t", MINUTE)?, row.q("tank area", M2)?);
            Ok(Found::Quantity(found?, MM))
        }),
        ("P.storage-for-dump", |row| {
            let (area, h) = (row.q("dumped tank area", M2)?, row.q("level", M)?);
            let valve = bore_area(row.q("valve bore", MM)?);
            let pump = row.q("station pump", L_PER_MIN)?;
            Ok(Found::Quantity(storage_for_dump(area, h, row.q("Cd", NUMBER)?, valve, pump)?, L))
        }),
        ("P.total-head", |row| {
            let (rho, d) = (row.q("rho", KG_PER_M3)?, row.q("bore", MM)?);
            let v = pipe::velocity(row.q("flow", L_PER_MIN)?, d)?;
            let re = pipe::reynolds(rho, v, d, row.q("mu", MPAS)?);
            let f = pipe::friction_factor(re, row.q("roughness", MM)? / d)?;
            let lost = pipe::head_lost(f, row.q("run", M)?, d, row.q("sum of K", NUMBER)?, v);
            Ok(Found::Quantity(
                total_head(row.q("static lift", M)?, lost, row.q("end pressure", KPA)?, rho),
                M,
            ))
        }),
        ("P.air-free", |row| {
            let (p, pa) = (row.q("air pressure", KPA)?, row.q("p_atm", KPA)?);
            Ok(Found::Quantity(
                air_free(row.q("liquid", L_PER_MIN)?, p, pa, row.q("factor", NUMBER)?),
                L_PER_MIN,
            ))
        }),
        ("P.air-from-strokes", |row| {
            let (p, pa) = (row.q("air", KPA)?, row.q("p_atm", KPA)?);
            let (v, s) = (row.q("air chamber swept", L)?, row.q("cycles", PER_MINUTE)?);
            Ok(Found::Quantity(air_from_strokes(v, s, p, pa, row.q("T", CELSIUS)?), NORMAL_L_PER_MIN))
        }),
    ]
}

fn inflow(row: &Row) -> Result<Q, Problem> {
    row.q("inflow", L_PER_MIN)
}

fn any(row: &Row, names: &[&str], unit: &'static Unit) -> Result<Q, Problem> {
    row.q(names.iter().find(|name| row.given(name).is_some()).copied().unwrap_or_default(), unit)
}

fn volume(row: &Row) -> Result<Q, Problem> {
    any(row, &["V between levels", "volume to overflow", "volume from high level to overflow"], L)
}

fn pipes(row: &Row) -> Result<Q, Problem> {
    any(row, &["volume still draining from the pipes", "pipes still drain"], L)
}

fn reaction(row: &Row) -> Result<Q, Problem> {
    any(row, &["reaction time", "reaction"], MINUTE)
}
