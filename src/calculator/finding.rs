//! What to look at, and refusals.

use crate::science::Refusal;
use crate::sentence::sentence;
use std::ops::{Deref, DerefMut};

/// How bad a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth knowing.
    Note,
    /// Look at this.
    Caution,
    /// Do not go on like this: there is an answer, and it is shown as one to stop for. Where there is no
    /// answer at all, see [`Stop`].
    Serious,
}

impl Severity {
    /// How it is called on the screen and on paper.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Serious => "Stop",
            Severity::Caution => "Caution",
            Severity::Note => "Note",
        }
    }
}

/// Something to look at. `ask::cures` finds what would cure it.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How bad.
    pub severity: Severity,
    /// What, and by how much.
    pub text: String,
    /// The symbol that is out of limits, `c[Cu]`; empty if it is about the sheet.
    pub at: String,
    /// The limit that it should come to, in SI; `None` if no number would cure it.
    pub limit: Option<f64>,
}

/// No answer, a refusal: a reason and what would cure it, never a number. Both are sentences, however they
/// were given. One pointer wide: every `?` of a sum passes it on, and a wide one made the sums half as large again.
#[derive(Clone, Debug, PartialEq)]
pub struct Stop(Box<Cause>);

/// What a [`Stop`] says.
#[derive(Clone, Debug, PartialEq)]
pub struct Cause {
    /// The input to act on; `None` means that the calculator itself is at fault.
    pub at: Option<&'static str>,
    /// The row to act on, empty if the input is not in a table.
    pub row: String,
    /// Why there is no answer.
    pub reason: String,
    /// What to do.
    pub remedy: String,
    /// Whether nothing is wrong and something is only still to be typed.
    pub todo: bool,
    /// Whether it only passes on the refusal of a sheet that this one draws on.
    pub passed_on: bool,
}

impl Stop {
    /// A refusal that the user can cure at input `at`.
    pub fn at(at: &'static str, reason: impl Into<String>, remedy: impl Into<String>) -> Stop {
        Stop::of(at, reason.into(), remedy.into())
    }

    /// Something is still to be typed at `at` before there is an answer.
    pub fn todo(at: &'static str, reason: impl Into<String>, remedy: impl Into<String>) -> Stop {
        let mut stop = Stop::at(at, reason, remedy);
        stop.todo = true;
        stop
    }

    /// Reason and remedy, as they are shown.
    pub fn text(&self) -> String {
        format!("{} {}", self.reason, self.remedy)
    }

    /// Says which row.
    pub fn row(mut self, key: &str) -> Stop {
        self.row = key.into();
        self
    }

    /// A mistake in the declaration or in `work`. The tests of every calculator look for these.
    pub fn fault(reason: impl Into<String>) -> Stop {
        let mut stop = Stop::at("", reason, "Please report this.");
        stop.at = None;
        stop
    }

    fn of(at: &'static str, reason: String, remedy: String) -> Stop {
        let (row, reason, remedy) = (String::new(), sentence(&reason), sentence(&remedy));
        Stop(Box::new(Cause { at: Some(at), row, reason, remedy, todo: false, passed_on: false }))
    }
}

impl Deref for Stop {
    type Target = Cause;
    fn deref(&self) -> &Cause {
        &self.0
    }
}

impl DerefMut for Stop {
    fn deref_mut(&mut self) -> &mut Cause {
        &mut self.0
    }
}

/// Turns the refusal of a law into the refusal of a sheet, at the input that can cure it.
pub trait Refuse<T> {
    /// At a single input.
    fn or_stop(self, at: &'static str) -> Result<T, Stop>;
    /// At a column of a row.
    fn or_stop_row(self, at: &'static str, key: &str) -> Result<T, Stop>;
}

impl<T> Refuse<T> for Result<T, Refusal> {
    fn or_stop(self, at: &'static str) -> Result<T, Stop> {
        self.map_err(|refusal| refused(at, refusal))
    }

    fn or_stop_row(self, at: &'static str, key: &str) -> Result<T, Stop> {
        self.or_stop(at).map_err(|stop| stop.row(key))
    }
}

// Out of line: every law that a sum calls comes through here.
#[inline(never)]
fn refused(at: &'static str, refusal: Refusal) -> Stop {
    let (reason, remedy) = refusal.into_words();
    Stop::of(at, reason, remedy)
}
