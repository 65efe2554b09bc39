//! How the outlet of a bed rises with time: two published forms, and what a measured curve says of a bed.

use super::bounds::above_zero;
use super::{Refusal, solve};
use crate::quantity::Q;
use crate::units::NUMBER;

/// A column in service.
#[derive(Clone, Copy, Debug)]
pub struct Column {
    /// Equivalents that run in, per volume of water.
    pub inlet: Q,
    /// Equivalents that a volume of bed holds when it is full of them.
    pub capacity: Q,
    /// Time that water would stay in the empty bed: depth over velocity, or volume over flow.
    pub contact: Q,
    /// Share of the bed's volume between the beads.
    pub void: Q,
}

/// Above this the front is so steep that `exp(A) − 1` is `exp(A)` to the last figure.
const STEEP: f64 = 40.0;
/// Where the form of Klinkenberg turns back: `√τ + 1/(8·√τ)` is least.
const TURNS: f64 = 0.125;

impl Column {
    /// Share of the inlet at the outlet: `1/(1 + exp(−B)·(exp(A) − 1))`, `A = k·N0·τ`, `B = k·c0·(t − ε·τ)`.
    ///
    /// `k` rate constant, `N0` capacity, `τ` contact time, `c0` inlet, `t` time of service, `ε` void.
    /// Holds for ions that the resin binds firmly (nearly a rectangular isotherm), plug flow and an inlet that
    /// stays. For `A > 3` it is the logistic curve of Thomas, and that of Yoon and Nelson with `k·c0` for their
    /// constant. Trust: that of `k`, which one column test with the same water gives.
    /// Source: Bohart and Adams, J. Am. Chem. Soc. 42 (1920) 523; checked against marching of the equations.
    pub fn bohart_adams(&self, k: Q, t: Q) -> Q {
        let (a, b) = (k * self.capacity * self.contact, k * self.inlet * (t - self.void * self.contact));
        if a.si > STEEP {
            return 1.0 / (1.0 + (a - b).exp());
        }
        1.0 / (1.0 + (-b).exp() * (a.exp() - 1.0))
    }

    /// Time at which the outlet comes to a share of the inlet:
    /// `ε·τ + (ln(exp(A) − 1) − ln(1/x − 1))/(k·c0)`; inverse of [`bohart_adams`](Column::bohart_adams).
    ///
    /// Refuses a share that is not between 0 and 1, and one that the outlet has from the first drop.
    pub fn bohart_adams_time(&self, k: Q, x: Q) -> Result<Q, Refusal> {
        let odds = odds(x)?;
        let a = above_zero(k, "The rate constant is nought.")? * self.capacity * self.contact;
        let steep = if a.si > STEEP { a } else { (a.exp() - 1.0).ln() };
        if steep.si <= odds.si {
            return Err(too_short());
        }
        Ok(self.void * self.contact + (steep - odds) / (k * self.inlet))
    }

    /// Share of the inlet at the outlet: `½·(1 + erf(√τ − √ξ + 1/(8·√τ) + 1/(8·√ξ)))`,
    /// `ξ = k·N0·t0/c0`, `τ = k·(t − ε·t0)`.
    ///
    /// `k` rate constant per time, `t0` contact time; `N0/c0` is what a bed holds per what runs in.
    /// Holds for a linear isotherm: ions that are held loosely, or far from filling the resin. Within 0.6 % of
    /// the inlet for `ξ > 2`; below `τ = 1/8`, where the form turns back, its least value stands.
    /// Refuses `ξ` of 2 and less. Source: Klinkenberg, Ind. Eng. Chem. 46 (1954) 2285; checked against the
    /// integral of Anzelius and Schumann.
    pub fn klinkenberg(&self, k: Q, t: Q) -> Result<Q, Refusal> {
        let xi = self.transfer_units(k)?;
        let tau = k * (t - self.void * self.contact);
        let x = klinkenberg(xi.si, tau.si);
        Ok(Q::call("form of Klinkenberg", &[xi, tau], x, NUMBER))
    }

    /// Time at which the outlet comes to a share of the inlet, by [`klinkenberg`](Column::klinkenberg).
    ///
    /// Refuses as that does, a share that is not between 0 and 1, and one that the outlet has from the first drop.
    pub fn klinkenberg_time(&self, k: Q, x: Q) -> Result<Q, Refusal> {
        odds(x)?;
        let xi = self.transfer_units(k)?;
        if klinkenberg(xi.si, TURNS) >= x.si {
            return Err(too_short());
        }
        let mut most = xi.si;
        while klinkenberg(xi.si, most) < x.si && most < 1e12 {
            most *= 2.0;
        }
        let tau = solve::bisect(|tau| x.si - klinkenberg(xi.si, tau), TURNS, most);
        Ok(self.void * self.contact + Q::call("τ for the share", &[xi, x], tau, NUMBER) / k)
    }

    /// Transfer units of the bed: `k·N0·t0/c0`.
    fn transfer_units(&self, k: Q) -> Result<Q, Refusal> {
        let xi = k * self.capacity * self.contact / self.inlet;
        if xi.si > 2.0 && xi.si.is_finite() {
            return Ok(xi);
        }
        Err(Refusal::new(
            "The bed has two transfer units or less, and the form of Klinkenberg holds above that.",
            "Use a larger bed, less flow, or the other form.",
        ))
    }

    /// Share of what the bed can hold that has run in by a time: `c0·t/(N0·t0)`.
    /// Source: balance of equivalents.
    pub fn used_at(&self, t: Q) -> Q {
        self.inlet * t / (self.capacity * self.contact)
    }
}

/// `ln(1/x − 1)` of a share between 0 and 1.
fn odds(x: Q) -> Result<Q, Refusal> {
    if x.si > 0.0 && x.si < 1.0 {
        return Ok((1.0 / x - 1.0).ln());
    }
    Err(Refusal::new(
        "The outlet never comes to that: it must be more than nothing and less than what runs in.",
        "Aim at less than the inlet.",
    ))
}

fn too_short() -> Refusal {
    Refusal::new(
        "The outlet is above that from the first drop: the bed is shorter than its zone of exchange.",
        "Use a larger bed or less flow.",
    )
}

fn klinkenberg(xi: f64, tau: f64) -> f64 {
    let (xi, tau) = (xi.sqrt(), tau.max(TURNS).sqrt());
    let z = tau - xi + 0.125 / tau + 0.125 / xi;
    if z < 0.0 { 0.5 * erfc(-z) } else { 1.0 - 0.5 * erfc(z) }
}

/// Complement of the error function for `z ≥ 0`, to 1.5·10⁻⁷.
/// Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26.
fn erfc(z: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.327_591_1 * z);
    let terms = [0.254_829_592, -0.284_496_736, 1.421_413_741, -1.453_152_027, 1.061_405_429];
    t * super::fit::polynomial(&terms, t) * (-z * z).exp()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{M3_PER_MOL_S, MEQ_PER_L, PER_DAY, SECOND};

    fn column() -> Column {
        Column {
            inlet: Q::constant("c0", 1.0, MEQ_PER_L),
            capacity: Q::constant("N0", 800.0, MEQ_PER_L),
            contact: Q::constant("τ", 400.0, SECOND),
            void: Q::from(0.38),
        }
    }

    fn k() -> Q {
        Q::constant("k", 2e-5, M3_PER_MOL_S)
    }

    /// Characteristic marching of the plug-flow equations in numpy: 0.40098 of the inlet after 300 000 s.
    #[test]
    fn the_front_passes_when_the_bed_is_full() {
        let x = column().bohart_adams(k(), Q::constant("t", 3e5, SECOND));
        assert!((x.si - 0.40098).abs() < 0.02 * 0.40098, "{}", x.si);
        let t = column().bohart_adams_time(k(), x).unwrap();
        assert!((t.number(SECOND) / 3e5 - 1.0).abs() < 1e-9);
    }

    /// scipy quad of the exact solution: 0.54489 at ξ = τ = 10, 0.301617 at ξ = 40 and τ = 35; within 0.6 %.
    #[test]
    fn the_linear_form_is_near_the_exact_one() {
        for (xi, tau, exact) in [(10.0, 10.0, 0.54489), (40.0, 35.0, 0.301617), (5.0, 3.0, 0.298193)] {
            assert!((klinkenberg(xi, tau) / exact - 1.0).abs() < 0.006);
        }
        let rate = Q::constant("k", 10.0, PER_DAY);
        let x = column().klinkenberg(rate, Q::constant("t", 2.9e5, SECOND)).unwrap();
        let t = column().klinkenberg_time(rate, x).unwrap();
        assert!((t.number(SECOND) / 2.9e5 - 1.0).abs() < 1e-6);
    }

    #[test]
    fn the_outlet_never_falls_and_stays_between_nothing_and_the_inlet() {
        for scale in [1e-3, 0.03, 1.0, 1e3] {
            let rate = Q::constant("k", 10.0, PER_DAY);
            let mut last = [0.0, 0.0];
            for hour in 0..400 {
                let t = Q::constant("t", f64::from(hour) * 3600.0, SECOND);
                let now =
                    [column().bohart_adams(scale * k(), t).si, column().klinkenberg(rate, t).unwrap().si];
                assert!(now.iter().zip(last).all(|(now, last)| (last..=1.0).contains(now)), "{now:?}");
                last = now;
            }
        }
    }

    #[test]
    fn a_bed_shorter_than_its_zone_of_exchange_is_refused() {
        let short = Column { contact: Q::constant("τ", 4.0, SECOND), ..column() };
        assert!(short.bohart_adams_time(k(), Q::from(0.01)).is_err());
        assert!(short.klinkenberg(Q::constant("k", 10.0, PER_DAY), Q::constant("t", 1.0, SECOND)).is_err());
        assert!(column().bohart_adams_time(k(), Q::from(1.0)).is_err());
    }
}
