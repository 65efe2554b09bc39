//! Small arithmetic that fits and tables share, and the refusal outside of their range.

use super::Refusal;
use crate::quantity::Q;
use crate::units::{CELSIUS, Unit};

/// The polynomial `c₀ + c₁x + c₂x² + …`.
pub fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// Straight lines between the points `(x, y)`, whose `x` rise; beyond either end the end's value.
/// Callers refuse what lies beyond.
pub fn between(points: &[(f64, f64)], x: f64) -> f64 {
    let after = points.partition_point(|point| point.0 < x);
    match (after.checked_sub(1).and_then(|k| points.get(k)), points.get(after)) {
        (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0),
        (Some(end), None) | (None, Some(end)) => end.1,
        (None, None) => 0.0,
    }
}

/// The number of `unit` in `q`, if it is within `low` to `high`; `what` names it in the refusal:
/// "the water's temperature". Rounding in the last figures does not count as outside.
pub fn within(q: Q, unit: &'static Unit, low: f64, high: f64, what: &str) -> Result<f64, Refusal> {
    let number = q.number(unit);
    let slack = 1e-9 * high.abs().max(low.abs());
    if (low - slack..=high + slack).contains(&number) {
        return Ok(number.clamp(low, high));
    }
    let symbol = unit.symbol;
    let gap = if symbol.is_empty() { "" } else { " " };
    let shown = if number.is_finite() { format!("{number:.4}") } else { "not a number".into() };
    let shown = shown.trim_end_matches('0').trim_end_matches('.');
    Err(Refusal::new(
        format!("{what} is {shown}{gap}{symbol}; what is known holds from {low} to {high}{gap}{symbol}"),
        format!("take a value from {low} to {high}{gap}{symbol}, or type a measured figure instead"),
    ))
}

/// A temperature in °C within a range.
pub fn celsius_within(t: Q, low: f64, high: f64, what: &str) -> Result<f64, Refusal> {
    within(t, CELSIUS, low, high, what)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_is_read_between_its_points() {
        let points = [(0.0, 1.0), (1.0, 3.0), (3.0, 4.0)];
        assert_eq!([0.0, 0.5, 1.0, 2.0, 3.0].map(|x| between(&points, x)), [1.0, 2.0, 3.0, 3.5, 4.0]);
        assert_eq!(between(&[], 2.0), 0.0);
        assert_eq!(polynomial(&[1.0, 2.0, 3.0], 2.0), 17.0);
    }

    #[test]
    fn what_lies_outside_is_refused_with_the_range() {
        let t = |number| Q::constant("T", number, CELSIUS);
        assert_eq!(celsius_within(t(100.0), 0.0, 100.0, "it"), Ok(100.0));
        let refusal = celsius_within(t(101.5), 0.0, 100.0, "the water's temperature").unwrap_err();
        assert!(refusal.reason.starts_with("the water's temperature is 101.5 °C;"), "{}", refusal.reason);
        assert!(celsius_within(t(f64::NAN), 0.0, 100.0, "it").is_err());
    }
}
