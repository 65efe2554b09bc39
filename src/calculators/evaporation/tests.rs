use super::{CALCULATOR, HIGHEST, TABLE};
use crate::calculator::{Outcome, Stop, Texts};
use crate::units::*;

const BATH: [(&str, &str); 5] =
    [("A_t", "1 m²"), ("T", "45 °C"), ("T_room", "21 °C"), ("RH", "45 %"), ("v_air", "0.3 m/s")];

fn over(inputs: Texts) -> Result<Outcome, Stop> {
    let inputs: Texts = Box::leak(BATH.into_iter().chain(inputs.iter().copied()).collect());
    CALCULATOR.tried(inputs, &[])
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).unwrap().1
}

/// What each form gives, in kg/h for 1 m².
fn forms(outcome: &Outcome) -> Vec<f64> {
    let table = CALCULATOR.table_named(TABLE).unwrap();
    outcome.answers[table].iter().map(|(_, row)| KG_PER_H.from_si(row[0])).collect()
}

fn says(outcome: &Outcome, text: &str) -> bool {
    outcome.findings.iter().any(|finding| finding.text.contains(text))
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found / expected - 1.0).abs() < within, "{found} is not {expected}");
}

/// kg/h from 1 m², room of 21 °C and 45 %, 0.3 m/s: pool, ratios, spill, plate, still air, computed with
/// iapws 1.5.5 and PsychroLib 2.5.0, printed to three figures.
#[test]
fn the_published_forms_disagree_by_a_factor_and_it_is_shown() {
    let table: [(&str, [f64; 5]); 4] = [
        ("30 °C", [0.52, 0.62, 0.29, 0.16, 0.29]),
        ("45 °C", [1.43, 1.78, 0.62, 0.43, 1.06]),
        ("60 °C", [3.23, 4.47, 1.22, 0.94, 2.74]),
        ("75 °C", [6.54, 11.5, 2.27, 1.83, 6.10]),
    ];
    for (t, expected) in table {
        let inputs: Texts = Box::leak(Box::new([("T", t)]));
        let outcome = over(inputs).unwrap();
        for (found, expected) in forms(&outcome).into_iter().zip(expected) {
            near(found, expected, 0.03);
        }
        near(found(&outcome, "k_s"), expected[1] / expected[3], 0.05);
        assert!(says(&outcome, "differ by this factor"), "{t}");
    }
}

#[test]
fn the_highest_is_taken_for_heater_and_water() {
    let (all, pool) = (over(&[("form", HIGHEST)]).unwrap(), over(&[("form", "indoor pool")]).unwrap());
    assert!(found(&all, "w") > found(&pool, "w"));
    near(found(&pool, "φ_e"), 1.0, 1e-12);
    near(found(&all, "φ_e"), found(&all, "w") / found(&pool, "w"), 1e-12);
}

/// iapws 1.5.5: 1.403 kPa over water of 12 °C, 1.493 kPa in a room of 21 °C and 60 %.
#[test]
fn a_bath_colder_than_the_dew_point_gains_water() {
    let outcome = over(&[("T", "12 °C"), ("RH", "60 %"), ("V", "200 L")]).unwrap();
    assert!(found(&outcome, "w") < 0.0 && found(&outcome, "q_water") < 0.0 && found(&outcome, "Q_wet") < 0.0);
    assert!(says(&outcome, "gains water"));
    assert!(found(&outcome, "t_s").is_nan(), "it does not grow stronger");
}

#[test]
fn a_humid_room_matters_most_below_40_degrees() {
    let loss = |t: &'static str, rh: &'static str| {
        let inputs: Texts = Box::leak(Box::new([("T", t), ("RH", rh)]));
        found(&over(inputs).unwrap(), "w")
    };
    let (cool, warm) =
        (loss("25 °C", "80 %") / loss("25 °C", "20 %"), loss("60 °C", "80 %") / loss("60 °C", "20 %"));
    assert!(cool < 0.5 && warm > 0.9, "{cool} {warm}");
}

#[test]
fn exhaust_sets_the_air_over_the_bath_and_a_cover_cuts_it() {
    let (still, swept) = (over(&[("v_air", "0 m/s")]).unwrap(), over(&[("v_air", "0.5 m/s")]).unwrap());
    assert!(found(&swept, "w") > 1.3 * found(&still, "w"));
    // By hand: 90 % covered by balls that hold back 80 % leaves 28 %.
    let covered = over(&[("f_c", "90 %"), ("k_c", "80 %")]).unwrap();
    near(found(&covered, "A_o"), 0.28, 1e-12);
    near(found(&covered, "w"), 0.28 * found(&over(&[]).unwrap(), "w"), 1e-9);
}

/// The heat of vaporisation at 100 °C, 2257 kJ/kg, used at 25 °C reads 8 % low (2441.7, iapws 1.5.5).
#[test]
fn the_heat_of_vaporisation_is_that_of_the_bath() {
    let outcome = over(&[("T", "25 °C"), ("w_m", "1 kg/h")]).unwrap();
    near(found(&outcome, "Q_wet"), 2441.7e3 / 3600.0, 1e-3);
}

#[test]
fn evaporation_concentrates_and_is_not_drag_out() {
    // By hand: 2 kg/h for 10 h at 0.9982 kg/L take 20.04 of 200 L, so all the rest rises by 11.1 %.
    let outcome = over(&[("w_m", "2 kg/h"), ("V", "200 L"), ("t_x", "10 h")]).unwrap();
    near(found(&outcome, "s_x"), 200.0 / (200.0 - 20.0 / 0.998203) - 1.0, 1e-4);
    assert!(says(&outcome, "DI water alone") && says(&outcome, "Drag-out is another matter"));
    let dry = over(&[("w_m", "2 kg/h"), ("V", "10 L"), ("t_x", "10 h")]).unwrap();
    assert!(says(&dry, "dried up") && found(&dry, "s_x").is_nan());
}

#[test]
fn what_feeds_the_exhaust_and_the_ph_is_said() {
    let ammonia = over(&[("class", "ammonia or complexed")]).unwrap();
    assert!(says(&ammonia, "the pH falls"));
    let cyanide = over(&[("class", "cyanide")]).unwrap();
    assert!(cyanide.cautions.iter().any(|text| text.contains("never joined with that of acid")));
    assert!(over(&[]).unwrap().cautions.iter().any(|text| text.contains("a hygienist")));
}

#[test]
fn a_bath_that_boils_is_refused() {
    // Water boils at 95 °C at 1500 m (iapws 1.5.5).
    assert!(over(&[("T", "97 °C"), ("z_site", "1500 m")]).is_err());
}

/// What is dissolved lowers the vapour pressure (Raoult), so that water’s own is the upper bound for a bath.
#[test]
fn water_is_the_upper_bound_for_a_bath() {
    let loss = |activity: &'static str| {
        let inputs = [("A_t", "0.5 m²"), ("T", "45 °C"), ("a_w", activity)];
        found(&over(Box::leak(Box::new(inputs))).unwrap(), "w")
    };
    assert!(loss("90 %") < loss("97 %") && loss("97 %") < loss("100 %"));
    let input = CALCULATOR.input_at(CALCULATOR.port("a_w").unwrap()).unwrap();
    assert_eq!(input.hard[1], 100.0, "no bath has more than water");
}
