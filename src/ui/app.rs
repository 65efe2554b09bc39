//! The frame of every screen, and what stands in it by address.

use super::about::About;
use super::bar::Bar;
use super::earlier::EarlierPage;
use super::fresh;
use super::home::Home;
use super::line::LinePage;
use super::newer::Newer;
use super::open::DropZone;
use super::places::Places;
use super::report::{ReportPage, building::BuildingPage};
use super::share::{SharePage, Viewed, open_link};
use super::sheet::SheetPage;
use super::shelf::{LINK, Shelf};
use super::store::{Open, Store};
use super::unkept::Unkept;
use crate::address::Address;
use crate::calculators::find;
use crate::ui::element::Show;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::prelude::*;

/// The whole page.
#[component]
pub fn App() -> impl IntoView {
    let shelf = Shelf::new();
    let store = Store::new(shelf);
    provide_context(store);
    provide_context(shelf);
    let is_loaded = RwSignal::new(false);
    shelf.load(store, move || {
        go_to_where_the_address_leads(store, shelf);
        is_loaded.set(true);
        request_animation_frame(super::ready);
    });
    let _ =
        window_event_listener(leptos::ev::hashchange, move |_| go_to_where_the_address_leads(store, shelf));
    let _ = window_event_listener(leptos::ev::pagehide, move |_| shelf.flush(&store));
    let _ = window_event_listener(leptos::ev::beforeunload, move |event| {
        shelf.flush(&store);
        if shelf.held.with_untracked(Option::is_some) {
            event.prevent_default();
        }
    });
    let _ = window_event_listener(leptos::ev::keydown, move |event| {
        if !(event.ctrl_key() || event.meta_key()) || event.alt_key() {
            return;
        }
        match (event.key().to_ascii_lowercase().as_str(), event.shift_key()) {
            ("z", false) => store.undo(),
            ("z", true) | ("y", _) => store.redo(),
            _ => return,
        }
        event.prevent_default();
    });
    // What a printed file and a bookmark are called: written when it changes, not at each key.
    let title = Memo::new(move |_| match store.address.with(Address::is_of_plan) {
        true => store.history.with(|history| format!("{} - Bathbook", history.plan().name)),
        false => "Bathbook".into(),
    });
    Effect::new(move |_| title.with(|title| document().set_title(title)));
    let has_rail = Memo::new(move |_| store.address.with(Address::is_of_plan));
    let screen = move || match store.address.get() {
        Address::Home => view! { <Home /> }.into_any(),
        Address::About => view! { <About /> }.into_any(),
        Address::Line(_) => view! { <LinePage /> }.into_any(),
        Address::Report(_) => view! { <ReportPage /> }.into_any(),
        Address::Building(_) => view! { <BuildingPage /> }.into_any(),
        Address::Share(_) => view! { <SharePage /> }.into_any(),
        Address::Earlier(_) => view! { <EarlierPage /> }.into_any(),
        Address::Link(_) => ().into_any(),
        Address::Sheet { place, calculator, .. } => view! { <SheetPage place calculator /> }.into_any(),
        Address::Quick(calculator) => match store.sheet() {
            Some((place, _)) => view! { <SheetPage place calculator /> }.into_any(),
            None => view! { <Home /> }.into_any(),
        },
    };
    let is_framed = move || !matches!(store.address.get(), Address::Home | Address::About);
    view! {
        <a class="skip" href="#main" on:click=focus_main>"Skip to the sheet"</a>
        <Bar />
        <Newer />
        <Viewed />
        <div class:frame=is_framed class:alone=move || is_framed() && !has_rail.get()>
            <Show when=move || has_rail.get()>
                <Places />
            </Show>
            {move || is_loaded.get().then(screen)}
        </div>
        <Unkept />
        <Said />
        <DropZone />
    }
}

/// What was last done, for a while, with a way back.
#[component]
fn Said() -> impl IntoView {
    let store = Store::here();
    Effect::new(move |_| {
        if let Some(text) = store.said.get() {
            let still = move || {
                if store.said.get_untracked().as_ref() == Some(&text) {
                    store.said.set(None);
                }
            };
            set_timeout(still, std::time::Duration::from_secs(12));
        }
    });
    view! {
        <div class="corner" role="status" aria-live="polite" class:shown=move || store.said.with(Option::is_some)>
            {move || store.said.get().map(|text| view! {
                <span>{text}</span>
                <button on:click=move |_| store.said.set(None)>"Close"</button>
            })}
        </div>
    }
}

/// The page's own address is taken by the screen, so the jump is made here.
fn focus_main(event: leptos::ev::MouseEvent) {
    event.prevent_default();
    if let Ok(Some(main)) = document().query_selector("main") {
        use wasm_bindgen::JsCast;
        let _ = main.set_attribute("tabindex", "-1");
        if let Some(main) = main.dyn_ref::<web_sys::HtmlElement>() {
            let _ = main.focus();
        }
    }
}

fn go_to_where_the_address_leads(store: Store, shelf: Shelf) {
    let fragment = window().location().hash().unwrap_or_default();
    let address = Address::read(&fragment);
    let wanted = match &address {
        Address::Line(plan)
        | Address::Report(plan)
        | Address::Building(plan)
        | Address::Share(plan)
        | Address::Earlier(plan)
        | Address::Sheet { plan, .. } => Some(Open { id: plan.clone(), quick: None }),
        Address::Quick(calculator) => Some(Open { id: String::new(), quick: Some(calculator) }),
        _ => None,
    };
    store.settle();
    if let Address::Link(carried) = &address {
        open_link(store, carried.clone());
    }
    if address == Address::Home && !fragment.trim_start_matches(['#', '/']).is_empty() {
        store.said.set(Some("That address leads nowhere here. This is the first page.".into()));
    }
    store.address.set(address.clone());
    if let (Some(wanted), true) = (&wanted, wanted != store.open.get_untracked()) {
        let plan = match wanted.quick.and_then(find) {
            Some(calculator) => shelf.quick(calculator.id).unwrap_or_else(|| fresh::quick(calculator)),
            None => match shelf.plan(&wanted.id) {
                Some(plan) => plan,
                None => {
                    if wanted.id == LINK {
                        let note = "That address shows what a link brought in another window: it holds no plan itself. Ask for the whole link, which goes on with #/link/ and many letters, or for the plan as a file.";
                        shelf.notes.update(|notes| notes.push(note.into()));
                    } else {
                        store.said.set(Some(match shelf.holds(&wanted.id) {
                            true => {
                                "That plan cannot be opened here. What is wrong with it stands below.".into()
                            }
                            false => "That plan is not on this device. Here are the plans that are.".into(),
                        }));
                    }
                    store.address.set(Address::Home);
                    return;
                }
            },
        };
        store.open_plan(wanted.clone(), plan);
        shelf.say_again(&super::shelf::key(wanted));
    } else {
        store.work_out();
    }
    window().scroll_to_with_x_and_y(0.0, 0.0);
}

/// Goes to a screen, as a link would.
pub fn go(address: &Address) {
    let _ = window().location().set_hash(&address.text());
}
