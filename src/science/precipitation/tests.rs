use super::sets::{FIRST, SECOND};
use super::*;
use crate::units::*;

fn mg(set: &'static Set, ph: f64) -> f64 {
    solubility(set, Q::constant("pH", ph, NUMBER)).unwrap().number(MG_PER_L_METAL)
}

fn limit(mg_per_l: f64) -> Q {
    Q::constant("limit", mg_per_l, MG_PER_L_METAL)
}

fn both(metal: &str) -> [&'static Set; 2] {
    sets_of(metal).unwrap()
}

/// Above pH 13 a pH is no measure of hydroxide without its constant at the temperature: no curve is drawn there.
#[test]
fn no_curve_is_drawn_above_ph_13_or_below_2() {
    for ph in [1.9, 13.1, f64::NAN] {
        assert!(solubility(both("Cu")[0], Q::constant("pH", ph, NUMBER)).is_err(), "{ph}");
    }
}

#[test]
fn every_metal_has_two_sets_of_the_same_solid() {
    assert!(FIRST.iter().map(|set| set.metal).eq(SECOND.iter().map(|set| set.metal)));
    for (a, b) in FIRST.iter().zip(SECOND) {
        assert_eq!((a.solid, a.charge), (b.solid, b.charge), "{}", a.metal);
    }
    assert!(sets_of("Au").is_none());
}

/// PHREEQC 3.8.6: at pH 9 wateq4f.dat leaves 0.567 mg/L of copper and minteq.v4.dat 0.00332; of nickel 0.0110 and 1.20.
#[test]
fn databases_disagree_by_a_hundred_times_and_in_both_ways() {
    let [cu_1, cu_2] = both("Cu").map(|set| mg(set, 9.0));
    let [ni_1, ni_2] = both("Ni").map(|set| mg(set, 9.0));
    assert!((cu_2 / cu_1 / (0.56684 / 0.003317) - 1.0).abs() < 0.05, "{cu_1} {cu_2}");
    assert!((ni_1 / ni_2 / (1.197 / 0.011034) - 1.0).abs() < 0.05, "{ni_1} {ni_2}");
}

/// PHREEQC 3.8.6, minteq.v4.dat: zinc 32.8 mg/L at pH 8, 0.284 at 9.5, 1.53 at 11: amphoteric.
#[test]
fn an_amphoteric_metal_dissolves_again_above_its_best_ph() {
    let zinc = both("Zn")[0];
    let (ph, least) = least_soluble(zinc);
    assert!((9.5..10.0).contains(&ph.si), "{}", ph.si);
    assert!(least.number(MG_PER_L_METAL) < 0.29);
    assert!(mg(zinc, 8.0) > 30.0 && mg(zinc, 12.0) > 25.0);
    // The least is where the slope turns: 0.1 to either side is more.
    assert!(mg(zinc, ph.si - 0.1) > least.number(MG_PER_L_METAL));
    assert!(mg(zinc, ph.si + 0.1) > least.number(MG_PER_L_METAL));
}

/// 40 CFR 433.17 allows 0.24 mg/L of silver on average; PHREEQC 3.8.6 leaves 0.8 at pH 12 in both files.
#[test]
fn silver_never_gets_low_enough() {
    for set in both("Ag") {
        assert!(least_soluble(set).1.number(MG_PER_L_METAL) > 0.24);
    }
    let silver = Together { sets: &both("Ag"), besides: limit(0.0), limit: limit(0.24) };
    assert!(best_common_ph(&[silver]).unwrap().window.is_none());
}

/// PHREEQC 3.8.6, minteq.v4.dat: copper 1.08 mg/L at pH 7, of 60 in the water.
#[test]
fn at_ph_7_copper_has_begun_to_fall() {
    assert!(both("Cu").iter().all(|set| mg(set, 7.0) < 2.0));
}

/// OpenStax Chemistry 2e, appendix J: 2.2e-20 for copper hydroxide, which leaves 0.0000140 mg/L at pH 9 as Cu²⁺ alone.
#[test]
fn a_solubility_product_alone_reads_far_too_low() {
    let alone = 2.2e-20 / 1e-5f64.powi(2) * 63.546e3;
    assert!((alone - 1.398e-5).abs() < 1e-8);
    assert!(both("Cu").iter().all(|set| mg(set, 9.0) > 100.0 * alone));
}

/// The worst of several metals by each one's own minimum: zinc and nickel meet between pH 9.5 and 10.7.
#[test]
fn metals_that_fall_together_do_so_between_their_own_best() {
    let (zinc, nickel) = (both("Zn"), both("Ni"));
    let of = |sets, mg| Together { sets, besides: limit(0.0), limit: limit(mg) };
    let found = best_common_ph(&[of(&zinc, 1.48), of(&nickel, 2.38)]).unwrap();
    let [low, high] = [least_soluble(zinc[0]), least_soluble(nickel[0])].map(|(ph, _)| ph.si);
    assert!((low - 0.5..=high + 0.5).contains(&found.ph.si), "{low} {} {high}", found.ph.si);
    let (from, to) = found.window.unwrap();
    for ph in [from.si + 1e-6, found.ph.si, to.si - 1e-6] {
        assert!(zinc.iter().all(|set| mg(set, ph) <= 1.4801), "{ph}");
        assert!(nickel.iter().all(|set| mg(set, ph) <= 2.3801), "{ph}");
    }
    assert!(best_common_ph(&[]).is_err() && best_common_ph(&[of(&zinc, 0.0)]).is_err());
}

/// By hand: 100 g/day of copper are 153.5 g/day of hydroxide (97.56/63.546); at 2 % of solids 7.68 kg/day.
#[test]
fn sludge_is_nearly_all_water() {
    let dry = sludge::dry_solid(Q::constant("m", 100.0, G_PER_DAY_METAL), "Cu(OH)2", "Cu").unwrap();
    assert!((dry.number(G_PER_DAY) - 153.5).abs() < 0.05, "{}", dry.number(G_PER_DAY));
    let two = Q::constant("x", 2.0, MASS_PERCENT);
    let wet = sludge::wet_sludge(dry, two).unwrap();
    assert!((wet.number(KG_PER_DAY) - 7.676).abs() < 0.003);
    let [solid, water] = [3.4, 0.9982].map(|rho| Q::constant("ρ", rho, KG_PER_L));
    let volume = sludge::sludge_volume(wet, two, solid, water).unwrap();
    // 0.1535/3.4 + 7.5225/0.9982 L.
    assert!((volume.number(L_PER_DAY) - 7.581).abs() < 0.003, "{}", volume.number(L_PER_DAY));
    assert!(sludge::wet_sludge(dry, two * 0.0).is_err());
}
