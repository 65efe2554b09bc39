//! How long things take: printed by `cargo xtask figures`, never asserted.

use crate::harness::{Browser, figure};
use crate::steps::*;
use serde_json::json;

fn part(sorted: &[f64], share: f64) -> f64 {
    let at = ((sorted.len() as f64 * share).ceil() as usize).clamp(1, sorted.len().max(1)) - 1;
    sorted.get(at).copied().unwrap_or(f64::NAN)
}

fn sorted(mut times: Vec<f64>) -> Vec<f64> {
    times.sort_by(f64::total_cmp);
    times
}

fn numbers(value: &serde_json::Value) -> Vec<f64> {
    value.as_array().into_iter().flatten().filter_map(|it| it.as_f64()).collect()
}

/// The largest plan at hand: the example with most places, or a line of our own. Its make-up sheet is open.
fn largest(browser: &Browser) -> String {
    if browser.count("[aria-labelledby=examples-title] button.card") == 0 {
        whole_line(browser);
        rail(browser, "Bath", "Make-up");
        wait_sheet(browser, "make-up");
        return "small line".into();
    }
    let examples = browser.count("[aria-labelledby=examples-title] button.card");
    let mut best = (0, String::new(), String::new());
    for at in 1..=examples {
        browser.goto("#/");
        browser.wait("[aria-labelledby=examples-title] button.card");
        browser.click(&format!("[aria-labelledby=examples-title] li:nth-of-type({at}) button.card"));
        browser.wait("main.line table");
        let places = browser.count("nav.places .place");
        if places > best.0 {
            best = (places, browser.place(), browser.text(".bar .title"));
        }
    }
    browser.goto(&best.1);
    browser.wait("main.line table");
    browser.click("nav.places .place-group:nth-of-type(2) .fold");
    browser.click("nav.places a[href$='/make-up']");
    wait_sheet(browser, "make-up");
    format!("{}, {} places", best.2, best.0)
}

/// Types 200 figures into the tank's volume from within the page, each followed by two frames, and gives by key
/// the time of the event itself, until the page has changed (effects run in the turns after it) and until the
/// frame after that.
const TYPE_200: &str = "const done = arguments[0]; const field = document.querySelector('#f-V_t'); field.focus(); \
    const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set; \
    const handled = [], changed = [], painted = []; let at = 0; \
    const next = () => { \
        if (at === 200) return done({ handled, changed, painted }); \
        const text = String(150 + (at * 37) % 200); at++; \
        const start = performance.now(); \
        set.call(field, text); field.dispatchEvent(new InputEvent('input', { bubbles: true })); \
        handled.push(performance.now() - start);  \
        let turns = 0; const changed_now = () => { if (turns++ < 50) return queueMicrotask(changed_now); \
            changed.push(performance.now() - start); \
            requestAnimationFrame(() => setTimeout(() => { painted.push(performance.now() - start); setTimeout(next, 30); })); \
        }; queueMicrotask(changed_now); \
    }; next();";

#[test]
#[ignore = "a figure: cargo xtask figures"]
fn figure_typing() {
    let browser = open();
    let plan = largest(&browser);
    for slower in [1.0, 4.0] {
        browser.slow_down(slower);
        let found = browser.run(browser.session().execute_async(TYPE_200, Vec::new())).expect("200 keys");
        for (what, words) in [
            ("handled", "plan evaluated, the input event itself"),
            ("changed", "answers changed in the page"),
            ("painted", "the frame after that"),
        ] {
            let times = sorted(numbers(&found.json()[what]));
            for (share, name) in [(0.5, "p50"), (0.95, "p95")] {
                figure(
                    &format!("key to {words}, {slower}x, {name} ({plan})"),
                    format!("{:.1}", part(&times, share)),
                    "ms",
                );
            }
        }
    }
}

#[test]
#[ignore = "a figure: cargo xtask figures"]
fn figure_opening() {
    let ready = "performance.getEntriesByName('ready')[0]?.startTime ?? performance.now()";
    let time = |browser: &Browser| browser.eval(ready).as_f64().unwrap_or(f64::NAN);
    let paint = "performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN";
    let (mut first, mut again, mut slow, mut shown) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for _ in 0..5 {
        let browser = Browser::blank();
        browser.goto("#/quick/heat-up");
        browser.wait("#f-V");
        first.push(time(&browser));
        shown.push(browser.eval(paint).as_f64().unwrap_or(f64::NAN));
        browser.reload();
        browser.wait("#f-V");
        again.push(time(&browser));
        browser.slow_down(4.0);
        browser.reload();
        browser.wait("#f-V");
        slow.push(time(&browser));
    }
    for (name, times) in [
        ("first contentful paint, new profile, median of 5", shown),
        ("start to the first usable sheet, new profile, median of 5", first),
        ("second start, median of 5", again),
        ("second start, 4x, median of 5", slow),
    ] {
        figure(name, format!("{:.0}", part(&sorted(times), 0.5)), "ms");
    }
}

#[test]
#[ignore = "a figure: cargo xtask figures"]
fn figure_memory() {
    let browser = open();
    let plan = largest(&browser);
    let heap = || {
        browser.chromium("HeapProfiler.enable", json!({}));
        browser.chromium("HeapProfiler.collectGarbage", json!({}));
        let used = browser.chromium("Runtime.getHeapUsage", json!({}));
        let number = |name: &str| used[name].as_f64().unwrap_or(0.0) / 1e6;
        number("usedSize") + number("backingStorageSize")
    };
    let edit = || drop(browser.run(browser.session().execute_async(TYPE_200, Vec::new())).expect("200 keys"));
    edit();
    let before = heap();
    (0..5).for_each(|_| edit());
    let after = heap();
    figure(&format!("heap after 200 edits, program's memory with it ({plan})"), format!("{before:.1}"), "MB");
    figure("the same after 1200 edits", format!("{after:.1}"), "MB");
}

#[test]
#[ignore = "a figure: cargo xtask figures"]
fn figure_printing() {
    let browser = open();
    largest(&browser);
    let start = std::time::Instant::now();
    let pdf = browser.printed();
    figure("a sheet printed to PDF", format!("{:.0}", start.elapsed().as_secs_f64() * 1e3), "ms");
    figure("its size", format!("{:.0}", pdf.len() as f64 / 1e3), "kB");
}
