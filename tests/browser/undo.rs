//! Undo and redo.

use crate::steps::*;

#[test]
fn every_edit_is_taken_back_and_made_again_by_button_and_by_keys() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    browser.press("Tab");
    browser.retype("#f-V_t", "300");
    browser.press("Tab");
    browser.retype("#f-V_c", "20");
    browser.press("Tab");
    wait_answer(&browser, "V", "320 L");

    browser.click_named("Undo");
    wait_answer(&browser, "V", "300 L");
    browser.wait_value("#f-V_c", "0");
    browser.press("Control+z");
    wait_answer(&browser, "V", "200 L");
    browser.wait_value("#f-V_t", "200");
    browser.press("Control+Shift+z");
    wait_answer(&browser, "V", "300 L");
    browser.click_named("Redo");
    wait_answer(&browser, "V", "320 L");
    browser.press("Control+z");
    browser.press("Control+y");
    wait_answer(&browser, "V", "320 L");

    // Taking a row or a place away is an edit like any other.
    browser.click_named("Remove Copper sulfate");
    browser.wait_gone("[data-key='Copper sulfate']");
    browser.press("Control+z");
    browser.wait_value("#f-ingredients-Copper-sulfate-c_m", "40");

    // What is taken back on a sheet out of sight is said.
    browser.retype("#f-V_t", "310");
    browser.press("Tab");
    rail(&browser, "Bath", "Heat-up and holding");
    wait_sheet(&browser, "heat-up");
    browser.click_named("Undo");
    browser.wait_holds(".corner", "That changed Bath, Make-up.");
    browser.assert_quiet();
}

#[test]
fn more_than_a_hundred_steps_go_back() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    browser.press("Tab");
    // Each second edit in another field: typing on in one field is one step.
    for step in 0..120 {
        let (field, value) = if step % 2 == 0 { ("#f-V_t", 201 + step) } else { ("#f-V_c", step) };
        browser.retype(field, &value.to_string());
    }
    browser.wait_value("#f-V_c", "119");
    for _ in 0..120 {
        browser.press("Control+z");
    }
    browser.wait_value("#f-V_t", "200");
    browser.wait_value("#f-V_c", "0");
    for _ in 0..120 {
        browser.press("Control+Shift+z");
    }
    browser.wait_value("#f-V_t", "319");
    browser.wait_value("#f-V_c", "119");
    wait_answer(&browser, "V", "438 L");
    browser.assert_quiet();
}
