//! What runs that join come to, and what they refuse.

use super::*;
use crate::calculator::{Outcome, Stop, Texts};
use crate::science::plumbing::PIPE_RULES;

type Rows = &'static [(&'static str, &'static str, Texts)];

#[test]
fn the_rules_to_choose_from_are_those_of_the_law() {
    assert!(RULES.iter().map(|(name, _)| *name).eq(PIPE_RULES.iter().map(|rule| rule.name)));
}

/// A run of 5 m in 50 mm with 20 L/min, 300 mm up, that joins 3 m before the end; with cells of its own.
fn run(name: &'static str, own: Texts) -> (&'static str, &'static str, Texts) {
    let usual: Texts = &[
        ("class", "acid"),
        ("l_b", "5 m"),
        ("x", "3 m"),
        ("h", "300 mm"),
        ("q", "20 L/min"),
        ("D_b", "50 mm"),
    ];
    let kept = usual.iter().filter(|(known, _)| own.iter().all(|(symbol, _)| symbol != known));
    (RUNS, name, Box::leak(kept.chain(own).copied().collect()))
}

fn evaluate<const N: usize>(rows: [(&'static str, &'static str, Texts); N]) -> Result<Outcome, Stop> {
    let rows: Rows = Box::leak(Box::new(rows));
    CALCULATOR.tried(&[("D", "50 mm")], rows)
}

fn said(outcome: &Outcome, at: &str) -> Option<(Severity, String)> {
    outcome.findings.iter().find(|found| found.at == at).map(|found| (found.severity, found.text.clone()))
}

/// Manning by `fluids` 1.3.1: 50 mm at 1 in 48 carry 109.5 L/min at the crest, and 120 back up; at 0.8 they carry 99.47.
#[test]
fn what_joins_adds_up_and_backs_up_where_it_is_too_much() {
    let together = |last: &'static str| {
        let own: Texts = Box::leak(Box::new([("q", last), ("x", "1 m")]));
        evaluate([run("A", &[("q", "60 L/min")]), run("B", own)]).unwrap()
    };
    let most = together("60 L/min");
    let (severity, text) = said(&most, "y_j[B]").unwrap();
    assert!(severity == Severity::Serious && text.contains("B: The pipe carries at most 109"), "{text}");
    assert!(said(&most, "y_j[A]").is_none(), "above the junction there are 60 L/min alone");
    assert_eq!(said(&together("45 L/min"), "y_j[B]").unwrap().0, Severity::Caution);
    assert!(said(&together("35 L/min"), "y_j[B]").is_none());
}

/// By hand: 1 in 48. Of 10 m with 400 mm and 6 m with 100 mm, the shorter decides: 191.7 and −25 mm.
#[test]
fn the_run_with_the_least_to_spare_decides_and_not_the_longest() {
    let outcome = evaluate([
        run("Far", &[("l_b", "10 m"), ("x", "0 m"), ("h", "400 mm")]),
        run("Low", &[("l_b", "6 m"), ("x", "0 m"), ("h", "100 mm")]),
    ])
    .unwrap();
    let of = |symbol| outcome.answers[0][0].1[CALCULATOR.port(symbol).unwrap().column];
    assert!((of("least") + 0.025).abs() < 1e-9 && (of("l_d") - 6.0).abs() < 1e-9);
    assert!((of("h_d") - 0.1).abs() < 1e-9);
    let (_, text) = said(&outcome, "spare[Low]").unwrap();
    assert!(text.contains("does not run off by gravity"), "{text}");
}

/// EPA-600/2-80-076, compatibility chart, groups 11 with 1: hydrogen cyanide.
#[test]
fn acid_and_cyanide_never_join() {
    let stop = evaluate([run("Copper", &[]), run("Silver", &[("class", "cyanide")])]).unwrap_err();
    assert_eq!((stop.at, &*stop.row), (Some("class"), "Silver"));
    assert!(stop.reason.contains("hydrogen cyanide"), "{}", stop.reason);
}

/// Uniform Plumbing Code, Table 1002.2: 5 ft, 1.52 m, for 2 in. The fall to the vent is one bore at most (both model
/// codes, from memory): 1.5 m at 1/2 in per ft are 62.5 mm.
#[test]
fn a_vent_too_far_from_its_trap_is_told() {
    let outcome = evaluate([run("A", &[("l_v", "1.4 m")]), run("B", &[("l_v", "2 m")])]).unwrap();
    assert!(said(&outcome, "l_vm[A]").is_none());
    assert!(said(&outcome, "l_vm[B]").unwrap().1.contains("suck the trap empty"));
    let rows: Rows = Box::leak(Box::new([run("A", &[("l_v", "1.5 m")])]));
    let steep = CALCULATOR.tried(&[("D", "50 mm"), ("S", "0.5 in/ft")], rows).unwrap();
    assert!(said(&steep, "l_vm[A]").unwrap().1.contains("closes the vent off"));
}

/// `fluids` 1.3.1 by Manning: 1 L/min in 75 mm of plastic at 1/8 in per ft runs at 0.25 m/s.
#[test]
fn a_trickle_in_a_wide_pipe_does_not_clean_it() {
    let outcome = evaluate([run("A", &[("q", "1 L/min"), ("D_b", "75 mm")])]).unwrap();
    let (severity, text) = said(&outcome, "v_b[A]").unwrap();
    assert!(severity == Severity::Note && text.contains("solids settle"), "{text}");
}
