//! The map, drawn.

use super::super::store::Store;
use super::address_of;
use crate::picture::flows;
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
    view! {
        <section class="part map-part" aria-labelledby="map-title">
            <h2 id="map-title">"Map"</h2>
            <Pick map chosen quantity />
            <div class="map-frame" node_ref=frame>{picture}</div>
            <p class="hint">{move || map.with(|map| legend(store, map, &quantity.get()))}</p>
        </section>
    }
}

/// What the widths show.
#[component]
fn Pick(map: Memo<Map>, chosen: RwSignal<Quantity>, quantity: Memo<Quantity>) -> impl IntoView {
    let choices = Memo::new(move |_| map.with(|map| map.quantities()));
    let choice = move |offered: Quantity| {
        let name = match &offered {
            Quantity::Volume => "volume a day".to_string(),
            Quantity::Metal(key) => format!("{key} a day"),
        };
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

fn legend(store: Store, map: &Map, quantity: &Quantity) -> String {
    let widest = map.edges.iter().filter_map(|edge| edge.amount(quantity));
    let widest = widest.max_by(|a, b| a.0.total_cmp(&b.0));
    let mut text = match widest {
        Some(amount) => {
            let shown = store.results.with_untracked(|results| flows::text(results, amount));
            format!("The widest line is {shown}. A thin line is little, or not known yet.")
        }
        None if map.edges.is_empty() => "Nothing flows yet.".to_string(),
        None => "No amounts are known yet.".to_string(),
    };
    let has = |way| map.edges.iter().any(|edge| edge.way == way);
    if has(Way::Nowhere) {
        text += " Dashes: leads nowhere yet.";
    }
    if has(Way::Tank) {
        text += " Dots: a tank that may be let out into a drain.";
    }
    text
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
    let said: Vec<&str> = node.lines.iter().map(String::as_str).chain([sign.as_str()]).collect();
    let said = said.into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>().join(" ");
    // Its visible words first, as they stand: a voice that names what it sees finds it.
    let label = format!("{} {said}, {}", node.title, sort.to_ascii_lowercase());
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
