//! What a dilution gives, and what it refuses.

use super::*;
use crate::calculator::{Outcome, Severity, Stop, Texts};

/// What stands where a test types nothing else: strong acid to 10 %, ten litres of it.
const USUAL: Texts = &[
    ("w_1", "96 %"),
    ("w_2", "10 %"),
    ("V_m", "10 L"),
    ("V_a", "10 L"),
    ("w_a", "30 %"),
    ("V_k", "10 L"),
    ("w_k", "5 %"),
];

fn dilute(inputs: Texts) -> Result<Outcome, Stop> {
    let inputs: &'static _ = Box::leak([USUAL, inputs].concat().into_boxed_slice());
    CALCULATOR.tried(inputs, &[])
}

fn number(outcome: &Outcome, symbol: &str, unit: &Unit) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    unit.from_si(outcome.answers[0][0].1[port.column])
}

#[test]
fn a_strength_above_the_stock_is_refused() {
    let per_litre: Texts = &[("ask", BY_VOLUME), ("C_1", "1"), ("C_2", "2"), ("V_2", "10 L")];
    for inputs in [&[("w_1", "30 %"), ("w_2", "40 %")], per_litre] {
        assert!(dilute(inputs).unwrap_err().reason.contains("above that of the stock"));
    }
}

#[test]
fn half_strength_acid_boils_if_it_is_made_at_once() {
    // By hand from NBS TN 270 and Felder, table B.11: about 50 kJ/mol × 5.1 mol/kg over 2.6 kJ/(kg·K)
    // are nearly 100 K.
    assert!(dilute(&[("w_2", "50 %")]).unwrap_err().reason.contains("boil"));
    let warm = dilute(&[("w_2", "30 %")]).unwrap();
    assert!(number(&warm, "T", CELSIUS) > 60.0);
    assert!(warm.findings.iter().any(|f| f.at == "T" && f.severity >= Severity::Caution));
    assert!(warm.order.iter().any(|step| step.text.contains("never water into acid")));
}

/// Both ways of asking are one law: 1 mol/L of a stock of 5 mol/L by volume, and by its mass %.
#[test]
fn by_volume_and_by_mass_agree() {
    let by_volume = dilute(&[("ask", BY_VOLUME), ("C_1", "5"), ("C_2", "1"), ("V_2", "10")]).unwrap();
    assert!((number(&by_volume, "V_1", L) - 2.0).abs() < 1e-12);
    assert!((number(&by_volume, "V", L) - 10.0).abs() < 1e-6);
    assert!((number(&by_volume, "C", MOL_PER_L) - 1.0).abs() < 1e-6);
}

#[test]
fn what_is_not_known_of_another_liquid_is_asked_for() {
    let stop = dilute(&[("what", OTHER)]).unwrap_err();
    assert!(stop.todo && stop.at == Some("ρ_1"), "{stop:?}");
    let inputs: Texts = &[("what", OTHER), ("ask", MIX), ("ρ_1", "1.2"), ("ρ_0", "1.0"), ("ρ_2", "1.1")];
    assert!((number(&dilute(inputs).unwrap(), "V", L) - 20.0).abs() < 1e-9);
}

/// chempy (Myhre), thermo 0.6.1 (Laliberté) and iapws: 100 kg of 90 % acid to 30 % loses 3.652 % of the volumes.
#[test]
fn strong_acid_and_water_make_less_than_their_volumes() {
    let outcome = dilute(&[("w_1", "90 %"), ("w_2", "30 %"), ("size", A_MASS), ("m_2", "300 kg")]).unwrap();
    let before = number(&outcome, "V_1", L) + number(&outcome, "V_0", L);
    let lost = number(&outcome, "ΔV", L);
    assert!((lost / before - 0.03652).abs() < 0.004, "{}", lost / before);
    assert!((before - lost - number(&outcome, "V", L)).abs() < 1e-6);
}

/// By hand: 37 % hydrochloric acid of 1.18 kg/L is 0.37·1180/36.46 = 12 mol/L, and not 370/36.46 = 10.1.
#[test]
fn mass_percent_is_not_grams_in_a_litre() {
    let inputs: Texts = &[("what", "hydrochloric acid"), ("w_1", "37 %"), ("w_2", "37 %")];
    let c = number(&dilute(inputs).unwrap(), "C", MOL_PER_L);
    assert!((c - 11.98).abs() < 0.06, "{c}");
}
