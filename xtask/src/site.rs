//! Builds the site into `dist/`: a folder for any static host, under any address.

use crate::bridge::number_names;
use crate::needs::{TARGET, wasm_target};
use crate::page::{self, Parts};
use crate::run::{cargo, root, run, target};
use crate::{offline, one_file};
use anyhow::{Context, Result, ensure};
use sha2::{Digest, Sha256};
use std::ffi::OsString;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

/// A file of the site: name and content.
pub type File = (String, Vec<u8>);

/// Compiles the page and writes `dist/` anew; the folder is the answer.
pub fn build() -> Result<PathBuf> {
    wasm_target()?;
    run(cargo()
        .args(["build", "--release", "--locked", "--target", TARGET, "--bin", "bathbook"])
        .env("CARGO_ENCODED_RUSTFLAGS", without_folders()))?;
    let extras = extras()?;
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

    let version = version();
    let bridge_text = String::from_utf8(js)?;
    let css_text = styles(&html)?;
    let alone = one_file::page(&html, &version, &css_text, &bridge_text, &wasm, &extras)?;

    let mut files = Vec::new();
    let wasm = add(&mut files, "bathbook", "wasm", wasm);
    let js = add(&mut files, "bathbook", "js", bridge_text.into_bytes());
    let extras = add(&mut files, "extras", "wasm", extras);
    let css = add(&mut files, "style", "css", css_text.into_bytes());
    let boot = String::from_utf8(offline::read("boot.js")?)?.replace("{JS}", &js).replace("{WASM}", &wasm);
    let boot = add(&mut files, "boot", "js", boot.into_bytes());
    let parts = Parts {
        policy: page::POLICY,
        version: &version,
        style: &format!("<link rel=\"stylesheet\" href=\"./{css}\">\n"),
        program: &format!(
            "<link rel=\"modulepreload\" href=\"./{js}\">\n\
             <link rel=\"preload\" href=\"./{wasm}\" as=\"fetch\" type=\"application/wasm\" crossorigin>\n\
             <script type=\"module\" src=\"./{boot}\"></script>\n"
        ),
        extras: Some(&extras),
    };
    files.push(("index.html".into(), page::fill(&html, &parts)?.into_bytes()));
    files.extend(offline::copied()?);
    let worker = offline::worker(&files)?;
    files.push(worker);

    let dist = root().join("dist");
    let _ = fs::remove_dir_all(&dist);
    fs::create_dir_all(&dist)?;
    for (name, bytes) in files {
        fs::write(dist.join(&name), bytes).with_context(|| format!("could not write dist/{name}"))?;
    }
    // Beside the site and not within: who visits the site has no use for it.
    let single = one_file_path();
    fs::create_dir_all(single.parent().unwrap_or(&single))?;
    fs::write(&single, alone).context("could not write the page of one file")?;
    Ok(dist)
}

/// The second program, which the page loads when it is wanted. It has no bridge, so it may ask for nothing.
fn extras() -> Result<Vec<u8>> {
    run(cargo()
        .args(["build", "--profile=extras", "--locked", "--target", TARGET, "--package=bathbook-extras"])
        .env("CARGO_ENCODED_RUSTFLAGS", without_folders()))?;
    let wasm = fs::read(target().join(TARGET).join("extras/bathbook_extras.wasm"))?;
    ensure_no_folders(&wasm)?;
    ensure!(
        !has_imports(&wasm),
        "a dependency of the extras wants something of the browser: see extras/Cargo.toml"
    );
    Ok(wasm)
}

/// Whether a program of WebAssembly wants anything of who loads it: whether it has a section of number 2.
/// Source: W3C, WebAssembly Core Specification, section 5.5 (modules).
fn has_imports(wasm: &[u8]) -> bool {
    let mut rest = wasm.get(8..).unwrap_or_default();
    while let Some((section, behind)) = rest.split_first() {
        // The size of the section, in seven bits a byte, the lowest first.
        let bytes = behind.iter().take_while(|byte| **byte >= 0x80).count() + 1;
        let length = behind.iter().take(bytes).rev().fold(0, |sum, byte| sum << 7 | usize::from(byte & 0x7f));
        if *section == 2 {
            return true;
        }
        rest = behind.get(bytes + length..).unwrap_or_default();
    }
    false
}

/// Where the page of one file is built.
pub fn one_file_path() -> PathBuf {
    target().join("one-file/bathbook.html")
}

/// "0.1.0, 2026-11-29": the version with the day of its last commit, which is the same wherever it is built.
pub fn version() -> String {
    let day = Command::new("git").args(["log", "-1", "--format=%cs"]).current_dir(root()).output();
    let day = day.ok().filter(|output| output.status.success());
    let day = day.and_then(|output| String::from_utf8(output.stdout).ok()).unwrap_or_default();
    let number = env!("CARGO_PKG_VERSION");
    if day.trim().is_empty() { number.into() } else { format!("{number}, {}", day.trim()) }
}

/// In hexadecimal figures.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Names a file after its content, so that hosts and browsers may keep it for ever.
fn add(files: &mut Vec<File>, stem: &str, end: &str, bytes: Vec<u8>) -> String {
    let name = format!("{stem}-{}.{end}", &sha256(&bytes)[..16]);
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_program_wants_of_its_loader_is_seen() {
        // By hand after the specification: head, a section of 130 bytes that says nothing, and one of imports.
        let mut wasm = b"\0asm\x01\0\0\0\0\x82\x01".to_vec();
        wasm.extend([0; 130]);
        assert!(!has_imports(&wasm));
        wasm.extend([2, 1, 0]);
        assert!(has_imports(&wasm));
    }
}
