//! The map, drawn.

use super::super::store::Store;
use super::super::when;
use super::address_of;
use crate::picture::map::layout::{Drawing, LEADING, PAD, Run, Shape, TITLE};
use crate::picture::map::{COLUMNS, Edge, Map, Quantity, Sign, Way};
use crate::ui::element::Show;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::html::Div;
use leptos::prelude::*;

/// The map with the choice of what its widths show.
#[component]
pub fn MapPart() -> impl IntoView {
    let store = Store::here();
    let map = Memo::new(move |_| {
        store.history.with(|history| store.results.with(|results| Map::of(history.plan(), results)))
    });
    let chosen = RwSignal::new(Quantity::Volume);
    // A metal that no longer flows cannot be shown.
    let quantity = Memo::new(move |_| {
        let wanted = chosen.get();
        map.with(|map| if map.quantities().contains(&wanted) { wanted } else { Quantity::Volume })
    });
    let (frame, width) = (NodeRef::<Div>::new(), RwSignal::new(800.0));
    let measure = move || {
        // A frame of the screen may come after the page was left.
        if let Some(frame) = frame.try_get_untracked().flatten() {
            let now = f64::from(frame.client_width());
            if now > 0.0 && Some(now) != width.try_get_untracked() {
                width.set(now);
            }
        }
    };
    Effect::new(move |_| {
        frame.track();
        // The styles have been applied by then.
        request_animation_frame(measure);
        measure();
    });
    let resized = window_event_listener(leptos::ev::resize, move |_| measure());
    on_cleanup(move || resized.remove());
    let drawing = Memo::new(move |_| map.with(|map| map.lay_out(width.get(), &quantity.get())));
    let picture =
        move || drawing.with(|drawing| map.with(|map| svg(store, map, drawing, &quantity.get()))).into_any();
    let save = move |_| {
        let name = store.history.with_untracked(|history| history.plan().name.clone());
        let (quantity, results) = (quantity.get_untracked(), store.results.get_untracked());
        let of = quantity_name(&quantity);
        let text = map.with_untracked(|map| {
            let heading = format!("{name}: {of}, {}", when::day(when::now()));
            map.file(&results, &quantity, &heading, &map.legend(&results, &quantity))
        });
        super::super::file::hand_over(
            store,
            &format!("{name} - map - {of}"),
            ("svg", "image/svg+xml"),
            &text.into(),
        );
    };
    view! {
        <section class="part map-part" aria-labelledby="map-title">
            <h2 id="map-title">"Map"</h2>
            <Pick map chosen quantity />
            <div class="map-frame" node_ref=frame>{picture}</div>
            <p class="hint">{move || map.with(|map| store.results.with_untracked(|results| map.legend(results, &quantity.get())))}</p>
            <div class="actions no-print"><button on:click=save>"Save the map"</button></div>
        </section>
    }
}

fn quantity_name(quantity: &Quantity) -> String {
    match quantity {
        Quantity::Volume => "volume a day".to_string(),
        Quantity::Metal(key) => format!("{key} a day"),
    }
}

/// What the widths show.
#[component]
fn Pick(map: Memo<Map>, chosen: RwSignal<Quantity>, quantity: Memo<Quantity>) -> impl IntoView {
    let choices = Memo::new(move |_| map.with(|map| map.quantities()));
    let choice = move |offered: Quantity| {
        let name = quantity_name(&offered);
        let (picked, offered) = (offered.clone(), offered);
        view! {
            <label class="chip">
                <input
                    type="radio"
                    name="map-quantity"
                    prop:checked=move || quantity.get() == offered
                    on:change=move |_| chosen.set(picked.clone())
                />
                <span>{name}</span>
            </label>
        }
    };
    view! {
        <Show when=move || choices.with(|choices| choices.len() > 1)>
            <fieldset class="chips">
                <legend>"Widths show"</legend>
                {move || choices.get().into_iter().map(choice).collect_view()}
            </fieldset>
        </Show>
    }
}

fn svg(store: Store, map: &Map, drawing: &Drawing, quantity: &Quantity) -> impl IntoView + use<> {
    let (width, height) = (drawing.width, drawing.height);
    let heads = drawing.heads.iter().map(|head| {
        let text = head.text;
        view! { <text class="head" x=head.x y=head.y aria-hidden="true">{text}</text> }
    });
    let runs =
        drawing.runs.iter().filter_map(|run| Some(line(store, map, map.edges.get(run.edge)?, run, quantity)));
    let shapes = drawing.shapes.iter().map(|shape| node(store, map, shape));
    view! {
        <svg
            class="map"
            role="group"
            aria-label=map.summary()
            width=width
            height=height
            viewBox=format!("0 0 {width} {height}")
        >
            {heads.collect_view()}
            <g aria-hidden="true">{runs.collect_view()}</g>
            {shapes.collect_view()}
        </svg>
    }
}

fn line(store: Store, map: &Map, edge: &Edge, run: &Run, quantity: &Quantity) -> impl IntoView + use<> {
    let title = store.results.with_untracked(|results| map.edge_text(results, edge, quantity));
    let way = match edge.way {
        Way::From | Way::To => "run",
        Way::Nowhere => "run nowhere",
        Way::Tank => "run tank",
    };
    let metal = if matches!(quantity, Quantity::Metal(_)) { " metal" } else { "" };
    view! {
        <path class=format!("{way}{metal}") d=run.path.clone() stroke-width=run.width><title>{title}</title></path>
    }
}

fn node(store: Store, map: &Map, shape: &Shape) -> AnyView {
    let Some(node) = map.nodes.get(shape.node) else { return ().into_any() };
    let sort = COLUMNS.get(node.column).map_or("", |subject| subject.sort().title);
    let (word, sign) = match &node.sign {
        Some((Sign::Stop, text)) => ("stop", text.clone()),
        Some((Sign::Caution, text)) => ("caution", text.clone()),
        Some((Sign::Todo, text)) => ("todo", text.clone()),
        None => ("", String::new()),
    };
    let joined =
        |texts: Vec<&str>| texts.into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join(" ");
    // Its visible words first, as they stand: a voice that names what it sees finds it. What was cut follows.
    let seen = shape.title.iter().chain(&shape.lines).map(String::as_str).chain([sign.as_str()]);
    let seen = joined(seen.collect());
    let whole = joined(std::iter::once(&node.title).chain(&node.lines).map(String::as_str).collect());
    let whole = if seen.contains('…') { format!(": {whole}") } else { String::new() };
    let label = format!("{seen}, {}{whole}", sort.to_ascii_lowercase());
    let x = shape.x + PAD;
    let mut y = shape.y + PAD + TITLE - 2.0;
    y -= LEADING;
    let mut next = || {
        y += LEADING;
        y
    };
    let title: Vec<_> = shape
        .title
        .iter()
        .map(|line| view! { <text class="title" x=x y=next()>{line.clone()}</text> " " })
        .collect();
    let lines: Vec<_> = shape
        .lines
        .iter()
        .map(|line| view! { <text class="small" x=x y=next()>{line.clone()}</text> " " })
        .collect();
    let sign = (!sign.is_empty()).then(|| view! { <text class="sign" x=x y=next()>{sign.clone()}</text> });
    let body = view! {
        <g>
            <rect x=shape.x y=shape.y width=shape.w height=shape.h rx="9" />
            {title}
            {lines}
            {sign}
        </g>
    };
    if node.place.is_none() {
        return view! { <g class="place nowhere"><title>{label}</title>{body}</g> }.into_any();
    }
    let href = address_of(store, node.sheet);
    // One child alone: among several, `view!` takes `a` for a link outside of pictures.
    view! {
        <g class=format!("place {word}")>
            <a href=href aria-label=label>{body}</a>
        </g>
    }
    .into_any()
}
