//! The sum of the cost sheet: each item has a price, or is said to be left out.

use super::{
    ADDITIVE, ADDITIVES, CHEMICAL, CHEMICALS, DUMPS, ENERGY, ITEMS, METAL, PART, STREAMS, WASTE, WATER, WHOLE,
};
use crate::calculator::{Row, Severity, Stop, Work};
use crate::calculators::stream;
use crate::quantity::Q;
use crate::science::cost::{cost_of, energy_used, rectifier_energy};
use crate::science::metals;
use crate::units::{DAYS, KWH, L, M3, NUMBER};

/// What comes together as the items are counted.
#[derive(Default)]
struct Bill {
    items: Vec<(&'static str, Q)>,
    /// What is used and has no price.
    left_out: Vec<String>,
}

/// Bath replaced in a year, by how it went.
struct Replaced {
    volume: Option<Q>,
    dumped: Q,
    bled: Q,
    dragged: Q,
}

impl Replaced {
    fn all(&self) -> Q {
        self.dumped + self.bled + self.dragged
    }
}

/// Spent bath of one kind in a year: as the sheet of ageing has it, and where that says none, as the bath's own
/// streams of that kind say.
struct Gone {
    kind: &'static str,
    all: Q,
    is_of_streams: bool,
    /// What of it has no price of its own at a stream.
    at_price_of_bath: Q,
}

impl Gone {
    fn of(w: &mut Work, known: Q, kind: &'static str, a_year: Q) -> Result<Gone, Stop> {
        let of_ageing = Gone { kind, all: known, is_of_streams: false, at_price_of_bath: known };
        if known.si > 0.0 {
            return Ok(of_ageing);
        }
        let (mut volumes, mut at_price_of_bath) = (Vec::new(), Vec::new());
        for row in w.rows(WASTE)? {
            if w.word(&row, "what")? == kind {
                let [a_day] = w.of(&row, ["Q_r"])?;
                volumes.push(a_day * a_year);
                if w.optional(&row, "p_r")?.is_none() {
                    at_price_of_bath.push(a_day * a_year);
                }
            }
        }
        let sum = |volumes: Vec<Q>| match volumes.is_empty() {
            true => Q::constant("none", 0.0, L),
            false => volumes.into_iter().sum(),
        };
        Ok(match volumes.iter().any(|volume| volume.si > 0.0) {
            true => {
                Gone { kind, all: sum(volumes), is_of_streams: true, at_price_of_bath: sum(at_price_of_bath) }
            }
            false => of_ageing,
        })
    }

    /// The volume, as a line of the working where it was added up here.
    fn told(&self, w: &mut Work, (symbol, label): (&'static str, &'static str)) -> Result<Q, Stop> {
        if self.is_of_streams { w.step(symbol, label, L, self.all) } else { Ok(self.all) }
    }
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [wafers, days, dumped, bled, drag_out] = w.inputs(["N", "days", "V_d", "V_b", "D"])?;
    let day = Q::constant("1 day", 1.0, DAYS);
    let a_year = w.answer("N_y", wafers * day * days)?;
    let dragged = w.step("V_D", "Dragged out a year", L, drag_out * day * days)?;
    let dumps = Gone::of(w, dumped, stream::DUMP, days * day)?;
    let bleed = Gone::of(w, bled, stream::BLEED, days * day)?;
    let [dumped, bled] = [
        dumps.told(w, ("V_ds", "Dumped a year, as its streams say"))?,
        bleed.told(w, ("V_bs", "Bled a year, as its streams say"))?,
    ];
    let replaced = Replaced { volume: w.optional(&top, "V")?, dumped, bled, dragged };
    let all = w.answer("V_rep", replaced.all())?;

    let mut bill = Bill::default();
    chemicals(w, &mut bill, &replaced)?;
    rows(w, &mut bill, (metals::TABLE, METAL), ["m_M", "p_M", "c_M"])?;
    rows(w, &mut bill, (ADDITIVES, ADDITIVE), ["v_a", "p_a", "c_a"])?;
    water(w, &mut bill, all, days * day)?;
    power(w, &mut bill)?;
    priced(w, &mut bill, DUMPS, "p_o", dumps.at_price_of_bath + bleed.at_price_of_bath)?;
    streams(w, &mut bill, days * day, [&dumps, &bleed])?;
    total(w, bill, a_year)
}

/// Chemicals: what one make-up costs, and as much of it a year as bath is replaced.
fn chemicals(w: &mut Work, bill: &mut Bill, replaced: &Replaced) -> Result<(), Stop> {
    let dosed: Vec<Row> = w.rows(ADDITIVES)?;
    let mut make_up = Vec::new();
    let mut a_year = Vec::new();
    for row in w.rows(CHEMICALS)? {
        let [mass] = w.of(&row, ["m_c"])?;
        let Some(price) = w.optional(&row, "p_c")? else {
            if mass.si > 0.0 {
                bill.left_out.push(row.key.to_string());
            }
            continue;
        };
        let cost = w.give(&row, "c_c", cost_of(mass, price))?;
        make_up.push(cost);
        let Some(volume) = replaced.volume else { continue };
        // What an additive loses by drag-out and bleed is dosed, and counted there.
        let is_dosed = dosed.iter().any(|other| other.key == row.key);
        let replaced = if is_dosed { replaced.dumped } else { replaced.all() };
        a_year.push(w.give(&row, "c_cy", cost * replaced / volume)?);
    }
    if !make_up.is_empty() {
        w.answer("c_make", make_up.into_iter().sum())?;
    }
    match replaced.volume {
        Some(_) if !a_year.is_empty() => bill.items.push((CHEMICAL, a_year.into_iter().sum())),
        None if replaced.all().si > 0.0 => {
            bill.left_out.push("bath replaced, as its volume is not known".into())
        }
        _ => (),
    }
    Ok(())
}

/// A table of amounts and prices.
fn rows(
    w: &mut Work,
    bill: &mut Bill,
    (table, item): (&str, &'static str),
    of: [&'static str; 3],
) -> Result<(), Stop> {
    let [amount, price, cost] = of;
    let mut costs = Vec::new();
    for row in w.rows(table)? {
        let [used] = w.of(&row, [amount])?;
        match w.optional(&row, price)? {
            Some(price) => costs.push(w.give(&row, cost, cost_of(used, price))?),
            None if used.si > 0.0 => bill.left_out.push(row.key.to_string()),
            None => (),
        }
    }
    if !costs.is_empty() {
        bill.items.push((item, costs.into_iter().sum()));
    }
    Ok(())
}

/// Water: what evaporates, what bath that is replaced is made with, and the rest.
fn water(w: &mut Work, bill: &mut Bill, replaced: Q, a_year: Q) -> Result<(), Stop> {
    let [evaporated] = w.inputs(["V_w"])?;
    let other = match w.optional(&w.top(), "V_o")? {
        Some(typed) => typed,
        // What leaves a rinse ran into it.
        None => {
            let mut rinses = Q::constant("none", 0.0, M3);
            for row in w.rows(WASTE)? {
                if w.word(&row, "what")? == stream::RINSE {
                    rinses = rinses + w.of::<1>(&row, ["Q_r"])?[0] * a_year;
                }
            }
            w.step("V_R", "Water of the rinses a year", M3, rinses)?
        }
    };
    let evaporated = evaporated.max(Q::constant("none", 0.0, M3));
    let used = w.answer("V_wy", evaporated + replaced + other)?;
    priced(w, bill, WATER, "p_water", used)
}

/// Energy of the rectifier, of heat or cold, and of all that runs.
fn power(w: &mut Work, bill: &mut Bill) -> Result<(), Stop> {
    let [charge, voltage, efficiency] = w.inputs(["Q_y", "U_v", "η_r"])?;
    let [heat, per_kwh, power, demand, hours, days] = w.inputs(["Q_h", "COP", "P_e", "d_e", "h_d", "d_y"])?;
    let plating = w.step("W_p", "Energy of plating", KWH, rectifier_energy(charge, voltage, efficiency))?;
    let all = Q::constant("always", 1.0, NUMBER);
    let held = if heat.si < 0.0 { -heat / per_kwh } else { heat };
    let held = w.step("W_h", "Energy of heating or cooling", KWH, energy_used(held, all, hours * days))?;
    let runs =
        w.step("W_e", "Energy of all that runs besides", KWH, energy_used(power, demand, hours * days))?;
    let used = w.answer("W_y", plating + held + runs)?;
    priced(w, bill, ENERGY, "p_kWh", used)
}

/// Streams of this bath, but for the dumps and the bleed that are counted as spent bath.
fn streams(w: &mut Work, bill: &mut Bill, a_year: Q, gone: [&Gone; 2]) -> Result<(), Stop> {
    let mut costs = Vec::new();
    for row in w.rows(WASTE)? {
        let [a_day] = w.of(&row, ["Q_r"])?;
        let used = w.give(&row, "V_r", a_day * a_year)?;
        let kind = w.word(&row, "what")?;
        let is_of = gone.iter().find(|gone| gone.kind == kind);
        match w.optional(&row, "p_r")? {
            _ if is_of.is_some_and(|gone| !gone.is_of_streams && gone.all.si > 0.0) => (),
            Some(price) => costs.push(w.give(&row, "c_r", cost_of(used, price))?),
            None if used.si > 0.0 && is_of.is_none() => bill.left_out.push(row.key.to_string()),
            None => (),
        }
    }
    if !costs.is_empty() {
        bill.items.push((STREAMS, costs.into_iter().sum()));
    }
    Ok(())
}

fn priced(w: &Work, bill: &mut Bill, item: &'static str, price: &str, used: Q) -> Result<(), Stop> {
    match w.optional(&w.top(), price)? {
        Some(price) => bill.items.push((item, cost_of(used, price))),
        None if used.si > 0.0 => bill.left_out.push(item.to_ascii_lowercase()),
        None => (),
    }
    Ok(())
}

/// All of it, what each item is of it, and what is left out.
fn total(w: &mut Work, bill: Bill, wafers: Q) -> Result<(), Stop> {
    let top = w.top();
    if bill.items.is_empty() {
        let reason = "no price is typed that anything here is used of";
        return Err(Stop::todo("p_kWh", reason, "Type your own prices: the sheet has none."));
    }
    let mut given = Vec::new();
    for (item, cost) in bill.items {
        let row = w.row(ITEMS, item)?;
        let cost = w.give(&row, "c_i", cost)?;
        if wafers.si > 0.0 {
            w.give(&row, "c_w", cost / wafers)?;
        }
        given.push((row, cost));
    }
    let all: Q = given.iter().map(|(_, cost)| *cost).sum();
    let all = w.answer("c_year", all)?;
    if all.si > 0.0 {
        for (row, cost) in &given {
            w.give(row, "s_i", *cost / all)?;
        }
    }
    if wafers.si > 0.0 {
        w.answer("c_wafer", all / wafers)?;
    }
    w.say(&top, "whole", if bill.left_out.is_empty() { WHOLE } else { PART })?;
    if !bill.left_out.is_empty() {
        let text = format!("No price, and so left out of the sum: {}.", bill.left_out.join(", "));
        w.add_finding(&top, "whole", Severity::Note, text);
    }
    Ok(())
}
