//! Units and their conversions: each side is read as a person would type it.

use crate::runner::*;
use bathbook::units::*;

/// The spellings of a library of units, and ours.
#[rustfmt::skip]
const OURS: &[(&str, &str)] = &[
    ("gallon", "US gal"), ("imperial_gallon", "imperial gal"), ("liter", "L"), ("meter**3", "m³"),
    ("foot", "ft"), ("meter", "m"), ("thou", "mil"), ("micrometer", "µm"), ("foot**2", "ft²"),
    ("decimeter**2", "dm²"), ("ampere/foot**2", "A/ft²"), ("ampere/decimeter**2", "A/dm²"),
    ("mA/cm2", "mA/cm²"), ("A/dm2", "A/dm²"), ("A/ft2", "A/ft²"), ("ounce/gallon", "oz/US gal"),
    ("gram/liter", "g/L"), ("inch_H2O_60F", "in of water (60 °F)"), ("foot_H2O", "ft of water"),
    ("pascal", "Pa"), ("kilopascal", "kPa"), ("atmosphere", "atm"), ("foot**3/minute", "ft³/min"),
    ("meter**3/hour", "m³/h"), ("gallon/minute", "US gal/min"), ("liter/minute", "L/min"),
    ("Btu/hour", "BTU/h"), ("watt", "W"), ("kilowatt", "kW"), ("horsepower", "hp"),
    ("ton_of_refrigeration", "tons of refrigeration"), ("pound", "lb"), ("gram", "g"),
    ("ampere*hour", "A·h"), ("coulomb", "A·s"), ("foot/second", "ft/s"), ("meter/second", "m/s"),
    ("pound/gallon", "lb/US gal"), ("kilogram/liter", "kg/L"), ("psi", "psi"),
];

/// `1 gallon in liter`.
fn convert(row: &Row) -> Outcome {
    let unread = || Problem::Unread(format!("“{}” is no conversion", row.inputs));
    let (from, to) = row.inputs.split_once(" in ").ok_or_else(unread)?;
    let (number, from) = from.trim().split_once(' ').ok_or_else(unread)?;
    let ours = |theirs: &str| OURS.iter().find(|(name, _)| *name == theirs).map(|(_, ours)| *ours);
    let (Some(from), Some(to)) = (ours(from), ours(to.trim())) else {
        return Err(Problem::LeftOut("a unit that the app does not offer"));
    };
    let kind = UNITS.iter().find(|unit| unit.is_called(from) && unit.kind.units().any(|u| u.is_called(to)));
    let kind = kind.ok_or_else(unread)?.kind;
    let to = kind.units().find(|unit| unit.is_called(to)).ok_or_else(unread)?;
    Ok(Found::Number(to.from_si(value(&format!("{number} {from}"), to)?.si)))
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("W.unit", convert),
        ("W.current-density", convert),
        ("W.fahrenheit", |row| {
            let from = row.inputs.split(" in ").next().unwrap_or_default();
            Ok(Found::Number(CELSIUS.from_si(value(from, CELSIUS)?.si)))
        }),
        ("W.fahrenheit-difference", |row| {
            let difference = format!("{} °F", row.number_before("degF")?);
            Ok(Found::Number(KELVINS.from_si(value(&difference, KELVINS)?.si)))
        }),
        ("W.slope", |row| {
            let from = row.inputs.split(" in percent").next().unwrap_or_default();
            Ok(Found::Number(PERCENT_SLOPE.from_si(value(from, PERCENT_SLOPE)?.si)))
        }),
        ("W.ppm-to-mg-per-litre", |row| {
            let w = value(row.inputs.split(';').next().unwrap_or_default(), MASS_FRACTION)?;
            let w = bathbook::quantity::Q::named("w", w);
            let c = bathbook::science::solutions::mass_concentration(w, row.q("density", KG_PER_L)?)?;
            Ok(Found::Quantity(c, MG_PER_L))
        }),
    ]
}
