//! Compressed air and nitrogen: one amount of gas, told at whatever reference; what compresses and stores it.
//!
//! A flow of gas is an amount in a time. Normal and standard litres are that amount at a named reference (units
//! of [`GasFlow`](crate::units::Kind::GasFlow)); actual litres are a volume, and need temperature and pressure.

use super::Refusal;
use super::bounds::{positive, share};
use crate::quantity::Q;
use crate::units::{J_PER_MOL_K, KELVIN};

/// `R·T`, with R 8.314462618 J/(mol·K) (CODATA 2018) and the temperature from absolute zero.
fn thermal(t: Q) -> Result<Q, Refusal> {
    let kelvins = t - Q::constant("0 K", 0.0, KELVIN);
    positive(kelvins, "the temperature above absolute zero")?;
    Ok(Q::constant("R", 8.314462618, J_PER_MOL_K) * kelvins)
}

/// Amount of gas in a time, from actual litres: `p·q/(R·T)`.
///
/// `q` volume in a time at the pipe's own temperature `T` and absolute pressure `p`: a gauge reads less by the
/// pressure of the room's air. Ideal gas; 0.5 % at 10 bar for air and nitrogen (from memory).
/// Refuses a vacuum and absolute zero. Source: law of ideal gases.
pub fn amount_flow(q: Q, t: Q, p: Q) -> Result<Q, Refusal> {
    Ok(positive(p, "the absolute pressure")? * q / thermal(t)?)
}

/// Actual litres of an amount of gas in a time: `n·R·T/p`, the inverse of [`amount_flow`], as far to be trusted.
///
/// Refuses a vacuum and absolute zero. Source: law of ideal gases.
pub fn actual_flow(n: Q, t: Q, p: Q) -> Result<Q, Refusal> {
    Ok(n * thermal(t)? / positive(p, "the absolute pressure")?)
}

/// Power of one stage that compresses air: `k/(k − 1)·p1·q·((p2/p1)^((k − 1)/k) − 1)/η`, `k` 1.4.
///
/// `q` actual flow at the inlet, `p1` and `p2` absolute pressures there and at the outlet, `η` efficiency against
/// the isentropic. Holds for air and nitrogen; two stages with a cooler between them take 10 to 15 % less at
/// 7 bar (from memory). Refuses an outlet not above the inlet.
/// Source: isentropic work of an ideal gas, as `isentropic_work_compression` of `fluids` 1.3.1.
pub fn compressor_power(q: Q, inlet: Q, outlet: Q, efficiency: Q) -> Result<Q, Refusal> {
    share(efficiency, "the efficiency of the compressor")?;
    positive(inlet, "the pressure at the inlet")?;
    if outlet.si <= inlet.si {
        return Err(Refusal::new(
            "The pressure supplied is not above that of the room's air.",
            "Give the pressure that the line is to have, as a gauge reads it.",
        ));
    }
    Ok(3.5 * inlet * q * ((outlet / inlet).pow(2, 7) - 1.0) / efficiency)
}

/// Time that a receiver lasts without its compressor: `V·(p1 − p2)/(n·R·T)`.
///
/// `V` receiver, `p1` pressure at the start, `p2` the least that tools bear (both gauge or both absolute), `n`
/// what is drawn off it. At constant temperature. Refuses no draw. Source: ideal gas.
pub fn receiver_time(v: Q, p1: Q, p2: Q, n: Q, t: Q) -> Result<Q, Refusal> {
    Ok(v * falls(p1, p2)? / (positive(n, "what is drawn off the receiver")? * thermal(t)?))
}

/// Receiver that lasts a time without its compressor: `n·R·T·t/(p1 − p2)`, the inverse of [`receiver_time`].
/// Refuses a pressure that does not fall. Source: ideal gas.
pub fn receiver_volume(time: Q, p1: Q, p2: Q, n: Q, t: Q) -> Result<Q, Refusal> {
    Ok(n * thermal(t)? * time / falls(p1, p2)?)
}

fn falls(p1: Q, p2: Q) -> Result<Q, Refusal> {
    let fall = p1 - p2;
    if fall.si > 0.0 {
        return Ok(fall);
    }
    Err(Refusal::new(
        "The least pressure that the tools bear is not below the pressure supplied.",
        "Give a least pressure below it, or supply more.",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn q(number: f64, unit: &'static Unit) -> Q {
        Q::constant("x", number, unit)
    }

    /// pint 0.25.3: 100 NL/min are 107.729 L/min at 70 °F and 14.696 psi; ideal gas 107.322 at 20 °C and
    /// 105.491 at 15 °C, all at 1 atm.
    #[test]
    fn normal_and_standard_litres_are_one_amount_at_two_references() {
        let normal = q(100.0, NORMAL_L_PER_MIN);
        for (unit, expected) in
            [(GAS_L_PER_MIN_70F, 107.729), (STANDARD_L_PER_MIN, 107.322), (GAS_L_PER_MIN_15, 105.491)]
        {
            assert!((normal.number(unit) / expected - 1.0).abs() < 1e-5, "{}", unit.symbol);
        }
        assert!(
            (actual_flow(normal, q(25.0, CELSIUS), q(100.0, KPA)).unwrap().number(L_PER_MIN)
                / normal.number(GAS_L_PER_MIN_25)
                - 1.0)
                .abs()
                < 1e-12
        );
    }

    /// Esposito, Fluid Power with Applications, example 13.6, as worked in FOSSEE/Python-Textbook-Companions:
    /// 30 ft³/min at 125 psi gauge and 90 °F are 275 ft³/min free at 14.7 psi and 70 °F. With the gauge's
    /// pressure for the absolute one it would be 246.
    #[test]
    fn a_gauge_reads_less_than_the_absolute_pressure() {
        let free = |psi: f64| {
            let n = amount_flow(q(30.0, CUBIC_FOOT_PER_MIN), q(90.0, FAHRENHEIT), q(psi, PSI)).unwrap();
            actual_flow(n, q(70.0, FAHRENHEIT), q(14.7, PSI)).unwrap().number(CUBIC_FOOT_PER_MIN)
        };
        assert!((free(139.7) / 275.0 - 1.0).abs() < 2e-3, "{}", free(139.7));
        assert!(free(125.0) < 250.0);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let air = q(100.0, NORMAL_L_PER_MIN);
        assert!(actual_flow(air, q(20.0, CELSIUS), q(0.0, KPA)).is_err());
        assert!(compressor_power(q(1.0, L_PER_MIN), q(101.0, KPA), q(90.0, KPA), q(70.0, PERCENT)).is_err());
        assert!(receiver_time(q(500.0, L), q(600.0, KPA), q(800.0, KPA), air, q(20.0, CELSIUS)).is_err());
    }
}
