//! Sludge of hydroxides: dry, wet and pressed.

use crate::quantity::Q;
use crate::science::Refusal;
use crate::science::bounds::{positive, share};
use crate::science::formula::Formula;

/// Dry solid that a flow of metal falls as: `m/x_M`.
///
/// m metal in a time, x_M share of metal in the solid. Exact; a fresh hydroxide holds water that only drying drives off.
/// Source: atomic weights, IUPAC 2021.
pub fn dry_solid(metal: Q, solid: &str, symbol: &str) -> Result<Q, Refusal> {
    Ok(metal / Formula::read(solid)?.metal_fraction(symbol)?)
}

/// Wet sludge that dry solid makes: `m/x`.
///
/// m dry solid in a time, x share of dry solid in the sludge, above 0 and at most 1. Exact: what is not solid is water.
pub fn wet_sludge(dry: Q, solids: Q) -> Result<Q, Refusal> {
    Ok(dry / share(solids, "the share of solids")?)
}

/// Its volume: `m_w·(x/ρ_s + (1 − x)/ρ_w)`.
///
/// m_w wet sludge, x share of dry solid, ρ_s density of the solid, ρ_w of water. Volumes of solid and water add;
/// a cake that holds air takes up more. Source: conservation of mass.
pub fn sludge_volume(wet: Q, solids: Q, solid_density: Q, water_density: Q) -> Result<Q, Refusal> {
    let solids = share(solids, "the share of solids")?;
    let each = positive(solid_density, "the density of the solid")?;
    Ok(wet * (solids / each + (1.0 - solids) / positive(water_density, "the density of water")?))
}
