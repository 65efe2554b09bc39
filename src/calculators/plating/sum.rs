//! The sum: each step of the recipe, the wafer, the day.

use super::deposit::Deposit;
use super::{BY_CHARGE, BY_THICKNESS, PULSE, REVERSE, STEPS, electrodes};
use crate::calculator::{Refuse, Row, Stop, Work};
use crate::quantity::Q;
use crate::science::faraday::{
    Pulse, as_metal, charge, current, deposit_mass, mass_of_charge, plated_area, thickness, time,
};
use crate::units::{A_PER_DM2, DAYS, PERCENT};

/// What a wafer gets in the mean, over all steps.
struct Wafer {
    time: Q,
    charge: Q,
    mass: Q,
    /// The highest current of any step.
    peak: Q,
    /// The thickest deposit of any step.
    thickest: Q,
}

/// What the steps and the metals share.
pub struct Day {
    /// Wafers a working day.
    pub wafers: Q,
    /// Charge a day.
    pub charge: Q,
    /// Efficiency over all steps.
    pub efficiency: Q,
    /// Deposit on a wafer.
    pub mass: Q,
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let deposit = Deposit::read(w)?;
    let wafer = wafer(w, &deposit)?;
    let [n, hours, days] = w.inputs(["N", "hours", "days"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);

    let t_w = w.answer("t_w", wafer.time)?;
    let q_w = w.answer("Q_w", wafer.charge)?;
    let mass = w.answer("m_wafer", wafer.mass)?;
    w.answer("I_w", q_w / t_w)?;
    let peak = w.answer("I_top", wafer.peak)?;
    w.answer("d_top", wafer.thickest)?;
    if let Some(rectifier) = w.optional(&top, "I_r")? {
        w.answer("I_spare", rectifier - peak)?;
    }
    let q_day = w.answer("Q_day", q_w * n)?;
    w.answer("Q_year", q_day * one_day * days)?;
    w.answer("I_bath", q_day * one_day / hours)?;
    w.answer("n_busy", n * t_w * one_day / hours)?;
    let efficiency = mass * deposit.per_mass / q_w;
    let efficiency = w.step("η_w", "Efficiency over all steps", PERCENT, efficiency)?;

    let day = Day { wafers: n, charge: q_day, efficiency, mass };
    for metal in &deposit.metals {
        let each = w.give(&metal.row, "m_w", as_metal(metal.part.share * day.mass))?;
        let a_day = w.give(&metal.row, "m_day", each * n)?;
        w.give(&metal.row, "m_year", a_day * one_day * days)?;
    }
    electrodes::metals(w, &deposit, &day)?;
    electrodes::gases(w, &day)
}

fn wafer(w: &mut Work, deposit: &Deposit) -> Result<Wafer, Stop> {
    let rows = w.rows(STEPS)?;
    let [n] = w.inputs(["N"])?;
    let mut sum: Option<Wafer> = None;
    for row in &rows {
        let step = step(w, row, deposit)?;
        // A step that not every wafer gets counts for those that do.
        let share = w.optional(row, "N_i")?.map(|some| some / n);
        let part = |q: Q| share.map_or(q, |share| q * share);
        let step = Wafer {
            time: part(step.time),
            charge: part(step.charge),
            mass: part(step.mass),
            peak: step.peak,
            thickest: step.thickest,
        };
        sum = Some(match sum {
            None => step,
            Some(sum) => Wafer {
                time: sum.time + step.time,
                charge: sum.charge + step.charge,
                mass: sum.mass + step.mass,
                peak: sum.peak.max(step.peak),
                thickest: sum.thickest.max(step.thickest),
            },
        });
    }
    let sum = sum.ok_or_else(|| {
        Stop::todo("d", "The recipe has no step yet", "Add a layer or step with its thickness.")
    })?;
    if sum.time.si > 0.0 && sum.charge.si > 0.0 {
        return Ok(sum);
    }
    let key = rows.first().map_or("", |row| &*row.key);
    Err(Stop::at("N_i", "No wafer gets any of these steps", "Give wafers a day above zero.").row(key))
}

/// One step on one wafer.
fn step(w: &mut Work, row: &Row, deposit: &Deposit) -> Result<Wafer, Stop> {
    let key = &row.key;
    let [edge] = w.inputs(["e"])?;
    // What all steps have of their own need not be typed for the bath.
    let own = |w: &Work, own, shared| match w.optional(row, own)? {
        Some(own) => Ok(own),
        None => w.inputs::<1>([shared]).map(|[shared]| shared),
    };
    let diameter = own(w, "D_i", "D")?;
    let open = own(w, "open_i", "open")?;
    let efficiency = own(w, "η_i", "η")?;
    let area = w.give(row, "A_i", plated_area(diameter, edge, open).or_stop("e")?)?;

    let pattern = w.word(row, "pattern")?;
    let (mean, peak, efficiency) = if pattern == PULSE || pattern == REVERSE {
        let [forward, forward_share] = w.of(row, ["j_f", "δ_f"])?;
        let (reverse, reverse_share) = if pattern == REVERSE {
            let [reverse, share] = w.of(row, ["j_r", "δ_r"])?;
            (reverse, share)
        } else {
            (Q::constant("none", 0.0, A_PER_DM2), Q::constant("none", 0.0, PERCENT))
        };
        let pulse = Pulse { forward, forward_share, reverse, reverse_share };
        let mean =
            w.step_in(row, "j_m", "Mean current density", A_PER_DM2, pulse.mean().or_stop_row("δ_f", key)?)?;
        let stays = pulse.deposits(efficiency).or_stop_row("δ_f", key)?;
        let stays = w.step_in(row, "j_d", "Of it deposits", A_PER_DM2, stays)?;
        let net = w.step_in(row, "η_m", "Efficiency of the mean current", PERCENT, stays / mean)?;
        (mean, if pattern == REVERSE { forward.max(reverse) } else { forward }, net)
    } else {
        let [j] = w.of(row, ["j"])?;
        (j, j, efficiency)
    };
    let amperes = w.give(row, "I_i", current(mean, area))?;
    let peak = w.give(row, "I_p", current(peak, area))?;

    let (mass, used, lasts) = match w.word(row, "given")? {
        BY_THICKNESS => {
            let [d] = w.of(row, ["d"])?;
            let mass = w.give(row, "m_i", deposit_mass(area, d, deposit.density))?;
            let used = charge(mass, deposit.per_mass, efficiency).or_stop("η")?;
            let used = w.give(row, "Q_i", used)?;
            let lasts = time(used, amperes).or_stop_row("pattern", key)?;
            (mass, used, w.give(row, "t_i", lasts)?)
        }
        by => {
            let (used, lasts) = if by == BY_CHARGE {
                let [used] = w.of(row, ["q_g"])?;
                (used, time(used, amperes).or_stop_row("pattern", key)?)
            } else {
                let [lasts] = w.of(row, ["t_g"])?;
                (amperes * lasts, lasts)
            };
            let (used, lasts) = (w.give(row, "Q_i", used)?, w.give(row, "t_i", lasts)?);
            let mass = mass_of_charge(used, deposit.per_mass, efficiency).or_stop("η")?;
            (w.give(row, "m_i", mass)?, used, lasts)
        }
    };
    let thickest = w.give(row, "d_i", thickness(mass, deposit.density, area).or_stop_row("open_i", key)?)?;
    Ok(Wafer { time: lasts, charge: used, mass, peak, thickest })
}
