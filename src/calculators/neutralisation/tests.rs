//! What the sheet of neutralisation gives, and what it refuses.

use super::*;
use crate::calculator::{Outcome, Stop, Texts};
use crate::science::segregation::{Class, acid_frees};
use crate::units::{L_PER_H, Unit};

type Rows = &'static [(&'static str, &'static str, Texts)];

/// What stands where a test types nothing else.
const USUAL: Texts =
    &[("Q", "1000 L/day"), ("q_m", "1 L/min"), ("pH_0", "2"), ("C_b", "5 mol/L"), ("pH_t", "8")];

fn evaluate(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    let inputs: &'static _ = Box::leak([USUAL, inputs].concat().into_boxed_slice());
    CALCULATOR.tried(inputs, rows)
}

fn of(outcome: &Outcome, symbol: &str, unit: &Unit) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    unit.from_si(outcome.answers[port.table][0].1[port.column])
}

fn says(outcome: &Outcome, text: &str) -> bool {
    outcome.findings.iter().any(|finding| finding.text.contains(text))
}

/// A stream of a class.
fn arriving(class: &'static str) -> Rows {
    let cells: Texts = Box::leak(Box::new([("class_s", class)]));
    Box::leak(Box::new([(reagent::ARRIVING, "Rinse", cells)]))
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found / expected - 1.0).abs() < within, "{found} is not {expected}");
}

const SULFURIC: Rows = &[(reagent::DISSOLVED, "Sulfuric acid", &[("as_a", "g/L"), ("c_a", "180 g/L")])];
const LOWERING: Texts = &[("pH_0", "11"), ("pH_t", "8"), ("way", LOWERED)];

#[test]
fn a_cyanide_route_is_never_offered_acid() {
    for kind in
        [routes::CYANIDE, routes::SULFITE, routes::FLUORIDE, routes::OXIDISERS, routes::SOLVENTS, routes::OWN]
    {
        let inputs: Texts = Box::leak(Box::new([("pH_0", "11.5"), ("pH_t", "8"), ("kind_r", kind)]));
        let stop = evaluate(inputs, &[]).unwrap_err();
        assert!(stop.reason.contains("No acid is added to the route"), "{kind}: {}", stop.text());
    }
    // And the choice is not there to be made: only routes whose class may meet acid have it.
    for kind in TAKES_ACID {
        let class = routes::carries(kind).expect("a class");
        assert!(acid_frees(class).is_none(), "{kind}");
    }
}

#[test]
fn a_stream_of_cyanide_or_of_no_known_class_keeps_acid_from_any_route() {
    for (class, word) in [
        ("cyanide", "hydrogen cyanide"),
        ("unknown", "may hold cyanide"),
        ("sulfite", "sulfur dioxide"),
        ("oxidiser", "chlorine"),
    ] {
        let rows = arriving(class);
        let stop = evaluate(LOWERING, rows).unwrap_err();
        assert!(stop.reason.contains(word) && stop.reason.contains("Rinse"), "{}", stop.text());
    }
    let alkaline: Rows = &[(reagent::ARRIVING, "Rinse", &[("class_s", "alkaline")])];
    assert!(evaluate(LOWERING, alkaline).is_ok());
}

#[test]
fn caustic_is_refused_where_the_table_of_conflicts_refuses_it() {
    for class in Class::ALL {
        let word = class.name();
        let rows = arriving(word);
        let is_refused = crate::science::segregation::must_not_meet(class, Class::Alkaline).is_some();
        assert_eq!(evaluate(&[], rows).is_err(), is_refused, "{word}");
    }
}

#[test]
fn water_with_cyanide_stays_above_ph_11() {
    let route: Texts = &[("kind_r", routes::CYANIDE), ("pH_0", "10"), ("pH_t", "10.5")];
    assert!(says(&evaluate(route, &[]).unwrap(), "stays above pH 11"));
    let high: Texts = &[("kind_r", routes::CYANIDE), ("pH_0", "10"), ("pH_t", "11.5")];
    let outcome = evaluate(high, &[]).unwrap();
    assert!(!says(&outcome, "stays above pH 11"));
    assert!(outcome.cautions.iter().any(|text| text.contains("Never any acid")));
}

/// By hand: 180 g/L of sulfuric acid are 1.8354 mol/L, which take 3.6708 of NaOH, whatever pH a law would say.
#[test]
fn strong_acid_of_bath_strength_goes_by_amount_and_not_by_ph() {
    let outcome = evaluate(&[("given", reagent::BY_NAME)], SULFURIC).unwrap();
    near(of(&outcome, "n_r", MOL_PER_L), 3.6708, 1e-4);
    let stop = evaluate(&[("given", reagent::BY_NAME), ("pH_t", "2")], SULFURIC).unwrap_err();
    assert!(stop.at == Some("pH_t") && stop.reason.contains("goes by amount"), "{}", stop.text());
}

/// By hand: 0.05 mol/L is at pH 1.1 and 0.49 at 0.44, so one goes by charge balance and one by amount: 2·C to pH 8.
#[test]
fn both_ways_of_counting_meet() {
    let with = |c: &'static str| -> f64 {
        let cells: Texts = Box::leak(Box::new([("as_a", "mol/L"), ("C_a", c)]));
        let rows: Rows = Box::leak(Box::new([(reagent::DISSOLVED, "Sulfuric acid", cells)]));
        of(&evaluate(&[("given", reagent::BY_NAME)], rows).unwrap(), "n_r", MOL_PER_L)
    };
    near(with("0.05"), 0.1, 1e-3);
    near(with("0.2"), 0.4, 1e-3);
    near(with("0.6"), 1.2, 1e-6);
}

/// PHREEQC 3.8.6, phreeqc.dat: 0.05 mol/kg of boric acid is pH 5.2705; of a strong acid 5e-6 would do.
#[test]
fn a_weak_acid_takes_far_more_than_its_ph_says() {
    let boric: Rows =
        &[(reagent::DISSOLVED, "Boric acid, single borate only", &[("as_a", "mol/L"), ("C_a", "0.05")])];
    let by_name = evaluate(&[("given", reagent::BY_NAME), ("pH_t", "9"), ("T", "25 °C")], boric).unwrap();
    let by_ph = evaluate(&[("pH_0", "5.27"), ("pH_t", "9")], &[]).unwrap();
    near(of(&by_name, "pH_w", NUMBER), 5.2705, 4e-3);
    assert!(of(&by_name, "n_r", MOL_PER_L) > 500.0 * of(&by_ph, "n_r", MOL_PER_L));
}

/// PHREEQC 3.8.6, minteq.v4.dat: copper 1.08 mg/L at pH 7: of 60 mg/L nearly all has fallen by then.
#[test]
fn ph_7_on_a_copper_waste_means_that_precipitation_has_started() {
    let rows: Rows = &[(metals::TABLE, "Cu", &[("c_m", "60 mg/L")])];
    let outcome = evaluate(&[("pH_t", "7")], rows).unwrap();
    assert!(says(&outcome, "At pH 7.0 Cu falls as hydroxide"));
    near(of(&outcome, "c_f", MG_PER_L_METAL), 58.9, 0.01);
    assert!(!says(&evaluate(&[("pH_t", "4")], rows).unwrap(), "falls as hydroxide"));
    // A metal without a curve is named as left out.
    let gold: Rows = &[(metals::TABLE, "Au", &[("c_m", "5 mg/L")])];
    assert!(says(&evaluate(&[], gold).unwrap(), "What Au takes"));
}

/// PHREEQC 3.8.6, phreeqc.dat: 0.1 mol/kg of hydrochloric acid is pH 1.0913. By hand: 0.1 mol/L at 1 L/min into
/// 5 mol/L are 20 mL/min; three times that when a dump of 60 L in 30 min comes on top.
#[test]
fn the_pump_reaches_from_the_mean_to_the_peak() {
    let outcome =
        evaluate(&[("pH_0", "1.0913"), ("V_1", "60 L"), ("t_1", "30 min"), ("T", "25 °C")], &[]).unwrap();
    near(of(&outcome, "q_low", ML_PER_MIN), 20.0, 0.02);
    near(of(&outcome, "r_t", NUMBER), 3.0, 1e-9);
    near(of(&outcome, "q_t", L_PER_MIN), 3.0, 1e-9);
    let strong = evaluate(&[("x_a", "5"), ("V_1", "60 L"), ("t_1", "30 min")], &[]).unwrap();
    assert!(says(&strong, "turns down to about a tenth"));
    // What is not known is asked for, and what cannot be is refused.
    let stop = evaluate(&[("V_1", "60 L")], &[]).unwrap_err();
    assert!(stop.todo && stop.at == Some("t_1"), "{stop:?}");
    assert_eq!(evaluate(&[("q_p", "0.5 L/min")], &[]).unwrap_err().at, Some("q_p"));
}

/// By hand: a dump of 100 L on a mean of 1 L/min; evened, the stages see the mean, and 20 % is kept as heel.
#[test]
fn a_tank_that_evens_takes_the_dump_and_the_stages_see_the_mean() {
    let inputs: Texts = &[("V_1", "100 L"), ("t_1", "10 min"), ("even", EVENED), ("t_r", "15 min")];
    let outcome = evaluate(inputs, &[]).unwrap();
    near(of(&outcome, "V_eq", L), 120.0, 1e-9);
    near(of(&outcome, "V_r", L), 15.0, 1e-9);
    let rough = evaluate(&[("V_1", "100 L"), ("t_1", "10 min"), ("t_r", "15 min")], &[]).unwrap();
    near(of(&rough, "V_r", L), 165.0, 1e-9);
    // Common practice: 200 W/m³ and two turnovers a minute.
    near(of(&rough, "P_s", WATT), 33.0, 1e-9);
    near(of(&rough, "q_s", L_PER_MIN), 330.0, 1e-9);
    let profile: Rows = &[
        (PERIODS, "1", &[("t_e", "12 h"), ("V_e", "100 L")]),
        (PERIODS, "2", &[("t_e", "12 h"), ("V_e", "300 L")]),
    ];
    let outcome = evaluate(&[("even", EVENED), ("x_h", "0 %")], profile).unwrap();
    near(of(&outcome, "V_eq", L), 100.0, 1e-9);
    assert!(says(&outcome, "is not the volume a day"));
}

/// OpenStax Chemistry 2e, section 5.2, from memory: 1 mol/L each of hydrochloric acid and caustic, in equal parts, go
/// from 22.0 to 28.9 °C.
#[test]
fn strong_acid_and_caustic_warm_the_water() {
    let rows: Rows = &[(reagent::DISSOLVED, "Hydrochloric acid", &[("as_a", "mol/L"), ("C_a", "1 mol/L")])];
    let inputs: Texts = &[("given", reagent::BY_NAME), ("T", "22 °C"), ("C_b", "1 mol/L"), ("pH_t", "7")];
    let outcome = evaluate(inputs, rows).unwrap();
    near(of(&outcome, "ΔT", KELVINS), 6.9, 0.02);
    near(of(&outcome, "T_w", CELSIUS), 28.9, 0.01);
    // The strongest hour, not the mean, says how warm it gets.
    let inputs: Texts =
        &[("given", reagent::BY_NAME), ("as_b", reagent::STOCK_SHARE), ("w_b", "50 %"), ("x_a", "2")];
    let hot = evaluate(inputs, SULFURIC).map(|outcome| of(&outcome, "T_w", CELSIUS));
    assert!(hot.is_err_and(|stop| stop.text().contains("boil")));
    let soda = evaluate(&[("up", reagent::SODA)], &[]).unwrap();
    assert!(of(&soda, "ΔT", KELVINS).is_nan() && says(&soda, "heat of carbonate"));
}

/// Common practice, no source: one stage from pH 4 to 10, two from 2 to 12, three beyond.
#[test]
fn how_far_the_ph_is_off_says_how_many_stages() {
    for (ph, expected) in [("5", 1.0), ("2.5", 2.0), ("1", 3.0)] {
        let inputs: Texts = Box::leak(Box::new([("pH_0", ph)]));
        assert_eq!(of(&evaluate(inputs, &[]).unwrap(), "N_s", NUMBER), expected, "{ph}");
    }
    assert!(says(&evaluate(&[("pH_0", "2")], &[]).unwrap(), "true to 1 %"));
}

/// Laliberté's mixing form (thermo 0.6.1): caustic of 25 % is 1.2733 kg/L at 20 °C, 7.958 mol/L.
#[test]
fn a_stock_by_mass_brings_its_own_density_or_takes_a_typed_one() {
    let per_day = |inputs: Texts| of(&evaluate(inputs, &[]).unwrap(), "V_d", L_PER_DAY);
    let molar = per_day(&[("C_b", "7.95800 mol/L")]);
    near(per_day(&[("as_b", reagent::STOCK_SHARE), ("w_b", "25 %")]), molar, 2e-3);
    near(
        per_day(&[("as_b", reagent::STOCK_SHARE), ("w_b", "25 %"), ("ρ_b", "1.27 kg/L")]),
        molar * 1.2733 / 1.27,
        2e-3,
    );
    near(per_day(&[("as_b", "in g/L"), ("c_b", "318.3 g/L")]), molar, 2e-3);
}

/// 40 CFR 403.5(b)(2): nothing below pH 5 to a public sewer.
#[test]
fn a_sewer_takes_nothing_below_ph_5() {
    assert!(says(&evaluate(&[("pH_t", "4.5")], &[]).unwrap(), "nothing below pH 5"));
    assert!(!says(&evaluate(&[("pH_t", "6")], &[]).unwrap(), "nothing below pH 5"));
}

#[test]
fn a_reagent_that_pulls_the_wrong_way_is_refused() {
    assert_eq!(evaluate(&[("pH_0", "10")], &[]).unwrap_err().at, Some("way"));
    assert_eq!(evaluate(&[("way", LOWERED)], &[]).unwrap_err().at, Some("way"));
    assert_eq!(evaluate(&[("pH_0", "8")], &[]).unwrap_err().at, Some("pH_t"));
    let outcome = evaluate(LOWERING, &[]).unwrap();
    assert!(of(&outcome, "V_d", L_PER_DAY) > 0.0 && of(&outcome, "q_low", L_PER_H) > 0.0);
    assert!(of(&outcome, "T_w", CELSIUS) > 20.0);
}

const LIMED: Texts =
    &[("up", reagent::LIME), ("given", reagent::BY_NAME), ("T", "25 °C"), ("C_b", "5 mol/L")];
const TENTH: Rows = &[(reagent::DISSOLVED, "Sulfuric acid", &[("as_a", "mol/L"), ("C_a", "0.1 mol/L")])];

/// By hand: a litre of 0.1 mol/L takes up 0.1 mol of lime, which gives off 16.9 kJ a mole more than its hydroxide (128.62
/// less twice 55.815); caustic of 5 mol/L 0.3 a mole as it is thinned.
#[test]
fn lime_heats_as_much_as_caustic_and_by_its_dissolving() {
    let lime = evaluate(LIMED, TENTH).unwrap();
    let caustic: Texts = Box::leak([LIMED, &[("up", "Sodium hydroxide")]].concat().into_boxed_slice());
    let caustic = evaluate(caustic, TENTH).unwrap();
    let [by_lime, by_caustic] = [&lime, &caustic].map(|outcome| of(outcome, "P_h", KW));
    near(60.0 * (by_lime - by_caustic), 0.1 * 16.99 - 0.2 * 0.3, 0.03);
    assert!(of(&caustic, "m_g", KG_PER_DAY).is_nan());
    assert!(says(&lime, "goes on falling as scale") && says(&lime, "dissolves slowly"));
}

/// PHREEQC 3.8.6, minteq.v4.dat: saturated lime stands at pH 12.5 at 25 and 12.0 at 40 °C.
#[test]
fn lime_reaches_no_high_ph_and_does_not_hide_its_gypsum() {
    let stop = evaluate(&[("up", reagent::LIME), ("pH_t", "12")], &[]).unwrap_err();
    assert!(stop.text().contains("dissolves too little"), "{}", stop.text());
    let open = evaluate(&[("up", reagent::LIME)], &[]).unwrap();
    assert!(of(&open, "m_g", KG_PER_DAY).is_nan() && says(&open, "Type the sulfate"));
    // By hand: 0.5 g/L of sulfate are 5.2 mmol/L, less than gypsum leaves dissolved.
    let little = evaluate(&[("up", reagent::LIME), ("c_4", "0.5 g/L")], &[]).unwrap();
    assert_eq!(of(&little, "m_g", KG_PER_DAY), 0.0);
    near(of(&little, "c_S", G_PER_L), 0.5, 0.01);
}

/// By hand: pH 2 is 10 meq/L of strong acid and some; 2 meq/L by the streams is another water.
#[test]
fn what_is_given_of_the_acid_is_held_against_what_the_streams_bring() {
    let about = |inputs: Texts, rows: Rows| {
        evaluate(inputs, rows).unwrap().findings.iter().any(|finding| finding.at == "given")
    };
    assert!(!about(&[], arriving("acid")));
    assert!(about(&[], arriving("alkaline")), "its acid or base is not known");
    assert!(about(&[("e_r", "2 meq/L")], arriving("acid")));
    let known: Texts = &[("e_r", "200 meq/L"), ("given", reagent::BY_NAME)];
    let rows: Rows = &[
        (reagent::DISSOLVED, "Sulfuric acid", &[("as_a", "mol/L"), ("C_a", "0.1 mol/L")]),
        (reagent::ARRIVING, "Rinse", &[("class_s", "alkaline")]),
    ];
    assert!(!about(known, rows), "0.1 mol/L of sulfuric acid are 200 meq/L");
}

/// The tables of heats know sulfuric, hydrochloric and nitric acid and caustic: of sulfamic acid nobody here knows it.
#[test]
fn the_heat_of_an_acid_that_no_table_has_is_named_as_left_out() {
    let by_name: Texts = &[("given", reagent::BY_NAME), ("T", "25 °C")];
    let sulfamic: Rows = &[(reagent::DISSOLVED, "Sulfamic acid", &[("as_a", "g/L"), ("c_a", "20 g/L")])];
    let outcome = evaluate(by_name, sulfamic).unwrap();
    assert!(says(&outcome, "is left out: Sulfamic acid"));
    // What is left out is its diluting: a mole of acid gives off what its neutralisation does, 55.8 kJ.
    let power = of(&outcome, "P_h", KW);
    assert!(power > 55.0 * 20.0 / 97.1 / 60.0 && power < 57.5 * 20.0 / 97.1 / 60.0, "{power}");
    assert!(!says(&evaluate(by_name, TENTH).unwrap(), "is left out"));
    assert!(!says(&evaluate(LOWERING, &[]).unwrap(), "is left out"));
}
