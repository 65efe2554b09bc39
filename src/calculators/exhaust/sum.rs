//! Openings, the duct that takes what they draw, and the room.

use super::{BORES, ENCLOSED, FLANGED, FLANGED_SLOT, OPENINGS, PLAIN, given_off, meets};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::air;
use crate::science::electricity::demand;
use crate::science::pipe::{friction_factor, pressure_drop, reynolds, velocity};
use crate::science::ventilation::{
    duct_diameter, face_flow, fan_power, flanged_opening_flow, plain_opening_flow, replacement_air_heat,
    slot_flow, time_to_clear, velocity_pressure,
};
use crate::units::{KG_PER_M3, KJ_PER_KG_K, KPA, M3_PER_H, MM, MPAS, NUMBER};

/// What is drawn off, and the air it is.
pub struct Drawn {
    /// In the mean.
    pub mean: Q,
    /// The room's temperature.
    pub t: Q,
    /// The pressure of the room's air.
    pub p: Q,
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    meets::refuse(w)?;
    let rows = w.rows(OPENINGS)?;
    if rows.is_empty() {
        let remedy = "Add an opening with the air speed that it wants.";
        return Err(Stop::todo("v_c", "No opening is there yet that draws air off", remedy));
    }
    let nothing = Q::constant("none", 0.0, M3_PER_H);
    let (mut all, mut mean) = (nothing, nothing);
    for row in &rows {
        let [n, open] = w.of(row, ["n", "d"])?;
        let one = opening(w, row)?;
        let one = w.give(row, "q_1", one)?;
        let together = w.give(row, "q_n", n * one)?;
        all = all + together;
        mean = mean + demand(together, open);
    }
    let all = w.answer("Q_t", all)?;
    let mean = w.answer("Q_m", mean)?;
    if all.si <= 0.0 {
        return Err(
            Stop::at("n", "nothing is drawn off", "Type how many openings there are.").row(&rows[0].key)
        );
    }
    let [t, z] = w.inputs(["T_room", "z_site"])?;
    let p = air::pressure(z).or_stop("z_site")?;
    let p = w.step("p", "Pressure of the air", KPA, p)?;
    let rho = w.step("ρ", "Density of the air", KG_PER_M3, air::density(t, p).or_stop("T_room")?)?;
    duct(w, all, (t, rho))?;
    let drawn = Drawn { mean, t, p };
    given_off::hydrogen_and_vapours(w, &drawn)?;
    given_off::water(w, &drawn)?;
    room(w, &drawn, rho)
}

fn opening(w: &Work, row: &Row) -> Result<Q, Stop> {
    let form = w.word(row, "form")?;
    let [v] = w.of(row, ["v_c"])?;
    Ok(match form {
        ENCLOSED => {
            let [area] = w.of(row, ["A_f"])?;
            face_flow(v, area)
        }
        PLAIN | FLANGED => {
            let [area, x] = w.of(row, ["A_f", "x"])?;
            let flow = if form == FLANGED {
                flanged_opening_flow(v, x, area)
            } else {
                plain_opening_flow(v, x, area)
            };
            flow.or_stop_row("x", &row.key)?
        }
        _ => {
            let [length, x] = w.of(row, ["L_s", "x"])?;
            slot_flow(length, v, x, form == FLANGED_SLOT)
        }
    })
}

/// Bore, velocity and pressure for all openings at once.
fn duct(w: &mut Work, flow: Q, (t, rho): (Q, Q)) -> Result<(), Stop> {
    let top = w.top();
    let [v_d, e, p_x, efficiency] = w.inputs(["v_d", "e", "p_x", "η_f"])?;
    let needed = w.answer("D_n", duct_diameter(flow, v_d).or_stop("v_d")?)?;
    let bore = match w.optional(&top, "D")? {
        Some(typed) => typed,
        None => next_usual(w, needed),
    };
    let bore = w.answer("D_u", bore)?;
    let v = w.answer("v", velocity(flow, bore).or_stop("D")?)?;
    w.answer("p_v", velocity_pressure(rho, v))?;
    let (Some(l), Some(k)) = (w.optional(&top, "l")?, w.optional(&top, "K_s")?) else { return Ok(()) };
    let mu = w.step("μ", "Viscosity of the air", MPAS, air::viscosity(t).or_stop("T_room")?)?;
    let re = w.step("Re", "Reynolds number", NUMBER, reynolds(rho, v, bore, mu))?;
    let f = w.step("f", "Friction factor", NUMBER, friction_factor(re, e / bore).or_stop("e")?)?;
    let lost = w.answer("Δp", pressure_drop(f, l, bore, k, rho, v))?;
    let given = w.answer("p_f", lost + p_x)?;
    w.answer("P_f", fan_power(flow, given, efficiency).or_stop("η_f")?)?;
    if let Some(bears) = w.optional(&top, "p_b")? {
        w.answer("p_spare", bears - given)?;
    }
    Ok(())
}

/// The next usual bore; beyond them the bore itself, which is said.
fn next_usual(w: &mut Work, needed: Q) -> Q {
    if let Some(bore) = BORES.iter().find(|bore| **bore >= needed.number(MM) * (1.0 - 1e-9)) {
        return Q::call("next usual bore", &[needed], *bore, MM);
    }
    let text = "No usual bore is as wide as this: take two ducts, or type the bore that is to be made.";
    w.add_finding(&w.top(), "D_u", Severity::Note, text);
    needed
}

/// What the exhaust does to the room.
fn room(w: &mut Work, drawn: &Drawn, rho: Q) -> Result<(), Stop> {
    let top = w.top();
    let [left] = w.inputs(["s_c"])?;
    if let Some(space) = w.optional(&top, "V_r")?.filter(|_| drawn.mean.si > 0.0) {
        w.answer("n_ac", drawn.mean / space)?;
        w.answer("t_c", time_to_clear(space, drawn.mean, left).or_stop("s_c")?)?;
    }
    if let Some(outside) = w.optional(&top, "T_out")?.filter(|outside| outside.si < drawn.t.si) {
        let cp = Q::constant("c_p", 1.006, KJ_PER_KG_K);
        w.answer("H_air", replacement_air_heat(drawn.mean, rho, cp, drawn.t - outside))?;
    }
    Ok(())
}
