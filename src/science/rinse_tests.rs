use super::*;

fn q(number: f64, unit: &'static Unit) -> Q {
    Q::constant("x", number, unit)
}

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance * expected.abs(), "{got} is not {expected}");
}

/// Numpy `linalg.solve` of the stage balances: 40 g/L, 0.2 L/h, 8 L/h, 3 stages: 0.6093752 mg/L in the
/// last, 999.9848 mg/L to the drain; 10 mg/L in two stages takes 12.54792 L/h.
#[test]
fn counterflow_of_the_stage_balances() {
    let (c0, feed, d) = (q(40.0, G_PER_L_METAL), q(0.0, G_PER_L_METAL), q(0.2, L_PER_H));
    let water = q(8.0, L_PER_H);
    close(counterflow_last(c0, feed, d, water, 3).unwrap().number(MG_PER_L_METAL), 0.6093752, 1e-6);
    close(counterflow_overflow(c0, feed, d, water, 3).unwrap().number(MG_PER_L_METAL), 999.9848, 1e-6);
    let target = q(10.0, MG_PER_L_METAL);
    close(flow_for_target(c0, feed, target, d, 2).unwrap().number(L_PER_H), 12.54792, 1e-6);
    assert!(flow_for_target(c0, target, target, d, 2).is_err());
    assert_eq!(flow_for_target(c0, feed, c0, d, 2).unwrap().si, 0.0);
    assert!(counterflow_last(c0, feed, d, q(0.0, L_PER_H), 2).is_err());
    // As much water as drag-out: 1/(n + 1), by the geometric sum.
    close(counterflow_last(c0, feed, d, d, 3).unwrap().number(G_PER_L_METAL), 10.0, 1e-12);
}

/// W. Yates, Ten Minutes to Better Rinsing (1991): 1 gal/h into 99 gal/h dilutes 100 times.
#[test]
fn one_rinse() {
    let (d, water) = (q(1.0, GALLON_PER_DAY), q(99.0, GALLON_PER_DAY));
    close(dilution_ratio(d, water).unwrap().si, 100.0, 1e-12);
    let c = single_rinse(q(40.0, G_PER_L), q(0.0, G_PER_L), d, water).unwrap();
    close(c.number(G_PER_L), 0.4, 1e-12);
}

/// Recursion, mix then withdraw: 50 L, 0.05 L a load at 40 g/L, 100 loads: 3.804695 g/L.
#[test]
fn a_standing_rinse_fills_up() {
    let (c0, v, d) = (q(40.0, G_PER_L), q(50.0, L), q(0.05, L));
    let c = standing_rinse(c0, v, d, Q::from(100.0)).unwrap();
    close(c.number(G_PER_L), 3.804695, 1e-6);
}

/// Scipy `solve_ivp` of dh/dt = −2·ρ·ω²·h³/(3·μ) (Emslie, Bonner & Peck 1958): from 200 µm at 500 a
/// minute for 5 s in water, 7.405837 µm and 0.5234878 mL on one side of 300 mm.
#[test]
fn a_spun_film() {
    let (film, fault) = crate::quantity::with_tape(Some(Style::default()), || {
        spin_film(q(200.0, UM), q(500.0, PER_MINUTE), q(5.0, SECOND), q(1.002, MPAS), q(998.2, KG_PER_M3))
            .unwrap()
    });
    close(film.number(UM), 7.405837, 1e-6);
    close(film_volume(q(300.0, MM), film, Q::from(1.0)).number(ML), 0.5234878, 1e-6);
    assert_eq!(fault, None);
}

/// Metal Finishing Guide Book 2012-13, p. 103, table II: 0.4 gal/1000 ft², 16.3 mL/m².
#[test]
fn drag_out_of_the_guide_book() {
    let film = drag_out_film("vertical, well drained").unwrap();
    close(film.number(GALLON_PER_1000_FT2), 0.4, 1e-12);
    close(film.number(ML_PER_M2), 16.298, 1e-4);
    assert!(drag_out_film("shaken").unwrap_err().remedy.contains("vertical, well drained"));
}
