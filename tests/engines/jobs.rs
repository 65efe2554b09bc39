//! The jobs, as a user does them.

use crate::harness::{Browser, Engine, made};
use crate::steps::*;
use serde_json::json;
use std::path::PathBuf;
use std::process::Command;
use thirtyfour::By;

/// A new plan in metric units, whatever language the browser speaks; gives its id.
#[track_caller]
fn metric_plan(browser: &Browser) -> String {
    let plan = new_plan(browser);
    browser.goto(&format!("#/plan/{plan}/0/site"));
    browser.choose("#f-units", "metric");
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.wait("main.line");
    plan
}

/// A plan with the copper bath, said to be saved; gives its id.
#[track_caller]
fn copper_plan(browser: &Browser) -> String {
    let plan = metric_plan(browser);
    add_copper_bath(browser);
    wait_answer(browser, "V", "200 L");
    wait_saved(browser);
    plan
}

/// All that was asked for lies below the page's own folder.
#[track_caller]
fn assert_asks_nobody_else(browser: &Browser) {
    let asked = browser.eval("performance.getEntriesByType('resource').map((it) => it.name)");
    let asked: Vec<String> = serde_json::from_value(asked).expect("a list of addresses");
    let own = |url: &String| {
        url.starts_with(&browser.address()) || url.starts_with("data:") || url.starts_with("blob:")
    };
    let outside: Vec<_> = asked.iter().filter(|url| !own(url)).collect();
    assert!(outside.is_empty(), "asked of others: {outside:?}");
}

/// Days until the drum is full and copper in it: `tests/three_plants.rs`, worked out apart from the project.
pub fn an_example_opens_and_answers(engine: Engine) {
    let browser = Browser::open_in(engine);
    open_example(&browser, "Alder Row");
    rail(&browser, "Concentrate", "Collection");
    wait_sheet(&browser, "collection");
    wait_answer(&browser, "t_d", "55.5 days");
    wait_answer(&browser, "m_T", "0.571 kg of metal");
    assert_asks_nobody_else(&browser);
}

/// 40 g/L of copper in 200 L are 31.4336 kg of pentahydrate (molmass), 180 g/L of acid 37.5 kg of 96 %.
pub fn a_bath_is_made_up_changed_and_taken_back(engine: Engine) {
    let browser = Browser::open_in(engine);
    copper_plan(&browser);
    wait_answer(&browser, "m[Copper sulfate]", "31.4 kg");
    wait_answer(&browser, "m[Sulfuric acid]", "37.5 kg");
    browser.press("Tab");
    browser.retype("#f-V_t", "400");
    browser.press("Tab");
    wait_answer(&browser, "m[Copper sulfate]", "62.9 kg");
    browser.click_named("Undo");
    wait_answer(&browser, "m[Copper sulfate]", "31.4 kg");
    browser.click_named("Redo");
    wait_answer(&browser, "m[Copper sulfate]", "62.9 kg");
    browser.press("Control+z");
    wait_answer(&browser, "V", "200 L");
    browser.press("Control+Shift+z");
    wait_answer(&browser, "V", "400 L");
    // A link of the sheet that follows takes the volume along.
    rail(&browser, "Bath", "Heat-up and holding");
    wait_sheet(&browser, "heat-up");
    browser.wait_text("#f-V b", "400 L");
}

pub fn a_saved_plan_is_there_after_a_reload(engine: Engine) {
    let browser = Browser::open_in(engine);
    copper_plan(&browser);
    browser.retype("#f-V_t", "250");
    wait_answer(&browser, "V", "250 L");
    wait_saved(&browser);
    browser.reload();
    browser.wait_value("#f-V_t", "250");
    browser.wait_value("#f-ingredients-Copper-sulfate-formula", "CuSO4·5H2O");
    // 50 L of 40 g/L more: 39.29 kg.
    wait_answer(&browser, "m[Copper sulfate]", "39.3 kg");
    // The first page lists it.
    browser.goto("");
    browser.wait_holds("main", "1 bath");
}

pub fn the_line_is_shown_as_map_and_table(engine: Engine) {
    let browser = Browser::open_in(engine);
    let plan = open_example(&browser, "Alder Row");
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.wait("svg.map a[href$='/1/make-up'] rect");
    browser.wait_holds("main.line table", "Copper bath dump");
    // A touch on the map leads to the place.
    browser.click("svg.map a[href$='/1/make-up'] rect");
    wait_sheet(&browser, "make-up");
}

pub fn the_report_shows_every_sheet(engine: Engine) {
    let browser = Browser::open_in(engine);
    let plan = open_example(&browser, "Alder Row");
    browser.goto(&format!("#/plan/{plan}/report"));
    browser.wait(".report .one");
    // Firefox's driver takes a minute to read so long a page out; a script does not.
    let text = browser.eval("document.querySelector('main').innerText");
    let text = text.as_str().expect("a text");
    for sheet in
        ["Copper bath: Make-up", "Concentrate: Collection", "Dilute drain: Gravity drain and lift station"]
    {
        assert!(text.contains(sheet), "“{sheet}” is in the report");
    }
    assert_eq!(answer(&browser, "check").len(), 9, "the check sum");
}

pub fn the_report_is_printed_as_pdf(engine: Engine) {
    let browser = Browser::open_in(engine);
    let plan = open_example(&browser, "Alder Row");
    browser.goto(&format!("#/plan/{plan}/report"));
    browser.wait(".report .one");
    let sum = answer(&browser, "check");
    let file = made("screens").join(format!("report-{engine:?}.pdf"));
    std::fs::write(&file, browser.printed()).expect("target/screens");
    let read = Command::new("pdftotext").args(["-layout", &file.to_string_lossy(), "-"]).output();
    let text = String::from_utf8_lossy(&read.expect("pdftotext").stdout).into_owned();
    let pages: Vec<_> = text.split('\u{c}').filter(|page| !page.trim().is_empty()).collect();
    assert!(pages.len() > 5, "{} pages", pages.len());
    assert!(text.contains(&sum), "the check sum {sum} is printed");
    for wanted in ["Copper bath: Make-up", "Working", "Sources"] {
        assert!(text.contains(wanted), "“{wanted}” is printed");
    }
    assert!(!text.contains("Print, or save as PDF"), "no button is printed");
}

/// The link to the plan that is open, from its line.
#[track_caller]
fn made_link(browser: &Browser, plan: &str) -> String {
    browser.goto(&format!("#/plan/{plan}/line"));
    browser.click_named("Share the plan");
    let link = browser.until("the link", || {
        let link = browser.value(".whole-link textarea");
        if link.contains("#/link/2.") { Ok(link) } else { Err(link) }
    });
    link.split('#').nth(1).expect("a fragment").to_string()
}

pub fn a_plan_goes_by_link_and_is_kept_as_a_copy(engine: Engine) {
    let browser = Browser::open_in(engine);
    let plan = copper_plan(&browser);
    let fragment = made_link(&browser, &plan);

    let customer = Browser::open_in(engine);
    customer.goto(&format!("#{fragment}"));
    customer.wait_holds(".viewed", "This plan came by link");
    customer.goto("#/plan/link/1/make-up");
    customer.wait_value("#f-V_t", "200");
    assert_eq!(customer.attribute("#f-V_t", "readonly").as_deref(), Some("true"));
    customer.click_named("Keep a copy");
    customer.until("a plan of its own", || {
        let place = customer.place();
        if place.ends_with("/1/make-up") && !place.contains("/link/") { Ok(()) } else { Err(place) }
    });
    wait_saved(&customer);
    let copy = plan_id(&customer);
    customer.goto(&format!("#/plan/{copy}/1/make-up"));
    customer.retype("#f-V_t", "210");
    wait_answer(&customer, "V", "210 L");
    assert_asks_nobody_else(&customer);
}

pub fn a_damaged_link_says_so(engine: Engine) {
    let browser = Browser::open_in(engine);
    let plan = copper_plan(&browser);
    let fragment = made_link(&browser, &plan);
    browser.goto("");
    let plans = browser.count(".card.plan");
    browser.goto(&format!("#{}", &fragment[..fragment.len() - 3]));
    browser.wait_holds(
        ".notes",
        "This link was damaged on its way. 3 of its characters are missing at the end.",
    );
    assert_eq!(browser.count(".card.plan"), plans);
}

/// The file that the browser has saved.
#[track_caller]
fn saved_file(browser: &Browser) -> PathBuf {
    browser.until("the file to be saved", || {
        let found = std::fs::read_dir(browser.files()).into_iter().flatten().flatten();
        let mut found = found.map(|entry| entry.path());
        // Until it is whole it has another ending.
        found.find(|path| path.to_string_lossy().ends_with(".bathbook.json")).ok_or("not yet".into())
    })
}

pub fn a_plan_is_saved_as_a_file_and_opened_again(engine: Engine) {
    let browser = Browser::open_in(engine);
    copper_plan(&browser);
    browser.click_named("Save a file");
    browser.wait_holds(".corner", "Handed to the browser as");
    let file = saved_file(&browser);

    let other = Browser::open_in(engine);
    open_file(&other, &file);
    let plan = plan_id(&other);
    other.goto(&format!("#/plan/{plan}/1/make-up"));
    other.wait_value("#f-V_t", "200");
    wait_answer(&other, "m[Copper sulfate]", "31.4 kg");
}

/// Opens a plan's file from the first page, by what the picker gives.
#[track_caller]
fn open_file(browser: &Browser, file: &std::path::Path) {
    let picker = browser.run(browser.session().find(By::Css("input[type=file]"))).expect("a picker");
    browser.run(picker.send_keys(file.to_string_lossy().as_ref())).expect("a file picked");
    browser.wait("main.line");
}

pub fn it_opens_and_works_with_the_server_gone(engine: Engine) {
    let browser = Browser::open_in(engine);
    browser.until("the app to be kept", || {
        let kept = browser.eval("document.documentElement.hasAttribute('data-offline')");
        if kept == json!(true) { Ok(()) } else { Err("not yet".into()) }
    });
    let plan = copper_plan(&browser);
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
    browser.reload();
    browser.wait_value("#f-V_t", "250");
    browser.goto("#/about");
    browser.wait_holds("main", "it opens without a network");
}

pub fn the_page_of_one_file_works_from_the_disk(engine: Engine) {
    let browser = Browser::open_one_file_in(engine);
    assert!(browser.address().starts_with("file:///"), "{}", browser.address());
    let plan = copper_plan(&browser);
    wait_answer(&browser, "m[Copper sulfate]", "31.4 kg");
    browser.reload();
    browser.wait_value("#f-V_t", "200");
    wait_answer(&browser, "m[Copper sulfate]", "31.4 kg");
    // A later visit, by the file's own address.
    browser.goto("");
    browser.wait_holds("main", "1 bath");
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    browser.wait_value("#f-V_t", "200");
    browser.click_named("Save a file");
    let file = saved_file(&browser);
    assert!(std::fs::read_to_string(file).is_ok_and(|text| text.contains("CuSO4·5H2O")));
    browser.goto("#/about");
    browser.wait_holds("main", "This is the page of one file");
    browser.wait_holds("main", "It does not renew itself");
    browser.wait_holds("main", "It cannot make links to a plan");
    assert_asks_nobody_else(&browser);
}
