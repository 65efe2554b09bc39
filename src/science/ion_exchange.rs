//! What loads a resin, how long a bed lasts, and what its regeneration takes, in equivalents.

use super::bounds::{above_zero, positive};
use super::{Refusal, elements, faraday};
use crate::quantity::Q;
use crate::units::{G_PER_MOL_METAL, NUMBER, Value};

/// Ions that compete for a resin: what they are called here, and their charge.
///
/// Source: charges as in any textbook of chemistry; complex cyanides Au(CN)₂⁻ and Ag(CN)₂⁻ carry one.
pub static IONS: &[(&str, f64)] = &[
    ("Ca", 2.0),
    ("Mg", 2.0),
    ("Na", 1.0),
    ("K", 1.0),
    ("NH4", 1.0),
    ("Al", 3.0),
    ("Fe", 2.0),
    ("Cl", 1.0),
    ("SO4", 2.0),
    ("NO3", 1.0),
    ("HCO3", 1.0),
    ("CN", 1.0),
];

/// Their names, to pick from.
pub const ION_NAMES: &[&str] = &["Ca", "Mg", "Na", "K", "NH4", "Al", "Fe", "Cl", "SO4", "NO3", "HCO3", "CN"];

/// Charge of a competing ion; `None` of one that is not in [`IONS`].
pub fn ion_charge(name: &str) -> Option<Q> {
    let (_, z) = IONS.iter().find(|(known, _)| *known == name)?;
    Some(Q::call("charge as usual", &[], *z, NUMBER))
}

/// Charge of a metal's ion in acid water: the electrons that it takes up when plated, and 3 for chromium, 2 for
/// cadmium and manganese, 3 for aluminium. `None` of other metals.
///
/// Source: [`faraday::usual_electrons`]; the rest from memory.
pub fn metal_charge(symbol: &str) -> Option<Q> {
    let more = |z: f64| Some(Q::call("charge as usual", &[], z, NUMBER));
    match symbol {
        "Cr" | "Al" => more(3.0),
        "Cd" | "Mn" => more(2.0),
        _ => faraday::plated_metal(symbol).and_then(|metal| more(metal.electrons)),
    }
}

/// Molar mass of a metal as mass of metal; refuses what is no element.
/// Source: [`elements::weight`].
pub fn metal_molar_mass(symbol: &str) -> Result<Q, Refusal> {
    let weight = elements::weight(symbol).ok_or_else(|| {
        Refusal::new(format!("“{symbol}” is no symbol of a metal"), "Name it by its symbol, as Cu or Ni.")
    })?;
    Ok(Q::named(format!("M({symbol})"), Value::new(weight, G_PER_MOL_METAL)))
}

/// Equivalents in a volume: `c·z/M`.
///
/// `c` mass per volume (of metal, if `M` is), `z` charge of the ion, `M` molar mass. Milligrams of different
/// ions do not add up on a resin; equivalents do. Exact but for `M`. Refuses a charge that is not above zero.
/// Source: definition of an equivalent.
pub fn equivalents(c: Q, z: Q, m: Q) -> Result<Q, Refusal> {
    Ok(c * positive(z, "the charge")? / m)
}

/// Mass that stands for equivalents: `n·M/z`. Inverse of [`equivalents`], of amounts or concentrations.
/// Source: definition of an equivalent.
pub fn mass_of_equivalents(n: Q, z: Q, m: Q) -> Q {
    n * m / z
}

/// What a resin holds of one group of ions when it is full: `q = C·q_T/(C + C_j·α)`.
///
/// `q_T` total capacity, `C` equivalents of what is wanted, `C_j` of all that competes, `α` selectivity of those
/// against the wanted ones: 1 counts them in full, less than 1 where the resin prefers the wanted ions.
/// Holds at equilibrium with the water that runs in. Refuses water in which there is nothing wanted.
/// Source: Davis, Water and Wastewater Engineering (2010), equation 8-16; example 8-1.
pub fn useful_capacity(total: Q, wanted: Q, others: Q, selectivity: Q) -> Result<Q, Refusal> {
    above_zero(wanted, "The water holds nothing that the resin is to hold.")?;
    Ok(wanted * total / (wanted + others * selectivity))
}

/// Bed volumes that a capacity lasts: `q·u/C`.
///
/// `q` capacity per volume of bed, `u` share of it that is used before the bed is changed, `C` equivalents per
/// volume of water. Refuses water without load. Source: balance of equivalents.
pub fn bed_volumes(capacity: Q, used: Q, load: Q) -> Result<Q, Refusal> {
    above_zero(load, "Nothing in the water loads the resin.")?;
    Ok(capacity * used / load)
}

/// Time that a bed lasts at a flow: `BV·V/q`.
///
/// `BV` bed volumes by [`bed_volumes`], `V` volume of the bed, `q` flow. Refuses a flow that is not above zero.
/// Source: balance of volumes; Davis (2010), example 8-3.
pub fn run_length(bed_volumes: Q, bed: Q, flow: Q) -> Result<Q, Refusal> {
    above_zero(flow, "No water runs through the bed.")?;
    Ok(bed_volumes * bed / flow)
}

/// Service rate, in bed volumes per time: `q/V`. Refuses a bed without volume. Source: definition.
pub fn service_rate(flow: Q, bed: Q) -> Result<Q, Refusal> {
    above_zero(bed, "The bed has no volume.")?;
    Ok(flow / bed)
}

/// Bed for a service rate: `q/S`. Inverse of [`service_rate`]. Refuses a rate that is not above zero.
/// Source: definition.
pub fn bed_for(flow: Q, rate: Q) -> Result<Q, Refusal> {
    above_zero(rate, "At that service rate nothing flows.")?;
    Ok(flow / rate)
}

/// Time that water would stay in the bed if it were empty: `V/q`. Refuses a flow that is not above zero.
/// Source: definition.
pub fn contact_time(bed: Q, flow: Q) -> Result<Q, Refusal> {
    above_zero(flow, "No water runs through the bed.")?;
    Ok(bed / flow)
}

/// Water that a regeneration makes: `V·(Σ BV)` of regenerant and rinses.
/// Source: balance of volumes.
pub fn regeneration_waste(bed: Q, steps: &[Q]) -> Q {
    bed * steps.iter().copied().sum::<Q>()
}

/// Time that a regeneration takes: `Σ BV/S` of its steps, each with its bed volumes and service rate.
/// Refuses a step that does not flow. Source: definition.
pub fn regeneration_time(steps: &[(Q, Q)]) -> Result<Q, Refusal> {
    for (_, rate) in steps {
        above_zero(*rate, "A step of the regeneration does not flow.")?;
    }
    Ok(steps.iter().map(|(volumes, rate)| *volumes / *rate).sum())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{EQ_PER_L, MEQ_PER_L, MG_PER_L_METAL};

    /// periodictable 2.1.0: 30 mg/L of Ni²⁺ are 1.022261 meq/L, 10 mg/L of Ag⁺ 0.0927057.
    #[test]
    fn milligrams_become_equivalents_metal_by_metal() {
        for (metal, c, expected) in [("Ni", 30.0, 1.022261), ("Ag", 10.0, 0.09270573)] {
            let z = metal_charge(metal).unwrap();
            let found = equivalents(Q::constant("c", c, MG_PER_L_METAL), z, metal_molar_mass(metal).unwrap());
            assert!((found.unwrap().number(MEQ_PER_L) / expected - 1.0).abs() < 1e-4, "{metal}");
        }
        assert!(metal_molar_mass("Xx").is_err() && metal_charge("Ta").is_none());
    }

    /// Davis (2010), example 8-1: of 2 eq/L, calcium at 1.4 meq/L beside sodium at 2.6 takes about 1.0 eq/L.
    #[test]
    fn what_competes_takes_its_share_of_the_capacity() {
        let meq = |c| Q::constant("C", c, MEQ_PER_L);
        let total = Q::constant("q", 2.0, EQ_PER_L);
        let held = useful_capacity(total, meq(1.4), meq(2.6), Q::from(0.53)).unwrap();
        assert!((held.number(EQ_PER_L) - 1.0).abs() < 0.012);
        // Counted in full, what each holds is its share of the equivalents.
        let full = useful_capacity(total, meq(1.4), meq(2.6), Q::from(1.0)).unwrap();
        assert!((full.number(EQ_PER_L) - 0.7).abs() < 1e-12);
        assert!(useful_capacity(total, meq(0.0), meq(2.6), Q::from(1.0)).is_err());
    }

    #[test]
    fn the_names_of_ions_are_those_of_the_table() {
        assert!(IONS.iter().map(|(name, _)| name).eq(ION_NAMES));
        assert!(bed_volumes(Q::from(1.0), Q::from(1.0), Q::from(0.0)).is_err());
    }
}
