//! The sheets of drag-out and rinse in the browser: added by a touch, and linked.

use crate::steps::*;

/// By hand: 5 mL of 40 g/L into 2 L, and out of it with 2.005 L: 99.75 mg/L.
#[test]
fn a_rinse_is_added_to_a_stream_and_drag_out_to_its_bath() {
    let browser = open();
    whole_line(&browser);
    rail(&browser, "", "Rinse");
    wait_sheet(&browser, "stream");
    add_sheet(&browser, "Rinse");
    wait_sheet(&browser, "rinse");
    browser.choose("#f-target", "nothing: the water is typed");
    for (field, text) in [("N", "100"), ("d_w", "5"), ("v_x", "2")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    browser.wait(&of("c_T"));
    assert!((number(&answer(&browser, "c_T")) - 99.75).abs() < 0.1, "{}", answer(&browser, "c_T"));
    browser.screenshot("rinse");
    browser.assert_fits();
    // The stream now unfolds, as it has two sheets.
    rail(&browser, "Rinse", "Stream and metal load");
    wait_sheet(&browser, "stream");
    rail(&browser, "Bath", "Make-up");
    wait_sheet(&browser, "make-up");
    add_sheet(&browser, "Drag-out");
    wait_sheet(&browser, "drag-out");
    browser.choose("#f-how", "weighed");
    for (field, text) in [("m_g", "75"), ("n_g", "25")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    browser.wait(&of("d_w"));
    browser.screenshot("drag-out");
    browser.assert_fits();
    browser.assert_quiet();
}

/// Recursion in Python, mix then withdraw: 40 L, 480 loads a day of 2.5 mL of 50 g/L come to 12.96 g/L in ten days.
#[test]
fn a_standing_rinse_says_how_rich_it_becomes_and_when_to_change_it() {
    let browser = open();
    browser.goto("#/quick/standing-rinse");
    wait_sheet(&browser, "standing-rinse");
    for (field, text) in [("d_w", "2.5"), ("N", "480"), ("V", "40"), ("t_x", "10")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    browser.click_named("Cu");
    browser.retype("#f-metals-Cu-c_in", "50");
    wait_answer(&browser, "c_T", "13.0 g/L of metal");
    wait_answer(&browser, "c_a[Cu]", "6.80 g/L of metal");
    browser.wait("canvas");
    browser.screenshot_everywhere("standing-rinse");
    browser.choose("#f-goes", "back to the bath, as that evaporates");
    browser.retype("#f-E", "9.6");
    wait_answer(&browser, "c_T", "5.18 g/L of metal");
    browser.choose("#f-by", "at a concentration");
    browser.retype("#f-c_x", "4");
    wait_answer(&browser, "t_c", "4.72 days");
    browser.retype("#f-c_x", "6");
    browser.wait_holds("main.sheet", "it is never changed");
    browser.focus("#f-goes");
    browser.screenshot_everywhere("standing-rinse-back");
    browser.assert_fits();
    browser.assert_quiet();
}
