//! What the rule says. Common practice, no source; numbers by hand.

use super::*;
use crate::calculator::{Outcome, Texts};

/// 3 kW of heat, a coil of 0.5 m², room for 0.8 m².
const BATH: Texts = &[
    ("class", "acid"),
    ("Q", "3 kW"),
    ("A", "0.5 m²"),
    ("A_f", "0.8 m²"),
    ("q_l", "40 L/min"),
    ("ρ", "1 kg/L"),
    ("c_p", "4 kJ/(kg·K)"),
];

fn of(inputs: Texts) -> Outcome {
    let changed = BATH.iter().filter(|(symbol, _)| !inputs.iter().any(|(other, _)| other == symbol));
    let inputs: Vec<_> = changed.chain(inputs).copied().filter(|(_, text)| !text.is_empty()).collect();
    CALCULATOR.tried(inputs.leak(), &[]).unwrap_or_else(|stop| panic!("{}", stop.text()))
}

fn word(outcome: &Outcome, symbol: &str, row: usize) -> &'static str {
    let port = CALCULATOR.port(symbol).unwrap();
    CALCULATOR.output_at(port).unwrap().words[outcome.answers[port.table][row].1[port.column] as usize]
}

fn way(inputs: Texts) -> (&'static str, &'static str) {
    let outcome = of(inputs);
    (word(&outcome, "way", 0), word(&outcome, "why", 0))
}

#[test]
fn the_coil_suits_until_fire_attack_or_room_speaks_against_it() {
    assert_eq!(way(&[]), (IN_TANK, SIMPLEST));
    assert_eq!(way(&[("class", "solvent")]), (INLINE, BURNS));
    assert_eq!(way(&[("eats", NO)]), (INLINE, ATTACK));
    assert_eq!(way(&[("A_f", "0.4 m²")]), (INLINE, ROOM));
    // Fire is told before room.
    assert_eq!(way(&[("class", "solvent"), ("A_f", "0.4 m²")]), (INLINE, BURNS));
}

/// By hand: 3 kW over 4 kJ/(kg·K) × 1 kg/L × 5 K are 0.15 L/s, 9 L/min.
#[test]
fn an_inline_unit_wants_room_flow_and_a_clean_liquid() {
    assert_eq!(way(&[("A_f", "0.4 m²"), ("q_l", "9.1 L/min")]), (INLINE, ROOM));
    assert_eq!(way(&[("A_f", "0.4 m²"), ("q_l", "8.9 L/min")]), (NEITHER, FLOW));
    assert_eq!(way(&[("A_f", "0.4 m²"), ("beside", NO)]), (NEITHER, ROOM));
    assert_eq!(way(&[("A_f", "0.4 m²"), ("fouls", YES)]), (NEITHER, FOULS));
    assert!(of(&[("A_f", "0.4 m²"), ("fouls", YES)]).findings.iter().any(|found| found.at == "way"));
    // Cooling takes as much flow as heating.
    assert_eq!(way(&[("A_f", "0.4 m²"), ("q_l", "8.9 L/min"), ("Q", "-3 kW")]), (NEITHER, FLOW));
}

#[test]
fn what_is_not_known_is_not_judged() {
    let outcome = of(&[("q_l", ""), ("A", ""), ("A_f", "")]);
    assert_eq!(
        (word(&outcome, "by_r", 0), word(&outcome, "by_q", 1)),
        (choose::NOT_JUDGED, choose::NOT_JUDGED)
    );
    assert_eq!(word(&outcome, "way", 0), IN_TANK);
    // An electric heater takes no room that counts.
    let electric = of(&[("source", heat_up::ELECTRIC), ("A", ""), ("A_f", "")]);
    assert_eq!(word(&electric, "by_r", 0), choose::FINE);
}

#[test]
fn a_way_planned_that_is_ruled_out_is_told() {
    let told = |inputs| of(inputs).findings.iter().any(|found| found.at == "plan");
    assert!(told(&[("plan", IN_TANK), ("A_f", "0.4 m²")]));
    assert!(!told(&[("plan", INLINE)]));
}
