//! What the building is asked for: that it follows the sheets of all places, and the site's.
//!
//! The line is invented. What a test expects is worked out by hand beside it.

mod common;

use bathbook::calculator::Subject;
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{
    AMPERE, KW, L, L_PER_DAY, L_PER_MIN, M3_PER_H, MINUTE, NORMAL_L_PER_H, NORMAL_L_PER_MIN, NUMBER,
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
    (plan, site, [warm, cold])
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
