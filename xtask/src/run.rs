//! Running other programs, and what each stage took.

use anyhow::{Context, Result, ensure};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::{Duration, Instant};

/// The top of the project.
pub fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_path_buf()
}

/// Where Cargo puts what it builds.
pub fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), |folder| root().join(folder))
}

/// The Cargo that runs this program.
pub fn cargo() -> Command {
    Command::new(std::env::var_os("CARGO").unwrap_or("cargo".into()))
}

/// Runs a command at the top of the project, its output shown, and fails as it fails.
pub fn run(command: &mut Command) -> Result<()> {
    let line = std::iter::once(command.get_program()).chain(command.get_args());
    let line = line.map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ");
    let status = command.current_dir(root()).status().with_context(|| format!("could not start “{line}”"))?;
    ensure!(status.success(), "“{line}” failed");
    Ok(())
}

/// Whether a program can be called by its bare name.
pub fn on_path(program: &str) -> bool {
    let folders = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&folders).any(|folder| folder.join(program).is_file())
}

/// The stages of a long task, with their times.
#[derive(Default)]
pub struct Stages(Vec<(&'static str, Duration)>);

impl Stages {
    /// Runs the task and prints what each stage took, also when one of them failed.
    pub fn timed(task: impl FnOnce(&mut Stages) -> Result<()>) -> Result<()> {
        let (start, mut stages) = (Instant::now(), Stages::default());
        let result = task(&mut stages);
        println!();
        for (name, time) in stages.0 {
            println!("{:>7.1} s  {name}", time.as_secs_f64());
        }
        println!("{:>7.1} s  in all", start.elapsed().as_secs_f64());
        result
    }

    pub fn stage(&mut self, name: &'static str, work: impl FnOnce() -> Result<()>) -> Result<()> {
        println!("\n— {name}");
        let start = Instant::now();
        let result = work();
        self.0.push((name, start.elapsed()));
        result.with_context(|| format!("stopped at: {name}"))
    }
}
