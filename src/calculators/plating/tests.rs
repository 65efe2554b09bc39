use super::CALCULATOR;

use crate::calculator::{Outcome, Stop, Texts};
use crate::units::*;

type Rows = &'static [(&'static str, &'static str, Texts)];

const BASE: [(&str, &str); 4] = [("D", "300 mm"), ("open", "15 %"), ("N", "100 per day"), ("η", "98 %")];

fn plated(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    let inputs: Texts = Box::leak(BASE.into_iter().chain(inputs.iter().copied()).collect());
    CALCULATOR.tried(inputs, rows)
}

#[track_caller]
fn answer(inputs: Texts, rows: Rows, symbol: &str, unit: &Unit) -> f64 {
    let outcome = plated(inputs, rows).unwrap();
    let (symbol, key) = symbol.strip_suffix(']').and_then(|s| s.split_once('[')).unwrap_or((symbol, ""));
    let found =
        CALCULATOR.answered(&outcome).find(|(output, _, row)| output.symbol == symbol && ***row == *key);
    unit.from_si(found.expect("an answer of that symbol").1)
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found / expected - 1.0).abs() < 1e-6, "{found} is not {expected}");
}

const STEP: Texts = &[("d", "10 µm"), ("j", "2 A/dm²")];
const COPPER: Rows = &[("metals", "Cu", &[]), ("steps", "Layer", STEP)];

#[test]
fn two_sizes_of_wafers_are_two_rows() {
    // By the definition of a mean: two of six wafers with 10 µm, four with 20 µm, all of the same area.
    let mixed: Rows = &[
        ("metals", "Cu", &[]),
        ("steps", "Thin", &[("d", "10 µm"), ("j", "2 A/dm²"), ("N_i", "2 per day")]),
        ("steps", "Thick", &[("d", "20 µm"), ("j", "2 A/dm²"), ("N_i", "4 per day")]),
    ];
    let one = answer(&[("N", "6 per day")], COPPER, "Q_w", A_MIN);
    near(answer(&[("N", "6 per day")], mixed, "Q_w", A_MIN), one * (2.0 + 2.0 * 4.0) / 6.0);
    // A recipe of two steps that every wafer gets adds up.
    let both: Rows = &[("metals", "Cu", &[]), ("steps", "A", STEP), ("steps", "B", STEP)];
    near(answer(&[], both, "t_w", MINUTE), 2.0 * answer(&[], COPPER, "t_w", MINUTE));
}

#[test]
fn efficiency_is_not_counted_twice() {
    // Half the efficiency takes twice the charge and time at the same current, and plates the same.
    for (symbol, unit, ratio) in
        [("Q_w", A_MIN, 2.0), ("t_w", MINUTE, 2.0), ("I_w", AMPERE, 1.0), ("m_w[Cu]", G_METAL, 1.0)]
    {
        let [half, full] =
            [&[("η", "49 %")], &[("η", "98 %")]].map(|inputs| answer(inputs, COPPER, symbol, unit));
        near(half, ratio * full);
    }
}

#[test]
fn a_soluble_anode_of_the_same_efficiency_replaces_what_is_plated() {
    let inputs: Texts = &[("η", "100 %"), ("η_a", "100 %")];
    assert!(answer(inputs, COPPER, "m_rep[Cu]", G_PER_DAY_METAL).abs() < 1e-9);
    near(
        answer(&[("anode", "inert")], COPPER, "m_rep[Cu]", G_PER_DAY_METAL),
        answer(&[], COPPER, "m_day[Cu]", G_PER_DAY_METAL),
    );
    // Above the cathode's efficiency metal builds up, and the sheet says so.
    let outcome = plated(&[("η", "90 %"), ("η_a", "100 %")], COPPER).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("builds up")));
}

#[test]
fn what_is_missing_is_weighed_as_salt() {
    // molmass: CuSO4·5H2O holds 25.45 % of copper.
    let salted: Rows = &[("metals", "Cu", &[("salt", "CuSO4·5H2O")]), ("steps", "Layer", STEP)];
    let inert: Texts = &[("anode", "inert")];
    let (metal, salt) = (
        answer(inert, salted, "m_rep[Cu]", KG_PER_DAY_METAL),
        answer(inert, salted, "m_salt[Cu]", KG_PER_DAY),
    );
    assert!((metal / salt / 0.2545 - 1.0).abs() < 1e-3);
}

#[test]
fn copper_in_cyanide_takes_one_electron_and_the_sheet_says_so() {
    let cyanide: Texts = &[("class", "cyanide")];
    let outcome = plated(cyanide, COPPER).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("1 electron")));
    assert!(outcome.cautions.iter().any(|text| text.contains("acid")));
    let right: Rows = &[("metals", "Cu", &[("z", "1")]), ("steps", "Layer", STEP)];
    assert!(plated(cyanide, right).unwrap().findings.is_empty());
    near(2.0 * answer(cyanide, right, "Q_w", A_MIN), answer(cyanide, COPPER, "Q_w", A_MIN));
}

#[test]
fn shares_of_an_alloy_must_come_to_all_of_it() {
    let alloy = |rows: Rows| plated(&[], rows);
    let open: Rows = &[("metals", "Sn", &[]), ("metals", "Ag", &[]), ("steps", "Bump", STEP)];
    assert!(alloy(open).unwrap_err().todo);
    let short: Rows =
        &[("metals", "Sn", &[("w", "90 %")]), ("metals", "Ag", &[("w", "2 %")]), ("steps", "Bump", STEP)];
    assert!(alloy(short).unwrap_err().reason.contains("92"));
    let idle: Rows = &[("metals", "Au", &[]), ("metals", "Co", &[("w", "0 %")]), ("steps", "Layer", STEP)];
    assert!(alloy(idle).is_ok(), "a metal that stays in the bath");
    let salt: Rows = &[("metals", "Cl", &[]), ("steps", "Layer", STEP)];
    assert!(alloy(salt).unwrap_err().reason.contains("not a metal"));
}

#[test]
fn silver_and_tin_anodes_do_not_go_together() {
    let alloy: Rows = &[("metals", "Sn", &[]), ("metals", "Ag", &[("w", "2 %")]), ("steps", "Bump", STEP)];
    let says =
        |inputs| plated(inputs, alloy).unwrap().findings.iter().any(|f| f.text.contains("without current"));
    assert!(says(&[]) && !says(&[("anode", "inert")]));
}

#[test]
fn a_bath_that_runs_empty_says_when() {
    let small: Rows = &[("metals", "Cu", &[("c_M", "1 g/L")]), ("steps", "Layer", STEP)];
    let outcome = plated(&[("anode", "inert"), ("V", "10 L"), ("t_x", "100 days")], small).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("empty")));
}

/// By hand: hard gold of 17 kg/L (from memory) in place of 19.3 is that much less metal for the same thickness.
#[test]
fn a_deposit_lighter_than_the_bulk_metal_takes_less_metal() {
    let gold: Rows = &[("metals", "Au", &[]), ("steps", "Layer", STEP)];
    let bulk = answer(&[("ρ_d", "19.3 kg/L")], gold, "m_w[Au]", G_METAL);
    near(answer(&[("ρ_d", "17 kg/L")], gold, "m_w[Au]", G_METAL) / bulk, 17.0 / 19.3);
}
