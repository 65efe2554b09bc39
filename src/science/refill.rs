//! Filling, rinsing and draining a tank.

use super::Refusal;
use super::bounds::{not_negative, positive};
use crate::quantity::Q;
use crate::units::SHARE;

/// Time in which a volume runs in or out at a steady flow: `V/q`. A tank that drains by gravity alone slows down
/// as it empties; that is another law. Refuses no flow. Source: definition.
pub fn time_to_run(v: Q, q: Q) -> Result<Q, Refusal> {
    Ok(v / positive(q, "the flow")?)
}

/// Share of what a tank held that is left in it after rinses: `(s/(s + v))^n`.
///
/// `s` what stays behind when it is drained, `v` water let in each time, stirred and drained, `n` how often. What
/// clings to walls and soaks filters leaves more slowly: a lower bound. Refuses volumes below zero.
/// Source: balance of a stirred tank, rinse by rinse.
pub fn share_left(stays: Q, rinse: Q, times: Q) -> Result<Q, Refusal> {
    not_negative(stays, "what stays behind")?;
    not_negative(rinse, "the water of a rinse")?;
    if stays.si <= 0.0 {
        return Ok(Q::constant("nothing stays", 0.0, SHARE));
    }
    Ok((times * (stays / (stays + rinse)).ln()).exp())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    /// By hand: 10 L that stay behind and 90 L of water leave a tenth each time, so a thousandth after three.
    #[test]
    fn each_rinse_takes_its_share_of_what_is_left() {
        let q = Q::constant;
        let left = |n: f64| share_left(q("s", 10.0, L), q("v", 90.0, L), Q::from(n)).unwrap().si;
        for (n, expected) in [(0.0, 1.0), (1.0, 0.1), (3.0, 0.001)] {
            assert!((left(n) / expected - 1.0).abs() < 1e-12, "{n}");
        }
        let clean = share_left(q("s", 0.0, L), q("v", 90.0, L), Q::from(0.0)).unwrap();
        assert_eq!(clean.si, 0.0);
        assert!(time_to_run(q("V", 200.0, L), q("q", 0.0, L_PER_MIN)).is_err());
    }
}
