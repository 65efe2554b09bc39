//! Where the browser keeps nothing, or has no room before the first plan is made: the app works in memory, says so
//! all the while, and offers files.

use crate::harness::{Browser, made};
use crate::steps::*;
use crate::storage::all_in;
use bathbook::keep::archive::{self, Archive, FORMAT, Kept};
use bathbook::plan::{Plan, examples};
use serde_json::json;
use std::path::{Path, PathBuf};

/// No store at all, as with site data turned off.
const NOTHING_KEPT: &str = "Object.defineProperty(window, 'indexedDB', { get: () => undefined }); \
    for (const name of ['localStorage', 'sessionStorage']) \
    Object.defineProperty(window, name, { get() { throw new DOMException('Denied.', 'SecurityError') } })";

/// Stores without room, until the tab has some. Counts what was refused.
const FULL: &str = "window.full = window.name !== 'room'; window.refused = 0; \
    for (const [of, name] of [[IDBObjectStore, 'put'], [Storage, 'setItem']]) { \
        const done = of.prototype[name]; of.prototype[name] = function (...it) { \
            if (!window.full) return done.apply(this, it); \
            window.refused += 1; throw new DOMException('No room.', 'QuotaExceededError') } }";

#[track_caller]
fn opened_with(browser: &Browser, amiss: &str) {
    browser.set_language("en-GB");
    browser.before_each_page(amiss);
    browser.goto("");
}

/// What is open is said not to be saved, and the file is offered.
#[track_caller]
fn wait_unkept(browser: &Browser) {
    browser.wait_holds(".bar small", "Not saved. The browser keeps nothing here");
    browser.wait_holds(".unkept", "held in this window");
}

#[track_caller]
fn works_in_memory(browser: &Browser) {
    opened_with(browser, NOTHING_KEPT);
    browser
        .wait_holds(".notes", "Plans cannot be kept here. The browser keeps nothing here: a private window");
    new_plan(browser);
    wait_unkept(browser);
    add_copper_bath(browser);
    browser.retype("#f-V_t", "320");
    wait_answer(browser, "V", "320 L");
    wait_unkept(browser);
    let folder = browser.downloads();
    browser.click_named("Save it as a file");
    let text = std::fs::read_to_string(browser.downloaded(&folder, "json")).expect("a file");
    assert!(text.contains("320"), "{text}");
    // It is there as long as the window is.
    browser.click_named("All plans");
    browser.wait_holds(".unkept", "Not every plan is saved");
    browser.wait_holds(".card.plan", "1 bath");
    browser.click(".card.plan a");
    browser.wait("main.line .map, main.line table");
    browser.press("Control+z");
    assert_eq!(browser.console(), Vec::<String>::new());
}

/// Picks a file on the first page, which is open: loading it anew would end what is held in memory.
#[track_caller]
fn pick(browser: &Browser, path: &Path) {
    let input = browser.wait("input[type=file]");
    browser.run(input.send_keys(path.to_string_lossy())).expect("a file to be picked");
}

#[test]
fn where_the_browser_keeps_nothing_the_app_works_in_memory_and_offers_the_file() {
    let browser = Browser::blank();
    works_in_memory(&browser);
    // A plan of its own each: an example, a file, a link.
    browser.click_named("All plans");
    open_example(&browser, "Alder Row");
    wait_unkept(&browser);
    let plan = examples::plan("gannet-point").expect("an example");
    let path = made("files").join("kept-nowhere.json");
    std::fs::write(&path, serde_json::to_string(&plan).expect("JSON")).expect("a file");
    browser.click_named("All plans");
    pick(&browser, &path);
    browser.wait_text(".bar .title", &plan.name);
    wait_unkept(&browser);
    browser.click_named("Share the plan");
    let link = link_shown(&browser);
    browser.script("location.hash = arguments[0].split('#')[1]", json!([link])).expect("a link");
    browser.click_named("Keep a copy");
    browser.wait_gone(".viewed:not(.unkept)");
    wait_unkept(&browser);
    assert!(!plan_id(&browser).contains("link"), "{}", browser.place());
    browser.click_named("All plans");
    browser.until("all four", || match browser.count(".card.plan") {
        4 => Ok(()),
        n => Err(format!("{n} plans")),
    });
    browser.assert_quiet();
}

#[test]
fn the_page_of_one_file_works_where_the_browser_keeps_nothing() {
    works_in_memory(&Browser::blank_one_file());
}

/// An archive of two plans.
fn two_plans() -> PathBuf {
    let kept = |name: &str| Kept {
        name: name.into(),
        changed: String::new(),
        in_bin: false,
        plan: serde_json::to_value(Plan::new(name)).expect("JSON"),
    };
    let plans = vec![kept("Day shift"), kept("Night shift")];
    let path = made("files").join("two-plans.json");
    let archive = Archive { format: FORMAT, made: String::new(), plans };
    std::fs::write(&path, archive.file()).expect("a file");
    path
}

#[test]
fn the_page_of_one_file_goes_on_with_a_full_store_and_with_one_that_is_emptied() {
    let browser = Browser::blank_one_file();
    opened_with(&browser, FULL);
    let plan = new_plan(&browser);
    browser.wait_holds(".bar small", "Not saved. The browser has no room left. Save a file");
    browser.wait_holds(".unkept", "held in this window");
    // The strip stands while keys are typed and refused.
    browser.eval(
        "(window.strips = 0, new MutationObserver((changes) => changes.forEach((change) => \
         change.addedNodes.forEach((it) => { if (it.classList?.contains('unkept')) window.strips += 1 }))) \
         .observe(document.body, { childList: true, subtree: true }), 1)",
    );
    add_copper_bath(&browser);
    let before = browser.eval("window.refused").as_u64();
    browser.retype("#f-V_t", "310");
    wait_answer(&browser, "V", "310 L");
    browser.until("the stores to be tried again", || match browser.eval("window.refused").as_u64() {
        now if now > before => Ok(()),
        now => Err(format!("{now:?}")),
    });
    browser.wait_holds(".unkept", "held in this window");
    assert_eq!(browser.eval("window.strips"), json!(0), "it did not come and go");

    // What fails beside the plan that is open is told on the first page.
    browser.click_named("All plans");
    pick(&browser, &two_plans());
    browser.wait_holds(".corner", "2 plans put beside the others.");
    browser.wait_holds(".unkept", "Not every plan is saved");
    browser.wait_holds(".unkept", "The browser has no room left.");
    browser.screenshot_everywhere("unkept-home");
    let folder = browser.downloads();
    browser.click_named("Save all as one file");
    let text = std::fs::read_to_string(browser.downloaded(&folder, "json")).expect("a file");
    assert_eq!(archive::open(&text).map(|opened| opened.plans.len()), Ok(3));
    browser.eval("(window.name = 'room', window.full = false)");
    browser.click_named("Try again");
    browser.wait_gone(".unkept");
    let stored = |what: &[&str]| {
        browser.until("all to be stored", || {
            let stored = all_in(&browser, "plans").join("\n");
            if what.iter().all(|it| stored.contains(it)) { Ok(()) } else { Err(stored) }
        });
    };
    stored(&["Day shift", "Night shift", "310 L"]);
    browser.reload();
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.wait_value("#f-V_t", "310");

    let gone = browser.eval_promise(
        "new Promise(done => { localStorage.clear(); const gone = indexedDB.deleteDatabase('bathbook'); \
         gone.onsuccess = () => done('gone'); gone.onblocked = () => done('blocked') })",
    );
    assert_eq!(gone, "gone");
    browser.retype("#f-V_t", "330");
    browser.wait_holds(".corner", "What this browser kept here was cleared meanwhile");
    stored(&["Day shift", "Night shift", "330 L"]);
    assert_eq!(browser.console(), Vec::<String>::new());
}
