//! Correcting a working bath.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::correction::{Component, Correction, Draw, End, Stock, Tank, correct};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("B.decant-replace", |row| {
            let part = Component { in_fill: Some(row.q("replace_with", G_PER_L)?), ..part(row)? };
            let found = correct(&tank(row, 1.0, End::Mark)?, &[part], &[], Draw::Least)?;
            Ok(Found::Quantity(found.draw, L))
        }),
        ("B.add-liquid-volume-grows", |row| {
            let found = one(row, tank(row, 2.0, End::AsItComes)?)?;
            Ok(Found::Quantity(found.amounts[0], L))
        }),
        ("B.fixed-volume-swap", |row| {
            let found = one(row, tank(row, 1.0, End::Mark)?)?;
            Ok(Found::Quantity(found.draw, L))
        }),
        ("B.multi-component", |row| {
            let components = ["Cu", "H2SO4", "Cl"];
            let part = |name: &'static str| -> Result<Component<'static>, Problem> {
                let text =
                    row.inputs.split(';').find_map(|part| part.trim().strip_prefix(name)?.strip_prefix(' '));
                let (from, to) =
                    text.and_then(|text| text.split_once("->")).ok_or(Problem::Unread(name.into()))?;
                let c = |text: &str| -> Result<Q, Problem> { Ok(Q::named("c", value(text, G_PER_L)?)) };
                Ok(Component { name, measured: c(from)?, target: Some(c(to)?), in_fill: None })
            };
            let parts = [part(components[0])?, part(components[1])?, part(components[2])?];
            let (copper, acid, chloride) = (row.number("Cu_conc")?, row.number("acid")?, row.number("HCl")?);
            let stock = |of, holds: &[(usize, f64)]| Stock { of, is_liquid: true, holds: holds.to_vec() };
            let stocks = [
                stock(0, &[(0, copper), (1, row_acid(row)?)]),
                stock(1, &[(1, acid)]),
                stock(2, &[(2, chloride)]),
            ];
            let found =
                correct(&tank(row, 1.0, End::Mark)?, &parts, &stocks, Draw::Fixed(row.q("drain", L)?))?;
            let q = match row.text("report")? {
                "Cu_concentrate" => found.amounts[0],
                "H2SO4_96pct" => found.amounts[1],
                "HCl_37pct" => found.amounts[2],
                _ => found.fill,
            };
            Ok(Found::Quantity(q, L))
        }),
    ]
}

/// `Cu_conc=65 g/L Cu + 10 g/L H2SO4`: what stands behind the plus.
fn row_acid(row: &Row) -> Result<f64, Problem> {
    let text = row.text("Cu_conc")?;
    let number = text.split_once("+ ").and_then(|(_, rest)| rest.split(' ').next()?.parse().ok());
    number.ok_or_else(|| Problem::Unread(text.into()))
}

fn part(row: &Row) -> Result<Component<'static>, Problem> {
    let target = Some(row.q("target", G_PER_L)?);
    Ok(Component { name: "it", measured: row.q("C", G_PER_L)?, target, in_fill: None })
}

/// A tank that has this many times its volume to the mark.
fn tank(row: &Row, room: f64, end: End) -> Result<Tank, Problem> {
    let now = row.q("V", L)?;
    Ok(Tank { now, mark: now * room, end })
}

fn one(row: &Row, tank: Tank) -> Result<Correction, Problem> {
    let strength = row.q("concentrate", G_PER_L)?.si;
    let stock = Stock { of: 0, is_liquid: true, holds: vec![(0, strength)] };
    Ok(correct(&tank, &[part(row)?], &[stock], Draw::Least)?)
}
