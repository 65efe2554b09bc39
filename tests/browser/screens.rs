//! Every screen, in light and dark, at every size: pictures to look at, accessibility, nothing that sticks out,
//! and targets large enough for a gloved finger.

use crate::axe::violations;
use crate::harness::{Browser, Scheme, Size};
use crate::steps::*;
use serde_json::json;

/// Name and address of every screen, once a whole line is made.
fn screens(plan: &str) -> Vec<(String, String)> {
    let of_plan = [
        "line",
        "report",
        "building",
        "0/site",
        "0/wafers",
        "0/balance",
        "1/make-up",
        "1/plating",
        "1/heat-up",
        "2/stream",
        "4/stream",
        "3/route",
        "5/route",
    ];
    let of_plan = of_plan.into_iter().chain(["6/drain"]);
    let of_plan = of_plan.map(|it| (format!("plan-{}", it.replace('/', "-")), format!("#/plan/{plan}/{it}")));
    // Every calculator that makes sense by itself, also those that a new place does not have.
    let quick = bathbook::calculators::ALL.iter().filter(|calculator| calculator.quick).map(|c| c.id);
    let quick = quick.map(|it| (format!("quick-{it}"), format!("#/quick/{it}")));
    let rest = [("home", "#/"), ("about", "#/about")].map(|(name, at)| (name.to_string(), at.to_string()));
    rest.into_iter().chain(of_plan).chain(quick).collect()
}

#[track_caller]
fn visit(browser: &Browser, address: &str) {
    browser.goto(address);
    browser.wait("main");
    // What comes after a pause (cures, the picture) is there.
    browser.until("the page to rest", || {
        let script = "const size = document.body.innerHTML.length; \
            return (window.before === size) || (window.before = size, false)";
        std::thread::sleep(std::time::Duration::from_millis(200));
        if browser.script(script, json!([]))? == true { Ok(()) } else { Err("it still changes".into()) }
    });
}

fn say(found: &[String]) {
    assert!(found.is_empty(), "{} found:\n{}", found.len(), found.join("\n"));
}

#[test]
fn axe_finds_nothing_on_any_screen() {
    let browser = open();
    let mut found = Vec::new();
    let mut look = |name: &str, browser: &Browser| {
        for (size, scheme) in
            [(Size::TABLET, Scheme::Light), (Size::TABLET, Scheme::Dark), (Size::PHONE, Scheme::Light)]
        {
            browser.resize(size);
            browser.set_scheme(scheme);
            let here = violations(browser).into_iter();
            found.extend(here.map(|it| format!("{name}, {} px, {scheme:?}: {it}", size.width)));
        }
        browser.resize(Size::TABLET);
        browser.set_scheme(Scheme::Light);
    };
    look("first visit", &browser);
    let plan = whole_line(&browser);
    for (name, address) in screens(&plan) {
        visit(&browser, &address);
        look(&name, &browser);
    }
    // The largest example: long names are cut on its map.
    browser.goto("#/");
    browser.click("[aria-labelledby=examples-title] li:last-of-type button.card");
    browser.wait("main.line table");
    look("example line", &browser);
    say(&found);
}

#[test]
fn nothing_sticks_out_sideways_even_at_320_px() {
    let browser = open();
    let plan = whole_line(&browser);
    let narrow = Size { width: 320, height: 640, ..Size::PHONE };
    let mut found = Vec::new();
    for (name, address) in screens(&plan) {
        browser.goto(&address);
        browser.wait("main");
        for size in [Size::DESK, Size::TABLET, Size::PHONE, narrow] {
            browser.resize(size);
            let wide = browser.until("a width", || {
                // Two frames for what answers to sizes.
                let wait =
                    "new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() => done(1))))";
                browser.eval_promise(wait);
                browser
                    .script("return document.documentElement.scrollWidth", json!([]))?
                    .as_u64()
                    .ok_or("none".into())
            });
            if wide > u64::from(size.width) {
                found.push(format!("{name} at {} px is {wide} px wide", size.width));
            }
        }
    }
    say(&found);
}

/// Fails with what scripts list on any screen, on the tablet and on the phone.
#[track_caller]
fn say_what_scripts_find(looks: &[&str]) {
    let browser = open();
    let plan = whole_line(&browser);
    let mut found = std::collections::BTreeSet::new();
    for (name, address) in screens(&plan) {
        visit(&browser, &address);
        for size in [Size::TABLET, Size::PHONE] {
            browser.resize(size);
            browser.assert_fits();
            for look in looks {
                let here = browser.script(look, json!([])).expect("a script");
                for it in here.as_array().into_iter().flatten() {
                    found.insert(format!("{it} on {name} at {} px", size.width));
                }
            }
        }
    }
    say(&found.into_iter().collect::<Vec<_>>());
}

/// Of the page's own, without what a label around it makes larger.
const SMALL: &str = "const found = []; \
    for (const it of document.querySelectorAll('main button, main a, main select, main input, main summary, aside a, aside button, .bar button, .bar a, .places a, .places button, .places summary')) { \
        if (!it.checkVisibility({ visibilityProperty: true }) || it.disabled) continue; \
        /* A link within a sentence is as high as its line: WCAG 2.5.8 leaves it out. */ \
        if (it.tagName === 'A' && getComputedStyle(it).display === 'inline') continue; \
        if (it.type === 'file' || it.closest('svg')) continue; \
        const box = it.getBoundingClientRect(); \
        if (box.height < 47.5) found.push(it.tagName.toLowerCase() + '.' + it.className + ' “' + (it.innerText || it.ariaLabel || it.id) + '” ' + box.height.toFixed(1)); \
    } return found";

#[test]
fn what_is_touched_is_48_px_high() {
    say_what_scripts_find(&[SMALL]);
}

/// Texts below 16 px, but for what a drawing, an index or a power makes smaller.
const FINE_PRINT: &str = "const found = []; \
    for (const it of document.querySelectorAll('body *')) { \
        if (it.closest('svg, sub, sup, script, style, option, .hide') || !it.checkVisibility({ visibilityProperty: true })) continue; \
        if (![...it.childNodes].some(node => node.nodeType === 3 && node.data.trim())) continue; \
        const size = parseFloat(getComputedStyle(it).fontSize); \
        if (size < 16) found.push(it.tagName.toLowerCase() + '.' + it.className + ' “' + it.innerText.slice(0, 40) + '” ' + size); \
    } return found";

/// Boxes within the page that scroll up and down by themselves, beside the page's own bar.
const SECOND_BARS: &str = "const found = []; \
    for (const it of document.querySelectorAll('main, main *, aside, aside *')) { \
        const style = getComputedStyle(it); \
        if (!['auto', 'scroll'].includes(style.overflowY) || it.scrollHeight <= it.clientHeight + 1) continue; \
        found.push(it.tagName.toLowerCase() + '.' + it.className + ' scrolls by itself'); \
    } return found";

#[test]
fn what_is_to_be_read_is_16_px_high_and_there_is_one_scroll_bar() {
    say_what_scripts_find(&[FINE_PRINT, SECOND_BARS]);
}

/// Tables of which a part is to be had only by a scroll to the side.
const HIDDEN_SIDEWAYS: &str = "return [...document.querySelectorAll('.data-frame, .table-scroll')] \
    .filter(it => it.scrollWidth > it.clientWidth + 1) \
    .map(it => (it.ariaLabel ?? it.querySelector('th').innerText) + ' ' + it.scrollWidth + ' of ' + it.clientWidth)";

#[test]
fn no_table_of_a_plan_with_four_metals_hides_anything_sideways() {
    let browser = open();
    browser.click("[aria-labelledby=examples-title] li:last-of-type button.card");
    browser.wait("main.line table");
    let plan = plan_id(&browser);
    let mut found = Vec::new();
    for at in ["line", "0/throughput", "0/balance", "17/route", "18/route"] {
        visit(&browser, &format!("#/plan/{plan}/{at}"));
        for size in [Size::DESK, Size::TABLET, Size::PHONE] {
            browser.resize(size);
            browser.assert_fits();
            let here = browser.script(HIDDEN_SIDEWAYS, json!([])).expect("a script");
            found.extend(
                here.as_array().into_iter().flatten().map(|it| format!("{it} on {at}, {} px", size.width)),
            );
        }
    }
    say(&found);
}

#[test]
fn pictures_of_every_screen() {
    let browser = open();
    browser.screenshot_everywhere("home-first");
    let plan = whole_line(&browser);
    for (name, address) in screens(&plan) {
        visit(&browser, &address);
        browser.screenshot_everywhere(&name);
        browser.screenshot_whole(&name);
    }
    // The example, as a visitor opens it.
    browser.goto("#/");
    browser.wait("main.home-page");
    if browser.count("[aria-labelledby=examples-title] button.card") > 0 {
        browser.click("[aria-labelledby=examples-title] button.card");
        browser.wait("main.line table");
        browser.screenshot_everywhere("example-line");
        browser.screenshot_whole("example-line");
    }
    // The bath side of the example that has all of it, filled in.
    browser.goto("#/");
    browser.click("[aria-labelledby=examples-title] li:last-of-type button.card");
    browser.wait("main.line table");
    let plan = plan_id(&browser);
    for at in [
        "0/wafers",
        "0/throughput",
        "1/plating",
        "1/chambers",
        "1/evaporation",
        "1/coil",
        "1/dosing",
        "1/ageing",
        "1/cost",
    ] {
        visit(&browser, &format!("#/plan/{plan}/{at}"));
        browser.wait("main .answer");
        let name = format!("example-{}", at.replace('/', "-"));
        browser.screenshot_everywhere(&name);
        browser.screenshot_whole(&name);
    }
    browser.assert_quiet();
}

#[test]
fn on_a_phone_the_places_are_one_touch_away() {
    let browser = open();
    let plan = whole_line(&browser);
    browser.resize(Size::PHONE);
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.wait("main.sheet");
    browser.wait_gone("nav.places");
    browser.click_named("Places");
    browser.wait("nav.places");
    rail(&browser, "", "Drain");
    wait_sheet(&browser, "drain");
    browser.wait_gone("nav.places");
    browser.assert_quiet();
}
