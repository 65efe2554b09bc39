//! The report of a whole plan, printed to PDF and read back.

use crate::axe::violations;
use crate::harness::{Browser, Scheme, Size, made};
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

/// The rinse of 100 wafers of 2 L in 24 h takes 0.1389 L/min; 3 kW at 400 V and the usual 0.9 are 4.811 A in each line.
#[test]
fn a_building_request_is_one_page_for_the_engineer_and_stands_in_the_report() {
    let browser = open();
    let plan = whole_line(&browser);
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.click_named("Save the map");
    browser.wait_holds(".corner", "map - volume a day.svg");
    browser.click_named("Building request");
    browser.click_named("Add the sheet of utilities");
    browser.wait(".request");
    browser.click_named("Items of your own, on the sheet of utilities");
    wait_sheet(&browser, "utilities");
    browser.retype("#f-U", "400");
    browser.click_named("Chiller");
    browser.retype("#f-items-Chiller-P", "3");
    wait_answer(&browser, "P_c", "3.00 kW");
    browser.goto(&format!("#/plan/{plan}/building"));
    browser.wait(".request table");
    for (size, scheme) in
        [(Size::TABLET, Scheme::Light), (Size::TABLET, Scheme::Dark), (Size::PHONE, Scheme::Light)]
    {
        browser.resize(size);
        browser.set_scheme(scheme);
        browser.assert_fits();
        assert_eq!(violations(&browser), Vec::<String>::new(), "{} px, {scheme:?}", size.width);
    }
    browser.resize(Size::TABLET);
    let pages = printed_pages(&browser, "building");
    assert_eq!(pages.len(), 1, "one page:\n{}", pages.join("\n-----\n"));
    let words = pages[0].split_whitespace().collect::<Vec<_>>().join(" ");
    for wanted in [
        "Building request",
        "plan check",
        "Electrical load by line",
        "Line 2",
        "4.811 A",
        "Demand factor",
        "Chiller",
        "0.1389 L/min",
        "Heat to the room",
        "Into the drains",
        "No answer yet, and so left out",
        "Bath: floor of its tank",
        "licensed electrician",
        "For the building, day",
        "1 of 1",
    ] {
        assert!(words.contains(wanted), "“{wanted}” is not on it:\n{words}");
    }
    for unwanted in ["Print, or save as PDF", "Items of your own"] {
        assert!(!words.contains(unwanted), "“{unwanted}” is printed");
    }
    // In the report it is a page too, and may be left out.
    browser.goto(&format!("#/plan/{plan}/report"));
    browser.wait(".report .one");
    let is_it = |page: &&String| page.contains("For the building, day");
    let pages = printed_pages(&browser, "report-with-building");
    let found: Vec<_> = pages.iter().filter(is_it).collect();
    assert!(found.len() == 1 && found[0].contains("Building request") && found[0].contains("Line 3"));
    browser.click_named("Building request");
    browser.wait_gone(".request");
    browser.assert_quiet();
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
