//! The main job: a bath, its heat-up, what leaves it, by which route, through which drain; all follow the bath.

use crate::harness::Browser;
use crate::steps::*;

#[test]
fn a_bath_is_made_up_and_its_heat_up_follows_the_volume() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    // molmass and pint, as in the sheet's own example: 31.91227 kg at 98.5 % are 31.4336 kg at 100 %.
    wait_answer(&browser, "m[Copper sulfate]", "31.4 kg");
    // 180 g/L in 200 L are 36 kg of acid, in 37.5 kg of 96 %.
    wait_answer(&browser, "m[Sulfuric acid]", "37.5 kg");
    wait_answer(&browser, "c_M[Cu]", "40.0 g/L of metal");
    wait_answer(&browser, "V", "200 L");

    rail(&browser, "Bath", "Heat-up and holding");
    wait_sheet(&browser, "heat-up");
    browser.wait_text("#f-V b", "200 L");
    browser.wait_text("#f-V small", "from Make-up");
    type_heating(&browser);
    browser.wait(&of("t_up"));
    let before = answer(&browser, "t_up");

    rail(&browser, "Bath", "Make-up");
    wait_sheet(&browser, "make-up");
    browser.retype("#f-V_t", "400");
    wait_answer(&browser, "m[Copper sulfate]", "62.9 kg");
    rail(&browser, "Bath", "Heat-up and holding");
    wait_sheet(&browser, "heat-up");
    browser.wait_text("#f-V b", "400 L");
    let after = wait_other(&browser, "t_up", &before);
    // Twice the mass with the same coil: twice the time, but for units that change from minutes to hours.
    let minutes = |text: &str| number(text) * if text.ends_with('h') { 60.0 } else { 1.0 };
    let ratio = minutes(&after) / minutes(&before);
    assert!((ratio - 2.0).abs() < 0.02, "{before} became {after}");
    browser.assert_quiet();
}

/// What the four sheets that hang on the bath's volume say.
#[track_caller]
fn what_follows(browser: &Browser) -> [String; 4] {
    let mut said = [const { String::new() }; 4];
    for (at, (place, sheet, calculator, symbol)) in [
        ("Bath", "Heat-up and holding", "heat-up", "t_up"),
        ("", "Dump", "stream", "m_once[Cu]"),
        ("", "Concentrate", "route", "m_T"),
        ("", "Drain", "drain", "surge"),
    ]
    .into_iter()
    .enumerate()
    {
        rail(browser, place, sheet);
        wait_sheet(browser, calculator);
        browser.wait(&of(symbol));
        said[at] = answer(browser, symbol);
    }
    said
}

fn grams(text: &str) -> f64 {
    number(text) * if text.contains("kg") { 1000.0 } else { 1.0 }
}

#[test]
fn the_baths_volume_changes_heating_metal_in_a_dump_route_and_drain_at_once() {
    let browser = open();
    whole_line(&browser);

    let before = what_follows(&browser);
    assert_eq!(grams(&before[1]), 8000.0, "40 g/L in 200 L");
    rail(&browser, "", "Dilute");
    wait_sheet(&browser, "route");
    assert!(number(&answer(&browser, "m_T")) > 0.0, "the rinse brings metal");
    let rinse = answer(&browser, "c_mean[Cu]");

    rail(&browser, "Bath", "Make-up");
    wait_sheet(&browser, "make-up");
    // Beside the sheet, without going there.
    let beside = browser.text(".effects");
    browser.retype("#f-V_t", "300");
    browser.until("the panel beside the sheet to follow", || {
        let now = browser.text(".effects");
        if now == beside { Err(format!("it reads {now}")) } else { Ok(()) }
    });
    // What the heat-up was and is now, with units; and no sheet twice, but for findings, of which a sheet may have several.
    browser.wait_holds(".effects", "Time to the target: ");
    let told = browser.text(".effects").replace('\n', " ");
    assert!(told.contains(&before[0]) && told.contains('→'), "{}: {told}", before[0]);
    let twice = "const all = [...document.querySelectorAll('.effects a:not(:has(.mark)) .to')].map(it => it.closest('a').href); \
        return all.length - new Set(all).size";
    assert_eq!(browser.script(twice, serde_json::json!([])).expect("a script"), 0, "{told}");
    let after = what_follows(&browser);
    assert_eq!(grams(&after[1]), 12_000.0, "40 g/L in 300 L");
    for (was, is) in before.iter().zip(&after) {
        assert_ne!(was, is, "{before:?} became {after:?}");
    }
    rail(&browser, "", "Dilute");
    wait_sheet(&browser, "route");
    assert_eq!(answer(&browser, "c_mean[Cu]"), rinse, "a rinse does not follow the volume");

    rail(&browser, "Site", "Site");
    browser.goto(&format!("#/plan/{}/line", plan_id(&browser)));
    browser.wait("main.line table");
    browser.wait("svg.map a[href$='/1/make-up'] rect");
    let line = browser.text("main.line");
    for name in ["Rinse", "Dump", "Dilute", "Concentrate"] {
        assert!(line.contains(name), "the line should list {name}");
    }
    browser.assert_quiet();
}

#[test]
fn a_link_can_be_typed_over_and_linked_again() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    rail(&browser, "Bath", "Heat-up and holding");
    wait_sheet(&browser, "heat-up");
    browser.wait_text("#f-V b", "200 L");
    type_heating(&browser);
    browser.wait(&of("t_up"));
    let linked = answer(&browser, "t_up");

    browser.click("#f-V-over");
    browser.wait("input#f-V");
    assert_eq!(browser.eval("document.activeElement.id"), "f-V", "the field takes the focus");
    browser.retype("input#f-V", "100");
    browser.wait_holds(".over", "Typed over Make-up");
    wait_other(&browser, "t_up", &linked);
    browser.press("Tab");

    browser.click_named("Link again: Volume in circulation");
    browser.wait_text("#f-V small", "from Make-up");
    browser.wait_text("#f-V b", "200 L");
    wait_answer(&browser, "t_up", &linked);
    browser.wait_gone(".over");

    // Undo brings the typed value back, redo the link.
    browser.press("Control+z");
    browser.wait_value("input#f-V", "100");
    browser.press("Control+Shift+z");
    browser.wait_text("#f-V small", "from Make-up");
    browser.assert_quiet();
}

#[test]
fn the_work_order_shows_what_was_really_reached() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    browser.click_named("Type what was added");
    let added = "#f-ingredients-Copper-sulfate-added";
    browser.wait(added);
    browser.retype(added, "31");
    // 31 / 31.4336 of 40 g/L.
    wait_answer(&browser, "c_m_got[Copper sulfate]", "39.4 g/L of metal");
    let order = browser.text(".order ol");
    let (water, acid) = (order.find("ater"), order.find("ulfuric acid"));
    assert!(water.is_some() && water < acid, "water goes in before the acid: {order}");
    browser.assert_quiet();
}

/// A browser that speaks American English begins with US units; the plan may say otherwise.
#[test]
fn a_new_plan_guesses_units_and_decimal_sign_from_the_browser() {
    let browser = Browser::open();
    browser.goto("#/quick/make-up");
    wait_sheet(&browser, "make-up");
    browser.wait_text("main .unit", "US gal");

    let browser = Browser::blank();
    browser.set_language("de-DE");
    quick_heating(&browser);
    browser.retype("#f-ρ".replace('ρ', "u3c1").as_str(), "1,5");
    browser.press("Tab");
    browser.wait_value("#f-u3c1", "1,5");
    assert!(answer(&browser, "t_up").contains(','), "German shows a decimal comma");
}
