//! The second program of the page (`extras/`): loaded when a workbook, a link or its code is wanted, and then kept. It has no
//! bridge of its own: what it is given is written into its memory, and what it made is read from there.

use crate::keep::pack;
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

/// The bytes of a workbook, of what `report::book` says; none where the program cannot be loaded.
pub async fn workbook(book: &str) -> Option<Vec<u8>> {
    made("workbook", book.as_bytes(), 0).await
}

/// A text as a code that a camera reads: SVG.
pub async fn code(text: &str) -> Option<String> {
    String::from_utf8(made("code", text.as_bytes(), 0).await?).ok()
}

/// A plan's text packed for a link.
pub async fn pack(text: &str) -> Option<Vec<u8>> {
    made("pack", text.as_bytes(), 0).await
}

/// The text again, of `most` bytes at most. None where the program cannot be loaded; within, none where it is damaged.
pub async fn unpack(packed: &[u8], most: usize) -> Option<Option<Vec<u8>>> {
    program().await?;
    Some(made("unpack", packed, most).await)
}

async fn program() -> Option<JsValue> {
    if let Some(program) = LOADED.with_borrow(Option::clone) {
        return Some(program);
    }
    let program = load().await?;
    LOADED.set(Some(program.clone()));
    Some(program)
}

async fn made(what: &str, given: &[u8], argument: usize) -> Option<Vec<u8>> {
    let program = program().await?;
    let of = |name: &str| Reflect::get(&program, &name.into()).ok();
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
        Some(carried) => pack::unpack_own(&STANDARD.decode(carried.text_content()?).ok()?).await?,
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
