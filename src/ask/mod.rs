//! Questions that any calculator, or any chain of them, can be asked. All are read from the
//! declaration, so a new calculator can be asked them on the day it is written.

mod solve;
mod sweep;
mod gaps;
mod example;

pub use example::self_check;
pub use gaps::gaps;
pub use solve::{Cure, cures, solve};
pub use sweep::{points, sweep};
