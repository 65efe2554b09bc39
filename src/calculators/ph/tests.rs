//! What a pH sheet gives, and what it refuses.

use super::bottles::{LOWER, NAMES, RAISE, why_no_acid};
use super::*;
use crate::calculator::{Outcome, Stop, Texts};
use crate::science::ph::{SUBSTANCES, known};
use crate::science::segregation::Class;
use crate::units::Unit;

type Rows = &'static [(&'static str, &'static str, Texts)];

fn ph(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(inputs, rows)
}

fn number(outcome: &Outcome, symbol: &str, unit: &Unit) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    unit.from_si(outcome.answers[0][0].1[port.column])
}

fn is(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found}, not {expected}");
}

const GOLD: Rows =
    &[(TABLE, "Citric acid", &[("C", "0.3 mol/L")]), (TABLE, "Potassium hydroxide", &[("C", "0.5 mol/L")])];

#[test]
fn every_bottle_and_name_is_known_and_every_class_is_thought_of() {
    for (name, _) in RAISE.iter().chain(LOWER) {
        assert!(known(name).is_some(), "{name}");
    }
    for substance in SUBSTANCES {
        assert!(NAMES.contains(&&*substance.name), "{}", substance.name);
        assert!(bottles::SOURCES.contains(&substance.source), "{}", substance.source);
        assert!(substance.molar_mass().is_ok(), "{}", substance.name);
    }
    for class in Class::ALL {
        assert_eq!(why_no_acid(class).is_none(), TAKES_ACID.contains(&class.name()), "{}", class.name());
    }
}

#[test]
fn a_cyanide_bath_is_refused_acid_with_the_reason() {
    let stop = ph(&[("class_p", "cyanide"), ("pH_w", "3"), ("V", "100 L")], GOLD).unwrap_err();
    assert!(stop.reason.contains("acid is ever added to a cyanide bath: hydrogen cyanide"), "{stop:?}");
    let stop = ph(&[("class_p", "unknown"), ("pH_w", "3")], GOLD).unwrap_err();
    assert!(stop.reason.contains("unknown"), "{stop:?}");
}

/// The scenario of every gold line: accepted as it is, no acid offered, and free cyanide decides.
#[test]
fn gold_cyanide_in_weak_acid_is_taken_as_it_is_and_never_offered_acid() {
    let inputs: Texts =
        &[("class_p", "cyanide"), ("V", "100 L"), ("hold", YES), ("v_d", "10 mL"), ("d", "0.1 per day")];
    let outcome = ph(inputs, GOLD).unwrap();
    assert!((3.0..6.0).contains(&number(&outcome, "pH", NUMBER)));
    assert!(number(&outcome, "Δ_down", NUMBER).is_nan() && number(&outcome, "V_day", ML_PER_DAY).is_nan());
    is(number(&outcome, "f_HCN", PERCENT), 100.0, 0.1);
    assert!(outcome.cautions.iter().any(|text| text.contains("the free cyanide decides")));
    assert!(
        outcome.findings.iter().any(|finding| finding.severity == Severity::Serious && finding.at == "d")
    );
    // Raising it is no acid.
    assert!(ph(&[("class_p", "cyanide"), ("pH_w", "6")], GOLD).is_ok());
}

#[test]
fn strong_acid_of_bath_strength_is_taken_by_amount_and_not_by_ph() {
    let rows: Rows = &[(TABLE, "Sulfuric acid", &[("known_as", BY_MASS), ("c_s", "180 g/L")])];
    let stop = ph(&[("class_p", "acid")], rows).unwrap_err();
    assert!(stop.remedy.contains("by its amount"), "{stop:?}");
}

/// PHREEQC 3.8.6, phreeqc.dat: pure water at 60 °C is neutral at 6.5076.
#[test]
fn a_warm_bath_is_neutral_below_7() {
    let rows: Rows = &[(TABLE, "Sodium chloride", &[("C", "0 mol/L")])];
    let outcome = ph(&[("class_p", "acid"), ("T", "60 °C")], rows).unwrap();
    is(number(&outcome, "pH", NUMBER), 6.5076, 0.01);
}

/// What was measured stands: the sum makes up for what it misses, and says how much that is.
#[test]
fn a_measured_ph_is_taken_and_what_the_sum_misses_is_said() {
    let rows: Rows =
        &[(TABLE, "Boric acid", &[("C", "0.6 mol/L")]), (TABLE, "Nickel sulfamate", &[("C", "1.3 mol/L")])];
    let inputs: Texts = &[
        ("class_p", "acid"),
        ("T", "50 °C"),
        ("V", "200 L"),
        ("pH_m", "4.4"),
        ("pH_w", "4"),
        ("down", "Sulfamic acid"),
    ];
    let outcome = ph(inputs, rows).unwrap();
    is(number(&outcome, "pH", NUMBER), 4.4, 1e-12);
    assert!(number(&outcome, "b_0", MOL_PER_L).is_finite());
    let volume = number(&outcome, "V_r", L);
    assert!(volume > 0.0 && volume < 10.0, "{volume} L");
    assert!(outcome.findings.iter().any(|finding| finding.at == "I"));
}

/// By hand: 20 mL of 1 mol/L into 100 L are 0.2 mmol/L; over a buffer of acetate, 0.1 mol/L in all and half
/// neutralised, of 2.303·0.1/4 = 57.6 mmol/L that is 0.0035.
#[test]
fn a_dose_moves_the_ph_by_what_the_buffer_leaves() {
    let rows: Rows = &[
        (TABLE, "Acetic acid", &[("C", "0.1 mol/L")]),
        (TABLE, "Potassium hydroxide", &[("C", "0.05 mol/L")]),
    ];
    let inputs: Texts = &[
        ("class_p", "acid"),
        ("activity", LEFT_OUT),
        ("V", "100 L"),
        ("hold", YES),
        ("v_d", "20 mL"),
        ("down", "Hydrochloric acid"),
        ("d", "0.035 per day"),
    ];
    let outcome = ph(inputs, rows).unwrap();
    is(number(&outcome, "Δ_up", NUMBER), 0.00347, 4e-5);
    is(number(&outcome, "Δ_down", NUMBER), 0.00347, 4e-5);
    is(number(&outcome, "b_least", NUMBER), 0.00347 + 0.04, 1e-4);
    is(number(&outcome, "V_day", ML_PER_DAY), 20.0 * 0.035 / 0.00347, 3.0);
}

#[test]
fn a_dose_too_large_for_the_dead_band_hunts() {
    let rows: Rows = &[(TABLE, "Hydrochloric acid", &[("C", "0.0001 mol/L")])];
    let inputs: Texts =
        &[("class_p", "acid"), ("V", "100 L"), ("hold", YES), ("v_d", "10 mL"), ("pH_w", "7"), ("b", "0.3")];
    let outcome = ph(inputs, rows).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("hunt")), "{:?}", outcome.findings);
}

/// PHREEQC 3.8.6, minteq.v4.dat: boric acid of 0.5 mol/kg takes 0.106 mol of caustic to pH 8, where its few
/// hydrogen ions alone would take none.
#[test]
fn a_weak_acid_adds_to_what_raising_the_ph_takes() {
    let rows: Rows = &[(TABLE, "Boric acid", &[("C", "0.5 mol/L")])];
    let outcome = ph(&[("class_p", "acid"), ("pH_w", "8"), ("C_up", "30 mol/L")], rows).unwrap();
    is(number(&outcome, "n_r", MOL_PER_L), 0.106, 0.003);
}

/// EPA-600/2-80-076, chart groups 11 with 1 and 2 (cyanide); sulfite and acid: from memory; an unknown bath may be either.
#[test]
fn acid_that_is_typed_into_a_bath_that_must_never_meet_it_is_refused() {
    let one = |class: &str, name: &'static str, cells: Texts| {
        let inputs: Texts = Box::leak(Box::new([("class_p", &*class.to_string().leak())]));
        ph(inputs, Box::leak(Box::new([(TABLE, name, cells)])))
    };
    let weak: Texts = &[("C", "0.01 mol/L")];
    for acid in [
        "Sulfuric acid",
        "Hydrochloric acid",
        "Nitric acid",
        "Methanesulfonic acid",
        "Phosphoric acid",
        "Sulfamic acid",
        "Sodium hydrogensulfate",
        "Hydrofluoric acid",
    ] {
        for class in ["cyanide", "sulfite", "unknown"] {
            let stop = one(class, acid, weak).unwrap_err();
            assert!(
                stop.reason.contains("must never meet") && stop.reason.contains(acid),
                "{class} {acid}: {stop:?}"
            );
        }
        assert!(one("fluoride", acid, weak).is_ok(), "{acid}");
    }
    assert!(one("cyanide", "Sulfuric acid", weak).unwrap_err().reason.contains("hydrogen cyanide"));
    assert!(one("sulfite", "Sulfuric acid", weak).unwrap_err().reason.contains("sulfur dioxide"));
    // An acid of the user's own counts by its pKa.
    let own =
        |pka| -> Texts { Box::leak(Box::new([("known_as", ACID), ("C", "0.01 mol/L"), ("pK_1", pka)])) };
    assert!(one("cyanide", "Own", own("1")).is_err() && one("cyanide", "Own", own("4.8")).is_ok());
    // None of it is none.
    assert!(one("cyanide", "Sulfuric acid", &[("C", "0 mol/L")]).is_ok());
    // A cyanide by its name is one, whatever class is chosen.
    let rows: Rows = &[
        (TABLE, "Potassium cyanide", &[("known_as", BASE), ("C", "0.1 mol/L"), ("pK_1", "9.2")]),
        (TABLE, "Sulfuric acid", &[("C", "0.01 mol/L")]),
    ];
    for class in ["acid", "alkaline", "unknown", "cyanide"] {
        let inputs: Texts = Box::leak(Box::new([("class_p", class)]));
        assert!(ph(inputs, rows).is_err(), "{class}");
    }
}

/// pKa of hydrogen cyanide 9.21 (minteq.v4.dat of PHREEQC 3.8.6, NIST 46): at pH 12 under 1 % of it is gas.
#[test]
fn a_cyanide_bath_whose_ph_frees_the_gas_is_stopped_for() {
    let of = |rows: Rows| {
        let outcome = ph(&[("class_p", "cyanide")], rows).unwrap();
        outcome.findings.iter().find(|finding| finding.at == "f_HCN").map(|finding| finding.severity)
    };
    assert_eq!(of(GOLD), Some(Severity::Serious));
    assert_eq!(of(&[(TABLE, "Potassium hydroxide", &[("C", "0.01 mol/L")])]), Some(Severity::Note));
    let rows: Rows = &[(TABLE, "Acetic acid", &[("C", "0.01 mol/L")])];
    let outcome = ph(&[("class_p", "sulfite")], rows).unwrap();
    assert!(outcome.findings.iter().any(|found| found.severity == Severity::Serious && found.at == "pH"));
    assert!(outcome.cautions.iter().any(|text| text.contains("sulfur dioxide")));
    let outcome = ph(&[("class_p", "fluoride")], rows).unwrap();
    assert!(outcome.cautions.iter().any(|text| text.contains("hydrogen fluoride")));
}

/// CRC Handbook of Chemistry and Physics, concentrative properties of aqueous solutions: NaOH of 10 % by mass has
/// 1.1089 g/mL and 2.772 mol/L at 20 °C.
#[test]
fn a_bottle_is_taken_by_mass_as_its_label_has_it() {
    let rows: Rows = &[(TABLE, "Hydrochloric acid", &[("C", "0.01 mol/L")])];
    let of = |more: Texts| {
        let base = [("class_p", "acid"), ("V", "100 L"), ("pH_w", "7")];
        let inputs: Texts = Box::leak(base.into_iter().chain(more.iter().copied()).collect());
        ph(inputs, rows).map(|outcome| number(&outcome, "V_r", L))
    };
    is(of(&[("as_up", STOCK_SHARE), ("w_up", "10 %")]).unwrap(), 1.0 / 2.772, 2e-3);
    is(of(&[("as_up", STOCK_SHARE), ("w_up", "10 %"), ("ρ_up", "1.1089 kg/L")]).unwrap(), 1.0 / 2.772, 1e-3);
    // By hand: 40 g of NaOH in a litre are 1.0001 mol.
    is(of(&[("as_up", STOCK_GRAMS), ("c_up", "40 g/L")]).unwrap(), 1.0, 1e-3);
    assert!(of(&[("as_up", STOCK_SHARE)]).is_err());
}

/// Common practice, no source: a fifth of the bath is the most of a correction.
#[test]
fn a_bottle_that_would_fill_the_tank_is_pointed_out() {
    let rows: Rows = &[(TABLE, "Hydrochloric acid", &[("C", "0.01 mol/L")])];
    let is_pointed_out = |strength: &'static str| {
        let inputs: Texts =
            Box::leak(Box::new([("class_p", "acid"), ("V", "200 L"), ("pH_w", "7"), ("C_up", strength)]));
        let outcome = ph(inputs, rows).unwrap();
        outcome.findings.iter().any(|found| found.at == "s_r" && found.severity == Severity::Caution)
    };
    assert!(is_pointed_out("0.01 mol/L") && !is_pointed_out("1 mol/L"));
}
