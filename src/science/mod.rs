//! Sourced laws, each a pure function of quantities.
//!
//! Every function states: what it gives, its symbols, where it holds, how far to trust it, and its
//! source. It is written in [`Q`](crate::quantity::Q), so it shows itself in the working and is
//! checked for dimensions; what a table, a fit or an iteration gives is a named call
//! ([`Q::call`](crate::quantity::Q::call)). Outside of where it holds a law refuses.

pub mod fit;
pub mod solve;
pub mod elements;
pub mod formula;
pub mod solution_make_up;
pub mod water;
pub mod air;
mod solutes;
pub mod solutions;
pub mod dilution;
pub mod heat_of_mixing;
pub mod pipe;
pub mod evaporation;
pub mod heating;
pub mod exchange;
pub mod open_tank;
pub mod drain;
pub mod lift;
pub mod rinse;
pub mod regulation;
pub mod segregation;

/// A law was asked outside of where it holds, or for what cannot be: a reason and what would do.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal {
    /// Why there is no answer.
    pub reason: String,
    /// What to do.
    pub remedy: String,
}

/// Whether a quantity is above zero; not a number is not.
fn above_zero(q: crate::quantity::Q) -> bool {
    q.si > 0.0
}

impl Refusal {
    /// A refusal.
    pub fn new(reason: impl Into<String>, remedy: impl Into<String>) -> Refusal {
        Refusal { reason: reason.into(), remedy: remedy.into() }
    }
}
pub mod metals;
