//! Correcting a working bath: what to draw off and what to add, for several components at once.
//!
//! Balances of substance, with volumes taken as additive and solids as without volume; that is good to
//! about one part in a hundred of what is added, and the analysis after it decides. Checked against numpy
//! and sympy; no published example of a plating bath was found.

use crate::quantity::Q;
use crate::science::Refusal;
use crate::science::bounds::above_zero;
use crate::units::{KG, L};

/// What is in the bath and should be.
pub struct Component<'a> {
    /// Its name.
    pub name: &'a str,
    /// Found by analysis, g/L.
    pub measured: Q,
    /// Wanted, g/L; `None` to leave it as it comes.
    pub target: Option<Q>,
    /// In the liquid that fills up, g/L; `None` in water.
    pub in_fill: Option<Q>,
}

/// What corrects one of the components.
pub struct Stock {
    /// The component that it is there for.
    pub of: usize,
    /// Whether it takes up room: a liquid in litres, or a solid in kilograms.
    pub is_liquid: bool,
    /// What it holds of which component: kg/m³ of a liquid, kg in a kg of a solid.
    pub holds: Vec<(usize, f64)>,
}

/// How full the bath is at the end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Filled to the mark with water, or what stands for it.
    Mark,
    /// As high as it comes with what is added, and no water.
    AsItComes,
}

/// How much is drawn off first.
#[derive(Clone, Copy)]
pub enum Draw {
    /// As little as will do.
    Least,
    /// This much.
    Fixed(Q),
}

/// A tank.
pub struct Tank {
    /// What was in it when the sample was taken.
    pub now: Q,
    /// Full to the mark.
    pub mark: Q,
    /// How full at the end.
    pub end: End,
}

/// A correction.
pub struct Correction {
    /// To draw off first.
    pub draw: Q,
    /// To add of each stock, in kg or in m³.
    pub amounts: Vec<Q>,
    /// To fill up with.
    pub fill: Q,
    /// The volume at the end.
    pub end: Q,
    /// Which condition the least draw-off was set by; `None` if nothing has to be drawn off.
    pub set_by: Option<String>,
}

/// `zero + slope·x ≥ 0`, and what it means in words.
struct Condition {
    zero: f64,
    slope: f64,
    what: String,
}

/// What to draw off and to add, so that every component with a stock comes to its target, and none that
/// has no stock stands above it.
///
/// Each stock has a component of its own; the balances are solved as linear equations for the amounts,
/// which are straight lines over the volume drawn off: the least of these for which nothing is negative,
/// and everything finds room. Refuses, by the name of the component, what cannot be.
pub fn correct(
    tank: &Tank,
    parts: &[Component],
    stocks: &[Stock],
    draw: Draw,
) -> Result<Correction, Refusal> {
    let (now, mark) = (tank.now.si, tank.mark.si);
    if !(now > 0.0 && mark > 0.0) {
        return Err(Refusal::new("a tank without volume holds nothing", "Type the volumes."));
    }
    if now > mark * (1.0 + 1e-9) {
        return Err(Refusal::new("there is more in the tank than to the mark", "Check the two volumes."));
    }
    let lines = amounts(tank, parts, stocks)?;
    let conditions = conditions(tank, parts, stocks, &lines);
    let arguments: Vec<Q> = [tank.now, tank.mark]
        .into_iter()
        .chain(parts.iter().flat_map(|part| [Some(part.measured), part.target]).flatten())
        .collect();
    let hair = 1e-9 * mark;
    let (draw, set_by) = match draw {
        Draw::Fixed(x) => {
            if x.si > now {
                return Err(Refusal::new("more would be drawn off than is there", "Draw off less."));
            }
            let scale = |condition: &&Condition| {
                condition.zero + condition.slope * x.si < -1e-9 * condition.zero.abs().max(hair)
            };
            if let Some(broken) = conditions.iter().find(scale) {
                let remedy = "Draw off another volume, let it find the least, or accept another target.";
                return Err(Refusal::new(format!("with this draw-off {}", broken.what), remedy));
            }
            (x, None)
        }
        Draw::Least => {
            let (x, set_by) = least(&conditions, now)?;
            (Q::call("least draw-off for", &arguments, L.from_si(x), L), set_by)
        }
    };
    let arguments: Vec<Q> = arguments.into_iter().chain([draw]).collect();
    let amounts: Vec<Q> = lines
        .iter()
        .zip(stocks)
        .map(|((zero, slope), stock)| {
            let amount = (zero + slope * draw.si).max(0.0);
            let unit = if stock.is_liquid { L } else { KG };
            Q::call("from the balances of", &arguments, unit.from_si(amount), unit)
        })
        .collect();
    let no_liquid = Q::constant("no liquid", 0.0, L);
    let liquids: Q = amounts
        .iter()
        .zip(stocks)
        .filter(|(_, stock)| stock.is_liquid)
        .map(|(a, _)| *a)
        .fold(no_liquid, |a, b| a + b);
    let (fill, end) = level(tank, draw, liquids);
    Ok(Correction { draw, amounts, fill, end, set_by })
}

/// What is left to fill up with, and the volume at the end.
pub fn level(tank: &Tank, draw: Q, liquids: Q) -> (Q, Q) {
    let left = tank.now - draw;
    let none = Q::constant("none", 0.0, L);
    match tank.end {
        End::Mark => {
            let fill = tank.mark - left - liquids;
            // To rounding, where the last litre of room is what set the draw-off.
            (if fill.si.abs() < 1e-9 * tank.mark.si { none } else { fill }, tank.mark)
        }
        End::AsItComes => (none, left + liquids),
    }
}

/// How much of its stock a component takes, once what else brings of it is known: its balance, for one amount.
///
/// `(C_t·V_e − C·(V − x) − what else brings of it)/S`.
pub fn amount(part: &Component, left: Q, end: Q, others: Option<Q>, strength: Q) -> Option<Q> {
    let missing = part.target? * end - part.measured * left;
    Some(others.map_or(missing, |others| missing - others) / strength)
}

/// The concentration of a component that a correction leaves: what stays, what is added, over the volume.
pub fn reached(tank: &Tank, part: &Component, found: &Correction, added: Option<Q>) -> Result<Q, Refusal> {
    let end = above_zero(found.end, "nothing is left in the tank")?;
    let stays = part.measured * (tank.now - found.draw);
    let filled = part.in_fill.map(|c| c * found.fill);
    Ok([added, filled].into_iter().flatten().fold(stays, |sum, more| sum + more) / end)
}

/// The amounts of the stocks, each as a line over the volume drawn off: at none, and for each m³.
fn amounts(tank: &Tank, parts: &[Component], stocks: &[Stock]) -> Result<Vec<(f64, f64)>, Refusal> {
    let (now, mark) = (tank.now.si, tank.mark.si);
    let mut rows: Vec<Vec<f64>> = Vec::new();
    for stock in stocks {
        let Some((part, target)) = parts.get(stock.of).and_then(|part| Some((part, part.target?.si))) else {
            return Err(Refusal::new(
                "something is to be added that no target asks for",
                "Type what the component is to come to, or take its stock away.",
            ));
        };
        let (c, fill) = (part.measured.si, part.in_fill.map_or(0.0, |c| c.si));
        let coefficient = |other: &Stock| {
            let holds: f64 = other.holds.iter().filter(|(of, _)| *of == stock.of).map(|(_, s)| s).sum();
            let thins = match tank.end {
                End::Mark => fill,
                End::AsItComes => target,
            };
            holds - if other.is_liquid { thins } else { 0.0 }
        };
        let mut row: Vec<f64> = stocks.iter().map(coefficient).collect();
        row.extend(match tank.end {
            End::Mark => [target * mark - now * c - fill * (mark - now), c - fill],
            End::AsItComes => [now * (target - c), c - target],
        });
        let own = row.get(rows.len()).copied().unwrap_or(0.0);
        if own <= 0.0 {
            return Err(Refusal::new(
                format!("the stock for {} is no stronger than what it is to bring it to", part.name),
                "Take a stronger stock, or a solid.",
            ));
        }
        rows.push(row);
    }
    solve(rows).ok_or_else(|| {
        Refusal::new(
            "two stocks bring the same things in the same shares, so neither can be told from the other",
            "Take one of them away.",
        )
    })
}

/// Solves the equations, each row with two right sides.
fn solve(mut rows: Vec<Vec<f64>>) -> Option<Vec<(f64, f64)>> {
    let n = rows.len();
    for k in 0..n {
        let pivot = (k..n).max_by(|a, b| rows[*a][k].abs().total_cmp(&rows[*b][k].abs()))?;
        rows.swap(k, pivot);
        let scale = rows[k][..n].iter().fold(0.0f64, |a, b| a.max(b.abs()));
        if rows[k][k].abs() <= 1e-12 * scale {
            return None;
        }
        let top = rows[k].clone();
        for (_, row) in rows.iter_mut().enumerate().filter(|(i, _)| *i != k) {
            let factor = row[k] / top[k];
            row.iter_mut().zip(&top).for_each(|(a, b)| *a -= factor * b);
        }
    }
    Some((0..n).map(|k| (rows[k][n] / rows[k][k], rows[k][n + 1] / rows[k][k])).collect())
}

/// Everything that must not be negative.
fn conditions(tank: &Tank, parts: &[Component], stocks: &[Stock], lines: &[(f64, f64)]) -> Vec<Condition> {
    let (now, mark) = (tank.now.si, tank.mark.si);
    let liquid = |k: usize| -> f64 {
        let all = stocks.iter().zip(lines).filter(|(stock, _)| stock.is_liquid);
        all.map(|(_, line)| if k == 0 { line.0 } else { line.1 }).sum()
    };
    let mut conditions: Vec<Condition> = Vec::new();
    for (stock, (zero, slope)) in stocks.iter().zip(lines) {
        let name = parts.get(stock.of).map_or("", |part| part.name);
        let what = format!("{name} would still be above its target");
        conditions.push(Condition { zero: *zero, slope: *slope, what });
    }
    // What fills up, or what room is left.
    let room = Condition {
        zero: mark - now - liquid(0),
        slope: 1.0 - liquid(1),
        what: "what is added would not find room".into(),
    };
    let (end_zero, end_slope, fill) = match tank.end {
        End::Mark => (mark, 0.0, (room.zero, room.slope)),
        End::AsItComes => (now + liquid(0), liquid(1) - 1.0, (0.0, 0.0)),
    };
    conditions.push(room);
    for (k, part) in parts.iter().enumerate() {
        let Some(target) = part.target.filter(|_| stocks.iter().all(|stock| stock.of != k)) else { continue };
        let brought = |which: usize| -> f64 {
            let of = |(stock, line): (&Stock, &(f64, f64))| -> f64 {
                let holds: f64 = stock.holds.iter().filter(|(of, _)| *of == k).map(|(_, s)| s).sum();
                holds * if which == 0 { line.0 } else { line.1 }
            };
            stocks.iter().zip(lines).map(of).sum()
        };
        let (c, in_fill) = (part.measured.si, part.in_fill.map_or(0.0, |c| c.si));
        conditions.push(Condition {
            zero: target.si * end_zero - now * c - brought(0) - in_fill * fill.0,
            slope: target.si * end_slope + c - brought(1) - in_fill * fill.1,
            what: format!("{} would still be above its target", part.name),
        });
    }
    conditions
}

/// The least volume to draw off for which all conditions hold, and what sets it.
fn least(conditions: &[Condition], most: f64) -> Result<(f64, Option<String>), Refusal> {
    let (mut low, mut high) = ((0.0, None), (most, None));
    for condition in conditions {
        let (zero, slope) = (condition.zero, condition.slope);
        // A hair below zero is zero to rounding.
        let holds = zero >= -1e-12 * (slope.abs() * most).max(f64::MIN_POSITIVE);
        if slope > 0.0 && !holds && -zero / slope > low.0 {
            low = (-zero / slope, Some(&condition.what));
        } else if slope < 0.0 && -zero / slope < high.0 {
            high = (-zero / slope, Some(&condition.what));
        } else if slope == 0.0 && !holds {
            let reason = format!("however much is drawn off, {}", condition.what);
            return Err(Refusal::new(reason, REMEDY));
        }
    }
    if low.0 <= high.0 * (1.0 + 1e-9) {
        return Ok((low.0.min(most), low.1.cloned()));
    }
    let name = |side: &(f64, Option<&String>)| side.1.cloned();
    let reason = match (name(&low), name(&high)) {
        (Some(low), Some(high)) => format!("one draw-off cannot do it: with less {low}, with more {high}"),
        (Some(low), None) => format!("even with all of the bath drawn off {low}"),
        _ => "one draw-off cannot do it".into(),
    };
    Err(Refusal::new(reason, REMEDY))
}

const REMEDY: &str =
    "Accept another target, take a stronger stock or a solid, or one that brings less of the rest.";

#[cfg(test)]
#[path = "correction_tests.rs"]
mod tests;
