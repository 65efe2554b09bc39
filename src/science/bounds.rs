//! Bounds that laws set on what they are given: one set for all of them.

use super::Refusal;
use crate::quantity::Q;

/// Whether a quantity is above nought; not a number is not.
pub fn is_above_zero(q: Q) -> bool {
    q.si > 0.0
}

/// Refuses what is not above nought, with a reason that says what that means.
pub fn above_zero(q: Q, otherwise: &str) -> Result<Q, Refusal> {
    if is_above_zero(q) { Ok(q) } else { Err(Refusal::new(otherwise, "Give a value above zero.")) }
}

/// Refuses what is not a number above nought, by its name.
pub fn positive(q: Q, what: &str) -> Result<Q, Refusal> {
    if is_above_zero(q) && q.si.is_finite() {
        return Ok(q);
    }
    Err(Refusal::new(format!("{what} must be more than 0"), format!("check {what}")))
}

/// Refuses what is below nought or not a number, by its name.
pub fn not_negative(q: Q, what: &str) -> Result<Q, Refusal> {
    if q.si >= 0.0 && q.si.is_finite() {
        return Ok(q);
    }
    Err(Refusal::new(format!("{what} must not be less than 0"), format!("check {what}")))
}

/// Refuses a share (purity, strength) that is not above nought and at most one, by its name.
pub fn share(q: Q, what: &str) -> Result<Q, Refusal> {
    if is_above_zero(q) && q.si <= 1.0 {
        return Ok(q);
    }
    Err(Refusal::new(
        format!("{what} must be more than 0 and at most 100 %"),
        format!("check {what}; if the label gives g/L or mol/L, use that instead"),
    ))
}
