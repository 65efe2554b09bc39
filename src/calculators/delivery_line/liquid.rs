//! What flows in the line: density and viscosity, and what it must not meet.

use super::*;
use crate::calculator::{Refuse, Stop, Work};
use crate::calculators::{class_of, routes};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::line::Liquid;
use crate::science::segregation::Class;
use crate::science::{Refusal, solutions, water};
use crate::units::KG_PER_M3;

/// Refuses a liquid that must not meet the bath at the end of the line; remarks on one that heats there, that is
/// brought there on purpose though it gives off gas, or that nobody knows.
pub(super) fn check(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [liquid, bath] = [w.word(&top, "class")?, w.word(&top, "class_b")?].map(class_of);
    let named = ("The liquid of this line", liquid);
    if let Some(reason) = routes::bath_conflict(named, bath) {
        let (at, remedy) = match (liquid, bath) {
            (Class::Unknown, _) => ("class", "Say what the line carries.".into()),
            (_, Class::Unknown) => ("class_b", "Say the class of the bath.".into()),
            _ if routes::is_made_with(liquid, bath) => {
                let name = liquid.name();
                (
                    "class",
                    format!(
                        "Bring it to no bath of that class. One that is made with it on purpose, under exhaust, has the class {name}."
                    ),
                )
            }
            _ => ("class", "Bring this liquid to no bath of that class.".into()),
        };
        return Err(Stop::at(at, reason, remedy));
    }
    let text = match (liquid, bath) {
        (Class::Acid, Class::Alkaline) | (Class::Alkaline, Class::Acid) => {
            routes::acid_with_alkaline("Acid and alkaline meet where this line ends")
        }
        (Class::Unknown, _) => {
            "What this line carries is not known: say it before it is led to any bath.".into()
        }
        _ => match routes::conflict(named, ("the bath", bath)) {
            Some(reason) => {
                format!(
                    "{reason}. It is right only in a bath that is made so on purpose, under its own exhaust."
                )
            }
            None => return Ok(()),
        },
    };
    w.add_finding(&top, "class", Severity::Caution, text);
    Ok(())
}

/// Its density and viscosity, as typed or by published fits.
pub(super) fn of(w: &mut Work) -> Result<Liquid, Stop> {
    let top = w.top();
    if w.word(&top, "by")? == TYPED {
        let [rho, mu] = w.inputs(["ρ", "μ"])?;
        return Ok(Liquid { rho, mu });
    }
    let [t] = w.inputs(["T"])?;
    let name = w.word(&top, "sub")?;
    let (rho, mu) = if name == WATER {
        (water::density(t).or_stop("T")?, water::viscosity(t).or_stop("T")?)
    } else {
        let [strength] = w.inputs(["w_s"])?;
        let formula = SUBSTANCES.iter().find(|(known, _)| *known == name).map_or("", |(_, formula)| *formula);
        let solute = Formula::read(formula).ok().and_then(|formula| solutions::solute(&formula));
        let solute = solute.ok_or_else(|| Stop::fault(format!("{name} is no known solute")))?;
        let parts = [(solute, strength)];
        // What lies beyond a fit is typed: the other choice asks for it.
        let typed = |refusal: Refusal| {
            let (reason, _) = refusal.into_words();
            Stop::at("by", reason, "Type density and viscosity from the data sheet.")
        };
        (solutions::density(&parts, t).map_err(typed)?, solutions::viscosity(&parts, t).map_err(typed)?)
    };
    let rho = w.step("ρ_s", "Density of the liquid", KG_PER_M3, rho)?;
    let mu = w.step("μ_s", "Viscosity of the liquid", MPAS, mu)?;
    Ok(Liquid { rho, mu })
}

/// Water at 20 °C, to compare with.
pub(super) fn water() -> Result<Liquid, Stop> {
    let t = Q::constant("20 °C", 20.0, CELSIUS);
    Ok(Liquid { rho: water::density(t).or_stop("T")?, mu: water::viscosity(t).or_stop("T")? })
}
