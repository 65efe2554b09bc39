//! Aqueous solutions: density, heat capacity, viscosity, and what follows from density.

use super::bounds::{positive, share};
use super::fit::{between, celsius_within};
use super::formula::{Counts, Formula};
use super::solutes::{Fit, SOLUTES};
use super::{Refusal, water};
use crate::quantity::Q;
use crate::units::{KG_PER_M3, KJ_PER_KG_K, MPAS};
use std::sync::OnceLock;

pub use super::solutes::Solute;

/// A solute and its mass fraction in the solution.
pub type Part = (&'static Solute, Q);

/// As [`Part`], the fraction as a plain number.
type Share = (&'static Solute, f64);

fn shares(parts: &[Part]) -> Vec<Share> {
    parts.iter().map(|(solute, w)| (*solute, w.si)).collect()
}

/// The solute that a formula names, whatever its water of hydration; `None` if its solutions are
/// not known here.
pub fn solute(formula: &Formula) -> Option<&'static Solute> {
    static KNOWN: OnceLock<Vec<(Counts, &'static Solute)>> = OnceLock::new();
    let known = KNOWN.get_or_init(|| {
        let read = |solute: &'static Solute| Some((Formula::read(solute.formula).ok()?.anhydrous(), solute));
        SOLUTES.iter().filter_map(read).collect()
    });
    let counts = formula.anhydrous();
    known.iter().find(|(other, _)| *other == counts).map(|(_, solute)| *solute)
}

/// As [`solute`], with the refusal for what is not known.
pub fn known_solute(formula: &Formula) -> Result<&'static Solute, Refusal> {
    solute(formula).ok_or_else(|| {
        Refusal::new(
            format!("no density of {} solutions is known here", formula.text()),
            "type the measured density, from the label, the data sheet or a hydrometer",
        )
    })
}

/// The water's share of a solution; refuses shares that are not between 0 and 1 or are more than all.
fn water_share(parts: &[Share]) -> Result<f64, Refusal> {
    for (solute, w) in parts {
        if !(0.0..=1.0).contains(w) {
            return Err(Refusal::new(
                format!("the mass fraction of {} must be between 0 and 100 %", solute.name),
                "check its strength",
            ));
        }
    }
    let water = 1.0 - parts.iter().map(|(_, w)| w).sum::<f64>();
    if water < -1e-9 {
        return Err(Refusal::new("the solutes come to more than 100 % by mass", "check their strengths"));
    }
    Ok(water.max(0.0))
}

/// Solutes of which there is less are traces: their own part is taken at the edge of its fitted
/// range where the solution as a whole is stronger.
const TRACE: f64 = 0.01;

/// What one property of one solute is asked for.
struct Asked<'a> {
    /// "density".
    property: &'static str,
    solute: &'a Solute,
    /// Its own mass fraction.
    w: f64,
    /// That of all solutes together.
    all: f64,
    /// Temperature, °C.
    t: f64,
}

/// Checks a solute's part against its fitted range, and gives its coefficients and the strength, all
/// solutes together, to put in.
fn fitted<'a, const N: usize>(
    fit: &'a Option<Fit<N>>,
    asked: &Asked,
    t: (f64, f64),
) -> Result<(&'a [f64; N], f64), Refusal> {
    let Asked { property, solute, w, all, .. } = *asked;
    let remedy = || format!("type the measured {property}, or take a weaker solution");
    let Some(fit) = fit else {
        return Err(Refusal::new(
            format!("no {property} of {} solutions is known here", solute.name),
            format!("type the measured {property}"),
        ));
    };
    let limit = 100.0 * fit.w;
    if w > fit.w + 1e-4 {
        return Err(Refusal::new(
            format!("the {property} of {} solutions is known up to {limit:.1} % by mass", solute.name),
            remedy(),
        ));
    }
    if all > fit.w + 1e-4 && w > TRACE {
        return Err(Refusal::new(
            format!(
                "with {} the {property} is known up to {limit:.1} % by mass of all solutes together",
                solute.name
            ),
            remedy(),
        ));
    }
    if !(t.0 - 1e-6..=t.1 + 1e-6).contains(&asked.t) {
        return Err(Refusal::new(
            format!("the {property} of {} solutions is known from {} to {} °C", solute.name, t.0, t.1),
            format!("take it at a temperature in that range, or type the measured {property}"),
        ));
    }
    Ok((&fit.c, all.min(fit.w)))
}

/// Sums over the solutes in the form `w_w·f(water) + Σ w_i·f_i`.
fn mixed<const N: usize>(
    property: &'static str,
    parts: &[Share],
    t: f64,
    of: fn(&'static Solute) -> &'static Option<Fit<N>>,
    temperatures: fn(&Fit<N>) -> (f64, f64),
    law: fn(&[f64; N], f64, f64) -> f64,
    water: f64,
) -> Result<f64, Refusal> {
    let water_share = water_share(parts)?;
    let mut sum = water_share * water;
    for &(solute, w) in parts.iter().filter(|(_, w)| *w > 0.0) {
        let asked = Asked { property, solute, w, all: 1.0 - water_share, t };
        let fit = of(solute);
        let range = fit.as_ref().map_or((0.0, 100.0), temperatures);
        let (c, strength) = fitted(fit, &asked, range)?;
        sum += w * law(c, strength, t);
    }
    if sum.is_finite() {
        return Ok(sum);
    }
    Err(Refusal::new(format!("the {property} cannot be worked out here"), "type the measured value"))
}

fn arguments(parts: &[Part], t: Q) -> Vec<Q> {
    parts.iter().map(|(_, w)| *w).chain([t]).collect()
}

/// Density of a solution of one or more solutes.
///
/// `1/ρ = w_w/ρ_w + Σ w_i/ρ_i`, `ρ_i = (c₀W + c₁)·exp(1e-6 (T + c₄)²)/(W + c₂ + c₃T)`, `W = 1 − w_w`.
///
/// `w_i` mass fraction of anhydrous solute i, `w_w` of water, `T` °C. Sulfuric acid alone above
/// 78.2 % is read from a table, linear in strength and temperature; from 75 to 78.2 % the two are
/// blended.
///
/// Holds in each solute's fitted range of strength and temperature, 0 to 100 °C at most; for
/// sulfuric acid above 75 %, 0 to 60 °C. Refuses outside. A solute of less than 1 % in a solution
/// stronger than its range is taken at the edge of the range.
///
/// Trust: 0.4 % for one solute, 1 % for mixtures; 0.7 % for 50 % sodium hydroxide.
///
/// Source: Laliberté, J. Chem. Eng. Data 54 (2009) 1725, as in `thermo` 0.6.1; strong sulfuric acid:
/// table of the public atmospheric model CARMA (`sulfate_utils`), agrees with handbook tables
/// (from memory) to 0.05 %. Above about 93 % strength must never be inferred from density: 98 % acid
/// is denser than 100 %.
pub fn density(parts: &[Part], t: Q) -> Result<Q, Refusal> {
    Ok(Q::call("solution density", &arguments(parts, t), density_at(&shares(parts), t)?, KG_PER_M3))
}

/// Where the table of strong sulfuric acid starts to be blended in, and where it is all.
const BLEND: (f64, f64) = (0.75, 0.782);

fn density_at(parts: &[Share], t: Q) -> Result<f64, Refusal> {
    let celsius = celsius_within(t, 0.0, 100.0, "the solution's temperature")?;
    let weak = |parts: &[Share]| {
        let water = 1.0 / water::density_at(celsius);
        let of = |s: &'static Solute| &s.density;
        mixed("density", parts, celsius, of, |fit| fit.t, apparent_volume, water).map(|volume| 1.0 / volume)
    };
    water_share(parts)?;
    let present: Vec<Share> = parts.iter().copied().filter(|(_, w)| *w > 0.0).collect();
    let w = match present.as_slice() {
        [(solute, w)] if solute.formula == "H2SO4" && *w > BLEND.0 => *w,
        _ => return weak(parts),
    };
    celsius_within(t, 0.0, 60.0, "the strong acid's temperature")?;
    let strong = strong_acid_density(w, celsius);
    if w >= BLEND.1 {
        return Ok(strong);
    }
    let part = (w - BLEND.0) / (BLEND.1 - BLEND.0);
    Ok(strong * part + weak(parts)? * (1.0 - part))
}

/// Mass fraction in percent, `c₀` and `c₁` of `ρ = c₀ + c₁·T` in g/cm³ with `T` in kelvin.
/// Source: CARMA, `sulfate_utils`, table `dnwtp`, `dnc0`, `dnc1`.
#[rustfmt::skip]
const STRONG_ACID: [(f64, f64, f64); 24] = [
    (75.0, 1.93904, -0.000920012), (76.0, 1.95438, -0.000932184), (78.0, 1.98574, -0.000959514),
    (79.0, 2.00151, -0.000974043), (80.0, 2.01703, -0.000988264), (81.0, 2.03234, -0.00100258),
    (82.0, 2.04716, -0.00101634), (83.0, 2.06082, -0.00102762), (84.0, 2.07363, -0.00103757),
    (85.0, 2.08461, -0.00104337), (86.0, 2.09386, -0.00104563), (87.0, 2.10143, -0.00104458),
    (88.0, 2.10764, -0.00104144), (89.0, 2.11283, -0.00103719), (90.0, 2.11671, -0.00103089),
    (91.0, 2.11938, -0.00102262), (92.0, 2.12125, -0.00101355), (93.0, 2.1219, -0.00100249),
    (94.0, 2.12723, -0.00100934), (95.0, 2.12654, -0.000998299), (96.0, 2.12621, -0.000990961),
    (97.0, 2.12561, -0.000985845), (98.0, 2.12494, -0.000984529), (100.0, 2.12093, -0.000989315),
];

/// kg/m³ at a mass fraction and °C.
fn strong_acid_density(w: f64, celsius: f64) -> f64 {
    let kelvin = celsius + 273.15;
    let points = STRONG_ACID.map(|(percent, c0, c1)| (percent / 100.0, 1000.0 * (c0 + c1 * kelvin)));
    between(&points, w)
}

/// Apparent volume of a solute, m³/kg: coefficients, strength of all solutes, °C.
fn apparent_volume(c: &[f64; 5], all: f64, t: f64) -> f64 {
    let [c0, c1, c2, c3, c4] = c;
    (all + c2 + c3 * t) / ((c0 * all + c1) * (1e-6 * (t + c4).powi(2)).exp())
}

/// Viscosity of a solution of one or more solutes.
///
/// `ln µ = w_w ln µ_w + Σ w_i ln µ_i`, `µ_i = exp((v₁W^v₂ + v₃)/(v₄T + 1))/(v₅W^v₆ + 1)` in mPa·s,
/// `µ_w = (T + 246)/((0.05594T + 5.2842)T + 137.37)`, `W = 1 − w_w`.
///
/// `w_i` mass fraction of anhydrous solute i, `w_w` of water, `T` °C.
///
/// Holds in each solute's fitted range of strength and temperature. Refuses outside. A trace is
/// taken as in [`density`].
///
/// Trust: 3 % for one solute, 10 % for mixtures.
///
/// Source: Laliberté, J. Chem. Eng. Data 54 (2009) 1725, as in `thermo` 0.6.1.
pub fn viscosity(parts: &[Part], t: Q) -> Result<Q, Refusal> {
    let celsius = celsius_within(t, 0.0, 100.0, "the solution's temperature")?;
    let water = (celsius + 246.0) / ((0.05594 * celsius + 5.2842) * celsius + 137.37);
    let of = |s: &'static Solute| &s.viscosity;
    let law = |v: &[f64; 6], all: f64, t: f64| {
        let [v1, v2, v3, v4, v5, v6] = v;
        (v1 * all.powf(*v2) + v3) / (v4 * t + 1.0) - (v5 * all.powf(*v6) + 1.0).ln()
    };
    let ln = mixed("viscosity", &shares(parts), celsius, of, |fit| fit.t, law, water.ln())?;
    Ok(Q::call("solution viscosity", &arguments(parts, t), ln.exp(), MPAS))
}

/// Heat capacity of a solution of one or more solutes.
///
/// `c_p = w_w c_w + Σ w_i c_i`, `c_i = a₁ exp(a₂T + a₃ exp(0.01T) + a₄W) + a₅W^a₆`, `W = 1 − w_w`,
/// in kJ/(kg·K).
///
/// `w_i` mass fraction of anhydrous solute i, `w_w` of water, `T` °C.
///
/// Holds in each solute's fitted range of strength, and from 0 °C (or the lowest temperature fitted)
/// to 75 °C (or the highest): some salts were measured at one temperature only, and their own part
/// moves little. Refuses outside. A trace is taken as in [`density`].
///
/// Trust: 1 % for one solute, 3 % for mixtures and away from the temperatures fitted.
///
/// Source: Laliberté, J. Chem. Eng. Data 54 (2009) 1725, as in `thermo` 0.6.1.
pub fn heat_capacity(parts: &[Part], t: Q) -> Result<Q, Refusal> {
    let celsius = celsius_within(t, 0.0, 100.0, "the solution's temperature")?;
    let water = water::heat_capacity_at(celsius);
    let of = |s: &'static Solute| &s.heat_capacity;
    let law = |a: &[f64; 6], all: f64, t: f64| {
        let [a1, a2, a3, a4, a5, a6] = a;
        a1 * (a2 * t + a3 * (0.01 * t).exp() + a4 * all).exp() + a5 * all.powf(*a6)
    };
    let range = |fit: &Fit<6>| (fit.t.0.min(0.0), fit.t.1.max(75.0));
    let cp = mixed("heat capacity", &shares(parts), celsius, of, range, law, water)?;
    Ok(Q::call("solution heat capacity", &arguments(parts, t), cp, KJ_PER_KG_K))
}

/// Density of a solution whose solutes are given per volume.
///
/// `ρ = ρ(w)` with `w_i = c_i/ρ`, by halving the interval.
///
/// `c_i` concentration of anhydrous solute i (for a hydrate: times its anhydrous share).
///
/// Holds as [`density`].
///
/// Trust: as [`density`].
///
/// Source: as [`density`].
pub fn density_of_concentrations(parts: &[Part], t: Q) -> Result<Q, Refusal> {
    let impossible = || {
        Refusal::new(
            "no density fits these concentrations: they are more than a litre can hold",
            "check them: a litre of the solution holds them all, not a litre of water",
        )
    };
    let at = |rho: f64| {
        let shares: Vec<Share> = parts.iter().map(|(solute, c)| (*solute, c.si / rho)).collect();
        density_at(&shares, t)
    };
    let (mut low, mut high) = (600f64.max(parts.iter().map(|(_, c)| c.si).sum()), 2500.0);
    if !(low < high && parts.iter().all(|(_, c)| c.si >= 0.0)) {
        return Err(impossible());
    }
    at(high)?;
    // A refusal on the way means that the trial density makes the solution too strong.
    for _ in 0..24 {
        let middle = (low + high) / 2.0;
        if at(middle).is_ok_and(|density| density < middle) { high = middle } else { low = middle }
    }
    let mut rho = high;
    for _ in 0..8 {
        rho = at(rho)?;
    }
    if (at(rho)? / rho - 1.0).abs() > 1e-7 {
        return Err(impossible());
    }
    Ok(Q::call("solution density", &arguments(parts, t), rho, KG_PER_M3))
}

/// Amount of solute per volume of a solution of a strength by mass.
///
/// `C = w·ρ/M`.
///
/// `w` mass fraction, `ρ` density of the solution, `M` molar mass of the solute.
///
/// Holds for `0 < w ≤ 1`, `w` by mass: a label in g/L is not `w`.
///
/// Trust: as that of `w` and `ρ`.
///
/// Source: the definitions of both.
pub fn molarity(w: Q, density: Q, molar_mass: Q) -> Result<Q, Refusal> {
    Ok(share(w, "the mass fraction")? * positive(density, "the density")?
        / positive(molar_mass, "the molar mass")?)
}

/// Mass of solute per volume of a solution of a strength by mass.
///
/// `c = w·ρ`, otherwise as [`molarity`].
pub fn mass_concentration(w: Q, density: Q) -> Result<Q, Refusal> {
    Ok(share(w, "the mass fraction")? * positive(density, "the density")?)
}

/// Mass fraction of a solution of an amount per volume.
///
/// `w = C·M/ρ`, the inverse of [`molarity`].
///
/// Holds where it comes to no more than 1; refuses above.
pub fn mass_fraction(molarity: Q, density: Q, molar_mass: Q) -> Result<Q, Refusal> {
    let w = positive(molarity, "the strength")? * positive(molar_mass, "the molar mass")?
        / positive(density, "the density")?;
    share(w, "the mass fraction that this strength and density come to")
}

/// Mass fraction of a solution of an amount of solute in a mass of water.
///
/// `w = n·M/(n·M + m_w)`.
///
/// `n` amount, `M` molar mass, `m_w` mass of water: molality is `n/m_w`.
///
/// Holds always; exact.
///
/// Source: the definition of molality.
pub fn mass_fraction_of_amount(n: Q, molar_mass: Q, water: Q) -> Result<Q, Refusal> {
    let solute = positive(n, "the amount")? * positive(molar_mass, "the molar mass")?;
    Ok(solute / (solute + positive(water, "the mass of water")?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn of(formula: &str) -> &'static Solute {
        solute(&Formula::read(formula).unwrap()).unwrap_or_else(|| panic!("{formula} is not known"))
    }

    fn w(number: f64) -> Q {
        Q::constant("w", number, MASS_FRACTION)
    }

    fn at(number: f64) -> Q {
        Q::constant("T", number, CELSIUS)
    }

    fn rho(formula: &str, share: f64, t: f64) -> f64 {
        density(&[(of(formula), w(share))], at(t)).unwrap().si
    }

    #[test]
    fn a_solute_is_known_by_its_atoms() {
        assert_eq!(of("CuSO4·5H2O").name, "copper(II) sulfate");
        assert_eq!(of("NiSO4(H2O)6").formula, "NiSO4");
        assert_eq!(of("CH3COOH"), of("C2H4O2"));
        assert!(solute(&Formula::read("Ni(SO3NH2)2·4H2O").unwrap()).is_none());
        assert!(known_solute(&Formula::read("CH4O3S").unwrap()).is_err());
        for known in SOLUTES {
            assert_eq!(of(known.formula), known, "two solutes of the same atoms");
        }
    }

    #[test]
    fn densities_are_those_of_the_model_and_of_the_printed_table() {
        // thermo 0.6.1, Laliberte_density.
        assert!((rho("H2SO4", 0.30, 20.0) / 1219.23 - 1.0).abs() < 1e-4);
        assert!((rho("CuSO4", 0.10, 20.0) / 1107.5 - 1.0).abs() < 1e-4);
        let mix = density(&[(of("CuSO4"), w(0.08)), (of("H2SO4"), w(0.1))], at(25.0)).unwrap().si;
        assert!((mix / 1157.82 - 1.0).abs() < 1e-4, "{mix}");
        // CARMA's table: 1.8357 g/cm³ for 96 % at 20 °C, and 98 % is denser than 100 %.
        assert!((rho("H2SO4", 0.96, 20.0) / 1835.7 - 1.0).abs() < 1e-4);
        assert!(rho("H2SO4", 0.98, 20.0) > rho("H2SO4", 1.0, 20.0));
        // No step where the two meet.
        for edge in [BLEND.0, BLEND.1] {
            assert!((rho("H2SO4", edge + 1e-6, 20.0) - rho("H2SO4", edge - 1e-6, 20.0)).abs() < 0.1);
        }
        assert!((rho("H2SO4", 0.0, 25.0) - 997.045).abs() < 1e-2, "water");
    }

    #[test]
    fn outside_of_the_fitted_range_there_is_no_answer() {
        let refused =
            |formula, share, t| density(&[(of(formula), w(share))], at(t)).unwrap_err().reason.clone();
        assert_eq!(
            refused("HCl", 0.45, 20.0),
            "the density of hydrochloric acid solutions is known up to 37.6 % by mass"
        );
        assert!(refused("CuSO4", 0.1, 80.0).contains("from 10 to 60 °C"));
        assert!(refused("CuSO4", -0.1, 20.0).contains("between 0 and 100 %"));
        assert!(refused("CuSO4", f64::NAN, 20.0).contains("between 0 and 100 %"));
        assert!(refused("H2SO4", 0.9, 80.0).contains("0 to 60 °C"));
        let strong = [(of("CuSO4"), w(0.1)), (of("H2SO4"), w(0.4))];
        assert!(density(&strong, at(20.0)).unwrap_err().reason.contains("all solutes together"));
        let traced = [(of("HCl"), w(0.0001)), (of("H2SO4"), w(0.4))];
        assert!((density(&traced, at(20.0)).unwrap().si - rho("H2SO4", 0.4, 20.0)).abs() < 1.0);
        assert!(viscosity(&[(of("NaHSO3"), w(0.1))], at(25.0)).is_err(), "none was published");
    }

    #[test]
    fn strength_per_volume_and_by_mass_are_two_sides_of_the_density() {
        let acid = |number| Q::constant("c", number, G_PER_L);
        // A bath with 180 g/L of acid: w = 0.1618 at 20 °C, by the density itself.
        let bath = density_of_concentrations(&[(of("H2SO4"), acid(180.0))], at(20.0)).unwrap();
        assert!((rho("H2SO4", 180.0 / bath.si, 20.0) / bath.si - 1.0).abs() < 1e-9);
        let strong = density_of_concentrations(&[(of("H2SO4"), acid(1760.0))], at(20.0)).unwrap();
        assert!((strong.number(KG_PER_L) - 1.8357).abs() < 0.002, "96 % acid holds 1762 g/L");
        assert!(density_of_concentrations(&[(of("CuSO4"), acid(900.0))], at(20.0)).is_err());
        // pint and periodictable: 18.01126 mol/L of 96 % acid at 1.84 g/mL.
        let m = Formula::read("H2SO4").unwrap().molar_mass();
        let c = molarity(w(0.96), Q::constant("ρ", 1.84, KG_PER_L), m).unwrap();
        assert!((c.number(MOL_PER_L) / 18.01126 - 1.0).abs() < 3e-4);
        let back = mass_fraction(c, Q::constant("ρ", 1.84, KG_PER_L), m).unwrap();
        assert!((back.si - 0.96).abs() < 1e-12);
        assert!(mass_fraction(c * 2.0, Q::constant("ρ", 1.84, KG_PER_L), m).is_err());
    }

    #[test]
    fn heat_capacity_and_viscosity_are_those_of_the_model() {
        let copper = [(of("CuSO4"), w(0.1))];
        // thermo 0.6.1: 3.74284 kJ/kg/K and 1.33853 mPa·s at 25 °C.
        assert!((heat_capacity(&copper, at(25.0)).unwrap().si / 3742.84 - 1.0).abs() < 1e-3);
        assert!((viscosity(&copper, at(25.0)).unwrap().si / 1.33853e-3 - 1.0).abs() < 1e-3);
    }

    /// Every solute gives a sound number or a refusal over and beyond its range.
    #[test]
    fn no_strength_gives_nonsense() {
        for solute in SOLUTES {
            for k in 0..=20 {
                for t in [0.0, 20.0, 45.0, 100.0] {
                    let parts = [(solute, w(f64::from(k) / 20.0))];
                    for (got, low, high) in [
                        (density(&parts, at(t)), 600.0, 2500.0),
                        (viscosity(&parts, at(t)), 1e-4, 1.0),
                        (heat_capacity(&parts, at(t)), 700.0, 5000.0),
                    ] {
                        if let Ok(got) = got {
                            assert!((low..high).contains(&got.si), "{} {k} {t}: {}", solute.formula, got.si);
                        }
                    }
                }
            }
        }
    }
}
