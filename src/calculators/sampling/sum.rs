//! What samples take of a bath, and the checklist.

use super::*;
use crate::calculator::{Row, Stop, Work};
use crate::calculators::class_of;
use crate::quantity::Q;
use crate::science::segregation::Class;

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let rows = w.rows(TABLE)?;
    if rows.is_empty() {
        let remedy = "Add what is sampled, or the sheet of the level of analysis.";
        return Err(Stop::todo("t_k", "No sample is listed", remedy));
    }
    let (mut soonest, mut taken): (Option<Q>, Option<Q>) = (None, None);
    for row in &rows {
        let [every, volume] = w.of(row, ["t_k", "v_n"])?;
        let often = w.give(row, "n_k", Q::from(1.0) / every)?;
        w.give(row, "n_y", often * Q::constant("30 days", 30.0, DAYS))?;
        let a_day = volume * often;
        soonest = Some(soonest.map_or(every, |known: Q| known.min(every)));
        taken = Some(taken.map_or(a_day, |known| known + a_day));
    }
    let (Some(soonest), Some(taken)) = (soonest, taken) else { return Ok(()) };
    let soonest = w.answer("t_n", soonest)?;
    let is_closed = w.word(&top, "port")? == CLOSED;
    let flush = if is_closed {
        let [held, times] = w.inputs(["v_0", "k_f"])?;
        held * times
    } else {
        Q::constant("none", 0.0, ML)
    };
    let flush = w.answer("v_f", flush)?;
    // One visit takes all that is due; there are as many as what is due most often has.
    let goes_back = is_closed && w.word(&top, "flush")? == GOES_BACK;
    let lost = if goes_back { taken } else { taken + flush / soonest };
    let lost = w.answer("Q_s", lost)?;
    if let Some(volume) = w.optional(&top, "V")? {
        w.answer("x_s", lost * Q::constant("1 day", 1.0, DAYS) / volume)?;
    }
    let class = class_of(w.word(&top, "class")?);
    let [temperature] = w.inputs(["T"])?;
    let is_hot = temperature > Q::constant("carried", CARRIED, CELSIUS);
    let bottle = match class {
        Class::Fluoride => PLASTIC,
        Class::Cyanide => APART,
        Class::Oxidiser => VENTED,
        Class::Solvent => EARTHED,
        _ => EITHER,
    };
    w.say(&top, "bottle", bottle)?;
    if !is_closed {
        let (severity, text) = if is_hot || ![Class::Alkaline, Class::Sulfite].contains(&class) {
            (Severity::Serious, "Nobody dips into this bath: have a closed port fitted in its circulation.")
        } else {
            (
                Severity::Caution,
                "A dipper splashes, brings dirt in and takes what is at the surface: a closed port is better.",
            )
        };
        w.add_finding(&top, "port", severity, text);
        return Ok(());
    }
    order(w, &rows, Visit { class, is_hot, bottle, flush, goes_back })
}

/// What a visit to the port has to mind.
struct Visit {
    class: Class,
    is_hot: bool,
    bottle: &'static str,
    flush: Q,
    goes_back: bool,
}

/// The steps, in order.
fn order(w: &mut Work, rows: &[Row], visit: Visit) -> Result<(), Stop> {
    let class = visit.class.name();
    let wear = if visit.is_hot {
        "face shield, apron and heat-proof gloves"
    } else {
        "face shield or goggles, apron and gloves"
    };
    w.instruct(None, format!("Put on {wear}, as the site’s rules ask for this bath (class: {class}). Eyewash and shower are free."), None);
    if [Class::Cyanide, Class::Fluoride, Class::Unknown].contains(&visit.class) {
        let who = "Call the second person. Only who is trained and licensed for it goes on, with the site’s own first aid ready.";
        w.instruct(None, who, None);
    }
    w.instruct(
        None,
        format!("Label the bottles: bath, component, date and hour, name. Bottle: {}.", visit.bottle),
        None,
    );
    w.instruct(
        None,
        "Read the labels of bath, port and bottle aloud. Pump on, bath mixed and at its temperature.",
        None,
    );
    let into =
        if visit.goes_back { "back into the bath" } else { "into the waste bottle of this bath’s class" };
    w.instruct(None, format!("Flush the port slowly, {into}:"), Some((visit.flush, ML)));
    for row in rows {
        let [volume] = w.of(row, ["v_n"])?;
        let text = format!("If it is due, fill the bottle for {}, nine tenths full at most:", row.key);
        w.instruct(Some(row), text, Some((volume, ML)));
    }
    w.instruct(None, "Shut the port, wait for the last drop, wipe; put the caps on; stand the bottles in the second vessel.", None);
    if visit.is_hot {
        w.instruct(None, "Let them cool there, under exhaust, below 40 °C before they are carried.", None);
    }
    let text = "Carry them in the second vessel. What is left over and what flushed goes to the route of this bath, never into a sink. Write down what was taken.";
    w.instruct(None, text, None);
    Ok(())
}
