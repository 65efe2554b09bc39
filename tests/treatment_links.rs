//! What a route’s sheets of treatment follow: volumes, flows and metals of the route, classes of its streams, the
//! permit of the site, and each other.
//!
//! The line is invented. What a test expects is worked out by hand beside it.

mod common;

use bathbook::calculator::Subject;
use bathbook::plan::{Id, Plan};
use bathbook::results::Results;
use bathbook::units::{
    G_PER_DAY_METAL, KG_PER_DAY, L, L_PER_DAY, L_PER_MIN, MG_PER_L_METAL, ML_PER_MIN, MOL_PER_L, MONEY,
    NUMBER, Unit,
};
use common::{row, type_in};

/// A route for dilute metal with 1440 L/day (24 h of 1 L/min) of acid water, 50 mg/L of copper in it.
fn dilute_route() -> (Plan, Id, Id) {
    let mut plan = Plan::new("A line (invented)");
    let route = plan.add(Subject::Route, "Dilute");
    let stream = plan.add(Subject::Stream, "Rinse water");
    plan.set_to(stream, Some(route));
    type_in(
        &mut plan,
        stream,
        "stream",
        &[("kind", "another liquid"), ("class", "acid"), ("Q_t", "1440 L/day")],
    );
    row(&mut plan, stream, ("stream", "metals"), "Cu", &[("c_in", "50 mg/L")]);
    plan.add_sheet(route, "neutralisation");
    plan.add_sheet(route, "precipitation");
    (plan, route, stream)
}

fn found(
    plan: &Plan,
    place: Id,
    calculator: &str,
    symbol: &str,
    key: &str,
    unit: &Unit,
) -> Result<f64, String> {
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(place, calculator).expect("a sheet of that name");
    let answer = results.answer(cell, symbol, key).map(|(_, si)| unit.from_si(si));
    answer.ok_or_else(|| results.stop(cell).map_or("no such answer".into(), |stop| stop.text()))
}

#[track_caller]
fn near(found: Result<f64, String>, expected: f64, within: f64) {
    let found = found.unwrap_or_else(|why| panic!("{why}"));
    assert!((found / expected - 1.0).abs() < within, "{found} is not {expected}");
}

const STOCK: &[(&str, &str)] = &[("C_b", "5 mol/L"), ("pH_t", "4")];

#[test]
fn neutralisation_follows_the_volume_and_flow_of_its_route() {
    let (mut plan, route, stream) = dilute_route();
    let why = found(&plan, route, "neutralisation", "V_d", "", L_PER_DAY).unwrap_err();
    assert!(why.contains("pH of the water"), "{why}");
    // 0.02 mol/L of sulfuric acid take 0.04 of caustic, but for what stays free at pH 4: 57.6 mol a day in 5 mol/L.
    type_in(&mut plan, route, "neutralisation", &[("given", "what is dissolved")]);
    type_in(&mut plan, route, "neutralisation", STOCK);
    row(
        &mut plan,
        route,
        ("neutralisation", "acids"),
        "Sulfuric acid",
        &[("as_a", "mol/L"), ("C_a", "0.02")],
    );
    near(found(&plan, route, "neutralisation", "V_d", "", L_PER_DAY), 57.6 / 5.0, 0.01);
    near(found(&plan, route, "neutralisation", "q_low", "", ML_PER_MIN), 8.0, 0.01);
    near(found(&plan, route, "neutralisation", "q_t", "", L_PER_MIN), 1.0, 1e-9);
    near(found(&plan, route, "neutralisation", "c_o", "Cu", MG_PER_L_METAL), 50.0 / 1.008, 1e-3);
    // Twice the water, twice the reagent.
    type_in(&mut plan, stream, "stream", &[("Q_t", "2880 L/day")]);
    near(found(&plan, route, "neutralisation", "V_d", "", L_PER_DAY), 115.2 / 5.0, 0.01);
}

#[test]
fn a_dump_that_leads_to_the_route_is_what_the_tank_takes_up() {
    let (mut plan, route, _) = dilute_route();
    let dump = plan.add(Subject::Stream, "Dip");
    plan.set_to(dump, Some(route));
    type_in(
        &mut plan,
        dump,
        "stream",
        &[("kind", "bath dump"), ("class", "acid"), ("V_d", "60 L"), ("t_d", "10 days")],
    );
    row(&mut plan, dump, ("stream", "metals"), "Cu", &[("c_in", "50 mg/L")]);
    type_in(&mut plan, route, "neutralisation", &[("pH_0", "2"), ("even", "evened in a tank before")]);
    type_in(&mut plan, route, "neutralisation", STOCK);
    let why = found(&plan, route, "neutralisation", "V_eq", "", L).unwrap_err();
    assert!(why.contains("how fast the largest dump runs in"), "{why}");
    type_in(&mut plan, route, "neutralisation", &[("t_1", "10 min")]);
    near(found(&plan, route, "neutralisation", "V_eq", "", L), 72.0, 1e-9);
    near(found(&plan, route, "neutralisation", "Q_out", "", L_PER_DAY), 1446.0, 0.01);
}

#[test]
fn precipitation_follows_metals_permit_and_what_was_typed_for_neutralisation() {
    let (mut plan, route, _) = dilute_route();
    type_in(&mut plan, route, "neutralisation", &[("pH_0", "2"), ("C_b", "5 mol/L"), ("pH_t", "9")]);
    // Acidity and stock are typed once: both sheets bring the water to pH 9 with the same reagent, but for the copper
    // that one set leaves dissolved and the other lets fall.
    let there = found(&plan, route, "neutralisation", "n_r", "", MOL_PER_L).expect("an answer");
    near(
        found(&plan, route, "precipitation", "n_r", "", MOL_PER_L),
        there - 2.0 * (0.56684 - 0.003317) / 63_546.0,
        1e-5,
    );
    near(found(&plan, route, "precipitation", "lim", "Cu", MG_PER_L_METAL), 2.07, 1e-9);
    let site = plan.site().expect("a site").id;
    row(&mut plan, site, ("site", "metals"), "Cu", &[("daily", "1.5 mg/L"), ("monthly", "1 mg/L")]);
    near(found(&plan, route, "precipitation", "lim", "Cu", MG_PER_L_METAL), 1.0, 1e-9);
    // 72 g/day come in: 0.567 mg/L stay dissolved (PHREEQC 3.8.6, wateq4f.dat), the rest falls.
    near(found(&plan, route, "precipitation", "c_l", "Cu", MG_PER_L_METAL), 0.56684, 0.02);
    let stays = found(&plan, route, "precipitation", "m_l", "Cu", G_PER_DAY_METAL).expect("an answer");
    near(found(&plan, route, "precipitation", "m_f", "Cu", G_PER_DAY_METAL).map(|m| m + stays), 72.0, 1e-9);
    near(found(&plan, route, "precipitation", "m_T", "", KG_PER_DAY), (72.0 - stays) * 1.53525e-3, 1e-4);
    // A limit below what any pH leaves is refused.
    row(&mut plan, site, ("site", "metals"), "Cu", &[("monthly", "0.1 mg/L")]);
    let why = found(&plan, route, "precipitation", "c_l", "Cu", MG_PER_L_METAL).unwrap_err();
    assert!(why.contains("No pH brings Cu to its limit"), "{why}");
}

#[test]
fn precipitation_stands_without_a_sheet_of_neutralisation() {
    let (mut plan, route, _) = dilute_route();
    plan.remove_sheet(route, "neutralisation");
    let why = found(&plan, route, "precipitation", "c_T", "", MG_PER_L_METAL).unwrap_err();
    assert!(why.contains("pH of the water"), "{why}");
    type_in(&mut plan, route, "precipitation", &[("pH_0", "3"), ("C_b", "2 mol/L")]);
    near(found(&plan, route, "precipitation", "c_T", "", MG_PER_L_METAL), 0.56684, 0.02);
    near(found(&plan, route, "precipitation", "pH_lo", "", NUMBER).map(|ph| ph.round()), 7.0, 1e-9);
}

/// A route whose streams change its class after the fact: the acid that was chosen is refused by the table of conflicts.
#[test]
fn a_stream_of_sulfite_led_to_the_route_takes_the_acid_away() {
    let (mut plan, route, stream) = dilute_route();
    type_in(&mut plan, stream, "stream", &[("class", "alkaline")]);
    let lower = [("way", "lowered with an acid"), ("pH_0", "11"), ("pH_t", "8"), ("C_b", "1 mol/L")];
    type_in(&mut plan, route, "neutralisation", &lower);
    assert!(found(&plan, route, "neutralisation", "V_d", "", L_PER_DAY).is_ok_and(|v| v > 0.0));
    // On a route of its own, so that the route itself has nothing to refuse.
    for (kind, class, word) in [
        ("segregated: sulfite", "sulfite", "sulfur dioxide"),
        ("segregated: cyanide", "cyanide", "hydrogen cyanide"),
        ("a route of your own", "unknown", "may hold cyanide"),
    ] {
        type_in(&mut plan, route, "route", &[("kind", kind)]);
        type_in(&mut plan, stream, "stream", &[("class", class)]);
        let why = found(&plan, route, "neutralisation", "V_d", "", L_PER_DAY).unwrap_err();
        assert!(why.contains(word) && why.contains("o acid is added"), "{kind}: {why}");
    }
}

/// By hand: 1440 L of 10 meq/L are 14.4 mol a day; PHREEQC 3.8.6, phreeqc.dat: 0.01 mol/kg of HCl is pH 2.0405.
#[test]
fn the_ph_of_the_mix_is_what_neutralisation_starts_from() {
    let (mut plan, route, stream) = dilute_route();
    type_in(&mut plan, stream, "stream", &[("ac", "free acid, titrated"), ("A", "10 meq/L")]);
    type_in(&mut plan, route, "neutralisation", &[("C_b", "5 mol/L"), ("pH_t", "8")]);
    assert!(
        found(&plan, route, "neutralisation", "V_d", "", L_PER_DAY).is_err(),
        "nobody said that nothing is weak"
    );
    type_in(&mut plan, route, "route", &[("weak", "none, as the makers of the baths say")]);
    near(found(&plan, route, "route", "pH_m", "", NUMBER), 2.0405, 0.01);
    // 50 mg/L of copper take 2 × 0.787 mmol/L along.
    near(found(&plan, route, "neutralisation", "V_d", "", L_PER_DAY), 1.44 * (10.0 + 1.574) / 5.0, 0.01);
}

/// What hydroxide leaves of the copper runs onto the resin; the route as it comes would load it a hundred times as much.
#[test]
fn a_column_behind_precipitation_takes_what_that_leaves() {
    let (mut plan, route, _) = dilute_route();
    plan.add_sheet(route, "ion-exchange");
    let resin = [("q_T", "1.2 eq/L"), ("V_b", "10 L")];
    type_in(&mut plan, route, "ion-exchange", &resin);
    let first = found(&plan, route, "ion-exchange", "BV", "", NUMBER).expect("an answer");
    type_in(&mut plan, route, "ion-exchange", &[("behind", "behind its precipitation")]);
    let why = found(&plan, route, "ion-exchange", "BV", "", NUMBER).unwrap_err();
    assert!(why.contains("sheet of precipitation"), "{why}");
    type_in(&mut plan, route, "precipitation", &[("pH_0", "2"), ("C_b", "5 mol/L")]);
    let left = found(&plan, route, "precipitation", "c_l", "Cu", MG_PER_L_METAL).expect("an answer");
    near(found(&plan, route, "ion-exchange", "BV", "", NUMBER), first * 50.0 / left, 1e-6);
    let out = found(&plan, route, "precipitation", "Q_out", "", L_PER_DAY);
    near(found(&plan, route, "ion-exchange", "Q_o", "", L_PER_DAY), out.expect("an answer"), 1e-9);
    // Its solids are those of this bed: more than 5 mg/L of them clog it.
    type_in(&mut plan, route, "precipitation", &[("s_c", "20 mg/L")]);
    let why = found(&plan, route, "ion-exchange", "BV", "", NUMBER).unwrap_err();
    assert!(why.contains("clog the bed"), "{why}");
}

/// Gold of a reclaim route at the site's price. By hand: 10 L/day of 200 mg/L are 2 g/day; at 60 000 a kg 120 a day.
#[test]
fn the_worth_of_what_is_reclaimed_follows_the_price_of_the_site() {
    let mut plan = Plan::new("A line (invented)");
    let route = plan.add(Subject::Route, "Gold");
    let stream = plan.add(Subject::Stream, "First rinse");
    plan.set_to(stream, Some(route));
    let gold = [("kind", "another liquid"), ("class", "alkaline"), ("Q_t", "10 L/day")];
    type_in(&mut plan, stream, "stream", &gold);
    row(&mut plan, stream, ("stream", "metals"), "Au", &[("c_in", "200 mg/L")]);
    type_in(&mut plan, route, "route", &[("kind", "reclaim of valuable metal")]);
    assert!(found(&plan, route, "route", "w_D", "", MONEY).is_err());
    let site = plan.site().expect("a site").id;
    row(&mut plan, site, ("site", "metals"), "Au", &[("p_metal", "60000")]);
    near(found(&plan, route, "route", "w_D", "", MONEY), 120.0, 1e-9);
    near(found(&plan, route, "route", "w_Y", "", MONEY), 120.0 * 350.0, 1e-9);
    type_in(&mut plan, site, "site", &[("currency", "EUR")]);
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(route, "route").expect("a sheet");
    let (output, si) = results.answer(cell, "w_D", "").expect("an answer");
    assert!(
        output.text(si, &results.network.style).contains("EUR"),
        "{}",
        output.text(si, &results.network.style)
    );
}
