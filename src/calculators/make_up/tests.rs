//! What a make-up gives, and what it refuses.

use super::*;
use crate::calculator::{Depth, Outcome, Severity, Stop, Texts};
use crate::units::{Style, Unit};

type Bath = (Texts, Rows, &'static [(&'static str, f64)]);
pub(super) type Rows = &'static [(&'static str, &'static str, Texts)];

/// What stands where a test types nothing else.
const USUAL: Texts = &[("V_t", "200 L"), ("class", "acid")];

pub(super) fn make_up(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    let inputs: &'static _ = Box::leak([USUAL, inputs].concat().into_boxed_slice());
    CALCULATOR.tried(inputs, rows)
}

pub(super) fn number(outcome: &Outcome, symbol: &str, key: &str, unit: &Unit) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    let row = outcome.answers[port.table].iter().find(|(known, _)| &**known == key).unwrap();
    unit.from_si(row.1[port.column])
}

/// The acid copper bath that every line knows: 40 g/L of copper, 120 g/L of acid, 60 mg/L of chloride.
const COPPER: Rows = &[
    (TABLE, "Copper sulfate", &[("c_m", "40 g/L"), ("p", "99 %")]),
    (
        TABLE,
        "Sulfuric acid",
        &[
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::SUBSTANCE),
            ("c_s", "120 g/L"),
            ("w", "96 %"),
            ("ρ_k", "1.8360 kg/L"),
        ],
    ),
    (
        TABLE,
        "Hydrochloric acid",
        &[
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::ION),
            ("species", "Cl"),
            ("c_i", "60 mg/L"),
            ("w", "37 %"),
            ("ρ_k", "1.1840 kg/L"),
        ],
    ),
    (TABLE, "Suppressor", &[("supply", Supply::DOSE), ("d", "10 mL/L"), ("ρ_k", "1.02 kg/L")]),
    (TABLE, "Brightener", &[("supply", Supply::DOSE), ("d", "2 mL/L"), ("ρ_k", "1.00 kg/L")]),
];

const FROM_CONCENTRATE: Rows = &[
    (
        TABLE,
        "Copper sulfate",
        &[
            ("supply", Supply::BY_METAL),
            ("c_m", "50 g/L"),
            ("k_m", "70 g/L"),
            ("ρ_k", "1.18 kg/L"),
            ("carries", "H2SO4"),
            ("k_c", "10 g/L"),
        ],
    ),
    (
        TABLE,
        "Sulfuric acid",
        &[
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::SUBSTANCE),
            ("c_s", "100 g/L"),
            ("w", "50 %"),
            ("ρ_k", "1.3950 kg/L"),
        ],
    ),
    (
        TABLE,
        "Hydrochloric acid",
        &[
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::ION),
            ("species", "Cl"),
            ("c_i", "50 mg/L"),
            ("w", "10 %"),
            ("ρ_k", "1.0470 kg/L"),
        ],
    ),
    (TABLE, "Suppressor", &[("supply", Supply::DOSE), ("d", "12 mL/L"), ("ρ_k", "1.02 kg/L")]),
    (TABLE, "Brightener", &[("supply", Supply::DOSE), ("d", "4.2 mL/L")]),
    (TABLE, "Leveller", &[("supply", Supply::DOSE), ("d", "6 mL/L")]),
];

const NICKEL: Rows = &[
    (
        TABLE,
        "Nickel concentrate",
        &[
            ("supply", Supply::BY_METAL),
            ("species", "Ni"),
            ("c_m", "80 g/L"),
            ("k_m", "180 g/L"),
            ("ρ_k", "1.54 kg/L"),
        ],
    ),
    (TABLE, "Boric acid", &[("wanted", Wanted::SUBSTANCE), ("c_s", "40 g/L"), ("p", "99.5 %")]),
    (TABLE, "Nickel chloride", &[("wanted", Wanted::SUBSTANCE), ("c_s", "8 g/L"), ("p", "98 %")]),
    (TABLE, "Wetting agent", &[("supply", Supply::DOSE), ("d", "3 mL/L")]),
];

const GOLD: Rows = &[
    (
        TABLE,
        "Gold sulfite concentrate",
        &[
            ("supply", Supply::BY_METAL),
            ("species", "gold"),
            ("c_m", "12 g/L"),
            ("k_m", "100 g/L"),
            ("ρ_k", "1.22 kg/L"),
        ],
    ),
    (TABLE, "Sodium sulfite", &[("wanted", Wanted::SUBSTANCE), ("c_s", "50 g/L"), ("p", "98 %")]),
];

const TIN_SILVER: Rows = &[
    (
        TABLE,
        "Tin methanesulfonate",
        &[
            ("supply", Supply::BY_METAL),
            ("c_m", "60 g/L"),
            ("k_m", "300 g/L"),
            ("ρ_k", "1.55 kg/L"),
            ("carries", "CH4O3S"),
            ("k_c", "40 g/L"),
        ],
    ),
    (
        TABLE,
        "Silver methanesulfonate",
        &[
            ("supply", Supply::BY_METAL),
            ("c_m", "0.9 g/L"),
            ("k_m", "50 g/L"),
            ("ρ_k", "1.12 kg/L"),
            ("carries", "CH4O3S"),
            ("k_c", "60 g/L"),
        ],
    ),
    (
        TABLE,
        "Methanesulfonic acid",
        &[
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::SUBSTANCE),
            ("c_s", "120 g/L"),
            ("w", "70 %"),
            ("ρ_k", "1.35 kg/L"),
        ],
    ),
    (TABLE, "Carrier", &[("supply", Supply::DOSE), ("d", "38 mL/L"), ("ρ_k", "1.03 kg/L")]),
];

#[test]
fn mass_is_conserved_and_every_metal_arrives() {
    let baths: &[Bath] = &[
        (&[("V_t", "40 L"), ("T_m", "25 °C")], COPPER, &[("Cu", 40.0)]),
        (&[("V_t", "250 L"), ("T_m", "25 °C")], FROM_CONCENTRATE, &[("Cu", 50.0)]),
        (&[("V_t", "80 L"), ("by", ADDED)], NICKEL, &[("Ni", 81.975)]),
        (&[("V_t", "60 L"), ("by", ADDED), ("class", "sulfite")], GOLD, &[("Au", 12.0)]),
        (&[("V_t", "200 L"), ("by", ADDED)], TIN_SILVER, &[("Sn", 60.0), ("Ag", 0.9)]),
    ];
    for (inputs, rows, metals) in baths {
        let bath = make_up(inputs, rows).unwrap_or_else(|stop| panic!("{stop:?}"));
        let added: f64 = rows.iter().map(|(_, key, _)| number(&bath, "m", key, KG)).sum();
        let (whole, water) = (number(&bath, "m_bath", "", KG), number(&bath, "m_w", "", KG));
        assert!((added + water - whole).abs() < 1e-9 * whole);
        for (metal, expected) in *metals {
            // Nickel: 8 g/L of NiCl2·6H2O bring 1.975 g/L more (molmass: 0.2469 of it is nickel).
            let c = number(&bath, "c_M", metal, G_PER_L_METAL);
            assert!((c / expected - 1.0).abs() < 2e-4, "{metal} {c}");
        }
        assert!(bath.order.len() >= rows.len() + 3);
    }
}

#[test]
fn acid_of_a_concentrate_is_taken_off_the_acid_to_add() {
    let bath = make_up(&[("V_t", "250 L"), ("T_m", "25 °C")], FROM_CONCENTRATE).unwrap();
    // By hand: 250 L × 50/70 = 178.571 L bring 1.7857 kg; 25 − 1.7857 = 23.214 kg, /0.5/1.395 = 33.282 L.
    assert!((number(&bath, "v", "Copper sulfate", L) / 178.571 - 1.0).abs() < 1e-5);
    assert!((number(&bath, "v", "Sulfuric acid", L) / 33.282 - 1.0).abs() < 1e-4);
    // Felder, table B.11: 23 kg of acid from 50 % into some 60 kg of water stays below 20 K.
    assert!((2.0..20.0).contains(&number(&bath, "ΔT", "", KELVINS)));
}

#[test]
fn acid_goes_into_water_before_salts_chloride_and_additives() {
    let bath = make_up(&[("V_t", "40 L"), ("T_m", "25 °C")], COPPER).unwrap();
    let rows: Vec<_> = bath.order.iter().filter_map(|step| step.row.as_deref()).collect();
    assert_eq!(rows, ["Sulfuric acid", "Copper sulfate", "Hydrochloric acid", "Suppressor", "Brightener"]);
    assert!(bath.order.first().is_some_and(|step| step.text.starts_with("Water")));
    assert!(bath.cautions.iter().any(|text| text.contains("never water into acid")));
    let halves = make_up(&[("V_t", "40 L"), ("T_m", "25 °C"), ("V_b", "20 L")], COPPER).unwrap();
    assert!(
        (number(&halves, "m_b", "Copper sulfate", KG) * 2.0 - number(&halves, "m", "Copper sulfate", KG))
            .abs()
            < 1e-9
    );
    assert!(halves.order.iter().any(|step| step.text.contains("for each batch")));
}

#[test]
fn what_was_added_gives_what_is_reached() {
    let rows: Rows = &[(
        TABLE,
        "Copper sulfate",
        &[
            ("c_m", "40 g/L"),
            // molmass: 0.2545 of it is copper, so 5 kg bring 1.2726 kg to 40 L.
            ("added", "5 kg"),
        ],
    )];
    let bath = make_up(&[("V_t", "40 L")], rows).unwrap();
    assert!((number(&bath, "c_m_got", "Copper sulfate", G_PER_L_METAL) / 31.81 - 1.0).abs() < 5e-4);
    assert!(bath.findings.iter().any(|finding| finding.at == "added[Copper sulfate]"));
}

pub(super) fn refused(inputs: Texts, rows: Rows) -> Stop {
    make_up(inputs, rows).map(|outcome| panic!("{outcome:?}")).unwrap_err()
}

/// EPA-600/2-80-076, chart: cyanides with acids give toxic gas. Silver chloride: OpenStax, appendix J.
#[test]
fn what_must_never_meet_is_refused() {
    let with_acid: Rows = &[
        (TABLE, "Gold salt", &[("formula", "KAu(CN)2"), ("c_m", "8 g/L")]),
        (
            TABLE,
            "Sulfuric acid",
            &[("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("c_s", "10 g/L"), ("w", "50 %")],
        ),
    ];
    let classes: [Texts; 4] =
        [&[("class", "acid")], &[("class", "cyanide")], &[("class", "alkaline")], &[("class", "unknown")]];
    for class in classes {
        let stop = refused(class, with_acid);
        assert!(stop.reason.contains("hydrogen cyanide"), "{stop:?}");
    }
    let cyanide_alone: Rows = &[(TABLE, "Gold salt", &[("formula", "KAu(CN)2"), ("c_m", "8 g/L")])];
    assert_eq!(refused(&[("class", "acid")], cyanide_alone).at, Some("class"));
    let by_name: Rows = &[
        (TABLE, "Silver cyanide", &[("formula", "AgNO3"), ("c_m", "8 g/L")]),
        (TABLE, "Citric acid", &[("wanted", Wanted::SUBSTANCE), ("c_s", "8 g/L")]),
    ];
    assert!(refused(&[("class", "cyanide")], by_name).reason.contains("never meet"));
    let sulfite: Rows = &[(
        TABLE,
        "Sulfuric acid",
        &[("supply", Supply::BY_MOL), ("C_n", "0.1"), ("C_k", "1"), ("wanted", Wanted::AMOUNT)],
    )];
    assert!(refused(&[("class", "sulfite")], sulfite).reason.contains("sulfur dioxide"));
    let nitric: Rows = &[(TABLE, "Nitric acid", &[("supply", Supply::BY_MOL), ("wanted", Wanted::AMOUNT)])];
    assert!(refused(&[("class", "solvent")], nitric).reason.contains("fire"));
    let silver: Rows = &[
        (TABLE, "Silver salt", &[("formula", "AgNO3"), ("c_m", "1 g/L")]),
        (TABLE, "Sodium chloride", &[("wanted", Wanted::SUBSTANCE), ("c_s", "0.1 g/L")]),
    ];
    assert!(refused(&[], silver).reason.contains("silver chloride"));
}

#[test]
fn what_cannot_be_made_is_refused_with_a_remedy() {
    let too_much: Rows = &[(TABLE, "Copper sulfate", &[("c_m", "100 g/L")])];
    // About 320 g/L dissolve at 20 °C (from memory); 100 g/L of copper would be 393 g/L.
    assert!(refused(&[("by", TYPED), ("ρ_typed", "1.2")], too_much).reason.contains("dissolve"));
    let unread: Rows = &[(TABLE, "Salt", &[("formula", "CuSO4·5H2")])];
    assert_eq!(refused(&[], &[(TABLE, "Salt", &[("formula", "Cu(SO4")])]).at, Some("formula"));
    assert!(refused(&[], unread).todo, "it reads, and no amount is typed");
    let above: Rows = &[(
        TABLE,
        "Acid",
        &[
            ("formula", "H2SO4"),
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::SUBSTANCE),
            ("c_s", "200 g/L"),
            ("w", "10 %"),
        ],
    )];
    assert!(refused(&[], above).reason.contains("above the strength"));
    let full: Rows = &[
        (TABLE, "A", &[("supply", Supply::DOSE), ("d", "700 mL/L")]),
        (TABLE, "B", &[("supply", Supply::DOSE), ("d", "700 mL/L")]),
    ];
    assert!(refused(&[("by", ADDED)], full).reason.contains("no room"));
    let absent: Rows = &[(TABLE, "Copper sulfate", &[("species", "Ni"), ("c_m", "10 g/L")])];
    assert!(refused(&[], absent).reason.contains("contains no Ni"));
}

/// A name that is offered leads to a row that asks, and never to a refusal.
#[test]
fn a_name_that_is_offered_asks_for_what_is_wanted_first() {
    for (name, cells) in words::NAMES.iter().map(|name| {
        (name, words::PRESETS.iter().find(|(known, _)| known == name).map_or(&[][..], |(_, cells)| cells))
    }) {
        let rows: Rows = Box::leak(Box::new([(TABLE, *name, cells)]));
        let stop = refused(&[], rows);
        assert!(stop.todo && stop.row == *name, "{name}: {stop:?}");
    }
}

/// By hand: 200 L of 80 g/L from 180 g/L of nickel are 88.889 L of 1.54 kg/L; the rest is water, 0.9982 kg/L.
#[test]
fn a_salt_that_the_model_does_not_know_is_made_up_by_volumes_and_that_is_said() {
    let cells: Texts = &[
        ("formula", "Ni(SO3NH2)2"),
        ("species", "Ni"),
        ("supply", Supply::BY_METAL),
        ("k_m", "180 g/L"),
        ("c_m", "80 g/L"),
    ];
    let asked = refused(&[], Box::leak(Box::new([(TABLE, "Nickel sulfamate", cells)])));
    assert!(asked.todo && asked.at == Some("ρ_k") && asked.row == "Nickel sulfamate", "{asked:?}");
    let cells: Texts = Box::leak([cells, &[("ρ_k", "1.54 kg/L")]].concat().into_boxed_slice());
    let bath = make_up(&[], Box::leak(Box::new([(TABLE, "Nickel sulfamate", cells)]))).unwrap();
    let expected = (88.889 * 1.54 + (200.0 - 88.889) * 0.99821) / 200.0;
    assert!((number(&bath, "ρ", "", KG_PER_L) / expected - 1.0).abs() < 1e-5);
    let found = bath.findings.iter().find(|finding| finding.at == "ρ").unwrap();
    for said in ["does not know Ni(SO3NH2)2", "an estimate from volumes added up"] {
        assert!(found.text.contains(said), "{}", found.text);
    }
}

/// Boric acid goes in before the metal salts, and warm (common practice, from memory).
#[test]
fn boric_acid_goes_in_before_the_metal_salts_and_each_step_says_what_to_take() {
    let bath = make_up(&[("V_t", "80 L")], NICKEL).unwrap();
    let rows: Vec<_> = bath.order.iter().filter_map(|step| step.row.as_deref()).collect();
    assert_eq!(rows, ["Boric acid", "Nickel concentrate", "Nickel chloride", "Wetting agent"]);
    let texts: Vec<_> = bath.order.iter().map(|step| step.text.replace('\u{a0}', " ")).collect();
    for text in [
        "Boric acid, H3BO3, 99.5 %, for 40 g/L: in portions; usually warm, in part of the water. Stir until clear.",
        "Nickel concentrate, 180 g/L of Ni, for 80 g/L of Ni: slowly, stirring.",
        "Nickel chloride, NiCl2·6H2O, 98 %, for 8 g/L: in portions; stir until clear before the next.",
        "Wetting agent, for 3 mL/L: last of the ingredients.",
    ] {
        assert!(texts.iter().any(|known| known == text), "{text}: {texts:#?}");
    }
    let acid = make_up(&[("V_t", "40 L")], COPPER).unwrap();
    let step = |row: &str| {
        let step = acid.order.iter().find(|step| step.row.as_deref() == Some(row)).unwrap();
        step.text.replace('\u{a0}', " ")
    };
    assert!(step("Copper sulfate").starts_with("Copper sulfate, CuSO4·5H2O, 99 %, for 40 g/L of Cu: "));
    assert!(
        step("Hydrochloric acid").starts_with("Hydrochloric acid, HCl, 37 %, for 0.06 g/L of Cl: ")
            || step("Hydrochloric acid").starts_with("Hydrochloric acid, HCl, 37 %, for 60 mg/L of Cl: ")
    );
    let much: Rows = &[(TABLE, "Boric acid", &[("wanted", Wanted::SUBSTANCE), ("c_s", "40 g/L")])];
    let bath = make_up(&[], much).unwrap();
    assert!(bath.findings.iter().any(|finding| finding.text.contains("usually dissolved warm")));
}

#[test]
fn strong_acid_in_little_water_is_a_stop_or_refused() {
    let rows: Rows = &[(
        TABLE,
        "Sulfuric acid",
        &[("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("c_s", "500 g/L"), ("w", "96 %")],
    )];
    match make_up(&[("V_t", "100 L")], rows) {
        Ok(bath) => {
            assert!(bath.findings.iter().any(|f| f.severity == Severity::Serious), "{:?}", bath.findings)
        }
        Err(stop) => assert!(stop.reason.contains("boil")),
    }
}

/// What only this plant knows is asked for: no answer is given for a tank that nobody described.
#[test]
fn a_tank_that_nobody_measured_has_no_answer() {
    let stop = CALCULATOR.evaluate(&CALCULATOR.defaults(), &Style::default(), Depth::Findings).unwrap_err();
    assert!(stop.todo && stop.at == Some("V_t") && stop.reason.contains("filled to the mark"), "{stop:?}");
}

/// 20.5 g of CuSO4, as 32 g of blue vitriol, dissolve in 100 g of water at 20 °C, its own water counted (handbook
/// tables, from memory). 60 g/L of copper are 236 g/L of it: more than 65 % of the water takes, and less than all does.
#[test]
fn a_salt_that_all_the_water_dissolves_may_be_too_much_for_the_first() {
    let rows: Rows = &[(TABLE, "Copper sulfate", &[("c_m", "60 g/L")])];
    let bath = make_up(&[("by", TYPED), ("ρ_typed", "1.14 kg/L")], rows).unwrap();
    let found = bath.findings.iter().find(|finding| finding.at == "s_1[Copper sulfate]").unwrap();
    assert_eq!(found.severity, Severity::Caution);
    assert!(found.text.contains("does not all dissolve in the first water at 20 °C"), "{}", found.text);
    // By hand: 200 L × 60 g/L / 0.2545 = 47.15 kg of salt, 36.1 % of it water; 228 − 47.15 = 180.85 kg of water,
    // 117.55 of it first.
    let share = number(&bath, "s_1", "Copper sulfate", PERCENT);
    let dissolves = 0.3207 * (117.55 + 0.3608 * 47.15);
    assert!((share / (100.0 * 47.15 / dissolves) - 1.0).abs() < 1e-3, "{share}");
    let more = make_up(&[("by", TYPED), ("ρ_typed", "1.14 kg/L"), ("f_1", "90 %")], rows).unwrap();
    assert!(more.findings.iter().all(|finding| !finding.at.starts_with("s_1")));
}

/// 45 °C burns skin (common practice): it is noted before plastics soften at 60.
#[test]
fn a_bath_that_gets_warm_on_mixing_says_so_beside_its_headline() {
    assert!(CALCULATOR.outputs.iter().any(|output| output.symbol == "T_mix" && output.beside));
    let severity = |strength: &'static str| {
        let row: Texts = Box::leak(Box::new([
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::SUBSTANCE),
            ("c_s", strength),
            ("w", "96 %"),
        ]));
        let rows: Rows = Box::leak(Box::new([(TABLE, "Sulfuric acid", row)]));
        let bath = make_up(&[], rows).unwrap();
        let found =
            bath.findings.iter().find(|finding| finding.at == "T_mix").map(|finding| finding.severity);
        (number(&bath, "T_mix", "", CELSIUS), found)
    };
    for strength in ["20 g/L", "120 g/L", "180 g/L", "260 g/L"] {
        let (reached, found) = severity(strength);
        let expected = match reached {
            ..45.0 => None,
            ..60.0 => Some(Severity::Note),
            _ => Some(Severity::Caution),
        };
        assert_eq!(found, expected, "{strength}: {reached} °C");
    }
    assert_eq!(
        (severity("120 g/L").1, severity("260 g/L").1),
        (Some(Severity::Note), Some(Severity::Caution))
    );
}

/// 5 kg of blue vitriol hold 1.2725 kg of copper (molmass 2026.1.8: 0.2545048 of it): 31.81 g/L in 40 L.
#[test]
fn what_was_really_added_is_the_metal_that_the_streams_take() {
    let added: Rows = &[
        (TABLE, "Copper sulfate", &[("c_m", "40 g/L"), ("added", "5 kg")]),
        (TABLE, "Additive", &[("supply", Supply::DOSE), ("d", "5 mL/L")]),
    ];
    let bath = make_up(&[("V_t", "40 L")], added).unwrap();
    let c = |symbol| number(&bath, symbol, "Cu", G_PER_L_METAL);
    assert!((c("c_M") / 31.813 - 1.0).abs() < 4e-4, "{}", c("c_M"));
    assert!((c("c_M_want") / 40.0 - 1.0).abs() < 4e-4);
    assert!(bath.findings.iter().any(|finding| finding.at == "c_M[Cu]" && finding.text.contains("added")));
    // A second salt of the same metal that is not weighed in yet: what is wanted still counts.
    let part: Rows = &[
        (TABLE, "Copper sulfate", &[("c_m", "40 g/L"), ("added", "5 kg")]),
        (
            TABLE,
            "Copper chloride",
            &[("formula", "CuCl2·2H2O"), ("wanted", Wanted::SUBSTANCE), ("c_s", "0.2 g/L")],
        ),
    ];
    let bath = make_up(&[("V_t", "40 L"), ("by", ADDED)], part).unwrap();
    assert!(number(&bath, "c_M", "Cu", G_PER_L_METAL) > 40.0);
    assert!(bath.findings.iter().any(|finding| finding.text.contains("counts until then")));
}

/// Standard atomic weights: Cu 63.546; CuSO4·5H2O 249.68 g/mol.
#[test]
fn the_share_of_metal_shows_its_molar_masses() {
    let bath = make_up(&[], &[(TABLE, "Copper sulfate", &[("c_m", "40 g/L")])]).unwrap();
    let line = bath.lines.iter().find(|line| line.symbol == "x[Copper sulfate]").unwrap();
    assert_eq!(line.shown.formula, "M(Cu)/M(CuSO4·5H2O)");
    assert!(
        line.shown.numbers.contains("63.5") && line.shown.numbers.contains("250"),
        "{}",
        line.shown.numbers
    );
}

/// 40 g/L of copper with an amount of acid in 280 L, and `f_1` of the water first.
fn copper_in_acid(acid: &'static str, first: &'static str) -> Outcome {
    let acid: Texts = Box::leak(Box::new([
        ("supply", Supply::BY_MASS),
        ("wanted", Wanted::SUBSTANCE),
        ("c_s", acid),
        ("w", "96 %"),
    ]));
    let rows: Rows = Box::leak(Box::new([
        (TABLE, "Copper sulfate", &[("c_m", "40 g/L")][..]),
        (TABLE, "Sulfuric acid", acid),
    ]));
    let first: Texts = Box::leak(Box::new([("V_t", "280 L"), ("f_1", first)]));
    make_up(first, rows).unwrap()
}

fn severity_of(bath: &Outcome, at: &str) -> Option<Severity> {
    bath.findings.iter().find(|finding| finding.at == at).map(|finding| finding.severity)
}

/// By hand: 44.0 kg of CuSO4·5H2O with 50.4 kg of acid. 65 % of the water is 156 kg, with 2.1 of the acid and 15.9
/// of the salt 174 kg: at 20 °C that dissolves 0.3207·exp(−2.24·50.4/174) = 0.168 kg for each kg, 29 kg in all.
#[test]
fn copper_sulfate_beside_much_acid_may_crystallise_when_the_first_water_cools() {
    let bath = copper_in_acid("180 g/L", "65 %");
    let share = number(&bath, "s_c", "Copper sulfate", PERCENT);
    assert!((share - 100.0 * 44.0 / 29.2).abs() < 2.0, "{share}");
    assert_eq!(severity_of(&bath, "s_c[Copper sulfate]"), Some(Severity::Caution));
    let text = &bath.findings.iter().find(|finding| finding.at == "s_c[Copper sulfate]").unwrap().text;
    for said in ["crystallises", "keep it warm", "more of the water"] {
        assert!(text.contains(said), "{text}");
    }
    // More of the water first, or less acid, and it stays in solution.
    assert_eq!(severity_of(&copper_in_acid("180 g/L", "95 %"), "s_c[Copper sulfate]"), None);
    assert_eq!(severity_of(&copper_in_acid("10 g/L", "65 %"), "s_c[Copper sulfate]"), None);
}

/// The same bath holds less copper the more acid it holds: 40 g/L stay in solution beside 180 g/L of acid at 20 °C,
/// and not surely beside 250 (fitted to PHREEQC with pitzer.dat, as in `science::solubility`).
#[test]
fn the_finished_bath_may_crystallise_when_cold_if_it_holds_much_acid() {
    let at = "m[Copper sulfate]";
    assert_eq!(severity_of(&copper_in_acid("100 g/L", "80 %"), at), None);
    assert_eq!(severity_of(&copper_in_acid("250 g/L", "80 %"), at), Some(Severity::Note));
    let rows: Rows = &[
        (TABLE, "Copper sulfate", &[("c_m", "55 g/L")]),
        (
            TABLE,
            "Sulfuric acid",
            &[("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("c_s", "250 g/L"), ("w", "96 %")],
        ),
    ];
    assert_eq!(severity_of(&make_up(&[("by", ADDED)], rows).unwrap(), at), Some(Severity::Caution));
}

/// Common practice: a bath that is hot from the acid is filled up nearly to the mark before it is cooled, so that
/// nothing crystallises, and to the mark when it is cold, as the mark is meant there.
#[test]
fn most_of_the_water_goes_in_before_a_hot_bath_is_cooled_and_the_last_of_it_after() {
    let bath = make_up(&[("V_t", "40 L"), ("T_m", "25 °C")], COPPER).unwrap();
    let at = |words: &str| bath.order.iter().position(|step| step.text.contains(words)).unwrap();
    let steps =
        ["Water at", "Sulfuric acid", "Copper sulfate", "Most of the rest", "Cool to", "Hydrochloric"];
    let found: Vec<_> = steps.into_iter().chain(["Suppressor", "to the mark"]).map(at).collect();
    assert!(found.is_sorted(), "{found:?}");
    let water = |words: &str| bath.order[at(words)].amount.unwrap().0;
    let all = number(&bath, "m_w", "", KG);
    let sum = water("Water at") + water("Most of the rest") + water("to the mark");
    assert!((sum / all - 1.0).abs() < 1e-9 && (water("to the mark") / all - 0.03).abs() < 1e-9);
    // Nothing warms a bath of salts alone: there the last water comes last.
    let cool = make_up(&[], &[(TABLE, "Copper sulfate", &[("c_m", "20 g/L")])]).unwrap();
    assert!(cool.order.iter().all(|step| !step.text.contains("Cool to") && !step.text.contains("Most of")));
}

/// Nickel sulfate in acid is not known here: near its limit in water that is said (from memory: 650 g/L).
#[test]
fn where_the_acid_is_not_counted_a_limit_says_less_in_acid() {
    let rows: Rows = &[
        (TABLE, "Nickel sulfate", &[("c_m", "110 g/L")]),
        (
            TABLE,
            "Sulfuric acid",
            &[("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("c_s", "30 g/L"), ("w", "96 %")],
        ),
    ];
    let bath = make_up(&[("by", TYPED), ("ρ_typed", "1.26 kg/L")], rows).unwrap();
    assert!(bath.findings.iter().any(|f| f.text.contains("less in acid")), "{:?}", bath.findings);
    let alone = make_up(&[("by", TYPED), ("ρ_typed", "1.24 kg/L")], &rows[..1]).unwrap();
    assert!(alone.findings.iter().all(|f| !f.text.contains("acid")), "{:?}", alone.findings);
}

const MUCH_COPPER_AND_ACID: Rows = &[
    (TABLE, "Copper sulfate", &[("c_m", "57 g/L")]),
    (
        TABLE,
        "Sulfuric acid",
        &[("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("c_s", "256 g/L"), ("w", "96 %")],
    ),
];

/// A bath that is not made yet cannot be weighed; what does not dissolve is told before any density is typed. By hand:
/// 224 g of blue vitriol and 256 g of acid in a litre leave some 0.83 kg of water, in which 0.3207·exp(−2.24·0.31)
/// = 160 g for each kilogram stay dissolved.
#[test]
fn more_copper_sulfate_than_dissolves_beside_acid_is_told_even_where_no_density_is_known() {
    let stop = refused(&[], MUCH_COPPER_AND_ACID);
    assert!(stop.remedy.contains(ADDED) && !stop.remedy.contains("measured"), "{stop:?}");
    assert!(
        stop.reason.contains("more than dissolves") && stop.reason.contains("g of CuSO4·5H2O"),
        "{stop:?}"
    );
    let bath = make_up(&[("by", ADDED)], MUCH_COPPER_AND_ACID).unwrap();
    let found = bath.findings.iter().find(|finding| finding.at == "m[Copper sulfate]").unwrap();
    assert_eq!(found.severity, Severity::Caution);
    assert!(found.text.contains("g of CuSO4·5H2O for each kilogram of water"), "{}", found.text);
    let step = bath.order.iter().find(|step| step.row.as_deref() == Some("Copper sulfate")).unwrap();
    assert!(step.text.contains("more than stays dissolved"), "{}", step.text);
    assert!(bath.order.iter().all(|step| !step.text.contains("until clear")), "{:?}", bath.order);
    // Too much acid alone ends the model too, and nothing crystallises there.
    let thin: Rows = &[
        (TABLE, "Copper sulfate", &[("c_m", "8 g/L")]),
        (
            TABLE,
            "Sulfuric acid",
            &[("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("c_s", "350 g/L"), ("w", "96 %")],
        ),
    ];
    let stop = refused(&[], thin);
    assert!(stop.remedy.contains(ADDED) && !stop.reason.contains("more than"), "{stop:?}");
}

/// Common practice, from memory: the salts that conduct and hold the pH, then the pH, then the gold; no acid after it.
#[test]
fn the_salt_of_a_precious_metal_goes_in_last() {
    let rows: Rows = &[
        (TABLE, "Potassium gold cyanide", &[("formula", "KAu(CN)2"), ("species", "Au"), ("c_m", "10 g/L")]),
        (
            TABLE,
            "Potassium citrate",
            &[("formula", "K3C6H5O7"), ("wanted", Wanted::SUBSTANCE), ("c_s", "100 g/L")],
        ),
        (TABLE, "Brightener", &[("supply", Supply::DOSE), ("d", "5 mL/L")]),
    ];
    let bath = make_up(&[("class", "cyanide"), ("by", ADDED)], rows).unwrap();
    let at = |words: &str| bath.order.iter().position(|step| step.text.contains(words)).unwrap();
    let steps = ["Potassium citrate", "Brightener", "set it now", "Potassium gold cyanide", "to the mark"];
    assert!(steps.map(at).is_sorted(), "{:?}", bath.order);
    assert!(bath.order[at("set it now")].text.contains("No acid once the cyanide is in"));
    // Where cyanide is in already no step speaks of setting the pH.
    let silver: Rows = &[
        (TABLE, "Potassium silver cyanide", &[("formula", "KAg(CN)2"), ("species", "Ag"), ("c_m", "30 g/L")]),
        (
            TABLE,
            "Potassium cyanide",
            &[("formula", "KCN"), ("wanted", Wanted::SUBSTANCE), ("c_s", "100 g/L")],
        ),
    ];
    let bath = make_up(&[("class", "cyanide"), ("by", ADDED)], silver).unwrap();
    let rows: Vec<_> = bath.order.iter().filter_map(|step| step.row.as_deref()).collect();
    assert_eq!(rows, ["Potassium cyanide", "Potassium silver cyanide"]);
    assert!(bath.order.iter().all(|step| !step.text.contains("set it now")));
}

#[test]
fn a_bath_without_an_ingredient_asks_for_one_unless_it_is_water() {
    let nothing = make_up(&[], &[]).unwrap();
    assert!(nothing.order.is_empty());
    assert!(nothing.findings.iter().any(|finding| finding.text.contains("add one")));
    let water = make_up(&[("recipe", recipes::WATER_ONLY)], &[]).unwrap();
    assert!(water.findings.is_empty() && !water.order.is_empty(), "{:?}", water.findings);
}

/// Common practice: nickel with boric acid is run on its pH, strong acid copper is not, and a dip of acid plates nothing.
#[test]
fn a_bath_says_whether_its_ph_is_held_whether_it_has_additives_and_whether_it_plates() {
    let says = |rows: Rows| {
        let outcome = make_up(&[("by", ADDED)], rows).unwrap();
        ["held", "adds", "plates"].map(|symbol| {
            let port = CALCULATOR.port(symbol).unwrap();
            CALCULATOR.output_at(port).unwrap().words[outcome.answers[0][0].1[port.column] as usize]
        })
    };
    assert_eq!(says(COPPER), [sort::NO, sort::YES, sort::YES]);
    let boric: (&str, &str, Texts) =
        (TABLE, "Boric acid", &[("wanted", Wanted::SUBSTANCE), ("c_s", "35 g/L")]);
    let nickel: (&str, &str, Texts) = (TABLE, "Nickel sulfamate", &[("c_m", "80 g/L")]);
    assert_eq!(says(vec![nickel, boric].leak()), [sort::YES, sort::NO, sort::YES]);
    assert_eq!(says(vec![nickel].leak()), [sort::YES, sort::NO, sort::YES], "no strong acid is in it");
    assert_eq!(says(&COPPER[1..2]), [sort::NO, sort::NO, sort::NO]);
    assert_eq!(says(&COPPER[..1])[0], sort::NOT_KNOWN, "copper without its acid");
    assert_eq!(says(&[]), [sort::NOT_KNOWN; 3]);
    let outcome = make_up(&[], COPPER).unwrap();
    assert!((number(&outcome, "d_D", "Suppressor", ML_PER_L) - 10.0).abs() < 1e-9);
}
