//! What a delivery line gives, and what it refuses.

use super::*;
use crate::calculator::{Outcome, Stop, Texts};
use crate::science::line::static_pressure;

/// Water at 20 °C, 10 L/min through 30 m of 12.7 mm, 6 m up.
const USUAL: Texts = &[
    ("ρ", "998.2 kg/m³"),
    ("μ", "1.0020 mPa·s"),
    ("q", "10 L/min"),
    ("z", "6 m"),
    ("l", "30 m"),
    ("D", "12.7 mm"),
];
/// 96 % sulfuric acid, 4 L/min through 25 m.
const ACID: Texts =
    &[("ρ", "1836 kg/m³"), ("μ", "23.8 mPa·s"), ("q", "4 L/min"), ("l", "25 m"), ("class", "acid")];

/// Peroxide to an etch.
const OXIDISER: Texts = &[("class", "oxidiser"), ("class_b", "oxidiser")];

type Rows = &'static [(&'static str, &'static str, Texts)];

fn tried(inputs: &[Texts], rows: Rows) -> Result<Outcome, Stop> {
    CALCULATOR.tried(Box::leak([&[USUAL], inputs].concat().concat().into_boxed_slice()), rows)
}

fn found(outcome: &Outcome, symbol: &str) -> f64 {
    let port = CALCULATOR.port(symbol).unwrap();
    CALCULATOR.unit(port).from_si(outcome.answers[0][0].1[port.column])
}

fn at(outcome: &Outcome, symbol: &str) -> Option<Severity> {
    outcome.findings.iter().find(|finding| finding.at == symbol).map(|finding| finding.severity)
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found / expected - 1.0).abs() < within, "{found} is not {expected}");
}

/// Schaschke, Fluid Mechanics: Worked Examples for Engineers, example 8.6, prints Fanning 0.0065, which is Darcy
/// 0.026: laminar Darcy is 64/Re (`fluids` 1.3.1 at Re 515.598: 0.124128), and Fanning's 16/Re a quarter of it.
#[test]
fn the_friction_factor_is_darcys_and_not_fannings() {
    let outcome = tried(&[ACID], &[]).unwrap();
    near(found(&outcome, "Re"), 515.598, 1e-4);
    near(found(&outcome, "f"), 0.124128, 1e-4);
}

/// Hydrostatics: 8 m of 96 % acid are 144.04 kPa, of water 78.3.
#[test]
fn head_of_water_is_not_head_of_acid() {
    let rise: Texts = &[("z", "8 m")];
    near(found(&tried(&[ACID, rise], &[]).unwrap(), "p_z"), 144.041, 1e-4);
    near(found(&tried(&[rise], &[]).unwrap(), "p_z"), 78.312, 1e-4);
}

/// `fluids` 1.3.1: 4 L/min of 96 % acid lose 6.59257 times what water loses, 3 L/min of 50 % caustic 26.9208 times.
#[test]
fn a_pumps_water_curve_does_not_hold_for_a_viscous_acid() {
    let bare: Texts = &[("K_o", "0")];
    near(found(&tried(&[ACID, bare], &[]).unwrap(), "k_w"), 6.59257, 5e-3);
    let caustic: Texts = &[("ρ", "1525 kg/m³"), ("μ", "79 mPa·s"), ("q", "3 L/min"), ("l", "20 m")];
    near(found(&tried(&[caustic, bare], &[]).unwrap(), "k_w"), 26.9208, 5e-3);
}

/// Hagen–Poiseuille: laminar friction goes with viscosity. iapws 1.5.5: water at 5 °C is 1.71 times as viscous as at
/// 25 °C. A law for cold water alone would show neither.
#[test]
fn a_cold_morning_makes_laminar_friction_as_much_greater_as_the_viscosity() {
    let friction = |t: &'static str| {
        let inputs: Texts = Box::leak(Box::new([
            ("by", MODEL),
            ("sub", WATER),
            ("T", t),
            ("q", "0.2 L/min"),
            ("D", "9.5 mm"),
            ("K_o", "0"),
        ]));
        found(&tried(&[inputs], &[]).unwrap(), "p_f")
    };
    near(friction("5 °C") / friction("25 °C"), 1.71, 0.01);
}

/// iapws 1.5.5 and the standard atmosphere: without friction 10.1 m for water at 20 °C, 8.4 m at 1500 m, 5.6 m for
/// 96 % acid; 8.4 m at 60 °C.
#[test]
fn height_of_the_site_warmth_and_weight_each_take_from_the_lift() {
    let suction: Texts = &[("z_s", "1 m"), ("K_s", "0"), ("h_m", "0 m")];
    let most = |inputs: Texts| found(&tried(&[suction, inputs], &[]).unwrap(), "z_m");
    near(most(&[]), 10.1, 0.01);
    near(most(&[("z_site", "1500 m")]), 8.4, 0.01);
    near(most(&[("ρ", "983.2 kg/m³"), ("T", "60 °C")]), 8.4, 0.01);
    near(found(&tried(&[suction, ACID], &[]).unwrap(), "z_m"), 5.6, 0.03);
}

/// By definition the outlet takes one velocity head: 998.2 × 1.31568² / 2 = 864 Pa.
#[test]
fn the_velocity_head_at_the_outlet_is_counted() {
    let with = found(&tried(&[], &[]).unwrap(), "p_f");
    let without = found(&tried(&[&[("K_o", "0")]], &[]).unwrap(), "p_f");
    near(with - without, 0.5 * 0.9982 * 1.31568 * 1.31568, 1e-4);
}

#[test]
fn peroxide_is_told_of_high_points_and_closed_valves() {
    let outcome = tried(&[OXIDISER], &[]).unwrap();
    assert!(
        outcome.cautions.iter().any(|text| text.contains("two closed valves") && text.contains("high point"))
    );
    assert_eq!(at(&outcome, "v"), Some(Severity::Caution), "1.3 m/s is too fast for it");
    assert_eq!(at(&tried(&[], &[]).unwrap(), "v"), None);
}

/// `fluids` 1.3.1: at Re 2225 and no roughness 64/Re is 0.02876 and Colebrook's 0.0478: the friction is bracketed.
#[test]
fn between_laminar_and_turbulent_both_are_shown_and_the_greater_counts() {
    let unstable: Texts = &[("q", "1 L/min"), ("D", "9.5 mm"), ("l", "50 m"), ("K_o", "0")];
    let outcome = tried(&[unstable], &[]).unwrap();
    near(found(&outcome, "Re"), 2225.28, 1e-4);
    assert!(found(&outcome, "p_f") > 1.5 * found(&outcome, "p_low"));
    assert_eq!(at(&outcome, "regime"), Some(Severity::Note));
    assert!(found(&tried(&[], &[]).unwrap(), "p_low").is_nan());
}

/// EPA-600/2-80-076, chart groups 11 with 1.
#[test]
fn an_acid_line_to_a_cyanide_bath_is_refused() {
    let stop = tried(&[&[("class", "acid"), ("class_b", "cyanide")]], &[]).unwrap_err();
    assert_eq!(stop.at, Some("class"));
    assert!(stop.reason.contains("hydrogen cyanide"), "{}", stop.reason);
    let unknown = tried(&[&[("class_b", "cyanide")]], &[]).unwrap_err();
    assert_eq!(&*unknown.remedy, "Say what the line carries.", "what is not known counts as acid");
    assert_eq!(tried(&[&[("class", "cyanide")]], &[]).unwrap_err().at, Some("class_b"));
    assert!(tried(&[&[("class", "acid"), ("class_b", "fluoride")]], &[]).is_ok(), "an etch is made up so");
    assert!(tried(&[&[("class", "cyanide"), ("class_b", "cyanide")]], &[]).is_ok());
}

/// EPA-600/2-80-076, chart groups 15 with 1 (toxic gas) and 10 with 1 (heat): the pairs that a route refuses or tells of.
#[test]
fn a_line_is_held_to_the_same_table_as_a_route() {
    let classes = |class: &'static str, class_b: &'static str| -> Result<Outcome, Stop> {
        let pair: Texts = vec![("class", class), ("class_b", class_b)].leak();
        tried(&[pair], &[])
    };
    let stop = classes("fluoride", "acid").unwrap_err();
    assert!(stop.at == Some("class") && stop.reason.contains("hydrogen fluoride"), "{}", stop.text());
    for (liquid, bath) in
        [("alkaline", "acid"), ("acid", "alkaline"), ("unknown", "acid"), ("acid", "fluoride")]
    {
        let outcome = classes(liquid, bath).unwrap();
        assert_eq!(at(&outcome, "class"), Some(Severity::Caution), "{liquid} into {bath}");
    }
    assert_eq!(at(&classes("acid", "acid").unwrap(), "class"), None);
    assert_eq!(classes("fluoride", "unknown").unwrap_err().at, Some("class_b"));
}

#[test]
fn a_pump_that_stands_too_high_is_a_stop_and_a_flooded_one_is_not() {
    let high = tried(&[&[("z_s", "9 m")]], &[]).unwrap();
    assert_eq!(at(&high, "z_sp"), Some(Severity::Serious));
    let flooded = tried(&[&[("z_s", "-1 m")]], &[]).unwrap();
    assert_eq!(at(&flooded, "z_sp"), None);
    // A maker's 3 m of water are 1.63 m of acid.
    let dry = tried(&[ACID, &[("z_s", "2 m"), ("z_dry", "3 m")]], &[]).unwrap();
    assert_eq!(at(&dry, "z_s"), Some(Severity::Serious));
    assert_eq!(at(&tried(&[&[("z_s", "2 m"), ("z_dry", "3 m")]], &[]).unwrap(), "z_s"), None);
}

/// Water's vapour pressure bounds that of salts and of sulfuric acid from above, and of nothing volatile.
#[test]
fn what_boils_or_gases_easier_than_water_is_not_sucked_as_water() {
    let lift: Texts = &[("z_s", "1 m"), ("class_b", "solvent")];
    assert_eq!(tried(&[lift, &[("class", "solvent")]], &[]).unwrap_err().at, Some("p_v"));
    assert!(tried(&[lift, &[("class", "solvent"), ("p_v", "20 kPa")]], &[]).is_ok());
    let acid: Texts = &[("z_s", "1 m"), ("by", MODEL), ("sub", VOLATILE), ("w_s", "20 %"), ("T", "20 °C")];
    assert_eq!(tried(&[acid], &[]).unwrap_err().at, Some("p_v"));
    assert_eq!(at(&tried(&[OXIDISER, &[("z_s", "1 m")]], &[]).unwrap(), "z_s"), Some(Severity::Caution));
    assert_eq!(at(&tried(&[OXIDISER, &[("z_s", "-1 m")]], &[]).unwrap(), "z_s"), None);
}

#[test]
fn too_little_pressure_is_a_stop() {
    let short = tried(&[&[("p_av", "80 kPa")]], &[]).unwrap();
    assert_eq!(at(&short, "p_s"), Some(Severity::Serious));
    assert!(found(&short, "q_a") < 10.0 && found(&short, "D_p") > 12.7);
    let stalls = tried(&[&[("p_air", "100 kPa")]], &[]).unwrap();
    assert!(stalls.findings.iter().any(|finding| finding.text.contains("stalls")));
    let enough = tried(&[&[("p_av", "300 kPa"), ("p_air", "300 kPa")]], &[]).unwrap();
    assert_eq!(at(&enough, "p_s"), None);
    let none = tried(&[&[("p_av", "50 kPa")]], &[]).unwrap();
    assert!(found(&none, "q_a").is_nan(), "the rise alone takes 58.7 kPa");
    assert!(none.findings.iter().any(|finding| finding.text.contains("no bore does")));
}

/// `fluids` 1.3.1 `Kv_to_K`: 2.5 m³/h in 12.7 mm are 6.6597.
#[test]
fn a_valve_by_its_kv_counts_as_its_loss_coefficient() {
    let valve: Rows = &[(FITTINGS, "Diaphragm valve", &[("Kv", "2.5 m³/h")])];
    let outcome = tried(&[], valve).unwrap();
    let port = CALCULATOR.port("K_n").unwrap();
    near(outcome.answers[port.table][0].1[port.column], 6.6597, 2e-3);
    let both: Rows = &[(FITTINGS, "Diaphragm valve", &[("Kv", "2.5 m³/h"), ("K", "4")])];
    assert_eq!(tried(&[], both).unwrap_err().at, Some("Kv"));
}

#[test]
fn concentrated_acid_lies_beyond_the_model_and_is_to_be_typed() {
    let strong: Texts = &[("by", MODEL), ("sub", "sulfuric acid"), ("w_s", "96 %")];
    let stop = tried(&[strong], &[]).unwrap_err();
    assert_eq!(stop.at, Some("by"));
    assert!(stop.remedy.contains("data sheet"), "{}", stop.remedy);
    // thermo 0.6.1, Laliberté: 20 % sulfuric acid at 25 °C has 1.1365 kg/L, so 6 m are 66.87 kPa.
    let weak: Texts = &[("by", MODEL), ("sub", "sulfuric acid"), ("w_s", "20 %"), ("T", "25 °C")];
    near(found(&tried(&[weak], &[]).unwrap(), "p_z"), 66.87, 2e-3);
}

/// By hand: 3.80031 L stand in the line, and twelve changes lose 45.6 L.
#[test]
fn each_change_of_liquid_loses_what_stands_in_the_line() {
    near(found(&tried(&[&[("n_c", "12")]], &[]).unwrap(), "V_ly"), 12.0 * 3.80031, 1e-5);
}

/// By hand: pressure over density and g is the head that the pump must give.
#[test]
fn head_and_pressure_are_the_same_need() {
    let outcome = tried(&[ACID, &[("p_e", "20 kPa"), ("η", "45 %")]], &[]).unwrap();
    let metre = static_pressure(
        crate::quantity::Q::constant("ρ", 1836.0, crate::units::KG_PER_M3),
        crate::quantity::Q::constant("h", 1.0, M),
    );
    near(found(&outcome, "p_s") / found(&outcome, "h"), metre.number(KPA), 1e-9);
    near(found(&outcome, "P"), found(&outcome, "p_s") * 1e3 * 4e-3 / 60.0 / 0.45, 1e-9);
}
