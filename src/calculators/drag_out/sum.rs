//! The sum of the drag-out sheet.

use super::{DRAINED, PART, SPUN};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::rinse::{by_spinning, drag_out_film, film_volume, spin_film, spin_film_at_most};
use crate::science::{faraday, metals};
use crate::units::{DAYS, NUMBER};

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let how = w.word(&top, "how")?;
    let d_w = match how {
        SPUN => spun(w)?,
        DRAINED | PART => drained(w, how)?,
        _ => {
            let [gain, wafers, density] = w.inputs(["m_g", "n_g", "ρ"])?;
            gain / density / wafers
        }
    };
    let d_w = w.answer("d_w", d_w)?;
    if let Some(wanted) = w.optional(&top, "d_max")? {
        w.at_most(
            &top,
            "d_w",
            wanted,
            Severity::Caution,
            "Spin longer or faster, or let the holder drip off.",
        );
    }
    by_day(w, d_w)
}

/// A film on the face, and what it leaves out.
fn spun(w: &mut Work) -> Result<Q, Stop> {
    let top = w.top();
    let [diameter, speed, time, viscosity, density] = w.inputs(["D", "n_s", "t_s", "μ", "ρ"])?;
    let film = match w.optional(&top, "h_0")? {
        Some(start) => spin_film(start, speed, time, viscosity, density),
        None => spin_film_at_most(speed, time, viscosity, density),
    };
    let film = by_spinning(film.or_stop("t_s")?).or_stop("t_s")?;
    let film = w.answer("h_f", film)?;
    let face = Q::constant("one face", 1.0, NUMBER);
    let mut sum = w.answer("v_f", film_volume(diameter, film, face))?;
    if let Some(depth) = w.optional(&top, "d_p")?.filter(|depth| depth.si > 0.0) {
        let [edge, open] = w.inputs(["e", "open"])?;
        let area = faraday::plated_area(diameter, edge, open).or_stop("e")?;
        sum = sum + w.answer("v_p", area * depth)?;
    }
    let back = w.optional(&top, "v_b")?;
    let sum = back.map_or(sum, |back| sum + back);
    with_holder(w, sum, back.is_none())
}

/// A film by the table, on the surface.
fn drained(w: &mut Work, how: &str) -> Result<Q, Stop> {
    let part = w.word(&w.top(), "part")?;
    let film = w.answer("h_f", drag_out_film(part).or_stop("part")?)?;
    let volume = if how == DRAINED {
        let [diameter, faces] = w.inputs(["D", "faces"])?;
        film_volume(diameter, film, faces)
    } else {
        w.inputs::<1>(["A_p"])?[0] * film
    };
    let volume = w.answer("v_f", volume)?;
    with_holder(w, volume, true)
}

/// What the holder carries besides, and a note where nobody has typed anything beside the film.
fn with_holder(w: &mut Work, sum: Q, is_film_alone: bool) -> Result<Q, Stop> {
    let top = w.top();
    if let Some(holder) = w.optional(&top, "v_h")? {
        return Ok(sum + holder);
    }
    if is_film_alone {
        let text = "Holder, seal and edge are left out here: they often carry more than the face. Type it, or weigh some wafers.";
        w.add_finding(&top, "v_h", Severity::Note, text);
    }
    Ok(sum)
}

/// Volume and metal, by hour, day and year.
fn by_day(w: &mut Work, d_w: Q) -> Result<(), Stop> {
    let top = w.top();
    let [hours, days] = w.inputs(["hours", "days"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let a_day = match w.optional(&top, "N")? {
        Some(wafers) => {
            let a_day = w.answer("D_day", wafers * d_w)?;
            w.answer("D_h", a_day * one_day / hours)?;
            Some(a_day)
        }
        None => None,
    };
    let mut together: Option<Q> = None;
    for row in w.rows(metals::TABLE)? {
        let [held] = w.of(&row, ["c_M"])?;
        w.give(&row, "m_w", held * d_w)?;
        if let Some(a_day) = a_day {
            let metal = w.give(&row, "m_day", held * a_day)?;
            w.give(&row, "m_h", metal * one_day / hours)?;
            w.give(&row, "m_y", metal * days * one_day)?;
            together = Some(together.map_or(metal, |sum| sum + metal));
        }
    }
    together.map_or(Ok(()), |together| w.answer("m_T", together).map(drop))
}
