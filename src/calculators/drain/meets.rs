//! What must never meet in a drain: routes, their streams, and a tank let out into it.

use super::*;
use crate::calculator::{Key, Stop, Work};
use crate::calculators::class_of;
use crate::science::segregation::Class;

/// A water that runs through the drain.
struct Water {
    /// The route, or the stream on one.
    name: Key,
    class: Class,
    is_stream: bool,
}

/// Refuses a drain in which classes would meet that must not.
pub(super) fn refuse(w: &Work) -> Result<(), Stop> {
    let mut waters = Vec::new();
    // The water that a route is there for is in its pipe, whatever leads there today.
    for row in w.rows(ROUTES)? {
        let class = routes::carries(w.word(&row, "kind")?);
        waters.extend(class.map(|class| Water { name: row.key, class, is_stream: false }));
    }
    let streams = routes::liquids(w, STREAMS, "class")?.into_iter();
    waters.extend(streams.map(|(name, class)| Water { name, class, is_stream: true }));
    if w.inputs::<1>(["V_1"])?[0].si > 0.0 {
        let class = class_of(w.word(&w.top(), "class_1")?);
        for other in &waters {
            let tank = ("The tank that may be let out into this drain", class);
            let Some(reason) = routes::conflict(tank, (&other.name, other.class)) else { continue };
            let way = if class == Class::Unknown { "Say its class, or let it out" } else { "Let it out" };
            let remedy = format!("{way} into a drain of its own, with its own trap, vent and end.");
            return Err(Stop::at("class_1", reason, remedy));
        }
    }
    for (k, one) in waters.iter().enumerate() {
        for other in &waters[k + 1..] {
            let pair = [one, other].map(|water| (&*water.name, water.class));
            let Some(reason) = routes::conflict(pair[0], pair[1]) else { continue };
            // The metal and acid routes are the usual ones: the other is the one to part from them.
            let parted = if one.class == Class::Acid { other } else { one };
            let route = if parted.is_stream { "the route of " } else { "" };
            let remedy = format!(
                "Run {route}{} through a drain of its own, with its own trap, vent and end.",
                parted.name
            );
            return Err(Stop::at("q_m", reason, remedy));
        }
    }
    Ok(())
}
