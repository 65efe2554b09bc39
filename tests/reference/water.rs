//! Water, its vapour and the air over it.

use crate::runner::*;
use bathbook::science::water;
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![("J.water-density", |row| Ok(Found::Quantity(water::density(row.q("T", CELSIUS)?)?, KG_PER_M3)))]
}
