//! What a collection gives, and what it refuses.

use super::*;
use crate::calculator::{Outcome, Stop, Texts};

/// A drum of 208 L that takes 8 L of a copper bath a day, and 0.1 L/min at the peak.
const USUAL: Texts = &[
    ("Q", "8 L/day"),
    ("q_p", "0.1 L/min"),
    ("V", "208 L"),
    ("ρ", "1.2 kg/L"),
    ("m_t", "9 kg"),
    ("days", "350"),
];

type Rows = &'static [(&'static str, &'static str, Texts)];

fn tried(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(Box::leak([USUAL, inputs].concat().into_boxed_slice()), rows)
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    port_unit(symbol).from_si(outcome.answers[0][0].1[port.column])
}

fn in_row(outcome: &Outcome, key: &str, symbol: &str) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    let row = outcome.answers[port.table].iter().find(|(known, _)| **known == *key).unwrap();
    port_unit(symbol).from_si(row.1[port.column])
}

fn port_unit(symbol: &str) -> &'static crate::units::Unit {
    CALCULATOR.unit(CALCULATOR.port(symbol).unwrap())
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found / expected - 1.0).abs() < 1e-9, "{found} is not {expected}");
}

fn at(outcome: &Outcome, symbol: &str) -> Option<Severity> {
    outcome.findings.iter().find(|finding| finding.at == symbol).map(|finding| finding.severity)
}

#[test]
fn words_of_what_it_held_before_are_those_of_the_classes() {
    assert_eq!(BEFORE[0].0, NEW);
    assert!(BEFORE[1..].iter().map(|(word, _)| *word).eq(CLASSES.iter().map(|(word, _)| *word)));
}

/// By hand: to the brim 208 L would be 26 days; usable are 90 %, 23.4 days.
#[test]
fn the_brim_is_not_what_may_be_used() {
    near(found(&tried(&[], &[]).unwrap(), "t_d"), 23.4);
}

/// By hand: 23.4 working days of 250 a year are 34.164 by the calendar.
#[test]
fn working_days_are_not_calendar_days() {
    near(found(&tried(&[("days", "250")], &[]).unwrap(), "t_cal"), 23.4 * 365.0 / 250.0);
}

/// 49 CFR 178.503 (from memory): a marking without a density stands for 1.2.
#[test]
fn a_heavy_waste_exceeds_what_a_drum_is_marked_for() {
    assert_eq!(at(&tried(&[], &[]).unwrap(), "ρ"), None);
    assert_eq!(at(&tried(&[("ρ", "1.25 kg/L")], &[]).unwrap(), "ρ"), Some(Severity::Serious));
    assert_eq!(at(&tried(&[("ρ", "1.25 kg/L"), ("ρ_u", "1.5 kg/L")], &[]).unwrap(), "ρ"), None);
}

#[test]
fn an_oxidiser_in_a_tight_cap_bursts_a_drum() {
    let peroxide: Rows = &[(STREAMS, "Peroxide", &[("class", "oxidiser")])];
    assert_eq!(at(&tried(&[("cap", TIGHT)], peroxide).unwrap(), "cap"), Some(Severity::Serious));
    let vented = tried(&[], peroxide).unwrap();
    assert_eq!(at(&vented, "cap"), None);
    assert!(vented.cautions.iter().any(|caution| caution.contains("vented cap")));
}

/// EPA-600/2-80-076, chart groups 11 with 1: cyanide and acid.
#[test]
fn residues_of_a_reused_drum_that_must_not_meet_what_comes_are_refused() {
    let acid: Rows = &[(STREAMS, "Copper bath", &[("class", "acid")])];
    let stop = tried(&[("before", "cyanide")], acid).unwrap_err();
    assert_eq!(stop.at, Some("before"));
    assert!(stop.reason.contains("hydrogen cyanide"), "{}", stop.reason);
    assert!(tried(&[("before", "alkaline")], acid).is_ok());
}

/// EPA-600/2-80-076, chart groups 11 with 1, and 15 with 1.
#[test]
fn what_must_not_meet_is_refused_in_one_container() {
    let both: Rows =
        &[(STREAMS, "Gold bath", &[("class", "cyanide")]), (STREAMS, "Copper bath", &[("class", "acid")])];
    assert!(tried(&[], both).unwrap_err().reason.contains("hydrogen cyanide"));
    let gold: Rows = &[(STREAMS, "Gold bath", &[("class", "cyanide")])];
    let refused = tried(&[("kind", routes::CONCENTRATE)], gold).unwrap_err();
    assert!(refused.reason.contains("must not meet the acid water of this route"), "{}", refused.reason);
    assert!(tried(&[("kind", routes::CYANIDE)], gold).is_ok());
    let fluoride: Rows = &[(STREAMS, "Etch", &[("class", "fluoride")])];
    assert_eq!(tried(&[("what", GLASS)], fluoride).unwrap_err().at, Some("what"));
    let acid: Rows = &[(STREAMS, "Copper bath", &[("class", "acid")])];
    assert_eq!(tried(&[("what", STEEL)], acid).unwrap_err().at, Some("what"));
    assert!(tried(&[("what", GLASS)], acid).is_ok());
}

/// By hand: a drum that calls at 80 % and is full at 90 % has 20.8 L left; of two in turn the other takes 187.2 L.
#[test]
fn a_bath_let_out_at_once_fills_a_single_drum_and_the_second_of_two_takes_it() {
    let single = tried(&[("V_1", "40 L")], &[]).unwrap();
    near(found(&single, "spare"), -19.2);
    assert_eq!(at(&single, "spare"), Some(Severity::Serious));
    let dual = tried(&[("V_1", "40 L"), ("arr", DUAL)], &[]).unwrap();
    near(found(&dual, "spare"), 147.2);
    assert_eq!(at(&dual, "spare"), None);
    near(in_row(&single, DUAL, "V_rs"), 147.2);
}

/// By hand: 20.8 L at 0.1 L/min are 208 min. Who comes after 300 has the line stand for 92 min and the swap of 10.
/// In the year 2800 L fill 14.957 drums.
#[test]
fn one_container_stops_the_line_and_two_do_not() {
    let times: Texts = &[("t_r", "300 min"), ("t_s", "10 min")];
    let outcome = tried(times, &[]).unwrap();
    near(in_row(&outcome, SINGLE, "t_x"), 102.0);
    near(in_row(&outcome, SINGLE, "t_xy"), 102.0 / 60.0 * 2800.0 / 187.2);
    assert_eq!(in_row(&outcome, DUAL, "t_x"), 0.0);
    assert_eq!(at(&outcome, "t_w"), Some(Severity::Caution));
    let soon = tried(&[("t_r", "200 min"), ("t_s", "10 min")], &[]).unwrap();
    near(in_row(&soon, SINGLE, "t_x"), 10.0);
    assert_eq!(at(&soon, "t_w"), None);
}

/// 40 CFR 264.175(b)(3): 10 % decides only above ten equal containers.
#[test]
fn containment_is_the_greater_of_a_tenth_and_the_largest() {
    let caught = |beside: &'static str| {
        let inputs: Texts = Box::leak(Box::new([("n_s", beside), ("V", "60 L"), ("arr", DUAL)]));
        found(&tried(inputs, &[]).unwrap(), "V_need")
    };
    near(caught("0"), 60.0);
    near(caught("8"), 60.0);
    near(caught("10"), 72.0);
    let larger = tried(&[("V_x", "1000 L"), ("V_l", "600 L")], &[]).unwrap();
    near(found(&larger, "V_need"), 600.0);
}

/// By hand: four drums of 23.4 working days at 350 a year go after 97.6 days; 90 are allowed.
#[test]
fn what_may_stand_no_longer_goes_part_full() {
    let outcome = tried(&[("n_p", "4"), ("t_a", "90 days")], &[]).unwrap();
    near(found(&outcome, "t_up"), 90.0);
    assert_eq!(at(&outcome, "t_up"), Some(Severity::Caution));
    near(in_row(&outcome, "Second", "t_n"), 180.0);
    let free = tried(&[("n_p", "4")], &[]).unwrap();
    near(found(&free, "t_up"), 4.0 * 23.4 * 365.0 / 350.0);
}

/// By hand: 14.957 drums a year are 15 to take away; a pick-up of one every 24.4 days is 14.957 a year.
#[test]
fn what_has_a_price_is_counted_and_no_more() {
    let outcome = tried(&[("p_c", "200"), ("p_u", "50")], &[]).unwrap();
    near(found(&outcome, "cost"), 3000.0 + 50.0 * 2800.0 / 187.2);
    near(found(&tried(&[("p_c", "200")], &[]).unwrap(), "cost"), 3000.0);
    assert!(found(&tried(&[], &[]).unwrap(), "cost").is_nan());
}

/// NIOSH Publication 94-110: 23 kg at best. By hand: 18 L of 1.2 kg/L and 1 kg are 22.6 kg, of 1.3 kg/L 24.4 kg.
#[test]
fn a_carboy_that_one_person_cannot_lift_is_told() {
    let carboy: Texts = &[("what", CARBOY), ("V", "20 L"), ("m_t", "1 kg")];
    assert_eq!(at(&tried(carboy, &[]).unwrap(), "m_f"), None);
    let heavy: Texts =
        &[("what", CARBOY), ("V", "20 L"), ("m_t", "1 kg"), ("ρ", "1.3 kg/L"), ("ρ_u", "1.4 kg/L")];
    assert_eq!(at(&tried(heavy, &[]).unwrap(), "m_f"), Some(Severity::Caution));
}

#[test]
fn levels_in_the_wrong_order_and_no_flow_are_refused() {
    assert_eq!(tried(&[("a", "92 %")], &[]).unwrap_err().at, Some("a"));
    assert_eq!(tried(&[("f_h", "85 %")], &[]).unwrap_err().at, Some("f_h"));
    assert_eq!(tried(&[("Q", "0 L/day"), ("q_p", "0 L/day")], &[]).unwrap_err().at, Some("Q"));
    assert_eq!(tried(&[("q_p", "1 L/day")], &[]).unwrap_err().at, Some("q_p"));
    assert_eq!(tried(&[("V_0", "300 L")], &[]).unwrap_err().at, Some("V_0"));
}
