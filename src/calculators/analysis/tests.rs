//! What an analysis gives, and what it refuses.

use super::*;
use crate::calculator::{Outcome, Stop, Texts};
use crate::units::Unit;

type Rows = &'static [(&'static str, &'static str, Texts)];

fn analysis(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(inputs, rows)
}

fn number(outcome: &Outcome, symbol: &str, key: &str, unit: &Unit) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    let row = outcome.answers[port.table].iter().find(|(known, _)| &**known == key).unwrap();
    unit.from_si(row.1[port.column])
}

fn is(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found}, not {expected}");
}

/// chemistry of the reaction: two protons, so half a mol of sulfuric acid for one of sodium hydroxide.
#[test]
fn sulfuric_acid_counts_half() {
    let rows: Rows = &[(TABLE, "H2SO4", &[("V_a", "1 mL"), ("v_1", "1 mL")])];
    is(number(&analysis(&[], rows).unwrap(), "c_mL", "H2SO4", G_PER_L), 4.904, 1e-3);
}

/// Any table of titrimetric factors: 1 mL of 0.1 mol/L iodine (I2) is 11.87 mg of tin.
#[test]
fn tin_is_counted_by_molecules_of_iodine() {
    let rows: Rows = &[(TABLE, "Sn", &[("method", IODOMETRIC), ("V_a", "1 mL"), ("v_1", "1 mL")])];
    is(number(&analysis(&[], rows).unwrap(), "c_x", "Sn", G_PER_L), 11.871, 1e-3);
}

#[test]
fn the_blank_the_factor_and_the_dilution_count() {
    let rows: Rows = &[(
        TABLE,
        "Cl",
        &[
            ("method", ARGENTOMETRIC),
            ("C_t", "0.01 mol/L"),
            ("f_t", "0.98"),
            ("V_b", "0.1 mL"),
            ("V_a", "20 mL"),
            ("D", "5"),
            ("v_1", "3.2 mL"),
        ],
    )];
    // By hand: 0.98·0.01·3.1 mmol·35.45 mg/mmol·5/20 mL.
    is(number(&analysis(&[], rows).unwrap(), "c_x", "Cl", G_PER_L), 0.98 * 0.031 * 35.45 * 5.0 / 20.0, 1e-5);
    let below: Rows =
        &[(TABLE, "Cl", &[("method", ARGENTOMETRIC), ("V_b", "1 mL"), ("V_a", "2 mL"), ("v_1", "0.5 mL")])];
    assert!(analysis(&[], below).unwrap_err().reason.contains("blank"));
}

#[test]
fn a_back_titration_is_taken_off_and_never_added() {
    let rows: Rows =
        &[(TABLE, "Ni", &[("method", EDTA_BACK), ("V_1", "10 mL"), ("V_a", "2 mL"), ("v_1", "12 mL")])];
    assert!(analysis(&[], rows).unwrap_err().reason.contains("was left than was given"));
}

#[test]
fn a_run_that_stands_out_is_named_and_not_dropped() {
    let runs = |last| -> Rows {
        match last {
            true => &[(
                TABLE,
                "Cu",
                &[
                    ("method", EDTA),
                    ("V_a", "5 mL"),
                    ("v_1", "12.5 mL"),
                    ("v_2", "12.51 mL"),
                    ("v_3", "12.5 mL"),
                    ("v_4", "13.4 mL"),
                ],
            )],
            false => &[(
                TABLE,
                "Cu",
                &[
                    ("method", EDTA),
                    ("V_a", "5 mL"),
                    ("v_1", "12.5 mL"),
                    ("v_2", "12.6 mL"),
                    ("v_3", "12.4 mL"),
                    ("v_4", "12.5 mL"),
                ],
            )],
        }
    };
    let outcome = analysis(&[], runs(true)).unwrap();
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("Run 4")), "{:?}", outcome.findings);
    is(number(&outcome, "c_x", "Cu", G_PER_L), 6.3546 * (12.5 + 12.51 + 12.5 + 13.4) / 4.0 / 5.0, 1e-3);
    assert!(analysis(&[], runs(false)).unwrap().findings.is_empty());
}

/// Sulfate as barium sulfate: 41.16 % of what is weighed.
#[test]
fn a_precipitate_is_weighed() {
    let rows: Rows = &[(
        TABLE,
        "SO4",
        &[("method", WEIGHED), ("V_a", "10 mL"), ("precipitate", "BaSO4"), ("m_1", "0.5 g")],
    )];
    is(number(&analysis(&[], rows).unwrap(), "c_x", "SO4", G_PER_L), 0.4116 * 50.0, 5e-3);
}

#[test]
fn what_is_not_known_is_asked() {
    let rows: Rows = &[(TABLE, "C6H8O7", &[("V_a", "5 mL"), ("v_1", "5 mL")])];
    assert_eq!(analysis(&[], rows).unwrap_err().at, Some("r"));
    let rows: Rows = &[(TABLE, "Cu", &[("method", EDTA), ("V_a", "5 mL")])];
    assert!(analysis(&[], rows).unwrap_err().todo);
}

#[test]
fn a_strong_bath_is_diluted_for_the_instrument_in_two_steps() {
    let rows: Rows = &[(TABLE, "Cu", &[("method", EDTA), ("V_a", "2 mL"), ("v_1", "12.59 mL")])];
    let outcome = analysis(&[("also", DILUTION), ("c_i", "10 mg/L")], rows).unwrap();
    is(number(&outcome, "F", "", NUMBER), 4000.2, 1.0);
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("two steps")));
}

/// By hand: 50 mL of 1.27092 g/L with 1 mL of 50 g/L; found again at 2.1950 g/L in 51 mL, that is 96.8 %.
#[test]
fn what_was_added_is_found_again() {
    let rows: Rows = &[(TABLE, "Cu", &[("method", EDTA), ("V_a", "10 mL"), ("v_1", "2 mL")])];
    let inputs: Texts =
        &[("also", SPIKE), ("V_s", "50 mL"), ("V_k", "1 mL"), ("C_k", "50 g/L"), ("c_2", "2.1950 g/L")];
    let outcome = analysis(inputs, rows).unwrap();
    is(number(&outcome, "R", "", PERCENT), 100.0 * (2.195 * 51.0 - 1.27092 * 50.0) / 50.0, 0.05);
}

/// Common practice, from memory: at 1 A, 5 cm along, I·(5.10 − 5.24·0.69897) = 1.44 A/dm².
#[test]
fn the_slanted_cell_needs_no_determination() {
    let outcome = analysis(&[("also", CELL), ("I_c", "1 A"), ("x_c", "5 cm")], &[]).unwrap();
    is(number(&outcome, "j", "", A_PER_DM2), 1.4374, 1e-3);
}

/// A determination that waits for its run says so; those with a run have their result.
#[test]
fn a_determination_without_a_run_does_not_hold_up_the_others() {
    let rows: Rows = &[
        (TABLE, "H2SO4", &[("V_a", "5 mL")]),
        (TABLE, "Cu", &[("method", EDTA), ("V_a", "2 mL"), ("v_1", "12.59 mL")]),
    ];
    let outcome = analysis(&[], rows).unwrap();
    // pint and periodictable 2.1.0: 12.59 mL of 0.1 mol/L EDTA for 2 mL, 40.00221 g/L of copper.
    is(number(&outcome, "c_x", "Cu", G_PER_L), 40.00221, 0.01);
    assert!(number(&outcome, "c_x", "H2SO4", G_PER_L).is_nan());
    assert!(outcome.findings.iter().any(|f| f.at == "v_1[H2SO4]" && f.text.contains("run of H2SO4")));
}

/// 2 Cu give one I2, which takes 2 thiosulfate: 1 mL of 0.1 mol/L is 6.355 mg of copper (any table of factors).
#[test]
fn copper_takes_one_thiosulfate_and_not_two() {
    let rows: Rows = &[(TABLE, "Cu", &[("method", IODOMETRIC), ("V_a", "1 mL"), ("v_1", "1 mL")])];
    is(number(&analysis(&[], rows).unwrap(), "c_x", "Cu", G_PER_L), 6.3546, 1e-3);
}

/// Common practice, no source: past pH 4 the copper or nickel takes up hydroxide and reads as acid; tin(II) is lost to
/// air; without a polyol boric acid has no end point.
#[test]
fn the_form_says_how_not_to_titrate() {
    let method = CALCULATOR.port("method").and_then(|port| CALCULATOR.input_at(port)).unwrap();
    for said in ["about pH 4", "Boric acid wants the polyol", "Tin(II): at once"] {
        assert!(method.help.contains(said), "{said}");
    }
}

/// By hand: 2 mL of 40 g/L copper are 1.2589 mmol, so 12.59 mL of 0.1 mol/L EDTA, and 0.05 mL of blank on top.
#[test]
fn copper_as_expected_takes_so_much_edta() {
    let rows: Rows = &[(
        TABLE,
        "Cu",
        &[("method", EDTA), ("V_a", "2 mL"), ("c_e", "40 g/L"), ("V_b", "0.05 mL"), ("v_1", "12.5 mL")],
    )];
    is(number(&analysis(&[], rows).unwrap(), "v_e", "Cu", ML), 12.639, 1e-3);
}

#[test]
fn a_side_sum_that_lacks_a_number_says_so_and_holds_up_no_determination() {
    let stop = analysis(&[("also", CELL), ("I_c", "2 A")], &[]).unwrap_err();
    assert!(stop.todo && stop.at == Some("x_c"), "{stop:?}");
    let rows: Rows = &[(TABLE, "Cu", &[("method", EDTA), ("V_a", "2 mL"), ("v_1", "12.59 mL")])];
    let sides: [(Texts, &str); 3] =
        [(&[("also", CELL)], "I_c"), (&[("also", DILUTION)], "c_i"), (&[("also", SPIKE)], "V_s")];
    for (side, first) in sides {
        let outcome = CALCULATOR.tried(side, rows).unwrap();
        let found = outcome.findings.iter().find(|finding| finding.at == first);
        assert!(found.is_some_and(|finding| finding.text.contains("still to be typed")), "{side:?}");
    }
}
