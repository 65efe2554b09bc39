use super::{ADDITIVES, CALCULATOR, CHEMICALS, PART, WASTE, WHOLE};
use crate::calculator::{Outcome, Stop, Texts};
use crate::units::*;

type Rows = &'static [(&'static str, &'static str, Texts)];

fn cost(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    let start: Texts = &[("N", "10 per day"), ("days", "100"), ("V", "200 L")];
    let inputs: Texts = Box::leak(start.iter().chain(inputs).copied().collect());
    CALCULATOR.tried(inputs, rows)
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).unwrap().1
}

fn whole(outcome: &Outcome) -> &'static str {
    [WHOLE, PART][found(outcome, "whole") as usize]
}

#[test]
fn without_a_price_there_is_no_sum() {
    let stop = cost(&[("V_o", "5 m³")], &[]).unwrap_err();
    assert!(stop.todo && stop.remedy.contains("your own prices"));
    for input in CALCULATOR.inputs.iter().chain(CALCULATOR.tables.iter().flat_map(|table| table.columns)) {
        let is_price = input.symbol.starts_with("p_");
        assert!(!is_price || input.default.is_nan(), "{} has a price of its own", input.symbol);
    }
}

#[test]
fn what_has_no_price_is_said_to_be_left_out() {
    let rows: Rows =
        &[("metals", "Au", &[("m_M", "2 kg"), ("p_M", "100 per kg")]), ("metals", "Ni", &[("m_M", "1 kg")])];
    let outcome = cost(&[("V_d", "100 L")], rows).unwrap();
    assert_eq!(whole(&outcome), PART);
    let text = &outcome.findings.iter().find(|finding| finding.at == "whole").unwrap().text;
    for name in ["Ni", "water", "dumps and bleed taken away"] {
        assert!(text.contains(name), "{text}");
    }
    assert!(!text.contains("Au"));
}

#[test]
fn a_price_of_what_is_not_used_leaves_nothing_out() {
    let outcome = cost(&[("p_water", "3 per m³"), ("V_o", "7 m³")], &[]).unwrap();
    assert_eq!(whole(&outcome), WHOLE);
    assert_eq!(found(&outcome, "c_year"), 21.0);
}

/// By hand: a make-up's brightener of 1 kg at 50 in 200 L; 200 L dumped and 200 L dragged out. The dump takes
/// one, drag-out is dosed: 50, not 100, beside what is dosed.
#[test]
fn an_additive_dragged_out_is_not_counted_twice() {
    let rows: Rows = &[
        (CHEMICALS, "Brightener", &[("m_c", "1 kg"), ("p_c", "50 per kg")]),
        (ADDITIVES, "Brightener", &[("v_a", "4 L"), ("p_a", "25 per L")]),
    ];
    let outcome = cost(&[("V_d", "200 L"), ("D", "2 L/day")], rows).unwrap();
    assert!((found(&outcome, "c_cy") - 50.0).abs() < 1e-9);
    assert!((found(&outcome, "c_year") - 150.0).abs() < 1e-9);
}

/// By hand: 150 L every 60 days are 2.5 L/day, on 300 days 750 L: five make-ups of 300, and 750 L taken away at 0.55.
#[test]
fn a_dump_that_only_a_stream_tells_of_is_paid_for() {
    let rows: Rows = &[
        (CHEMICALS, "Copper sulfate", &[("m_c", "100 kg"), ("p_c", "3 per kg")]),
        (WASTE, "Spent bath", &[("what", "bath dump"), ("Q_r", "2.5 L/day")]),
    ];
    let of: Texts = &[("V", "150 L"), ("days", "300"), ("p_o", "0.55 per L"), ("V_o", "0 m³")];
    let outcome = cost(of, rows).unwrap();
    assert!((L.from_si(found(&outcome, "V_rep")) - 750.0).abs() < 1e-9);
    assert!((found(&outcome, "c_year") - (5.0 * 300.0 + 750.0 * 0.55)).abs() < 1e-9);
    // With the stream's own price, that is what its way costs.
    let own: Rows = &[
        (CHEMICALS, "Copper sulfate", &[("m_c", "100 kg"), ("p_c", "3 per kg")]),
        (WASTE, "Spent bath", &[("what", "bath dump"), ("Q_r", "2.5 L/day"), ("p_r", "200 per m³")]),
    ];
    assert!((found(&cost(of, own).unwrap(), "c_year") - (1500.0 + 0.75 * 200.0)).abs() < 1e-9);
    // What ageing says goes before it.
    let aged: Texts =
        &[("V", "150 L"), ("days", "300"), ("p_o", "0.55 per L"), ("V_o", "0 m³"), ("V_d", "300 L")];
    assert!((found(&cost(aged, rows).unwrap(), "c_year") - (600.0 + 165.0)).abs() < 1e-9);
}

/// A kilogram of salt and a kilogram of its metal have prices of two kinds, so that one cannot stand for the
/// other; and a bath that gains water saves none.
#[test]
fn salt_is_not_metal_and_a_gain_of_water_is_no_income() {
    assert_ne!(PER_KG.kind, PER_KG_BOUGHT.kind);
    let outcome = cost(&[("V_w", "-5 m³"), ("V_o", "2 m³"), ("p_water", "10 per m³")], &[]).unwrap();
    assert_eq!(found(&outcome, "c_year"), 20.0);
}

#[test]
fn hours_of_service_and_not_all_hours_of_a_year() {
    // By hand: 2 kW for 10 h on 100 days are 2000 kWh, not 17,520.
    let outcome =
        cost(&[("P_e", "2 kW"), ("h_d", "10 h"), ("d_y", "100"), ("p_kWh", "0.1 per kWh")], &[]).unwrap();
    assert!((KWH.from_si(found(&outcome, "W_y")) - 2000.0).abs() < 1e-6);
}

#[test]
fn cost_never_chooses_the_route() {
    let outcome = cost(&[("V_d", "10 L"), ("p_o", "1 per L"), ("class", "cyanide")], &[]).unwrap();
    assert!(outcome.cautions.iter().any(|text| text.contains("no reason for another route")));
    assert!(outcome.cautions.iter().any(|text| text.contains("licensed persons only")));
}
