//! DEFLATE undone by the browser's own stream, with a limit on what comes out.

use super::link::most;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::js_sys::{Reflect, Uint8Array};
use web_sys::{ReadableStream, ReadableStreamDefaultReader, WritableStream};

#[wasm_bindgen]
extern "C" {
    // web-sys has it only behind a compiler flag for all of the program.
    type DecompressionStream;
    #[wasm_bindgen(constructor, catch)]
    fn new(form: &str) -> Result<DecompressionStream, JsValue>;
    #[wasm_bindgen(method, getter)]
    fn writable(this: &DecompressionStream) -> WritableStream;
    #[wasm_bindgen(method, getter)]
    fn readable(this: &DecompressionStream) -> ReadableStream;
}

/// Unpacked from a link of version 1; none where it is damaged, or more comes out than a link may hold.
pub async fn unpack(packed: &[u8]) -> Option<Vec<u8>> {
    through(packed, most(packed.len())).await
}

/// Unpacked, of what the page itself carries: without a limit.
pub async fn unpack_own(packed: &[u8]) -> Option<Vec<u8>> {
    through(packed, usize::MAX).await
}

async fn through(bytes: &[u8], most: usize) -> Option<Vec<u8>> {
    let stream = DecompressionStream::new("deflate-raw").ok()?;
    let writer = stream.writable().get_writer().ok()?;
    // These promises fail with the stream, which the reading tells.
    for promise in [writer.write_with_chunk(&Uint8Array::from(bytes)), writer.close()] {
        spawn_local(async move {
            let _ = JsFuture::from(promise).await;
        });
    }
    let reader: ReadableStreamDefaultReader = stream.readable().get_reader().unchecked_into();
    let mut out = Vec::new();
    loop {
        let piece = JsFuture::from(reader.read()).await.ok()?;
        let part = |name: &str| Reflect::get(&piece, &name.into()).ok();
        if part("done")?.is_truthy() {
            return Some(out);
        }
        let piece: Uint8Array = part("value")?.dyn_into().ok()?;
        if out.len() + piece.length() as usize > most {
            let stopped = reader.cancel();
            spawn_local(async move {
                let _ = JsFuture::from(stopped).await;
            });
            return None;
        }
        out.extend(piece.to_vec());
    }
}
