//! The foot of every printed page. The number of the page stands in `print.css`; what is of this plan is put in here.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// A text as a string of a style sheet: nothing in it can end the string.
fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || " .,:;()-_·+%".contains(c);
    let parts = text.chars().map(|c| if plain(c) { c.to_string() } else { format!("\\{:x} ", c as u32) });
    format!("\"{}\"", parts.collect::<String>())
}

/// Puts a text at the foot of every page that is printed from now on; none takes it away.
pub fn foot(text: &str) {
    let sheets = document().style_sheets();
    let Some(sheet) = sheets.item(0).and_then(|sheet| sheet.dyn_into::<web_sys::CssStyleSheet>().ok()) else {
        return;
    };
    let Ok(rules) = sheet.css_rules() else { return };
    let last = rules.length().saturating_sub(1);
    let is_ours = rules.item(last).is_some_and(|rule| rule.css_text().contains("bottom-left"));
    if is_ours {
        let _ = sheet.delete_rule(last);
    }
    if !text.is_empty() {
        let rule = format!("@page {{ @bottom-left {{ content: {}; font-size: 8pt; }} }}", quoted(text));
        // A browser without page margins leaves the foot out: the cover has all of it.
        let _ = sheet.insert_rule_with_index(&rule, sheet.css_rules().map_or(0, |rules| rules.length()));
    }
}
