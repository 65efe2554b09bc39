//! What a stream comes to, and which route takes it.

use super::*;
use crate::calculator::{Outcome, Stop, Texts};

type Rows = &'static [(&'static str, &'static str, Texts)];

const COPPER: Rows = &[(metals::TABLE, "Cu", &[("c_in", "50 g/L")])];

fn tried(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(inputs, rows)
}

/// The word of an answer, in a row or of the whole sheet.
fn word(outcome: &Outcome, symbol: &str, key: &str) -> &'static str {
    let port = CALCULATOR.port(symbol).unwrap();
    let row = outcome.answers[port.table].iter().find(|(known, _)| **known == *key).unwrap();
    CALCULATOR.output_at(port).unwrap().words[row.1[port.column] as usize]
}

/// Common practice, no source: class first, then worth, then how much metal it holds.
#[test]
fn class_goes_before_worth_and_worth_before_strength() {
    let belongs = |class: &'static str, rows: Rows| {
        let inputs: Texts = Box::leak(Box::new([("kind", OTHER), ("class", class), ("Q_t", "10 L/day")]));
        word(&tried(inputs, rows).unwrap(), "belongs", "")
    };
    let gold: Rows = &[(metals::TABLE, "Au", &[("c_in", "0.01 g/L")])];
    let traces: Rows = &[(metals::TABLE, "Cu", &[("c_in", "0.02 g/L")])];
    assert_eq!(belongs("cyanide", gold), routes::CYANIDE);
    assert_eq!(belongs("acid", gold), routes::RECLAIM);
    assert_eq!(belongs("acid", COPPER), routes::CONCENTRATE);
    assert_eq!(belongs("acid", traces), routes::DILUTE);
    assert_eq!(belongs("acid", &[]), routes::ACID_BASE);
    assert_eq!(belongs("unknown", COPPER), routes::FIND_OUT);
}

/// EPA-600/2-80-076, compatibility chart: acid with cyanide gives hydrogen cyanide.
#[test]
fn cyanide_is_taken_by_its_own_route_alone() {
    let inputs: Texts = &[("kind", OTHER), ("class", "cyanide"), ("Q_t", "10 L/day")];
    let outcome = tried(inputs, COPPER).unwrap();
    for (route, _) in routes::KINDS {
        let expected = match *route {
            routes::CYANIDE => routes::SHOULD,
            routes::OWN => routes::MAY,
            _ => routes::MUST_NOT,
        };
        assert_eq!(word(&outcome, "takes", route), expected, "{route}");
    }
}

#[test]
fn what_a_bath_lets_out_is_not_taken_for_water_without_metal() {
    let dump: Texts = &[("kind", DUMP), ("class", "acid"), ("V_d", "240 L"), ("t_d", "120 days")];
    let stop = tried(dump, &[]).unwrap_err();
    assert!(stop.todo && stop.text().contains("how much metal it holds"), "{}", stop.text());
    assert!(tried(dump, COPPER).is_ok());
}

#[test]
fn a_standing_rinse_is_not_told_without_its_sheet() {
    let inputs: Texts = &[("kind", STANDING), ("class", "acid"), ("N", "480 per day"), ("d_w", "2.5 mL")];
    let stop = tried(inputs, COPPER).unwrap_err();
    assert!(stop.todo && stop.remedy.contains("“Standing rinse”"), "{}", stop.text());
    // Nor does a rinse that runs hide one that stands.
    let both: Texts =
        &[("kind", RINSE), ("class", "acid"), ("N", "480 per day"), ("d_w", "2.5 mL"), ("V_z", "40 L")];
    assert!(tried(both, COPPER).unwrap_err().reason.contains("has a sheet of a standing rinse"));
}
