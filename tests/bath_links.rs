//! A bath and its sheets: that what one of them knows arrives at the next.
//!
//! The bath is invented. What a test expects is worked out by hand beside it.

mod common;

use bathbook::calculator::{Severity, Subject};
use bathbook::calculators::find;
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{G_METAL, G_PER_L, KG, L, NUMBER};
use common::{answer, row};

/// An acid copper bath of 200 L with 40 g/L of copper and 180 g/L of acid, as it was made up.
fn copper_bath() -> (Plan, Id) {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Copper");
    type_in(&mut plan, bath, "make-up", "V_t", "200 L");
    type_in(&mut plan, bath, "make-up", "class", "acid");
    row(&mut plan, bath, ("make-up", "ingredients"), "Copper sulfate", &[("c_m", "40 g/L")]);
    row(&mut plan, bath, ("make-up", "ingredients"), "Sulfuric acid", &[("c_s", "180 g/L")]);
    (plan, bath)
}

fn type_in(plan: &mut Plan, place: Id, calculator: &'static str, symbol: &'static str, text: &str) {
    plan.type_in(&Field::single(place, calculator, symbol), text, None);
}

/// 11.33 mL of 0.1 mol/L EDTA for 2 mL are 36.0 g/L of copper. To 40 g/L with 65 g/L of concentrate, in a
/// full tank of 200 L: (200 − x)·36 + 65·x = 8000, so x = 27.6 L out and in, with 992 g of copper.
#[test]
fn an_analysis_is_corrected_to_what_the_bath_was_made_up_to() {
    let (mut plan, bath) = copper_bath();
    row(&mut plan, bath, ("analysis", "determinations"), "Cu", &[("V_a", "2 mL"), ("v_1", "11.33 mL")]);
    assert!((answer(&plan, bath, "analysis", "c_x", "Cu", G_PER_L) - 36.0).abs() < 0.01);
    for (symbol, text) in [("added_as", "a liquid"), ("s", "65 g/L")] {
        plan.type_in(&Field::cell(bath, "correction", "components", "Cu", symbol), text, None);
    }
    let measured = answer(&plan, bath, "analysis", "c_x", "Cu", G_PER_L);
    let expected = 200.0 * (40.0 - measured) / (65.0 - measured);
    assert!((answer(&plan, bath, "correction", "V_x", "", L) - expected).abs() < 1e-6);
    assert!((answer(&plan, bath, "correction", "m_M", "Cu", G_METAL) - measured * expected).abs() < 1e-3);
    assert!((answer(&plan, bath, "correction", "c_end", "Cu", G_PER_L) - 40.0).abs() < 1e-9);
}

/// What the make-up calls cyanide is cyanide on the sheets after it: no acid is offered there.
#[test]
fn the_class_of_a_bath_follows_it() {
    let (mut plan, bath) = copper_bath();
    row(&mut plan, bath, ("ph", "solutes"), "Citric acid", &[("C", "0.2 mol/L")]);
    type_in(&mut plan, bath, "ph", "pH_w", "1.5");
    assert!(answer(&plan, bath, "ph", "pH", "", NUMBER) > 1.5);
    assert!(answer(&plan, bath, "ph", "V_r", "", L) > 0.0);
    let lowers = Field::single(bath, "ph", "down");
    assert!(Results::of(&plan, None).asks(&lowers));
    let gold = plan.add(Subject::Bath, "Gold");
    type_in(&mut plan, gold, "make-up", "V_t", "100 L");
    type_in(&mut plan, gold, "make-up", "class", "cyanide");
    row(&mut plan, gold, ("ph", "solutes"), "Citric acid", &[("C", "0.2 mol/L")]);
    type_in(&mut plan, gold, "ph", "pH_w", "1.5");
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(gold, "ph").expect("a pH sheet");
    let stop = results.stop(cell).expect("a refusal");
    assert!(stop.reason.contains("cyanide"), "{stop:?}");
    assert!(!results.asks(&Field::single(gold, "ph", "down")));
}

/// 36 g/L of copper and 170 of acid found, 40 and 180 wanted by the make-up, with the salt and the acid that it was
/// made up with. By hand: x out of 200 L; acid of 1762 g/L is a = (36000 − 170·(200 − x))/1762 and finds the room of x,
/// so x = 1.256 L and a as much; copper takes (8000 − 36·(200 − x)) g, with 25.45 % in the salt (molmass).
#[test]
fn a_correction_knows_targets_and_stock_from_the_make_up() {
    let (mut plan, bath) = copper_bath();
    plan.type_in(&Field::cell(bath, "make-up", "ingredients", "Copper sulfate", "p"), "98 %", None);
    plan.add_sheet(bath, "correction");
    for (key, found) in [("Cu", "36 g/L"), ("H2SO4", "170 g/L")] {
        plan.type_in(&Field::cell(bath, "correction", "components", key, "c"), found, None);
    }
    let strength = answer(&plan, bath, "make-up", "s_C", "H2SO4", G_PER_L);
    // By hand: 0.96 × 1.8357 kg/L (CARMA's table at 20 °C).
    assert!((strength / 1762.3 - 1.0).abs() < 1e-3, "{strength}");
    let x = 2000.0 / (strength - 170.0);
    assert!((answer(&plan, bath, "correction", "V_x", "", L) - x).abs() < 1e-6);
    assert!((answer(&plan, bath, "correction", "v", "H2SO4", L) - x).abs() < 1e-6);
    let salt = (8.0 - 0.036 * (200.0 - x)) / 0.25451 / 0.98;
    assert!((answer(&plan, bath, "correction", "m", "Cu", KG) / salt - 1.0).abs() < 4e-4);
    assert!((answer(&plan, bath, "correction", "c_end", "H2SO4", G_PER_L) - 180.0).abs() < 1e-9);
    // Its work order names no metal as what is weighed in.
    let results = Results::of(&plan, Some((bath, "correction")));
    let cell = results.open.expect("a sheet");
    let order = &results.outcome(cell).expect("an answer").order;
    assert!(order.iter().any(|step| step.text.starts_with("Solid for Cu,")), "{order:?}");
}

/// Nickel chloride is there for its chloride and brings nickel: its share alone would leave that out, so the formula
/// is asked for.
#[test]
fn a_salt_that_brings_two_components_is_not_taken_over_without_its_formula() {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Nickel");
    type_in(&mut plan, bath, "make-up", "V_t", "200 L");
    type_in(&mut plan, bath, "make-up", "class", "acid");
    row(&mut plan, bath, ("make-up", "ingredients"), "Nickel sulfate", &[("c_m", "70 g/L")]);
    let chloride = [("wanted", "an ion or part of it"), ("species", "Cl"), ("c_i", "5 g/L")];
    row(&mut plan, bath, ("make-up", "ingredients"), "Nickel chloride", &chloride);
    plan.add_sheet(bath, "correction");
    for (key, found) in [("Ni", "65 g/L"), ("Cl", "4 g/L")] {
        plan.type_in(&Field::cell(bath, "correction", "components", key, "c"), found, None);
    }
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(bath, "correction").expect("a sheet");
    let stop = results.stop(cell).expect("it asks");
    assert!(stop.todo && stop.row == "Cl" && stop.at == Some("salt"), "{stop:?}");
    // Nor is the nickel corrected while nobody knows what of it the chloride will bring.
    let mut waiting = plan.clone();
    waiting.clear(&Field::cell(bath, "correction", "components", "Cl", "c"));
    let results = Results::of(&waiting, None);
    let stop = results.stop(cell).expect("it asks");
    assert!(stop.todo && stop.row == "Cl" && stop.reason.contains("may bring Ni too"), "{stop:?}");
    plan.type_in(&Field::cell(bath, "correction", "components", "Cl", "salt"), "NiCl2·6H2O", None);
    // By hand: 0.2 kg of chloride in a salt with 29.83 % of it.
    assert!((answer(&plan, bath, "correction", "m", "Cl", KG) / (0.2 / 0.29832) - 1.0).abs() < 1e-3);
}

/// An analysis that was added and not yet done says what is missing, row by row, and keeps nothing back.
#[test]
fn a_correction_does_not_wait_for_an_empty_analysis() {
    let (mut plan, bath) = copper_bath();
    plan.add_sheet(bath, "analysis");
    plan.add_sheet(bath, "correction");
    let results = Results::of(&plan, None);
    let cell = results.network.cell_at(bath, "correction").expect("a sheet");
    let stop = results.stop(cell).expect("nothing is known yet");
    assert!(stop.todo && !stop.passed_on && stop.reason.contains("Cu and H2SO4"), "{stop:?}");
    plan.type_in(&Field::cell(bath, "correction", "components", "Cu", "c"), "36 g/L", None);
    assert!((answer(&plan, bath, "correction", "c_end", "Cu", G_PER_L) - 40.0).abs() < 1e-9);
    let results = Results::of(&plan, None);
    let outcome = results.outcome(cell).expect("an answer");
    assert!(outcome.findings.iter().any(|finding| finding.at == "c[H2SO4]"));
}

/// The names of the usual values of a sheet that nobody typed.
fn usual(plan: &Plan, place: Id, calculator: &str) -> Vec<String> {
    let results = Results::of(plan, None);
    let cell = results.network.cell_at(place, calculator).expect("a sheet");
    let fields = results.usual(cell);
    fields.iter().map(|field| format!("{}{}", field.key, field.symbol)).collect()
}

/// A pillar of 30 µm at 8 A/dm² is what the preset offers, and 96 % what acid is mostly sold at: nobody typed them.
#[test]
fn what_a_preset_fills_in_is_a_usual_value_until_somebody_types_another() {
    let (mut plan, bath) = copper_bath();
    assert!(usual(&plan, bath, "make-up").contains(&"Sulfuric acidw".to_string()));
    assert!(!usual(&plan, bath, "make-up").contains(&"Sulfuric acidc_s".to_string()), "180 g/L was typed");
    plan.type_in(&Field::cell(bath, "make-up", "ingredients", "Sulfuric acid", "w"), "50 %", None);
    assert!(!usual(&plan, bath, "make-up").contains(&"Sulfuric acidw".to_string()));
    plan.add_row(bath, "plating", "steps", "Pillar");
    let pillar =
        |plan: &Plan| usual(plan, bath, "plating").iter().filter(|name| name.starts_with("Pillar")).count();
    let before = pillar(&plan);
    assert!(
        ["Pillard", "Pillarj"].iter().all(|name| usual(&plan, bath, "plating").contains(&(*name).into()))
    );
    plan.type_in(&Field::cell(bath, "plating", "steps", "Pillar", "d"), "25 µm", None);
    assert_eq!(pillar(&plan), before - 1);
}

/// So is what a recipe fills in, as long as the sheet is compared with it.
#[test]
fn what_a_recipe_fills_in_is_a_usual_value_until_somebody_types_another() {
    let make_up = find("make-up").expect("a make-up");
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Copper");
    type_in(&mut plan, bath, "make-up", "V_t", "200 L");
    plan.fill_in(bath, "make-up", &make_up.recipes[0]);
    let names = usual(&plan, bath, "make-up");
    for name in ["Copper sulfatec_m", "Sulfuric acidc_s", "Levellerd", "f_1"] {
        assert!(names.iter().any(|known| known == name), "{name}: {names:?}");
    }
    assert!(!names.contains(&"V_t".to_string()));
    plan.type_in(&Field::cell(bath, "make-up", "ingredients", "Copper sulfate", "c_m"), "45 g/L", None);
    assert_eq!(usual(&plan, bath, "make-up").len(), names.len() - 1);
}

/// A starting recipe must not start with a worry of its own, and takes the density from the solution model where
/// that covers it: an estimate by volumes only where not.
#[test]
fn a_recipe_starts_without_a_caution_and_with_the_best_density_there_is() {
    for recipe in find("make-up").expect("a make-up").recipes {
        let mut plan = Plan::new("A line (invented)");
        let bath = plan.add(Subject::Bath, "Bath");
        type_in(&mut plan, bath, "make-up", "V_t", "200 L");
        plan.fill_in(bath, "make-up", recipe);
        let findings = |plan: &Plan| {
            let results = Results::of(plan, None);
            let cell = results.network.cell_at(bath, "make-up").expect("a sheet");
            results.outcome(cell).unwrap_or_else(|| panic!("{:?}", results.stop(cell))).findings.clone()
        };
        let worry = findings(&plan).into_iter().find(|finding| finding.severity > Severity::Note);
        assert!(worry.is_none(), "{}: {worry:?}", recipe.name);
        let is_estimate = |plan: &Plan| {
            findings(plan).iter().any(|finding| finding.text.contains("an estimate from volumes"))
        };
        let has_estimate = is_estimate(&plan);
        type_in(&mut plan, bath, "make-up", "by", "from the solution model");
        assert_eq!(has_estimate, is_estimate(&plan), "{}: the model covers it", recipe.name);
    }
}
