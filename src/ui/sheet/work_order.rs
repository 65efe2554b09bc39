//! The work order: what to do in order, amounts wanted and added, signed by two persons.

use super::Here;
use super::field::FieldRow;
use crate::calculator::{Form, Input, Instruction, WorkOrder};
use crate::plan::{Field, Tick, ticks};
use crate::ui::element::Show;
use crate::ui::list::For;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// A step as it stands: its name, what it says, and how it is ticked.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Its name among the steps, which stays while amounts change.
    pub name: String,
    /// What it says.
    pub says: Instruction,
    /// How it is ticked, if it is.
    pub tick: Option<Tick>,
}

impl Step {
    /// What to know of a tick at another amount than the one wanted now.
    pub fn remark(&self) -> Option<String> {
        match &self.tick {
            Some(Tick::Ticked(at)) => Some(format!("ticked at {at}, is now {}", self.says.wanted)),
            _ => None,
        }
    }
}

/// The steps of a sheet's order, as they stand.
pub fn steps(here: Here) -> Memo<Vec<Step>> {
    let store = here.store;
    Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        let order = store.results.with(|results| results.outcome(cell).map(|outcome| outcome.order.clone()));
        let order = order.unwrap_or_default();
        let style = store.results.with(|results| results.style());
        store.history.with(|history| {
            let place = history.plan().place(here.place);
            let sheet = place.and_then(|place| place.sheets.get(here.calculator.id));
            let named = ticks::step_names(&order).into_iter().zip(order);
            let one = |(name, says): (String, Instruction)| {
                let tick = sheet.and_then(|sheet| sheet.tick(&name, &says, &style));
                Step { name, says, tick }
            };
            named.map(one).collect()
        })
    })
}

/// What is written by hand beside a row's step: amount added, lot, initials, second person.
pub fn by_hand(here: Here, declared: WorkOrder) -> impl Iterator<Item = &'static Input> + Clone {
    let symbols = std::iter::once(declared.added).chain(declared.signed.iter().copied());
    symbols.filter_map(move |symbol| here.calculator.input_at(here.calculator.port(symbol)?))
}

/// The order; nothing where the calculator has none.
#[component]
pub fn Order(here: Here, printing: RwSignal<bool>) -> impl IntoView {
    let Some(declared) = here.calculator.work_order else { return ().into_any() };
    let (store, place, calculator) = (here.store, here.place, here.calculator.id);
    let steps = steps(here);
    // By name and row: what changes with every key is the amounts, not which steps there are.
    let keys = Memo::new(move |_| {
        steps.with(|steps: &Vec<Step>| {
            let keys = steps
                .iter()
                .map(|step| (step.name.clone(), step.says.row.as_ref().map(|key| key.to_string())));
            keys.collect::<Vec<_>>()
        })
    });
    let ticked = Memo::new(move |_| steps.with(|steps| steps.iter().filter(|s| s.tick.is_some()).count()));
    let signed = RwSignal::new(false);
    let one = move |(name, row): (String, Option<String>)| {
        let name = StoredValue::new(name);
        let step = Memo::new(move |_| {
            name.with_value(|name| steps.with(|steps| steps.iter().find(|step| step.name == *name).cloned()))
        });
        let of = move |part: fn(&Step) -> String| {
            move || step.with(|step| step.as_ref().map(part).unwrap_or_default())
        };
        let by_hand = row.as_ref().map(|key| {
            let fields = by_hand(here, declared).map(|input| {
                let field = Field::cell(place, calculator, declared.table, key, input.symbol);
                let class = if input.form == Form::Text { "by-hand words" } else { "by-hand" };
                view! { <div class=class><FieldRow field input compact=true /></div> }
            });
            view! { <div class="hands" class:open=move || signed.get()>{fields.collect_view()}</div> }
        });
        let (wanted, also) = (of(|step| step.says.wanted.clone()), of(|step| step.says.also.clone()));
        let is_done = Memo::new(move |_| step.with(|step| step.as_ref().is_some_and(|s| s.tick.is_some())));
        let tick = move |event| {
            let done = event_target_checked(&event);
            let Some(step) = step.get_untracked() else { return };
            store.act(|plan| plan.tick(place, calculator, &step.name, &step.says, done));
        };
        let remark = move || {
            let remark = step.with(|step| step.as_ref().and_then(Step::remark));
            remark
                .map(|remark| view! { <p class="remark"><span class="mark caution">"▲ "{remark}</span></p> })
        };
        let box_id = format!("done-{}", name.with_value(|name| super::field::plain_id(name)));
        view! {
            <li>
                <input type="checkbox" id=box_id.clone() prop:checked=move || is_done.get() on:change=tick />
                <label for=box_id class="do">
                    <span>{of(|step| step.says.text.clone())}</span>
                    <span class="wanted"><b>{wanted}</b> <small>{also}</small></span>
                </label>
                <div class="remarks" role="status">{remark}</div>
                {by_hand}
            </li>
        }
    };
    let untick = move |_| {
        store.act(|plan| plan.untick_all(place, calculator));
        store.said.set(Some("The ticks are taken away. Undo brings them back.".into()));
    };
    view! {
        <Show when=move || !keys.with(Vec::is_empty)>
            <section class="part order">
                <h2>"Work order"</h2>
                <div class="actions no-print">
                    <button aria-pressed=move || signed.get().to_string() on:click=move |_| signed.update(|s| *s = !*s)>
                        {move || if signed.get() { "Hide what was added" } else { "Type what was added" }}
                    </button>
                    <button on:click=move |_| super::order_paper::print(printing)>"Print the work order"</button>
                    <Show when=move || { ticked.get() > 0 }>
                        <button on:click=untick>"Untick all"</button>
                    </Show>
                </div>
                <ol><For each=move || keys.get() key=|key| format!("{key:?}") children=one /></ol>
            </section>
        </Show>
    }
    .into_any()
}
