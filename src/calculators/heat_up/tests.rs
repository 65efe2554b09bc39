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

fn number(outcome: &Outcome, symbol: &str, unit: &crate::units::Unit) -> f64 {
    unit.from_si(CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).unwrap().1)
}

/// A coil some 15 K above the bath overheats additives at its surface, and plastic beside it (common practice).
#[test]
fn a_coil_hot_enough_to_spoil_additives_is_pointed_out() {
    let told = |ts: &'static str| {
        let outcome = evaluate(Box::leak(Box::new([("T_s", ts)]))).unwrap();
        outcome.cautions.iter().any(|caution| caution.contains("overheats additives"))
    };
    assert!(told("65 °C") && !told("55 °C"));
}

/// By hand: to warm 250 L of 1.18 kg/L and 3.45 kJ/(kg·K) by 27 K in 2 h takes 3.8 kW and more; to hold it at
/// 45 °C against 20 W/K to a room of 21 °C takes 0.48 kW.
#[test]
fn heat_up_and_holding_need_different_sizes() {
    let outcome = evaluate(&[("source", ELECTRIC), ("t", "2 h")]).unwrap();
    let hold = number(&outcome, "Q_hold", KW);
    assert!((hold - 0.48).abs() < 1e-9, "{hold}");
    let warm = 250.0 * 1.18 * 3.45 * 27.0 / 7200.0;
    let need = number(&outcome, "P_need", KW);
    assert!(need > warm && need < warm + hold, "{need}");
}

/// By hand: 800 A at 4 V bring 3.2 kW; 20 W/K lose 0.08 kW from 25 °C to a room of 21 °C.
#[test]
fn cooling_is_the_design_case_at_a_high_plating_current() {
    let outcome = evaluate(&[("T", "25 °C"), ("I", "800 A"), ("U", "4 V")]).unwrap();
    assert!((number(&outcome, "Q_hold", KW) + 3.2 - 0.08).abs() < 1e-9);
    assert!(says(&outcome, "takes cooling"));
}

/// Where it settles, what comes in is what goes out, both at one temperature: by hand, steam of 60 °C through
/// 0.25 kW/K against 0.02 kW/K to 21 °C.
#[test]
fn source_and_loss_are_counted_at_one_temperature() {
    let outcome = evaluate(&[("source", STEADY), ("T_s", "60 °C"), ("UA", "250 W/K")]).unwrap();
    let end = number(&outcome, "T_end", CELSIUS);
    assert!((0.25 * (60.0 - end) - 0.02 * (end - 21.0)).abs() < 1e-9, "{end}");
}

/// By definition of the units, 1 BTU/(lb·°F) is 4.1868 kJ/(kg·K), the calorie’s number: not 1 kJ/(kg·K).
#[test]
fn a_heat_capacity_in_calories_is_not_one_in_kilojoules() {
    let time =
        |cp: &'static str| number(&evaluate(Box::leak(Box::new([("c_p", cp)]))).unwrap(), "t_up", MINUTE);
    assert!((time("0.8 BTU/(lb·°F)") / time("3.34944 kJ/(kg·K)") - 1.0).abs() < 1e-9);
}

/// By hand: 3 kW less nothing lost at room temperature, into 200 L of water of 4.18 kJ/(kg·K): 3·3600/836 = 12.92 K/h.
#[test]
fn a_bath_rises_at_first_by_its_power_over_its_heat_capacity() {
    let inputs: Texts = &[
        ("source", ELECTRIC),
        ("V", "200 L"),
        ("ρ", "1 kg/L"),
        ("c_p", "4.18 kJ/(kg·K)"),
        ("P", "3 kW"),
        ("T_0", "21 °C"),
        ("T_room", "21 °C"),
        ("P_pump", "0 W"),
    ];
    assert!((number(&evaluate(inputs).unwrap(), "r_0", KELVIN_PER_HOUR) - 12.92).abs() < 0.02);
}

/// By the saturation line of water there is no number for a room below freezing; what is left out is still told.
#[test]
fn evaporation_that_is_left_out_is_told_in_a_cold_room_too() {
    let told = |inputs: Texts| {
        let outcome = evaluate(inputs).unwrap();
        let found = outcome.findings.iter().find(|finding| finding.at == "counted");
        found.map(|finding| finding.text.clone()).unwrap_or_default()
    };
    assert!(told(&[]).contains("at the target, so the time is a lower bound"));
    assert_eq!(
        told(&[("T_room", "-5 °C")]),
        "Evaporation is left out on the way, so the time is a lower bound."
    );
}
