//! The sum of starting and stopping.

use super::{COOLS, FLUSHED, HOLDS, TESTED};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::calculators::{class_of, routes};
use crate::quantity::Q;
use crate::science::heating::energy;
use crate::science::metals;
use crate::science::refill::{share_left, time_to_run};
use crate::science::rinse::overflow_decay;
use crate::units::{A_H, G_METAL, HOUR, KG, L, L_PER_DAY, MG_PER_L_METAL, MINUTE};

/// Volumes and flows that all of it is made of.
struct Tank {
    volume: Q,
    drains: Q,
    stays: Q,
    fill: Q,
    drain: Q,
}

impl Tank {
    /// Time of a volume that runs in and out again.
    fn rinse_time(&self, v: Q) -> Result<Q, Stop> {
        Ok(time_to_run(v, self.fill).or_stop("q_f")? + time_to_run(v, self.drain).or_stop("q_d")?)
    }
}

/// How a change of bath rinses its tank.
struct Rinses {
    /// Water that is drained of them all.
    water: Q,
    /// Time that they take.
    time: Q,
    /// Share of what stayed behind that is still there, and the volume that it is in.
    left: Q,
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [volume, drains, fill, drain] = w.inputs(["V", "V_d", "q_f", "q_d"])?;
    if drains > volume {
        return Err(Stop::at("V_d", "More drains than the bath holds.", "Type at most its volume."));
    }
    let stays = w.step("V_s", "Stays behind", L, volume - drains)?;
    let tank = Tank { volume, drains, stays, fill, drain };
    let t_fill = w.answer("t_f", time_to_run(volume, fill).or_stop("q_f")?)?;
    let t_drain = w.answer("t_d", time_to_run(drains, drain).or_stop("q_d")?)?;
    let made_up = made_up(w, &tank, t_fill)?;
    let water = w.optional(&top, "V_w")?.unwrap_or(volume);

    // The first fill: water test, rinses of a whole fill, make-up.
    let [n_1] = w.inputs(["n_1"])?;
    let whole = n_1 * drains;
    let mut out = whole;
    let mut hours = n_1 * tank.rinse_time(drains)? + made_up;
    let mut water_in = whole + water;
    if w.word(&top, "test")? == TESTED {
        let [stands] = w.inputs(["t_s"])?;
        out = out + drains;
        hours = hours + t_fill + stands + t_drain;
        water_in = water_in + volume;
    } else {
        let text = "Without a water test the bath itself finds the leaks: fill it with water first.";
        w.add_finding(&top, "test", Severity::Caution, text);
    }
    w.answer("t_1", hours)?;
    w.answer("D_1", out)?;
    w.answer("W_1", water_in)?;

    let rinses = rinses(w, &tank)?;
    let rinse_water = w.answer("D_r", rinses.water)?;
    let [by_hand] = w.inputs(["t_h"])?;
    let change = w.answer("t_x", t_drain + by_hand + rinses.time + made_up)?;
    let let_out = w.answer("D_x", drains + rinse_water)?;
    w.answer("W_x", rinse_water + water)?;
    if let Some(a_year) = w.optional(&top, "n_y")? {
        w.answer("t_y", a_year * change)?;
        w.answer("D_y", a_year * let_out)?;
    }
    metal(w, &tank, &rinses)?;
    idle(w, &tank)
}

/// From the empty tank to the bath that is released.
fn made_up(w: &mut Work, tank: &Tank, t_fill: Q) -> Result<Q, Stop> {
    let top = w.top();
    let [mixing, analysing, per_litre] = w.inputs(["t_m", "t_a", "L_c"])?;
    let conditioning = if per_litre.si > 0.0 {
        let [current] = w.inputs(["I_c"])?;
        let charge = w.step("Q_c", "Charge that conditions it", A_H, per_litre * tank.volume)?;
        charge / current
    } else {
        Q::constant("none", 0.0, HOUR)
    };
    let conditioning = w.answer("t_c", conditioning)?;
    let heating = match w.optional(&top, "t_up")? {
        Some(heating) => heating,
        None => {
            let text = "Heating up is not known here, and not in the hours.";
            w.add_finding(&top, "t_up", Severity::Note, text);
            Q::constant("none", 0.0, MINUTE)
        }
    };
    w.step("t_b", "Make-up, until it is released", HOUR, t_fill + mixing + heating + analysing + conditioning)
}

fn rinses(w: &mut Work, tank: &Tank) -> Result<Rinses, Stop> {
    let [filled] = w.inputs(["f_r"])?;
    let each = w.step("V_r", "Water of a rinse", L, filled * tank.volume)?;
    if w.word(&w.top(), "by")? == FLUSHED {
        let [flows] = w.inputs(["t_o"])?;
        let held = w.step("V_h", "Held while it overflows", L, each.max(tank.stays))?;
        let once = held - tank.stays;
        let start = if held.si > 0.0 { tank.stays / held } else { Q::from(0.0) };
        let left = overflow_decay(start, tank.fill, flows, held).or_stop("f_r")?;
        let time = tank.rinse_time(once)? + flows;
        return Ok(Rinses { water: once + tank.fill * flows, time, left });
    }
    let [times] = w.inputs(["n_r"])?;
    let left = share_left(tank.stays, each, times).or_stop("n_r")?;
    Ok(Rinses { water: times * each, time: times * tank.rinse_time(each)?, left })
}

/// What dump and rinse water hold, and where the rinse water belongs.
fn metal(w: &mut Work, tank: &Tank, rinses: &Rinses) -> Result<(), Stop> {
    let top = w.top();
    let has_water = rinses.water.si > 0.0;
    let mut together = 0.0;
    let mut is_valuable = false;
    for row in w.rows(metals::TABLE)? {
        let [c] = w.of(&row, ["c_M"])?;
        w.give(&row, "m_d", c * tank.drains)?;
        let left = c * rinses.left;
        let carried = if tank.stays.si > 0.0 && has_water {
            tank.stays * (c - left)
        } else {
            Q::constant("none", 0.0, G_METAL)
        };
        let carried = w.give(&row, "m_r", carried)?;
        if tank.stays.si > 0.0 {
            w.give(&row, "c_l", left)?;
        }
        if has_water {
            together += w.give(&row, "c_r", carried / rinses.water)?.number(MG_PER_L_METAL);
        }
        is_valuable |= c.si > 0.0 && metals::is_valuable(&row.key);
    }
    let class = class_of(w.word(&top, "class")?);
    w.say(&top, "route", routes::suggestion(class, is_valuable, together))?;
    if has_water {
        let text = "Test and rinse water are streams too: the first fill and each change let them out at once, beside the dump. Ask the drain and its end for the day of a change, not for the mean.";
        w.add_finding(&top, "D_x", Severity::Note, text);
    }
    Ok(())
}

fn idle(w: &mut Work, tank: &Tank) -> Result<(), Stop> {
    let top = w.top();
    let [time, evaporates, runs, room] = w.inputs(["t_i", "q_e", "q_i", "T_room"])?;
    // What a cold bath takes up from the room is no water saved.
    let evaporates = evaporates.max(Q::constant("none", 0.0, L_PER_DAY));
    w.answer("W_i", (evaporates + runs) * time)?;
    let held = match w.optional(&top, "Q_h")? {
        Some(heat) if heat.si > 0.0 => Some(w.answer("E_h", heat * time)?),
        _ => None,
    };
    let known = (w.optional(&top, "T")?, w.optional(&top, "ρ")?, w.optional(&top, "c_p")?);
    let (Some(t), Some(rho), Some(cp)) = known else { return Ok(()) };
    if t.si <= room.si {
        return Ok(());
    }
    let mass = w.step("m", "Mass of the bath", KG, tank.volume * rho)?;
    let again = w.answer("E_u", energy(mass, cp, room, t))?;
    if let Some(held) = held {
        w.say(&top, "less", if again < held { COOLS } else { HOLDS })?;
    }
    Ok(())
}
