//! The floor that places take, with the clearance for service all round.

use super::sum::{Bill, TAKEN};
use super::{ITEMS, basis, own};
use crate::calculator::{Row, Stop, Work};
use crate::quantity::Q;

/// `n` pieces of these two sides, with the clearance all round each.
pub fn add(w: &mut Work, bill: &mut Bill, name: &str, n: Q, [b, t, c]: [Q; 3]) -> Result<(), Stop> {
    bill.add(w, &TAKEN, name, basis::STANDS, n * b * t, n * (b + 2.0 * c) * (t + 2.0 * c))?;
    Ok(())
}

/// Whether the user gives floors as items of their own: these may hold any place.
fn is_own(w: &Work) -> Result<bool, Stop> {
    let mut is_own = false;
    for row in w.rows(ITEMS)? {
        is_own |= w.word(&row, "sort")? == own::FLOOR;
    }
    Ok(is_own)
}

/// Names a floor that is neither typed nor may be in an item of the user's own.
pub fn missing(w: &Work, bill: &mut Bill, what: String) -> Result<(), Stop> {
    if !is_own(w)? {
        bill.unknown.push(what);
    }
    Ok(())
}

/// The floor of a place, if its sides are typed; else it is named, as `what` of that place stands on it.
pub fn of_place(
    w: &mut Work,
    bill: &mut Bill,
    row: &Row,
    sides: [&str; 3],
    what: Option<&str>,
) -> Result<(), Stop> {
    match (w.optional(row, sides[0])?, w.optional(row, sides[1])?, what) {
        (Some(b), Some(t), _) => {
            let [c] = w.of(row, [sides[2]])?;
            add(w, bill, &row.key, Q::from(1.0), [b, t, c])
        }
        (.., Some(what)) => missing(w, bill, format!("{}: floor of {what}", row.key)),
        _ => Ok(()),
    }
}
