//! What a calculator *is*: the declaration, and the one way to evaluate it.
//!
//! A [`Calculator`] is a constant. The form, its checks, the working, the picture, the report and
//! the tests are all read from it, so nothing about a calculator is written in two places.
//!
//! - [`subject`]: the sorts of place that calculators are about.
//! - [`declare`]: calculators, inputs, tables, answers, cautions, examples; `builders`: the words that they are
//!   written with; `reading`: what an input makes of text; `lookup`: where a symbol lives.
//! - [`given`](mod@given): the numbers and words that go in.
//! - [`work`]: what a `work` function holds, and what comes out.
//! - [`finding`]: what to look at, and refusals.
//! - [`evaluate`]: one evaluation.

pub mod subject;
pub mod declare;
mod builders;
mod reading;
mod lookup;
pub mod given;
pub mod finding;
pub mod work;
pub mod evaluate;

pub use builders::{choice, input, note, output, verdict};
pub use declare::{
    Calculator, Caution, Example, Follows, Form, Input, Missing, Output, Over, Picture, Recipe, Role, Source,
    Table, Texts, When, WorkOrder,
};
pub use finding::{Finding, Refuse, Severity, Stop};
pub use given::{Datum, Given, Key, Port, Tables, find_or_push, number};
pub use subject::Subject;
pub use work::{Depth, Instruction, Line, Outcome, Row, Work};
