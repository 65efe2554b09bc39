//! A plan is handed on as a link: it opens for looking at, beside one's own.

use crate::harness::Browser;
use crate::steps::*;
use serde_json::json;

/// The link of the plan that is open.
fn made_link(browser: &Browser) -> String {
    browser.click_named("Share the plan");
    browser.until("the link", || {
        let link = browser.value(".whole-link textarea");
        if link.contains("#/link/2.") { Ok(link) } else { Err(link) }
    })
}

#[test]
fn a_link_shows_the_plan_and_a_copy_of_it_is_kept_when_asked() {
    let browser = open();
    let plan = whole_line(&browser);
    wait_saved(&browser);
    browser.goto(&format!("#/plan/{plan}/line"));
    let link = made_link(&browser);
    assert!(link.starts_with(&browser.address()), "{link}");
    browser.wait_holds("main", "Up to 8000 arrive whole nearly everywhere");

    // The other one: an empty device.
    let customer = open();
    let fragment = link.split('#').nth(1).expect("a fragment").to_string();
    customer.goto(&format!("#{fragment}"));
    customer.wait_holds(".viewed", "This plan came by link");
    assert!(customer.place().starts_with("#/plan/link/"), "{}", customer.place());
    customer.goto("#/plan/link/1/make-up");
    customer.wait_value("#f-V_t", "200");
    // It cannot be changed, and says how it could.
    assert_eq!(customer.attribute("#f-V_t", "readonly").as_deref(), Some("true"));
    customer.reload();
    customer.wait_value("#f-V_t", "200");
    assert_eq!(customer.eval("localStorage.length"), json!(0), "nothing of it is kept");
    customer.click_named("Keep a copy");
    customer.until("a plan of its own", || {
        let place = customer.place();
        if place.ends_with("/line") && !place.contains("/link/") { Ok(()) } else { Err(place) }
    });
    wait_saved(&customer);
    let plan = plan_id(&customer);
    customer.goto(&format!("#/plan/{plan}/1/make-up"));
    customer.retype("#f-V_t", "210");
    wait_answer(&customer, "V", "210 L");
    customer.assert_quiet();
    browser.assert_quiet();
}

/// Links that are out go on opening, for ever: the fixtures are those of `tests/hostile.rs`.
#[test]
fn a_link_of_every_version_opens() {
    let browser = open();
    for (version, link) in
        [("1", include_str!("../fixtures/link-1.txt")), ("2", include_str!("../fixtures/link-2.txt"))]
    {
        let fragment = link.trim().split('#').nth(1).expect("a fragment");
        assert!(fragment.starts_with(&format!("/link/{version}.")));
        browser.goto("");
        browser.goto(&format!("#{fragment}"));
        browser.wait_holds(".viewed", "This plan came by link");
        browser.goto("#/plan/link/1/make-up");
        browser.wait_value("#f-V_t", "40");
    }
    browser.assert_quiet();
}

#[test]
fn a_damaged_link_says_so_and_changes_nothing() {
    let browser = open();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    browser.goto(&format!("#/plan/{plan}/line"));
    let link = made_link(&browser);
    let fragment = link.split('#').nth(1).expect("a fragment").to_string();
    browser.goto("");
    let plans = browser.count(".card.plan");
    browser.goto(&format!("#{}", &fragment[..fragment.len() - 3]));
    browser.wait_holds(
        ".notes",
        "This link was damaged on its way. 3 of its characters are missing at the end.",
    );
    assert_eq!(browser.count(".card.plan"), plans);
    // What is whole and unpacks to no plan, or to far too much, is refused in words too.
    let bomb = browser.eval_promise(
        "(async () => { const zeros = new Blob([new Uint8Array(8e6)]).stream().pipeThrough(new CompressionStream('deflate-raw')); \
         const bytes = new Uint8Array(await new Response(zeros).arrayBuffer()); let a = 1, b = 0; \
         for (const byte of bytes) { a = (a + byte) % 65521; b = (b + a) % 65521 } \
         const sum = (b * 65536 + a).toString(16).padStart(8, '0'); \
         const text = btoa(String.fromCharCode(...bytes)).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', ''); \
         return `#/link/1.${sum}.${bytes.length}.${text}` })()",
    );
    browser.goto(bomb.as_str().expect("a link"));
    browser.wait_holds(".notes", "This link cannot be unpacked");
    browser.assert_quiet();
}

#[test]
fn notes_and_prices_are_left_out_where_that_is_asked() {
    let browser = open();
    browser.click("[aria-labelledby=examples-title] li:nth-of-type(2) button.card");
    browser.wait("main.line");
    let whole = made_link(&browser);
    browser.click_named("Prices");
    let less = browser.until("a shorter link", || {
        let link = browser.value(".whole-link textarea");
        if link.len() < whole.len() { Ok(link) } else { Err(link) }
    });
    // The file too, and it does not count as one of the plan.
    let folder = browser.downloads();
    browser.click_named("Save a file without them");
    let file = std::fs::read_to_string(browser.downloaded(&folder, "json")).expect("a file");
    assert!(file.contains("\"hours\": \"16 h\"") && !file.contains("p_kWh"), "{file}");
    browser.wait_holds(".bar", "no file yet");
    let fragment = less.split('#').nth(1).expect("a fragment").to_string();
    browser.goto(&format!("#{fragment}"));
    browser.wait_holds(".viewed", "This plan came by link");
    browser.goto("#/plan/link/0/site");
    browser.wait_value("#f-hours", "16");
    browser.wait_value("#f-p_kWh", "");
}
