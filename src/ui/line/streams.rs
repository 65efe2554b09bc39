//! The same as the map, in tables: every stream, treated ones too, and what each route and discharge carries.

use super::super::store::Store;
use super::super::words::{breadth, marks_view};
use super::address_of;
use crate::calculator::{Key, Subject};
use crate::picture::flows::{self, Amount, Flow, Metal};
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

#[derive(Clone, Default, PartialEq)]
struct Flows {
    flowing: Vec<Flow>,
    gathering: Vec<Flow>,
    metals: Vec<Key>,
}

/// What flows of a sort, and what gathers it.
fn read(store: Store, [flowing, gathering]: [Subject; 2]) -> Memo<Flows> {
    Memo::new(move |_| {
        store.history.with(|history| {
            store.results.with(|results| {
                let flowing = flows::flowing(history.plan(), results, flowing);
                let gathering = flows::gathering(history.plan(), results, gathering, &flowing);
                let mut metals = flows::metals_of(&flowing);
                metals.extend(flows::metals_of(&gathering));
                let mut seen = std::collections::HashSet::new();
                metals.retain(|key| seen.insert(key.clone()));
                Flows { flowing, gathering, metals }
            })
        })
    })
}

fn shown(store: Store, amount: Option<Amount>) -> String {
    amount.map_or("–".into(), |amount| store.results.with_untracked(|results| flows::text(results, amount)))
}

/// The heading cell of a row: the place, a link, with its marks.
fn name(store: Store, flow: &Flow) -> impl IntoView + use<> {
    let marks = store.results.with_untracked(|results| flows::marks_at(results, flow.place));
    view! {
        <th scope="row">
            <a class="place-link" href=address_of(store, flow.sheet)>{flow.name.clone()}</a>
            " "
            {marks_view(marks)}
        </th>
    }
}

fn metal_cells(store: Store, flow: &Flow, metals: &[Key]) -> impl IntoView + use<> {
    let cell = |key: &Key| {
        let metal = flow.metals.iter().find(|metal| metal.key == *key).cloned();
        let blank = Metal { key: key.clone(), concentration: None, load: None };
        let Metal { concentration, load, .. } = metal.unwrap_or(blank);
        let parts = [load, concentration].into_iter().flatten();
        let texts: Vec<String> = parts.map(|amount| shown(store, Some(amount))).collect();
        if texts.is_empty() {
            return view! { <td class="n none" data-label=key.to_string()>"–"</td> }.into_any();
        }
        let lines = texts.into_iter().map(|text| view! { <span class="amount">{text}</span> }).collect_view();
        view! { <td class="n" data-label=key.to_string()>{lines}</td> }.into_any()
    };
    metals.iter().map(cell).collect_view()
}

fn metal_heads(metals: &[Key]) -> impl IntoView + use<> {
    metals.iter().map(|key| view! { <th scope="col" class="n">{key.to_string()}</th> }).collect_view()
}

/// A heading's id and a region's name.
fn title_id(subject: Subject) -> String {
    format!("{}-title", subject.sort().plural.split(' ').next().unwrap_or_default().to_ascii_lowercase())
}

/// Both generations: streams and routes, treated streams and discharges.
#[component]
pub fn FlowTables() -> impl IntoView {
    let generations = [[Subject::Stream, Subject::Route], [Subject::Treated, Subject::Discharge]];
    generations
        .map(|sorts| view! { <FlowingPart sorts /> <GatheringPart sorts /> })
        .into_iter()
        .collect_view()
}

/// Every stream of a generation.
#[component]
fn FlowingPart(sorts: [Subject; 2]) -> impl IntoView {
    let store = Store::here();
    let flows = read(store, sorts);
    let sort = sorts[0].sort();
    let body = move || {
        let Flows { flowing, metals, .. } = flows.get();
        let name_of =
            |place| store.history.with_untracked(|history| Some(history.plan().place(place?)?.name.clone()));
        let row = |flow: &Flow| {
            let goes = match (name_of(flow.to), flow.suggested) {
                (Some(to), _) => view! { {to} }.into_any(),
                (None, Some(word)) => {
                    view! { {sort.leads_nowhere} <small>"suggested: " {word}</small> }.into_any()
                }
                (None, None) => view! { {sort.leads_nowhere} }.into_any(),
            };
            view! {
                <tr>
                    {name(store, flow)}
                    <td data-label="Class">{flow.class.unwrap_or("–")}</td>
                    <td class="n" data-label="Volume">{shown(store, flow.volume)}</td>
                    {metal_cells(store, flow, &metals)}
                    <td data-label="Goes to">{goes}</td>
                </tr>
            }
        };
        let rows = flowing.iter().map(row).collect_view();
        view! {
            <table class=format!("data {}", breadth(4 + metals.len()))>
                <thead>
                    <tr>
                        <th scope="col">{sort.title}</th>
                        <th scope="col">"Class"</th>
                        <th scope="col" class="n">"Volume"</th>
                        {metal_heads(&metals)}
                        <th scope="col">"Goes to"</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        }
    };
    let id = title_id(sorts[0]);
    let (id, by) = (id.clone(), id);
    view! {
        <Show when=move || flows.with(|flows| !flows.flowing.is_empty())>
            <section class="part">
                <h2 id=id.clone()>{sort.plural}</h2>
                <div class="data-frame" tabindex="0" role="region" aria-labelledby=by.clone()>{body}</div>
            </section>
        </Show>
    }
}

/// What each route or discharge carries.
#[component]
fn GatheringPart(sorts: [Subject; 2]) -> impl IntoView {
    let store = Store::here();
    let flows = read(store, sorts);
    let (from, sort) = (sorts[0].sort(), sorts[1].sort());
    let leads_on = !sort.leads_to.is_empty();
    let body = move || {
        let Flows { gathering, flowing, metals } = flows.get();
        let row = |flow: &Flow| {
            let feeding = flowing.iter().filter(|stream| stream.to == Some(flow.place)).count();
            let through = store.history.with_untracked(|history| {
                flow.to.and_then(|to| history.plan().place(to)).map(|place| place.name.clone())
            });
            let through = leads_on.then(|| {
                view! { <td data-label=sort.to_label>{through.unwrap_or_else(|| "–".into())}</td> }
            });
            view! {
                <tr>
                    {name(store, flow)}
                    <td class="n" data-label=from.plural>{feeding}</td>
                    <td class="n" data-label="Volume">{shown(store, flow.volume)}</td>
                    {metal_cells(store, flow, &metals)}
                    {through}
                </tr>
            }
        };
        let rows = gathering.iter().map(row).collect_view();
        let through = leads_on.then(|| view! { <th scope="col">{sort.to_label}</th> });
        view! {
            <table class=format!("data {}", breadth(4 + metals.len()))>
                <thead>
                    <tr>
                        <th scope="col">{sort.title}</th>
                        <th scope="col" class="n">{from.plural}</th>
                        <th scope="col" class="n">"Volume"</th>
                        {metal_heads(&metals)}
                        {through}
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        }
    };
    let id = title_id(sorts[1]);
    let (id, by) = (id.clone(), id);
    view! {
        <Show when=move || flows.with(|flows| !flows.gathering.is_empty())>
            <section class="part">
                <h2 id=id.clone()>{sort.plural}", each day together"</h2>
                <div class="data-frame" tabindex="0" role="region" aria-labelledby=by.clone()>{body}</div>
            </section>
        </Show>
    }
}
