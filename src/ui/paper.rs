//! The foot of every printed page. The number of the page stands in `print.css`; what is of this plan is put in here.

use super::store::Store;
use super::when;
use crate::report::check_sum;
use crate::ui::signals::Memo;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// A text as a string of a style sheet: nothing in it can end the string.
fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || " .,:;()-_·+%".contains(c);
    let parts = text.chars().map(|c| if plain(c) { c.to_string() } else { format!("\\{:x} ", c as u32) });
    format!("\"{}\"", parts.collect::<String>())
}

/// What marks the papers of a plan.
#[derive(Clone, Copy)]
pub struct Marks {
    /// The plan's name.
    pub name: Memo<String>,
    /// Its check sum.
    pub sum: Memo<String>,
    /// Today; the day of printing once it is printed.
    pub day: RwSignal<String>,
}

/// The marks of the plan that is open. While the screen stands, they are at the foot of every page printed.
pub fn marks(store: Store) -> Marks {
    let name = Memo::new(move |_| store.history.with(|history| history.plan().name.clone()));
    let sum = Memo::new(move |_| store.history.with(|history| check_sum(history.plan())));
    let day = RwSignal::new(when::day(when::now()));
    let printing = leptos::ev::Custom::<leptos::ev::Event>::new("beforeprint");
    let handle = window_event_listener(printing, move |_| {
        day.set(when::day(when::now()));
        let (name, day, sum) = (name.get_untracked(), day.get_untracked(), sum.get_untracked());
        foot(&format!("{name} · {day} · plan check {sum}"));
    });
    on_cleanup(move || {
        handle.remove();
        foot("");
    });
    Marks { name, sum, day }
}

/// Puts a text at the foot of every page that is printed from now on; none takes it away.
fn foot(text: &str) {
    let sheets = document().style_sheets();
    let Some(sheet) = sheets.item(0).and_then(|sheet| sheet.dyn_into::<web_sys::CssStyleSheet>().ok()) else {
        return;
    };
    let Ok(rules) = sheet.css_rules() else { return };
    let last = rules.length().saturating_sub(1);
    let is_ours = rules.item(last).is_some_and(|rule| rule.css_text().contains("bottom-left"));
    if is_ours {
        let _ = sheet.delete_rule(last);
    }
    if !text.is_empty() {
        let rule = format!("@page {{ @bottom-left {{ content: {}; font-size: 8pt; }} }}", quoted(text));
        // A browser without page margins leaves the foot out: the cover has all of it.
        let _ = sheet.insert_rule_with_index(&rule, sheet.css_rules().map_or(0, |rules| rules.length()));
    }
}
