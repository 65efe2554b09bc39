//! What Bathbook's page loads only when it is wanted, since it is larger than its use: the workbook of
//! results ([`workbook`]), links ([`packed`]) and their code ([`code`]). Plain data goes in, bytes come out; nothing of the
//! browser is used, so that the page needs no bridge for it: it writes into the memory at [`room`], calls, and
//! reads what stands at [`made`].

pub mod code;
pub mod packed;
pub mod workbook;

use std::sync::{Mutex, MutexGuard, PoisonError};

/// What was handed over, and what was made of it.
struct Desk {
    given: Vec<u8>,
    made: Vec<u8>,
}

static DESK: Mutex<Desk> = Mutex::new(Desk { given: Vec::new(), made: Vec::new() });

fn desk() -> MutexGuard<'static, Desk> {
    DESK.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Makes room for so many bytes to be handed over, and says where.
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    let mut desk = desk();
    desk.given = vec![0; bytes];
    desk.given.as_mut_ptr()
}

/// Where stands what was made last.
#[unsafe(no_mangle)]
pub extern "C" fn made() -> *const u8 {
    desk().made.as_ptr()
}

/// Makes a workbook of the JSON handed over: how many bytes it has, or -1 if it cannot be made.
#[unsafe(no_mangle)]
pub extern "C" fn workbook() -> i32 {
    make(|given| workbook::of(std::str::from_utf8(given).ok()?))
}

/// Makes a code of the text handed over, as SVG: how many bytes it has, or -1 if it does not fit.
#[unsafe(no_mangle)]
pub extern "C" fn code() -> i32 {
    make(|given| code::svg(std::str::from_utf8(given).ok()?).map(String::into_bytes))
}

/// Packs the text handed over: how many bytes that takes, or -1 if it cannot be packed.
#[unsafe(no_mangle)]
pub extern "C" fn pack() -> i32 {
    make(packed::pack)
}

/// Unpacks what was handed over: how many bytes come out, or -1 if it is damaged or they are more than `most`.
#[unsafe(no_mangle)]
pub extern "C" fn unpack(most: usize) -> i32 {
    make(|given| packed::unpack(given, most))
}

fn make(of: impl FnOnce(&[u8]) -> Option<Vec<u8>>) -> i32 {
    let mut desk = desk();
    let made = of(&desk.given);
    // What was handed over is not wanted any more.
    desk.given = Vec::new();
    desk.made = made.unwrap_or_default();
    match i32::try_from(desk.made.len()) {
        Ok(bytes) if bytes > 0 => bytes,
        _ => -1,
    }
}
