//! The sum of an analysis.

use super::{
    ACID_BASE, ARGENTOMETRIC, CELL, DILUTION, EDTA, EDTA_BACK, IODOMETRIC, POLYOL, SPIKE, SPREAD, TABLE,
    WEIGHED,
};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::formula::{Counts, Formula};
use crate::science::replicates::{furthest, half_width, mean, most_off, standard_deviation};
use crate::science::titration::{
    amount_found, amount_found_back, amount_of, by_mass, concentration, gravimetric_factor, slanted_cell,
    spike_recovery, volume_needed,
};
use crate::units::{G_PER_L, ML, MOL, NUMBER};

/// The runs of a row: titrated, and weighed.
const RUNS: [&str; 4] = ["v_1", "v_2", "v_3", "v_4"];
const WEIGHINGS: [&str; 4] = ["m_1", "m_2", "m_3", "m_4"];

/// Mol of what is sought for a mol of titrant, by method and formula: the equations of the reactions.
const RATIOS: &[(&str, &[(&str, f64)])] = &[
    (
        ACID_BASE,
        &[
            ("H2SO4", 0.5),
            ("HCl", 1.0),
            ("HNO3", 1.0),
            ("CH4O3S", 1.0),
            ("HBF4", 1.0),
            ("NH2SO3H", 1.0),
            ("CH3COOH", 1.0),
            ("NaOH", 1.0),
            ("KOH", 1.0),
            ("NH3", 1.0),
            ("NaHSO4", 1.0),
        ],
    ),
    (EDTA, &[("Cu", 1.0), ("Ni", 1.0), ("Zn", 1.0), ("Co", 1.0), ("Pb", 1.0), ("In", 1.0)]),
    (EDTA_BACK, &[("Cu", 1.0), ("Ni", 1.0), ("Zn", 1.0), ("Co", 1.0), ("Pb", 1.0), ("In", 1.0), ("Pd", 1.0)]),
    (IODOMETRIC, &[("Cu", 1.0), ("Sn", 1.0)]),
    (ARGENTOMETRIC, &[("Cl", 1.0), ("HCl", 1.0), ("NaCl", 1.0)]),
    (POLYOL, &[("H3BO3", 1.0), ("B(OH)3", 1.0)]),
];

fn ratio(method: &str, counts: &Counts) -> Option<f64> {
    let (_, known) = RATIOS.iter().find(|(known, _)| *known == method)?;
    known
        .iter()
        .find(|(formula, _)| Formula::read(formula).is_ok_and(|f| f.anhydrous() == *counts))
        .map(|(_, r)| *r)
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let mut found = Vec::new();
    for row in w.rows(TABLE)? {
        found.push((determination(w, &row)?, row));
    }
    let known = found.iter().any(|(found, _)| found.is_some());
    if let Some((_, row)) = found.iter().find(|_| !known) {
        return Err(no_run(w, row)?);
    }
    for (_, row) in found.iter().filter(|(found, _)| found.is_none()) {
        let stop = no_run(w, row)?;
        w.add_finding(row, stop.at.unwrap_or_default(), Severity::Note, stop.text());
    }
    let first = found.first().and_then(|(found, _)| *found);
    let first = first.map(|found| w.answer("c_first", found)).transpose()?;
    match (w.word(&top, "also")?, first) {
        (DILUTION, Some(found)) => dilution(w, found)?,
        (SPIKE, Some(before)) => recovery(w, before)?,
        (CELL, _) => {
            if let Some([current, x]) = beside(w, ["I_c", "x_c"], known)? {
                w.answer("j", slanted_cell(current, x).or_stop("x_c")?)?;
            }
        }
        _ if known => (),
        _ => return Err(Stop::todo("v_1", "nothing is typed yet", "Add a determination.")),
    }
    Ok(())
}

/// What a side sum takes. What it lacks is said without holding up the determinations; without any, it is all
/// that the sheet is there for.
fn beside<const N: usize>(
    w: &mut Work,
    symbols: [&'static str; N],
    known: bool,
) -> Result<Option<[Q; N]>, Stop> {
    let top = w.top();
    for symbol in symbols {
        if w.optional(&top, symbol)?.is_none() {
            let label = super::CALCULATOR.inputs.iter().find(|input| input.symbol == symbol);
            let reason = format!("“{}” is still to be typed", label.map_or("", |input| input.label));
            if !known {
                return Err(Stop::todo(symbol, reason, "Type it."));
            }
            w.add_finding(&top, symbol, Severity::Note, Stop::todo(symbol, reason, "Type it.").text());
            return Ok(None);
        }
    }
    w.inputs(symbols).map(Some)
}

/// How far a sample of the first component is diluted for an instrument.
fn dilution(w: &mut Work, found: Q) -> Result<(), Stop> {
    let Some([wanted, flask]) = beside(w, ["c_i", "V_f"], true)? else { return Ok(()) };
    if found < wanted {
        let reason = "the bath holds less than the instrument is to see";
        return Err(Stop::at("c_i", reason, "Measure it as it is, or type a lower concentration."));
    }
    let times = w.answer("F", found / wanted)?;
    w.answer("V_p", flask / times)?;
    Ok(())
}

/// How much of what was added to a sample is found again.
fn recovery(w: &mut Work, before: Q) -> Result<(), Stop> {
    let typed = beside(w, ["V_s", "V_k", "C_k", "c_2"], true)?;
    if let Some([sample, added, strength, after]) = typed {
        w.answer("R", spike_recovery(before, sample, after, strength, added).or_stop("V_k")?)?;
    }
    Ok(())
}

/// The runs of a row that are typed, and where the first of them is.
fn runs(w: &Work, row: &Row) -> Result<(Vec<Q>, &'static str), Stop> {
    let symbols = if w.word(row, "method")? == WEIGHED { WEIGHINGS } else { RUNS };
    let mut runs = Vec::new();
    for symbol in symbols {
        runs.extend(w.optional(row, symbol)?);
    }
    Ok((runs, symbols[0]))
}

/// What is still to do in a row without a run.
fn no_run(w: &Work, row: &Row) -> Result<Stop, Stop> {
    let (_, at) = runs(w, row)?;
    Ok(Stop::todo(at, format!("no run of {} is typed yet", row.key), "Type what was read.").row(&row.key))
}

/// One row: what it comes to in g/L; `None` while no run of it is typed.
fn determination(w: &mut Work, row: &Row) -> Result<Option<Q>, Stop> {
    let (runs, _) = runs(w, row)?;
    if runs.is_empty() {
        return Ok(None);
    }
    let key = row.key.to_string();
    let method = w.word(row, "method")?;
    let text = w.text(row, "what")?;
    let text = if text.is_empty() { key.as_str() } else { &*text };
    let formula = Formula::read(text).or_stop_row("what", &key)?;
    let molar_mass = formula.molar_mass();
    let [aliquot, dilution] = w.of(row, ["V_a", "D"])?;
    let results = if method == WEIGHED {
        by_weight(w, row, &formula, &runs)?
    } else {
        let ratio = match w.optional(row, "r")? {
            Some(r) => r,
            None => {
                let known = ratio(method, &formula.anhydrous()).ok_or_else(|| {
                    let reason = format!("how much of {text} one mol of titrant takes is not known here");
                    Stop::at("r", reason, "Type it: mol of it for one mol of titrant.").row(&key)
                })?;
                Q::constant("r", known, NUMBER)
            }
        };
        let [titrant, factor] = w.of(row, ["C_t", "f_t"])?;
        let one = amount_of(titrant, factor, Q::constant("1 mL", 1.0, ML)) * ratio;
        let one = by_mass(concentration(one, aliquot, dilution).or_stop_row("V_a", &key)?, molar_mass);
        w.give(row, "c_mL", one)?;
        expected(w, row, (titrant * factor, ratio, molar_mass))?;
        let mut results = Vec::new();
        for (k, run) in runs.iter().enumerate() {
            let n = titrated(w, row, method, (titrant, factor, ratio), *run)?;
            results.push(w.step_in(row, &format!("n_{}", k + 1), "Amount in the portion", MOL, n)?);
        }
        results
    };
    let mut concentrations = Vec::new();
    for (k, n) in results.into_iter().enumerate() {
        let c = by_mass(concentration(n, aliquot, dilution).or_stop_row("V_a", &key)?, molar_mass);
        concentrations.push(w.step_in(row, &format!("c_{}", k + 1), "This run", G_PER_L, c)?);
    }
    let middle = w.give(row, "c_x", mean(&concentrations).or_stop_row("v_1", &key)?)?;
    w.give(row, "C_x", middle / molar_mass)?;
    spread(w, row, &concentrations, middle)?;
    Ok(Some(middle))
}

/// The titrant that what is expected should take, where one titrant runs until the end.
fn expected(w: &mut Work, row: &Row, (titrant, ratio, molar_mass): (Q, Q, Q)) -> Result<(), Stop> {
    let Some(expected) = w.optional(row, "c_e")? else { return Ok(()) };
    if [EDTA_BACK, POLYOL].contains(&w.word(row, "method")?) {
        return Ok(());
    }
    let [aliquot, dilution, blank] = w.of(row, ["V_a", "D", "V_b"])?;
    let sample = expected / (molar_mass * dilution);
    let volume = volume_needed(sample, aliquot, ratio, titrant).or_stop_row("C_t", &row.key)?;
    w.give(row, "v_e", blank + volume)?;
    Ok(())
}

/// What a run of titrant found, in mol.
fn titrated(w: &Work, row: &Row, method: &str, (c, f, r): (Q, Q, Q), v: Q) -> Result<Q, Stop> {
    let key = &*row.key;
    let [blank] = w.of(row, ["V_b"])?;
    match method {
        EDTA_BACK => {
            let [c_1, v_1] = w.of(row, ["C_1", "V_1"])?;
            let one = Q::constant("1", 1.0, NUMBER);
            let left = amount_found(c, f, v, blank, one).or_stop_row("V_b", key)?;
            amount_found_back(amount_of(c_1, one, v_1), left, r).or_stop_row("V_1", key)
        }
        POLYOL => {
            let [before] = w.of(row, ["V_0"])?;
            amount_found(c, f, v, before + blank, r).or_stop_row("V_0", key)
        }
        _ => amount_found(c, f, v, blank, r).or_stop_row("V_b", key),
    }
}

/// What weighings found, in mol.
fn by_weight(w: &mut Work, row: &Row, sought: &Formula, runs: &[Q]) -> Result<Vec<Q>, Stop> {
    let key = &*row.key;
    let text = w.text(row, "precipitate")?;
    if text.is_empty() {
        let reason = format!("what {key} is weighed as is not typed yet");
        return Err(Stop::todo("precipitate", reason, "Type the formula of the precipitate.").row(key));
    }
    let weighed = Formula::read(&text).or_stop_row("precipitate", key)?;
    let [k] = w.of(row, ["k"])?;
    let factor =
        w.step_in(row, "f_g", "Gravimetric factor", NUMBER, gravimetric_factor(k, sought, &weighed))?;
    Ok(runs.iter().map(|m| factor * *m / sought.molar_mass()).collect())
}

/// How far the runs lie apart, and whether one stands out.
fn spread(w: &mut Work, row: &Row, runs: &[Q], middle: Q) -> Result<(), Stop> {
    let key = &*row.key;
    let [trust] = w.inputs(["trust"])?;
    if runs.len() < 2 {
        w.say(row, "spread", SPREAD[2])?;
        return Ok(());
    }
    let s = w.give(row, "s_x", standard_deviation(runs, middle, G_PER_L).or_stop_row("v_2", key)?)?;
    w.give(row, "h", half_width(s, runs.len(), trust.si).or_stop_row("v_2", key)?)?;
    let (Some((k, off)), Ok(most)) = (furthest(runs, middle, s), most_off(runs.len(), 1.0 - trust.si)) else {
        let word = if runs.len() < 3 { SPREAD[2] } else { SPREAD[0] };
        return w.say(row, "spread", word);
    };
    if off.si <= most.si {
        return w.say(row, "spread", SPREAD[0]);
    }
    let text = format!(
        "Run {} stands {} standard deviations from the mean, more than {}: look for the reason, and run it again rather than drop it.",
        k + 1,
        w.style.number(off.si),
        w.style.number(most.si)
    );
    w.add_finding(row, "c_x", Severity::Caution, text);
    w.say(row, "spread", SPREAD[1])
}
