//! A bath that starts from a recipe.

use crate::steps::*;
use serde_json::json;

#[test]
fn a_recipe_fills_the_rows_of_a_make_up() {
    let browser = open();
    new_plan(&browser);
    add_copper_bath(&browser);
    let choose = "const list = document.querySelector('select[aria-label=Recipe]'); if (!list) return false; \
        list.value = arguments[0]; list.dispatchEvent(new Event('change', { bubbles: true })); return true";
    browser.until("the list of recipes", || {
        if browser.script(choose, json!(["Gold, sulfite"]))? == true { Ok(()) } else { Err("no list".into()) }
    });
    browser.wait_holds("section[aria-label=\"Start from a recipe\"] .hint", "from memory");
    browser.click_named("Fill in its rows");
    browser.wait("[data-key=\"Sodium gold sulfite\"]");
    assert_eq!(browser.count("[data-key=\"Copper sulfate\"]"), 0, "rows typed before give way");
    browser.screenshot("recipe");
    browser.assert_quiet();
}
