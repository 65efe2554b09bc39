//! What the building is asked for: that it follows the sheets of all places, and the site's.
//!
//! The line is invented. What a test expects is worked out by hand beside it.

mod common;

use bathbook::calculator::Subject;
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{
    AMPERE, KG, KG_PER_DAY, KW, L, L_PER_DAY, L_PER_MIN, M2, M3_PER_H, MINUTE, NORMAL_L_PER_H,
    NORMAL_L_PER_MIN, NUMBER, WATT,
};
use common::answer;

fn type_in(plan: &mut Plan, place: Id, calculator: &'static str, cells: &[(&'static str, &str)]) {
    plan.add_sheet(place, calculator);
    for (symbol, text) in cells {
        plan.type_in(&Field::single(place, calculator, symbol), text, None);
    }
}

fn type_row(
    plan: &mut Plan,
    (place, calculator, table): (Id, &'static str, &'static str),
    key: &str,
    cells: &[(&'static str, &str)],
) {
    plan.add_row(place, calculator, table, key);
    for (symbol, text) in cells {
        plan.type_in(&Field::cell(place, calculator, table, key, symbol), text, None);
    }
}

/// Two baths, the one warm and plating, with a rinse, a route, a drain with a lift station, and the building's sheet.
fn line() -> (Plan, Id, [Id; 2]) {
    let mut plan = Plan::new("A line (invented)");
    let site = plan.site().expect("a site").id;
    let [warm, cold] = ["Copper", "Gold"].map(|name| plan.add(Subject::Bath, name));
    type_in(&mut plan, warm, "make-up", &[("V_t", "200 L"), ("V_stay", "10 L"), ("class", "acid")]);
    type_in(&mut plan, warm, "evaporation", &[("A_t", "0.4 m²"), ("T", "51 °C"), ("w_m", "1.5 kg/h")]);
    let heat = [
        ("L", "20 W/K"),
        ("source", "electric or inline heater"),
        ("P", "5 kW"),
        ("evap", "from an open surface"),
    ];
    type_in(&mut plan, warm, "heat-up", &heat);
    let load = [("N", "240 per day"), ("D", "200 mm"), ("open", "20 %"), ("η", "100 %")];
    type_in(&mut plan, warm, "plating", &load);
    type_row(&mut plan, (warm, "plating", "metals"), "Cu", &[("w", "100 %")]);
    let layer = [("given", "charge"), ("q_g", "60 A·min"), ("j", "2 A/dm²")];
    type_row(&mut plan, (warm, "plating", "steps"), "Layer", &layer);
    type_in(&mut plan, warm, "exhaust", &[]);
    type_row(
        &mut plan,
        (warm, "exhaust", "openings"),
        "Lid of the tank",
        &[("v_c", "0.5 m/s"), ("A_f", "0.1 m²"), ("n", "2"), ("d", "50 %")],
    );
    type_in(&mut plan, cold, "make-up", &[("V_t", "50 L"), ("class", "cyanide")]);
    plan.remove_sheet(cold, "heat-up");
    plan.remove_sheet(cold, "plating");
    plan.add_sheet(site, "utilities");
    // One tool holds both tanks: 3 by 5 m, 1 m all round.
    let tool = [("sort", "floor"), ("b", "3 m"), ("t", "5 m"), ("c", "1 m")];
    type_row(&mut plan, (site, "utilities", "items"), "Tool", &tool);
    (plan, site, [warm, cold])
}

/// What the sheet says of a row in words.
fn said(plan: &Plan, site: Id, symbol: &str, key: &str) -> String {
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(site, "utilities").expect("utilities");
    results.answer_text(cell, symbol, key, 3).expect("a word").0
}

/// What has no answer yet, as the sheet names it.
fn left_out(plan: &Plan, site: Id) -> String {
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(site, "utilities").expect("utilities");
    let findings = &results.outcome(cell).expect("an outcome").findings;
    findings.iter().filter(|finding| finding.at == "known").map(|found| found.text.as_str()).collect()
}

/// By hand: 240 wafers of 1 A·h in 24 h are 10 A; all of it as hydrogen 4.18148 NL/h (2 electrons a molecule, CODATA).
/// Two lids of 0.1 m² at 0.5 m/s are 360 m³/h, half of them in the mean.
#[test]
fn exhaust_follows_the_bath_and_the_building_follows_the_exhaust() {
    let (mut plan, site, [warm, _]) = line();
    assert!((answer(&plan, warm, "exhaust", "n_h", "", NORMAL_L_PER_H) - 4.18148).abs() < 1e-4);
    type_in(&mut plan, warm, "exhaust", &[("h2", "as the plating load has it")]);
    assert!(answer(&plan, warm, "exhaust", "n_h", "", NORMAL_L_PER_H).abs() < 1e-6);
    // What evaporates, as measured, is in the duct: its air is damper than the room's.
    assert!(answer(&plan, warm, "exhaust", "T_dew", "", bathbook::units::CELSIUS) > 9.0);
    let [peak, mean] = ["e_p", "e_m"].map(|symbol| answer(&plan, site, "utilities", symbol, "", M3_PER_H));
    assert!((peak - 360.0).abs() < 1e-9 && (mean - 180.0).abs() < 1e-9, "{peak} {mean}");
    assert!((answer(&plan, site, "utilities", "e_1", "Copper", M3_PER_H) - 360.0).abs() < 1e-9);
    // An item of the user's own is a row beside it.
    let bench = [("sort", "exhaust"), ("q_e", "288 m³/h")];
    type_row(&mut plan, (site, "utilities", "items"), "Bench", &bench);
    assert!((answer(&plan, site, "utilities", "e_p", "", M3_PER_H) - 648.0).abs() < 1e-9);
}

/// By hand: heater 5 kW; 10 A at 3 V over 85 % in the mean, and the one wafer's current that plates at once.
#[test]
fn load_and_heat_follow_heater_and_rectifier() {
    let (plan, site, [warm, _]) = line();
    let hold = answer(&plan, warm, "heat-up", "Q_hold", "", KW);
    assert!((answer(&plan, site, "utilities", "P_1", "Copper: heater", KW) - 5.0).abs() < 1e-9);
    assert!((answer(&plan, site, "utilities", "P_2", "Copper: heater", KW) - hold).abs() < 1e-9);
    let one = answer(&plan, warm, "plating", "I_top", "", AMPERE);
    let at_once = answer(&plan, warm, "plating", "n_busy", "", NUMBER).ceil();
    let peak = answer(&plan, site, "utilities", "P_1", "Copper: rectifier", KW);
    assert!((peak - at_once * one * 3.0 / 0.85 / 1000.0).abs() < 1e-9, "{peak}");
    let mean = answer(&plan, site, "utilities", "P_2", "Copper: rectifier", KW);
    assert!((mean - 10.0 * 3.0 / 0.85 / 1000.0).abs() < 1e-9, "{mean}");
    // Dry loss to the room: 20 W/K from 51 to 21 °C.
    assert!((answer(&plan, site, "utilities", "r_1", "Copper: dry loss", KW) - 0.6).abs() < 1e-9);
    let together = answer(&plan, site, "utilities", "P_c", "", KW);
    assert!((together - 5.0 - peak).abs() < 1e-9, "{together}");
    // The demand factor is the mean over what is connected, of a row as of all.
    let factor = answer(&plan, site, "utilities", "f_1", "Copper: heater", NUMBER);
    assert!((factor - hold / 5.0).abs() < 1e-12, "{factor}");
    let factor = answer(&plan, site, "utilities", "f_c", "", NUMBER);
    assert!((factor - answer(&plan, site, "utilities", "P_m", "", KW) / together).abs() < 1e-12, "{factor}");
    assert!(said(&plan, site, "P_y", "Copper: heater").contains("as holding takes it"));
    assert!(said(&plan, site, "P_y", "Copper: rectifier").contains("all chambers at their highest"));
}

/// By hand: 72 L a day at 5 L/min run 14.4 min of 24 h, a hundredth of the time.
#[test]
fn a_delivery_pump_runs_for_as_long_as_its_supply_takes() {
    let (mut plan, site, [warm, _]) = line();
    let cells = [
        ("class", "acid"),
        ("ρ", "1.2 kg/L"),
        ("μ", "2 mPa·s"),
        ("q", "5 L/min"),
        ("z", "2 m"),
        ("l", "10 m"),
        ("D", "12.7 mm"),
        ("V_st", "0.5 L"),
        ("p_air", "300 kPa"),
    ];
    type_in(&mut plan, warm, "delivery-line", &cells);
    let pump = "Copper: delivery pump";
    let of_line = answer(&plan, warm, "delivery-line", "air", "", NORMAL_L_PER_MIN);
    let [peak, mean] = ["a_1", "a_2"].map(|s| answer(&plan, site, "utilities", s, pump, NORMAL_L_PER_MIN));
    assert!((peak - of_line).abs() < 1e-9 && (mean - of_line).abs() < 1e-9, "{peak} {mean}");
    assert!(said(&plan, site, "a_y", pump).contains("no supply is known"));
    type_in(&mut plan, warm, "supply", &[("l", "10 m"), ("z", "2 m")]);
    type_row(&mut plan, (warm, "supply", "liquids"), "Sulfuric acid", &[("q_o", "72 L/day")]);
    let mean = answer(&plan, site, "utilities", "a_2", pump, NORMAL_L_PER_MIN);
    assert!((mean / of_line - 0.01).abs() < 1e-9, "{mean} of {of_line}");
    assert!(said(&plan, site, "a_y", pump).contains("as its supply takes it"));
    // An electric one takes power in its place.
    type_in(&mut plan, warm, "delivery-line", &[("p_air", ""), ("η", "40 %")]);
    let power = answer(&plan, warm, "delivery-line", "P", "", WATT);
    let [peak, mean] = ["P_1", "P_2"].map(|s| answer(&plan, site, "utilities", s, pump, WATT));
    assert!((peak - power).abs() < 1e-9 && (mean / power - 0.01).abs() < 1e-9, "{peak} {mean}");
    // A line that is not filled in is named.
    type_in(&mut plan, warm, "delivery-line", &[("D", "")]);
    assert!(left_out(&plan, site).contains("Copper: delivery line"), "{}", left_out(&plan, site));
}

/// The fan of an exhaust runs day and night, and warms no room.
#[test]
fn the_fan_of_an_exhaust_is_a_load() {
    let (mut plan, site, [warm, _]) = line();
    let before = answer(&plan, site, "utilities", "r_p", "", WATT);
    type_in(&mut plan, warm, "exhaust", &[("l", "20 m"), ("K_s", "3")]);
    let fan = answer(&plan, warm, "exhaust", "P_f", "", WATT);
    let [peak, mean] =
        ["P_1", "P_2"].map(|s| answer(&plan, site, "utilities", s, "Copper: exhaust fan", WATT));
    assert!(fan > 0.0 && (peak - fan).abs() < 1e-9 && (mean - fan).abs() < 1e-9, "{fan} {peak} {mean}");
    assert!((answer(&plan, site, "utilities", "r_p", "", WATT) - before).abs() < 1e-9);
}

/// By hand: two in use and three that wait: 90 L of 1.2 kg/L and 8 kg of drum are
/// 116 kg, five of them 580 kg; 2 by 1 m with 0.5 m all round are 2 and 6 m².
#[test]
fn containers_of_a_route_stand_on_the_floor() {
    let (mut plan, site, _) = line();
    let route = plan.add(Subject::Route, "Concentrate");
    let cells = [
        ("kind", "concentrate for recovery"),
        ("Q", "10 L/day"),
        ("q_p", "1 L/min"),
        ("V_1", "0 L"),
        ("ρ", "1.2 kg/L"),
        ("V", "100 L"),
        ("m_t", "8 kg"),
        ("arr", "two, with automatic change-over"),
        ("n_s", "3"),
    ];
    type_in(&mut plan, route, "collection", &cells);
    assert_eq!(answer(&plan, site, "utilities", "n_k", "", NUMBER), 5.0);
    assert!((answer(&plan, site, "utilities", "m_k", "", KG) - 580.0).abs() < 1e-9);
    // An item of floor may hold anything; without one each floor is asked for.
    assert!(!left_out(&plan, site).contains("floor"), "{}", left_out(&plan, site));
    plan.remove_row(site, "utilities", "items", "Tool");
    assert!(left_out(&plan, site).contains("Concentrate: floor"), "{}", left_out(&plan, site));
    let floor = [("b_r", "2 m"), ("t_r", "1 m"), ("c_r", "0.5 m")];
    for (symbol, text) in floor {
        plan.type_in(&Field::cell(site, "utilities", "routes", "Concentrate", symbol), text, None);
    }
    let [taken, all] = ["F_1", "F_2"].map(|s| answer(&plan, site, "utilities", s, "Concentrate", M2));
    assert!((taken - 2.0).abs() < 1e-9 && (all - 6.0).abs() < 1e-9, "{taken} {all}");
    assert!((answer(&plan, site, "utilities", "F_a", "", M2) - 2.0).abs() < 1e-9);
    assert!(!left_out(&plan, site).contains("Concentrate"), "{}", left_out(&plan, site));
}

/// By hand: 2 L/min for 15 min are 30 L, at 200 W/m³ 6 W in each stage, 8 W through 75 %.
#[test]
fn stirrers_of_a_neutralisation_are_a_load() {
    let (mut plan, site, _) = line();
    let route = plan.add(Subject::Route, "Acid water");
    let cells = [
        ("kind_r", "acid and base water"),
        ("Q", "2880 L/day"),
        ("q_m", "2 L/min"),
        ("pH_0", "2"),
        ("C_b", "5 mol/L"),
        ("pH_t", "8"),
    ];
    type_in(&mut plan, route, "neutralisation", &cells);
    let stages = answer(&plan, route, "neutralisation", "N_s", "", NUMBER);
    let [peak, mean] =
        ["P_1", "P_2"].map(|s| answer(&plan, site, "utilities", s, "Acid water: stirrers", WATT));
    assert!((peak - 8.0 * stages).abs() < 1e-9 && mean == peak, "{peak} in {stages} stages");
    let warms = answer(&plan, site, "utilities", "r_1", "Acid water: stirrers", WATT);
    assert!((warms - 2.0 * stages).abs() < 1e-9, "{warms}");
    // Precipitation asks for floor alone, and what it makes is carried away.
    type_in(&mut plan, route, "precipitation", &[]);
    assert!(left_out(&plan, site).contains("Acid water: precipitation"), "{}", left_out(&plan, site));
    let cells = [("kind_r", "acid and base water"), ("bound", "none, as the makers of the baths say")];
    type_in(&mut plan, route, "precipitation", &cells);
    type_in(&mut plan, route, "precipitation", &[("Q", "2880 L/day"), ("m_o", "3 kg/day")]);
    type_row(&mut plan, (route, "precipitation", "metals"), "Cu", &[("c_m", "50 mg/L")]);
    let solid = answer(&plan, route, "precipitation", "m_T", "", KG_PER_DAY);
    assert!(solid > 3.0 && (answer(&plan, site, "utilities", "m_s", "", KG_PER_DAY) - solid).abs() < 1e-9);
}

/// By hand: 50 L of resin at 10 bed volumes an hour are 8.3333 L/min, and 550 L every so many days.
#[test]
fn a_regeneration_takes_water() {
    let (mut plan, site, _) = line();
    let route = plan.add(Subject::Route, "Dilute");
    let cells = [
        ("Q", "4800 L/day"),
        ("q_T", "1.2 eq/L"),
        ("V_b", "50 L"),
        ("service", "regenerated here"),
        ("kind", "dilute metal"),
    ];
    type_in(&mut plan, route, "ion-exchange", &cells);
    assert!(left_out(&plan, site).contains("Dilute: ion exchange"), "{}", left_out(&plan, site));
    type_row(&mut plan, (route, "ion-exchange", "metals"), "Ni", &[("c", "30 mg/L")]);
    let days = answer(&plan, route, "ion-exchange", "t_b", "", bathbook::units::DAYS);
    let [peak, mean] =
        ["w_1", "w_2"].map(|s| answer(&plan, site, "utilities", s, "Dilute: regeneration", L_PER_MIN));
    assert!((peak - 500.0 / 60.0).abs() < 1e-9, "{peak}");
    assert!((mean - 550.0 / days / 1440.0).abs() < 1e-9, "{mean}");
}

/// A rinse whose stream is not filled in counts by its sheet of rinse. By hand: 960 wafers of 5 mL at 24 h carry 0.2 L/h;
/// two stages for 1000 times dilution take 31.13 to one (r² + r + 1 = 1000, exact), 6.2 L/h.
#[test]
fn a_rinse_counts_by_its_own_sheet_where_its_stream_has_no_answer() {
    let (mut plan, site, _) = line();
    let rinse = plan.add(Subject::Stream, "Rinse");
    type_in(&mut plan, rinse, "stream", &[("kind", "rinse")]);
    assert!(left_out(&plan, site).contains("Rinse: the stream"), "{}", left_out(&plan, site));
    let cells = [("d_w", "5 mL"), ("N", "960 per day"), ("stages", "two in counterflow"), ("x_t", "1000")];
    type_in(&mut plan, rinse, "rinse", &cells);
    let ratio = (-1.0 + (1.0f64 + 4.0 * 999.0).sqrt()) / 2.0;
    let peak = answer(&plan, site, "utilities", "w_1", "Rinse", L_PER_MIN);
    assert!((peak - 0.2 * ratio / 60.0).abs() < 1e-9, "{peak}");
    assert!(!left_out(&plan, site).contains("Rinse"), "{}", left_out(&plan, site));
}

/// What leaves the site stands in the request, by which way.
#[test]
fn discharges_are_asked_for_by_the_day() {
    let (mut plan, site, _) = line();
    let sewer = plan.add(Subject::Discharge, "Sewer");
    type_in(&mut plan, sewer, "discharge", &[("Q", "1200 L/day")]);
    assert!((answer(&plan, site, "utilities", "x_1", "Sewer", L_PER_DAY) - 1200.0).abs() < 1e-9);
    assert!((answer(&plan, site, "utilities", "x_d", "", L_PER_DAY) - 1200.0).abs() < 1e-9);
    assert!(said(&plan, site, "x_y", "Sewer").contains("public sewer"));
}

/// By hand: 1.5 kg/h evaporate to 36 kg a day; a rinse of 4 L/min; a tank filled at 20 L/min.
#[test]
fn water_follows_rinses_evaporation_and_the_fill() {
    let (mut plan, site, [warm, _]) = line();
    let rinse = plan.add(Subject::Stream, "Rinse");
    plan.set_from(rinse, Some(warm));
    let cells = [("d_w", "5 mL"), ("water", "flow while it runs"), ("q", "4 L/min")];
    type_in(&mut plan, rinse, "stream", &cells);
    let evaporates = answer(&plan, warm, "evaporation", "q_water", "", L_PER_DAY);
    let mean = answer(&plan, site, "utilities", "w_m", "", L_PER_MIN);
    assert!((mean - 4.0 - evaporates / 1440.0).abs() < 1e-9, "{mean}");
    let a_day = answer(&plan, site, "utilities", "w_d", "", L_PER_DAY);
    assert!((a_day - 5760.0 - evaporates).abs() < 1e-6, "{a_day}");
    let before = answer(&plan, site, "utilities", "w_p", "", L_PER_MIN);
    type_in(
        &mut plan,
        warm,
        "start-stop",
        &[("q_f", "20 L/min"), ("q_d", "40 L/min"), ("t_m", "6 h"), ("t_a", "4 h")],
    );
    assert!((answer(&plan, site, "utilities", "w_p", "", L_PER_MIN) - before - 20.0).abs() < 1e-9);
}

/// By hand: 200 L at 20 L/min take 10 min to fill; 190 of them drain. Heating up is that of the sheet of heat-up.
#[test]
fn start_and_stop_follow_the_make_up_and_the_heat_up() {
    let (mut plan, _, [warm, _]) = line();
    let cells = [
        ("q_f", "20 L/min"),
        ("q_d", "38 L/min"),
        ("t_m", "6 h"),
        ("t_a", "4 h"),
        ("n_r", "2"),
        ("f_r", "50 %"),
    ];
    type_in(&mut plan, warm, "start-stop", &cells);
    assert!((answer(&plan, warm, "start-stop", "t_f", "", MINUTE) - 10.0).abs() < 1e-9);
    assert!((answer(&plan, warm, "start-stop", "t_d", "", MINUTE) - 5.0).abs() < 1e-9);
    assert!((answer(&plan, warm, "start-stop", "D_x", "", L) - 390.0).abs() < 1e-9);
    let heats = answer(&plan, warm, "heat-up", "t_up", "", MINUTE);
    let change = answer(&plan, warm, "start-stop", "t_x", "", MINUTE);
    let rinses = 2.0 * (100.0 / 20.0 + 100.0 / 38.0);
    assert!((change - 5.0 - rinses - 10.0 - 600.0 - heats).abs() < 1e-6, "{change} {heats}");
    let idle = answer(&plan, warm, "start-stop", "W_i", "", L);
    let evaporates = answer(&plan, warm, "evaporation", "q_water", "", L_PER_DAY);
    assert!((idle - evaporates * 2.5).abs() < 1e-6, "{idle}");
}

/// By hand: air for 40 L/min against 300 kPa of gauge at sea level is 158.431 L/min of the room's air, at 21 °C
/// 147.120 NL/min: the room's litres are not normal ones.
#[test]
fn air_of_a_lift_station_is_counted_in_normal_litres() {
    let (mut plan, site, _) = line();
    let drain = plan.add(Subject::Drain, "Trench");
    let cells = [
        ("l", "12 m"),
        ("h_av", "450 mm"),
        ("D", "50 mm"),
        ("station", "one is planned"),
        ("q_pump", "40 L/min"),
        ("q_p", "8 L/min"),
        ("p_air", "300 kPa"),
    ];
    type_in(&mut plan, drain, "drain", &cells);
    let used = answer(&plan, site, "utilities", "a_1", "Trench: lift station", NORMAL_L_PER_MIN);
    assert!((used / (158.431 * 273.15 / 294.15) - 1.0).abs() < 1e-4, "{used}");
    // Nothing arrives in the mean, so it does not pump.
    assert_eq!(answer(&plan, site, "utilities", "a_2", "Trench: lift station", NORMAL_L_PER_MIN), 0.0);
    type_in(&mut plan, drain, "drain", &[("q_m", "4 L/min")]);
    let pumps = answer(&plan, site, "utilities", "a_2", "Trench: lift station", NORMAL_L_PER_MIN);
    assert!((pumps / used - 0.1).abs() < 1e-9, "{pumps}");
    assert_eq!(answer(&plan, site, "utilities", "n_d", "", NUMBER), 1.0);
    assert!((answer(&plan, site, "utilities", "d_p", "", L_PER_MIN) - 8.0).abs() < 1e-9);
    plan.add(Subject::Route, "Metal water");
    assert_eq!(answer(&plan, site, "utilities", "n_r", "", NUMBER), 1.0);
    plan.remove_row(site, "utilities", "items", "Tool");
    // By hand: 1 m² with 0.5 m all round is 4 m².
    assert!(left_out(&plan, site).contains("Trench: lift station, its floor"), "{}", left_out(&plan, site));
    type_in(&mut plan, drain, "drain", &[("A_s", "1 m²")]);
    plan.type_in(&Field::cell(site, "utilities", "drains", "Trench", "c_d"), "0.5 m", None);
    assert!((answer(&plan, site, "utilities", "F_2", "Trench: lift station", M2) - 4.0).abs() < 1e-9);
    assert!((answer(&plan, site, "utilities", "d_1", "Trench", L_PER_MIN) - 8.0).abs() < 1e-9);
    assert!((answer(&plan, site, "utilities", "d_2", "Trench", L_PER_MIN) - 4.0).abs() < 1e-9);
}

/// EPA-600/2-80-076, chart groups 11 with 1: an acid and a cyanide bath on one duct, by its number.
#[test]
fn two_baths_on_one_duct_are_refused_by_name() {
    let (mut plan, site, [warm, cold]) = line();
    type_in(&mut plan, warm, "exhaust", &[("n_d", "1")]);
    type_in(&mut plan, cold, "exhaust", &[("n_d", "1")]);
    type_row(&mut plan, (cold, "exhaust", "openings"), "Cabinet", &[("v_c", "0.5 m/s"), ("A_f", "0.1 m²")]);
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(site, "utilities").expect("utilities");
    let stop = results.stop(cell).expect("a refusal");
    assert!(stop.reason.contains("Gold") && stop.reason.contains("Copper"), "{}", stop.text());
    type_in(&mut plan, cold, "exhaust", &[("n_d", "2")]);
    assert!((answer(&plan, site, "utilities", "e_p", "", M3_PER_H) - 540.0).abs() < 1e-9);
}

/// A sheet without an answer keeps nobody from the rest, and is named.
#[test]
fn an_unfinished_bath_is_named_and_the_rest_is_counted() {
    let (mut plan, site, [_, cold]) = line();
    type_in(&mut plan, cold, "heat-up", &[]);
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(site, "utilities").expect("utilities");
    let outcome = results.outcome(cell).expect("an outcome");
    let text = &outcome.findings.iter().find(|finding| finding.at == "known").expect("a finding").text;
    assert!(text.contains("Gold: heat-up") && !text.contains("Copper"), "{text}");
    assert!((answer(&plan, site, "utilities", "P_1", "Copper: heater", KW) - 5.0).abs() < 1e-9);
}

/// The example lines get an answer from the sheet as they stand.
#[test]
fn the_building_is_asked_for_every_example_line() {
    for (id, ..) in bathbook::plan::examples::ALL {
        let mut plan = bathbook::plan::examples::plan(id).expect("an example");
        let site = plan.site().expect("a site").id;
        plan.add_sheet(site, "utilities");
        assert!(answer(&plan, site, "utilities", "P_c", "", KW) > 0.0, "{id}");
        assert!(answer(&plan, site, "utilities", "w_m", "", L_PER_MIN) > 0.0, "{id}");
    }
}

/// Common practice, no source: an acid or cyanide bath is exhausted, a concentrate stands in a container, and a lift
/// station's pump runs on something. What no sheet says of these is named, and not taken for none.
#[test]
fn what_has_no_sheet_or_no_number_is_named_as_left_out() {
    let (mut plan, site, [warm, cold]) = line();
    assert!(left_out(&plan, site).contains("Gold: exhaust, as its class is cyanide"));
    type_in(&mut plan, cold, "exhaust", &[]);
    assert!(!left_out(&plan, site).contains("as its class is cyanide"));
    let cells = [
        ("class", "acid"),
        ("ρ", "1.2 kg/L"),
        ("μ", "2 mPa·s"),
        ("q", "5 L/min"),
        ("z", "2 m"),
        ("l", "10 m"),
        ("D", "12.7 mm"),
    ];
    type_in(&mut plan, warm, "delivery-line", &cells);
    assert!(
        left_out(&plan, site).contains("Left out, as its power or air is not typed: Copper: delivery pump")
    );
    type_in(&mut plan, warm, "delivery-line", &[("η", "30 %")]);
    assert!(!left_out(&plan, site).contains("delivery pump"));
    let route = plan.add(Subject::Route, "Concentrate");
    type_in(&mut plan, route, "route", &[("kind", "concentrate for recovery")]);
    assert!(left_out(&plan, site).contains("Concentrate: its container"));
    plan.add_sheet(route, "collection");
    assert!(!left_out(&plan, site).contains("its container"));
}
