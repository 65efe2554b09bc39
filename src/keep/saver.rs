//! Keeps plans as they change: the second copy at once, the durable one as soon as the last write is done.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::{Date, Math, Promise};

use super::compare::{Store, readable, settle};
use super::durable::{Durable, Put, is_lasting};
use super::earlier::Version;
use super::queue::{Event, Job, Outcome, Queue, SaveState, SecondCopy};
use super::quick;
use super::record::{Aside, Draft, Record, new_id};
use super::tabs::Tabs;
use super::trouble::Trouble;

/// Typing comes in bursts, and each write makes the device wait for its disk: this long a rest, in ms,
/// before one. The second copy does not wait.
const REST: i32 = 250;

/// What the start has found.
#[derive(Clone, Debug, Default)]
pub struct Loaded {
    /// Every plan, those in the bin too; newest first.
    pub records: Vec<Record>,
    /// What the user should know, in plain words.
    pub notes: Vec<String>,
    /// What could not be read, to be offered as files.
    pub aside: Vec<Aside>,
    /// Why the durable store is not there; then the app goes on in memory and says so.
    pub durable_trouble: Option<Trouble>,
    /// Why the second copy is not there.
    pub quick_trouble: Option<Trouble>,
}

struct Inner {
    durable: Durable,
    queue: RefCell<Queue>,
    /// By plan: the steps that led to the text that was asked to be kept last.
    steps: RefCell<BTreeMap<String, String>>,
    tabs: RefCell<Option<Tabs>>,
    told: Box<dyn Fn(Event)>,
}

/// Keeps the plans of this window. Cheap to clone; not for other threads.
#[derive(Clone)]
pub struct Saver(Rc<Inner>);

impl Saver {
    /// `told` hears how each plan stands, and what other windows did. Nothing is read yet.
    pub fn new(told: impl Fn(Event) + 'static) -> Saver {
        let inner = Inner {
            durable: Durable::default(),
            queue: RefCell::default(),
            steps: RefCell::default(),
            tabs: RefCell::new(None),
            told: Box::new(told),
        };
        let saver = Saver(Rc::new(inner));
        let weak = Rc::downgrade(&saver.0);
        let tabs = Tabs::new(move |id, mark| {
            if let Some(inner) = weak.upgrade() {
                let events = inner.queue.borrow().heard(&id, &mark);
                inner.tell(events);
            }
        });
        saver.0.tabs.replace(Some(tabs));
        saver
    }

    /// Reads both stores, takes the newest whole copy of each plan, and brings the stores to the same state.
    pub async fn load_all(&self) -> Loaded {
        let mut loaded = Loaded::default();
        let durable = self.0.durable.read_all().await;
        let quick = quick::read_all();
        let mut plans = vec![];
        match durable {
            Ok(contents) => (plans, loaded.aside) = (contents.plans, contents.aside),
            Err(trouble) => loaded.durable_trouble = Some(trouble),
        }
        let copies = match quick {
            Ok(copies) => copies,
            Err(trouble) => {
                loaded.quick_trouble = Some(trouble);
                vec![]
            }
        };
        loaded.aside.extend(quick::read_aside());
        let mut settled = settle(plans, copies, Date::now(), fresh_id);
        let mut read_after_all = vec![];
        loaded.aside.retain(|aside| {
            let Some(record) = readable(aside, &settled.records, fresh_id()) else { return true };
            read_after_all.push(aside.key.clone());
            settled.to_durable.extend(record.clone());
            settled.to_quick.extend(record.clone());
            settled.records.extend(record);
            false
        });
        loaded.notes = settled.notes;
        let mut uncleared = vec![];
        for (store, key, aside) in settled.aside {
            let found = (store == Store::Durable).then_some(key.as_str());
            let kept = match (self.0.durable.set_aside(&aside, found).await, store) {
                (Ok(()), Store::Quick) => {
                    quick::remove(&key);
                    true
                }
                (Err(_), Store::Quick) => quick::set_aside(&key, &aside).is_ok(),
                (done, Store::Durable) => done.is_ok(),
            };
            if !kept && store == Store::Quick {
                uncleared.push(key);
            }
            loaded.aside.push(aside);
        }
        if loaded.durable_trouble.is_none() {
            for record in settled.to_durable {
                let (base, id) = (Some(record.mark()), fresh_id());
                let apart = Draft { id, ..record.draft() }.record(1, record.saved_at);
                let job = Job { record, base, own: vec![], apart };
                if let Outcome::Failed(trouble) = self.0.durable.put(&job, None).await.outcome {
                    loaded.durable_trouble = Some(trouble);
                }
            }
            if loaded.durable_trouble.is_none() {
                for key in read_after_all {
                    // Should it stay, it says the same as the plan that it has become.
                    let _ = self.erase_aside(&key).await;
                }
            }
        }
        for record in settled.to_quick {
            // A damaged copy that could not be set aside stays where it is.
            let free = !uncleared.contains(&record.id);
            if free && let Err(trouble) = quick::put(&record) {
                loaded.quick_trouble = Some(trouble);
            }
        }
        let mut queue = self.0.queue.borrow_mut();
        settled.records.iter().for_each(|record| queue.known(record));
        drop(queue);
        loaded.records = settled.records;
        loaded
    }

    /// Keeps a changed or new plan, with the `steps` that led to it if they are at hand: the second copy now,
    /// the durable one after a short rest.
    pub fn save(&self, draft: Draft, steps: Option<String>) {
        match steps {
            Some(steps) => self.0.steps.borrow_mut().insert(draft.id.clone(), steps),
            // Those of an earlier text would not be of this one.
            None => self.0.steps.borrow_mut().remove(&draft.id),
        };
        let (record, events) = self.0.queue.borrow_mut().ask(draft, Date::now());
        self.0.tell(events);
        self.second_copy(&record);
        self.drive(record.id, true);
    }

    /// Removes a plan for good; only by the user's own wish, asked twice.
    pub async fn erase(&self, id: &str) -> Result<(), Trouble> {
        self.0.durable.erase(id).await?;
        quick::remove(id);
        self.0.queue.borrow_mut().forget(id);
        Ok(())
    }

    /// Removes what was set aside; only by the user's own wish.
    pub async fn erase_aside(&self, key: &str) -> Result<(), Trouble> {
        self.0.durable.erase_aside(key).await?;
        quick::remove_aside(key);
        Ok(())
    }

    /// The steps that are kept beside a plan, if any.
    pub async fn steps(&self, id: &str) -> Option<String> {
        self.0.durable.steps(id).await
    }

    /// The earlier versions of a plan, newest first.
    pub async fn earlier(&self, id: &str) -> Result<Vec<Version>, Trouble> {
        self.0.durable.earlier(id).await
    }

    /// A plan as it is stored now: what another window saved.
    pub async fn read(&self, id: &str) -> Result<Option<Record>, Trouble> {
        self.0.durable.read(id).await
    }

    /// This window shows what it has read, and goes on from it.
    pub fn goes_on_from(&self, record: &Record) {
        self.0.queue.borrow_mut().known(record);
    }

    /// Starts every waiting write now: the page is about to go, or the user asks to try again.
    pub fn flush(&self) {
        let waiting = self.0.queue.borrow().waiting();
        waiting.into_iter().for_each(|id| self.drive(id, false));
    }

    /// Whether leaving the page now would lose something.
    pub fn busy(&self) -> bool {
        self.0.queue.borrow().busy()
    }

    /// How a plan stands; none if nothing is known of it.
    pub fn state(&self, id: &str) -> Option<SaveState> {
        self.0.queue.borrow().state(id)
    }

    /// Whether the browser has agreed not to clear the plans by itself, if it can be asked; `ask` asks it to.
    pub async fn is_lasting(&self, ask: bool) -> Option<bool> {
        is_lasting(ask).await
    }

    fn second_copy(&self, record: &Record) {
        let put = match self.gives_way(&record.id) {
            Ok(true) => quick::put(record),
            Ok(false) => Ok(()),
            Err(trouble) => Err(trouble),
        };
        if let Err(trouble) = put {
            self.0.tell(vec![Event::SecondCopy { id: record.id.clone(), trouble }]);
        }
    }

    /// Whether the second copy of a plan may be replaced or removed. One that cannot be read has been set aside then.
    fn gives_way(&self, id: &str) -> Result<bool, Trouble> {
        match self.0.queue.borrow().second_copy(id, quick::found(id), Date::now()) {
            SecondCopy::GivesWay => Ok(true),
            SecondCopy::Stays => Ok(false),
            SecondCopy::IsSetAside(aside) => quick::set_aside(id, &aside).map(|()| true),
        }
    }

    /// Writes a plan until none of its texts waits. Two of these for one plan do no harm: the queue gives
    /// a write only while none is under way.
    fn drive(&self, id: String, rest: bool) {
        let saver = self.clone();
        spawn_local(async move {
            let mut rest = rest;
            loop {
                if rest {
                    pause(REST).await;
                }
                rest = true;
                let taken = saver.0.queue.borrow_mut().take(&id, fresh_id(), Date::now());
                let Some((job, events)) = taken else { return };
                saver.0.tell(events);
                let steps = saver.0.steps.borrow().get(&id).cloned();
                let Put { outcome, was_emptied } = saver.0.durable.put(&job, steps.as_deref()).await;
                if was_emptied {
                    saver.0.tell(vec![Event::Emptied { id: id.clone() }]);
                }
                if saver.written(&id, &job, outcome) {
                    return;
                }
            }
        });
    }

    /// Whether to stop: a write that failed waits for the next change or [`Saver::flush`].
    fn written(&self, id: &str, job: &Job, outcome: Outcome) -> bool {
        let failed = matches!(outcome, Outcome::Failed(_));
        let (stored, mark) = match &outcome {
            Outcome::Written(mark) => (id, Some(mark.clone())),
            Outcome::Parted(_) => (job.apart.id.as_str(), Some(job.apart.mark())),
            Outcome::Failed(_) => (id, None),
        };
        let parted = matches!(outcome, Outcome::Parted(_));
        if let (Some(mark), Some(tabs)) = (&mark, self.0.tabs.borrow().as_ref()) {
            tabs.tell(stored, mark);
        }
        let is_binned = mark.is_some() && !parted && job.record.binned_at.is_some();
        if is_binned && self.gives_way(id) == Ok(true) {
            quick::remove(id);
        }
        let events = self.0.queue.borrow_mut().done(id, outcome, Date::now());
        if parted {
            self.second_copy(&job.apart);
            self.drive(job.apart.id.clone(), true);
        }
        self.0.tell(events);
        failed
    }
}

impl Inner {
    fn tell(&self, events: Vec<Event>) {
        events.into_iter().for_each(|event| (self.told)(event));
    }
}

/// A new plan's id.
pub fn fresh_id() -> String {
    let mut bytes = [0u8; 16];
    let crypto = web_sys::window().and_then(|window| window.crypto().ok());
    let filled = crypto.is_some_and(|crypto| crypto.get_random_values_with_u8_array(&mut bytes).is_ok());
    if !filled {
        // Ids only have to differ; nothing is guarded by them.
        bytes.fill_with(|| (Math::random() * 256.0) as u8);
    }
    new_id(bytes)
}

async fn pause(ms: i32) {
    let promise = Promise::new(&mut |resolve, _| {
        let started = web_sys::window()
            .map(|window| window.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, ms));
        if !matches!(started, Some(Ok(_))) {
            let _ = resolve.call0(&JsValue::UNDEFINED);
        }
    });
    let _ = JsFuture::from(promise).await;
}
