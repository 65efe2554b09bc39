//! The code of a link: squares that a camera reads.

use qrcodegen::{QrCode, QrCodeEcc};

/// The longest text that fits, in bytes: version 40 at the lowest level of error correction.
/// Source: ISO/IEC 18004:2015, table 7.
pub const LONGEST: usize = 2953;

/// The clear border that a reader needs, in squares. Source: ISO/IEC 18004:2015, section 5.3.8.
const BORDER: i32 = 4;

/// A text as a code, drawn as SVG in black on white, or `None` if it does not fit.
pub fn svg(text: &str) -> Option<String> {
    let code = QrCode::encode_text(text, QrCodeEcc::Low).ok()?;
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let run = (x..code.size()).take_while(|x| code.get_module(*x, y)).count() as i32;
            if run > 0 {
                path += &format!("M{} {}h{run}v1h-{run}z", x + BORDER, y + BORDER);
            }
            x += run.max(1);
        }
    }
    let size = code.size() + 2 * BORDER;
    Some(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {size} {size}\" shape-rendering=\"crispEdges\">\
         <path fill=\"#fff\" d=\"M0 0h{size}v{size}h-{size}z\"/><path d=\"{path}\"/></svg>"
    ))
}
