//! What the sheet of a route gives, and what it refuses.

use super::*;
use crate::calculator::{Outcome, Severity, Stop, Texts};

type Rows = &'static [(&'static str, &'static str, Texts)];

fn tried(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(inputs, rows)
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    outcome.answers[port.table][0].1[port.column]
}

#[track_caller]
fn says(outcome: &Outcome, severity: Severity, text: &str) {
    let is_said =
        |finding: &&crate::calculator::Finding| finding.severity == severity && finding.text.contains(text);
    assert!(outcome.findings.iter().any(|finding| is_said(&finding)), "{text}: {:?}", outcome.findings);
}

const ACID: Texts =
    &[("class", "acid"), ("Q_s", "100 L/day"), ("e_s", "30 meq/L"), ("belongs", routes::DILUTE)];
const MIX: Rows = &[
    ("streams", "Acid rinse", ACID),
    (
        "streams",
        "Cleaner",
        &[("class", "alkaline"), ("Q_s", "100 L/day"), ("e_s", "-30.01 meq/L"), ("belongs", routes::DILUTE)],
    ),
];
const NONE_WEAK: Texts = &[("Q", "200 L/day"), ("weak", NOTHING_WEAK)];

/// By hand: 0.005 meq/L of base left is pH 14 − 5.3 = 8.7.
#[test]
fn acid_and_base_take_each_other_up_and_the_ph_is_called_an_indication() {
    let outcome = tried(NONE_WEAK, MIX).unwrap();
    assert!((found(&outcome, "e_m") + 0.005).abs() < 1e-9);
    assert!((found(&outcome, "pH_m") - 8.7).abs() < 0.02, "{}", found(&outcome, "pH_m"));
    says(&outcome, Severity::Note, "an indication");
    says(&outcome, Severity::Note, "meet here: heat, by the compatibility chart");
}

#[test]
fn no_ph_is_given_where_anything_is_not_known_or_weak() {
    for inputs in [&[("Q", "200 L/day")] as Texts, &[("Q", "200 L/day"), ("weak", SOME)]] {
        assert!(found(&tried(inputs, MIX).unwrap(), "pH_m").is_nan());
    }
    says(&tried(&[("weak", SOME)], MIX).unwrap(), Severity::Note, "measured, not worked out");
    let half: Rows = &[
        ("streams", "Acid rinse", ACID),
        ("streams", "Other", &[("class", "acid"), ("Q_s", "1 L/day"), ("belongs", routes::DILUTE)]),
    ];
    assert!(found(&tried(NONE_WEAK, half).unwrap(), "pH_m").is_nan());
    let ammonia: Rows = &[(
        "streams",
        "Strip",
        &[
            ("class", "ammonia or complexed"),
            ("Q_s", "100 L/day"),
            ("e_s", "-1 meq/L"),
            ("belongs", routes::AMMONIA),
        ],
    )];
    let outcome = tried(&[("kind", routes::AMMONIA), ("weak", NOTHING_WEAK)], ammonia).unwrap();
    assert!(found(&outcome, "pH_m").is_nan());
    says(&outcome, Severity::Note, "with Strip in it");
}

#[test]
fn a_mix_of_bath_strength_has_no_ph_that_is_told() {
    let strong: Rows = &[(
        "streams",
        "Dump",
        &[("class", "acid"), ("Q_s", "10 L/day"), ("e_s", "3.6 eq/L"), ("belongs", routes::CONCENTRATE)],
    )];
    let outcome =
        tried(&[("kind", routes::CONCENTRATE), ("Q", "10 L/day"), ("weak", NOTHING_WEAK)], strong).unwrap();
    assert!(found(&outcome, "pH_m").is_nan() && (found(&outcome, "e_m") - 3600.0).abs() < 1e-9);
    says(&outcome, Severity::Note, "Take it by its amount");
}

/// 40 CFR 403.5(b)(2): nothing below pH 5.
#[test]
fn acid_water_does_not_leave_as_it_is() {
    let rows: Rows = &[("streams", "Acid rinse", ACID)];
    let outcome = tried(&[("Q", "100 L/day"), ("weak", NOTHING_WEAK), ("ends", DISCHARGED)], rows).unwrap();
    says(&outcome, Severity::Serious, "403.5(b)(2)");
}

/// EPA-600/2-80-076, compatibility chart: 11 with 1, 2 and 3 GT GF.
#[test]
fn what_must_not_meet_is_refused_with_what_the_chart_says() {
    let rows: Rows = &[("streams", "Strike", &[("class", "cyanide"), ("belongs", routes::CYANIDE)])];
    let stop = tried(&[], rows).unwrap_err();
    assert!(stop.text().contains("the chart says toxic gas, gas that burns"), "{}", stop.text());
}

#[test]
fn metal_is_worth_its_price_on_its_way_back_and_nowhere_else() {
    let gold: Rows = &[("metals", "Au", &[("m", "2 g/day"), ("p_M", "30000")])];
    assert!((found(&tried(&[("kind", routes::RECLAIM)], gold).unwrap(), "w_D") - 60.0).abs() < 1e-9);
    assert!(found(&tried(&[], gold).unwrap(), "w_D").is_nan());
}

/// 40 CFR 413: from 38 000 L a day on all metals have limits; 433.17: 2.07 mg/L of copper on average.
#[test]
fn published_limits_count_where_the_permit_has_none_and_say_whom_they_bind() {
    let copper: Rows = &[("metals", "Cu", &[("m", "3 g/day")])];
    let outcome = tried(&[("Q", "1000 L/day"), ("ends", DISCHARGED)], copper).unwrap();
    says(&outcome, Severity::Caution, "limit on the average (40 CFR 433.17)");
    says(&outcome, Severity::Note, "part 469, leaves electroplating out");
    let large =
        &[("Q", "1000 L/day"), ("ends", DISCHARGED), ("rule", "40 CFR 413, job shop, 38 000 L/day and more")];
    says(&tried(large, copper).unwrap(), Severity::Note, "the other part of 40 CFR 413");
    let typed: Rows = &[("metals", "Cu", &[("m", "3 g/day"), ("lim_m", "2 mg/L")])];
    let outcome = tried(&[("Q", "1000 L/day"), ("ends", DISCHARGED)], typed).unwrap();
    says(&outcome, Severity::Serious, "permit’s monthly limit");
    assert!(outcome.findings.iter().all(|finding| !finding.text.contains("469")));
}

/// Common practice, no source: who recovers metal pays for one, and less for a mix.
#[test]
fn metals_that_meet_in_a_concentrate_are_told() {
    let told = |kind: &'static str, rows: Rows| {
        let inputs: Texts = Box::leak(Box::new([("kind", kind), ("Q", "10 L/day")]));
        tried(inputs, rows).unwrap().findings.iter().any(|finding| finding.text.contains("mixed metals"))
    };
    let mixed: Rows =
        &[(metals::TABLE, "Cu", &[("m", "4 g/day")]), (metals::TABLE, "Ni", &[("m", "8 g/day")])];
    assert!(told(routes::CONCENTRATE, mixed) && !told(routes::CONCENTRATE, &mixed[..1]));
    assert!(!told(routes::DILUTE, mixed));
}
