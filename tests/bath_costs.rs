//! Heat, water, money and recipes of a bath: that one sheet counts, and the next follows it.
//!
//! The bath is invented. What a test expects is worked out by hand beside it.

mod common;

use bathbook::calculator::{Severity, Subject};
use bathbook::calculators::find;
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{KG, KG_PER_H, KW, M3, ML_PER_DAY, MONEY, W_PER_K};
use common::{answer, type_in};

/// A bath of 200 L at 50 °C with 0.4 m² open and 20 W/K of dry loss.
fn warm_bath() -> (Plan, Id) {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Warm");
    type_in(&mut plan, bath, "make-up", &[("V_t", "200 L"), ("class", "acid")]);
    type_in(&mut plan, bath, "evaporation", &[("A_t", "0.4 m²"), ("T", "50 °C")]);
    let heat = [
        ("L", "20 W/K"),
        ("source", "electric or inline heater"),
        ("P", "5 kW"),
        ("evap", "from an open surface"),
    ];
    type_in(&mut plan, bath, "heat-up", &heat);
    (plan, bath)
}

/// What evaporates is counted on the sheet of evaporation, and once more nowhere: the heat to hold is the
/// dry loss of 20 W/K × 29 K and that sheet's heat, whichever form counts, and also as measured.
#[test]
fn heat_up_follows_evaporation_and_counts_it_once() {
    let (mut plan, bath) = warm_bath();
    for cells in
        [&[("form", "the highest of the pool forms")][..], &[("form", "indoor pool")], &[("w_m", "2.2 kg/h")]]
    {
        type_in(&mut plan, bath, "evaporation", cells);
        let wet = answer(&plan, bath, "evaporation", "Q_wet", "", KW);
        let held = answer(&plan, bath, "heat-up", "Q_hold", "", KW);
        assert!((held - wet - 0.020 * 29.0).abs() < 1e-6, "{held} {wet}");
        let [here, there] =
            ["evaporation", "heat-up"].map(|sheet| answer(&plan, bath, sheet, "w", "", KG_PER_H));
        assert!((here / there - 1.0).abs() < 1e-9, "{here} {there}");
    }
}

#[test]
fn a_cover_typed_once_saves_heat_everywhere() {
    let (mut plan, bath) = warm_bath();
    let open = answer(&plan, bath, "heat-up", "Q_wet", "", KW);
    type_in(&mut plan, bath, "evaporation", &[("f_c", "100 %"), ("k_c", "80 %")]);
    assert!((answer(&plan, bath, "heat-up", "Q_wet", "", KW) / open - 0.2).abs() < 0.01);
}

#[test]
fn heat_up_follows_the_coil() {
    let (mut plan, bath) = warm_bath();
    let coil =
        [("use", "heats the bath"), ("T_s", "75 °C"), ("q", "8 L/min"), ("l", "15 m"), ("Q_n", "2 kW")];
    type_in(&mut plan, bath, "coil", &coil);
    let source = [("source", "hot or cold liquid in a coil or jacket"), ("T_s", "75 °C"), ("q", "8 L/min")];
    type_in(&mut plan, bath, "heat-up", &source);
    assert!(answer(&plan, bath, "coil", "UA", "", W_PER_K) > 10.0);
    let [here, there] =
        [("coil", "Q_g"), ("heat-up", "Q_top")].map(|(sheet, of)| answer(&plan, bath, sheet, of, "", KW));
    assert!((here / there - 1.0).abs() < 1e-9, "{here} {there}");
}

/// Current times voltage: 100 wafers a day of 60 A·min are 100 A·h in 24 h, 4.1667 A in the mean; at 3 V and
/// a margin of 15 % 14.375 W. Metal plated: 1.1856 g/(A·h) × 100 A·h × 350 days is 41.5 kg (copper, z = 2).
#[test]
fn plating_heat_metal_and_money_follow_the_load() {
    let (mut plan, bath) = warm_bath();
    type_in(
        &mut plan,
        bath,
        "plating",
        &[("N", "100 per day"), ("D", "200 mm"), ("open", "20 %"), ("η", "100 %")],
    );
    plan.add_row(bath, "plating", "metals", "Cu");
    plan.type_in(&Field::cell(bath, "plating", "metals", "Cu", "w"), "100 %", None);
    plan.add_row(bath, "plating", "steps", "Layer");
    for (symbol, text) in [("given", "charge"), ("q_g", "60 A·min"), ("j", "2 A/dm²")] {
        plan.type_in(&Field::cell(bath, "plating", "steps", "Layer", symbol), text, None);
    }
    type_in(&mut plan, bath, "coil", &[("T_s", "15 °C"), ("q", "8 L/min"), ("l", "5 m")]);
    assert!((answer(&plan, bath, "coil", "Q_need", "", KW) - 0.014375).abs() < 1e-6);
    plan.add_row(plan.site().expect("a site").id, "site", "metals", "Cu");
    let site = plan.site().expect("a site").id;
    plan.type_in(&Field::cell(site, "site", "metals", "Cu", "p_metal"), "10 per kg", None);
    type_in(&mut plan, site, "site", &[("p_kWh", "0.2 per kWh")]);
    plan.add_sheet(bath, "cost");
    let metal = answer(&plan, bath, "cost", "c_M", "Cu", MONEY);
    assert!((metal / 10.0 - 1.1856 * 100.0 * 350.0 / 1000.0).abs() < 0.01, "{metal}");
    let all = answer(&plan, bath, "cost", "c_year", "", MONEY);
    assert!((all / answer(&plan, bath, "cost", "c_wafer", "", MONEY) - 35_000.0).abs() < 1e-6);
}

#[test]
fn every_recipe_makes_up_a_bath_within_its_ranges() {
    let calculator = find("make-up").expect("make-up");
    let metals = ["Cu", "Ni", "Sn", "Ag", "Au", "Pd", "In"];
    let mut seen = Vec::new();
    for recipe in calculator.recipes {
        let mut plan = Plan::new("A line (invented)");
        let bath = plan.add(Subject::Bath, "New");
        type_in(&mut plan, bath, "make-up", &[("V_t", "200 L")]);
        plan.add_row(bath, "make-up", "ingredients", "Old");
        plan.fill_in(bath, "make-up", recipe);
        let results = Results::of(&plan, None);
        let cell = results.network.cell_at(bath, "make-up").expect("a make-up");
        assert!(results.stop(cell).is_none(), "{}: {:?}", recipe.name, results.stop(cell));
        let outcome = results.outcome(cell).expect("an outcome");
        for finding in &outcome.findings {
            assert!(finding.severity < Severity::Serious, "{}: {}", recipe.name, finding.text);
            assert!(
                !finding.text.contains("outside of what is usual in"),
                "{}: {}",
                recipe.name,
                finding.text
            );
        }
        let ranges = outcome.findings.iter().find(|finding| finding.at == "recipe").expect("its ranges");
        assert!(ranges.text.contains(recipe.source), "{}", ranges.text);
        for metal in metals {
            if results.answer(cell, "c_M_want", metal).is_some_and(|(_, si)| si > 0.0) {
                seen.push(metal);
            }
        }
        assert!(results.answer(cell, "m", "Old").is_none(), "rows typed before give way");
    }
    assert!(metals.iter().all(|metal| seen.contains(metal)), "{seen:?}");
}

#[test]
fn what_lies_outside_of_a_recipe_is_said() {
    let calculator = find("make-up").expect("make-up");
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "New");
    type_in(&mut plan, bath, "make-up", &[("V_t", "200 L")]);
    plan.fill_in(bath, "make-up", &calculator.recipes[0]);
    let cell = Field::cell(bath, "make-up", "ingredients", "Copper sulfate", "c_m");
    plan.type_in(&cell, "25 g/L", None);
    let results = Results::of(&plan, None);
    let at = results.network.cell_at(bath, "make-up").expect("a make-up");
    let findings = &results.outcome(at).expect("an outcome").findings;
    assert!(
        findings.iter().any(|finding| finding.text.contains("outside of what is usual in")),
        "{findings:?}"
    );
}

/// A bath of the plan is the user's own recipe: its rows and class, and not what was recorded at its make-up.
#[test]
fn a_bath_of_the_plan_serves_as_a_recipe_of_ones_own() {
    let mut plan = Plan::new("A line (invented)");
    let (first, second) = (plan.add(Subject::Bath, "First"), plan.add(Subject::Bath, "Second"));
    type_in(
        &mut plan,
        first,
        "make-up",
        &[("V_t", "100 L"), ("class", "acid"), ("by", "volumes added up (an estimate)")],
    );
    plan.add_row(first, "make-up", "ingredients", "Boric acid");
    for (symbol, text) in [("c_s", "37 g/L"), ("added", "3.69 kg"), ("lot", "17")] {
        plan.type_in(&Field::cell(first, "make-up", "ingredients", "Boric acid", symbol), text, None);
    }
    type_in(&mut plan, second, "make-up", &[("V_t", "300 L")]);
    plan.fill_in_as(second, "make-up", first);
    assert!((answer(&plan, second, "make-up", "m", "Boric acid", KG) - 11.1).abs() < 1e-9);
    assert!(plan.entry(&Field::cell(second, "make-up", "ingredients", "Boric acid", "lot")).is_none());
    assert_eq!(
        plan.entry(&Field::single(second, "make-up", "class")).map(|entry| &*entry.text),
        Some("acid")
    );
    assert!(plan.entry(&Field::single(second, "make-up", "V_t")).is_some_and(|entry| entry.text == "300 L"));
}

/// Rinses and samples of a bath come to its cost by themselves, a row each, also those that come from another
/// rinse. By hand: 100 wafers a day with 1 L and 2 L are 300 L a day, in 350 days 105 m³; at 10 a cubic metre
/// of DI water 1050, and 7 for the 0.7 m³ of the dump, which is made up anew; 35 m³ of the first rinse at 20 are 700.
#[test]
fn streams_of_a_bath_come_to_its_cost_and_a_dump_is_counted_once() {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Copper");
    type_in(&mut plan, bath, "make-up", &[("V_t", "200 L"), ("class", "acid")]);
    type_in(&mut plan, bath, "cost", &[("N", "100 per day"), ("p_water", "10 per m³")]);
    let (first, second) = (plan.add(Subject::Stream, "First"), plan.add(Subject::Stream, "Second"));
    let dump = plan.add(Subject::Stream, "Dump");
    plan.set_from(first, Some(bath));
    plan.set_from(second, Some(first));
    plan.set_from(dump, Some(bath));
    plan.add_row(first, "stream", "metals", "Cu");
    plan.type_in(&Field::cell(first, "stream", "metals", "Cu", "c_in"), "40 g/L", None);
    type_in(&mut plan, first, "stream", &[("N", "100 per day"), ("d_w", "1 mL"), ("v_w", "1 L")]);
    type_in(&mut plan, second, "stream", &[("v_w", "2 L")]);
    type_in(&mut plan, dump, "stream", &[("kind", "bath dump"), ("V_d", "200 L"), ("t_d", "100 days")]);
    plan.add_row(dump, "stream", "metals", "Cu");
    plan.type_in(&Field::cell(dump, "stream", "metals", "Cu", "c_in"), "40 g/L", None);
    assert!((answer(&plan, bath, "cost", "V_r", "Second", M3) - 70.0).abs() < 1e-9);
    assert!((answer(&plan, bath, "cost", "V_r", "Dump", M3) - 0.7).abs() < 1e-9);
    assert!((answer(&plan, bath, "cost", "c_i", "Water", MONEY) - 1057.0).abs() < 1e-6);
    for (stream, price) in [("First", "20 per m³"), ("Second", "0 per m³"), ("Dump", "1000 per m³")] {
        plan.type_in(&Field::cell(bath, "cost", "waste", stream, "p_r"), price, None);
    }
    assert!((answer(&plan, bath, "cost", "c_r", "First", MONEY) - 700.0).abs() < 1e-6);
    // Nobody knows of the dump but its stream; on the sheet of ageing it is bath replaced, and no row any more.
    assert!((answer(&plan, bath, "cost", "c_r", "Dump", MONEY) - 700.0).abs() < 1e-6);
    type_in(&mut plan, bath, "cost", &[("V_d", "700 L")]);
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(bath, "cost").expect("a cost");
    assert!(results.answer(cell, "c_r", "Dump").is_none());
    assert!((answer(&plan, bath, "cost", "c_i", "Rinses and other waste", MONEY) - 700.0).abs() < 1e-6);
    // A row keeps its price under the stream’s new name.
    plan.rename(second, "Last");
    assert!(plan.entry(&Field::cell(bath, "cost", "waste", "Last", "p_r")).is_some());
}

/// What is bled, as typed on the sheet of ageing, is what dosing replaces: 2 L a day of 5 mL/L are 10 mL.
#[test]
fn dosing_follows_the_bleed_of_the_sheet_of_ageing() {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Copper");
    type_in(&mut plan, bath, "make-up", &[("V_t", "200 L")]);
    type_in(
        &mut plan,
        bath,
        "dosing",
        &[("V", "200 L"), ("N", "100 per day"), ("q_w", "1 A·h"), ("d_w", "0 mL")],
    );
    plan.add_row(bath, "dosing", "additives", "Suppressor");
    for (symbol, text) in [("C", "5 mL/L"), ("k_q", "0.1 mL/(A·h)")] {
        plan.type_in(&Field::cell(bath, "dosing", "additives", "Suppressor", symbol), text, None);
    }
    let used = |plan: &Plan| answer(plan, bath, "dosing", "u", "Suppressor", ML_PER_DAY);
    assert!((used(&plan) - 10.0).abs() < 1e-9);
    plan.add_sheet(bath, "ageing");
    assert!((used(&plan) - 10.0).abs() < 1e-9, "no bleed is typed yet");
    type_in(&mut plan, bath, "ageing", &[("q_b", "2 L/day")]);
    assert!((used(&plan) - 20.0).abs() < 1e-9);
}

/// A currency typed at the site stands behind every sum of money of the plan.
#[test]
fn the_currency_of_the_site_stands_behind_money() {
    let mut plan = Plan::new("A line (invented)");
    let (site, bath) = (plan.site().expect("a site").id, plan.add(Subject::Bath, "Copper"));
    type_in(&mut plan, bath, "cost", &[("N", "10 per day"), ("V_o", "100 m³"), ("p_water", "3 per m³")]);
    let shown = |plan: &Plan| {
        let results = Results::of(plan, None);
        let cell = results.network.cell_at(bath, "cost").expect("a cost");
        results.answer_text(cell, "c_year", "", 3).expect("money")
    };
    assert_eq!(shown(&plan), ("300".into(), "of your currency"));
    type_in(&mut plan, site, "site", &[("currency", "cr")]);
    assert_eq!(shown(&plan), ("300\u{a0}cr".into(), ""));
}
