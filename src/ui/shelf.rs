//! The plans on this device, as the page sees them: list, open, keep, copy, bin.

use super::store::{Open, Store};
use crate::address::Address;
use crate::keep::archive::{self, Archive, Found};
use crate::keep::earlier::Version;
use crate::keep::quick;
use crate::keep::{Aside, Draft, Event, Record, SaveState, Saver, Trouble, fresh_id};
use crate::plan::Plan;
use crate::plan::foreign::{line, read};
use crate::plan::steps::{Kept as Steps, text_of};
use leptos::prelude::*;
use web_sys::js_sys::Date;

/// A plan on the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// When it was last saved, in ms since 1970.
    pub saved_at: f64,
    /// Whether it lies in the bin.
    pub binned: bool,
}

/// How long the screen has to show an answer before the plan is written.
const SOON: std::time::Duration = std::time::Duration::from_millis(60);

/// After so many changes of plans within one visit, the browser is asked to keep them for good.
const WORTH_KEEPING: u32 = 20;

/// A name as it is typed, with what is added to that of another copy.
const LONGEST_NAME: usize = 120;

/// Ids of quick sums begin so; they are kept as plans are, and not listed.
const QUICK: &str = "quick-";

/// The id of a plan that came by link and is not kept.
pub const LINK: &str = "link";

/// Handed to every view by context.
#[derive(Clone, Copy)]
pub struct Shelf {
    /// The plans, the last one used first.
    pub plans: RwSignal<Vec<Kept>>,
    /// The state of saving what is open, in words.
    pub status: RwSignal<String>,
    /// Whether saving what is open has failed, until it is saved after all.
    pub failed: RwSignal<bool>,
    /// Why a plan, open or not, is held in this window alone, until all are saved after all.
    pub held: RwSignal<Option<Trouble>>,
    /// What was found wrong at start or while saving, in plain words.
    pub notes: RwSignal<Vec<String>>,
    /// What could not be read and lies aside, untouched.
    pub aside: RwSignal<Vec<Aside>>,
    /// Whether the browser has agreed not to clear the plans by itself, as far as that is known.
    pub is_lasting: RwSignal<Option<bool>>,
    records: RwSignal<Vec<Record>>,
    /// Why nothing can be kept for good, as it was found at the start.
    trouble: RwSignal<Option<Trouble>>,
    changes: StoredValue<u32>,
    /// The plan of the link that was opened last, as JSON.
    linked: RwSignal<Option<String>>,
    waiting: StoredValue<Option<TimeoutHandle>, LocalStorage>,
    saver: StoredValue<Option<Saver>, LocalStorage>,
}

impl Shelf {
    /// An empty shelf.
    pub fn new() -> Shelf {
        Shelf {
            plans: RwSignal::new(Vec::new()),
            status: RwSignal::new(String::new()),
            failed: RwSignal::new(false),
            held: RwSignal::new(None),
            notes: RwSignal::new(Vec::new()),
            aside: RwSignal::new(Vec::new()),
            is_lasting: RwSignal::new(None),
            trouble: RwSignal::new(None),
            changes: StoredValue::new(0),
            records: RwSignal::new(Vec::new()),
            linked: RwSignal::new(None),
            waiting: StoredValue::new_local(None),
            saver: StoredValue::new_local(None),
        }
    }

    /// The shelf of the page.
    pub fn here() -> Shelf {
        expect_context::<Shelf>()
    }

    /// Reads what is kept; `then` runs once it is there.
    pub fn load(self, store: Store, then: impl FnOnce() + 'static) {
        let saver = Saver::new(move |event| self.hear(store, event));
        self.saver.set_value(Some(saver.clone()));
        wasm_bindgen_futures::spawn_local(async move {
            let loaded = saver.load_all().await;
            let mut notes = loaded.notes;
            if let Some(trouble) = &loaded.durable_trouble {
                notes.push(format!("Plans cannot be kept here. {}", trouble.words()));
            }
            self.trouble.set(loaded.durable_trouble);
            self.aside.set(loaded.aside);
            self.notes.set(notes);
            self.records.set(loaded.records);
            self.list();
            then();
            self.is_lasting.set(saver.is_lasting(false).await);
        });
    }

    /// Asks the browser to keep the plans for good, and hears no answer.
    pub fn ask_to_last(self) {
        wasm_bindgen_futures::spawn_local(async move {
            self.asked_to_last().await;
        });
    }

    /// Asks the browser to keep the plans for good, unless it has agreed already; whether it agrees. Some browsers ask
    /// the user.
    pub async fn asked_to_last(self) -> bool {
        let is_agreed = || self.is_lasting.get_untracked() == Some(true);
        if let Some(saver) = self.saver.get_value().filter(|_| !is_agreed()) {
            self.is_lasting.set(saver.is_lasting(true).await);
        }
        is_agreed()
    }

    fn hear(self, store: Store, event: Event) {
        match event {
            Event::State { id, state } => {
                let is_saved = matches!(state, SaveState::Saved { .. });
                let is_failed = matches!(state, SaveState::Failed(_));
                if let SaveState::Failed(trouble) = &state {
                    self.held.set(Some(trouble.clone()));
                }
                if is_saved {
                    self.trouble.set(None);
                    self.let_go();
                }
                // What was typed since is about to be written: then "saved" would be said too early.
                let is_early = is_saved && self.waiting.with_value(Option::is_some);
                // What has failed is said until it is saved, not anew with every key.
                let is_known = state == SaveState::Unsaved && self.failed.get_untracked();
                if self.is_open(&store, &id) && !is_early && !is_known {
                    if is_saved || is_failed {
                        self.failed.set(is_failed);
                    }
                    self.status.set(self.words(&id, &state));
                }
            }
            Event::Parted { id, kept_as, other } => {
                self.put(*other);
                let name = kept_as.name.clone();
                let new_id = kept_as.id.clone();
                self.put(*kept_as);
                if self.is_open(&store, &id) {
                    store.said.set(Some(format!(
                        "Another window changed this plan too. Yours is kept as “{name}”."
                    )));
                    super::app::go(&Address::Line(new_id));
                }
            }
            Event::ChangedElsewhere { id, unsaved } => {
                // What was typed a moment ago may not have reached the saver yet.
                let is_waiting =
                    move |id: &str| self.is_open(&store, id) && self.waiting.with_value(Option::is_some);
                if unsaved || is_waiting(&id) {
                    store.said.set(Some("Another window changed this plan. Both will be kept.".into()));
                    return;
                }
                let Some(saver) = self.saver.get_value() else { return };
                wasm_bindgen_futures::spawn_local(async move {
                    let Ok(Some(record)) = saver.read(&id).await else { return };
                    if is_waiting(&id) {
                        // Typed while it was read: the next write finds both, and keeps both.
                        return;
                    }
                    saver.goes_on_from(&record);
                    let text = record.text.clone();
                    self.put(record);
                    if let (true, Ok(plan), Some(open)) =
                        (self.is_open(&store, &id), read(&text), store.open.get_untracked())
                    {
                        store.open_plan(open, plan);
                        self.status.set("Another window changed this plan; this is what it saved".into());
                    }
                });
            }
            Event::Emptied { id } => {
                let others = self.records.with_untracked(|records| {
                    records.iter().filter(|record| record.id != id).map(Record::draft).collect::<Vec<_>>()
                });
                self.saver.with_value(|saver| {
                    saver.iter().for_each(|saver| others.iter().for_each(|it| saver.save(it.clone(), None)))
                });
                let note = "What this browser kept here was cleared meanwhile. The plans of this window were put back, without their earlier versions. Save a file of each that matters.";
                self.note(note.into());
                store.said.set(Some(note.into()));
            }
            Event::SecondCopy { trouble, .. } => {
                self.note(format!("The second copy could not be written. {}", trouble.words()));
            }
        }
    }

    /// Nothing is held in this window alone any more, if all is saved.
    fn let_go(&self) {
        if !self.is_busy() {
            self.held.set(None);
        }
    }

    /// Says something on the first page, once.
    fn note(&self, note: String) {
        self.notes.update(|notes| {
            if !notes.contains(&note) {
                notes.push(note);
            }
        });
    }

    fn is_open(&self, store: &Store, id: &str) -> bool {
        store.open.with_untracked(|open| open.as_ref().is_some_and(|open| key(open) == id))
    }

    fn words(&self, id: &str, state: &SaveState) -> String {
        let words = state.words(super::when::moment);
        match state {
            SaveState::Saved { at } if !id.starts_with(QUICK) => {
                format!("{words} · {}", super::file::age(id, *at))
            }
            _ => words,
        }
    }

    /// Says again how the open plan stands, for instance after a file was saved.
    pub fn say_again(&self, id: &str) {
        let state = self.saver.with_value(|saver| saver.as_ref().and_then(|saver| saver.state(id)));
        let known =
            self.records.with_untracked(|records| records.iter().find(|r| r.id == id).map(|r| r.saved_at));
        let state = state.or(known.map(|at| SaveState::Saved { at }));
        // What was read from the second copy alone is not what "saved" means.
        let state = self.trouble.get_untracked().map(SaveState::Failed).or(state);
        self.failed.set(matches!(state, Some(SaveState::Failed(_))));
        self.status.set(state.map(|state| self.words(id, &state)).unwrap_or_default());
    }

    fn list(&self) {
        let mut plans: Vec<Kept> = self.records.with_untracked(|records| {
            let shown = records.iter().filter(|record| !record.id.starts_with(QUICK));
            let kept = shown.map(|record| Kept {
                id: record.id.clone(),
                name: record.name.clone(),
                saved_at: record.saved_at,
                binned: record.binned_at.is_some(),
            });
            kept.collect()
        });
        crate::order::sort(&mut plans, |a, b| b.saved_at.total_cmp(&a.saved_at));
        self.plans.set(plans);
    }

    fn put(&self, record: Record) {
        self.records.update(|records| match records.iter_mut().find(|known| known.id == record.id) {
            Some(known) => *known = record,
            None => records.push(record),
        });
        self.list();
    }

    fn save(&self, draft: Draft, steps: Option<String>) {
        self.put(draft.clone().record(0, Date::now()));
        self.saver.with_value(|saver| {
            if let Some(saver) = saver {
                saver.save(draft, steps);
            }
        });
    }

    /// Gives the open plan the past that is kept with it. A name that it was given in keeping is one step more.
    pub fn bring_past(self, store: Store, open: &Open) {
        let (id, saver) = (key(open), self.saver.get_value());
        let Some(saver) = saver.filter(|_| id != LINK) else { return };
        let stored = self.record(&id).map(|record| record.text).unwrap_or_default();
        let shown = store.history.with_untracked(|history| text_of(history.plan()));
        wasm_bindgen_futures::spawn_local(async move {
            let steps = saver.steps(&id).await;
            if let Some(steps) = steps.filter(|_| self.is_open(&store, &id)) {
                let carried = Steps::carried(&steps, &stored, &shown).filter(|_| stored != shown);
                store.history.update(|history| {
                    history.take_up(&carried.unwrap_or(steps));
                });
            }
        });
    }

    /// The earlier versions of a plan, newest first.
    pub async fn earlier(self, id: String) -> Result<Vec<Version>, Trouble> {
        match self.saver.get_value() {
            Some(saver) => saver.earlier(&id).await,
            None => Ok(Vec::new()),
        }
    }

    /// Removes a plan for good, by the user's wish.
    pub fn erase(self, id: String) {
        let Some(saver) = self.saver.get_value() else { return };
        wasm_bindgen_futures::spawn_local(async move {
            match saver.erase(&id).await {
                Ok(()) => {
                    self.records.update(|records| records.retain(|record| record.id != id));
                    self.list();
                    self.let_go();
                }
                Err(trouble) => self.note(format!("That plan could not be removed. {}", trouble.words())),
            }
        });
    }

    /// Removes what lies aside, by the user's wish.
    pub fn erase_aside(self, key: String) {
        let Some(saver) = self.saver.get_value() else { return };
        wasm_bindgen_futures::spawn_local(async move {
            match saver.erase_aside(&key).await {
                Ok(()) => self.aside.update(|aside| aside.retain(|known| known.key != key)),
                Err(trouble) => self.note(format!("That could not be removed. {}", trouble.words())),
            }
        });
    }

    /// Plans that this version cannot open, such as those of a newer one, with the reason. They stay where they are.
    pub fn unread(&self) -> Vec<(Record, String)> {
        self.records.with(|records| {
            let shown = records.iter().filter(|record| record.binned_at.is_none());
            shown.filter_map(|record| Some((record.clone(), read(&record.text).err()?))).collect()
        })
    }

    /// A plan on the shelf, ready to open; `None` if it is not there or cannot be read.
    pub fn plan(&self, id: &str) -> Option<Plan> {
        if id == LINK {
            return self.linked().and_then(|text| read(&text).ok());
        }
        let record = self.record(id)?;
        let mut plan = read(&record.text).ok()?;
        plan.name = line(&record.name, LONGEST_NAME);
        Some(plan)
    }

    /// Whether a plan is here and not in the bin, whether or not it can be opened.
    pub fn holds(&self, id: &str) -> bool {
        self.record(id).is_some()
    }

    fn record(&self, id: &str) -> Option<Record> {
        self.records.with_untracked(|records| {
            let mut shown = records.iter().filter(|record| record.binned_at.is_none());
            shown.find(|record| record.id == id).cloned()
        })
    }

    /// Holds a plan that came by link, to be looked at; only for as long as this tab is open.
    pub fn show_link(&self, text: String) {
        quick::hold_link(&text);
        self.linked.set(Some(text));
    }

    fn linked(&self) -> Option<String> {
        self.linked.get_untracked().or_else(quick::held_link)
    }

    /// The quick sum of a calculator, as it was left.
    pub fn quick(&self, calculator: &str) -> Option<Plan> {
        self.plan(&format!("{QUICK}{calculator}"))
    }

    /// Keeps what is open once the answers are on the screen: writing takes longer than working out.
    pub fn keep_soon(&self, store: Store) {
        if self.waiting.with_value(Option::is_some) {
            return;
        }
        if !self.failed.get_untracked() {
            self.status.set(SaveState::Unsaved.words(super::when::moment));
        }
        let shelf = *self;
        let timer = set_timeout_with_handle(move || shelf.keep(&store), SOON).ok();
        match timer {
            Some(timer) => self.waiting.set_value(Some(timer)),
            None => self.keep(&store),
        }
    }

    /// Keeps what is open, now.
    pub fn keep(&self, store: &Store) {
        self.waiting.update_value(|waiting| {
            if let Some(timer) = waiting.take() {
                timer.clear();
            }
        });
        let Some(open) = store.open.get_untracked().filter(|open| open.id != LINK) else { return };
        let (draft, steps) = store.history.with_untracked(|history| {
            let draft = draft(key(&open), history.plan());
            let steps = history.kept(&draft.text);
            (draft, steps)
        });
        self.save(draft, Some(steps));
        self.changes.update_value(|changes| *changes += 1);
        if self.changes.get_value() == WORTH_KEEPING {
            self.ask_to_last();
        }
    }

    /// Puts a new plan on the shelf and gives its id.
    pub fn add(&self, plan: Plan) -> String {
        let id = fresh_id();
        self.save(draft(id.clone(), &plan), None);
        id
    }

    /// Puts a plan of a file on the shelf, or into the bin where it lay there, and gives its id.
    pub fn add_found(&self, found: &Found) -> String {
        let id = fresh_id();
        let binned_at = found.in_bin.then(Date::now);
        self.save(Draft { binned_at, ..draft(id.clone(), &found.plan) }, None);
        id
    }

    /// Every plan that can be read, with those in the bin and the quick sums.
    pub fn all(&self) -> Vec<Found> {
        let found = |record: &Record| {
            let mut plan = read(&record.text).ok()?;
            plan.name = record.name.clone();
            Some(Found { plan, in_bin: record.binned_at.is_some() })
        };
        self.records.with_untracked(|records| records.iter().filter_map(found).collect())
    }

    /// Plans as one file, as they are kept: those of the list but for some, and where it is wanted the bin and the
    /// quick sums too. Gives the file's text, and the ids of the plans in it; or says why there is none.
    pub fn archive(&self, left_out: &[String], with_rest: bool) -> Result<(String, Vec<String>), String> {
        let when = |ms: f64| String::from(Date::new(&ms.into()).to_iso_string());
        let (mut plans, mut ids) = (Vec::new(), Vec::new());
        self.records.with_untracked(|records| {
            for record in records {
                let is_listed = record.binned_at.is_none() && !record.id.starts_with(QUICK);
                let is_wanted = if is_listed { !left_out.contains(&record.id) } else { with_rest };
                // What cannot be read here may be of a newer version: it goes along as it is.
                let plan = serde_json::from_str::<serde_json::Value>(&record.text).ok();
                if let Some(plan) = plan.filter(|_| is_wanted) {
                    let (name, changed) = (record.name.clone(), when(record.saved_at));
                    plans.push(archive::Kept { name, changed, in_bin: record.binned_at.is_some(), plan });
                    ids.push(record.id.clone());
                }
            }
        });
        let all = Archive { format: archive::FORMAT, made: when(Date::now()), plans };
        Ok((all.file_that_opens()?, ids))
    }

    /// A copy of a plan, under a name of its own; gives its id.
    pub fn duplicate(&self, id: &str) -> Option<String> {
        let Some(mut plan) = self.plan(id) else {
            self.note("That plan cannot be opened here, and so not be copied. Save it as a file.".into());
            return None;
        };
        plan.name = format!("{}, copy", plan.name);
        let copy = self.add(plan);
        // What is not to be handed on of a plan, is not of its copy.
        quick::set_left_out(&copy, &quick::left_out(id));
        Some(copy)
    }

    /// Moves a plan to the bin, or back.
    pub fn bin(&self, id: &str, binned: bool) {
        let record = self.records.with_untracked(|records| records.iter().find(|r| r.id == id).cloned());
        let Some(record) = record else { return };
        let binned_at = binned.then(Date::now);
        self.save(Draft { binned_at, ..record.draft() }, None);
    }

    /// Writes at once what still waits: the page may be about to go, or another plan to be opened.
    pub fn flush(&self, store: &Store) {
        if self.waiting.with_value(Option::is_some) {
            self.keep(store);
        }
        self.saver.with_value(|saver| {
            if let Some(saver) = saver {
                saver.flush();
            }
        });
    }

    /// Whether leaving now would lose something.
    pub fn is_busy(&self) -> bool {
        self.saver.with_value(|saver| saver.as_ref().is_some_and(Saver::busy))
    }
}

impl Default for Shelf {
    fn default() -> Shelf {
        Shelf::new()
    }
}

/// Under which id a document is kept.
pub fn key(open: &Open) -> String {
    match open.quick {
        Some(calculator) => format!("{QUICK}{calculator}"),
        None => open.id.clone(),
    }
}

fn draft(id: String, plan: &Plan) -> Draft {
    Draft { id, name: plan.name.clone(), text: text_of(plan), binned_at: None }
}
