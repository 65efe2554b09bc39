//! The plans on this device.

use super::super::shelf::{Kept, Shelf};
use super::super::when;
use super::super::words::marks_view;
use super::{OpenFile, WHERE_KEPT, begin};
use crate::address::Address;
use crate::calculator::Subject;
use crate::results::{Marks, Results, count};
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// At most this many plans are worked out for their marks, so that home opens at once.
const WORKED_OUT: usize = 24;

/// The plans that are not in the bin.
#[component]
pub fn Plans() -> impl IntoView {
    let shelf = Shelf::here();
    let gone = RwSignal::new(None::<(String, String)>);
    let kept = Memo::new(move |_| {
        shelf.plans.with(|plans| plans.iter().filter(|plan| !plan.binned).cloned().collect::<Vec<_>>())
    });
    let cards = move || {
        let cards = kept.get().into_iter().enumerate();
        cards.map(|(at, kept)| card(shelf, kept, at < WORKED_OUT, gone)).collect_view()
    };
    let undo = move || {
        gone.get().map(|(id, name)| {
            view! {
                <p class="gone">
                    <span>"“"{name}"” is in the bin."</span>
                    <button on:click=move |_| {
                        shelf.bin(&id, false);
                        gone.set(None);
                    }>"Put it back"</button>
                </p>
            }
        })
    };
    view! {
        <section class="part" aria-labelledby="plans-title">
            <div class="part-head">
                <h2 id="plans-title">"Your plans"</h2>
                <div class="buttons">
                    <OpenFile />
                    <button class="primary" on:click=|_| begin()>"New plan"</button>
                </div>
            </div>
            <div role="status">{undo}</div>
            <Show
                when=move || kept.with(|kept| !kept.is_empty())
                fallback=|| view! { <p class="hint">"No plans here. Those in the bin can be put back."</p> }
            >
                <ul class="cards">{cards}</ul>
            </Show>
            <p class="hint">{WHERE_KEPT}</p>
        </section>
    }
}

fn card(
    shelf: Shelf,
    kept: Kept,
    is_worked_out: bool,
    gone: RwSignal<Option<(String, String)>>,
) -> impl IntoView {
    let Kept { id, name, saved_at, .. } = kept;
    let plan = if is_worked_out { shelf.plan(&id) } else { None };
    let about = plan.map(|plan| {
        let of = |subject| plan.places.iter().filter(|place| place.subject == subject).count();
        let size = match (of(Subject::Bath), of(Subject::Stream)) {
            (0, 0) if plan.places.len() < 2 => "empty so far".to_string(),
            (0, 0) => crate::results::count(plan.places.len() - 1, "place"),
            (baths, streams) => format!("{}, {}", count_of(baths, "bath"), count(streams, "stream")),
        };
        let results = Results::of(&plan, None);
        let cells = 0..results.network.cells.len();
        let marks = cells.map(|cell| results.marks(cell)).fold(Marks::default(), Marks::plus);
        (size, marks)
    });
    let (size, marks) =
        about.map_or((String::new(), None), |(size, marks)| (format!("{size} · "), Some(marks)));
    let href = Address::Line(id.clone()).text();
    let [copied, binned] = [id.clone(), id];
    let said = name.clone();
    view! {
        <li class="card plan">
            <a class="open" href=href>
                <b>{name.clone()}</b>
                <span class="sub">{size}"changed "{when::moment(saved_at)}</span>
                {marks.map(marks_view)}
            </a>
            <span class="buttons">
                <button
                    aria-label=format!("Duplicate {name}")
                    on:click=move |_| {
                        shelf.duplicate(&copied);
                    }
                >
                    "Duplicate"
                </button>
                <button
                    aria-label=format!("Delete {name}")
                    on:click=move |_| {
                        shelf.bin(&binned, true);
                        gone.set(Some((binned.clone(), said.clone())));
                    }
                >
                    "Delete"
                </button>
            </span>
        </li>
    }
}

/// "2 baths"; "no bath" for none.
fn count_of(n: usize, what: &str) -> String {
    if n == 0 { format!("no {what}") } else { count(n, what) }
}
