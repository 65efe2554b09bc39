//! What the sheet of precipitation gives, and what it refuses.

use super::*;
use crate::calculator::{Outcome, Severity, Stop, Texts};
use crate::calculators::routes;
use crate::units::Unit;

type Rows = &'static [(&'static str, &'static str, Texts)];

/// What stands where a test types nothing else.
const USUAL: Texts = &[("Q", "1000 L/day"), ("pH_0", "3"), ("C_b", "5 mol/L"), ("bound", NONE)];
const COPPER: Rows = &[(metals::TABLE, "Cu", &[("c_m", "50 mg/L")])];
const BOTH: Rows =
    &[(metals::TABLE, "Zn", &[("c_m", "40 mg/L")]), (metals::TABLE, "Ni", &[("c_m", "30 mg/L")])];

fn evaluate(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    let inputs: &'static _ = Box::leak([USUAL, inputs].concat().into_boxed_slice());
    CALCULATOR.tried(inputs, rows)
}

fn of(outcome: &Outcome, symbol: &str, unit: &Unit) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    unit.from_si(outcome.answers[port.table][0].1[port.column])
}

fn says(outcome: &Outcome, text: &str) -> bool {
    outcome.findings.iter().any(|finding| finding.text.contains(text))
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found / expected - 1.0).abs() < within, "{found} is not {expected}");
}

#[test]
fn what_binds_metal_is_named_and_no_number_is_given() {
    for (word, _) in COMPLEXANTS {
        let inputs: Texts = Box::leak(Box::new([("bound", *word)]));
        let found = evaluate(inputs, COPPER);
        match *word {
            NONE => assert!(!says(&found.unwrap(), "binds metal")),
            NOT_KNOWN => assert!(says(&found.unwrap(), "Nobody has said")),
            _ => {
                let stop = found.unwrap_err();
                assert!(
                    stop.at == Some("bound") && stop.reason.contains("stays dissolved"),
                    "{}",
                    stop.text()
                );
                assert!(*word == OTHER || stop.reason.contains(word), "{}", stop.text());
            }
        }
    }
    for kind in [routes::AMMONIA, routes::CYANIDE, routes::SULFITE, routes::FLUORIDE] {
        let inputs: Texts = Box::leak(Box::new([("kind_r", kind)]));
        assert_eq!(evaluate(inputs, COPPER).unwrap_err().at, Some("kind_r"), "{kind}");
    }
}

/// PHREEQC 3.8.6 at pH 9: copper 0.00332 mg/L with minteq.v4.dat, 0.567 with wateq4f.dat.
#[test]
fn the_spread_of_the_databases_is_shown_and_the_safe_one_counts() {
    let outcome = evaluate(&[], COPPER).unwrap();
    near(of(&outcome, "r_S", NUMBER), 0.56684 / 0.003317, 0.03);
    near(of(&outcome, "c_l", MG_PER_L_METAL), 0.56684, 0.02);
    near(of(&evaluate(&[("set", FIRST)], COPPER).unwrap(), "c_l", MG_PER_L_METAL), 0.003317, 0.02);
    near(of(&evaluate(&[("set", SECOND)], COPPER).unwrap(), "c_l", MG_PER_L_METAL), 0.56684, 0.02);
    assert!(outcome.cautions.iter().any(|text| text.contains("jar tests")));
}

/// PHREEQC 3.8.6, minteq.v4.dat: zinc 0.284 mg/L at pH 9.5 and 27 at pH 12: too high a pH dissolves it again.
#[test]
fn too_high_a_ph_dissolves_an_amphoteric_metal_again() {
    let zinc: Rows = &[(metals::TABLE, "Zn", &[("c_m", "40 mg/L")])];
    let high = evaluate(&[("pH", "12"), ("set", FIRST)], zinc).unwrap();
    near(of(&high, "c_l", MG_PER_L_METAL), 27.1, 0.05);
    // 40 CFR 433.17: 1.48 mg/L of zinc on average.
    near(of(&high, "lim", MG_PER_L_METAL), 1.48, 1e-9);
    assert!(high.findings.iter().any(|found| found.severity == Severity::Serious && found.at == "c_l[Zn]"));
    let good = evaluate(&[("pH", "9.5"), ("set", FIRST)], zinc).unwrap();
    assert!(!good.findings.iter().any(|found| found.severity == Severity::Serious));
    assert!((9.5..10.0).contains(&of(&good, "pH_1", NUMBER)));
}

#[test]
fn several_metals_share_one_ph_or_are_refused() {
    let outcome = evaluate(&[("pH", "9.8")], BOTH).unwrap();
    let [low, best, high] = ["pH_lo", "pH_b", "pH_hi"].map(|symbol| of(&outcome, symbol, NUMBER));
    assert!(low < best && best < high && low > 8.9 && high < 11.0, "{low} {best} {high}");
    // Inside of what is said all keep their limits, outside one does not.
    let broken = |ph: f64| {
        let text: &'static str = Box::leak(format!("{ph:.4}").into_boxed_str());
        let outcome = evaluate(Box::leak(Box::new([("pH", text)])), BOTH).unwrap();
        outcome.findings.iter().any(|found| found.severity == Severity::Serious)
    };
    assert!(!broken(low + 0.01) && !broken(high - 0.01) && broken(low - 0.01) && broken(high + 0.01));
    // Tin is least soluble near pH 7, nickel above 9.5.
    let apart: Rows = &[
        (metals::TABLE, "Sn", &[("c_m", "40 mg/L"), ("l_d", "3 mg/L")]),
        (metals::TABLE, "Ni", &[("c_m", "30 mg/L")]),
    ];
    let stop = evaluate(&[], apart).unwrap_err();
    assert!(stop.reason.contains("No one pH keeps Sn, Ni"), "{}", stop.text());
}

/// 40 CFR 433.17: 0.24 mg/L of silver on average; PHREEQC 3.8.6 leaves 0.75 to 0.8 at pH 12.
#[test]
fn a_limit_that_no_ph_reaches_is_refused() {
    let silver: Rows = &[(metals::TABLE, "Ag", &[("c_m", "40 mg/L")])];
    let stop = evaluate(&[("pH", "11")], silver).unwrap_err();
    assert!(
        stop.at == Some("c_m") && stop.row == "Ag" && stop.remedy.contains("chloride"),
        "{}",
        stop.text()
    );
    // With a permit that lets more go, it may.
    let lenient: Rows = &[(metals::TABLE, "Ag", &[("c_m", "40 mg/L"), ("l_d", "5 mg/L")])];
    assert!(evaluate(&[("pH", "11")], lenient).is_ok());
    // What comes in within its limit asks for no pH.
    let trace: Rows =
        &[(metals::TABLE, "Ag", &[("c_m", "0.1 mg/L")]), (metals::TABLE, "Cu", &[("c_m", "50 mg/L")])];
    assert!(of(&evaluate(&[], trace).unwrap(), "pH_b", NUMBER) > 7.0);
    let gold: Rows = &[(metals::TABLE, "Au", &[("c_m", "5 mg/L")])];
    assert!(evaluate(&[], gold).unwrap_err().remedy.contains("reclaim"));
}

/// The permit goes before what is published, and the stricter of its two before the other.
#[test]
fn the_permit_says_which_limit_counts() {
    let limit = |cells: Texts| {
        let rows: Rows = Box::leak(Box::new([(metals::TABLE, "Cu", cells)]));
        of(&evaluate(&[], rows).unwrap(), "lim", MG_PER_L_METAL)
    };
    near(limit(&[("c_m", "50"), ("l_d", "5"), ("l_m", "3")]), 3.0, 1e-9);
    near(limit(&[("c_m", "50"), ("l_d", "5")]), 5.0, 1e-9);
    // 40 CFR 433.17: 2.07 mg/L of copper on average.
    near(limit(&[("c_m", "50")]), 2.07, 1e-9);
    let tin: Rows = &[(metals::TABLE, "Sn", &[("c_m", "40 mg/L")])];
    let outcome = evaluate(&[], tin).unwrap();
    assert!(of(&outcome, "lim", MG_PER_L_METAL).is_nan() && of(&outcome, "pH_b", NUMBER).is_nan());
}

/// By hand: 20 mg/L of copper hydroxide carry 20·63.546/97.56 = 13.0 mg/L of copper, far over what is dissolved.
#[test]
fn solids_that_do_not_settle_are_metal_too() {
    assert!(says(&evaluate(&[], COPPER).unwrap(), "are metal too"));
    let outcome = evaluate(&[("s_c", "20 mg/L"), ("set", FIRST)], COPPER);
    assert!(outcome.unwrap_err().remedy.contains("Filter better"));
    let outcome = evaluate(&[("s_c", "2 mg/L"), ("set", FIRST)], COPPER).unwrap();
    near(of(&outcome, "c_s", MG_PER_L_METAL), 1.303, 1e-3);
    near(of(&outcome, "c_l", MG_PER_L_METAL), 1.303 + 0.0033, 2e-3);
    assert_eq!(evaluate(&[("s_c", "500 mg/L")], COPPER).unwrap_err().at, Some("s_c"));
}

/// What comes in goes out with the water or into the sludge, whatever is typed.
#[test]
fn the_metal_closes() {
    for inputs in [&[("s_c", "2 mg/L")] as Texts, &[("pH", "7")], &[("pH", "8.5"), ("m_o", "1 kg/day")]] {
        let outcome = evaluate(inputs, COPPER).unwrap();
        let [leaves, falls] = ["m_l", "m_f"].map(|symbol| of(&outcome, symbol, G_PER_DAY_METAL));
        near(leaves + falls, 50.0, 1e-9);
    }
}

/// By hand: 50 g/day fall as 76.8 g of hydroxide; 2 % of solids make 3.84 kg, of which 98 % is water.
#[test]
fn sludge_is_given_wet_and_pressed_with_its_moisture() {
    let inputs: Texts = &[("set", FIRST), ("x_w", "2 %"), ("x_c", "30 %")];
    let outcome = evaluate(inputs, COPPER).unwrap();
    near(of(&outcome, "m_w", KG_PER_DAY), 3.838, 1e-3);
    near(of(&outcome, "y_w", MASS_PERCENT), 98.0, 1e-9);
    near(of(&outcome, "m_c", KG_PER_DAY), 0.2559, 1e-3);
    // 0.2559·(0.3/3.4 + 0.7/0.9982) L.
    near(of(&outcome, "V_c", L_PER_DAY), 0.2020, 2e-3);
    // The press gives its water back.
    let back = of(&outcome, "Q_out", L_PER_DAY)
        - of(&evaluate(&[("set", FIRST), ("x_w", "2 %")], COPPER).unwrap(), "Q_out", L_PER_DAY);
    near(back, of(&outcome, "V_w", L_PER_DAY) - 0.2020, 1e-3);
    assert!(of(&evaluate(&[], COPPER).unwrap(), "m_c", KG_PER_DAY).is_nan());
}

/// PHREEQC 3.8.6: pure water is neutral at pH 6.51 at 60 °C; a pH means another share of hydroxide there.
#[test]
fn the_curve_is_for_25_degrees_and_that_is_said_where_the_water_is_hot() {
    assert!(says(&evaluate(&[("T", "60 °C")], COPPER).unwrap(), "known for 25 °C"));
    assert!(!says(&evaluate(&[], COPPER).unwrap(), "known for 25 °C"));
}

/// PHREEQC lets tin(II) oxidise unless told not to; the rows are of tin(II), 1.47 mg/L at pH 7.
#[test]
fn tin_is_counted_as_tin_two_and_that_is_said() {
    let tin: Rows = &[(metals::TABLE, "Sn", &[("c_m", "40 mg/L")])];
    let outcome = evaluate(&[("pH", "7"), ("set", FIRST)], tin).unwrap();
    assert!(says(&outcome, "tin(IV)"));
    near(of(&outcome, "c_l", MG_PER_L_METAL), 1.474, 0.05);
}

#[test]
fn so_high_a_ph_that_the_water_is_lowered_again_is_said() {
    assert!(says(&evaluate(&[("pH", "10.5")], COPPER).unwrap(), "before its solids are out"));
    assert!(!says(&evaluate(&[], COPPER).unwrap(), "before its solids are out"));
}

#[test]
fn metal_is_not_brought_down_with_acid() {
    let stop = evaluate(&[("pH_0", "11"), ("pH", "9")], COPPER).unwrap_err();
    assert!(stop.at == Some("pH") && stop.reason.contains("lowered"), "{}", stop.text());
    // A metal below what stays dissolved does not fall.
    let little: Rows = &[(metals::TABLE, "Ni", &[("c_m", "30 mg/L")])];
    assert!(says(&evaluate(&[("pH", "7")], little).unwrap(), "does not fall"));
}

/// Lime against 0.1 mol/L of sulfuric acid: PHREEQC 3.8.6, phreeqc.dat: 0.084949 mol of gypsum a litre, 14.6 g.
#[test]
fn gypsum_of_lime_is_sludge_beside_the_hydroxide() {
    let rows: Rows = &[
        (metals::TABLE, "Cu", &[("c_m", "50 mg/L")]),
        (reagent::DISSOLVED, "Sulfuric acid", &[("as_a", "mol/L"), ("C_a", "0.1 mol/L")]),
    ];
    let limed: Texts =
        &[("up", reagent::LIME), ("given", reagent::BY_NAME), ("T", "25 °C"), ("C_b", "30 mol/L")];
    let outcome = evaluate(limed, rows).unwrap();
    let gypsum = of(&outcome, "m_g", KG_PER_DAY);
    near(gypsum, 14.62, 0.01);
    // By hand: 50 g of copper are 76.8 g of hydroxide, less the little that stays dissolved.
    near(of(&outcome, "m_T", KG_PER_DAY) - gypsum, 0.0768, 0.02);
}

/// PHREEQC 3.8.6: at pH 9 sit.dat leaves 0.00755 mg/L of chromium(III), minteq.v4.dat 0.0000929.
#[test]
fn chromium_falls_once_it_is_reduced() {
    let outcome = evaluate(&[], &[(metals::TABLE, "Cr", &[("c_m", "20 mg/L")])]).unwrap();
    near(of(&outcome, "c_T", MG_PER_L_METAL), 0.00755, 0.05);
    assert!(says(&outcome, "Chromate does not fall"));
    let stop = evaluate(&[], &[(metals::TABLE, "In", &[("c_m", "20 mg/L")])]).unwrap_err();
    assert!(
        stop.reason.contains("no published curve of In") || stop.reason.contains("No published curve of In")
    );
}

/// PHREEQC 3.8.6, minteq.v4.dat: zinc 0.284 mg/L at pH 9.5 and 1.53 at 11.
#[test]
fn an_amphoteric_metal_is_named_where_it_dissolves_again() {
    let zinc: Rows = &[(metals::TABLE, "Zn", &[("c_m", "40 mg/L"), ("l_m", "30 mg/L")])];
    assert!(says(&evaluate(&[("pH", "11.5")], zinc).unwrap(), "amphoteric"));
    assert!(!says(&evaluate(&[("pH", "9.5")], zinc).unwrap(), "amphoteric"));
}
