//! What anode and cathode do besides: metal that dissolves or is missing, gases, acid.

use super::deposit::{Deposit, Metal};
use super::sum::Day;
use super::{INERT, METHANESULFONIC, SOLUBLE};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::bath_balance::Balance;
use crate::science::faraday::{acid_made, as_metal, equivalent, hydrogen, metal_deposited, oxygen};
use crate::science::formula::Formula;
use crate::units::{DAYS, G_PER_DAY_METAL, G_PER_KAH, KG_METAL, ML, NUMBER, PER_DAY};

/// Metal by metal: what the anode gives, what is missing, as salt, and how long the bath lasts.
pub fn metals(w: &mut Work, deposit: &Deposit, day: &Day) -> Result<(), Stop> {
    let top = w.top();
    let [days] = w.inputs(["days"])?;
    let d_w = w.optional(&top, "d_w")?.unwrap_or(Q::constant("none", 0.0, ML));
    let drag_out = w.answer("D_day", d_w * day.wafers)?;
    if w.optional(&top, "N_o")?.is_some_and(|others| (others.si / day.wafers.si - 1.0).abs() > 1e-9) {
        let text = "The sheet of drag-out counts another number of wafers a day: type this one there too.";
        w.add_finding(&top, "N_o", Severity::Note, text);
    }
    let volume = w.optional(&top, "V")?;
    let anode = if w.word(&top, "anode")? == SOLUBLE { deposit.main() } else { None };
    let silver = deposit.metals.iter().find(|metal| metal.symbol == "Ag");
    if let (Some(anode), Some(silver)) = (anode.filter(|anode| anode.symbol == "Sn"), silver) {
        let text = format!(
            "{}: silver of the bath deposits on {} anodes without current. Inert anodes, or anodes behind a membrane, are common practice.",
            silver.row.key, anode.row.key
        );
        w.add_finding(&silver.row, "m_a", Severity::Caution, text);
    }
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let month = Q::constant("12 months", 12.0, NUMBER);
    for metal in &deposit.metals {
        let row = &metal.row;
        let plated = as_metal(metal.part.share * day.mass) * day.wafers;
        let plated = w.step_in(row, "m_p", "Plated a day", G_PER_DAY_METAL, plated)?;
        let dissolves = if anode.is_some_and(|anode| std::ptr::eq(anode, metal)) {
            dissolved(w, metal, day)?
        } else {
            Q::constant("none", 0.0, G_PER_DAY_METAL)
        };
        let a_month = dissolves * one_day * days / month;
        w.give(row, "m_a", if dissolves.si > 0.0 { a_month } else { Q::constant("none", 0.0, KG_METAL) })?;
        let held = w.optional(row, "c_M")?.filter(|c| c.si > 0.0);
        let missing = match held {
            Some(c) => plated - dissolves + c * drag_out,
            None => plated - dissolves,
        };
        let missing = w.give(row, "m_rep", missing)?;
        salt(w, metal, missing)?;
        if let (Some(v), Some(c)) = (volume, held) {
            w.give(row, "t_o", v * c / plated)?;
            let gained = dissolves - plated;
            let bath = Balance { volume: v, gained, out: drag_out, decay: Q::constant("none", 0.0, PER_DAY) };
            left(w, metal, bath, c)?;
        }
        if missing.si < -0.03 * plated.si {
            let text = format!(
                "{}: the anode gives more than is plated and carried out, so it builds up in the bath. Bleed some, or replace part of the anodes by inert ones.",
                row.key
            );
            w.add_finding(row, "m_rep", Severity::Note, text);
        }
    }
    Ok(())
}

fn dissolved(w: &mut Work, metal: &Metal, day: &Day) -> Result<Q, Stop> {
    let [efficiency] = w.inputs(["η_a"])?;
    let each = equivalent(metal.part.molar_mass, metal.part.electrons).or_stop_row("z", &metal.row.key)?;
    let each = w.step_in(&metal.row, "E", "Mass for a charge", G_PER_KAH, each)?;
    if efficiency.si <= 0.0 {
        return Ok(Q::constant("none", 0.0, G_PER_DAY_METAL));
    }
    // What dissolves without current comes on top: an anode may give more than the charge.
    let mass = if efficiency.si > 1.0 {
        efficiency * day.charge * each
    } else {
        metal_deposited(day.charge, each, efficiency).or_stop("η_a")?
    };
    w.step_in(&metal.row, "m_d", "Dissolves from the anode a day", G_PER_DAY_METAL, as_metal(mass))
}

/// What is missing, as salt.
fn salt(w: &mut Work, metal: &Metal, missing: Q) -> Result<(), Stop> {
    let row = &metal.row;
    let text = w.text(row, "salt")?;
    if text.trim().is_empty() || missing.si < 0.0 {
        return Ok(());
    }
    let share = Formula::read(&text).and_then(|formula| formula.metal_fraction(&metal.symbol));
    match share {
        Ok(share) => {
            w.give(row, "m_salt", missing / share)?;
        }
        // Only the salt is not known then; the plating is.
        Err(refusal) => {
            w.add_finding(
                row,
                "salt",
                Severity::Caution,
                format!("{}: {}: {}.", row.key, refusal.reason, refusal.remedy),
            );
        }
    }
    Ok(())
}

/// What the bath still holds after the days without replenishment.
fn left(w: &mut Work, metal: &Metal, bath: Balance, c: Q) -> Result<(), Stop> {
    let [days] = w.inputs(["t_x"])?;
    match bath.after(c, days) {
        Ok(found) => {
            w.give(&metal.row, "c_x", found)?;
        }
        Err(_) => {
            let key = &metal.row.key;
            let empty = bath.time_to_zero(c).or_stop_row("c_M", key)?;
            let empty = w.style.answer(empty.si, DAYS);
            let text = format!(
                "{key}: without replenishment the bath would be empty of it after {empty}; it plates badly long before."
            );
            w.add_finding(&metal.row, "c_x", Severity::Caution, text);
        }
    }
    Ok(())
}

/// Hydrogen; oxygen and acid of an inert anode.
pub fn gases(w: &mut Work, day: &Day) -> Result<(), Stop> {
    let top = w.top();
    let [hours] = w.inputs(["hours"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    // Rounding alone may put the efficiency of 100 % above it.
    let efficiency = day.efficiency.min(Q::constant("100 %", 100.0, crate::units::PERCENT));
    let made = hydrogen(day.charge, efficiency).or_stop("η")?;
    w.answer("n_H2", made * one_day / hours)?;
    if w.word(&top, "anode")? != INERT {
        return Ok(());
    }
    w.answer("n_O2", oxygen(day.charge) * one_day / hours)?;
    let ions = w.answer("n_acid", acid_made(day.charge, efficiency).or_stop("η")?)?;
    let (formula, protons) =
        if w.word(&top, "acid")? == METHANESULFONIC { ("CH4O3S", 1.0) } else { ("H2SO4", 2.0) };
    let formula = Formula::read(formula).or_stop("acid")?;
    w.answer("m_acid", ions * formula.molar_mass() / protons)?;
    Ok(())
}
