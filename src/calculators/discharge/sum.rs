//! What arrives at a discharge, and the limits that it is held to.

use super::{ELSEWHERE, IN_ORDER, POINT};
use crate::calculator::Severity::{Caution, Note, Serious};
use crate::calculator::{Row, Stop, Work};
use crate::calculators::{class_of, routes, rules, treated};
use crate::quantity::Q;
use crate::science::metals;
use crate::science::neutralisation::{ph_of_strong, strong_acid_at};
use crate::science::regulation::{Rule, SEWER_LEAST_FLASH_POINT_C, limit_on};
use crate::science::segregation::Class;
use crate::units::{CELSIUS, DAYS, G_PER_DAY_METAL, L_PER_DAY, MG_PER_L_METAL};

/// The metals that “total metals” of 40 CFR 413 counts: from memory.
const TOTAL_METALS: [&str; 4] = ["Cu", "Ni", "Cr", "Zn"];

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let is_point = w.word(&top, "what")? == POINT;
    let rule = if is_point { Some(rules::chosen(w)?) } else { None };
    let streams = w.rows("streams")?;
    refuse_what_must_not_meet(w)?;
    let [volume, days] = w.inputs(["Q", "days"])?;
    let volume = w.answer("Q_day", volume)?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let year = w.answer("t_y", days * one_day)?;
    for row in &streams {
        look_at(w, row, is_point)?;
    }
    if is_point {
        mixed_ph(w, &streams)?;
    }

    let none = || Q::constant("none", 0.0, MG_PER_L_METAL);
    let mut sum = Q::constant("none", 0.0, G_PER_DAY_METAL);
    let (mut four, mut goes_by_rule) = ((none(), none()), false);
    for row in w.rows(metals::TABLE)? {
        let [m, m_p, more] = w.of(&row, ["m", "m_p", "Q_e"])?;
        sum = sum + m;
        let at_peak = volume + more;
        let mean = w.give(&row, "c_m", if volume.si > 0.0 { m / volume } else { none() })?;
        // The peak day is never weaker than the mean.
        let peak = if at_peak.si > 0.0 { (m_p / at_peak).max(mean) } else { none() };
        let peak = w.give(&row, "c_p", peak)?;
        w.give(&row, "m_y", m * year)?;
        if TOTAL_METALS.contains(&&*row.key) {
            four = (four.0 + peak, four.1 + mean);
        }
        if let Some(rule) = rule {
            goes_by_rule |= rules::hold_to_limits(w, &row, rule, ["c_p", "c_m"])?;
        }
    }
    let sum = w.answer("m_T", sum)?;
    w.answer("c_T", if volume.si > 0.0 { sum / volume } else { none() })?;
    if let Some(rule) = rule {
        total_metals(w, rule, four)?;
        rules::explain(w, rule, goes_by_rule, volume);
    }
    Ok(())
}

/// Streams that must never meet are refused, not added up.
fn refuse_what_must_not_meet(w: &Work) -> Result<(), Stop> {
    let streams = routes::liquids(w, "streams", "class")?;
    for (k, (name, class)) in streams.iter().enumerate() {
        for (other, other_class) in &streams[k + 1..] {
            if let Some(reason) = routes::conflict((name, *class), (other, *other_class)) {
                let remedy = format!("Lead {name} elsewhere, with its own pipe, vent and container.");
                return Err(Stop::at("what", reason, remedy));
            }
        }
    }
    Ok(())
}

/// What does not belong in a sewer, whatever its metals.
fn look_at(w: &mut Work, row: &Row, is_point: bool) -> Result<(), Stop> {
    let name = row.key.to_string();
    let class = class_of(w.word(row, "class")?);
    let (severity, text) = match (w.word(row, "kind")?, class) {
        _ if !is_point => return w.say(row, "goes", IN_ORDER),
        (treated::SPENT, _) => (
            Serious,
            format!(
                "{name} holds in strong acid all that the resin held. Lead it to a container: thinned with treated water it is dilution in place of treatment, 40 CFR 433.15(c)."
            ),
        ),
        (treated::SLUDGE, _) => {
            (Serious, format!("{name} is solid waste and no water: lead it to a container."))
        }
        (_, Class::Solvent) => (
            Serious,
            format!(
                "{name} holds solvents: nothing with a flash point below {SEWER_LEAST_FLASH_POINT_C} °C may go to a public sewer, 40 CFR 403.5(b)(1). Lead it to a container."
            ),
        ),
        (_, Class::Unknown) => (Note, format!("{name}: its class is not known. Choose it on its own sheet.")),
        _ => return w.say(row, "goes", IN_ORDER),
    };
    w.say(row, "goes", if severity == Serious { ELSEWHERE } else { IN_ORDER })?;
    w.add_finding(row, "goes", severity, text);
    Ok(())
}

/// pH of the mix where that of every stream is known: strong acid and base alone, activities counted.
fn mixed_ph(w: &mut Work, streams: &[Row]) -> Result<(), Stop> {
    let (mut all, mut acid) = (Q::constant("0", 0.0, L_PER_DAY), None);
    let warm = Q::constant("25 °C", 25.0, CELSIUS);
    for row in streams {
        let [volume] = w.of(row, ["Q_s"])?;
        let Some(ph) = w.optional(row, "pH_s")? else { return Ok(()) };
        let held = match strong_acid_at(ph, warm) {
            Ok(held) => held * volume,
            Err(refusal) => {
                w.add_finding(row, "pH_s", Note, refusal.text());
                return Ok(());
            }
        };
        all = all + volume;
        acid = Some(acid.map_or(held, |acid: Q| acid + held));
    }
    let Some(acid) = acid.filter(|_| all.si > 0.0) else { return Ok(()) };
    match ph_of_strong(acid / all, warm) {
        Ok(ph) => w.answer("pH_m", ph).map(drop),
        Err(refusal) => {
            w.add_finding(&w.top(), "pH_m", Note, refusal.text());
            Ok(())
        }
    }
}

/// The sum of four metals that a larger job shop is held to as well.
fn total_metals(w: &mut Work, rule: Rule, (peak, mean): (Q, Q)) -> Result<(), Stop> {
    let Some(limit) = limit_on(rule, "total metals") else { return Ok(()) };
    let top = w.top();
    let constant = |number: f64| Q::constant("limit", number, MG_PER_L_METAL);
    w.answer("c_4", peak)?;
    w.answer("c_4m", mean)?;
    w.at_most(
        &top,
        "c_4",
        constant(limit.daily),
        Caution,
        "That is the published daily limit on total metals.",
    );
    if let Some(average) = limit.average {
        let why = "That is the published limit on the average of total metals.";
        w.at_most(&top, "c_4m", constant(average), Caution, why);
    }
    Ok(())
}
