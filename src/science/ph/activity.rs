//! What ions in solution do to each other: activity coefficients, and water's own dissociation.

use crate::quantity::Q;
use crate::science::{Refusal, water};
use crate::units::{KELVIN, KG_PER_L, NUMBER};

/// How an ion's activity coefficient is found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// The ion's size in ångström, and the slope that the same source adopts for it: −A·z²·√I/(1 + B·å·√I) + b·I.
    Sized(f64, f64),
    /// No size is known: Davies' −A·z²·(√I/(1 + √I) − 0.3·I).
    Davies,
    /// Without charge: 0.1·I.
    Neutral,
}

/// Whether activities are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Activities {
    /// As ions in water behave, and as an electrode reads.
    Counted,
    /// As most textbooks do: concentrations stand for activities.
    LeftOut,
}

/// Debye and Hückel's A (for decadic logarithms) and B (per ångström) at a temperature in K, from the
/// density of water in kg/L.
///
/// Dielectric constant of water: Malmberg and Maryott, J. Res. NBS 56 (1956) 1, 0 to 100 °C. At 25 °C
/// A is 0.51 and B 0.33 per ångström, as every textbook has it.
pub fn debye_huckel(kelvin: f64, density: f64) -> (f64, f64) {
    let t = kelvin - 273.15;
    let dielectric = 87.740 - 0.40008 * t + 9.398e-4 * t * t - 1.410e-6 * t * t * t;
    let x = dielectric * kelvin;
    (1.82483e6 * density.sqrt() / (x * x.sqrt()), 50.2916 * (density / x).sqrt())
}

/// The decadic logarithm of an activity coefficient, of charge `z`, at ionic strength `i` in mol/kg.
///
/// Davies' form holds to about 0.5 mol/kg, the sized one (Truesdell and Jones 1974) to about 1, and
/// without a slope it levels off. Above, a pH is an indication: the linear term of Davies' form is then
/// held at what it is at 1 mol/kg, since it would run away. Source: Parkhurst and Appelo,
/// PHREEQC version 3, USGS Techniques and Methods 6-A43 (2013).
pub fn log_gamma(size: Size, z: i8, i: f64, (a, b): (f64, f64)) -> f64 {
    let (square, root) = (f64::from(z) * f64::from(z), i.sqrt());
    match size {
        Size::Neutral => 0.1 * i,
        Size::Davies => -a * square * (root / (1.0 + root) - 0.3 * i.min(1.0)),
        Size::Sized(size, slope) => -a * square * root / (1.0 + b * size * root) + slope * i,
    }
}

/// Minus the decadic logarithm of water's dissociation constant.
///
/// T temperature, 0 to 100 °C, at the pressure of the air. Marshall and Franck, J. Phys. Chem. Ref.
/// Data 10 (1981) 295 (IAPWS 1980): 13.995 at 25 °C, good to 0.01 there.
pub fn water_dissociation(t: Q) -> Result<Q, Refusal> {
    let density = water::density(t)?.number(KG_PER_L);
    Ok(Q::call("pKw", &[t], pkw(t.number(KELVIN), density), NUMBER))
}

/// The pH at which water is neutral: half of pKw. At 60 °C that is 6.51, not 7.
pub fn neutral_ph(t: Q) -> Result<Q, Refusal> {
    Ok(water_dissociation(t)? / 2.0)
}

/// The same in plain numbers: temperature in K, density of water in kg/L.
pub(super) fn pkw(kelvin: f64, density: f64) -> f64 {
    let t = kelvin;
    let fixed = -4.098 - 3245.2 / t + 2.2362e5 / (t * t) - 3.984e7 / (t * t * t);
    let by_density = 13.957 - 1262.3 / t + 8.5641e5 / (t * t);
    -(fixed + by_density * density.log10())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::CELSIUS;

    /// CRC Handbook of Chemistry and Physics, ion product of water (after Marshall and Franck): 14.938
    /// at 0 °C, 13.995 at 25 °C, 13.275 at 50 °C, 12.264 at 100 °C, from memory.
    #[test]
    fn water_dissociates_more_when_hot() {
        for (t, expected) in [(0.0, 14.938), (25.0, 13.995), (50.0, 13.275), (100.0, 12.264)] {
            let pkw = water_dissociation(Q::constant("T", t, CELSIUS)).unwrap().si;
            assert!((pkw - expected).abs() < 0.03, "{t} °C: {pkw}");
        }
    }

    /// PHREEQC 3.8.6 with phreeqc.dat prints A = 0.5092 and B = 0.3283 per ångström for 25 °C, from memory.
    #[test]
    fn the_constants_of_debye_and_huckel() {
        let (a, b) = debye_huckel(298.15, 0.99704);
        assert!((a - 0.5092).abs() < 0.003 && (b - 0.3283).abs() < 0.001, "{a} {b}");
    }
}
