//! The main jobs in each browser.

use crate::run::{Stages, cargo, on_path, run};
use crate::{needs, site};
use anyhow::{Context, Result};
use std::process::Command;

pub fn test(stages: &mut Stages) -> Result<()> {
    stages.stage("Chromium and its driver", needs::browser)?;
    stages.stage("Firefox, WebKit and their drivers", needs::other_browsers)?;
    stages.stage("site", || site::build().map(drop))?;
    stages.stage("jobs in each browser", jobs)
}

fn jobs() -> Result<()> {
    // For the table of the README. WebKit's driver tells no version, but its package does.
    run(Command::new("chromium").arg("--version"))?;
    run(Command::new("firefox-esr").arg("--version"))?;
    if on_path("dpkg-query") {
        run(Command::new("dpkg-query").args(["--show", "webkit2gtk-driver"]))?;
    }
    let driver = needs::geckodriver_place().join("bin");
    let path = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths(std::iter::once(driver).chain(std::env::split_paths(&path)))
        .context("the folder of Firefox’s driver cannot stand on the path")?;
    // WebKit's browser needs a screen: here one in memory.
    let mut tests = Command::new("xvfb-run");
    tests.args(["-a", "-s", "-screen 0 1280x1024x24"]).arg(cargo().get_program());
    tests.args(["test", "--locked", "--features=browser-tests", "--test", "engines"]);
    run(tests.env("PATH", path))
}
