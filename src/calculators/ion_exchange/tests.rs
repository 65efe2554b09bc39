use super::*;
use crate::calculator::{Outcome, Severity, Stop, Texts};
use crate::units::Unit;

type Rows = &'static [(&'static str, &'static str, Texts)];

/// 4800 L a day with 30 mg/L of nickel on 50 L of chelating resin of 1.2 eq/L.
const NICKEL: [(&str, &str); 3] = [("Q", "4800 L/day"), ("q_T", "1.2 eq/L"), ("V_b", "50 L")];
const NI: Rows = &[("metals", "Ni", &[("c", "30 mg/L")])];

fn tried(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    let known = |symbol: &str| inputs.iter().any(|(own, _)| *own == symbol);
    let all = NICKEL.into_iter().filter(|(symbol, _)| !known(symbol)).chain(inputs.iter().copied());
    CALCULATOR.tried(Box::leak(all.collect()), rows)
}

fn found(outcome: &Outcome, symbol: &str, unit: &Unit) -> f64 {
    let (symbol, key) = symbol.trim_end_matches(']').split_once('[').unwrap_or((symbol, ""));
    let mut answers = CALCULATOR.answered(outcome);
    let (_, si, _) = answers.find(|(output, _, of)| output.symbol == symbol && ***of == *key).unwrap();
    unit.from_si(si)
}

fn days(inputs: Texts, rows: Rows) -> f64 {
    found(&tried(inputs, rows).unwrap_or_else(|stop| panic!("{}", stop.text())), "t_b", DAYS)
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found / expected - 1.0).abs() < 1e-4, "{found} is not {expected}");
}

#[track_caller]
fn refused(inputs: Texts, rows: Rows, at: &str, word: &str) {
    let stop = tried(inputs, rows).expect_err("a refusal");
    assert!(stop.at == Some(at) && stop.text().contains(word), "at {:?}: {}", stop.at, stop.text());
}

fn says(outcome: &Outcome, least: Severity, word: &str) -> bool {
    outcome.findings.iter().any(|finding| finding.severity >= least && finding.text.contains(word))
}

#[test]
fn a_milligram_of_silver_loads_less_than_one_of_copper() {
    // By hand: 107.87 against 63.546/2 g/eq, so 3.395 times as long.
    let silver: Rows = &[("metals", "Ag", &[("c", "30 mg/L")])];
    let copper: Rows = &[("metals", "Cu", &[("c", "30 mg/L")])];
    near(days(&[], silver) / days(&[], copper), 107.87 / 31.773);
}

#[test]
fn a_bed_lasts_by_its_operating_capacity_and_not_by_all_of_it() {
    // By hand: 1.2 eq/L × 50 L × 60 % over 4800 L × 30 mg/L / 29.3465 g/eq.
    near(days(&[], NI), 36.0 / (4.8 * 30.0 / 29.3465));
    near(days(&[("u", "100 %")], NI) / days(&[], NI), 1.0 / 0.6);
}

#[test]
fn acid_and_sodium_load_a_strong_acid_resin_and_pass_a_chelating_one() {
    let with_sodium: Rows =
        &[("metals", "Ni", &[("c", "30 mg/L")]), ("others", "Na", &[("c_j", "22.99 mg/L")])];
    near(days(&[], with_sodium), days(&[], NI));
    // By hand: 1.02227 meq/L of nickel, 1 of sodium and 1 of acid.
    let nickel = 30.0 / 29.3465;
    let strong: Texts = &[("resin", STRONG), ("a", "1 meq/L")];
    near(days(strong, with_sodium), days(&[], NI) * nickel / (nickel + 2.0));
    // Acid by its pH: 3 is 1 meq/L.
    near(days(&[("resin", STRONG), ("pH_i", "3")], with_sodium), days(strong, with_sodium));
    // And so is the pH that is set before the column, where nobody measured the one before.
    near(days(&[("resin", STRONG), ("pH_s", "3")], with_sodium), days(strong, with_sodium));
}

#[test]
fn a_strong_acid_resin_is_not_sized_unsaid_for_water_without_acid() {
    let told = |inputs: Texts| says(&tried(inputs, NI).unwrap(), Severity::Caution, "none is counted");
    assert!(told(&[("resin", STRONG)]));
    assert!(!told(&[("resin", STRONG), ("a", "0 meq/L")]) && !told(&[("resin", STRONG), ("pH_s", "3")]));
    assert!(!told(&[]), "chelating resin lets acid pass");
}

#[test]
fn oxidisers_never_reach_a_resin() {
    refused(&[("ox", YES)], NI, "ox", "oxidiser");
    refused(&[("kind", routes::OXIDISERS)], NI, "kind", "oxidiser");
    let etch: Rows = &[("metals", "Ni", &[("c", "30 mg/L")]), ("streams", "Etch", &[("class", "oxidiser")])];
    refused(&[], etch, "kind", "Etch");
    assert!(tried(&[], NI).unwrap().cautions.iter().any(|text| text.contains("nitric acid")));
}

#[test]
fn what_is_not_known_is_no_water_for_a_resin() {
    let lost: Rows = &[("metals", "Ni", &[("c", "30 mg/L")]), ("streams", "Lost", &[("class", "unknown")])];
    refused(&[], lost, "kind", "class of Lost is not known");
    refused(&[("kind", routes::SOLVENTS)], NI, "kind", "solvents");
}

#[test]
fn metal_in_cyanide_goes_on_strong_base_resin_and_never_meets_acid() {
    let gold: Rows = &[("metals", "Au", &[("c", "10 mg/L")])];
    refused(&[("kind", routes::CYANIDE)], gold, "resin", "cyanide");
    refused(
        &[("kind", routes::CYANIDE), ("resin", ANION), ("service", HERE)],
        gold,
        "service",
        "must not meet",
    );
    let outcome = tried(&[("kind", routes::CYANIDE), ("resin", ANION)], gold).unwrap();
    assert!(outcome.cautions.iter().any(|text| text.contains("kills")));
}

#[test]
fn sulfite_meets_no_acid_on_a_resin() {
    refused(&[("kind", routes::SULFITE), ("form", HYDROGEN)], NI, "form", "sulfur dioxide");
    refused(&[("kind", routes::SULFITE), ("service", HERE)], NI, "service", "sulfur dioxide");
    assert!(tried(&[("kind", routes::SULFITE)], NI).is_ok());
}

#[test]
fn solids_clog_a_bed_without_a_filter() {
    refused(&[("ss", "20 mg/L")], NI, "filter", "clog");
    assert!(tried(&[("ss", "20 mg/L"), ("filter", FILTER)], NI).is_ok());
    assert!(tried(&[("ss", "4 mg/L")], NI).is_ok());
}

#[test]
fn a_pump_from_the_collecting_tank_runs_part_of_the_day() {
    let outcome = tried(&[("q_p", "800 L/h")], NI).unwrap();
    near(found(&outcome, "h_p", HOUR), 6.0);
    near(found(&outcome, "S", BED_VOLUMES_PER_HOUR), 16.0);
    // The run in days of service does not hang on it; the pump's hours do.
    near(found(&outcome, "t_b", DAYS), days(&[], NI));
    near(found(&outcome, "t_p", HOUR), 6.0 * days(&[], NI));
    let weak = tried(&[("q_p", "150 L/h")], NI).unwrap();
    assert!(says(&weak, Severity::Serious, "cannot pass the water of a day"));
}

#[test]
fn the_lead_is_changed_when_it_is_full_and_not_at_its_own_breakthrough() {
    near(days(&[("beds", LEAD_LAG)], NI) / days(&[], NI), 0.9 / 0.6);
}

#[test]
fn without_metal_the_other_ions_end_the_run() {
    let sodium: Rows = &[("others", "Na", &[("c_j", "22.99 mg/L")])];
    let outcome = tried(&[("resin", STRONG)], sodium).unwrap();
    // By hand: 36 eq over 4.8 eq a day.
    near(found(&outcome, "t_b", DAYS), 7.5);
    assert!(says(&outcome, Severity::Note, "run is that of the other ions"));
    assert!(tried(&[], sodium).is_err_and(|stop| stop.todo), "chelating resin lets sodium pass");
}

#[test]
fn each_metal_leaves_at_the_aim_or_at_what_runs_in_if_that_is_less() {
    let two: Rows = &[("metals", "Ni", &[("c", "30 mg/L")]), ("metals", "Co", &[("c", "0.2 mg/L")])];
    let outcome = tried(&[], two).unwrap();
    near(found(&outcome, "c_o[Ni]", MG_PER_L_METAL), 1.0);
    near(found(&outcome, "c_o[Co]", MG_PER_L_METAL), 0.2);
    near(found(&outcome, "m_h[Ni]", G_PER_DAY_METAL), 29.0 * 4.8);
    near(found(&outcome, "m_x[Ni]", G_PER_DAY_METAL), 29.0 * 4.8);
    let leaks: Rows = &[("metals", "Ni", &[("c", "30 mg/L"), ("c_k", "2 mg/L")])];
    assert!(says(&tried(&[], leaks).unwrap(), Severity::Caution, "above the aim"));
}

#[test]
fn what_a_regeneration_washes_out_is_what_the_bed_held() {
    let outcome = tried(&[("service", HERE)], NI).unwrap();
    let held = found(&outcome, "m_b[Ni]", G_METAL);
    near(held, 29.0 * 4.8 * days(&[], NI));
    near(found(&outcome, "c_s[Ni]", MG_PER_L_METAL), 1e3 * held / 550.0);
    near(found(&outcome, "Q_s", L_PER_DAY), 550.0 / days(&[], NI));
    assert_eq!(found(&outcome, "m_x[Ni]", G_PER_DAY_METAL), 0.0);
    // By hand: 4375 g of HCl in 150 L of regenerant.
    near(found(&outcome, "c_r", G_PER_L), 120.0 * 36.458 / 150.0);
}

#[test]
fn an_acid_that_makes_an_insoluble_salt_is_named() {
    let silver: Rows = &[("metals", "Ag", &[("c", "10 mg/L")])];
    assert!(says(&tried(&[("service", HERE)], silver).unwrap(), Severity::Caution, "silver chloride"));
    let hard: Rows = &[("metals", "Ni", &[("c", "30 mg/L")]), ("others", "Ca", &[("c_j", "40 mg/L")])];
    let outcome = tried(&[("service", HERE), ("acid", H2SO4)], hard).unwrap();
    assert!(says(&outcome, Severity::Caution, "calcium sulfate"));
}

#[test]
fn complexes_may_not_bind() {
    let silver: Rows = &[("metals", "Ag", &[("c", "10 mg/L")])];
    assert!(says(&tried(&[], silver).unwrap(), Severity::Note, "complexes"));
    assert!(says(&tried(&[("kind", routes::AMMONIA)], NI).unwrap(), Severity::Caution, "complex"));
}

#[test]
fn caustic_before_and_after_by_equivalents() {
    // By hand: pH 2 to 4 is 9.9 meq/L; of 4800 L a day with NaOH of 39.997 g/mol 1.9007 kg.
    let outcome = tried(&[("pH_i", "2"), ("pH_s", "4")], NI).unwrap();
    near(found(&outcome, "B_1", KG_PER_DAY), 9.9e-3 * 4800.0 * 39.997e-3);
    // Chelating resin lets the rest of the acid pass: 0.1 meq/L.
    near(found(&outcome, "B_2", KG_PER_DAY), 0.1e-3 * 4800.0 * 39.997e-3);
    let strong = tried(&[("resin", STRONG), ("pH_i", "2"), ("pH_s", "4")], NI).unwrap();
    assert_eq!(found(&strong, "B_2", KG_PER_DAY), 0.0, "in the sodium form it holds the acid");
    // What resin in the hydrogen form gives off: one equivalent for each that it takes.
    let outcome = tried(&[("form", HYDROGEN), ("a", "0 meq/L")], NI).unwrap();
    near(found(&outcome, "B_2", KG_PER_DAY), 30.0 / 29.3465 * 4.8 * 39.997e-3);
    // What nobody says of the acid is not taken for none.
    assert!(found(&tried(&[("form", HYDROGEN)], NI).unwrap(), "B_2", KG_PER_DAY).is_nan());
    refused(&[("pH_i", "4"), ("pH_s", "2")], NI, "pH_s", "below that of the water");
    assert!(says(&tried(&[("pH_i", "9")], NI).unwrap(), Severity::Caution, "2 to 5"));
}

#[test]
fn the_curve_says_when_the_aim_is_reached() {
    for curve in [[("model", FIRM), ("k", "100 L/(eq·h)")], [("model", LOOSE), ("k_K", "5 per hour")]] {
        let outcome = tried(Box::leak(Box::new(curve)), NI).unwrap();
        let reached = found(&outcome, "t_a", DAYS);
        let text: &'static str = Box::leak(format!("{reached:.9} days").into_boxed_str());
        let there = Box::leak(Box::new([curve[0], curve[1], ("t_try", text)]));
        near(found(&tried(there, NI).unwrap(), "c_try", MG_PER_L_METAL), 1.0);
        let used = found(&outcome, "u_a", PERCENT);
        near(used, 100.0 * reached / days(&[("u", "100 %")], NI));
    }
    let flat = tried(&[("k", "5 L/(eq·h)")], NI);
    assert!(flat.is_err_and(|stop| stop.text().contains("shorter than its zone of exchange")));
    assert!(found(&tried(&[], NI).unwrap(), "t_a", DAYS).is_nan());
}

#[test]
fn a_shallow_bed_is_told() {
    // By hand: 50 L in 500 mm are 0.2546 m deep.
    let outcome = tried(&[("D", "500 mm")], NI).unwrap();
    near(found(&outcome, "h", M), 0.254648);
    assert!(says(&outcome, Severity::Caution, "channels"));
}

/// By hand: a US gallon is 231 in³ and a cubic foot 1728, so 60 × 231/1728 = 8.02 bed volumes an hour.
#[test]
fn a_gallon_a_minute_a_cubic_foot_is_no_bed_volume_an_hour() {
    let outcome = tried(&[("S_w", "1 US gal/(min·ft³)")], NI).unwrap();
    near(found(&outcome, "V_w", L), 200.0 / (60.0 * 231.0 / 1728.0));
}

#[test]
fn a_bed_made_wider_is_shallower_and_takes_less_pressure() {
    let of = |bore: &'static str, symbol: &str, unit: &Unit| {
        let inputs: Texts = Box::leak(Box::new([("D", bore), ("q_p", "800 L/h")]));
        found(&tried(inputs, NI).unwrap(), symbol, unit)
    };
    near(of("150 mm", "h", M) / of("300 mm", "h", M), 4.0);
    // Viscous water: velocity and depth both fall with the square of the bore, a little more than 16 times.
    let ratio = of("150 mm", "Δp", KPA) / of("300 mm", "Δp", KPA);
    assert!((16.0..22.0).contains(&ratio), "{ratio}");
    assert!(of("300 mm", "Re", NUMBER) < 10.0);
}

#[test]
fn a_column_behind_a_precipitation_waits_for_it() {
    let stop = tried(&[("behind", BEHIND)], NI).unwrap_err();
    assert!(
        stop.at == Some("behind") && stop.text().contains("its sheet of precipitation"),
        "{}",
        stop.text()
    );
}

/// Davis (2010), table 8-3: about 50 %. By hand: 50 L in a bore of 300 mm are 0.707 m deep, so 0.354 m of room.
#[test]
fn a_backwash_needs_room_above_the_bed_and_less_flow_when_cold() {
    let inputs = |t| -> Texts { Box::leak(Box::new([("D", "300 mm"), ("ρ_p", "1.17 kg/L"), ("T", t)])) };
    let [cold, warm] = ["5 °C", "30 °C"].map(|t| tried(inputs(t), NI).unwrap());
    assert!((found(&cold, "h_b", M) - 0.3537).abs() < 1e-3);
    assert!(found(&cold, "v_b", M_PER_H) < 0.8 * found(&warm, "v_b", M_PER_H));
    assert!(found(&tried(&[("ρ_p", "1.17 kg/L")], NI).unwrap(), "q_b", L_PER_H).is_nan());
}

/// By hand: 0.884 mg/L comes in below an aim of 1, and of it the sheet counts nothing as held.
#[test]
fn an_aim_above_what_comes_in_is_told() {
    let told = |c: &'static str| {
        let cells: Texts = Box::leak(Box::new([("c", c)]));
        let rows: Rows = Box::leak(Box::new([(metals::TABLE, "Cu", cells)]));
        says(&tried(&[], rows).unwrap(), Severity::Note, "none of it is counted as held")
    };
    assert!(told("0.884 mg/L") && !told("2 mg/L"));
}

/// Common practice, no source: weak acid resin holds hydrogen below pH 4.
#[test]
fn weak_acid_resin_asks_for_the_ph() {
    let rows: Rows = &[(metals::TABLE, "Cu", &[("c", "20 mg/L")])];
    let told = |inputs: Texts| {
        says(&tried(inputs, rows).unwrap(), Severity::Caution, "pH of this water is not known")
    };
    assert!(told(&[("resin", WEAK)]));
    assert!(!told(&[("resin", WEAK), ("pH_i", "5")]) && !told(&[]));
}
