//! The same as the map, in tables: every stream, and what each route carries.

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
    streams: Vec<Flow>,
    routes: Vec<Flow>,
    metals: Vec<Key>,
}

fn read(store: Store) -> Memo<Flows> {
    Memo::new(move |_| {
        store.history.with(|history| {
            store.results.with(|results| {
                let streams = flows::streams(history.plan(), results);
                let routes = flows::routes(history.plan(), results, &streams);
                let mut metals = flows::metals_of(&streams);
                metals.extend(flows::metals_of(&routes));
                let mut seen = std::collections::HashSet::new();
                metals.retain(|key| seen.insert(key.clone()));
                Flows { streams, routes, metals }
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

/// Every stream.
#[component]
pub fn StreamsPart() -> impl IntoView {
    let store = Store::here();
    let flows = read(store);
    let body = move || {
        let Flows { streams, metals, .. } = flows.get();
        let name_of =
            |place| store.history.with_untracked(|history| Some(history.plan().place(place?)?.name.clone()));
        let row = |stream: &Flow| {
            let goes = match (name_of(stream.to), stream.suggested) {
                (Some(route), _) => view! { {route} }.into_any(),
                (None, Some(word)) => view! { "no route yet" <small>"suggested: " {word}</small> }.into_any(),
                (None, None) => view! { "no route yet" }.into_any(),
            };
            view! {
                <tr>
                    {name(store, stream)}
                    <td data-label="Class">{stream.class.unwrap_or("–")}</td>
                    <td class="n" data-label="Volume">{shown(store, stream.volume)}</td>
                    {metal_cells(store, stream, &metals)}
                    <td data-label="Goes to">{goes}</td>
                </tr>
            }
        };
        let rows = streams.iter().map(row).collect_view();
        view! {
            <table class=format!("data {}", breadth(4 + metals.len()))>
                <thead>
                    <tr>
                        <th scope="col">"Stream"</th>
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
    view! {
        <Show when=move || flows.with(|flows| !flows.streams.is_empty())>
            <section class="part">
                <h2 id="streams-title">{Subject::Stream.sort().plural}</h2>
                <div class="data-frame" tabindex="0" role="region" aria-labelledby="streams-title">{body}</div>
            </section>
        </Show>
    }
}

/// What each route carries.
#[component]
pub fn RoutesPart() -> impl IntoView {
    let store = Store::here();
    let flows = read(store);
    let body = move || {
        let Flows { routes, streams, metals } = flows.get();
        let row = |route: &Flow| {
            let feeding = streams.iter().filter(|stream| stream.to == Some(route.place)).count();
            let through = store.history.with_untracked(|history| {
                route.to.and_then(|to| history.plan().place(to)).map(|place| place.name.clone())
            });
            view! {
                <tr>
                    {name(store, route)}
                    <td class="n" data-label="Streams">{feeding}</td>
                    <td class="n" data-label="Volume">{shown(store, route.volume)}</td>
                    {metal_cells(store, route, &metals)}
                    <td data-label="Runs through">{through.unwrap_or_else(|| "–".into())}</td>
                </tr>
            }
        };
        let rows = routes.iter().map(row).collect_view();
        view! {
            <table class=format!("data {}", breadth(4 + metals.len()))>
                <thead>
                    <tr>
                        <th scope="col">"Route"</th>
                        <th scope="col" class="n">"Streams"</th>
                        <th scope="col" class="n">"Volume"</th>
                        {metal_heads(&metals)}
                        <th scope="col">"Runs through"</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        }
    };
    view! {
        <Show when=move || flows.with(|flows| !flows.routes.is_empty())>
            <section class="part">
                <h2 id="routes-title">{Subject::Route.sort().plural}", each day together"</h2>
                <div class="data-frame" tabindex="0" role="region" aria-labelledby="routes-title">{body}</div>
            </section>
        </Show>
    }
}
