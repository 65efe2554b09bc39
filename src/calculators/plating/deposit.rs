//! The metals of the deposit: which they are, their share, valence and density.

use super::USUAL;
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::elements::{is_metal, molar_mass};
use crate::science::faraday::{
    Constituent, charge_per_mass, deposit_density, plated_metal, share_of_current, usual_electrons,
};
use crate::science::metals;
use crate::units::{AH_PER_G, KG_PER_L, MASS_PERCENT, NUMBER};

/// Metals to offer, those that lines plate most first.
pub const SYMBOLS: &[&str] =
    &["Cu", "Ni", "Sn", "Ag", "Au", "Pd", "Pt", "In", "Co", "Zn", "Pb", "Bi", "Fe", "Rh"];

/// A metal of the deposit.
pub struct Metal {
    pub row: Row,
    pub symbol: String,
    pub part: Constituent,
}

/// The deposit as a whole.
pub struct Deposit {
    pub metals: Vec<Metal>,
    /// Charge for a mass of it, with every electron used.
    pub per_mass: Q,
    pub density: Q,
}

impl Deposit {
    /// Reads the metals; those with a share of nought stay in the bath and are not among them.
    pub fn read(w: &mut Work) -> Result<Deposit, Stop> {
        let metals = metals_of(w)?;
        let parts: Vec<Constituent> = metals.iter().map(|metal| metal.part).collect();
        let per_mass = charge_per_mass(&parts).or_stop("w")?;
        let per_mass = w.step("k", "Charge for a mass of deposit", AH_PER_G, per_mass)?;
        let top = w.top();
        let density = match w.optional(&top, "ρ_d")? {
            Some(typed) => typed,
            None => deposit_density(&parts).or_stop("ρ_d")?,
        };
        let density = w.answer("ρ", density)?;
        for (metal, part) in metals.iter().zip(&parts) {
            w.give(&metal.row, "y", share_of_current(part, &parts).or_stop("w")?)?;
        }
        Ok(Deposit { metals, per_mass, density })
    }

    /// The metal of which the deposit holds most.
    pub fn main(&self) -> Option<&Metal> {
        self.metals.iter().max_by(|a, b| a.part.share.si.total_cmp(&b.part.share.si))
    }
}

fn metals_of(w: &mut Work) -> Result<Vec<Metal>, Stop> {
    let rows = w.rows(metals::TABLE)?;
    if rows.is_empty() {
        return Err(Stop::todo("w", "No metal is given that is plated", "Add the metal of the deposit."));
    }
    let mut found: Vec<Metal> = Vec::new();
    for (row, share) in rows.iter().zip(shares(w, &rows)?) {
        if share.si <= 0.0 {
            idle(w, row)?;
            continue;
        }
        let symbol = metals::symbol_of(&row.key);
        let molar_mass = molar_mass(&symbol).filter(|_| is_metal(&symbol)).ok_or_else(|| {
            let reason = format!("“{symbol}” is not a metal");
            Stop::at("w", reason, "Name the row by the metal, such as Cu or tin.").row(&row.key)
        })?;
        if found.iter().any(|other| other.symbol == symbol) {
            let reason = format!("{symbol} stands there twice");
            return Err(Stop::at("w", reason, "Keep one of the two rows.").row(&row.key));
        }
        let electrons = electrons(w, row, &symbol)?;
        let density = match (w.optional(row, "ρ_m")?, plated_metal(&symbol)) {
            (Some(typed), _) => typed,
            (None, Some(known)) => Q::constant(&format!("ρ({symbol})"), known.density, KG_PER_L),
            (None, None) => {
                let reason = format!("The density of {symbol} is not known here");
                return Err(Stop::todo("ρ_m", reason, "Type it.").row(&row.key));
            }
        };
        found.push(Metal {
            row: row.clone(),
            symbol,
            part: Constituent { share, molar_mass, electrons, density },
        });
    }
    Ok(found)
}

/// Mass shares of the rows: as typed, and the rest for the one that is left out.
fn shares(w: &mut Work, rows: &[Row]) -> Result<Vec<Q>, Stop> {
    let typed = rows.iter().map(|row| w.optional(row, "w")).collect::<Result<Vec<_>, _>>()?;
    let all = Q::constant("all", 100.0, MASS_PERCENT);
    let sum = typed.iter().flatten().copied().reduce(|sum, next| sum + next);
    let left = sum.map_or(all, |sum| all - sum);
    let open: Vec<_> = (0..rows.len()).filter(|&k| typed[k].is_none()).collect();
    let key = |k: usize| rows.get(k).map_or("", |row| &*row.key);
    match open.as_slice() {
        [] if left.si.abs() > 1e-3 => {
            let reason =
                format!("The shares of the deposit come to {}", w.style.answer(1.0 - left.si, MASS_PERCENT));
            Err(Stop::at("w", reason, "Make them 100 %, or leave one out.").row(key(0)))
        }
        [] => Ok(typed.into_iter().flatten().collect()),
        [one] if left.si < -1e-9 => {
            let reason = "The shares of the deposit come to more than 100 %";
            Err(Stop::at("w", reason, "Lower one of them.").row(key(*one)))
        }
        [one] => {
            let rest = w.step_in(&rows[*one], "w", "Share of the deposit, the rest", MASS_PERCENT, left)?;
            Ok(typed.into_iter().map(|share| share.unwrap_or(rest)).collect())
        }
        [_, next, ..] => {
            let reason = "More than one share of the deposit is left out";
            let remedy = "Type all but one of them; 0 % for a metal that stays in the bath.";
            Err(Stop::todo("w", reason, remedy).row(key(*next)))
        }
    }
}

fn electrons(w: &mut Work, row: &Row, symbol: &str) -> Result<Q, Stop> {
    let top = w.top();
    let [typed] = w.of(row, ["z"])?;
    let is_cyanide = w.word(&top, "class")? == "cyanide";
    let is_usual = w.word(row, "z")? == USUAL;
    let electrons = match usual_electrons(symbol) {
        _ if !is_usual => typed,
        Some(usual) => usual,
        None => {
            let reason = format!("How many electrons {symbol} takes is not known here");
            return Err(
                Stop::todo("z", reason, "Choose the number; the bath’s chemistry says it.").row(&row.key)
            );
        }
    };
    let electrons = w.give(row, "z_i", electrons)?;
    let text = match (symbol, electrons.si) {
        ("Cu", 2.0) if is_cyanide => "in a cyanide bath copper takes 1 electron, and plates twice as much.",
        ("Au", 3.0) if is_cyanide => {
            "gold cyanide takes 1 electron, unless the bath is one of gold(III) in strong acid."
        }
        ("Cu", 1.0) if !is_cyanide => "only cyanide baths plate copper with 1 electron; others take 2.",
        _ => return Ok(electrons),
    };
    w.add_finding(row, "z", Severity::Caution, format!("{}: {text}", row.key));
    Ok(electrons)
}

/// A metal of the bath that is not plated.
fn idle(w: &mut Work, row: &Row) -> Result<(), Stop> {
    use crate::units::{G_METAL, G_PER_DAY_METAL, KG_METAL, PERCENT};
    w.give(row, "y", Q::constant("none", 0.0, PERCENT))?;
    w.give(row, "z_i", Q::constant("none", 0.0, NUMBER))?;
    for (symbol, unit) in [
        ("m_day", G_PER_DAY_METAL),
        ("m_w", G_METAL),
        ("m_year", KG_METAL),
        ("m_a", KG_METAL),
        ("m_rep", G_PER_DAY_METAL),
    ] {
        w.give(row, symbol, Q::constant("none", 0.0, unit))?;
    }
    Ok(())
}
