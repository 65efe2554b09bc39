//! What this is, how its numbers are checked and typed, and where plans are kept.

use super::home::WHERE_KEPT;
use super::newer::page_has;
use super::shelf::Shelf;
use crate::address::Address;
use crate::ask::self_check;
use crate::calculators::ALL;
use crate::results::count;
use crate::ui::element::Show;
use bathbook_view::view;
use leptos::prelude::*;

/// The about page.
#[component]
pub fn About() -> impl IntoView {
    view! {
        <main id="main" class="home-page about">
            <h1>"About Bathbook"</h1>
            <p class="lead">
                "Bathbook works out, as one linked plan, what the baths of a wafer plating line are charged with, how they are heated and cooled, and how every litre leaves: by which route and drain, and with how much metal in it. Every number shows the steps that led to it, so that another engineer can check it."
            </p>
            <Kept />
            <Offline />
            <Checked />
            <Typed />
            <Caution />
            <section class="part">
                <h2>"Version and licence"</h2>
                <p>"Bathbook "{version()}". Licence: "{env!("CARGO_PKG_LICENSE")}", as you choose."</p>
            </section>
            <p><a href=Address::Home.text()>"To the plans"</a></p>
        </main>
    }
}

#[component]
fn Kept() -> impl IntoView {
    let shelf = Shelf::here();
    let lasting = move || match shelf.is_lasting.get() {
        Some(true) => {
            "This browser has agreed not to remove plans by itself when the device runs short of room."
        }
        Some(false) => {
            "This browser has not agreed to keep plans for good: it may remove them when the device runs short of room, or when the page has not been opened for some weeks. Save files. "
        }
        None => {
            "This browser cannot be asked to keep plans for good: it may remove them when the device runs short of room, or when the page has not been opened for some weeks. Save files."
        }
    };
    let is_refused = RwSignal::new(false);
    let ask = move |_| {
        wasm_bindgen_futures::spawn_local(async move {
            let is_agreed = shelf.asked_to_last().await;
            // Gone once the page is left.
            let _ = is_refused.try_set(!is_agreed);
        });
    };
    let refused = move || is_refused.get().then_some(" It was asked, and does not agree.");
    let can_ask = move || shelf.is_lasting.get() == Some(false);
    view! {
        <section class="part">
            <h2>"Where plans are kept"</h2>
            <p>{WHERE_KEPT}</p>
            <ul>
                <li>"“Saved” is said only after this browser has reported that it has stored the plan."</li>
                <li>
                    {lasting}
                    <Show when=can_ask>
                        <button on:click=ask>"Ask it to keep them"</button>
                        <span role="status">{refused}</span>
                    </Show>
                </li>
                <li>"In a private window, plans go when the window is closed."</li>
                <li>"Undo goes on after the page was closed, and “Earlier versions” on a plan’s page has what it was before."</li>
                <li>"Another browser, another device or another person cannot see these plans. A printed page is a copy that none of this can touch."</li>
            </ul>
        </section>
    }
}

/// Of the site as it was built; the number alone where the page does not tell.
fn version() -> String {
    let meta = document().query_selector("meta[name=version]").ok().flatten();
    let told = meta.and_then(|meta| meta.get_attribute("content")).filter(|text| !text.is_empty());
    told.unwrap_or_else(|| env!("CARGO_PKG_VERSION").into())
}

#[component]
fn Offline() -> impl IntoView {
    let is_kept = page_has("data-offline");
    let now = match is_kept {
        true => "The app itself is kept in this browser: it opens without a network.",
        false => {
            "The app itself is not kept in this browser yet: it may need the network to open. Private windows and pages without https never keep it."
        }
    };
    let of_site = move || {
        view! {
            <p>{now}</p>
            <ul>
                <li>"“Install” or “Add to home screen” in the browser’s menu gives it an icon of its own."</li>
                <li>"A newer version is fetched whole, beside the old one, and offered on top of the page. It starts when you choose it."</li>
                <li>"Should it ever not open as it should, "<a href="./?fresh">"load it anew from its host"</a>". Plans stay."</li>
            </ul>
        }
    };
    let of_file = || {
        view! {
            <p>"This is the page of one file. It needs no network and no installation, and differs from the site in this:"</p>
            <ul>
                <li>"It does not renew itself: a newer version is a newer file."</li>
                <li>"It cannot make links to a plan, nor codes of them. Files of plans are the same, here and there."</li>
                <li>"Plans are kept by this browser on this device and do not travel with the file. Some browsers keep them apart for each folder, or share them among all files: save a file of what is worth keeping beside this one."</li>
            </ul>
        }
    };
    view! {
        <section class="part">
            <h2>"Without a network"</h2>
            {if page_has("data-one-file") { of_file().into_any() } else { of_site().into_any() }}
        </section>
    }
}

/// What one calculator's examples came to.
type Checks = Vec<(&'static str, usize, Vec<String>)>;

#[component]
fn Checked() -> impl IntoView {
    let total: usize = ALL.iter().map(|calculator| calculator.examples.len()).sum();
    let outcome = RwSignal::new(None::<Checks>);
    let run = move |_| {
        let check = |calculator: &&'static crate::calculator::Calculator| {
            (calculator.title, calculator.examples.len(), self_check(calculator))
        };
        outcome.set(Some(ALL.iter().map(check).collect()));
    };
    let said = move || {
        outcome.get().map(|checks| {
            let wrong: usize = checks.iter().map(|(.., wrong)| wrong.len()).sum();
            if wrong == 0 {
                format!("All {} came out as published, in this browser, just now.", count(total, "example"))
            } else {
                format!("{wrong} of {total} did not come out as published. Do not rely on those sheets, and please report it.")
            }
        })
    };
    let row = move |calculator: &&'static crate::calculator::Calculator| {
        let title = calculator.title;
        let result = move || {
            let wrong = outcome.with(|checks| {
                let found = checks.as_ref()?.iter().find(|(known, ..)| *known == title)?;
                Some(found.2.clone())
            });
            match wrong {
                None => view! { "not run yet" }.into_any(),
                Some(wrong) if wrong.is_empty() => view! { "as published" }.into_any(),
                Some(wrong) => {
                    let lines = wrong.into_iter().map(|line| view! { <span class="amount">{line}</span> });
                    view! { <span class="mark stop">"■ not as published"</span>{lines.collect_view()} }
                        .into_any()
                }
            }
        };
        let sources = calculator.sources.iter().map(|source| view! { <span class="amount">{*source}</span> });
        view! {
            <tr>
                <th scope="row">{title}</th>
                <td class="n" data-label="Examples">{calculator.examples.len()}</td>
                <td data-label="When run here">{result}</td>
                <td data-label="Sources">{sources.collect_view()}</td>
            </tr>
        }
    };
    view! {
        <section class="part">
            <h2>"How the numbers are checked"</h2>
            <p>
                "The working on a sheet is a record of the sum itself: each step shown is the step that was computed. Every sheet is tested against worked examples from outside this project, named on the sheet with their sources: "
                {count(total, "example")}" in all. Where a value is common practice or from memory, it says so. Example plans are invented and check nothing."
            </p>
            <div class="buttons"><button on:click=run>"Run all examples now"</button></div>
            <p role="status" class="outcome">{said}</p>
            <div class="data-frame" tabindex="0" role="region" aria-label="Examples of each sheet">
                <table class="data few">
                    <thead>
                        <tr>
                            <th scope="col">"Sheet"</th>
                            <th scope="col" class="n">"Examples"</th>
                            <th scope="col">"When run here"</th>
                            <th scope="col">"Sources"</th>
                        </tr>
                    </thead>
                    <tbody>{ALL.iter().map(row).collect_view()}</tbody>
                </table>
            </div>
        </section>
    }
}

#[component]
fn Typed() -> impl IntoView {
    view! {
        <section class="part">
            <h2>"How numbers are typed"</h2>
            <ul>
                <li>"With a point or a comma: "<code>"1.5"</code>" or "<code>"1,5"</code>". Where a number could mean two things, such as "<code>"1,234"</code>", the field shows both and you choose."</li>
                <li>"With or without a unit: "<code>"40"</code>" takes the unit beside the field; "<code>"12 gal"</code>", "<code>"1/4 in/ft"</code>" or "<code>"120 °F"</code>" are taken as typed."</li>
                <li>"Short: "<code>"2.5e-3"</code>" is 0.0025."</li>
                <li>"The unit beside a field can be changed. What you typed is kept as you typed it, so changing back is exact."</li>
                <li>"A value that follows from another sheet says so. Type over it to set your own; one touch lets it follow again."</li>
                <li>"What cannot be read is never used: the last good value stands, and the field says so."</li>
                <li>"Decimal sign, gallon and preferred units are chosen on each plan’s site sheet."</li>
            </ul>
        </section>
    }
}

#[component]
fn Caution() -> impl IntoView {
    view! {
        <section class="part">
            <h2>"Before you act on a number"</h2>
            <div class="cautionbox">
                <ul>
                    <li>"These sums help to plan and to check. They do not replace local codes, your permit, the makers’ data, or the judgement of people licensed for the work; where they differ, those rule."</li>
                    <li>"Acids, alkalis, cyanide, hydrofluoric acid, hot liquids and metal salts injure and kill. Follow your site’s own procedures, protection and first aid; the cautions on a sheet are a reminder and not complete."</li>
                    <li>"Where Bathbook refuses to give an answer, there is a reason. Do not work round it."</li>
                    <li>"That nothing is marked on a plan is no approval of it."</li>
                </ul>
            </div>
        </section>
    }
}
