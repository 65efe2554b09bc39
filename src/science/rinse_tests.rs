use super::*;

fn q(number: f64, unit: &'static Unit) -> Q {
    Q::constant("x", number, unit)
}

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance * expected.abs(), "{got} is not {expected}");
}

const ONE: Rinse = Rinse::Counterflow(1);
const TWO: Rinse = Rinse::Counterflow(2);
const THREE: Rinse = Rinse::Counterflow(3);

/// What a law comes to while a tape runs, with its dimensions checked.
#[track_caller]
fn traced(law: impl FnOnce() -> Result<Q, Refusal>) -> Q {
    let (found, fault) = crate::quantity::with_tape(Some(Style::default()), law);
    assert_eq!(fault, None);
    found.unwrap()
}

/// Of drag-in and water, the last stage.
fn last_stage(c0: Q, feed: Q, d: Q, q: Q, rinse: Rinse) -> Result<Q, Refusal> {
    Ok(diluted(c0, feed, dilution(q / d, rinse)?))
}

/// Of drag-in and water, what leaves.
fn to_drain(c0: Q, feed: Q, d: Q, q: Q, rinse: Rinse) -> Result<Q, Refusal> {
    overflow(c0, feed, last_stage(c0, feed, d, q, rinse)?, q / d)
}

/// 1.5 mL of 50 g/L, and pure water.
fn wafer() -> (Q, Q, Q) {
    (q(50.0, G_PER_L_METAL), q(0.0, G_PER_L_METAL), q(1.5, ML))
}

/// Numpy `linalg.solve` of the stage balances: 40 g/L, 0.2 L/h, 8 L/h, 3 stages: 0.6093752 mg/L in the
/// last, 999.9848 mg/L to the drain; 10 mg/L in two stages takes 12.54792 L/h.
#[test]
fn counterflow_of_the_stage_balances() {
    let (c0, feed, d) = (q(40.0, G_PER_L_METAL), q(0.0, G_PER_L_METAL), q(0.2, L_PER_H));
    let water = q(8.0, L_PER_H);
    close(last_stage(c0, feed, d, water, THREE).unwrap().number(MG_PER_L_METAL), 0.6093752, 1e-6);
    close(to_drain(c0, feed, d, water, THREE).unwrap().number(MG_PER_L_METAL), 999.9848, 1e-6);
    let target = q(10.0, MG_PER_L_METAL);
    close(flow_for_target(c0, feed, target, d, TWO).unwrap().number(L_PER_H), 12.54792, 1e-6);
    assert!(flow_for_target(c0, target, target, d, TWO).is_err());
    assert_eq!(flow_for_target(c0, feed, c0, d, TWO).unwrap().si, 0.0);
    // Without water the rinse comes to the bath's own, and nothing leaves.
    assert_eq!(last_stage(c0, feed, d, q(0.0, L_PER_H), TWO).unwrap(), c0);
    assert!(to_drain(c0, feed, d, q(0.0, L_PER_H), TWO).is_err());
    assert!(flow_for_target(c0, feed, target, q(0.0, L_PER_H), TWO).is_err());
    assert!(dilution(Q::from(1.0), Rinse::Counterflow(0)).is_err());
    // As much water as drag-out: 1/(n + 1), by the geometric sum.
    close(last_stage(c0, feed, d, d, THREE).unwrap().number(G_PER_L_METAL), 10.0, 1e-12);
}

/// Numpy 2.4.6 `linalg.solve` of the stage balances, 40 g/L, 0.2 and 8 L/h, with 2 mg/L in the rinse water:
/// 1001.93477, 26.9831355 and 2.60934477 mg/L in the three stages.
#[test]
fn each_stage_and_the_water_that_is_not_pure() {
    let case = || (q(40.0, G_PER_L_METAL), q(2.0, MG_PER_L_METAL), q(0.2, L_PER_H), q(8.0, L_PER_H));
    let (c0, feed, d, water) = case();
    for (k, expected) in [(1, 1001.93476638), (2, 26.98313554), (3, 2.60934477)] {
        let found = traced(|| {
            let (c0, feed, d, water) = case();
            Ok(diluted(c0, feed, dilution_up_to(water / d, THREE, k)?))
        });
        close(found.number(MG_PER_L_METAL), expected, 1e-9);
    }
    // The first stage is what overflows.
    close(to_drain(c0, feed, d, water, THREE).unwrap().number(MG_PER_L_METAL), 1001.93476638, 1e-9);
    assert!([0, 4].iter().all(|k| dilution_up_to(water / d, THREE, *k).is_err()));
}

/// W. Yates, Ten Minutes to Better Rinsing (1991): 1 gal/h into 99 gal/h dilutes 100 times.
#[test]
fn one_rinse() {
    let (d, water) = (q(1.0, GALLON_PER_DAY), q(99.0, GALLON_PER_DAY));
    close(dilution(water / d, ONE).unwrap().si, 100.0, 1e-12);
    let c = last_stage(q(40.0, G_PER_L), q(0.0, G_PER_L), d, water, ONE).unwrap();
    close(c.number(G_PER_L), 0.4, 1e-12);
}

/// Scipy 1.17.1 `brentq` over `linalg.solve`: of 1.5 mL of 50 g/L a wafer, 60 mg/L to the drain take 1.2485 L in one
/// stage, 1.2499982 L in two and 1.249999998 L in three.
#[test]
fn more_stages_spare_no_water_to_the_drain() {
    let (c0, feed, d) = wafer();
    let limit = || q(60.0, MG_PER_L_METAL);
    for (rinse, expected) in [(ONE, 1.2485), (TWO, 1.2499982021548288), (THREE, 1.2499999978425922)] {
        let found = traced(|| {
            let (c0, feed, d) = wafer();
            flow_for_overflow(c0, feed, limit(), d, rinse)
        });
        close(found.number(L), expected, 1e-9);
    }
    assert_eq!(flow_for_overflow(c0, feed, c0, d, TWO).unwrap().si, 0.0);
    assert!(flow_for_overflow(c0, limit(), limit(), d, TWO).is_err());
}

/// Python recursion, mix then withdraw: 1.5 mL of 50 g/L sprayed three times with 0.1 L, of which 40 % mixes, leaves
/// 2.36101905 mg/L; 1000 times takes 0.10125 L in all (scipy `brentq`), and 60 mg/L to the drain 1.249999113 L.
#[test]
fn sprays_with_a_share_that_rinses() {
    let found = |law: fn(Q, Q, Q, Rinse) -> Result<Q, Refusal>| {
        traced(|| {
            let (c0, feed, d) = wafer();
            law(c0, feed, d, Rinse::Fresh(3, q(40.0, PERCENT)))
        })
    };
    let last = found(|c0, feed, d, rinse| last_stage(c0, feed, d, q(0.3, L), rinse));
    close(last.number(MG_PER_L_METAL), 2.361019050800384, 1e-9);
    let out = found(|c0, feed, d, rinse| to_drain(c0, feed, d, q(0.3, L), rinse));
    close(out.number(MG_PER_L_METAL), 249.98819490474602, 1e-9);
    let thousand = found(|_, _, d, rinse| flow_for_dilution(Q::from(1000.0), d, rinse));
    close(thousand.number(L), 0.10125, 1e-9);
    let sixty = found(|c0, feed, d, rinse| flow_for_overflow(c0, feed, q(60.0, MG_PER_L_METAL), d, rinse));
    close(sixty.number(L), 1.2499991129155654, 1e-9);
}

/// Python recursion, mix then withdraw: a load carries 0.1 L of 40 g/L into dumps of 20 L: 199.005, 0.990074 and
/// 0.00492574 mg/L left, and 199.005, 99.9975 and 66.6667 mg/L out in the mean. So 100 mg/L take two dumps.
#[test]
fn dumps_are_whole() {
    let (c0, feed, d, v) = (q(40.0, G_PER_L_METAL), q(0.0, G_PER_L_METAL), q(0.1, L), q(20.0, L));
    for (n, left, out) in
        [(1, 199.0049751243781, 199.0049751243781), (2, 0.9900745031063587, 99.99752481374223)]
    {
        let (rinse, water) = (Rinse::Fresh(n, Q::from(1.0)), v * f64::from(n));
        close(last_stage(c0, feed, d, water, rinse).unwrap().number(MG_PER_L_METAL), left, 1e-9);
        close(to_drain(c0, feed, d, water, rinse).unwrap().number(MG_PER_L_METAL), out, 1e-9);
    }
    let two = traced(|| dumps_for_dilution(Q::from(1000.0), q(0.1, L), q(20.0, L)));
    assert_eq!(two.si, 2.0);
    assert_eq!(dumps_for_dilution(Q::from(201.0), d, v).unwrap().si, 1.0);
    assert_eq!(dumps_for_dilution(Q::from(201.1), d, v).unwrap().si, 2.0);
    let two = traced(|| {
        let (c0, feed) = (q(40.0, G_PER_L_METAL), q(0.0, G_PER_L_METAL));
        dumps_for_overflow(c0, feed, q(100.0, MG_PER_L_METAL), q(0.1, L), q(20.0, L))
    });
    assert_eq!(two.si, 2.0);
    assert_eq!(dumps_for_overflow(c0, feed, q(67.0, MG_PER_L_METAL), d, v).unwrap().si, 3.0);
    assert!(dumps_for_overflow(c0, feed, q(1.0, MG_PER_L_METAL), d, v).is_err());
    assert!(dumps_for_dilution(Q::from(1e9), d, q(1.0, ML)).is_err());
}

/// Common practice of the trade, beside `linalg.solve`: 4000 times in two stages of 0.2 L/h takes 12.6491 L/h by the
/// root and 12.54792 in truth.
#[test]
fn the_root_asks_for_too_much_water() {
    let root = traced(|| flow_by_root(Q::from(4000.0), q(0.2, L_PER_H), 2)).number(L_PER_H);
    close(root, 12.6491, 1e-5);
    let exact = flow_for_dilution(Q::from(4000.0), q(0.2, L_PER_H), TWO).unwrap();
    close(exact.number(L_PER_H), 12.54792, 1e-6);
    assert!(root > exact.number(L_PER_H));
}

/// Conductivity of potassium chloride at 25 °C: 1412 µS/cm at 10 mmol/L, 147 at 1 mmol/L (CRC Handbook, from memory).
#[test]
fn what_is_diluted_conducts_a_little_more_than_its_share() {
    let found = diluted_conductivity(q(1412.0, US_PER_CM), q(0.0, US_PER_CM), Q::from(10.0));
    close(found.number(US_PER_CM), 147.0, 0.05);
    assert!(found.number(US_PER_CM) < 147.0);
    let with_feed = diluted_conductivity(q(1412.0, US_PER_CM), q(12.0, US_PER_CM), Q::from(10.0));
    close(with_feed.number(US_PER_CM), 152.0, 1e-12);
}

/// Scipy `solve_ivp` of dh/dt = −2·ρ·ω²·h³/(3·μ) (Emslie, Bonner & Peck 1958): from 200 µm at 500 a
/// minute for 5 s in water, 7.405837 µm and 0.5234878 mL on one side of 300 mm.
#[test]
fn a_spun_film() {
    let film = traced(|| {
        spin_film(q(200.0, UM), q(500.0, PER_MINUTE), q(5.0, SECOND), q(1.002, MPAS), q(998.2, KG_PER_M3))
    });
    close(film.number(UM), 7.405837, 1e-6);
    close(film_volume(q(300.0, MM), film, Q::from(1.0)).number(ML), 0.5234878, 1e-6);
}

/// Scipy 1.17.1 `solve_ivp` of the same from 50 mm: 7.4109192 µm in water, and 23.165895 µm of 2.5 mPa·s and
/// 1180 kg/m³ at 300 a minute for 3 s.
#[test]
fn after_a_while_the_start_is_forgotten() {
    let at_most = |speed, t, mu, rho| {
        traced(|| spin_film_at_most(q(speed, PER_MINUTE), q(t, SECOND), q(mu, MPAS), q(rho, KG_PER_M3)))
    };
    close(at_most(500.0, 5.0, 1.002, 998.2).number(UM), 7.4109192376, 1e-6);
    close(at_most(300.0, 3.0, 2.5, 1180.0).number(UM), 23.16589511, 1e-6);
}

/// The range of the law: from memory and common practice, no source.
#[test]
fn a_film_too_thin_and_a_spin_too_short_are_refused() {
    assert!(by_spinning(q(1.99, UM)).unwrap_err().reason.contains("1.99 µm"));
    assert_eq!(by_spinning(q(2.0, UM)).unwrap().number(UM), 2.0);
    let spun = |speed, t| {
        spin_film(q(200.0, UM), q(speed, PER_MINUTE), q(t, SECOND), q(1.0, MPAS), q(1000.0, KG_PER_M3))
    };
    assert!(spun(59.0, 1.0).unwrap_err().reason.contains("less than once"));
    assert!(spun(61.0, 1.0).is_ok());
}

/// Metal Finishing Guide Book 2012-13, p. 103, table II: 0.4 gal/1000 ft², 16.3 mL/m².
#[test]
fn drag_out_of_the_guide_book() {
    let film = drag_out_film("vertical, well drained").unwrap();
    close(film.number(GALLON_PER_1000_FT2), 0.4, 1e-12);
    close(film.number(ML_PER_M2), 16.298, 1e-4);
    assert!(drag_out_film("shaken").unwrap_err().remedy.contains("vertical, well drained"));
}
