//! What is left out of all that is handed on from this page.

use crate::plan::Plan;
use crate::ui::store::Store;
use crate::ui::tick::tick;
use bathbook_view::view;
use leptos::prelude::*;

/// What the ticks say.
#[derive(Clone, Copy, Default)]
pub struct Spare {
    notes: RwSignal<bool>,
    prices: RwSignal<bool>,
}

impl Spare {
    /// The plan as it is handed on. Whoever asks within an effect is told of changes.
    pub fn plan(self, store: Store) -> Plan {
        let mut plan = store.history.with(|history| history.plan().clone());
        if self.notes.get() {
            plan = plan.without_notes();
        }
        if self.prices.get() {
            plan = plan.without_prices();
        }
        plan
    }

    /// Whether all of it is handed on.
    pub fn is_nothing(self) -> bool {
        !self.notes.get() && !self.prices.get()
    }
}

/// The part.
#[component]
pub fn SparePart(spare: Spare) -> impl IntoView {
    view! {
        <section class="part">
            <h2>"What to leave out"</h2>
            <p>"What is ticked is left out of the link, the file and the tables below. Your own plan keeps it."</p>
            {tick("Notes, ticks of work orders, lots and initials", spare.notes)}
            {tick("Prices", spare.prices)}
        </section>
    }
}
