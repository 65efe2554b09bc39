//! Where each unit stands: a rule of the trade, common practice, no source.

use super::*;
use crate::calculator::{Severity, Stop, Work};
use crate::calculators::choose::first;
use crate::quantity::Q;
use crate::science::container::lifting_limit;

/// What the building and the units allow.
struct Site {
    has_floor: bool,
    lifts: bool,
    gets_out: bool,
    room: &'static str,
    has_top: bool,
    is_inline: bool,
}

impl Site {
    /// What speaks first against a unit at a place.
    fn against(&self, unit: &str, place: &str) -> Option<&'static str> {
        let has = |is: bool, why: &'static str| is.then_some(why);
        let no_room = match unit {
            SUPPLY | HEAT => self.room == FOR_NONE,
            // It stands at the lowest point of its drain, wherever that is.
            LIFT => false,
            _ => self.room != FOR_ALL,
        };
        let is_waste = ![SUPPLY, HEAT].contains(&unit);
        match place {
            BESIDE => has(no_room, NO_ROOM),
            BELOW => has(!self.has_floor, NO_FLOOR)
                .or(has(unit == SUPPLY && !self.lifts, PUMP))
                .or(has(unit == COLLECTION && !self.gets_out, NO_WAY))
                .or(has(unit == HEAT && self.is_inline, RUNS)),
            _ => has(is_waste, UPHILL)
                .or(has(unit == SUPPLY || self.is_inline, LEAK))
                .or(has(!self.has_top, NO_TOP)),
        }
    }
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let site = site(w)?;
    let rows = w.rows(DRAINS)?;
    // Drains that do not fall far enough: to treatment, and to collection.
    let mut short = [0_u32; 2];
    for row in &rows {
        let [spare] = w.of(row, ["h"])?;
        let is_short = spare.si < 0.0;
        short[usize::from(w.word(row, "to")? == TO_COLLECTION)] += u32::from(is_short);
        w.say(row, "runs", if is_short { BY_LIFT } else { BY_GRAVITY })?;
    }
    let all_short = short[0] + short[1];
    // What stands below needs no lift, whatever its drain would fall on this floor.
    let below = |unit| placed(&site, unit, &[BELOW, BESIDE], FALLS).0 == BELOW;
    let fall_below = [below(TREATMENT), below(COLLECTION)];
    let is_lifted = (0..2).any(|k| short[k] > 0 && !fall_below[k]);
    let mut counts = [0.0; 3];
    for unit in [SUPPLY, TREATMENT, LIFT, COLLECTION, HEAT] {
        let row = w.row(UNITS, unit)?;
        for (symbol, place) in [("by_s", BESIDE), ("by_b", BELOW), ("by_a", ABOVE)] {
            w.say(&row, symbol, site.against(unit, place).unwrap_or(NOTHING))?;
        }
        let (place, why) = match unit {
            LIFT if fall_below == [true, true] => (NONE, FALLS),
            LIFT if rows.is_empty() => (NOT_KNOWN, NO_DRAIN),
            LIFT if is_lifted => (BESIDE, SHORT),
            LIFT => (NONE, if all_short > 0 { FALLS } else { ENOUGH }),
            SUPPLY | HEAT => placed(&site, unit, &[BESIDE, BELOW, ABOVE], SHORTEST),
            _ => match placed(&site, unit, &[BELOW, BESIDE], FALLS) {
                (BESIDE, _) if short[usize::from(unit == COLLECTION)] > 0 => (BEHIND, SHORT),
                placed => placed,
            },
        };
        w.say(&row, "where", place)?;
        w.say(&row, "why", why)?;
        match place {
            BESIDE | BEHIND => counts[0] += 1.0,
            BELOW => counts[1] += 1.0,
            ABOVE => counts[2] += 1.0,
            NOWHERE => {
                let text = format!("{unit}: {why}, and no other place does. Make room, or move the line.");
                w.add_finding(&row, "where", Severity::Caution, text);
            }
            _ => {}
        }
    }
    for (symbol, number) in ["n_s", "n_b", "n_a"].into_iter().zip(counts) {
        w.answer(symbol, Q::constant("counted", number, NUMBER))?;
    }
    w.answer("n_d", Q::constant("counted", f64::from(all_short), NUMBER))?;
    if site.is_inline && w.word(&top, "heat")? == NEITHER {
        let text = "For some bath neither coil nor inline unit suits: see its sheet of that choice.";
        w.add_finding(&top, "heat", Severity::Note, text);
    }
    Ok(())
}

/// The first of the places that nothing speaks against.
fn placed(
    site: &Site,
    unit: &str,
    places: &[&'static str],
    simplest: &'static str,
) -> (&'static str, &'static str) {
    let (place, why) = first(places, simplest, |place| site.against(unit, place));
    (place.unwrap_or(NOWHERE), why)
}

fn site(w: &mut Work) -> Result<Site, Stop> {
    let top = w.top();
    let has_floor = w.word(&top, "floor")? == FLOOR;
    let (mut lifts, mut gets_out) = (true, true);
    let [rho, pumps] = w.inputs(["ρ", "h_p"])?;
    if has_floor {
        let [z] = w.inputs(["z"])?;
        let height = w.answer("h_z", z * rho / Q::constant("1 kg/L", 1.0, KG_PER_L))?;
        lifts = height <= pumps;
        let is_carried = w.optional(&top, "m")?.is_some_and(|mass| mass <= lifting_limit());
        gets_out = is_carried || w.word(&top, "way")? == YES;
    }
    Ok(Site {
        has_floor,
        lifts,
        gets_out,
        room: w.word(&top, "room")?,
        has_top: w.word(&top, "top")? == YES,
        is_inline: w.word(&top, "heat")? != IN_TANK,
    })
}
