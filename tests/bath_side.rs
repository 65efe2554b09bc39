//! The bath side as one plan: wafers of the site → plating load → chambers, dosing, ageing → throughput.
//!
//! The plants are invented; what is expected of them was worked out by their author apart from this project,
//! from the same figures, or is worked out here by hand.

mod common;

use bathbook::calculator::{Severity, Subject};
use bathbook::network::Origin;
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{A_H, AH_PER_DAY, DAYS, NUMBER, PER_HOUR, PERCENT, Unit};
use common::type_in;

fn type_row(
    plan: &mut Plan,
    place: Id,
    calculator: &'static str,
    table: &'static str,
    key: &str,
    texts: &[(&'static str, &str)],
) {
    plan.add_row(place, calculator, table, key);
    for (symbol, text) in texts {
        plan.type_in(&Field::cell(place, calculator, table, key, symbol), text, None);
    }
}

/// A bath with its recipe and chambers; metals come from the make-up where there is one.
fn add_bath(
    plan: &mut Plan,
    name: &str,
    metals: &[(&str, &str)],
    step: &[(&'static str, &str)],
    chambers: &[(&'static str, &str)],
) -> Id {
    let bath = plan.add(Subject::Bath, name);
    for (metal, share) in metals {
        type_row(plan, bath, "plating", "metals", metal, &[("w", share)]);
    }
    type_row(plan, bath, "plating", "steps", "Layer", step);
    type_in(plan, bath, "chambers", chambers);
    bath
}

/// The invented bumping line: 480 wafers of 300 mm in 24 h, copper, nickel, tin-silver with 2 % silver.
fn bumping() -> (Plan, [Id; 3]) {
    let mut plan = Plan::new("Bumping (invented)");
    let site = plan.site().expect("a site").id;
    type_in(&mut plan, site, "site", &[("hours", "24 h"), ("days", "350")]);
    type_in(
        &mut plan,
        site,
        "wafers",
        &[("D", "300 mm"), ("e", "3 mm"), ("open", "15 %"), ("N_d", "480 per day")],
    );
    plan.add_sheet(site, "throughput");
    let copper = add_bath(
        &mut plan,
        "Copper",
        &[],
        &[("d", "30 µm"), ("j", "8 A/dm²")],
        &[("t_h", "2.5 min"), ("u", "88 %"), ("n", "8")],
    );
    type_in(&mut plan, copper, "make-up", &[("V_t", "250 L"), ("class", "acid")]);
    type_row(&mut plan, copper, "make-up", "ingredients", "Copper sulfate", &[("c_m", "50 g/L")]);
    type_in(&mut plan, copper, "plating", &[("η", "98 %"), ("d_w", "1.5 mL")]);
    type_row(
        &mut plan,
        copper,
        "dosing",
        "additives",
        "Brightener",
        &[
            ("C", "4.2 mL/L"),
            ("k_q", "0.35 mL/(A·h)"),
            ("k_w", "0.02 mL"),
            ("k", "1.5 %/day"),
            ("v_b", "4 L"),
        ],
    );
    type_in(&mut plan, copper, "ageing", &[("L_t", "120 days")]);
    let nickel = add_bath(
        &mut plan,
        "Nickel",
        &[("Ni", "100 %")],
        &[("d", "3 µm"), ("j", "5 A/dm²"), ("η_i", "95 %")],
        &[("t_h", "2.5 min"), ("u", "88 %"), ("n", "3")],
    );
    let tin_silver = add_bath(
        &mut plan,
        "Tin-silver",
        &[("Sn", "98 %"), ("Ag", "2 %")],
        &[("d", "20 µm"), ("j", "4 A/dm²"), ("η_i", "95 %")],
        &[("t_h", "2.5 min"), ("u", "88 %"), ("n", "5")],
    );
    type_in(&mut plan, tin_silver, "plating", &[("anode", "inert")]);
    (plan, [copper, nickel, tin_silver])
}

#[track_caller]
fn answer(plan: &Plan, place: Id, calculator: &str, symbol: &str, unit: &Unit) -> f64 {
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(place, calculator).expect("a sheet of that name");
    let (symbol, key) = symbol.strip_suffix(']').and_then(|s| s.split_once('[')).unwrap_or((symbol, ""));
    let found = results.answer(cell, symbol, key);
    let (_, si) = found.unwrap_or_else(|| panic!("{calculator} gives no {symbol}: {:?}", results.stop(cell)));
    unit.from_si(si)
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

#[test]
fn chambers_before_rounding_are_those_of_the_invented_plants() {
    // The plants’ author: copper 7.52, tin-silver 4.87.
    let (plan, [copper, _, tin_silver]) = bumping();
    near(answer(&plan, copper, "chambers", "n_raw", NUMBER), 7.52, 0.005);
    near(answer(&plan, tin_silver, "chambers", "n_raw", NUMBER), 4.87, 0.005);
    near(answer(&plan, copper, "chambers", "n_up", NUMBER), 8.0, 0.0);
}

#[test]
fn wafers_that_change_at_the_site_change_every_bath() {
    let (mut plan, [copper, ..]) = bumping();
    let site = plan.site().expect("a site").id;
    let before = answer(&plan, copper, "chambers", "n_raw", NUMBER);
    type_in(&mut plan, site, "wafers", &[("N_d", "960 per day")]);
    near(answer(&plan, copper, "chambers", "n_raw", NUMBER), 2.0 * before, 1e-9);
    // A value typed over the link stands by itself.
    type_in(&mut plan, copper, "plating", &[("N", "480 per day")]);
    near(answer(&plan, copper, "chambers", "n_raw", NUMBER), before, 1e-9);
}

#[test]
fn plating_does_not_wait_for_a_make_up_that_nobody_has_filled_in() {
    let (mut plan, [_, nickel, _]) = bumping();
    plan.add_sheet(nickel, "ageing");
    let results = Results::of(&plan, None);
    let stop = results.stop(results.network.cell_at(nickel, "make-up").expect("a make-up"));
    assert!(stop.is_some_and(|stop| stop.todo), "the make-up has no answer yet");
    // The plants’ author gives it three.
    near(answer(&plan, nickel, "chambers", "n_up", NUMBER), 3.0, 0.0);
    // What was typed there is known all the same: the class, and with it the caution.
    type_in(&mut plan, nickel, "make-up", &[("class", "cyanide")]);
    let results = Results::of(&plan, None);
    let outcome =
        results.outcome(results.network.cell_at(nickel, "plating").expect("plating")).expect("an answer");
    assert!(outcome.cautions.iter().any(|text| text.contains("kills")));
    // What does need the make-up says where to go.
    let stop = results.stop(results.network.cell_at(nickel, "ageing").expect("ageing"));
    assert!(stop.is_some_and(|stop| stop.reason.contains("Make-up of Nickel")), "{stop:?}");
}

#[test]
fn metal_of_the_make_up_is_turned_over() {
    // The plants’ author: the copper bath turns its metal over in 9.5 days.
    let (plan, [copper, ..]) = bumping();
    near(answer(&plan, copper, "plating", "t_o[Cu]", DAYS), 9.5, 0.05);
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(copper, "plating").expect("plating");
    let brought = &results.network.cells[cell].given[1];
    assert_eq!(brought.len(), 1, "one row, brought by the make-up");
}

#[test]
fn a_bottle_lasts_by_the_charge_of_the_plating_load() {
    // The plants’ author: a four-litre bottle of brightener every nine days.
    let (plan, [copper, ..]) = bumping();
    near(answer(&plan, copper, "dosing", "t_next", DAYS), 9.4, 0.1);
    let (per_wafer, a_day) =
        (answer(&plan, copper, "dosing", "Q_a", A_H), answer(&plan, copper, "plating", "Q_day", AH_PER_DAY));
    near(per_wafer, 7.0 * a_day, 1e-6);
    near(answer(&plan, copper, "ageing", "t_full", DAYS), 120.0, 1e-9);
}

#[test]
fn the_slowest_metal_rules_the_line_and_one_chamber_more_moves_it() {
    let (mut plan, [copper, nickel, tin_silver]) = bumping();
    let site = plan.site().expect("a site").id;
    let line = answer(&plan, site, "throughput", "r", PER_HOUR);
    let own = [copper, nickel, tin_silver].map(|bath| answer(&plan, bath, "chambers", "r", PER_HOUR));
    near(line, own.into_iter().fold(f64::INFINITY, f64::min), 1e-9);
    // Tin-silver uses 4.87 of 5 chambers, copper 7.52 of 8: tin-silver is the slower.
    near(line, own[2], 1e-9);
    near(answer(&plan, site, "throughput", "use[Tin-silver]", PERCENT), 100.0, 1e-9);
    type_in(&mut plan, tin_silver, "chambers", &[("n", "6")]);
    near(answer(&plan, site, "throughput", "r", PER_HOUR), own[0], 1e-9);
}

#[test]
fn a_chamber_too_few_is_found_with_what_would_cure_it() {
    let (mut plan, [copper, ..]) = bumping();
    type_in(&mut plan, copper, "chambers", &[("n", "6")]);
    let results = Results::of(&plan, None);
    let found: Vec<_> =
        results.findings().into_iter().filter(|f| f.finding.severity == Severity::Caution).collect();
    let on = |id: &str| found.iter().any(|f| results.network.cells[f.cell].calculator.id == id);
    assert!(on("chambers") && on("throughput"));
    assert!(found.iter().any(|f| f.finding.text.contains("Copper")), "the bottleneck is named");
}

#[test]
fn a_line_with_chambers_enough_shows_no_caution() {
    let (plan, _) = bumping();
    let results = Results::of(&plan, None);
    let bath_side = ["wafers", "plating", "chambers", "throughput", "dosing", "ageing"];
    for found in results.findings() {
        let id = results.network.cells[found.cell].calculator.id;
        assert!(
            !bath_side.contains(&id) || found.finding.severity == Severity::Note,
            "{id}: {}",
            found.finding.text
        );
    }
}

#[test]
fn what_follows_can_be_typed_over_and_linked_again() {
    let (mut plan, [copper, ..]) = bumping();
    let share = answer(&plan, copper, "chambers", "share", PERCENT);
    let field = Field::single(copper, "chambers", "t_p");
    plan.type_in(&field, "10 min", None);
    // By hand: 10 of 12.5 minutes, in the 88 % of the time that it can run.
    near(answer(&plan, copper, "chambers", "share", PERCENT), 70.4, 1e-9);
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(copper, "chambers").expect("chambers");
    let port = results.network.cells[cell].calculator.port("t_p").expect("plating time");
    assert_eq!(results.network.cells[cell].origins[0][0][port.column], Origin::Overtyped);
    plan.clear(&field);
    near(answer(&plan, copper, "chambers", "share", PERCENT), share, 1e-12);
}

#[test]
fn a_quick_sum_waits_for_no_sheet_that_is_out_of_sight() {
    let mut plan = Plan::quick("plating", "Plating load", Subject::Bath);
    let bath = plan.places.last().expect("a bath").id;
    type_row(&mut plan, bath, "plating", "metals", "Cu", &[("w", "100 %")]);
    type_row(&mut plan, bath, "plating", "steps", "Layer", &[("d", "50 µm"), ("j", "10 A/dm²")]);
    let stop = |plan: &Plan| {
        let results = Results::of(plan, None);
        results.stop(results.network.cell_at(bath, "plating").expect("plating")).cloned()
    };
    let todo = stop(&plan).expect("still something to type");
    assert!(todo.todo && !todo.passed_on, "{todo:?}");
    let typed = [("D", "300 mm"), ("e", "2 mm"), ("open", "25 %"), ("η", "98 %"), ("N", "24 per day")];
    type_in(&mut plan, bath, "plating", &typed);
    assert_eq!(stop(&plan), None);
    // scipy quad, pint 0.24.4 and CODATA: 23.13682 min.
    near(answer(&plan, bath, "plating", "t_w", bathbook::units::MINUTE), 23.13682, 0.003);
}

#[test]
fn nickel_and_gold_of_the_invented_compound_line() {
    // The plants’ author: 96 wafers of 150 mm in 16 h need 0.96 nickel chambers.
    let mut plan = Plan::new("Compound (invented)");
    let site = plan.site().expect("a site").id;
    type_in(&mut plan, site, "site", &[("hours", "16 h"), ("days", "250")]);
    type_in(
        &mut plan,
        site,
        "wafers",
        &[("D", "150 mm"), ("e", "3 mm"), ("open", "25 %"), ("N_d", "96 per day")],
    );
    let nickel = add_bath(
        &mut plan,
        "Nickel",
        &[("Ni", "100 %")],
        &[("d", "2 µm"), ("j", "2 A/dm²"), ("η_i", "95 %")],
        &[("t_h", "3 min"), ("u", "85 %"), ("n", "1")],
    );
    near(answer(&plan, nickel, "chambers", "n_raw", NUMBER), 0.96, 0.005);
    let results = Results::of(&plan, None);
    let notes = results.findings().into_iter().filter(|f| f.finding.text.contains("just enough")).count();
    assert_eq!(notes, 1, "enough with nothing to spare");
}

#[test]
fn a_row_for_each_bath_says_which_bath_it_follows() {
    let (plan, _) = bumping();
    let site = plan.site().expect("a site").id;
    let results = Results::of(&plan, None);
    for name in ["Copper", "Nickel", "Tin-silver"] {
        let field = Field::cell(site, "throughput", "stations", name, "n");
        let view = results.field(&field, None).expect("a field");
        assert_eq!(view.follows.as_deref(), Some(format!("{name}, Chambers").as_str()));
    }
}
