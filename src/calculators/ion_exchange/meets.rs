//! What must not reach a resin: refused, not worked out.

use super::{ANION, BEHIND, EXCHANGE, FILTER, HERE, HYDROGEN, STREAMS, YES};
use crate::calculator::Severity::Caution;
use crate::calculator::{Stop, Work};
use crate::calculators::routes;
use crate::science::segregation::{Class, must_not_meet};
use crate::units::MG_PER_L;

/// More suspended solids than this clog a bed, in mg/L: from memory.
const MOST_SOLIDS: f64 = 5.0;

/// Refuses what attacks a resin, what a resin turns into a poison, and what clogs it.
pub(super) fn refuse(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    if w.word(&top, "ox")? == YES {
        return Err(oxidiser("ox", "This water"));
    }
    let kind = w.word(&top, "kind")?;
    let own = routes::carries(kind).map(|class| ("The water of this route".into(), class));
    let held: Vec<_> = own.into_iter().chain(routes::liquids(w, STREAMS, "class")?).collect();
    let is_anion = w.word(&top, "resin")? == ANION;
    let makes_acid = !is_anion && w.word(&top, "form")? == HYDROGEN;
    let is_regenerated = w.word(&top, "service")? == HERE;
    for (name, class) in &held {
        let acid = must_not_meet(*class, Class::Acid).map_or("", |conflict| conflict.consequence);
        match class {
            Class::Oxidiser => return Err(oxidiser("kind", name)),
            Class::Solvent => {
                let reason = format!("{name} holds solvents, which swell resin and burn");
                return Err(Stop::at("kind", reason, "Lead them to a route of their own."));
            }
            Class::Unknown => {
                let reason =
                    format!("the class of {name} is not known, and oxidisers or cyanide on resin can kill");
                return Err(Stop::at("kind", reason, "Choose its class on its own sheet."));
            }
            Class::Cyanide if !is_anion => {
                let reason = format!(
                    "{name} holds cyanide: its metal is in a complex that only strong base resin holds, and other resins make acid of it, which gives {acid}"
                );
                return Err(Stop::at("resin", reason, "Take strong base resin, or another way to treat it."));
            }
            _ if is_regenerated && !acid.is_empty() => {
                let reason =
                    format!("{name} ({}) and the acid of a regeneration must not meet: {acid}", class.name());
                return Err(Stop::at("service", reason, format!("Choose “{EXCHANGE}”.")));
            }
            _ if makes_acid && !acid.is_empty() => {
                let reason =
                    format!("{name} ({}) must not run through resin that makes acid: {acid}", class.name());
                return Err(Stop::at("form", reason, "Take the resin as sodium."));
            }
            Class::Ammonia => {
                let text = format!(
                    "{name}: metal in a complex may not bind to the resin. Test a column with this water."
                );
                w.add_finding(&top, "kind", Caution, text);
            }
            _ => (),
        }
    }
    if is_anion && is_regenerated {
        let reason = "regeneration of strong base resin is not worked out here, and never with acid where there was cyanide";
        return Err(Stop::at("service", reason, format!("Choose “{EXCHANGE}”.")));
    }
    let is_behind = w.word(&top, "behind")? == BEHIND;
    let left = if is_behind { w.optional(&top, "s_c")? } else { None };
    let solids = w.optional(&top, "ss")?.or(left);
    let is_filtered = w.word(&top, "filter")? == FILTER;
    if is_behind && solids.is_none() && !is_filtered {
        let text =
            "A precipitation leaves solids that clog a bed: type them, or put a filter before the column.";
        w.add_finding(&top, "ss", Caution, text);
    }
    if let Some(solids) = solids.filter(|solids| solids.number(MG_PER_L) > MOST_SOLIDS)
        && !is_filtered
    {
        let shown = w.style.answer(solids.si, MG_PER_L);
        let reason = format!("{shown} of suspended solids clog the bed within days");
        return Err(Stop::at("filter", reason, "Put a filter before the column."));
    }
    Ok(())
}

fn oxidiser(at: &'static str, name: &str) -> Stop {
    let reason = format!(
        "{name} holds an oxidiser: nitric acid, peroxide, persulfate and chlorine break resin down, and with strong acid it can burst and burn"
    );
    Stop::at(at, reason, "Lead it past the column, on a route of its own, or destroy it first.")
}
