//! Examples to look at, and sums that need no plan.

use super::open;
use crate::address::Address;
use crate::calculator::Calculator;
use crate::calculators::ALL;
use crate::plan::examples;
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

/// One card for each calculator that makes sense by itself.
#[component]
pub fn QuickSums() -> impl IntoView {
    let card = |calculator: &&'static Calculator| {
        view! {
            <li>
                <a class="card" href=Address::Quick(calculator.id).text()>
                    <b>{calculator.title}</b>
                    <span class="sub">{calculator.question}</span>
                </a>
            </li>
        }
    };
    let quick = || ALL.iter().filter(|calculator| calculator.quick);
    (quick().count() > 0).then(|| {
        view! {
            <section class="part" aria-labelledby="quick-title">
                <h2 id="quick-title">"One quick sum, without a plan"</h2>
                <ul class="cards">{quick().map(card).collect_view()}</ul>
            </section>
        }
    })
}
