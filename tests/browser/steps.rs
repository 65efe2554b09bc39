//! Steps that many jobs share, as a user takes them.

use crate::harness::Browser;
use serde_json::json;

/// The site's first page, for a user whose browser speaks English with metric units.
#[track_caller]
pub fn open() -> Browser {
    let browser = Browser::blank();
    browser.set_language("en-GB");
    browser.goto("");
    browser
}

/// What stands in an answer, on one line.
#[track_caller]
pub fn answer(browser: &Browser, symbol: &str) -> String {
    let text = browser.text(&of(symbol));
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A selector for an answer, by its symbol; in a table `c[Cu]`.
pub fn of(symbol: &str) -> String {
    format!("[data-symbol=\"{symbol}\"]")
}

/// Waits until an answer reads so; between number and unit stands one space.
#[track_caller]
pub fn wait_answer(browser: &Browser, symbol: &str, text: &str) {
    browser.until(&format!("{symbol} to read {text}"), || {
        let script = "return document.querySelector(arguments[0])?.innerText ?? null";
        let found = browser.script(script, json!([of(symbol)]))?;
        let Some(found) = found.as_str() else { return Err("it is not there".into()) };
        // In a row's head the label stands below the number.
        let found = found.lines().next().unwrap_or_default();
        let squeezed = |text: &str| text.chars().filter(|c| !c.is_whitespace()).collect::<String>();
        if squeezed(found) == squeezed(text) { Ok(()) } else { Err(format!("it reads “{found}”")) }
    });
}

/// Waits until an answer reads otherwise than `before`; gives what it reads now.
#[track_caller]
pub fn wait_other(browser: &Browser, symbol: &str, before: &str) -> String {
    browser.until(&format!("{symbol} to change from {before}"), || {
        let now = answer(browser, symbol);
        if now == before { Err("it has not".into()) } else { Ok(now) }
    })
}

/// The number at the beginning of an answer.
pub fn number(text: &str) -> f64 {
    let text: String = text.replace('−', "-").chars().filter(|c| !c.is_whitespace()).collect();
    let end = text.find(|c: char| !(c.is_ascii_digit() || ".-".contains(c))).unwrap_or(text.len());
    text[..end].parse().unwrap_or_else(|_| panic!("“{text}” should begin with a number"))
}

/// Waits until what is open is said to be saved.
#[track_caller]
pub fn wait_saved(browser: &Browser) {
    browser.wait_holds(".bar small", "Saved in this browser on this device, ");
}

/// Makes an empty plan from home and gives its id; the line page is open.
#[track_caller]
pub fn new_plan(browser: &Browser) -> String {
    let is_first = browser.count(".welcome") > 0;
    browser.click_named(if is_first { "New, empty plan" } else { "New plan" });
    browser.wait("main.line");
    plan_id(browser)
}

/// Opens one of the example plans as a copy of its own, by how its name begins; gives its id.
#[track_caller]
pub fn open_example(browser: &Browser, name: &str) -> String {
    let script = "const it = [...document.querySelectorAll('[aria-labelledby=examples-title] button.card')] \
        .find(it => it.innerText.trim().startsWith(arguments[0])); it?.click(); return !!it";
    browser.until(&format!("the example {name}"), || {
        if browser.script(script, json!([name]))? == true { Ok(()) } else { Err("it is not there".into()) }
    });
    browser.wait("main.line");
    plan_id(browser)
}

/// The plan in the address.
#[track_caller]
pub fn plan_id(browser: &Browser) -> String {
    let place = browser.place();
    let parts: Vec<_> = place.trim_start_matches("#/").split('/').collect();
    assert_eq!(parts[0], "plan", "{place} should be within a plan");
    parts[1].to_string()
}

/// Waits until the sheet of a calculator is open, and gives its address.
#[track_caller]
pub fn wait_sheet(browser: &Browser, calculator: &str) -> String {
    browser.until(&format!("the sheet {calculator}"), || {
        let place = browser.place();
        if place.ends_with(&format!("/{calculator}")) { Ok(()) } else { Err(format!("{place} is open")) }
    });
    browser.wait("main.sheet h1");
    browser.place()
}

/// Goes to a sheet or the line by its link in the rail: its words, below the name of its place if a place of its
/// sort may have several. A place that is folded is unfolded first.
#[track_caller]
pub fn rail(browser: &Browser, place: &str, sheet: &str) {
    let script = "for (const place of document.querySelectorAll('nav.places .place')) { \
            const name = place.querySelector('.called')?.innerText.trim() ?? ''; \
            if (name !== arguments[0]) continue; \
            place.querySelector('.fold[aria-expanded=false]')?.click(); \
            for (const link of place.querySelectorAll('a')) \
                if (link.querySelector('span').innerText.trim() === arguments[1]) { link.click(); return true; } \
        } return false";
    browser.until(&format!("“{sheet}” of “{place}” in the rail"), || {
        let found = browser.script(script, json!([place, sheet]))?;
        if found == true { Ok(()) } else { Err("it is not there".into()) }
    });
}

/// Adds a bath of acid copper in the open plan: 200 L with 40 g/L of copper as metal and 180 g/L of acid.
#[track_caller]
pub fn add_copper_bath(browser: &Browser) {
    browser.click_named(if browser.count("main .first") > 0 { "Add a bath" } else { "+ Add a bath" });
    wait_sheet(browser, "make-up");
    browser.retype("#f-V_t", "200");
    browser.choose("#f-class", "acid");
    browser.click_named("Copper sulfate");
    browser.wait("#f-ingredients-Copper-sulfate-formula");
    browser.retype("#f-ingredients-Copper-sulfate-formula", "CuSO4·5H2O");
    browser.retype("#f-ingredients-Copper-sulfate-c_m", "40");
    browser.click_named("Sulfuric acid");
    browser.choose("#f-ingredients-Sulfuric-acid-supply", "solution by mass %");
    browser.choose("#f-ingredients-Sulfuric-acid-wanted", "the substance itself");
    browser.retype("#f-ingredients-Sulfuric-acid-c_s", "180");
    browser.retype("#f-ingredients-Sulfuric-acid-w", "96");
}

/// Adds a sheet to the place that is open, by “+ Sheet” in the rail; its words.
#[track_caller]
pub fn add_sheet(browser: &Browser, sheet: &str) {
    browser.click("nav.places .place.here .add-sheet");
    let script = "for (const it of document.querySelectorAll('nav.places .place.here .add-sheet-list .flyout-list button')) \
            if (it.querySelector('b').innerText.trim() === arguments[0]) { it.click(); return true; } \
        return false";
    browser.until(&format!("“{sheet}” to be added"), || {
        let found = browser.script(script, json!([sheet]))?;
        if found == true { Ok(()) } else { Err("it is not offered".into()) }
    });
}

/// Types what only the plant knows into the open sheet of heating, but for the volume.
#[track_caller]
pub fn type_heating(browser: &Browser) {
    for (field, text) in [("T", "45"), ("L", "20"), ("T_s", "65"), ("UA", "350"), ("q", "8")] {
        browser.retype(&format!("#f-{field}"), text);
    }
}

/// Opens the quick sum of heating and types 250 L and the rest of it.
#[track_caller]
pub fn quick_heating(browser: &Browser) {
    browser.goto("#/quick/heat-up");
    wait_sheet(browser, "heat-up");
    browser.retype("#f-V", "250");
    type_heating(browser);
    browser.wait(&of("t_up"));
}

/// Gives the open place another name.
#[track_caller]
pub fn call_it(browser: &Browser, name: &str) {
    browser.retype("#place-name", name);
    browser.press("Tab");
    browser.until("the name to be taken", || {
        let listed = browser.script(
            "return [...document.querySelectorAll('nav.places .place')].some(it => it.innerText.includes(arguments[0]))",
            json!([name]),
        )?;
        if listed == true { Ok(()) } else { Err("the rail does not list it".into()) }
    });
}

/// A whole small line: the copper bath, its rinse and its dump, two routes and a drain. The addresses of the
/// sheets are by place: bath 1, rinse 2, dilute route 3, dump 4, concentrate route 5, drain 6.
#[track_caller]
pub fn whole_line(browser: &Browser) -> String {
    let plan = new_plan(browser);
    add_copper_bath(browser);
    rail(browser, "Bath", "Heat-up and holding");
    wait_sheet(browser, "heat-up");
    type_heating(browser);
    browser.click_named("+ Add a stream");
    wait_sheet(browser, "stream");
    call_it(browser, "Rinse");
    browser.choose("#comes-from", "Bath");
    for (field, text) in [("N", "100"), ("d_w", "5"), ("v_w", "2")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    browser.choose("#leads-to", "a new route");
    browser.click_named("+ Add a stream");
    browser.wait_value("#place-name", "Stream");
    call_it(browser, "Dump");
    browser.choose("#f-kind", "bath dump");
    browser.choose("#comes-from", "Bath");
    browser.retype("#f-t_d", "180");
    browser.choose("#leads-to", "a new route");
    browser.until("the second route", || {
        let chosen = browser
            .script("return document.querySelector('#leads-to').selectedOptions[0]?.text", json!([]))?;
        if chosen == "Route 2" { Ok(()) } else { Err(format!("{chosen} is chosen")) }
    });
    browser.click("#leads-to ~ a");
    wait_sheet(browser, "route");
    // The route was made for the dump, and so is of the kind that suits it.
    browser.until("the kind of the new route", || {
        let chosen =
            browser.script("return document.querySelector('#f-kind').selectedOptions[0]?.text", json!([]))?;
        if chosen == "concentrate for recovery" { Ok(()) } else { Err(format!("{chosen} is chosen")) }
    });
    call_it(browser, "Concentrate");
    browser.click_named("+ Add a drain");
    wait_sheet(browser, "drain");
    browser.choose("#comes-from", "Bath");
    for (field, text) in [("l", "12"), ("h_av", "450"), ("D", "50"), ("A", "0.5"), ("d_v", "25")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    rail(browser, "", "Route");
    wait_sheet(browser, "route");
    browser.choose("#f-kind", "dilute metal");
    call_it(browser, "Dilute");
    browser.choose("#leads-to", "Drain");
    wait_saved(browser);
    plan
}

/// The link on the page “Share the plan”, once it is made.
#[track_caller]
pub fn link_shown(browser: &Browser) -> String {
    browser.until("the link", || {
        let link = browser.value(".whole-link textarea");
        if link.contains("#/link/2.") { Ok(link) } else { Err(link) }
    })
}
