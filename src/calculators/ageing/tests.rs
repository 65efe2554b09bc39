use super::CALCULATOR;
use crate::calculator::{Outcome, Stop, Texts};
use crate::units::*;

const BATH: [(&str, &str); 4] = [("V", "200 L"), ("V_dump", "200 L"), ("N", "100 per day"), ("q_w", "1 A·h")];

fn aged(inputs: Texts, cells: Texts) -> Result<Outcome, Stop> {
    let inputs: Texts = Box::leak(BATH.into_iter().chain(inputs.iter().copied()).collect());
    let rows: &'static [(&str, &str, Texts)] = Box::leak(Box::new([("products", "Iron", cells)]));
    CALCULATOR.tried(inputs, rows)
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).unwrap().1
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found / expected - 1.0).abs() < 1e-6, "{found} is not {expected}");
}

#[test]
fn without_a_sink_products_build_up_in_a_straight_line() {
    // By hand: 10 g a day in 200 L come to 5 g/L in 100 days; from 2 g/L in 60.
    let outcome = aged(&[], &[("g_t", "10 g/day"), ("C_l", "5 g/L"), ("C_0", "2 g/L")]).unwrap();
    near(DAYS.from_si(found(&outcome, "t_full")), 100.0);
    near(DAYS.from_si(found(&outcome, "t_left")), 60.0);
    assert!(found(&outcome, "C_s").is_nan());
}

#[test]
fn the_bleed_that_is_found_holds_the_limit() {
    let cells: Texts = &[("g_q", "100 g/(kA·h)"), ("C_l", "2 g/L"), ("C_f", "0.5 g/L")];
    let outcome = aged(&[("d_w", "10 mL")], cells).unwrap();
    let bleed = L_PER_DAY.from_si(found(&outcome, "b_need"));
    // By hand: 10 g a day less 1 L × 2 g/L, over 1.5 g/L.
    near(bleed, 8.0 / 1.5);
    let text: &'static str = Box::leak(format!("{bleed:.9} L/day").into_boxed_str());
    let inputs: Texts = Box::leak(Box::new([("d_w", "10 mL"), ("q_b", text)]));
    near(found(&aged(inputs, cells).unwrap(), "C_s"), 2.0);
}

#[test]
fn drag_out_alone_may_be_enough() {
    let outcome = aged(&[("d_w", "50 mL")], &[("g_t", "10 g/day"), ("C_l", "5 g/L")]).unwrap();
    assert_eq!(found(&outcome, "b_need"), 0.0);
    assert!(found(&outcome, "t_full").is_nan(), "it settles at 2 g/L and ends nothing");
}

#[test]
fn the_earliest_end_rules() {
    // By hand: product 100 days, wafers 9000/100 = 90, time 120; 70 of the 90 days' wafers are done.
    let inputs: Texts = &[("L_w", "9000"), ("L_t", "120 days"), ("N_0", "7000")];
    let outcome = aged(inputs, &[("g_t", "10 g/day"), ("C_l", "5 g/L")]).unwrap();
    near(DAYS.from_si(found(&outcome, "t_full")), 90.0);
    near(DAYS.from_si(found(&outcome, "t_left")), 20.0);
    assert_eq!(found(&outcome, "ends"), 2.0, "wafers");
}

#[test]
fn what_is_over_its_limit_today_is_said() {
    let outcome = aged(&[], &[("g_t", "10 g/day"), ("C_l", "5 g/L"), ("C_0", "6 g/L")]).unwrap();
    assert_eq!(found(&outcome, "t_left"), 0.0);
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("at its limit today")));
    assert!(aged(&[], &[("C_f", "5 g/L"), ("C_l", "5 g/L")]).is_err(), "fresh bath is over its limit");
}

#[test]
fn a_cyanide_dump_goes_to_the_cyanide_route_only() {
    let outcome = aged(&[("class", "cyanide"), ("L_t", "90 days")], &[]).unwrap();
    let word = super::routes::ALL[found(&outcome, "route") as usize];
    assert_eq!(word, super::routes::CYANIDE);
    assert!(outcome.cautions.iter().any(|text| text.contains("kills")));
}

#[test]
fn a_bath_of_which_nothing_is_known_that_ends_it_is_still_to_do() {
    let stop = CALCULATOR.tried(&BATH, &[]).unwrap_err();
    assert!(stop.todo && stop.at == Some("L_t"), "{stop:?}");
    // A product without a limit says where it settles, and ends nothing.
    let outcome = aged(&[("d_w", "50 mL")], &[("g_t", "10 g/day")]).unwrap();
    near(G_PER_L.from_si(found(&outcome, "C_s")), 2.0);
    assert!(found(&outcome, "t_left").is_nan());
    assert_eq!(super::ENDINGS[found(&outcome, "ends") as usize], super::NO_LIMIT);
}
