//! Beside a sheet: what it feeds, and what there is to look at in the rest of the plan.

use super::Here;
use crate::address::Address;
use crate::calculator::subject::{SORTS, Sort};
use crate::results::Results;
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use crate::ui::words::severity_mark;
use bathbook_view::view;
use leptos::prelude::*;

/// How many findings stand beside a sheet; the line page has all.
const MOST: usize = 6;

/// How many sheets further along are told of after a change.
const FURTHER: usize = 6;

/// A sheet that follows: what it answers now, and what it answered before the last change.
#[derive(Clone, PartialEq)]
struct Followed {
    place: String,
    sheet: &'static str,
    answer: Option<Answered>,
    address: Address,
}

#[derive(Clone, PartialEq)]
struct Answered {
    label: &'static str,
    was: Option<String>,
    now: String,
}

/// Sheets of one calculator that follow the same values.
#[derive(Clone, PartialEq)]
struct Fed {
    what: String,
    sheets: Vec<Followed>,
}

const NONE: &str = "no answer";

fn text(results: &Results, at: usize, symbol: &str) -> Option<String> {
    let (number, unit) = results.answer_text(at, symbol, "", 3)?;
    Some(super::answer::joined(&number, unit))
}

/// The first answer of a sheet that the last change moved. Numbers are compared first, by their place: to look
/// one up by its symbol or to write it out costs far more, and most have not moved.
fn moved(now: &Results, before: &Results, at: usize) -> Option<Answered> {
    let cell = now.network.cells.get(at)?;
    let is_it = |at: &usize| {
        before
            .network
            .cells
            .get(*at)
            .is_some_and(|old| old.place == cell.place && std::ptr::eq(old.calculator, cell.calculator))
    };
    let was = Some(at).filter(is_it).or_else(|| before.network.cell_at(cell.place, cell.calculator.id))?;
    let single = |results: &Results, at: usize, column: usize| {
        let (_, numbers) = results.outcome(at)?.answers.first()?.first()?;
        numbers.get(column).copied().filter(|si| si.is_finite())
    };
    let outputs = cell.calculator.outputs.iter().enumerate();
    let mut others = outputs.filter(|(column, _)| single(before, was, *column) != single(now, at, *column));
    others.find_map(|(_, output)| {
        let was = text(before, was, output.symbol).unwrap_or_else(|| NONE.into());
        let now = text(now, at, output.symbol).unwrap_or_else(|| NONE.into());
        (was != now).then_some(Answered { label: output.label, was: Some(was), now })
    })
}

/// The first answer of a sheet that the last change moved, or its headline where it moved none.
fn answered(now: &Results, before: Option<&Results>, at: usize) -> Option<Answered> {
    before.and_then(|before| moved(now, before, at)).or_else(|| {
        let headline = now.network.cells.get(at)?.calculator.outputs.first()?;
        Some(Answered { label: headline.label, was: None, now: text(now, at, headline.symbol)? })
    })
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
    let followed = move |results: &Results, answer: Option<Answered>, at: usize| {
        let there = &results.network.cells[at];
        Followed {
            place: if there.place == here.place { String::new() } else { there.name.to_string() },
            sheet: there.calculator.title,
            answer,
            address: store.sheet_address(there.place, there.calculator.id),
        }
    };
    let fed = Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        let before = store.before.get();
        store.results.with(|results| {
            let mut groups: Vec<Fed> = Vec::new();
            for (at, what) in fed_by(results, cell) {
                let more = what.len().saturating_sub(3);
                let mut what = what.into_iter().take(3).collect::<Vec<_>>().join(", ");
                if more > 0 {
                    what += &format!(" and {more} more");
                }
                let sheet = followed(results, answered(results, before.as_deref(), at), at);
                let is_same = |group: &&mut Fed| {
                    group.what == what && group.sheets.iter().all(|known| known.sheet == sheet.sheet)
                };
                match groups.iter_mut().find(is_same) {
                    Some(group) => group.sheets.push(sheet),
                    None => groups.push(Fed { what, sheets: vec![sheet] }),
                }
            }
            groups
        })
    });
    // What the last change moved beyond the sheets that follow this one directly.
    let further = Memo::new(move |_| {
        let (Some(cell), Some(before)) = (here.cell(), store.before.get()) else { return Vec::new() };
        store.results.with(|results| {
            let direct: Vec<usize> = fed_by(results, cell).into_iter().map(|(at, _)| at).collect();
            let others = (0..results.network.cells.len()).filter(|at| *at != cell && !direct.contains(at));
            let moved =
                others.filter_map(|at| Some(followed(results, Some(moved(results, &before, at)?), at)));
            moved.take(FURTHER).collect::<Vec<_>>()
        })
    });
    let look = Memo::new(move |_| {
        store.results.with(|results| {
            let here = here.cell();
            let elsewhere = results.findings().into_iter().filter(|found| {
                Some(found.cell) != here && found.finding.severity > crate::calculator::Severity::Note
            });
            let one = |found: crate::results::Found| {
                let there = &results.network.cells[found.cell];
                Look {
                    mark: severity_mark(found.finding.severity),
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
            let is_one = fed.sheets.len() == 1;
            let sheet = fed.sheets.first().map_or("", |sheet| sheet.sheet);
            let head = if is_one { format!("{} →", fed.what) } else { format!("{} → {sheet}", fed.what) };
            let sheets = fed.sheets.into_iter().map(|sheet| followed_view(sheet, is_one)).collect_view();
            view! { <li><span class="what">{head}</span> {sheets}</li> }
        };
        fed.get().into_iter().map(one).collect_view()
    };
    let further_list = move || {
        let one = |sheet: Followed| view! { <li>{followed_view(sheet, true)}</li> };
        further.get().into_iter().map(one).collect_view()
    };
    let look_list = move || {
        let one = |look: Look| {
            let (class, shape, word) = look.mark;
            view! {
                <li>
                    <a href=look.address.text()>
                        <span class=format!("mark {class}")>{shape} <span class="hide">{word}</span></span>
                        " " <span class="to">{look.where_to}</span>
                        <span class="says">{look.text}</span>
                    </a>
                </li>
            }
        };
        look.get().into_iter().map(one).collect_view()
    };
    view! {
        <Show when=move || !is_quick()>
            <aside class="effects" aria-label="The rest of the plan"><div class="stays">
                <h2>"What this sheet feeds"</h2>
                <Show
                    when=move || !fed.with(Vec::is_empty)
                    fallback=|| view! { <p class="hint">"Nothing in the plan follows it yet."</p> }
                >
                    <ul>{fed_list}</ul>
                </Show>
                <Show when=move || !further.with(Vec::is_empty)>
                    <h2>"Your last change also moved"</h2>
                    <ul>{further_list}</ul>
                </Show>
                <LeadOn here />
                <Show when=move || !look.with(Vec::is_empty)>
                    <h2>"To look at elsewhere"</h2>
                    <ul>{look_list}</ul>
                </Show>
            </div></aside>
        </Show>
    }
}

/// The sheets that follow a cell directly, each with the labels of what follows.
fn fed_by(results: &Results, cell: usize) -> Vec<(usize, Vec<&'static str>)> {
    let mut all: Vec<(usize, Vec<&'static str>)> = Vec::new();
    for (at, link) in results.network.downstream(cell).filter(|(at, link)| results.takes(*at, link)) {
        match all.iter_mut().find(|(known, _)| *known == at) {
            Some((_, what)) if what.contains(&link.input.label) => (),
            Some((_, what)) => what.push(link.input.label),
            None => all.push((at, vec![link.input.label])),
        }
    }
    all
}

/// A sheet as one thing to touch: its name, and its answer, with what it was before the last change.
fn followed_view(sheet: Followed, with_sheet: bool) -> impl IntoView {
    let name = match (sheet.place.is_empty(), with_sheet) {
        (true, _) => sheet.sheet.to_string(),
        (false, true) => format!("{}, {}", sheet.place, sheet.sheet),
        (false, false) => sheet.place,
    };
    let answer = sheet.answer.map(|Answered { label, was, now }| {
        let was = was.map(
            |was| view! { {was} <span class="hide">" became "</span><span aria-hidden="true">" → "</span> },
        );
        view! { <span class="says">{label} ": " {was} <b>{now}</b></span> }
    });
    view! { <a href=sheet.address.text()><span class="to">{name}</span> {answer}</a> }
}

/// Places that may come from this one, each to be added by a touch.
#[component]
fn LeadOn(here: Here) -> impl IntoView {
    let subject = here.calculator.subject;
    let store = here.store;
    let sorts = SORTS.iter().filter(move |sort| sort.comes_from.contains(&subject));
    let one = move |sort: &'static Sort| {
        let add = move |_| {
            let (id, first) = store.act(|plan| plan.lead_on(here.place, here.calculator.id, sort));
            store.go_to_new(id, first.map(|first| first.id));
        };
        view! { <button on:click=add>"+ " {sort.title} " from here"</button> }
    };
    view! { <div class="actions no-print">{sorts.map(one).collect_view()}</div> }
}
