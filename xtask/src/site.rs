//! Builds the site into `dist/`: a folder for any static host, under any address.

use crate::bridge::number_names;
use crate::needs::{TARGET, wasm_target};
use crate::page::{self, Names};
use crate::run::{cargo, root, run, target};
use anyhow::{Context, Result, ensure};
use sha2::{Digest, Sha256};
use std::ffi::OsString;
use std::fs;
use std::path::PathBuf;

/// Compiles the page and writes `dist/` anew; the folder is the answer.
pub fn build() -> Result<PathBuf> {
    wasm_target()?;
    run(cargo()
        .args(["build", "--release", "--locked", "--target", TARGET, "--bin", "bathbook"])
        .env("CARGO_ENCODED_RUSTFLAGS", without_folders()))?;
    let bridge = target().join("xtask-bindgen");
    let _ = fs::remove_dir_all(&bridge);
    wasm_bindgen_cli_support::Bindgen::new()
        .input_path(target().join(TARGET).join("release/bathbook.wasm"))
        .web(true)?
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(&bridge)?;
    ensure!(
        !bridge.join("snippets").exists(),
        "a dependency brought a script of its own: the loader and the list of files must learn it first"
    );
    let mut js = fs::read(bridge.join("bathbook.js"))?;
    let mut wasm = fs::read(bridge.join("bathbook_bg.wasm"))?;
    number_names(&mut js, &mut wasm);
    ensure_no_folders(&wasm)?;
    let html = fs::read_to_string(root().join("index.html"))?;

    let mut files = Vec::new();
    let wasm = add(&mut files, "bathbook", "wasm", wasm);
    let js = add(&mut files, "bathbook", "js", js);
    let css = add(&mut files, "style", "css", styles(&html)?.into_bytes());
    let boot = include_str!("boot.js").replace("{JS}", &js).replace("{WASM}", &wasm);
    let boot = add(&mut files, "boot", "js", boot.into_bytes());
    let page = page::fill(&html, &Names { css: &css, boot: &boot, js: &js, wasm: &wasm })?;
    files.push(("index.html".into(), page.into_bytes()));

    let dist = root().join("dist");
    let _ = fs::remove_dir_all(&dist);
    fs::create_dir_all(&dist)?;
    for (name, bytes) in files {
        fs::write(dist.join(&name), bytes).with_context(|| format!("could not write dist/{name}"))?;
    }
    Ok(dist)
}

/// Names a file after its content, so that hosts and browsers may keep it for ever.
fn add(files: &mut Vec<(String, Vec<u8>)>, stem: &str, end: &str, bytes: Vec<u8>) -> String {
    let hash: String = Sha256::digest(&bytes).iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    let name = format!("{stem}-{hash}.{end}");
    files.push((name.clone(), bytes));
    name
}

fn styles(html: &str) -> Result<String> {
    let sheets = page::styles(html)?.into_iter();
    sheets.map(|path| fs::read_to_string(root().join(path)).with_context(|| format!("no {path}"))).collect()
}

fn cargo_home() -> PathBuf {
    let home = || std::env::home_dir().unwrap_or_default().join(".cargo");
    std::env::var_os("CARGO_HOME").map_or_else(home, PathBuf::from)
}

/// Flags that keep the builder's folders out of the file: panic messages name their source, and the same
/// source should give the same file wherever it is built.
fn without_folders() -> OsString {
    let mut folders = vec![(target(), "target"), (root(), ".")];
    let crates = fs::read_dir(cargo_home().join("registry/src"));
    folders.extend(crates.into_iter().flatten().flatten().map(|entry| (entry.path(), "crates")));
    let mut flags = OsString::new();
    for (folder, name) in folders {
        if !flags.is_empty() {
            flags.push("\x1f");
        }
        flags.push("--remap-path-prefix=");
        flags.push(folder);
        flags.push(format!("={name}"));
    }
    // One code for views of every shape: a good deal smaller than one for each.
    flags.push("\x1f--cfg\x1ferase_components");
    flags
}

fn ensure_no_folders(wasm: &[u8]) -> Result<()> {
    for folder in [root(), cargo_home()] {
        let text = folder.to_string_lossy();
        let found = wasm.windows(text.len()).any(|window| window == text.as_bytes());
        ensure!(!found, "the page would carry the name of a folder of this machine ({text})");
    }
    Ok(())
}
