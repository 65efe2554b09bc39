//! Memos and effects that are Leptos', with one code for all of them.
//!
//! Leptos' own are compiled anew for each type that a memo holds and for each closure. Here the type is put
//! aside while the value lies in the graph of signals.

use leptos::prelude::{Get, GetUntracked, RwSignal, Set, Signal, Track, WithUntracked};
use leptos::reactive::effect::{EffectFunction, ImmediateEffect};
use std::any::Any;
use std::marker::PhantomData;
use std::sync::Arc;

/// A value that is worked out from signals, again when they change; readers hear only of another value.
pub struct Memo<T> {
    inner: Signal<Held>,
    holds: PhantomData<fn() -> T>,
}

impl<T> Clone for Memo<T> {
    fn clone(&self) -> Memo<T> {
        *self
    }
}

impl<T> Copy for Memo<T> {}

type Anything = dyn Any + Send + Sync;

#[derive(Clone)]
struct Held {
    value: Arc<Anything>,
    is_same: fn(&Anything, &Anything) -> bool,
}

impl PartialEq for Held {
    fn eq(&self, other: &Held) -> bool {
        (self.is_same)(&*self.value, &*other.value)
    }
}

fn is_same<T: PartialEq + 'static>(a: &Anything, b: &Anything) -> bool {
    matches!((a.downcast_ref::<T>(), b.downcast_ref::<T>()), (Some(a), Some(b)) if a == b)
}

#[inline(never)]
fn make(value: Box<dyn Fn() -> Held + Send + Sync>) -> Signal<Held> {
    leptos::prelude::Memo::new(move |_| value()).into()
}

#[inline(never)]
fn make_at_once(value: Box<dyn Fn() -> Held + Send + Sync>) -> Signal<Held> {
    let kept = RwSignal::new(Held { value: Arc::new(()), is_same: |_, _| false });
    ImmediateEffect::new_scoped(move || {
        let new = value();
        if kept.with_untracked(|old| new != *old) {
            kept.set(new);
        }
    });
    kept.into()
}

#[inline(never)]
fn read(memo: Signal<Held>) -> Arc<Anything> {
    memo.get().value
}

#[inline(never)]
fn peek(memo: Signal<Held>) -> Arc<Anything> {
    memo.get_untracked().value
}

impl<T: PartialEq + Send + Sync + 'static> Memo<T> {
    /// A memo of what a closure gives.
    pub fn new(value: impl Fn(()) -> T + Send + Sync + 'static) -> Memo<T> {
        let held = move || Held { value: Arc::new(value(())), is_same: is_same::<T> };
        Memo { inner: make(Box::new(held)), holds: PhantomData }
    }

    /// The same, worked out as soon as what it reads changes. A memo's readers are all woken to ask whether
    /// there is another value, these only when there is one: for what stands on a sheet by the hundred, of
    /// which a key changes little.
    pub fn at_once(value: impl Fn(()) -> T + Send + Sync + 'static) -> Memo<T> {
        let held = move || Held { value: Arc::new(value(())), is_same: is_same::<T> };
        Memo { inner: make_at_once(Box::new(held)), holds: PhantomData }
    }

    /// Reads the value where it is, and follows it.
    pub fn with<U>(&self, read_it: impl FnOnce(&T) -> U) -> U {
        read_it(known(&read(self.inner)))
    }

    /// Reads the value where it is, without following it.
    pub fn with_untracked<U>(&self, read_it: impl FnOnce(&T) -> U) -> U {
        read_it(known(&peek(self.inner)))
    }

    /// The value, followed.
    pub fn get(&self) -> T
    where
        T: Clone,
    {
        self.with(T::clone)
    }

    /// The value, not followed.
    pub fn get_untracked(&self) -> T
    where
        T: Clone,
    {
        self.with_untracked(T::clone)
    }

    /// Follows the value without reading it.
    pub fn track(&self) {
        self.inner.track();
    }
}

fn known<T: 'static>(value: &Arc<Anything>) -> &T {
    value.downcast_ref().expect("a memo holds what it was made with")
}

/// What is done again whenever what it reads changes.
pub struct Effect;

impl Effect {
    /// Does it now, after the page is built, and from then on.
    #[expect(clippy::new_ret_no_self, reason = "as Leptos writes it, whose effects need no handle here")]
    pub fn new<M>(mut effect: impl EffectFunction<(), M> + 'static) {
        begin(Box::new(move |before| effect.run(before)));
    }
}

#[inline(never)]
fn begin(effect: Box<dyn FnMut(Option<()>)>) {
    leptos::prelude::Effect::new(effect);
}
