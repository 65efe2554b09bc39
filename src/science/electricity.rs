//! Electrical load: current and power of one and three phases, what a rectifier takes, and demand.

use super::Refusal;
use super::bounds::{positive, share};
use crate::quantity::Q;

/// Power of a load on three phases that are loaded alike: `3^(1/2)·U·I·cos φ`.
///
/// `U` between two lines, not from line to neutral: that would be 1.73 times too much. `I` in a line, `cos φ`
/// power factor. Source: definition of power on three balanced phases.
pub fn three_phase_power(current: Q, voltage: Q, factor: Q) -> Q {
    Q::from(3.0).sqrt() * voltage * current * factor
}

/// Current in a line of a load on three phases that are loaded alike: `P/(3^(1/2)·U·cos φ)`.
///
/// `U` between two lines. Refuses no voltage, and a power factor that is not above 0 and at most 1.
/// Source: definition of power on three balanced phases.
pub fn three_phase_current(power: Q, voltage: Q, factor: Q) -> Result<Q, Refusal> {
    share(factor, "the power factor")?;
    Ok(power / (Q::from(3.0).sqrt() * positive(voltage, "the voltage between two lines")? * factor))
}

/// Current of a load between one line and neutral: `P·3^(1/2)/(U·cos φ)`, `U` between two lines.
///
/// Refuses as [`three_phase_current`]. Source: the voltage to neutral is `U/3^(1/2)`.
pub fn one_phase_current(power: Q, voltage: Q, factor: Q) -> Result<Q, Refusal> {
    Ok(3.0 * three_phase_current(power, voltage, factor)?)
}

/// Apparent power of three phases, by which supply and transformer are sized: `3^(1/2)·U·I`, in kVA and not in
/// kW. `I` of the fullest line. Source: definition.
pub fn apparent_power(current: Q, voltage: Q) -> Q {
    Q::from(3.0).sqrt() * voltage * current
}

/// What a rectifier takes from the mains: `I·U/η`.
///
/// `I` direct current, `U` voltage at the tank, `η` its efficiency; the direct amperes are not those of the line.
/// The difference is heat in the room or in its cooling water. Refuses an efficiency outside 0 to 100 %.
/// Source: definition.
pub fn rectifier_input(current: Q, voltage: Q, efficiency: Q) -> Result<Q, Refusal> {
    Ok(current * voltage / share(efficiency, "the efficiency of the rectifier")?)
}

/// What is drawn of a connected load in the mean: `P·d`. `d` demand factor; at a cold start all heaters run, and
/// it is 1. Of a flow, what runs in the mean of what is connected. Source: definition.
pub fn demand(connected: Q, factor: Q) -> Q {
    connected * factor
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    /// By hand, P = 3^(1/2)·U·I·cos φ: 12 kW at 400 V between lines and 0.9 take 19.245 A. With the 400 V taken
    /// from line to neutral it would be 11.1 A.
    #[test]
    fn the_voltage_is_that_between_two_lines() {
        let q = Q::constant;
        let [p, u, f] = [q("P", 12.0, KW), q("U", 400.0, VOLT), q("cos φ", 0.9, NUMBER)];
        let amperes = three_phase_current(p, u, f).unwrap();
        assert!((amperes.number(AMPERE) - 19.245).abs() < 1e-3);
        assert!((three_phase_power(amperes, u, f).number(KW) - 12.0).abs() < 1e-12);
        // One load of 4 kW on each line is 12 kW on three.
        let one = one_phase_current(q("P", 4.0, KW), u, f).unwrap();
        assert!((one.si / amperes.si - 1.0).abs() < 1e-12);
    }

    /// By hand: 32 A at 400 V are 22.17 kVA, and 19.95 kW at 0.9.
    #[test]
    fn kilovolt_amperes_are_not_kilowatts() {
        let q = Q::constant;
        let [i, u] = [q("I", 32.0, AMPERE), q("U", 400.0, VOLT)];
        assert!((apparent_power(i, u).number(KVA) - 22.1703).abs() < 1e-3);
        assert!((three_phase_power(i, u, q("cos φ", 0.9, NUMBER)).number(KW) - 19.9532).abs() < 1e-3);
        assert_ne!(KVA.kind, KW.kind);
    }
}
