//! Examples to look at, and sums that need no plan.

use super::open;
use crate::address::Address;
use crate::calculator::Calculator;
use crate::calculator::subject::{SORTS, Sort};
use crate::calculators::ALL;
use crate::plan::examples;
use crate::ui::element::Show;
use bathbook_view::view;
use leptos::prelude::*;

/// The example plans. Opening one makes a copy of one's own.
#[component]
pub fn Examples() -> impl IntoView {
    let card = |(id, name, line): &'static (&'static str, &'static str, &'static str)| {
        let copy = move |_| {
            if let Some(mut plan) = examples::plan(id) {
                if !plan.name.to_ascii_lowercase().contains("invented") {
                    plan.name = format!("{} (invented)", plan.name);
                }
                open(plan);
            }
        };
        view! {
            <li><button class="card" on:click=copy><b>{*name}</b><span class="sub">{*line}" Invented."</span></button></li>
        }
    };
    (!examples::ALL.is_empty()).then(|| {
        view! {
            <section class="part" aria-labelledby="examples-title">
                <h2 id="examples-title">"Look at an example"</h2>
                <p class="hint">"Invented plants. You get a copy of your own to change as you like."</p>
                <ul class="cards">{examples::ALL.iter().map(card).collect_view()}</ul>
            </section>
        }
    })
}

/// From so many sums on there is a field to find one.
const MANY: usize = 12;

/// One card for each calculator that makes sense by itself, by the sort of place that it is about.
#[component]
pub fn QuickSums() -> impl IntoView {
    let quick = || ALL.iter().copied().filter(|calculator| calculator.quick);
    let wanted = RwSignal::new(String::new());
    let fits = move |calculator: &Calculator| wanted.with(|wanted| is_meant(calculator, wanted));
    let card = move |calculator: &'static Calculator| {
        view! {
            <Show when=move || fits(calculator)>
                <li>
                    <a class="card" href=Address::Quick(calculator.id).text()>
                        <b>{calculator.title}</b>
                        <span class="sub">{calculator.question}</span>
                    </a>
                </li>
            </Show>
        }
    };
    let group = move |sort: &'static Sort| {
        let of_sort = move || quick().filter(move |calculator| calculator.subject == sort.subject);
        view! {
            <Show when=move || of_sort().any(fits)>
                <h3 class="sort">{sort.plural}</h3>
                <ul class="cards">{of_sort().map(card).collect_view()}</ul>
            </Show>
        }
    };
    let count = quick().count();
    let told = move || {
        let left = quick().filter(|calculator| fits(calculator)).count();
        match (wanted.with(|wanted| wanted.trim().is_empty()), left) {
            (true, _) => String::new(),
            (_, 0) => "No sum is called so. Another word may find it.".into(),
            (_, left) => format!("{left} of {count} sums"),
        }
    };
    let find = (count >= MANY).then(|| {
        view! {
            <div class="find">
                <label for="find-sum">"Find a sum"</label>
                <input
                    id="find-sum"
                    type="search"
                    autocomplete="off"
                    placeholder="pH, rinse, chambers …"
                    on:input=move |event| wanted.set(event_target_value(&event))
                />
                <p class="hint" role="status">{told}</p>
            </div>
        }
    });
    (count > 0).then(|| {
        view! {
            <section class="part" aria-labelledby="quick-title">
                <h2 id="quick-title">"One quick sum, without a plan"</h2>
                {find}
                {SORTS.iter().map(group).collect_view()}
            </section>
        }
    })
}

/// Whether all words of a text stand in what a sum is called or asks, or in what it answers.
fn is_meant(calculator: &Calculator, text: &str) -> bool {
    let labels = calculator.outputs.iter().map(|output| output.label);
    let said: Vec<String> = [calculator.title, calculator.question, calculator.subject.sort().plural]
        .into_iter()
        .chain(labels)
        .map(str::to_ascii_lowercase)
        .collect();
    text.to_ascii_lowercase().split_whitespace().all(|word| said.iter().any(|said| said.contains(word)))
}
