//! What is still to be saved: at most one transaction under way per plan, the newest text next, and the
//! word "saved" only when a transaction has completed.

use std::collections::BTreeMap;

use super::record::{Draft, Mark, Record, marked_name, may_replace};
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

    /// Whether `stored` in the second copy may give way to this window's newer text.
    pub fn second_copy_is_free(&self, id: &str, stored: Option<&Mark>) -> bool {
        let (Some(stored), Some(slot)) = (stored, self.slots.get(id)) else { return true };
        may_replace(stored, slot.base.as_ref(), &slot.own)
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
mod tests {
    use super::*;
    use proptest::prelude::*;

    type Stored = BTreeMap<String, Record>;

    /// What the durable store does with a job.
    fn write(stored: &mut Stored, job: &Job) -> Outcome {
        let there = stored.get(&job.record.id).cloned();
        match (decide(there.as_ref(), job), there) {
            (Verdict::Same, Some(there)) => Outcome::Written(there.mark()),
            (Verdict::Part, Some(there)) => {
                stored.insert(job.apart.id.clone(), job.apart.clone());
                Outcome::Parted(Box::new(there))
            }
            _ => {
                stored.insert(job.record.id.clone(), job.record.clone());
                Outcome::Written(job.record.mark())
            }
        }
    }
    fn draft(text: &str) -> Draft {
        Draft { id: "p".into(), name: "Line 1".into(), text: text.into(), binned_at: None }
    }
    fn state(state: SaveState) -> Vec<Event> {
        vec![Event::State { id: "p".into(), state }]
    }

    #[test]
    fn saved_is_said_only_when_the_newest_text_is_stored() {
        let (mut queue, mut stored) = (Queue::default(), Stored::new());
        assert_eq!(queue.ask(draft("a"), 1.0).1, state(SaveState::Unsaved));
        let (job, said) = queue.take("p", "x".into(), 1.0).expect("a job");
        assert_eq!(said, state(SaveState::Saving));
        // Two more edits while the first is under way make one more write.
        queue.ask(draft("b"), 2.0);
        queue.ask(draft("c"), 3.0);
        assert!(queue.take("p", "x".into(), 3.0).is_none());
        let outcome = write(&mut stored, &job);
        assert_eq!(queue.done("p", outcome, 4.0), state(SaveState::Unsaved));
        let (job, _) = queue.take("p", "x".into(), 4.0).expect("a job");
        assert_eq!(job.record.text, "c");
        let outcome = write(&mut stored, &job);
        assert_eq!(queue.done("p", outcome, 5.0), state(SaveState::Saved { at: 5.0 }));
        assert!(!queue.busy());
    }

    #[test]
    fn a_failed_write_is_told_and_tried_again() {
        let (mut queue, mut stored) = (Queue::default(), Stored::new());
        queue.ask(draft("a"), 1.0);
        queue.take("p", "x".into(), 1.0);
        let told = queue.done("p", Outcome::Failed(Trouble::Full), 2.0);
        assert_eq!(told, state(SaveState::Failed(Trouble::Full)));
        assert_eq!((queue.busy(), queue.waiting()), (true, vec!["p".to_string()]));
        let (job, _) = queue.take("p", "x".into(), 3.0).expect("the same text again");
        assert_eq!(write(&mut stored, &job), Outcome::Written(job.record.mark()));
    }

    #[test]
    fn a_window_that_fell_behind_keeps_its_text_apart() {
        let (mut one, mut two, mut stored) = (Queue::default(), Queue::default(), Stored::new());
        let start = draft("start").record(1, 0.0);
        stored.insert("p".into(), start.clone());
        one.known(&start);
        two.known(&start);
        for (queue, text) in [(&mut one, "one"), (&mut two, "two")] {
            queue.ask(draft(text), 1.0);
            let (job, _) = queue.take("p", format!("new {text}"), 1.0).expect("a job");
            if text == "two" {
                queue.ask(draft("two, later"), 1.0);
            }
            let outcome = write(&mut stored, &job);
            let told = queue.done("p", outcome, 2.0);
            assert_eq!(matches!(told[0], Event::Parted { .. }), text == "two");
        }
        assert_eq!(stored["p"].text, "one");
        assert_eq!(
            (stored["new two"].text.as_str(), stored["new two"].name.as_str()),
            ("two", "Line 1 (other copy)")
        );
        // What was typed since goes on under the new id.
        let (job, _) = two.take("new two", "y".into(), 3.0).expect("a job");
        assert_eq!((job.record.id.as_str(), job.record.text.as_str()), ("new two", "two, later"));
        assert!(matches!(write(&mut stored, &job), Outcome::Written(_)));
        // Should the window go on under the old id all the same, nothing is overwritten.
        two.ask(draft("two, stubborn"), 4.0);
        let (job, _) = two.take("p", "z".into(), 4.0).expect("a job");
        assert!(matches!(write(&mut stored, &job), Outcome::Parted(_)));
        assert_eq!(stored["p"].text, "one");
    }

    #[test]
    fn a_window_that_starts_amid_anothers_typing_parts_nothing() {
        let (mut one, mut stored) = (Queue::default(), Stored::new());
        let start = draft("start").record(1, 0.0);
        one.known(&start);
        let (second_copy, _) = one.ask(draft("typed"), 1.0);
        // The other window starts now, finds the second copy newer and brings the durable store up to it.
        stored.insert("p".into(), second_copy);
        one.ask(draft("typed on"), 2.0);
        let (job, _) = one.take("p", "x".into(), 2.0).expect("a job");
        assert_eq!(write(&mut stored, &job), Outcome::Written(job.record.mark()));
    }

    #[test]
    fn another_windows_change_is_told_once_it_is_news() {
        let mut queue = Queue::default();
        let start = draft("start").record(1, 0.0);
        queue.known(&start);
        assert_eq!(queue.heard("p", &start.mark()), []);
        let theirs = draft("theirs").record(2, 1.0);
        let told = |unsaved| vec![Event::ChangedElsewhere { id: "p".into(), unsaved }];
        assert_eq!(queue.heard("p", &theirs.mark()), told(false));
        queue.ask(draft("mine"), 2.0);
        assert_eq!(queue.heard("p", &theirs.mark()), told(true));
    }

    proptest! {
        /// Two windows, edits, writes that succeed, fail, or arrive although the answer is lost.
        #[test]
        fn no_window_loses_its_text(steps in prop::collection::vec((any::<bool>(), 0u8..5), 0..60)) {
            let mut stored = Stored::new();
            let start = draft("start").record(1, 0.0);
            stored.insert("p".into(), start.clone());
            let mut windows = [Queue::default(), Queue::default()];
            let mut open = ["p".to_string(), "p".to_string()];
            let mut jobs: [Option<Job>; 2] = [None, None];
            let mut last: [Option<String>; 2] = [None, None];
            for window in &mut windows { window.known(&start); }
            let finish: Vec<(bool, u8)> = (0..8).flat_map(|_| [(false, 1), (false, 2), (true, 1), (true, 2)]).collect();
            for (n, (second, what)) in steps.into_iter().chain(finish).enumerate() {
                let at = usize::from(second);
                let (window, id) = (&mut windows[at], open[at].clone());
                match what {
                    0 => {
                        let text = format!("{at} {n}");
                        window.ask(Draft { id, ..draft(&text) }, 0.0);
                        last[at] = Some(text);
                    }
                    1 => {
                        let job = window.take(&id, format!("new {at} {n}"), 0.0);
                        prop_assert!(job.is_none() || jobs[at].is_none(), "two writes at a time");
                        jobs[at] = job.map(|(job, _)| job).or(jobs[at].take());
                    }
                    _ => if let Some(job) = jobs[at].take() {
                        let outcome = match what {
                            2 => write(&mut stored, &job),
                            3 => { write(&mut stored, &job); Outcome::Failed(Trouble::Gone) }
                            _ => Outcome::Failed(Trouble::Full),
                        };
                        for event in window.done(&job.record.id, outcome, 1.0) {
                            match event {
                                Event::Parted { kept_as, .. } => open[at] = kept_as.id.clone(),
                                Event::State { id, state: SaveState::Saved { .. } } =>
                                    prop_assert!(stored.values().any(|r| r.id == id && Some(&r.text) == last[at].as_ref())),
                                _ => {}
                            }
                        }
                    }
                }
            }
            for (at, text) in last.into_iter().enumerate() {
                prop_assert!(!windows[at].busy());
                if let Some(text) = text {
                    prop_assert!(stored.values().any(|record| record.text == text), "{text} in {stored:?}");
                }
            }
        }
    }
}
