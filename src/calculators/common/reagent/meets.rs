//! What a route carries, held against the reagent: what must not meet is refused.

use super::ARRIVING;
use crate::calculator::{Key, Stop, Work};
use crate::calculators::common::routes;
use crate::science::segregation::{Class, acid_frees, must_not_meet};

/// What the route carries, by what it is for and by what arrives; unknown where nobody says it.
fn carried(w: &Work) -> Result<Vec<(Key, Class)>, Stop> {
    let kind = w.word(&w.top(), "kind_r")?;
    let route = |class| (format!("the route “{kind}”").into(), class);
    let own = routes::carries(kind).map(route);
    let mut carried: Vec<_> = own.into_iter().chain(routes::liquids(w, ARRIVING, "class_s")?).collect();
    if carried.is_empty() {
        carried.push(route(Class::Unknown));
    }
    Ok(carried)
}

/// Whether a class is among what the route carries.
pub fn carries(w: &Work, class: Class) -> Result<bool, Stop> {
    Ok(carried(w)?.iter().any(|(_, carried)| *carried == class))
}

/// Refuses a reagent of a class that must not meet what the route carries.
pub fn refuse_what_must_not_meet(w: &Work, adds: Class) -> Result<(), Stop> {
    for (name, class) in carried(w)? {
        let found = match adds {
            Class::Acid => acid_frees(class),
            _ => must_not_meet(class, adds).map(|conflict| (conflict.consequence, conflict.source)),
        };
        let Some((consequence, source)) = found else { continue };
        let reason =
            format!("no {} is added to {name} ({}): {consequence} ({source})", adds.name(), class.name());
        let remedy = "Nothing is worked out for this. Treat it apart, by a treatment made for its class; a licensed person decides.";
        return Err(Stop::at("kind_r", reason, remedy));
    }
    Ok(())
}
