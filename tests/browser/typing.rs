//! What people really type, and what the field says to it.

use crate::harness::Browser;
use crate::steps::*;

/// The quick sum of heating, with a volume of 300 L typed.
#[track_caller]
fn heating() -> (Browser, String) {
    let browser = open();
    quick_heating(&browser);
    let usual = answer(&browser, "t_up");
    browser.retype("#f-V", "300");
    let time = wait_other(&browser, "t_up", &usual);
    (browser, time)
}

#[test]
fn what_is_no_number_gets_a_message_and_the_last_good_value_stands() {
    let (browser, time) = heating();
    for wrong in ["0,02O", "12 eggs", "1.2.3", "--4", "1/0"] {
        browser.retype("#f-V", wrong);
        browser.wait("#f-V-hint .err");
        let said = browser.text("#f-V-hint");
        assert!(said.contains("300"), "{wrong}: it should say what stands: {said}");
        assert_eq!(browser.attribute("#f-V", "aria-invalid").as_deref(), Some("true"));
        assert_eq!(browser.attribute("#f-V", "aria-describedby").as_deref(), Some("f-V-hint"));
        assert_eq!(answer(&browser, "t_up"), time, "{wrong}: the answer of the last good value stands");
        assert_eq!(browser.value("#f-V"), wrong, "what was typed stays to be mended");
    }
    browser.press("Tab");
    browser.wait_value("#f-V", "1/0");
    browser.retype("#f-V", "300");
    browser.wait_gone("#f-V-hint .err");
    wait_answer(&browser, "t_up", &time);
    browser.assert_quiet();
}

#[test]
fn a_separator_before_three_figures_shows_both_readings_until_one_is_touched() {
    let (browser, time) = heating();
    browser.retype("#f-V", "1,500");
    browser.wait_holds("#f-V-hint", "two ways");
    let offered = browser.text("#f-V-hint .actions");
    assert_eq!(answer(&browser, "t_up"), time, "nothing is taken before one is touched");
    assert_eq!(browser.count("#f-V-hint .actions button"), 2, "{offered}");
    browser.click("#f-V-hint .actions button:nth-of-type(1)");
    browser.wait_gone("#f-V-hint .err");
    let first = wait_other(&browser, "t_up", &time);

    browser.retype("#f-V", "1,500");
    browser.wait_holds("#f-V-hint", "two ways");
    browser.click("#f-V-hint .actions button:nth-of-type(2)");
    browser.wait_gone("#f-V-hint .err");
    let second = wait_other(&browser, "t_up", &first);
    assert_ne!(first, second);
    browser.assert_quiet();
}

#[test]
fn a_gallon_typed_stays_and_is_shown_back_as_a_us_gallon() {
    let (browser, time) = heating();
    browser.retype("#f-V", "12 gal");
    wait_other(&browser, "t_up", &time);
    browser.press("Tab");
    browser.wait_value("#f-V", "12");
    browser.wait_text("#f-V ~ .unit", "US gal");
    wait_saved(&browser);
    browser.reload();
    browser.wait_value("#f-V", "12");
    browser.wait_text("#f-V ~ .unit", "US gal");
    browser.assert_quiet();
}

#[test]
fn units_of_another_kind_and_numbers_out_of_range_are_refused_with_what_is_possible() {
    let (browser, time) = heating();
    browser.retype("#f-V", "12 kg");
    browser.wait("#f-V-hint .err");
    let said = browser.text("#f-V-hint");
    assert!(said.contains("kg") && said.contains("300"), "{said}");
    assert_eq!(answer(&browser, "t_up"), time);
    for wrong in ["-5", "0", "1e9"] {
        browser.retype("#f-V", wrong);
        browser.until(&format!("{wrong} to be refused"), || {
            let said = browser.text("#f-V-hint");
            if said.contains("300") && said.replace('\u{a0}', " ").contains("0.01 to 100\u{202f}000 L") {
                Ok(())
            } else {
                Err(format!("it says “{said}”"))
            }
        });
        assert_eq!(answer(&browser, "t_up"), time, "{wrong}");
    }
    // Unusual is not wrong.
    browser.retype("#f-V", "20000");
    browser.wait_holds("#f-V-hint", "Unusual");
    wait_other(&browser, "t_up", &time);
    browser.assert_quiet();
}

#[test]
fn numbers_are_read_as_people_write_them() {
    let (browser, _) = heating();
    let usual = answer(&browser, "t_up");
    for same in [" 300 ", "3e2", "300\u{a0}L", "300000 mL", "0.3 m³", "0,3 m3", "=3*100", "300 l"] {
        browser.retype("#f-V", "500 L");
        wait_other(&browser, "t_up", &usual);
        browser.retype("#f-V", same);
        wait_answer(&browser, "t_up", &usual);
        assert_eq!(browser.attribute("#f-V", "aria-invalid").as_deref(), Some("false"), "{same}");
    }
    // A typographic minus, in a field that can be negative: it is read, and then refused as too cold a source.
    browser.retype("#f-T_s", "−5");
    browser.wait_holds("#f-T_s-hint .err", "what is known holds from 0 to 100");
    assert_eq!(browser.attribute("#f-T_s", "aria-invalid").as_deref(), Some("false"));
    browser.assert_quiet();
}

#[test]
fn another_unit_shows_the_same_amount_and_back_again_exactly_what_was_typed() {
    let (browser, _) = heating();
    browser.retype("#f-V", "311.70");
    browser.press("Tab");
    let time = answer(&browser, "t_up");
    let pick = |unit: &str| {
        browser.click("#f-V ~ button.unit");
        browser.wait(".unit-list");
        let words = browser.text(".unit-list");
        let script = "const it = [...document.querySelectorAll('.unit-choice')] \
            .find(it => it.innerText.replace(/^[−\\d.,\\s ]+/, '').trim() === arguments[0]); it?.click(); return !!it";
        let found = browser.script(script, serde_json::json!([unit])).expect("a script");
        assert_eq!(found, true, "{unit} should be among {words}");
        browser.wait_text("#f-V ~ .unit", unit);
    };
    pick("US gal");
    assert!(browser.value("#f-V").starts_with("82.34"), "{}", browser.value("#f-V"));
    assert_eq!(answer(&browser, "t_up"), time);
    pick("L");
    browser.wait_value("#f-V", "311.70");
    browser.assert_quiet();
}

#[test]
fn the_sites_units_go_to_us_and_back_and_leave_what_was_typed() {
    let browser = open();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    browser.retype("#f-V_t", "200.50");
    let site = format!("#/plan/{plan}/0/site");
    let bath = format!("#/plan/{plan}/1/make-up");
    browser.goto(&bath);
    let metric = answer(&browser, "m_w");
    browser.goto(&site);
    browser.choose("#f-units", "US");
    browser.goto(&bath);
    let us = answer(&browser, "m_w");
    assert!(us.ends_with("lb"), "{us}");
    browser.wait_value("#f-V_t", "200.50");
    browser.wait_text("#f-V_t ~ .unit", "L");
    browser.goto(&site);
    browser.choose("#f-units", "metric");
    browser.goto(&bath);
    wait_answer(&browser, "m_w", &metric);
    browser.wait_value("#f-V_t", "200.50");
    browser.assert_quiet();
}

#[test]
fn a_unit_that_was_typed_stays_the_fields_when_it_is_emptied_and_typed_anew() {
    let (browser, _) = heating();
    browser.retype("#f-V", "12 gal");
    let twelve = answer(&browser, "t_up");
    browser.clear("#f-V");
    browser.wait_text("#f-V ~ .unit", "US gal");
    browser.wait_holds(".answer", "Still to do");
    browser.type_into("#f-V", "24");
    browser.wait_text("#f-V ~ .unit", "US gal");
    let double = wait_other(&browser, "t_up", &twelve);
    let minutes = |text: &str| number(text) * if text.ends_with('h') { 60.0 } else { 1.0 };
    assert!((minutes(&double) / minutes(&twelve) - 2.0).abs() < 0.05, "{twelve} became {double}");
    // Out of range, it is told in gallons too: 100 m³ are 26 417 of them.
    browser.retype("#f-V", "1e7");
    browser.wait_holds("#f-V-hint", "26\u{202f}400 US gal");
    browser.assert_quiet();
}

#[test]
fn an_answer_says_what_it_rests_on_and_leads_to_it() {
    let (browser, _) = heating();
    browser.press("Tab");
    let rests = || browser.text(".rests button");
    let before = number(&rests());
    assert!(before > 1.0, "{}", rests());
    browser.click(".rests button");
    let first = browser.eval("document.activeElement.id").as_str().expect("a field").to_string();
    let field = format!("#{first}");
    assert_eq!(browser.text(&format!("{field}-hint")), "Usual value, not typed");
    browser.retype(&field, &browser.value(&field));
    browser.until("one usual value less", || {
        let now = number(&rests());
        if now == before - 1.0 { Ok(()) } else { Err(format!("{before} are {now}")) }
    });
    browser.wait_gone(&format!("{field}-hint .hint"));
    // What cannot be read is told beside the answer, and is one touch away.
    browser.retype("#f-V", "12 eggs");
    browser.wait_holds(".status", "▲ 1 field is not taken: the last good value stands");
    browser.press("Tab");
    browser.click_named("▲ 1 field is not taken: the last good value stands");
    assert_eq!(browser.eval("document.activeElement.id"), "f-V");
    browser.assert_quiet();
}

#[test]
fn units_are_set_where_they_are_seen() {
    // In a quick sum on the sheet itself, and in a plan at its site.
    let browser = Browser::open();
    browser.goto("#/quick/heat-up");
    wait_sheet(&browser, "heat-up");
    browser.wait_holds(".shown-as summary", "US units");
    browser.click(".shown-as summary");
    browser.choose("#f-units", "metric");
    browser.wait_text("#f-V ~ .unit", "L");
    browser.wait_holds(".shown-as summary", "Metric units");
    browser.press("Control+z");
    browser.wait_text("#f-V ~ .unit", "US gal");
    browser.goto("#/");
    new_plan(&browser);
    browser.click_named("Add a bath");
    wait_sheet(&browser, "make-up");
    browser.wait_holds(".shown-as", "US units,");
    browser.click_named("set at the site");
    wait_sheet(&browser, "site");
    browser.wait("#f-units");
    browser.assert_quiet();
}
