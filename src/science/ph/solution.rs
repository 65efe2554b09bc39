//! The pH of a mixture: the charge balance, solved by bracketing.

use super::activity::{Activities, Size, debye_huckel, log_gamma, pkw};
use super::substance::{Form, HYDROGEN, HYDROXIDE, SODIUM, Substance};
use crate::quantity::Q;
use crate::science::solve::{bisect, bracket};
use crate::science::{Refusal, water};
use crate::units::{CELSIUS, KELVIN, KG_PER_L, MOL_PER_L, NUMBER};

/// The pH between which an answer is looked for.
const RANGE: [f64; 2] = [-2.0, 16.0];

/// A substance in a solution, with its concentration.
pub struct Portion<'a> {
    /// What it is.
    pub substance: &'a Substance,
    /// How much of it, as an amount concentration.
    pub c: Q,
}

/// A solution, ready to be asked.
///
/// Concentrations are taken per litre and per kilogram of water as one: up to 0.5 mol/L they differ by
/// less than 2 %. Pairs with sodium are counted where they are known, those of a metal with sulfate are
/// not. Closed to the air.
pub struct Solution<'a> {
    portions: Vec<Portion<'a>>,
    t: Q,
    kelvin: f64,
    pkw: f64,
    activities: Activities,
    constants: (f64, f64),
    /// The decadic logarithm of each form's constant at the temperature, portion by portion.
    log_k: Vec<Vec<f64>>,
}

/// What an equilibrium looks like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// Minus the decadic logarithm of the activity of the hydrogen ion.
    pub ph: f64,
    /// Ionic strength, mol/kg.
    pub ionic_strength: f64,
    /// What strong base, in mol/L, it has on top of its portions (negative: strong acid).
    pub base: f64,
}

impl<'a> Solution<'a> {
    /// A solution of these portions at a temperature of 0 to 100 °C.
    pub fn new(portions: Vec<Portion<'a>>, t: Q, activities: Activities) -> Result<Solution<'a>, Refusal> {
        let density = water::density(t)?.number(KG_PER_L);
        let kelvin = t.number(KELVIN);
        if portions.iter().any(|portion| !(0.0..=30_000.0).contains(&portion.c.si)) {
            return Err(Refusal::new(
                "a concentration below zero or above 30 mol/L is none",
                "Check the concentrations.",
            ));
        }
        // van ’t Hoff, with heats that do not change with temperature.
        let shift = (1.0 / 298.15 - 1.0 / kelvin) / (8.314462618e-3 * std::f64::consts::LN_10);
        let constants = |form: &Form| form.log_k + form.heat * shift;
        let log_k = portions.iter().map(|p| p.substance.forms.iter().map(constants).collect()).collect();
        Ok(Solution {
            portions,
            t,
            kelvin,
            pkw: pkw(kelvin, density),
            activities,
            constants: debye_huckel(kelvin, density),
            log_k,
        })
    }

    /// The pH. Above 0.1 mol/kg of ionic strength an indication, and more so the higher.
    pub fn ph(&self) -> Q {
        Q::call("pH of", &self.arguments(), self.state().ph, NUMBER)
    }

    /// The ionic strength, ½·Σ c·z².
    pub fn ionic_strength(&self) -> Q {
        Q::call("½·Σ c·z² of", &self.arguments(), self.state().ionic_strength, MOL_PER_L)
    }

    /// Strong base (negative: strong acid) to a litre that brings it to a pH, without counting the volume of it.
    pub fn base_to(&self, ph: Q) -> Q {
        let arguments: Vec<Q> = self.arguments().into_iter().chain([ph]).collect();
        Q::call("strong base to reach", &arguments, self.at(ph.si).base, MOL_PER_L)
    }

    /// Buffer capacity at a pH: strong base a litre for each step of pH, from a step of 0.02 around it.
    pub fn buffer_capacity(&self, ph: Q) -> Q {
        let step = 0.01;
        let [low, high] = [ph.si - step, ph.si + step].map(|ph| self.at(ph).base);
        let arguments: Vec<Q> = self.arguments().into_iter().chain([ph]).collect();
        Q::call("dC_B/dpH of", &arguments, (high - low) / (2.0 * step), MOL_PER_L)
    }

    pub(super) fn arguments(&self) -> Vec<Q> {
        self.portions.iter().map(|portion| portion.c).chain([self.t]).collect()
    }

    /// The same solution with its concentrations multiplied, and one more portion.
    pub(super) fn with(&self, share: f64, more: Portion<'a>) -> Result<Solution<'a>, Refusal> {
        let thin = |portion: &Portion<'a>| Portion {
            substance: portion.substance,
            c: Q::constant("c", portion.c.number(MOL_PER_L) * share, MOL_PER_L),
        };
        let portions = self.portions.iter().map(thin).chain([more]).collect();
        let t = Q::constant("T", self.kelvin - 273.15, CELSIUS);
        Solution::new(portions, t, self.activities)
    }

    /// The equilibrium as it is.
    pub(super) fn state(&self) -> State {
        let at = |i: f64| {
            let gammas = self.gammas(i);
            bisect(|ph| self.charge(ph, i, &gammas).0, RANGE[0], RANGE[1])
        };
        let excess = |i: f64| self.charge(at(i), i, &self.gammas(i)).1 - i;
        let ionic_strength = bracket(excess, 0.0, self.most_ionic_strength(), 1e-11);
        State { ph: at(ionic_strength), ionic_strength, base: 0.0 }
    }

    /// The equilibrium at a given pH, with what strong acid or base, its ion charged once, that takes.
    pub(super) fn at(&self, ph: f64) -> State {
        let balance = |i: f64| self.charge(ph, i, &self.gammas(i));
        let excess = |i: f64| {
            let (charge, strength) = balance(i);
            strength + 0.5 * charge.abs() - i
        };
        let most = self.most_ionic_strength() + 2.0 * 10f64.powf((-ph).max(ph - self.pkw).min(2.0));
        let ionic_strength = bracket(excess, 0.0, most, 1e-11);
        State { ph, ionic_strength, base: -balance(ionic_strength).0 }
    }

    /// More than the ionic strength can come to.
    fn most_ionic_strength(&self) -> f64 {
        let of = |portion: &Portion| {
            let substance = portion.substance;
            let z = |charge: i8| f64::from(charge).powi(2) + f64::from(charge).abs();
            let ions: f64 = substance.ions.iter().map(|ion| ion.count * z(ion.charge)).sum();
            let forms = substance.forms.iter().map(|form| z(form.charge)).fold(0.0, f64::max);
            portion.c.number(MOL_PER_L) * (ions + forms * substance.acids)
        };
        1e-3 + self.portions.iter().map(of).sum::<f64>()
    }

    fn log_gamma(&self, size: Size, z: i8, i: f64) -> f64 {
        match self.activities {
            Activities::Counted => log_gamma(size, z, i, self.constants),
            Activities::LeftOut => 0.0,
        }
    }

    /// For each form of each portion, its constant over the activity coefficients: what turns the
    /// concentrations of the fullest form and of sodium, and the activity of hydrogen ions, into its own.
    fn gammas(&self, i: f64) -> Vec<Vec<f64>> {
        let sodium = self.log_gamma(SODIUM, 1, i);
        let of = |(portion, log_k): (&Portion, &Vec<f64>)| {
            let forms = &portion.substance.forms;
            let full = forms.first().map_or(0.0, |form| self.log_gamma(form.size, form.charge, i));
            let each = |(form, log_k): (&Form, &f64)| {
                // Textbooks count no pairs.
                if form.sodium > 0 && self.activities == Activities::LeftOut {
                    return 0.0;
                }
                let own = self.log_gamma(form.size, form.charge, i);
                let brought = f64::from(form.units) * full + f64::from(form.sodium) * sodium;
                10f64.powf(log_k + brought - own)
            };
            forms.iter().zip(log_k).map(each).collect()
        };
        self.portions.iter().zip(&self.log_k).map(of).collect()
    }

    /// The balance of charges, in mol/L, which falls as the pH rises; and the ionic strength.
    fn charge(&self, ph: f64, i: f64, gammas: &[Vec<f64>]) -> (f64, f64) {
        let hydrogen = 10f64.powf(-ph - self.log_gamma(HYDROGEN, 1, i));
        let hydroxide = 10f64.powf(ph - self.pkw - self.log_gamma(HYDROXIDE, -1, i));
        let ions = || {
            let each = |portion: &'_ Portion| (portion.c.number(MOL_PER_L), portion.substance.ions);
            self.portions
                .iter()
                .map(each)
                .flat_map(|(c, ions)| ions.iter().map(move |ion| (c * ion.count, ion)))
        };
        let sodium: f64 = ions().filter(|(_, ion)| ion.is_sodium).map(|(c, _)| c).sum();
        let bound =
            |free: f64| self.forms(ph, gammas, free).map(|(form, c)| f64::from(form.sodium) * c).sum::<f64>();
        let pairs = |portion: &Portion| portion.substance.forms.iter().any(|form| form.sodium > 0);
        let free = if sodium > 0.0 && self.portions.iter().any(pairs) {
            bracket(|free| sodium - free - bound(free), 0.0, sodium, 1e-12 * sodium)
        } else {
            sodium
        };
        let (mut charge, mut squares) = (hydrogen - hydroxide + free, hydrogen + hydroxide + free);
        let mut count = |z: i8, c: f64| {
            charge += f64::from(z) * c;
            squares += f64::from(z) * f64::from(z) * c;
        };
        ions().filter(|(_, ion)| !ion.is_sodium).for_each(|(c, ion)| count(ion.charge, c));
        self.forms(ph, gammas, free).for_each(|(form, c)| count(form.charge, c));
        (charge, 0.5 * squares)
    }

    /// The forms of every acid, with their concentrations, at a pH and a concentration of free sodium.
    fn forms<'b>(
        &'b self,
        ph: f64,
        gammas: &'b [Vec<f64>],
        sodium: f64,
    ) -> impl Iterator<Item = (&'b Form, f64)> {
        let h = 10f64.powf(-ph);
        self.portions.iter().zip(gammas).flat_map(move |(portion, gammas)| {
            let forms = &portion.substance.forms;
            let factor =
                |(form, k): (&Form, &f64)| (form.units, k / h.powi(form.lost) * sodium.powi(form.sodium));
            let factors: Vec<(i32, f64)> = forms.iter().zip(gammas).map(factor).collect();
            let full = full_form(&factors, portion.c.number(MOL_PER_L) * portion.substance.acids);
            forms.iter().zip(factors).map(move |(form, (units, factor))| (form, factor * full.powi(units)))
        })
    }
}

/// How much of the fullest form there is, when `units·factor·x^units` add up to a total.
///
/// The sum only rises, and ever faster: Newton's steps from above come down to the root and never
/// pass it.
fn full_form(factors: &[(i32, f64)], total: f64) -> f64 {
    let single: f64 = factors.iter().filter(|(units, _)| *units == 1).map(|(_, factor)| factor).sum();
    let mut x = if single > 0.0 { total / single } else { 0.0 };
    if factors.iter().all(|(units, _)| *units == 1) {
        return x;
    }
    for _ in 0..60 {
        let (mut sum, mut slope) = (-total, 0.0);
        for (units, factor) in factors {
            let n = f64::from(*units);
            sum += n * factor * x.powi(*units);
            slope += n * n * factor * x.powi(*units - 1);
        }
        let next = x - sum / slope;
        if !(next < x * (1.0 - 1e-15)) {
            break;
        }
        x = next;
    }
    x
}
