//! What the checklist says, and what it will not help with.

use super::*;
use crate::calculator::{Outcome, Texts};

fn of(inputs: Texts) -> Outcome {
    let inputs: Vec<_> = [("v_0", "30 mL")].iter().chain(inputs).copied().collect();
    let inputs: Vec<_> = match inputs.contains(&("port", DIPPED)) {
        true => inputs.into_iter().filter(|(symbol, _)| *symbol != "v_0").collect(),
        false => inputs,
    };
    let rows: &[(&str, &str, Texts)] = &[(TABLE, "Cu", &[("t_k", "2 days")])];
    CALCULATOR.tried(inputs.leak(), rows).unwrap_or_else(|stop| panic!("{}", stop.text()))
}

fn steps(outcome: &Outcome) -> String {
    outcome.order.iter().map(|step| step.text.clone()).collect::<Vec<_>>().join(" ")
}

/// Common practice, no source.
#[test]
fn protection_comes_first_and_the_flush_before_the_sample() {
    let outcome = of(&[("class", "acid"), ("T", "25 °C")]);
    let order = &outcome.order;
    assert!(order[0].text.contains("face shield"));
    let at = |part: &str| order.iter().position(|step| step.text.contains(part)).unwrap();
    assert!(at("Flush") < at("fill the bottle for Cu") && at("fill the bottle") < at("second vessel"));
    assert!(order[at("Flush")].amount.is_some_and(|(si, _)| (ML.from_si(si) - 90.0).abs() < 1e-9));
    assert!(!steps(&outcome).contains("cool"));
    assert!(steps(&of(&[("class", "acid"), ("T", "55 °C")])).contains("below 40 °C"));
}

/// Cyanide and fluoride: never alone; EPA-600/2-80-076 for cyanide with acid, glass and fluoride from memory.
#[test]
fn what_kills_in_small_amounts_is_never_sampled_alone() {
    for (class, bottle) in [("cyanide", "marked cyanide"), ("fluoride", "never glass")] {
        let inputs: Texts = Box::leak(Box::new([("class", class), ("T", "25 °C")]));
        let told = steps(&of(inputs));
        assert!(told.contains("second person") && told.contains(bottle), "{class}: {told}");
    }
    assert!(steps(&of(&[("class", "unknown"), ("T", "25 °C")])).contains("second person"));
}

#[test]
fn nobody_is_told_how_to_dip_into_acid() {
    let outcome = of(&[("class", "acid"), ("T", "25 °C"), ("port", DIPPED)]);
    assert!(outcome.order.is_empty());
    assert!(outcome.findings.iter().any(|found| found.at == "port" && found.severity == Severity::Serious));
    let mild = of(&[("class", "alkaline"), ("T", "25 °C"), ("port", DIPPED)]);
    assert!(mild.findings.iter().any(|found| found.at == "port" && found.severity == Severity::Caution));
    let hot = of(&[("class", "alkaline"), ("T", "70 °C"), ("port", DIPPED)]);
    assert!(hot.findings.iter().any(|found| found.at == "port" && found.severity == Severity::Serious));
}

/// By hand: 20 mL every 2 days are 10 mL/day, with 90 mL of flush 55.
#[test]
fn a_flush_that_goes_back_is_not_lost() {
    let number = |inputs: Texts| {
        let outcome = of(inputs);
        let found = CALCULATOR.answered(&outcome).find(|(output, ..)| output.symbol == "Q_s").unwrap().1;
        L_PER_DAY.from_si(found)
    };
    assert!((number(&[("class", "acid"), ("T", "25 °C")]) - 0.055).abs() < 1e-12);
    assert!((number(&[("class", "acid"), ("T", "25 °C"), ("flush", GOES_BACK)]) - 0.010).abs() < 1e-12);
}
