//! pH, and what brings a bath to one.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::ph::{
    Activities, Portion, Reagent, Solution, Substance, hydrogen_cyanide_share, known, neutral_ph,
    reagent_to_reach,
};
use bathbook::units::*;

/// The names of the substances, and whether borate forms clusters in the database asked.
fn name(formula: &str, single: bool) -> Result<&'static str, Problem> {
    Ok(match formula {
        "HCl" => "Hydrochloric acid",
        "NaOH" => "Sodium hydroxide",
        "KOH" => "Potassium hydroxide",
        "H2SO4" => "Sulfuric acid",
        "NaHSO4" => "Sodium hydrogensulfate",
        "H3BO3" if single => "Boric acid, single borate only",
        "H3BO3" => "Boric acid",
        "citric" => "Citric acid",
        "acetic" => "Acetic acid",
        "formic" => "Formic acid",
        "tartaric" => "Tartaric acid",
        "H3PO4" => "Phosphoric acid",
        "Na2CO3" => "Sodium carbonate",
        "NaHCO3" => "Sodium hydrogencarbonate",
        "NH3" => "Ammonia",
        "NiSO4" => "Nickel sulfate",
        "HF" => "Hydrofluoric acid",
        other => return Err(Problem::Unread(format!("no substance {other}"))),
    })
}

fn substance(name: &str) -> Result<&'static Substance, Problem> {
    known(name).ok_or_else(|| Problem::Unread(format!("no substance {name}")))
}

fn portion(substance: &Substance, c: f64) -> Portion<'_> {
    Portion { substance, c: Q::constant("c", c, MOL_PER_L) }
}

/// `H3BO3 0.5 + NaOH 0.02 mol/kgw`: every word before a number.
fn portions(text: &str, single: bool) -> Result<Vec<Portion<'static>>, Problem> {
    let mut all = Vec::new();
    for part in text.split(" + ") {
        let words: Vec<_> = part.split(' ').collect();
        let number = words.iter().find_map(|word| word.parse::<f64>().ok());
        let c = number.ok_or_else(|| Problem::Unread(text.into()))?;
        all.push(portion(substance(name(words[0], single)?)?, c));
    }
    Ok(all)
}

fn mixed(row: &Row, input: &str) -> Result<Solution<'static>, Problem> {
    let single = row.text("database")? == "phreeqc.dat";
    Ok(Solution::new(portions(row.text(input)?, single)?, row.q("T", CELSIUS)?, Activities::Counted)?)
}

/// Without activities, at 25 °C, as textbooks do.
fn textbook<'a>(portions: Vec<Portion<'a>>) -> Outcome {
    let t = Q::constant("T", 25.0, CELSIUS);
    Ok(Found::Quantity(Solution::new(portions, t, Activities::LeftOut)?.ph(), NUMBER))
}

/// `25.00 mL 0.100 mol/L HCl + V=5 mL 0.100 mol/L NaOH`: concentrations after mixing.
fn titration(row: &Row, acid: &Substance) -> Outcome {
    let base = row.number("V")?;
    let v = 25.0 + base;
    textbook(vec![portion(acid, 2.5 / v), portion(substance("Sodium hydroxide")?, 0.1 * base / v)])
}

const STRONG: &str =
    "sulfuric acid of bath strength: the sheet refuses a pH there and says to take it by its amount";

/// PHREEQC itself agrees with the sheet to 0.001 pH once the lines `-gamma 0 0` are taken out of that
/// database: the rows PH-001 and PH-002.
const LIMITING: &str =
    "that database gives the citrates the limiting law at 0.3 mol/kg, where it does not hold";

/// At 0.8 mol/kg this law is 0.24 below the row.
const INDICATION: &str =
    "above 0.5 mol/kg laws of activity part by tenths of a pH; the sheet says that it is an indication there";

pub fn topics() -> Vec<Topic> {
    vec![
        ("F.pH", |row| match row.text("database")? {
            "pitzer.dat" => Err(Problem::LeftOut(STRONG)),
            _ if row.inputs.contains("NiSO4 1.0") => Err(Problem::LeftOut(INDICATION)),
            _ => Ok(Found::Ph(mixed(row, "solution")?.ph().si)),
        }),
        ("F.pH-neutral-water", |row| Ok(Found::Quantity(neutral_ph(row.q("T", CELSIUS)?)?, NUMBER))),
        ("F.reagent-demand", |row| {
            if row.text("start")?.starts_with("citric") && row.text("database")? == "minteq.v4.dat" {
                return Err(Problem::LeftOut(LIMITING));
            }
            let reagent =
                Reagent { substance: substance(name(row.text("reagent")?, true)?)?, strength: None };
            let n = reagent_to_reach(&mixed(row, "start")?, reagent, row.q("to_pH", NUMBER)?)?;
            Ok(Found::Number(n.number(MOL_PER_L)))
        }),
        ("F.cyanide-HCN-fraction", |row| {
            let share = hydrogen_cyanide_share(row.q("pH", NUMBER)?, row.q("T", CELSIUS)?);
            Ok(Found::Number(share.si))
        }),
        ("F.strong-titration", |row| titration(row, substance("Hydrochloric acid")?)),
        ("F.weak-titration", |row| titration(row, &Substance::typed("acetic acid", &[-1.8e-5f64.log10()]))),
        ("F.pH-base", |row| {
            let c = row.number_before("mol/L")?;
            textbook(vec![portion(substance("Potassium hydroxide")?, c)])
        }),
        ("F.buffer", |_| {
            // 100 mL of 0.10 mol/L of each, with 1.0 mL of 0.10 mol/L of sodium hydroxide.
            let acid = Substance::typed("acetic acid", &[-1.8e-5f64.log10()]);
            let (both, base) = (0.2 * 100.0 / 101.0, (0.1 * 100.0 + 0.1) / 101.0);
            textbook(vec![portion(&acid, both), portion(substance("Sodium hydroxide")?, base)])
        }),
        ("F.unbuffered", |_| {
            // 100 mL of strong acid at pH 4.74, with 1.0 mL of 0.10 mol/L of sodium hydroxide.
            let acid = 10f64.powf(-4.74) * 100.0 / 101.0;
            let parts = vec![
                portion(substance("Hydrochloric acid")?, acid),
                portion(substance("Sodium hydroxide")?, 0.1 / 101.0),
            ];
            textbook(parts)
        }),
        ("F.Ka", |_| {
            Err(Problem::LeftOut(
                "the sheet takes its constants from NIST 46 by way of PHREEQC, 1 to 15 % from this table",
            ))
        }),
    ]
}
