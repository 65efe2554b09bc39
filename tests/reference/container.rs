//! Containers: filling, containment, mass, growth with warmth.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::container::*;
use bathbook::science::water;
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("Q.days-to-full", |row| {
            let usable = usable(row.q("container", L)?, row.q("usable", NUMBER)?);
            Ok(Found::Quantity(time_to_full(usable, row.q("stream", L_PER_DAY)?)?, DAYS))
        }),
        ("Q.swap-time-dual", |row| {
            let each = Q::constant("V", row.number_before("L")?, L);
            let usable = usable(each, row.q("usable", NUMBER)?);
            Ok(Found::Quantity(time_to_full(usable, row.q("stream", L_PER_DAY)?)?, HOUR))
        }),
        ("Q.warning-time", |row| {
            let (full, alarm) = (row.q("usable", NUMBER)?, Q::constant("a", at(row)?, SHARE));
            let found = warning_time(row.q("container", L)?, full, alarm, row.q("stream", L_PER_DAY)?);
            Ok(Found::Quantity(found?, HOUR))
        }),
        ("Q.containers-a-year", |row| {
            let year = row.q("stream", L_PER_DAY)? * Q::constant("t", row.number("days")?, DAYS);
            let usable = usable(row.q("container", L)?, row.q("usable", NUMBER)?);
            Ok(Found::Quantity(containers_for(year, usable)?, NUMBER))
        }),
        ("Q.containment", |row| {
            let (all, unit) = volumes(row)?;
            let total = all.iter().copied().sum();
            let largest = all.iter().copied().fold(Q::constant("V", 0.0, unit), Q::max);
            Ok(Found::Quantity(containment(total, largest), L))
        }),
        ("Q.containment-110", |row| {
            let (all, unit) = volumes(row)?;
            let largest = all.iter().copied().fold(Q::constant("V", 0.0, unit), Q::max);
            Ok(Found::Quantity(containment_of_largest(largest), L))
        }),
        ("Q.filled-mass", |row| {
            let found = filled_mass(row.q("liquid", L)?, row.q("rho", KG_PER_L)?, row.q("empty", KG)?);
            Ok(Found::Quantity(found, KG))
        }),
        ("Q.metal-in-container", |row| {
            Ok(Found::Quantity(metal_held(row.q("liquid", L)?, row.q("metal", G_PER_L_METAL)?), KG_METAL))
        }),
        ("Q.pump-out-time", |row| {
            let found = pump_out_time(row.q("liquid", L)?, row.q("heel left", L)?, row.q("pump", L_PER_MIN)?);
            Ok(Found::Quantity(found?, MINUTE))
        }),
        ("Q.fill-limit-expansion", |row| {
            let density = |after: &str| {
                let rest = row.inputs.split(after).nth(1).unwrap_or_default().trim();
                let number = rest.split_whitespace().next().and_then(|number| number.parse().ok());
                let number = number.ok_or_else(|| Problem::Unread(format!("no number after {after}")))?;
                Ok::<Q, Problem>(water::density(Q::constant("T", number, CELSIUS))?)
            };
            let share = Q::constant("s", row.number_before("full")?, SHARE);
            let brim = Q::constant(
                "V",
                row.text("brim")
                    .or(row.text("container brim"))?
                    .split(' ')
                    .next()
                    .and_then(|n| n.parse().ok())
                    .unwrap_or(f64::NAN),
                L,
            );
            Ok(Found::Quantity(
                fill_limit(brim, share, density("filled at")?, density("hottest")?, Q::from(1.0))?,
                L,
            ))
        }),
    ]
}

/// The share behind "alarm at".
fn at(row: &Row) -> Result<f64, Problem> {
    let rest = row.inputs.split("alarm at ").nth(1).and_then(|rest| rest.split_whitespace().next());
    rest.and_then(|number| number.parse().ok()).ok_or_else(|| Problem::Unread("no alarm".into()))
}

/// "containers L=208+208+20", or in "gal".
fn volumes(row: &Row) -> Result<(Vec<Q>, &'static Unit), Problem> {
    let (text, unit) = match row.given("containers gal") {
        Some(text) => (text, GALLON),
        None => (row.text("containers L")?, L),
    };
    let read = |number: &str| number.trim().parse().map(|number| Q::constant("V", number, unit));
    let all: Result<Vec<Q>, _> = text.split('+').map(read).collect();
    all.map(|all| (all, unit)).map_err(|_| Problem::Unread(format!("“{text}” is no sum of volumes")))
}
