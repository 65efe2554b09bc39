//! Limits on discharge, and what must never meet.

use crate::runner::*;
use bathbook::science::{regulation::*, segregation};

pub fn topics() -> Vec<Topic> {
    vec![
        ("H.433-PSES", |row| limit(row, Rule::Existing433)),
        ("H.433-PSNS", |row| limit(row, Rule::New433)),
        ("H.413", |row| limit(row, Rule::JobShop413)),
        ("H.413-small", |row| limit(row, Rule::SmallJobShop413)),
        ("H.469", |row| limit(row, Rule::Semiconductor469)),
        ("H.469-applicability", |_| {
            Ok(Found::Number(f64::from(Rule::Semiconductor469.covers_electroplating())))
        }),
        ("H.403.5", |row| {
            Ok(Found::Number(match row.text("what")? {
                "least pH" => SEWER_LEAST_PH,
                _ => SEWER_LEAST_FLASH_POINT_C,
            }))
        }),
        ("H.HCN-limit", |row| {
            Ok(Found::Number(if row.text("what")? == "8 h" { HCN_8_H_PPM } else { HCN_SHORT_PPM }))
        }),
        ("H.compatibility", |row| {
            let group = |name| {
                let number = row.text(name)?.split(' ').next().and_then(|number| number.parse().ok());
                number.ok_or_else(|| Problem::Unread(format!("{name} has no number")))
            };
            let code = segregation::chart_code(group("group_A")?, group("group_B")?);
            Ok(Found::Word(code.unwrap_or("none").into()))
        }),
    ]
}

fn limit(row: &Row, rule: Rule) -> Outcome {
    // The paragraph that a row names in brackets is for people.
    let pollutant = row.text("pollutant")?.split(" (").next().unwrap_or_default();
    let found =
        limit_on(rule, pollutant).ok_or_else(|| Problem::Unread(format!("no limit on {pollutant}")))?;
    let number = if row.text("limit")? == "daily max" { Some(found.daily) } else { found.average };
    number.map(Found::Number).ok_or_else(|| Problem::Unread("no average".into()))
}
