//! What is left out of all that is handed on of a plan. It is kept on this device, so that what was once left out is
//! not sent along the next time.

use crate::keep::quick;
use crate::plan::Plan;
use crate::ui::shelf::{LINK, key};
use crate::ui::store::{Open, Store};
use crate::ui::tick_box::TickBox;
use bathbook_view::view;
use leptos::prelude::*;

/// What the ticks say, of the plan that is open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spare {
    /// Remarks, and what work orders tell of who did what and when.
    pub remarks: bool,
    /// Prices.
    pub prices: bool,
}

impl Spare {
    /// As it was left for a plan.
    pub fn of(open: &Open) -> Spare {
        // Another link may stand under the same id tomorrow.
        if open.id == LINK {
            return Spare::default();
        }
        let kept = quick::left_out(&key(open));
        Spare { remarks: kept.contains("remarks"), prices: kept.contains("prices") }
    }

    /// The plan as it is handed on.
    pub fn applied_to(self, mut plan: Plan) -> Plan {
        if self.remarks {
            plan = plan.without_notes();
        }
        if self.prices {
            let less = plan.clone().without_prices();
            let had_prices = less != plan;
            plan = less;
            if had_prices {
                // Or whoever gets it is asked for prices, as if nobody had typed any.
                let told = [plan.notes.trim_end(), "Prices were left out when this was handed on."];
                plan.notes = told.join("\n").trim_start().into();
            }
        }
        plan
    }

    /// Whether all of it is handed on.
    pub fn is_nothing(self) -> bool {
        self == Spare::default()
    }

    /// What goes along, as a sentence.
    pub fn words(self) -> &'static str {
        match (self.remarks, self.prices) {
            (false, false) => "With prices and remarks.",
            (false, true) => "Without prices; with remarks.",
            (true, false) => "Without remarks, lots and initials; with prices.",
            (true, true) => "Without prices, remarks, lots and initials.",
        }
    }
}

/// The two ticks.
#[component]
pub fn SpareTicks() -> impl IntoView {
    let store = Store::here();
    let tick = |label: &'static str, is_in: fn(Spare) -> bool, set: fn(&mut Spare, bool)| {
        let is_in = Signal::derive(move || is_in(store.spare.get()));
        let set = Callback::new(move |ticked: bool| {
            store.spare.update(|spare| set(spare, ticked));
            if let Some(open) = store.open.get_untracked().filter(|open| open.id != LINK) {
                let Spare { remarks, prices } = store.spare.get_untracked();
                let words = [(remarks, "remarks"), (prices, "prices")];
                let kept: Vec<_> =
                    words.iter().filter(|(is_out, _)| *is_out).map(|(_, word)| *word).collect();
                quick::set_left_out(&key(&open), &kept.join(" "));
            }
        });
        view! { <TickBox label=Signal::stored(label.to_string()) is_in set /> }
    };
    view! {
        {tick("Leave out prices", |spare| spare.prices, |spare, is_out| spare.prices = is_out)}
        {tick(
            "Leave out remarks, ticks of work orders, lots and initials",
            |spare| spare.remarks,
            |spare, is_out| spare.remarks = is_out,
        )}
    }
}

/// The part.
#[component]
pub fn SparePart() -> impl IntoView {
    view! {
        <section class="part">
            <h2>"What to leave out"</h2>
            <p>"Of the link, the file and the tables below, and of the report. Your own plan keeps it. The ticks stay as they are until you change them."</p>
            <SpareTicks />
        </section>
    }
}
