//! Plans and results as files: saved, opened, dragged, several at once; and what other programs make of them.

use crate::harness::{Browser, made};
use crate::steps::*;
use bathbook::keep::archive;
use bathbook::plan::{Plan, examples};
use calamine::{Data, Reader, Xlsx};
use serde_json::json;
use std::fs;
use std::path::{Path, PathBuf};

/// Picks files as a person does.
fn pick(browser: &Browser, paths: &[&Path]) {
    browser.goto("");
    let input = browser.wait("input[type=file]");
    let names: Vec<_> = paths.iter().map(|path| path.to_string_lossy()).collect();
    browser.run(input.send_keys(names.join("\n"))).expect("files to be picked");
}

/// Drags files onto the page, and lets go of them.
fn drop(browser: &Browser, paths: &[&Path]) {
    let files: Vec<_> = paths.iter().map(|path| path.to_string_lossy()).collect();
    let data = json!({ "items": [], "files": files, "dragOperationsMask": 1 });
    for kind in ["dragEnter", "dragOver", "drop"] {
        browser
            .chromium("Input.dispatchDragEvent", json!({ "type": kind, "x": 400, "y": 300, "data": data }));
        if kind == "dragOver" {
            browser.wait_holds(".drop-zone", "Let go to open it");
        }
    }
}

fn plans(browser: &Browser, wanted: usize) {
    browser.until(&format!("{wanted} plans"), || match browser.count(".card.plan") {
        n if n == wanted => Ok(()),
        n => Err(format!("{n} plans")),
    });
}

fn example(folder: &Path, id: &str) -> (Plan, PathBuf) {
    let (plan, path) = (examples::plan(id).expect("an example"), folder.join(format!("{id}.json")));
    fs::write(&path, serde_json::to_string_pretty(&plan).expect("JSON")).expect("a file");
    (plan, path)
}

#[test]
fn a_plan_is_saved_and_opened_again_on_another_device() {
    let browser = open();
    let plan = whole_line(&browser);
    wait_saved(&browser);
    browser.goto(&format!("#/plan/{plan}/share"));
    let folder = browser.downloads();
    browser.click_named("Save a file");
    let path = browser.downloaded(&folder, "json");
    let opened = archive::open(&fs::read_to_string(&path).expect("a file")).expect("a plan");
    assert_eq!(opened.plans.len(), 1);

    let other = open();
    pick(&other, &[&path]);
    other.wait("main.line");
    wait_saved(&other);
    let plan = plan_id(&other);
    other.goto(&format!("#/plan/{plan}/1/make-up"));
    other.wait_value("#f-V_t", "200");
    // Once more: it is the same, and no second one comes.
    pick(&other, &[&path]);
    other.wait_holds(".corner", "1 plan is here already and stayed as before. Nothing was changed.");
    plans(&other, 1);
    other.assert_quiet();
    browser.assert_quiet();
}

#[test]
fn several_files_are_dragged_onto_the_page_and_told_by_what_they_hold() {
    let folder = made("files");
    let (_, heron) = example(&folder, "heron-mere");
    let (_, alder) = example(&folder, "alder-row");
    let letter = folder.join("dragged-letter.json");
    fs::write(&letter, "{ \"to\": \"whom it may concern\" }").expect("a file");
    let browser = open();
    drop(&browser, &[&heron, &alder, &letter]);
    browser.wait_holds(".corner", "2 plans put beside the others.");
    browser.wait_holds(".corner", "“dragged-letter.json” was not opened: it is not a plan");
    plans(&browser, 2);
    // One alone is shown at once.
    let (gannet, path) = example(&folder, "gannet-point");
    drop(&browser, &[&path]);
    browser.wait_text(".bar .title", &gannet.name);
    browser.assert_quiet();
}

#[test]
fn the_whole_device_goes_into_one_file_and_comes_back() {
    let browser = open();
    let first = new_plan(&browser);
    browser.retype(".plan-name input", "Night shift");
    browser.wait_text(".bar .title", "Night shift");
    add_copper_bath(&browser);
    wait_saved(&browser);
    browser.click_named("All plans");
    new_plan(&browser);
    browser.retype(".plan-name input", "Thrown away");
    browser.wait_text(".bar .title", "Thrown away");
    wait_saved(&browser);
    browser.click_named("All plans");
    browser.click_named("Delete Thrown away");
    browser.wait_gone("[aria-label='Delete Thrown away']");
    let folder = browser.downloads();
    browser.click(".several summary");
    browser.click_named("Save as one file");
    let path = browser.downloaded(&folder, "json");
    let opened = archive::open(&fs::read_to_string(&path).expect("a file")).expect("an archive");
    let mut held: Vec<_> =
        opened.plans.iter().map(|found| (found.plan.name.as_str(), found.in_bin)).collect();
    held.sort();
    assert_eq!(held, [("Night shift", false), ("Thrown away", true)]);

    // The same device has it all; another edit of one comes beside it.
    pick(&browser, &[&path]);
    browser.wait_holds(".corner", "2 plans are here already and stayed as before.");
    browser.goto(&format!("#/plan/{first}/1/make-up"));
    browser.retype("#f-V_t", "260");
    wait_answer(&browser, "V", "260 L");
    wait_saved(&browser);
    pick(&browser, &[&path]);
    browser.wait_holds(
        ".corner",
        "1 plan put beside the others. Another plan here has the name, so it is called “Night shift (other copy)”. 1 plan is here already",
    );
    plans(&browser, 2);
    browser.wait("[aria-label='Delete Night shift (other copy)']");

    let other = open();
    pick(&other, &[&path]);
    other.wait_holds(".corner", "2 plans put beside the others.");
    plans(&other, 1);
    other.click(".bin:not(.several) summary");
    other.click_named("Put back Thrown away");
    plans(&other, 2);
    other.assert_quiet();
    browser.assert_quiet();
}

/// Everything on the device as one file.
fn saved_as_one(browser: &Browser) -> (PathBuf, archive::Opened) {
    browser.goto("");
    let folder = browser.downloads();
    browser.click(".several summary");
    browser.click_named("Save as one file");
    let path = browser.downloaded(&folder, "json");
    let opened = archive::open(&fs::read_to_string(&path).expect("a file")).expect("an archive");
    (path, opened)
}

#[test]
fn devices_that_changed_one_plan_apart_have_both_texts_after_an_archive_went_either_way() {
    let folder = made("files");
    let file = |name: &str, notes: &str| {
        let (mut plan, path) = (Plan::new(name), folder.join(format!("apart-{notes}.json")));
        plan.notes = notes.into();
        fs::write(&path, serde_json::to_string(&plan).expect("JSON")).expect("a file");
        path
    };
    let [same, one, two] = [("Day shift", "same"), ("Night shift", "one"), ("Night shift", "two")]
        .map(|(name, notes)| file(name, notes));
    let held = |opened: &archive::Opened| {
        let mut held: Vec<_> =
            opened.plans.iter().map(|found| (found.plan.name.clone(), found.plan.notes.clone())).collect();
        held.sort();
        held.into_iter().map(|(name, notes)| format!("{name}: {notes}")).collect::<Vec<_>>()
    };
    let [first, second] = [&one, &two].map(|own| {
        let browser = open();
        pick(&browser, &[&same, own]);
        browser.wait_holds(".corner", "2 plans put beside the others.");
        browser
    });
    let (whole, _) = saved_as_one(&first);

    // Cut in the middle, it says so; and a plan that cannot be read does not hold back the others.
    let text = fs::read_to_string(&whole).expect("an archive");
    let cut = folder.join("apart-cut.json");
    fs::write(&cut, &text[..text.len() / 2]).expect("a file");
    pick(&second, &[&cut]);
    second.wait_holds(".corner", "“apart-cut.json” was not opened: its end is missing.");
    second.wait_holds(".corner", "Nothing was changed.");
    let mut value: serde_json::Value = serde_json::from_str(&text).expect("an archive");
    value["plans"]
        .as_array_mut()
        .expect("plans")
        .insert(1, json!({ "name": "Of tomorrow", "plan": { "format": 999 } }));
    let mixed = folder.join("apart-mixed.json");
    fs::write(&mixed, value.to_string()).expect("a file");
    pick(&second, &[&mixed]);
    for said in [
        "1 plan put beside the others. Another plan here has the name, so it is called “Night shift (other copy)”.",
        "1 plan is here already and stayed as before.",
        "“Of tomorrow” was not opened: ",
    ] {
        second.wait_holds(".corner", said);
    }
    let (path, opened) = saved_as_one(&second);
    assert_eq!(held(&opened), ["Day shift: same", "Night shift: two", "Night shift (other copy): one"]);

    // And back: the first device has what it lacked, and no plan twice.
    pick(&first, &[&path]);
    first.wait_holds(".corner", "1 plan put beside the others. Another plan here has the name");
    let (_, opened) = saved_as_one(&first);
    assert_eq!(held(&opened), ["Day shift: same", "Night shift: one", "Night shift (other copy): two"]);
    first.assert_quiet();
    second.assert_quiet();
}

#[test]
fn results_become_a_workbook_and_a_table_without_a_network_too() {
    let browser = open();
    browser.until("the app to be kept on the device", || {
        let kept = browser.eval("document.documentElement.hasAttribute('data-offline')");
        if kept == json!(true) { Ok(()) } else { Err("not yet".into()) }
    });
    let plan = whole_line(&browser);
    wait_saved(&browser);
    browser.goto(&format!("#/plan/{plan}/share"));
    browser.stop_serving();
    let folder = browser.downloads();
    browser.click_named("Save a workbook (XLSX)");
    let path = browser.downloaded(&folder, "xlsx");
    let mut book: Xlsx<_> = calamine::open_workbook(&path).expect("a workbook");
    let names = book.sheet_names();
    assert!(names[0] == "Plan" && names.contains(&"Site".to_string()), "{names:?}");
    let page = book.worksheet_range("Bath").expect("the bath’s page");
    let row = page.rows().find(|row| row[4] == Data::String("V_t".into())).expect("its volume");
    assert_eq!((&row[5], &row[6]), (&Data::Float(200.0), &Data::String("L".into())));
    let water = page.rows().find(|row| row[4] == Data::String("m_w".into())).expect("its water");
    let water = water[5].clone();
    assert!(matches!(water, Data::Float(kg) if kg > 100.0), "{water:?}");

    browser.click_named("Save a table (CSV)");
    let path = browser.downloaded(&folder, "csv");
    let mut table = csv::Reader::from_path(&path).expect("a table");
    let rows: Vec<csv::StringRecord> = table.records().map(|row| row.expect("a row")).collect();
    let row = rows.iter().find(|row| &row[0] == "Bath" && &row[5] == "m_w").expect("its water");
    assert_eq!(Data::Float(row[6].parse().expect("a plain number")), water);
}

#[test]
fn a_chart_is_saved_as_a_picture_and_the_working_is_copied() {
    let browser = open();
    let plan = whole_line(&browser);
    browser.goto(&format!("#/plan/{plan}/1/heat-up"));
    browser.wait(".chart-picture");
    let folder = browser.downloads();
    browser.click_named("Save as SVG");
    let text = fs::read_to_string(browser.downloaded(&folder, "svg")).expect("a picture");
    assert!(text.starts_with("<svg ") && text.contains("class=\"curve\""), "{text}");
    browser.click_named("Save as PNG");
    let bytes = fs::read(browser.downloaded(&folder, "png")).expect("a picture");
    // Source: W3C, PNG, section 5.2: the signature of every file.
    assert_eq!(bytes[..8], [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n']);

    browser.chromium(
        "Browser.grantPermissions",
        json!({ "permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"] }),
    );
    browser.click_named("Copy the working");
    browser.wait_holds(".corner", "Copied.");
    let copied = browser.eval_promise("navigator.clipboard.readText()");
    let copied = copied.as_str().expect("a text");
    assert!(copied.starts_with("Heat-up and holding") && copied.contains("= "), "{copied}");
    browser.assert_quiet();
}

#[test]
fn a_short_link_is_shown_as_a_code_that_holds_it() {
    let browser = open();
    let plan = new_plan(&browser);
    add_copper_bath(&browser);
    wait_saved(&browser);
    browser.goto(&format!("#/plan/{plan}/share"));
    let link = link_shown(&browser);
    browser.click_named("Show it as a code for a camera");
    browser.wait("img.code");
    let alt = browser.attribute("img.code", "alt").unwrap_or_default();
    assert!(alt.starts_with("The link as a code for a camera"), "{alt}");
    let drawn = browser.eval("decodeURIComponent(document.querySelector('img.code').src.split(',')[1])");
    assert_eq!(drawn.as_str(), bathbook_extras::code::svg(&link).as_deref());
    assert_ne!(browser.eval("document.querySelector('img.code').naturalWidth"), json!(0));
    browser.screenshot_everywhere("share");
    browser.assert_quiet();
}
