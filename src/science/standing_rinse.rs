//! A rinse without flow: what wafers carry out of the bath stays in it, and may go back.
//!
//! Each load brings drag-out `d` of the bath; water `e`, or none, takes the place of as much that goes back to the
//! bath; all is stirred, and the load carries `d` on.

use super::Refusal;
use super::bounds::above_zero;
use crate::quantity::Q;

/// What it comes to if it is never changed: `C0·d/(d + e)`; the bath's own where nothing goes back.
///
/// One stage of a rinse with the water `e`. Exact. Refuses no drag-out. Source: balance over the tank.
pub fn standing_limit(c0: Q, d: Q, e: Q) -> Result<Q, Refusal> {
    above_zero(d, "Nothing is dragged in.")?;
    Ok(c0 * d / (d + e))
}

/// Concentration after a number of loads, filled with pure water: `C∞·(1 − (V/(V + d + e))^N)`.
///
/// `V` volume, `C∞` of [`standing_limit`]. Exact for stirred loads. Refuses no volume and no drag-out.
/// Source: recursion of the balance, summed.
pub fn standing_rinse(c0: Q, v: Q, (d, e): (Q, Q), loads: Q) -> Result<Q, Refusal> {
    above_zero(v, "The rinse has no volume.")?;
    Ok(standing_limit(c0, d, e)? * (1.0 - (loads * (v / (v + d + e)).ln()).exp()))
}

/// Loads after which it comes to a concentration: `ln(1 − C/C∞)/ln(V/(V + d + e))`.
///
/// Refuses one that it never comes to. Source: inverse of [`standing_rinse`].
pub fn loads_until(c0: Q, v: Q, (d, e): (Q, Q), c: Q) -> Result<Q, Refusal> {
    above_zero(v, "The rinse has no volume.")?;
    let limit = standing_limit(c0, d, e)?;
    if c >= limit {
        return Err(Refusal::new("It never comes to that.", "Ask for less in it, or go by days of service."));
    }
    Ok((1.0 - c / limit).ln() / (v / (v + d + e)).ln())
}

/// Concentration, in the mean over the loads, of what goes back and of what loads carry on:
/// `(N·d·C0 − V·C)/(N·(d + e))`, with `C` after the last.
///
/// Refuses no loads. Source: balance over all loads.
pub fn standing_mean(c0: Q, v: Q, (d, e): (Q, Q), loads: Q, last: Q) -> Result<Q, Refusal> {
    above_zero(loads * d, "Nothing is dragged in.")?;
    Ok((c0 * d * loads - v * last) / (loads * (d + e)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn q(number: f64, unit: &'static Unit) -> Q {
        Q::constant("x", number, unit)
    }

    /// Recursion in Python, mix then withdraw: 40 L, 2.5 mL a load of 50 g/L. With nothing going back 12.95874172 g/L
    /// after 4800 loads, 6.80419427 in the mean. With 20 mL a load going back 5.18190807 and 3.63633034, and never more
    /// than 50/9; 4 g/L are passed with load 2264.
    #[test]
    fn a_standing_rinse_fills_up() {
        let (c0, v, d, loads) = (q(50.0, G_PER_L), q(40.0, L), q(2.5, ML), Q::from(4800.0));
        let close = |found: Q, expected: f64| {
            let found = found.number(G_PER_L);
            assert!((found / expected - 1.0).abs() < 1e-7, "{found} is not {expected}");
        };
        for (back, last, mean) in [(0.0, 12.95874172, 6.80419427), (20.0, 5.18190807, 3.63633034)] {
            let flows = (d, q(back, ML));
            let found = standing_rinse(c0, v, flows, loads).unwrap();
            close(found, last);
            close(standing_mean(c0, v, flows, loads, found).unwrap(), mean);
        }
        let flows = (d, q(20.0, ML));
        close(standing_limit(c0, flows.0, flows.1).unwrap(), 50.0 / 9.0);
        let loads = loads_until(c0, v, flows, q(4.0, G_PER_L)).unwrap();
        assert!((loads.si - 2263.6865).abs() < 1e-3, "{loads:?}");
        assert!(loads_until(c0, v, flows, q(5.6, G_PER_L)).unwrap_err().reason.contains("never comes"));
    }
}
