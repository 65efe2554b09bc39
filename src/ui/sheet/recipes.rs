//! Starting points to fill a sheet in with: the library, and what stands at other places of the plan.

use super::Here;
use crate::calculator::Recipe;
use crate::plan::Id;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// What a choice of the list means: a recipe by its name, or a place by its id.
fn place_of(value: &str) -> Option<Id> {
    value.strip_prefix('#').and_then(|id| id.parse().ok())
}

/// A list to choose from, what it holds, and a button that fills the sheet in.
#[component]
pub fn Recipes(here: Here) -> impl IntoView {
    let (store, place, calculator) = (here.store, here.place, here.calculator);
    let chosen = RwSignal::new(String::new());
    let recipe = move || -> Option<&'static Recipe> {
        chosen.with(|name| calculator.recipes.iter().find(|recipe| recipe.name == name.as_str()))
    };
    // Other places whose table is filled: the user's own recipes.
    let others = Memo::new(move |_| {
        let table = calculator.recipes.first().map_or("", |recipe| recipe.table);
        store.history.with(|history| {
            let places = history.plan().places.iter().filter(|other| other.id != place);
            let filled = places.filter(|other| {
                let rows = other.sheets.get(calculator.id).and_then(|sheet| sheet.rows.get(table));
                rows.is_some_and(|rows| !rows.is_empty())
            });
            filled.map(|other| (other.id, other.name.clone())).collect::<Vec<_>>()
        })
    });
    let fill = move |_| {
        let value = chosen.get_untracked();
        let done = "Filled in. Undo brings back what was there.";
        match (place_of(&value), recipe()) {
            (Some(other), _) => store.act_and_say(done, |plan| plan.fill_in_as(place, calculator.id, other)),
            (None, Some(recipe)) => {
                store.act_and_say(done, |plan| plan.fill_in(place, calculator.id, recipe))
            }
            (None, None) => (),
        }
    };
    let library =
        calculator.recipes.iter().map(|recipe| view! { <option value=recipe.name>{recipe.name}</option> });
    let library = library.collect_view();
    let own = move || {
        let one = |(id, name): (Id, String)| view! { <option value=format!("#{id}")>{format!("As in {name}")}</option> };
        others.get().into_iter().map(one).collect_view()
    };
    let told = move || {
        let style = store.history.with(|history| history.plan().style());
        recipe().map(|recipe| {
            let ranges = recipe.ranges_text(calculator, &style);
            format!(
                "Usual, {}: {ranges}. A start only: the data sheet of your own chemicals rules.",
                recipe.source
            )
        })
    };
    view! {
        <section class="rows no-print" aria-label="Start from a recipe">
            <h2 class="group">"Start from a recipe"</h2>
            <div class="add">
                <div class="field choice">
                    <select aria-label="Recipe" on:change=move |event| chosen.set(event_target_value(&event))>
                        <option value="">"Choose one"</option>
                        {library}
                        {own}
                    </select>
                    <button disabled=move || chosen.with(String::is_empty) on:click=fill>"Fill in its rows"</button>
                </div>
                <p class="hint">{told}</p>
            </div>
        </section>
    }
}
