//! Neutralisation: reagent by charge balance and by amount, and the tank that evens the flow.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::formula::Formula;
use bathbook::science::lime::{LIME, gypsum};
use bathbook::science::neutralisation::{
    by_equivalents, equalisation_volume, hydroxide_with, ph_of_strong, reagent_for,
};
use bathbook::science::ph::{Portion, Reagent, Substance, known};
use bathbook::science::{elements, solutions};
use bathbook::units::*;

fn substance(name: &str) -> Result<&'static Substance, Problem> {
    known(name).ok_or_else(|| Problem::Unread(format!("no substance {name}")))
}

/// Molar mass, and the hydrogen ions or hydroxide that one gives off or takes up.
fn equivalents(formula: &str) -> Result<(Q, f64), Problem> {
    let each = match formula {
        "H2SO4" | "Na2CO3" => 2.0,
        "HCl" | "NaOH" => 1.0,
        other => return Err(Problem::Unread(format!("no equivalents of {other}"))),
    };
    Ok((Formula::read(formula)?.molar_mass(), each))
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("F.metal-waste-NaOH", |row| {
            let mut portions = Vec::new();
            let mut metals = Q::constant("0", 0.0, MOL_PER_L);
            for part in row.text("waste")?.split(" + ") {
                let (formula, rest) = part.split_once(' ').unwrap_or((part, ""));
                let number = rest.split(' ').next().and_then(|text| text.parse::<f64>().ok());
                let c = Q::constant("c", number.ok_or_else(|| Problem::Unread(part.into()))?, MOL_PER_L);
                if formula == "H2SO4" {
                    portions.push(Portion { substance: substance("Sulfuric acid")?, c });
                } else {
                    let weight = elements::weight(&formula[..2]).unwrap_or(f64::NAN);
                    let molar_mass = Q::constant("M", weight, G_PER_MOL_METAL);
                    metals = metals + hydroxide_with(c * molar_mass, molar_mass, 2.0);
                }
            }
            let reagent = Reagent { substance: substance("Sodium hydroxide")?, strength: None };
            let t = Q::constant("T", 25.0, CELSIUS);
            let n = reagent_for(portions, metals, reagent, row.q("to_pH", NUMBER)?, t)?;
            Ok(Found::Number(n.number(MOL_PER_L)))
        }),
        ("F.neutralisation-demand", |row| {
            let (acid, each) = equivalents(row.text("acid")?)?;
            let (alkali, takes) = equivalents(row.text("alkali")?)?;
            let n = by_equivalents(Q::constant("m", 2000.0, POUND) / acid, each, takes)?;
            Ok(Found::Quantity(n * alkali, POUND))
        }),
        ("F.neutralisation-spill", |row| {
            // US gallons of 8.34 lb of water.
            let density = Q::constant("ρ", row.number("SG")? * 8.34, LB_PER_GALLON);
            let share = Q::constant("w", row.number_before("%")?, MASS_PERCENT);
            let (molar_mass, _) = equivalents("H2SO4")?;
            let volume = Q::constant("V", row.number_before("gal")?, GALLON);
            Ok(Found::Quantity(solutions::molarity(share, density, molar_mass)? * molar_mass * volume, POUND))
        }),
        ("F.gypsum", |row| {
            let [ca, sulfate, others] =
                [row.q("calcium", MOL_PER_L)?, row.q("sulfate", MOL_PER_L)?, row.q("other ions", MOL_PER_L)?];
            Ok(Found::Quantity(
                gypsum(ca, sulfate, row.q("Na", MOL_PER_L)?, others, row.q("T", CELSIUS)?)?,
                MOL_PER_L,
            ))
        }),
        ("F.lime-demand", |row| {
            let acid = Portion { substance: substance("Sulfuric acid")?, c: row.q("H2SO4", MOL_PER_L)? };
            let reagent = Reagent { substance: &LIME, strength: None };
            let none = Q::constant("0", 0.0, MOL_PER_L);
            let n = reagent_for(vec![acid], none, reagent, row.q("to_pH", NUMBER)?, row.q("T", CELSIUS)?)?;
            Ok(Found::Quantity(n, MOL_PER_L))
        }),
        ("F.pH-of-strong", |row| {
            Ok(Found::Number(ph_of_strong(row.q("strong acid", MOL_PER_L)?, row.q("T", CELSIUS)?)?.si))
        }),
        ("R.equalisation-volume", |row| {
            let hour = Q::constant("t", 1.0, HOUR);
            let flows = row.text("L")?.split('+').map(str::parse::<f64>);
            let flows: Result<Vec<f64>, _> = flows.collect();
            let flows = flows.map_err(|_| Problem::Unread(row.inputs.clone()))?;
            let periods: Vec<(Q, Q)> = flows.into_iter().map(|v| (hour, Q::constant("V", v, L))).collect();
            Ok(Found::Quantity(equalisation_volume(&periods)?, L))
        }),
    ]
}
