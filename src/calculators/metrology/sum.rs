//! Which tools, and how many of each: a rule of the trade, common practice, no source.

use super::*;
use crate::calculator::{Row, Severity, Stop, Work};
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
    additives: Told,
    ph: Told,
    groups: Vec<&'static str>,
    classes: Vec<Class>,
}

/// What is told of all baths together: that one has it, or of which it is not known.
#[derive(Default)]
struct Told {
    is_there: bool,
    open: Vec<String>,
}

impl Told {
    fn add(&mut self, row: &Row, said: Option<bool>) {
        match said {
            Some(is_there) => self.is_there |= is_there,
            None => self.open.push(row.key.to_string()),
        }
    }

    fn is_open(&self) -> bool {
        !self.is_there && !self.open.is_empty()
    }
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
    let no_additives = if found.additives.is_open() { ADDITIVES_OPEN } else { NO_ADDITIVES };
    let no_ph = if found.ph.is_open() { PH_OPEN } else { NO_PH };
    let tools = [
        (MICROSCOPE, REQUIRED, true, [EVERY_WAFER; 2], sets),
        (FOUR_POINT, REQUIRED, found.blanket, [BLANKET_FILM, NO_BLANKET], sets),
        (PROFILE, REQUIRED, found.patterned, [PATTERN, NO_PATTERN], sets),
        // A section is cut out of a wafer that goes nowhere any more.
        (SECTION, RECOMMENDED, found.stack, [STACK, NO_STACK], 1),
        (STRESS, RECOMMENDED, found.thick, [THICK, THIN], sets),
        (CELL, RECOMMENDED, found.additives.is_there, [ADDITIVES, no_additives], benches),
        (PH_PROBE, RECOMMENDED, found.ph.is_there, [PH_HELD, no_ph], benches),
    ];
    let mut counts = [0.0; 3];
    for (tool, need, is_wanted, [yes, no], of_it) in tools {
        let row = w.row(TOOLS, tool)?;
        let need = match no {
            _ if is_wanted => need,
            ADDITIVES_OPEN | PH_OPEN => NOT_SAID,
            _ => NOT_NEEDED,
        };
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
    let asks = [
        (
            &found.additives,
            "u_a",
            "has additives",
            "Finish its make-up, or type what is dosed a day, 0 for none.",
        ),
        (&found.ph, "held", "is run on its pH", "Finish its make-up, or choose it in the table."),
    ];
    for (told, at, what, remedy) in asks.into_iter().filter(|(told, ..)| told.is_open()) {
        let text = format!("Whether it {what} is not known of: {}. {remedy}", told.open.join(", "));
        w.add_finding(&top, at, Severity::Caution, text);
    }
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
    let mut counted = 0;
    for row in &rows {
        if plates_nothing(w, row)? {
            w.say(row, "is_f", NOTHING)?;
            w.say(row, "is_t", NOTHING)?;
            continue;
        }
        counted += 1;
        let Some(d) = w.optional(row, "d")? else {
            let reason = format!("{}: its thickness is still to be typed", row.key);
            let remedy = format!("Type it, finish its plating load, or choose that it “{NOTHING}”.");
            return Err(Stop::todo("d", reason, remedy).row(&row.key));
        };
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
        let is_thick = d >= thick;
        w.say(row, "is_t", if is_thick { THICK } else { THIN_ONE })?;
        found.thick |= is_thick;
        found.stack |= w.word(row, "on")? == YES;
        let dosed = w.optional(row, "u_a")?.map(|used| used.si > 0.0);
        let made = said(w, row, "adds_b")?;
        found.additives.add(row, if dosed == Some(true) { dosed } else { made.or(dosed) });
        let class = class_of(w.word(row, "class")?);
        let is_held = match (w.word(row, "held")?, class) {
            (AS_CLASS, Class::Oxidiser | Class::Solvent) => Some(false),
            // Acid may be strong or weak, and the unknown may be anything.
            (AS_CLASS, Class::Acid | Class::Unknown) => said(w, row, "held_b")?,
            (AS_CLASS, _) => Some(true),
            (held, _) => Some(held == YES),
        };
        found.ph.add(row, is_held);
        let group = w.word(row, "group")?;
        if !found.groups.contains(&group) {
            found.groups.push(group);
        }
        if !found.classes.contains(&class) {
            found.classes.push(class);
        }
    }
    if counted == 0 {
        return Err(Stop::todo(
            "plates",
            "No bath of the list plates anything",
            "Add what is plated, with its thickness.",
        ));
    }
    Ok(found)
}

/// Whether a bath is left out: as chosen, or as its make-up says where no thickness is known.
fn plates_nothing(w: &Work, row: &Row) -> Result<bool, Stop> {
    Ok(match w.word(row, "plates")? {
        AS_MADE => w.optional(row, "d")?.is_none() && said(w, row, "metal_b")? == Some(false),
        chosen => chosen == NOTHING,
    })
}

/// What its make-up says of a bath, if it does.
fn said(w: &Work, row: &Row, symbol: &str) -> Result<Option<bool>, Stop> {
    if w.optional(row, symbol)?.is_none() {
        return Ok(None);
    }
    Ok(match w.word(row, symbol)? {
        sort::YES => Some(true),
        sort::NO => Some(false),
        _ => None,
    })
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
