//! Tables: one card a row with its answers; or a plain table where rows only come by links.

use super::Here;
use super::answer::joined;
use super::field::FieldRow;
use crate::calculator::{Input, Output, Table};
use crate::plan::Field;
use crate::ui::element::Show;
use crate::ui::list::For;
use crate::ui::signals::Memo;
use crate::ui::words::breadth;
use bathbook_view::view;
use leptos::prelude::*;

/// Every table of the sheet.
#[component]
pub fn Tables(here: Here) -> impl IntoView {
    let one = |(at, table): (usize, Table)| {
        if table.add.is_some() {
            view! { <Cards here at table /> }.into_any()
        } else {
            view! { <Plain here at table /> }.into_any()
        }
    };
    let tables = here.calculator.all_tables().enumerate().skip(1).map(one).collect_view();
    let recipes = (!here.calculator.recipes.is_empty()).then(|| view! { <super::recipes::Recipes here /> });
    view! { {recipes} {tables} }
}

/// Columns that the work order asks for, and not the row.
fn in_order(here: Here, input: &Input) -> bool {
    here.calculator
        .work_order
        .is_some_and(|order| order.added == input.symbol || order.signed.contains(&input.symbol))
}

fn keys(here: Here, at: usize) -> Memo<Vec<String>> {
    Memo::new(move |_| {
        let Some(cell) = here.cell() else { return Vec::new() };
        here.store.results.with(|results| results.rows(cell, at).iter().map(|key| key.to_string()).collect())
    })
}

fn answer(here: Here, output: &'static Output, key: &str) -> Memo<Option<(String, &'static str)>> {
    let key = key.to_string();
    Memo::at_once(move |_| {
        let cell = here.cell()?;
        let digits = here.store.digits.get();
        here.store.results.with(|results| results.answer_text(cell, output.symbol, &key, digits))
    })
}

/// Rows that the user adds.
#[component]
fn Cards(here: Here, at: usize, table: Table) -> impl IntoView {
    let (store, place, calculator) = (here.store, here.place, here.calculator.id);
    let keys = keys(here, at);
    let list = format!("suggest-{}", table.id);
    let add = move |name: String| {
        store.act(|plan| plan.add_row(place, calculator, table.id, &name));
    };
    let fresh = table.key_label;
    let suggestions = (!table.suggest.is_empty()).then(|| {
        let options = table.suggest.iter().map(|name| view! { <option value=*name></option> }).collect_view();
        view! { <datalist id=list.clone()>{options}</datalist> }
    });
    let chips = (!table.suggest.is_empty()).then(|| {
        let one = |name: &'static str| view! { <button class="pick" on:click=move |_| add(name.into())>{name}</button> };
        view! { <div class="picks">{table.suggest.iter().take(6).copied().map(one).collect_view()}</div> }
    });
    view! {
        <section class="rows" aria-label=table.label>
            <h2 class="group">{table.label}</h2>
            {suggestions}
            <For each=move || keys.get() key=|key| key.clone() let:key>
                <Card here table list=list.clone() key />
            </For>
            <div class="add no-print">
                <button on:click=move |_| add(fresh.into())>"+ " {table.add.unwrap_or_default()}</button>
                {chips}
            </div>
        </section>
    }
}

#[component]
fn Card(here: Here, table: Table, list: String, key: String) -> impl IntoView {
    let (store, place, calculator) = (here.store, here.place, here.calculator.id);
    let key = StoredValue::new(key);
    let is_typed = Memo::new(move |_| {
        store.history.with(|history| {
            let sheet = history.plan().place(place).and_then(|place| place.sheets.get(calculator));
            let rows = sheet.and_then(|sheet| sheet.rows.get(table.id));
            key.with_value(|key| rows.is_some_and(|rows| rows.iter().any(|(known, _)| known == key)))
        })
    });
    let rename = move |event| {
        let name = event_target_value(&event);
        store.act(|plan| key.with_value(|key| plan.rename_row(place, calculator, table.id, key, &name)));
    };
    let remove = move |_| {
        store.act(|plan| key.with_value(|key| plan.remove_row(place, calculator, table.id, key)));
        let said = key.with_value(|key| format!("{key} removed. Undo brings it back."));
        store.said.set(Some(said));
    };
    let shift = move |down| {
        store.act(|plan| key.with_value(|key| plan.move_row(place, calculator, table.id, key, down)));
    };
    let name = key.get_value();
    let title = {
        let name = name.clone();
        move || {
            if is_typed.get() {
                let label = table.key_label;
                let named = name.clone();
                view! { <input class="words key" aria-label=label list=list.clone() prop:value=named on:change=rename /> }
                    .into_any()
            } else {
                view! { <b class="key">{name.clone()}</b> }.into_any()
            }
        }
    };
    let first = table.answers.first().map(|output| {
        let shown = answer(here, output, &name);
        view! {
            <div class="out" data-symbol=format!("{}[{name}]", output.symbol)>
                {move || shown.get().map(|(number, unit)| joined(&number, unit))}
                <small>{move || shown.get().map(|_| output.label)}</small>
            </div>
        }
    });
    let rest = table.answers.iter().skip(1).map(|output| {
        let shown = answer(here, output, &name);
        let symbol = format!("{}[{name}]", output.symbol);
        view! {
            <Show when=move || shown.get().is_some()>
                <div class="pair">
                    <dt>{output.label}</dt>
                    <dd data-symbol=symbol.clone()>{move || shown.get().map(|(number, unit)| joined(&number, unit))}</dd>
                </div>
            </Show>
        }
    });
    let rest = rest.collect_view();
    let fields = table.columns.iter().filter(|input| !in_order(here, input)).map(|input| {
        let field = Field::cell(place, calculator, table.id, &name, input.symbol);
        view! { <FieldRow field input compact=true /> }
    });
    let fields = fields.collect_view();
    let spoken = name.clone();
    let tools = move || {
        let spoken = spoken.clone();
        is_typed.get().then(|| {
            view! {
                <div class="tools no-print">
                    <button aria-label=format!("Move {spoken} up") on:click=move |_| shift(false)>"↑"</button>
                    <button aria-label=format!("Move {spoken} down") on:click=move |_| shift(true)>"↓"</button>
                    <button aria-label=format!("Remove {spoken}") on:click=remove>"Remove"</button>
                </div>
            }
        })
    };
    view! {
        <article class="card-row" data-key=name.clone()>
            <header>{title} {first}</header>
            <div class="fields">{fields}</div>
            <dl class="lines">{rest}</dl>
            {tools}
        </article>
    }
}

/// Rows that links bring or the sum makes: as a table, to be read.
#[component]
fn Plain(here: Here, at: usize, table: Table) -> impl IntoView {
    let keys = keys(here, at);
    let head = move || {
        let columns = table.columns.iter().map(|input| view! { <th scope="col">{input.label}</th> });
        let answers = table.answers.iter().map(|output| view! { <th scope="col">{output.label}</th> });
        view! { <tr><th scope="col">{table.key_label}</th>{columns.collect_view()}{answers.collect_view()}</tr> }
    };
    let row = move |key: String| {
        let columns = table.columns.iter().map(|input| {
            let field =
                StoredValue::new(Field::cell(here.place, here.calculator.id, table.id, &key, input.symbol));
            let shown = Memo::new(move |_| field.with_value(|field| here.store.field(field)));
            let text = move || {
                shown.with(|view| {
                    // Where a followed limit is not typed there is no number, and no unit by itself.
                    let view = view.as_ref().filter(|view| !view.text.is_empty())?;
                    let is_number = input.form == crate::calculator::Form::Number;
                    let unit = if is_number { here.store.style().symbol(view.unit) } else { String::new() };
                    Some(joined(&view.text, &unit))
                })
            };
            view! { <td data-label=input.label>{text}</td> }
        });
        let answers = table.answers.iter().map(|output| {
            let shown = answer(here, output, &key);
            let symbol = format!("{}[{key}]", output.symbol);
            view! {
                <td data-label=output.label data-symbol=symbol>
                    {move || shown.get().map(|(number, unit)| joined(&number, unit))}
                </td>
            }
        });
        view! {
            <tr>
                <th scope="row">{key.clone()}</th>
                {columns.collect_view()}
                {answers.collect_view()}
            </tr>
        }
    };
    view! {
        <Show when=move || !keys.with(Vec::is_empty)>
            <section class="part">
                <h2>{table.label}</h2>
                <div class="table-scroll" tabindex="0" role="region" aria-label=table.label>
                    <table class=breadth(1 + table.columns.len() + table.answers.len())>
                        <thead>{head}</thead>
                        <tbody>
                            <For each=move || keys.get() key=|key| key.clone() children=row />
                        </tbody>
                    </table>
                </div>
            </section>
        </Show>
    }
}
