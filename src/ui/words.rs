//! Small parts that many views use: marks of severity, symbols as formulas, texts of findings.

use crate::calculator::Severity;
use crate::results::Marks;
use bathbook_view::view;
use leptos::prelude::*;

/// The word and shape of a severity: never colour alone.
pub fn severity_mark(severity: Severity) -> (&'static str, &'static str, &'static str) {
    let (class, shape) = match severity {
        Severity::Serious => ("stop", "■"),
        Severity::Caution => ("caution", "▲"),
        Severity::Note => ("note", "●"),
    };
    (class, shape, severity.word())
}

/// How many columns a table has, in a word: the style makes cards of its rows where they would not fit.
pub fn breadth(columns: usize) -> &'static str {
    match columns {
        0..=4 => "few",
        5..=6 => "some",
        _ => "many",
    }
}

/// The marks of a sheet in a list: what there is to look at, in words and shapes.
pub fn marks_view(marks: Marks) -> AnyView {
    let mut parts = Vec::new();
    if marks.stops > 0 {
        parts.push(view! { <span class="mark stop">"■ "{marks.stops}<span class="hide">" to stop for"</span></span> }.into_any());
    }
    if marks.cautions > 0 {
        parts.push(view! { <span class="mark caution">"▲ "{marks.cautions}<span class="hide">" to look at"</span></span> }.into_any());
    }
    if marks.fields > 0 {
        let text = crate::results::count(marks.fields, "field");
        parts.push(view! { <span class="mark caution">"▲ "{text}</span> }.into_any());
    }
    if marks.waits {
        parts.push(view! { <span class="mark todo">"waits"</span> }.into_any());
    }
    if marks.todo {
        parts.push(view! { <span class="mark todo">"to do"</span> }.into_any());
    }
    view! { <span class="marks">{parts}</span> }.into_any()
}

/// A formula or symbol with its low and high parts set as such: `c_M`, `c[Cu]`, `D^2`.
pub fn formula(text: &str) -> AnyView {
    let mut parts: Vec<AnyView> = Vec::new();
    let mut plain = String::new();
    let mut rest = text.chars().peekable();
    let flush = |plain: &mut String, parts: &mut Vec<AnyView>| {
        if !plain.is_empty() {
            parts.push(std::mem::take(plain).into_any());
        }
    };
    let mut before = ' ';
    while let Some(c) = rest.next() {
        // The row's name stands behind a low part that is there already.
        let after_low = std::mem::replace(&mut before, c) == '_';
        match c {
            '_' => {
                let mut low = String::new();
                while let Some(next) =
                    rest.next_if(|c| c.is_alphanumeric() || *c == ',' || *c == '∞' || *c == 'Σ')
                {
                    low.push(next);
                }
                flush(&mut plain, &mut parts);
                parts.push(view! { <sub>{low}</sub> }.into_any());
            }
            '[' => {
                let key: String = rest.by_ref().take_while(|c| *c != ']').collect();
                let low = if after_low { format!(", {key}") } else { key };
                flush(&mut plain, &mut parts);
                parts.push(view! { <sub>{low}</sub> }.into_any());
            }
            '^' => {
                let mut high = String::new();
                if rest.next_if_eq(&'(').is_some() {
                    high = rest.by_ref().take_while(|c| *c != ')').collect();
                } else {
                    while let Some(next) = rest.next_if(|c| c.is_ascii_digit() || *c == '−') {
                        high.push(next);
                    }
                }
                flush(&mut plain, &mut parts);
                parts.push(view! { <sup>{high}</sup> }.into_any());
            }
            c => plain.push(c),
        }
    }
    flush(&mut plain, &mut parts);
    parts.into_any()
}
