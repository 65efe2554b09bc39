//! What the sources of the interface must keep to, and no compiler says.

use std::fs;
use std::path::{Path, PathBuf};

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder of sources") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            all.extend(sources(&path));
        } else if path.extension().is_some_and(|end| end == "rs") {
            all.push(path);
        }
    }
    all
}

/// Whether a name stands in code by itself: `Memo::new`, not `ArcMemo::new`.
fn stands(code: &str, name: &str) -> bool {
    code.match_indices(name).any(|(at, _)| !code[..at].ends_with(|c: char| c.is_alphanumeric()))
}

/// Leptos' own `view!`, `Show`, memos and effects are compiled anew for each use and make the page larger; ours
/// have one code for all. `leptos::prelude::*` brings theirs, and only an import by name stands over it.
#[test]
fn every_view_is_built_of_our_own_small_elements() {
    let all = sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/ui"));
    let (mut seen, mut wrong) = (0, Vec::new());
    for path in all {
        let text = fs::read_to_string(&path).expect("a source");
        // Whatever stands in comments does not count.
        let code: Vec<&str> = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
        let code = code.join("\n");
        let name = path.display();
        if code.contains("view! {") {
            seen += 1;
            if !code.contains("use bathbook_view::view;") {
                wrong.push(format!("{name}: view! without `use bathbook_view::view;`"));
            }
        }
        // What makes them is named so, and itself uses Leptos'.
        for (used, from, home) in [
            ("<Show", "ui::element", "element.rs"),
            ("Memo::new", "ui::signals", "signals.rs"),
            ("Effect::new", "ui::signals", "signals.rs"),
        ] {
            let item = used.trim_start_matches('<').trim_end_matches("::new");
            let uses = stands(&code, used) && !path.ends_with(home);
            let imports = code.split("use ").skip(1).filter_map(|it| it.split(';').next()).any(|it| {
                it.contains(from) && it.split(|c: char| !c.is_alphanumeric()).any(|word| word == item)
            });
            if uses && !imports {
                wrong.push(format!("{name}: {item} without `use crate::{from}::{item};`"));
            }
        }
    }
    assert!(seen > 20, "only {seen} files with views were found");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
