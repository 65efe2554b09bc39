//! The floor that places take, with the clearance for service all round.

use super::sum::{Bill, TAKEN};
use super::{BATHS, ITEMS, basis, own};
use crate::calculator::{Row, Stop, Work};
use crate::quantity::Q;

/// `n` pieces of these two sides, with the clearance all round each.
pub fn add(w: &mut Work, bill: &mut Bill, name: &str, n: Q, [b, t, c]: [Q; 3]) -> Result<(), Stop> {
    bill.add(w, &TAKEN, name, basis::STANDS, n * b * t, n * (b + 2.0 * c) * (t + 2.0 * c))?;
    Ok(())
}

/// The floor of a place, if its sides are typed; whether they are.
pub fn of_place(w: &mut Work, bill: &mut Bill, row: &Row, sides: [&str; 3]) -> Result<bool, Stop> {
    let (Some(b), Some(t)) = (w.optional(row, sides[0])?, w.optional(row, sides[1])?) else {
        return Ok(false);
    };
    let [c] = w.of(row, [sides[2]])?;
    add(w, bill, &row.key, Q::from(1.0), [b, t, c])?;
    Ok(true)
}

/// Names the baths whose floor is neither typed nor in an item of the user's own.
pub fn missing(w: &Work, bill: &mut Bill) -> Result<(), Stop> {
    let mut is_own = false;
    for row in w.rows(ITEMS)? {
        is_own |= w.word(&row, "sort")? == own::FLOOR;
    }
    for row in w.rows(BATHS)? {
        let is_typed = w.optional(&row, "b_b")?.is_some() && w.optional(&row, "t_b")?.is_some();
        if !is_typed && !is_own {
            bill.unknown.push(format!("{}: its floor", row.key));
        }
    }
    Ok(())
}
