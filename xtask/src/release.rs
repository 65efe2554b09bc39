//! All that is handed on, in `release/`: the site, the page of one file, licences and check sums.

use crate::run::{Stages, cargo, root, run, target};
use crate::site::{self, sha256};
use crate::{figures, licences};
use anyhow::{Context, Result, ensure};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Builds `release/` anew; the folder is the answer.
pub fn build() -> Result<PathBuf> {
    let dist = site::build()?;
    let release = root().join("release");
    let _ = fs::remove_dir_all(&release);
    fs::create_dir_all(release.join("site"))?;
    for (name, bytes) in contents(&dist)? {
        fs::write(release.join("site").join(name), bytes)?;
    }
    fs::copy(site::one_file_path(), release.join("bathbook.html"))?;
    fs::write(release.join("LICENCES.txt"), licences::text()?)?;
    let sums: Vec<String> =
        contents(&release)?.iter().map(|(name, bytes)| format!("{}  {name}\n", sha256(bytes))).collect();
    // In the form that `sha256sum --check SHA256SUMS` reads.
    fs::write(release.join("SHA256SUMS"), sums.concat())?;
    figures::sizes()?;
    println!("\nBathbook {} lies in {}", site::version(), release.display());
    Ok(release)
}

/// Builds the release twice, each time from nothing, and compares every file.
pub fn twice(stages: &mut Stages) -> Result<()> {
    let mut built = Vec::new();
    for name in ["first", "second"] {
        let folder = target().join("twice").join(name);
        let _ = fs::remove_dir_all(&folder);
        stages.stage(name, || run(cargo().args(["xtask", "release"]).env("CARGO_TARGET_DIR", &folder)))?;
        built.push(contents(&root().join("release"))?);
        let _ = fs::remove_dir_all(&folder);
    }
    let differing: Vec<&String> =
        built[0].keys().filter(|name| built[0].get(*name) != built[1].get(*name)).collect();
    ensure!(built[0].len() == built[1].len() && differing.is_empty(), "these files differ: {differing:?}");
    println!("\n{} files, the same byte for byte", built[0].len());
    Ok(())
}

/// Every file below a folder, by its path within, in order.
fn contents(folder: &Path) -> Result<BTreeMap<String, Vec<u8>>> {
    let (mut found, mut waiting) = (BTreeMap::new(), vec![folder.to_path_buf()]);
    while let Some(at) = waiting.pop() {
        for entry in fs::read_dir(&at).with_context(|| format!("no {}", at.display()))? {
            let path = entry?.path();
            if path.is_dir() {
                waiting.push(path);
            } else {
                let name = path.strip_prefix(folder)?.to_string_lossy().replace('\\', "/");
                found.insert(name, fs::read(&path)?);
            }
        }
    }
    Ok(found)
}
