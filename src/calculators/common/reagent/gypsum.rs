//! Gypsum, which lime makes of sulfate.

use super::{BY_NAME, Stock, Water};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::lime;
use crate::science::neutralisation::none;
use crate::science::ph::Substance;
use crate::science::ph::substance::{Ion, Partner};
use crate::units::MOL_PER_L;

/// Gypsum that falls as lime meets sulfate, in a litre of the water with its reagent, and the sulfate left there;
/// `None` with another reagent, or where the sulfate is not known. `n` reagent to a litre of the water as it comes.
pub fn gypsum(w: &mut Work, water: &Water, stock: &Stock, n: Q) -> Result<Option<(Q, Q)>, Stop> {
    if !stock.is_lime() {
        return Ok(None);
    }
    let top = w.top();
    let molar_mass = Formula::read("SO4").or_stop("c_4")?.molar_mass();
    let is_named = w.word(&top, "given")? == BY_NAME;
    let has_sulfate = |substance: &Substance| substance.formula.contains("SO4");
    let named = || water.holds.iter().filter(|(substance, _)| has_sulfate(substance)).map(|(_, c)| *c);
    let sulfate = match w.optional(&top, "c_4")? {
        Some(typed) => typed / molar_mass,
        None if is_named => named().fold(none(), |sum, c| sum + c),
        None => {
            let text = "With sulfate lime makes gypsum, which is sludge and scale. Type the sulfate, or give what is dissolved.";
            w.add_finding(&top, "c_4", Severity::Caution, text);
            return Ok(None);
        }
    };
    let thinned = 1.0 / (1.0 + n / stock.strength);
    let calcium = w.step("C_Ca", "Calcium of the lime in the mixture", MOL_PER_L, n * thinned)?;
    let sulfate = w.step("C_S", "Sulfate in the mixture", MOL_PER_L, sulfate * thinned)?;
    // What is neither calcium nor sulfate: ions by name, or at least those that their charges call for.
    let by_charge = (calcium - sulfate).max(sulfate - calcium);
    let of = |(substance, c): &(&Substance, Q)| {
        let squares = |ion: &Ion| f64::from(ion.charge).powi(2) * ion.count;
        *c * thinned * (0.5 * substance.ions.iter().map(squares).sum::<f64>())
    };
    let sodium_in = |(substance, c): &(&Substance, Q)| {
        let ions = substance.ions.iter().filter(|ion| ion.partner == Some(Partner::Sodium));
        *c * thinned * ions.map(|ion| ion.count).sum::<f64>()
    };
    let (others, sodium) = if is_named {
        let others = water.holds.iter().map(of).fold(none(), |sum, c| sum + c);
        (others.max(by_charge), water.holds.iter().map(sodium_in).fold(none(), |sum, c| sum + c))
    } else {
        (by_charge, none().max(2.0 * (sulfate - calcium)))
    };
    let others = w.step("I_o", "Ionic strength of all other ions", MOL_PER_L, others)?;
    let sodium = w.step("C_Na", "Sodium in the mixture", MOL_PER_L, sodium)?;
    let falls = lime::gypsum(calcium, sulfate, sodium, others, water.t).or_stop("T")?;
    let falls = w.step("C_g", "Gypsum that falls, of the mixture", MOL_PER_L, falls)?;
    if falls.si > 0.0 {
        let text = "Gypsum falls: it is sludge beside the hydroxide, and goes on falling as scale in pipes, pumps and probes.";
        w.add_finding(&top, "m_g", Severity::Caution, text);
    }
    let gypsum = falls * Formula::read("CaSO4·2H2O").or_stop("c_4")?.molar_mass();
    Ok(Some((gypsum, (sulfate - falls) * molar_mass)))
}
