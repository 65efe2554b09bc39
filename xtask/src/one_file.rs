//! `bathbook.html`: the whole app in one file, to be opened from a memory stick.

use crate::page::{self, Parts};
use anyhow::{Result, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};
use std::io::Write;

/// Unpacks the program that the page carries and starts it. It stands behind the bridge in one module, so
/// that nothing has to be loaded. It has no worker: a file from the disk can have none.
const START: &str = r#"
try {
  const packed = Uint8Array.from(atob(document.getElementById("program").textContent), (c) => c.charCodeAt(0));
  const program = new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip")));
  await __wbg_init({ module_or_path: await program.arrayBuffer() });
} catch (error) {
  const status = document.getElementById("shell-status");
  if (status) {
    status.textContent = "Bathbook did not open: this browser may be too old, or it does not let a file run "
      + "scripts. Open the file in another browser. Plans kept on this device are untouched.";
  }
  throw error;
}
"#;

/// The page with styles, program and bridge within.
pub fn page(
    html: &str,
    version: &str,
    css: &str,
    bridge: &str,
    wasm: &[u8],
    extras: &[u8],
) -> Result<Vec<u8>> {
    let mut packer = flate2::GzBuilder::new().write(Vec::new(), flate2::Compression::best());
    packer.write_all(wasm)?;
    let program = STANDARD.encode(packer.finish()?);
    // Unpacked by the program itself, which knows this form by the links.
    let mut packer = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::best());
    packer.write_all(extras)?;
    let extras = STANDARD.encode(packer.finish()?);
    let script = format!("{bridge}{START}");
    ensure!(script.contains("__wbg_init as default"), "the bridge names its start in another way");
    ensure!(
        !script.contains("</script") && !script.contains("<!--"),
        "the bridge cannot stand within a page"
    );
    ensure!(!css.contains("</style"), "the styles cannot stand within a page");
    let hash = |text: &str| STANDARD.encode(Sha256::digest(text));
    let policy = format!(
        "default-src 'none'; script-src 'sha256-{}' 'wasm-unsafe-eval'; style-src 'sha256-{}'; \
         img-src data: blob:; base-uri 'none'; form-action 'none'",
        hash(&script),
        hash(css)
    );
    let parts = Parts {
        policy: &policy,
        version,
        style: &format!("<style>{css}</style>\n"),
        // A module runs once the page stands, so it may come before what it reads.
        program: &format!(
            "<script type=\"module\">{script}</script>\n\
             <script type=\"application/octet-stream\" id=\"program\">{program}</script>\n\
             <script type=\"application/octet-stream\" id=\"extras\">{extras}</script>\n"
        ),
        extras: None,
    };
    let page = page::fill(html, &parts)?.replacen("<html ", "<html data-one-file ", 1);
    ensure!(page.contains("data-one-file"), "index.html does not begin as it did");
    Ok(page.into_bytes())
}
