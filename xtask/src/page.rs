//! `index.html` as the built site has it: the lines meant for a build tool are replaced, the rest stays.

use anyhow::{Context, Result, ensure};

/// What the browser may do for this page: load what lies beside it, and nothing else.
/// A host that can set headers should add `frame-ancestors 'none'`, which is ignored here.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' data:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; \
    form-action 'none'";

/// The files that the page names.
pub struct Names<'a> {
    pub css: &'a str,
    pub boot: &'a str,
    pub js: &'a str,
    pub wasm: &'a str,
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

/// The page, with the names filled in.
pub fn fill(html: &str, names: &Names) -> Result<String> {
    let Names { css, boot, js, wasm } = names;
    let (mut page, mut policy, mut style, mut program) = (String::new(), false, false, false);
    for line in html.lines() {
        if line.contains("<meta charset") {
            page += &format!("{line}\n<meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n");
            policy = true;
        } else if for_tool(line, "css") {
            if !style {
                page += &format!("<link rel=\"stylesheet\" href=\"./{css}\">\n");
            }
            style = true;
        } else if for_tool(line, "rust") {
            page += &format!(
                "<link rel=\"modulepreload\" href=\"./{js}\">\n\
                 <link rel=\"preload\" href=\"./{wasm}\" as=\"fetch\" type=\"application/wasm\" crossorigin>\n\
                 <script type=\"module\" src=\"./{boot}\"></script>\n"
            );
            program = true;
        } else if !line.trim_start().starts_with("<!--") {
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
        let names = Names { css: "a.css", boot: "b.js", js: "c.js", wasm: "d.wasm" };
        let page = fill(HTML, &names).unwrap();
        assert!(page.contains("<h1>Bathbook</h1>") && page.contains("Content-Security-Policy"));
        assert!(page.find("Content-Security-Policy") < page.find("<link"));
        for link in page.split("href=\"").chain(page.split("src=\"")).skip(1) {
            assert!(
                link.starts_with("./") || link.starts_with("data:") || link.starts_with("<!doctype"),
                "{link}"
            );
        }
    }

    #[test]
    fn styles_are_taken_in_the_order_of_the_page() {
        let html = "<link data-trunk rel=\"css\" href=\"style/b.css\">\n<link data-trunk rel=\"css\" href=\"style/a.css\">";
        assert_eq!(styles(html).unwrap(), ["style/b.css", "style/a.css"]);
        assert!(!styles(HTML).unwrap().is_empty());
    }
}
