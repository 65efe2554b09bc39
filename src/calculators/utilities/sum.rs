//! Rows and totals: each row says where it comes from, its peak and its mean.

use super::own::{self, ALWAYS};
use super::{
    AIR, COLD, EXHAUST, FLOOR, HOT, INTO_DRAINS, ITEMS, NITROGEN, PART, PHASES, POWER, ROOM, STEAM, WATER,
    WHOLE, basis, baths, floor, gas, ways,
};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::air;
use crate::science::electricity::{apparent_power, demand, one_phase_current, three_phase_current};
use crate::units::{AMPERE, HOUR, KPA, KW, KWH, L_PER_DAY, L_PER_MIN, M2, M3_PER_H, NORMAL_L_PER_MIN, Unit};

/// A sort of utility: its table, and what its rows and totals are called: peak, mean; and what these are.
pub struct Sort {
    table: &'static str,
    rows: [&'static str; 3],
    totals: [&'static str; 2],
    unit: &'static Unit,
}

const fn sort(
    table: &'static str,
    rows: [&'static str; 3],
    totals: [&'static str; 2],
    unit: &'static Unit,
) -> Sort {
    Sort { table, rows, totals, unit }
}

pub static LOAD: Sort = sort(POWER, ["P_1", "P_2", "P_y"], ["P_c", "P_m"], KW);
pub static AIR_USED: Sort = sort(AIR, ["a_1", "a_2", "a_y"], ["a_p", "a_m"], NORMAL_L_PER_MIN);
pub static NITROGEN_USED: Sort = sort(NITROGEN, ["g_1", "g_2", "g_y"], ["g_p", "g_m"], NORMAL_L_PER_MIN);
pub static DI_WATER: Sort = sort(WATER, ["w_1", "w_2", "w_y"], ["w_p", "w_m"], L_PER_MIN);
pub static HOT_WATER: Sort = sort(HOT, ["h_1", "h_2", "h_y"], ["h_p", "h_m"], L_PER_MIN);
pub static HOT_HEAT: Sort = sort(HOT, ["H_1", "H_2", "h_y"], ["H_p", "H_m"], KW);
pub static COLD_WATER: Sort = sort(COLD, ["k_1", "k_2", "k_y"], ["k_p", "k_m"], L_PER_MIN);
pub static COOLING: Sort = sort(COLD, ["K_1", "K_2", "k_y"], ["K_p", "K_m"], KW);
pub static STEAM_HEAT: Sort = sort(STEAM, ["S_1", "S_2", "S_y"], ["S_p", "S_m"], KW);
pub static EXHAUSTED: Sort = sort(EXHAUST, ["e_1", "e_2", "e_y"], ["e_p", "e_m"], M3_PER_H);
pub static TO_THE_ROOM: Sort = sort(ROOM, ["r_1", "r_2", "r_y"], ["r_p", "r_m"], KW);
pub static TO_DRAINS: Sort = sort(INTO_DRAINS, ["d_1", "d_2", "d_y"], ["d_p", "d_m"], L_PER_MIN);
pub static TAKEN: Sort = sort(FLOOR, ["F_1", "F_2", "F_y"], ["F_a", "F_s"], M2);

static SORTS: [&Sort; 13] = [
    &LOAD,
    &AIR_USED,
    &NITROGEN_USED,
    &DI_WATER,
    &HOT_WATER,
    &HOT_HEAT,
    &COLD_WATER,
    &COOLING,
    &STEAM_HEAT,
    &EXHAUSTED,
    &TO_THE_ROOM,
    &TO_DRAINS,
    &TAKEN,
];

/// A load and the line that it runs on.
struct Load {
    /// 0 for all three, 1 to 3 for one line and neutral.
    line: usize,
    connected: Q,
    mean: Q,
    factor: Q,
}

/// What comes together as places and items are counted.
#[derive(Default)]
pub struct Bill {
    rows: Vec<(&'static str, String, Q, Q)>,
    loads: Vec<Load>,
    /// Energy, water and gas of a day.
    pub energy: Vec<Q>,
    pub water: Vec<Q>,
    pub air: Vec<Q>,
    pub nitrogen: Vec<Q>,
    /// Heat of the air that replaces the exhaust.
    pub replaced: Vec<Q>,
    /// What is filled from the DI line, of which one is filled at a time.
    pub fills: Vec<Q>,
    /// Sheets without an answer.
    pub unknown: Vec<String>,
    /// Small pumps of which nobody said what they run on.
    pub drives: Vec<String>,
}

impl Bill {
    /// The name of a new row: an item of the user's own may be called like a place, and both count.
    fn free(&self, sort: &Sort, name: &str) -> String {
        let is_free = |name: &String| {
            !self.rows.iter().any(|(total, known, ..)| *total == sort.totals[0] && known == name)
        };
        let names = std::iter::once(name.to_string()).chain((2..).map(|n| format!("{name} ({n})")));
        names.into_iter().find(is_free).unwrap_or_default()
    }

    /// One row: where it comes from, what peak and mean are, peak, mean.
    pub fn add(
        &mut self,
        w: &mut Work,
        sort: &Sort,
        name: &str,
        how: &'static str,
        peak: Q,
        mean: Q,
    ) -> Result<(Q, Q), Stop> {
        let name = self.free(sort, name);
        let row = w.row(sort.table, &name)?;
        let (peak, mean) = (w.give(&row, sort.rows[0], peak)?, w.give(&row, sort.rows[1], mean)?);
        w.say(&row, sort.rows[2], how)?;
        self.rows.push((sort.totals[0], name, peak, mean));
        Ok((peak, mean))
    }

    /// An electrical load, with the hours a day that it is on.
    pub fn load(
        &mut self,
        w: &mut Work,
        name: &str,
        how: &'static str,
        (connected, mean): (Q, Q),
        (line, factor): (usize, Q),
        hours: Q,
    ) -> Result<(Q, Q), Stop> {
        let name = self.free(&LOAD, name);
        let (connected, mean) = self.add(w, &LOAD, &name, how, connected, mean)?;
        if connected.si > 0.0 {
            let row = w.row(POWER, &name)?;
            w.give(&row, "f_1", mean / connected)?;
        }
        self.loads.push(Load { line, connected, mean, factor });
        self.energy.push(mean * hours);
        Ok((connected, mean))
    }

    /// Peak and mean of all rows of a sort.
    pub fn totals(&self, sort: &Sort) -> (Q, Q) {
        let of = || self.rows.iter().filter(|(total, ..)| *total == sort.totals[0]);
        let zero = Q::constant("none", 0.0, sort.unit);
        let sum = |each: &mut dyn Iterator<Item = Q>| each.reduce(|sum, next| sum + next).unwrap_or(zero);
        (sum(&mut of().map(|(.., peak, _)| *peak)), sum(&mut of().map(|(.., mean)| *mean)))
    }
}

/// The sum of some, or none of a unit.
pub fn sum_of(each: &[Q], unit: &'static Unit) -> Q {
    each.iter().copied().reduce(|sum, next| sum + next).unwrap_or(Q::constant("none", 0.0, unit))
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let [hours, t, z] = w.inputs(["hours", "T_room", "z_site"])?;
    let pressure = air::pressure(z).or_stop("z_site")?;
    let pressure = w.step("p", "Pressure of the room’s air", KPA, pressure)?;
    let mut bill = Bill::default();
    baths::count(w, &mut bill, t, hours)?;
    ways::streams(w, &mut bill)?;
    ways::drains(w, &mut bill, (t, pressure, hours))?;
    ways::routes(w, &mut bill, hours)?;
    ways::discharges(w, &mut bill)?;
    for row in w.rows(ITEMS)? {
        item(w, &mut bill, &row, (hours, pressure))?;
    }
    for sort in SORTS {
        let (mut peak, mean) = bill.totals(sort);
        // Of all tanks one is filled at a time.
        if std::ptr::eq(sort, &DI_WATER)
            && let Some(largest) = bill.fills.iter().copied().reduce(Q::max)
        {
            peak = peak + largest;
        }
        let (peak, mean) = (w.answer(sort.totals[0], peak)?, w.answer(sort.totals[1], mean)?);
        if std::ptr::eq(sort, &LOAD) && peak.si > 0.0 {
            w.answer("f_c", mean / peak)?;
        }
    }
    w.answer("W_d", sum_of(&bill.energy, KWH))?;
    w.answer("w_d", sum_of(&bill.water, L_PER_DAY))?;
    w.answer("E_h", sum_of(&bill.replaced, KW))?;
    lines(w, &bill)?;
    gas::answers(w, &bill, (t, pressure))?;
    known(w, &bill)
}

/// One item of the user's own.
fn item(w: &mut Work, bill: &mut Bill, row: &Row, (hours, pressure): (Q, Q)) -> Result<(), Stop> {
    let name = row.key.to_string();
    let [n] = w.of(row, ["n"])?;
    let what = w.word(row, "sort")?;
    if what == own::FLOOR {
        let sides = w.of(row, ["b", "t", "c"])?;
        return floor::add(w, bill, &name, n, sides);
    }
    let [share] = w.of(row, ["d"])?;
    let on = if w.word(row, "on")? == ALWAYS { Q::constant("24 h", 24.0, HOUR) } else { hours };
    let both = |one: Q| (n * one, demand(n * one, share));
    match what {
        own::ELECTRIC => {
            let [factor, warms] = w.of(row, ["φ_i", "f_r"])?;
            let line = w.of::<1>(row, ["supply_i"])?[0].si as usize;
            let (connected, mean) =
                bill.load(w, &name, basis::IN_USE, both(own::power(w, row)?), (line, factor), on)?;
            if warms.si > 0.0 {
                bill.add(w, &TO_THE_ROOM, &name, basis::IN_USE, connected * warms, mean * warms)?;
            }
        }
        own::AIR | own::NITROGEN => {
            let (peak, mean) = both(own::gas(w, row, pressure)?);
            let (sort, days) = if what == own::AIR {
                (&AIR_USED, &mut bill.air)
            } else {
                (&NITROGEN_USED, &mut bill.nitrogen)
            };
            days.push(mean * on);
            bill.add(w, sort, &name, basis::IN_USE, peak, mean)?;
        }
        own::EXHAUST => {
            let [one] = w.of(row, ["q_e"])?;
            let (peak, mean) = both(one);
            bill.add(w, &EXHAUSTED, &name, basis::IN_USE, peak, mean)?;
        }
        _ => {
            let [one] = w.of(row, ["q_w"])?;
            let (peak, mean) = both(one);
            let sort = match what {
                own::HOT => &HOT_WATER,
                own::COLD => &COLD_WATER,
                _ => {
                    let day = Q::constant("24 h", 24.0, HOUR);
                    bill.water.push(mean * on / day);
                    &DI_WATER
                }
            };
            bill.add(w, sort, &name, basis::IN_USE, peak, mean)?;
        }
    }
    Ok(())
}

/// The load of each line, its current, and what is to be supplied for the fullest.
fn lines(w: &mut Work, bill: &Bill) -> Result<(), Stop> {
    let voltage = w.optional(&w.top(), "U")?;
    let mut currents: Vec<Q> = Vec::new();
    for line in 1..=3 {
        let row = w.row(PHASES, &format!("Line {line}"))?;
        let here = || bill.loads.iter().filter(|load| load.line == 0 || load.line == line);
        let part = |load: &Load, q: Q| if load.line == 0 { q / 3.0 } else { q };
        let connected: Vec<Q> = here().map(|load| part(load, load.connected)).collect();
        let mean: Vec<Q> = here().map(|load| part(load, load.mean)).collect();
        let connected = w.give(&row, "P_3", sum_of(&connected, KW))?;
        let mean = w.give(&row, "P_4", sum_of(&mean, KW))?;
        if connected.si > 0.0 {
            w.give(&row, "f_3", mean / connected)?;
        }
        let Some(voltage) = voltage else { continue };
        let mut each = Vec::new();
        for load in here() {
            let current = if load.line == 0 {
                three_phase_current(load.connected, voltage, load.factor)
            } else {
                one_phase_current(load.connected, voltage, load.factor)
            };
            each.push(current.or_stop("U")?);
        }
        // Added up whatever their power factors: an upper bound.
        currents.push(w.give(&row, "I_3", sum_of(&each, AMPERE))?);
    }
    if let (Some(voltage), Some(fullest)) = (voltage, currents.iter().copied().reduce(Q::max)) {
        let fullest = w.answer("I_f", fullest)?;
        w.answer("S_f", apparent_power(fullest, voltage))?;
        let least = currents.iter().copied().reduce(Q::min).map_or(0.0, |least| least.si);
        if fullest.si > 1.2 * least {
            let text =
                "The fullest line carries over 20 % more than the emptiest: spread the loads of one phase.";
            w.add_finding(&w.top(), "I_f", Severity::Note, text);
        }
    }
    Ok(())
}

/// Whether all sheets have an answer.
fn known(w: &mut Work, bill: &Bill) -> Result<(), Stop> {
    let top = w.top();
    w.say(&top, "known", if bill.unknown.is_empty() { WHOLE } else { PART })?;
    if !bill.unknown.is_empty() {
        let text = format!(
            "No answer yet, and so left out: {}. Finish them before the building is asked.",
            bill.unknown.join("; ")
        );
        w.add_finding(&top, "known", Severity::Caution, text);
    }
    if !bill.drives.is_empty() {
        let text = format!(
            "Left out, as its power or air is not typed: {}. Type it on that sheet if it counts here.",
            bill.drives.join("; ")
        );
        w.add_finding(&top, "known", Severity::Note, text);
    }
    Ok(())
}
