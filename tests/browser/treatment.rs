//! From a route through a resin column to the sewer.

use crate::harness::Size;
use crate::steps::*;

#[test]
fn a_route_runs_through_a_column_and_its_water_leads_to_the_sewer() {
    let browser = open();
    let plan = whole_line(&browser);
    rail(&browser, "", "Dilute");
    wait_sheet(&browser, "route");
    add_sheet(&browser, "Ion exchange");
    let column = wait_sheet(&browser, "ion-exchange");
    for (field, text) in [("q_p", "50 L/h"), ("q_T", "1.2"), ("V_b", "5"), ("D", "120"), ("k", "400")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    // 200 L a day; the pump runs 4 h of it, at ten bed volumes an hour.
    wait_answer(&browser, "h_p", "4.00 h");
    wait_answer(&browser, "S", "10.0 bed volumes/h");
    wait_answer(&browser, "c_o[Cu]", "1.00 mg/L of metal");
    browser.wait("canvas");
    browser.screenshot_everywhere("ion-exchange");
    // Resin and oxidisers: refused.
    browser.choose("#f-ox", "yes");
    browser.wait_holds("main.sheet", "holds an oxidiser");
    browser.screenshot("ion-exchange-refused");
    browser.choose("#f-ox", "no");
    wait_answer(&browser, "h_p", "4.00 h");

    browser.click_named("+ Add a treated stream");
    wait_sheet(&browser, "treated");
    browser.choose("#comes-from", "Dilute");
    browser.choose("#f-class", "acid");
    wait_answer(&browser, "c_w[Cu]", "1.00 mg/L of metal");
    browser.choose("#leads-to", "a new discharge");
    browser.wait("#leads-to ~ a");
    browser.screenshot("treated");
    browser.click("#leads-to ~ a");
    wait_sheet(&browser, "discharge");
    call_it(&browser, "Sewer");
    wait_answer(&browser, "c_m[Cu]", "1.00 mg/L of metal");
    wait_answer(&browser, "pub_d[Cu]", "3.38 mg/L of metal");
    browser.screenshot_everywhere("discharge");

    browser.goto(&format!("#/plan/{plan}/line"));
    browser.wait_holds("svg.map", "Sewer");
    browser.wait_holds("main.line", "Treated streams");
    browser.wait_holds("main.line", "Ends on its route");
    browser.screenshot_everywhere("line-treated");
    browser.resize(Size::PHONE);
    browser.assert_fits();
    assert!(!column.is_empty());
    browser.assert_quiet();
}
