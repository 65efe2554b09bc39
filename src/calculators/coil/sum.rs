//! The sum of the coil sheet.

use super::tube::{Around, Liquid, Side, Tube, Wall, work_out};
use super::{
    ACROSS, ANOTHER, BY_WALL, COIL, COOL, LAMINAR, OTHER, PARALLEL, TABLE, TURBULENT, TYPED, UNCERTAIN,
    USUAL_TUBES, WOUND,
};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::calculators::bath_inputs;
use crate::quantity::{Q, with_tape};
use crate::science::coil::{Flow, critical_reynolds, friction_in_coil};
use crate::science::exchange::{
    Way, area_needed, chiller_load, coolant_flow, effectiveness_in_tank, effectiveness_parallel,
    exchanger_conductance, mean_difference, outlet_temperature, stream_conductance, stream_duty,
    transfer_units, tube_area, tube_length,
};
use crate::science::heating::plating_heat;
use crate::science::{air, pipe};
use crate::units::{
    CELSIUS, KG_PER_L, KG_PER_MIN, KJ_PER_KG_K, KW, KW_PER_K, L_PER_MIN, M2_K_PER_W, MM, MPAS, NUMBER,
    W_PER_M_K,
};

/// What the steps share.
struct Sheet {
    is_cooling: bool,
    t: Q,
    ts: Q,
    flow: Q,
    medium: Liquid,
    /// `m·cp` of the medium.
    rate: Q,
    /// Mass of the medium in a time.
    mass: Q,
    need: Q,
}

/// What exchanges: the tube's or the exchanger's own.
struct Exchange {
    ua: Q,
    u: Q,
    /// `m·cp` of the loop, where there is one.
    loop_rate: Option<Q>,
    way: Way,
    /// Pressure lost in each length of a tube, where there is one.
    lost_by_length: Option<Q>,
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let sheet = sheet(w)?;
    let top = w.top();
    let is_coil = w.word(&top, "kind")? == COIL;
    let exchange = if is_coil { in_the_bath(w, &sheet)? } else { outside(w)? };
    w.answer("UA", exchange.ua)?;
    passes_on(w, &sheet, &exchange)?;
    needed(w, &sheet, &exchange, is_coil)?;
    if is_coil {
        compare(w, &sheet)?;
    }
    remarks(w, &sheet)
}

/// Temperatures, the medium, and the heat to carry.
fn sheet(w: &mut Work) -> Result<Sheet, Stop> {
    let top = w.top();
    let is_cooling = w.word(&top, "use")? == COOL;
    let [t, ts, flow, margin] = w.inputs(["T", "T_s", "q", "m"])?;
    if (is_cooling && ts >= t) || (!is_cooling && ts <= t) {
        let (verb, side) = if is_cooling { ("cools", "colder") } else { ("heats", "hotter") };
        let reason = format!("A medium of {} {verb} no bath of {}.", degrees(w, ts), degrees(w, t));
        return Err(Stop::at("T_s", reason, format!("Give one that is {side} than the bath.")));
    }
    let medium = if w.word(&top, "medium")? == OTHER {
        let [rho, cp, mu, k] = w.inputs(["ρ_m", "c_m", "μ_m", "k_m"])?;
        Liquid { rho, cp, mu, k }
    } else {
        let water = Liquid::water(ts).or_stop("T_s")?;
        Liquid {
            rho: w.step("ρ_w", "Density of water as it enters", KG_PER_L, water.rho)?,
            cp: w.step("c_w", "Heat capacity of water as it enters", KJ_PER_KG_K, water.cp)?,
            mu: w.step("μ_w", "Viscosity of water as it enters", MPAS, water.mu)?,
            k: w.step("k_l", "Conductivity of water as it enters", W_PER_M_K, water.k)?,
        }
    };
    let mass = w.step("m_s", "Mass of the medium", KG_PER_MIN, flow * medium.rho)?;
    let rate = w.step("C_s", "Heat that it carries for each kelvin", KW_PER_K, mass * medium.cp)?;
    let heat = if is_cooling {
        let [current, pump, other] = w.inputs(["I", "P_pump", "Q_o"])?;
        let plating = if current.si > 0.0 {
            let [voltage] = w.inputs(["U_v"])?;
            plating_heat(current, voltage)
        } else {
            Q::constant("none", 0.0, KW)
        };
        w.step("Q_in", "Heat that comes into the bath", KW, plating + pump + other)?
    } else {
        w.inputs::<1>(["Q_n"])?[0]
    };
    let need = w.answer("Q_need", chiller_load(heat, margin))?;
    Ok(Sheet { is_cooling, t, ts, flow, medium, rate, mass, need })
}

/// All that is around a tube in this bath.
fn around(w: &Work, sheet: &Sheet) -> Result<Around, Stop> {
    let top = w.top();
    let [tubes, fouling] = w.inputs(["n_t", "R_f"])?;
    let coil = if w.word(&top, "shape")? == WOUND { Some(w.inputs::<1>(["D_c"])?[0]) } else { None };
    let water = || Liquid::water(sheet.t).or_stop("T");
    let side = match w.word(&top, "side")? {
        TYPED => Side::Typed(w.inputs::<1>(["h_o"])?[0]),
        ACROSS => Side::Across(water()?, w.inputs::<1>(["v_b"])?[0]),
        _ => {
            let difference = if sheet.is_cooling { sheet.t - sheet.ts } else { sheet.ts - sheet.t };
            Side::AtRest { liquid: water()?, t: sheet.t, difference }
        }
    };
    Ok(Around { medium: sheet.medium, flow: sheet.flow / tubes, coil, side, fouling })
}

/// A tube in the bath.
fn in_the_bath(w: &mut Work, sheet: &Sheet) -> Result<Exchange, Stop> {
    let top = w.top();
    let around = around(w, sheet)?;
    let around = Around { flow: w.step("q_1", "Flow through one tube", L_PER_MIN, around.flow)?, ..around };
    let [outside, bore, length, tubes, below] = w.inputs(["d_o", "d_i", "l", "n_t", "f_i"])?;
    let k = if w.word(&top, "mat")? == ANOTHER { w.inputs(["k_w"])? } else { w.inputs(["mat"])? }[0];
    let tube = work_out(&around, Wall { outside, bore, k }).or_stop("d_i")?;
    w.answer("v", tube.speed)?;
    let reynolds = w.answer("Re", tube.reynolds)?;
    w.answer("h_i", tube.inner)?;
    w.step("R_1", "Resistance of the wall, on the outside", M2_K_PER_W, tube.wall)?;
    w.answer("h_b", tube.outer)?;
    let u = w.answer("U", tube.u)?;
    let area = w.answer("A", tube_area(length, outside) * tubes * below)?;
    w.say(&top, "limit", tube.limit)?;
    w.say(
        &top,
        "flow",
        match tube.flow {
            Flow::Laminar => LAMINAR,
            Flow::Uncertain => UNCERTAIN,
            Flow::Turbulent => TURBULENT,
        },
    )?;
    let friction = match around.coil {
        Some(coil) if reynolds <= critical_reynolds(bore, coil).or_stop("D_c")? => {
            friction_in_coil(reynolds, bore, coil)
        }
        _ => pipe::friction_factor(reynolds, Q::constant("smooth", 0.0, NUMBER)),
    };
    let friction = w.step("f", "Friction factor", NUMBER, friction.or_stop("q")?)?;
    let none = Q::constant("none", 0.0, NUMBER);
    let lost =
        w.answer("Δp", pipe::pressure_drop(friction, length, bore, none, sheet.medium.rho, tube.speed))?;
    about_the_tube(w, &tube, around.fouling);
    Ok(Exchange { ua: u * area, u, loop_rate: None, way: Way::Counter, lost_by_length: Some(lost / length) })
}

fn about_the_tube(w: &mut Work, tube: &Tube, fouling: Q) {
    let top = w.top();
    if tube.limit == BY_WALL {
        let text = "The wall holds it back most: more stirring or flow helps little, a thinner wall or more tube does.";
        w.add_finding(&top, "limit", Severity::Note, text);
    }
    if tube.flow != Flow::Turbulent {
        let text = "Flow in the tube is not turbulent: the film inside is a lower bound. Glycol cuts the Reynolds number by 2 to 5; more flow or a narrower tube helps.";
        w.add_finding(&top, "flow", Severity::Note, text);
    }
    if fouling.si == 0.0 {
        let text = "Nothing is counted for fouling: that is a clean tube, and it will not stay one.";
        w.add_finding(&top, "R_f", Severity::Note, text);
    }
}

/// An exchanger outside of the tank.
fn outside(w: &mut Work) -> Result<Exchange, Stop> {
    let top = w.top();
    let [u, area, flow] = w.inputs(["U_x", "A_x", "q_l"])?;
    let rho = bath_inputs::density_or_usual(w)?;
    let cp = bath_inputs::heat_capacity_or_usual(w)?;
    let u = w.answer("U", u)?;
    let area = w.answer("A", area)?;
    let rate = w.step("C_l", "Heat that the loop carries for each kelvin", KW_PER_K, flow * rho * cp)?;
    let way = if w.word(&top, "kind")? == PARALLEL { Way::Parallel } else { Way::Counter };
    Ok(Exchange { ua: u * area, u, loop_rate: Some(rate), way, lost_by_length: None })
}

/// What it passes on at these temperatures.
fn passes_on(w: &mut Work, sheet: &Sheet, exchange: &Exchange) -> Result<(), Stop> {
    let Sheet { t, ts, rate, .. } = *sheet;
    let Exchange { ua, loop_rate, way, .. } = *exchange;
    let least = loop_rate.map_or(rate, |bath| bath.min(rate));
    w.answer("N", ua / least)?;
    let k = match (loop_rate, way) {
        (None, _) => {
            w.answer("ε", effectiveness_in_tank(ua, rate))?;
            stream_conductance(ua, rate).or_stop("q")?
        }
        (Some(bath), Way::Parallel) => {
            w.answer("ε", effectiveness_parallel(ua, least, bath.max(rate)))? * least
        }
        (Some(bath), Way::Counter) => {
            let k = exchanger_conductance(ua, rate, bath).or_stop("q")?;
            w.answer("ε", k / least)?;
            k
        }
    };
    let k = w.step("k", "Exchanged for each kelvin from inlet to bath", KW_PER_K, k)?;
    let out = w.answer("T_out", outlet_temperature(k, rate, ts, t))?;
    let change = if sheet.is_cooling { out - ts } else { ts - out };
    let given = w.answer("Q_g", stream_duty(sheet.mass, sheet.medium.cp, change))?;
    let back = match loop_rate {
        Some(bath) => w.answer("T_ret", t + k / bath * (ts - t))?,
        None => t,
    };
    if let Ok(mean) = mean(sheet, out, back, way) {
        w.answer("ΔT_m", mean)?;
    }
    w.answer("Q_spare", given - sheet.need)?;
    Ok(())
}

fn mean(sheet: &Sheet, out: Q, back: Q, way: Way) -> Result<Q, crate::science::Refusal> {
    let (medium, bath) = ((sheet.ts, out), (sheet.t, back));
    if sheet.is_cooling { mean_difference(bath, medium, way) } else { mean_difference(medium, bath, way) }
}

/// What the heat takes: flow, transfer units, area, tube.
fn needed(w: &mut Work, sheet: &Sheet, exchange: &Exchange, is_coil: bool) -> Result<(), Stop> {
    if sheet.need.si <= 0.0 {
        return Ok(());
    }
    let [change] = w.inputs(["ΔT_r"])?;
    w.answer("q_r", coolant_flow(sheet.need, sheet.medium.rho, sheet.medium.cp, change))?;
    let Some((units, area)) = area_for(w, sheet, exchange, exchange.u)? else { return Ok(()) };
    w.answer("N_n", units)?;
    let area = w.answer("A_n", area)?;
    if is_coil {
        let [outside, tubes, below] = w.inputs(["d_o", "n_t", "f_i"])?;
        let length = w.answer("l_n", tube_length(area, outside) / (tubes * below))?;
        if let Some(lost) = exchange.lost_by_length {
            w.answer("Δp_n", lost * length)?;
        }
    }
    Ok(())
}

/// Transfer units and area that the heat takes with this `U`; none where the flow cannot carry it.
fn area_for(w: &mut Work, sheet: &Sheet, exchange: &Exchange, u: Q) -> Result<Option<(Q, Q)>, Stop> {
    let Sheet { t, ts, rate, need, .. } = *sheet;
    let least = exchange.loop_rate.map_or(rate, |bath| bath.min(rate));
    let most = exchange.loop_rate.map_or(rate, |bath| bath.max(rate));
    let ratio = exchange.loop_rate.map_or(Q::constant("none", 0.0, NUMBER), |_| least / most);
    let difference = if sheet.is_cooling { t - ts } else { ts - t };
    let units = transfer_units(need / (least * difference), ratio, exchange.way);
    let signed = |change: Q, up: bool, from: Q| if up { from + change } else { from - change };
    let out = signed(need / rate, sheet.is_cooling, ts);
    let back = exchange.loop_rate.map_or(t, |bath| signed(need / bath, !sheet.is_cooling, t));
    match (units, mean(sheet, out, back, exchange.way)) {
        (Ok(units), Ok(mean)) => Ok(Some((units, area_needed(need, u, mean)))),
        _ => {
            let top = w.top();
            let text = "The flow cannot carry that heat between these temperatures, whatever the area: give more flow, or a source further from the bath.";
            w.add_finding(&top, "q", Severity::Caution, text);
            Ok(None)
        }
    }
}

/// Usual tubes of plastic and of metal, side by side.
fn compare(w: &mut Work, sheet: &Sheet) -> Result<(), Stop> {
    let around = around(w, sheet)?;
    let [tubes, below] = w.inputs(["n_t", "f_i"])?;
    for (name, k, outside, bore) in USUAL_TUBES {
        let row = w.row(TABLE, name)?;
        let [outside, bore] = [("d_o", *outside), ("d_i", *bore)].map(|(of, mm)| Q::constant(of, mm, MM));
        let wall = Wall { outside, bore, k: Q::constant("k_w", *k, W_PER_M_K) };
        let Ok(tube) = work_out(&around, wall) else { continue };
        let u = w.give(&row, "U_t", tube.u)?;
        w.give(&row, "R_w", tube.wall * u)?;
        let exchange = Exchange {
            ua: u * Q::constant("1 m²", 1.0, crate::units::M2),
            u,
            loop_rate: None,
            way: Way::Counter,
            lost_by_length: None,
        };
        if sheet.need.si > 0.0
            && let Some(area) = only_area(sheet, &exchange)
        {
            w.give(&row, "L_t", tube_length(area, outside) / (tubes * below))?;
        }
    }
    Ok(())
}

fn only_area(sheet: &Sheet, exchange: &Exchange) -> Option<Q> {
    let change = sheet.need / sheet.rate;
    let out = if sheet.is_cooling { sheet.ts + change } else { sheet.ts - change };
    mean(sheet, out, sheet.t, exchange.way).ok().map(|mean| area_needed(sheet.need, exchange.u, mean))
}

/// What is easily overlooked.
fn remarks(w: &mut Work, sheet: &Sheet) -> Result<(), Stop> {
    let top = w.top();
    let [room, humidity] = w.inputs(["T_room", "RH"])?;
    let dew = with_tape(None, || air::dew_point(room, humidity).ok()).0;
    if let Some(dew) = dew.filter(|dew| sheet.ts < *dew) {
        let text = format!(
            "The medium enters below the dew point of the room, {}: bare pipes drip, on electrics too. Insulate them.",
            degrees(w, dew)
        );
        w.add_finding(&top, "T_s", Severity::Caution, text);
    }
    if sheet.is_cooling {
        let [pump] = w.inputs(["P_pump"])?;
        if pump.si == 0.0 {
            let text = "No heat of pumps is counted: on a small bath it is most of the load.";
            w.add_finding(&top, "P_pump", Severity::Note, text);
        }
    }
    Ok(())
}

fn degrees(w: &Work, t: Q) -> String {
    w.style.answer(t.si, CELSIUS)
}
