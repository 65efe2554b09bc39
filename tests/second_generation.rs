//! From a route through its treatment to the discharge: the second generation of streams.
//!
//! The line is invented. What a test expects is worked out by hand beside it.

mod common;

use bathbook::calculator::{Severity, Subject};
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{DAYS, G_PER_DAY_METAL, L_PER_DAY, L_PER_EQ_H, MG_PER_L_METAL, Unit};
use common::type_in;

struct Line {
    plan: Plan,
    route: Id,
    treated: Id,
    outfall: Id,
}

/// 5000 L a day of acid rinse water with 20 mg/L of copper and 0.4 of nickel, a column of 100 L, and its water
/// to the sewer.
fn line() -> Line {
    let mut plan = Plan::new("A line (invented)");
    let rinse = plan.add(Subject::Stream, "Rinse");
    type_in(
        &mut plan,
        rinse,
        "stream",
        &[("kind", "another liquid"), ("class", "acid"), ("Q_t", "5000 L/day")],
    );
    for (metal, c) in [("Cu", "20 mg/L"), ("Ni", "0.4 mg/L")] {
        plan.add_row(rinse, "stream", "metals", metal);
        plan.type_in(&Field::cell(rinse, "stream", "metals", metal, "c_in"), c, None);
    }
    let route = plan.add(Subject::Route, "Dilute");
    plan.set_to(rinse, Some(route));
    plan.add_sheet(route, "ion-exchange");
    type_in(&mut plan, route, "ion-exchange", &[("q_p", "500 L/h"), ("q_T", "1.2 eq/L"), ("V_b", "100 L")]);
    let treated = plan.add(Subject::Treated, "Treated water");
    plan.set_from(treated, Some(route));
    type_in(&mut plan, treated, "treated", &[("class", "acid"), ("pH", "6.5")]);
    let outfall = plan.add(Subject::Discharge, "Sewer");
    plan.set_to(treated, Some(outfall));
    Line { plan, route, treated, outfall }
}

#[track_caller]
fn found(plan: &Plan, place: Id, calculator: &str, symbol: &str, key: &str, unit: &Unit) -> f64 {
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(place, calculator).expect("a sheet of that name");
    let answer = results.answer(cell, symbol, key).map(|(_, si)| unit.from_si(si));
    answer.unwrap_or_else(|| panic!("no {symbol}: {:?}", results.stop(cell)))
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-9 * expected.abs(), "{found} is not {expected}");
}

fn balance(plan: &Plan, symbol: &str, key: &str) -> f64 {
    let site = plan.site().expect("a site").id;
    found(plan, site, "balance", symbol, key, G_PER_DAY_METAL)
}

fn findings(plan: &Plan, least: Severity) -> Vec<String> {
    let results = Results::of(plan, None);
    let all = results.findings().into_iter().filter(|found| found.finding.severity >= least);
    all.map(|found| found.finding.text).collect()
}

#[test]
fn a_column_takes_its_water_and_its_metals_from_the_route() {
    let Line { plan, route, .. } = line();
    // By hand: 20 / 31.773 + 0.4 / 29.3465 meq/L of 5000 L are 3.2155 eq a day; 72 eq of the bed are used.
    let load = 5.0 * (20.0 / 31.773 + 0.4 / 29.3465);
    near(found(&plan, route, "ion-exchange", "t_b", "", DAYS), 72.0 / load);
    near(found(&plan, route, "ion-exchange", "m_h", "Cu", G_PER_DAY_METAL), 95.0);
}

#[test]
fn treated_water_arrives_at_its_discharge_metal_by_metal() {
    let Line { plan, treated, outfall, .. } = line();
    near(found(&plan, treated, "treated", "Q_day", "", L_PER_DAY), 5000.0);
    near(found(&plan, treated, "treated", "c_w", "Cu", MG_PER_L_METAL), 1.0);
    near(found(&plan, outfall, "discharge", "c_m", "Cu", MG_PER_L_METAL), 1.0);
    near(found(&plan, outfall, "discharge", "c_p", "Ni", MG_PER_L_METAL), 0.4);
    assert_eq!(findings(&plan, Severity::Caution), Vec::<String>::new());
    // The permit of the site counts there.
    let mut plan = plan;
    let site = plan.site().expect("a site").id;
    plan.add_row(site, "site", "metals", "Cu");
    plan.type_in(&Field::cell(site, "site", "metals", "Cu", "daily"), "0.5 mg/L", None);
    let found = findings(&plan, Severity::Serious);
    assert!(found.iter().any(|text| text.contains("permit’s daily limit")), "{found:?}");
}

#[test]
fn the_balance_closes_with_what_goes_away_on_resin() {
    let Line { plan, .. } = line();
    for metal in ["Cu", "Ni"] {
        for symbol in ["z", "n", "y", "w"] {
            assert_eq!(balance(&plan, symbol, metal), 0.0, "{symbol}[{metal}]");
        }
    }
}

#[test]
fn the_balance_closes_with_what_is_washed_out_of_the_resin() {
    let Line { mut plan, route, .. } = line();
    type_in(&mut plan, route, "ion-exchange", &[("service", "regenerated here")]);
    // As long as no place takes it, the metal stays where it is.
    near(balance(&plan, "y", "Cu"), 95.0);
    let spent = plan.add(Subject::Treated, "Spent regenerant");
    plan.set_from(spent, Some(route));
    type_in(&mut plan, spent, "treated", &[("what", "spent regenerant and rinses"), ("class", "acid")]);
    assert_eq!(balance(&plan, "y", "Cu"), 0.0);
    let found = findings(&plan, Severity::Caution);
    assert!(found.iter().any(|text| text.contains("leads nowhere yet")), "{found:?}");
    let drum = plan.add(Subject::Discharge, "Drum");
    type_in(&mut plan, drum, "discharge", &[("what", "a container that is taken away")]);
    plan.set_to(spent, Some(drum));
    for symbol in ["z", "n", "y", "w"] {
        assert_eq!(balance(&plan, symbol, "Cu"), 0.0, "{symbol}");
    }
    near(found_at(&plan, drum), 95.0);
}

fn found_at(plan: &Plan, drum: Id) -> f64 {
    found(plan, drum, "discharge", "m_T", "", G_PER_DAY_METAL)
}

#[test]
fn water_that_stands_twice_is_told() {
    let Line { mut plan, route, outfall, .. } = line();
    let again = plan.add(Subject::Treated, "The same again");
    plan.set_from(again, Some(route));
    plan.set_to(again, Some(outfall));
    type_in(&mut plan, again, "treated", &[("class", "acid")]);
    let found = findings(&plan, Severity::Serious);
    assert!(found.iter().any(|text| text.contains("stands twice")), "{found:?}");
}

#[test]
fn untreated_water_keeps_its_peak_day() {
    let Line { mut plan, route, treated, outfall } = line();
    let dump = plan.add(Subject::Stream, "Dump");
    type_in(
        &mut plan,
        dump,
        "stream",
        &[("kind", "bath dump"), ("class", "acid"), ("V_d", "100 L"), ("t_d", "50 days")],
    );
    plan.add_row(dump, "stream", "metals", "Cu");
    plan.type_in(&Field::cell(dump, "stream", "metals", "Cu", "c_in"), "10 g/L", None);
    plan.set_to(dump, Some(route));
    type_in(&mut plan, treated, "treated", &[("what", "the route’s water, not treated")]);
    // By hand: 100 + 20 g in the mean day's 5002 L; 1000 g and 100 L more on the day of the dump.
    near(found(&plan, outfall, "discharge", "c_m", "Cu", MG_PER_L_METAL), 120_000.0 / 5002.0);
    near(found(&plan, outfall, "discharge", "c_p", "Cu", MG_PER_L_METAL), 1_120_000.0 / 5102.0);
}

#[test]
fn a_treated_stream_never_leads_back_to_what_feeds_its_own_sheet() {
    let Line { mut plan, route, treated, outfall } = line();
    plan.set_to(treated, Some(route));
    assert_ne!(plan.place(treated).expect("the place").to, Some(route));
    plan.set_from(route, Some(treated));
    assert_eq!(plan.place(route).expect("the place").from, None);
    // Nor does a file from elsewhere bring it about.
    plan.place_mut(treated).expect("the place").to = Some(route);
    plan.place_mut(outfall).expect("the place").to = Some(route);
    let plan = plan.mended();
    assert!(plan.places.iter().all(|place| place.subject == Subject::Stream || place.to.is_none()));
}

#[test]
fn a_resin_that_must_not_be_leaves_its_water_without_an_answer() {
    let Line { mut plan, route, treated, .. } = line();
    type_in(&mut plan, route, "ion-exchange", &[("ox", "yes")]);
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(treated, "treated").expect("a sheet");
    // Its refusal is passed on: nothing is still to be typed here.
    let stop = results.stop(cell).expect("no answer");
    assert!(stop.passed_on && !stop.todo && stop.reason.contains("oxidiser"), "{stop:?}");
}

#[test]
fn a_column_test_gives_the_curve_its_rate_constant() {
    let Line { mut plan, route, .. } = line();
    plan.add_sheet(route, "column-test");
    // What is not filled in keeps no column waiting.
    near(found(&plan, route, "ion-exchange", "c_o", "Cu", MG_PER_L_METAL), 1.0);
    plan.type_in(&Field::single(route, "column-test", "metal"), "Cu", None);
    let test = [("c_0", "31.7730 mg/L"), ("q", "10 mL/min"), ("V_b", "100 mL")];
    type_in(&mut plan, route, "column-test", &test);
    for (key, t, c) in
        [("1", "17 h", "2.6430 mg/L"), ("2", "20 h", "15.8865 mg/L"), ("3", "23 h", "29.1304 mg/L")]
    {
        plan.add_row(route, "column-test", "readings", key);
        plan.type_in(&Field::cell(route, "column-test", "readings", key, "t"), t, None);
        plan.type_in(&Field::cell(route, "column-test", "readings", key, "c"), c, None);
    }
    let k = found(&plan, route, "column-test", "k", "", L_PER_EQ_H);
    assert!((k / 800.0 - 1.0).abs() < 1e-3, "{k}");
    assert!(found(&plan, route, "ion-exchange", "t_a", "", DAYS) > 10.0);
}

#[test]
fn water_and_sludge_of_a_precipitation_hold_together_what_the_route_brings() {
    let Line { mut plan, route, treated, outfall } = line();
    plan.remove_sheet(route, "ion-exchange");
    plan.add_sheet(route, "precipitation");
    let held =
        [("bound", "none, as the makers of the baths say"), ("pH_0", "3"), ("C_b", "5 mol/L"), ("pH", "9.5")];
    type_in(&mut plan, route, "precipitation", &held);
    type_in(
        &mut plan,
        route,
        "precipitation",
        &[("set", "MINTEQA2"), ("s_c", "1 mg/L"), ("x_w", "2 %"), ("x_c", "30 %")],
    );
    type_in(&mut plan, treated, "treated", &[("what", "water from precipitation")]);
    let left = found(&plan, route, "precipitation", "c_l", "Cu", MG_PER_L_METAL);
    near(found(&plan, outfall, "discharge", "c_m", "Cu", MG_PER_L_METAL), left);
    assert!(balance(&plan, "y", "Cu") > 90.0, "as long as no place takes the sludge");
    let sludge = plan.add(Subject::Treated, "Cake");
    plan.set_from(sludge, Some(route));
    type_in(&mut plan, sludge, "treated", &[("what", "sludge of precipitation"), ("class", "alkaline")]);
    let bin = plan.add(Subject::Discharge, "Bin");
    type_in(&mut plan, bin, "discharge", &[("what", "a container that is taken away")]);
    plan.set_to(sludge, Some(bin));
    for metal in ["Cu", "Ni"] {
        for symbol in ["z", "n", "y", "w"] {
            assert_eq!(balance(&plan, symbol, metal), 0.0, "{symbol}[{metal}]");
        }
    }
    // Without solids typed the sheet gives no volume; typed here, the sludge holds what fell.
    type_in(&mut plan, route, "precipitation", &[("x_w", ""), ("x_c", "")]);
    type_in(&mut plan, sludge, "treated", &[("Q_t", "0.5 L/day")]);
    assert_eq!(balance(&plan, "y", "Cu"), 0.0);
}

#[test]
fn neutralised_water_holds_what_came_in() {
    let Line { mut plan, route, treated, outfall } = line();
    plan.remove_sheet(route, "ion-exchange");
    plan.add_sheet(route, "neutralisation");
    type_in(&mut plan, route, "neutralisation", &[("pH_0", "2.5"), ("C_b", "5 mol/L"), ("pH_t", "8")]);
    type_in(&mut plan, treated, "treated", &[("what", "water from neutralisation")]);
    near(found(&plan, outfall, "discharge", "m_T", "", G_PER_DAY_METAL), 102.0);
    assert_eq!(balance(&plan, "y", "Cu"), 0.0);
}

/// Where a route's water goes is said in one of three ways; a balance that closes at the route is none of them.
#[test]
fn a_route_that_ends_nowhere_is_told_until_something_takes_its_water() {
    let mut line = line();
    let told = |plan: &Plan| {
        let all = findings(plan, Severity::Caution);
        all.into_iter().filter(|text| text.contains("nothing says where they go")).collect::<Vec<_>>()
    };
    let (route, treated) = (line.route, line.treated);
    assert_eq!(told(&line.plan), [""; 0], "a treated stream comes from it");

    // A column alone takes the metals, not the water.
    line.plan.set_from(treated, None);
    let [text] = &told(&line.plan)[..] else { panic!("{:?}", told(&line.plan)) };
    assert!(text.starts_with("Dilute: 5000\u{a0}L/day arrive on this route"), "{text}");
    assert!(text.contains("sheet of collection") && text.contains("choose that on the route"), "{text}");

    let mut collected = line.plan.clone();
    collected.add_sheet(route, "collection");
    assert_eq!(told(&collected), [""; 0], "containers take it, whatever is still to be typed of them");

    let mut discharged = line.plan.clone();
    type_in(&mut discharged, route, "route", &[("ends", "leaves the site as it is")]);
    assert_eq!(told(&discharged), [""; 0]);

    // A route that nothing leads to loses nothing.
    let stream = line.plan.places.iter().find(|place| place.name == "Rinse").expect("the rinse").id;
    line.plan.set_to(stream, None);
    assert_eq!(told(&line.plan), [""; 0]);
}

/// What a treated stream comes to may still be open: that its route leads on is known.
#[test]
fn a_treated_stream_that_is_not_filled_in_yet_takes_its_routes_water_all_the_same() {
    let mut line = line();
    line.plan.remove_sheet(line.route, "ion-exchange");
    let results = Results::of(&line.plan, None);
    let cell = results.network.cell_at(line.treated, "treated").expect("a sheet");
    assert!(results.stop(cell).is_some(), "no sheet says how much of it there is");
    let all = findings(&line.plan, Severity::Caution);
    assert!(all.iter().all(|text| !text.contains("nothing says where they go")), "{all:#?}");
}
