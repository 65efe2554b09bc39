//! Whole plans: the invented examples, and what must hold for any plan.
//!
//! The figures of the examples are arithmetic on invented data: they hold the links between the sheets
//! together, and are checked against nothing outside.

use bathbook::calculator::{Subject, Weight};
use bathbook::network::Origin;
use bathbook::plan::{Field, History, Id, Plan, examples};
use bathbook::results::Results;

fn example(id: &str) -> Plan {
    examples::plan(id).unwrap_or_else(|| panic!("no example {id}"))
}

fn place(plan: &Plan, name: &str) -> Id {
    plan.places.iter().find(|place| place.name == name).unwrap_or_else(|| panic!("no place {name}")).id
}

/// An answer in its declared unit.
fn answer(results: &Results, plan: &Plan, name: &str, calculator: &str, symbol: &str) -> f64 {
    let cell = results.network.cell_at(place(plan, name), calculator).expect("no such sheet");
    let (symbol, key) =
        symbol.split_once('[').map_or((symbol, ""), |(s, key)| (s, key.trim_end_matches(']')));
    let stop = results.stop(cell);
    let (output, si) =
        results.answer(cell, symbol, key).unwrap_or_else(|| panic!("{name} {symbol}[{key}]: {stop:?}"));
    output.unit.from_si(si)
}

fn is_near(got: f64, expected: f64, within: f64) {
    assert!((got / expected - 1.0).abs() < within, "{got} is not {expected}");
}

#[test]
fn every_example_is_read_whole_and_says_that_it_is_invented() {
    for (id, name, _) in examples::ALL {
        let plan = example(id);
        assert!(plan.name.contains("(invented)") && name.contains("(invented)"), "{id}");
        let results = Results::of(&plan, None);
        for cell in &results.network.cells {
            assert!(cell.issues.is_empty() && cell.broken.is_none(), "{id} {}: {:?}", cell.name, cell.issues);
        }
        let text = serde_json::to_string(&plan).unwrap();
        assert_eq!(serde_json::from_str::<Plan>(&text).unwrap(), plan, "{id}");
    }
}

/// What each plan is meant to show, and nothing else that is worse than a note.
#[test]
fn the_examples_have_the_findings_that_they_are_meant_to_show() {
    let found = |id: &str| {
        let plan = example(id);
        let results = Results::of(&plan, None);
        let bad = results.findings().into_iter().filter(|found| found.finding.weight > Weight::Note);
        bad.map(|found| found.finding.text).collect::<Vec<_>>()
    };
    assert_eq!(found("alder-row"), Vec::<String>::new());
    let heron = found("heron-mere");
    assert_eq!(heron.len(), 1, "{heron:#?}");
    assert!(
        heron[0].contains("Gold first rinse (sulfite) must not meet the acid water of this route (acid)"),
        "{heron:?}"
    );
    assert!(heron[0].contains("valuable metal"), "{heron:?}");
    let gannet = found("gannet-point");
    assert_eq!(gannet.len(), 1, "{gannet:#?}");
    assert!(gannet[0].contains("Copper first rinse") && gannet[0].contains("above 60.0"), "{gannet:?}");
}

#[test]
fn the_gold_rinse_led_to_reclaim_mends_the_line_and_its_balance_closes() {
    let mut plan = example("heron-mere");
    let (rinse, reclaim) = (place(&plan, "Gold first rinse"), place(&plan, "Gold to reclaim"));
    plan.set_to(rinse, Some(reclaim));
    let results = Results::of(&plan, None);
    assert!(results.findings().iter().all(|found| found.finding.weight == Weight::Note));
    for metal in ["Ni", "Au"] {
        assert_eq!(answer(&results, &plan, "Site", "balance", &format!("z[{metal}]")), 0.0);
        assert_eq!(answer(&results, &plan, "Site", "balance", &format!("n[{metal}]")), 0.0);
    }
}

#[test]
fn what_the_scenarios_work_out_by_hand_comes_out_of_the_links() {
    let plan = example("gannet-point");
    let results = Results::of(&plan, None);
    let at = |name: &str, calculator: &str, symbol: &str| answer(&results, &plan, name, calculator, symbol);
    // 1.5 mL of 50 g/L into 1 L of water a wafer, one mixed stage: 75/1.0015 mg/L.
    is_near(at("Copper first rinse", "stream", "c_w[Cu]"), 75.0 / 1.0015, 1e-9);
    // 28 m at a quarter inch per foot are 583.3 mm; 300 mm are there.
    is_near(at("Dilute drain to the trench", "drain", "spare"), 300.0 - 28_000.0 / 48.0, 1e-9);
    is_near(at("Dilute drain to the trench", "drain", "l_max"), 14.4, 1e-9);
    // 60 L/min and ten starts an hour: a quarter of six minutes' flow between the levels.
    is_near(at("Dilute drain to the trench", "drain", "V_b"), 90.0, 1e-9);
    for metal in ["Cu", "Ni", "Sn", "Ag"] {
        assert_eq!(at("Site", "balance", &format!("z[{metal}]")), 0.0, "{metal}");
    }
    let (heron, alder) = (example("heron-mere"), example("alder-row"));
    let (h, a) = (Results::of(&heron, None), Results::of(&alder, None));
    is_near(answer(&h, &heron, "Nickel bath", "heat-up", "t_up"), 33.7, 2e-3);
    is_near(answer(&h, &heron, "Gold bath", "heat-up", "t_up"), 36.6, 2e-3);
    is_near(answer(&a, &alder, "Dilute drain", "drain", "spare"), 120.0 - 4000.0 / 48.0, 1e-9);
}

/// Twice the tank is twice the heat-up time, twice the metal in a dump and on its route, and the root
/// of two in the surge through the same valve.
#[test]
fn a_larger_tank_changes_heating_dump_route_and_surge_at_once() {
    let mut plan = example("gannet-point");
    let bath = place(&plan, "Tin-silver bath");
    let look = |plan: &Plan| {
        let results = Results::of(plan, None);
        [
            ("Tin-silver bath", "heat-up", "t_up"),
            ("Tin-silver bath dump", "stream", "m_once[Sn]"),
            ("Concentrate", "route", "m_1[Sn]"),
            ("Concentrate", "route", "V_dump"),
            ("Concentrate drain to the tank", "drain", "q_d"),
        ]
        .map(|(name, calculator, symbol)| {
            let id = place(plan, name);
            let mut network = results.network.clone();
            let spot = network.spot(id, calculator, symbol).unwrap_or_else(|| panic!("no {symbol}"));
            network.value(&spot).unwrap_or_else(|stop| panic!("{symbol}: {stop:?}"))
        })
    };
    let before = look(&plan);
    plan.type_in(&Field::single(bath, "make-up", "V_t"), "400 L", None);
    let after = look(&plan);
    is_near(after[0] / before[0], 2.0, 1e-9);
    is_near(after[1] / before[1], 2.0, 1e-9);
    is_near(after[2] / before[2], 2.0, 1e-9);
    // The copper bath's 250 L were the largest dump before.
    is_near(after[3] / before[3], 400.0 / 250.0, 1e-9);
    is_near(after[4] / before[4], 2.0f64.sqrt(), 1e-9);
}

#[test]
fn a_value_typed_over_a_link_shows_as_such_and_one_touch_links_it_again() {
    let mut plan = example("alder-row");
    let bath = place(&plan, "Copper bath");
    let field = Field::single(bath, "heat-up", "V");
    let state = |plan: &Plan| {
        let results = Results::of(plan, None);
        let (datum, origin) = results.datum(&field).unwrap();
        let follows = results.field(&field, plan.entry(&field)).unwrap().follows;
        (datum.value.si, origin, follows)
    };
    assert_eq!(state(&plan), (0.04, Origin::Linked, Some("Make-up".into())));
    plan.type_in(&field, "50", Some(bathbook::units::L));
    assert_eq!(state(&plan), (0.05, Origin::Overtyped, Some("Make-up".into())));
    plan.clear(&field);
    assert_eq!(state(&plan).1, Origin::Linked);
}

#[test]
fn text_that_cannot_be_read_leaves_the_last_good_value_standing() {
    let mut plan = example("alder-row");
    let field = Field::single(place(&plan, "Copper bath"), "make-up", "V_t");
    for bad in ["4O", "0,02O L", "1,500 L", "12 kg", "1e9 L"] {
        plan.type_in(&field, bad, None);
        let results = Results::of(&plan, None);
        assert_eq!(results.datum(&field).unwrap().0.value.si, 0.04, "{bad}");
        let issue =
            results.field(&field, plan.entry(&field)).unwrap().issue.unwrap_or_else(|| panic!("{bad}"));
        assert_eq!(issue.stands, "The last good value, 40 L, still stands.", "{bad}");
        assert_eq!(plan.entry(&field).unwrap().text, bad, "what was typed is kept");
    }
}

#[test]
fn showing_in_gallons_and_back_keeps_what_was_typed() {
    let mut plan = example("alder-row");
    let field = Field::single(place(&plan, "Copper bath"), "make-up", "V_t");
    let shown = |plan: &Plan| {
        let view = Results::of(plan, None).field(&field, plan.entry(&field)).unwrap();
        (view.text, view.unit.symbol)
    };
    plan.show_in(&field, bathbook::units::GALLON);
    assert_eq!(shown(&plan), ("10.5669".into(), "US gal"));
    assert_eq!(plan.entry(&field).unwrap().text, "40 L");
    plan.show_in(&field, bathbook::units::L);
    assert_eq!(shown(&plan), ("40".into(), "L"));
    assert_eq!(plan.entry(&field).unwrap().show, None);
}

#[test]
fn two_hundred_edits_are_taken_back_one_by_one_and_done_again() {
    let mut history = History::of(example("alder-row"));
    let field = Field::single(place(history.plan(), "Copper bath"), "make-up", "V_t");
    let first = history.plan().clone();
    for litres in 41..241 {
        history.edit("V_t", |plan| plan.type_in(&field, &format!("{litres} L"), None));
        history.settle();
    }
    let last = history.plan().clone();
    assert_eq!((0..1000).take_while(|_| history.undo()).count(), 200);
    assert_eq!(*history.plan(), first);
    assert_eq!((0..1000).take_while(|_| history.redo()).count(), 200);
    assert_eq!(*history.plan(), last);
}

#[test]
fn digits_typed_in_a_row_are_taken_back_together() {
    let mut history = History::of(example("alder-row"));
    let field = Field::single(place(history.plan(), "Copper bath"), "make-up", "V_t");
    let first = history.plan().clone();
    for text in ["1", "12", "12 gal"] {
        history.edit("V_t", |plan| plan.type_in(&field, text, None));
    }
    assert!(history.undo());
    assert_eq!(*history.plan(), first);
}

#[test]
fn a_place_taken_out_leaves_its_links_on_their_usual_values_and_nothing_dangling() {
    let mut plan = example("gannet-point");
    let bath = place(&plan, "Copper bath");
    plan.remove(bath);
    let rinse = plan.place(place(&plan, "Copper first rinse")).unwrap();
    assert_eq!(rinse.from, None);
    let results = Results::of(&plan, None);
    let field = Field::single(rinse.id, "stream", "class");
    assert_eq!(results.datum(&field).unwrap().1, Origin::Default);
    let site = plan.site().unwrap().id;
    plan.remove(site);
    assert!(plan.site().is_some(), "the site stays");
}

#[test]
fn a_place_never_comes_from_itself_however_long_the_way() {
    let mut plan = example("alder-row");
    let (first, second) = (place(&plan, "Copper first rinse"), place(&plan, "Copper second rinse"));
    plan.set_from(first, Some(second));
    assert_ne!(plan.place(first).unwrap().from, Some(second));
    let other = plan.add(Subject::Bath, "Copper bath");
    assert_eq!(plan.place(other).unwrap().name, "Copper bath 2", "no two places have one name");
}
