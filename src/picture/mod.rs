//! Pictures: models that know no browser, and the painter that puts them on a canvas.

pub mod axis;
pub mod chart;
mod chart_file;
mod svg;
pub mod of_sheet;
pub mod flows;
pub mod map;
#[cfg(target_arch = "wasm32")]
mod fine;
#[cfg(target_arch = "wasm32")]
pub mod canvas;

pub use axis::{Axis, Tick};
pub use chart::{Chart, Curve, Frame};
