//! What leaves the bath with the air: hydrogen, vapours, water.

use super::sum::Drawn;
use super::{A_VAPOUR, ALL_CURRENT, BY_SHARE, HCN, VAPOURS};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::calculators::class_of;
use crate::quantity::Q;
use crate::science::air;
use crate::science::faraday::hydrogen_of_share;
use crate::science::formula::Formula;
use crate::science::gas::actual_flow;
use crate::science::regulation::{HCN_8_H_PPM, HCN_SHORT_PPM};
use crate::science::segregation::Class;
use crate::science::ventilation::{air_for_share, dilution_flow, mass_in_air, never_diluted};
use crate::units::{KG_PER_H, KPA, L_PER_H, NUMBER, PERCENT};

/// Air that dilution would take, beside what is drawn off.
pub fn hydrogen_and_vapours(w: &mut Work, drawn: &Drawn) -> Result<(), Stop> {
    let mut all = Vec::new();
    all.extend(hydrogen(w, drawn)?);
    for row in w.rows(VAPOURS)? {
        all.push(vapour(w, &row, drawn)?);
    }
    if all.is_empty() {
        return Ok(());
    }
    // Vapours that act alike add up; which do not, a hygienist knows.
    let all = w.answer("Q_d", all.into_iter().sum())?;
    w.answer("Q_spare", drawn.mean - all)?;
    Ok(())
}

fn hydrogen(w: &mut Work, drawn: &Drawn) -> Result<Option<Q>, Stop> {
    let top = w.top();
    let [limit, mixing] = w.inputs(["y_H", "K"])?;
    let made = if w.word(&top, "h2")? == ALL_CURRENT {
        let Some(current) = w.optional(&top, "I")? else { return Ok(None) };
        hydrogen_of_share(current, Q::constant("all", 100.0, PERCENT)).or_stop("I")?
    } else {
        let Some(made) = w.optional(&top, "n_H2")? else { return Ok(None) };
        made
    };
    let made = w.answer("n_h", made)?;
    let litres = actual_flow(made, drawn.t, drawn.p).or_stop("T_room")?;
    let litres = w.step("q_h", "Hydrogen in the room’s air", L_PER_H, litres)?;
    let air = mixing * air_for_share(litres, limit).or_stop("y_H")?;
    Ok(Some(w.answer("Q_H", air)?))
}

fn vapour(w: &mut Work, row: &Row, drawn: &Drawn) -> Result<Q, Stop> {
    let key = &row.key;
    let formula = w.text(row, "formula")?;
    let formula = if formula.trim().is_empty() {
        None
    } else {
        Some(Formula::read(&formula).or_stop_row("formula", key)?)
    };
    refuse_what_kills(w, row, formula.as_ref())?;
    let limit = if w.word(row, "as")? == BY_SHARE {
        let Some(formula) = &formula else {
            let reason =
                format!("A limit in ppm of {key} becomes a mass by its formula, which is still to be typed");
            return Err(Stop::todo("formula", reason, "Type it, or the limit by mass.").row(key));
        };
        let [share] = w.of(row, ["C_y"])?;
        mass_in_air(share, formula.molar_mass(), drawn.t, drawn.p).or_stop("T_room")?
    } else {
        w.of::<1>(row, ["C_m"])?[0]
    };
    let limit = w.give(row, "C", limit)?;
    let [given, incoming] = w.of(row, ["G", "C_0"])?;
    let [mixing] = w.inputs(["K"])?;
    let air = dilution_flow(given, limit, incoming, mixing).or_stop_row("C_0", key)?;
    w.give(row, "Q_v", air)
}

/// Dilution is no answer to what kills at little: it is refused, by its word, its formula, or the bath's class.
fn refuse_what_kills(w: &Work, row: &Row, formula: Option<&Formula>) -> Result<(), Stop> {
    let key = &row.key;
    let what = w.word(row, "what")?;
    let named = match formula {
        _ if what != A_VAPOUR => Some(what),
        Some(formula) => never_diluted(formula),
        None => None,
    };
    if let Some(name) = named {
        let limits = if name == HCN {
            format!(" Its limits are {HCN_8_H_PPM} ppm over 8 h and {HCN_SHORT_PPM} ppm over 15 minutes.")
        } else {
            String::new()
        };
        let reason = format!("{key}: {name} is never left to dilution, it harms or kills at little.{limits}");
        let remedy = "Capture it in an enclosure with a scrubber, a gas alarm and an interlock that a licensed person designs, and take this row away.";
        return Err(Stop::at("what", reason, remedy).row(key));
    }
    let class = class_of(w.word(&w.top(), "class")?);
    if formula.is_none() && [Class::Cyanide, Class::Fluoride].contains(&class) {
        let reason =
            format!("{key}: over a {} bath a vapour without its formula may be one that kills", class.name());
        return Err(Stop::at("formula", reason, "Type its formula.").row(key));
    }
    Ok(())
}

/// Whether what evaporates drips in the duct.
pub fn water(w: &mut Work, drawn: &Drawn) -> Result<(), Stop> {
    let top = w.top();
    let [humidity] = w.inputs(["RH"])?;
    let Some(evaporates) = w.optional(&top, "w")?.filter(|_| drawn.mean.si > 0.0) else { return Ok(()) };
    // Below freezing, and where the bath takes more water than the air has, there is no dew point to tell.
    let (Ok(vapour), Ok(x)) =
        (air::vapour_pressure(drawn.t, humidity), air::humidity_ratio(drawn.t, humidity, drawn.p))
    else {
        return Ok(());
    };
    let vapour = w.step("p_a", "Pressure of water vapour in the room", KPA, vapour)?;
    let dry = air::density(drawn.t, drawn.p - vapour).or_stop("T_room")? * drawn.mean;
    let dry = w.step("m_a", "Dry air drawn off", KG_PER_H, dry)?;
    let x = w.step("x_r", "Water in the room’s air", NUMBER, x)?;
    let x = w.step("x_d", "Water in the air of the duct", NUMBER, x + evaporates / dry)?;
    if x.si <= 0.0 {
        return Ok(());
    }
    let Ok(dew) = air::dew_point_of(x, drawn.p) else { return Ok(()) };
    w.answer("T_dew", dew)?;
    w.at_most(
        &top,
        "T_dew",
        drawn.t,
        Severity::Caution,
        "That is the room’s own temperature: the duct drips, so it falls to a drain and bears what the bath gives off.",
    );
    Ok(())
}
