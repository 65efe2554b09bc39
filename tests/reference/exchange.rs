//! Exchangers and coils.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::{coil::*, exchange::*};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("M.effectiveness", |row| {
            if ["shell", "crossflow"].iter().any(|shape| row.inputs.contains(shape)) {
                return Err(Problem::LeftOut(PASSES));
            }
            let (ntu, ratio) = (row.number("NTU")?, row.number("Cr")?);
            let unit = |number| Q::constant("C", number, W_PER_K);
            let (ua, least) = (unit(ntu), unit(1.0));
            let found = match (ratio, way(row)) {
                (0.0, _) => effectiveness_in_tank(ua, least),
                (_, Way::Counter) => effectiveness_counterflow(ua, least, unit(1.0 / ratio)),
                (_, Way::Parallel) => effectiveness_parallel(ua, least, unit(1.0 / ratio)),
            };
            Ok(Found::Quantity(found, NUMBER))
        }),
        ("M.lmtd", |row| {
            let (hot, cold, way) = streams(row)?;
            Ok(Found::Quantity(mean_difference(hot, cold, way)?, KELVINS))
        }),
        ("M.ntu", |row| {
            Ok(Found::Quantity(
                transfer_units(row.q("effectiveness", NUMBER)?, row.q("Cr", NUMBER)?, way(row))?,
                NUMBER,
            ))
        }),
        ("M.area-needed", |row| {
            let (hot, cold, way) = streams(row)?;
            let area =
                area_needed(row.q("duty", KW)?, row.q("U", W_PER_M2_K)?, mean_difference(hot, cold, way)?);
            Ok(Found::Quantity(area, M2))
        }),
        ("M.area-isothermal", |row| {
            let (source, bath) = (row.q("T_source", FAHRENHEIT)?, row.q("T_bath", FAHRENHEIT)?);
            let mean = mean_difference((source, source), (bath, bath), Way::Counter)?;
            Ok(Found::Quantity(
                area_needed(row.q("duty", BTU_PER_H)?, row.q("U", BTU_PER_H_FT2_F)?, mean),
                FT2,
            ))
        }),
        ("M.lmtd-correction", |_| Err(Problem::LeftOut(PASSES))),
        ("M.tube-inside-turbulent", |row| {
            Ok(Found::Quantity(nusselt_turbulent(row.q("Re", NUMBER)?, row.q("Pr", NUMBER)?)?, NUMBER))
        }),
        ("M.tube-inside-laminar", |row| {
            let (re, bore) = (Q::from(1000.0), row.q("d_in", MM)?);
            let (_, nusselt) = nusselt_inside(re, Q::from(7.0), bore, None)?;
            Ok(Found::Quantity(film(nusselt, row.q("k", W_PER_M_K)?, bore), W_PER_M2_K))
        }),
        ("M.overall-tube", |row| {
            let (outside, bore) = (row.q("d_out", MM)?, row.q("d_in", MM)?);
            let inner = on_outside(row.q("h_in", W_PER_M2_K)?, bore, outside);
            let wall = wall(outside, bore, row.q("k_wall", W_PER_M_K)?)?;
            let clean = Q::constant("none", 0.0, M2_K_PER_W);
            Ok(Found::Number(overall(row.q("h_out", W_PER_M2_K)?, wall, inner, clean).number(W_PER_M2_K)))
        }),
        ("M.overall-with-fouling", |row| {
            // As printed, in any consistent units; the wall is nothing beside the rest.
            let number = |name| row.number(name).map(|number| Q::constant(name, number, W_PER_M2_K));
            let none = Q::constant("none", 0.0, M2_K_PER_W);
            let fouling = Q::constant("Rd", row.number("fouling")?, M2_K_PER_W);
            let u = overall(number("h_out")?, none, number("h_in referred to outside")?, fouling);
            Ok(Found::Number(u.number(W_PER_M2_K)))
        }),
        ("M.inline-duty", |row| {
            let duty =
                stream_duty(row.q("flow", KG_PER_MIN)?, row.q("cp", KJ_PER_KG_K)?, row.q("dT", KELVINS)?);
            Ok(Found::Quantity(duty, KW))
        }),
        ("M.chiller-capacity", |row| {
            let gains = row.q("plating heat", KW)? + row.q("pump heat", KW)? + row.q("room gain", KW)?;
            Ok(Found::Quantity(chiller_load(gains, row.q("margin", SHARE)?), KW))
        }),
        ("M.coolant-flow", |row| {
            // Density and heat capacity of the two mixtures at 10 °C: CoolProp 8.0.0, INCOMP::MPG-40% and INCOMP::MEG-30%.
            let (rho, cp) = match row.inputs.contains("propylene glycol 40") {
                true => (1037.616, 3.674274),
                false => (1041.813, 3.688510),
            };
            let (rho, cp) = (Q::constant("ρ", rho, KG_PER_M3), Q::constant("c", cp, KJ_PER_KG_K));
            Ok(Found::Quantity(coolant_flow(row.q("duty", KW)?, rho, cp, row.q("rise", KELVINS)?), L_PER_MIN))
        }),
        ("M.coil-length", |row| {
            let area = Q::constant("A", row.number("A")?, M2);
            Ok(Found::Quantity(tube_length(area, row.q("d_out", MM)?), M))
        }),
        ("M.coil-critical-reynolds", |row| {
            Ok(Found::Quantity(
                critical_reynolds(row.q("tube bore", MM)?, row.q("coil diameter", MM)?)?,
                NUMBER,
            ))
        }),
        ("M.coil-laminar-friction", |row| {
            let (bore, coil) = (row.q("tube bore", MM)?, row.q("coil diameter", MM)?);
            Ok(Found::Number(friction_in_coil(row.q("Re", NUMBER)?, bore, coil)?.si))
        }),
        ("M.coil-inside-turbulent", |row| {
            let (bore, coil) = (row.q("tube bore", MM)?, row.q("coil diameter", MM)?);
            let (re, pr) = (row.q("Re", NUMBER)?, row.q("Pr", NUMBER)?);
            Ok(Found::Quantity(nusselt_inside(re, pr, bore, Some(coil))?.1, NUMBER))
        }),
    ]
}

pub const PASSES: &str = "exchangers of several passes and crossflow are not among the sheet’s";

fn way(row: &Row) -> Way {
    if row.inputs.contains("parallel") { Way::Parallel } else { Way::Counter }
}

/// Temperatures at which a stream enters and leaves.
type Ends = (Q, Q);

/// The two streams of “source 80->60 degC;bath side 20->40 degC”: whichever is hotter is the hot one.
fn streams(row: &Row) -> Result<(Ends, Ends, Way), Problem> {
    let of = |names: &[&str]| -> Result<(Q, Q), Problem> {
        let parts = row.inputs.split(';');
        let text = parts.into_iter().find_map(|part| names.iter().find_map(|name| part.strip_prefix(name)));
        let text = text.ok_or_else(|| Problem::Unread(format!("no stream in “{}”", row.inputs)))?.trim();
        let (numbers, unit) = text.split_once(' ').unwrap_or((text, ""));
        let unit = if unit.trim() == "K" { KELVIN } else { CELSIUS };
        let read = |text: &str| text.parse().map_err(|_| Problem::Unread(format!("“{text}” is no number")));
        let (from, to) = numbers.split_once("->").unwrap_or((numbers, numbers));
        Ok((Q::constant("T1", read(from)?, unit), Q::constant("T2", read(to)?, unit)))
    };
    let (source, bath) = (of(&["source", "hot"])?, of(&["bath side", "cold side", "cold"])?);
    let (hot, cold) = if source.0 >= bath.0 { (source, bath) } else { (bath, source) };
    Ok((hot, cold, way(row)))
}
