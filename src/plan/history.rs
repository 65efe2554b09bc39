//! Undo and redo.

use super::Plan;

/// Steps that can be taken back. A plan is a few kilobytes of text, so whole plans are kept.
const DEPTH: usize = 500;

/// The plan with its past and future.
#[derive(Clone)]
pub struct History {
    past: Vec<Plan>,
    plan: Plan,
    future: Vec<Plan>,
    field: Option<String>,
}

impl History {
    /// A plan without a past.
    pub fn of(plan: Plan) -> History {
        History { past: Vec::new(), plan, future: Vec::new(), field: None }
    }

    /// The plan now.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Changes the plan; true if anything changed. Changes to the same `field` in a row are one step,
    /// so that undo takes back a number rather than a digit.
    pub fn edit<T>(&mut self, field: &str, change: impl FnOnce(&mut Plan) -> T) -> (T, bool) {
        let before = self.plan.clone();
        let given = change(&mut self.plan);
        if self.plan == before {
            return (given, false);
        }
        if !self.continues(field) {
            self.past.push(before);
            if self.past.len() > DEPTH {
                self.past.remove(0);
            }
            self.field = Some(field.into());
        }
        self.future.clear();
        (given, true)
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
        !self.past.is_empty()
    }

    /// Whether there is an undo to take back.
    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Takes the last step back; false if there is none.
    pub fn undo(&mut self) -> bool {
        self.travel(|history| (&mut history.past, &mut history.future))
    }

    /// Takes the last undo back; false if there is none.
    pub fn redo(&mut self) -> bool {
        self.travel(|history| (&mut history.future, &mut history.past))
    }

    fn travel(&mut self, ends: fn(&mut History) -> (&mut Vec<Plan>, &mut Vec<Plan>)) -> bool {
        let Some(plan) = ends(self).0.pop() else { return false };
        let left = std::mem::replace(&mut self.plan, plan);
        ends(self).1.push(left);
        self.field = None;
        true
    }
}
