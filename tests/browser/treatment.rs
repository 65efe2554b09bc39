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

/// By hand: 100 wafers a day carry 0.5 L of 3.67 eq/L into 200 L, which is 3.67 eq/L over 401, 9.15 meq/L.
#[test]
fn the_mix_of_a_route_has_a_ph_and_lime_brings_it_up() {
    let browser = open();
    whole_line(&browser);
    rail(&browser, "", "Rinse");
    wait_sheet(&browser, "stream");
    browser.choose("#f-ac", "titrated where it comes from");
    browser.retype("#f-A_0", "3.67 eq/L");
    wait_answer(&browser, "e", "9.15 meq/L");
    browser.screenshot_everywhere("stream-acid");
    rail(&browser, "", "Dilute");
    wait_sheet(&browser, "route");
    browser.choose("#f-weak", "none, as the makers of the baths say");
    wait_answer(&browser, "pH_m", "2.08");
    browser.wait_holds("main.sheet", "is an indication");
    browser.screenshot_everywhere("route-mix");
    add_sheet(&browser, "Neutralisation");
    wait_sheet(&browser, "neutralisation");
    browser.choose("#f-up", "Calcium hydroxide");
    for (field, text) in [("C_b", "1"), ("pH_t", "8"), ("c_4", "3 g/L")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    // Half a mole of lime to one of acid, and of the copper on its way down; so little gypsum stays dissolved.
    wait_answer(&browser, "m_g", "0 kg/day");
    browser.screenshot_everywhere("neutralisation-lime");
    browser.assert_quiet();
}
