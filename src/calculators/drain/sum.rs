//! The sum of the drain: fall, flow, and a tank let out.

use super::lift::{self, Tank};
use super::*;
use crate::calculator::{Refuse, Stop, Work};
use crate::quantity::{Q, with_tape};
use crate::science::drain::{
    DEPTH_OF_MOST_FLOW, DEPTH_OF_MOST_VELOCITY, PLUMBING_CODES, PlumbingCode, bore_area, code_least_slope,
    depth_for_flow, discharge_coefficient, dump_peak, dump_time, dump_to_drain_ratio, fall_needed,
    fall_to_spare, flow_ratio, furthest_run, manning_velocity, part_full, segment, slope_angle,
    slope_for_flow, slope_for_velocity, slope_one_in, valve_bore_for_peak, velocity_ratio,
};

/// The depth up to which a surge may fill the pipe.
const SURGE_DEPTH: f64 = 0.8;
/// At which a pipe cleans itself, m/s: 2 ft/s in plumbing texts.
pub(super) const CLEANS: f64 = 0.6;

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    meets::refuse(w)?;
    let is_short = fall(w)?;
    let [q_m] = w.inputs(["q_m"])?;
    let top = w.top();
    let q_p = w.optional(&top, "q_p")?.unwrap_or(q_m);
    if q_p < q_m {
        return Err(Stop::at(
            "q_p",
            "The peak flow is less than the mean.",
            "Type all that may run at one time, or leave it out.",
        ));
    }
    let tank = tank(w)?;
    if let (Some(_), Some(led)) = (&tank, w.optional(&top, "V_r")?) {
        let [volume] = w.inputs(["V_1"])?;
        if volume.si > led.si * (1.0 + 1e-9) {
            let text = format!(
                "The routes that run through this drain bring no dump as large as this tank’s {}: its dump leads to another route, or nowhere. Choose the tank that is let out into this drain, or lead the dump to a route that runs through it, if one takes it.",
                w.style.answer(volume.si, L)
            );
            w.add_finding(&top, "V_1", Severity::Note, text);
        }
    }
    pipe(w, q_p, &tank)?;
    sizes(w, q_p, &tank)?;
    if w.word(&top, "station")? == PLANNED {
        lift::station(w, q_m, q_p, &tank)?;
        if is_short {
            lift::say_what_is_missing(w, q_p)?;
        }
    }
    Ok(())
}

/// Fall needed and available; gives whether a lift is needed.
fn fall(w: &mut Work) -> Result<bool, Stop> {
    let top = w.top();
    let [run, slope, available, offsets, trap, bore] =
        w.inputs(["l", "S", "h_av", "h_off", "h_trap", "D"])?;
    w.answer("need", fall_needed(run, slope))?;
    w.answer("S_1", slope_one_in(slope).or_stop("S")?)?;
    w.answer("S_a", slope_angle(slope))?;
    let taken = w.step("h_t", "Taken by offsets and trap", MM, offsets + trap)?;
    let spare = w.answer("spare", fall_to_spare(available, taken, run, slope))?;
    w.answer("l_max", furthest_run(available, taken, slope).or_stop("S")?)?;
    let is_short = spare.si < -1e-9;
    w.say(&top, "lift", if is_short { NEEDED } else { NOT_NEEDED })?;
    let is_planned = w.word(&top, "station")? == PLANNED;
    let (severity, why) = if is_planned {
        (Severity::Note, "Gravity does not do it: that is what the lift station is for.")
    } else {
        (
            Severity::Serious,
            "It does not run off by gravity: shorten the run, flatten the slope as far as the code allows, start higher, or plan a lift station.",
        )
    };
    let wider =
        if is_short && !is_planned { wider_bore(w, [run, available, taken, slope, bore])? } else { None };
    let why = wider.map_or_else(|| why.to_string(), |wider| format!("{why} {wider}"));
    w.at_least(&top, "spare", Q::constant("0 mm", 0.0, MM), severity, &why);
    if is_planned && !is_short {
        w.add_finding(
            &top,
            "lift",
            Severity::Note,
            "The fall is enough: gravity would do without a lift station.",
        );
    }

    let code = code(w)?;
    let least = w.answer("S_code", code_least_slope(code, bore))?;
    if slope.si < least.si * (1.0 - 1e-9) {
        let [has, wants] = [slope, least].map(|slope| w.style.show(slope.si, INCH_PER_FOOT));
        let text = format!(
            "The slope of {has} is below the {wants} that a code asks of this bore ({}). The local code rules.",
            code.source
        );
        w.add_finding(&top, "S", Severity::Caution, text);
    }
    Ok(is_short)
}

/// The plumbing code that was chosen.
fn code(w: &Work) -> Result<&'static PlumbingCode, Stop> {
    let second = w.word(&w.top(), "code")? != CODES[0].0;
    Ok(&PLUMBING_CODES[usize::from(second)])
}

/// The least bore, this one or a usual one above it, that the code lets fall so little that it runs off, in
/// words.
fn wider_bore(w: &Work, [run, available, taken, slope, bore]: [Q; 5]) -> Result<Option<String>, Stop> {
    let code = code(w)?;
    let does = |(name, size): (Option<&'static str>, Q)| {
        let least = code_least_slope(code, size);
        let spare = fall_to_spare(available, taken, run, least);
        (least < slope && spare.si >= 0.0).then_some((name, least.si))
    };
    let wider = SIZES.into_iter().map(|(name, number)| (Some(name), Q::constant("D", number, MM)));
    let wider = wider.filter(|(_, size)| size.si > bore.si * (1.0 + 1e-9));
    let found = with_tape(None, || [(None, bore)].into_iter().chain(wider).find_map(does)).0;
    Ok(found.map(|(name, least)| {
        let fall = w.style.show(least, INCH_PER_FOOT);
        match name {
            None => format!("This bore may fall at {fall} by that code, and then runs off."),
            Some(name) => format!("A bore of {name} may fall at {fall} by that code, and then runs off."),
        }
    }))
}

/// The tank that may be let out, if there is one.
fn tank(w: &mut Work) -> Result<Option<Tank>, Stop> {
    let [volume] = w.inputs(["V_1"])?;
    if volume.si <= 0.0 {
        return Ok(None);
    }
    let [area, bore, valve_alone, hose] = w.inputs(["A", "d_v", "C_d", "l_h"])?;
    let cd = if hose.si > 0.0 {
        let [friction] = w.inputs(["f_h"])?;
        let lost = 1.0 / valve_alone.pow(2, 1) - 1.0;
        let cd = discharge_coefficient(friction, hose, bore, lost);
        w.step("C_h", "Discharge coefficient with the hose", NUMBER, cd)?
    } else {
        valve_alone
    };
    let level = w.answer("H", volume / area)?;
    let valve = w.step("a", "Area of the open valve", M2, bore_area(bore))?;
    let peak = w.answer("q_d", dump_peak(cd, valve, level))?;
    let empty = Q::constant("0 mm", 0.0, MM);
    w.answer("t_d", dump_time(area, (level, empty), cd, valve).or_stop("d_v")?)?;
    Ok(Some(Tank { area, level, cd, valve, peak }))
}

/// What the pipe carries, against what comes.
fn pipe(w: &mut Work, q_p: Q, tank: &Option<Tank>) -> Result<(), Stop> {
    let [slope, bore, n, depth] = w.inputs(["S", "D", "n", "y"])?;
    let wetted = segment(bore, depth).or_stop("y")?;
    let radius = w.step("R", "Hydraulic radius at the chosen depth", MM, wetted.hydraulic_radius)?;
    let section = w.step("a_y", "Section that is wetted", M2, wetted.area)?;
    let v = w.answer("v", manning_velocity(radius, slope, n))?;
    let most = w.answer("Q_y", v * section)?;
    w.answer("share_m", dump_to_drain_ratio(q_p, most).or_stop("D")?)?;
    let cleans = Q::constant("0.6 m/s", CLEANS, M_PER_S);
    w.answer("S_v", slope_for_velocity(cleans, bore, depth, n).or_stop("y")?)?;
    let full = w.step("v_f", "Velocity when full", M_PER_S, manning_velocity(bore / 4.0, slope, n))?;
    let [crest, fastest] = [DEPTH_OF_MOST_FLOW, DEPTH_OF_MOST_VELOCITY].map(Q::from);
    w.answer("Q_top", full * bore_area(bore) * flow_ratio(crest).or_stop("D")?)?;
    w.answer("v_top", full * velocity_ratio(fastest).or_stop("D")?)?;
    if q_p.si > 0.0 {
        w.answer("S_q", slope_for_flow(q_p, bore, depth, n).or_stop("y")?)?;
        match depth_for_flow(q_p, bore, slope, n) {
            Ok(depth) => {
                let depth = w.answer("y_p", depth)?;
                w.answer("v_p", full * velocity_ratio(depth).or_stop("D")?)?;
            }
            Err(refusal) => {
                let text = format!(
                    "The peak flow is more than the pipe carries by gravity at any depth: it backs up. {}",
                    refusal.remedy
                );
                w.add_finding(&w.top(), "y_p", Severity::Serious, text);
            }
        }
    }
    let Some(tank) = tank else { return Ok(()) };
    let pipe = Pipe { bore, slope, n };
    let (carries, _) = pipe.at(Q::constant("0.8", SURGE_DEPTH, NUMBER))?;
    let carries = w.step("Q_0.8", "Carries at 0.8 of its bore", L_PER_MIN, carries)?;
    w.answer("surge", dump_to_drain_ratio(tank.peak + q_p, carries).or_stop("D")?)?;
    let room = carries - q_p;
    if room.si > 0.0 {
        w.answer("d_max", valve_bore_for_peak(room, tank.level, tank.cd).or_stop("C_d")?)?;
    }
    Ok(())
}

/// The usual bores at this slope, and the least that does.
fn sizes(w: &mut Work, q_p: Q, tank: &Option<Tank>) -> Result<(), Stop> {
    let [slope, n, depth] = w.inputs(["S", "n", "y"])?;
    let comes = tank.as_ref().map_or(q_p, |tank| tank.peak + q_p);
    let mut least = None;
    for (name, millimetres) in SIZES {
        let row = w.row("sizes", name)?;
        let bore = Q::constant("D", millimetres, MM);
        let pipe = Pipe { bore, slope, n };
        let (flow, velocity) = pipe.at(depth)?;
        w.give(&row, "v_s", velocity)?;
        let mean = w.give(&row, "Q_s", flow)?;
        let most = w.give(&row, "Q_8", pipe.at(Q::constant("0.8", SURGE_DEPTH, NUMBER))?.0)?;
        let fits = match (q_p <= mean, comes <= most) {
            (true, true) => DOES,
            (true, false) if tank.is_some() => NOT_THE_TANK,
            _ => TOO_SMALL,
        };
        w.say(&row, "fits", fits)?;
        if fits == DOES && least.is_none() {
            least = Some(bore);
        }
    }
    if let Some(bore) = least.filter(|_| comes.si > 0.0) {
        w.answer("D_min", bore)?;
    }
    Ok(())
}

/// A pipe on a slope, whose flow is one named call in the working: the steps of the chosen bore show
/// how it is made.
struct Pipe {
    bore: Q,
    slope: Q,
    n: Q,
}

impl Pipe {
    /// Flow and velocity at a depth.
    fn at(&self, depth: Q) -> Result<(Q, Q), Stop> {
        let Pipe { bore, slope, n } = *self;
        let part = with_tape(None, || part_full(bore, depth, slope, n)).0.or_stop("D")?;
        let arguments = [bore, depth, slope, n];
        let flow = Q::call("flow by Manning", &arguments, part.flow.number(L_PER_MIN), L_PER_MIN);
        Ok((flow, Q::call("velocity by Manning", &arguments, part.velocity.si, M_PER_S)))
    }
}
