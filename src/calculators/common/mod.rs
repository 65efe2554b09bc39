//! What several sheets have in common, and that is no calculator itself.
//!
//! - [`routes`]: what a route is for, which liquid it takes, and what must not meet;
//! - [`rules`]: published limits on discharge, and the permit that goes before them;
//! - [`reagent`]: water that a reagent brings to a pH;
//! - [`bath_inputs`]: what several sheets of a bath ask for;
//! - [`cautions`]: cautions that stand on several sheets;
//! - [`choose`]: how a sheet chooses among options.

pub mod bath_inputs;
pub mod cautions;
pub mod choose;
pub mod reagent;
pub mod routes;
pub mod rules;
