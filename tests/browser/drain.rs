//! A trench too far to reach by gravity, and the lift station that cures it.

use crate::steps::*;

/// By hand: 28 m at 1 in 48 take 583.33 mm, and 300 are there. V = q·T/4 (US Army EI 11C201, 1997): 60 L/min and ten
/// starts an hour ask for 90 L between the levels.
#[test]
fn a_trench_too_far_is_cured_by_a_lift_station_of_the_right_size() {
    let browser = open();
    new_plan(&browser);
    browser.click_named("Add a drain");
    wait_sheet(&browser, "drain");
    for (field, text) in [("l", "28"), ("h_av", "300"), ("D", "50")] {
        browser.retype(&format!("#f-{field}"), text);
    }
    wait_answer(&browser, "need", "583 mm");
    wait_answer(&browser, "spare", "−283 mm");
    wait_answer(&browser, "lift", "needed");
    browser.wait_holds("main.sheet .findings", "It does not run off by gravity");
    // A shorter run would do it alone, or more height, or a station; no slope below the code's least.
    browser.wait_holds(".cures", "run to where it ends 14.4 m");
    browser.focus("main.sheet .finding");
    browser.screenshot_everywhere("drain-short");
    browser.click_named("lift station: one is planned");
    // The touch leads to what the station wants.
    browser.wait("#f-station:focus");
    browser.screenshot_everywhere("drain-planned");
    wait_answer(&browser, "lift", "needed, not yet sized");
    browser.wait_holds("main.sheet", "Still to be typed: “Pump flow at its head”");
    for (field, text) in [
        ("q_m", "3.17"),
        ("q_p", "25"),
        ("q_pump", "60"),
        ("V_o", "75"),
        ("z_l", "1.5"),
        ("l_d", "30"),
        ("d_d", "32"),
        ("p_air", "300"),
    ] {
        browser.retype(&format!("#f-{field}"), text);
    }
    wait_answer(&browser, "lift", "needed");
    wait_answer(&browser, "V_b", "90.0 L");
    // 75 L at 25 L/min.
    wait_answer(&browser, "t_o", "3.00 min");
    browser.wait_holds("main.sheet", "that is what the lift station is for");
    browser.screenshot_everywhere("drain-lifted");
    browser.assert_fits();
    // Undo takes the station back, step by step, and no more than was done.
    browser.choose("#f-station", "none");
    wait_answer(&browser, "lift", "needed");
    browser.wait_holds(".cures", "lift station: one is planned");

    // Runs that join are a sheet of its own, and decide the drain's run, height and flow.
    add_sheet(&browser, "Runs that join");
    wait_sheet(&browser, "drain-runs");
    browser.retype("#f-D", "50");
    for (run, cells) in [
        ("Run", [("l_b", "6"), ("x", "4"), ("h", "300"), ("q", "20"), ("D_b", "50")]),
        ("Run-2", [("l_b", "2"), ("x", "2"), ("h", "150"), ("q", "40"), ("D_b", "50")]),
    ] {
        browser.click_named("+ Add a run");
        for (cell, text) in cells {
            browser.retype(&format!("#f-runs-{run}-{cell}"), text);
        }
    }
    wait_answer(&browser, "q_T", "60.0 L/min");
    wait_answer(&browser, "least", "66.7 mm");
    browser.screenshot_everywhere("drain-runs");
    browser.assert_fits();
    browser.assert_quiet();
}
