//! Rinsing and drag-out.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::rinse::*;
use bathbook::science::standing_rinse::{loads_until, standing_mean, standing_rinse};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("I.counterflow", |row| Ok(Found::Quantity(last_stage(row)?, MG_PER_L))),
        ("I.counterflow-overflow", |row| {
            let found = overflow(bath(row)?, clean(), last_stage(row)?, water(row)?)?;
            Ok(Found::Quantity(found, MG_PER_L))
        }),
        ("I.flow-for-target", |row| {
            let target = row.q("C_target", G_PER_L)?;
            Ok(Found::Quantity(
                flow_for_target(bath(row)?, clean(), target, drag_out(row)?, stages(row)?)?,
                L_PER_H,
            ))
        }),
        ("I.stage", |row| {
            let times = dilution_up_to(water(row)?, stages(row)?, row.number("stage")? as u8)?;
            Ok(Found::Quantity(diluted(bath(row)?, row.q("C_feed", G_PER_L)?, times), MG_PER_L))
        }),
        ("I.flow-for-overflow", |row| {
            let limit = row.q("C_limit", G_PER_L)?;
            let found = flow_for_overflow(bath(row)?, clean(), limit, drag_out(row)?, stages(row)?)?;
            Ok(Found::Quantity(found, L_PER_H))
        }),
        ("I.fresh", |row| {
            let r = row.q("water", ML)? / row.q("dragout", ML)?;
            Ok(Found::Quantity(diluted(bath(row)?, clean(), dilution(r, fresh(row)?)?), MG_PER_L))
        }),
        ("I.fresh-flow", |row| {
            let times = row.q("dilution", NUMBER)?;
            Ok(Found::Quantity(flow_for_dilution(times, row.q("dragout", ML)?, fresh(row)?)?, ML))
        }),
        ("I.spin-film-at-most", |row| {
            let (mu, rho) = (row.q("mu", MPAS)?, row.q("rho", KG_PER_M3)?);
            let found = spin_film_at_most(row.q("speed", PER_MINUTE)?, row.q("t", SECOND)?, mu, rho)?;
            Ok(Found::Quantity(found, UM))
        }),
        ("I.dilution-ratio", |row| {
            let r = row.q("water", GALLON_PER_HOUR)? / row.q("dragout", GALLON_PER_HOUR)?;
            Ok(Found::Quantity(dilution(r, ONE)?, NUMBER))
        }),
        ("I.rinse-concentration", |row| {
            let bath = Q::named("C0", value(row.text("bath")?, OZ_PER_GAL)?);
            let r = row.q("water", GALLON_PER_HOUR)? / row.q("dragout", GALLON_PER_HOUR)?;
            Ok(Found::Quantity(diluted(bath, clean(), dilution(r, ONE)?), OZ_PER_GAL))
        }),
        ("I.stagnant-discrete", |row| {
            Ok(Found::Quantity(
                standing_rinse(bath(row)?, row.q("V", L)?, flows(row)?, loads(row)?)?,
                G_PER_L,
            ))
        }),
        ("I.standing-mean", |row| {
            let (c0, v, flows, loads) = (bath(row)?, row.q("V", L)?, flows(row)?, loads(row)?);
            let last = standing_rinse(c0, v, flows, loads)?;
            Ok(Found::Quantity(standing_mean(c0, v, flows, loads, last)?, G_PER_L))
        }),
        ("I.standing-loads", |row| {
            let found = loads_until(bath(row)?, row.q("V", L)?, flows(row)?, row.q("C_limit", G_PER_L)?);
            Ok(Found::Quantity(found?, NUMBER))
        }),
        ("I.overflow-decay", |row| {
            let v = row.q("V", L)?;
            let start = match row.given("dragin") {
                Some(_) => row.q("C_dragin", G_PER_L)? * row.q("dragin", L)? / v,
                None => row.q("C_start", G_PER_L)?,
            };
            Ok(Found::Quantity(overflow_decay(start, row.q("Q", L_PER_H)?, row.q("t", SECOND)?, v)?, G_PER_L))
        }),
        ("I.spin-film", |row| Ok(Found::Quantity(film(row)?, UM))),
        ("I.spin-dragout", |row| {
            Ok(Found::Quantity(film_volume(row.q("wafer", MM)?, film(row)?, row.q("faces", NUMBER)?), ML))
        }),
        ("I.dragout-table", |row| {
            Ok(Found::Quantity(drag_out_film(row.text("part")?)?, GALLON_PER_1000_FT2))
        }),
        ("I.dragout-table-SI", |row| Ok(Found::Quantity(drag_out_film(row.text("part")?)?, ML_PER_M2))),
    ]
}

fn bath(row: &Row) -> Result<Q, Problem> {
    row.q("C_bath", G_PER_L)
}

fn clean() -> Q {
    Q::constant("Cf", 0.0, G_PER_L)
}

/// Drag-out of a load, and what goes back to the bath with each.
fn flows(row: &Row) -> Result<(Q, Q), Problem> {
    let a_load =
        |name| Ok::<_, Problem>(Q::named(name, value(row.text(name)?.trim_end_matches("/load"), L)?));
    Ok((a_load("d")?, if row.given("e").is_some() { a_load("e")? } else { Q::constant("none", 0.0, L) }))
}

fn loads(row: &Row) -> Result<Q, Problem> {
    row.q("loads", NUMBER)
}

fn drag_out(row: &Row) -> Result<Q, Problem> {
    row.q("dragout", L_PER_H)
}

/// Water to one of drag-out.
fn water(row: &Row) -> Result<Q, Problem> {
    Ok(row.q("flow", L_PER_H)? / drag_out(row)?)
}

fn last_stage(row: &Row) -> Result<Q, Problem> {
    Ok(diluted(bath(row)?, clean(), dilution(water(row)?, stages(row)?)?))
}

const ONE: Rinse = Rinse::Counterflow(1);

fn stages(row: &Row) -> Result<Rinse, Problem> {
    Ok(Rinse::Counterflow(row.number("stages")? as u8))
}

/// Sprays or dumps.
fn fresh(row: &Row) -> Result<Rinse, Problem> {
    Ok(Rinse::Fresh(row.number("times")? as u8, row.q("share", PERCENT)?))
}

fn film(row: &Row) -> Result<Q, Problem> {
    let (mu, rho) = (row.q("mu", MPAS)?, row.q("rho", KG_PER_M3)?);
    Ok(spin_film(
        row.q("h0", UM)?,
        row.q(if row.given("rpm").is_some() { "rpm" } else { "speed" }, PER_MINUTE)?,
        row.q("t", SECOND)?,
        mu,
        rho,
    )?)
}
