//! Delivery lines: pressure for a flow and back, suction, filling, power.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::lift::total_head;
use bathbook::science::line::*;
use bathbook::science::{pipe, water};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("N.pressure-drop", |row| Ok(Found::Quantity(friction(row)?, KPA))),
        ("N.supply-pressure", |row| {
            let needed = supply_pressure(friction(row)?, liquid(row)?.rho, row.q("rise", M)?, open());
            Ok(Found::Quantity(needed, KPA))
        }),
        ("N.supply-pressure-given-friction", |row| {
            let rho = row.q("rho", KG_PER_M3)?;
            let (d, q) = (row.q("bore", MM)?, row.q("mass flow", KG_PER_S)? / rho);
            let (f, k) = (row.q("Darcy f", NUMBER)?, row.q("K", NUMBER)?);
            let drop = pipe::pressure_drop(f, row.q("run", M)?, d, k, rho, pipe::velocity(q, d)?);
            Ok(Found::Quantity(supply_pressure(drop, rho, row.q("rise", M)?, open()), KPA))
        }),
        ("N.static-pressure", |row| {
            Ok(Found::Quantity(static_pressure(row.q("rho", KG_PER_M3)?, row.q("height", M)?), KPA))
        }),
        ("N.flow-for-pressure", |row| {
            let p = row.q("friction pressure", KPA)?;
            Ok(Found::Quantity(flow_for_pressure(line(row)?, liquid(row)?, p)?, L_PER_MIN))
        }),
        ("N.gravity-flow", |row| {
            let t = Q::constant("T", 20.0, CELSIUS);
            let liquid = Liquid { rho: water::density(t)?, mu: water::viscosity(t)? };
            let fall = static_pressure(liquid.rho, row.q("level difference", M)?);
            Ok(Found::Quantity(flow_for_pressure(line(row)?, liquid, fall)?, L_PER_MIN))
        }),
        ("N.bore-for-pressure", |row| {
            let liquid = liquid(row)?;
            let p = match row.given("friction head") {
                Some(_) => static_pressure(liquid.rho, row.q("friction head", M)?),
                None => row.q("friction pressure", KPA)?,
            };
            Ok(Found::Quantity(bore_for_pressure(line(row)?, liquid, row.q("flow", L_PER_MIN)?, p)?, MM))
        }),
        ("N.bore-for-velocity", |row| {
            Ok(Found::Quantity(
                bore_for_velocity(row.q("flow", L_PER_MIN)?, row.q("velocity", M_PER_S)?)?,
                MM,
            ))
        }),
        ("N.friction-against-water", |row| {
            let t = Q::constant("T", 20.0, CELSIUS);
            let water = Liquid { rho: water::density(t)?, mu: water::viscosity(t)? };
            let by_water = friction_pressure(line(row)?, water, row.q("flow", L_PER_MIN)?)?;
            Ok(Found::Quantity(friction(row)? / by_water, NUMBER))
        }),
        ("N.K-from-Kv", |row| {
            Ok(Found::Quantity(loss_from_kv(row.q("Kv", M3_PER_H)?, row.q("bore", MM)?)?, NUMBER))
        }),
        ("N.fill-time", |row| {
            let none = Q::constant("V_l", 0.0, L);
            Ok(Found::Quantity(fill_time(row.q("V", L)?, none, row.q("flow", L_PER_MIN)?)?, MINUTE))
        }),
        ("N.fill-time-empty-line", |row| {
            let metres = row.number_before("m")?;
            let millimetres = row.number_before("mm")?;
            let empty = line_volume(Q::constant("D", millimetres, MM), Q::constant("l", metres, M));
            Ok(Found::Quantity(fill_time(row.q("V", L)?, empty, row.q("flow", L_PER_MIN)?)?, MINUTE))
        }),
        ("N.line-volume", |row| Ok(Found::Quantity(line_volume(row.q("bore", MM)?, row.q("run", M)?), L))),
        ("N.suction-lift-limit", |row| {
            let (lost, margin) = (row.q("friction head", M)?, row.q("NPSH margin", M)?);
            let found = suction_lift_limit(
                row.q("p_atm", KPA)?,
                vapour(row)?,
                row.q("rho", KG_PER_M3)?,
                lost,
                margin,
            );
            Ok(Found::Quantity(found?, M))
        }),
        ("N.npsh-available", |row| {
            let lost = match (row.given("friction head"), row.given("friction")) {
                (Some(_), _) => row.q("friction head", M)?,
                (None, Some(_)) => row.q("friction", M)?,
                _ => Q::constant("h", 0.0, M),
            };
            let found = npsh_available(
                row.q("p_atm", KPA)?,
                vapour(row)?,
                row.q("rho", KG_PER_M3)?,
                row.q("lift", M)?,
                lost,
            );
            Ok(Found::Quantity(found?, M))
        }),
        ("N.height-for-npsh", |row| {
            // A boiling liquid: the air pays for nothing, and the highest lift is a depth.
            let (d, f) = (row.q("bore", MM)?, row.q("Darcy f", NUMBER)?);
            let v = pipe::velocity(row.q("flow", L_PER_MIN)?, d)?;
            let lost = pipe::head_lost(f, row.q("run", M)?, d, Q::from(0.0), v);
            let (p, rho) = (Q::constant("p", 1.0, BAR), Q::constant("ρ", 1.0, KG_PER_L));
            let most = suction_lift_limit(p, p, rho, lost, row.q("NPSH needed", M)?)?;
            Ok(Found::Quantity(-most, M))
        }),
        ("N.pump-power", |row| {
            let flow = row.q("flow", L_PER_MIN)?;
            let (rho, head) = match row.given("pressure rise") {
                // Head times density is what counts: any density will do.
                Some(_) => {
                    let rho = Q::constant("ρ", 1.0, KG_PER_L);
                    (rho, row.q("pressure rise", KPA)? / (rho * pipe::gravity()))
                }
                None => (row.q("rho", KG_PER_M3)?, row.q("head", M)?),
            };
            Ok(Found::Quantity(pump_power(head, flow, rho, row.q("efficiency", NUMBER)?)?, WATT))
        }),
        ("N.pump-power-given-friction", |row| {
            let (rho, d, flow) = (row.q("rho", KG_PER_M3)?, row.q("bore", MM)?, row.q("flow", L_PER_MIN)?);
            let run = row.q("length with fittings", M)?;
            let v = pipe::velocity(flow, d)?;
            let lost = pipe::head_lost(row.q("Darcy f", NUMBER)?, run, d, Q::from(0.0), v);
            let head = total_head(row.q("static and other head", M)?, lost, open(), rho);
            Ok(Found::Quantity(pump_power(head, flow, rho, row.q("efficiency", NUMBER)?)?, WATT))
        }),
    ]
}

fn open() -> Q {
    Q::constant("p", 0.0, KPA)
}

fn liquid(row: &Row) -> Result<Liquid, Problem> {
    // Laminar friction does not hang on density: where a row gives none, any will do.
    let rho = row.given("rho").map_or(Ok(Q::constant("ρ", 1.0, KG_PER_L)), |_| row.q("rho", KG_PER_M3))?;
    Ok(Liquid { rho, mu: row.q("mu", MPAS)? })
}

fn line(row: &Row) -> Result<Line, Problem> {
    let k = match (row.given("sum of K"), row.given("K")) {
        (Some(_), _) => row.q("sum of K", NUMBER)?,
        (None, Some(_)) => row.number_before("elbows")? * row.q("K", NUMBER)?,
        _ => Q::from(0.0),
    };
    let or_none =
        |name: &str, unit| row.given(name).map_or(Ok(Q::constant("0", 0.0, unit)), |_| row.q(name, unit));
    Ok(Line { run: row.q("run", M)?, bore: or_none("bore", MM)?, k, wall: or_none("roughness", MM)? })
}

fn friction(row: &Row) -> Result<Q, Problem> {
    let line = line(row)?;
    let flow = match row.given("mean velocity") {
        Some(_) => {
            let metre = Q::constant("1 m", 1.0, M);
            row.q("mean velocity", M_PER_S)? * line_volume(line.bore, metre) / metre
        }
        None => row.q("flow", L_PER_MIN)?,
    };
    Ok(friction_pressure(line, liquid(row)?, flow)?)
}

fn vapour(row: &Row) -> Result<Q, Problem> {
    match (row.given("vapour"), row.given("p_vapour")) {
        (Some(_), _) => row.q("vapour", KPA),
        (None, Some(_)) => row.q("p_vapour", KPA),
        _ => Ok(water::vapour_pressure(row.q("T", CELSIUS)?)?),
    }
}
