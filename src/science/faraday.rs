//! Electrolysis: how much charge deposits how much metal, and what the electrodes do besides.

use super::Refusal;
use super::bounds::{not_negative, positive, share};
use crate::quantity::Q;
use crate::units::{C_PER_MOL, NUMBER, PERCENT_METAL};
use std::f64::consts::PI;

/// The Faraday constant: CODATA 2018, 96 485.33212 C/mol, exact in the SI of 2019 (rounded).
pub fn faraday() -> Q {
    Q::constant("F", 96_485.332_12, C_PER_MOL)
}

/// A metal as lines plate it.
#[derive(Debug)]
pub struct Plated {
    /// Its symbol.
    pub symbol: &'static str,
    /// Density of the metal itself at 20 °C, g/cm³.
    pub density: f64,
    /// Electrons that an ion takes up in the usual baths.
    pub electrons: f64,
    /// The numbers of electrons in the other baths that are in use, and which baths those are.
    pub others: &'static [(f64, &'static str)],
}

const fn plated(
    symbol: &'static str,
    density: f64,
    electrons: f64,
    others: &'static [(f64, &'static str)],
) -> Plated {
    Plated { symbol, density, electrons, others }
}

/// The metals that lines plate.
///
/// Source: densities as `periodictable` 2.1.0 carries them (`mendeleev` 1.3.0 within 0.5 %; tin is the
/// white one, 7.29). Electrons: the valence column of a public surface-finishing tutorial, no. 166, table 1;
/// which bath goes with which is common practice, no source.
pub static PLATED: &[Plated] = &[
    plated("Cu", 8.96, 2.0, &[(1.0, "cyanide baths")]),
    plated("Ni", 8.90, 2.0, &[]),
    plated("Sn", 7.29, 2.0, &[(4.0, "stannate baths")]),
    plated("Ag", 10.5, 1.0, &[]),
    plated("Au", 19.3, 1.0, &[(3.0, "chloride and strong-acid cyanide baths")]),
    plated("Pd", 12.02, 2.0, &[]),
    plated("Pt", 21.45, 2.0, &[(4.0, "baths of hexachloroplatinate or hexahydroxyplatinate")]),
    plated("In", 7.31, 3.0, &[]),
    plated("Co", 8.90, 2.0, &[]),
    plated("Zn", 7.14, 2.0, &[]),
    plated("Pb", 11.34, 2.0, &[]),
    plated("Bi", 9.79, 3.0, &[]),
    plated("Fe", 7.87, 2.0, &[]),
    plated("Rh", 12.41, 3.0, &[]),
];

/// What is known of a metal by its symbol.
pub fn plated_metal(symbol: &str) -> Option<&'static Plated> {
    PLATED.iter().find(|metal| metal.symbol == symbol)
}

/// Electrons that an ion of a metal takes up in the usual baths; looked up in [`PLATED`].
pub fn usual_electrons(symbol: &str) -> Option<Q> {
    Some(Q::call("electrons as usual", &[], plated_metal(symbol)?.electrons, NUMBER))
}

/// One metal of a deposit.
#[derive(Clone, Copy, Debug)]
pub struct Constituent {
    /// Mass share of the deposit.
    pub share: Q,
    /// Molar mass.
    pub molar_mass: Q,
    /// Electrons that an ion takes up.
    pub electrons: Q,
    /// Density of the metal itself.
    pub density: Q,
}

/// Refuses an efficiency that is not above 0 and at most 100 %: no more metal comes than the charge gives.
fn efficient(efficiency: Q) -> Result<Q, Refusal> {
    if efficiency.si > 0.0 && efficiency.si <= 1.0 {
        return Ok(efficiency);
    }
    Err(Refusal::new(
        "The current efficiency is not above 0 and at most 100 %.",
        "Give the share of the current that deposits metal; where metal comes without current, this law does not hold.",
    ))
}

/// Mass that a charge deposits or dissolves, with every electron used: `M/(z·F)`.
///
/// `M` molar mass, `z` electrons an ion. Exact but for `M`. Refuses no electrons.
/// Source: Faraday's law; OpenStax Chemistry 2e, ch. 17.7.
pub fn equivalent(molar_mass: Q, electrons: Q) -> Result<Q, Refusal> {
    Ok(molar_mass / (positive(electrons, "the number of electrons")? * faraday()))
}

/// Charge that a mass of deposit takes, with every electron used: `F·(Σ w·z/M)`.
///
/// `w` mass share of each metal. Exact but for `M`. Refuses no metals.
/// Source: Faraday's law, metal by metal.
pub fn charge_per_mass(parts: &[Constituent]) -> Result<Q, Refusal> {
    Ok(faraday() * equivalents(parts)?)
}

/// Amount of electrons for a mass of deposit.
fn equivalents(parts: &[Constituent]) -> Result<Q, Refusal> {
    let each = parts.iter().map(|part| part.share * part.electrons / part.molar_mass);
    each.reduce(|sum, next| sum + next).ok_or_else(no_metal)
}

/// Share of the deposit's current that one of its metals takes: `(w·z/M)/(Σ w·z/M)`, not its mass share.
///
/// Refuses no metals. Source: Faraday's law, metal by metal.
pub fn share_of_current(part: &Constituent, parts: &[Constituent]) -> Result<Q, Refusal> {
    Ok(part.share * part.electrons / part.molar_mass / equivalents(parts)?)
}

/// Density of a deposit from its metals: `1/(Σ w/ρ)`.
///
/// Holds for metals side by side without pores; a real deposit is often lighter (hard gold about 17 g/cm³,
/// from memory), so let it be typed. Refuses no metals. Source: specific volumes add.
pub fn deposit_density(parts: &[Constituent]) -> Result<Q, Refusal> {
    let each = parts.iter().map(|part| part.share / part.density);
    Ok(1.0 / each.reduce(|sum, next| sum + next).ok_or_else(no_metal)?)
}

fn no_metal() -> Refusal {
    Refusal::new("No metal is given that is plated.", "Add the metal of the deposit.")
}

/// Area of a wafer's one face inside its edge exclusion: `π·(D/2 − e)²`.
///
/// `D` diameter, `e` edge exclusion. Seed contact and thief are extra (common practice). Refuses an edge
/// exclusion that leaves nothing. Source: definition; scipy `quad` of `2·π·r`.
pub fn face_area(diameter: Q, edge: Q) -> Result<Q, Refusal> {
    let radius = diameter / 2.0 - edge;
    if radius.si <= 0.0 {
        return Err(Refusal::new(
            "The edge exclusion leaves nothing of the wafer.",
            "Give an edge exclusion below half of the diameter.",
        ));
    }
    Ok(PI * radius.pow(2, 1))
}

/// Area that is plated: the face inside the edge exclusion times the share that resist leaves open.
///
/// Refuses an open share that is not above 0 and at most 100 %. Source: definition.
pub fn plated_area(diameter: Q, edge: Q, open: Q) -> Result<Q, Refusal> {
    if !(open.si > 0.0 && open.si <= 1.0) {
        return Err(Refusal::new(
            "The open area is not above 0 and at most 100 % of the face.",
            "Give the share of the face that resist leaves open; 100 % for a blanket film.",
        ));
    }
    Ok(face_area(diameter, edge)? * open)
}

/// Mass of a deposit: `A·d·ρ`. Source: definition.
pub fn deposit_mass(area: Q, thickness: Q, density: Q) -> Q {
    area * thickness * density
}

/// Thickness that a mass of deposit comes to: `m/(ρ·A)`. Refuses no area. Source: definition.
pub fn thickness(mass: Q, density: Q, area: Q) -> Result<Q, Refusal> {
    Ok(mass / (positive(density, "the density")? * positive(area, "the plated area")?))
}

/// Charge that a mass of deposit takes: `m·k/η`; the efficiency counts here once and nowhere else.
///
/// `k` of [`charge_per_mass`], `η` current efficiency. Refuses an efficiency outside 0 to 100 %.
/// Source: Faraday's law; OpenStax Chemistry 2e, ch. 17.7.
pub fn charge(mass: Q, per_mass: Q, efficiency: Q) -> Result<Q, Refusal> {
    Ok(not_negative(mass, "the mass")? * per_mass / efficient(efficiency)?)
}

/// Mass of deposit that a charge gives: `η·Q/k`. Refuses an efficiency outside 0 to 100 %.
/// Source: inverse of [`charge`].
pub fn mass_of_charge(charge: Q, per_mass: Q, efficiency: Q) -> Result<Q, Refusal> {
    Ok(efficient(efficiency)? * charge / per_mass)
}

/// Mass that a charge deposits or dissolves: `η·Q·M/(z·F)`; of a current, mass per time.
///
/// Refuses an efficiency outside 0 to 100 %. Source: Faraday's law; OpenStax Chemistry 2e, ch. 17.7.
pub fn metal_deposited(charge: Q, equivalent: Q, efficiency: Q) -> Result<Q, Refusal> {
    Ok(efficient(efficiency)? * charge * equivalent)
}

/// The current of a wafer: `j·A`. Source: definition.
pub fn current(density: Q, area: Q) -> Q {
    density * area
}

/// How long a charge takes: `Q/I`. Refuses no current: it would never end. Source: definition.
pub fn time(charge: Q, current: Q) -> Result<Q, Refusal> {
    if current.si <= 0.0 {
        return Err(Refusal::new(
            "Without current plating never ends.",
            "Give a current density above zero.",
        ));
    }
    Ok(charge / current)
}

/// A pulsed current: what runs forward and backward, and for what share of the time each.
#[derive(Clone, Copy, Debug)]
pub struct Pulse {
    /// Forward current density while it runs.
    pub forward: Q,
    /// Share of the time in which it runs forward.
    pub forward_share: Q,
    /// Reverse current density while it runs.
    pub reverse: Q,
    /// Share of the time in which it runs backward.
    pub reverse_share: Q,
}

impl Pulse {
    fn fits(&self) -> Result<(), Refusal> {
        let (on, back) = (self.forward_share.si, self.reverse_share.si);
        if on > 0.0 && back >= 0.0 && on + back <= 1.0 + 1e-12 {
            return Ok(());
        }
        Err(Refusal::new(
            "Forward and reverse take more than all of the time, or nothing runs forward.",
            "Give shares of the time that come to at most 100 % together.",
        ))
    }

    /// Mean current density, which a meter of net charge reads: `j_f·δ_f − j_r·δ_r`.
    ///
    /// Refuses shares beyond 100 % and a mean that strips. Source: definition of the mean.
    pub fn mean(&self) -> Result<Q, Refusal> {
        self.fits()?;
        let mean = self.forward * self.forward_share - self.reverse * self.reverse_share;
        if mean.si > 0.0 { Ok(mean) } else { Err(strips()) }
    }

    /// Mean current density that stays as metal: `η·j_f·δ_f − j_r·δ_r`.
    ///
    /// Forward deposits with the efficiency `η`, reverse strips with all of its current (common practice).
    /// Refuses what strips as much as it deposits. Source: Faraday's law over one period.
    pub fn deposits(&self, efficiency: Q) -> Result<Q, Refusal> {
        self.fits()?;
        let stays =
            efficient(efficiency)? * self.forward * self.forward_share - self.reverse * self.reverse_share;
        if stays.si > 0.0 { Ok(stays) } else { Err(strips()) }
    }
}

fn strips() -> Refusal {
    Refusal::new(
        "Reverse current strips as much as forward current deposits.",
        "Lower the reverse current density or its share of the time.",
    )
}

/// Amount of electrons in a charge: `Q/F`. Source: definition.
pub fn moles_of_electrons(charge: Q) -> Q {
    charge / faraday()
}

/// Amount of oxygen from an inert anode, if it makes nothing else: `Q/(4·F)`.
///
/// An upper bound: some of the current oxidises additives or sulfite in its place.
/// Source: 2 H2O → O2 + 4 H+ + 4 e−, Faraday's law.
pub fn oxygen(charge: Q) -> Q {
    moles_of_electrons(charge) / 4.0
}

/// Amount of hydrogen from a charge, or of a current in a time, of which a share makes it: `s·Q/(2·F)`.
///
/// All of it is the worst case: no metal is left to deposit. Refuses a share that is no share.
/// Source: 2 H+ + 2 e− → H2, Faraday's law.
pub fn hydrogen_of_share(charge: Q, part: Q) -> Result<Q, Refusal> {
    Ok(share(part, "the share of the current that makes hydrogen")? * moles_of_electrons(charge) / 2.0)
}

/// Amount of hydrogen at the cathode: `(1 − η)·Q/(2·F)`, if what does not deposit makes hydrogen.
///
/// An upper bound. Refuses an efficiency outside 0 to 100 %. Source: 2 H+ + 2 e− → H2, Faraday's law.
pub fn hydrogen(charge: Q, efficiency: Q) -> Result<Q, Refusal> {
    Ok((1.0 - efficient(efficiency)?) * moles_of_electrons(charge) / 2.0)
}

/// Amount of acid that an inert anode leaves in the bath: `η·Q/F`.
///
/// The anode makes an H+ for each electron; hydrogen at the cathode takes back those that deposit no metal.
/// In an alkaline bath as much hydroxide is used up. Refuses an efficiency outside 0 to 100 %.
/// Source: charge balance of bath and electrodes.
pub fn acid_made(charge: Q, efficiency: Q) -> Result<Q, Refusal> {
    Ok(efficient(efficiency)? * moles_of_electrons(charge))
}

/// A mass of pure metal, counted as metal.
pub fn as_metal(mass: Q) -> Q {
    mass * Q::constant("all metal", 100.0, PERCENT_METAL)
}

#[cfg(test)]
#[path = "faraday_tests.rs"]
mod tests;
