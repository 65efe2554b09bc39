//! Whole plans: that what is typed at one place arrives at the others.
//!
//! The example plans are set in invented plants; no figure of theirs is a check value. What a test
//! expects of them is worked out here by hand from what is typed there, by the law beside it.

use bathbook::calculator::{Finding, Instruction, Severity};
use bathbook::network::Origin;
use bathbook::plan::{Entry, Field, History, Id, Plan, Sheet, Tick, examples, ticks};
use bathbook::results::Results;
use bathbook::units::{G_METAL, G_PER_DAY_METAL, L, L_PER_MIN, M, MG_PER_L_METAL, MINUTE, MM, Unit};

fn example(id: &str) -> Plan {
    examples::plan(id).expect("an example of that name")
}

fn evaluated(plan: &Plan) -> Results {
    Results::of(plan, None)
}

fn place(plan: &Plan, name: &str) -> Id {
    plan.places.iter().find(|place| place.name == name).expect("a place of that name").id
}

/// The number of an answer, in a unit; `symbol` is `c`, or `c[Cu]` for a row.
fn answer(results: &Results, plan: &Plan, name: &str, calculator: &str, symbol: &str, unit: &Unit) -> f64 {
    let cell = results.network.cell_at(place(plan, name), calculator).expect("a sheet of that name");
    let (symbol, key) = symbol.strip_suffix(']').and_then(|s| s.split_once('[')).unwrap_or((symbol, ""));
    let (output, si) = results
        .answer(cell, symbol, key)
        .unwrap_or_else(|| panic!("{name}, {calculator} gives no {symbol}: {:?}", results.stop(cell)));
    assert_eq!(output.unit.kind, unit.kind);
    unit.from_si(si)
}

/// Evaluates and asks for one answer.
fn comes_to(plan: &Plan, name: &str, calculator: &str, symbol: &str, unit: &Unit) -> f64 {
    answer(&evaluated(plan), plan, name, calculator, symbol, unit)
}

fn type_at(plan: &mut Plan, name: &str, calculator: &'static str, symbol: &'static str, text: &str) {
    plan.type_in(&Field::single(place(plan, name), calculator, symbol), text, None);
}

#[track_caller]
fn assert_near(found: f64, expected: f64, within: f64) {
    assert!((found / expected - 1.0).abs() <= within, "{found} is not {expected} within {within}");
}

/// Findings of a severity at least: where, on which sheet, about what.
fn findings(results: &Results, least: Severity) -> Vec<(String, &'static str, Finding)> {
    let all = results.findings().into_iter().filter(|found| found.finding.severity >= least);
    let named = all.map(|found| {
        let cell = &results.network.cells[found.cell];
        (cell.name.to_string(), cell.calculator.id, found.finding)
    });
    named.collect()
}

fn assert_balance_closes(plan: &Plan) {
    let results = evaluated(plan);
    let cell = results.network.cell_at(place(plan, "Site"), "balance").expect("a balance");
    let outcome = results.outcome(cell).unwrap_or_else(|| panic!("{:?}", results.stop(cell)));
    let calculator = results.network.cells[cell].calculator;
    let mut metals = 0;
    for (output, si, key) in calculator.answered(outcome) {
        if output.symbol == "z" || output.symbol == "n" {
            metals += 1;
            assert_eq!(si, 0.0, "{} of {key} in {}", output.label, plan.name);
        }
    }
    assert!(metals >= 2, "{} holds no metal", plan.name);
}

fn with_gold_reclaimed() -> Plan {
    let mut plan = example("heron-mere");
    let (rinse, reclaim) = (place(&plan, "Gold first rinse"), place(&plan, "Gold to reclaim"));
    plan.set_to(rinse, Some(reclaim));
    plan
}

#[test]
fn every_example_says_that_it_is_invented_and_all_of_it_can_be_read() {
    for (id, name, line) in examples::ALL {
        let plan = example(id);
        assert_eq!(plan.name, *name);
        assert!(name.ends_with("(invented)") && line.ends_with('.'), "{id}");
        assert!(plan.notes.contains("invented"), "{id}: notes");
        let results = evaluated(&plan);
        for cell in &results.network.cells {
            assert!(cell.issues.is_empty(), "{id}, {}: {:?}", cell.name, cell.issues);
            assert!(cell.broken.is_none(), "{id}, {}: {:?}", cell.name, cell.broken);
        }
        assert!(results.todo().is_empty(), "{id}: {:?}", results.todo());
        assert_eq!(results.outcomes.len(), plan.places.iter().map(|place| place.sheets.len()).sum::<usize>());
    }
    assert!(examples::plan("none").is_none());
}

#[test]
fn every_example_types_only_what_a_calculator_asks_for() {
    for (id, ..) in examples::ALL {
        // A refused route leaves what follows it without values, and so without their fields.
        let plan = if *id == "heron-mere" { with_gold_reclaimed() } else { example(id) };
        let results = evaluated(&plan);
        for place in &plan.places {
            for (calculator, sheet) in &place.sheets {
                let Sheet { entries, rows, .. } = &**sheet;
                let cell =
                    results.network.cell_at(place.id, calculator).expect("a sheet that is offered there");
                let calculator = results.network.cells[cell].calculator;
                let single = entries.keys().map(|symbol| ("", String::new(), symbol));
                let cells = rows.iter().flat_map(|(table, rows)| {
                    let table =
                        calculator.tables.iter().find(|known| known.id == *table).expect("a table").id;
                    rows.iter().flat_map(move |(key, entries)| {
                        entries.keys().map(move |symbol| (table, key.clone(), symbol))
                    })
                });
                for (table, key, symbol) in single.chain(cells) {
                    let input = calculator.port(symbol).and_then(|port| calculator.input_at(port));
                    let symbol =
                        input.unwrap_or_else(|| panic!("{id}: {} asks no {symbol}", calculator.id)).symbol;
                    let field = Field { place: place.id, calculator: calculator.id, table, key, symbol };
                    assert!(results.asks(&field), "{id}: {field:?} is hidden");
                }
            }
        }
    }
}

#[test]
fn a_line_in_order_shows_no_caution_and_no_stop() {
    let found = findings(&evaluated(&example("alder-row")), Severity::Caution);
    assert!(found.is_empty(), "{found:#?}");
}

/// Boric acid near what dissolves in cold water is a caution of its own, in both nickel baths.
fn without_boric_acid(found: Vec<(String, &'static str, Finding)>) -> Vec<(String, &'static str, Finding)> {
    found.into_iter().filter(|(_, _, finding)| !finding.at.contains("Boric acid")).collect()
}

#[test]
fn a_gold_sulfite_rinse_on_the_dilute_route_is_refused_and_reclaimed_it_is_in_order() {
    let plan = example("heron-mere");
    let found = findings(&evaluated(&plan), Severity::Serious);
    let [(name, "route", finding)] = found.as_slice() else { panic!("{found:#?}") };
    assert_eq!((name.as_str(), finding.severity), ("Dilute rinse", Severity::Serious));
    for said in
        ["Gold first rinse (sulfite) must not meet", "sulfur dioxide", "Lead Gold first rinse", "reclaim"]
    {
        assert!(finding.text.contains(said), "{said}: {}", finding.text);
    }
    let found = without_boric_acid(findings(&evaluated(&with_gold_reclaimed()), Severity::Caution));
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn gold_is_not_drained_even_where_nothing_refuses_its_class() {
    let mut plan = example("heron-mere");
    type_at(&mut plan, "Gold bath", "make-up", "class", "acid");
    type_at(&mut plan, "Gold bath", "delivery-line", "class", "acid");
    let found = without_boric_acid(findings(&evaluated(&plan), Severity::Caution));
    let [(name, "route", finding)] = found.as_slice() else { panic!("{found:#?}") };
    assert_eq!((name.as_str(), finding.severity), ("Dilute rinse", Severity::Serious));
    assert!(finding.text.contains("valuable metal"), "{}", finding.text);
}

#[test]
fn a_rinse_too_rich_is_found_stream_by_stream_and_a_planned_lift_is_only_noted() {
    let plan = example("gannet-point");
    let results = evaluated(&plan);
    let found = without_boric_acid(findings(&results, Severity::Caution));
    let [(name, "route", finding)] = found.as_slice() else { panic!("{found:#?}") };
    assert_eq!((name.as_str(), &*finding.at), ("Dilute rinse", "c_s[Copper first rinse]"));
    let mixed = answer(&results, &plan, "Dilute rinse", "route", "c_mix", MG_PER_L_METAL);
    assert!(mixed < 60.0, "the mixed route alone would hide it: {mixed} mg/L");
    let lift = |(name, id, found): &(String, &str, Finding)| {
        name == "Dilute drain to the trench"
            && *id == "drain"
            && found.at == "spare"
            && found.severity == Severity::Note
    };
    assert!(findings(&results, Severity::Note).iter().any(lift));
}

#[test]
fn without_its_lift_station_the_drain_to_the_trench_is_stopped() {
    let mut plan = example("gannet-point");
    type_at(&mut plan, "Dilute drain to the trench", "drain", "station", "none");
    let found = findings(&evaluated(&plan), Severity::Serious);
    let [(name, "drain", finding)] = found.as_slice() else { panic!("{found:#?}") };
    assert_eq!((name.as_str(), &*finding.at), ("Dilute drain to the trench", "spare"));
}

#[test]
fn metal_out_of_the_baths_is_metal_on_the_routes_and_on_the_wafers() {
    for plan in [example("alder-row"), example("gannet-point"), with_gold_reclaimed()] {
        assert_balance_closes(&plan);
    }
}

/// By hand: 1.5 mL of 50 g/L into 1 L, and out of it with 1.0015 L; 480 wafers a day.
#[test]
fn what_one_wafer_drags_out_is_what_its_rinse_water_holds() {
    let plan = example("gannet-point");
    let results = evaluated(&plan);
    let c = answer(&results, &plan, "Copper first rinse", "stream", "c_w[Cu]", MG_PER_L_METAL);
    assert_near(c, 1.5 * 50.0 / 1.0015, 1e-9);
    let m = answer(&results, &plan, "Copper first rinse", "stream", "m_w[Cu]", G_PER_DAY_METAL);
    assert_near(m, 480.0 * 0.0015 * 50.0 / 1.0015, 1e-9);
    // The rinse after it starts from what the wafers carry on, and water runs in the hours of service.
    let on = answer(&results, &plan, "Copper first rinse", "stream", "m_on[Cu]", G_PER_DAY_METAL);
    let taken = answer(&results, &plan, "Copper second rinse", "stream", "m_in[Cu]", G_PER_DAY_METAL);
    assert_eq!(on, taken);
    let mean = answer(&results, &plan, "Dilute rinse", "route", "q_mean", L_PER_MIN);
    assert_near(mean, 480.0 * (1.0 + 2.0 + 2.5 + 2.0 + 2.0) / (24.0 * 60.0), 1e-9);
}

/// By hand: a quarter of an inch in a foot is 1 in 48.
#[test]
fn fall_and_lift_of_the_far_trench_are_those_of_the_geometry() {
    let plan = example("gannet-point");
    let results = evaluated(&plan);
    let drain = |symbol, unit| answer(&results, &plan, "Dilute drain to the trench", "drain", symbol, unit);
    assert_near(drain("l_max", M), 0.300 * 48.0, 1e-9);
    assert_near(drain("need", MM), 28_000.0 / 48.0, 1e-9);
    assert_near(drain("spare", MM), 300.0 - 28_000.0 / 48.0, 1e-9);
    // V = q·T/4 (US Army EI 11C201): 60 L/min, ten starts an hour.
    assert_near(drain("V_b", L), 60.0 * 6.0 / 4.0, 1e-9);
    assert_near(drain("t_o", MINUTE), 75.0 / 25.0, 1e-9);
    assert_near(drain("t_om", MINUTE), 75.0 / (4560.0 / 1440.0), 1e-9);
}

/// Stirred tank with a coil (Coulson & Richardson, vol. 1, example 9.25, with a loss besides): all in
/// kJ, K, min. Water entering the coil: 0.981 kg/L and 4.187 kJ/(kg·K) at 65 °C, 0.983 and 4.185 at 60.
#[test]
fn baths_heat_up_as_the_heat_balance_of_a_stirred_tank_says() {
    let by_hand = |mass: f64, cp: f64, [t0, t, ts, room]: [f64; 4], ua: f64, loss: f64, stream: f64| {
        let coil = stream * (1.0 - (-ua / stream).exp());
        let end = (coil * ts + loss * room) / (coil + loss);
        mass * cp / (coil + loss) * ((end - t0) / (end - t)).ln()
    };
    let w = 0.06; // kJ/min in a watt
    let nickel =
        by_hand(80.0 * 1.26, 3.2, [20.0, 50.0, 65.0, 21.0], 250.0 * w, 15.0 * w, 6.0 * 0.981 * 4.187);
    let gold = by_hand(60.0 * 1.06, 3.8, [20.0, 45.0, 60.0, 21.0], 150.0 * w, 11.0 * w, 4.0 * 0.983 * 4.185);
    let plan = example("heron-mere");
    let results = evaluated(&plan);
    assert_near(answer(&results, &plan, "Nickel bath", "heat-up", "t_up", MINUTE), nickel, 2e-3);
    assert_near(answer(&results, &plan, "Gold bath", "heat-up", "t_up", MINUTE), gold, 2e-3);
    assert_eq!((nickel.round(), gold.round()), (34.0, 37.0));
}

#[test]
fn the_volume_of_a_bath_counts_wherever_the_bath_is_meant() {
    let before = example("gannet-point");
    let mut after = before.clone();
    type_at(&mut after, "Copper bath", "make-up", "V_t", "300 L");
    let (first, second) = (evaluated(&before), evaluated(&after));
    let both = |name, calculator, symbol, unit| {
        let at = |plan, results| answer(results, plan, name, calculator, symbol, unit);
        (at(&before, &first), at(&after, &second))
    };
    let more = 300.0 / 250.0;
    // Metal in the dump, and what it puts on its route in one day.
    let (once, larger) = both("Copper bath dump", "stream", "m_once[Cu]", G_METAL);
    assert_near(larger, once * more, 1e-9);
    let (day, larger) = both("Copper bath dump", "stream", "m_w[Cu]", G_PER_DAY_METAL);
    assert_near(larger, day * more, 1e-9);
    let (route, larger) = both("Concentrate", "route", "m_T", G_PER_DAY_METAL);
    assert_near(larger - route, day * (more - 1.0), 1e-9);
    // The same coil takes as much longer, in proportion to mass.
    let (time, longer) = both("Copper bath", "heat-up", "t_up", MINUTE);
    assert_near(longer, time * more, 1e-6);
    // Torricelli: the level over the valve goes with the volume, the flow with its root.
    let (surge, larger) = both("Dilute drain to the trench", "drain", "q_d", L_PER_MIN);
    assert_near(larger, surge * more.sqrt(), 1e-9);
    assert_balance_closes(&after);
}

#[test]
fn a_value_typed_over_a_link_says_so_and_gives_way_again() {
    let mut plan = example("gannet-point");
    let field = Field::single(place(&plan, "Copper bath"), "heat-up", "V");
    let origin = |plan: &Plan| {
        evaluated(plan).datum(&field).map(|(datum, origin)| (L.from_si(datum.value.si), origin))
    };
    let linked = origin(&plan);
    assert_eq!(linked.map(|(_, origin)| origin), Some(Origin::Linked));
    let time = comes_to(&plan, "Copper bath", "heat-up", "t_up", MINUTE);
    plan.type_in(&field, "500 L", None);
    assert_eq!(
        origin(&plan).map(|(litres, origin)| (litres.round(), origin)),
        Some((500.0, Origin::Overtyped))
    );
    assert_near(comes_to(&plan, "Copper bath", "heat-up", "t_up", MINUTE), 2.0 * time, 1e-6);
    plan.clear(&field);
    assert_eq!(origin(&plan), linked);
    assert_eq!(comes_to(&plan, "Copper bath", "heat-up", "t_up", MINUTE), time);
}

#[test]
fn a_drag_out_typed_over_a_link_breaks_the_balance_and_is_found() {
    let mut plan = example("gannet-point");
    let rinse = place(&plan, "Copper second rinse");
    plan.type_in(&Field::cell(rinse, "stream", "metals", "Cu", "m_prev"), "1 g/day", None);
    let found = findings(&evaluated(&plan), Severity::Serious);
    assert!(found.iter().any(|(_, id, finding)| *id == "balance" && finding.at == "z[Cu]"), "{found:#?}");
}

#[test]
fn a_plan_that_was_saved_is_loaded_as_it_was() {
    for (id, ..) in examples::ALL {
        let mut plan = example(id);
        type_at(&mut plan, "Site", "site", "hours", "not a number");
        let text = serde_json::to_string(&plan).unwrap();
        let loaded: Plan = serde_json::from_str(&text).unwrap();
        assert_eq!(loaded, plan);
        assert_eq!(loaded.clone().mended(), loaded, "{id}: nothing was to mend");
        assert_eq!(serde_json::to_string(&loaded).unwrap(), text);
        // As text, since an answer that is not known yet is NaN inside, which equals nothing.
        let text = |plan: &Plan| format!("{:?}", evaluated(plan).outcomes);
        assert_eq!(text(&loaded), text(&plan));
    }
}

#[test]
fn a_hundred_steps_back_and_forth_restore_every_state() {
    let mut history = History::of(example("gannet-point"));
    let mut states = vec![history.plan().clone()];
    for k in 0..100 {
        let (_, changed) = history.edit(&format!("step {k}"), |plan| match k % 5 {
            0 => type_at(plan, "Copper bath", "make-up", "V_t", &format!("{} L", 251 + k)),
            1 => drop(plan.add_row(place(plan, "Copper bath"), "make-up", "ingredients", "Additive")),
            2 => drop(plan.add(bathbook::calculator::Subject::Stream, "Bleed")),
            3 => plan.rename(place(plan, "Site"), &format!("Site {k}")),
            _ => {
                let site = plan.site().map_or(0, |site| site.id);
                plan.rename(site, "Site");
            }
        });
        assert_eq!(changed, Ok(true), "step {k}");
        states.push(history.plan().clone());
    }
    for state in states.iter().rev().skip(1) {
        assert!(history.undo());
        assert_eq!(history.plan(), state);
    }
    assert!(!history.undo());
    for state in &states[1..] {
        assert!(history.redo());
        assert_eq!(history.plan(), state);
    }
    assert!(!history.redo());
}

#[test]
fn what_followed_a_place_that_is_gone_says_that_it_follows_nothing() {
    let mut plan = example("alder-row");
    let (bath, rinse) = (place(&plan, "Copper bath"), place(&plan, "Copper bath dump"));
    let volume = Field::single(rinse, "stream", "V_d");
    plan.remove(bath);
    let results = evaluated(&plan);
    let view = results.field(&volume, plan.entry(&volume)).unwrap();
    assert_eq!((view.origin, view.follows), (Origin::Default, None));
    assert!(plan.places.iter().all(|place| place.from != Some(bath)));
    // What a dump of nothing known holds is not nothing: it is asked for.
    let cell = results.network.cell_at(rinse, "stream").unwrap();
    let stop = results.stop(cell).expect("no answer");
    assert!(stop.todo && stop.reason.contains("Where it comes from"), "{stop:?}");
}

#[test]
fn a_file_whose_links_lead_nowhere_is_mended() {
    let text = serde_json::to_string(&example("alder-row")).unwrap();
    let torn = text.replace("\"from\":1", "\"from\":77").replace("\"to\":7", "\"to\":78");
    assert_ne!(torn, text);
    let plan = serde_json::from_str::<Plan>(&torn).unwrap();
    evaluated(&plan); // as it is: no answer is wrong enough to fall over
    let plan = plan.mended();
    let known = |id: Option<Id>| id.is_none_or(|id| plan.place(id).is_some());
    assert!(plan.places.iter().all(|place| known(place.from) && known(place.to)));
    evaluated(&plan);
}

/// Edits leave no place coming from itself; a file may say so all the same.
#[test]
fn a_file_whose_places_come_from_each_other_is_mended() {
    let sheets = r#"{"stream":{"entries":{"kind":"rinse","v_w":"2 L"}}}"#;
    let stream = |id: Id, from: Id| {
        format!(r#"{{"id":{id},"subject":"stream","name":"Rinse {id}","from":{from},"sheets":{sheets}}}"#)
    };
    let site = r#"{"id":0,"subject":"site","name":"Site","sheets":{}}"#;
    let places = [site.into(), stream(1, 3), stream(2, 1), stream(3, 2), stream(4, 3)].join(",");
    let text = format!(r#"{{"format":1,"name":"Circle","next":5,"places":[{places}]}}"#);
    let plan = serde_json::from_str::<Plan>(&text).expect("a plan in form");
    evaluated(&plan); // as it is: a refusal that names the circle, and nothing that runs for ever
    let plan = plan.mended();
    let from: Vec<_> = plan.places.iter().map(|place| place.from).collect();
    assert_eq!(from, [None, None, Some(1), Some(2), Some(3)], "one link is taken out, and no more");
    evaluated(&plan);
}

#[test]
fn a_text_that_cannot_be_read_leaves_the_last_good_value_standing() {
    let mut plan = example("alder-row");
    let field = Field::single(place(&plan, "Copper bath"), "make-up", "V_t");
    plan.type_in(&field, "forty litres", None);
    assert_eq!(
        plan.entry(&field),
        Some(&Entry { text: "forty litres".into(), stands: Some("40 L".into()), show: None })
    );
    assert_near(comes_to(&plan, "Copper bath", "make-up", "V", L), 40.0, 1e-12);
    let results = evaluated(&plan);
    assert!(results.field(&field, plan.entry(&field)).is_some_and(|view| view.issue.is_some()));
}

#[test]
fn a_text_that_cannot_be_read_is_said_even_where_the_field_is_asked_only_because_of_a_link() {
    let mut plan = example("gannet-point");
    let field = Field::single(place(&plan, "Dilute drain to the trench"), "drain", "A");
    plan.type_in(&field, "0.1 L", None);
    let results = evaluated(&plan);
    assert!(results.field(&field, plan.entry(&field)).is_some_and(|view| view.issue.is_some()));
}

/// A field shown in another unit reads without noughts that nobody needs, and can be typed again.
#[test]
fn a_field_in_another_unit_shows_its_figures_and_no_more() {
    let mut plan = example("alder-row");
    let field = Field::single(place(&plan, "Copper bath"), "make-up", "V_t");
    for (typed, shown) in
        [("250 mL", "0.25"), ("25000 mL", "25"), ("1836 mL", "1.8360"), ("2000/3 mL", "0.666667")]
    {
        plan.type_in(&field, typed, None);
        plan.show_in(&field, L);
        let view = evaluated(&plan).field(&field, plan.entry(&field)).unwrap();
        assert_eq!((view.text.as_str(), &view.issue), (shown, &None), "{typed}");
        plan.type_in(&field, &view.text, Some(view.unit));
        assert!(evaluated(&plan).field(&field, plan.entry(&field)).is_some_and(|view| view.issue.is_none()));
    }
}

/// Nothing is said of a bath, its heating, its rinse or its drain before somebody has said what they are.
#[test]
fn a_plan_that_nobody_has_filled_in_gives_no_numbers() {
    use bathbook::calculator::Subject;
    let mut plan = Plan::new("Fresh");
    let bath = plan.add(Subject::Bath, "Bath");
    let rinse = plan.add(Subject::Stream, "Rinse");
    plan.set_from(rinse, Some(bath));
    plan.add(Subject::Drain, "Drain");
    plan.add(Subject::Mixing, "Vessel");
    let results = evaluated(&plan);
    for (name, calculator) in [
        ("Bath", "make-up"),
        ("Bath", "heat-up"),
        ("Rinse", "stream"),
        ("Drain", "drain"),
        ("Vessel", "dilution"),
    ] {
        let cell = results.network.cell_at(place(&plan, name), calculator).expect("a sheet");
        let stop = results.stop(cell).unwrap_or_else(|| panic!("{calculator} answers untouched"));
        assert!(stop.todo, "{stop:?}");
    }
}

/// The copper bath's dump leads to the concentrate, which does not run through the drain to the trench.
#[test]
fn a_drain_that_a_tank_is_let_out_into_says_if_its_dump_leads_elsewhere() {
    let mut plan = example("gannet-point");
    let said = |plan: &Plan, drain: &str| {
        findings(&evaluated(plan), Severity::Note).iter().any(|(name, id, found)| {
            name == drain && *id == "drain" && found.text.contains("leads to another route")
        })
    };
    assert!(said(&plan, "Dilute drain to the trench"));
    assert!(!said(&plan, "Concentrate drain to the tank"));
    let (dump, dilute) = (place(&plan, "Copper bath dump"), place(&plan, "Dilute rinse"));
    plan.set_to(dump, Some(dilute));
    assert!(!said(&plan, "Dilute drain to the trench"));
}

/// 6 kg of blue vitriol of 99 % went in (molmass 2026.1.8: 0.2545048 of it is copper).
#[test]
fn the_dump_holds_what_was_really_added() {
    let mut plan = example("alder-row");
    let bath = place(&plan, "Copper bath");
    plan.type_in(&Field::cell(bath, "make-up", "ingredients", "Copper sulfate", "added"), "6.0 kg", None);
    let once = comes_to(&plan, "Copper bath dump", "stream", "m_once[Cu]", G_METAL);
    assert_near(once, 6000.0 * 0.99 * 0.2545048, 4e-4);
}

/// Common practice: 60 mg/L parts dilute from concentrate, and a dump holds tens of grams in a litre.
#[test]
fn a_stream_says_which_route_should_may_and_must_not_take_it() {
    let plan = example("gannet-point");
    let results = evaluated(&plan);
    let takes = |stream: &str, route: &str| {
        let cell = results.network.cell_at(place(&plan, stream), "stream").expect("a stream");
        let (output, si) = results.answer(cell, "takes", route).expect("an answer for every route");
        output.words[si as usize]
    };
    assert_eq!(takes("Copper bath dump", "concentrate for recovery"), "should take it");
    assert_eq!(takes("Copper bath dump", "dilute metal"), "must not take it");
    assert_eq!(takes("Copper second rinse", "dilute metal"), "should take it");
    assert_eq!(takes("Copper second rinse", "concentrate for recovery"), "may take it");
    assert_eq!(takes("Copper second rinse", "segregated: cyanide"), "must not take it");
}

#[test]
fn a_new_route_made_for_a_stream_is_of_the_kind_that_suits_it() {
    let mut plan = example("gannet-point");
    let dump = place(&plan, "Copper bath dump");
    let new = evaluated(&plan).lead_to_new(&mut plan, dump, bathbook::calculator::Subject::Route);
    assert_eq!(plan.place(dump).and_then(|place| place.to), Some(new));
    let kind = plan.entry(&Field::single(new, "route", "kind")).expect("a kind");
    assert_eq!(kind.text, "concentrate for recovery");
}

/// 40 CFR 433.15(c): dilution is no treatment.
#[test]
fn a_dump_into_rinse_water_is_still_a_concentrate_and_less_drag_out_does_not_cure_it() {
    let mut plan = example("gannet-point");
    let (dump, dilute) = (place(&plan, "Copper bath dump"), place(&plan, "Dilute rinse"));
    plan.set_to(dump, Some(dilute));
    let found = findings(&evaluated(&plan), Severity::Note);
    let on_route = |part: &str| {
        found.iter().find(|(name, id, f)| name == "Dilute rinse" && *id == "route" && f.text.contains(part))
    };
    let (.., mixed) = on_route("watering down changes neither").expect("a note");
    assert!(
        mixed.text.contains("Copper bath dump") && mixed.text.contains("grams of metal"),
        "{}",
        mixed.text
    );
    let (.., rich) = on_route("Copper bath dump, Held").expect("a caution");
    assert!(!rich.text.contains("drag-out") && rich.text.contains("concentrate route"), "{}", rich.text);
    let (.., rinse) = on_route("Copper first rinse, Held").expect("a caution");
    assert!(rinse.text.contains("Less drag-out"), "{}", rinse.text);
}

#[test]
fn a_stream_that_leads_nowhere_is_named_in_the_balance() {
    let mut plan = example("gannet-point");
    plan.set_to(place(&plan, "Copper bath dump"), None);
    let found = findings(&evaluated(&plan), Severity::Caution);
    let balance: Vec<_> = found.iter().filter(|(_, id, _)| *id == "balance").collect();
    let [(_, _, finding)] = balance.as_slice() else { panic!("{balance:#?}") };
    // By hand: 250 L every 120 days.
    assert!(
        finding.text.starts_with("Copper bath dump leads nowhere yet: 2.08\u{a0}L/day"),
        "{}",
        finding.text
    );
    assert!(found.iter().all(|(_, _, finding)| !finding.text.contains("10⁻⁶")), "{found:#?}");
}

/// The order of a sheet, with how each of its steps is ticked: name, and the tick.
fn ticked(plan: &Plan, name: &str, calculator: &str) -> Vec<(String, Option<Tick>)> {
    let results = Results::of(plan, Some((place(plan, name), calculator)));
    let cell = results.open.expect("a sheet of that name");
    let order = results.outcome(cell).expect("an answer").order.clone();
    let sheet = &plan.place(place(plan, name)).expect("a place").sheets[calculator];
    let style = plan.style();
    let one = |(name, step): (String, &Instruction)| (name.clone(), sheet.tick(&name, step, &style));
    ticks::step_names(&order).into_iter().zip(&order).map(one).collect()
}

/// Ticks the steps whose names begin so.
fn tick(plan: &mut Plan, name: &str, calculator: &str, start: &str, done: bool) {
    let id = place(plan, name);
    let results = Results::of(plan, Some((id, calculator)));
    let cell = results.open.expect("a sheet of that name");
    let order = results.outcome(cell).expect("an answer").order.clone();
    for (name, step) in ticks::step_names(&order).iter().zip(&order) {
        if name.starts_with(start) {
            plan.tick(id, calculator, name, step, done);
        }
    }
}

#[test]
fn a_tick_is_kept_undone_and_saved_and_tells_when_another_amount_is_wanted() {
    let mut history = History::of(example("gannet-point"));
    history.edit("", |plan| tick(plan, "Copper bath", "make-up", "Water at", true)).1.unwrap();
    let done = |plan: &Plan| {
        let all = ticked(plan, "Copper bath", "make-up").into_iter();
        all.filter_map(|(name, tick)| Some((name, tick?))).collect::<Vec<_>>()
    };
    assert_eq!(done(history.plan()), [("Water at".to_string(), Tick::Stands)]);

    let text = serde_json::to_string(history.plan()).unwrap();
    let loaded = serde_json::from_str::<Plan>(&text).unwrap().mended();
    assert_eq!(&loaded, history.plan());

    // A fifth more bath takes a fifth more water.
    history.edit("", |plan| type_at(plan, "Copper bath", "make-up", "V_t", "300 L")).1.unwrap();
    let found = done(history.plan());
    assert!(matches!(&found[..], [(_, Tick::Ticked(at))] if at.ends_with("kg")), "{found:?}");
    assert!(history.undo());
    assert_eq!(done(history.plan()), [("Water at".to_string(), Tick::Stands)]);
    assert!(history.undo());
    assert_eq!(done(history.plan()), []);
    assert!(history.redo());
    history.edit("", |plan| plan.untick_all(place(plan, "Copper bath"), "make-up")).1.unwrap();
    assert_eq!(done(history.plan()), []);
}

#[test]
fn the_tick_of_an_ingredient_goes_with_its_row() {
    let mut plan = example("gannet-point");
    let bath = place(&plan, "Copper bath");
    let order = ticked(&plan, "Copper bath", "make-up");
    let row = order
        .iter()
        .find_map(|(name, _)| name.strip_prefix('[')?.strip_suffix(']'))
        .expect("a row")
        .to_string();
    tick(&mut plan, "Copper bath", "make-up", &format!("[{row}]"), true);
    plan.rename_row(bath, "make-up", "ingredients", &row, "What the row is called now");
    let kept: Vec<&String> = plan.place(bath).unwrap().sheets["make-up"].ticks.keys().collect();
    assert_eq!(kept, ["[What the row is called now]"]);
    plan.remove_row(bath, "make-up", "ingredients", "What the row is called now");
    assert!(plan.place(bath).unwrap().sheets["make-up"].ticks.is_empty());
}

/// As written before work orders had ticks.
#[test]
fn a_plan_without_ticks_is_opened_as_it_was() {
    let text = r#"{"format":1,"name":"Before","next":2,"places":[
        {"id":0,"subject":"site","name":"Site","sheets":{"site":{}}},
        {"id":1,"subject":"bath","name":"Bath","sheets":{"make-up":{"entries":{"V_t":"200 L"}}}}]}"#;
    let plan = serde_json::from_str::<Plan>(text).expect("an old plan").mended();
    let sheet = &plan.place(1).unwrap().sheets["make-up"];
    assert!(sheet.ticks.is_empty());
    assert_eq!(sheet.entries["V_t"].text, "200 L");
    assert!(!serde_json::to_string(&plan).unwrap().contains("ticks"), "nothing is written that is not there");
}

#[test]
fn a_unit_that_was_typed_or_chosen_stays_the_fields() {
    let mut plan = example("gannet-point");
    let field = Field::single(place(&plan, "Copper bath"), "make-up", "V_t");
    let view = |plan: &Plan| evaluated(plan).field(&field, plan.entry(&field)).expect("a field");
    plan.type_in(&field, "12 gal", None);
    // Emptied, the usual value is back, in the unit that was typed; and so is the next number.
    plan.type_in(&field, "", Some(view(&plan).unit));
    assert_eq!((view(&plan).origin, view(&plan).unit.symbol), (Origin::Default, "US gal"));
    let unit = view(&plan).unit;
    plan.type_in(&field, "15", Some(unit));
    assert_eq!(plan.entry(&field).map(|entry| entry.text.as_str()), Some("15 US gal"));
    // A unit chosen for a usual value leaves it one that nobody typed.
    let typed = Field::single(field.place, "make-up", "V_c");
    plan.show_in(&typed, Unit::named(L.kind, "US gal").unwrap());
    assert_eq!(evaluated(&plan).datum(&typed).map(|(_, origin)| origin), Some(Origin::Default));
    let loaded: Plan = serde_json::from_str(&serde_json::to_string(&plan).unwrap()).unwrap();
    assert_eq!(loaded, plan);
}

#[test]
fn an_answer_says_which_usual_values_it_rests_on_and_what_cannot_be_read() {
    let mut plan = example("gannet-point");
    let bath = place(&plan, "Copper bath");
    let field = Field::single(bath, "make-up", "V_c");
    plan.clear(&field);
    let about = |plan: &Plan| {
        let results = evaluated(plan);
        let cell = results.network.cell_at(bath, "make-up").unwrap();
        (results.usual(cell).contains(&field), results.unread(cell).contains(&field))
    };
    assert_eq!(about(&plan), (true, false));
    plan.type_in(&field, "5 L", None);
    assert_eq!(about(&plan), (false, false));
    plan.type_in(&field, "5 eggs", None);
    assert_eq!(about(&plan), (false, true));
    plan.type_in(&field, "", None);
    assert_eq!(about(&plan), (true, false));
}

/// A range is told in the unit in which the number was typed, and never with a power of ten.
#[test]
fn ranges_are_told_in_the_unit_of_the_field() {
    let plan = example("gannet-point");
    for calculator in bathbook::calculators::ALL {
        for input in calculator.all_tables().flat_map(|table| table.columns) {
            for unit in input.unit.kind.units() {
                for range in [input.hard, input.usual] {
                    let text = input.range_text(range, unit, &plan.style());
                    let is_plain = !text.contains("× 10");
                    assert!(is_plain, "{}, {}: {text}", calculator.id, input.symbol);
                }
            }
        }
    }
    let field = Field::single(place(&plan, "Copper bath"), "make-up", "V_t");
    let said = field.input().unwrap().read("0 US gal", &plan.style());
    assert!(format!("{said:?}").contains("US gal\")"), "{said:?}");
}

/// A plan in which streams, each of a class, lead by routes of these kinds through one drain.
fn through_one_drain(streams: &[(&str, &str)]) -> Plan {
    use bathbook::calculator::Subject;
    let mut plan = Plan::new("Drains");
    let drain = plan.add(Subject::Drain, "Drain");
    for (symbol, text) in [("l", "6 m"), ("h_av", "450 mm"), ("D", "50 mm")] {
        type_at(&mut plan, "Drain", "drain", symbol, text);
    }
    for (class, kind) in streams {
        let (stream, route) = (plan.add(Subject::Stream, class), plan.add(Subject::Route, kind));
        let (stream_name, route_name) = (format!("{class} water"), format!("Route for {class}"));
        plan.rename(stream, &stream_name);
        plan.rename(route, &route_name);
        for (symbol, text) in [("kind", "another liquid"), ("class", class), ("Q_t", "10 L/day")] {
            plan.type_in(&Field::single(stream, "stream", symbol), text, None);
        }
        plan.type_in(&Field::single(route, "route", "kind"), kind, None);
        plan.set_to(stream, Some(route));
        plan.set_to(route, Some(drain));
    }
    plan
}

/// Why a drain has no answer; `None` if it has one.
fn drain_refused(plan: &Plan) -> Option<String> {
    let results = evaluated(plan);
    let cell = results.network.cell_at(place(plan, "Drain"), "drain").expect("a drain");
    let stop = results.stop(cell)?;
    assert!(!stop.todo && !stop.passed_on, "{stop:?}");
    Some(stop.text())
}

/// EPA-600/2-80-076, compatibility chart: groups 11 with 1, 2 and 3 give toxic and flammable gas, 15 with 1
/// and 2 toxic gas; 40 CFR 264 and 265, appendix V. Where a class is not known, from memory.
#[test]
fn routes_whose_waters_must_not_meet_never_run_through_one_drain() {
    let (acid, cyanide) = (("acid", "acid and base water"), ("cyanide", "segregated: cyanide"));
    for (streams, said) in [
        ([acid, cyanide], "hydrogen cyanide"),
        ([cyanide, acid], "hydrogen cyanide"),
        ([("alkaline", "dilute metal"), cyanide], "hydrogen cyanide"),
        ([("unknown", "a route of your own"), cyanide], "what is not known counts as acid"),
        ([("acid", "a route of your own"), ("cyanide", "a route of your own")], "hydrogen cyanide"),
        ([acid, ("fluoride", "segregated: fluoride")], "hydrogen fluoride"),
        ([("sulfite", "reclaim of valuable metal"), acid], "sulfur dioxide"),
        ([("solvent", "segregated: solvents"), ("oxidiser", "segregated: oxidisers")], "fire or explosion"),
    ] {
        let text = drain_refused(&through_one_drain(&streams)).expect("a refusal");
        assert!(text.contains("must not meet") && text.contains(said), "{text}");
        assert!(text.contains("through a drain of its own"), "{text}");
    }
    for streams in [
        [acid, ("alkaline", "dilute metal")],
        [cyanide, ("cyanide", "segregated: cyanide")],
        [cyanide, ("alkaline", "a route of your own")],
    ] {
        assert_eq!(drain_refused(&through_one_drain(&streams)), None);
    }
    // The pipe of a route is wet with what it is there for before anything leads to it.
    let mut plan = through_one_drain(&[acid, cyanide]);
    plan.set_to(place(&plan, "acid water"), None);
    plan.set_to(place(&plan, "cyanide water"), None);
    assert!(drain_refused(&plan).is_some_and(|text| text.contains("Run Route for cyanide through")));
}

/// The same chart: a cyanide bath let out into acid water, or an acid one into cyanide water.
#[test]
fn a_tank_is_never_let_out_into_a_drain_whose_waters_it_must_not_meet() {
    use bathbook::calculator::Subject;
    let (acid, cyanide) = (("acid", "acid and base water"), ("cyanide", "segregated: cyanide"));
    for (tank, water, said) in [
        ("cyanide", acid, Some("hydrogen cyanide")),
        ("acid", cyanide, Some("hydrogen cyanide")),
        ("unknown", cyanide, Some("what is not known counts as acid")),
        ("fluoride", acid, Some("hydrogen fluoride")),
        ("acid", acid, None),
        ("cyanide", cyanide, None),
    ] {
        let mut plan = through_one_drain(&[water]);
        let bath = plan.add(Subject::Bath, "Bath");
        plan.set_from(place(&plan, "Drain"), Some(bath));
        type_at(&mut plan, "Bath", "make-up", "V_t", "200 L");
        type_at(&mut plan, "Bath", "make-up", "class", tank);
        type_at(&mut plan, "Drain", "drain", "A", "0.5 m²");
        type_at(&mut plan, "Drain", "drain", "d_v", "25 mm");
        let text = drain_refused(&plan);
        assert_eq!(text.is_some(), said.is_some(), "{tank}: {text:?}");
        let results = evaluated(&plan);
        if let (Some(text), Some(said)) = (text, said) {
            assert!(text.contains("must not meet") && text.contains(said), "{text}");
            assert!(text.contains("into a drain of its own"), "{text}");
            let leads_here = findings(&results, Severity::Note);
            assert!(leads_here.iter().all(|(.., finding)| !finding.text.contains("lead the dump")));
        }
    }
}

/// The same chart: a route is there for a class, and refuses what must not meet it.
#[test]
fn a_cyanide_route_takes_no_acid_and_nothing_unknown() {
    for class in ["acid", "unknown"] {
        let plan = through_one_drain(&[(class, "segregated: cyanide")]);
        let results = evaluated(&plan);
        let cell = results.network.cell_at(place(&plan, &format!("Route for {class}")), "route").unwrap();
        let stop = results.stop(cell).expect("a refusal");
        assert!(stop.reason.contains("the cyanide water of this route"), "{}", stop.reason);
        // Nor does a flow typed on the sheet of its drain get round that.
        let mut plan = plan;
        type_at(&mut plan, "Drain", "drain", "q_m", "5 L/min");
        let results = evaluated(&plan);
        let drain = results.network.cell_at(place(&plan, "Drain"), "drain").unwrap();
        assert!(results.stop(drain).is_some_and(|stop| stop.passed_on));
    }
}

/// A rinse, a dump, a bleed and samples hold what another place holds: without it no metal is known.
#[test]
fn a_stream_from_nowhere_is_asked_what_it_holds() {
    use bathbook::calculator::Subject;
    let mut plan = Plan::new("Streams");
    let stream = plan.add(Subject::Stream, "Stream");
    let typed = [
        ("class", "acid"),
        ("N", "100 per day"),
        ("d_w", "5 mL"),
        ("v_w", "2 L"),
        ("V_d", "100 L"),
        ("t_d", "100 days"),
        ("Q_t", "1 L/day"),
    ];
    for (symbol, text) in typed {
        type_at(&mut plan, "Stream", "stream", symbol, text);
    }
    for kind in ["rinse", "bath dump", "bleed from a bath", "samples"] {
        let mut plan = plan.clone();
        type_at(&mut plan, "Stream", "stream", "kind", kind);
        let todo = |plan: &Plan| {
            evaluated(plan).todo().iter().any(|(_, stop)| stop.reason.contains("how much metal"))
        };
        assert!(todo(&plan), "{kind}");
        // A bath without any metal is known to hold none.
        let bath = plan.add(Subject::Bath, "Bath");
        type_at(&mut plan, "Bath", "make-up", "V_t", "100 L");
        plan.set_from(stream, Some(bath));
        assert!(!todo(&plan), "{kind}");
        assert_eq!(comes_to(&plan, "Stream", "stream", "c_T", MG_PER_L_METAL), 0.0);
        plan.remove(bath);
        assert!(todo(&plan), "{kind}");
        plan.type_in(&Field::cell(stream, "stream", "metals", "Cu", "c_in"), "50 g/L", None);
        assert!(!todo(&plan), "{kind}");
    }
    type_at(&mut plan, "Stream", "stream", "kind", "another liquid");
    assert_eq!(comes_to(&plan, "Stream", "stream", "c_T", MG_PER_L_METAL), 0.0);
}

/// The gold rinse stops the dilute route; its drain and the balance wait for that, and are no stops more.
#[test]
fn a_stop_is_counted_where_it_is_and_told_where_it_comes_from() {
    let plan = example("heron-mere");
    let results = evaluated(&plan);
    let marks = |name: &str, id: &str| {
        results.marks(results.network.cell_at(place(&plan, name), id).expect("a sheet of that name"))
    };
    let route = marks("Dilute rinse", "route");
    assert_eq!((route.stops, route.waits), (1, false));
    let drain = marks("Dilute drain", "drain");
    assert_eq!((drain.stops, drain.waits), (0, true));

    let stopped = results.stopped_at(place(&plan, "Dilute rinse")).expect("a stop on the route");
    assert_eq!(results.calculator(stopped).map(|calculator| calculator.id), Some("route"));
    assert_eq!(results.stopped_at(place(&plan, "Concentrate")), None);
}

#[test]
fn a_field_that_stands_in_the_way_says_why() {
    let mut plan = example("alder-row");
    let field =
        Field::cell(place(&plan, "Copper bath"), "make-up", "ingredients", "Copper sulfate", "formula");
    let said = |plan: &Plan| evaluated(plan).field(&field, plan.entry(&field)).and_then(|view| view.refused);
    assert_eq!(said(&plan), None);
    plan.type_in(&field, "copper sulfate", None);
    assert!(said(&plan).is_some_and(|why| why.contains("which is no element")));
}

#[test]
fn an_undo_can_say_what_it_took_back() {
    let before = example("gannet-point");
    let told = |after: &Plan| {
        let name = |(place, sheet): (&bathbook::plan::Place, Option<&str>)| {
            (place.name.clone(), sheet.unwrap_or_default().to_string())
        };
        after.differences(&before).into_iter().map(name).collect::<Vec<_>>()
    };
    assert_eq!(told(&before), []);

    let mut plan = before.clone();
    plan.type_in(&Field::single(place(&plan, "Copper bath"), "heat-up", "T"), "26", None);
    assert_eq!(told(&plan), [("Copper bath".to_string(), "heat-up".to_string())]);

    let mut plan = before.clone();
    plan.remove(place(&plan, "Copper bath dump"));
    assert!(told(&plan).contains(&("Copper bath dump".to_string(), String::new())));
}
