use super::{BY_DRAIN, BY_LAST, CALCULATOR, DUMPED, SPRAYED, TYPED};
use crate::calculator::{Outcome, Stop, Texts};
use crate::units::*;

type Rows = &'static [(&'static str, &'static str, Texts)];

/// 50 g/L of copper come in.
const COPPER: Rows = &[("metals", "Cu", &[("c_in", "50 g/L")])];

/// 1.5 mL a wafer, 480 a day.
fn rinsed(inputs: &[(&'static str, &'static str)], rows: Rows) -> Result<Outcome, Stop> {
    let wafers = [("d_w", "1.5 mL"), ("N", "480 per day")];
    let kept = wafers.into_iter().filter(|(known, _)| inputs.iter().all(|(symbol, _)| symbol != known));
    let inputs: Texts = Box::leak(kept.chain(inputs.iter().copied()).collect());
    CALCULATOR.tried(inputs, rows)
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).unwrap().1
}

fn mg_per_l(outcome: &Outcome, symbol: &str) -> f64 {
    MG_PER_L_METAL.from_si(found(outcome, symbol))
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found / expected - 1.0).abs() < 1e-6, "{found} is not {expected}");
}

const BY_STAGES: [&str; 4] = ["one", "two in counterflow", "three in counterflow", "four in counterflow"];

/// Trap: an added counterflow stage cleans the wafers, and does not dilute what overflows to the drain. By the balance
/// over the whole rinse, 1.5 mL of 50 g/L into 1 L are 75 mg/L less what stays on the wafers: numpy linalg.solve.
#[test]
fn an_added_counterflow_stage_does_not_dilute_what_overflows_to_the_drain() {
    let outcomes = BY_STAGES
        .map(|stages| rinsed(&[("stages", stages), ("target", TYPED), ("v_x", "1 L")], COPPER).unwrap());
    let [to_drain, on_wafers] =
        ["c_T", "c_nT"].map(|symbol| outcomes.each_ref().map(|outcome| mg_per_l(outcome, symbol)));
    near(to_drain[0], 75.0 / 1.0015);
    assert!(to_drain.windows(2).all(|pair| pair[1] > pair[0]), "{to_drain:?}");
    assert!(to_drain[3] < 75.0 && to_drain[3] / to_drain[0] < 1.0016, "{to_drain:?}");
    assert!(on_wafers.windows(2).all(|pair| pair[1] < pair[0] / 600.0), "{on_wafers:?}");
}

/// Trap: rinses that each have their own fresh water are no counterflow. Numpy linalg.solve and a recursion: 4000 times
/// in two of 5 mL a wafer take 0.313698 L in counterflow, and 5 mL × 2 × (√4000 − 1) = 0.622456 L one after the other.
#[test]
fn rinses_with_their_own_water_are_no_counterflow() {
    let wafers = [("d_w", "5 mL"), ("x_t", "4000")];
    let litres = |how: &[(&'static str, &'static str)]| {
        L.from_si(found(&rinsed(&[&wafers[..], how].concat(), &[]).unwrap(), "v_w"))
    };
    near(litres(&[("stages", "two in counterflow")]), 0.313698005);
    near(litres(&[("stages", SPRAYED), ("m_x", "2"), ("η", "100 %")]), 0.6224555);
}

/// Trap: the rinse water’s own metal is a floor. By the stage balances no stage comes below it.
#[test]
fn the_rinse_waters_own_metal_is_a_floor() {
    const FED: Rows = &[("metals", "Cu", &[("c_in", "50 g/L"), ("c_f", "3 mg/L")])];
    let with = |target: &'static str, symbol: &'static str, text: &'static str| {
        rinsed(&[("stages", "three in counterflow"), ("target", target), (symbol, text)], FED)
    };
    let outcome = with(TYPED, "v_x", "100 L").unwrap();
    near(mg_per_l(&outcome, "c_nT"), 3.0);
    let stop = with(BY_LAST, "c_t", "3 mg/L").unwrap_err();
    assert!(stop.reason.contains("feed water alone") && stop.at == Some("c_t"), "{}", stop.text());
    assert!(with(BY_LAST, "c_t", "3.1 mg/L").is_ok());
}

/// Trap: the rule of the n-th root is short of the truth where little water runs. Numpy linalg.solve and scipy brentq:
/// 16 times in three stages take 2.0646 volumes of water to one of drag-out, and the root of 16 is 2.5198.
#[test]
fn the_exact_flow_is_below_the_rule_of_the_root() {
    let outcome = rinsed(&[("stages", "three in counterflow"), ("x_t", "16")], &[]).unwrap();
    let [exact, by_rule] = ["v_w", "v_r"].map(|symbol| ML.from_si(found(&outcome, symbol)) / 1.5);
    // 1 + r + r² + r³ = 16, by hand.
    near(1.0 + exact + exact.powi(2) + exact.powi(3), 16.0);
    assert!((by_rule - 2.5198).abs() < 1e-4 && exact < by_rule, "{exact} and {by_rule}");
}

/// Trap: more water for the drain’s sake is dilution, and stands as a caution. 40 CFR 433.15(c).
#[test]
fn water_for_the_drains_sake_is_called_dilution() {
    let outcome = rinsed(&[("target", BY_DRAIN)], COPPER).unwrap();
    near(mg_per_l(&outcome, "c_T"), 60.0);
    // By hand: 1.5 mL of 50 g/L into 60 mg/L are 1.25 L, less the drag-out itself.
    near(ML.from_si(found(&outcome, "v_w")), 1248.5);
    assert!(outcome.cautions.iter().any(|text| text.contains("433.15(c)")));
}

/// By hand: 1.5 mL of 50 g/L into 1 L are 74.9 mg/L, more than the 60 of the dilute route (common practice).
#[test]
fn a_drain_richer_than_wanted_is_said_with_what_would_do() {
    let inputs = [("target", TYPED), ("v_x", "1 L"), ("c_y", "60 mg/L")];
    let outcome = rinsed(&inputs, COPPER).unwrap();
    let finding = outcome.findings.iter().find(|finding| finding.at == "c_T").expect("a finding");
    for said in ["74.9", "Spin longer or faster", "first rinse of its own", "concentrate route"] {
        assert!(finding.text.contains(said), "{said}: {}", finding.text);
    }
    assert!(rinsed(&inputs[..2], COPPER).unwrap().findings.is_empty(), "nobody wanted anything");
}

/// What is beyond the edges of the sum: without drag-out there is nothing to rinse, and what is clean enough needs none.
#[test]
fn edges_are_refused_with_the_input_to_act_on() {
    let refused = |inputs: &[(&'static str, &'static str)]| rinsed(inputs, COPPER).unwrap_err();
    assert_eq!(refused(&[("d_w", "0 mL"), ("x_t", "1000")]).at, Some("d_w"));
    assert_eq!(refused(&[("target", BY_LAST), ("c_t", "60000 mg/L")]).at, Some("c_t"));
    assert_eq!(
        refused(&[("stages", SPRAYED), ("m_x", "1.5"), ("η", "50 %"), ("x_t", "1000")]).at,
        Some("m_x")
    );
    let stop = rinsed(&[("target", BY_LAST), ("c_t", "1 mg/L")], &[]).unwrap_err();
    assert!(stop.todo && stop.reason.contains("still to be typed"), "{}", stop.text());
    let dumps = [("stages", DUMPED), ("V_q", "0.1 L"), ("n_l", "1000"), ("x_t", "1000000000")];
    assert_eq!(refused(&dumps).at, Some("V_q"));
}

/// By hand: 480 wafers of 1 L are 480 L a day, 30 L/h and 0.5 L/min in 16 h.
#[test]
fn water_runs_in_the_hours_of_service() {
    let outcome = rinsed(&[("target", TYPED), ("v_x", "1 L"), ("hours", "16 h")], COPPER).unwrap();
    near(L_PER_DAY.from_si(found(&outcome, "Q_day")), 480.0);
    near(L_PER_H.from_si(found(&outcome, "Q_h")), 30.0);
    near(L_PER_MIN.from_si(found(&outcome, "q")), 0.5);
}

/// By hand: loads of 25 want 0.3 L a wafer, 7.5 L a load; of a tank of 5 L that is two dumps, 0.4 L a wafer.
#[test]
fn of_typed_water_dumps_are_the_next_whole_number() {
    let dumps = [("stages", DUMPED), ("V_q", "5 L"), ("n_l", "25"), ("target", TYPED), ("v_x", "0.3 L")];
    let outcome = rinsed(&dumps, COPPER).unwrap();
    near(found(&outcome, "m_r"), 2.0);
    near(L.from_si(found(&outcome, "v_w")), 0.4);
}
