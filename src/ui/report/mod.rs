//! The report of a plan: what is on it is chosen at the top; below it stands as it will be on paper.

pub mod building;
mod choose;
mod cover;
mod one_sheet;
mod told_once;

use super::line::{balance::BalancePart, look::ToLookAt, map::MapPart, streams};
use super::paper;
use super::store::Store;
use crate::calculators::site;
use crate::plan::{Field, Id, Plan};
use crate::report::{SheetReport, sheets};
use crate::ui::element::Show;
use crate::ui::signals::{Effect, Memo};
use bathbook_view::view;
use leptos::prelude::*;
use leptos::tachys::reactive_graph::OwnedView;

/// What is left out of the report, as chosen; nothing at first.
#[derive(Clone, Copy)]
pub struct Chosen {
    /// Line map, streams, routes and balances.
    pub line: RwSignal<bool>,
    /// What to look at in the whole plan.
    pub findings: RwSignal<bool>,
    /// What the building is asked for.
    pub building: RwSignal<bool>,
    /// The working of the sheets.
    pub working: RwSignal<bool>,
    /// Sheets that are left out.
    pub without: RwSignal<Vec<(Id, &'static str)>>,
}

impl Chosen {
    fn has(&self, sheet: &SheetReport) -> bool {
        self.without.with(|without| !without.contains(&(sheet.place, sheet.calculator.id)))
    }
}

fn without_author(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    if let Some(site) = plan.site().map(|site| site.id) {
        plan.type_in(&Field::single(site, site::CALCULATOR.id, site::AUTHOR), "", None);
    }
    plan
}

/// The report page. What is left out is missing on paper too, and so is what would come of it: all that stands in this
/// screen asks the plan as it is handed on.
#[component]
pub fn ReportPage() -> impl IntoView {
    let less = Store::here().handed_on();
    // A component has no scope of its own: without one, the next screen would find this store.
    Owner::current().map(|owner| {
        let within = owner.child();
        let page = within.with(|| {
            provide_context(less);
            view! { <Page /> }
        });
        OwnedView::new_with_owner(page, within)
    })
}

#[component]
fn Page() -> impl IntoView {
    let store = Store::here();
    let chosen = Chosen {
        line: RwSignal::new(true),
        findings: RwSignal::new(true),
        building: RwSignal::new(true),
        working: RwSignal::new(true),
        without: RwSignal::new(Vec::new()),
    };
    // The author stands on the cover alone: typing there leaves the sheets as they are.
    let plan = Memo::new(move |_| store.history.with(|history| without_author(history.plan())));
    let all = RwSignal::new(Vec::<SheetReport>::new());
    Effect::new(move |_| all.set(plan.with(sheets)));
    let wanted =
        move || all.with(|all| all.iter().filter(|sheet| chosen.has(sheet)).cloned().collect::<Vec<_>>());
    // A sheet that stands below in full does not stand here as well.
    let in_full = move || wanted().iter().map(|sheet| (sheet.place, sheet.calculator.id)).collect::<Vec<_>>();
    let has_line = Memo::new(move |_| chosen.line.get());
    let marks = paper::marks(store);
    let asked = building::asked(store);
    let has_request = Memo::new(move |_| asked.with(Option::is_some));
    view! {
        <main id="main" class="report">
            <h1 class="no-print">"Report"</h1>
            <p class="ask no-print">"The plan on paper, or as a PDF: what went in, what came out and how, what to look at."</p>
            <choose::Choose chosen all has_request />
            <cover::Cover wanted=Signal::derive(wanted) chosen marks has_request />
            <Show when=move || chosen.findings.get()>
                <div class="report-part"><ToLookAt /></div>
            </Show>
            {move || told_once::cautions(&wanted())}
            {move || {
                asked.get().filter(|_| chosen.building.get()).map(|asked| building::view_of(store, marks, asked, ""))
            }}
            <Show when=move || has_line.get()>
                <div class="report-part line">
                    <MapPart />
                    <streams::FlowTables />
                    <BalancePart without=Signal::derive(in_full) />
                </div>
            </Show>
            {move || {
                let with_working = chosen.working.get();
                wanted().into_iter().map(|sheet| one_sheet::view_of(sheet, with_working)).collect_view()
            }}
            {move || told_once::sources(&wanted())}
        </main>
    }
}
