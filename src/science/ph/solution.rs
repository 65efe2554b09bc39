//! The pH of a mixture: the charge balance, solved by bracketing.

use super::activity::{Activities, Size, debye_huckel, log_gamma, pkw};
use super::substance::{Form, HYDROGEN, HYDROXIDE, METAL, SODIUM, Substance};
use crate::quantity::Q;
use crate::science::solve::bracket;
use crate::science::{Refusal, water};
use crate::units::{CELSIUS, KELVIN, KG_PER_L, MOL_PER_L, NUMBER};
use std::cell::{Cell, OnceCell};

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
/// less than 2 %. Pairs with sodium, and of sulfate with a divalent metal, are counted; complexes of metals
/// with citrate, ammonia and the like are not. Closed to the air.
pub struct Solution<'a> {
    portions: Vec<Portion<'a>>,
    t: Q,
    kelvin: f64,
    pkw: f64,
    activities: Activities,
    constants: (f64, f64),
    /// The decadic logarithm of each form's constant at the temperature, portion by portion.
    log_k: Vec<Vec<f64>>,
    /// The equilibrium, once it was asked for.
    found: OnceCell<State>,
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

/// What ions feel of each other, and what of the partners is free, mol/L.
#[derive(Clone, Copy)]
struct Inside {
    ionic_strength: f64,
    free: [f64; 2],
}

/// All ions added up.
#[derive(Clone, Copy)]
struct Pass {
    charge: f64,
    ionic_strength: f64,
    bound: [f64; 2],
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
            found: OnceCell::new(),
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

    /// The equilibrium as it is: where the charges balance, found by bracketing over the pH.
    pub(super) fn state(&self) -> State {
        *self.found.get_or_init(|| self.equilibrium())
    }

    fn equilibrium(&self) -> State {
        let inside = Cell::new(self.start());
        // The balance spans twenty decades; its area sine is as good a zero, and nearly straight.
        let balance = |ph: f64| (self.settle(ph, false, &inside).charge * 1e9).asinh();
        let ph = bracket(balance, RANGE[0], RANGE[1], 1e-11);
        State { ph, ionic_strength: self.settle(ph, false, &inside).ionic_strength, base: 0.0 }
    }

    /// The equilibrium at a given pH, with what strong acid or base, its ion charged once, that takes.
    pub(super) fn at(&self, ph: f64) -> State {
        let found = self.settle(ph, true, &Cell::new(self.start()));
        State { ph, ionic_strength: found.ionic_strength, base: -found.charge }
    }

    /// Everything free, and no ion felt by another.
    fn start(&self) -> Inside {
        Inside { ionic_strength: 0.0, free: self.totals() }
    }

    /// What there is of the partners that acids pair with: sodium, and divalent metals.
    fn totals(&self) -> [f64; 2] {
        let mut totals = [0.0; 2];
        for portion in &self.portions {
            for ion in portion.substance.ions {
                if let Some(partner) = ion.partner {
                    totals[partner as usize] += portion.c.number(MOL_PER_L) * ion.count;
                }
            }
        }
        totals
    }

    /// At a pH, ionic strength and free partners that agree with each other, from where `inside` stands.
    ///
    /// A partner's free share, total over total bound and free, only falls towards its root from above and
    /// rises from below, and ions feel ionic strength but little: substitution settles it.
    fn settle(&self, ph: f64, is_made_up: bool, inside: &Cell<Inside>) -> Pass {
        let totals = self.totals();
        let mut at = inside.get();
        let mut pass = self.pass(ph, at);
        for _ in 0..400 {
            let made_up = if is_made_up { 0.5 * pass.charge.abs() } else { 0.0 };
            let mut next = Inside { ionic_strength: pass.ionic_strength + made_up, free: at.free };
            for ((free, bound), total) in next.free.iter_mut().zip(pass.bound).zip(totals) {
                if total > 0.0 {
                    *free *= total / (*free + bound);
                }
            }
            let is_near = |a: f64, b: f64| (a - b).abs() <= 3e-11 * (1e-3 + b);
            let is_settled = is_near(at.ionic_strength, next.ionic_strength)
                && at.free.iter().zip(next.free).all(|(a, b)| is_near(*a, b));
            at = next;
            pass = self.pass(ph, at);
            if is_settled {
                break;
            }
        }
        inside.set(at);
        let made_up = if is_made_up { 0.5 * pass.charge.abs() } else { 0.0 };
        Pass { ionic_strength: pass.ionic_strength + made_up, ..pass }
    }

    fn log_gamma(&self, size: Size, z: i8, i: f64) -> f64 {
        match self.activities {
            Activities::Counted => log_gamma(size, z, i, self.constants),
            Activities::LeftOut => 0.0,
        }
    }

    /// Adds up all ions at a pH: their charges, which fall as the pH rises, and what they come to.
    fn pass(&self, ph: f64, at: Inside) -> Pass {
        // No water holds more; only the far ends of the bracket come there.
        let i = at.ionic_strength.min(30.0);
        let hydrogen = 10f64.powf(-ph - self.log_gamma(HYDROGEN, 1, i));
        let hydroxide = 10f64.powf(ph - self.pkw - self.log_gamma(HYDROXIDE, -1, i));
        // Of what pairs form from, as activities.
        let partners = [
            at.free[0].log10() + self.log_gamma(SODIUM, 1, i),
            at.free[1].log10() + self.log_gamma(METAL, 2, i),
        ];
        let (mut charge, mut squares, mut bound) = (hydrogen - hydroxide, hydrogen + hydroxide, [0.0; 2]);
        let mut count = |z: i8, c: f64| {
            charge += f64::from(z) * c;
            squares += f64::from(z) * f64::from(z) * c;
        };
        count(1, at.free[0]);
        count(2, at.free[1]);
        for (portion, log_k) in self.portions.iter().zip(&self.log_k) {
            let c = portion.c.number(MOL_PER_L);
            for ion in portion.substance.ions.iter().filter(|ion| ion.partner.is_none()) {
                count(ion.charge, c * ion.count);
            }
            let forms = &portion.substance.forms;
            let Some(first) = forms.first() else { continue };
            let full = self.log_gamma(first.size, first.charge, i);
            let mut factors = [(0, 0.0); MOST_FORMS];
            for ((form, log_k), factor) in forms.iter().zip(log_k).zip(&mut factors) {
                let mut exponent = log_k + f64::from(form.units) * full + f64::from(form.lost) * ph
                    - self.log_gamma(form.size, form.charge, i);
                for (binds, partner) in form.binds.iter().zip(partners).filter(|(binds, _)| **binds > 0) {
                    exponent += f64::from(*binds) * partner;
                }
                // Textbooks count no pairs.
                let is_there = form.binds == [0, 0] || self.activities == Activities::Counted;
                *factor = (form.units, if is_there { 10f64.powf(exponent) } else { 0.0 });
            }
            let factors = &factors[..forms.len().min(MOST_FORMS)];
            let full = full_form(factors, c * portion.substance.acids);
            for (form, (units, factor)) in forms.iter().zip(factors) {
                let c = factor * full.powi(*units);
                count(form.charge, c);
                for (bound, binds) in bound.iter_mut().zip(form.binds) {
                    *bound += f64::from(binds) * c;
                }
            }
        }
        Pass { charge, ionic_strength: 0.5 * squares, bound }
    }
}

/// More forms of one acid than any has.
const MOST_FORMS: usize = 8;

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
        if next.is_nan() || next >= x * (1.0 - 1e-14) {
            break;
        }
        x = next;
    }
    x
}
