//! The second program of the page (`extras/`): loaded when a workbook, a link or its code is wanted, and then kept. It has no
//! bridge of its own: what it is given is written into its memory, and what it made is read from there.

use crate::keep::unpack::unpack_own;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use leptos::prelude::*;
use std::cell::RefCell;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Function, Object, Reflect, Uint8Array, WebAssembly};

thread_local! {
    static LOADED: RefCell<Option<JsValue>> = const { RefCell::new(None) };
}

/// Why nothing was made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unmade {
    /// The program could not be loaded.
    NotLoaded,
    /// It cannot be made of what was given: too much, or damaged.
    Cannot,
}

impl Unmade {
    /// The reason as a sentence, with what to do.
    pub fn words(self) -> &'static str {
        match self {
            Unmade::NotLoaded => "A part of the page is missing: open it once with a network, and try again.",
            Unmade::Cannot => "It cannot be made of this plan. Save a file of the plan and send that.",
        }
    }
}

/// The bytes of a workbook, of what `report::book` says.
pub async fn workbook(book: &str) -> Result<Vec<u8>, Unmade> {
    made("workbook", book.as_bytes(), 0).await
}

/// A text as a code that a camera reads: SVG.
pub async fn code(text: &str) -> Result<String, Unmade> {
    String::from_utf8(made("code", text.as_bytes(), 0).await?).map_err(|_| Unmade::Cannot)
}

/// A plan's text packed for a link.
pub async fn pack(text: &str) -> Result<Vec<u8>, Unmade> {
    made("pack", text.as_bytes(), 0).await
}

/// The text again, of `most` bytes at most.
pub async fn unpack(packed: &[u8], most: usize) -> Result<Vec<u8>, Unmade> {
    made("unpack", packed, most).await
}

async fn made(what: &str, given: &[u8], argument: usize) -> Result<Vec<u8>, Unmade> {
    let program = program().await.ok_or(Unmade::NotLoaded)?;
    called(&program, what, given, argument).ok_or(Unmade::Cannot)
}

async fn program() -> Option<JsValue> {
    if let Some(program) = LOADED.with_borrow(Option::clone) {
        return Some(program);
    }
    let program = load().await?;
    LOADED.set(Some(program.clone()));
    Some(program)
}

fn called(program: &JsValue, what: &str, given: &[u8], argument: usize) -> Option<Vec<u8>> {
    let of = |name: &str| Reflect::get(program, &name.into()).ok();
    let call = |name: &str| of(name)?.dyn_into::<Function>().ok();
    // Asked for anew each time: what is made may take more memory, and then the old view holds none.
    let memory = || Some(Uint8Array::new(&of("memory")?.unchecked_into::<WebAssembly::Memory>().buffer()));
    let at = call("room")?.call1(&JsValue::NULL, &(given.len() as f64).into()).ok()?.as_f64()?;
    memory()?.set(&Uint8Array::from(given), at as u32);
    let bytes = call(what)?
        .call1(&JsValue::NULL, &(argument as f64).into())
        .ok()?
        .as_f64()
        .filter(|bytes| *bytes > 0.0)? as u32;
    let from = call("made")?.call0(&JsValue::NULL).ok()?.as_f64()? as u32;
    Some(memory()?.subarray(from, from + bytes).to_vec())
}

async fn load() -> Option<JsValue> {
    let bytes = match document().get_element_by_id("extras") {
        // The page of one file carries it.
        Some(carried) => unpack_own(&STANDARD.decode(carried.text_content()?).ok()?).await?,
        None => {
            let named = document().query_selector("meta[name=extras]").ok()??.get_attribute("content")?;
            let answer = match JsFuture::from(window().fetch_with_str(&named)).await {
                Ok(answer) => answer,
                // On a first visit the worker has kept it already, but does not answer for this page yet.
                Err(_) => JsFuture::from(window().caches().ok()?.match_with_str(&named)).await.ok()?,
            };
            let answer: web_sys::Response = answer.dyn_into().ok()?;
            if !answer.ok() {
                return None;
            }
            Uint8Array::new(&JsFuture::from(answer.array_buffer().ok()?).await.ok()?).to_vec()
        }
    };
    let made = JsFuture::from(WebAssembly::instantiate_buffer(&bytes, &Object::new())).await.ok()?;
    let instance = Reflect::get(&made, &"instance".into()).ok()?;
    Reflect::get(&instance, &"exports".into()).ok()
}
