//! The main jobs in each browser.

use crate::run::{Stages, cargo, run};
use crate::{needs, site};
use anyhow::{Context, Result};
use std::process::Command;

/// What runs within a screen in memory: the command that its arguments spell.
const ON_A_SCREEN: [&str; 4] = ["xvfb-run", "-a", "-s", "-screen 0 1280x1024x24"];

pub fn test(stages: &mut Stages) -> Result<()> {
    stages.stage("Chromium", needs::browser)?;
    stages.stage("Firefox, WebKit, their drivers", needs::other_browsers)?;
    stages.stage("site", || site::build().map(drop))?;
    stages.stage("jobs in each browser", jobs)
}

fn jobs() -> Result<()> {
    let drivers = needs::geckodriver_place().join("bin");
    let path = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths(std::iter::once(drivers).chain(std::env::split_paths(&path)))
        .context("a folder whose name holds a colon")?;
    for (program, argument) in [
        ("chromium", "--version"),
        ("firefox-esr", "--version"),
        // WebKit's driver says no version of its own, but comes from the same source.
        ("dpkg-query", "--show"),
    ] {
        let mut command = Command::new(program);
        command.arg(argument);
        if program == "dpkg-query" {
            command.arg("webkit2gtk-driver");
        }
        run(&mut command)?;
    }
    let tests = cargo();
    let line = ["test", "--locked", "--features=browser-tests", "--test", "engines"];
    let mut on_a_screen = Command::new(ON_A_SCREEN[0]);
    on_a_screen.args(&ON_A_SCREEN[1..]).arg(tests.get_program()).args(line).env("PATH", path);
    run(&mut on_a_screen)
}
