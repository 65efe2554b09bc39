//! The sum of a correction.

use super::order::{self, Addition, Order};
use super::{AS_IT_COMES, FIXED, OTHER, TABLE};
use super::{dissolving, missing};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::calculators::make_up::components::{LIQUID, NOTHING, SOLID, as_part};
use crate::calculators::make_up::meets;
use crate::quantity::Q;
use crate::science::correction::{
    Component, Correction, Draw, End, Stock, Tank, amount, correct, level, reached,
};
use crate::science::elements::is_metal;
use crate::science::formula::Formula;
use crate::science::metals;
use crate::units::{G_PER_L, KG, L, MASS_FRACTION, PERCENT, PERCENT_METAL};

/// What a row says.
pub(super) struct Line {
    pub row: Row,
    /// `None` while there is no result of it: it is then left out.
    pub found: Option<Q>,
    /// The same, and none of it where there is no result: nothing rests on that.
    measured: Q,
    /// Whether anything is wanted of it, with or without a result.
    pub is_wanted: bool,
    pub target: Option<Q>,
    in_fill: Option<Q>,
    pub added_as: &'static str,
    /// What it brings of which component: share of a solid, strength of a liquid. Its own stands first.
    pub brings: Vec<(usize, Q)>,
    /// Whether it is a solid of which nothing is known: it may bring others too.
    pub is_unknown: bool,
    pub formula: Option<Formula>,
    pub also: Option<Formula>,
    pub hazard: &'static str,
}

impl Line {
    /// Whether it is added to bring the component to a target.
    pub fn is_stock(&self) -> bool {
        self.target.is_some() && self.added_as != NOTHING
    }

    /// Whether it is a precious metal: its salt goes in last.
    pub fn is_precious(&self) -> bool {
        metals::is_precious(&metals::symbol_of(&self.row.key))
    }
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [v_m] = w.inputs(["V_m"])?;
    let v_n = w.optional(&top, "V_n")?.unwrap_or(v_m);
    let end = if w.word(&top, "end")? == AS_IT_COMES { End::AsItComes } else { End::Mark };
    let tank = Tank { now: v_n, mark: v_m, end };
    let has_content = end == End::Mark && w.word(&top, "fill")? == OTHER;
    let lines = lines(w, end, has_content)?;
    order::refuse(w, &lines)?;
    missing::check(w, &lines)?;

    let parts: Vec<Component> = lines
        .iter()
        .map(|line| Component {
            name: &line.row.key,
            measured: line.measured,
            target: line.target,
            in_fill: line.in_fill,
        })
        .collect();
    let stock = |(of, line): (usize, &Line)| Stock {
        of,
        is_liquid: line.added_as == LIQUID,
        holds: line.brings.iter().map(|(of, holds)| (*of, holds.si)).collect(),
    };
    let stocks: Vec<Stock> =
        lines.iter().enumerate().filter(|(_, line)| line.is_stock()).map(stock).collect();
    let draw =
        if w.word(&top, "draw")? == FIXED { Draw::Fixed(w.inputs::<1>(["V_t"])?[0]) } else { Draw::Least };
    let found = correct(&tank, &parts, &stocks, draw).or_stop(if v_n > v_m { "V_n" } else { "draw" })?;

    let draw = w.answer("V_x", found.draw)?;
    let amounts = additions(w, &tank, (&lines, &parts, &stocks), &found, draw)?;
    let liquid = |(of, _): &&(usize, Q)| lines.get(*of).is_some_and(|line| line.added_as == LIQUID);
    let liquids = amounts.iter().filter(liquid).map(|(_, amount)| *amount).reduce(|a, b| a + b);
    let liquids = w.answer("V_a", liquids.unwrap_or_else(|| Q::constant("none", 0.0, L)))?;
    let (fill, end_volume) = level(&tank, draw, liquids);
    let fill = w.answer("V_w", fill)?;
    let end_volume = w.answer("V_e", end_volume)?;
    let share = w.answer("f_x", draw / v_n)?;
    let found = Correction { draw, fill, end: end_volume, ..found };

    let mut ends = vec![None; lines.len()];
    for (k, (line, part)) in lines.iter().zip(&parts).enumerate() {
        w.say(&line.row, "hazard", line.hazard)?;
        if line.found.is_none() {
            continue;
        }
        let added = brought(&lines, &amounts, k);
        let c_end = w.give(&line.row, "c_end", reached(&tank, part, &found, added).or_stop("draw")?)?;
        ends[k] = Some(c_end);
        w.give(&line.row, "m_off", line.measured * draw)?;
        if let Some(target) = line.target.filter(|target| c_end.si < 0.98 * target.si) {
            let wanted = w.style.answer(target.si, G_PER_L);
            let text = format!("Nothing adds it: it ends below the {wanted} that are wanted.");
            w.add_finding(&line.row, "c_end", Severity::Caution, text);
        }
        let symbol = metals::symbol_of(&line.row.key);
        if is_metal(&symbol) {
            let row = w.row(metals::TABLE, &symbol)?;
            let c_off = w.give(&row, "c_off", line.measured * Q::constant("metal", 100.0, PERCENT_METAL))?;
            w.give(&row, "m_M", c_off * draw)?;
        }
    }
    really_reached(w, &tank, &lines, &parts, &found)?;
    if draw.si > 0.0 {
        if let Some(set_by) = &found.set_by {
            w.add_finding(&top, "V_x", Severity::Note, format!("This is the least: with less, {set_by}."));
        }
        let share = w.style.answer(share.si, PERCENT);
        let text = format!(
            "{share} of everything else goes with it, additives too: dose them back after the correction."
        );
        w.add_finding(&top, "f_x", Severity::Note, text);
    }
    let additions: Vec<Addition> = amounts
        .iter()
        .filter_map(|(of, amount)| Some(Addition { line: lines.get(*of)?, amount: *amount }))
        .collect();
    let is_added = amounts.iter().any(|(_, amount)| amount.si > 0.0);
    let too_much = if is_added { dissolving::check(w, &lines, &ends)? } else { Vec::new() };
    let left = if end == End::Mark { found.fill } else { v_m - found.end };
    let room = dissolving::room(w, (v_m, left), &lines, &amounts);
    Order { found: &found, additions: &additions, has_content, room, too_much: &too_much }.write(w)
}

/// What the rows say.
fn lines(w: &mut Work, end: End, has_content: bool) -> Result<Vec<Line>, Stop> {
    let rows = w.rows(TABLE)?;
    if rows.is_empty() {
        return Err(Stop::todo("c", "no component is listed yet", "Add a component, or type an analysis."));
    }
    let [tol] = w.inputs(["tol"])?;
    let keys: Vec<String> = rows.iter().map(|row| row.key.to_string()).collect();
    let mut lines = Vec::new();
    for (at, row) in rows.into_iter().enumerate() {
        let key = row.key.to_string();
        let found = w.optional(&row, "c")?;
        let measured = found.unwrap_or_else(|| Q::constant("no result", 0.0, G_PER_L));
        let wanted = w.optional(&row, "c_t")?.or(w.optional(&row, "c_plan")?);
        let target = wanted.filter(|_| found.is_some()).map(|target| {
            let is_near = (measured.si - target.si).abs() <= tol.si * target.si && tol.si > 0.0;
            if is_near { measured } else { target }
        });
        let added_as = w.word(&row, "added_as")?;
        let in_fill = if has_content && end == End::Mark { Some(w.of(&row, ["c_f"])?[0]) } else { None };
        let (mut formula, mut also, mut brings) = (None, None, Vec::new());
        match added_as {
            SOLID => {
                let text = w.text(&row, "salt")?;
                let text = if text.is_empty() { key.as_str() } else { &*text };
                let typed = w.optional(&row, "x_s")?;
                formula = match Formula::read(text) {
                    // A row named after an element does not say which salt of it is meant.
                    Ok(formula) if text == key && formula.counts().len() == 1 => None,
                    Ok(formula) => Some(formula),
                    Err(_) if typed.is_some() || target.is_none() => None,
                    Err(refusal) => return Err(refusal).or_stop_row("salt", &key),
                };
                if target.is_some() {
                    brings = solid(w, &row, (at, &keys), formula.as_ref(), typed)?;
                } else if let Some(formula) = formula.as_ref().filter(|_| typed.is_none()) {
                    brings = parts(formula, at, &keys);
                }
            }
            LIQUID => {
                if target.is_some() {
                    let Some(s) = w.optional(&row, "s")? else {
                        let reason = format!("the strength of the liquid for {key} is not typed yet");
                        return Err(Stop::todo("s", reason, "Type how much of it a litre holds.").row(&key));
                    };
                    brings.push((at, s));
                }
                let name = w.text(&row, "also")?;
                let name = name.trim();
                let [k_b] = w.of(&row, ["k_b"])?;
                also = Formula::read(name).ok();
                let listed = keys.iter().position(|other| other.trim() == name);
                // What nobody can tell might be what must not come into this bath.
                if also.is_none() && listed.is_none() && !name.is_empty() {
                    let reason = format!("“{name}” is no component of this list, and no formula");
                    let remedy = "Name a component as it stands here, or type a formula, such as H2SO4.";
                    return Err(Stop::at("also", reason, remedy).row(&key));
                }
                if let Some(of) = listed.filter(|of| *of != at) {
                    brings.push((of, k_b));
                }
            }
            _ => (),
        }
        let is_unknown = added_as == SOLID
            && formula.is_none()
            && w.optional(&row, "x_s")?.or(w.optional(&row, "x_plan")?).is_none();
        let own = Formula::read(&key).ok();
        let by_formula =
            meets::hazard(&key, formula.as_ref().or(own.as_ref()), also.as_ref(), &metals::symbol_of(&key));
        let hazard = match by_formula {
            meets::NONE if added_as != NOTHING => w.word(&row, "h")?,
            known => known,
        };
        let formula = formula.or(own);
        let is_wanted = wanted.is_some();
        lines.push(Line {
            row,
            found,
            measured,
            is_wanted,
            target,
            in_fill,
            added_as,
            brings,
            is_unknown,
            formula,
            also,
            hazard,
        });
    }
    Ok(lines)
}

/// What a solid brings: its own component first, then every other one that its formula holds.
fn solid(
    w: &mut Work,
    row: &Row,
    (at, keys): (usize, &[String]),
    formula: Option<&Formula>,
    typed: Option<Q>,
) -> Result<Vec<(usize, Q)>, Stop> {
    let key = &*row.key;
    let [p] = w.of(row, ["p"])?;
    let own = match (typed, formula, w.optional(row, "x_plan")?) {
        (Some(x), ..) => x,
        (None, Some(formula), _) => {
            formula.part_fraction(&metals::symbol_of(key)).or_stop_row("salt", key)?
        }
        // The make-up knows what it brings of its own components, and of no others.
        (None, None, Some(x)) if only_the_make_ups(w)? => x,
        (None, None, _) => {
            return Err(Stop::todo(
                "salt",
                format!("what {key} is added as is not typed yet"),
                "Type the formula of the solid.",
            )
            .row(key));
        }
    };
    let mut brings = vec![(at, w.step_in(row, "x", "Share of it in the solid", MASS_FRACTION, own * p)?)];
    if let Some(formula) = formula.filter(|_| typed.is_none()) {
        brings.extend(parts(formula, at, keys).into_iter().map(|(of, share)| (of, share * p)));
    }
    Ok(brings)
}

/// Whether the make-up lists every component that a salt may be made of.
fn only_the_make_ups(w: &Work) -> Result<bool, Stop> {
    for row in w.rows(TABLE)? {
        if as_part(&row.key).is_some() && w.optional(&row, "c_plan")?.is_none() {
            return Ok(false);
        }
    }
    Ok(true)
}

/// The other components that a formula holds, and the share of each.
fn parts(formula: &Formula, at: usize, keys: &[String]) -> Vec<(usize, Q)> {
    let others = keys.iter().enumerate().filter(|(of, _)| *of != at);
    let share =
        |(of, other): (usize, &String)| Some((of, formula.part_fraction(as_part(other)?.text()).ok()?));
    others.filter_map(share).collect()
}

/// The amounts of the stocks, each from the balance of its own component.
fn additions(
    w: &mut Work,
    tank: &Tank,
    (lines, parts, stocks): (&[Line], &[Component], &[Stock]),
    found: &Correction,
    draw: Q,
) -> Result<Vec<(usize, Q)>, Stop> {
    let mut solved = Vec::new();
    for (stock, amount) in stocks.iter().zip(&found.amounts) {
        let Some(line) = lines.get(stock.of) else { continue };
        let is_shared = lines.iter().any(|line| line.brings.len() > 1);
        let unit = if stock.is_liquid { L } else { KG };
        // Where stocks bring each other's component, the balances are solved together first.
        let label = "Amount, from all balances together";
        solved.push(match is_shared {
            true => (stock.of, w.step_in(&line.row, "a", label, unit, *amount)?),
            false => (stock.of, *amount),
        });
    }
    let end = match tank.end {
        End::Mark => tank.mark,
        End::AsItComes => w.step("V_s", "Volume at the end, from the balances", L, found.end)?,
    };
    let mut fill = None;
    if lines.iter().any(|line| line.in_fill.is_some()) {
        fill = Some(w.step("V_f", "Filled up, from the balances", L, found.fill)?);
    }
    let mut amounts = Vec::new();
    for ((of, known), stock) in solved.iter().zip(stocks) {
        let (Some(line), Some(part)) = (lines.get(*of), parts.get(*of)) else { continue };
        let others: Vec<(usize, Q)> = solved.iter().filter(|(other, _)| other != of).copied().collect();
        let filled = part.in_fill.zip(fill).map(|(c, fill)| c * fill);
        let others = [brought(lines, &others, *of), filled].into_iter().flatten().reduce(|a, b| a + b);
        let own = line.brings.first().map(|(_, holds)| *holds);
        let balance = own.and_then(|own| amount(part, tank.now - draw, end, others, own));
        let unit = if stock.is_liquid { L } else { KG };
        // To rounding, where nothing of it is wanted.
        let value = match balance.filter(|_| known.si > 1e-12 * tank.mark.si) {
            Some(balance) => balance,
            None => Q::constant("none", 0.0, unit),
        };
        amounts.push((*of, w.give(&line.row, if stock.is_liquid { "v" } else { "m" }, value)?));
    }
    Ok(amounts)
}

/// What all that is added brings of a component; `None` where nothing brings it.
fn brought(lines: &[Line], amounts: &[(usize, Q)], of: usize) -> Option<Q> {
    let terms = amounts.iter().flat_map(|(stock, amount)| {
        let brings = lines.get(*stock).map(|line| line.brings.as_slice()).unwrap_or_default();
        brings.iter().filter(move |(component, _)| *component == of).map(move |(_, holds)| *holds * *amount)
    });
    terms.reduce(|a, b| a + b)
}

/// What the bath really came to, once everything that was added is typed.
fn really_reached(
    w: &mut Work,
    tank: &Tank,
    lines: &[Line],
    parts: &[Component],
    found: &Correction,
) -> Result<(), Stop> {
    let (mut amounts, mut liquids) = (Vec::new(), Q::constant("none", 0.0, L));
    for (k, line) in lines.iter().enumerate().filter(|(_, line)| line.is_stock()) {
        let is_liquid = line.added_as == LIQUID;
        let Some(amount) = w.optional(&line.row, if is_liquid { "v_added" } else { "added" })? else {
            return Ok(());
        };
        if is_liquid {
            liquids = liquids + amount;
        }
        amounts.push((k, amount));
    }
    if amounts.is_empty() {
        return Ok(());
    }
    let left = tank.now - found.draw;
    let (fill, end) = match tank.end {
        End::Mark if left + liquids > tank.mark => {
            let reason = "what was added does not fit below the mark";
            return Err(Stop::at("v_added", reason, "Check the volumes that were added."));
        }
        End::Mark => (tank.mark - left - liquids, tank.mark),
        End::AsItComes => (found.fill, left + liquids),
    };
    let really = Correction { draw: found.draw, fill, end, amounts: Vec::new(), set_by: None };
    for (k, (line, part)) in lines.iter().zip(parts).enumerate().filter(|(_, (line, _))| line.found.is_some())
    {
        let c_got = reached(tank, part, &really, brought(lines, &amounts, k)).or_stop("draw")?;
        w.give(&line.row, "c_got", c_got)?;
    }
    Ok(())
}
