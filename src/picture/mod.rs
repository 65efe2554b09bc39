//! Pictures as models that any painter can draw: they know the answers, and nothing of the browser.
//!
//! - [`flows`]: what leaves the baths and by which way, read from the sheets' answers.
//! - [`map`]: the line map: boxes, lines with a width to scale, and where they stand.

pub mod flows;
pub mod map;
