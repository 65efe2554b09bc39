//! Exhaust: capture, ducts, dilution.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::faraday::hydrogen_of_share;
use bathbook::science::formula::Formula;
use bathbook::science::gas::actual_flow;
use bathbook::science::pipe::{friction_factor, pressure_drop, reynolds, velocity};
use bathbook::science::ventilation::*;
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("S.face-flow", |row| {
            Ok(Found::Quantity(
                face_flow(row.q("face velocity", M_PER_S)?, row.q("open area", M2)?),
                M3_PER_H,
            ))
        }),
        ("S.capture-flow", |row| {
            let (v, x, a) = hood(row)?;
            Ok(Found::Quantity(plain_opening_flow(v, x, a)?, M3_PER_H))
        }),
        ("S.capture-flow-flanged", |row| {
            let (v, x, a) = hood(row)?;
            Ok(Found::Quantity(flanged_opening_flow(v, x, a)?, M3_PER_H))
        }),
        ("S.slot-flow", |row| {
            let (l, v, x) = (row.q("slot length", M)?, row.q("capture", M_PER_S)?, row.q("distance", M)?);
            Ok(Found::Quantity(slot_flow(l, v, x, row.inputs.contains("flanged slot")), M3_PER_H))
        }),
        ("S.duct-diameter", |row| {
            Ok(Found::Quantity(duct_diameter(row.q("flow", M3_PER_H)?, row.q("velocity", M_PER_S)?)?, MM))
        }),
        ("S.velocity-pressure", |row| {
            let v = velocity(row.q("flow", M3_PER_H)?, row.q("D", MM)?)?;
            Ok(Found::Quantity(velocity_pressure(row.q("rho", KG_PER_M3)?, v), PASCAL))
        }),
        ("S.duct-loss", |row| {
            // Per metre, and the unit of the row says so too.
            let one = Q::constant("l", 1.0, M);
            Ok(Found::Number(loss(row, one, Q::from(0.0))?.number(PASCAL)))
        }),
        ("S.duct-system-loss", |row| {
            Ok(Found::Quantity(loss(row, row.q("length", M)?, Q::from(row.number("sum of K")?))?, PASCAL))
        }),
        ("S.fan-power", |row| {
            let (q, p) = (row.q("flow", M3_PER_H)?, row.q("total pressure", PASCAL)?);
            Ok(Found::Quantity(fan_power(q, p, Q::from(row.number("efficiency")?))?, KW))
        }),
        ("S.ppm-to-mg-m3", |row| {
            let formula = match row.inputs.split(';').next().unwrap_or_default() {
                "acetone" => "C3H6O",
                "isopropanol" => "C3H8O",
                "ammonia" => "NH3",
                _ => "HCN",
            };
            let share = Q::constant("y", row.number_before("ppm")?, PPM_VOLUME);
            let (t, p) = (row.q("T", CELSIUS)?, row.q("p", KPA)?);
            Ok(Found::Quantity(mass_in_air(share, Formula::read(formula)?.molar_mass(), t, p)?, MG_PER_M3))
        }),
        ("S.dilution-flow", |row| {
            let (g, limit) = (row.q("generation", G_PER_H)?, row.q("limit", MG_PER_M3)?);
            let mixing = Q::from(row.number("mixing factor")?);
            Ok(Found::Quantity(dilution_flow(g, limit, row.q("background", MG_PER_M3)?, mixing)?, M3_PER_H))
        }),
        ("S.purge-time", |row| {
            let text = row.text("ventilation")?.to_string();
            let (from, to) = fall(row)?;
            let flow = Q::named("Q", value(&text, M3_PER_H)?);
            Ok(Found::Quantity(time_to_clear(row.q("room", M3)?, flow, Q::from(to / from))?, MINUTE))
        }),
        ("T.purge-volume-time", |row| {
            let (from, to) = fall(row)?;
            let flow = row.q("nitrogen", L_PER_MIN)?;
            Ok(Found::Quantity(time_to_clear(row.q("space", L)?, flow, Q::from(to / from))?, MINUTE))
        }),
        ("S.hydrogen-evolved", |row| Ok(Found::Quantity(hydrogen(row)?, L_PER_H))),
        ("S.air-for-hydrogen", |row| {
            let limit = Q::constant("y", row.number_before("vol")?, VOLUME_PERCENT);
            Ok(Found::Quantity(air_for_share(hydrogen(row)?, limit)?, M3_PER_H))
        }),
        ("S.make-up-air-heat", |row| {
            let flow = row.q("flow", M3_PER_H)?;
            let rho = Q::constant("ρ", row.number_before("kg/m3")?, KG_PER_M3);
            let (rise, cp) = match row.given("room") {
                Some(_) => {
                    (row.q("room", CELSIUS)? - row.q("outside", CELSIUS)?, row.number_before("kJ/kg/K")?)
                }
                None => (Q::constant("ΔT", row.number("outside")?, KELVINS), row.number("cp")?),
            };
            let cp = Q::constant("c_p", cp, KJ_PER_KG_K);
            Ok(Found::Quantity(replacement_air_heat(flow, rho, cp, rise), KW))
        }),
    ]
}

fn hood(row: &Row) -> Result<(Q, Q, Q), Problem> {
    Ok((row.q("capture", M_PER_S)?, row.q("distance", M)?, row.q("opening", M2)?))
}

/// Friction and fittings of a duct, as the sheet works them out.
fn loss(row: &Row, l: Q, k: Q) -> Result<Q, Problem> {
    let (d, rho) = (row.q("D", MM)?, row.q("rho", KG_PER_M3)?);
    let v = velocity(row.q("flow", M3_PER_H)?, d)?;
    let re = reynolds(rho, v, d, row.q("mu", MPAS)?);
    let f = friction_factor(re, row.q("roughness", MM)? / d)?;
    Ok(pressure_drop(f, l, d, k, rho, v))
}

fn hydrogen(row: &Row) -> Result<Q, Problem> {
    let made = hydrogen_of_share(row.q("I", AMPERE)?, Q::from(row.number("share of current to hydrogen")?))?;
    Ok(actual_flow(made, row.q("T", CELSIUS)?, row.q("p", KPA)?)?)
}

/// The two numbers about an arrow: `C 400->20 mg/m3`, `oxygen 21 % -> 0.1 %`.
fn fall(row: &Row) -> Result<(f64, f64), Problem> {
    let unread = || Problem::Unread(format!("no fall in “{}”", row.inputs));
    let (before, after) = row.inputs.split_once("->").ok_or_else(unread)?;
    let number = |text: &str| text.trim().trim_end_matches('%').split_whitespace().last().map(str::to_string);
    let first = after.trim().split([' ', ';']).next().unwrap_or_default().to_string();
    let from = number(before).and_then(|text| text.parse().ok()).ok_or_else(unread)?;
    Ok((from, first.parse().map_err(|_| unread())?))
}
