use super::*;
use crate::units::*;

fn solution<'a>(parts: &[(&'a str, f64)], t: f64, activities: Activities) -> Solution<'a> {
    let portion = |(name, c): &(&str, f64)| Portion {
        substance: known(name).unwrap(),
        c: Q::constant("c", *c, MOL_PER_L),
    };
    Solution::new(parts.iter().map(portion).collect(), Q::constant("T", t, CELSIUS), activities).unwrap()
}

fn ph(parts: &[(&str, f64)]) -> f64 {
    solution(parts, 25.0, Activities::Counted).ph().si
}

fn is(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found}, not {expected}");
}

/// PHREEQC 3.8.6 with phreeqc.dat: HCl of 0.1 mol/kg reads pH 1.09 and not 1.00.
#[test]
fn a_strong_acid_of_a_tenth_mole_does_not_read_ph_1() {
    is(ph(&[("Hydrochloric acid", 0.1)]), 1.0913, 0.02);
    is(solution(&[("Hydrochloric acid", 0.1)], 25.0, Activities::LeftOut).ph().si, 1.0, 1e-4);
}

/// PHREEQC 3.8.6: 0.5 mol/kg of boric acid is at pH 4.09 with polyborates (minteq.v4.dat) and at 4.77
/// without (phreeqc.dat).
#[test]
fn boric_acid_clusters_at_bath_strength() {
    is(ph(&[("Boric acid", 0.5)]), 4.0907, 0.02);
    is(ph(&[("Boric acid, single borate only", 0.5)]), 4.7705, 0.02);
}

/// PHREEQC 3.8.6, phreeqc.dat: pure water.
#[test]
fn water_is_neutral_below_ph_7_when_warm() {
    for (t, neutral) in [(25.0, 6.997), (40.0, 6.7667), (60.0, 6.5076)] {
        is(neutral_ph(Q::constant("T", t, CELSIUS)).unwrap().si, neutral, 0.01);
        is(solution(&[], t, Activities::Counted).ph().si, neutral, 0.01);
    }
}

/// By hand: 0.1 mol/L NaOH without activities has pOH 1, so pH is pKw − 1; with pKw of 60 °C that is 12.02.
#[test]
fn a_hot_alkali_reads_lower_because_water_changes() {
    let hot = solution(&[("Sodium hydroxide", 0.1)], 60.0, Activities::LeftOut).ph().si;
    is(hot, 2.0 * 6.5076 - 1.0, 0.02);
}

/// PHREEQC 3.8.6: of free cyanide 0.994 is hydrogen cyanide at pH 7, half at 9.21, 0.015 at 11.
#[test]
fn free_cyanide_is_gas_below_ph_9() {
    let share =
        |ph: f64| hydrogen_cyanide_share(Q::constant("pH", ph, NUMBER), Q::constant("T", 25.0, CELSIUS)).si;
    is(share(7.0), 0.9939, 0.005);
    is(share(9.21), 0.4976, 0.005);
    is(share(11.0), 0.01537, 0.001);
}

/// OpenStax Chemistry 2e, acid–base titrations: the pH leaps from 3.7 to 10.3 within 0.2 mL, where a
/// search from pH 7 by Newton's rule would fail.
#[test]
fn the_leap_of_a_titration_is_found_from_both_sides() {
    let at = |base: f64| {
        let v = 25.0 + base;
        let parts = [("Hydrochloric acid", 2.5 / v), ("Sodium hydroxide", 0.1 * base / v)];
        solution(&parts, 25.0, Activities::LeftOut).ph().si
    };
    is(at(24.9), 3.7, 0.01);
    is(at(25.1), 10.3, 0.01);
}

/// What comes back must be what went in: the amount found brings the bath to the pH wanted.
#[test]
fn the_amount_found_brings_the_bath_there() {
    let bath = solution(&[("Boric acid", 0.5), ("Nickel sulfamate", 1.3)], 50.0, Activities::Counted);
    let now = bath.ph().si;
    let wanted = Q::constant("pH", now - 0.4, NUMBER);
    let strength = Some(Q::constant("C", 1.0, MOL_PER_L));
    let reagent = Reagent { substance: known("Sulfamic acid").unwrap(), strength };
    let n = reagent_to_reach(&bath, reagent, wanted).unwrap();
    is(ph_after(&bath, reagent, n).unwrap().si, wanted.si, 1e-6);
    let base = Reagent { substance: known("Sodium hydroxide").unwrap(), strength };
    assert!(reagent_to_reach(&bath, base, wanted).is_err(), "a base does not lower the pH");
}

/// By calculus: half-neutralised acetic acid of 0.1 mol/L in all holds its pH by ln 10·C/4 and a little water.
#[test]
fn a_buffer_is_strongest_at_its_pka() {
    let parts = [("Acetic acid", 0.1), ("Sodium hydroxide", 0.05)];
    let buffer = solution(&parts, 25.0, Activities::LeftOut);
    let beta = buffer.buffer_capacity(buffer.ph()).number(MOL_PER_L);
    is(beta, std::f64::consts::LN_10 * 0.1 / 4.0, 1e-3);
}

/// By hand: two doses unseen of 0.03 each, and a probe that repeats to 0.02, need a band of 0.10.
#[test]
fn a_band_that_does_not_hunt() {
    let q = |number: f64| Q::constant("x", number, NUMBER);
    is(least_dead_band(q(0.03), q(0.02), q(2.0), q(0.02)).si, 0.10, 1e-12);
}

/// Whatever is dissolved, at whatever strength: a finite pH at which the charges balance.
#[test]
fn every_mixture_has_one_ph() {
    let mut state = 7u64;
    let mut draw = |n: usize| {
        state = state.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (state >> 33) as usize % n
    };
    let strengths = [0.0, 1e-9, 1e-5, 1e-3, 0.05, 0.5, 2.0, 20.0];
    for round in 0..400 {
        let parts: Vec<(&str, f64)> = (0..1 + draw(4))
            .map(|_| (&*SUBSTANCES[draw(SUBSTANCES.len())].name, strengths[draw(strengths.len())]))
            .collect();
        let activities = if round % 2 == 0 { Activities::Counted } else { Activities::LeftOut };
        let bath = solution(&parts, [0.0, 25.0, 60.0, 100.0][draw(4)], activities);
        let ph = bath.ph();
        assert!((-2.0..=16.0).contains(&ph.si), "{parts:?}: {}", ph.si);
        assert!(bath.ionic_strength().si.is_finite(), "{parts:?}");
        assert!(bath.buffer_capacity(ph).si > 0.0, "{parts:?}");
        let total: f64 = parts.iter().map(|(_, c)| c).sum();
        let left = bath.base_to(ph).number(MOL_PER_L);
        let is_inside = ph.si > -1.9 && ph.si < 15.9;
        assert!(!is_inside || left.abs() < 1e-6 * (1e-2 + total), "{parts:?} at {}: {left}", ph.si);
    }
}
