//! Which tools, and how many of each: a rule of the trade, common practice, no source.

use super::*;
use crate::calculator::{Severity, Stop, Work};
use crate::calculators::class_of;
use crate::quantity::Q;
use crate::science::segregation::{Class, must_not_meet};

/// From this share of the wafer on a film is blanket.
const WHOLE: f64 = 0.995;

/// What the layers come to together.
#[derive(Default)]
struct Found {
    blanket: bool,
    patterned: bool,
    stack: bool,
    thick: bool,
    additives: bool,
    ph: bool,
    groups: Vec<&'static str>,
    classes: Vec<Class>,
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let found = layers(w)?;
    let is_apart = w.word(&top, "rule")? == APART;
    let is_free = w.word(&top, "other")? == FREE;
    let groups = found.groups.len() + usize::from(is_free);
    let (sets, why) = match (is_apart, groups, is_free) {
        (_, 1, _) => (1, ONE_GROUP),
        (false, ..) => (1, ALLOWED),
        (_, _, true) => (groups, OTHERS),
        _ => (groups, GROUPS),
    };
    // What must not meet in a bottle shares no probe and no cell.
    let benches = benches(&found.classes);
    let tools = [
        (MICROSCOPE, REQUIRED, true, [EVERY_WAFER; 2], sets),
        (FOUR_POINT, REQUIRED, found.blanket, [BLANKET_FILM, NO_BLANKET], sets),
        (PROFILE, REQUIRED, found.patterned, [PATTERN, NO_PATTERN], sets),
        // A section is cut out of a wafer that goes nowhere any more.
        (SECTION, RECOMMENDED, found.stack, [STACK, NO_STACK], 1),
        (STRESS, RECOMMENDED, found.thick, [THICK, THIN], sets),
        (CELL, RECOMMENDED, found.additives, [ADDITIVES, NO_ADDITIVES], benches),
        (PH_PROBE, RECOMMENDED, found.ph, [PH_HELD, NO_PH], benches),
    ];
    let mut counts = [0.0; 3];
    for (tool, need, is_wanted, [yes, no], of_it) in tools {
        let row = w.row(TOOLS, tool)?;
        let need = if is_wanted { need } else { NOT_NEEDED };
        let of_it = if is_wanted { of_it } else { 0 };
        w.say(&row, "need", need)?;
        w.say(&row, "why", if is_wanted { yes } else { no })?;
        w.say(
            &row,
            "share",
            match of_it {
                0 => NO_TOOL,
                1 => ONE,
                _ => EACH,
            },
        )?;
        w.give(&row, "n", count(of_it as f64))?;
        counts[0] += f64::from(need == REQUIRED);
        counts[1] += f64::from(need == RECOMMENDED);
        counts[2] += of_it as f64;
    }
    w.answer("n_r", count(counts[0]))?;
    w.answer("n_c", count(counts[1]))?;
    w.answer("n_g", count(groups as f64))?;
    w.answer("n_t", count(counts[2]))?;
    w.say(&top, "why_g", why)?;
    if why == ALLOWED {
        let text = "Wafers of several groups share tools: the rule of the site must allow it, in writing.";
        w.add_finding(&top, "rule", Severity::Caution, text);
    }
    Ok(())
}

fn count(number: f64) -> Q {
    Q::constant("counted", number, NUMBER)
}

/// What each layer asks for.
fn layers(w: &mut Work) -> Result<Found, Stop> {
    let rows = w.rows(LAYERS)?;
    let [thick] = w.inputs(["d_s"])?;
    let mut found = Found::default();
    if rows.is_empty() {
        return Err(Stop::todo("d", "No layer is listed", "Add what is plated, with its thickness."));
    }
    for row in &rows {
        let film = match w.word(row, "film")? {
            AS_OPEN => {
                let Some(open) = w.optional(row, "open")? else {
                    let reason = format!("{}: its open area is not known", row.key);
                    return Err(Stop::todo("film", reason, "Choose what its film is.").row(&row.key));
                };
                if open.si >= WHOLE { BLANKET } else { PATTERNED }
            }
            film => film,
        };
        w.say(row, "is_f", film)?;
        found.blanket |= film != PATTERNED;
        found.patterned |= film != BLANKET;
        let [d] = w.of(row, ["d"])?;
        let is_thick = d >= thick;
        w.say(row, "is_t", if is_thick { THICK } else { THIN_ONE })?;
        found.thick |= is_thick;
        found.stack |= w.word(row, "on")? == YES;
        found.additives |= w.optional(row, "u_a")?.is_some_and(|used| used.si > 0.0);
        let class = class_of(w.word(row, "class")?);
        let is_held = match w.word(row, "held")? {
            AS_CLASS => ![Class::Acid, Class::Oxidiser, Class::Solvent].contains(&class),
            held => held == YES,
        };
        found.ph |= is_held;
        let group = w.word(row, "group")?;
        if !found.groups.contains(&group) {
            found.groups.push(group);
        }
        if !found.classes.contains(&class) {
            found.classes.push(class);
        }
    }
    Ok(found)
}

/// How many benches it takes so that on none of them what must not meet does: each class goes to the first one
/// where nothing speaks against it.
fn benches(classes: &[Class]) -> usize {
    let mut benches: Vec<Vec<Class>> = Vec::new();
    for class in classes {
        let free =
            benches.iter_mut().find(|on| on.iter().all(|other| must_not_meet(*class, *other).is_none()));
        match free {
            Some(on) => on.push(*class),
            None => benches.push(vec![*class]),
        }
    }
    benches.len()
}
