//! Room air: pressure at altitude, humidity, dew point, density.

use super::fit::{celsius_within, within};
use super::{Refusal, water};
use crate::quantity::Q;
use crate::units::{CELSIUS, KJ_PER_KG_K, KPA, M, PA_S, SHARE};

/// Pressure of the air at an altitude.
///
/// `p = 101.325 (1 − 2.25577e-5 z)^5.2559` in kPa.
///
/// `z` altitude above the sea, m.
///
/// Holds in the standard atmosphere, −500 to 5000 m. Weather moves it by 3 %.
///
/// Trust: 0.01 % of the standard atmosphere.
///
/// Source: ASHRAE Handbook Fundamentals, ch. 1 (the form from memory, checked against its printed
/// table in the reference rows).
pub fn pressure(altitude: Q) -> Result<Q, Refusal> {
    let z = within(altitude, M, -500.0, 5000.0, "the altitude")?;
    let p = 101.325 * (1.0 - 2.25577e-5 * z).powf(5.2559);
    Ok(Q::call("standard pressure", &[altitude], p, KPA))
}

fn humidity(rh: Q) -> Result<Q, Refusal> {
    within(rh, SHARE, 0.0, 1.0, "the relative humidity").map(|_| rh)
}

/// Pressure of the water vapour in the air.
///
/// `p_v = φ·p_s(T)`.
///
/// `φ` relative humidity, `p_s` vapour pressure of water at the air's temperature `T`.
///
/// Holds from 0 to 100 °C.
///
/// Trust: 0.5 %, as the pressure of the air is left out.
///
/// Source: the definition of relative humidity, with [`water::vapour_pressure`].
pub fn vapour_pressure(t: Q, rh: Q) -> Result<Q, Refusal> {
    Ok(humidity(rh)? * water::vapour_pressure(t)?)
}

/// Water in the air, as kg per kg of dry air.
///
/// `x = 0.621945·p_v/(p − p_v)`.
///
/// `p_v` pressure of the vapour, `p` pressure of the air; 0.621945 is the ratio of the molar masses
/// of water and air.
///
/// Holds where the vapour does not fill the air: `p_v < p`.
///
/// Trust: up to 0.7 % low, as of an ideal gas.
///
/// Source: ASHRAE Handbook Fundamentals, ch. 1, equation of the humidity ratio (ideal gas).
pub fn humidity_ratio(t: Q, rh: Q, p: Q) -> Result<Q, Refusal> {
    humidity_ratio_over(vapour_pressure(t, rh)?, p)
}

/// Water in air of which the pressure of the vapour is known: `x = 0.621945·p_v/(p − p_v)`, as
/// [`humidity_ratio`]. Holds where the vapour does not fill the air. Source: as there.
pub fn humidity_ratio_over(vapour: Q, p: Q) -> Result<Q, Refusal> {
    if !(p.si.is_finite() && vapour.si < p.si) {
        return Err(Refusal::new(
            "the vapour's pressure is as high as the pressure of the air: the water boils",
            "check the temperature, the humidity and the altitude",
        ));
    }
    Ok(0.621945 * vapour / (p - vapour))
}

/// Temperature at which the air's water starts to condense: what is colder drips.
///
/// `T_d = T_s(φ·p_s(T))`.
///
/// `T_s` the temperature at which vapour of that pressure condenses.
///
/// Holds for dew points from 0 °C up; below it is frost.
///
/// Trust: 0.05 K.
///
/// Source: the definition of the dew point, with the saturation line of IAPWS-IF97.
pub fn dew_point(t: Q, rh: Q) -> Result<Q, Refusal> {
    above_freezing(vapour_pressure(t, rh)?)
}

/// Density of dry air.
///
/// `ρ = p/(R·(T − T_0))`.
///
/// `p` pressure, `R = 0.287055 kJ/(kg·K)` gas constant of dry air, `T_0` absolute zero.
///
/// Holds from −40 to 150 °C near 1 atm. Moist air is lighter: about 1 % at 25 °C and saturated.
///
/// Trust: 0.05 %.
///
/// Source: law of ideal gases; R from 8.314462618 J/(mol·K) and 28.9647 g/mol (standard
/// atmosphere, from memory).
pub fn density(t: Q, p: Q) -> Result<Q, Refusal> {
    celsius_within(t, -40.0, 150.0, "the air's temperature")?;
    within(p, KPA, 30.0, 200.0, "the pressure of the air")?;
    let r = Q::constant("R", 0.287055, KJ_PER_KG_K);
    Ok(p / (r * (t - Q::constant("T₀", -273.15, CELSIUS))))
}

/// Viscosity of air, Pa·s, at a temperature in K.
pub(super) fn sutherland(kelvin: f64) -> f64 {
    1.716e-5 * (kelvin / 273.15).powf(1.5) * (273.15 + 110.4) / (kelvin + 110.4)
}

/// Viscosity of air: `μ0·(T/T0)^1.5·(T0 + S)/(T + S)`.
///
/// `μ0` 17.16 µPa·s at `T0` 273.15 K, `S` 110.4 K.
///
/// Holds from −40 to 150 °C; moisture takes off up to 1 % at 25 °C (from memory).
///
/// Trust: reads 0.3 to 0.5 % below `CoolProp` 8.0.0 from 0 to 50 °C.
///
/// Source: Sutherland's form with constants from memory.
pub fn viscosity(t: Q) -> Result<Q, Refusal> {
    celsius_within(t, -40.0, 150.0, "the air's temperature")?;
    Ok(Q::call("viscosity of air", &[t], sutherland(t.si), PA_S))
}

/// Temperature at which air starts to drip that has taken up water: the dew point at a humidity ratio `x`.
///
/// `T_s(p·x/(0.621945 + x))`.
///
/// `p` pressure of the air, `T_s` the temperature at which vapour of that pressure condenses.
///
/// Holds for dew points from 0 °C up; below it is frost.
///
/// Trust: 0.1 K, as of an ideal gas.
///
/// Source: inverse of [`humidity_ratio_over`], with the saturation line of IAPWS-IF97.
pub fn dew_point_of(x: Q, p: Q) -> Result<Q, Refusal> {
    above_freezing(p * x / (0.621945 + x))
}

fn above_freezing(vapour: Q) -> Result<Q, Refusal> {
    if vapour.si < 611.2 {
        return Err(Refusal::new(
            "the air is so dry that its dew point is below 0 °C, where frost forms",
            "take 0 °C as the upper bound of the dew point",
        ));
    }
    water::boiling_point(vapour)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: Result<Q, Refusal>, expected: f64, tol: f64) {
        let got = got.unwrap().si;
        assert!((got / expected - 1.0).abs() < tol, "{got} is not {expected}");
    }

    #[test]
    fn room_air_is_as_published() {
        let (t, rh) = (Q::constant("T", 21.0, CELSIUS), Q::constant("φ", 0.45, SHARE));
        let p = Q::constant("p", 101.325, KPA);
        // ASHRAE Handbook Fundamentals 2017, ch. 1 table 1: 95.461 kPa at 500 m.
        close(pressure(Q::constant("z", 500.0, M)), 95461.0, 1e-4);
        // PsychroLib 2.5.0: 0.00694808 kg/kg and 8.62626 °C at 21 °C and 45 %.
        close(humidity_ratio(t, rh, p), 0.00694808, 2e-3);
        assert!((dew_point(t, rh).unwrap().number(CELSIUS) - 8.62626).abs() < 0.04);
        // CoolProp 8.0.0: 1.20458 kg/m³ at 20 °C and 1 atm.
        close(density(Q::constant("T", 20.0, CELSIUS), p), 1.20458, 1e-3);
        // CoolProp 8.0.0: 18.2057 µPa·s at 20 °C and 19.6352 at 50 °C.
        close(viscosity(Q::constant("T", 20.0, CELSIUS)), 1.82057e-5, 6e-3);
        close(viscosity(Q::constant("T", 50.0, CELSIUS)), 1.96352e-5, 6e-3);
        // The dew point of what the air holds already is its own: PsychroLib 2.5.0, 8.62626 °C.
        let x = humidity_ratio(t, rh, p).unwrap();
        assert!((dew_point_of(x, p).unwrap().number(CELSIUS) - 8.62626).abs() < 0.04);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let (hot, full) = (Q::constant("T", 100.0, CELSIUS), Q::constant("φ", 1.0, SHARE));
        assert!(humidity_ratio(hot, full, Q::constant("p", 90.0, KPA)).is_err());
        let cold = Q::constant("T", 5.0, CELSIUS);
        assert!(dew_point(cold, Q::constant("φ", 0.3, SHARE)).is_err());
        assert!(dew_point(cold, Q::constant("φ", 1.2, SHARE)).is_err());
    }
}
