//! From what a wafer carries out of the bath to the rinses after it and their routes.
//!
//! The line is invented. What a test expects is worked out by hand beside it.

mod common;

use bathbook::ask::cures;
use bathbook::calculator::{Severity, Subject};
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{
    G_PER_DAY_METAL, G_PER_L_METAL, L, L_PER_DAY, L_PER_MIN, MG_PER_L_METAL, ML, NUMBER, PERCENT,
};
use common::{found, near, row, type_in};

/// A bath of acid copper with 50 g/L, and a first rinse after it; 480 wafers a day.
fn line() -> (Plan, Id, Id) {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Copper");
    type_in(&mut plan, bath, "make-up", &[("V_t", "200 L"), ("class", "acid")]);
    row(&mut plan, bath, ("make-up", "ingredients"), "Copper sulfate", &[("c_m", "50 g/L")]);
    let site = plan.site().expect("a site").id;
    type_in(&mut plan, site, "wafers", &[("D", "300 mm"), ("open", "20 %"), ("N_d", "480 per day")]);
    let first = plan.add(Subject::Stream, "First rinse");
    plan.set_from(first, Some(bath));
    (plan, bath, first)
}

/// A second rinse after the first, both with their sheets of rinse; the first to the concentrate route, the second, of
/// three stages in counterflow down to 1 mg/L, to the dilute one.
fn with_second_rinse(plan: &mut Plan, first: Id) -> (Id, [Id; 2]) {
    let second = plan.add(Subject::Stream, "Second rinse");
    plan.set_from(second, Some(first));
    type_in(plan, first, "rinse", &[("target", "nothing: the water is typed"), ("v_x", "0.1 L")]);
    let clean =
        [("stages", "three in counterflow"), ("target", "metal in the last stage"), ("c_t", "1 mg/L")];
    type_in(plan, second, "rinse", &clean);
    (second, to_routes(plan, first, second))
}

/// The first to the concentrate route, the second to the dilute one.
fn to_routes(plan: &mut Plan, first: Id, second: Id) -> [Id; 2] {
    let routes = [("Concentrate", "concentrate for recovery", first), ("Dilute", "dilute metal", second)];
    routes.map(|(name, kind, stream)| {
        let route = plan.add(Subject::Route, name);
        type_in(plan, route, "route", &[("kind", kind)]);
        plan.set_to(stream, Some(route));
        route
    })
}

/// Weighed: 2.5 mL a wafer.
fn weigh(plan: &mut Plan, bath: Id) {
    type_in(plan, bath, "drag-out", &[("how", "weighed"), ("m_g", "75 g"), ("n_g", "25"), ("ρ", "1.2 kg/L")]);
}

#[test]
fn what_drag_out_finds_is_followed_by_all_that_ask_for_it() {
    let (mut plan, bath, rinse) = line();
    weigh(&mut plan, bath);
    type_in(&mut plan, rinse, "rinse", &[("x_t", "1000")]);
    // 480 wafers of 2.5 mL are 1.2 L a day, of 50 g/L 60 g.
    near(found(&plan, bath, "drag-out", "D_day", "", L_PER_DAY), 1.2);
    near(found(&plan, bath, "drag-out", "m_day", "Cu", G_PER_DAY_METAL), 60.0);
    // The plating load is not filled in, and passes it on all the same.
    assert!(found(&plan, bath, "plating", "D_day", "", L_PER_DAY).is_err());
    near(found(&plan, rinse, "stream", "D", "", L_PER_DAY), 1.2);
    // 999 volumes to one of 2.5 mL.
    near(found(&plan, rinse, "rinse", "v_w", "", ML), 2497.5);
    type_in(&mut plan, bath, "plating", &[("η", "100 %")]);
    row(&mut plan, bath, ("plating", "steps"), "Layer", &[("d", "10 µm"), ("j", "2 A/dm²")]);
    near(found(&plan, bath, "plating", "D_day", "", L_PER_DAY), 1.2);
    let additive = [("C", "10 mL/L"), ("k_q", "0.1 mL/(A·h)")];
    row(&mut plan, bath, ("dosing", "additives"), "Suppressor", &additive);
    near(found(&plan, bath, "dosing", "D", "", L_PER_DAY), 1.2);
    // Typed over in the plating load, it is that which counts.
    type_in(&mut plan, bath, "plating", &[("d_w", "5 mL")]);
    near(found(&plan, rinse, "stream", "D", "", L_PER_DAY), 2.4);
    near(found(&plan, bath, "dosing", "D", "", L_PER_DAY), 2.4);
    plan.clear(&Field::single(bath, "plating", "d_w"));
    near(found(&plan, rinse, "stream", "D", "", L_PER_DAY), 1.2);
}

#[test]
fn a_plating_load_with_other_wafers_than_the_drag_out_says_so() {
    let (mut plan, bath, _) = line();
    weigh(&mut plan, bath);
    type_in(&mut plan, bath, "plating", &[("η", "100 %")]);
    row(&mut plan, bath, ("plating", "steps"), "Layer", &[("d", "10 µm"), ("j", "2 A/dm²")]);
    let says = |plan: &Plan| {
        let results = Results::of(plan, None);
        results.findings().iter().any(|found| found.finding.text.contains("counts another number of wafers"))
    };
    assert!(!says(&plan));
    type_in(&mut plan, bath, "plating", &[("N", "240 per day")]);
    assert!(says(&plan));
    type_in(&mut plan, bath, "drag-out", &[("N", "240 per day")]);
    assert!(!says(&plan));
}

#[test]
fn a_stream_runs_as_its_rinse_does_until_something_is_typed_over() {
    let (mut plan, bath, rinse) = line();
    weigh(&mut plan, bath);
    let (how, water) = (("stages", "two in counterflow"), ("v_x", "0.5 L"));
    type_in(&mut plan, rinse, "rinse", &[how, ("target", "nothing: the water is typed"), water]);
    near(found(&plan, rinse, "stream", "Q_day", "", L_PER_DAY), 240.0);
    let agree = |plan: &Plan| {
        for (stream, rinse_symbol, key) in
            [("c_w", "c_d", "Cu"), ("c_on", "c_n", "Cu"), ("Q_day", "Q_day", "")]
        {
            let unit = if key.is_empty() { L_PER_DAY } else { MG_PER_L_METAL };
            let of_rinse = found(plan, rinse, "rinse", rinse_symbol, key, unit).expect("an answer");
            near(found(plan, rinse, "stream", stream, key, unit), of_rinse);
        }
    };
    agree(&plan);
    // By flow too: 240 L in 24 h.
    type_in(&mut plan, rinse, "stream", &[("water", "flow while it runs")]);
    near(found(&plan, rinse, "stream", "q_run", "", L_PER_MIN), 240.0 / 1440.0);
    agree(&plan);
    // Sprays and dumps: how many, and the share that mixes.
    let spray = [("stages", "sprayed"), ("m_x", "3"), ("η", "40 %")];
    type_in(&mut plan, rinse, "rinse", &spray);
    agree(&plan);
    type_in(&mut plan, rinse, "rinse", &[("stages", "quick dumps"), ("V_q", "5 L"), ("n_l", "25")]);
    // 0.5 L for each of 25 wafers are 12.5 L, so three dumps.
    near(found(&plan, rinse, "rinse", "m_r", "", NUMBER), 3.0);
    agree(&plan);
    type_in(&mut plan, rinse, "stream", &[("water", "volume a wafer"), ("v_w", "1 L")]);
    near(found(&plan, rinse, "stream", "Q_day", "", L_PER_DAY), 480.0);
    // Three times a third of a litre to 2.5 mL.
    let left = 50_000.0 / (1.0f64 + 1000.0 / 3.0 / 2.5).powi(3);
    near(found(&plan, rinse, "stream", "c_on", "Cu", MG_PER_L_METAL), left);
    plan.clear(&Field::single(rinse, "stream", "v_w"));
    agree(&plan);
}

#[test]
fn a_rinse_that_is_not_filled_in_keeps_no_stream_from_its_own_water() {
    let (mut plan, bath, rinse) = line();
    weigh(&mut plan, bath);
    plan.add_sheet(rinse, "rinse");
    let water = |plan: &Plan| found(plan, rinse, "stream", "Q_day", "", L_PER_DAY);
    assert!(water(&plan).is_err_and(|why| why.contains("Water a wafer")), "{:?}", water(&plan));
    type_in(&mut plan, rinse, "stream", &[("v_w", "1 L")]);
    near(water(&plan), 480.0);
}

/// By hand: 2.5 mL of 50 g/L into 0.1 L leave 50/41 g/L in the first rinse, for the concentrate route; the second takes
/// it over, and 1 + r + r² + r³ = 50 000/41 gives its water.
#[test]
fn first_and_second_rinse_go_to_routes_of_their_own() {
    let (mut plan, bath, first) = line();
    weigh(&mut plan, bath);
    let (second, [concentrate, dilute]) = with_second_rinse(&mut plan, first);
    near(found(&plan, first, "stream", "c_w", "Cu", G_PER_L_METAL), 50.0 / 41.0);
    near(found(&plan, second, "stream", "c_on", "Cu", MG_PER_L_METAL), 1.0);
    let r = found(&plan, second, "rinse", "r", "", NUMBER).unwrap();
    near(Ok(1.0 + r + r.powi(2) + r.powi(3)), 50_000.0 / 41.0);
    near(found(&plan, second, "stream", "Q_day", "", L_PER_DAY), 1.2 * r);
    // What the one passes on, the other takes over, on both their sheets.
    let on = found(&plan, first, "stream", "c_on", "Cu", G_PER_L_METAL).unwrap();
    near(found(&plan, first, "rinse", "c_n", "Cu", G_PER_L_METAL), on);
    let [out, over] =
        ["c_w", "c_on"].map(|symbol| found(&plan, second, "stream", symbol, "Cu", MG_PER_L_METAL));
    near(out, (on * 1000.0 - over.unwrap()) / r);
    // The first is in order on the concentrate route. The second has too little water for the dilute one, and its route
    // says so.
    let results = Results::of(&plan, None);
    let of = |route: Id| {
        let cell = results.network.cell_at(route, "route").unwrap();
        let all = results.findings().into_iter().filter(|found| found.cell == cell);
        all.filter(|found| found.finding.severity >= Severity::Caution)
            .map(|found| found.finding)
            .collect::<Vec<_>>()
    };
    assert!(of(concentrate).is_empty(), "{:?}", of(concentrate));
    assert!(of(dilute).iter().any(|finding| finding.at == "c_s[Second rinse]"), "{:?}", of(dilute));
    // With more water in the first, and as much in the second as the dilute route wants, both are in order.
    type_in(&mut plan, first, "rinse", &[("v_x", "0.7 L")]);
    type_in(&mut plan, second, "rinse", &[("target", "metal in what goes to the drain")]);
    near(found(&plan, second, "stream", "c_w", "Cu", MG_PER_L_METAL), 60.0);
    let results = Results::of(&plan, None);
    let cautions = results.findings().into_iter().filter(|found| {
        let on_route = [concentrate, dilute].map(|route| results.network.cell_at(route, "route"));
        on_route.contains(&Some(found.cell)) && found.finding.severity >= Severity::Caution
    });
    assert_eq!(cautions.count(), 0);
    assert_balance_closes(&plan);
}

#[track_caller]
fn assert_balance_closes(plan: &Plan) {
    let site = plan.site().expect("a site").id;
    for symbol in ["z", "n"] {
        assert_eq!(found(plan, site, "balance", symbol, "Cu", G_PER_DAY_METAL), Ok(0.0), "{symbol}");
    }
}

#[test]
fn metal_that_rinse_water_brings_along_is_in_the_balance() {
    let (mut plan, bath, first) = line();
    weigh(&mut plan, bath);
    let (second, _) = with_second_rinse(&mut plan, first);
    type_in(&mut plan, second, "rinse", &[("c_t", "5 mg/L")]);
    row(&mut plan, second, ("rinse", "metals"), "Cu", &[("c_f", "2 mg/L")]);
    near(found(&plan, second, "stream", "c_on", "Cu", MG_PER_L_METAL), 5.0);
    let a_day = found(&plan, second, "stream", "Q_day", "", L_PER_DAY).unwrap();
    near(found(&plan, second, "stream", "m_bath", "Cu", G_PER_DAY_METAL), 0.002 * a_day);
    assert_balance_closes(&plan);
}

/// Trap: an added counterflow stage does not dilute what overflows: the same water to the drain is as rich.
#[test]
fn an_added_stage_leaves_a_stream_on_its_route_as_rich_as_it_was() {
    let (mut plan, bath, rinse) = line();
    weigh(&mut plan, bath);
    let route = plan.add(Subject::Route, "Dilute");
    plan.set_to(rinse, Some(route));
    type_in(&mut plan, rinse, "rinse", &[("target", "nothing: the water is typed"), ("v_x", "1 L")]);
    let held = |plan: &Plan| found(plan, route, "route", "c_s", "First rinse", MG_PER_L_METAL).unwrap();
    let one = held(&plan);
    near(Ok(one), 125.0 / 1.0025);
    type_in(&mut plan, rinse, "rinse", &[("stages", "four in counterflow")]);
    assert!(held(&plan) > one && held(&plan) < 125.0, "{}", held(&plan));
}

/// By hand: less than 60 mg/L of 50 g/L in 1 L a wafer is 1.2 mL; spun film goes by one over speed, and by one over the
/// root of time. More water comes last, with what is said against it.
#[test]
fn a_rinse_too_rich_is_cured_by_spinning_first_and_by_water_last() {
    let (mut plan, bath, rinse) = line();
    let spun = [("n_s", "200 /min"), ("t_s", "5 s"), ("μ", "2 mPa·s"), ("ρ", "1.2 kg/L"), ("v_h", "0.1 mL")];
    type_in(&mut plan, bath, "drag-out", &spun);
    type_in(&mut plan, rinse, "stream", &[("v_w", "1 L")]);
    let route = plan.add(Subject::Route, "Dilute");
    plan.set_to(rinse, Some(route));
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(route, "route").unwrap();
    let finding = results
        .findings()
        .into_iter()
        .map(|found| found.finding)
        .find(|finding| finding.at == "c_s[First rinse]");
    let finding = finding.expect("it is too rich");
    assert!(
        finding.text.contains("longer or faster spin") && finding.text.contains("concentrate route"),
        "{}",
        finding.text
    );
    let offered = cures(&results.network, cell, &finding);
    let order: Vec<_> = offered.iter().map(|cure| (cure.calculator, cure.symbol.as_str())).collect();
    // Not at the stream, whose drag-out follows the bath's: typed over there, it would part from the bath.
    assert_eq!(order, [("drag-out", "t_s"), ("drag-out", "n_s"), ("stream", "v_w")]);
    assert!(offered[2].remark.contains("433.15(c)"), "{}", offered[2].remark);
    for (k, symbol) in ["t_s", "n_s"].into_iter().enumerate() {
        let mut cured = plan.clone();
        type_in(&mut cured, bath, "drag-out", &[(symbol, &offered[k].text)]);
        let held = found(&cured, route, "route", "c_s", "First rinse", MG_PER_L_METAL).unwrap();
        assert!(held <= 60.0 && held > 59.0, "{symbol}: {held}");
    }
    // The film itself: 1.2 mL less 0.1 in the holder, less the share of the water that leaves with the wafer.
    let wanted = 60.0 / (50_000.0 - 60.0) - 1e-4;
    let now = found(&plan, bath, "drag-out", "v_f", "", L).unwrap();
    let speed: f64 = offered[1].text.split('\u{a0}').next().unwrap().parse().unwrap();
    assert!((speed / (200.0 * now / wanted) - 1.0).abs() < 5e-3, "{speed}");
}

/// Recursion in Python, mix then withdraw: 40 L, 480 loads a day of 2.5 mL of 50 g/L for 10 days come to 12.95874172 g/L,
/// 6.804194266 in the mean; with 20 mL a load going back to the bath to 5.181908071 and 3.636330344. By hand: 4 L a day
/// let out, 1.2 L a day carried on; without a way back these two are the 60 g a day of the drag-out.
#[test]
fn a_standing_rinse_keeps_metal_from_the_rinse_after_it_and_gives_some_back() {
    let (mut plan, bath, first) = line();
    weigh(&mut plan, bath);
    let stands = [("V", "40 L"), ("t_x", "10 days")];
    type_in(&mut plan, first, "standing-rinse", &stands);
    // The stream asks which of the two it is.
    let asked = found(&plan, first, "stream", "Q_day", "", L_PER_DAY).unwrap_err();
    assert!(asked.contains("sheet of a standing rinse"), "{asked}");
    type_in(&mut plan, first, "stream", &[("kind", "standing rinse")]);
    let roughly = |found: Result<f64, String>, expected: f64| {
        let found = found.unwrap_or_else(|why| panic!("{why}"));
        assert!((found / expected - 1.0).abs() < 1e-8, "{found} is not {expected}");
    };
    let of = |plan: &Plan, symbol| found(plan, first, "stream", symbol, "Cu", G_PER_DAY_METAL);
    near(found(&plan, first, "stream", "Q_day", "", L_PER_DAY), 4.0);
    near(found(&plan, first, "stream", "V_once", "", L), 40.0);
    roughly(of(&plan, "m_w"), 4.0 * 12.95874172);
    roughly(of(&plan, "m_on"), 1.2 * 6.804194266);
    near(of(&plan, "m_bath"), 60.0);
    // The rinse after it is sized for the worst, and its stream counts the mean.
    let second = with_routes(&mut plan, first);
    roughly(found(&plan, second, "rinse", "c_n", "Cu", MG_PER_L_METAL), 12958.74172 * 2.5 / 2502.5);
    roughly(found(&plan, second, "stream", "m_in", "Cu", G_PER_DAY_METAL), 1.2 * 6.804194266);
    assert_balance_closes(&plan);
    // 9.6 L a day back to the bath, with what is in them in the mean.
    type_in(
        &mut plan,
        first,
        "standing-rinse",
        &[("goes", "back to the bath, as that evaporates"), ("E", "9.6 L/day")],
    );
    roughly(found(&plan, first, "standing-rinse", "c_T", "", G_PER_L_METAL), 5.181908071);
    let back = 9.6 * 3.636330344;
    roughly(found(&plan, first, "standing-rinse", "m_b", "Cu", G_PER_DAY_METAL), back);
    roughly(found(&plan, first, "standing-rinse", "f_b", "", PERCENT), 100.0 * back / 60.0);
    roughly(of(&plan, "m_bath"), 60.0 - back);
    assert_balance_closes(&plan);
    // Never above 50/9 g/L, so that a limit above it never has it changed.
    type_in(&mut plan, first, "standing-rinse", &[("by", "at a concentration"), ("c_x", "6 g/L")]);
    near(found(&plan, first, "standing-rinse", "c_T", "", G_PER_L_METAL), 50.0 / 9.0);
    assert_eq!(found(&plan, first, "stream", "Q_day", "", L_PER_DAY), Ok(0.0));
    roughly(of(&plan, "m_on"), 1.2 * 50.0 / 9.0);
    assert_balance_closes(&plan);
}

/// A second rinse after the first, of one stage with 2.5 L a wafer; each to a route of its own.
fn with_routes(plan: &mut Plan, first: Id) -> Id {
    let second = plan.add(Subject::Stream, "Second rinse");
    plan.set_from(second, Some(first));
    type_in(plan, second, "rinse", &[("target", "nothing: the water is typed"), ("v_x", "2.5 L")]);
    to_routes(plan, first, second);
    second
}
