//! Without a pointer.

use crate::harness::{Browser, Size};
use crate::steps::*;
use serde_json::json;

/// Presses Tab until the focus is on what matches; gives how often.
#[track_caller]
fn tab_to(browser: &Browser, css: &str) -> usize {
    for presses in 1..=120 {
        browser.press("Tab");
        let there = browser.script("return document.activeElement.matches(arguments[0])", json!([css]));
        if there.expect("a script") == true {
            return presses;
        }
    }
    panic!("120 presses of Tab never came to {css}");
}

#[test]
fn the_skip_link_leads_past_the_rail_and_the_focus_can_be_seen() {
    let browser = open();
    let plan = whole_line(&browser);
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.reload();
    wait_sheet(&browser, "make-up");
    assert_eq!(tab_to(&browser, ".skip"), 1, "the skip link comes first");
    let left = browser.eval("document.querySelector('.skip').getBoundingClientRect().left").as_f64();
    assert!(left.is_some_and(|left| left >= 0.0), "it shows while it has the focus");
    browser.press("Enter");
    browser.until("the sheet to take the focus", || {
        let at = browser.eval("document.activeElement.id");
        if at == "main" { Ok(()) } else { Err(format!("{at} has it")) }
    });
    // Past the name, what to look at, the usual values, and where the units are set.
    assert!(tab_to(&browser, "#f-V_t") <= 6, "the first number is near");
    let outline = browser.eval(
        "(s => s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2 || s.boxShadow !== 'none')(getComputedStyle(document.activeElement))",
    );
    let around = browser.eval(
        "(s => s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2 || s.boxShadow !== 'none')(getComputedStyle(document.activeElement.parentElement))",
    );
    assert!(outline == true || around == true, "the focus should be seen");
    browser.assert_quiet();
}

#[test]
fn a_bath_is_made_with_the_keyboard_alone() {
    let browser = open();
    tab_to(&browser, ".welcome button");
    browser.press("Enter");
    browser.wait("main.line");
    tab_to(&browser, "main .first button");
    browser.press("Enter");
    wait_sheet(&browser, "make-up");
    tab_to(&browser, "#f-V_t");
    for key in ["3", "5", "0"] {
        browser.press(key);
    }
    wait_answer(&browser, "V", "350 L");
    // The unit of a field, and back to the number.
    browser.focus("#f-V_t");
    browser.press("Tab");
    assert_eq!(browser.eval("document.activeElement.className"), "unit");
    browser.press("Enter");
    browser.wait(".unit-list");
    tab_to(&browser, ".unit-choice:nth-of-type(2)");
    browser.press("Space");
    browser.wait_gone(".unit-list");
    wait_answer(&browser, "V", "350 L");
    // A row, which then waits for what it is.
    tab_to(&browser, ".rows .add button");
    browser.press("Enter");
    browser.wait("[data-key=Ingredient]");
    browser.wait_holds(".answer", "Still to do");
    browser.assert_quiet();
}

#[test]
fn answers_are_said_once_after_the_typing_rests() {
    let browser = open();
    quick_heating(&browser);
    browser.until("the first answer to be said", || {
        let said = browser.eval("document.querySelector('p.hide[role=status]').innerText");
        let shown = answer(&browser, "t_up");
        let number = shown.split(' ').next().unwrap_or_default();
        if said.as_str().is_some_and(|said| said.contains(number)) { Ok(()) } else { Err(said.to_string()) }
    });
    browser.script(
        "window.said = []; new MutationObserver(() => { const now = document.querySelector('p.hide[role=status]').innerText; if (now) window.said.push(now) }) \
         .observe(document.querySelector('p.hide[role=status]'), { childList: true, characterData: true, subtree: true })",
        json!([]),
    )
    .expect("a script");
    browser.retype("#f-V", "1234");
    browser.until("the answer to be said", || {
        let said = browser.eval("window.said.filter(Boolean).length");
        if said == 0 { Err("nothing yet".into()) } else { Ok(()) }
    });
    let said = browser.eval("window.said.filter(Boolean)");
    let shown = answer(&browser, "t_up");
    assert_eq!(said.as_array().map(Vec::len), Some(1), "{said}");
    let number = shown.trim_end_matches(|c: char| c.is_alphabetic() || c.is_whitespace());
    assert!(said[0].as_str().is_some_and(|text| text.contains(number)), "{said} should hold {number}");
}

/// WCAG 2.2, 2.4.11: what has the focus is not hidden by what stays in view.
#[test]
fn on_a_phone_the_answer_stays_in_view_and_never_covers_what_has_the_focus() {
    let browser = open();
    let plan = whole_line(&browser);
    browser.resize(Size::PHONE);
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    wait_sheet(&browser, "make-up");
    browser.focus("#f-V_t");
    let covered = "const at = document.activeElement, box = at.getBoundingClientRect(); \
        const head = document.querySelector('.answer .head'), bar = document.querySelector('.bar'); \
        const over = [head, bar].filter(it => !it.contains(at)).some(it => { \
            const its = it.getBoundingClientRect(); \
            return its.bottom > box.top + 1 && its.top < box.bottom - 1 }); \
        return over ? at.tagName + '#' + at.id + ' ' + at.innerText + ' at ' + box.top : null";
    for key in ["Tab", "Shift+Tab"] {
        for _ in 0..40 {
            browser.press(key);
            let found = browser.script(covered, json!([])).expect("a script");
            assert!(found.is_null(), "{found} is covered");
        }
    }
    browser.focus("#f-ingredients-Sulfuric-acid-w");
    let seen = browser.eval("document.querySelector('.answer .big').getBoundingClientRect().top");
    assert!(seen.as_f64().is_some_and(|top| (0.0..200.0).contains(&top)), "the answer is at {seen}");
    browser.assert_quiet();
}
