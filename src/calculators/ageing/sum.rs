//! The sum of the ageing sheet.

use super::{A_PRODUCT, CHARGE, ENDS, NO_LIMIT, PRODUCTS, REACHES, STAYS, TIME, WAFERS};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::calculators::{class_of, routes};
use crate::quantity::Q;
use crate::science::bath_balance::{Balance, bleed_for_limit, time_to_limit};
use crate::science::metals;
use crate::units::{AH_PER_DAY, DAYS, G_PER_L_METAL, L_PER_DAY, MG_PER_L_METAL};

/// What the rows share.
struct Bath {
    volume: Q,
    wafers: Q,
    charge: Q,
    drag_out: Q,
    bleed: Q,
}

/// One product in its bath.
struct Product {
    row: Row,
    balance: Balance,
    fresh: Q,
    today: Q,
    limit: Option<Q>,
}

/// What may end a bath, and after how long.
type End = (&'static str, Q);

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let [volume, wafers, per_wafer, d_w, bleed] = w.inputs(["V", "N", "q_w", "d_w", "q_b"])?;
    let charge = w.step("Q_d", "Charge a day", AH_PER_DAY, wafers * per_wafer)?;
    let drag_out = w.step("D", "Drag-out a day", L_PER_DAY, d_w * wafers)?;
    let bath = Bath { volume, wafers, charge, drag_out, bleed };

    let mut products = Vec::new();
    for row in w.rows(PRODUCTS)? {
        products.push(product(w, row, &bath)?);
    }
    let [by_charge, by_wafers, by_time] = [is_given(w, "L_q")?, is_given(w, "L_w")?, is_given(w, "L_t")?];
    if products.is_empty() && !(by_charge || by_wafers || by_time) {
        let reason = "Nothing is given that ends the bath";
        let remedy = "Type after what charge, wafers or days it is dumped, or add what builds up in it.";
        return Err(Stop::todo("L_t", reason, remedy));
    }
    let life = life(w, &bath, &products)?;
    let need = bleed_needed(w, &bath, &products)?;
    dump(w, &bath, life, need)
}

fn is_given(w: &Work, symbol: &str) -> Result<bool, Stop> {
    Ok(w.optional(&w.top(), symbol)?.is_some())
}

/// Where a product settles, and what it comes to.
fn product(w: &mut Work, row: Row, bath: &Bath) -> Result<Product, Stop> {
    let [by_charge, by_wafer, by_time, decay, fresh] = w.of(&row, ["g_q", "g_w", "g_t", "k", "C_f"])?;
    let made = w.give(&row, "g", by_charge * bath.charge + by_wafer * bath.wafers + by_time)?;
    let gained = if bath.bleed.si > 0.0 { made + bath.bleed * fresh } else { made };
    let balance = Balance { volume: bath.volume, gained, out: bath.drag_out + bath.bleed, decay };
    if let Ok(end) = balance.settles_at() {
        w.give(&row, "C_s", end)?;
        w.give(&row, "τ", balance.time_constant().or_stop("V")?)?;
    }
    let today = w.optional(&row, "C_0")?.unwrap_or(fresh);
    let [ahead] = w.inputs(["t_x"])?;
    w.give(&row, "C_x", balance.after(today, ahead).or_stop("t_x")?)?;
    let limit = w.optional(&row, "C_l")?;
    if limit.is_some_and(|limit| limit <= fresh) {
        let reason = format!("{}: fresh bath holds as much as the limit allows", row.key);
        return Err(Stop::at("C_l", reason, "Give a limit above what fresh bath holds.").row(&row.key));
    }
    Ok(Product { row, balance, fresh, today, limit })
}

/// How long a bath lasts: a fresh one, and this one from today. The earliest end rules.
fn life(w: &mut Work, bath: &Bath, products: &[Product]) -> Result<Option<Q>, Stop> {
    let top = w.top();
    let mut ends: Vec<End> = Vec::new();
    let mut left: Vec<Q> = Vec::new();
    let [charge_so_far, wafers_so_far, days_so_far] = w.inputs(["Q_0", "N_0", "t_0"])?;
    if let Some(limit) = w.optional(&top, "L_q")? {
        count(&mut ends, &mut left, CHARGE, limit * bath.volume, charge_so_far, Some(bath.charge));
    }
    if let Some(limit) = w.optional(&top, "L_w")? {
        count(&mut ends, &mut left, WAFERS, limit, wafers_so_far, Some(bath.wafers));
    }
    if let Some(limit) = w.optional(&top, "L_t")? {
        count(&mut ends, &mut left, TIME, limit, days_so_far, None);
    }
    let mut of_products: Vec<Option<Q>> = Vec::new();
    for product in products {
        let Some(limit) = product.limit else {
            of_products.push(None);
            continue;
        };
        let fresh = product.balance.time_to(product.fresh, limit).ok();
        if let Some(time) = fresh {
            ends.push((A_PRODUCT, time));
        }
        if product.today >= limit {
            let text = format!("{} is at its limit today: dump or bleed.", product.row.key);
            w.add_finding(&product.row, "C_0", Severity::Caution, text);
            left.push(Q::constant("now", 0.0, DAYS));
        } else if let Ok(time) = product.balance.time_to(product.today, limit) {
            left.push(w.give(&product.row, "t_l", time)?);
        }
        of_products.push(fresh);
    }
    let soonest = ends.iter().copied().reduce(|a, b| if b.1 < a.1 { b } else { a });
    let has_limit = !left.is_empty() || products.iter().any(|product| product.limit.is_some());
    w.say(&top, "ends", soonest.map_or(if has_limit { STAYS } else { NO_LIMIT }, |(what, _)| what))?;
    for (product, time) in products.iter().zip(&of_products) {
        let what = match (product.limit, time, soonest) {
            (None, ..) => NO_LIMIT,
            (_, None, _) => STAYS,
            (_, Some(time), Some((A_PRODUCT, least))) if *time <= least => ENDS,
            _ => REACHES,
        };
        w.say(&product.row, "what", what)?;
    }
    if let Some(least) = left.into_iter().reduce(|least, next| least.min(next)) {
        w.answer("t_left", least)?;
    }
    let Some((_, full)) = soonest else { return Ok(None) };
    let full = w.answer("t_full", full)?;
    let charge = w.answer("Q_full", bath.charge * full)?;
    w.answer("A_full", charge / bath.volume)?;
    w.answer("N_full", bath.wafers * full)?;
    Ok(Some(full))
}

/// An end by count: from fresh, and from today. A counter that stands still ends nothing.
fn count(ends: &mut Vec<End>, left: &mut Vec<Q>, what: &'static str, limit: Q, so_far: Q, rate: Option<Q>) {
    let time = |amount: Q| match rate {
        Some(rate) => time_to_limit(amount, rate).ok(),
        None => Some(amount),
    };
    ends.extend(time(limit).map(|time| (what, time)));
    let still = if so_far.si > 0.0 { limit - so_far } else { limit };
    left.extend(time(if still.si > 0.0 { still } else { 0.0 * limit }));
}

/// The bleed that holds every product at its limit; none where drag-out is enough.
fn bleed_needed(w: &mut Work, bath: &Bath, products: &[Product]) -> Result<Q, Stop> {
    let mut most = Q::constant("none", 0.0, L_PER_DAY);
    for Product { row, balance, fresh, limit, .. } in products {
        let Some(limit) = limit else { continue };
        let made = if bath.bleed.si > 0.0 { balance.gained - bath.bleed * *fresh } else { balance.gained };
        let besides = bath.drag_out + balance.decay * bath.volume;
        let bleed = bleed_for_limit(made, *limit, *fresh, besides).or_stop_row("C_l", &row.key)?;
        let bleed = w.give(row, "b", bleed.max(Q::constant("none", 0.0, L_PER_DAY)))?;
        most = most.max(bleed);
    }
    w.answer("b_need", most)
}

/// What a dump is: litres, metal, money, and where it belongs.
fn dump(w: &mut Work, bath: &Bath, life: Option<Q>, need: Q) -> Result<(), Stop> {
    let top = w.top();
    let [dumped, days] = w.inputs(["V_dump", "days"])?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let a_year = match life.filter(|life| life.si > 0.0) {
        Some(life) => Some(w.answer("n_y", days * one_day / life)?),
        None => None,
    };
    if let Some(dumps) = a_year {
        w.answer("V_y", dumps * dumped)?;
    }
    w.answer("V_b", bath.bleed * one_day * days)?;
    let bled = w.answer("V_n", need * one_day * days)?;
    if let (Some(fresh), Some(away)) = (w.optional(&top, "p_f")?, w.optional(&top, "p_o")?) {
        let cost = w.answer("cost", dumped * (fresh + away))?;
        if let Some(dumps) = a_year {
            w.answer("cost_y", cost * dumps)?;
        }
        w.answer("cost_b", bled * (fresh + away))?;
    }
    let mut together = Q::constant("none", 0.0, G_PER_L_METAL);
    let mut is_valuable = false;
    for row in w.rows(metals::TABLE)? {
        let [c] = w.of(&row, ["c_M"])?;
        let held = w.give(&row, "m_D", c * dumped)?;
        if let Some(price) = w.optional(&row, "p_M")? {
            w.give(&row, "worth", held * price)?;
        }
        is_valuable |= metals::is_valuable(&row.key) && c.si > 0.0;
        together = together + c;
    }
    let class = class_of(w.word(&top, "class")?);
    w.say(&top, "route", routes::suggestion(class, is_valuable, together.number(MG_PER_L_METAL)))
}
