//! Liquid water at about 1 atm, 0 to 100 °C, and its vapour.

use super::Refusal;
use super::fit::{celsius_within, polynomial, within};
use crate::quantity::Q;
use crate::units::{CELSIUS, KG_PER_M3, KJ_PER_KG, KJ_PER_KG_K, KPA, MPAS, W_PER_M_K};

fn degrees(t: Q) -> Result<f64, Refusal> {
    celsius_within(t, 0.0, 100.0, "the water's temperature")
}

/// Density of water at 1 atm.
///
/// `ρ = (999.83952 + 16.945176 T − 7.9870401e-3 T² − 46.170461e-6 T³ + 105.56302e-9 T⁴
/// − 280.54253e-12 T⁵)/(1 + 16.879850e-3 T)` in kg/m³.
///
/// `T` temperature in °C.
///
/// Holds for air-free water from 0 to 100 °C at 101.325 kPa.
///
/// Trust: within 0.001 % of the international formulation.
///
/// Source: Kell, J. Chem. Eng. Data 20 (1975) 97 (coefficients as in `thermo` 0.6.1,
/// `Laliberte_density_w`).
pub fn density(t: Q) -> Result<Q, Refusal> {
    Ok(Q::call("water density", &[t], density_at(degrees(t)?), KG_PER_M3))
}

/// [`density`] in bare numbers, kg/m³ at °C.
pub(super) fn density_at(t: f64) -> f64 {
    const ABOVE: [f64; 6] =
        [999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12];
    polynomial(&ABOVE, t) / (1.0 + 16.879850e-3 * t)
}

/// Heat capacity of water at 1 atm.
///
/// `c_p = Σ a_k x^k`, `x = (T − 50)/50`, in kJ/(kg·K).
///
/// `T` temperature in °C.
///
/// Holds from 0 to 100 °C.
///
/// Trust: the fit's worst error is 0.001 % of the formulation fitted.
///
/// Source: fitted here to IAPWS-95 as computed by `iapws` 1.5.5 at 101.325 kPa.
pub fn heat_capacity(t: Q) -> Result<Q, Refusal> {
    Ok(Q::call("water heat capacity", &[t], heat_capacity_at(degrees(t)?), KJ_PER_KG_K))
}

/// [`heat_capacity`] in bare numbers, kJ/(kg·K) at °C.
pub(super) fn heat_capacity_at(t: f64) -> f64 {
    const FIT: [f64; 8] = [
        4.18133075,
        0.0141845126,
        0.0209536034,
        -0.00772166038,
        0.00975569574,
        -0.00522514896,
        0.00549612038,
        -0.00311660853,
    ];
    polynomial(&FIT, (t - 50.0) / 50.0)
}

/// Viscosity of water at 1 atm.
///
/// `µ = 280.68 θ^−1.9 + 511.45 θ^−7.7 + 61.131 θ^−19.6 + 0.45903 θ^−40` in µPa·s.
///
/// `θ = T/(300 K)`, `T` absolute temperature.
///
/// Holds from 0 to 100 °C (the source: 253 to 383 K).
///
/// Trust: within 1 %.
///
/// Source: IAPWS SR6-08 (2011), properties of liquid water at 0.1 MPa; coefficients from memory,
/// checked against `iapws` 1.5.5 and the printed tables in the reference rows.
pub fn viscosity(t: Q) -> Result<Q, Refusal> {
    let theta = (degrees(t)? + 273.15) / 300.0;
    let terms = [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0)];
    let micro: f64 = terms.iter().map(|(a, b)| a * theta.powf(*b)).sum();
    Ok(Q::call("water viscosity", &[t], micro * 1e-3, MPAS))
}

/// Thermal conductivity of water at 1 atm.
///
/// `k = 1.6630 θ^−1.15 − 1.7781 θ^−3.4 + 1.1567 θ^−6 − 0.432115 θ^−7.6` in W/(m·K).
///
/// `θ = T/(300 K)`, `T` absolute temperature.
///
/// Holds from 0 to 100 °C.
///
/// Trust: within 2 %.
///
/// Source: IAPWS SR6-08 (2011), properties of liquid water at 0.1 MPa; coefficients from memory,
/// checked against `iapws` 1.5.5 in the reference rows.
pub fn conductivity(t: Q) -> Result<Q, Refusal> {
    let theta = (degrees(t)? + 273.15) / 300.0;
    let terms = [(1.6630, -1.15), (-1.7781, -3.4), (1.1567, -6.0), (-0.432115, -7.6)];
    let k: f64 = terms.iter().map(|(a, b)| a * theta.powf(*b)).sum();
    Ok(Q::call("water conductivity", &[t], k, W_PER_M_K))
}

/// The ten coefficients of the saturation line of IAPWS-IF97 (region 4).
const SATURATION: [f64; 10] = [
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
];

/// Vapour pressure of water.
///
/// `p = [2C/(−B + √(B² − 4AC))]⁴` in MPa, with `A`, `B`, `C` quadratic in
/// `ϑ = T − 0.23856/(T − 650.18)`.
///
/// `T` absolute temperature.
///
/// Holds for pure water from 0 to 100 °C. Over a bath it is less: dissolved matter lowers it, so
/// this is the upper bound.
///
/// Trust: within 0.03 %.
///
/// Source: IAPWS-IF97, equation for the saturation line.
pub fn vapour_pressure(t: Q) -> Result<Q, Refusal> {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = SATURATION;
    let kelvin = degrees(t)? + 273.15;
    let theta = kelvin + n9 / (kelvin - n10);
    let a = theta * theta + n1 * theta + n2;
    let b = n3 * theta * theta + n4 * theta + n5;
    let c = n6 * theta * theta + n7 * theta + n8;
    let root = 2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt());
    Ok(Q::call("water vapour pressure", &[t], root.powi(4) * 1e3, KPA))
}

/// Temperature at which water boils under a pressure, or at which vapour of that pressure condenses.
///
/// `T = [n₁₀ + D − √((n₁₀ + D)² − 4(n₉ + n₁₀ D))]/2`, with `D` from `β = p^(1/4)`: the inverse of
/// [`vapour_pressure`].
///
/// `p` absolute pressure.
///
/// Holds for pure water from 0.6113 kPa (0 °C) to 101.5 kPa (100.05 °C). Salts raise the boiling
/// point by a fraction of a kelvin to a few kelvin.
///
/// Trust: within 0.02 K.
///
/// Source: IAPWS-IF97, backward equation for the saturation line.
pub fn boiling_point(p: Q) -> Result<Q, Refusal> {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = SATURATION;
    let beta = (within(p, KPA, 0.6112, 101.5, "the pressure over the water")? * 1e-3).powf(0.25);
    let e = beta * beta + n3 * beta + n6;
    let f = n1 * beta * beta + n4 * beta + n7;
    let g = n2 * beta * beta + n5 * beta + n8;
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let kelvin = (n10 + d - ((n10 + d).powi(2) - 4.0 * (n9 + n10 * d)).sqrt()) / 2.0;
    Ok(Q::call("water boiling point", &[p], kelvin - 273.15, CELSIUS))
}

/// Heat that evaporating water takes.
///
/// `h = Σ a_k x^k`, `x = (T − 50)/50`, in kJ/kg.
///
/// `T` temperature in °C.
///
/// Holds from 0 to 100 °C.
///
/// Trust: the fit's worst error is 0.001 % of the formulation fitted.
///
/// Source: fitted here to IAPWS-IF97 as computed by `iapws` 1.5.5, `h(x=1) − h(x=0)`.
pub fn heat_of_vaporisation(t: Q) -> Result<Q, Refusal> {
    const FIT: [f64; 5] = [2381.97645, -120.690591, -3.23614536, -1.52345434, -0.0431986456];
    let h = polynomial(&FIT, (degrees(t)? - 50.0) / 50.0);
    Ok(Q::call("heat of vaporisation", &[t], h, KJ_PER_KG))
}

/// Volume that water gains (loses: negative) between two temperatures.
///
/// `ΔV = V·(ρ₁/ρ₂ − 1)`.
///
/// `V` volume at `T₁`; `ρ₁`, `ρ₂` densities at `T₁`, `T₂`.
///
/// Holds from 0 to 100 °C, for a vessel that does not grow itself.
///
/// Trust: within 0.5 % of the gain.
///
/// Source: mass balance, with [`density`].
pub fn expansion(v: Q, t1: Q, t2: Q) -> Result<Q, Refusal> {
    Ok(v * (density(t1)? / density(t2)? - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(t: f64) -> Q {
        Q::constant("T", t, CELSIUS)
    }

    #[test]
    fn water_is_as_the_international_formulation_has_it() {
        let close = |got: f64, expected: f64, tol: f64| {
            assert!((got / expected - 1.0).abs() < tol, "{got} is not {expected}");
        };
        // iapws 1.5.5, IAPWS95 at 101.325 kPa, 25 °C.
        close(density(at(25.0)).unwrap().si, 997.0476, 1e-5);
        close(heat_capacity(at(25.0)).unwrap().si, 4181.31, 1e-4);
        close(conductivity(at(25.0)).unwrap().si, 0.606516, 1e-4);
        // Kestin, Sokolov & Wakeham 1978: 1.0020 mPa·s at 20 °C.
        close(viscosity(at(20.0)).unwrap().si, 1.0020e-3, 1e-3);
        // IAPWS-IF97 table 35: 3.53658941 kPa at 300 K.
        close(vapour_pressure(at(26.85)).unwrap().si, 3536.58941, 1e-8);
        // IAPWS-IF97 table 36: 372.755919 K at 0.1 MPa.
        close(boiling_point(Q::constant("p", 100.0, KPA)).unwrap().si, 372.755919, 1e-8);
        // iapws 1.5.5: 2357.69 kJ/kg at 60 °C.
        close(heat_of_vaporisation(at(60.0)).unwrap().si, 2.35769e6, 1e-4);
    }

    /// IAPWS (`iapws` 1.5.5): viscosity at 5 °C is 1.71 times that at 25 °C; from 5 to 40 °C water grows by 0.8 %.
    #[test]
    fn properties_are_those_at_the_temperature_of_the_water() {
        let t = |number: f64| Q::constant("T", number, CELSIUS);
        let thicker = viscosity(t(5.0)).unwrap().si / viscosity(t(25.0)).unwrap().si;
        assert!((thicker - 1.71).abs() < 0.005, "{thicker}");
        let grows = density(t(5.0)).unwrap().si / density(t(40.0)).unwrap().si;
        assert!((grows - 1.008).abs() < 0.0005, "{grows}");
    }

    #[test]
    fn frozen_or_boiled_water_is_refused() {
        for t in [-0.1, 100.5, f64::NAN, f64::INFINITY] {
            assert!(density(at(t)).is_err() && vapour_pressure(at(t)).is_err());
        }
        assert!(boiling_point(Q::constant("p", 500.0, KPA)).is_err());
        assert!(boiling_point(Q::constant("p", 0.0, KPA)).is_err());
    }
}
