//! What holds of the whole source.

/// The modules, as `lib.rs` lists them: in the order that data flows.
fn modules() -> Vec<String> {
    let lib = std::fs::read_to_string("src/lib.rs").unwrap();
    let names = lib.lines().filter_map(|line| line.strip_prefix("pub mod "));
    let modules: Vec<_> = names.map(|name| name.trim_end_matches(';').to_string()).collect();
    assert!(modules.len() > 8, "{modules:?}");
    modules
}

/// A use may only point up the list.
#[test]
fn modules_use_only_those_before_them() {
    let modules = modules();
    for (k, module) in modules.iter().enumerate() {
        for (path, text) in sources(module) {
            for later in &modules[k + 1..] {
                assert!(!text.contains(&format!("crate::{later}::")), "{path} uses {later}");
                // Several in one `use`, in braces.
                let braces = text.split("use crate::{").skip(1).filter_map(|rest| rest.split(';').next());
                let named = |list: &str| {
                    list.split([',', '{', '}'])
                        .any(|part| part.trim() == *later || part.trim().starts_with(&format!("{later}::")))
                };
                assert!(!braces.clone().any(named), "{path} uses {later}");
            }
        }
    }
}

/// Nothing outside `ui`, `keep` and the canvas painter touches the browser.
#[test]
fn the_browser_stays_at_the_edge() {
    let inner = modules().into_iter().filter(|module| !["ui", "keep"].contains(&module.as_str()));
    for (path, text) in inner.flat_map(|module| sources(&module)) {
        if path.ends_with("picture/canvas.rs") {
            continue;
        }
        for edge in ["web_sys", "js_sys", "wasm_bindgen", "leptos", "gloo"] {
            assert!(!text.contains(edge), "{path} uses {edge}");
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
