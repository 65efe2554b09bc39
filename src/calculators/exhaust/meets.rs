//! What must never meet in one duct.

use super::SHARED;
use crate::calculator::{Stop, Work};
use crate::calculators::{class_of, routes};

/// Refuses a duct in which classes would meet that must not.
pub(super) fn refuse(w: &Work) -> Result<(), Stop> {
    let own = class_of(w.word(&w.top(), "class")?);
    let others = routes::liquids(w, SHARED, "class_s")?;
    for (k, (name, class)) in others.iter().enumerate() {
        let before = others[..k].iter().map(|(name, class)| (&**name, *class));
        for other in std::iter::once(("The exhaust of this bath", own)).chain(before) {
            let Some(reason) = routes::conflict(other, (name, *class)) else { continue };
            let remedy = format!("Give {name} a duct, a fan and a scrubber of its own, or say its class.");
            return Err(Stop::at("class_s", reason, remedy).row(name));
        }
    }
    Ok(())
}
