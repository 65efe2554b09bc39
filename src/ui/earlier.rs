//! What a plan was before: by time, with what it held, to go back to or to open beside it.

use super::file::hand_over;
use super::store::Store;
use super::when;
use crate::address::Address;
use crate::calculators::find;
use crate::keep::Trouble;
use crate::keep::earlier::{ALWAYS, Version};
use crate::plan::Plan;
use crate::results::count;
use crate::sentence::sentence;
use crate::ui::app::go;
use bathbook_view::view;
use leptos::prelude::*;

/// The page.
#[component]
pub fn EarlierPage() -> impl IntoView {
    let store = Store::here();
    let found = RwSignal::new(None::<Result<Vec<Version>, Trouble>>);
    let id = store.open.with_untracked(|open| open.as_ref().map(|open| open.id.clone())).unwrap_or_default();
    wasm_bindgen_futures::spawn_local(async move { found.set(Some(store.shelf.earlier(id).await)) });
    let name = move || store.history.with(|history| history.plan().name.clone());
    let list = move || {
        match found.get() {
        None => ().into_any(),
        Some(Err(trouble)) => {
            view! { <p class="cautionbox">"They cannot be read now. "{trouble.words()}</p> }.into_any()
        }
        Some(Ok(versions)) if versions.is_empty() => {
            view! { <p>"None yet. The first is kept when the plan is changed a minute or more after it was made."</p> }
                .into_any()
        }
        Some(Ok(versions)) => {
            let rows = versions.into_iter().map(|Version { saved_at, plan }| match plan {
                Ok(plan) => row(store, saved_at, plan).into_any(),
                Err((why, text)) => unread(store, saved_at, &why, text).into_any(),
            });
            let rows = rows.collect_view();
            view! { <section class="part bin"><ul>{rows}</ul></section> }.into_any()
        }
    }
    };
    view! {
        <main id="main" class="home-page share">
            <h1>"Earlier versions of “"{name}"”"</h1>
            <p class="lead">
                {format!("The last {ALWAYS}, a minute or more apart, and of older ones the last of each hour, day and month. They are kept in this browser only, as the plan is.")}
            </p>
            {list}
            <p><a href=move || store.line_address().text()>"Back to the line"</a></p>
        </main>
    }
}

fn row(store: Store, at: f64, plan: Plan) -> impl IntoView {
    let (then, size) = (when::to_the_minute(at), count(plan.places.len(), "place"));
    let differs = {
        let plan = plan.clone();
        move || store.history.with(|history| differences(&plan, history.plan()))
    };
    let [back, copy] = ["Go back to ", "Open a copy of "].map(|what| format!("{what}{then}"));
    let (kept, said) = (plan.clone(), then.clone());
    let told = then.clone();
    let go_back = move |_| {
        store.act(|now| *now = kept.clone());
        go(&store.plan_address(Address::Line));
        store.said.set(Some(format!("The plan is as it was {told}. Undo takes that back.")));
    };
    let open_copy = move |_| {
        let mut copy = plan.clone();
        copy.name = format!("{}, {said}", copy.name);
        let id = store.shelf.add(copy);
        go(&Address::Line(id));
    };
    view! {
        <li>
            <span><b>{then}</b><small>{size}" · "{differs}</small></span>
            <span class="buttons">
                <button aria-label=back on:click=go_back>"Go back to it"</button>
                <button aria-label=copy on:click=open_copy>"Open as a copy"</button>
            </span>
        </li>
    }
}

/// A version that cannot be read here, to be got as it is.
fn unread(store: Store, at: f64, why: &str, text: String) -> impl IntoView {
    let then = when::to_the_minute(at);
    let (label, file) = (format!("Save that of {then} as a file"), format!("Version of {then}"));
    let save = move |_| {
        hand_over(store, &file, ("txt", "text/plain"), &text.clone().into());
    };
    view! {
        <li>
            <span><b>{then}</b><small>"Not readable: "{sentence(why)}" Kept as found."</small></span>
            <span class="buttons"><button aria-label=label on:click=save>"Save it as a file"</button></span>
        </li>
    }
}

/// Where a version differs from the plan as it is now, in a few words.
fn differences(then: &Plan, now: &Plan) -> String {
    /// As many places are named as are read at a glance.
    const NAMED: usize = 3;
    let places = then.differences(now);
    let words = |(place, sheet): &(&crate::plan::Place, Option<&str>)| {
        let title = sheet.and_then(find).map(|calculator| format!(" ({})", calculator.title));
        format!("{}{}", place.name, title.unwrap_or_default())
    };
    let named: Vec<String> = places.iter().take(NAMED).map(words).collect();
    match places.len().saturating_sub(NAMED) {
        0 if named.is_empty() && then == now => "the same as now".into(),
        0 if named.is_empty() => "differs in its name or notes".into(),
        0 => format!("differs at {}", named.join(", ")),
        more => format!("differs at {} and {}", named.join(", "), count(more, "more place")),
    }
}
