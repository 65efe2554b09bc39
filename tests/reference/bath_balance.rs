//! What a bath holds over time: additives, impurities, metal.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::bath_balance::Balance;
use bathbook::science::elements::molar_mass;
use bathbook::science::faraday::{equivalent, metal_deposited};
use bathbook::units::*;

fn none(unit: &'static Unit) -> Q {
    Q::constant("none", 0.0, unit)
}

fn if_given(row: &Row, name: &str, unit: &'static Unit) -> Result<Q, Problem> {
    if row.given(name).is_some() { row.q(name, unit) } else { Ok(none(unit)) }
}

fn additive(row: &Row) -> Result<Balance, Problem> {
    let bleed = if_given(row, "bleed", L_PER_H)?;
    let feed = if_given(row, "feed_conc", ML_PER_L)?;
    let per_wafer = match row.given("per_wafer") {
        Some(_) => row.q("per_wafer", ML)? * Q::constant("rate", row.number("rate")?, PER_HOUR),
        None => none(ML_PER_H),
    };
    let used = if_given(row, "consumption", ML_PER_H)? + per_wafer;
    Ok(Balance {
        volume: row.q("V", L)?,
        gained: if_given(row, "dose", ML_PER_H)? - used + bleed * feed,
        out: row.q("dragout", L_PER_H)? + bleed,
        decay: if_given(row, "idle_first_order", PER_HOUR)?,
    })
}

fn impurity(row: &Row) -> Result<Balance, Problem> {
    let out = if row.given("total_outflow").is_some() { "total_outflow" } else { "outflow" };
    // How long 95 % takes does not hang on how much is made.
    let gained = match row.given("generation") {
        Some(_) => row.q("generation", G_PER_H)?,
        None => Q::constant("g", 1.0, G_PER_H),
    };
    Ok(Balance { volume: row.q("V", L)?, gained, out: row.q(out, L_PER_H)?, decay: none(PER_HOUR) })
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("D.conc-vs-time", |row| {
            let found = additive(row)?.after(row.q("C0", ML_PER_L)?, row.q("t", HOUR)?)?;
            Ok(Found::Quantity(found, ML_PER_L))
        }),
        ("D.idle-plus-wafer", |row| {
            let found = additive(row)?.after(row.q("C0", ML_PER_L)?, row.q("t", HOUR)?)?;
            Ok(Found::Quantity(found, ML_PER_L))
        }),
        ("D.impurity", |row| {
            let found = impurity(row)?.after(row.q("C0", G_PER_L)?, row.q("t", HOUR)?)?;
            Ok(Found::Quantity(found, G_PER_L))
        }),
        ("D.time-to-95pct", |row| {
            let (bath, start) = (impurity(row)?, row.q("C0", G_PER_L)?);
            Ok(Found::Quantity(bath.time_to(start, bath.settles_at()? * 0.95)?, HOUR))
        }),
        ("D.metal-depletion", |row| {
            let weight = molar_mass(row.text("metal")?).ok_or(Problem::LeftOut("not an element"))?;
            let one = equivalent(weight, row.number("n")?.into())?;
            let used = metal_deposited(row.q("I", AMPERE)?, one, row.q("eff", SHARE)?)?;
            let bath = Balance {
                volume: row.q("V", L)?,
                gained: -used,
                out: row.q("dragout", L_PER_H)?,
                decay: none(PER_HOUR),
            };
            Ok(Found::Quantity(bath.after(row.q("C0", G_PER_L)?, row.q("t", HOUR)?)?, G_PER_L))
        }),
    ]
}
