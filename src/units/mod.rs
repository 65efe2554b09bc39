//! Units: what a typed number means, and how a number is shown.
//!
//! A [`Unit`] names its [`Kind`], and a kind has one dimension. So declaring `unit: L` for an input
//! says at once that it is a volume, which units the user may pick, and what to check.
//!
//! - [`table`]: every unit, one line each.
//! - [`read`]: text that a person typed, into a value or a question back.
//!   `sum`: sums in figures.
//! - [`show`]: a value into text.

pub mod dimension;
pub mod table;
pub mod read;
mod sum;
pub mod show;

pub use dimension::{Dim, Kind};
pub use read::{Unread, read};
pub use show::{Currency, Decimal, Gallon, Style, System};
pub use table::*;

/// How numbers of a unit become SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Scale {
    /// `si = number * factor + zero`; only thermometers have a zero.
    Linear {
        /// SI units in one of these.
        factor: f64,
        /// The SI value of none of these.
        zero: f64,
    },
    /// Degrees Baumé of a liquid heavier than water: specific gravity 60/60 °F is 145/(145 − °Bé).
    Baume,
}

/// Who uses a unit: it is offered to all, and preferred for answers by those.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// Everybody.
    All,
    /// Where litres are used.
    Metric,
    /// Where US gallons are used.
    Us,
    /// Only where somebody asks for it by name; never chosen for an answer.
    Asked,
}

/// One unit.
#[derive(Debug)]
pub struct Unit {
    /// As shown, and one way to type it.
    pub symbol: &'static str,
    /// Other ways to type it.
    pub aliases: &'static [&'static str],
    /// What it measures.
    pub kind: Kind,
    /// How its numbers become SI.
    pub scale: Scale,
    /// Who uses it.
    pub used: Use,
}

/// Density of water at 60 °F, in kg/m³, for Baumé and specific gravity 60/60 °F.
/// Source: 999.016 kg/m³ is the value that petroleum measurement standards use (from memory).
pub const WATER_60F: f64 = 999.016;

impl Unit {
    /// A number of these units, in SI.
    pub fn to_si(&self, number: f64) -> f64 {
        match self.scale {
            Scale::Linear { factor, zero } => number * factor + zero,
            Scale::Baume => WATER_60F * 145.0 / (145.0 - number),
        }
    }

    /// An SI value, as a number of these units.
    pub fn from_si(&self, si: f64) -> f64 {
        match self.scale {
            Scale::Linear { factor, zero } => (si - zero) / factor,
            Scale::Baume => 145.0 - 145.0 * WATER_60F / si,
        }
    }

    /// Whether `text` names this unit. "g/L" does for "g/L of metal"; "g/L of salt" does not.
    pub fn is_called(&self, text: &str) -> bool {
        self.symbol == text
            || self.aliases.contains(&text)
            || self.symbol.strip_suffix(" of metal") == Some(text)
    }

    /// Its name in a file: the symbol, which is never changed once released.
    pub fn named(kind: Kind, symbol: &str) -> Option<&'static Unit> {
        kind.units().find(|unit| unit.symbol == symbol)
    }
}

impl PartialEq for Unit {
    fn eq(&self, other: &Unit) -> bool {
        self.kind == other.kind && self.symbol == other.symbol
    }
}

/// A number with its unit, as the user meant it. `si` is SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    /// The value, in SI.
    pub si: f64,
    /// The unit to show it in.
    pub unit: &'static Unit,
}

impl Value {
    /// `number` of `unit`.
    pub fn new(number: f64, unit: &'static Unit) -> Value {
        Value { si: unit.to_si(number), unit }
    }
}
