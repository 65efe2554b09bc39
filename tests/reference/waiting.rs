//! Laws that no sheet uses yet: their rows are no proof of any sheet, so they are counted apart.
//!
//! Read from the sources by name, as nothing else knows which function calls which.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// What the doc comment of such a law says, and for which sheet it waits.
const MARK: &str = "No sheet uses it yet";

/// A function of a source file.
struct Function {
    /// The module: the name of its file.
    module: String,
    name: String,
    /// Whether it stands by itself and all may call it.
    is_law: bool,
    waits: bool,
    /// What its comment says, if it waits.
    waits_for: String,
    body: String,
}

/// The sources of a folder, without their comments and tests.
fn sources(folder: &Path) -> Vec<(PathBuf, String)> {
    let entries = std::fs::read_dir(folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    let mut paths: Vec<_> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
    paths.sort();
    let mut all = Vec::new();
    for path in paths {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if path.is_dir() {
            all.extend(sources(&path));
        } else if name.ends_with(".rs") && !name.ends_with("tests.rs") {
            let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
            all.push((path, text.split("#[cfg(test)]").next().unwrap_or_default().to_string()));
        }
    }
    all
}

fn functions(path: &Path, text: &str) -> Vec<Function> {
    let module = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let mut found: Vec<Function> = Vec::new();
    let mut doc = String::new();
    for line in text.lines() {
        let code = line.trim_start();
        let head =
            code.trim_start_matches("pub(super) ").trim_start_matches("pub ").trim_start_matches("const ");
        if let Some(rest) = head.strip_prefix("fn ") {
            let name = rest.split(|c: char| !c.is_alphanumeric() && c != '_').next().unwrap_or_default();
            let waits = doc.contains(MARK);
            let waits_for = if waits { doc.clone() } else { String::new() };
            let (module, name, body) = (module.clone(), name.to_string(), String::new());
            found.push(Function {
                module,
                name,
                is_law: line.starts_with("pub fn "),
                waits,
                waits_for,
                body,
            });
        } else if let Some(function) = found.last_mut().filter(|_| !code.starts_with("//")) {
            function.body += line;
            function.body += "\n";
        }
        if code.starts_with("///") || code.starts_with("#[") {
            doc += code;
        } else {
            doc.clear();
        }
    }
    found
}

/// Whether a text calls a function by its name, or names it behind a path.
fn names(text: &str, path: &str, name: &str) -> bool {
    let whole = format!("{path}{name}");
    text.match_indices(&whole).any(|(at, _)| {
        let (before, after) = (&text[..at], text[at + whole.len()..].trim_start());
        let is_part = |c: char| c.is_alphanumeric() || c == '_';
        !before.ends_with(is_part)
            && !before.ends_with("fn ")
            && !text[at + whole.len()..].starts_with(is_part)
            && (after.starts_with('(') || before.ends_with("::") || !path.is_empty())
    })
}

/// The functions of `science`, and how sure it must be that one is meant: several may have the same name, and an
/// import may lie between. In doubt nothing is said.
struct Laws(Vec<Function>);

#[derive(Clone, Copy, PartialEq)]
enum Sure {
    /// The name alone will do.
    Maybe,
    /// Where others have the same name, the module is said.
    Certain,
}

impl Laws {
    fn all() -> Laws {
        let sources = sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/science"));
        Laws(sources.iter().flat_map(|(path, text)| functions(path, text)).collect())
    }

    /// Whether no other has its name.
    fn is_one(&self, function: &Function) -> bool {
        self.0.iter().filter(|other| other.name == function.name).count() == 1
    }

    /// Whether a text of a module calls a function.
    fn calls(&self, text: &str, module: &str, function: &Function, sure: Sure) -> bool {
        let is_one = sure == Sure::Maybe || self.is_one(function);
        let path = format!("{}::", function.module);
        names(text, &path, &function.name)
            || ((is_one || module == function.module) && names(text, "", &function.name))
    }

    /// Those that some texts call, and those that these call.
    fn reached(&self, texts: &[(String, String)], sure: Sure) -> BTreeSet<usize> {
        let mut texts = texts.to_vec();
        let mut reached = BTreeSet::new();
        while !texts.is_empty() {
            let new = |at: &usize| {
                !reached.contains(at)
                    && texts.iter().any(|(module, text)| self.calls(text, module, &self.0[*at], sure))
            };
            let new: Vec<usize> = (0..self.0.len()).filter(new).collect();
            let next = |at: &usize| (self.0[*at].module.clone(), self.0[*at].body.clone());
            texts = new.iter().map(next).collect();
            reached.extend(new);
        }
        reached
    }
}

/// A source without what stands in comments.
fn code(text: &str) -> String {
    text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
}

/// Laws that no sheet reaches without their mark, and marks of laws that a sheet reaches.
pub fn wrong_marks() -> Vec<String> {
    let laws = Laws::all();
    let sheets = sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/calculators"));
    let texts: Vec<_> = sheets.iter().map(|(_, text)| (String::new(), code(text))).collect();
    let [certain, maybe] = [Sure::Certain, Sure::Maybe].map(|sure| laws.reached(&texts, sure));
    // What a law that waits calls, waits with it.
    let waiting = laws.0.iter().filter(|law| law.waits);
    let waiting: Vec<_> = waiting.map(|law| (law.module.clone(), law.body.clone())).collect();
    let waits_with = laws.reached(&waiting, Sure::Maybe);
    let mut wrong = Vec::new();
    // A law waits for a sheet that is still to come.
    let titles = || bathbook::calculators::ALL.iter().map(|calculator| calculator.title);
    for Function { module, name, waits_for, .. } in &laws.0 {
        if titles().any(|title| waits_for.contains(&format!("“{title}”"))) {
            wrong
                .push(format!("{module}::{name}: the sheet that it waits for is there; use it or delete it"));
        }
    }
    for (at, Function { module, name, is_law, waits, .. }) in laws.0.iter().enumerate() {
        if *waits && certain.contains(&at) {
            wrong.push(format!("{module}::{name}: a sheet uses it, so strike “{MARK}”"));
        }
        if *is_law && !waits && !maybe.contains(&at) && !waits_with.contains(&at) {
            wrong.push(format!(
                "{module}::{name}: no sheet uses it; say “{MARK}: it waits for …”, or delete it"
            ));
        }
    }
    wrong
}

/// The topics that are put straight to a law which no sheet uses yet.
pub fn waiting_topics(topics: &[&str]) -> BTreeSet<String> {
    let laws = Laws::all();
    let mut waiting = BTreeSet::new();
    for (_, text) in sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference")) {
        let text = code(&text);
        let mut starts: Vec<_> =
            topics.iter().filter_map(|topic| Some((text.find(&format!("(\"{topic}\","))?, *topic))).collect();
        starts.sort();
        for (k, (start, topic)) in starts.iter().enumerate() {
            let end = starts.get(k + 1).map_or(text.len(), |(next, _)| *next);
            let own = text[*start..end].split("\n}").next().unwrap_or_default();
            let is_put_to = |law: &Function| {
                law.waits
                    && (laws.calls(own, "", law, Sure::Certain)
                        || (laws.is_one(law) && is_handed_on(own, &law.name)))
            };
            if laws.0.iter().any(is_put_to) {
                waiting.insert(topic.to_string());
            }
        }
    }
    waiting
}

/// Whether a function is handed on by its name alone: `, name)`.
fn is_handed_on(text: &str, name: &str) -> bool {
    text.contains(&format!(", {name})"))
}
