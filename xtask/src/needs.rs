//! What building and testing need beyond Cargo: got where it is missing.

use crate::run::{cargo, on_path, root, run, target};
use anyhow::{Result, bail};
use std::fs;
use std::io::{IsTerminal, stdin};
use std::path::{Path, PathBuf};
use std::process::Command;

/// What the page is compiled for.
pub const TARGET: &str = "wasm32-unknown-unknown";

/// The standard library for the browser.
pub fn wasm_target() -> Result<()> {
    let asked = Command::new("rustc")
        .args(["--print", "target-libdir", "--target", TARGET])
        .current_dir(root())
        .output();
    if asked.is_ok_and(|answer| Path::new(String::from_utf8_lossy(&answer.stdout).trim()).is_dir()) {
        return Ok(());
    }
    if !on_path("rustup") {
        bail!("Rust's {TARGET} target is missing, and rustup, which could add it, is too");
    }
    run(Command::new("rustup").args(["target", "add", TARGET]))
        .map_err(|error| error.context(format!("Rust's {TARGET} target is missing; the network is needed")))
}

/// A browser, the program that drives it, one that reads what it prints, and a font: Debian's browser comes without one.
pub fn browser() -> Result<()> {
    let mut missing = without(&[
        ("chromium", "chromium"),
        ("chromedriver", "chromium-driver"),
        ("pdftotext", "poppler-utils"),
    ]);
    let font =
        ["/usr/share/fonts", "/usr/local/share/fonts"].into_iter().any(|folder| has_font(folder.into()));
    if !font {
        missing.push("fonts-dejavu-core");
    }
    if missing.is_empty() { Ok(()) } else { install(&missing) }
}

/// The other browsers with their drivers, and a screen in memory for the one that cannot do without.
pub fn other_browsers() -> Result<()> {
    let missing = without(&[
        ("firefox-esr", "firefox-esr"),
        ("WebKitWebDriver", "webkit2gtk-driver"),
        ("xvfb-run", "xvfb"),
        ("xauth", "xauth"),
    ]);
    if !missing.is_empty() {
        install(&missing)?;
    }
    let place = geckodriver_place();
    if place.join("bin/geckodriver").is_file() {
        return Ok(());
    }
    let version = ["install", "geckodriver", "--locked", "--version", GECKODRIVER, "--root"];
    run(cargo().args(version).arg(&place)).map_err(|error| {
        error.context("Firefox's driver is built from its source, and that failed; the network is needed")
    })
}

/// Debian has no package of Firefox's driver.
const GECKODRIVER: &str = "0.37.1";

/// Where Firefox's driver is installed: a folder for each version, and nothing outside of the project.
pub fn geckodriver_place() -> PathBuf {
    target().join(format!("tools/geckodriver-{GECKODRIVER}"))
}

/// The packages of those programs, out of pairs of both, that cannot be called.
fn without<'a>(programs: &[(&str, &'a str)]) -> Vec<&'a str> {
    programs.iter().filter(|(program, _)| !on_path(program)).map(|(_, package)| *package).collect()
}

fn has_font(folder: PathBuf) -> bool {
    fs::read_dir(folder).into_iter().flatten().flatten().map(|entry| entry.path()).any(|path| {
        let font = path.extension().is_some_and(|end| end == "ttf" || end == "otf" || end == "ttc");
        font || (path.is_dir() && has_font(path))
    })
}

fn install(packages: &[&str]) -> Result<()> {
    let names = packages.join(" ");
    if !on_path("apt-get") {
        bail!(
            "the tests need {names} (Debian's names). There is no apt-get here: please install them by hand"
        );
    }
    let mut apt: Vec<&str> = Vec::new();
    if !is_root() {
        if !on_path("sudo") {
            bail!("the tests need {names}. As root, please run: apt-get install {names}");
        }
        apt.push("sudo");
        if !stdin().is_terminal() {
            // Nobody is there to type a password.
            apt.push("-n");
        }
    }
    apt.extend(["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q"]);
    println!("Installing {names}");
    let apt = |more: &[&str]| run(Command::new(apt[0]).args(&apt[1..]).args(more));
    let install = [&["install", "-y", "--no-install-recommends"], packages].concat();
    apt(&["update"]).and_then(|()| apt(&install)).map_err(|error| {
        error.context(format!(
            "the tests need {names}, and installing them failed (network, or the right to install?). \
             By hand: sudo apt-get install {names}"
        ))
    })
}

fn is_root() -> bool {
    Command::new("id").arg("-u").output().is_ok_and(|answer| answer.stdout.trim_ascii() == b"0")
}
