//! Load, run, column and curve.

use super::regeneration::{self, Held};
use super::{ANION, BEHIND, CHELATING, FIRM, HYDROGEN, LEAD_LAG, OTHERS, STRONG, WEAK, meets};
use crate::calculator::Severity::{Caution, Note};
use crate::calculator::{Refuse, Row, Stop, Work};
use crate::quantity::Q;
use crate::science::breakthrough::Column;
use crate::science::formula::Formula;
use crate::science::ion_exchange::{
    bed_for, bed_volumes, contact_time, equivalents, ion_charge, mass_of_equivalents, metal_charge,
    metal_molar_mass, run_length, service_rate, useful_capacity,
};
use crate::science::packed_bed::{Bed, backwash_velocity, bore_for, cross_section};
use crate::science::{metals, water};
use crate::units::{DAYS, HOUR, KPA, MEQ_PER_L, MG_PER_L_METAL, MOL_PER_L, NUMBER};

/// The most that published beds take, in kPa: Davis (2010), table 8-3.
const MOST_PRESSURE: f64 = 135.0;

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    meets::refuse(w)?;
    let top = w.top();
    let resin = w.word(&top, "resin")?;
    let is_behind = w.word(&top, "behind")? == BEHIND;
    let [bed, total] = w.inputs(["V_b", "q_T"])?;
    let volume = if is_behind {
        w.optional(&top, "Q_c")?.ok_or_else(no_precipitation)?
    } else {
        w.inputs::<1>(["Q"])?[0]
    };
    if volume.si <= 0.0 {
        return Err(Stop::at("Q", "no water runs here", "Lead a stream to this route, or type its water."));
    }
    let one_day = Q::constant("1 day", 1.0, DAYS);
    let flow = match w.optional(&top, "q_p")? {
        Some(flow) => flow,
        None => volume * one_day / w.inputs::<1>(["hours"])?[0],
    };
    let runs = w.answer("h_p", volume * one_day / flow)?;
    w.answer("h_x", one_day - runs)?;
    let acid = acid(w, resin)?;

    let (rows, metals_in) = load(w, is_behind)?;
    let others = others(w, resin, acid)?;
    let all = metals_in + others;
    if all.si <= 0.0 {
        let reason = "nothing in the water loads the resin";
        return Err(Stop::todo("c", reason, "Add the metals that are in it."));
    }
    w.answer("L", all * volume)?;
    let [selectivity] = if resin == CHELATING { [Q::from(1.0)] } else { w.inputs(["α"])? };
    let is_pair = w.word(&top, "beds")? == LEAD_LAG;
    let [used] = w.inputs([if is_pair { "u_l" } else { "u" }])?;
    // Without metal the other ions alone fill the bed.
    let has_metal = metals_in.si > 0.0;
    let (held, counted) = if has_metal {
        (useful_capacity(total, metals_in, others, selectivity).or_stop("c")?, metals_in)
    } else {
        w.add_finding(&top, "BV", Note, "The water holds no metal: the run is that of the other ions.");
        (total, others)
    };
    let per_metal = w.answer("q_m", if has_metal { held } else { Q::constant("none", 0.0, MEQ_PER_L) })?;
    let volumes = w.answer("BV", bed_volumes(held, used, counted).or_stop("c")?)?;
    let days = w.answer("t_b", run_length(volumes, bed, volume).or_stop("Q")?)?;
    w.answer("t_p", run_length(volumes, bed, flow).or_stop("q_p")?)?;

    w.answer("S", service_rate(flow, bed).or_stop("V_b")?)?;
    let contact = w.answer("τ", contact_time(bed, flow).or_stop("q_p")?)?;
    column(w, flow, bed)?;
    backwash(w, bed)?;
    w.answer("Q_o", volume)?;
    let kept = outlet(w, &rows, volume)?;
    if has_metal {
        let beds = if is_pair { 2.0 } else { 1.0 };
        let [void] = w.inputs(["ε"])?;
        let whole = Column { inlet: metals_in, capacity: per_metal, contact: beds * contact, void };
        curve(w, &rows, &whole, (volume / flow, days, used), beds)?;
    }
    // Strong acid resin counts the acid among what it holds.
    let apart = acid.filter(|_| resin != STRONG);
    caustic_after(w, resin, metals_in + others, apart, volume)?;
    regeneration::after(w, &kept, bed, total, days)
}

fn no_precipitation() -> Stop {
    Stop::todo(
        "behind",
        "no precipitation of this route says what reaches the column",
        "Fill in its sheet of precipitation, or take the water as it comes.",
    )
}

/// Equivalents of the metals: each row with its concentration, and the sum.
fn load(w: &mut Work, is_behind: bool) -> Result<(Vec<(Row, Q)>, Q), Stop> {
    let mut sum = Q::constant("none", 0.0, MEQ_PER_L);
    let mut rows = Vec::new();
    let is_anion = w.word(&w.top(), "resin")? == ANION;
    let mut is_complexed = false;
    for row in w.rows(metals::TABLE)? {
        let key = row.key.to_string();
        let c = if is_behind {
            w.optional(&row, "c_l")?.ok_or_else(|| no_precipitation().row(&key))?
        } else {
            w.of::<1>(&row, ["c"])?[0]
        };
        let z = w.optional(&row, "z")?.or_else(|| metal_charge(&key));
        let z = z.ok_or_else(|| {
            Stop::todo("z", format!("{key}: the charge of its ion is not known here"), "Type it.").row(&key)
        })?;
        let m = metal_molar_mass(&key).or_stop_row("c", &key)?;
        let n = w.give(&row, "n", equivalents(c, z, m).or_stop_row("z", &key)?)?;
        sum = sum + n;
        is_complexed |= ["Sn", "Ag"].contains(&&*key) && c.si > 0.0 && !is_anion;
        rows.push((row, c));
    }
    let top = w.top();
    if is_complexed {
        let text = "Tin and silver baths hold their metal in complexes, which may not bind to the resin. Test a column with this water.";
        w.add_finding(&top, "C_m", Note, text);
    }
    Ok((rows, w.answer("C_m", sum)?))
}

/// Equivalents of all else that counts: nothing on chelating resin; acid on strong acid resin.
fn others(w: &mut Work, resin: &str, acid: Option<Q>) -> Result<Q, Stop> {
    let none = Q::constant("none", 0.0, MEQ_PER_L);
    let mut sum = if resin == STRONG { acid.unwrap_or(none) } else { none };
    for row in w.rows(OTHERS)? {
        let key = row.key.to_string();
        let [c] = w.of(&row, ["c_j"])?;
        let z = w.optional(&row, "z_j")?.or_else(|| ion_charge(&key));
        let z = z.ok_or_else(|| {
            Stop::todo("z_j", format!("{key}: its charge is not known here"), "Type it.").row(&key)
        })?;
        let m = Formula::read(&key).or_stop_row("c_j", &key)?.molar_mass();
        let n = w.give(&row, "n_j", equivalents(c, z, m).or_stop_row("z_j", &key)?)?;
        if resin != CHELATING {
            sum = sum + n;
        }
    }
    w.answer("C_o", sum)
}

/// Free acid that reaches the column, if it is known; and what brings the water to the pH set before it.
fn acid(w: &mut Work, resin: &str) -> Result<Option<Q>, Stop> {
    let top = w.top();
    let (typed, ph, set) = (w.optional(&top, "a")?, w.optional(&top, "pH_i")?, w.optional(&top, "pH_s")?);
    let there = typed.or_else(|| ph.map(strong_acid));
    let at_column = set.or(ph);
    if resin == WEAK && at_column.is_none() && there.is_none_or(|acid| acid.si > 0.0) {
        let text = "Weak acid resin holds little metal below pH 4, and the pH of this water is not known: type it, or the one set before the column.";
        w.add_finding(&top, "pH_i", Caution, text);
    }
    if let Some(ph) = at_column {
        let shown = w.style.show(ph.si, NUMBER);
        let at = if set.is_some() { "pH_s" } else { "pH_i" };
        if resin == CHELATING && !(2.0..=5.0).contains(&ph.si) {
            let text = format!(
                "At pH {shown} chelating resin may not hold the metals, or they fall out before it: 2 to 5 is common practice."
            );
            w.add_finding(&top, at, Caution, text);
        }
        if resin == WEAK && ph.si < 4.0 {
            let text = format!(
                "At pH {shown} weak acid resin holds hydrogen and little metal: raise it to 4 or more first."
            );
            w.add_finding(&top, at, Caution, text);
        }
    }
    let left = set.map(strong_acid);
    if resin == STRONG && there.or(left).is_none() {
        let text = "Strong acid resin takes up free acid as it takes up metal, and neither acid nor pH of this water is known: none is counted, so the run reads too long where there is some. Type one of them.";
        w.add_finding(&top, "a", Caution, text);
    }
    let (Some(there), Some(left)) = (there, left) else { return Ok(left.or(there)) };
    if left.si > there.si {
        let reason =
            "the pH set before the column is below that of the water, and only caustic is worked out here";
        return Err(Stop::at("pH_s", reason, "Leave it out, or type a higher pH."));
    }
    let [volume] = w.inputs(["Q"])?;
    let before = caustic((there - left) * volume)?;
    w.answer("B_1", before)?;
    Ok(Some(left))
}

/// Free strong acid at a pH: `10^(−pH)` mol/L, as in textbooks.
fn strong_acid(ph: Q) -> Q {
    Q::call("free acid", &[ph], 10f64.powf(-ph.si), MOL_PER_L)
}

/// Sodium hydroxide for an acid.
fn caustic(acid: Q) -> Result<Q, Stop> {
    let molar_mass = Formula::read("NaOH").or_stop("pH_s")?.molar_mass();
    Ok(mass_of_equivalents(acid, Q::from(1.0), molar_mass))
}

/// Acid behind the column is made up with caustic: what resin in the hydrogen form gives off for what it takes,
/// and what passes it. Strong and weak acid resin in the sodium form hold acid themselves.
fn caustic_after(w: &mut Work, resin: &str, held: Q, acid: Option<Q>, volume: Q) -> Result<(), Stop> {
    let makes_acid = resin != ANION && w.word(&w.top(), "form")? == HYDROGEN;
    let none = Q::constant("none", 0.0, MEQ_PER_L);
    let passes = makes_acid || [CHELATING, ANION].contains(&resin);
    let given_off = if makes_acid { held } else { none };
    let through = match acid {
        _ if !passes => none,
        Some(acid) => acid,
        // It counts the acid among what it holds.
        None if resin == STRONG => none,
        None => return Ok(()),
    };
    w.answer("B_2", caustic((given_off + through) * volume)?)?;
    Ok(())
}

/// Size, velocity and pressure.
fn column(w: &mut Work, flow: Q, bed: Q) -> Result<(), Stop> {
    let top = w.top();
    let [rate, velocity] = w.inputs(["S_w", "v_w"])?;
    w.answer("V_w", bed_for(flow, rate).or_stop("S_w")?)?;
    w.answer("D_w", bore_for(flow, velocity).or_stop("v_w")?)?;
    let Some(bore) = w.optional(&top, "D")? else { return Ok(()) };
    let [t, bead, void] = w.inputs(["T", "d_p", "ε"])?;
    let area = cross_section(bore);
    let v = w.answer("v", flow / area)?;
    let depth = w.answer("h", bed / area)?;
    let (density, viscosity) = (water::density(t).or_stop("T")?, water::viscosity(t).or_stop("T")?);
    let beads = Bed { bead, void, density, viscosity };
    w.answer("Δp", beads.pressure_gradient(v).or_stop("d_p")? * depth)?;
    w.answer("Re", beads.reynolds(v))?;
    let most = Q::constant("Δp at most", MOST_PRESSURE, KPA);
    w.answer("v_x", beads.velocity_for(most / depth).or_stop("d_p")?)?;
    Ok(())
}

/// What widens the bed from below, so that dirt leaves and resin stays. In the coldest water it leaves first.
fn backwash(w: &mut Work, bed: Q) -> Result<(), Stop> {
    let top = w.top();
    let Some(density) = w.optional(&top, "ρ_p")? else { return Ok(()) };
    let [t, bead, void, widened, time] = w.inputs(["T", "d_p", "ε", "x_e", "t_w"])?;
    let (water, viscosity) = (water::density(t).or_stop("T")?, water::viscosity(t).or_stop("T")?);
    let beads = Bed { bead, void, density: water, viscosity };
    let v = w.answer("v_b", backwash_velocity(&beads, density, widened).or_stop("ρ_p")?)?;
    let Some(bore) = w.optional(&top, "D")? else { return Ok(()) };
    let area = cross_section(bore);
    let flow = w.answer("q_b", v * area)?;
    w.answer("h_b", bed / area * widened)?;
    w.answer("V_bw", flow * time)?;
    Ok(())
}

/// What leaves with the water, and what is held.
fn outlet(w: &mut Work, rows: &[(Row, Q)], volume: Q) -> Result<Vec<Held>, Stop> {
    let [aim] = w.inputs(["c_a"])?;
    let mut together = Q::constant("none", 0.0, MG_PER_L_METAL);
    let mut held = Vec::new();
    for (row, c) in rows {
        let measured = w.optional(row, "c_k")?;
        let out = w.give(row, "c_o", c.min(measured.unwrap_or(aim)))?;
        w.at_most(row, "c_o", aim, Caution, "That is above the aim: look for a bed that is spent, for channels, and for complexes that do not bind.");
        w.give(row, "m_i", *c * volume)?;
        w.give(row, "m_o", out * volume)?;
        let m = w.give(row, "m_h", (*c - out) * volume)?;
        if measured.is_none() && c.si > 0.0 && *c <= aim {
            let text = format!(
                "{}: it comes in at the aim or below, so none of it is counted as held. Lower the aim, or type what is measured at the outlet.",
                row.key
            );
            w.add_finding(row, "c_o", Note, text);
        }
        together = together + out;
        held.push((row.clone(), m));
    }
    w.answer("c_T", together)?;
    Ok(held)
}

/// The outlet over time. `share` of a day that the pump runs, `days` of service to the change, share `used` of
/// one of the `beds` by then.
fn curve(w: &mut Work, rows: &[(Row, Q)], whole: &Column, times: (Q, Q, Q), beds: f64) -> Result<(), Stop> {
    let (share, days, used) = times;
    let top = w.top();
    let is_firm = w.word(&top, "model")? == FIRM;
    let at = if is_firm { "k" } else { "k_K" };
    let Some(k) = w.optional(&top, at)?.filter(|k| k.si > 0.0) else { return Ok(()) };
    let outlet = |t: Q| match is_firm {
        true => Ok(whole.bohart_adams(k, t)),
        false => whole.klinkenberg(k, t).or_stop(at),
    };
    let [aim, tried] = w.inputs(["c_a", "t_try"])?;
    let all: Q = rows.iter().map(|(_, c)| *c).sum();
    let richest = rows.iter().map(|(_, c)| *c).reduce(Q::max).unwrap_or(all);
    let x = w.step("x", "Share of what runs in", NUMBER, outlet(tried * share)?)?;
    w.answer("c_try", x * all)?;
    let x_b = w.step("x_b", "The same when the bed is changed", NUMBER, outlet(days * share)?)?;
    w.answer("c_b", x_b * richest)?;
    if richest.si <= aim.si {
        w.add_finding(&top, "t_a", Note, "The water keeps the aim before the column.");
        return Ok(());
    }
    let x_a = w.step("x_a", "Share at the aim", NUMBER, aim / richest)?;
    let time = if is_firm { whole.bohart_adams_time(k, x_a) } else { whole.klinkenberg_time(k, x_a) };
    let time = w.step("t_q", "Pump hours until then", HOUR, time.or_stop("V_b")?)?;
    w.answer("t_a", time / share)?;
    let by_then = w.answer("u_a", beds * whole.used_at(time))?;
    w.answer("u_x", by_then - used)?;
    Ok(())
}
