//! The rail: which places show their sheets, and how sheets come and go.

use crate::harness::{Browser, Size};
use crate::steps::*;
use serde_json::json;

/// Whether a place of several sheets shows them.
#[track_caller]
fn wait_unfolded(browser: &Browser, name: &str, wanted: bool) {
    let script = "const it = [...document.querySelectorAll('nav.places .fold')] \
        .find(it => it.querySelector('.called').innerText.trim() === arguments[0]); \
        return it ? [it.ariaExpanded, !!it.closest('.place').querySelector('a')] : null";
    browser.until(&format!("{name} to be unfolded: {wanted}"), || {
        let now = browser.script(script, json!([name]))?;
        if now == json!([wanted.to_string(), wanted]) { Ok(()) } else { Err(now.to_string()) }
    });
}

#[test]
fn the_open_place_shows_its_sheets_and_others_by_one_touch_or_key() {
    let browser = open();
    let plan = whole_line(&browser);
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.wait("main.line table");
    wait_unfolded(&browser, "Site", false);
    wait_unfolded(&browser, "Bath", false);
    // A stream has one sheet: its name leads there.
    rail(&browser, "", "Rinse");
    wait_sheet(&browser, "stream");
    browser.click_named("Go there: Bath");
    wait_sheet(&browser, "make-up");
    wait_unfolded(&browser, "Bath", true);
    wait_unfolded(&browser, "Site", false);
    // By key, and back.
    browser.focus("nav.places .place-group:nth-of-type(1) .fold");
    browser.press("Enter");
    wait_unfolded(&browser, "Site", true);
    // What was unfolded by hand stays, the place left behind folds.
    rail(&browser, "", "Rinse");
    wait_sheet(&browser, "stream");
    wait_unfolded(&browser, "Bath", false);
    wait_unfolded(&browser, "Site", true);
    browser.focus("nav.places .place-group:nth-of-type(1) .fold");
    browser.press("Space");
    wait_unfolded(&browser, "Site", false);
    // Folded by hand and gone to again: it shows where one is.
    browser.click_named("Go there: Bath");
    wait_unfolded(&browser, "Bath", true);
    browser.focus("nav.places .place.here .fold");
    browser.press("Enter");
    wait_unfolded(&browser, "Bath", false);
    rail(&browser, "", "Rinse");
    wait_sheet(&browser, "stream");
    browser.click_named("Go there: Bath");
    wait_sheet(&browser, "make-up");
    wait_unfolded(&browser, "Bath", true);
    browser.assert_quiet();
}

/// What “+ Sheet” of the open place offers.
#[track_caller]
fn offered(browser: &Browser) -> Vec<String> {
    let script = "return [...document.querySelectorAll('nav.places .place.here .add-sheet-list .flyout-list b')].map(it => it.textContent)";
    let found = browser.script(script, json!([])).expect("a script");
    found.as_array().into_iter().flatten().filter_map(|it| it.as_str().map(String::from)).collect()
}

#[test]
fn a_sheet_of_the_site_is_taken_off_and_added_again_but_for_its_settings() {
    let browser = open();
    new_plan(&browser);
    rail(&browser, "Site", "Wafers");
    wait_sheet(&browser, "wafers");
    browser.retype("#f-D", "150");
    browser.click("nav.places .place.here .remove");
    browser.wait("nav.places .remove-list:popover-open .flyout-list button");
    let said = browser.text("nav.places .remove-list:popover-open .flyout-list");
    assert!(!said.contains("“Site”") && !said.contains("out of the plan"), "{said}");
    browser.click_named("Take “Wafers” off");
    browser.wait_holds(".corner", "Wafers taken off, with what was typed there.");
    wait_sheet(&browser, "site");
    assert!(offered(&browser).contains(&"Wafers".to_string()), "{:?}", offered(&browser));
    add_sheet(&browser, "Wafers");
    wait_sheet(&browser, "wafers");
    browser.wait_value("#f-D", "");
    // Twice undone, it is as it was.
    browser.press("Control+z");
    browser.press("Control+z");
    browser.wait_value("#f-D", "150");
    browser.assert_quiet();
}

#[test]
fn what_may_be_added_says_what_it_is_for_on_every_size() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    for size in [Size::DESK, Size::TABLET, Size::PHONE] {
        browser.resize(size);
        browser.assert_fits();
        if size == Size::PHONE {
            browser.click_named("Places");
        }
        browser.click_named("+ Sheet for Bath");
        browser.wait_holds("nav.places .add-sheet-list:popover-open", "How many chambers");
        browser.screenshot("add-sheet");
        let within = browser.eval(
            "(() => { const box = document.querySelector('.flyout:popover-open').getBoundingClientRect(); \
                return box.left >= 0 && box.right <= innerWidth && box.top >= 0 && box.bottom <= innerHeight })()",
        );
        assert_eq!(within, json!(true), "the list stays within {} px", size.width);
        let small = browser.eval(
            "[...document.querySelectorAll('nav.places button, nav.places summary, nav.places a')] \
                .filter(it => it.checkVisibility() && it.getBoundingClientRect().height < 47.5).map(it => it.innerText)",
        );
        assert_eq!(small, json!([]), "48 px for a gloved finger");
        browser.press("Escape");
        browser.wait_gone(".flyout:popover-open");
    }
    add_sheet(&browser, "pH");
    wait_sheet(&browser, "ph");
    browser.wait_gone("nav.places");
    browser.assert_quiet();
}

#[test]
fn the_list_of_sheets_opens_and_closes_by_key_and_closes_by_a_touch_elsewhere() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    let focused = || browser.eval("document.activeElement.innerText.trim()");
    browser.focus("nav.places .place.here .add-sheet");
    browser.press("Enter");
    browser.wait("nav.places .add-sheet-list:popover-open");
    browser.press("Tab");
    assert_eq!(focused(), json!("Close"), "the list is next by Tab");
    browser.press("Escape");
    browser.wait_gone(".flyout:popover-open");
    assert_eq!(focused(), json!("+ Sheet"), "the focus is back where it came from");
    browser.press("Enter");
    browser.wait("nav.places .add-sheet-list:popover-open");
    browser.click(".bar .title");
    browser.wait_gone(".flyout:popover-open");
    // By key alone to a sheet.
    browser.focus("nav.places .place.here .add-sheet");
    browser.press("Enter");
    browser.press("Tab");
    browser.press("Tab");
    browser.press("Enter");
    wait_sheet(&browser, "drag-out");
    browser.assert_quiet();
}
