//! `index.html` as the built site has it: the lines meant for a build tool are replaced, the rest stays.

use anyhow::{Context, Result, ensure};

/// What the browser may do for the site: load what lies beside it, and nothing else.
/// A host that can set headers should add `frame-ancestors 'none'`, which is ignored here.
pub const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' data: blob:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; \
    form-action 'none'";

/// What stands in the page in place of the lines that are meant for a build tool.
pub struct Parts<'a> {
    /// The content policy.
    pub policy: &'a str,
    /// The version and its date, for the about page.
    pub version: &'a str,
    /// The styles, as an element.
    pub style: &'a str,
    /// What starts the program, as elements.
    pub program: &'a str,
    /// The second program beside the page. Without it no file beside the page may be named, icons and manifest
    /// neither.
    pub extras: Option<&'a str>,
}

/// The style sheets that the page lists, in that order.
pub fn styles(html: &str) -> Result<Vec<&str>> {
    let links = html.lines().filter(|line| for_tool(line, "css"));
    links.map(|line| href(line).context("a style sheet without href in index.html")).collect()
}

fn href(line: &str) -> Option<&str> {
    let (_, rest) = line.split_once("href=\"")?;
    rest.split_once('"').map(|(href, _)| href)
}

/// The page, with its parts filled in.
pub fn fill(html: &str, parts: &Parts) -> Result<String> {
    let (mut page, mut policy, mut style, mut program) = (String::new(), false, false, false);
    for line in html.lines() {
        if line.contains("<meta charset") {
            let Parts { policy: text, version, .. } = parts;
            page += &format!(
                "{line}\n<meta http-equiv=\"Content-Security-Policy\" content=\"{text}\">\n\
                 <meta name=\"version\" content=\"{version}\">\n"
            );
            if let Some(extras) = parts.extras {
                page += &format!("<meta name=\"extras\" content=\"./{extras}\">\n");
            }
            policy = true;
        } else if for_tool(line, "css") {
            if !style {
                page += parts.style;
            }
            style = true;
        } else if for_tool(line, "rust") {
            page += parts.program;
            program = true;
        } else if !(line.trim_start().starts_with("<!--")
            || parts.extras.is_none() && line.contains("href=\"./"))
        {
            page += line;
            page.push('\n');
        }
    }
    ensure!(policy && style && program, "index.html lacks its charset, its styles or its program");
    ensure!(!page.contains("data-trunk"), "index.html asks for a kind of file that xtask does not know");
    Ok(page)
}

fn for_tool(line: &str, rel: &str) -> bool {
    line.contains("data-trunk") && line.contains(&format!("rel=\"{rel}\""))
}

#[cfg(test)]
mod tests {
    use super::*;

    const HTML: &str = include_str!("../../index.html");

    #[test]
    fn the_page_keeps_its_shell_and_names_only_files_beside_it() {
        let parts = Parts {
            policy: POLICY,
            version: "1",
            style: "<style>",
            program: "<script>",
            extras: Some("extras.wasm"),
        };
        let page = fill(HTML, &parts).unwrap();
        assert!(page.contains("<h1>Bathbook</h1>") && page.contains("Content-Security-Policy"));
        assert!(page.find("Content-Security-Policy") < page.find("<link"));
        for link in page.split("href=\"").chain(page.split("src=\"")).skip(1) {
            assert!(
                link.starts_with("./") || link.starts_with("data:") || link.starts_with("<!doctype"),
                "{link}"
            );
        }
        let alone = fill(HTML, &Parts { extras: None, ..parts }).unwrap();
        assert!(!alone.contains("\"./"), "a page of one file names no other");
    }

    #[test]
    fn styles_are_taken_in_the_order_of_the_page() {
        let html = "<link data-trunk rel=\"css\" href=\"style/b.css\">\n<link data-trunk rel=\"css\" href=\"style/a.css\">";
        assert_eq!(styles(html).unwrap(), ["style/b.css", "style/a.css"]);
        assert!(!styles(HTML).unwrap().is_empty());
    }
}
