use super::*;
use crate::calculator::{Outcome, Severity, Stop, Texts};

type Rows = &'static [(&'static str, &'static str, Texts)];

/// 1000 L a day of treated water.
fn tried(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(Box::leak([&[("Q", "1000 L/day")], inputs].concat().into_boxed_slice()), rows)
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).unwrap().1
}

#[track_caller]
fn says(outcome: &Outcome, least: Severity, word: &str) {
    let is_it = |f: &&crate::calculator::Finding| f.severity >= least && f.text.contains(word);
    assert!(outcome.findings.iter().any(|finding| is_it(&finding)), "{:#?}", outcome.findings);
}

/// 40 CFR 433.17: copper 3.38 mg/L on any day, 2.07 as the average of a month.
#[test]
fn the_daily_limit_is_held_against_the_peak_day_and_the_monthly_one_against_the_mean() {
    let peak: Rows = &[("metals", "Cu", &[("m", "1 g/day"), ("m_p", "4 g/day")])];
    let outcome = tried(&[], peak).unwrap();
    says(&outcome, Severity::Caution, "daily limit");
    assert!(!outcome.findings.iter().any(|finding| finding.text.contains("average")));
    let mean: Rows = &[("metals", "Cu", &[("m", "3 g/day"), ("m_p", "3 g/day")])];
    let outcome = tried(&[], mean).unwrap();
    says(&outcome, Severity::Caution, "average");
    assert!(!outcome.findings.iter().any(|finding| finding.text.contains("daily limit")));
}

/// 40 CFR 433.17: silver 0.43 and lead 0.69 mg/L on any day, copper 3.38.
#[test]
fn a_milligram_a_litre_is_in_order_for_copper_and_too_much_for_silver_and_lead() {
    let one: Texts = &[("m", "1 g/day"), ("m_p", "1 g/day")];
    let rows: Rows = Box::leak(Box::new(["Cu", "Ag", "Pb"].map(|metal| ("metals", metal, one))));
    let outcome = tried(&[], rows).unwrap();
    let looked_at = |at: &str| outcome.findings.iter().any(|finding| finding.at == at);
    assert!(!looked_at("c_p[Cu]") && looked_at("c_p[Ag]") && looked_at("c_p[Pb]"));
}

#[test]
fn the_permit_rules_over_what_is_published() {
    let strict: Rows = &[("metals", "Cu", &[("m", "1 g/day"), ("m_p", "1 g/day"), ("lim_d", "0.5 mg/L")])];
    says(&tried(&[], strict).unwrap(), Severity::Serious, "permit’s daily limit");
    let wide: Rows = &[(
        "metals",
        "Cu",
        &[("m", "3 g/day"), ("m_p", "5 g/day"), ("lim_d", "9 mg/L"), ("lim_m", "9 mg/L")],
    )];
    assert!(tried(&[], wide).unwrap().findings.is_empty());
}

#[test]
fn clean_water_of_a_peak_thins_no_metal() {
    // The peak of another stream brings water without copper: its litres do not count for copper.
    let copper: Rows = &[("metals", "Cu", &[("m", "1 g/day"), ("m_p", "1 g/day"), ("Q_e", "0 L/day")])];
    assert!((found(&tried(&[], copper).unwrap(), "c_p") - 1e-3).abs() < 1e-12);
}

/// 40 CFR 469.10 leaves electroplating out; parts 413 and 433 cover it.
#[test]
fn the_rule_for_semiconductors_is_none_for_plating() {
    let copper: Rows = &[("metals", "Cu", &[("m", "1 g/day"), ("m_p", "1 g/day")])];
    let outcome = tried(&[("rule", "40 CFR 469.18, semiconductors")], copper).unwrap();
    says(&outcome, Severity::Caution, "not its electroplating");
    assert!(found(&outcome, "pub_d").is_nan());
    says(&tried(&[], copper).unwrap(), Severity::Note, "new source");
}

/// 40 CFR 413, from memory: 10.5 mg/L of Cu, Ni, Cr and Zn together on any day.
#[test]
fn a_larger_job_shop_is_held_to_total_metals_too() {
    let four: Rows = &[
        ("metals", "Cu", &[("m", "4 g/day"), ("m_p", "4 g/day")]),
        ("metals", "Cr", &[("m", "6.8 g/day"), ("m_p", "6.8 g/day")]),
        ("metals", "Sn", &[("m", "9 g/day"), ("m_p", "9 g/day")]),
    ];
    let outcome = tried(&[("rule", "40 CFR 413, job shop, 38 000 L/day and more")], four).unwrap();
    assert!((found(&outcome, "c_4") - 10.8e-3).abs() < 1e-9, "tin is not counted");
    says(&outcome, Severity::Caution, "total metals");
}

#[test]
fn spent_regenerant_belongs_in_a_container() {
    let spent: Rows = &[("streams", "Spent", &[("kind", treated::SPENT), ("class", "acid")])];
    let outcome = tried(&[], spent).unwrap();
    says(&outcome, Severity::Serious, "433.15(c)");
    assert_eq!(found(&outcome, "goes"), 1.0);
    let outcome = tried(&[("what", CONTAINER)], spent).unwrap();
    assert!(outcome.findings.is_empty() && found(&outcome, "goes") == 0.0);
}

#[test]
fn sludge_is_no_water() {
    let sludge: Rows = &[("streams", "Sludge", &[("kind", treated::SLUDGE), ("class", "alkaline")])];
    says(&tried(&[], sludge).unwrap(), Severity::Serious, "to a container");
    assert!(tried(&[("what", CONTAINER)], sludge).unwrap().findings.is_empty());
}

/// 40 CFR 403.5(b)(1) and (2): nothing below 60 °C of flash point or pH 5.
#[test]
fn a_sewer_takes_no_solvent_and_no_strong_acid() {
    let solvent: Rows = &[("streams", "Strip", &[("class", "solvent")])];
    says(&tried(&[], solvent).unwrap(), Severity::Serious, "60 °C");
    // By hand, after Truesdell and Jones at 25 °C (hydrogen ion of 9 Å): pH 3 is 1.035 mmol/L, as its activity coefficient
    // is 0.966; a tenth of it has one of 0.9885, and so an activity of 0.1023 mmol/L, pH 3.990.
    let mix: Rows = &[
        ("streams", "Acid", &[("class", "acid"), ("Q_s", "100 L/day"), ("pH_s", "3")]),
        ("streams", "Water", &[("class", "acid"), ("Q_s", "900 L/day"), ("pH_s", "7")]),
    ];
    let outcome = tried(&[], mix).unwrap();
    assert!((found(&outcome, "pH_m") - 3.990).abs() < 1e-3);
    // 100 L of pH 1 hold 12.1 eq (0.1 over 0.83), 10 000 L of pH 11 10.4 eq of base (0.001 over 0.965): what is left
    // over is acid, 0.17 mmol/L, where the pH alone would tell water.
    let unlike: Rows = &[
        ("streams", "Acid", &[("class", "acid"), ("Q_s", "100 L/day"), ("pH_s", "1")]),
        ("streams", "Base", &[("class", "acid"), ("Q_s", "10000 L/day"), ("pH_s", "11")]),
    ];
    let outcome = tried(&[], unlike).unwrap();
    assert!((found(&outcome, "pH_m") - 3.8).abs() < 0.1);
    says(&outcome, Severity::Serious, "403.5(b)(2)");
    let half: Rows = &[("streams", "Acid", &[("class", "acid"), ("Q_s", "100 L/day")])];
    assert!(found(&tried(&[], half).unwrap(), "pH_m").is_nan(), "not known of one, not known of the mix");
}

#[test]
fn cyanide_and_acid_meet_at_no_discharge_and_in_no_container() {
    let both: Rows = &[("streams", "A", &[("class", "cyanide")]), ("streams", "B", &[("class", "acid")])];
    for what in [POINT, CONTAINER] {
        let refused = tried(Box::leak(Box::new([("what", what)])), both);
        assert!(refused.is_err_and(|stop| stop.text().contains("hydrogen cyanide")));
    }
}
