//! Mistakes that are made when a bath is made up, each by its name.

use super::tests::{Rows, make_up, number, refused};
use super::*;
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::solution_make_up::{compound_mass, concentrate_by_mass_share};
use crate::science::solutions::{self, solute};
use crate::units::{G_PER_L, MASS_FRACTION, SHARE};

fn close(found: f64, expected: f64, within: f64) {
    assert!((found / expected - 1.0).abs() < within, "{found}, not {expected}");
}

/// molmass 2026.1.8: 0.2545 of CuSO4·5H2O is copper, so 40 g/L of copper take 3.93 times the salt of 40 g/L of salt.
#[test]
fn grams_of_metal_are_not_grams_of_its_salt() {
    let metal = make_up(&[], &[(TABLE, "Copper sulfate", &[("c_m", "40 g/L")])]).unwrap();
    let salt: Rows = &[(TABLE, "Copper sulfate", &[("wanted", Wanted::SUBSTANCE), ("c_s", "40 g/L")])];
    let salt = make_up(&[], salt).unwrap();
    let m = |bath| number(bath, "m", "Copper sulfate", KG);
    close(m(&metal) / m(&salt), 1.0 / 0.2545, 4e-4);
}

/// Identity, 5 × 18.015/249.68: a kilogram of CuSO4·5H2O brings 0.361 kg of water, and of the salt without water 0.639
/// times as much is weighed (159.60/249.68).
#[test]
fn the_water_of_a_hydrate_is_counted() {
    let rows = |formula| -> Rows {
        let cells: crate::calculator::Texts = Box::leak(Box::new([("formula", formula), ("c_m", "40 g/L")]));
        Box::leak(Box::new([(TABLE, "Salt", cells)]))
    };
    let blue = make_up(&[], rows("CuSO4·5H2O")).unwrap();
    let white = make_up(&[], rows("CuSO4")).unwrap();
    let m = |bath| number(bath, "m", "Salt", KG);
    close(number(&blue, "m_h", "", KG) / m(&blue), 0.361, 1e-3);
    close(m(&white) / m(&blue), 159.60 / 249.68, 4e-4);
    // What the hydrate brings need not be added.
    close(m(&blue) + number(&blue, "m_w", "", KG), m(&white) + number(&white, "m_w", "", KG), 1e-6);
}

/// By hand: 37 % hydrochloric acid of 1.184 kg/L is 0.37·1184/36.46 = 12.0 mol/L, and not 370/36.46 = 10.1.
#[test]
fn mass_percent_is_not_grams_in_a_litre() {
    let rows: Rows = &[(
        TABLE,
        "Hydrochloric acid",
        &[
            ("supply", Supply::BY_MASS),
            ("wanted", Wanted::AMOUNT),
            ("C_n", "0.6 mol/L"),
            ("w", "37 %"),
            ("ρ_k", "1.1840 kg/L"),
        ],
    )];
    close(number(&make_up(&[], rows).unwrap(), "v", "Hydrochloric acid", L), 0.6 * 200.0 / 12.015, 4e-4);
}

/// Mass balance: of a salt of 98 % a fiftieth more is weighed, and never less.
#[test]
fn of_a_salt_that_is_less_pure_more_is_weighed() {
    let rows: [Rows; 2] = [
        &[(TABLE, "Copper sulfate", &[("c_m", "40 g/L")])],
        &[(TABLE, "Copper sulfate", &[("c_m", "40 g/L"), ("p", "98 %")])],
    ];
    let [pure, less] = rows.map(|rows| number(&make_up(&[], rows).unwrap(), "m", "Copper sulfate", KG));
    close(less, pure / 0.98, 1e-9);
}

/// The law itself, as no form takes such a strength: nothing can be weighed of nothing.
#[test]
fn a_purity_or_strength_of_nothing_or_of_more_than_all_is_refused() {
    let (v, c) = (Q::constant("V", 100.0, L), Q::constant("c", 10.0, G_PER_L));
    for share in [0.0, -0.1, 1.1, f64::NAN] {
        assert!(compound_mass(v, c, Q::constant("p", share, SHARE)).is_err(), "{share}");
        let (w, rho) = (Q::constant("w", share, MASS_FRACTION), Q::constant("ρ", 1.2, KG_PER_L));
        assert!(concentrate_by_mass_share(v, c, w, rho).is_err(), "{share}");
    }
}

/// IUPAC atomic weights: a mol of sulfuric acid is 98.08 g and two equivalents; mol/L is asked for.
#[test]
fn a_mol_of_sulfuric_acid_is_not_an_equivalent() {
    let rows: Rows = &[(
        TABLE,
        "Sulfuric acid",
        &[("supply", Supply::BY_MOL), ("wanted", Wanted::AMOUNT), ("C_n", "0.5 mol/L"), ("C_k", "5 mol/L")],
    )];
    let bath = make_up(&[], rows).unwrap();
    close(number(&bath, "v", "Sulfuric acid", L), 20.0, 1e-9);
    close(number(&bath, "s_C", "H2SO4", G_PER_L), 5.0 * 98.08, 4e-4);
}

#[test]
fn of_what_is_not_wanted_nothing_is_weighed() {
    let bath = make_up(&[], &[(TABLE, "Copper sulfate", &[("c_m", "0 g/L")])]).unwrap();
    assert_eq!(number(&bath, "m", "Copper sulfate", KG), 0.0);
    // By hand: 200 L of water of 0.9982 kg/L at 20 °C.
    close(number(&bath, "m_w", "", KG), 199.64, 1e-4);
}

#[test]
fn a_bath_stronger_than_its_stock_cannot_be_made() {
    let rows: Rows = &[(
        TABLE,
        "Tin",
        &[
            ("supply", Supply::BY_METAL),
            ("species", "Sn"),
            ("c_m", "80 g/L"),
            ("k_m", "60 g/L"),
            ("ρ_k", "1.2 kg/L"),
        ],
    )];
    let stop = refused(&[], rows);
    assert!(stop.reason.contains("above the strength") && !stop.remedy.is_empty(), "{stop:?}");
}

/// OpenStax, appendix J: AgCl hardly dissolves (1.6e-10), so chloride has no place in a silver bath, however little.
#[test]
fn a_trace_of_chloride_is_refused_beside_silver() {
    let rows: Rows = &[
        (
            TABLE,
            "Silver methanesulfonate",
            &[("supply", Supply::BY_METAL), ("c_m", "1 g/L"), ("k_m", "50 g/L"), ("ρ_k", "1.1 kg/L")],
        ),
        (
            TABLE,
            "Hydrochloric acid",
            &[
                ("supply", Supply::BY_MASS),
                ("wanted", Wanted::ION),
                ("species", "Cl"),
                ("c_i", "10 mg/L"),
                ("w", "37 %"),
            ],
        ),
    ];
    assert!(refused(&[], rows).reason.contains("silver chloride"));
}

/// NBS TN 270 and Laliberté 2009: acid and water shrink, so the volumes put in come to more than the bath holds.
#[test]
fn volumes_of_acid_and_water_do_not_add_up() {
    let rows: Rows = &[(
        TABLE,
        "Sulfuric acid",
        &[("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("c_s", "300 g/L"), ("w", "96 %")],
    )];
    let bath = make_up(&[("V_t", "100 L")], rows).unwrap();
    assert!(number(&bath, "V_in", "", L) > 101.0 && number(&bath, "ΔV", "", L) < -1.0);
}

/// molmass: Ni(SO3NH2)2·4H2O holds 0.1818 of nickel. A carbamate, Ni(H2NCO2)2, is another salt with 0.328.
#[test]
fn a_sulfamate_is_not_a_carbamate() {
    let nickel = |text| Formula::read(text).unwrap().metal_fraction("Ni").unwrap().si;
    close(nickel("Ni(SO3NH2)2·4H2O"), 0.1818, 4e-4);
    close(nickel("Ni(SO3NH2)2.4H2O"), 0.1818, 4e-4);
    close(nickel("Ni(H2NCO2)2"), 58.693 / (58.693 + 2.0 * 60.032), 4e-4);
}

/// CARMA's table of strong acid at 20 °C: 98 % weighs 1.8363 kg/L and 100 % 1.8309, so the denser one is the weaker.
#[test]
fn density_does_not_tell_the_strength_of_acid_above_93_percent() {
    let acid = solute(&Formula::read("H2SO4").unwrap()).unwrap();
    let rho = |share| {
        let parts = [(acid, Q::constant("w", share, MASS_FRACTION))];
        solutions::density(&parts, Q::constant("T", 20.0, CELSIUS)).unwrap().number(KG_PER_L)
    };
    close(rho(0.98), 1.8363, 1e-3);
    assert!(rho(0.98) > rho(1.0));
}

/// CARMA's table: 96 % acid weighs 1.8357 kg/L at 20 °C and 1.8308 at 25, so warmer acid takes more litres.
#[test]
fn a_density_holds_at_its_temperature_alone() {
    let rows: Rows = &[(
        TABLE,
        "Sulfuric acid",
        &[("supply", Supply::BY_MASS), ("wanted", Wanted::SUBSTANCE), ("c_s", "100 g/L"), ("w", "96 %")],
    )];
    let at: [crate::calculator::Texts; 2] = [&[("T_m", "20 °C")], &[("T_m", "25 °C")]];
    let [cold, warm] = at.map(|at| number(&make_up(at, rows).unwrap(), "v", "Sulfuric acid", L));
    close(warm / cold, 1.8357 / 1.8308, 1e-4);
}

/// Koretsky, table 6.1: 42.5 kJ a mol. By hand: 10 kg are 250 mol, 10.6 MJ, in some 70 kg of 3.7 kJ/(kg·K): 40 K.
#[test]
fn caustic_heats_water_as_acid_does() {
    let rows: Rows = &[(TABLE, "Sodium hydroxide", &[("wanted", Wanted::SUBSTANCE), ("c_s", "100 g/L")])];
    let bath = make_up(&[("V_t", "100 L"), ("class", "alkaline")], rows).unwrap();
    let rise = number(&bath, "ΔT", "", KELVINS);
    assert!((32.0..45.0).contains(&rise), "{rise}");
    assert!(bath.cautions.iter().any(|text| text.contains("Caustic burns eyes")));
}
