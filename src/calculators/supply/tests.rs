//! What the rule says, and what it refuses.

use super::rule::*;
use super::*;
use crate::calculator::{Outcome, Severity, Stop, Texts};

type Rows = &'static [(&'static str, &'static str, Texts)];

/// Containers stand 3 m away, 1 m below.
const NEAR: Texts = &[("l", "3 m"), ("z", "1 m")];

fn tried(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(Box::leak([NEAR, inputs].concat().into_boxed_slice()), rows)
}

fn one(inputs: Texts, name: &'static str, cells: Texts) -> Outcome {
    let rows: Rows = Box::leak(Box::new([(LIQUIDS, name, cells)]));
    tried(inputs, rows).unwrap_or_else(|stop| panic!("{}", stop.text()))
}

fn number(outcome: &Outcome, symbol: &str, row: usize) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    CALCULATOR.unit(port).from_si(outcome.answers[port.table][row].1[port.column])
}

/// The way of the first liquid, and what decides.
fn way(outcome: &Outcome) -> (&'static str, &'static str) {
    let word = |symbol| {
        let port = CALCULATOR.port(symbol).unwrap();
        CALCULATOR.output_at(port).unwrap().words[outcome.answers[port.table][0].1[port.column] as usize]
    };
    (word("way"), word("why"))
}

/// Common practice, no source: pouring is for a little of an additive.
#[test]
fn a_little_harmless_additive_may_be_poured_and_acid_never() {
    assert_eq!(way(&one(&[], "Brightener", &[("u", "300 mL/day")])), (POUR, SIMPLEST));
    assert_eq!(way(&one(&[], "Sulfuric acid", &[("q_o", "0.3 L/day")])), (DIP, HAZARD));
    assert_eq!(way(&one(&[], "Some acid", &[("q_o", "0.3 L/day")])), (DIP, HAZARD));
    assert_eq!(way(&one(&[], "Boric acid", &[("q_o", "0.3 L/day")])), (POUR, SIMPLEST));
    assert_eq!(
        way(&one(&[("class", "fluoride")], "Brightener", &[("u", "300 mL/day"), ("as", meets::FLUORIDE)])),
        (CABINET, HAZARD)
    );
}

/// By hand, at 95 % and a week: 20 L beside the bath are 2.71 L/day, a drum of 208 L 28.2 L/day.
#[test]
fn the_volume_a_day_leads_from_hand_to_tube_to_cabinet_to_line() {
    let by = |flow: &'static str| {
        let cells: Texts = Box::leak(Box::new([("q_o", flow)]));
        way(&one(&[], "Copper sulfate", cells))
    };
    assert_eq!(by("0.9 L/day"), (POUR, SIMPLEST));
    assert_eq!(by("2.7 L/day"), (DIP, A_DAY));
    assert_eq!(by("2.8 L/day"), (CABINET, CHANGES));
    assert_eq!(by("28 L/day"), (CABINET, CHANGES));
    assert_eq!(by("29 L/day"), (BULK, CHANGES));
}

#[test]
fn a_make_up_poured_at_once_is_no_small_amount() {
    let cells: Texts = &[("v_m", "12 L")];
    assert_eq!(way(&one(&[("t_m", "200 days")], "Copper sulfate", cells)), (DIP, AT_ONCE));
}

#[test]
fn distance_and_rise_decide_last() {
    let cells: Texts = &[("q_o", "2 L/day")];
    assert_eq!(way(&one(&[("l", "12 m")], "Copper sulfate", cells)), (CABINET, FAR));
    assert_eq!(way(&one(&[("z", "5 m")], "Copper sulfate", cells)), (CABINET, FAR));
    assert_eq!(way(&one(&[("l", "80 m")], "Copper sulfate", cells)), (BULK, FAR));
}

#[test]
fn another_way_than_suits_is_told_and_pouring_of_acid_is_a_stop() {
    let found =
        |outcome: &Outcome| outcome.findings.iter().find(|f| f.at.starts_with("way")).map(|f| f.severity);
    let acid = one(&[], "Sulfuric acid", &[("q_o", "0.3 L/day"), ("plan", POUR)]);
    assert_eq!(found(&acid), Some(Severity::Serious));
    let much = one(&[], "Copper sulfate", &[("q_o", "4 L/day"), ("plan", DIP)]);
    assert_eq!(found(&much), Some(Severity::Caution));
    assert_eq!(found(&one(&[], "Copper sulfate", &[("q_o", "4 L/day"), ("plan", BULK)])), None);
}

/// EPA-600/2-80-076, chart groups 15 with 1.
#[test]
fn what_must_not_meet_shares_no_cabinet() {
    let etch: Texts = &[("class", "fluoride")];
    let both: Rows = &[
        (LIQUIDS, "Ammonium fluoride", &[("q_o", "1 L/day")]),
        (LIQUIDS, "Sulfuric acid", &[("q_o", "1 L/day")]),
    ];
    let stop = tried(etch, both).unwrap_err();
    assert_eq!((stop.at, &*stop.row), (Some("store"), "Sulfuric acid"));
    assert!(stop.reason.contains("hydrogen fluoride"), "{}", stop.reason);
    let apart: Rows = &[
        (LIQUIDS, "Ammonium fluoride", &[("q_o", "1 L/day")]),
        (LIQUIDS, "Sulfuric acid", &[("q_o", "1 L/day"), ("store", ALONE)]),
    ];
    assert!(tried(etch, apart).is_ok());
}

/// EPA-600/2-80-076, chart groups 11 with 1: neither acid to a cyanide bath, nor cyanide to an acid one or to one
/// that nobody knows.
#[test]
fn cyanide_and_acid_meet_in_no_bath() {
    let acid: Rows = &[(LIQUIDS, "Sulfuric acid", &[("q_o", "1 L/day"), ("store", ALONE)])];
    let gold: Rows = &[(LIQUIDS, "Gold cyanide", &[("q_o", "1 L/day"), ("store", ALONE)])];
    for (class, rows, is_refused) in [
        ("cyanide", acid, true),
        ("acid", gold, true),
        ("unknown", gold, true),
        ("cyanide", gold, false),
        ("acid", acid, false),
        ("fluoride", acid, false),
    ] {
        let inputs: Texts = Box::leak(Box::new([("class", class)]));
        let at = tried(inputs, rows).err().map(|stop| stop.at);
        assert_eq!(at, is_refused.then_some(Some("as")), "{class}");
    }
}

/// By hand: 5 L × 0.95 at 0.5 L/day last 9.5 days of service, 9.907 by the calendar at 350 a year.
#[test]
fn a_container_that_is_open_longer_than_it_keeps_is_told() {
    let cells = |keeps: &'static str| -> Texts {
        Box::leak(Box::new([("q_o", "0.5 L/day"), ("v_b", "5 L"), ("t_o", keeps)]))
    };
    let told = |outcome: &Outcome| outcome.findings.iter().any(|f| f.at.starts_with("t_o["));
    let outcome = one(&[], "Leveller", cells("9.8 days"));
    assert!((number(&outcome, "t_c", 0) - 9.5).abs() < 1e-9);
    assert!(told(&outcome), "9.5 working days are more than 9.8 by the calendar");
    assert!(!told(&one(&[], "Leveller", cells("10 days"))));
}

/// NIOSH Publication 94-110: 23 kg at best. By hand: 20 L of 1.84 kg/L hold 36.8 kg.
#[test]
fn a_container_too_heavy_to_lift_is_told() {
    let outcome = one(&[], "Sulfuric acid", &[("q_o", "1 L/day"), ("v_b", "20 L"), ("ρ", "1.84 kg/L")]);
    assert!((number(&outcome, "m_c", 0) - 36.8).abs() < 1e-9);
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("NIOSH")));
}

#[test]
fn water_that_evaporates_comes_from_its_own_line() {
    let outcome = tried(&[("q_w", "30 L/day")], &[]).unwrap();
    assert!((number(&outcome, "Q_DI", 0) - 30.0).abs() < 1e-9);
    assert!(outcome.findings.iter().any(|finding| finding.at == "Q_DI"));
    let gains = tried(&[("q_w", "-3 L/day")], &[]).unwrap();
    assert_eq!(number(&gains, "Q_DI", 0), 0.0);
}

#[test]
fn a_solid_is_no_liquid_to_bring() {
    let outcome = one(&[], "Boric acid", &[]);
    assert_eq!(way(&outcome), (NOTHING, NO_LIQUID));
    assert_eq!(number(&outcome, "Q_all", 0), 0.0);
}
