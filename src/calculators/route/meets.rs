//! What meets on a route: what never may, what is watered down, and the pH that it comes to.

use super::{NOTHING_WEAK, SOME};
use crate::calculator::Severity::{Note, Serious};
use crate::calculator::{Row, Stop, Work};
use crate::calculators::{class_of, routes};
use crate::quantity::Q;
use crate::science::metals;
use crate::science::neutralisation::ph_of_strong;
use crate::science::regulation::SEWER_LEAST_PH;
use crate::science::segregation::Class;
use crate::units::{CELSIUS, L_PER_DAY, NUMBER};

/// Why valuable metal has a way of its own, whatever its concentration.
const WORTH: &str =
    ". It also holds valuable metal, which is reclaimed and not drained, however dilute it is";

/// What must never meet is refused, not added up: stream against the route, and stream against stream.
pub(super) fn refuse_what_must_not_meet(w: &Work, kind: &str, streams: &[Row]) -> Result<(), Stop> {
    let mut classes = Vec::new();
    for row in streams {
        classes.push((&*row.key, class_of(w.word(row, "class")?), w.word(row, "belongs")?));
    }
    // A route carries what it is there for, whatever else leads there today.
    let own = routes::own_water(kind);
    let carried = own.as_ref().map(|(name, class)| (&**name, *class));
    // A stream that the route itself does not bear comes first: it is the one to lead elsewhere.
    let against_route = classes.iter().flat_map(|one| carried.map(|other| (one, other)));
    let against_others = classes.iter().enumerate().flat_map(|(k, one)| {
        // Of two streams, the one to lead elsewhere is the one that does not belong here.
        let pair = move |other| if one.2 == kind { (other, one) } else { (one, other) };
        classes[k + 1..].iter().map(pair).map(|(one, other)| (one, (other.0, other.1)))
    });
    for ((name, class, belongs), (other, other_class)) in against_route.chain(against_others) {
        let Some(reason) = routes::conflict((name, *class), (other, other_class)) else { continue };
        let worth = if *belongs == routes::RECLAIM { WORTH } else { "" };
        let reason = format!("{reason}{worth}");
        let way = match *belongs {
            routes::FIND_OUT => "a route of its own class".into(),
            belongs if belongs == kind => "a route of its own class".into(),
            belongs => format!("a route for “{belongs}”"),
        };
        let remedy = format!("Lead {name} to {way}, with its own pipe, vent and container.");
        return Err(Stop::at("kind", reason, remedy).row(""));
    }
    Ok(())
}

/// A concentrate that meets a dilute stream is still a concentrate.
pub(super) fn watered_down(w: &mut Work, streams: &[Row]) -> Result<(), Stop> {
    let (mut rich, mut weak): (Vec<&str>, Vec<&str>) = (Vec::new(), Vec::new());
    for row in streams {
        match w.word(row, "belongs")? {
            routes::CONCENTRATE => rich.push(&row.key),
            routes::DILUTE | routes::ACID_BASE => weak.push(&row.key),
            _ => (),
        }
    }
    if !rich.is_empty() && !weak.is_empty() {
        let (rich, weak, top) = (rich.join(", "), weak.join(", "), w.top());
        let text = format!(
            "Concentrate ({rich}) and dilute water ({weak}) meet here: watering down changes neither the route that the concentrate belongs on nor the grams of metal, and all of it has to be treated."
        );
        w.add_finding(&top, "c_mix", Note, text);
    }
    Ok(())
}

/// Metals that meet in a concentrate are worth less to who recovers them.
pub(super) fn mixed_metals(w: &mut Work, kind: &str) -> Result<(), Stop> {
    if ![routes::CONCENTRATE, routes::RECLAIM].contains(&kind) {
        return Ok(());
    }
    let mut metals = Vec::new();
    for row in w.rows(metals::TABLE)? {
        if w.of::<1>(&row, ["m"])?[0].si > 0.0 {
            metals.push(row.key.to_string());
        }
    }
    if metals.len() > 1 {
        let text = format!(
            "{} meet here: mixed metals are worth less to who recovers them, and may be refused. A container for each keeps their worth.",
            metals.join(", ")
        );
        w.add_finding(&w.top(), "m_T", Note, text);
    }
    Ok(())
}

/// Where acid and alkaline streams meet, it heats.
pub(super) fn acid_and_alkaline(w: &mut Work, streams: &[Row]) -> Result<(), Stop> {
    let mut seen = (false, false);
    for row in streams {
        match class_of(w.word(row, "class")?) {
            Class::Acid => seen.0 = true,
            Class::Alkaline => seen.1 = true,
            _ => (),
        }
    }
    if seen == (true, true) {
        let top = w.top();
        let text = routes::acid_with_alkaline("Acid and alkaline streams meet here");
        w.add_finding(&top, "kind", Note, text);
    }
    Ok(())
}

/// pH of the mix, of strong acid and base alone: given only where that of every stream is known, and nothing in
/// them is weak, buffers or binds.
pub(super) fn mixed_ph(w: &mut Work, streams: &[Row], is_discharged: bool) -> Result<(), Stop> {
    let top = w.top();
    let weak = w.word(&top, "weak")?;
    let (mut all, mut acid) = (Q::constant("0", 0.0, L_PER_DAY), None);
    let (mut unlike, mut is_whole) = (Vec::new(), true);
    for row in streams {
        if !matches!(class_of(w.word(row, "class")?), Class::Acid | Class::Alkaline) {
            unlike.push(&*row.key);
        }
        let [volume] = w.of(row, ["Q_s"])?;
        let Some(e) = w.optional(row, "e_s")? else {
            is_whole = false;
            continue;
        };
        all = all + volume;
        acid = Some(acid.map_or(e * volume, |acid: Q| acid + e * volume));
    }
    let Some(acid) = acid.filter(|_| all.si > 0.0) else { return Ok(()) };
    if weak == SOME || !unlike.is_empty() {
        let of = if weak == SOME { "something weak, buffering or binding".into() } else { unlike.join(", ") };
        let text = format!(
            "The pH of this mix is measured, not worked out: with {of} in it strong acid and base alone do not tell it."
        );
        w.add_finding(&top, "pH_m", Note, text);
        return Ok(());
    }
    if !is_whole || weak != NOTHING_WEAK {
        return Ok(());
    }
    let acid = w.answer("e_m", acid / all)?;
    let ph = match ph_of_strong(acid, Q::constant("25 °C", 25.0, CELSIUS)) {
        Ok(ph) => w.answer("pH_m", ph)?,
        Err(refusal) => {
            w.add_finding(&top, "pH_m", Note, refusal.text());
            return Ok(());
        }
    };
    let text = format!(
        "pH {:.1} of the mix is an indication: of strong acid and base alone, without metal that falls. Measure it before anything relies on it.",
        ph.si
    );
    w.add_finding(&top, "pH_m", Note, text);
    if is_discharged {
        let least = Q::constant("least", SEWER_LEAST_PH, NUMBER);
        let why = "Nothing below pH 5 may go to a public sewer, 40 CFR 403.5(b)(2).";
        w.at_least(&top, "pH_m", least, Serious, why);
    }
    Ok(())
}
