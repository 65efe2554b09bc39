//! Plans are kept: through reload, other tabs, a killed browser; and come back from the bin.

use crate::harness::Browser;
use crate::steps::*;
use serde_json::Value;

/// The record of a plan in the database, as it stands on the disk.
fn in_database(browser: &Browser, plan: &str) -> Value {
    let raw = browser.eval_promise(&format!(
        "new Promise((done, fail) => {{ const open = indexedDB.open('bathbook'); open.onerror = fail; \
         open.onsuccess = () => {{ const get = open.result.transaction('plans').objectStore('plans').get('{plan}'); \
         get.onerror = fail; get.onsuccess = () => {{ open.result.close(); done(get.result) }} }} }})"
    ));
    read(raw)
}

/// The second copy, in local storage.
fn in_local_storage(browser: &Browser, plan: &str) -> Value {
    read(browser.eval(&format!("localStorage.getItem('bathbook/plan/{plan}')")))
}

fn read(raw: Value) -> Value {
    match raw {
        Value::String(text) => serde_json::from_str(&text).expect("a record is JSON"),
        other => other,
    }
}

#[test]
fn a_reload_and_another_tab_find_everything() {
    let browser = open();
    let plan = whole_line(&browser);
    let bath = format!("#/plan/{plan}/1/make-up");
    browser.goto(&bath);
    let water = answer(&browser, "m_w");
    browser.reload();
    browser.wait_value("#f-V_t", "200");
    browser.wait_value("#f-ingredients-Copper-sulfate-formula", "CuSO4·5H2O");
    wait_answer(&browser, "m_w", &water);
    wait_saved(&browser);

    browser.open_tab(&format!("#/plan/{plan}/5/route"));
    browser.wait_value("#place-name", "Concentrate");
    browser.open_tab("");
    browser.wait_holds("main", "1 bath, 2 streams");
    browser.assert_quiet();
}

#[test]
fn an_edit_in_one_tab_is_seen_in_the_other() {
    let browser = open();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    let bath = format!("#/plan/{plan}/1/make-up");
    let second = browser.open_tab(&bath);
    browser.wait_value("#f-V_t", "200");
    browser.retype("#f-V_t", "250");
    browser.press("Tab");
    wait_saved(&browser);
    browser.turn_to_tab(0);
    browser.wait_value("#f-V_t", "250");
    wait_answer(&browser, "V", "250 L");
    // And the other way round.
    browser.retype("#f-V_c", "10");
    browser.press("Tab");
    wait_saved(&browser);
    browser.turn_to_tab(second);
    browser.wait_value("#f-V_c", "10");
    wait_answer(&browser, "V", "260 L");
    browser.assert_quiet();
}

#[test]
fn saved_is_said_with_the_time_and_both_stores_hold_the_same_plan() {
    let browser = open();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    browser.retype("#f-V_t", "234");
    wait_saved(&browser);
    let status = browser.text(".bar small");
    let time = status.split("device, today ").nth(1).unwrap_or_default().get(..5).unwrap_or_default();
    assert!(time.len() == 5 && time.as_bytes()[2] == b':', "a time of the day stands in “{status}”");
    assert!(status.contains("no file yet"), "{status}");

    let (first, second) = browser.until("both stores to hold the last edit", || {
        let (first, second) = (in_database(&browser, &plan), in_local_storage(&browser, &plan));
        let holds = |record: &Value| record["text"].as_str().is_some_and(|text| text.contains("234"));
        if holds(&first) && holds(&second) {
            Ok((first, second))
        } else {
            Err(format!("{first} and {second}"))
        }
    });
    for part in ["id", "name", "text", "digest", "counter"] {
        assert_eq!(first[part], second[part], "{part}");
    }
    browser.assert_quiet();
}

#[test]
fn what_was_said_to_be_saved_survives_a_killed_browser() {
    let mut browser = Browser::open_to_be_killed();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    let bath = format!("#/plan/{plan}/1/make-up");
    wait_saved(&browser);
    for volume in [301, 302, 303] {
        browser.goto(&bath);
        wait_sheet(&browser, "make-up");
        let text = format!("{volume} L");
        browser.retype("#f-V_t", &text);
        browser.until("the volume to be said to be saved", || {
            let status = browser.text(".bar small");
            // In the same turn: status first, then whether anything still waits.
            if status.starts_with("Saved") { Ok(()) } else { Err(status) }
        });
        // Mid-edit: the next field is being typed in.
        browser.type_into("#f-V_c", "7");
        browser.kill_and_restart();
        browser.goto(&bath);
        wait_sheet(&browser, "make-up");
        browser.wait_value("#f-V_t", &volume.to_string());
        browser.wait_value("#f-ingredients-Copper-sulfate-formula", "CuSO4·5H2O");
    }
}

#[test]
fn a_deleted_plan_is_put_back_and_a_copy_is_a_plan_of_its_own() {
    let browser = open();
    let plan = new_plan(&browser);
    browser.retype(".plan-name input", "Night shift");
    browser.wait_text(".bar .title", "Night shift");
    add_copper_bath(&browser);
    wait_saved(&browser);

    browser.click_named("All plans");
    browser.wait("[aria-label='Delete Night shift']");
    browser.click_named("Delete Night shift");
    browser.wait_gone("[aria-label='Delete Night shift']");
    browser.click_named("Put it back");
    browser.wait("[aria-label='Delete Night shift']");

    // Through the bin too, after a reload.
    browser.click_named("Delete Night shift");
    browser.wait_gone("[aria-label='Delete Night shift']");
    browser.until("the bin to be written", || {
        let record = in_database(&browser, &plan);
        if record["binned_at"].is_number() { Ok(()) } else { Err(record.to_string()) }
    });
    browser.reload();
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.wait_holds(".corner", "That plan is not on this device");
    browser.click(".bin:not(.several) summary");
    browser.click_named("Put back Night shift");
    browser.wait("[aria-label='Duplicate Night shift']");

    browser.click_named("Duplicate Night shift");
    browser.wait("[aria-label='Duplicate Night shift, copy']");
    browser.click("[aria-labelledby=plans-title] li:has([aria-label='Delete Night shift, copy']) a");
    browser.wait("main.line table, main.line .map");
    let copy = plan_id(&browser);
    assert_ne!(copy, plan);
    browser.goto(&format!("#/plan/{copy}/1/make-up"));
    browser.retype("#f-V_t", "999");
    wait_saved(&browser);
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.wait_value("#f-V_t", "200");
    browser.assert_quiet();
}

/// A file saved on another device is opened: it stands beside the plans here, and replaces none.
#[test]
fn a_plans_file_is_opened_as_a_plan_of_its_own_and_another_file_changes_nothing() {
    let folder = crate::harness::made("files");
    let (good, bad) = (folder.join("gannet.bathbook.json"), folder.join("letter.json"));
    let plan = bathbook::plan::examples::plan("gannet-point").expect("an example");
    std::fs::write(&good, serde_json::to_string_pretty(&plan).expect("a plan is JSON")).expect("a file");
    std::fs::write(&bad, "{ \"to\": \"whom it may concern\" }").expect("a file");
    let give = |browser: &Browser, path: &std::path::Path| {
        let input = browser.wait("input[type=file]");
        browser.run(input.send_keys(path.to_string_lossy().as_ref())).expect("a file to be picked");
    };

    let browser = open();
    let own = new_plan(&browser);
    wait_saved(&browser);
    browser.click_named("All plans");
    give(&browser, &bad);
    browser.wait_holds(".corner", "“letter.json” was not opened: it is not a plan");
    browser.wait_holds(".corner", "Nothing was changed");
    assert_eq!(browser.count(".card.plan"), 1);

    give(&browser, &good);
    browser.wait_text(".bar .title", &plan.name);
    wait_saved(&browser);
    browser.click_named("All plans");
    browser.until("both plans", || match browser.count(".card.plan") {
        2 => Ok(()),
        n => Err(format!("{n} plans")),
    });
    assert_eq!(browser.count(&format!(".card.plan a[href*='{own}']")), 1);
    browser.assert_quiet();
}
