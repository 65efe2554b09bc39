//! The parts that let the site be installed and opened without a network: worker, manifest and icons.

use crate::run::root;
use crate::site::{File, sha256};
use anyhow::{Context, Result, ensure};
use std::fs;

/// Lie in `pwa/` and are copied as they are.
const COPIED: [&str; 5] =
    ["icon.svg", "icon-180.png", "icon-192.png", "icon-512.png", "manifest.webmanifest"];

/// Icons and manifest.
pub fn copied() -> Result<Vec<File>> {
    COPIED.iter().map(|name| Ok((name.to_string(), read(name)?))).collect()
}

/// A file of `pwa/`.
pub fn read(name: &str) -> Result<Vec<u8>> {
    fs::read(root().join("pwa").join(name)).with_context(|| format!("no pwa/{name}"))
}

/// The worker that keeps `files`, all that the site consists of besides.
pub fn worker(files: &[File]) -> Result<File> {
    let lines: Vec<String> =
        files.iter().map(|(name, bytes)| format!("  \"{name}\": \"{}\"", sha256(bytes))).collect();
    ensure!(lines.iter().all(|line| !line.contains('\\')), "a file name that needs escaping");
    let list = format!("{{\n{}\n}}", lines.join(",\n"));
    let version = sha256(list.as_bytes()).split_at(16).0.to_string();
    let text = String::from_utf8(read("sw.js")?)?;
    ensure!(text.contains("{FILES}") && text.contains("{VERSION}"), "pwa/sw.js has no place for its list");
    Ok(("sw.js".into(), text.replace("{FILES}", &list).replace("{VERSION}", &version).into_bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_content_makes_another_version() {
        let text = |bytes: &[u8]| worker(&[("a.js".into(), bytes.to_vec())]).unwrap().1;
        assert_ne!(text(b"1"), text(b"2"));
        assert_eq!(text(b"1"), text(b"1"));
        let text = String::from_utf8(text(b"1")).unwrap();
        // SHA-256 of "1", as `printf 1 | sha256sum` prints it.
        assert!(text.contains("6b86b273ff34fce19d6b804eff5a3f5747ada4eaa22f1d49c01e52ddb7875b4b"), "{text}");
    }

    #[test]
    fn the_manifest_names_only_files_that_are_there() {
        let manifest: serde_json::Value =
            serde_json::from_slice(&read("manifest.webmanifest").unwrap()).unwrap();
        for icon in manifest["icons"].as_array().unwrap() {
            let name = icon["src"].as_str().unwrap().trim_start_matches("./");
            assert!(COPIED.contains(&name), "{name}");
        }
    }
}
