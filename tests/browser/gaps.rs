//! What is still to be typed: all of it is named, and leads to its field.

use crate::harness::Browser;
use crate::steps::*;
use serde_json::json;

/// The fields named, folded ones too.
#[track_caller]
fn named(browser: &Browser, part: &str) -> Vec<String> {
    let script = "return [...document.querySelectorAll(arguments[0] + ' .gaps a')].map(it => it.textContent)";
    let found = browser.script(script, json!([part])).expect("a script");
    found.as_array().into_iter().flatten().filter_map(|it| it.as_str().map(String::from)).collect()
}

#[track_caller]
fn wait_focus(browser: &Browser, id: &str) {
    browser.until(&format!("the focus on {id}"), || {
        let now = browser.script("return document.activeElement.id", json!([]))?;
        if now == id { Ok(()) } else { Err(format!("it is on {now}")) }
    });
}

#[test]
fn a_sheet_that_waits_names_all_it_waits_for_and_leads_there() {
    let browser = open();
    browser.goto("#/quick/heat-up");
    wait_sheet(&browser, "heat-up");
    browser.wait(".all-gaps .gaps a");
    let before = named(&browser, ".all-gaps");
    for label in ["Volume in circulation", "Target temperature", "Temperature of the source"] {
        assert!(before.iter().any(|it| it == label), "{label} in {before:?}");
    }
    browser.click_named("Target temperature");
    wait_focus(&browser, "f-T");
    browser.retype("#f-T", "45");
    browser.until("one fewer", || {
        let now = named(&browser, ".all-gaps");
        if now.len() + 1 == before.len() { Ok(()) } else { Err(format!("{now:?}")) }
    });
    type_heating(&browser);
    browser.retype("#f-V", "250");
    browser.wait_gone(".all-gaps");
    browser.assert_quiet();
}

#[test]
fn the_line_names_the_gaps_of_each_sheet_and_leads_to_the_field() {
    let browser = open();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.wait("main.line .looks .gaps a");
    let gaps = named(&browser, ".looks");
    assert!(gaps.iter().any(|it| it == "Temperature of the source"), "{gaps:?}");
    let open = "document.querySelectorAll('.looks details').forEach(it => it.open = true); \
        [...document.querySelectorAll('.looks .gaps a')].find(it => it.textContent === 'Temperature of the source').click()";
    browser.script(open, json!([])).expect("a script");
    wait_sheet(&browser, "heat-up");
    wait_focus(&browser, "f-T_s");
    browser.assert_quiet();
}

/// The invented line of Gannet Point leads a copper rinse that is too rich to its dilute route.
#[test]
fn what_is_to_look_at_in_a_plan_says_what_would_cure_it_and_leads_there() {
    let browser = open();
    browser.goto("#/");
    browser.click("[aria-labelledby=examples-title] li:last-of-type button.card");
    browser.wait("main.line table");
    let part = "section[aria-labelledby=look-title]";
    browser.wait(&format!("{part} .gaps a"));
    let script = "return [...document.querySelectorAll(arguments[0] + ' .mark')].map(it => it.innerText)";
    let marks = browser.script(script, json!([part])).expect("a script");
    let marks: Vec<&str> = marks.as_array().into_iter().flatten().filter_map(|it| it.as_str()).collect();
    let badness = |mark: &str| ["Stop", "Caution", "Note"].iter().position(|word| mark.ends_with(word));
    assert!(marks.windows(2).all(|pair| badness(pair[0]) <= badness(pair[1])), "the worst first: {marks:?}");
    let cures = named(&browser, part);
    let at = |text: &str| cures.iter().position(|cure| cure.starts_with(text));
    let less = at("Copper bath: drag-out a wafer").unwrap_or_else(|| panic!("{cures:?}"));
    // More water is the last of what is offered, and says why.
    let more = at("Copper first rinse: water a wafer").unwrap_or_else(|| panic!("{cures:?}"));
    assert!(less < more && cures[more].contains("dilution in place of treatment"), "{cures:?}");
    browser.click(&format!("{part} .gaps a"));
    // At the bath, which all its rinses follow.
    wait_sheet(&browser, "plating");
    wait_focus(&browser, "f-d_w");
    browser.assert_quiet();
}
