//! Sourced laws, each a pure function of quantities.
//!
//! Every function states: what it gives, its symbols, where it holds, how far to trust it, and its
//! source. It is written in [`Q`](crate::quantity::Q), so it shows itself in the working and is
//! checked for dimensions; what a table, a fit or an iteration gives is a named call
//! ([`Q::call`](crate::quantity::Q::call)). Outside of where it holds a law refuses.

mod bounds;
pub mod metals;
pub mod fit;
pub mod solve;
pub mod elements;
pub mod formula;
pub mod solution_make_up;
pub mod solubility;
pub mod water;
pub mod air;
mod solutes;
pub mod solutions;
pub mod dilution;
pub mod heat_of_mixing;
pub mod pipe;
pub mod line;
pub mod container;
pub mod evaporation;
pub mod heating;
pub mod exchange;
pub mod coil;
pub mod open_tank;
pub mod drain;
pub mod plumbing;
pub mod lift;
pub mod rinse;
pub mod standing_rinse;
pub mod regulation;
pub mod faraday;
pub mod throughput;
pub mod bath_balance;
pub mod dosing;
pub mod segregation;
pub mod ph;
pub mod precipitation;
pub mod lime;
pub mod neutralisation;
pub mod titration;
pub mod replicates;
pub mod correction;
pub mod cost;
pub mod ion_exchange;
pub mod breakthrough;
pub mod column_test;
pub mod packed_bed;
pub mod gas;
pub mod electricity;
pub mod ventilation;
pub mod refill;
pub mod plastics;

use crate::sentence::sentence;

/// A law was asked outside of where it holds, or for what cannot be: a reason and what would do.
/// One pointer wide, as every `?` of a law passes it on.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal(Box<Words>);

/// What a [`Refusal`] says.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// Why there is no answer.
    pub reason: String,
    /// What to do.
    pub remedy: String,
}

impl Refusal {
    /// A refusal.
    pub fn new(reason: impl Into<String>, remedy: impl Into<String>) -> Refusal {
        Refusal(Box::new(Words { reason: reason.into(), remedy: remedy.into() }))
    }

    /// Reason and remedy.
    pub fn into_words(self) -> (String, String) {
        (self.0.reason, self.0.remedy)
    }

    /// Reason and remedy, as they are shown.
    pub fn text(&self) -> String {
        format!("{} {}", sentence(&self.reason), sentence(&self.remedy))
    }
}

impl std::ops::Deref for Refusal {
    type Target = Words;
    fn deref(&self) -> &Words {
        &self.0
    }
}

#[cfg(test)]
mod tests {
    use super::bath_balance::Balance;
    use super::dilution::{self, Liquid};
    use super::faraday::{self, Constituent};
    use super::formula::Formula;
    use super::heat_of_mixing::{self, Heating, Warm};
    use super::{
        air, dosing, electricity, ion_exchange, refill, solubility, solution_make_up, solutions, water,
    };
    use crate::quantity::{Q, with_tape};
    use crate::units::*;

    /// The dimension of a result on a running tape must be that of the kind it is meant to be.
    fn is(kind: Kind, work: impl FnOnce() -> Result<Q, super::Refusal>) {
        let (dim, fault) = with_tape(Some(Style::default()), || work().unwrap().shown().unwrap().dim);
        assert_eq!((dim, fault), (kind.dim(), None));
    }

    #[test]
    fn every_law_gives_the_dimension_that_it_says() {
        let t = || Q::constant("T", 25.0, CELSIUS);
        let (v, w) = (|| Q::constant("V", 10.0, L), || Q::constant("w", 0.3, MASS_FRACTION));
        let m = |number| Q::constant("m", number, KG);
        let (rho, molar) = (|| Q::constant("ρ", 1.2, KG_PER_L), || Q::constant("M", 98.0, G_PER_MOL));
        let metal = || Q::constant("c", 40.0, G_PER_L_METAL);
        let one = || Q::constant("p", 1.0, SHARE);
        let blue = Formula::read("CuSO4·5H2O").unwrap();
        is(Kind::Density, || water::density(t()));
        is(Kind::Volume, || water::expansion(v(), t(), Q::constant("T", 40.0, CELSIUS)));
        is(Kind::Density, || air::density(t(), Q::constant("p", 101.0, KPA)));
        is(Kind::Number, || air::humidity_ratio(t(), w(), Q::constant("p", 101.0, KPA)));
        is(Kind::Temperature, || air::dew_point(t(), Q::constant("φ", 0.5, SHARE)));
        is(Kind::Temperature, || {
            air::dew_point_of(Q::constant("x", 0.02, NUMBER), Q::constant("p", 101.0, KPA))
        });
        is(Kind::Viscosity, || air::viscosity(t()));
        is(Kind::Current, || {
            let [p, u] = [Q::constant("P", 1.0, KW), Q::constant("U", 400.0, VOLT)];
            electricity::one_phase_current(p, u, Q::constant("φ", 0.9, NUMBER))
        });
        is(Kind::Mass, || solution_make_up::salt_for_metal(v(), metal(), blue.metal_fraction("Cu")?, one()));
        is(Kind::Concentration, || solution_make_up::compound_for_metal(metal(), blue.metal_fraction("Cu")?));
        is(Kind::Volume, || {
            solution_make_up::concentrate_by_mass_share(v(), Q::constant("c", 1.0, G_PER_L), w(), rho())
        });
        is(Kind::Volume, || solution_make_up::concentrate_by_strength(v(), metal(), metal()));
        is(Kind::Volume, || solution_make_up::concentrate_by_dose(v(), Q::constant("d", 10.0, ML_PER_L)));
        is(Kind::Mass, || solution_make_up::water_mass(v(), rho(), &[m(1.0), m(2.0)]));
        is(Kind::Mass, || Ok(solution_make_up::water_of_salt(m(1.0), &blue)));
        is(Kind::MassFraction, || Ok(solubility::solubility(&blue, t(), w())?.unwrap()));
        is(Kind::AmountConcentration, || solutions::molarity(w(), rho(), molar()));
        is(Kind::MassFraction, || solutions::mass_fraction(Q::constant("C", 1.0, MOL_PER_L), rho(), molar()));
        is(Kind::Mass, || dilution::stock_mass(w(), w() * 0.0, w() * 0.5, m(10.0)));
        is(Kind::Volume, || Ok(dilution::contraction(&[v(), v()], v())));
        let strong = || Q::constant("w", 0.96, MASS_FRACTION);
        let heat = || {
            let parts = [
                Liquid { mass: m(1.0), w: strong() },
                Liquid { mass: m(9.0), w: Q::constant("w", 0.0, MASS_FRACTION) },
            ];
            heat_of_mixing::heat_of_mixing(Heating::SulfuricAcid, &parts)
        };
        is(Kind::Energy, heat);
        let capacity = || Q::constant("C", 40.0, KJ_PER_K);
        let warm = || Warm { capacity: capacity(), temperature: t() };
        is(Kind::Temperature, || heat_of_mixing::temperature_reached(&[warm(), warm()], heat()?, capacity()));
        is(Kind::Temperature, || heat_of_mixing::starting_temperature(t(), heat()?, capacity()));
        is(Kind::TemperatureDifference, || {
            heat_of_mixing::adiabatic_rise(heat()?, m(10.0), Q::constant("c", 4.0, KJ_PER_KG_K))
        });
    }

    #[test]
    fn every_law_of_the_bath_side_gives_the_dimension_that_it_says() {
        let copper = || Constituent {
            share: Q::constant("w", 1.0, MASS_FRACTION),
            molar_mass: Q::constant("M", 63.546, G_PER_MOL),
            electrons: Q::constant("z", 2.0, NUMBER),
            density: Q::constant("ρ", 8.96, KG_PER_L),
        };
        let all = || Q::constant("η", 0.95, SHARE);
        let charge = || Q::constant("Q", 1.0, A_H);
        is(Kind::MassPerCharge, || faraday::equivalent(copper().molar_mass, copper().electrons));
        is(Kind::ChargePerMass, || faraday::charge_per_mass(&[copper()]));
        is(Kind::Number, || faraday::share_of_current(&copper(), &[copper()]));
        is(Kind::Density, || faraday::deposit_density(&[copper()]));
        is(Kind::Area, || faraday::plated_area(Q::constant("D", 0.3, M), Q::constant("e", 3.0, MM), all()));
        is(Kind::Charge, || {
            faraday::charge(Q::constant("m", 1.0, GRAM), faraday::charge_per_mass(&[copper()])?, all())
        });
        is(Kind::Time, || faraday::time(charge(), Q::constant("I", 1.0, AMPERE)));
        is(Kind::Amount, || faraday::hydrogen(charge(), all()));
        is(Kind::AmountRate, || faraday::acid_made(Q::constant("Q", 1.0, AH_PER_DAY), all()));
        is(Kind::MetalMass, || Ok(faraday::as_metal(Q::constant("m", 1.0, GRAM))));
        is(Kind::Time, || refill::time_to_run(Q::constant("V", 1.0, L), Q::constant("q", 1.0, L_PER_MIN)));
        is(Kind::Number, || {
            refill::share_left(
                Q::constant("s", 1.0, L),
                Q::constant("v", 1.0, L),
                Q::constant("n", 2.0, NUMBER),
            )
        });
        let bath = || Balance {
            volume: Q::constant("V", 200.0, L),
            gained: Q::constant("g", 1.0, G_PER_H),
            out: Q::constant("q", 1.0, L_PER_H),
            decay: Q::constant("k", 1.0, PERCENT_PER_DAY),
        };
        let start = || Q::constant("C", 1.0, G_PER_L);
        is(Kind::Concentration, || bath().after(start(), Q::constant("t", 1.0, HOUR)));
        is(Kind::Concentration, || bath().settles_at());
        is(Kind::Time, || bath().time_to(start(), Q::constant("C", 0.95, G_PER_L)));
        is(Kind::Volume, || dosing::dose_now(Q::constant("v", 2.5, ML), Q::constant("step", 1.0, ML)));
        let (n, m) = (|| Q::constant("n", 1.0, EQ_PER_L), || Q::constant("M", 36.5, G_PER_MOL));
        is(Kind::Concentration, || Ok(ion_exchange::mass_of_equivalents(n(), Q::from(1.0), m())));
        is(Kind::ServiceRate, || {
            ion_exchange::service_rate(Q::constant("q", 1.0, L_PER_H), Q::constant("V", 1.0, L))
        });
        is(Kind::Charge, || {
            dosing::trigger_interval(Q::constant("step", 1.0, ML), Q::constant("r", 1.0, ML_PER_AH))
        });
    }
}
