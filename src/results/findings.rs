//! What there is to look at and to type, in a cell and in the whole plan.

use super::Results;
use crate::calculator::{Finding, Severity, Stop};
use crate::plan::{Field, Id};

/// How much there is to look at somewhere.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Marks {
    /// Findings that say stop, and refusals.
    pub stops: usize,
    /// Findings that say caution.
    pub cautions: usize,
    /// Findings that only note something.
    pub notes: usize,
    /// Fields that cannot be read.
    pub fields: usize,
    /// Whether something is still to be typed before there is an answer.
    pub todo: bool,
    /// Whether there is no answer because another sheet has none; the stop is counted there.
    pub waits: bool,
}

impl Marks {
    /// Both together.
    pub fn plus(self, other: Marks) -> Marks {
        Marks {
            stops: self.stops + other.stops,
            cautions: self.cautions + other.cautions,
            notes: self.notes + other.notes,
            fields: self.fields + other.fields,
            todo: self.todo || other.todo,
            waits: self.waits || other.waits,
        }
    }
}

/// A finding of the whole plan, and where it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// In which cell.
    pub cell: usize,
    /// What.
    pub finding: Finding,
}

impl Results {
    /// How much there is to look at in a cell.
    pub fn marks(&self, cell: usize) -> Marks {
        let fields = self.network.cells.get(cell).map_or(0, |cell| cell.issues.len());
        match self.outcomes.get(cell) {
            Some(Ok(outcome)) => {
                let count =
                    |severity| outcome.findings.iter().filter(|finding| finding.severity == severity).count();
                Marks {
                    stops: count(Severity::Serious),
                    cautions: count(Severity::Caution),
                    notes: count(Severity::Note),
                    fields,
                    ..Marks::default()
                }
            }
            Some(Err(stop)) => Marks {
                stops: usize::from(!stop.todo && !stop.passed_on),
                fields,
                todo: stop.todo,
                waits: !stop.todo && stop.passed_on,
                ..Marks::default()
            },
            None => Marks::default(),
        }
    }

    /// The first cell at a place that says stop, or has no answer for a reason of its own.
    pub fn stopped_at(&self, place: Id) -> Option<usize> {
        let mut cells = (0..self.network.cells.len()).filter(|at| self.network.cells[*at].place == place);
        cells.find(|cell| self.marks(*cell).stops > 0)
    }

    /// All findings of the plan, the worst first; refusals that only pass another one on are left out.
    pub fn findings(&self) -> Vec<Found> {
        let mut all = Vec::new();
        for (cell, outcome) in self.outcomes.iter().enumerate() {
            match outcome {
                Ok(outcome) => {
                    all.extend(outcome.findings.iter().map(|f| Found { cell, finding: f.clone() }))
                }
                Err(stop) if stop.todo || stop.passed_on => (),
                Err(stop) => {
                    let text = format!("No answer. {}", stop.text());
                    let at = stop.at.unwrap_or_default().to_string();
                    all.push(Found {
                        cell,
                        finding: Finding { severity: Severity::Serious, text, at, limit: None },
                    });
                }
            }
        }
        crate::order::sort_by_key(&mut all, |found| std::cmp::Reverse(found.finding.severity));
        all
    }

    /// What is still to be typed before there is an answer: cell, and what.
    pub fn todo(&self) -> Vec<(usize, &Stop)> {
        let waiting = self
            .outcomes
            .iter()
            .enumerate()
            .filter_map(|(cell, outcome)| Some((cell, outcome.as_ref().err()?)));
        waiting.filter(|(_, stop)| stop.todo && !stop.passed_on).collect()
    }

    /// The fields that a cell still waits for before it has an answer, in the order of its sum.
    pub fn gaps(&self, cell: usize) -> Vec<Field> {
        let is_own = self.stop(cell).is_some_and(|stop| stop.todo && !stop.passed_on);
        if is_own { crate::ask::gaps(&self.network, cell) } else { Vec::new() }
    }
}
