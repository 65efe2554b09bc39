//! The picture under a sheet, and paper.

use crate::harness::{Browser, Size};
use crate::steps::*;
use serde_json::json;

#[test]
fn the_picture_is_sharp_is_read_by_touch_and_follows_the_range() {
    let browser = open();
    browser.resize(Size { density: 2.0, ..Size::TABLET });
    quick_heating(&browser);
    browser.wait("canvas.chart-picture");
    browser.until("the canvas to be painted at two dots a pixel", || {
        let found = browser.script(
            "const c = document.querySelector('canvas.chart-picture'); return [c.width, c.clientWidth, c.height, c.clientHeight]",
            json!([]),
        )?;
        let [wide, width, high, height] = [0, 1, 2, 3].map(|at| found[at].as_f64().unwrap_or(0.0));
        let sharp = (wide - 2.0 * width).abs() <= 2.0 && (high - 2.0 * height).abs() <= 2.0;
        if sharp { Ok(()) } else { Err(found.to_string()) }
    });
    let painted = "const c = document.querySelector('canvas.chart-picture'); \
        return c.getContext('2d').getImageData(0, 0, c.width, c.height).data.some(v => v > 0)";
    assert_eq!(browser.script(painted, json!([])).expect("a script"), true);

    let now = browser.text(".chart-reading");
    assert!(now.starts_with("Now "), "{now}");
    browser
        .script("document.querySelector('canvas').scrollIntoView({ block: 'center' })", json!([]))
        .expect("a script");
    browser.click("canvas.chart-picture");
    browser.until("a touch to show a reading", || {
        let read = browser.text(".chart-reading");
        if read != now && !read.is_empty() { Ok(()) } else { Err(read) }
    });
    browser.focus("canvas.chart-picture");
    browser.press("Home");
    let first = browser.text(".chart-reading");
    browser.press("End");
    browser.until("the last reading", || {
        let last = browser.text(".chart-reading");
        if last != first { Ok(()) } else { Err(last) }
    });
    browser.press("Escape");
    browser.wait_text(".chart-reading", &now);

    // A range of one's own; nonsense is refused in words.
    let words = browser.attribute("canvas", "aria-label").unwrap_or_default();
    browser.retype(".axes label:nth-of-type(3) input", "10");
    browser.retype(".axes label:nth-of-type(4) input", "77");
    browser.press("Tab");
    browser.until("the words to follow the range", || {
        let now = browser.attribute("canvas", "aria-label").unwrap_or_default();
        if now != words && now.contains("77") { Ok(()) } else { Err(now) }
    });
    browser.retype(".axes label:nth-of-type(4) input", "5");
    browser.press("Tab");
    browser.wait_holds(".picture .err", "range cannot be read");
    browser.assert_quiet();
}

#[test]
fn another_answer_and_another_number_can_be_drawn() {
    let browser = open();
    quick_heating(&browser);
    browser.wait("canvas.chart-picture");
    let words = browser.attribute("canvas", "aria-label").unwrap_or_default();
    browser.choose(".axes label:nth-of-type(1) select", "Time to the target");
    browser.choose(".axes label:nth-of-type(2) select", "Volume in circulation");
    browser.until("the picture to change", || {
        let now = browser.attribute("canvas", "aria-label").unwrap_or_default();
        if now != words && now.starts_with("Time to the target") && now.contains("250\u{a0}L") {
            Ok(())
        } else {
            Err(now)
        }
    });
    browser.assert_quiet();
}

/// The choices of an axis: heading and words, as they stand.
#[track_caller]
fn offered(browser: &Browser, axis: usize) -> Vec<(String, String)> {
    let script = format!(
        "return [...document.querySelectorAll('.axes label:nth-of-type({axis}) option')] \
            .map(it => [it.parentElement.label ?? '', it.text])"
    );
    let found = browser.script(&script, json!([])).expect("a script");
    let text = |it: &serde_json::Value| it.as_str().unwrap_or_default().to_string();
    found.as_array().into_iter().flatten().map(|it| (text(&it[0]), text(&it[1]))).collect()
}

#[test]
fn the_picture_offers_answers_that_have_a_number_those_of_rows_under_their_table() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    browser.wait("canvas.chart-picture");
    let up = offered(&browser, 1);
    assert!(
        up.iter().any(|(heading, words)| heading.is_empty() && words == "Water to add, in all"),
        "{up:?}"
    );
    let of_rows: Vec<_> = up.iter().filter(|(heading, _)| heading == "Ingredients").collect();
    assert!(of_rows.iter().any(|(_, words)| words == "Copper sulfate, To weigh"), "{up:?}");
    // A batch is not typed: what it takes has no number yet.
    assert!(up.iter().all(|(_, words)| !words.contains("batch")), "{up:?}");
    let across = offered(&browser, 2);
    assert!(across.iter().any(|(heading, _)| heading == "Ingredients"), "{across:?}");
    browser.assert_quiet();
}

/// How many pages a PDF of Chromium's has: its page objects are written out plainly.
fn pages(pdf: &[u8]) -> usize {
    let mark = b"/Type /Page";
    pdf.windows(mark.len() + 1).filter(|at| at.starts_with(mark) && at[mark.len()] != b's').count()
}

#[test]
fn a_long_sheet_prints_on_four_pages_at_most() {
    let browser = open();
    browser.click("[aria-labelledby=examples-title] li:last-of-type button.card");
    browser.wait("main.line table");
    let plan = plan_id(&browser);
    browser.goto(&format!("#/plan/{plan}/1/heat-up"));
    wait_sheet(&browser, "heat-up");
    browser.wait("canvas.chart-picture");
    let pdf = browser.printed();
    std::fs::write(crate::harness::made("screens").join("heat-up.pdf"), &pdf).expect("target/screens");
    let pages = pages(&pdf);
    assert!((1..=4).contains(&pages), "{pages} pages");
    browser.assert_quiet();
}

#[test]
fn paper_has_the_numbers_and_cautions_and_no_buttons() {
    let browser = open();
    let plan = whole_line(&browser);
    for sheet in ["1/make-up", "1/heat-up", "6/drain", "line"] {
        browser.goto(&format!("#/plan/{plan}/{sheet}"));
        browser.wait("main");
        browser.as_printed(true);
        browser.until(&format!("paper of {sheet} without buttons"), || {
            let shown = browser.script(
                "return [...document.querySelectorAll('button:not(.unit), .bar, nav')] \
                 .filter(it => it.checkVisibility()).map(it => it.innerText || it.className)",
                json!([]),
            )?;
            if shown.as_array().is_some_and(Vec::is_empty) { Ok(()) } else { Err(shown.to_string()) }
        });
        let paper = browser.text("body");
        assert!(
            paper.contains("Bathbook 0."),
            "the head says what printed it: {}",
            &paper[..200.min(paper.len())]
        );
        if sheet != "line" {
            assert!(paper.contains("Working"), "{sheet}: the working is on paper");
            let cautions = browser
                .eval("[...document.querySelectorAll('.cautionbox p')].map(it => it.innerText.trim())");
            for caution in cautions.as_array().into_iter().flatten().filter_map(|it| it.as_str()) {
                assert!(paper.contains(caution), "{sheet}: {caution}");
            }
        }
        browser.as_printed(false);
    }
    browser.goto(&format!("#/plan/{plan}/1/make-up"));
    wait_sheet(&browser, "make-up");
    let pdf = browser.printed();
    assert!(pdf.starts_with(b"%PDF"), "a PDF");
    std::fs::write(crate::harness::made("screens").join("make-up.pdf"), &pdf).expect("target/screens");
    browser.assert_quiet();
}
