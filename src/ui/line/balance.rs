//! What the site's sheets answer about the whole line, such as the metal balance: read from their
//! declarations, so that any sheet of the site that gathers over the line stands here.

use super::super::store::Store;
use super::super::words::breadth;
use super::address_of;
use crate::calculator::{Output, Subject};
use crate::calculators::{site, utilities};
use crate::picture::flows::Sheet;
use crate::ui::signals::Memo;
use bathbook_view::view;
use leptos::prelude::*;

/// Label and value of an answer.
type Said = (&'static str, String);

/// One table of answers: what its rows are named by, the answers' labels, the rows.
type Rows = (&'static str, Vec<&'static str>, Vec<(String, Vec<String>)>);

#[derive(Clone, PartialEq)]
struct Balance {
    title: &'static str,
    href: String,
    /// Why there is no answer, if there is none.
    reason: Option<String>,
    single: Vec<Said>,
    tables: Vec<Rows>,
}

/// What the site is has a sheet, and what the building is asked for a page of its own.
const APART: [&str; 2] = [site::CALCULATOR.id, utilities::CALCULATOR.id];

fn read(store: Store, without: &[Sheet]) -> Vec<Balance> {
    let style = store.style();
    store.results.with(|results| {
        let cells = results.network.cells.iter().enumerate().filter(|(_, cell)| {
            let calculator = cell.calculator;
            calculator.subject == Subject::Site
                && !APART.contains(&calculator.id)
                && !without.contains(&(cell.place, calculator.id))
        });
        let text = |output: &Output, si: f64| {
            if si.is_finite() { output.text(si, &style) } else { "–".into() }
        };
        let of = |(at, cell): (usize, &std::sync::Arc<crate::network::Cell>)| {
            let calculator = cell.calculator;
            let href = address_of(store, Some((cell.place, calculator.id)));
            if let Some(stop) = results.stop(at) {
                let reason = Some(stop.text());
                let (single, tables) = (Vec::new(), Vec::new());
                return Some(Balance { title: calculator.title, href, reason, single, tables });
            }
            let outcome = results.outcome(at)?;
            let numbers = outcome.answers.first()?.first().map_or(&[][..], |(_, numbers)| numbers);
            let single: Vec<Said> = (calculator.outputs.iter().zip(numbers))
                .filter(|(_, si)| si.is_finite())
                .map(|(output, si)| (output.label, text(output, *si)))
                .collect();
            let tables = calculator.tables.iter().zip(outcome.answers.iter().skip(1));
            let tables: Vec<Rows> = tables
                .filter(|(table, rows)| !table.answers.is_empty() && !rows.is_empty())
                .map(|(table, rows)| {
                    let row = |(key, numbers): &(crate::calculator::Key, Vec<f64>)| {
                        let cells = table.answers.iter().zip(numbers).map(|(output, si)| text(output, *si));
                        (key.to_string(), cells.collect())
                    };
                    let labels = table.answers.iter().map(|output| output.label).collect();
                    (table.key_label, labels, rows.iter().map(row).collect())
                })
                .collect();
            Some(Balance { title: calculator.title, href, reason: None, single, tables })
        };
        let says =
            |found: &Balance| found.reason.is_some() || !found.single.is_empty() || !found.tables.is_empty();
        cells.filter_map(of).filter(says).collect()
    })
}

/// The balances, where their sheets have answers; `without` those that stand elsewhere on the same paper.
#[component]
pub fn BalancePart(#[prop(optional, into)] without: Signal<Vec<Sheet>>) -> impl IntoView {
    let store = Store::here();
    let found = Memo::new(move |_| read(store, &without.get()));
    move || found.get().into_iter().map(section).collect_view()
}

fn section(balance: Balance) -> impl IntoView {
    let Balance { title, href, reason, single, tables } = balance;
    let reason = reason.map(|reason| view! { <p>"No answer yet. "{reason}</p> });
    let has_single = !single.is_empty();
    let single = single.into_iter().map(|(label, text)| view! { <div><dt>{label}</dt><dd>{text}</dd></div> });
    let tables = tables.into_iter().map(|(key_label, labels, rows)| {
        let class = format!("data {}", breadth(1 + labels.len()));
        let heads =
            labels.iter().map(|label| view! { <th scope="col" class="n">{*label}</th> }).collect_view();
        let row = |(key, cells): (String, Vec<String>)| {
            let cells = cells.into_iter().zip(&labels);
            let cells = cells.map(|(text, label)| view! { <td class="n" data-label=*label>{text}</td> });
            view! { <tr><th scope="row">{key}</th>{cells.collect_view()}</tr> }
        };
        let rows = rows.into_iter().map(row).collect_view();
        view! {
            <div class="data-frame" tabindex="0" role="region" aria-label=format!("{title}: {key_label}")>
                <table class=class>
                    <thead><tr><th scope="col">{key_label}</th>{heads}</tr></thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
        }
    });
    view! {
        <section class="part">
            <h2><a class="place-link" href=href>{title}</a></h2>
            {reason}
            {has_single.then(|| view! { <dl class="said">{single.collect_view()}</dl> })}
            {tables.collect_view()}
        </section>
    }
}
