//! What the rule says, and what it says against each level. Common practice, no source; numbers by hand.

use super::*;
use crate::calculator::{Outcome, Severity, Stop, Texts};

type Rows = &'static [(&'static str, &'static str, Texts)];

/// 100 L, in service day and night, with somebody always there for an hour a day.
const BATH: Texts = &[("V", "100 L"), ("hours", "24 h"), ("t_s", "24 h"), ("t_p", "60 min")];

fn tried(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(Box::leak([BATH, inputs].concat().into_boxed_slice()), rows)
}

fn of(inputs: Texts, rows: Rows) -> Outcome {
    tried(inputs, rows).unwrap_or_else(|stop| panic!("{}", stop.text()))
}

/// Copper that drifts so much a day, of which it may be off by a tenth.
fn drifting(inputs: Texts, a_day: &'static str) -> Outcome {
    let cells: Texts = Box::leak(Box::new([("x", a_day)]));
    of(inputs, Box::leak(Box::new([(TABLE, "Cu", cells)])))
}

fn word(outcome: &Outcome, symbol: &str) -> &'static str {
    let port = CALCULATOR.port(symbol).unwrap();
    CALCULATOR.output_at(port).unwrap().words[outcome.answers[port.table][0].1[port.column] as usize]
}

fn level(outcome: &Outcome) -> (&'static str, &'static str) {
    (word(outcome, "level"), word(outcome, "why"))
}

/// By hand: 10 % last 24 h at 10 % a day, 6 h at 40, 3 h at 80 and 1.5 h at 160; by hand it is once in 8 h, on the
/// bench in 4, and a person corrects once in 2.
#[test]
fn the_drift_leads_from_hand_to_bench_to_analyser_to_loop() {
    assert_eq!(level(&drifting(&[], "10 %")), (BY_HAND, SIMPLEST));
    assert_eq!(level(&drifting(&[("t_p", "90 min")], "40 %")), (BENCH, OFTEN));
    assert_eq!(level(&drifting(&[("t_p", "90 min")], "80 %")), (AUTOMATIC, OFTEN));
    assert_eq!(level(&drifting(&[("t_p", "900 min")], "160 %")), (LOOP, OFTEN));
}

/// By hand: one determination a day by hand is 20 min, on the bench 8, and an analyser takes 20 as well.
#[test]
fn people_decide_where_frequency_does_not() {
    assert_eq!(level(&drifting(&[("t_p", "20 min")], "10 %")), (BY_HAND, SIMPLEST));
    assert_eq!(level(&drifting(&[("t_p", "19 min")], "10 %")), (BENCH, PEOPLE));
    let none = drifting(&[("t_p", "7 min")], "10 %");
    assert_eq!(level(&none), (NONE, PEOPLE));
    assert!(none.findings.iter().any(|found| found.at == "level" && found.severity == Severity::Caution));
    // Day shift alone: 16 h without anybody are no matter while it is due once in 24 h, and are once it is in 12.
    assert_eq!(level(&drifting(&[("t_s", "8 h")], "10 %")), (BY_HAND, SIMPLEST));
    assert_eq!(level(&drifting(&[("t_s", "8 h")], "20 %")), (AUTOMATIC, NOBODY));
}

#[test]
fn components_decide_first() {
    let dosed: Rows = &[(TABLE, "Brightener", &[("C", "5 mL/L"), ("u", "10 mL/day")])];
    assert_eq!(level(&of(&[], dosed)), (BENCH, METHODS));
    let judged: Rows =
        &[(TABLE, "Brightener", &[("C", "5 mL/L"), ("u", "10 mL/day"), ("method", TEST_CELL)])];
    assert_eq!(level(&of(&[], judged)), (BY_HAND, SIMPLEST));
    let six: Rows = &[
        (TABLE, "1", &[]),
        (TABLE, "2", &[]),
        (TABLE, "3", &[]),
        (TABLE, "4", &[]),
        (TABLE, "5", &[]),
        (TABLE, "6", &[]),
    ];
    assert_eq!(level(&of(&[], six)), (BENCH, METHODS));
    // No analyser judges a test cell.
    let often: Rows = &[(TABLE, "Brightener", &[("x", "80 %"), ("method", TEST_CELL)])];
    assert_eq!(level(&of(&[("t_p", "900 min")], often)), (NONE, METHODS));
}

/// By hand: 50 mL every 24 h are 0.5 % of 10 L, and 5 % of 1 L.
#[test]
fn a_small_bath_gives_little_to_samples() {
    assert_eq!(level(&drifting(&[("V", "10 L")], "10 %")), (BY_HAND, SIMPLEST));
    assert_eq!(level(&drifting(&[("V", "1 L")], "10 %")), (NONE, VOLUME));
}

/// By hand: copper of 40 g/L in 100 L, 200 g of metal a day from inert anodes are 5 % a day; with acid dragged out
/// at 0.5 L a day it is 0.5 %.
#[test]
fn drift_is_what_is_known_best() {
    let rows: Rows =
        &[(TABLE, "Cu", &[("c_C", "40 g/L"), ("x", "5 %")]), (TABLE, "H2SO4", &[("c_C", "100 g/L")])];
    let outcome = of(&[("D", "0.5 L/day")], rows);
    let port = CALCULATOR.port("x_k").unwrap();
    let found: Vec<f64> = outcome.answers[port.table].iter().map(|row| row.1[port.column]).collect();
    assert!((found[0] - 0.05).abs() < 1e-12 && (found[1] - 0.005).abs() < 1e-12, "{found:?}");
    assert_eq!(word(&outcome, "why_k"), DRIFT);
}

#[test]
fn a_level_planned_that_is_ruled_out_is_told() {
    let told = |plan: &'static str| {
        let inputs: Texts = Box::leak(Box::new([("plan", plan), ("t_p", "90 min")]));
        drifting(inputs, "40 %").findings.iter().any(|found| found.at == "plan")
    };
    assert!(told(BY_HAND) && !told(AUTOMATIC) && !told(AS_SUITS));
}

#[test]
fn without_components_there_is_nothing_to_choose() {
    assert!(tried(&[], &[]).unwrap_err().todo);
}

/// Common practice, no source: a bath that is run on its pH has it read each day, whatever drag-out takes.
#[test]
fn the_ph_is_read_each_day_and_drag_out_does_not_move_it() {
    let outcome = of(&[("D", "50 L/day")], &[(TABLE, sort::PH, &[])]);
    let port = CALCULATOR.port("t_k").unwrap();
    assert!((DAYS.from_si(outcome.answers[port.table][0].1[port.column]) - 1.0).abs() < 1e-12);
    assert_eq!(word(&outcome, "why_k"), READ_DAILY);
}
