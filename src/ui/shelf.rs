//! The plans on this device, as the page sees them. Filled in when storage lands.

use super::store::Store;
use crate::plan::Plan;
use leptos::prelude::*;

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

/// Handed to every view by context.
#[derive(Clone, Copy)]
pub struct Shelf {
    /// The plans, the last one used first.
    pub plans: RwSignal<Vec<Kept>>,
    /// The state of saving, in words: "Saved in this browser on this device 14:02".
    pub status: RwSignal<String>,
    /// What was found wrong at start or while saving, in plain words.
    pub notes: RwSignal<Vec<String>>,
}

impl Shelf {
    /// An empty shelf.
    pub fn new() -> Shelf {
        Shelf {
            plans: RwSignal::new(Vec::new()),
            status: RwSignal::new(String::new()),
            notes: RwSignal::new(Vec::new()),
        }
    }

    /// The shelf of the page.
    pub fn here() -> Shelf {
        expect_context::<Shelf>()
    }

    /// A plan on the shelf.
    pub fn plan(&self, _id: &str) -> Option<Plan> {
        None
    }

    /// The quick sum of a calculator, as it was left.
    pub fn quick(&self, _calculator: &str) -> Option<Plan> {
        None
    }

    /// Keeps what is open.
    pub fn keep(&self, _store: &Store) {}

    /// Puts a new plan on the shelf and gives its id.
    pub fn add(&self, _plan: Plan) -> String {
        String::new()
    }

    /// A copy of a plan, under a name of its own; gives its id.
    pub fn duplicate(&self, _id: &str) -> Option<String> {
        None
    }

    /// Moves a plan to the bin, or back.
    pub fn bin(&self, _id: &str, _binned: bool) {}
}

impl Default for Shelf {
    fn default() -> Shelf {
        Shelf::new()
    }
}
