//! DEFLATE by the browser's own streams, with a limit on what comes out.

use super::link::may_grow_to;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::{Reflect, Uint8Array};
use web_sys::{ReadableStream, ReadableStreamDefaultReader, WritableStream};

const FORM: &str = "deflate-raw";

#[wasm_bindgen]
extern "C" {
    // web-sys has these only behind a compiler flag for all of the program.
    type CompressionStream;
    #[wasm_bindgen(constructor, catch)]
    fn new(form: &str) -> Result<CompressionStream, JsValue>;
    #[wasm_bindgen(method, getter)]
    fn writable(this: &CompressionStream) -> WritableStream;
    #[wasm_bindgen(method, getter)]
    fn readable(this: &CompressionStream) -> ReadableStream;

    type DecompressionStream;
    #[wasm_bindgen(constructor, catch)]
    fn new(form: &str) -> Result<DecompressionStream, JsValue>;
    #[wasm_bindgen(method, getter)]
    fn writable(this: &DecompressionStream) -> WritableStream;
    #[wasm_bindgen(method, getter)]
    fn readable(this: &DecompressionStream) -> ReadableStream;
}

/// Packed; none where the browser has no such stream.
pub async fn pack(bytes: &[u8]) -> Option<Vec<u8>> {
    let stream = CompressionStream::new(FORM).ok()?;
    through(bytes, &stream.writable(), &stream.readable(), |_| true).await
}

/// Unpacked; none where it is damaged, or more comes out than [`may_grow_to`] allows.
pub async fn unpack(packed: &[u8]) -> Option<Vec<u8>> {
    let stream = DecompressionStream::new(FORM).ok()?;
    let within = |size| may_grow_to(size, packed.len());
    through(packed, &stream.writable(), &stream.readable(), within).await
}

/// Unpacked, of what the page itself carries: without a limit.
pub async fn unpack_own(packed: &[u8]) -> Option<Vec<u8>> {
    let stream = DecompressionStream::new(FORM).ok()?;
    through(packed, &stream.writable(), &stream.readable(), |_| true).await
}

async fn through(
    bytes: &[u8],
    entry: &WritableStream,
    exit: &ReadableStream,
    within: impl Fn(usize) -> bool,
) -> Option<Vec<u8>> {
    let writer = entry.get_writer().ok()?;
    // These promises fail with the stream, which the reading tells.
    for promise in [writer.write_with_chunk(&Uint8Array::from(bytes)), writer.close()] {
        spawn_local(async move {
            let _ = JsFuture::from(promise).await;
        });
    }
    let reader: ReadableStreamDefaultReader = exit.get_reader().unchecked_into();
    let mut out = Vec::new();
    loop {
        let piece = JsFuture::from(reader.read()).await.ok()?;
        let part = |name: &str| Reflect::get(&piece, &name.into()).ok();
        if part("done")?.is_truthy() {
            return Some(out);
        }
        let piece: Uint8Array = part("value")?.dyn_into().ok()?;
        if !within(out.len() + piece.length() as usize) {
            let stopped = reader.cancel();
            spawn_local(async move {
                let _ = JsFuture::from(stopped).await;
            });
            return None;
        }
        out.extend(piece.to_vec());
    }
}
