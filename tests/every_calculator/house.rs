//! What holds of the whole source.

/// `lib.rs` lists the modules in the order that data flows; a use may only point up that list.
#[test]
fn modules_use_only_those_before_them() {
    let lib = std::fs::read_to_string("src/lib.rs").unwrap();
    let modules: Vec<_> =
        lib.lines().filter_map(|l| l.strip_prefix("pub mod ")).map(|l| l.trim_end_matches(';')).collect();
    assert!(modules.len() > 8, "{modules:?}");
    for (k, module) in modules.iter().enumerate() {
        for (path, text) in sources(module) {
            for later in &modules[k + 1..] {
                assert!(!text.contains(&format!("crate::{later}::")), "{path} uses {later}");
            }
        }
    }
}

/// Nothing outside `ui`, `keep` and the canvas painter touches the browser.
#[test]
fn the_browser_stays_at_the_edge() {
    for module in
        ["units", "quantity", "science", "calculator", "calculators", "plan", "network", "ask", "results"]
    {
        for (path, text) in sources(module) {
            for edge in ["web_sys", "js_sys", "wasm_bindgen", "leptos", "gloo"] {
                assert!(!text.contains(edge), "{path} uses {edge}");
            }
        }
    }
}

/// The files of a module, with their texts.
fn sources(module: &str) -> Vec<(String, String)> {
    fn walk(folder: &std::path::Path, found: &mut Vec<(String, String)>) {
        for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                walk(&path, found);
            } else if path.extension().is_some_and(|e| e == "rs") {
                found.push((path.display().to_string(), std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    let mut found = Vec::new();
    let file = format!("src/{module}.rs");
    if let Ok(text) = std::fs::read_to_string(&file) {
        found.push((file, text));
    }
    walk(&std::path::Path::new("src").join(module), &mut found);
    found
}
