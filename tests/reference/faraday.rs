//! Electrolysis: charge, metal, time.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::elements::molar_mass;
use bathbook::science::faraday::*;
use bathbook::units::*;

fn constituent(symbol: &str, share: f64, electrons: f64, density: Q) -> Result<Constituent, Problem> {
    let molar_mass =
        molar_mass(symbol).ok_or_else(|| Problem::Unread(format!("{symbol} is not an element")))?;
    Ok(Constituent {
        share: Q::constant("w", share, MASS_FRACTION),
        molar_mass,
        electrons: electrons.into(),
        density,
    })
}

/// The one metal of a row. Its density counts only where the row says it.
fn metal(row: &Row) -> Result<[Constituent; 1], Problem> {
    let density = match row.given("rho") {
        Some(_) => row.q("rho", KG_PER_L)?,
        None => Q::constant("ρ", 1.0, KG_PER_L),
    };
    Ok([constituent(row.text("metal")?, 1.0, electrons(row)?, density)?])
}

/// Some rows leave the electrons to the metal.
fn electrons(row: &Row) -> Result<f64, Problem> {
    match row.given("n") {
        Some(_) => row.number("n"),
        None => usual(row.text("metal")?),
    }
}

fn usual(symbol: &str) -> Result<f64, Problem> {
    let electrons =
        usual_electrons(symbol).ok_or_else(|| Problem::Unread(format!("{symbol} is not plated")))?;
    Ok(electrons.si)
}

fn tin_silver(row: &Row) -> Result<[Constituent; 2], Problem> {
    let silver = row.number("w_Ag")?;
    let tin = constituent("Sn", 1.0 - silver, usual("Sn")?, row.q("rho_Sn", KG_PER_L)?)?;
    Ok([tin, constituent("Ag", silver, usual("Ag")?, row.q("rho_Ag", KG_PER_L)?)?])
}

fn efficiency(row: &Row) -> Result<Q, Problem> {
    match row.given("eff") {
        Some(_) => row.q("eff", SHARE),
        None => Ok(Q::constant("η", 1.0, SHARE)),
    }
}

/// An area as written, 3.3 m², or as length by width.
fn area(row: &Row) -> Result<Q, Problem> {
    if row.given("D").is_some() {
        let open = row.q("open_frac", SHARE)?;
        return Ok(plated_area(row.q("D", MM)?, row.q("edge_exclusion", MM)?, open)?);
    }
    let text = if row.given("area").is_some() { row.text("area")? } else { row.text("A")? };
    match text.split_once('x') {
        Some((length, width)) => Ok(Q::named("a", value(length, M)?) * Q::named("b", value(width, M)?)),
        None => Ok(Q::named("A", value(text, M2)?)),
    }
}

/// Thin films are measured in µm, thick ones in mm.
fn film(row: &Row) -> Result<Q, Problem> {
    row.q("t", if row.text("t")?.ends_with("mm") { MM } else { UM })
}

fn mass(row: &Row, parts: &[Constituent]) -> Result<Q, Problem> {
    Ok(deposit_mass(area(row)?, film(row)?, deposit_density(parts)?))
}

fn charge_of(row: &Row, parts: &[Constituent]) -> Result<Q, Problem> {
    Ok(charge(mass(row, parts)?, charge_per_mass(parts)?, efficiency(row)?)?)
}

/// For each square decimetre of nickel 8.90 g/cm³, as the chart is drawn.
fn chart(row: &Row) -> Result<(Q, Q), Problem> {
    let nickel = [constituent("Ni", 1.0, usual("Ni")?, Q::constant("ρ", 8.9, KG_PER_L))?];
    let area = Q::constant("A", 1.0, DM2);
    let mass = deposit_mass(area, film(row)?, deposit_density(&nickel)?);
    Ok((mass, charge(mass, charge_per_mass(&nickel)?, efficiency(row)?)?))
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("C.equivalent", |row| {
            let part = metal(row)?[0];
            Ok(Found::Quantity(equivalent(part.molar_mass, part.electrons)?, G_PER_AH))
        }),
        ("C.equivalent-table", |row| {
            let part = metal(row)?[0];
            Ok(Found::Quantity(equivalent(part.molar_mass, part.electrons)?, G_PER_AH))
        }),
        ("C.thickness-table", |row| {
            let (parts, area) = (metal(row)?, Q::constant("A", 1.0, DM2));
            let charge = Q::constant("Q", 1.0, A_MIN);
            let mass = mass_of_charge(charge, charge_per_mass(&parts)?, efficiency(row)?)?;
            Ok(Found::Quantity(thickness(mass, deposit_density(&parts)?, area)?, UM))
        }),
        ("C.wafer-area", |row| Ok(Found::Quantity(area(row)?, CM2))),
        ("C.wafer-charge", |row| Ok(Found::Quantity(charge_of(row, &metal(row)?)?, A_MIN))),
        ("C.wafer-current", |row| Ok(Found::Quantity(current(row.q("j", A_PER_DM2)?, area(row)?), AMPERE))),
        ("C.wafer-time", |row| {
            let current = current(row.q("j", A_PER_DM2)?, area(row)?);
            Ok(Found::Quantity(time(charge_of(row, &metal(row)?)?, current)?, MINUTE))
        }),
        ("C.wafer-metal", |row| Ok(Found::Quantity(mass(row, &metal(row)?)?, GRAM))),
        ("C.alloy-density", |row| Ok(Found::Quantity(deposit_density(&tin_silver(row)?)?, KG_PER_L))),
        ("C.alloy-charge", |row| Ok(Found::Quantity(charge_of(row, &tin_silver(row)?)?, A_H))),
        ("C.alloy-current-fraction-Ag", |row| {
            let parts = tin_silver(row)?;
            Ok(Found::Quantity(share_of_current(&parts[1], &parts)?, NUMBER))
        }),
        ("C.mass", |row| {
            let part = metal(row)?[0];
            let charge = row.q("I", AMPERE)? * row.q("t", SECOND)?;
            let one = equivalent(part.molar_mass, part.electrons)?;
            Ok(Found::Quantity(metal_deposited(charge, one, efficiency(row)?)?, GRAM))
        }),
        ("C.moles-electrons", |row| {
            let charge = row.q("I", AMPERE)? * row.q("t", SECOND)?;
            Ok(Found::Quantity(moles_of_electrons(charge), MOL))
        }),
        ("C.time", |row| {
            Ok(Found::Quantity(time(charge_of(row, &metal(row)?)?, row.q("I", AMPERE)?)?, HOUR))
        }),
        ("C.metal-mass", |row| {
            Ok(Found::Quantity(deposit_mass(area(row)?, film(row)?, row.q("rho", KG_PER_L)?), GRAM))
        }),
        ("C.nickel-chart-weight", |row| Ok(Found::Number(chart(row)?.0.number(GRAM)))),
        ("C.nickel-chart-charge", |row| Ok(Found::Number(chart(row)?.1.number(A_H)))),
        ("C.nickel-chart-time", |row| {
            let current = current(row.q("j", A_PER_DM2)?, Q::constant("A", 1.0, DM2));
            Ok(Found::Quantity(time(chart(row)?.1, current)?, MINUTE))
        }),
        ("C.valence", |_| Ok(Found::Number(usual("Cu")?))),
    ]
}
