use super::{CALCULATOR, COOLS, HOLDS};
use crate::calculator::{Outcome, Stop, Texts};
use crate::calculators::routes;
use crate::units::*;

type Rows = &'static [(&'static str, &'static str, Texts)];

const USUAL: Texts = &[
    ("V", "200 L"),
    ("V_d", "190 L"),
    ("q_f", "10 L/min"),
    ("q_d", "10 L/min"),
    ("t_m", "6 h"),
    ("t_a", "4 h"),
    ("class", "acid"),
];
const COPPER: Rows = &[("metals", "Cu", &[("c_M", "40 g/L")])];

fn tried(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(Box::leak([USUAL, inputs].concat().into_boxed_slice()), rows)
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).unwrap().1
}

fn word(outcome: &Outcome, symbol: &str) -> &'static str {
    let (output, si, _) = CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).unwrap();
    output.words[si as usize]
}

/// By hand: water test and two rinses let out 3 × 190 L before a bath is made up at all.
#[test]
fn waste_of_commissioning_is_there_before_the_first_wafer() {
    let outcome = tried(&[], &[]).unwrap();
    assert!((L.from_si(found(&outcome, "D_1")) - 570.0).abs() < 1e-9);
    let untested = tried(&[("test", "not tested")], &[]).unwrap();
    assert!((L.from_si(found(&untested, "D_1")) - 380.0).abs() < 1e-9);
    assert!(untested.findings.iter().any(|finding| finding.text.contains("fill it with water first")));
}

/// By hand: two fills of 40 L of 10 L that stay leave a twenty-fifth; one of 80 L a ninth.
#[test]
fn several_small_rinses_clean_better_than_one_large() {
    let left = |inputs| found(&tried(inputs, COPPER).unwrap(), "c_l");
    let (two, one) = (left(&[("n_r", "2"), ("f_r", "20 %")]), left(&[("n_r", "1"), ("f_r", "40 %")]));
    assert!((two / one - 9.0 / 25.0).abs() < 1e-9, "{two} {one}");
}

/// 60 mg/L for dilute, all metals together: common practice, no source.
#[test]
fn rinse_water_of_a_change_is_seldom_dilute() {
    let route = |inputs, rows| word(&tried(inputs, rows).unwrap(), "route");
    assert_eq!(route(&[], COPPER), routes::CONCENTRATE);
    assert_eq!(route(&[("class", "cyanide")], COPPER), routes::CYANIDE);
    assert_eq!(route(&[], &[("metals", "Au", &[("c_M", "1 g/L")])]), routes::RECLAIM);
    assert_eq!(route(&[], &[]), routes::ACID_BASE);
}

/// By hand: 200 L of 1.2 kg/L and 3.5 kJ/(kg·K) from 20 to 50 °C are 7 kWh, 3.5 h of 2 kW.
#[test]
fn a_short_stop_is_held_and_a_long_one_cools() {
    let less = |hours: &'static str| {
        let bath: Texts = Box::leak(Box::new([
            ("t_i", hours),
            ("Q_h", "2 kW"),
            ("T", "50 °C"),
            ("T_room", "20 °C"),
            ("ρ", "1.2 kg/L"),
            ("c_p", "3.5 kJ/(kg·K)"),
        ]));
        word(&tried(bath, &[]).unwrap(), "less")
    };
    assert_eq!((less("3 h"), less("4 h")), (HOLDS, COOLS));
}

#[test]
fn no_more_drains_than_the_bath_holds() {
    assert_eq!(tried(&[("V_d", "201 L")], &[]).unwrap_err().at, Some("V_d"));
}

#[test]
fn a_cyanide_tank_is_never_cleaned_with_acid() {
    let outcome = tried(&[("class", "cyanide")], COPPER).unwrap();
    assert!(outcome.cautions.iter().any(|text| text.contains("No acid cleans")));
}
