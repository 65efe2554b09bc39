//! The site opens from any folder of a static host, and keeps to itself.

use crate::harness::{Browser, Size, figure};
use serde_json::json;

#[test]
fn opens_from_a_sub_folder_and_asks_nobody_else() {
    let browser = Browser::open();
    assert!(browser.address().ends_with("/some/folder/"));
    assert_eq!(browser.text("h1"), "Bathbook");
    assert_eq!(browser.count("#shell"), 0, "the loading message should be gone");

    let field = browser.field("Volume");
    browser.retype(&field, "100");
    browser.wait_text("output", "378.5 L");
    browser.type_into(&field, "0");
    browser.wait_text("output", "3785.4 L");
    browser.clear(&field);
    browser.wait_text("output", "Not a number");
    browser.press("Control+z");
    browser.screenshot_everywhere("first");
    browser.resize(Size::TABLET);
    browser.assert_quiet();
}

/// The watch itself must see what it is there to see.
#[test]
fn the_policy_refuses_a_request_to_another_host_and_the_watch_sees_it() {
    let browser = Browser::open();
    let answer = browser.eval_promise("fetch('http://192.0.2.1/').then(() => 'answered')");
    assert!(answer.as_str().is_some_and(|text| text.starts_with("TypeError")), "{answer}");
    browser.until("the console to tell", || {
        let told = browser.console().iter().any(|entry| entry.contains("Content Security Policy"));
        if told { Ok(()) } else { Err("nothing yet".into()) }
    });
}

#[test]
#[ignore = "a figure: cargo xtask figures"]
fn figure_opening() {
    let times: Vec<f64> = (0..5)
        .map(|_| {
            let browser = Browser::open();
            // Set when the program marks the page ready; see `start` in src/ui.
            let ready = "performance.getEntriesByName('ready')[0]?.startTime ?? performance.now()";
            browser
                .script(&format!("return {ready}"), json!([]))
                .ok()
                .and_then(|it| it.as_f64())
                .unwrap_or(f64::NAN)
        })
        .collect();
    let mut sorted = times;
    sorted.sort_by(f64::total_cmp);
    figure("opening, new profile, median of 5", format!("{:.0}", sorted[2]), "ms");
}
