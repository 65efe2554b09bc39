//! The site opens from any folder of a static host, and keeps to itself.

use crate::harness::Browser;

#[test]
fn opens_from_a_sub_folder() {
    let browser = Browser::open();
    assert!(browser.address().ends_with("/some/folder/"));
    assert_eq!(browser.text(".bar .title"), "Bathbook");
    assert_eq!(browser.count("#shell"), 0, "the loading message should be gone");
    browser.click("a.card[href='#/quick/drain']");
    browser.wait_text("h1", "Gravity drain and lift station");
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
