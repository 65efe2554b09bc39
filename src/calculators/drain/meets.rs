//! What must never meet in a drain: routes, their streams, and a tank let out into it.

use super::*;
use crate::calculator::{Stop, Work};
use crate::calculators::class_of;
use crate::science::segregation::Class;

/// Refuses a drain in which classes would meet that must not.
pub(super) fn refuse(w: &Work) -> Result<(), Stop> {
    // The water that a route is there for is in its pipe, whatever leads there today.
    let mut waters = Vec::new();
    for row in w.rows(ROUTES)? {
        let kind = w.word(&row, "kind")?;
        waters.extend(routes::carries(kind).map(|class| (row.key.to_string(), class, row.key.to_string())));
    }
    for row in w.rows(STREAMS)? {
        let class = class_of(w.word(&row, "class")?);
        waters.push((row.key.to_string(), class, format!("the route of {}", row.key)));
    }
    if w.inputs::<1>(["V_1"])?[0].si > 0.0 {
        let class = class_of(w.word(&w.top(), "class_1")?);
        for (other, other_class, _) in &waters {
            let tank = ("The tank that may be let out into this drain", class);
            let Some(reason) = routes::conflict(tank, (other, *other_class)) else { continue };
            let class = if class == Class::Unknown { "Say its class, or let it out" } else { "Let it out" };
            let remedy = format!("{class} into a drain of its own, with its own trap, vent and end.");
            return Err(Stop::at("class_1", reason, remedy));
        }
    }
    for (k, one) in waters.iter().enumerate() {
        for other in &waters[k + 1..] {
            let Some(reason) = routes::conflict((&one.0, one.1), (&other.0, other.1)) else { continue };
            // The metal and acid routes are the usual ones: the other is the one to part from them.
            let parted = if one.1 == Class::Acid { &other.2 } else { &one.2 };
            let remedy = format!("Run {parted} through a drain of its own, with its own trap, vent and end.");
            return Err(Stop::at("q_m", reason, remedy));
        }
    }
    Ok(())
}
