//! What an attribute of an element may be: a text, a yes or no, or nothing; fixed, or following signals.

use crate::ui::signals::Memo;
use leptos::prelude::*;
use std::borrow::Cow;
use wasm_bindgen::JsValue;

/// The value of an attribute, class, property or style.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Nothing is set.
    None,
    /// Set or not.
    Flag(bool),
    /// A text.
    Text(Cow<'static, str>),
}

impl Value {
    /// The text of it; empty for a flag.
    pub fn text(&self) -> &str {
        match self {
            Value::Text(text) => text,
            _ => "",
        }
    }

    /// As a property of an element takes it.
    pub fn to_js(&self) -> JsValue {
        match self {
            Value::None => JsValue::UNDEFINED,
            Value::Flag(flag) => JsValue::from_bool(*flag),
            Value::Text(text) => JsValue::from_str(text),
        }
    }
}

impl From<bool> for Value {
    fn from(flag: bool) -> Value {
        Value::Flag(flag)
    }
}

impl From<&'static str> for Value {
    fn from(text: &'static str) -> Value {
        Value::Text(text.into())
    }
}

impl From<String> for Value {
    fn from(text: String) -> Value {
        Value::Text(text.into())
    }
}

impl From<f64> for Value {
    fn from(number: f64) -> Value {
        number.to_string().into()
    }
}

impl<T: Into<Value>> From<Option<T>> for Value {
    fn from(value: Option<T>) -> Value {
        value.map_or(Value::None, Into::into)
    }
}

/// Where a value comes from.
pub enum Source {
    /// It stays.
    Fixed(Value),
    /// It is asked for again whenever what it reads changes.
    Live(Box<dyn FnMut() -> Value>),
}

/// What a value may be given as. `M` only tells the cases apart.
pub trait IntoSource<M> {
    /// The value, or how to get it.
    fn into_source(self) -> Source;
}

/// Marks values that stay.
pub struct Stays;
/// Marks closures.
pub struct Follows;
/// Marks signals and memos.
pub struct Signalled;

impl<T: Into<Value>> IntoSource<Stays> for T {
    fn into_source(self) -> Source {
        Source::Fixed(self.into())
    }
}

impl<F, T> IntoSource<Follows> for F
where
    F: FnMut() -> T + 'static,
    T: Into<Value>,
{
    fn into_source(mut self) -> Source {
        Source::Live(Box::new(move || self().into()))
    }
}

impl<T: Into<Value> + Clone + Send + Sync + 'static> IntoSource<Signalled> for RwSignal<T> {
    fn into_source(self) -> Source {
        (move || self.get()).into_source()
    }
}

impl<T: Into<Value> + Clone + PartialEq + Send + Sync + 'static> IntoSource<Signalled> for Memo<T> {
    fn into_source(self) -> Source {
        (move || self.get()).into_source()
    }
}
