//! The licences of all that is in the page, as their texts ask to be handed on.

use crate::needs::TARGET;
use crate::run::{cargo, root};
use anyhow::{Context, Result, ensure};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// One text: each package with its version and licence, then each licence text once with those it is of.
pub fn text() -> Result<String> {
    let packages = in_page(&metadata()?)?;
    let mut list = String::from(
        "Licences of what is in Bathbook's page\n\n\
         Bathbook itself: MIT OR Apache-2.0. Its program holds code of these packages:\n\n",
    );
    let mut texts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for package in &packages {
        let name = format!("{} {}", package.name, package.version);
        ensure!(!package.licence.is_empty(), "{name} names no licence");
        list += &format!("  {name}: {}\n", package.licence);
        for text in licence_texts(&package.folder)? {
            texts.entry(text).or_default().push(name.clone());
        }
    }
    for (text, of) in texts {
        list += &format!("\n{}\n{}\n\n{}\n", "-".repeat(80), of.join(", "), text.trim_end());
    }
    Ok(list)
}

struct Package {
    name: String,
    version: String,
    licence: String,
    folder: String,
}

fn metadata() -> Result<Value> {
    let output = cargo()
        .args(["metadata", "--locked", "--format-version=1", "--filter-platform", TARGET])
        .current_dir(root())
        .output()?;
    ensure!(output.status.success(), "cargo metadata failed: {}", String::from_utf8_lossy(&output.stderr));
    Ok(serde_json::from_slice(&output.stdout)?)
}

/// What the page's program is linked from: neither what only runs while it is built, nor ourselves.
fn in_page(metadata: &Value) -> Result<Vec<Package>> {
    let list = |value: &Value| value.as_array().cloned().unwrap_or_default();
    let text = |value: &Value| value.as_str().unwrap_or_default().to_string();
    let packages: BTreeMap<String, Value> =
        list(&metadata["packages"]).into_iter().map(|package| (text(&package["id"]), package)).collect();
    let nodes: BTreeMap<String, Value> =
        list(&metadata["resolve"]["nodes"]).into_iter().map(|node| (text(&node["id"]), node)).collect();
    let is_macro = |id: &str| {
        let targets = packages.get(id).map(|package| list(&package["targets"])).unwrap_or_default();
        targets.iter().any(|target| list(&target["kind"]).contains(&"proc-macro".into()))
    };
    let (mut waiting, mut seen) = (Vec::new(), BTreeSet::new());
    for name in ["bathbook", "bathbook-extras"] {
        let start =
            packages.iter().find(|(_, package)| package["name"] == name && package["source"].is_null());
        waiting.push(start.with_context(|| format!("cargo does not know {name}"))?.0.clone());
    }
    while let Some(id) = waiting.pop() {
        if is_macro(&id) || !seen.insert(id.clone()) {
            continue;
        }
        for dependency in nodes.get(&id).map(|node| list(&node["deps"])).unwrap_or_default() {
            // A normal dependency has no kind; those of tests and build scripts do.
            if list(&dependency["dep_kinds"]).iter().any(|kind| kind["kind"].is_null()) {
                waiting.push(text(&dependency["pkg"]));
            }
        }
    }
    let mut found: Vec<Package> = seen
        .iter()
        .filter_map(|id| packages.get(id))
        .filter(|package| !package["source"].is_null())
        .map(|package| Package {
            name: text(&package["name"]),
            version: text(&package["version"]),
            licence: text(&package["license"]),
            folder: Path::new(&text(&package["manifest_path"]))
                .parent()
                .map_or_else(String::new, |folder| folder.to_string_lossy().into_owned()),
        })
        .collect();
    found.sort_by(|a, b| (&a.name, &a.version).cmp(&(&b.name, &b.version)));
    Ok(found)
}

/// The texts that a package brings along.
fn licence_texts(folder: &str) -> Result<Vec<String>> {
    let mut files: Vec<_> = fs::read_dir(folder)?.flatten().map(|entry| entry.path()).collect();
    files.sort();
    let is_licence = |path: &&std::path::PathBuf| {
        let name = path.file_name().unwrap_or_default().to_string_lossy().to_ascii_uppercase();
        path.is_file()
            && ["LICEN", "COPYING", "NOTICE", "UNLICENSE"].iter().any(|start| name.starts_with(start))
    };
    let texts =
        files.iter().filter(is_licence).map(|path| Ok(fs::read_to_string(path)?.replace("\r\n", "\n")));
    texts.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_in_the_page_is_listed_and_what_only_builds_or_tests_it_is_not() {
        let names: Vec<String> = in_page(&metadata().unwrap()).unwrap().into_iter().map(|p| p.name).collect();
        let has = |name: &str| names.iter().any(|known| known == name);
        assert!(has("qrcodegen") && has("leptos") && has("serde_json") && has("wasm-bindgen"), "{names:?}");
        assert!(
            !has("thirtyfour") && !has("proptest") && !has("serde_derive") && !has("bathbook"),
            "{names:?}"
        );
    }
}
