//! Energy and what it costs.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::cost::*;
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("T.energy-year", |row| {
            let hours = Q::constant("t", row.number("hours")?, HOUR);
            Ok(Found::Number(energy_used(row.q("P", KW)?, Q::from(1.0), hours).number(KWH) / 1000.0))
        }),
        ("T.energy-cost-year", |row| {
            if row.given("head").is_some() {
                return Err(Problem::LeftOut("no sheet takes a pump's power from head and flow yet"));
            }
            let demand = match row.text("demand factor")?.split_whitespace().next().unwrap_or_default() {
                "70/270" => 70.0 / 270.0,
                _ => row.number("demand factor")?,
            };
            let hours = Q::constant("t", row.number("hours")?, HOUR);
            let price = Q::constant("p", row.number("price")?, PER_KWH);
            Ok(Found::Number(
                cost_of(energy_used(row.q("P", KW)?, Q::from(demand), hours), price).number(MONEY),
            ))
        }),
    ]
}
