//! Without a network: the site once visited opens again, and a newer version comes whole or not at all.

use crate::harness::Browser;
use crate::steps::*;
use serde_json::json;

/// Waits until the app is kept on the device.
fn wait_kept(browser: &Browser) {
    browser.until("the app to be kept", || {
        let kept = browser.eval("document.documentElement.hasAttribute('data-offline')");
        if kept == json!(true) { Ok(()) } else { Err("not yet".into()) }
    });
}

#[test]
fn after_one_visit_it_opens_with_the_server_gone_and_plans_are_worked_on() {
    let browser = open();
    wait_kept(&browser);
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    browser.stop_serving();

    // The stop is real: what is not of the site is not answered any more.
    let asked =
        "fetch('./else', { signal: AbortSignal.timeout(2000) }).then(() => 'answered', () => 'no answer')";
    assert_eq!(browser.eval_promise(asked), json!("no answer"));

    browser.reload();
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.retype("#f-V_t", "250");
    browser.press("Tab");
    wait_answer(&browser, "V", "250 L");
    wait_saved(&browser);
    // Another tab, and an address with something behind a question mark.
    browser.open_tab("?from=home-screen");
    browser.wait_text(".bar .title", "Bathbook");
    browser.goto("#/about");
    browser.wait_holds("main", "it opens without a network");
}

/// Which version of the page is shown.
const EDITION: &str = "document.documentElement.dataset.edition ?? 'first'";

/// Makes another version of the copied site: a file more, and another worker for it.
fn renew(browser: &Browser, spoil: bool) {
    let worker = browser.copy().join("sw.js");
    let text = std::fs::read_to_string(&worker).expect("a worker");
    let index = std::fs::read_to_string(browser.copy().join("index.html")).expect("a page");
    let newer = index.replace("<html lang=\"en\"", "<html lang=\"en\" data-edition=\"newer\"");
    assert_ne!(index, newer);
    let digest = |text: &str| {
        let script = "return crypto.subtle.digest('SHA-256', new TextEncoder().encode(arguments[0])).then((digest) => \
            Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join(''))";
        browser.script(script, json!([text])).expect("a digest").as_str().expect("a digest").to_string()
    };
    let (old, new) = (digest(&index), digest(&newer));
    assert!(text.contains(&old), "the worker names the page by its SHA-256");
    let version =
        text.split("VERSION = \"").nth(1).and_then(|rest| rest.split('"').next()).expect("a version");
    let renewed = text.replace(&old, &new).replace(version, if spoil { "spoiled" } else { "renewed" });
    let page = if spoil { newer.replace("newer", "half a page") } else { newer };
    std::fs::write(browser.copy().join("index.html"), page).expect("a page");
    std::fs::write(worker, renewed).expect("a worker");
}

#[test]
fn a_newer_version_is_offered_and_starts_when_it_is_chosen() {
    let browser = Browser::open_on_a_copy();
    wait_kept(&browser);
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    renew(&browser, false);

    // The old version stays until the new one is chosen.
    browser.reload();
    browser.wait_holds(".viewed", "A new version of Bathbook is ready");
    assert_eq!(browser.eval(EDITION), json!("first"));
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.retype("#f-V_t", "260");
    // Still within the field: what is being typed is kept first.
    browser.click_named("Change to it");
    browser.until("the newer page", || {
        let edition = browser
            .eval(&format!("{EDITION} + (document.body?.hasAttribute('data-ready') ? '' : ' not ready')"));
        if edition == json!("newer") { Ok(()) } else { Err(edition.to_string()) }
    });
    browser.wait_value("#f-V_t", "260");
    browser.until("the older version to be dropped", || {
        let names = browser.eval_promise("caches.keys().then((names) => names.join())");
        match names.as_str() {
            Some(names) if !names.contains(',') && names.contains("renewed") => Ok(()),
            other => Err(format!("{other:?}")),
        }
    });
}

#[test]
fn a_version_that_does_not_arrive_whole_is_not_taken() {
    let browser = Browser::open_on_a_copy();
    wait_kept(&browser);
    renew(&browser, true);
    browser.eval_promise(
        "navigator.serviceWorker.getRegistration().then((kept) => kept.update()).then(() => new Promise((done) => { \
         const wait = () => navigator.serviceWorker.getRegistration().then((kept) => kept.installing ? setTimeout(wait, 20) : done('over')); wait() }))",
    );
    browser.reload();
    assert_eq!(browser.eval(EDITION), json!("first"));
    assert_eq!(browser.count(".viewed"), 0);
    // The way out by address forgets what is kept, and takes what the host has.
    browser.goto("?fresh");
    browser.until("the page of the host", || {
        let edition = browser.eval(EDITION);
        if edition == json!("half a page") { Ok(()) } else { Err(edition.to_string()) }
    });
}

#[test]
fn it_can_be_installed() {
    let browser = Browser::open();
    wait_kept(&browser);
    let errors = browser.run(browser.session().cdp().send_raw("Page.getInstallabilityErrors", json!({})));
    assert_eq!(errors.expect("an answer")["installabilityErrors"], json!([]));
    browser.assert_quiet();
}
