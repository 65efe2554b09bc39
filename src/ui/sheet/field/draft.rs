//! What is being typed into a field, from the first key until the user leaves it.

use crate::calculator::Form;
use crate::plan::{Entry, Field};
use crate::results::FieldView;
use crate::ui::signals::{Effect, Memo};
use crate::ui::store::Store;
use crate::units::Unit;
use leptos::prelude::*;

/// The text as it is typed; the plan follows with every key, and what the field shows waits until the end.
#[derive(Clone, Copy)]
pub struct Draft {
    store: Store,
    field: StoredValue<Field>,
    shown: Memo<Option<FieldView>>,
    typed: RwSignal<Option<String>>,
    /// How the field stood when the user began to type.
    at_start: StoredValue<(Option<&'static Unit>, Option<Entry>)>,
}

impl Draft {
    /// Of a field in which nothing is being typed. What changes from elsewhere (undo) ends the typing.
    pub fn new(store: Store, field: StoredValue<Field>, shown: Memo<Option<FieldView>>) -> Draft {
        let draft = Draft {
            store,
            field,
            shown,
            typed: RwSignal::new(None),
            at_start: StoredValue::new((None, None)),
        };
        Effect::new(move |_| {
            store.epoch.track();
            draft.typed.set(None);
            draft.begin();
        });
        draft
    }

    /// What stands in the field.
    pub fn text(self) -> String {
        self.typed.get().unwrap_or_else(|| {
            self.shown.with(|view| view.as_ref().map(|view| view.text.clone()).unwrap_or_default())
        })
    }

    /// Whether something is being typed.
    pub fn is_typing(self) -> bool {
        self.typed.with(Option::is_some)
    }

    /// The user begins, or begins anew: bare numbers are in the unit that the field shows now.
    pub fn begin(self) {
        let entry = self
            .field
            .with_value(|field| self.store.history.with_untracked(|h| h.plan().entry(field).cloned()));
        let is_number = self.field.with_value(|f| f.input().is_some_and(|input| input.form == Form::Number));
        let unit =
            self.shown.with_untracked(|view| view.as_ref().filter(|_| is_number).map(|view| view.unit));
        self.at_start.set_value((unit, entry));
    }

    /// The user touches the field, or comes to it by key.
    pub fn touched(self) {
        if untrack(|| self.store.is_viewed()) {
            self.store.say_only_shown();
        }
        self.begin();
    }

    /// The field holds this text now.
    pub fn type_in(self, text: String) {
        // Emptied or typed over in one go, it is another text and no longer the same one growing.
        let is_another = self.typed.with_untracked(|was| {
            was.as_ref().is_some_and(|was| {
                text.is_empty() || !text.starts_with(was.as_str()) && !was.starts_with(text.as_str())
            })
        });
        if is_another {
            self.begin();
        }
        self.typed.set(Some(text.clone()));
        let (unit, before) = self.at_start.get_value();
        let step = self.field.with_value(|field| format!("{field:?}"));
        self.store.edit(&step, |plan| {
            self.field.with_value(|field| plan.type_over(field, before, &text, unit));
        });
    }

    /// The user has left the field: it shows what the plan holds.
    pub fn leave(self) {
        self.typed.set(None);
        self.store.settle();
    }

    /// The user has pressed Enter: as if the field were left and entered again.
    pub fn enter(self) {
        self.leave();
        self.begin();
    }
}
