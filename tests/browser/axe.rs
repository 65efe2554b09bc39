//! axe-core 4.14.1 (tests/vendor, its own licence) on the page as it stands.

use crate::harness::Browser;
use serde_json::{Value, json};

const AXE: &str = include_str!("../vendor/axe.min.js");

/// What axe finds wrong, a line each: rule, what is wrong, where. Every rule that is not deprecated is on.
#[track_caller]
pub fn violations(browser: &Browser) -> Vec<String> {
    if browser.eval("!window.axe") == true {
        browser.script(AXE, json!([])).expect("axe");
    }
    let found = browser.eval_promise(
        "axe.run(document, { resultTypes: ['violations'] }).then(found => \
         found.violations.flatMap(rule => rule.nodes.map(node => rule.id + ': ' + rule.help + ' at ' \
         + node.target.join(' ') + ' ' + node.html.slice(0, 140) + ' ' + (node.any[0]?.message ?? ''))))",
    );
    match found {
        Value::Array(found) => found.iter().map(|it| it.as_str().unwrap_or_default().to_string()).collect(),
        other => panic!("axe answered {other}"),
    }
}
