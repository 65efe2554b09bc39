use super::CALCULATOR;
use crate::calculator::{Outcome, Stop, Texts};
use crate::units::*;

const BATH: [(&str, &str); 4] = [("V", "200 L"), ("N", "100 per day"), ("q_w", "1 A·h"), ("t_w", "20 min")];
const DOSE: [(&str, &str); 2] = [("C", "5 mL/L"), ("k_q", "0.2 mL/(A·h)")];

fn dosed(inputs: Texts, cells: Texts) -> Result<Outcome, Stop> {
    let inputs: Texts = Box::leak(BATH.into_iter().chain(inputs.iter().copied()).collect());
    let cells: Texts = Box::leak(DOSE.into_iter().chain(cells.iter().copied()).collect());
    let rows: &'static [(&str, &str, Texts)] = Box::leak(Box::new([("additives", "Brightener", cells)]));
    CALCULATOR.tried(inputs, rows)
}

#[track_caller]
fn answer(inputs: Texts, cells: Texts, symbol: &str, unit: &Unit) -> f64 {
    let outcome = dosed(inputs, cells).unwrap();
    let found = CALCULATOR.answered(&outcome).find(|(output, ..)| output.symbol == symbol);
    unit.from_si(found.expect("an answer of that symbol").1)
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found / expected - 1.0).abs() < 1e-6, "{found} is not {expected}");
}

#[test]
fn idle_time_and_drag_out_count_besides_charge() {
    // By hand: 2 % of 200 L × 5 mL/L is 20 mL a day; 100 wafers × 2 mL × 5 mL/L is 1 mL a day.
    let idle: Texts = &[("k_q", "0 mL/(A·h)"), ("k", "2 %/day"), ("counter", "time")];
    near(answer(&[("N", "0 per day")], idle, "u", ML_PER_DAY), 20.0);
    near(answer(&[("d_w", "2 mL")], idle, "u", ML_PER_DAY), 21.0);
}

#[test]
fn every_counter_doses_the_same_a_day() {
    for (word, interval, unit, a_day) in [
        ("charge", "i_q", A_H, 100.0),
        ("wafers", "i_w", NUMBER, 100.0),
        ("time", "i_t", HOUR, 24.0),
        ("plating minutes", "i_m", MINUTE, 2000.0),
    ] {
        let cells: Texts = Box::leak(Box::new([("counter", word)]));
        // By hand: 0.2 mL/(A·h) × 100 A·h is 20 mL a day, 20 steps.
        near(answer(&[], cells, "n_d", PER_DAY), 20.0);
        near(answer(&[], cells, interval, unit), a_day / 20.0);
    }
}

#[test]
fn bleed_and_feed_takes_additive_only_if_water_replaces_it() {
    let plain = answer(&[], &[], "u", ML_PER_DAY);
    // By hand: 10 L/day × 5 mL/L.
    near(answer(&[("q_b", "10 L/day")], &[], "u", ML_PER_DAY), plain + 50.0);
    near(answer(&[("q_b", "10 L/day"), ("feed", "fresh bath with additives")], &[], "u", ML_PER_DAY), plain);
}

#[test]
fn without_a_sink_a_wrong_dose_never_settles() {
    let cells: Texts = &[("x_q", "10 A·h"), ("v_t", "3 mL")];
    let outcome = dosed(&[], cells).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("rises without end")));
    let right: Texts = &[("x_q", "10 A·h"), ("v_t", "2 mL")];
    assert!(dosed(&[], right).unwrap().findings.is_empty());
}

#[test]
fn what_runs_out_says_when() {
    // By hand: 1000 mL in the bath, 20 mL used a day: 50 days; 40 % of it, to 3 mL/L, in 20.
    near(answer(&[], &[], "t_out", DAYS), 50.0);
    near(answer(&[], &[("C_low", "3 mL/L")], "t_low", DAYS), 20.0);
    // Six times as much used as thought is 120 mL a day, 100 of them not dosed: gone after 10 days.
    let outcome = dosed(&[("off", "500 %"), ("t_a", "11 days")], &[]).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("used up before the next analysis")));
}

#[test]
fn drift_until_the_next_analysis_is_what_is_used_and_not_dosed() {
    // By hand: a fifth of 20 mL a day for 7 days is 28 mL in 200 L.
    near(answer(&[], &[], "C_min", ML_PER_L), 5.0 - 0.14);
    near(answer(&[], &[], "C_max", ML_PER_L), 5.0 + 0.14);
    let outcome = dosed(&[], &[("C_low", "4.9 mL/L")]).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("analyse more often")));
}

#[test]
fn bottles_last_by_their_volume_and_number() {
    // By hand: 3 mL at each of 10 triggers a day are 30 mL, whatever 20 are needed: a litre lasts 33.3 days.
    let set: Texts = &[("x_q", "10 A·h"), ("v_t", "3 mL")];
    near(answer(&[], set, "t_b", DAYS), 100.0 / 3.0);
    near(answer(&[], set, "g", ML_PER_DAY), 30.0);
    near(answer(&[], set, "u", ML_PER_DAY), 20.0);
    // By hand: 3 L at 20 mL a day; a quarter of a litre is left in the one in use.
    let cells: Texts = &[("n_b", "3"), ("v_l", "250 mL")];
    near(answer(&[], cells, "t_b", DAYS), 150.0);
    near(answer(&[], cells, "t_next", DAYS), 12.5);
    assert!(dosed(&[], &[("v_l", "2 L")]).is_err());
    let old = dosed(&[], &[("t_o", "40 days")]).unwrap();
    assert!(old.findings.iter().any(|finding| finding.text.contains("too old")));
}

#[test]
fn a_counter_that_stands_still_is_refused() {
    let idle: Texts = &[("k", "2 %/day")];
    assert!(dosed(&[("N", "0 per day")], idle).unwrap_err().reason.contains("stands still"));
}

/// Common practice, no source: a tenth off the dose to hold is looked at.
#[test]
fn a_dose_that_settles_elsewhere_is_pointed_out() {
    // By hand: 100 mL/day of drag-out at 5 mL/L is 0.5 mL; 20 mL by charge: 2.05 mL at each of 10 triggers.
    let off = |dose: &'static str| {
        let cells: Texts = Box::leak(Box::new([("x_q", "10 A·h"), ("v_t", dose)]));
        let outcome = dosed(&[("d_w", "1 mL")], cells).unwrap();
        outcome.findings.iter().any(|finding| finding.text.contains("it settles at"))
    };
    assert!(off("2.2 mL") && !off("2.05 mL"));
}

#[test]
fn a_use_that_is_not_counted_is_left_out() {
    let one = |cells: Texts| {
        let inputs: Texts = Box::leak(Box::new([BATH[0], BATH[1], BATH[2]]));
        CALCULATOR.tried(inputs, Box::leak(Box::new([("additives", "Leveller", cells)])))
    };
    assert!(one(&[("C", "5 mL/L"), ("k_w", "0.1 mL"), ("counter", "wafers")]).is_ok());
    assert!(one(&[("C", "5 mL/L"), ("k_t", "10 mL/day"), ("counter", "time")]).is_ok());
    assert!(one(&[("C", "5 mL/L"), ("counter", "time")]).unwrap_err().todo);
}
