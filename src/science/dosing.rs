//! Dosing in whole steps of a pump, with the remainder carried on.

use super::Refusal;
use super::bounds::{not_negative, positive};
use crate::quantity::Q;
use crate::units::{ML, NUMBER};

/// The counter between two steps: `step/rate`; A·h, wafers or a time, as the rate says.
///
/// `step` of the pump, `rate` use per A·h, per wafer or per time. Refuses no use.
/// Source: arithmetic.
pub fn trigger_interval(step: Q, rate: Q) -> Result<Q, Refusal> {
    positive(step, "the step of the pump")?;
    if rate.si > 0.0 {
        return Ok(step / rate);
    }
    Err(Refusal::new(
        "Nothing is used, so nothing is dosed.",
        "Give what is used by charge, by wafer or by time.",
    ))
}

/// Volumes as whole parts of 10⁻⁶ mL: sums of these do not drift, as sums of 0.1 mL in floating point do.
fn parts(volume: Q) -> i128 {
    (volume.number(ML) * 1e6).round() as i128
}

fn whole_steps(need: Q, step: Q, triggers: f64) -> Result<Q, Refusal> {
    let each = parts(positive(step, "the step of the pump")?);
    if each == 0 || !(0.0..1e12).contains(&need.number(ML)) || !(0.0..1e12).contains(&triggers) {
        return Err(Refusal::new("The step or the need is too small or too large.", "Give them in mL."));
    }
    let steps = parts(not_negative(need, "the need")?) * triggers.floor() as i128 / each;
    Ok(Q::call("whole steps", &[need, step, Q::from(triggers)], steps as f64, NUMBER))
}

/// What is dosed at a trigger: the whole steps in need and remainder.
///
/// `need` at this trigger with what earlier ones left over. The rest is carried, so that the long-run
/// mean is exact. Refuses no step. Source: arithmetic in whole parts of 10⁻⁶ mL.
pub fn dose_now(need: Q, step: Q) -> Result<Q, Refusal> {
    Ok(whole_steps(need, step, 1.0)? * step)
}

/// What has been dosed after a number of triggers from empty: the whole steps in `n·need`.
///
/// Never more than one step off what is needed. Refuses no step. Source: as [`dose_now`].
pub fn dosed_after(need: Q, step: Q, triggers: f64) -> Result<Q, Refusal> {
    Ok(whole_steps(need, step, triggers)? * step)
}

/// A counter after a time: `rate·each·t`, such as wafers an hour times A·h a wafer times hours.
///
/// Source: arithmetic.
pub fn counter_after(rate: Q, each: Q, time: Q) -> Q {
    rate * each * time
}

/// How long a stock lasts: `v/u`. Refuses no use: it lasts until it is too old.
///
/// `v` volume, `u` use in a time. Source: arithmetic.
pub fn lasts(stock: Q, used: Q) -> Result<Q, Refusal> {
    if used.si > 0.0 {
        return Ok(stock / used);
    }
    Err(Refusal::new(
        "Nothing is used, so a bottle lasts until it is too old.",
        "Give what is used by charge, by wafer or by time.",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn ml(number: f64) -> Q {
        Q::constant("v", number, ML)
    }

    #[test]
    fn rounding_every_dose_up_would_drift_high() {
        // Exact fractions: 0.4 mL ten times is 4 mL, dosed 0,0,1,0,1,0,0,1,0,1; rounded up it would be 10.
        let each: Vec<f64> =
            (0..=10).map(|k| dosed_after(ml(0.4), ml(1.0), k.into()).unwrap().number(ML).round()).collect();
        let doses: Vec<f64> = each.windows(2).map(|pair| pair[1] - pair[0]).collect();
        assert_eq!(doses, [0.0, 0.0, 1.0, 0.0, 1.0, 0.0, 0.0, 1.0, 0.0, 1.0]);
    }

    #[test]
    fn sums_of_tenths_do_not_drift() {
        // 0.1 + 0.2 is not 0.3 in floating point; ten tenths are one whole step all the same.
        assert_eq!(dosed_after(ml(0.1), ml(1.0), 10.0).unwrap().number(ML), 1.0);
        assert_eq!(dose_now(ml(0.1 + 0.2), ml(0.3)).unwrap().number(ML), 0.3);
        assert_eq!(dosed_after(ml(7.9), ml(1.0), 5.0).unwrap().number(ML), 39.0);
    }

    #[test]
    fn a_step_comes_by_each_counter() {
        // By hand: 1 mL at 120 mL/(kA·h) every 8.333 A·h; at 0.35 mL a wafer every 2.857 wafers.
        let by_charge = trigger_interval(ml(1.0), Q::constant("r", 120.0, ML_PER_KAH)).unwrap();
        assert!((by_charge.number(A_H) - 8.33333).abs() < 1e-5);
        assert!((trigger_interval(ml(1.0), ml(0.35)).unwrap().si - 2.85714).abs() < 1e-5);
        assert!(trigger_interval(ml(1.0), ml(0.0)).is_err());
    }
}
