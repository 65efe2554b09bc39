//! What becomes of a full bed: exchange service, or regenerant and rinses.

use super::{EXCHANGE, H2SO4, HCL, OTHERS};
use crate::calculator::Severity::Caution;
use crate::calculator::{Refuse, Row, Stop, Work};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::ion_exchange::{mass_of_equivalents, regeneration_time, regeneration_waste};
use crate::units::{DAYS, G_PER_DAY_METAL};

/// A metal that is held: its row, and how much a day.
pub(super) type Held = (Row, Q);

/// Changes, what they cost, and where the metal goes. `days` of service from change to change.
pub(super) fn after(w: &mut Work, held: &[Held], bed: Q, capacity: Q, days: Q) -> Result<(), Stop> {
    let top = w.top();
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let [year] = w.inputs(["days"])?;
    let changes = w.answer("n_y", year * one_day / days)?;
    w.answer("V_y", changes * bed)?;
    for (row, m) in held {
        w.give(row, "m_b", *m * days)?;
    }
    if w.word(&top, "service")? == EXCHANGE {
        for (row, m) in held {
            w.give(row, "m_x", *m)?;
        }
        if let Some(price) = w.optional(&top, "p_x")? {
            w.answer("K_y", changes * price)?;
        }
        return Ok(());
    }
    let [b_r, s_r, b_1, b_2, s_2, level] = w.inputs(["b_r", "s_r", "b_1", "b_2", "s_2", "λ"])?;
    let spent = w.answer("V_s", regeneration_waste(bed, &[b_r, b_1, b_2]))?;
    w.answer("Q_s", spent / days)?;
    w.answer("t_s", regeneration_time(&[(b_r + b_1, s_r), (b_2, s_2)]).or_stop("s_r")?)?;
    let acid = w.word(&top, "acid")?;
    let molar_mass = Formula::read(if acid == HCL { "HCl" } else { "H2SO4" }).or_stop("acid")?.molar_mass();
    let [z] = w.inputs(["acid"])?;
    let mass = w.answer("m_a", mass_of_equivalents(level * capacity * bed, z, molar_mass))?;
    w.answer("c_r", mass / (b_r * bed))?;
    let none = Q::constant("none", 0.0, G_PER_DAY_METAL);
    for (row, m) in held {
        w.give(row, "m_x", none)?;
        w.give(row, "c_s", *m * days / spent)?;
        falls_out(w, row, "c_s", acid);
    }
    for row in w.rows(OTHERS)? {
        falls_out(w, &row, "n_j", acid);
    }
    Ok(())
}

/// What an acid makes of an ion in the bed that does not dissolve: from memory.
fn falls_out(w: &mut Work, row: &Row, symbol: &str, acid: &str) {
    let ion = &*row.key;
    let salt = match (acid, ion) {
        (HCL, "Ag") => "silver chloride",
        (HCL, "Pb") => "lead chloride",
        (H2SO4, "Pb") => "lead sulfate",
        (H2SO4, "Ca") => "calcium sulfate",
        _ => return,
    };
    let text = format!("{ion}: {salt} falls out in the bed with {acid}, and blocks it. Take another acid.");
    w.add_finding(row, symbol, Caution, text);
}
