//! Undo and redo. Past and future are kept with the plan, so they outlive a reload.

use super::foreign::read;
use super::steps::{Kept, Step, text_of};
use super::{Plan, TooMuch};

/// Steps that can be taken back.
const DEPTH: usize = 500;

/// The plan with its past and future.
#[derive(Clone)]
pub struct History {
    plan: Plan,
    /// The plan's text where the steps stand: behind the plan while one is being made.
    text: String,
    steps: Vec<Step>,
    /// So many steps are done; those after can be made again.
    done: usize,
    /// Whether a step is being made that is not among `steps` yet.
    is_open: bool,
    field: Option<String>,
}

impl History {
    /// A plan without a past.
    pub fn of(plan: Plan) -> History {
        let text = text_of(&plan);
        History { plan, text, steps: Vec::new(), done: 0, is_open: false, field: None }
    }

    /// The plan now.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Changes the plan; true if anything changed. Changes to the same `field` in a row are one step,
    /// so that undo takes back a number rather than a digit. What would make the plan hold more than it may is not
    /// done.
    pub fn edit<T>(
        &mut self,
        field: &str,
        change: impl FnOnce(&mut Plan) -> T,
    ) -> (T, Result<bool, TooMuch>) {
        let before = self.plan.clone();
        let given = change(&mut self.plan);
        if self.plan == before {
            return (given, Ok(false));
        }
        if let Some(much) = TooMuch::of(&self.plan) {
            self.plan = before;
            return (given, Err(much));
        }
        if !self.continues(field) {
            self.close(&before);
            self.steps.truncate(self.done);
            self.is_open = true;
            self.field = Some(field.into());
        }
        (given, Ok(true))
    }

    /// Whether a change to `field` would belong to the step that is being made.
    pub fn continues(&self, field: &str) -> bool {
        !field.is_empty() && self.field.as_deref() == Some(field)
    }

    /// The user has left the field: the next change to it is a step of its own.
    pub fn settle(&mut self) {
        self.field = None;
    }

    /// Whether there is a step to take back.
    pub fn can_undo(&self) -> bool {
        self.is_open || self.done > 0
    }

    /// Whether there is an undo to take back.
    pub fn can_redo(&self) -> bool {
        self.done < self.steps.len()
    }

    /// Takes the last step back; false if there is none.
    pub fn undo(&mut self) -> bool {
        self.close(&self.plan.clone());
        let Some(at) = self.done.checked_sub(1) else { return false };
        let there = self.steps.get(at).and_then(|step| step.back(&self.text));
        let went = self.go(there, at);
        if !went {
            // Steps that do not belong to this plan: it goes on without a past.
            self.steps.drain(..self.done);
            self.done = 0;
        }
        went
    }

    /// Takes the last undo back; false if there is none.
    pub fn redo(&mut self) -> bool {
        // While a step is being made there is no future.
        let Some(step) = self.steps.get(self.done).filter(|_| !self.is_open) else { return false };
        let went = self.go(step.forward(&self.text), self.done + 1);
        if !went {
            self.steps.truncate(self.done);
        }
        went
    }

    fn go(&mut self, text: Option<String>, done: usize) -> bool {
        // Steps may have been kept, where others too can write: read as a plan from outside.
        let Some((text, plan)) = text.and_then(|text| read(&text).ok().map(|plan| (text, plan))) else {
            return false;
        };
        (self.text, self.plan, self.done) = (text, plan, done);
        self.field = None;
        true
    }

    /// Ends the step that is being made; it led to `now`.
    fn close(&mut self, now: &Plan) {
        if !std::mem::take(&mut self.is_open) {
            return;
        }
        self.field = None;
        let now = text_of(now);
        if now == self.text {
            return;
        }
        self.steps.push(Step::between(&self.text, &now));
        self.done = self.steps.len();
        self.text = now;
        self.forget_the_oldest();
    }

    fn forget_the_oldest(&mut self) {
        let many = self.steps.len().saturating_sub(DEPTH).min(self.done);
        self.steps.drain(..many);
        self.done -= many;
    }

    /// Past and future as they are kept beside the plan, whose text is `text`.
    pub fn kept(&self, text: &str) -> String {
        let mut steps = self.steps.clone();
        let mut done = self.done;
        if text != self.text {
            steps.truncate(done);
            steps.push(Step::between(&self.text, text));
            done = steps.len();
        }
        Kept::new(text, done, steps).write()
    }

    /// Takes up what was kept beside the plan as this history began; false if it is damaged or of another
    /// text, and then all is as before.
    pub fn take_up(&mut self, kept: &str) -> bool {
        let Some(mut kept) = Kept::read(kept) else { return false };
        let mut own = self.steps[..self.done].iter().rev();
        let start = own.try_fold(self.text.clone(), |text, step| step.back(&text));
        if !start.is_some_and(|start| kept.is_of(&start)) {
            return false;
        }
        let begun = self.is_open || !self.steps.is_empty();
        if begun {
            kept.steps.truncate(kept.done);
        }
        self.done += kept.done;
        kept.steps.append(&mut self.steps);
        self.steps = kept.steps;
        self.forget_the_oldest();
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::examples;
    use proptest::prelude::*;

    fn named(history: &mut History, name: &str) {
        history.edit("", |plan| plan.name = name.into()).1.unwrap();
    }

    /// As after a reload: the plan is read anew, and what was kept is taken up.
    fn reloaded(history: &History) -> History {
        let text = text_of(history.plan());
        let mut again = History::of(read(&text).unwrap());
        assert!(again.take_up(&history.kept(&text)));
        again
    }

    #[test]
    fn undo_and_redo_outlive_a_reload() {
        let mut history = History::of(examples::plan("gannet-point").unwrap());
        let start = history.plan().clone();
        ["a", "b", "c"].into_iter().for_each(|name| named(&mut history, name));
        history.undo();
        let mut again = reloaded(&history);
        assert!(again.redo() && again.plan().name == "c" && !again.can_redo());
        assert!(again.undo() && again.undo() && again.undo() && !again.can_undo());
        assert_eq!(*again.plan(), start);
    }

    #[test]
    fn what_was_typed_before_the_past_was_there_stands_after_it() {
        let mut first = History::of(Plan::new("Line"));
        named(&mut first, "a");
        named(&mut first, "b");
        first.undo();
        let kept = first.kept(&text_of(first.plan()));
        let mut again = History::of(first.plan().clone());
        named(&mut again, "c");
        assert!(again.take_up(&kept));
        assert!(!again.can_redo(), "another step was made instead");
        let mut names = Vec::new();
        while again.undo() {
            names.push(again.plan().name.clone());
        }
        assert_eq!(names, ["a", "Line"]);
    }

    #[test]
    fn the_past_of_another_text_is_left_alone() {
        let mut other = History::of(Plan::new("Other"));
        named(&mut other, "a");
        let kept = other.kept(&text_of(other.plan()));
        let mut history = History::of(Plan::new("Line"));
        for kept in [kept.as_str(), "", "1.00000001.", "rubbish"] {
            assert!(!history.take_up(kept) && !history.can_undo());
        }
    }

    #[test]
    fn a_text_that_came_without_its_steps_is_one_step_more() {
        let mut history = History::of(Plan::new("Line"));
        named(&mut history, "a");
        let [stored, newer] = ["a", "b"].map(|name| text_of(&Plan { name: name.into(), ..Plan::new("") }));
        let kept = Kept::carried(&history.kept(&stored), &stored, &newer).unwrap();
        let mut again = History::of(read(&newer).unwrap());
        assert!(again.take_up(&kept) && again.undo() && again.plan().name == "a");
        assert!(again.undo() && again.plan().name == "Line");
    }

    #[test]
    fn five_hundred_steps_take_less_room_than_a_few_plans() {
        let mut history = History::of(examples::plan("gannet-point").unwrap());
        let whole = text_of(history.plan()).len();
        for k in 0..600 {
            named(&mut history, &format!("name {k}"));
        }
        let kept = history.kept(&text_of(history.plan()));
        assert!(kept.len() < 3 * whole, "{} bytes beside a plan of {whole}", kept.len());
        let mut again = reloaded(&history);
        let back = std::iter::from_fn(|| again.undo().then_some(())).count();
        assert_eq!((back, again.plan().name.as_str()), (DEPTH, "name 99"));
    }

    proptest! {
        /// 0 to 5: another name; 6 undo, 7 redo, 8 reload, 9 leave the field.
        #[test]
        fn every_state_comes_back(deeds in prop::collection::vec(0u8..10, 0..40)) {
            let mut history = History::of(Plan::new("start"));
            // The same with whole plans' names.
            let (mut past, mut future, mut field) = (vec![], vec![], None);
            for (n, deed) in deeds.into_iter().enumerate() {
                let now = history.plan().name.clone();
                match deed {
                    0..6 => {
                        let name = format!("n{n}é");
                        let at = ["", "x", "y"][usize::from(deed % 3)];
                        history.edit(at, |plan| plan.name.clone_from(&name)).1.unwrap();
                        if at.is_empty() || field != Some(at) {
                            past.push(now);
                        }
                        field = Some(at);
                        future.clear();
                    }
                    6 => if history.undo() { future.push(now); prop_assert_eq!(past.pop(), Some(history.plan().name.clone())); field = None },
                    7 => if history.redo() { past.push(now); prop_assert_eq!(future.pop(), Some(history.plan().name.clone())); field = None },
                    8 => { history = reloaded(&history); field = None }
                    _ => { history.settle(); field = None }
                }
                prop_assert_eq!((history.can_undo(), history.can_redo()), (!past.is_empty(), !future.is_empty()));
            }
        }
    }
}
