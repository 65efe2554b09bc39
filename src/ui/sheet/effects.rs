//! Beside a sheet: what it feeds, and what there is to look at in the rest of the plan.

use super::Here;
use crate::address::Address;
use crate::calculator::subject::{SORTS, Sort};
use crate::calculators::offered_at;
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use crate::ui::words::weight_mark;
use bathbook_view::view;
use leptos::prelude::*;

/// How many findings stand beside a sheet; the line page has all.
const MOST: usize = 6;

#[derive(Clone, PartialEq)]
struct Fed {
    what: String,
    where_to: String,
    answer: Option<String>,
    address: Address,
}

#[derive(Clone, PartialEq)]
struct Look {
    mark: (&'static str, &'static str, &'static str),
    text: String,
    where_to: String,
    address: Address,
}

/// The panel.
#[component]
pub fn Effects(here: Here) -> impl IntoView {
    let store = here.store;
    let fed = Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        store.results.with(|results| {
            let mut all: Vec<(usize, Vec<&'static str>)> = Vec::new();
            for (at, link) in results.network.downstream(cell) {
                match all.iter_mut().find(|(known, _)| *known == at) {
                    Some((_, what)) if what.contains(&link.input.label) => (),
                    Some((_, what)) => what.push(link.input.label),
                    None => all.push((at, vec![link.input.label])),
                }
            }
            let one = |(at, what): (usize, Vec<&'static str>)| {
                let there = &results.network.cells[at];
                let whose =
                    if there.place == here.place { String::new() } else { format!("{}, ", there.name) };
                let headline = there.calculator.outputs.first();
                let answer = headline.and_then(|output| {
                    let (number, unit) = results.answer_text(at, output.symbol, "", 3)?;
                    Some(format!("{}: {}", output.label, super::answer::joined(&number, unit)))
                });
                let more = what.len().saturating_sub(3);
                let mut what = what.into_iter().take(3).collect::<Vec<_>>().join(", ");
                if more > 0 {
                    what += &format!(" and {more} more");
                }
                Fed {
                    what,
                    where_to: format!("{whose}{}", there.calculator.title),
                    answer,
                    address: store.sheet_address(there.place, there.calculator.id),
                }
            };
            all.into_iter().map(one).collect()
        })
    });
    let look = Memo::new(move |_| {
        store.results.with(|results| {
            let here = here.cell();
            let elsewhere = results.findings().into_iter().filter(|found| {
                Some(found.cell) != here && found.finding.weight > crate::calculator::Weight::Note
            });
            let one = |found: crate::results::Found| {
                let there = &results.network.cells[found.cell];
                Look {
                    mark: weight_mark(found.finding.weight),
                    text: found.finding.text,
                    where_to: format!("{}, {}", there.name, there.calculator.title),
                    address: store.sheet_address(there.place, there.calculator.id),
                }
            };
            elsewhere.take(MOST).map(one).collect::<Vec<_>>()
        })
    });
    let is_quick = move || store.open.get().is_some_and(|open| open.quick.is_some());
    let fed_list = move || {
        let one = |fed: Fed| {
            view! {
                <li>
                    <span>{fed.what} " → "</span>
                    <a href=fed.address.text()>{fed.where_to}</a>
                    {fed.answer.map(|answer| view! { <small>{answer}</small> })}
                </li>
            }
        };
        fed.get().into_iter().map(one).collect_view()
    };
    let look_list = move || {
        let one = |look: Look| {
            let (class, shape, word) = look.mark;
            view! {
                <li>
                    <span class=format!("mark {class}")>{shape} <span class="hide">{word}</span></span>
                    " " <a href=look.address.text()>{look.where_to}</a>
                    <small>{look.text}</small>
                </li>
            }
        };
        look.get().into_iter().map(one).collect_view()
    };
    view! {
        <Show when=move || !is_quick()>
            <aside class="effects" aria-label="The rest of the plan">
                <h2>"What this sheet feeds"</h2>
                <Show
                    when=move || !fed.with(Vec::is_empty)
                    fallback=|| view! { <p class="hint">"Nothing in the plan follows it yet."</p> }
                >
                    <ul>{fed_list}</ul>
                </Show>
                <LeadOn here />
                <Show when=move || !look.with(Vec::is_empty)>
                    <h2>"To look at elsewhere"</h2>
                    <ul>{look_list}</ul>
                </Show>
            </aside>
        </Show>
    }
}

/// Places that may come from this one, each to be added by a touch.
#[component]
fn LeadOn(here: Here) -> impl IntoView {
    let subject = here.calculator.subject;
    let store = here.store;
    let sorts = SORTS.iter().filter(move |sort| sort.comes_from.contains(&subject));
    let one = move |sort: &'static Sort| {
        let add = move |_| {
            let name = store.history.with_untracked(|history| {
                history.plan().place(here.place).map(|place| place.name.clone()).unwrap_or_default()
            });
            let named = format!("{name}, {}", sort.title.to_lowercase());
            let id = store.act(|plan| {
                let id = plan.add(sort.subject, &named);
                plan.set_from(id, Some(here.place));
                id
            });
            if let Some(first) = offered_at(sort.subject).next() {
                crate::ui::app::go(&store.sheet_address(id, first.id));
            }
        };
        view! { <button on:click=add>"+ " {sort.title} " from here"</button> }
    };
    view! { <div class="actions no-print">{sorts.map(one).collect_view()}</div> }
}
