//! `cargo xtask …`: builds, serves and tests Bathbook with nothing but Cargo at hand.

mod bridge;
mod browsers;
mod figures;
mod licences;
mod needs;
mod offline;
mod one_file;
mod page;
mod release;
mod run;
mod server;
#[cfg(test)]
mod server_tests;
mod site;

use anyhow::{Result, bail};
use run::{Stages, cargo, run};
use std::process::ExitCode;

const HELP: &str = "cargo xtask …
  serve    build the site, serve it on this machine and print the address
  test     get what the tests need, then format, lints, native tests, site, browser tests
  check    format, lints and native tests only
  browsers get Firefox and WebKit too, build the site, and run the main jobs in each browser
  build    build the site into dist/
  release  build all that is handed on into release/: site, page of one file, licences, check sums
  twice    build the release twice from nothing, and compare it byte for byte
  figures  build the site, print its sizes and the times that a browser takes";

fn main() -> ExitCode {
    match task() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn task() -> Result<()> {
    let mut arguments = std::env::args().skip(1);
    let (name, rest) = (arguments.next(), arguments.next());
    match (name.as_deref(), rest) {
        (Some("build"), None) => built(),
        (Some("serve"), None) => serve(),
        (Some("test"), None) => Stages::timed(test),
        (Some("check"), None) => Stages::timed(check),
        (Some("browsers"), None) => Stages::timed(browsers::test),
        (Some("release"), None) => release::build().map(drop),
        (Some("twice"), None) => Stages::timed(release::twice),
        (Some("figures"), None) => figures::print(),
        (None | Some("help" | "--help" | "-h"), _) => {
            println!("{HELP}");
            Ok(())
        }
        (Some(other), _) => bail!("no task “{other}”, or it takes no arguments\n{HELP}"),
    }
}

fn built() -> Result<()> {
    site::build()?;
    figures::sizes()
}

fn serve() -> Result<()> {
    let dist = site::build()?;
    let site = server::Site::start(&dist, 8080, "/").or_else(|_| server::Site::start(&dist, 0, "/"))?;
    println!("Bathbook is served at {} (Ctrl+C ends it)", site.address());
    loop {
        std::thread::park();
    }
}

/// The browser tests as arguments of `cargo test`.
pub const BROWSER_TESTS: [&str; 5] = ["test", "--locked", "--features=browser-tests", "--test", "browser"];

fn test(stages: &mut Stages) -> Result<()> {
    stages.stage("browser, driver, font", needs::browser)?;
    check(stages)?;
    stages.stage("site", built)?;
    stages.stage("browser tests", || run(cargo().args(BROWSER_TESTS)))
}

fn check(stages: &mut Stages) -> Result<()> {
    stages.stage("wasm target", needs::wasm_target)?;
    stages.stage("format", || run(cargo().args(["fmt", "--all", "--check"])))?;
    let clippy = ["clippy", "--locked"];
    let host = ["--workspace", "--all-targets", "--features=bathbook/browser-tests", "--", "-D", "warnings"];
    stages.stage("lints", || run(cargo().args(clippy).args(host)))?;
    let page = ["--lib", "--bins", "--target", needs::TARGET, "--", "-D", "warnings"];
    stages.stage("lints of the page", || run(cargo().args(clippy).args(page)))?;
    stages.stage("native tests", || run(cargo().args(["test", "--locked", "--workspace"])))
}
