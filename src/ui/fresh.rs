//! A new plan, with a first guess of how its numbers are shown.

use super::when;
use crate::calculator::Calculator;
use crate::calculators::site;
use crate::plan::{Field, Plan};
use crate::units::{Decimal, Style, System};
use leptos::prelude::window;
use wasm_bindgen::prelude::*;
use web_sys::js_sys::Number;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(extends = Number, js_name = Number)]
    type Amount;
    /// As it is written in a language. A browser that no language was set for gives one that it does not know itself.
    #[wasm_bindgen(method, catch, js_name = toLocaleString)]
    fn written(this: &Amount, language: &str) -> Result<String, JsValue>;
}

/// How numbers are shown where this browser's language is spoken. The plan may say otherwise.
pub fn guess() -> Style {
    let language = window().navigator().language().unwrap_or_default();
    let sample = Number::from(1.5).unchecked_into::<Amount>().written(&language).unwrap_or_default();
    let decimal = if sample.contains(',') { Decimal::Comma } else { Decimal::Point };
    let system = if language.ends_with("-US") { System::Us } else { System::Metric };
    Style { decimal, system, ..Style::default() }
}

/// Writes a guess into a plan's site, where it differs from what stands there anyway.
pub fn settle(plan: &mut Plan, style: Style) {
    let Some(place) = plan.site().map(|site| site.id) else { return };
    let usual = site::words(Style::default());
    for ((symbol, word), (_, usual)) in site::words(style).into_iter().zip(usual) {
        if word != usual {
            plan.type_in(&Field::single(place, site::CALCULATOR.id, symbol), word, None);
        }
    }
}

/// An empty plan, named after today.
pub fn plan() -> Plan {
    let mut plan = Plan::new(&format!("Plan of {}", when::short_day(when::now())));
    settle(&mut plan, guess());
    plan
}

/// A calculator by itself.
pub fn quick(calculator: &Calculator) -> Plan {
    let mut plan = Plan::quick(calculator.id, calculator.title, calculator.subject);
    settle(&mut plan, guess());
    plan
}
