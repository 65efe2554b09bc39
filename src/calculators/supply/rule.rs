//! Which way suits a liquid, and what decides: a rule of the trade, common practice, no source.
//!
//! Of the four ways the first is taken that nothing speaks against, from the one with the least hardware to the one
//! with the most. Hazard speaks first, then what is poured at one time, then the volume a day (as the time that the
//! largest container lasts there), then distance and rise. Nothing speaks against a bulk line.

use super::meets;
use crate::calculators::choose::first;
use crate::quantity::Q;

pub const NOTHING: &str = "no liquid of it";
pub const POUR: &str = "poured by hand";
pub const DIP: &str = "dip tube from its container";
pub const CABINET: &str = "cabinet with a pump";
pub const BULK: &str = "bulk line";
/// The ways, the least hardware first.
pub const ORDER: [&str; 4] = [POUR, DIP, CABINET, BULK];

pub const NO_LIQUID: &str = "nothing is used, or it is a solid";
pub const SIMPLEST: &str = "nothing speaks against the simplest way";
pub const HAZARD: &str = "its hazard";
pub const AT_ONCE: &str = "the volume at one time";
pub const A_DAY: &str = "the volume a day";
pub const CHANGES: &str = "its container would not last";
pub const FAR: &str = "distance or rise";

/// A liquid, and where it has to go.
pub struct Case {
    pub hazard: &'static str,
    /// Used a day.
    pub day: Q,
    /// Most at one time.
    pub at_once: Q,
    /// Used until a container may be changed.
    pub between: Q,
    pub run: Q,
    pub rise: Q,
}

/// Up to where each way is usual.
pub struct Limits {
    pub poured_a_day: Q,
    pub poured_at_once: Q,
    /// Usable volume of the largest container beside the bath.
    pub beside: Q,
    pub tube_run: Q,
    pub tube_rise: Q,
    /// Usable volume of the largest container in the cabinet.
    pub cabinet: Q,
    pub cabinet_run: Q,
}

/// What speaks first against a way.
pub fn against(way: &str, case: &Case, limits: &Limits) -> Option<&'static str> {
    let has = |is: bool, why: &'static str| is.then_some(why);
    match way {
        POUR => has(case.hazard != meets::NONE, HAZARD)
            .or(has(case.at_once > limits.poured_at_once, AT_ONCE))
            .or(has(case.day > limits.poured_a_day, A_DAY)),
        // An open container beside the bath is nothing for what kills in small amounts.
        DIP => has([meets::CYANIDE, meets::FLUORIDE].contains(&case.hazard), HAZARD)
            .or(has(case.between > limits.beside, CHANGES))
            .or(has(case.run > limits.tube_run || case.rise > limits.tube_rise, FAR)),
        CABINET => has(case.between > limits.cabinet, CHANGES).or(has(case.run > limits.cabinet_run, FAR)),
        _ => None,
    }
}

/// The way that suits, and what speaks against the one before it.
pub fn suits(case: &Case, limits: &Limits) -> (&'static str, &'static str) {
    let (way, why) = first(&ORDER, SIMPLEST, |way| against(way, case, limits));
    (way.unwrap_or(BULK), why)
}
