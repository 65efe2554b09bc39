//! Storage that can be trusted: what was done outlives a reload, a killed browser, a full or missing store, and
//! whatever is found in it.

use crate::harness::Browser;
use crate::steps::*;
use bathbook::keep::Draft;
use bathbook::keep::record::decode;
use bathbook::plan::foreign::read;
use bathbook::plan::limits::{LONGEST_ENTRY, MOST_ROWS};
use bathbook::plan::{Field, Plan, steps::text_of};
use serde_json::{Value, json};
use std::time::{Duration, Instant};

const RECORD_1: &str = include_str!("../fixtures/record-form-1.json");

/// Runs `work` on the open database, as a promise; `version` is the one to ask for, none for any.
fn in_database(browser: &Browser, version: &str, upgrade: &str, work: &str) -> Value {
    browser.eval_promise(&format!(
        "new Promise((done, fail) => {{ const open = indexedDB.open('bathbook'{version}); open.onerror = () => fail(open.error); \
         open.onupgradeneeded = () => {{ const db = open.result; {upgrade} }}; \
         open.onsuccess = () => {{ const db = open.result; const close = value => {{ db.close(); done(value) }}; {work} }} }})"
    ))
}

/// All that a store of the database holds, as the raw texts.
pub fn all_in(browser: &Browser, store: &str) -> Vec<String> {
    let all = in_database(
        browser,
        "",
        "",
        &format!(
            "const get = db.transaction('{store}').objectStore('{store}').getAll(); get.onsuccess = () => close(get.result)"
        ),
    );
    all.as_array().into_iter().flatten().filter_map(|raw| raw.as_str().map(String::from)).collect()
}

fn put(browser: &Browser, key: &str, value: &str) {
    put_in(browser, "plans", key, value);
}

fn put_in(browser: &Browser, store: &str, key: &str, value: &str) {
    let (key, value) = (json!(key), json!(value));
    in_database(
        browser,
        "",
        "",
        &format!(
            "const t = db.transaction('{store}', 'readwrite'); t.objectStore('{store}').put({value}, {key}); t.oncomplete = () => close(1)"
        ),
    );
}

/// A page of the site's own address on which the program does not run.
fn beside(browser: &Browser) {
    let picture = browser.address() + "icon-192.png";
    browser.run(browser.session().goto(picture.as_str())).expect("a picture of the site");
}

#[test]
fn undo_and_redo_go_on_after_a_reload() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    for volume in ["210", "220", "230"] {
        browser.retype("#f-V_t", volume);
        browser.press("Tab");
    }
    browser.press("Control+z");
    browser.wait_value("#f-V_t", "220");
    wait_saved(&browser);
    browser.reload();
    browser.wait_value("#f-V_t", "220");
    browser.click_named("Redo");
    wait_answer(&browser, "V", "230 L");
    for volume in ["220", "210", "200"] {
        browser.click_named("Undo");
        browser.wait_value("#f-V_t", volume);
    }
    // To the very beginning: the place itself.
    while browser.count("main.sheet") > 0 && browser.attribute("[aria-label=Undo]", "disabled").is_none() {
        browser.press("Control+z");
    }
    browser.until("the bath to be gone", || match browser.count("nav.places .place") {
        1 => Ok(()),
        n => Err(format!("{n} places")),
    });
    browser.assert_quiet();
}

#[test]
fn an_earlier_version_comes_back_and_opens_as_a_copy() {
    let browser = open();
    // A clock that the test can put forward.
    browser
        .before_each_page("window.later = 0; const now = Date.now; Date.now = () => now() + window.later;");
    browser.reload();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    for (minutes, volume) in [(5, "300"), (10, "400")] {
        browser.eval(&format!("window.later = {minutes} * 60000"));
        browser.retype("#f-V_t", volume);
        browser.press("Tab");
        wait_answer(&browser, "V", &format!("{volume} L"));
        wait_saved(&browser);
    }
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.click_named("Earlier versions");
    browser.wait_holds("main h1", "Earlier versions of");
    browser.wait_holds("main li:first-child", "2 places");
    browser.wait_holds("main li:first-child", "differs at Bath (Make-up)");
    browser.screenshot_everywhere("earlier");
    browser.click("main li:first-child button:nth-of-type(2)");
    browser.until("a plan of its own", || {
        let place = browser.place();
        if place.ends_with("/line") && !place.contains(&plan) { Ok(()) } else { Err(place) }
    });
    let copy = plan_id(&browser);
    browser.goto(&format!("#/plan/{copy}/1/make-up"));
    browser.wait_value("#f-V_t", "300");

    browser.goto(&format!("#/plan/{plan}/earlier"));
    browser.click("main li:nth-child(2) button:nth-of-type(1)");
    browser.wait_holds(".corner", "Undo takes that back");
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.wait_value("#f-V_t", "200");
    browser.press("Control+z");
    browser.wait_value("#f-V_t", "400");
    browser.assert_quiet();
}

#[test]
fn an_earlier_version_that_cannot_be_read_is_listed_and_saved_out_as_it_is() {
    let browser = open();
    let plan = new_plan(&browser);
    wait_saved(&browser);
    put_in(&browser, "earlier", &format!("{plan} 001700000000000"), "{\"text\":\"all my work");
    browser.goto(&format!("#/plan/{plan}/earlier"));
    browser.wait_holds("main li", "Not readable: It can't be read. Kept as found.");
    browser.click("main li button");
    browser.wait_holds(".corner", "Handed to the browser as Version of");
    browser.assert_quiet();
}

#[test]
fn a_second_copy_of_a_newer_version_is_set_aside_untouched_before_this_one_writes_there() {
    let browser = open();
    let plan = new_plan(&browser);
    wait_saved(&browser);
    let newer = json!({ "format": 2, "id": plan, "pieces": ["all my work"] }).to_string();
    browser.eval(&format!("localStorage['bathbook/plan/{plan}'] = {}", json!(newer)));
    browser.retype(".plan-name input", "Typed in an old tab");
    wait_saved(&browser);
    let kept = browser.eval(
        "Object.keys(localStorage).filter(key => key.startsWith('bathbook/aside/')).map(key => JSON.parse(localStorage[key]).raw)",
    );
    assert_eq!(kept, json!([newer]));
    let now = browser.eval(&format!("localStorage['bathbook/plan/{plan}']"));
    assert!(now.as_str().is_some_and(|raw| raw.contains("Typed in an old tab")), "{now}");
    browser.goto("#/");
    browser.reload();
    browser.wait_holds(".aside", "Not readable: 1 record");
    browser.wait_holds(".aside", "It was kept by a newer version of Bathbook.");
    browser.assert_quiet();
}

#[test]
fn a_row_too_many_and_a_text_too_long_are_refused_in_words_and_the_plan_opens_again() {
    let browser = open();
    let mut full = Plan::new("Full");
    let bath = full.add(bathbook::calculator::Subject::Bath, "Bath");
    for _ in 0..MOST_ROWS {
        full.add_row(bath, "make-up", "ingredients", "Salt");
    }
    let record = Draft { id: "full".into(), name: "Full".into(), text: text_of(&full), binned_at: None };
    put(&browser, "full", &record.record(1, 1.7e12).encode());
    browser.reload();
    browser.goto(&format!("#/plan/full/{bath}/make-up"));
    browser.click("section[aria-label=\"Ingredients\"] .add.no-print > button");
    browser.wait_holds(".corner", "A table holds up to 200 rows. Nothing was added.");
    // As pasted.
    let long = LONGEST_ENTRY + 1;
    browser.focus("#f-V_t");
    browser.eval(&format!(
        "(field => {{ field.value = '9'.repeat({long}); field.dispatchEvent(new Event('input', {{ bubbles: true }})) }})(document.activeElement)"
    ));
    browser.wait_holds(".corner", "A field holds up to 400 characters: what was typed last is not kept.");
    browser.press("Tab");
    browser.retype("#f-V_t", "55");
    wait_saved(&browser);
    browser.reload();
    browser.wait_value("#f-V_t", "55");
    browser.assert_quiet();
}

#[test]
fn with_a_full_store_the_app_goes_on_says_so_and_saves_once_there_is_room() {
    let browser = open();
    browser.before_each_page(
        "const put = IDBObjectStore.prototype.put; IDBObjectStore.prototype.put = function (...it) { \
         if (window.full) throw new DOMException('No room.', 'QuotaExceededError'); return put.apply(this, it) }",
    );
    browser.reload();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    browser.eval("window.full = true");
    browser.retype("#f-V_t", "310");
    browser.wait_holds(".bar small", "Not saved. The browser has no room left. Save a file");
    browser.wait_holds(".viewed", "held in this window");
    wait_answer(&browser, "V", "310 L");
    browser.screenshot_everywhere("store-full");
    browser.click_named("Save it as a file");
    browser.wait_holds(".corner", "Handed to the browser as");
    assert!(!all_in(&browser, "plans")[0].contains("310"), "nothing of it is in the database");
    browser.eval("window.full = false");
    browser.click_named("Try again");
    wait_saved(&browser);
    browser.wait_gone(".viewed");
    let stored = all_in(&browser, "plans").remove(0);
    assert_eq!(decode(&plan, &stored).map(|record| record.text.contains("310 L")), Ok(true));
    browser.assert_quiet();
}

#[test]
fn a_store_that_was_emptied_is_filled_again_from_the_window() {
    let browser = open();
    new_plan(&browser);
    browser.retype(".plan-name input", "Day shift");
    wait_saved(&browser);
    browser.click_named("All plans");
    new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    let gone = browser.eval_promise(
        "new Promise(done => { localStorage.clear(); const gone = indexedDB.deleteDatabase('bathbook'); \
         gone.onsuccess = () => done('gone'); gone.onblocked = () => done('blocked') })",
    );
    assert_eq!(gone, "gone");
    browser.retype("#f-V_t", "330");
    browser.wait_holds(".corner", "What this browser kept here was cleared meanwhile");
    wait_saved(&browser);
    browser.until("both plans to be stored again", || {
        let stored = all_in(&browser, "plans");
        let all =
            stored.iter().any(|it| it.contains("Day shift")) && stored.iter().any(|it| it.contains("330 L"));
        if all { Ok(()) } else { Err(format!("{} are", stored.len())) }
    });
    browser.reload();
    browser.wait_value("#f-V_t", "330");
    browser.click_named("All plans");
    browser.until("both plans", || match browser.count(".card.plan") {
        2 => Ok(()),
        n => Err(format!("{n} plans")),
    });
    browser.assert_quiet();
}

#[test]
fn what_cannot_be_read_is_listed_saved_out_and_removed_when_asked_twice() {
    let browser = open();
    new_plan(&browser);
    wait_saved(&browser);
    let newer = text_of(&Plan::new("Line of tomorrow")).replacen("\"format\":1", "\"format\":9", 1);
    let newer =
        Draft { id: "tomorrow".into(), name: "Line of tomorrow".into(), text: newer, binned_at: None };
    let newer = newer.record(1, 1.7e12).encode();
    put(&browser, "damaged", "{\"id\":\"damaged\",\"text\":\"all my work");
    put(&browser, "tomorrow", &newer);
    browser.goto("#/");
    browser.reload();
    browser.wait_holds(".notes", "A plan could not be read. What was found is set aside");
    browser.wait_holds(".aside", "Not readable: 2 records");
    browser.wait_holds(".aside", "It can't be read.");
    browser.wait_holds(".aside", "It was made by a newer version of Bathbook.");
    browser.screenshot_everywhere("aside");
    // Opening it says why not, and leads to the list.
    browser.eval("location.hash = '#/plan/tomorrow/line'");
    browser.wait_holds(".corner", "That plan cannot be opened here");
    browser.click_named("Save Line of tomorrow as a file");
    browser.wait_holds(".corner", "Handed to the browser as Line of tomorrow");
    browser.click_named("Save Record damaged as a file");
    browser.wait_holds(".corner", "Handed to the browser as damaged");
    browser.click_named("Remove Record damaged");
    browser.click_named("No, keep it");
    browser.click_named("Remove Record damaged");
    browser.click_named("Yes, remove it");
    browser.wait_holds(".aside", "Not readable: 1 record");
    assert!(all_in(&browser, "aside").is_empty());
    assert!(all_in(&browser, "plans").contains(&newer), "untouched, for a newer version to open");
    browser.assert_quiet();
}

#[test]
fn a_plan_is_removed_from_the_bin_for_good_with_all_that_was_kept_of_it() {
    let browser = open();
    new_plan(&browser);
    browser.retype(".plan-name input", "Trial");
    wait_saved(&browser);
    browser.click_named("All plans");
    browser.click_named("Delete Trial");
    browser.click(".bin:not(.several) summary");
    browser.click_named("Remove Trial for good");
    browser.wait_holds(".bin:not(.several)", "nobody can bring it back");
    browser.click_named("Yes, remove it");
    browser.wait_gone(".bin:not(.several)");
    for store in ["plans", "steps", "earlier"] {
        assert!(all_in(&browser, store).is_empty(), "{store}");
    }
    browser.assert_quiet();
}

#[test]
fn a_database_of_the_first_version_opens_and_a_newer_one_is_left_alone() {
    let browser = Browser::blank();
    browser.set_language("en-GB");
    beside(&browser);
    let record = json!(RECORD_1.trim_end());
    in_database(
        &browser,
        ", 1",
        "db.createObjectStore('plans'); db.createObjectStore('aside')",
        &format!(
            "const t = db.transaction('plans', 'readwrite'); t.objectStore('plans').put({record}, 'alder0row0plan01'); t.oncomplete = () => close(1)"
        ),
    );
    browser.goto("");
    browser.wait_holds(".card.plan", "Alder Row pilot line");
    browser.click(".card.plan a");
    browser.wait("main.line");
    browser.retype(".plan-name input", "Alder Row, second year");
    wait_saved(&browser);
    browser.reload();
    browser.press("Control+z");
    browser.wait_text(".bar .title", "Alder Row pilot line (invented)");
    wait_saved(&browser);

    beside(&browser);
    in_database(&browser, ", 9", "", "close(1)");
    browser.goto("");
    browser.wait_holds(".notes", "A newer version of Bathbook keeps its plans here. Reload the page");
    // The second copy is there to work with.
    browser.click(".card.plan a");
    browser.wait_holds(".bar small", "Not saved. A newer version");
    browser.wait_holds(".viewed", "held in this window");
}

#[test]
fn the_browser_is_asked_to_keep_plans_once_there_is_work_worth_it() {
    let browser = Browser::blank();
    browser.set_language("en-GB");
    browser.before_each_page(
        "window.asked = 0; StorageManager.prototype.persisted = async () => false; \
         StorageManager.prototype.persist = async () => { window.asked += 1; return true }",
    );
    browser.goto("");
    new_plan(&browser);
    wait_saved(&browser);
    assert_eq!(browser.eval("window.asked"), 0, "not for a plan just begun");
    browser.click_named("Save a file");
    browser.until("the browser to be asked", || match browser.eval("window.asked").as_u64() {
        Some(1) => Ok(()),
        other => Err(format!("{other:?}")),
    });
    browser.eval("location.hash = '#/about'");
    browser.wait_holds("main", "This browser has agreed not to remove plans by itself");
    browser.assert_quiet();
}

#[test]
fn twenty_edits_from_two_tabs_all_arrive_and_two_at_once_are_both_kept() {
    let browser = open();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    let second = browser.open_tab(&format!("#/plan/{plan}/1/make-up"));
    for k in 1..=10 {
        let (volume, margin) = (200 + k, k);
        browser.turn_to_tab(0);
        browser.wait_value("#f-V_c", &(margin - 1).to_string());
        browser.retype("#f-V_t", &volume.to_string());
        browser.press("Tab");
        wait_saved(&browser);
        browser.turn_to_tab(second);
        browser.wait_value("#f-V_t", &volume.to_string());
        browser.retype("#f-V_c", &margin.to_string());
        browser.press("Tab");
        wait_saved(&browser);
    }
    browser.turn_to_tab(0);
    browser.wait_value("#f-V_c", "10");
    wait_answer(&browser, "V", "220 L");
    // Both at once: neither has seen what the other types.
    let now = |css: &str, text: &str| {
        let script = "const field = document.querySelector(arguments[0]); \
            Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, arguments[1]); \
            field.dispatchEvent(new InputEvent('input', { bubbles: true }))";
        browser.script(script, json!([css, text])).expect("typed");
    };
    now("#f-V_t", "777");
    browser.turn_to_tab(second);
    now("#f-V_c", "55");
    browser.until("both to be stored", || {
        let stored = all_in(&browser, "plans").join("\n");
        if stored.contains("777 L") && stored.contains("55 L") { Ok(()) } else { Err(stored) }
    });
}

/// Which volume of the bath a stored record holds; none if there is no record. A damaged one fails the test.
fn volume_in(raw: &Value, plan: &str) -> Option<u64> {
    let record = decode(plan, raw.as_str()?).unwrap_or_else(|why| panic!("{why}: {raw}"));
    let plan = read(&record.text).expect("a plan that opens");
    let entry = plan.entry(&Field::single(1, "make-up", "V_t"))?;
    entry.text.split(' ').next()?.parse().ok()
}

/// Kills the browser so many times while somebody types, and counts what each store had.
fn killed_while_typing(times: u64) {
    let mut browser = Browser::open_to_be_killed();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    let bath = format!("#/plan/{plan}/1/make-up");
    let (mut next, mut unsaved, mut behind, mut behind_by) = (1000, 0, 0, 0);
    for round in 0..times {
        browser.goto(&bath);
        browser.wait("#f-V_t");
        // Bursts of typing with rests between them; what was last said to be saved is noted in the same turn.
        browser
            .script(
                "const field = document.querySelector('#f-V_t'), said = document.querySelector('.bar small'); \
                 const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set; \
                 window.typed = arguments[0]; window.kept = 0; let turn = arguments[1]; \
                 new MutationObserver(() => { if (said.textContent.startsWith('Saved')) window.kept = window.typed }) \
                     .observe(said, { childList: true, characterData: true, subtree: true }); \
                 const type = () => { window.typed += 1; set.call(field, String(window.typed)); \
                     field.dispatchEvent(new InputEvent('input', { bubbles: true })); \
                     turn = (turn * 16807) % 2147483647; setTimeout(type, turn % 4 ? 20 + turn % 70 : 350 + turn % 400) }; type()",
                json!([next, round * 7919 + 17]),
            )
            .expect("somebody who types");
        let until = Instant::now() + Duration::from_millis(300 + (round * 389) % 1500);
        let (mut kept, mut typed) = (0, next);
        while kept == 0 || Instant::now() < until {
            let told = browser.eval("[window.kept, window.typed]");
            (kept, typed) = (told[0].as_u64().unwrap_or(0), told[1].as_u64().unwrap_or(0));
        }
        browser.kill_and_restart_beside();
        let durable = in_database(
            &browser,
            "",
            "",
            &format!(
                "const get = db.transaction('plans').objectStore('plans').get('{plan}'); get.onsuccess = () => close(get.result)"
            ),
        );
        let durable = volume_in(&durable, &plan).expect("a plan in the database");
        let quick = volume_in(&browser.eval(&format!("localStorage.getItem('bathbook/plan/{plan}')")), &plan);
        assert!(durable >= kept, "round {round}: {kept} was said to be saved, the database has {durable}");
        if quick.is_none_or(|quick| quick < kept) {
            behind += 1;
            behind_by += kept - quick.unwrap_or(0).max(next.min(kept));
        }
        unsaved += u64::from(durable.max(quick.unwrap_or(0)) < typed);
        browser.goto(&bath);
        browser.wait_value("#f-V_t", &durable.max(quick.unwrap_or(0)).to_string());
        // Undo stands for what the database has, and does not harm the rest.
        browser.wait_value("#f-ingredients-Copper-sulfate-formula", "CuSO4·5H2O");
        next = typed + 10;
    }
    println!(
        "{times} kills while typing: database 0 lost of what was said to be saved, 0 plans damaged; second copy \
         behind in {behind} (by {behind_by} keys in all), 0 damaged; something not yet saved was lost in {unsaved}"
    );
}

#[test]
fn a_browser_killed_five_times_while_somebody_types_loses_nothing_that_was_saved() {
    killed_while_typing(5);
}

#[test]
#[ignore = "minutes: cargo test --features browser-tests --test browser -- --ignored fifty --nocapture"]
fn a_browser_killed_fifty_times_while_somebody_types_loses_nothing_that_was_saved() {
    killed_while_typing(50);
}
