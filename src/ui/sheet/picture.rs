//! The picture: any answer against any number of this sheet, over a range that the reader chooses.

use super::Here;
use crate::picture::of_sheet::{Choice, Group, across_choices, curve, up_choices, usual_range};
use crate::picture::{Chart, Curve};
use crate::ui::chart::ChartView;
use crate::ui::list::For;
use crate::ui::signals::{Effect, Memo};
use crate::units::{Unit, read};
use bathbook_view::view;
use leptos::prelude::*;
use std::time::Duration;

/// A curve takes many evaluations: it is drawn anew once the user pauses.
const PAUSE: Duration = Duration::from_millis(120);

/// The picture and what it shows.
#[component]
pub fn Picture(here: Here) -> impl IntoView {
    let Some(first) = here.calculator.picture else { return ().into_any() };
    let store = here.store;
    let across = RwSignal::new(first.across.to_string());
    let up = RwSignal::new(first.up.to_string());
    // Texts of the range; empty for the usual one.
    let (from, to) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let choices = |list: fn(&crate::results::Results, usize) -> Vec<Group>| {
        Memo::new(move |_| {
            let Some(cell) = here.cell() else { return Vec::new() };
            store.results.with(|results| list(results, cell))
        })
    };
    let (across_list, up_list) = (choices(across_choices), choices(up_choices));
    // A hidden input cannot stand along the bottom: the first that can takes its place.
    let across_now = Memo::new(move |_| across_list.with(|list| pick(list, &across.get())));
    let up_now = Memo::new(move |_| up_list.with(|list| pick(list, &up.get())));
    let range = Memo::new(move |_| {
        let cell = here.cell()?;
        let ([low, high], unit) =
            store.results.with(|results| usual_range(results, cell, &across_now.get()))?;
        let style = store.style();
        let end = |text: String, usual: f64| {
            if text.trim().is_empty() {
                Some(usual)
            } else {
                read(&text, unit, &style).ok().map(|v| unit.from_si(v.si))
            }
        };
        let ends = end(from.get(), low).zip(end(to.get(), high)).filter(|(low, high)| low < high);
        Some((ends.map(|(low, high)| [low, high]), unit))
    });
    let chart = RwSignal::new(Chart::new(Curve::default(), Default::default()));
    let draw = move || {
        let Some(cell) = here.cell() else { return };
        let drawn = match range.get_untracked() {
            Some((Some(ends), unit)) => store.results.with_untracked(|results| {
                curve(results, cell, &across_now.get_untracked(), &up_now.get_untracked(), ends, unit)
            }),
            _ => None,
        };
        chart.set(Chart::new(drawn.unwrap_or_default(), store.style()));
    };
    let timer = StoredValue::new(None::<TimeoutHandle>);
    let stop = move || {
        timer.update_value(|timer| {
            if let Some(timer) = timer.take() {
                timer.clear();
            }
        })
    };
    Effect::new(move |before: Option<()>| {
        store.results.track();
        range.track();
        up_now.track();
        stop();
        let wait = if before.is_none() { Duration::ZERO } else { PAUSE };
        timer.set_value(set_timeout_with_handle(draw, wait).ok());
    });
    on_cleanup(stop);
    let wrong_range = move || {
        range.get().filter(|(ends, _)| ends.is_none()).map(|(_, unit)| {
            let text =
                format!("The range cannot be read: type two numbers, the smaller first, {}.", in_unit(unit));
            view! { <p class="err">{text}</p> }
        })
    };
    let usual = move |which: usize| {
        move || {
            let usual = here
                .cell()
                .and_then(|cell| store.results.with(|results| usual_range(results, cell, &across_now.get())));
            usual.map(|(ends, _)| store.style().number(ends[which])).unwrap_or_default()
        }
    };
    let unit = move || range.get().map_or("", |(_, unit)| unit.symbol);
    view! {
        <section class="part picture">
            <h2>"Picture"</h2>
            <div class="axes no-print">
                <label>"Up" <Axis list=up_list now=up_now set=up /></label>
                <label>"Across" <Axis list=across_list now=across_now set=across /></label>
                <label>
                    "From"
                    <input inputmode="text" autocomplete="off" placeholder=usual(0) prop:value=from on:change=move |e| from.set(event_target_value(&e)) />
                </label>
                <label>
                    "To"
                    <input inputmode="text" autocomplete="off" placeholder=usual(1) prop:value=to on:change=move |e| to.set(event_target_value(&e)) />
                </label>
                <span class="axis-unit">{unit}</span>
            </div>
            {wrong_range}
            <ChartView chart />
        </section>
    }
    .into_any()
}

/// What is wanted, if it can be had; else what comes first.
fn pick(list: &[Group], wanted: &str) -> String {
    let mut all = list.iter().flat_map(|(_, choices)| choices);
    let known = all.clone().find(|(symbol, _)| symbol == wanted).or_else(|| all.next());
    known.map(|(symbol, _)| symbol.clone()).unwrap_or_default()
}

fn in_unit(unit: &Unit) -> String {
    if unit.symbol.is_empty() { "without a unit".into() } else { format!("in {}", unit.symbol) }
}

#[component]
fn Axis(list: Memo<Vec<Group>>, now: Memo<String>, set: RwSignal<String>) -> impl IntoView {
    let one = move |(symbol, label): Choice| {
        let value = symbol.clone();
        view! { <option value=value selected=move || now.with(|now| *now == symbol)>{label}</option> }
    };
    let group = move |(heading, choices): Group| {
        let choices = choices.into_iter().map(one).collect_view();
        if heading.is_empty() {
            choices.into_any()
        } else {
            view! { <optgroup label=heading>{choices}</optgroup> }.into_any()
        }
    };
    view! { <select on:change=move |event| set.set(event_target_value(&event))><For each=move || list.get() key=|group| format!("{group:?}") children=group /></select> }
}
