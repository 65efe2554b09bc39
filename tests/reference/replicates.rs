//! Repeated analyses.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::replicates::{half_width, mean, standard_deviation, t_quantile};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("V.t-quantile", |row| {
            Ok(Found::Quantity(t_quantile(row.number("df")? as u32, row.number("p")?)?, NUMBER))
        }),
        ("V.mean-half-width-95", |row| {
            let values = row.text("values")?.split(',').map(|text| Ok(Q::named("V", value(text, ML)?)));
            let values = values.collect::<Result<Vec<Q>, Problem>>()?;
            let s = standard_deviation(&values, mean(&values)?, ML)?;
            Ok(Found::Quantity(half_width(s, values.len(), 0.95)?, ML))
        }),
    ]
}
