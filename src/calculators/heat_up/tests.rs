use super::*;
use crate::calculator::{Depth, Outcome, Stop, Texts};
use crate::units::Style;

/// What stands where a test types nothing else.
const USUAL: Texts = &[
    ("V", "250 L"),
    ("ρ", "1.18 kg/L"),
    ("c_p", "3.45 kJ/(kg·K)"),
    ("T", "45 °C"),
    ("L", "20 W/K"),
    ("T_s", "65 °C"),
    ("UA", "350 W/K"),
    ("q", "8 L/min"),
    ("P", "5 kW"),
    ("A", "0.4 m²"),
];

fn evaluate(inputs: Texts) -> Result<Outcome, Stop> {
    let inputs: &'static _ = Box::leak([USUAL, inputs].concat().into_boxed_slice());
    CALCULATOR.tried(inputs, &[])
}

fn says(outcome: &Outcome, text: &str) -> bool {
    outcome.findings.iter().any(|finding| finding.text.contains(text))
}

/// By hand: to hold 64 °C against 60 W/K to a room of 21 °C takes 2.58 kW, and the coil gives
/// 0.2587 kW/K (0.547 kW/K of water, effectiveness 0.473): 64 + 9.97 K.
#[test]
fn what_is_out_of_reach_is_refused_with_the_source_that_would_do() {
    let stop = evaluate(&[("T", "64"), ("L", "60")]).unwrap_err();
    assert_eq!(stop.at, Some("T_s"));
    assert!(stop.remedy.contains("above 74.0\u{a0}°C"), "{}", stop.remedy);
    let stop = evaluate(&[("T", "70"), ("L", "60"), ("source", ELECTRIC), ("P", "2 kW")]).unwrap_err();
    assert!(stop.at == Some("P") && stop.remedy.contains("2.94\u{a0}kW"), "{}", stop.remedy);
    assert!(evaluate(&[("T_0", "60"), ("T", "30"), ("source", ELECTRIC)]).is_err(), "a heater does not cool");
}

/// Water boils at 95 °C at 1500 m, about 1 K lower for each 300 m (`iapws` 1.5.5).
#[test]
fn no_bath_is_heated_to_boiling() {
    let stop = evaluate(&[("T", "97"), ("z_site", "1500 m")]).unwrap_err();
    assert!(stop.at == Some("T") && stop.remedy.contains("95.0"), "{}", stop.remedy);
    let outcome = evaluate(&[("source", ELECTRIC)]).unwrap();
    assert!(says(&outcome, "to boiling"));
    assert!(outcome.cautions.iter().any(|caution| caution.contains("cut-out")));
}

#[test]
fn traps_of_the_trade_are_pointed_out() {
    assert!(says(&evaluate(&[("c_p", "4.18")]).unwrap(), "water’s heat capacity"));
    assert!(!says(&evaluate(&[("c_p", "4.18"), ("ρ", "1")]).unwrap(), "water’s heat capacity"));
    assert!(says(&evaluate(&[("T_s", "48")]).unwrap(), "below 5.00"));
    assert!(says(&evaluate(&[("UA", "30"), ("L", "5")]).unwrap(), "longer than a shift"));
    assert!(says(&evaluate(&[("T_s", "47"), ("UA", "5000"), ("q", "1000")]).unwrap(), "below 5.00"));
    let cold = [("T_0", "30"), ("T", "24"), ("T_s", "14"), ("P_pump", "800 W")];
    let cooled = evaluate(Box::leak(Box::new(cold))).unwrap();
    assert!(says(&cooled, "not counted on the way down") && says(&cooled, "takes cooling"));
}

/// By hand: (0.2587·65 + 0.02·21)/(0.2587 + 0.02) = 61.8 °C, 16.8 K above 45; a coil of 47 °C settles near it.
#[test]
fn a_source_hotter_than_the_target_goes_beyond_it_and_that_is_said() {
    let text = |inputs: Texts| {
        let outcome = evaluate(inputs).unwrap();
        let found = outcome.findings.into_iter().find(|finding| finding.at == "T_end");
        found.map(|finding| (finding.severity, finding.text.replace('\u{a0}', " ")))
    };
    let (severity, said) = text(&[]).unwrap();
    assert_eq!(severity, Severity::Note);
    assert!(said.contains("to 61.8 °C, 16.8 K above the target: it needs a controller"), "{said}");
    assert!(said.contains("PVC"), "{said}");
    assert_eq!(text(&[("T_s", "95")]).map(|found| found.0), Some(Severity::Caution));
    assert_eq!(text(&[("T_s", "48")]), None);
    assert_eq!(text(&[("T_0", "30"), ("T", "24"), ("T_s", "14")]), None);
}

#[test]
fn where_no_loss_is_counted_the_word_says_so() {
    let counted = |inputs: Texts| {
        let port = CALCULATOR.port("counted").unwrap();
        let outcome = evaluate(inputs).unwrap();
        CALCULATOR.output_at(port).unwrap().words[outcome.answers[0][0].1[port.column] as usize]
    };
    assert_eq!(counted(&[]), DRY);
    assert_eq!(counted(&[("L", "0 W/K")]), "none");
    assert_eq!(counted(&[("L", "0 W/K"), ("evap", ALWAYS)]), "evaporation only");
}

/// After 40 time constants the temperature is the final one, whatever the time.
#[test]
fn a_long_time_settles() {
    let outcome = evaluate(&[("t", "100000"), ("evap", ALWAYS)]).unwrap();
    let of = |symbol| outcome.answers[0][0].1[CALCULATOR.port(symbol).unwrap().column];
    assert!((of("T_after") - of("T_end")).abs() < 1e-3, "{} {}", of("T_after"), of("T_end"));
}

#[test]
fn what_only_the_plant_knows_is_asked_for() {
    let stop = CALCULATOR.evaluate(&CALCULATOR.defaults(), &Style::default(), Depth::Findings).unwrap_err();
    assert!(stop.todo && stop.at == Some("V"), "{stop:?}");
}

/// A bath’s own heat capacity is seldom known; a usual one (common practice) is taken, and that is said.
#[test]
fn a_heat_capacity_that_is_not_known_is_assumed_aloud() {
    let bare: &'static [_] = &[("V", "250 L"), ("T", "45 °C"), ("source", ELECTRIC), ("P", "5 kW")];
    let example = Example { source: "", inputs: bare, rows: &[], answers: &[], within: 0.0 };
    let given = CALCULATOR.given(&example).unwrap();
    let outcome = CALCULATOR.evaluate(&given, &Style::default(), Depth::Findings).unwrap();
    assert!(says(&outcome, "Heat capacity not known; 3.45\u{a0}kJ/(kg·K) assumed"), "{:?}", outcome.findings);
    assert!(says(&outcome, "Density not known; 1.18\u{a0}kg/L assumed"));
    assert!(!says(&evaluate(&[]).unwrap(), "not known"));
}
