//! One sheet: the question, the answer, what it takes, what it shows, what it says.

mod answer;
mod effects;
pub mod field;
pub mod findings;
mod head;
mod inputs;
mod order_paper;
mod picture;
mod recipes;
mod rows;
mod shown_as;
mod sources;
mod units;
mod work_order;
mod working;

use super::print_head::PrintHead;
use super::store::Store;
use crate::calculator::Calculator;
use crate::calculators::find;
use crate::plan::{Field, Id};
use crate::ui::element::Show;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::prelude::*;

/// Which sheet a part belongs to.
#[derive(Clone, Copy)]
pub struct Here {
    /// The store of the page.
    pub store: Store,
    /// The place.
    pub place: Id,
    /// The calculator.
    pub calculator: &'static Calculator,
}

impl Here {
    /// The cell of this sheet in the results as they stand; follows every change.
    pub fn cell(&self) -> Option<usize> {
        self.store.results.with(|results| results.network.cell_at(self.place, self.calculator.id))
    }
}

/// The sheet of a calculator at a place.
#[component]
pub fn SheetPage(place: Id, calculator: &'static str) -> impl IntoView {
    let store = Store::here();
    let Some(calculator) = find(calculator) else {
        return view! { <main id="main" class="sheet"><h1>"There is no such sheet"</h1></main> }.into_any();
    };
    let here = Here { store, place, calculator };
    let printing = RwSignal::new(false);
    let is_there = Memo::new(move |_| here.cell().is_some());
    Effect::new(move |_| {
        let is_here = |field: &Field| field.place == place && field.calculator == calculator.id;
        let Some(field) = store.wanted.get().filter(is_here) else { return };
        store.wanted.set(None);
        request_animation_frame(move || field::go_to(&field));
    });
    let gone = move || {
        view! {
            <main id="main" class="sheet">
                <h1>{calculator.title}</h1>
                <p class="ask">"This sheet is not in the plan. “+ Sheet” beside its place adds it; if you took it off, undo brings it back."</p>
                <a class="btn" href=move || store.line_address().text()>"To the line"</a>
            </main>
        }
    };
    view! {
        <Show when=move || is_there.get() fallback=gone>
            <main id="main" class="sheet">
                <PrintHead what=calculator.title />
                <head::Head here />
                <answer::Answer here />
                <findings::Findings here stops=true />
                <shown_as::ShownAs here />
                <inputs::Inputs here />
                <rows::Tables here />
                <findings::Findings here />
                <answer::MoreAnswers here />
                <work_order::Order here printing />
                <findings::Cautions here />
                <picture::Picture here />
                <working::Working here />
                <sources::Sources here />
                <order_paper::OrderPaper here printing />
            </main>
            <effects::Effects here />
        </Show>
    }
    .into_any()
}
