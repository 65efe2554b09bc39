//! Four jobs of the bath side, as those who have them would do them.

use crate::harness::Browser;
use crate::steps::*;
use serde_json::json;

/// Adds a row by the chip that is called so.
#[track_caller]
fn chip(browser: &Browser, table: &str, name: &str) {
    let script = "const it = [...document.querySelectorAll(`section.rows[aria-label=\"${arguments[0]}\"] .pick`)] \
        .find(it => it.innerText.trim() === arguments[1]); it?.click(); return !!it";
    browser.until(&format!("the chip {name}"), || {
        if browser.script(script, json!([table, name]))? == true {
            Ok(())
        } else {
            Err("it is not there".into())
        }
    });
    browser.wait(&format!("[data-key=\"{name}\"]"));
}

/// Types into fields of the open sheet; of a row where one is named.
#[track_caller]
fn fill(browser: &Browser, row: &str, texts: &[(&str, &str)]) {
    for (field, text) in texts {
        browser.retype(&format!("#f-{row}{field}"), text);
    }
}

/// 480 wafers of 300 mm a day, 15 % of the face open: entered once, at the site.
#[track_caller]
fn wafers(browser: &Browser) {
    rail(browser, "Site", "Wafers");
    wait_sheet(browser, "wafers");
    fill(browser, "", &[("D", "300"), ("open", "15"), ("N_d", "480")]);
    wait_answer(browser, "N", "480 per day");
}

/// What the invented plant’s author worked out apart from this project: 7.52 chambers, so 8.
#[test]
fn a_copper_bath_is_planned_from_wafer_starts_to_make_up_and_chambers() {
    let browser = open();
    new_plan(&browser);
    wafers(&browser);
    add_copper_bath(&browser);
    wait_answer(&browser, "m[Copper sulfate]", "31.4 kg");

    rail(&browser, "Bath", "Plating load");
    wait_sheet(&browser, "plating");
    browser.wait_text("#f-D b", "300 mm");
    browser.wait_text("#f-N b", "480 per day");
    browser.wait("[data-key=Cu]");
    fill(&browser, "", &[("u3b7", "98"), ("d_w", "1.5")]);
    chip(&browser, "Layers and steps of the recipe", "Pillar");
    browser.wait(&of("t_w"));
    // Depth × density × 2 F over molar mass, current density and efficiency: 17.35 min.
    wait_answer(&browser, "t_w", "17.4 min");

    // A new bath has its core sheets; this one is added.
    assert_eq!(browser.count("nav.places .place.here a"), 3, "make-up, plating load, heat-up");
    add_sheet(&browser, "Chambers");
    wait_sheet(&browser, "chambers");
    browser.wait_holds(".answer", "Still to do");
    browser.wait_text("#f-t_p b", "17.35 min");
    fill(&browser, "", &[("t_h", "2.5"), ("u", "88"), ("n", "8")]);
    wait_answer(&browser, "n_up", "8");
    wait_answer(&browser, "n_raw", "7.52");
    browser.screenshot_everywhere("job-chambers");
    browser.screenshot_whole("job-chambers");

    // Twice the wafers: twice the chambers, and the finding says that there are too few.
    rail(&browser, "Site", "Wafers");
    wait_sheet(&browser, "wafers");
    browser.retype("#f-N_d", "960");
    rail(&browser, "Bath", "Chambers");
    wait_sheet(&browser, "chambers");
    wait_answer(&browser, "n_up", "16");
    browser.wait("main .finding");

    // Taken off by mistake: nothing is lost.
    browser.click("nav.places .place.here .remove");
    browser.click_named("Take “Chambers” off");
    wait_sheet(&browser, "make-up");
    browser.wait_holds(".corner", "Chambers taken off, with what was typed there. Undo brings it back.");
    browser.click_named("Undo");
    rail(&browser, "Bath", "Chambers");
    wait_answer(&browser, "n_up", "16");
    browser.assert_quiet();
}

/// By hand: 200 g/L of acid to 180 in 200 L takes 20 L out. Then (200 − 20)·36 g of copper are left of the 8 kg
/// wanted, and 1520 g of it are 5.97 kg of CuSO4·5H2O with 25.451 % (molmass).
#[test]
fn a_full_tank_low_in_metal_and_high_in_acid_is_corrected_and_its_draw_off_is_a_stream() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    add_sheet(&browser, "Correction");
    wait_sheet(&browser, "correction");
    browser.wait_text("#f-V_m b", "200 L");
    fill(&browser, "components-Cu-", &[("c", "36")]);
    // The salt of the make-up is taken over, by what it holds of copper.
    browser.wait("#f-components-Cu-salt");
    browser.wait("#f-components-Cu-x_plan");
    // Target and stock of the acid are those of the make-up; its titre is still to come, and its row says so.
    browser.wait_text("#f-components-H2SO4-c_plan b", "180 g/L");
    browser.wait_holds("main", "H2SO4: no result yet.");
    fill(&browser, "components-H2SO4-", &[("c", "200")]);
    wait_answer(&browser, "V_x", "20.0 L");
    wait_answer(&browser, "m[Cu]", "5.97 kg");
    wait_answer(&browser, "c_end[Cu]", "40.0 g/L");
    wait_answer(&browser, "c_end[H2SO4]", "180 g/L");
    browser.wait_text("#f-components-Cu-c_plan b", "40 g/L");

    browser.screenshot_everywhere("job-correction");
    browser.screenshot_whole("job-correction");
    // The order draws off before it adds, and says who signs.
    let order = browser.text(".order ol");
    let at = |words: &str| order.find(words).unwrap_or_else(|| panic!("{words} should stand in:\n{order}"));
    assert!(at("20.0 L") < at("5.97 kg"));
    browser.eval("window.print = () => { window.printed = true }");
    browser.click_named("Print the work order");
    browser.as_printed(true);
    browser.wait_holds(".order-paper", "Corrected by");
    browser.as_printed(false);

    browser.click_named("+ Stream from here");
    wait_sheet(&browser, "stream");
    browser.choose("#f-kind", "draw-off of a correction");
    browser.wait_text("#f-V_k b", "20 L");
    browser.retype("#f-t_k", "10");
    wait_answer(&browser, "Q_day", "2.00 L/day");
    // 20 L of 36 g/L.
    wait_answer(&browser, "m_once[Cu]", "720 g of metal");
    browser.screenshot_whole("job-draw-off");
    browser.assert_quiet();
}

/// By hand, for 480 wafers of 4.1667 A·h and 1.5 mL: brightener 0.35 mL/(A·h) × 2000 A·h + 0.02 mL × 480 +
/// 0.72 L × 4.2 mL/L + 1.5 % × 250 L × 4.2 mL/L = 728 mL a day; suppressor 0.12 × 2000 + 0.72 × 10 = 247;
/// leveller 0.4 × 480 + 0.72 × 6 = 196.
#[test]
fn dosing_is_set_up_for_three_additives_by_three_counters() {
    let browser = open();
    browser.retype("#find-sum", "dosing");
    browser.wait_gone("a.card[href='#/quick/make-up']");
    browser.click("a.card[href='#/quick/dosing']");
    wait_sheet(&browser, "dosing");
    fill(
        &browser,
        "",
        &[("V", "250 L"), ("N", "480 per day"), ("q_w", "4.1666666667 A·h"), ("d_w", "1.5 mL")],
    );
    for (name, counter, every, texts) in [
        ("Suppressor", "time", ("x_t", "1 h"), &[("C", "10 mL/L"), ("k_q", "0.12 mL/(A·h)")][..]),
        (
            "Brightener",
            "charge",
            ("x_q", "100 A·h"),
            &[("C", "4.2 mL/L"), ("k_q", "0.35 mL/(A·h)"), ("k_w", "0.02 mL"), ("k", "1.5 %/day")],
        ),
        ("Leveller", "wafers", ("x_w", "20"), &[("C", "6 mL/L"), ("k_q", "0 mL/(A·h)"), ("k_w", "0.4 mL")]),
    ] {
        chip(&browser, "Additives", name);
        let row = format!("additives-{name}-");
        browser.choose(&format!("#f-{row}counter"), counter);
        fill(&browser, &row, texts);
        fill(&browser, &row, &[every]);
    }
    wait_answer(&browser, "u[Suppressor]", "247 mL/day");
    wait_answer(&browser, "u[Brightener]", "728 mL/day");
    wait_answer(&browser, "u[Leveller]", "196 mL/day");
    // Whole steps of 1 mL: 20 wafers need 8.18 mL, so 8 now, and 81 after ten with what is carried.
    wait_answer(&browser, "v_n[Leveller]", "8.18 mL");
    wait_answer(&browser, "v_now[Leveller]", "8.00 mL");
    wait_answer(&browser, "v_10[Leveller]", "81.0 mL");
    browser.wait(&of("t_next"));
    wait_saved(&browser);
    browser.screenshot_everywhere("job-dosing");
    browser.screenshot_whole("job-dosing");
    browser.assert_quiet();
}

/// By hand, without activities: a weak acid is half turned at its pKa, so 200 L of 0.1 mol/L take 10 mol, which
/// is 10 L of 1 mol/L.
#[test]
fn reagent_and_curve_are_found_for_a_ph_and_no_acid_is_offered_to_cyanide() {
    let browser = open();
    browser.goto("#/quick/ph");
    wait_sheet(&browser, "ph");
    browser.choose("#f-class_p", "acid");
    browser.choose("#f-activity", "left out, as in textbooks");
    fill(&browser, "", &[("V", "200")]);
    browser.click_named("+ Add a substance");
    browser.wait(".card-row .key");
    let key = browser.eval("document.querySelector('.card-row').dataset.key");
    let row = format!(
        "solutes-{}-",
        key.as_str().unwrap_or_default().replace(|c: char| !c.is_ascii_alphanumeric(), "-")
    );
    browser.choose(&format!("#f-{row}known_as"), "an acid, pKa typed");
    browser.wait(&format!("#f-{row}pK_1"));
    fill(&browser, &row, &[("C", "0.1"), ("pK_1", "4.74473")]);
    browser.wait(&of("pH"));
    assert!((number(&answer(&browser, "pH")) - 2.88).abs() < 0.01, "{}", answer(&browser, "pH"));
    fill(&browser, "", &[("pH_w", "4.74473"), ("C_up", "1")]);
    wait_answer(&browser, "V_r", "10.0 L");
    wait_answer(&browser, "bottle", "the one that raises");
    browser.wait(".chart-picture");
    browser.wait_holds("figure.chart", "pH");
    browser.wait("#f-down");
    browser.screenshot_everywhere("job-ph");
    browser.screenshot_whole("job-ph");
    browser.choose("#f-class_p", "cyanide");
    browser.wait_gone("#f-down");
    browser.assert_quiet();
}
