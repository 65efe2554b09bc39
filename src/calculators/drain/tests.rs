//! What a drain gives, and what it refuses.

use super::*;
use crate::calculator::{Depth, Example, Outcome, Stop, Texts};
use crate::science::drain::PLUMBING_CODES;
use crate::units::Style;

#[test]
fn the_codes_to_choose_from_are_those_of_the_law() {
    assert!(CODES.iter().map(|(name, _)| *name).eq(PLUMBING_CODES.iter().map(|code| code.name)));
}

/// What stands where a test types nothing else.
const USUAL: Texts = &[
    ("l", "12 m"),
    ("h_av", "450 mm"),
    ("D", "50 mm"),
    ("A", "0.5 m²"),
    ("d_v", "25 mm"),
    ("V_o", "75 L"),
    ("z_l", "1.5 m"),
    ("l_d", "30 m"),
    ("d_d", "32 mm"),
];

fn evaluate(inputs: Texts) -> Result<Outcome, Stop> {
    let inputs: &'static _ = Box::leak([USUAL, inputs].concat().into_boxed_slice());
    CALCULATOR.tried(inputs, &[])
}

#[test]
fn what_does_not_run_off_is_stopped_unless_a_station_is_planned() {
    let bare = evaluate(&[("l", "28 m"), ("h_av", "300 mm")]).unwrap();
    assert_eq!(bare.findings[0].severity, Severity::Serious);
    let planned = evaluate(&[("l", "28 m"), ("h_av", "300 mm"), ("station", PLANNED), ("q_pump", "60")]);
    assert!(planned.unwrap().findings.iter().all(|finding| finding.severity < Severity::Serious));
}

/// A station that is planned is not yet one that pumps: what it takes is asked for.
#[test]
fn a_station_that_is_needed_and_not_sized_says_what_is_still_to_be_typed() {
    let bare: &'static [_] = &[("l", "28 m"), ("h_av", "300 mm"), ("D", "50 mm"), ("station", PLANNED)];
    let outcome = |inputs: Texts| {
        let example = Example { source: "", inputs, rows: &[], answers: &[], within: 0.0 };
        CALCULATOR.evaluate(&CALCULATOR.given(&example).unwrap(), &Style::default(), Depth::Working).unwrap()
    };
    let lift = |outcome: &Outcome| {
        let port = CALCULATOR.port("lift").unwrap();
        CALCULATOR.output_at(port).unwrap().words[outcome.answers[0][0].1[port.column] as usize]
    };
    let empty = outcome(bare);
    assert_eq!(lift(&empty), "needed, not yet sized");
    let found = empty.findings.iter().find(|finding| finding.at == "lift").unwrap();
    assert_eq!(found.severity, Severity::Caution);
    for label in ["Pump flow at its head", "From high level to overflow", "Rise of the discharge"] {
        assert!(found.text.contains(label), "{}", found.text);
    }
    let sized =
        evaluate(&[("l", "28 m"), ("h_av", "300 mm"), ("station", PLANNED), ("q_pump", "60")]).unwrap();
    assert_eq!(lift(&sized), "needed");
    assert!(sized.findings.iter().all(|finding| finding.severity < Severity::Caution));
}

/// Chicago Municipal Code, table 18-29-704.1: 3 to 6 in may fall at 1/8 in/ft. By hand: 24 m at 1 in 96 take
/// 250 mm, at 1 in 48 500 mm.
#[test]
fn the_bore_that_is_there_may_fall_less_before_a_wider_one_is_named() {
    let said = |bore: &'static str| {
        let inputs = [("l", "24 m"), ("h_av", "300 mm"), ("D", bore)];
        evaluate(Box::leak(Box::new(inputs))).unwrap().findings[0].text.replace('\u{a0}', " ")
    };
    assert!(said("75 mm").contains("This bore may fall at 0.125 in/ft"), "{}", said("75 mm"));
    assert!(said("50 mm").contains("A bore of 75 mm (3 in) may fall at 0.125 in/ft"), "{}", said("50 mm"));
}

/// A 50 mm valve at 0.5 m gives 221 L/min, twice what a 50 mm drain carries at 0.8 of its bore
/// (99.5 L/min): `fluids` 1.3.1 and Torricelli.
#[test]
fn a_tank_through_a_wide_valve_floods_a_narrow_drain() {
    let outcome = evaluate(&[("V_1", "250 L"), ("A", "0.5 m²"), ("d_v", "50 mm")]).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.at == "surge" && finding.limit.is_some()));
    let least = CALCULATOR.port("D_min").unwrap().column;
    assert_eq!(outcome.answers[0][0].1[least], 0.075, "75 mm carries 293 L/min at 0.8 of its bore");
}

#[test]
fn metric_bores_count_as_their_nominal_inches() {
    let least = |millimetres: f64, code: usize| {
        let bore = crate::quantity::Q::constant("D", millimetres, MM);
        crate::science::drain::code_least_slope(&PLUMBING_CODES[code], bore).number(INCH_PER_FOOT)
    };
    for (millimetres, first, second) in [
        (65.0, 0.25, 0.25),
        (75.0, 0.125, 0.25),
        (76.2, 0.125, 0.25),
        (100.0, 0.125, 0.125),
        (200.0, 0.0625, 0.125),
    ] {
        for (code, expected) in [(0, first), (1, second)] {
            assert!((least(millimetres, code) - expected).abs() < 1e-12, "{millimetres} mm");
        }
    }
}

#[test]
fn a_station_without_its_pipe_has_volumes_and_no_head() {
    let bare: Texts =
        &[("l", "28 m"), ("h_av", "300 mm"), ("D", "75 mm"), ("station", PLANNED), ("q_pump", "60")];
    let example = Example { source: "", inputs: bare, rows: &[], answers: &[], within: 0.0 };
    let given = CALCULATOR.given(&example).unwrap();
    let outcome = CALCULATOR.evaluate(&given, &Style::default(), Depth::Working).unwrap();
    let of = |symbol| outcome.answers[0][0].1[CALCULATOR.port(symbol).unwrap().column];
    assert!((L.from_si(of("V_b")) - 90.0).abs() < 1e-9, "60 L/min and ten starts an hour: V = q·T/4");
    assert!(of("h_tot").is_nan() && of("t_o").is_nan());
}

#[test]
fn a_pump_that_never_catches_up_is_refused() {
    let stop = evaluate(&[("station", PLANNED), ("q_pump", "20"), ("q_m", "30")]).unwrap_err();
    assert_eq!(stop.at, Some("q_pump"));
}

/// Counted by an event simulation in plain Python, as `tests/reference/lift.csv`: 20 L/min into 40 L/min with 50 L
/// between levels start 12 times an hour, the most there can be; at 10 L/min 9 times.
#[test]
fn a_station_that_is_there_tells_how_often_it_starts() {
    let outcome = evaluate(&[
        ("station", PLANNED),
        ("q_pump", "40 L/min"),
        ("q_p", "10 L/min"),
        ("V_lv", "50 L"),
        ("s", "10 per hour"),
    ])
    .unwrap();
    near(&outcome, "n_s", PER_HOUR, 12.0);
    near(&outcome, "n_p", PER_HOUR, 9.0);
    let found = outcome.findings.iter().find(|found| found.at == "n_s").unwrap();
    assert!(found.severity == Severity::Caution && found.text.contains("too often"), "{}", found.text);
}

/// By hand: 0.25 m² with the overflow at 0.8 m, 10 L still to come and 20 L/min for 2 min: stop at 0.6 m; 5 min before
/// that the level is 0.4 m lower. 75 L fill with 5 L/min in 15 min, where 20 come and 15 are pumped.
#[test]
fn slow_comes_before_stop_and_a_weak_pump_overflows_late() {
    let inputs: Texts = &[
        ("station", PLANNED),
        ("q_pump", "40 L/min"),
        ("q_p", "20 L/min"),
        ("A_s", "0.25 m²"),
        ("H_o", "0.8 m"),
        ("V_p", "10 L"),
        ("t_r", "2 min"),
        ("t_w", "5 min"),
        ("q_w", "15 L/min"),
    ];
    let outcome = evaluate(inputs).unwrap();
    near(&outcome, "h_stop", MM, 600.0);
    near(&outcome, "h_slow", MM, 200.0);
    near(&outcome, "t_ow", MINUTE, 15.0);
    let early: Texts = Box::leak([inputs, &[("H_o", "0.5 m")]].concat().into_boxed_slice());
    let found = evaluate(early).unwrap().findings;
    assert!(found.iter().any(|found| found.at == "h_slow" && found.text.contains("no level for “slow”")));
}

/// By hand: 300 mm over the floor less 4.8 m at 1 in 48 are 200 mm, and the inlet is at 350 mm.
#[test]
fn a_station_stands_where_its_inlet_lies_below_the_pipe() {
    let stands = |floor: &'static str, inlet: &'static str| {
        let inputs: Texts = Box::leak(Box::new([
            ("station", PLANNED),
            ("q_pump", "40 L/min"),
            ("floor", floor),
            ("z_o", "300 mm"),
            ("l_s", "4.8 m"),
            ("H_in", inlet),
        ]));
        let outcome = evaluate(inputs).unwrap();
        let port = CALCULATOR.port("stands").unwrap();
        let word = CALCULATOR.output_at(port).unwrap().words[outcome.answers[0][0].1[port.column] as usize];
        (word, outcome)
    };
    assert_eq!(stands(SAME_LEVEL, "150 mm").0, ON_FLOOR);
    let (word, outcome) = stands(SAME_LEVEL, "350 mm");
    near(&outcome, "z_s", MM, -150.0);
    assert!(
        word == IN_PIT && outcome.findings.iter().any(|found| found.text.contains("150\u{a0}mm too high"))
    );
    assert_eq!(stands(BELOW, "350 mm").0, ON_BELOW);
}

/// Coulson & Richardson, vol. 1, example 3.3: f 0.016 and 100 m of 225 mm make 1/(1 + 7.111)^0.5 = 0.35112 of the
/// velocity of free fall; with a valve of 0.6 before it, by hand 1/(1/0.36 + 7.111)^0.5, which is 0.5300 of the valve alone.
#[test]
fn a_long_hose_throttles_the_tank() {
    let peak = |hose: &'static str| {
        let inputs: Texts = Box::leak(Box::new([
            ("V_1", "250 L"),
            ("A", "0.5 m²"),
            ("d_v", "225 mm"),
            ("D", "300 mm"),
            ("l_h", hose),
            ("f_h", "0.016"),
        ]));
        found(&evaluate(inputs).unwrap(), "q_d")
    };
    let throttled = peak("100 m") / peak("0 m");
    assert!((throttled - 0.5300).abs() < 1e-5, "{throttled}");
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    outcome.answers[0][0].1[CALCULATOR.port(symbol).unwrap().column]
}

#[track_caller]
fn near(outcome: &Outcome, symbol: &str, unit: &crate::units::Unit, expected: f64) {
    let number = unit.from_si(found(outcome, symbol));
    assert!((number - expected).abs() < 1e-9 * expected.abs(), "{symbol}: {number} is not {expected}");
}
