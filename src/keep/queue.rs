//! What is still to be saved: at most one transaction under way per plan, the newest text next, and the
//! word "saved" only when a transaction has completed.

use std::collections::BTreeMap;

use super::record::{Aside, Draft, Mark, Record, decode, marked_name, may_replace};
use super::trouble::Trouble;

/// How a plan stands.
#[derive(Clone, Debug, PartialEq)]
pub enum SaveState {
    /// Changed, and not yet on its way.
    Unsaved,
    /// A transaction is under way.
    Saving,
    /// The transaction of the newest text completed at this time, in ms since 1970.
    Saved {
        /// By the device's clock.
        at: f64,
    },
    /// It failed; the text is held in memory and goes with the next try.
    Failed(Trouble),
}

impl SaveState {
    /// For the line that always shows how the plan stands. `clock` words a time of the device.
    pub fn words(&self, clock: impl Fn(f64) -> String) -> String {
        match self {
            SaveState::Unsaved => "Not saved yet".into(),
            SaveState::Saving => "Saving…".into(),
            SaveState::Saved { at } => format!("Saved in this browser on this device, {}", clock(*at)),
            SaveState::Failed(trouble) => format!("Not saved. {}", trouble.words()),
        }
    }
}

/// What the app is told.
#[derive(Clone, Debug, PartialEq)]
pub enum Event {
    /// A plan stands differently now.
    State {
        /// Which plan.
        id: String,
        /// How it stands.
        state: SaveState,
    },
    /// Two windows changed the plan. This window's text is kept as a plan of its own, which it should go
    /// on with; `other` is what the other window saved under the old id.
    Parted {
        /// The plan that both windows had open.
        id: String,
        /// This window's text, its name marked.
        kept_as: Box<Record>,
        /// The other window's text.
        other: Box<Record>,
    },
    /// Another window saved this plan. Without own changes it can be read again; with them, the next save
    /// keeps both.
    ChangedElsewhere {
        /// Which plan.
        id: String,
        /// Whether this window has changes of its own that are not saved.
        unsaved: bool,
    },
    /// All that was kept here had gone when this plan was written: whoever has the others writes them again.
    Emptied {
        /// The plan that is there again.
        id: String,
    },
    /// The second copy could not be written; the first may well be.
    SecondCopy {
        /// Which plan.
        id: String,
        /// Why.
        trouble: Trouble,
    },
}

/// One write, to be done in one transaction by [`decide`].
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// What to write.
    pub record: Record,
    /// The state that its text grew from; none for a new plan.
    pub base: Option<Mark>,
    /// What this window made of it since, oldest first.
    pub own: Vec<Mark>,
    /// The same text as a plan of its own, in case another window came first.
    pub apart: Record,
}

/// What a transaction is to do, now that it knows what is stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Write the record.
    Write,
    /// Nothing: the same text is there already.
    Same,
    /// Leave what is stored and write the text as a plan of its own.
    Part,
}

/// Looked up inside the transaction, so that no other window can come between.
pub fn decide(stored: Option<&Record>, job: &Job) -> Verdict {
    match stored {
        None => Verdict::Write,
        Some(stored) if may_replace(&stored.mark(), job.base.as_ref(), &job.own) => Verdict::Write,
        Some(stored) if stored.same_plan(&job.record) => Verdict::Same,
        Some(_) => Verdict::Part,
    }
}

/// What becomes of a second copy when there is a newer text.
#[derive(Clone, Debug, PartialEq)]
pub enum SecondCopy {
    /// The newer text takes its place.
    GivesWay,
    /// It stays: another window wrote it.
    Stays,
    /// It cannot be read here: it is set aside as it is, and only then does the newer text take its place.
    IsSetAside(Aside),
}

/// How a transaction ended.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// It completed, and this is what is stored now.
    Written(Mark),
    /// It completed: the text is kept apart, this other one stays.
    Parted(Box<Record>),
    /// It did not complete.
    Failed(Trouble),
}

/// How many own states of a plan are remembered while none of them is stored.
const REMEMBERED: usize = 1000;

#[derive(Debug, Default)]
struct Slot {
    base: Option<Mark>,
    own: Vec<Mark>,
    counter: u64,
    under_way: Option<Job>,
    next: Option<Record>,
    state: Option<SaveState>,
}

/// All plans of this window that were read or changed.
#[derive(Debug, Default)]
pub struct Queue {
    slots: BTreeMap<String, Slot>,
}

impl Queue {
    /// This window has read `record` and goes on from it.
    pub fn known(&mut self, record: &Record) {
        let slot = self.slots.entry(record.id.clone()).or_default();
        if slot.next.is_some() || slot.under_way.is_some() {
            return; // Own changes are on their way: the transaction settles what becomes of both.
        }
        let state = Some(SaveState::Saved { at: record.saved_at });
        *slot = Slot { base: Some(record.mark()), counter: record.counter, state, ..Slot::default() };
    }

    /// Takes what is to be kept; it waits until [`Queue::take`]. Returns it as a record for the second copy.
    pub fn ask(&mut self, draft: Draft, now: f64) -> (Record, Vec<Event>) {
        let id = draft.id.clone();
        let slot = self.slots.entry(id.clone()).or_default();
        slot.counter = slot.counter.saturating_add(1);
        let record = draft.record(slot.counter, now);
        slot.next = Some(record.clone());
        slot.own.push(record.mark());
        if slot.own.len() > REMEMBERED {
            slot.own.remove(0);
        }
        let state = if slot.under_way.is_some() { SaveState::Saving } else { SaveState::Unsaved };
        (record, slot.turn(id, state).into_iter().collect())
    }

    /// What is to become of `found`, the raw second copy of a plan, before this window's newer text is written there.
    pub fn second_copy(&self, id: &str, found: Option<String>, now: f64) -> SecondCopy {
        let Some(raw) = found else { return SecondCopy::GivesWay };
        match (decode(id, &raw), self.slots.get(id)) {
            (Ok(stored), Some(slot)) if !may_replace(&stored.mark(), slot.base.as_ref(), &slot.own) => {
                SecondCopy::Stays
            }
            (Ok(_), _) => SecondCopy::GivesWay,
            (Err(why), _) => SecondCopy::IsSetAside(Aside::new(id, raw, why, now)),
        }
    }

    /// The next write of a plan, unless one is under way or none is wanted. `fresh_id` names the text if it
    /// has to be kept apart.
    pub fn take(&mut self, id: &str, fresh_id: String, now: f64) -> Option<(Job, Vec<Event>)> {
        let slot = self.slots.get_mut(id).filter(|slot| slot.under_way.is_none())?;
        let record = slot.next.take()?;
        let apart = Draft { id: fresh_id, name: marked_name(&record.name), ..record.draft() }.record(1, now);
        let job = Job { record, base: slot.base.clone(), own: slot.own.clone(), apart };
        slot.under_way = Some(job.clone());
        Some((job, slot.turn(id.into(), SaveState::Saving).into_iter().collect()))
    }

    /// The write of a plan has ended.
    pub fn done(&mut self, id: &str, outcome: Outcome, now: f64) -> Vec<Event> {
        let Some(slot) = self.slots.get_mut(id) else { return vec![] };
        let Some(job) = slot.under_way.take() else { return vec![] };
        match outcome {
            Outcome::Written(mark) => {
                slot.counter = slot.counter.max(mark.counter);
                slot.own.retain(|own| own.counter > mark.counter);
                slot.base = Some(mark);
                if let Some(next) = &mut slot.next
                    && next.counter < slot.counter
                {
                    // The same text was stored with a higher counter: what follows it must count on.
                    slot.counter += 1;
                    *next = next.draft().record(slot.counter, next.saved_at);
                    slot.own.push(next.mark());
                }
                let state =
                    if slot.next.is_some() { SaveState::Unsaved } else { SaveState::Saved { at: now } };
                slot.turn(id.into(), state).into_iter().collect()
            }
            Outcome::Failed(trouble) => {
                slot.next.get_or_insert(job.record);
                slot.turn(id.into(), SaveState::Failed(trouble)).into_iter().collect()
            }
            Outcome::Parted(other) => {
                // The base stays as it was: should this window go on under the old id, it parts again.
                let later = slot.next.take();
                slot.state = Some(SaveState::Saved { at: other.saved_at });
                let apart = job.apart;
                self.known(&apart);
                let mut events = vec![];
                let kept = apart.id.clone();
                if let Some(later) = later {
                    let draft = Draft { id: kept.clone(), name: marked_name(&later.name), ..later.draft() };
                    events = self.ask(draft, now).1;
                } else if let Some(slot) = self.slots.get_mut(&kept) {
                    slot.state = None;
                    events.extend(slot.turn(kept, SaveState::Saved { at: now }));
                }
                events.insert(0, Event::Parted { id: id.into(), kept_as: Box::new(apart), other });
                events
            }
        }
    }

    /// Another window says that it saved this plan.
    pub fn heard(&self, id: &str, mark: &Mark) -> Vec<Event> {
        let slot = self.slots.get(id);
        if slot.is_some_and(|slot| slot.base.as_ref() == Some(mark)) {
            return vec![];
        }
        let unsaved = slot.is_some_and(|slot| slot.next.is_some() || slot.under_way.is_some());
        vec![Event::ChangedElsewhere { id: id.into(), unsaved }]
    }

    /// The plan is gone for good, by the user's wish.
    pub fn forget(&mut self, id: &str) {
        self.slots.remove(id);
    }

    /// How a plan stands; none if this window knows nothing of it.
    pub fn state(&self, id: &str) -> Option<SaveState> {
        self.slots.get(id)?.state.clone()
    }

    /// Plans with text that waits for a write.
    pub fn waiting(&self) -> Vec<String> {
        self.slots.iter().filter(|(_, slot)| slot.next.is_some()).map(|(id, _)| id.clone()).collect()
    }

    /// Whether anything is not saved: then leaving the page would lose it.
    pub fn busy(&self) -> bool {
        self.slots.values().any(|slot| slot.next.is_some() || slot.under_way.is_some())
    }
}

impl Slot {
    fn turn(&mut self, id: String, state: SaveState) -> Option<Event> {
        if self.state.as_ref() == Some(&state) {
            return None;
        }
        self.state = Some(state.clone());
        Some(Event::State { id, state })
    }
}

#[cfg(test)]
#[path = "queue_tests.rs"]
mod tests;
