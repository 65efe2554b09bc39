//! Every screen has an address.

use crate::steps::*;

#[test]
fn back_and_forward_go_through_the_sheets_that_were_open() {
    let browser = open();
    let plan = new_plan(&browser);
    let line = format!("#/plan/{plan}/line");
    assert_eq!(browser.place(), line);
    add_copper_bath(&browser);
    let bath = format!("#/plan/{plan}/1/make-up");
    assert_eq!(browser.place(), bath);
    rail(&browser, "Bath", "Heat-up and holding");
    let heat = wait_sheet(&browser, "heat-up");
    assert_eq!(heat, format!("#/plan/{plan}/1/heat-up"));

    browser.back();
    browser.wait_text("h1", "Make-up");
    assert_eq!(browser.place(), bath);
    browser.back();
    browser.wait("main.line");
    assert_eq!(browser.place(), line);
    browser.forward();
    browser.wait_text("h1", "Make-up");
    browser.forward();
    browser.wait_text("h1", "Heat-up and holding");
    browser.reload();
    browser.wait_text("h1", "Heat-up and holding");
    assert_eq!(browser.place(), heat);
    browser.back();
    browser.wait_value("#f-V_t", "200");
    browser.assert_quiet();
}

#[test]
fn an_address_that_leads_nowhere_goes_home_and_says_so() {
    let browser = open();
    browser.goto("#/plan/p-notthere/3/stream");
    browser.wait(".welcome");
    browser.wait_holds(".corner", "That plan is not on this device");
    browser.click_named("Close");
    for nowhere in ["#/nothing/at/all", "#/quick/nothing", "#/plan/<b>/1/x"] {
        browser.goto("#/about");
        browser.wait_gone(".welcome");
        browser.goto(nowhere);
        browser.wait(".welcome");
        browser.wait_holds(".corner", "leads nowhere");
        browser.click_named("Close");
        browser.wait_gone(".corner");
    }
    browser.assert_quiet();
}

#[test]
fn a_sheet_that_was_taken_out_says_so_and_leads_to_the_line() {
    let browser = open();
    let plan = new_plan(&browser);
    browser.goto(&format!("#/plan/{plan}/77/heat-up"));
    browser.wait_holds("main", "This sheet is not in the plan.");
    browser.click_named("To the line");
    browser.wait("main.line");
    browser.assert_quiet();
}
