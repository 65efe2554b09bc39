//! The report of a whole plan, printed to PDF and read back.

use crate::harness::{Browser, made};
use crate::steps::*;
use std::process::Command;

/// The pages of what the browser prints, as text.
#[track_caller]
fn printed_pages(browser: &Browser, name: &str) -> Vec<String> {
    let file = made("screens").join(format!("{name}.pdf"));
    std::fs::write(&file, browser.printed()).expect("target/screens");
    let read = Command::new("pdftotext").args(["-layout", &file.to_string_lossy(), "-"]).output();
    let text = read.expect("pdftotext: `cargo xtask test` installs it").stdout;
    let text = String::from_utf8_lossy(&text).into_owned();
    text.split('\u{c}').map(str::to_string).filter(|page| !page.trim().is_empty()).collect()
}

#[test]
fn a_report_is_printed_with_every_sheet_and_its_check_sum_and_page_on_every_page() {
    let browser = open();
    let plan = whole_line(&browser);
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.click_named("Report of the plan");
    browser.wait(".report .one");
    browser.retype("#f-author", "The water office");
    browser.press("Tab");
    let sum = answer(&browser, "check");
    assert_eq!(sum.len(), 9, "{sum}");

    let pages = printed_pages(&browser, "report");
    let all = pages.join("\n");
    for (at, page) in pages.iter().enumerate() {
        assert!(
            page.contains(&format!("{} of {}", at + 1, pages.len())),
            "page {} has its number:\n{page}",
            at + 1
        );
        assert!(page.contains(&format!("plan check {sum}")), "page {} has the check sum:\n{page}", at + 1);
    }
    assert!(pages[0].contains("The water office") && !pages[0].contains("Working"), "{}", pages[0]);
    // 200 L of 40 g/L are 31.43 kg of CuSO4·5H2O.
    for wanted in [
        "What is assumed",
        "Bath: Make-up",
        "31.43",
        "Working",
        "Sources",
        "Rinse: Stream",
        "Balance of metal, water and acid",
    ] {
        assert!(all.contains(wanted), "“{wanted}” is printed");
    }
    for unwanted in ["Print, or save as PDF", "Sheets: "] {
        assert!(!all.contains(unwanted), "“{unwanted}” is not printed");
    }

    // One sheet alone, without the rest.
    browser.click(".report summary");
    browser.click_named("None");
    for label in ["What to look at", "Map, streams, routes and balances"] {
        browser.click_named(label);
    }
    browser.click_named("Make-up");
    browser.until("one sheet", || match browser.count(".report .one") {
        1 => Ok(()),
        n => Err(format!("{n} are there")),
    });
    let pages = printed_pages(&browser, "report-make-up").join("\n");
    assert!(pages.contains("Bath: Make-up") && pages.contains("31.43"), "{pages}");
    assert!(!pages.contains("Heat-up and holding"), "{pages}");
    browser.assert_quiet();
}
