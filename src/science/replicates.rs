//! Results of repeated analyses: mean, spread, how far to trust the mean, and what stands out.

use crate::quantity::Q;
use crate::science::Refusal;
use crate::science::solve::bisect;
use crate::units::{NUMBER, Unit};
use std::f64::consts::PI;

/// The mean.
pub fn mean(values: &[Q]) -> Result<Q, Refusal> {
    if values.is_empty() {
        return Err(Refusal::new("there is no result yet", "Type one."));
    }
    Ok(values.iter().copied().sum::<Q>() / values.len() as f64)
}

/// Standard deviation of a sample, with n − 1. Refuses a single value: it has no spread.
pub fn standard_deviation(values: &[Q], mean: Q, unit: &'static Unit) -> Result<Q, Refusal> {
    if values.len() < 2 {
        return Err(Refusal::new("one result has no spread", "Type a second one."));
    }
    let squares: f64 = values.iter().map(|value| (value.si - mean.si).powi(2)).sum();
    let si = (squares / (values.len() as f64 - 1.0)).sqrt();
    let arguments: Vec<Q> = values.iter().copied().chain([mean]).collect();
    Ok(Q::call("standard deviation of", &arguments, unit.from_si(si), unit))
}

/// Half the width of the interval that holds the true mean with a confidence: t·s/√n.
///
/// t the two-sided quantile of Student's distribution with n − 1 degrees of freedom.
pub fn half_width(s: Q, n: usize, confidence: f64) -> Result<Q, Refusal> {
    let t = t_quantile(n.saturating_sub(1) as u32, 0.5 + 0.5 * confidence)?;
    Ok(t * s / Q::constant("n", n as f64, NUMBER).sqrt())
}

/// The quantile of Student's t distribution: what a value stays below with probability `p`, 0.5 to 1.
///
/// For whole degrees of freedom from 1 to 1000. Abramowitz and Stegun, 26.7.3 and 26.7.4, solved by
/// bracketing.
pub fn t_quantile(degrees: u32, p: f64) -> Result<Q, Refusal> {
    if !(1..=1000).contains(&degrees) || !(0.5..1.0).contains(&p) {
        return Err(Refusal::new(
            "Student’s t asks for at least two results and a confidence below 100 %",
            "Type another result, or a lower confidence.",
        ));
    }
    let within = 2.0 * p - 1.0;
    let t = bisect(|angle| within - inside(degrees, angle), 0.0, 0.5 * PI);
    let arguments = [f64::from(degrees).into(), p.into()];
    Ok(Q::call("t", &arguments, t.tan() * f64::from(degrees).sqrt(), NUMBER))
}

/// The probability between −t and t, with t = √ν·tan θ.
fn inside(degrees: u32, angle: f64) -> f64 {
    let (sin, cos) = angle.sin_cos();
    let odd = degrees % 2 == 1;
    let (mut term, mut sum) = if odd { (cos, 0.0) } else { (1.0, 0.0) };
    let mut k = if odd { 1 } else { 0 };
    while k + 2 <= degrees {
        sum += term;
        term *= cos * cos * f64::from(k + 1) / f64::from(k + 2);
        k += 2;
    }
    if odd { 2.0 / PI * (angle + sin * sum) } else { sin * sum }
}

/// The value that stands furthest from the mean: which one, and by how many standard deviations.
pub fn furthest(values: &[Q], mean: Q, s: Q) -> Option<(usize, Q)> {
    if s.si <= 0.0 {
        return None;
    }
    let distance = |value: &Q| (value.si - mean.si).abs();
    let (k, value) = values.iter().enumerate().max_by(|a, b| distance(a.1).total_cmp(&distance(b.1)))?;
    let away = if value.si < mean.si { mean - *value } else { *value - mean };
    Some((k, away / s))
}

/// The most standard deviations that the furthest of n results may be off before it counts as an outlier.
///
/// Grubbs' test, two-sided: `(n − 1)/√n·√(t²/(n − 2 + t²))` with t at `1 − α/(2n)` and n − 2 degrees of
/// freedom. n from 3; `risk` α of calling a good one bad. NIST/SEMATECH e-Handbook, 1.3.5.17.1.
pub fn most_off(n: usize, risk: f64) -> Result<Q, Refusal> {
    if n < 3 {
        return Err(Refusal::new("two results cannot say which one is off", "Type a third one."));
    }
    let count = n as f64;
    let t = t_quantile(n as u32 - 2, 1.0 - risk / (2.0 * count))?.si;
    let most = (count - 1.0) / count.sqrt() * (t * t / (count - 2.0 + t * t)).sqrt();
    Ok(Q::call("most off of", &[count.into(), risk.into()], most, NUMBER))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::ML;

    fn is(found: f64, expected: f64, within: f64) {
        assert!((found - expected).abs() <= within, "{found}, not {expected}");
    }

    /// Any printed table of Student's t, two-sided 95 %: 12.706, 4.303, 3.182 for 1, 2 and 3; 1.96 for many.
    #[test]
    fn few_results_say_little() {
        for (degrees, expected) in [(1, 12.706), (2, 4.303), (3, 3.182), (30, 2.042), (1000, 1.962)] {
            is(t_quantile(degrees, 0.975).unwrap().si, expected, 6e-4);
        }
        assert!(t_quantile(0, 0.975).is_err());
    }

    /// NIST/SEMATECH e-Handbook 1.3.5.17.1, uranium isotope data: the furthest is 2.4687 off, and 2.032 is
    /// the most for one side at 5 %, which is two sides at 10 %.
    #[test]
    fn a_result_that_stands_out() {
        let values = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
        let values = values.map(|value| Q::constant("V", value, ML));
        let middle = mean(&values).unwrap();
        let s = standard_deviation(&values, middle, ML).unwrap();
        let (k, off) = furthest(&values, middle, s).unwrap();
        assert_eq!(k, 7);
        is(off.si, 2.4687, 1e-4);
        is(most_off(8, 0.10).unwrap().si, 2.032, 1e-3);
        assert!(most_off(2, 0.05).is_err());
    }
}
