//! Going places, reading the page and doing what a person does on it. `css` is a selector; the first match counts.

use super::{Browser, Engine};
use serde_json::{Value, json};
use thirtyfour::error::WebDriverError;
use thirtyfour::{By, Key, WebElement};

fn text_of(error: WebDriverError) -> String {
    error.to_string()
}

/// Going places.
impl Browser {
    /// Goes to an address within the site (`""` is its first page) and waits until the page is ready.
    #[track_caller]
    pub fn goto(&self, within: &str) {
        let address = self.address() + within;
        self.run(self.session().goto(address.as_str())).expect("the site should answer");
        self.wait_ready();
    }

    #[track_caller]
    pub fn reload(&self) {
        if self.engine() == Engine::Firefox {
            // Its driver reloads past the worker, as a person does with Shift held. Plain, as a person does without:
            self.script("window.isOld = true; location.reload()", json!([])).expect("a script");
            self.until("the page to come anew", || {
                let old = self.script("return window.isOld === true", json!([]))?;
                if old == json!(false) { Ok(()) } else { Err("the old one is still there".into()) }
            });
        } else {
            self.run(self.session().refresh()).expect("reload");
        }
        self.wait_ready();
    }

    #[track_caller]
    pub fn back(&self) {
        self.run(self.session().back()).expect("back");
        self.wait_ready();
    }

    #[track_caller]
    pub fn forward(&self) {
        self.run(self.session().forward()).expect("forward");
        self.wait_ready();
    }

    /// Waits until the program has put up its page.
    #[track_caller]
    pub fn wait_ready(&self) {
        self.until("the page to be ready", || self.find("body[data-ready]").map(drop));
    }

    /// The part of the address after that of the site's first page.
    #[track_caller]
    pub fn place(&self) -> String {
        let url = self.run(self.session().current_url()).expect("an address").to_string();
        url.strip_prefix(&self.address()).map_or(url.clone(), str::to_string)
    }

    /// Opens a further tab on an address within the site and goes there; the answer is its number, from 0.
    #[track_caller]
    pub fn open_tab(&self, within: &str) -> usize {
        let tab = self.run(self.session().new_tab()).expect("a tab");
        self.run(self.session().switch_to_window(tab)).expect("the tab");
        self.goto(within);
        self.run(self.session().windows()).expect("tabs").len() - 1
    }

    /// Turns to a tab, by its number in the order of opening.
    #[track_caller]
    pub fn turn_to_tab(&self, number: usize) {
        let tabs = self.run(self.session().windows()).expect("tabs");
        self.run(self.session().switch_to_window(tabs[number].clone())).expect("the tab");
    }
}

/// Reading the page.
impl Browser {
    fn find(&self, css: &str) -> Result<WebElement, String> {
        self.run(self.session().find(By::Css(css))).map_err(|_| format!("nothing matches {css}"))
    }

    /// Waits until something that matches is on the page and can be seen.
    #[track_caller]
    pub fn wait(&self, css: &str) -> WebElement {
        self.until(css, || {
            let found = self.run(self.session().find_all(By::Css(css))).map_err(text_of)?;
            let mut shown = found.into_iter().filter(|it| self.run(it.is_displayed()).unwrap_or(false));
            shown.next().ok_or_else(|| format!("nothing shown matches {css}"))
        })
    }

    /// Waits until nothing that matches can be seen.
    #[track_caller]
    pub fn wait_gone(&self, css: &str) {
        self.until(&format!("{css} to go"), || {
            let found = self.run(self.session().find_all(By::Css(css))).map_err(text_of)?;
            let shown = found.iter().any(|it| self.run(it.is_displayed()).unwrap_or(false));
            if shown { Err("it is still shown".into()) } else { Ok(()) }
        });
    }

    /// Waits until the text is exactly this.
    #[track_caller]
    pub fn wait_text(&self, css: &str, text: &str) {
        self.until(&format!("“{text}” in {css}"), || {
            let found = self.run(self.find(css)?.text()).map_err(text_of)?;
            if found.trim() == text { Ok(()) } else { Err(format!("it reads “{found}”")) }
        });
    }

    /// Waits until the text holds this.
    #[track_caller]
    pub fn wait_holds(&self, css: &str, part: &str) {
        self.until(&format!("“{part}” within {css}"), || {
            let found = self.run(self.find(css)?.text()).map_err(text_of)?;
            if found.contains(part) { Ok(()) } else { Err(format!("it reads “{found}”")) }
        });
    }

    /// Waits until a field holds exactly this.
    #[track_caller]
    pub fn wait_value(&self, css: &str, value: &str) {
        self.until(&format!("“{value}” in the field {css}"), || {
            let found = self.run(self.find(css)?.value()).map_err(text_of)?.unwrap_or_default();
            if found == value { Ok(()) } else { Err(format!("it holds “{found}”")) }
        });
    }

    /// The text as it is shown.
    #[track_caller]
    pub fn text(&self, css: &str) -> String {
        self.until(css, || self.run(self.find(css)?.text()).map_err(text_of))
    }

    /// What a field holds.
    #[track_caller]
    pub fn value(&self, css: &str) -> String {
        self.until(css, || self.run(self.find(css)?.value()).map_err(text_of)).unwrap_or_default()
    }

    /// An attribute, if it is there.
    #[track_caller]
    pub fn attribute(&self, css: &str, name: &str) -> Option<String> {
        self.until(css, || self.run(self.find(css)?.attr(name)).map_err(text_of))
    }

    /// How many match, seen or not, right now.
    #[track_caller]
    pub fn count(&self, css: &str) -> usize {
        self.run(self.session().find_all(By::Css(css))).expect("a selector").len()
    }

    /// A selector for the field whose label begins with these words.
    #[track_caller]
    pub fn field(&self, label: &str) -> String {
        let script = "for (const label of document.querySelectorAll('label')) \
            if (label.innerText.trim().startsWith(arguments[0]) && label.htmlFor && label.checkVisibility()) \
            return '#' + CSS.escape(label.htmlFor); \
            return null";
        self.until(&format!("a field labelled “{label}”"), || {
            let id = self.script(script, json!([label]))?;
            id.as_str().map(str::to_string).ok_or_else(|| "no label reads so".to_string())
        })
    }

    /// What a script returns; `arguments` is an array.
    pub fn script(&self, script: &str, arguments: Value) -> Result<Value, String> {
        let arguments = arguments.as_array().cloned().unwrap_or_default();
        self.run(self.session().execute(script, arguments)).map(|it| it.json().clone()).map_err(text_of)
    }

    /// What an expression is worth, such as `document.activeElement.id`.
    #[track_caller]
    pub fn eval(&self, expression: &str) -> Value {
        self.script(&format!("return {expression}"), json!([])).expect("an expression")
    }

    /// What a promise comes to, such as `navigator.storage.persisted()`.
    #[track_caller]
    pub fn eval_promise(&self, expression: &str) -> Value {
        let script = format!(
            "const done = arguments[0]; Promise.resolve({expression}).then(done, e => done(String(e)))"
        );
        self.run(self.session().execute_async(script, Vec::new())).expect("a promise").json().clone()
    }
}

/// Doing.
impl Browser {
    /// Clicks it. What lies under the bar is drawn into the open for the next try, as a person would.
    fn touch(&self, it: &WebElement) -> Result<(), String> {
        let clicked = self.run(it.click()).map_err(text_of);
        if clicked.is_err() {
            let _ = self.run(it.scroll_into_view());
        }
        clicked
    }

    /// Clicks it, once it can be seen and nothing lies over it.
    #[track_caller]
    pub fn click(&self, css: &str) {
        self.until(&format!("{css} to take a click"), || self.touch(&self.find(css)?));
    }

    /// Clicks the button, link, tab or the like that shows exactly these words, or is called so.
    #[track_caller]
    pub fn click_named(&self, name: &str) {
        let script = "for (const it of document.querySelectorAll( \
            'button, a, summary, label, [role=button], [role=tab], [role=menuitem], [role=radio]')) \
            if (it.checkVisibility() && ((it.innerText ?? it.textContent).trim() === arguments[0] \
            || it.getAttribute('aria-label') === arguments[0])) \
            { it.scrollIntoView({ block: 'center', behavior: 'instant' }); return it; } \
            return null";
        self.until(&format!("“{name}” to take a click"), || {
            let arguments = vec![json!(name)];
            let found = self.run(self.session().execute(script, arguments)).map_err(text_of)?;
            self.touch(&found.element().map_err(|_| "nothing is called so".to_string())?)
        });
    }

    /// Chooses from a `<select>`, by the words shown.
    #[track_caller]
    pub fn choose(&self, css: &str, words: &str) {
        let script = "const it = document.querySelector(arguments[0]); if (!it) return null; \
            const option = [...it.options].find(option => option.text.trim() === arguments[1]); \
            if (!option) return null; it.value = option.value; \
            for (const kind of ['input', 'change']) it.dispatchEvent(new Event(kind, { bubbles: true })); \
            return true";
        self.until(&format!("“{words}” in {css}"), || {
            let chosen = self.script(script, json!([css, words]))?;
            if chosen == true { Ok(()) } else { Err("no such choice".into()) }
        });
    }

    /// Types at the end of what a field holds.
    #[track_caller]
    pub fn type_into(&self, css: &str, text: &str) {
        self.until(&format!("{css} to be typed into"), || {
            let it = self.find(css)?;
            self.run(it.send_keys(text)).map_err(text_of)
        });
    }

    /// Types over all that a field holds, key by key as a person does.
    #[track_caller]
    pub fn retype(&self, css: &str, text: &str) {
        self.type_into(css, &(Key::Control + "a").to_string());
        let text = if text.is_empty() { Key::Delete.value().to_string() } else { text.to_string() };
        self.type_into(css, &text);
    }

    /// Empties a field.
    #[track_caller]
    pub fn clear(&self, css: &str) {
        self.retype(css, "");
    }

    /// Puts the focus on it.
    #[track_caller]
    pub fn focus(&self, css: &str) {
        self.until(&format!("{css} to take the focus"), || {
            self.run(self.find(css)?.focus()).map_err(text_of)
        });
    }

    /// Presses keys together wherever the focus is: `"Tab"`, `"Control+z"`, `"Control+Shift+Z"`, `"Escape"`.
    #[track_caller]
    pub fn press(&self, keys: &str) {
        let keys: Vec<char> = keys.split('+').map(key).collect();
        let down = keys.iter().fold(self.session().action_chain(), |chain, key| chain.key_down(*key));
        let up = keys.iter().rev().fold(down, |chain, key| chain.key_up(*key));
        self.run(up.perform()).expect("keys");
    }
}

#[track_caller]
fn key(name: &str) -> char {
    let mut letters = name.chars();
    if let (Some(letter), None) = (letters.next(), letters.next()) {
        return letter;
    }
    let key = match name {
        "Control" => Key::Control,
        "Shift" => Key::Shift,
        "Alt" => Key::Alt,
        "Meta" => Key::Meta,
        "Enter" => Key::Enter,
        "Escape" => Key::Escape,
        "Tab" => Key::Tab,
        "Space" => Key::Space,
        "Backspace" => Key::Backspace,
        "Delete" => Key::Delete,
        "ArrowUp" => Key::Up,
        "ArrowDown" => Key::Down,
        "ArrowLeft" => Key::Left,
        "ArrowRight" => Key::Right,
        "Home" => Key::Home,
        "End" => Key::End,
        "PageUp" => Key::PageUp,
        "PageDown" => Key::PageDown,
        other => panic!("the harness knows no key “{other}”"),
    };
    key.value()
}
