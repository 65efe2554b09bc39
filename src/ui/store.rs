//! The one place that holds what is open: the document with its history, and what it comes to.
//!
//! Views read signals from here and call its methods; nothing else changes a plan.

use super::share::Spare;
use super::shelf::Shelf;
use crate::address::Address;
use crate::calculators::find;
use crate::plan::{Field, History, Id, Place, Plan};
use crate::results::{FieldView, Results};
use crate::ui::signals::{Effect, Memo};
use crate::units::Style;
use leptos::prelude::*;
use std::sync::Arc;

/// Which document is open.
#[derive(Clone, Debug, PartialEq)]
pub struct Open {
    /// The plan's id; quick sums have none of their own.
    pub id: String,
    /// The calculator of a quick sum.
    pub quick: Option<&'static str>,
}

/// Handed to every view by context.
#[derive(Clone, Copy)]
pub struct Store {
    /// The plans on this device.
    pub shelf: Shelf,
    /// The screen that is shown.
    pub address: RwSignal<Address>,
    /// The document that is open.
    pub open: RwSignal<Option<Open>>,
    /// Its plan, with past and future.
    pub history: RwSignal<History>,
    /// What the plan comes to.
    pub results: RwSignal<Arc<Results>>,
    /// What the plan came to before the last step, for what beside a sheet tells of its effects.
    pub before: RwSignal<Option<Arc<Results>>>,
    /// Counts up when the plan changed from elsewhere than the field being typed in: undo, reload.
    pub epoch: RwSignal<u32>,
    /// Significant digits of answers.
    pub digits: RwSignal<usize>,
    /// What was last said in the page's corner: "Row removed", with an undo beside it.
    pub said: RwSignal<Option<String>>,
    /// The field that a touch on another screen or part leads to: its sheet goes there once it stands.
    pub wanted: RwSignal<Option<Field>>,
    /// Whether the rail of places is open where it does not fit beside the sheet.
    pub places_open: RwSignal<bool>,
    /// What is left out of the open plan when it is handed on.
    pub spare: RwSignal<Spare>,
    /// Whether this is the plan as it is handed on; then the whole plan takes every change.
    is_handed_on: bool,
    handed_on: HandedOn,
    /// How numbers are shown: hundreds of views ask, and it hardly ever changes.
    plain_style: Memo<Style>,
}

/// The plan as it is handed on. It lives as long as the store: the screen that shows it may be asked for it while it is
/// being taken away.
#[derive(Clone, Copy)]
struct HandedOn {
    history: RwSignal<History>,
    results: RwSignal<Arc<Results>>,
    plain_style: Memo<Style>,
    /// The store of the whole plan.
    original: StoredValue<Option<Store>>,
}

fn plain_style(results: RwSignal<Arc<Results>>) -> Memo<Style> {
    Memo::at_once(move |_| results.with(|results| results.style()))
}

impl Store {
    /// A store with nothing open.
    pub fn new(shelf: Shelf) -> Store {
        let [results, less] = [(); 2].map(|()| RwSignal::new(Arc::new(Results::default())));
        Store {
            shelf,
            address: RwSignal::new(Address::Home),
            open: RwSignal::new(None),
            history: RwSignal::new(History::of(Plan::new(""))),
            results,
            before: RwSignal::new(None),
            epoch: RwSignal::new(0),
            digits: RwSignal::new(3),
            said: RwSignal::new(None),
            wanted: RwSignal::new(None),
            places_open: RwSignal::new(false),
            spare: RwSignal::new(Spare::default()),
            is_handed_on: false,
            handed_on: HandedOn {
                history: RwSignal::new(History::of(Plan::new(""))),
                results: less,
                plain_style: plain_style(less),
                original: StoredValue::new(None),
            },
            plain_style: plain_style(results),
        }
    }

    /// The store of the page.
    pub fn here() -> Store {
        expect_context::<Store>()
    }

    /// The plan as it is handed on, to be looked at as this one is: what is left out is missing there, and so is what
    /// would come of it. What is changed there, is changed in the plan.
    pub fn handed_on(self) -> Store {
        let HandedOn { history, results, plain_style, original } = self.handed_on;
        original.set_value(Some(self));
        let less = Store { history, results, plain_style, is_handed_on: true, ..self };
        let follow = move || {
            history.set(History::of(self.plan_to_hand_on()));
            match self.spare.get().is_nothing() {
                true => results.set(self.results.get()),
                false => less.work_out(),
            }
        };
        untrack(follow);
        Effect::new(move |_| follow());
        less
    }

    /// The store of the whole plan, which takes changes.
    fn whole(&self) -> Store {
        let original = || self.handed_on.original.get_value();
        self.is_handed_on.then(original).flatten().unwrap_or(*self)
    }

    /// The plan as it is handed on; tracked.
    pub fn plan_to_hand_on(&self) -> Plan {
        self.spare.get().applied_to(self.history.with(|history| history.plan().clone()))
    }

    /// Opens a document.
    pub fn open_plan(&self, open: Open, plan: Plan) {
        self.shelf.flush(self);
        self.spare.set(Spare::of(&open));
        self.history.set(History::of(plan));
        self.open.set(Some(open.clone()));
        self.shelf.bring_past(*self, &open);
        self.before.set(None);
        self.work_out();
        self.epoch.update(|epoch| *epoch += 1);
    }

    /// The sheet that is on screen.
    pub fn sheet(&self) -> Option<(Id, &'static str)> {
        match self.address.get_untracked() {
            Address::Sheet { place, calculator, .. } => Some((place, calculator)),
            Address::Quick(calculator) => self.history.with_untracked(|history| {
                let subject = find(calculator)?.subject;
                let place = history.plan().places.iter().find(|place| place.subject == subject)?;
                Some((place.id, calculator))
            }),
            _ => None,
        }
    }

    /// Whether what is open came by link and is only looked at; tracked.
    pub fn is_viewed(&self) -> bool {
        self.open.with(|open| open.as_ref().is_some_and(|open| open.id == super::shelf::LINK))
    }

    /// Says that a plan of a link is not changed, and how it could be.
    pub fn say_only_shown(&self) {
        self.said.set(Some(
            "This plan came by link and is only shown. “Keep a copy” makes one that you can change.".into(),
        ));
    }

    /// Evaluates the plan again.
    pub fn work_out(&self) {
        let sheet = self.sheet();
        let last = self.results.get_untracked();
        let results = self.history.with_untracked(|history| last.after_edit(history.plan(), sheet));
        self.results.set(Arc::new(results));
    }

    /// Changes the plan. Changes with the same `step` in a row are taken back together.
    /// A plan that came by link stays as it is, and what would have changed it says so; so it is with a change that
    /// would make the plan hold more than it may.
    pub fn edit<T>(&self, step: &str, change: impl FnOnce(&mut Plan) -> T) -> T {
        self.whole().edit_itself(step, change)
    }

    fn edit_itself<T>(&self, step: &str, change: impl FnOnce(&mut Plan) -> T) -> T {
        if untrack(|| self.is_viewed()) {
            let mut copy = self.history.with_untracked(|history| history.plan().clone());
            let given = change(&mut copy);
            self.say_only_shown();
            self.epoch.update(|epoch| *epoch += 1);
            return given;
        }
        let (mut given, mut done) = (None, Ok(false));
        let mut is_new_step = false;
        self.history.update(|history| {
            is_new_step = !history.continues(step);
            let (value, did) = history.edit(step, change);
            (given, done) = (Some(value), did);
        });
        match done {
            Ok(true) => self.go_on(is_new_step),
            Ok(false) => (),
            Err(much) => self.said.set(Some(much.told())),
        }
        // `update` always runs its closure.
        given.unwrap_or_else(|| unreachable!())
    }

    /// A change that is a step of its own and that fields being shown must take in.
    pub fn act<T>(&self, change: impl FnOnce(&mut Plan) -> T) -> T {
        self.settle();
        let given = self.edit("", change);
        self.epoch.update(|epoch| *epoch += 1);
        given
    }

    /// As [`Store::act`], and says what was done; where it was not done, why not is said already.
    pub fn act_and_say(&self, done: &str, change: impl FnOnce(&mut Plan)) {
        self.said.set(None);
        self.act(change);
        if self.said.with_untracked(Option::is_none) {
            self.said.set(Some(done.into()));
        }
    }

    /// Goes to a place that was just added, at one of its sheets. Where it was not added, this goes nowhere.
    pub fn go_to_new(&self, place: Id, sheet: Option<&'static str>) {
        let is_there = self.history.with_untracked(|history| history.plan().place(place).is_some());
        if let Some(sheet) = sheet.filter(|_| is_there) {
            super::app::go(&untrack(|| self.sheet_address(place, sheet)));
        }
    }

    /// The user has left a field.
    pub fn settle(&self) {
        self.whole().history.update_untracked(History::settle);
    }

    /// Takes the last step back.
    pub fn undo(&self) {
        self.whole().travel(History::undo);
    }

    /// Takes the last undo back.
    pub fn redo(&self) {
        self.whole().travel(History::redo);
    }

    fn travel(&self, step: fn(&mut History) -> bool) {
        let before = self.history.with_untracked(|history| history.plan().clone());
        let mut moved = false;
        self.history.update(|history| moved = step(history));
        if moved {
            self.go_on(true);
            self.epoch.update(|epoch| *epoch += 1);
            self.said.set(self.changed_elsewhere(&before));
            let is_gone = |(place, _): (Id, &str)| {
                self.history.with_untracked(|history| history.plan().place(place).is_none())
            };
            if matches!(self.address.get_untracked(), Address::Sheet { .. })
                && self.sheet().is_some_and(is_gone)
            {
                super::app::go(&untrack(|| self.line_address()));
            }
        }
    }

    /// Where an undo or redo changed something that is not on screen: it would go unseen.
    fn changed_elsewhere(&self, before: &Plan) -> Option<String> {
        let here = self.sheet();
        self.history.with_untracked(|history| {
            let places = history.plan().differences(before);
            let gone = places.iter().find(|(place, _)| history.plan().place(place.id).is_none());
            if let Some((place, _)) = gone {
                return Some(format!("{} is out of the plan again.", place.name));
            }
            if let Some((place, _)) = places.iter().find(|(place, _)| before.place(place.id).is_none()) {
                return Some(format!("{} is back in the plan.", place.name));
            }
            let is_seen = |(place, sheet): &(&Place, Option<&str>)| {
                here.is_some_and(|(id, calculator)| {
                    id == place.id && sheet.is_none_or(|sheet| sheet == calculator)
                })
            };
            if places.iter().any(is_seen) {
                return None;
            }
            let (place, sheet) = places.first()?;
            let title = sheet.and_then(find).map(|calculator| format!(", {}", calculator.title));
            Some(format!("That changed {}{}.", place.name, title.unwrap_or_default()))
        })
    }

    /// The plan has changed: works it out, and keeps it soon. What was said last is of an earlier plan.
    fn go_on(&self, is_new_step: bool) {
        self.said.set(None);
        if is_new_step {
            self.before.set(Some(self.results.get_untracked()));
        }
        self.work_out();
        self.shelf.keep_soon(*self);
    }

    /// What a field shows; follows every change.
    pub fn field(&self, field: &Field) -> Option<FieldView> {
        // A change of the plan always brings new results, so those alone are followed.
        let entry = self.history.with_untracked(|history| history.plan().entry(field).cloned());
        self.results.with(|results| results.field(field, entry.as_ref()))
    }

    /// The style of numbers, with the digits that the reader asked for.
    pub fn style(&self) -> Style {
        self.plain_style.get().with_digits(self.digits.get())
    }

    /// The address of a sheet of the document that is open.
    pub fn sheet_address(&self, place: Id, calculator: &'static str) -> Address {
        match self.open.get() {
            Some(Open { quick: Some(_), .. }) | None => Address::Quick(calculator),
            Some(Open { id, .. }) => Address::Sheet { plan: id, place, calculator },
        }
    }

    /// The address of a screen of the document that is open: `Address::Report`, `Address::Line` and the like.
    pub fn plan_address(&self, screen: fn(String) -> Address) -> Address {
        match self.open.get() {
            Some(Open { id, quick: None }) => screen(id),
            _ => Address::Home,
        }
    }

    /// The address of the line of the document that is open.
    pub fn line_address(&self) -> Address {
        self.plan_address(Address::Line)
    }
}
