//! A plan is handed on as a link: it opens for looking at, beside one's own.

use crate::harness::Browser;
use crate::steps::*;
use calamine::{Reader, Xlsx};
use serde_json::json;

/// The link of the plan that is open.
fn made_link(browser: &Browser) -> String {
    browser.click_named("Share the plan");
    link_shown(browser)
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
        if place.ends_with("/1/make-up") && !place.contains("/link/") { Ok(()) } else { Err(place) }
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
    // A blank and a mark that mail put there are no damage.
    browser.goto(&format!("#{}%20{}%3E.", &fragment[..30], &fragment[30..]));
    browser.wait_holds(".viewed", "You keep the same already");
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

/// What was left out once is not sent along the next time: prices that a consultant keeps to himself.
#[test]
fn remarks_and_prices_are_left_out_of_all_that_is_handed_on_until_they_are_wanted_again() {
    let browser = open();
    browser.click("[aria-labelledby=examples-title] li:nth-of-type(2) button.card");
    browser.wait("main.line");
    let plan = plan_id(&browser);
    browser.type_into(".remarks textarea", " For us only.");
    let whole = made_link(&browser);
    browser.wait_holds("main", "With prices and remarks.");
    browser.click_named("Leave out prices");
    browser.click_named("Leave out remarks, ticks of work orders, lots and initials");
    browser.wait_holds("main", "Without prices, remarks, lots and initials.");
    let less = browser.until("a shorter link", || {
        let link = browser.value(".whole-link textarea");
        if !link.is_empty() && link.len() < whole.len() { Ok(link) } else { Err(link) }
    });
    // The file too, and it does not count as one of the plan.
    let folder = browser.downloads();
    browser.click_named("Save a file to hand on");
    let file = std::fs::read_to_string(browser.downloaded(&folder, "json")).expect("a file");
    assert!(file.contains("\"hours\": \"16 h\"") && !file.contains("p_kWh"), "{file}");
    assert!(!file.contains("For us only"), "{file}");
    browser.wait_holds(".bar", "no file yet");
    // Nor do the tables tell of them: 0.16 a kWh, 22 a kilogram of nickel, a year's cost.
    browser.click_named("Save a table (CSV)");
    let table = std::fs::read_to_string(browser.downloaded(&folder, "csv")).expect("a table");
    browser.click_named("Save a workbook (XLSX)");
    let mut book: Xlsx<_> = calamine::open_workbook(browser.downloaded(&folder, "xlsx")).expect("a workbook");
    let pages = book.worksheets();
    let rows = pages.iter().flat_map(|(_, range)| range.rows());
    let cells: Vec<String> = rows.map(|row| row.iter().map(|cell| format!("{cell} ")).collect()).collect();
    for private in ["Electricity", "Cost of running", "For us only"] {
        let is_price = |line: &str| line.contains(private) && line.contains(" cr");
        assert!(!table.lines().any(is_price), "{private} in the table");
        assert!(!cells.iter().any(|row| is_price(row.as_str())), "{private} in the workbook");
    }
    assert!(table.contains("Heat-up") && cells.iter().any(|row| row.contains("Heat-up")));
    // And the report, with what would come of a price; typing there still changes the plan.
    browser.goto(&format!("#/plan/{plan}/report"));
    let private = ["0.16 cr per kWh", "22 cr per kg", "695.7 cr", "For us only"];
    let told = |wanted: usize| {
        browser.until(&format!("{wanted} of what is private in the report"), || {
            let text = browser.text("main.report");
            let told: Vec<_> = private.iter().filter(|told| text.contains(**told)).collect();
            if told.len() == wanted { Ok(()) } else { Err(format!("{told:?}")) }
        });
    };
    told(0);
    browser.click_named("Leave out prices");
    told(3);
    browser.click_named("Leave out remarks, ticks of work orders, lots and initials");
    told(4);
    browser.click_named("Leave out prices");
    browser.click_named("Leave out remarks, ticks of work orders, lots and initials");
    told(0);
    // What is typed there changes the plan, which keeps its prices.
    let author = browser.field("Prepared by");
    browser.type_into(&author, "A planner (invented)");
    // After a change and a reload the ticks are as they were.
    browser.goto(&format!("#/plan/{plan}/0/site"));
    browser.wait_value(&browser.field("Prepared by"), "A planner (invented)");
    // What the report leaves out is left out there alone.
    browser.wait_value("#f-p_kWh", "0.16");
    browser.retype("#f-hours", "15");
    wait_saved(&browser);
    browser.reload();
    browser.wait_value("#f-p_kWh", "0.16");
    browser.goto(&format!("#/plan/{plan}/share"));
    browser.wait_holds("main", "Without prices, remarks, lots and initials.");
    // What the customer gets.
    let fragment = less.split('#').nth(1).expect("a fragment").to_string();
    browser.goto(&format!("#{fragment}"));
    browser.wait_holds(".viewed", "You keep a plan of this name too, which differs");
    browser.goto("#/plan/link/0/site");
    browser.wait_value("#f-hours", "16");
    browser.wait_value("#f-p_kWh", "");
    browser.goto("#/plan/link/line");
    browser.wait_value(".remarks textarea", "Prices were left out when this was handed on.");
    browser.goto("#/plan/link/0/site");
    // Who touches a field is told why it stays as it is.
    browser.click("#f-p_kWh");
    browser.wait_holds(".corner", "This plan came by link and is only shown.");
    browser.assert_quiet();
}
