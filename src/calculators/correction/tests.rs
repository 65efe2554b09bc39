//! What a correction gives, and what it refuses.

use super::*;
use crate::calculator::{Outcome, Stop, Texts};
use crate::units::Unit;

type Rows = &'static [(&'static str, &'static str, Texts)];

fn correction(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
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

const LOW_COPPER: Rows = &[
    (TABLE, "Cu", &[("c", "36 g/L"), ("c_t", "40 g/L"), ("added_as", LIQUID), ("s", "65 g/L")]),
    (TABLE, "H2SO4", &[("c", "200 g/L"), ("c_t", "180 g/L"), ("added_as", NOTHING)]),
];

/// By hand: of 200 L, x out and x of concentrate in: 36·(200 − x) + 65·x = 8000, so x = 27.586 L; the acid
/// comes to 200·(1 − x/200) = 172.4 g/L, and 993 g of copper go with what is drawn off.
#[test]
fn low_in_metal_and_high_in_acid_with_a_full_tank() {
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L")], LOW_COPPER).unwrap();
    is(number(&outcome, "V_x", "", L), 27.5862, 1e-3);
    is(number(&outcome, "v", "Cu", L), 27.5862, 1e-3);
    is(number(&outcome, "c_end", "H2SO4", G_PER_L), 172.414, 1e-2);
    is(number(&outcome, "m_M", "Cu", G_METAL), 993.1, 0.1);
    let texts: Vec<_> = outcome.order.iter().map(|step| step.text.as_str()).collect();
    let drawn = texts.iter().position(|text| text.starts_with("Draw off")).unwrap();
    let added = texts.iter().position(|text| text.starts_with("Liquid for Cu,")).unwrap();
    assert!(drawn < added && texts.last().unwrap().contains("analyse again"), "{texts:?}");
    assert!(outcome.findings.iter().any(|finding| finding.text.contains("additives too")));
}

/// Nickel chloride for the chloride brings nickel: less nickel sulfate is weighed, by what molar masses say.
#[test]
fn a_salt_that_brings_two_things_is_counted_for_both() {
    let rows: Rows = &[
        (TABLE, "Ni", &[("c", "70 g/L"), ("c_t", "77 g/L"), ("added_as", SOLID), ("salt", "NiSO4·6H2O")]),
        (TABLE, "Cl", &[("c", "5 g/L"), ("c_t", "12 g/L"), ("added_as", SOLID), ("salt", "NiCl2·6H2O")]),
    ];
    let outcome = correction(&[("class_k", "acid"), ("V_m", "100 L")], rows).unwrap();
    // 0.7 kg of chloride in NiCl2·6H2O with 29.83 % of it; that brings 24.69/29.83 as much nickel.
    is(number(&outcome, "m", "Cl", KG), 0.7 / 0.29832, 1e-3);
    is(number(&outcome, "m", "Ni", KG), (0.7 - 0.7 * 24.693 / 29.832) / 0.22330, 2e-3);
    is(number(&outcome, "c_end", "Ni", G_PER_L), 77.0, 1e-9);
}

#[test]
fn an_analysis_at_a_low_level_overstates_the_bath() {
    let rows: Rows = &[(
        TABLE,
        "Cu",
        &[("c", "44.444444 g/L"), ("c_t", "40 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")],
    )];
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L"), ("V_n", "180 L")], rows).unwrap();
    is(number(&outcome, "V_x", "", L), 0.0, 1e-3);
    is(number(&outcome, "V_w", "", L), 20.0, 1e-3);
    is(number(&outcome, "m", "Cu", KG), 0.0, 1e-4);
}

#[test]
fn acid_is_never_added_to_cyanide() {
    let rows: Rows = &[
        (TABLE, "Au", &[("c", "8 g/L"), ("c_t", "10 g/L"), ("added_as", SOLID), ("salt", "KAu(CN)2")]),
        (TABLE, "Citric acid", &[("c", "60 g/L"), ("c_t", "70 g/L"), ("added_as", SOLID), ("x_s", "100 %")]),
    ];
    let stop = correction(&[("class_k", "cyanide"), ("V_m", "200 L")], rows).unwrap_err();
    assert!(stop.reason.contains("cyanide") && stop.row == "Citric acid", "{stop:?}");
    let stop = correction(&[("class_k", "acid"), ("V_m", "200 L")], &rows[..1]).unwrap_err();
    assert!(stop.at == Some("class_k"), "{stop:?}");
    let gold = correction(&[("class_k", "cyanide"), ("V_m", "200 L")], &rows[..1]).unwrap();
    is(number(&gold, "m", "Au", KG), 0.4 / 0.68367, 1e-3);
}

#[test]
fn a_bath_of_unknown_class_is_given_no_acid() {
    let rows: Rows = &[(
        TABLE,
        "H2SO4",
        &[("c", "170 g/L"), ("c_t", "180 g/L"), ("added_as", LIQUID), ("s", "1766.4 g/L")],
    )];
    let stop = correction(&[("V_m", "200 L")], rows).unwrap_err();
    assert!(stop.reason.contains("find out its class"), "{stop:?}");
    assert!(correction(&[("class_k", "sulfite"), ("V_m", "200 L")], rows).is_err());
    assert!(correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).is_ok());
}

#[test]
fn chloride_is_never_added_to_silver() {
    let rows: Rows = &[
        (TABLE, "Ag", &[("c", "1 g/L"), ("added_as", NOTHING)]),
        (TABLE, "Cl", &[("c", "0 g/L"), ("c_t", "0.05 g/L"), ("added_as", LIQUID), ("s", "424 g/L")]),
    ];
    assert!(
        correction(&[("class_k", "acid"), ("V_m", "200 L")], rows)
            .unwrap_err()
            .reason
            .contains("silver chloride")
    );
}

#[test]
fn what_prevents_it_is_named() {
    let rows: Rows = &[
        (
            TABLE,
            "Cu",
            &[
                ("c", "36 g/L"),
                ("c_t", "40 g/L"),
                ("added_as", LIQUID),
                ("s", "65 g/L"),
                ("also", "H2SO4"),
                ("k_b", "400 g/L"),
            ],
        ),
        (TABLE, "H2SO4", &[("c", "200 g/L"), ("c_t", "180 g/L"), ("added_as", NOTHING)]),
    ];
    let stop = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap_err();
    assert!(stop.reason.contains("H2SO4"), "{stop:?}");
    let weak: Rows =
        &[(TABLE, "Cu", &[("c", "36 g/L"), ("c_t", "40 g/L"), ("added_as", LIQUID), ("s", "39 g/L")])];
    assert!(correction(&[("class_k", "acid"), ("V_m", "200 L"), ("end", AS_IT_COMES)], weak).is_err());
}

#[test]
fn what_was_really_added_says_what_was_reached() {
    let rows: Rows = &[(
        TABLE,
        "Cu",
        &[("c", "36 g/L"), ("c_t", "40 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O"), ("added", "3 kg")],
    )];
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap();
    is(number(&outcome, "c_got", "Cu", G_PER_L), 36.0 + 3000.0 * 0.25451 / 200.0, 1e-3);
}

/// 40 g/L of copper from metal that dissolves in nothing: a salt must be named.
#[test]
fn copper_is_added_as_a_salt_and_not_as_metal() {
    let rows: Rows = &[(TABLE, "Cu", &[("c", "36 g/L"), ("c_t", "40 g/L"), ("added_as", SOLID)])];
    let stop = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap_err();
    assert!(stop.todo && stop.at == Some("salt"), "{stop:?}");
}

#[test]
fn what_is_near_enough_is_left_alone() {
    let rows: Rows = &[(TABLE, "Cu", &[("c", "40.5 g/L"), ("c_t", "40 g/L"), ("added_as", NOTHING)])];
    let exact = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap();
    is(number(&exact, "V_x", "", L), 200.0 * 0.5 / 40.5, 1e-6);
    let near = correction(&[("class_k", "acid"), ("V_m", "200 L"), ("tol", "2 %")], rows).unwrap();
    is(number(&near, "V_x", "", L), 0.0, 1e-9);
}

/// The titre of the acid is not there yet: the copper is corrected all the same, and the acid’s row says why it is not.
#[test]
fn a_component_without_a_result_is_named_and_does_not_hold_up_the_others() {
    let rows: Rows = &[
        (TABLE, "Cu", &[("c", "36 g/L"), ("c_t", "40 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")]),
        (TABLE, "H2SO4", &[("c_t", "180 g/L"), ("added_as", LIQUID)]),
        (TABLE, "Cl", &[("c_t", "0.05 g/L"), ("added_as", LIQUID)]),
    ];
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap();
    is(number(&outcome, "m", "Cu", KG), 0.8 / 0.25451, 1e-3);
    assert!(number(&outcome, "c_end", "H2SO4", G_PER_L).is_nan());
    for key in ["H2SO4", "Cl"] {
        let found = outcome.findings.iter().find(|finding| finding.at == format!("c[{key}]")).unwrap();
        assert!(found.text.contains(key) && found.text.contains("no result yet"), "{}", found.text);
    }
    let none = correction(&[("class_k", "acid"), ("V_m", "200 L")], &rows[1..]).unwrap_err();
    assert!(none.todo && none.reason.contains("H2SO4 and Cl"), "{none:?}");
}

/// Nickel chloride for the chloride brings nickel too: without the chloride’s titre no amount of nickel is right.
#[test]
fn components_that_one_salt_brings_wait_for_each_other_and_say_so() {
    let rows: Rows = &[
        (TABLE, "Ni", &[("c", "70 g/L"), ("c_t", "77 g/L"), ("added_as", SOLID), ("salt", "NiSO4·6H2O")]),
        (TABLE, "Cl", &[("c_t", "12 g/L"), ("added_as", SOLID), ("salt", "NiCl2·6H2O")]),
    ];
    let stop = correction(&[("class_k", "acid"), ("V_m", "100 L")], rows).unwrap_err();
    assert!(stop.todo && stop.row == "Cl" && stop.at == Some("c"), "{stop:?}");
    assert!(stop.reason.contains("brings Ni too") && stop.reason.contains("together"), "{stop:?}");
}

#[test]
fn where_nothing_is_wanted_a_correction_asks_what_is() {
    let rows: Rows = &[(TABLE, "Cu", &[("c", "36 g/L"), ("added_as", NOTHING)])];
    let stop = correction(&[("class_k", "acid"), ("V_m", "100 L")], rows).unwrap_err();
    assert!(stop.todo && stop.at == Some("c_t") && stop.row == "Cu", "{stop:?}");
}

/// A liquid that is added for its chloride may be a strong acid: said so, it is handled as one, and kept from cyanide.
#[test]
fn acid_that_is_added_for_its_chloride_is_acid_all_the_same() {
    let rows: Rows = &[(
        TABLE,
        "Cl",
        &[
            ("c", "0.04 g/L"),
            ("c_t", "0.06 g/L"),
            ("added_as", LIQUID),
            ("s", "424 g/L"),
            ("h", "strong acid"),
        ],
    )];
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap();
    assert!(outcome.cautions.iter().any(|text| text.contains("never water into acid")));
    assert!(outcome.order.iter().any(|step| step.text.contains("never water into acid")));
    assert!(
        correction(&[("class_k", "cyanide"), ("V_m", "200 L")], rows).unwrap_err().reason.contains("acid")
    );
}

#[test]
fn what_is_on_target_takes_nothing() {
    let rows: Rows =
        &[(TABLE, "Cu", &[("c", "40 g/L"), ("c_t", "40 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")])];
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap();
    is(number(&outcome, "m", "Cu", KG), 0.0, 1e-9);
    is(number(&outcome, "V_x", "", L), 0.0, 1e-9);
}

/// By hand: 27.586 L of 200 L with 200 g/L of acid take 5517 g of it out, and 13.8 % of every additive.
#[test]
fn a_draw_off_takes_every_other_component_and_the_additives_with_it() {
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L")], LOW_COPPER).unwrap();
    is(number(&outcome, "m_off", "H2SO4", GRAM), 5517.2, 0.2);
    assert!(outcome.findings.iter().any(|f| f.text.contains("13.8") && f.text.contains("additives too")));
    assert!(outcome.cautions.iter().any(|text| text.contains("never into a rinse drain")));
}

/// sympy.solve: 60 L of 2 g/L replace 60 of 300 L to bring 12 g/L to 10; what holds 11 g/L itself never does.
#[test]
fn a_replacement_stronger_than_the_target_cannot_lower_a_bath() {
    let rows: Rows =
        &[(TABLE, "Fe", &[("c", "12 g/L"), ("c_t", "10 g/L"), ("added_as", NOTHING), ("c_f", "11 g/L")])];
    let stop = correction(&[("class_k", "acid"), ("V_m", "300 L"), ("fill", OTHER)], rows).unwrap_err();
    assert!(stop.reason.contains("Fe would still be above its target"), "{stop:?}");
}

/// sympy.solve: 38 to 40 g/L in 200 L with 65 g/L takes 14.81 L in a full tank, (S − C) below the line, and 16 L where
/// it finds room, (S − C_t).
#[test]
fn a_liquid_that_finds_room_takes_more_than_one_that_is_swapped() {
    let rows: Rows =
        &[(TABLE, "Cu", &[("c", "38 g/L"), ("c_t", "40 g/L"), ("added_as", LIQUID), ("s", "65 g/L")])];
    let full = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap();
    let room: Texts = &[("class_k", "acid"), ("V_m", "230 L"), ("V_n", "200 L"), ("end", AS_IT_COMES)];
    let room = correction(room, rows).unwrap();
    is(number(&full, "v", "Cu", L), 200.0 * 2.0 / 27.0, 1e-6);
    is(number(&room, "v", "Cu", L), 200.0 * 2.0 / 25.0, 1e-6);
}

/// 200 L, copper from 45 to 90 g/L with blue vitriol, and acid of which nothing is added.
fn much_copper(acid: Texts) -> Outcome {
    let rows: Rows = Box::leak(Box::new([
        (TABLE, "Cu", &[("c", "45 g/L"), ("c_t", "90 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")][..]),
        (TABLE, "H2SO4", acid),
    ]));
    let rows = if acid.is_empty() { &rows[..1] } else { rows };
    correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap()
}

/// Handbook tables, from memory: 20.5 g of CuSO4 dissolve in 100 g of water at 20 °C, some 80 g/L of copper; less
/// beside acid. 90 g/L cannot be stirred clear.
#[test]
fn more_copper_than_dissolves_is_no_correction() {
    for acid in [&[][..], &[("c", "180 g/L"), ("added_as", NOTHING)]] {
        let outcome = much_copper(acid);
        let found = outcome.findings.iter().find(|finding| finding.at == "c_end[Cu]").unwrap();
        assert_eq!(found.severity, crate::calculator::Severity::Caution, "{}", found.text);
        assert!(found.text.contains("more than dissolves in the corrected bath at 20 °C"), "{}", found.text);
        assert!(outcome.order.iter().all(|step| !step.text.contains("until clear")), "{:?}", outcome.order);
    }
    let low: Rows = &[
        (TABLE, "Cu", &[("c", "45 g/L"), ("c_t", "50 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")]),
        (TABLE, "H2SO4", &[("c", "100 g/L"), ("added_as", NOTHING)]),
    ];
    let usual = correction(&[("class_k", "acid"), ("V_m", "200 L")], low).unwrap();
    assert!(usual.findings.iter().all(|finding| finding.at != "c_end[Cu]"), "{:?}", usual.findings);
}

/// PHREEQC 3.8.6 with pitzer.dat (see `science::solubility`): 2 mol of acid in a kilogram of water leave 0.63 to 0.68 of
/// the 80 g/L of copper that water dissolves. What the caution says may be wanted is about that, and does dissolve.
#[test]
fn what_a_bath_that_is_too_strong_may_hold_is_told() {
    let acid: Texts = &[("c", "180 g/L"), ("added_as", NOTHING)];
    let found = much_copper(acid);
    let text = &found.findings.iter().find(|finding| finding.at == "c_end[Cu]").unwrap().text;
    let stays = text.split("no more than about ").nth(1).unwrap().split('\u{a0}').next().unwrap();
    assert!((0.5 * 80.0..0.7 * 80.0).contains(&stays.parse::<f64>().unwrap()), "{text}");
    let wanted: &'static str = Box::leak(format!("{stays} g/L").into_boxed_str());
    let cells: Texts =
        Box::leak(Box::new([("c", "40 g/L"), ("c_t", wanted), ("added_as", SOLID), ("salt", "CuSO4·5H2O")]));
    let rows: Rows = Box::leak(Box::new([(TABLE, "Cu", cells), (TABLE, "H2SO4", acid)]));
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap();
    assert!(
        outcome.findings.iter().all(|f| !f.text.contains("more than dissolves")),
        "{:?}",
        outcome.findings
    );
}

/// By hand: 9 kg of copper are 35.4 kg of CuSO4·5H2O, which take half of that in litres (common practice, no source).
#[test]
fn crystals_need_room_in_a_full_tank() {
    let full = much_copper(&[]);
    let said = |outcome: &Outcome| {
        outcome.findings.iter().find(|finding| finding.at == "V_w").map(|finding| finding.text.clone())
    };
    let text = said(&full).unwrap().replace('\u{a0}', " ");
    assert!(text.contains("17.7 L") && text.contains("no source"), "{text}");
    let rows: Rows =
        &[(TABLE, "Cu", &[("c", "45 g/L"), ("c_t", "60 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")])];
    let inputs: Texts = &[("class_k", "acid"), ("V_m", "200 L"), ("draw", FIXED), ("V_t", "20 L")];
    assert_eq!(said(&correction(inputs, rows).unwrap()), None);
    let little: Rows =
        &[(TABLE, "Cu", &[("c", "45 g/L"), ("c_t", "47 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")])];
    assert_eq!(said(&correction(&[("class_k", "acid"), ("V_m", "200 L")], little).unwrap()), None);
}

/// Common practice: water first, acid into the water, salts into the thin bath, and then to the mark; what the crystals
/// take is not filled up twice.
#[test]
fn water_goes_in_first_and_the_mark_comes_last() {
    let rows: Rows = &[
        (TABLE, "Cu", &[("c", "42 g/L"), ("c_t", "50 g/L"), ("added_as", SOLID), ("salt", "CuSO4·5H2O")]),
        (TABLE, "H2SO4", &[("c", "130 g/L"), ("c_t", "100 g/L"), ("added_as", LIQUID), ("s", "1766.4 g/L")]),
        (TABLE, "CH4O3S", &[("c", "10 g/L"), ("c_t", "12 g/L"), ("added_as", LIQUID), ("s", "945 g/L")]),
    ];
    let outcome = correction(&[("class_k", "acid"), ("V_m", "200 L")], rows).unwrap();
    let at = |words: &str| {
        outcome.order.iter().position(|step| step.text.contains(words)).unwrap_or_else(|| panic!("{words}"))
    };
    let steps =
        ["Draw off", "Most of DI water", "Liquid for CH4O3S", "CuSO4·5H2O", "at most", "analyse again"];
    let found = steps.map(at);
    assert!(found.is_sorted(), "{found:?}");
    let amount = |words: &str| outcome.order[at(words)].amount.unwrap().0;
    let (first, last) = (amount("Most of"), amount("at most"));
    is(L.from_si(first + last), number(&outcome, "V_w", "", L), 1e-9);
    // Half a litre for each of the 13.9 kg of crystals is kept free of water.
    assert!(L.from_si(last) >= 0.5 * number(&outcome, "m", "Cu", KG) - 1e-9);
    assert!(outcome.order[at("Draw off")].text.contains("the route for what is acid"));
}

/// Common practice: the gold salt goes in last, into a bath whose other salts are in.
#[test]
fn the_gold_salt_goes_in_last() {
    let rows: Rows = &[
        (TABLE, "Au", &[("c", "8 g/L"), ("c_t", "10 g/L"), ("added_as", SOLID), ("salt", "KAu(CN)2")]),
        (
            TABLE,
            "K3C6H5O7",
            &[("c", "80 g/L"), ("c_t", "100 g/L"), ("added_as", SOLID), ("salt", "K3C6H5O7")],
        ),
    ];
    let outcome = correction(&[("class_k", "cyanide"), ("V_m", "100 L")], rows).unwrap();
    let rows: Vec<_> = outcome.order.iter().filter_map(|step| step.row.as_deref()).collect();
    assert_eq!(rows, ["K3C6H5O7", "Au"]);
}

/// From memory: what a concentrate brings besides may be what must not come into the bath, so a name that says
/// nothing is not passed over.
#[test]
fn what_a_liquid_brings_besides_is_a_component_or_a_formula() {
    let with = |also: &'static str| {
        let cells: Texts = Box::leak(Box::new([
            ("c", "36 g/L"),
            ("c_t", "40 g/L"),
            ("added_as", LIQUID),
            ("s", "65 g/L"),
            ("also", also),
        ]));
        let rows: Rows = Box::leak(Box::new([(TABLE, "Cu", cells), (TABLE, "Acid", &[("c", "180 g/L")])]));
        correction(&[("class_k", "acid"), ("V_m", "200 L")], rows)
    };
    let stop = with("the usual").unwrap_err();
    assert_eq!((stop.at, &*stop.row), (Some("also"), "Cu"));
    assert!(stop.text().contains("“the usual” is no component of this list"), "{}", stop.text());
    for known in ["", "Acid", "H2SO4"] {
        assert!(with(known).is_ok(), "{known}");
    }
    // And what is told by its formula is held against the bath.
    assert!(with("KCN").is_err());
}
