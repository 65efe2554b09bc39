//! Which way suits: a rule of the trade, common practice, no source.

use super::*;
use crate::calculator::{Severity, Stop, Work};
use crate::calculators::bath_inputs::{density_or_usual, heat_capacity_or_usual};
use crate::calculators::choose::choose;
use crate::calculators::class_of;
use crate::science::segregation::Class;

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let class = class_of(w.word(&top, "class")?);
    let is_electric = w.word(&top, "source")? == heat_up::ELECTRIC;
    let is_yes = |symbol| w.word(&top, symbol).map(|word| word == YES);
    let (stands, fouls, beside) = (is_yes("eats")?, is_yes("fouls")?, is_yes("beside")?);

    let [heat, change] = w.inputs(["Q", "ΔT_l"])?;
    let [rho, c_p] = [density_or_usual(w)?, heat_capacity_or_usual(w)?];
    let needed = w.answer("q_n", heat.max(-heat) / (rho * c_p * change))?;
    let area = if is_electric { None } else { w.optional(&top, "A")?.filter(|area| area.si > 0.0) };
    let fits = match area {
        Some(area) => {
            let [free] = w.inputs(["A_f"])?;
            Some(w.answer("A_s", free - area)?.si >= 0.0)
        }
        // An electric heater takes little room.
        None => is_electric.then_some(true),
    };
    let flows = w.optional(&top, "q_l")?.map(|there| there >= needed);

    let criteria = [("by_b", BURNS), ("by_a", ATTACK), ("by_r", ROOM), ("by_q", FLOW), ("by_f", FOULS)];
    let choice = choose(w, WAYS, &ORDER, &criteria, |way, criterion| match (way, criterion) {
        (IN_TANK, "by_b") => Some(class == Class::Solvent),
        (IN_TANK, "by_a") => Some(!stands),
        (IN_TANK, "by_r") => fits.map(|fits| !fits),
        (INLINE, "by_r") => Some(!beside),
        (INLINE, "by_q") => flows.map(|flows| !flows),
        (INLINE, "by_f") => Some(fouls),
        _ => Some(false),
    })?;
    w.say(&top, "way", choice.suits.unwrap_or(NEITHER))?;
    w.say(&top, "why", choice.why)?;
    if choice.suits.is_none() {
        let text = "Neither suits: make room in the tank or beside it, pump more of the bath round, or choose what the liquid does not attack.";
        w.add_finding(&top, "way", Severity::Caution, text);
    }
    choice.check_plan(w, "plan")
}
