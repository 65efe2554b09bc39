//! From titrant and aliquot to what a bath holds.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::formula::Formula;
use bathbook::science::titration::{amount_found, by_mass, concentration, volume_needed};
use bathbook::units::*;

fn number(number: f64) -> Q {
    Q::constant("x", number, NUMBER)
}

fn ml(number: f64) -> Q {
    Q::constant("V", number, ML)
}

fn mol_per_l(number: f64) -> Q {
    Q::constant("C", number, MOL_PER_L)
}

/// Amount concentration from a titrant, two volumes, a ratio and an aliquot.
fn found(c: Q, v: Q, blank: Q, r: f64, aliquot: Q) -> Result<Q, Problem> {
    let n = amount_found(c, number(1.0), v, blank, number(r))?;
    Ok(concentration(n, aliquot, number(1.0))?)
}

/// `sample=HCl 50.00 mL;titrant=NaOH 0.250 mol/L 35.23 mL`.
fn of_texts(row: &Row, r: f64) -> Outcome {
    let before = |name: &str, unit: &str| -> Result<f64, Problem> {
        let text = row.text(name)?;
        let words: Vec<_> = text.split(' ').collect();
        let pair = words.windows(2).find(|pair| pair[1] == unit);
        pair.and_then(|pair| pair[0].parse().ok()).ok_or_else(|| Problem::Unread(text.into()))
    };
    let (c, v) = (before("titrant", "mol/L")?, before("titrant", "mL")?);
    let aliquot = before("sample", "mL")?;
    Ok(Found::Quantity(found(mol_per_l(c), ml(v), ml(0.0), r, ml(aliquot))?, MOL_PER_L))
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("E.titration", |row| {
            let c = found(
                row.q("titrant", MOL_PER_L)?,
                row.q("V", ML)?,
                ml(0.0),
                row.number("mol_analyte_per_mol_titrant")?,
                row.q("aliquot", ML)?,
            )?;
            Ok(Found::Quantity(by_mass(c, Formula::read(row.text("analyte")?)?.molar_mass()), G_PER_L))
        }),
        ("E.acid-base", |row| of_texts(row, if row.inputs.contains("as H2SO4") { 0.5 } else { 1.0 })),
        ("E.redox", |row| of_texts(row, 2.5)),
        ("E.chloride", |row| {
            let c = row.number_before("mol/L")?;
            let text =
                row.inputs.split("sample=").nth(1).and_then(|rest| rest.split(' ').next()?.parse().ok());
            let sample: f64 = text.ok_or_else(|| Problem::Unread(row.inputs.clone()))?;
            let v = row.inputs.split("mol/L ").nth(1).and_then(|rest| rest.split(' ').next()?.parse().ok());
            let v: f64 = v.ok_or_else(|| Problem::Unread(row.inputs.clone()))?;
            Ok(Found::Quantity(found(mol_per_l(c), ml(v), ml(0.0), 2.0, ml(sample))?, MOL_PER_L))
        }),
        ("E.acid-base-volume", |row| {
            // To the hydrogen phosphate: half a mol of acid for a mol of titrant.
            let sample = row.number_before("mol/L")?;
            let c = row.text("titrant")?.split(' ').nth(1).and_then(|text| text.parse().ok());
            let c: f64 = c.ok_or_else(|| Problem::Unread(row.inputs.clone()))?;
            let v =
                volume_needed(mol_per_l(sample), ml(row.number_before("mL")?), number(0.5), mol_per_l(c))?;
            Ok(Found::Quantity(v, ML))
        }),
        ("E.nickel-bath-boric", |row| {
            let (v, before) = (row.q("EP2", ML)?, row.q("EP1", ML)?);
            let c = found(row.q("NaOH", MOL_PER_L)?, v, before, 1.0, row.q("sample", ML)?)?;
            Ok(Found::Quantity(by_mass(c, Formula::read("H3BO3")?.molar_mass()), G_PER_L))
        }),
        ("E.nickel-bath-HBF4", |row| {
            let c = found(row.q("NaOH", MOL_PER_L)?, row.q("EP1", ML)?, ml(0.0), 1.0, row.q("sample", ML)?)?;
            Ok(Found::Quantity(by_mass(c, Formula::read("HBF4")?.molar_mass()), G_PER_L))
        }),
        ("E.boric-factor", |row| {
            let c = found(row.q("NaOH", MOL_PER_L)?, ml(1.0), ml(0.0), 1.0, row.q("sample", ML)?)?;
            Ok(Found::Number(by_mass(c, Formula::read("H3BO3")?.molar_mass()).number(G_PER_L)))
        }),
        ("E.edta", |row| {
            let n = amount_found(mol_per_l(0.05831), number(1.0), row.q("V", ML)?, ml(0.0), number(1.0))?;
            Ok(Found::Quantity(by_mass(n, row.q("M", G_PER_MOL)?), GRAM))
        }),
        ("E.edta-difference", |row| {
            let (v, before) = (row.q("V2", ML)?, row.q("V1", ML)?);
            let n = amount_found(mol_per_l(0.05831), number(1.0), v, before, number(1.0))?;
            Ok(Found::Quantity(by_mass(n, row.q("M", G_PER_MOL)?), GRAM))
        }),
        ("E.cu-iodometric", |row| {
            let c =
                found(row.q("titrant", MOL_PER_L)?, row.q("V", ML)?, ml(0.0), 1.0, row.q("aliquot", ML)?)?;
            Ok(Found::Quantity(by_mass(c, row.q("M", G_PER_MOL)?), G_PER_L))
        }),
    ]
}
