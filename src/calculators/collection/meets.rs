//! What must never meet in one container: liquids, residues, walls.

use super::*;
use crate::calculator::{Key, Stop, Work};
use crate::calculators::class_of;
use crate::science::segregation::Class;

/// What the route is there for, and the liquids that come.
fn liquids(w: &Work) -> Result<Vec<(Key, Class)>, Stop> {
    let own = routes::own_water(w.word(&w.top(), "kind")?);
    Ok(own.into_iter().chain(routes::liquids(w, STREAMS, "class")?).collect())
}

/// Refuses a container in which classes would meet that must not, or that the liquid eats.
pub(super) fn refuse(w: &Work) -> Result<(), Stop> {
    let (top, all) = (w.top(), liquids(w)?);
    for (k, (name, class)) in all.iter().enumerate() {
        for (other, other_class) in &all[k + 1..] {
            let Some(reason) = routes::conflict((other, *other_class), (name, *class)) else { continue };
            let remedy = format!(
                "Collect {other} in a container of its own, with its own pipe, vent and containment."
            );
            return Err(Stop::at("kind", reason, remedy));
        }
    }
    let before = w.word(&top, "before")?;
    if before != NEW {
        for (name, class) in &all {
            let residue = ("What is left in the container", class_of(before));
            let Some(reason) = routes::conflict(residue, (name, *class)) else { continue };
            return Err(Stop::at("before", reason, "Take a new container."));
        }
    }
    let wall = w.word(&top, "what")?;
    for (name, class) in &all {
        let harm = match (wall, class) {
            (GLASS, Class::Fluoride) => "it eats glass: the bottle leaks",
            (STEEL, Class::Fluoride | Class::Acid | Class::Oxidiser) => {
                "it eats bare steel, gives off gas and comes through the wall"
            }
            _ => continue,
        };
        let reason = format!("{name} ({}) must not go into a {wall}: {harm}", class.name());
        return Err(Stop::at(
            "what",
            reason,
            "Choose a plastic container that its maker lists for this liquid.",
        ));
    }
    Ok(())
}

/// Remarks on classes: a tight cap over what gases, and what nobody knows.
pub(super) fn remarks(w: &mut Work) -> Result<(), Stop> {
    let (top, all) = (w.top(), liquids(w)?);
    let gases = all.iter().find(|(_, class)| *class == Class::Oxidiser);
    if let Some((name, _)) = gases
        && w.word(&top, "cap")? == TIGHT
    {
        let text = format!(
            "{name} gases while it stands: under a tight cap the container bursts. Take a vented cap, to exhaust."
        );
        w.add_finding(&top, "cap", Severity::Serious, text);
    }
    if let Some((name, _)) = all.iter().find(|(_, class)| *class == Class::Unknown) {
        let text = format!(
            "The class of {name} is not known. Find it out before it is collected with anything else."
        );
        w.add_finding(&top, "kind", Severity::Caution, text);
    }
    Ok(())
}
