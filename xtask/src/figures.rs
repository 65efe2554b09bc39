//! Figures: what a visitor downloads, and what a browser takes. Printed, never asserted.

use crate::run::{cargo, root, run, target};
use crate::{BROWSER_TESTS, needs, site};
use anyhow::{Context, Result};
use std::fs;
use std::io::Write;

/// Where the browser tests leave their figures, a line each: name, value, unit, parted by tabs.
const TIMES: &str = "figures/browser.tsv";

pub fn print() -> Result<()> {
    site::build()?;
    needs::browser()?;
    let times = target().join(TIMES);
    let _ = fs::remove_file(&times);
    let native =
        ["test", "--locked", "--release", "--test", "evaluation", "--", "--ignored", "--test-threads=1"];
    run(cargo().args(native))?;
    // The figures of the browser are tests named `figure_…`, ignored unless asked for.
    run(cargo().args(BROWSER_TESTS).args(["--", "--ignored", "--test-threads=1", "figure_"]))?;
    println!();
    sizes()?;
    println!();
    let times = fs::read_to_string(&times).context("the browser left no figures")?;
    for line in times.lines() {
        let mut parts = line.split('\t');
        let [name, value, unit] = [(); 3].map(|()| parts.next().unwrap_or_default());
        println!("{name:<60} {value:>10} {unit}");
    }
    Ok(())
}

/// Prints the size of every file of `dist/` as it is and as a host would send it.
pub fn sizes() -> Result<()> {
    let mut files: Vec<_> = fs::read_dir(root().join("dist"))?.collect::<Result<_, _>>()?;
    files.sort_by_key(|file| file.file_name());
    println!("{:<32} {:>10} {:>10} {:>10}", "bytes", "raw", "gzip", "brotli");
    let mut total = [0; 3];
    for file in files {
        let bytes = fs::read(file.path())?;
        let sizes = [bytes.len(), gzip(&bytes)?, brotli(&bytes)?];
        total = std::array::from_fn(|i| total[i] + sizes[i]);
        row(&file.file_name().to_string_lossy(), sizes);
    }
    row("total", total);
    Ok(())
}

fn row(name: &str, [raw, gzip, brotli]: [usize; 3]) {
    println!("{name:<32} {raw:>10} {gzip:>10} {brotli:>10}");
}

fn gzip(bytes: &[u8]) -> Result<usize> {
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    encoder.write_all(bytes)?;
    Ok(encoder.finish()?.len())
}

fn brotli(bytes: &[u8]) -> Result<usize> {
    let mut out = Vec::new();
    let parameters = brotli::enc::BrotliEncoderParams { quality: 11, lgwin: 22, ..Default::default() };
    brotli::BrotliCompress(&mut &bytes[..], &mut out, &parameters)?;
    Ok(out.len())
}
