//! What the measured outlet of a small column says of a bed.

use super::Refusal;
use super::bounds::above_zero;
use crate::quantity::Q;
use crate::units::{NUMBER, PER_HOUR, SECOND};

/// A test: what ran in, and the outlet over time.
pub struct Test {
    inlet: Q,
    /// Times and outlets, from the first to the last.
    readings: Vec<(Q, Q)>,
}

/// The slope of a logistic curve through a test.
#[derive(Clone, Copy, Debug)]
pub struct Slope {
    /// Rate constant times inlet, per time.
    pub rate: Q,
    /// Share of the scatter that the line explains.
    pub fit: Q,
}

impl Test {
    /// A test of an inlet and readings in any order, each of a time and an outlet in the unit of the inlet.
    ///
    /// Refuses an inlet of nothing, fewer than three readings, two at one time, and an outlet more than a tenth
    /// above the inlet.
    pub fn new(inlet: Q, mut readings: Vec<(Q, Q)>) -> Result<Test, Refusal> {
        above_zero(inlet, "Nothing ran into the column.")?;
        if readings.len() < 3 {
            return Err(Refusal::new("Three readings at least make a curve.", "Type more of them."));
        }
        crate::order::sort(&mut readings, |a, b| a.0.si.total_cmp(&b.0.si));
        if readings.windows(2).any(|pair| pair[0].0.si >= pair[1].0.si) {
            return Err(Refusal::new("Two readings are of one time.", "Leave one out."));
        }
        if readings.iter().any(|(_, c)| c.si > 1.1 * inlet.si) {
            return Err(Refusal::new(
                "An outlet is above what runs in.",
                "Check the reading; ions that the resin likes better may also drive metal out again.",
            ));
        }
        Ok(Test { inlet, readings })
    }

    /// Time that stands for the whole capacity: `∫(1 − c/c0)·dt`, by trapezoids from nothing at the start.
    ///
    /// Holds if the last reading is near the inlet. Source: Geankoplis, Transport Processes and Separation
    /// Process Principles, adsorption in a fixed bed.
    pub fn total(&self) -> Q {
        let last = self.readings.last().map_or(0.0, |(t, _)| t.si);
        self.seconds("time of the whole capacity", self.held_until(last))
    }

    /// The same until a time: what of the capacity is used by then. Source: as there.
    pub fn until(&self, t: Q) -> Q {
        Q::call("time of the capacity used", &[t], self.held_until(t.si), SECOND)
    }

    /// Time at which the outlet comes to a concentration, between two readings by a straight line.
    /// Refuses one that it never comes to. Source: definition.
    pub fn reaches(&self, c: Q) -> Result<Q, Refusal> {
        let (mut t0, mut c0) = (0.0, 0.0);
        for (t, reading) in &self.readings {
            if reading.si >= c.si {
                let share = if reading.si > c0 { (c.si - c0) / (reading.si - c0) } else { 1.0 };
                return Ok(Q::call(
                    "time at which the outlet reaches",
                    &[c],
                    t0 + (t.si - t0) * share,
                    SECOND,
                ));
            }
            (t0, c0) = (t.si, reading.si);
        }
        Err(Refusal::new("No reading comes to the break.", "Run the test on, or take a lower break."))
    }

    /// The largest outlet, as a share of the inlet.
    pub fn ends_at(&self) -> Q {
        let most = self.readings.iter().map(|(_, c)| *c).reduce(Q::max).unwrap_or(self.inlet);
        most / self.inlet
    }

    /// The logistic curve of Thomas through the readings: least squares of `ln(c0/c − 1)` over the time.
    ///
    /// Readings of 1 to 99 % of the inlet count; below and above the logarithm magnifies their error.
    /// Refuses fewer than three of them, and an outlet that does not rise.
    /// Source: Thomas, J. Am. Chem. Soc. 66 (1944) 1664, in its logistic form.
    pub fn slope(&self) -> Result<Slope, Refusal> {
        let points: Vec<(f64, f64)> = (self.readings.iter())
            .map(|(t, c)| (t.si, c.si / self.inlet.si))
            .filter(|(_, x)| (0.01..=0.99).contains(x))
            .map(|(t, x)| (t, (1.0 / x - 1.0).ln()))
            .collect();
        if points.len() < 3 {
            return Err(Refusal::new(
                "Fewer than three readings are between 1 and 99 % of what runs in.",
                "Read the outlet more often while it rises.",
            ));
        }
        let n = points.len() as f64;
        let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / n;
        let (t, y) = (mean(|point| point.0), mean(|point| point.1));
        let sum = |of: &dyn Fn(f64, f64) -> f64| points.iter().map(|(a, b)| of(a - t, b - y)).sum::<f64>();
        let [tt, ty, yy] = [sum(&|a, _| a * a), sum(&|a, b| a * b), sum(&|_, b| b * b)];
        if ty >= 0.0 {
            return Err(Refusal::new("The outlet does not rise with time.", "Check the readings."));
        }
        let arguments = self.arguments();
        let rate = Q::call("slope of ln(c0/c − 1) over t", &arguments, PER_HOUR.from_si(-ty / tt), PER_HOUR);
        Ok(Slope { rate, fit: Q::call("share explained", &arguments, ty * ty / (tt * yy), NUMBER) })
    }

    fn held_until(&self, end: f64) -> f64 {
        let (mut t0, mut x0, mut sum) = (0.0, 0.0, 0.0);
        for (t, c) in &self.readings {
            let x = c.si / self.inlet.si;
            let (t1, x1) =
                if t.si > end { (end, x0 + (x - x0) * (end - t0) / (t.si - t0)) } else { (t.si, x) };
            sum += (t1 - t0) * (1.0 - 0.5 * (x0 + x1));
            (t0, x0) = (t.si, x);
            if t.si >= end {
                break;
            }
        }
        sum
    }

    fn arguments(&self) -> Vec<Q> {
        self.readings.iter().flat_map(|(t, c)| [*t, *c]).collect()
    }

    fn seconds(&self, name: &'static str, seconds: f64) -> Q {
        Q::call(name, &self.arguments(), seconds, SECOND)
    }
}

/// Depth of bed that is not used when the outlet breaks through: `H·(1 − t_u/t_t)`.
///
/// `t_u` [`Test::until`] the break, `t_t` [`Test::total`]. The same in a deeper bed at the same velocity.
/// Source: Geankoplis, as there.
pub fn unused_depth(depth: Q, used: Q, total: Q) -> Q {
    depth * (1.0 - used / total)
}

/// Time to the break of a deeper bed at the same velocity: `t_b·(H_2 − H_u)/(H − H_u)`.
///
/// `H_u` [`unused_depth`]. Refuses a bed that is no deeper than what is not used of it.
/// Source: Geankoplis, as there; ion-exchange tutorial, tutorial 1.
pub fn break_of_depth(time: Q, depth: Q, unused: Q, full: Q) -> Result<Q, Refusal> {
    above_zero(depth - unused, "All of the test bed is unused at the break.")?;
    above_zero(full - unused, "That bed is no deeper than what is not used of it.")?;
    Ok(time * (full - unused) / (depth - unused))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{HOUR, MEQ_PER_L};

    fn test(readings: &[(f64, f64)]) -> Result<Test, Refusal> {
        let c = |c: f64| Q::constant("c", c, MEQ_PER_L);
        Test::new(c(2.0), readings.iter().map(|(t, x)| (Q::constant("t", *t, HOUR), c(2.0 * x))).collect())
    }

    /// By hand: a step at 10 h is 10 h of capacity; a logistic curve gives back its own slope.
    #[test]
    fn known_curves_give_back_what_they_were_made_of() {
        let step = test(&[(9.999_999, 0.0), (10.0, 1.0), (12.0, 1.0)]).unwrap();
        assert!((step.total().number(HOUR) - 10.0).abs() < 1e-5);
        let at = |t: f64| (t, 1.0 / (1.0 + (0.8 * (20.0 - t)).exp()));
        let curve = test(&[at(24.0), at(18.0), at(20.0), at(22.0)]).unwrap().slope().unwrap();
        assert!((curve.rate.number(PER_HOUR) - 0.8).abs() < 1e-9 && (curve.fit.si - 1.0).abs() < 1e-9);
    }

    #[test]
    fn readings_that_make_no_curve_are_refused() {
        assert!(test(&[(1.0, 0.1), (2.0, 0.2)]).is_err());
        assert!(test(&[(1.0, 0.1), (1.0, 0.2), (2.0, 0.3)]).is_err());
        assert!(test(&[(1.0, 0.1), (2.0, 0.5), (3.0, 1.2)]).is_err());
        let falling = test(&[(1.0, 0.5), (2.0, 0.3), (3.0, 0.1)]).unwrap();
        assert!(falling.slope().is_err());
        assert!(falling.reaches(Q::constant("c", 1.9, MEQ_PER_L)).is_err());
    }
}
