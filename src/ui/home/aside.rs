//! What could not be read: untouched, to be got as a file.

use super::super::file::hand_over;
use super::super::store::Store;
use super::super::twice::Twice;
use super::super::when;
use crate::results::count;
use crate::sentence::sentence;
use crate::ui::element::Show;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// One thing that could not be read: what it is called, when it was kept, what is wrong, its text, and its key
/// where it lies aside. A plan that another version can read stays among the plans.
type Line = (String, f64, String, String, Option<String>);

/// The list; not there while it is empty.
#[component]
pub fn Aside() -> impl IntoView {
    let store = Store::here();
    let shelf = store.shelf;
    let lines = Memo::new(move |_| {
        let aside = shelf.aside.get().into_iter().map(|it| {
            let id = it.key.split(' ').next().unwrap_or_default().to_string();
            (format!("Record {id}"), it.at, it.why, it.raw, Some(it.key))
        });
        let unread = shelf.unread().into_iter();
        let unread = unread.map(|(record, why)| (record.name, record.saved_at, why, record.text, None));
        aside.chain(unread).collect::<Vec<Line>>()
    });
    let row = move |(name, at, why, text, key): Line| {
        let file = key.clone().unwrap_or_else(|| name.clone());
        let save = format!("Save {name} as a file");
        let remove = key.map(|key| {
            view! {
                <Twice
                    words="Remove"
                    label=format!("Remove {name}")
                    warning="It may hold a plan that can still be got back. Nobody can bring it back then."
                    then=move || shelf.erase_aside(key.clone())
                />
            }
        });
        view! {
            <li>
                <span><b>{name.clone()}</b><small>{sentence(&why)}" Kept "{when::moment(at)}</small></span>
                <span class="buttons">
                    <button aria-label=save on:click=move |_| {
                        hand_over(store, &file, ("txt", "text/plain"), &text.clone().into());
                    }>"Save it as a file"</button>
                    {remove}
                </span>
            </li>
        }
    };
    view! {
        <Show when=move || lines.with(|lines| !lines.is_empty())>
            <section class="part bin aside" aria-labelledby="aside-title">
                <h2 id="aside-title">"Not readable: "{move || count(lines.with(Vec::len), "record")}</h2>
                <p class="hint">"Kept as found. A newer version of Bathbook may read it, and somebody may mend it from the file."</p>
                <ul>{move || lines.get().into_iter().map(row).collect_view()}</ul>
            </section>
        </Show>
    }
}
