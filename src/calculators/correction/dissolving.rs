//! What does not stay dissolved once a correction is done, and the room that solids take.

use super::sum::Line;
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::calculators::make_up::components::{LIQUID, SOLID};
use crate::calculators::make_up::dissolving::{SURE, is_sulfuric_acid, water_beside};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::metals;
use crate::science::solubility::{counts_acid, solubility};
use crate::units::{CELSIUS, G_PER_L, KG, KG_PER_L, L};

/// Mass of solid that takes a litre of room, kg: half a litre for each kilogram (common practice, no source).
const SOLIDS: f64 = 2.0;
/// The share of the tank up to which the room that solids take is let pass.
const SMALL_PART: f64 = 0.01;
/// A table from memory for water at 20 °C is surely passed from here; a bath may also be run warm.
const SURE_FROM_MEMORY: f64 = 1.3;
/// That of copper sulfate in plain water is good to 2 %.
const SURE_IN_WATER: f64 = 1.05;

/// Finds what is above its solubility at 20 °C in the bath after the correction, and gives the names of these.
/// `ends` is what each line comes to, where it has a result.
pub(super) fn check(w: &mut Work, lines: &[Line], ends: &[Option<Q>]) -> Result<Vec<String>, Stop> {
    let cold = Q::constant("20 °C", 20.0, CELSIUS);
    let mut too_much = Vec::new();
    let acids = || lines.iter().zip(ends).filter(|(line, _)| is_acid(line));
    let none = Q::constant("no acid", 0.0, G_PER_L);
    let acid = acids().filter_map(|(_, end)| *end).reduce(|a, b| a + b).unwrap_or(none);
    let is_uncounted = acids().any(|(_, end)| end.is_none());
    for (line, end) in lines.iter().zip(ends) {
        let key = &*line.row.key;
        let Some((formula, end)) = salt_of(w, line, lines)?.zip(*end).filter(|(_, end)| end.si > 0.0) else {
            continue;
        };
        let share = formula.part_fraction(&metals::symbol_of(key));
        let Some(share) = share.ok().filter(|share| share.si > 0.0) else { continue };
        let salt = end / share;
        let acid = if counts_acid(&formula) { acid } else { none };
        // Where nothing is left for water, far more is wanted than dissolves.
        let parts = match water_beside(salt, &formula, acid) {
            Some(water) => {
                let limit = solubility(&formula, cold, acid / water).or_stop_row("salt", key)?;
                limit.map(|limit| (salt.si / water.si, limit.si))
            }
            None => Some((f64::INFINITY, 0.0)),
        };
        let Some((wanted, limit)) = parts else { continue };
        let filled = if limit > 0.0 { wanted / limit } else { f64::INFINITY };
        if filled < 0.9 {
            continue;
        }
        let (sure, doubt) = match (counts_acid(&formula), acid.si > 0.0) {
            (true, true) => (SURE, "the acid is counted, to about 15 %"),
            (true, false) if is_uncounted => (SURE_IN_WATER, "less in acid, of which there is no result"),
            (true, false) => (SURE_IN_WATER, "from memory; less in acid"),
            _ => (SURE_FROM_MEMORY, "from memory; less in acid, more when warm"),
        };
        let close = if filled > 1.0 { "more than dissolves" } else { "close to what dissolves" };
        let mut text = format!("{key}: {close} in the corrected bath at 20 °C");
        if wanted.is_finite() {
            text += &format!(
                ", {:.0} g of {} for each kilogram of water where about {:.0} g dissolve ({doubt})",
                1000.0 * wanted,
                formula.text(),
                1000.0 * limit
            );
        }
        if filled > 1.0 && filled.is_finite() {
            let stays = w.style.answer(end.si / filled, G_PER_L);
            text += &format!(". Want no more than about {stays} of it");
            text += if acid.si > 0.0 { ", or less acid." } else { "." };
            too_much.push(key.to_string());
        } else if filled > 1.0 {
            text += ". Want less of it.";
            too_much.push(key.to_string());
        } else {
            text += ". It may crystallise when cold.";
        }
        let severity = if filled > sure { Severity::Caution } else { Severity::Note };
        w.add_finding(&line.row, "c_end", severity, text);
    }
    Ok(too_much)
}

fn is_acid(line: &Line) -> bool {
    line.formula.as_ref().is_some_and(is_sulfuric_acid)
        || line.row.key.trim().eq_ignore_ascii_case("sulfuric acid")
}

/// The salt as which a component would fall out, where its solubility is known: what is added of it, and for
/// copper in sulfuric acid the sulfate, however it is added.
fn salt_of(w: &Work, line: &Line, lines: &[Line]) -> Result<Option<Formula>, Stop> {
    let is_listed = |formula: &Formula| {
        let t = Q::constant("20 °C", 20.0, CELSIUS);
        let none = Q::constant("none", 0.0, crate::units::MASS_FRACTION);
        solubility(formula, t, none).is_ok_and(|known| known.is_some())
    };
    if let Some(formula) = line.formula.as_ref().filter(|formula| is_listed(formula)) {
        return Ok(Some(formula.clone()));
    }
    if metals::symbol_of(&line.row.key) != "Cu" {
        return Ok(None);
    }
    let Ok(blue) = Formula::read("CuSO4·5H2O") else { return Ok(None) };
    // The make-up passes on what its solid holds, and not its formula.
    let held = if line.added_as == SOLID { w.optional(&line.row, "x_plan")? } else { None };
    let is_blue = held
        .zip(blue.part_fraction("Cu").ok())
        .is_some_and(|(held, copper)| (held.si / copper.si - 1.0).abs() < 0.01);
    let is_white = line.formula.as_ref().is_some_and(|formula| formula.anhydrous() == blue.anhydrous());
    Ok((is_white || is_blue || lines.iter().any(is_acid)).then_some(blue))
}

/// Room that the solids take themselves, where the balances count none; and a caution where the tank has less.
pub(super) fn room(w: &mut Work, (mark, left): (Q, Q), lines: &[Line], amounts: &[(usize, Q)]) -> Q {
    let is_solid = |of: usize| lines.get(of).is_some_and(|line| line.added_as != LIQUID);
    let none = Q::constant("none", 0.0, KG);
    let solids = amounts.iter().filter(|(of, _)| is_solid(*of)).fold(none, |sum, (_, amount)| sum + *amount);
    let room = solids / Q::constant("ρ_solids", SOLIDS, KG_PER_L);
    if room.si > SMALL_PART * mark.si && room.si > left.si * (1.0 + 1e-9) {
        let (takes, has) = (w.style.answer(room.si, L), w.style.answer(left.si, L));
        let text = format!(
            "The solids take about {takes} themselves (half a litre for each kilogram: common practice, no source), and below the mark there is room for {has}. Choose “{}” under “Draw off first”, and draw off at least {takes}.",
            super::FIXED
        );
        let top = w.top();
        w.add_finding(&top, "V_w", Severity::Caution, text);
    }
    room
}
