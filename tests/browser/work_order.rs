//! The work order on the screen and on paper.

use crate::harness::Browser;
use crate::steps::*;

/// The box of the first step, which is water.
const WATER: &str = ".order li:nth-child(1) input[type=checkbox]";

#[track_caller]
fn is_ticked(browser: &Browser, wanted: bool) {
    browser.until("the box", || {
        let now = browser
            .script("return document.querySelector(arguments[0])?.checked", serde_json::json!([WATER]))?;
        if now == wanted { Ok(()) } else { Err(format!("it is {now}")) }
    });
}

#[test]
fn a_tick_is_saved_undone_and_tells_when_another_amount_is_wanted() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    browser.wait(WATER);
    browser.click(WATER);
    is_ticked(&browser, true);
    let at = browser.text(".order li:nth-child(1) .wanted b");
    wait_saved(&browser);
    browser.reload();
    browser.wait(WATER);
    is_ticked(&browser, true);
    assert_eq!(browser.count(".order .remark"), 0);

    browser.retype("#f-V_t", "220");
    browser.wait_holds(".order li:nth-child(1) .remark", &format!("ticked at {at}, is now "));
    let now = browser.text(".order li:nth-child(1) .wanted b");
    browser.wait_text(".order li:nth-child(1) .remark", &format!("▲ ticked at {at}, is now {now}"));
    browser.retype("#f-V_t", "200");
    browser.wait_gone(".order .remark");

    browser.click_named("Untick all");
    is_ticked(&browser, false);
    browser.press("Control+z");
    is_ticked(&browser, true);
    browser.assert_quiet();
}

/// The pages of a PDF as Chromium writes it.
fn pages(pdf: &[u8]) -> usize {
    let text = String::from_utf8_lossy(pdf);
    text.matches("/Type /Page").count() - text.matches("/Type /Pages").count()
}

#[test]
fn the_paper_holds_all_that_hands_need_and_nothing_else() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    call_it(&browser, "Bath of the test");
    browser.wait_gone(".order-paper");
    browser.eval("window.print = () => { window.printed = true }");
    browser.click_named("Print the work order");
    browser.until("the print", || {
        if browser.eval("!!window.printed") == true { Ok(()) } else { Err("none".into()) }
    });
    browser.as_printed(true);
    browser.wait(".order-paper");
    let paper = browser.text(".order-paper");
    for part in [
        "Bath of the test",
        "Plan of ",
        "Strong acid",
        "Sulfuric acid",
        "37.5 kg",
        "20.4 L",
        "Lot",
        "Checked by",
        "Made up by",
        "Date",
    ] {
        assert!(paper.contains(part), "{part} should be on the paper:\n{paper}");
    }
    assert!(paper.find("Strong acid") < paper.find("Water at"), "cautions stand on top:\n{paper}");
    browser.wait_gone("main .answer");
    assert_eq!(browser.count(".order-paper .paper-box"), browser.count(".order li"));
    browser.as_printed(false);
    assert_eq!(pages(&browser.printed()), 1);
    // Afterwards the sheet prints as ever.
    browser.eval("dispatchEvent(new Event('afterprint'))");
    browser.as_printed(true);
    browser.wait(".answer");
    browser.wait_gone(".order-paper");
    browser.as_printed(false);
    browser.assert_quiet();
}
