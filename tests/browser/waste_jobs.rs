//! Jobs of the waste side, as those who have them would do them, on the invented plants.
//!
//! Values come from `tests/three_plants/worked_out.py`, or stand beside the line by hand.

use crate::harness::Browser;
use crate::steps::*;
use serde_json::json;

const RICH: &str = "c_s[Copper first rinse]";

/// What the caution of the open sheet offers, in its order; the cures come after a pause.
#[track_caller]
fn offered(browser: &Browser) -> Vec<String> {
    browser.until("cures to be offered", || {
        let script = "return [...document.querySelectorAll('main .finding.caution .cures button')]\
            .map(it => it.innerText.replace(/\\s+/g, ' '))";
        let found = browser.script(script, json!([]))?;
        let list: Vec<String> = found
            .as_array()
            .map_or(Vec::new(), |list| list.iter().filter_map(|it| it.as_str().map(String::from)).collect());
        if list.is_empty() { Err("none yet".into()) } else { Ok(list) }
    })
}

/// Takes the first cure of the caution, waits until there is nothing to look at any more, and takes it back.
#[track_caller]
fn first_cure_does(browser: &Browser) {
    let before = answer(browser, RICH);
    browser.click("main .finding.caution .cures button");
    let after = wait_other(browser, RICH, &before);
    assert!(number(&after) <= 60.0, "{before} became {after}");
    browser.wait_gone("main .finding.caution");
    browser.press("Control+z");
    wait_answer(browser, RICH, &before);
}

/// By hand: 1.5 mL of 50 g/L into 1 L are 74.9 mg/L; 1.2 mL, or 1.25 L, would be 60. The concentrate tank of 900 L
/// takes 127 L a day, and 607 with the rinse.
#[test]
fn a_rinse_too_rich_is_cured_by_less_drag_out_or_by_the_concentrate_route_and_not_by_a_stage() {
    let browser = open();
    open_example(&browser, "Gannet Point");
    rail(&browser, "Concentrate", "Collection");
    wait_sheet(&browser, "collection");
    wait_answer(&browser, "t_d", "7.08 days");

    // Less drag-out comes first, and water last, with what is said against it.
    rail(&browser, "Dilute rinse", "Route");
    wait_sheet(&browser, "route");
    wait_answer(&browser, RICH, "74.9 mg/L of metal");
    let list = offered(&browser);
    assert!(list[0].contains("1.20 mL") && list[0].contains("longer or faster spin"), "{list:#?}");
    let last = list.last().expect("several");
    assert!(
        last.contains("more water") && last.contains("dilution in place of treatment may be forbidden"),
        "{last}"
    );
    assert!(last.contains("1.25 L") && list.len() > 1, "{list:#?}");
    assert_eq!(list.iter().filter(|it| it.contains("ater")).count(), 1, "only one is more water: {list:#?}");
    browser.screenshot_everywhere("job-too-rich");
    first_cure_does(&browser);

    // With a sheet that says what spinning leaves, time and speed of it are offered before all else.
    rail(&browser, "Copper bath", "Make-up");
    wait_sheet(&browser, "make-up");
    add_sheet(&browser, "Drag-out");
    wait_sheet(&browser, "drag-out");
    for (field, text) in [("n_s", "250"), ("t_s", "5"), ("u3bc", "1.8"), ("v_h", "0.2")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    browser.wait(&of("d_w"));
    rail(&browser, "Copper bath", "Plating load");
    wait_sheet(&browser, "plating");
    browser.click_named("Link again: Drag-out a wafer");
    browser.wait_text("#f-d_w small", "from Drag-out");
    rail(&browser, "Dilute rinse", "Route");
    wait_sheet(&browser, "route");
    let list = offered(&browser);
    assert!(list[0].contains("pin time") && list[1].contains("pin speed"), "{list:#?}");
    assert!(list.last().is_some_and(|last| last.contains("more water")), "{list:#?}");
    let spun = answer(&browser, RICH);
    first_cure_does(&browser);

    // A stage more cleans the wafers, and leaves the drain as rich as it was.
    rail(&browser, "Copper first rinse", "Rinse");
    wait_sheet(&browser, "rinse");
    browser.choose("#f-stages", "two in counterflow");
    rail(&browser, "Dilute rinse", "Route");
    wait_sheet(&browser, "route");
    let staged = wait_other(&browser, RICH, &spun);
    assert!(number(&staged) > number(&spun), "{spun} became {staged}");
    browser.wait("main .finding.caution");
    browser.press("Control+z");
    wait_answer(&browser, RICH, &spun);

    // To the concentrate: nothing is too rich there, and the tank fills so much sooner.
    rail(&browser, "Copper first rinse", "Stream and metal load");
    wait_sheet(&browser, "stream");
    browser.choose("#leads-to", "Concentrate");
    browser.wait_holds(".effects", "A container is full after");
    browser.screenshot("job-to-the-concentrate");
    rail(&browser, "Dilute rinse", "Route");
    wait_sheet(&browser, "route");
    browser.wait_gone("main .finding.caution");
    browser.wait_gone(&of(RICH));
    rail(&browser, "Concentrate", "Collection");
    wait_sheet(&browser, "collection");
    wait_answer(&browser, "t_d", "1.48 days");
    browser.screenshot_everywhere("job-concentrate-tank");
    browser.assert_quiet();
}

/// By hand: 800 L/h at ten bed volumes an hour are 80 L, at 15 m/h a bore of 261 mm. The water loads 3.10017 eq a day:
/// of 80 L at 1.2 eq/L and 60 % it takes 18.6 days, of 130 L 30.2.
#[test]
fn a_bed_is_sized_for_its_service_rate_and_its_interval_is_found() {
    let browser = open();
    open_example(&browser, "Gannet Point");
    rail(&browser, "Dilute rinse", "Ion exchange");
    wait_sheet(&browser, "ion-exchange");
    wait_answer(&browser, "t_b", "23.2 days");
    wait_answer(&browser, "V_w", "80.0 L");
    wait_answer(&browser, "D_w", "261 mm");
    for (field, text) in [("V_b", "80"), ("D", "261")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    wait_answer(&browser, "S", "10.0 bed volumes/h");
    wait_answer(&browser, "t_b", "18.6 days");
    // 350 days of service a year.
    wait_answer(&browser, "n_y", "18.8");
    browser.retype("#f-V_b", "130");
    wait_answer(&browser, "t_b", "30.2 days");
    // A column test gives the curve: before the bed is changed the outlet keeps its aim.
    browser.retype("#f-k", "400");
    browser.wait(&of("t_a"));
    let days = number(&answer(&browser, "t_a"));
    assert!(days > 30.2, "{days} days to the aim");
    browser.wait("canvas");
    browser.screenshot_everywhere("job-bed");
    // What it lets through is what the sewer gets.
    rail(&browser, "", "Sewer");
    wait_sheet(&browser, "discharge");
    wait_answer(&browser, "c_m[Cu]", "1.00 mg/L of metal");
    browser.assert_quiet();
}
