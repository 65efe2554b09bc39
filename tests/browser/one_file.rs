//! The page of one file, opened from the disk: all that the site does but for links, and two windows of it.

use crate::harness::{Browser, made};
use crate::steps::*;
use calamine::{Data, Reader, Xlsx};
use serde_json::json;
use std::fs;
use std::process::Command;

/// The page, with a clock that the test can put forward.
#[track_caller]
fn open_file() -> Browser {
    let browser = Browser::blank_one_file();
    browser.set_language("en-GB");
    browser
        .before_each_page("window.later = 0; const now = Date.now; Date.now = () => now() + window.later;");
    browser.goto("");
    browser
}

/// The console is clean, and nothing but the file itself was asked for.
#[track_caller]
fn assert_alone(browser: &Browser) {
    assert_eq!(browser.console(), Vec::<String>::new(), "the console should be clean");
    let (file, asked) = (browser.address(), browser.requests());
    assert!(asked.iter().any(|url| url.starts_with(&file)), "the watch saw no page: {asked:?}");
    let is_own = |url: &&String| [&file, "data:", "blob:"].iter().any(|own| url.starts_with(*own));
    assert_eq!(asked.iter().find(|url| !is_own(url)), None, "of {asked:?}");
}

#[test]
fn pictures_tables_undo_and_earlier_versions_are_there_without_a_site() {
    let browser = open_file();
    let plan = open_example(&browser, "Alder Row");
    let read = |ending: &str, button: &str| {
        let folder = browser.downloads();
        browser.click_named(button);
        browser.downloaded(&folder, ending)
    };
    let map = fs::read_to_string(read("svg", "Save the map")).expect("a map");
    assert!(map.starts_with("<svg ") && map.contains("Copper bath"), "{map}");

    let bath = format!("#/plan/{plan}/1/make-up");
    browser.goto(&bath);
    let before = browser.value("#f-V_t");
    browser.retype("#f-V_t", "321");
    browser.press("Tab");
    wait_saved(&browser);
    browser.reload();
    browser.wait_value("#f-V_t", "321");
    browser.click_named("Undo");
    browser.wait_value("#f-V_t", &before);
    browser.click_named("Redo");
    browser.wait_value("#f-V_t", "321");
    wait_saved(&browser);

    browser.goto(&format!("#/plan/{plan}/share"));
    browser.wait_holds("main", "a link to it would open nowhere else");
    let buttons = browser.eval("[...document.querySelectorAll('main button')].map((it) => it.innerText)");
    assert_eq!(buttons, json!(["Save a file", "Save a workbook (XLSX)", "Save a table (CSV)"]));
    let file = read("json", "Save a file");
    let mut book: Xlsx<_> =
        calamine::open_workbook(read("xlsx", "Save a workbook (XLSX)")).expect("a workbook");
    let page = book.worksheet_range("Copper bath").expect("the bath’s page");
    let row = page.rows().find(|row| row[4] == Data::String("V_t".into())).expect("its volume");
    assert_eq!((&row[5], &row[6]), (&Data::Float(321.0), &Data::String("L".into())));
    let mut table = csv::Reader::from_path(read("csv", "Save a table (CSV)")).expect("a table");
    let rows: Vec<csv::StringRecord> = table.records().map(|row| row.expect("a row")).collect();
    let row = rows.iter().find(|row| &row[0] == "Copper bath" && &row[5] == "V_t").expect("its volume");
    assert_eq!(&row[6], "321");

    browser.goto(&format!("#/plan/{plan}/1/heat-up"));
    let curve = fs::read_to_string(read("svg", "Save as SVG")).expect("a picture");
    assert!(curve.starts_with("<svg ") && curve.contains("class=\"curve\""), "{curve}");
    // Source: W3C, PNG, section 5.2: the signature of every file.
    let bytes = fs::read(read("png", "Save as PNG")).expect("a picture");
    assert_eq!(bytes[..8], [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n']);

    browser.eval("window.later = 5 * 60000");
    browser.goto(&bath);
    browser.retype("#f-V_t", "345");
    browser.press("Tab");
    wait_saved(&browser);
    browser.goto(&format!("#/plan/{plan}/earlier"));
    browser.wait_holds("main li:first-child", "differs at Copper bath (Make-up)");
    browser.click("main li:first-child button:nth-of-type(1)");
    browser.wait_holds(".corner", "Undo takes that back");
    browser.click_named("Undo");
    browser.goto(&bath);
    browser.wait_value("#f-V_t", "345");
    wait_saved(&browser);

    // The file has what the plan was before: it comes beside it.
    browser.click_named("All plans");
    let input = browser.wait("input[type=file]");
    browser.run(input.send_keys(file.to_string_lossy())).expect("a file to be picked");
    browser.wait_holds(".bar .title", "(other copy)");
    wait_saved(&browser);
    let copy = plan_id(&browser);
    browser.goto(&format!("#/plan/{copy}/1/make-up"));
    browser.wait_value("#f-V_t", "321");
    assert_alone(&browser);
}

#[test]
fn the_page_of_one_file_is_printed_and_says_what_it_cannot_do() {
    let browser = open_file();
    let plan = open_example(&browser, "Alder Row");
    browser.goto(&format!("#/plan/{plan}/report"));
    browser.wait(".report .one");
    let sum = answer(&browser, "check");
    let paper = made("screens").join("one-file.pdf");
    fs::write(&paper, browser.printed()).expect("target/screens");
    let printed = Command::new("pdftotext").args(["-layout", &paper.to_string_lossy(), "-"]).output();
    let printed = String::from_utf8_lossy(&printed.expect("pdftotext").stdout).into_owned();
    assert!(printed.contains(&sum) && printed.contains("Copper bath: Make-up"), "{printed}");

    browser.goto("#/about");
    for said in ["no installation", "It does not renew itself", "It cannot make links to a plan, nor codes"] {
        browser.wait_holds("main", said);
    }
    // What is offered does something, if only that it says what came of it.
    browser.click_named("Ask it to keep them");
    browser.wait_holds("main", "It was asked, and does not agree.");
    let main = browser.text("main");
    assert!(!main.contains("Install”") && !main.contains("load it anew"), "{main}");
    assert_alone(&browser);
}

#[test]
fn two_windows_of_one_file_see_each_other_and_the_later_one_is_told() {
    let browser = open_file();
    let plan = new_plan(&browser);
    browser.retype(".plan-name input", "Day shift");
    add_copper_bath(&browser);
    wait_saved(&browser);
    let second = browser.open_tab(&format!("#/plan/{plan}/1/make-up"));
    browser.wait_value("#f-V_t", "200");
    browser.retype("#f-V_t", "250");
    browser.press("Tab");
    wait_saved(&browser);
    browser.turn_to_tab(0);
    browser.wait_value("#f-V_t", "250");

    // Both at once: the second has not heard of what the first has saved.
    browser.eval("(BroadcastChannel.prototype.postMessage = () => {}, 1)");
    browser.retype("#f-V_t", "260");
    browser.press("Tab");
    wait_saved(&browser);
    browser.turn_to_tab(second);
    browser.retype("#f-V_c", "5");
    browser.wait_holds(
        ".corner",
        "Another window changed this plan too. Yours is kept as “Day shift (other copy)”.",
    );
    browser.wait_text(".bar .title", "Day shift (other copy)");
    let copy = plan_id(&browser);
    assert_ne!(copy, plan);
    // It goes on under that name, with its past.
    browser.goto(&format!("#/plan/{copy}/1/make-up"));
    browser.retype("#f-V_c", "6");
    wait_answer(&browser, "V", "256 L");
    wait_saved(&browser);
    for volume in ["255 L", "255 L", "250 L"] {
        browser.click_named("Undo");
        wait_answer(&browser, "V", volume);
    }
    for _ in 0..3 {
        browser.click_named("Redo");
    }
    wait_answer(&browser, "V", "256 L");
    wait_saved(&browser);
    browser.reload();
    browser.wait_text(".bar .title", "Day shift (other copy)");
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.wait_value("#f-V_t", "260");
    browser.wait_value("#f-V_c", "0");
    assert_alone(&browser);
}
