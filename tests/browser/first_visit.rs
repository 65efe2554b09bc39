//! A first visit, and sums without a plan.

use crate::steps::*;

#[test]
fn a_first_visit_offers_an_empty_plan_and_quick_sums_and_says_where_plans_are_kept() {
    let browser = open();
    browser.wait_holds(".welcome", "New, empty plan");
    browser.wait_holds(".welcome", "kept in this browser on this device only");
    let home = browser.text("main");
    for sum in ["Make-up", "Heat-up and holding", "Stream and metal load", "Gravity drain and lift station"] {
        assert!(home.contains(sum), "{sum} should be offered as a quick sum");
    }
    browser.assert_quiet();
}

/// Each example is a copy of the reader's own, in a plant that is said to be invented.
#[test]
fn an_example_opens_as_ones_own_copy_and_is_marked_as_invented() {
    let browser = open();
    if browser.count("[aria-labelledby=examples-title]") == 0 {
        eprintln!("no example plan in this build: nothing to open");
        return;
    }
    browser.click("[aria-labelledby=examples-title] button.card");
    browser.wait("main.line table");
    assert!(browser.text(".bar .title").to_ascii_lowercase().contains("invented"));
    assert_eq!(browser.count("nav.places .mark.stop"), 0, "an example should have nothing to stop for");
    browser.assert_quiet();
}

#[test]
fn a_quick_sum_answers_as_one_types_and_a_reload_finds_it() {
    let browser = open();
    browser.click("a.card[href='#/quick/heat-up']");
    wait_sheet(&browser, "heat-up");
    browser.wait_holds(".answer", "Still to do");
    browser.retype("#f-V", "250");
    type_heating(&browser);
    browser.wait(&of("t_up"));
    let usual = answer(&browser, "t_up");
    browser.retype("#f-V", "500");
    let larger = wait_other(&browser, "t_up", &usual);
    browser.wait_text(".bar .title", "Quick sum");
    wait_saved(&browser);
    browser.reload();
    browser.wait_value("#f-V", "500");
    wait_answer(&browser, "t_up", &larger);
    browser.assert_quiet();
}

#[test]
fn a_quick_sum_can_be_kept_as_a_plan_or_begun_afresh() {
    let browser = open();
    browser.goto("#/quick/make-up");
    wait_sheet(&browser, "make-up");
    browser.retype("#f-V_t", "123");
    browser.click_named("Keep as a plan");
    browser.wait("nav.places");
    browser.wait_value("#f-V_t", "123");
    let plan = plan_id(&browser);

    browser.goto("#/quick/make-up");
    browser.wait_value("#f-V_t", "123");
    browser.click_named("Start this sum afresh");
    browser.wait_value("#f-V_t", "");
    browser.press("Control+z");
    browser.wait_value("#f-V_t", "123");
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.wait_value("#f-V_t", "123");
    browser.assert_quiet();
}
