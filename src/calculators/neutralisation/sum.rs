//! The sum of the neutralisation sheet.

use super::{EVENED, LOWERED, PERIODS, TAKES_ACID};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::calculators::class_of;
use crate::calculators::reagent::{
    ARRIVING, BY_NAME, LIME, POTASH, SODA, Stock, Water, carries, gypsum, molar_mass, nothing,
    refuse_what_must_not_meet, strong,
};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::heat_of_mixing::{
    Heating, Warm, adiabatic_rise, heat_to_infinite_dilution, starting_temperature, temperature_reached,
    water_per_mole,
};
use crate::science::neutralisation::{
    band_share, equalisation_volume, heat_of_neutralisation, hydroxide_with, stages,
};
use crate::science::ph::{Portion, hydrogen_cyanide_share};
use crate::science::precipitation::{sets_of, solubility};
use crate::science::regulation::SEWER_LEAST_PH;
use crate::science::segregation::Class;
use crate::science::{lime, metals, water};
use crate::units::{
    DAYS, KG_PER_MIN, KJ_PER_KG_K, KJ_PER_MOL, KW, L_PER_MIN, MEQ_PER_L, MG_PER_L_METAL, MINUTE, MOL_PER_L,
    NUMBER, PERCENT,
};

/// As near as this a pH is reached.
const CLOSE: f64 = 0.005;
/// In mol/m³ of strong acid or base: pH 4 to 10.
const NEAR_NEUTRAL: f64 = 0.1;
/// Common practice: one part in a hundred of the free cyanide is gas there.
const LEAST_WITH_CYANIDE: f64 = 11.0;
/// Minutes in a stage: common practice, no source.
const LEAST_WITH_LIME: f64 = 30.0;

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [volume, mean, t] = w.inputs(["Q", "q_m", "T"])?;
    let water = Water::read(w, t)?;
    let ph = w.answer("pH_w", water.ph)?;
    mix(w, &water)?;
    let [target] = w.inputs(["pH_t"])?;
    let stock = stock(w, (ph, target))?;
    let raises = target > ph;
    stay_above(w, target)?;
    if target.si < SEWER_LEAST_PH {
        let text = "A public sewer takes nothing below pH 5 unless it is built for that (40 CFR 403.5); the permit may ask for more.";
        w.add_finding(&top, "pH_t", Severity::Caution, text);
    }

    let hydroxide = fall(w, target, raises)?;
    let n = water.reagent(w, &stock, hydroxide, target, "pH_t")?;
    let n = w.answer("n_r", n)?;
    let dosed = w.answer("V_d", n * volume / stock.strength)?;
    let taken = n * stock.takes_up * volume;
    w.answer("a_r", if raises { taken } else { -taken })?;
    w.answer("m_d", n * volume * stock.molar_mass)?;
    let out = w.answer("Q_out", volume + dosed)?;
    if let Some((falls, left)) = gypsum(w, &water, &stock, n)? {
        w.answer("m_g", falls * out)?;
        w.answer("c_S", left)?;
    }
    for row in w.rows(metals::TABLE)? {
        let [c] = w.of(&row, ["c_m"])?;
        let none = Q::constant("0", 0.0, MG_PER_L_METAL);
        w.give(&row, "c_o", if out.si > 0.0 { c * volume / out } else { none })?;
    }

    let peak = peak(w, mean)?;
    let is_evened = w.word(&top, "even")? == EVENED;
    let through = w.answer("q_t", if is_evened { mean } else { peak })?;
    let [strongest] = w.inputs(["x_a"])?;
    let low = w.answer("q_low", n * mean / stock.strength)?;
    let high = w.answer("q_high", n * strongest * through / stock.strength)?;
    let one = Q::constant("1", 1.0, NUMBER);
    w.answer("r_t", if low.si > 0.0 { high / low } else { one })?;
    w.answer("N_s", stages(ph))?;
    band(w, &water, &stock, (n, hydroxide, target))?;
    heat(w, &water, &stock, (n, mean, strongest))?;
    tanks(w, is_evened, stock.is_lime(), through, volume)
}

/// What is given of the acid must be that of all streams mixed: it is held against what the route adds up, and where
/// the route does not know that, a stream that pulls the other way is named.
fn mix(w: &mut Work, water: &Water) -> Result<(), Stop> {
    let top = w.top();
    if let Some(known) = w.optional(&top, "e_r")? {
        // Near neutral a tenth is less than anybody measures.
        let is_other =
            |given: &f64| (given - known.si).abs() > 0.1 * known.si.abs().max(given.abs()) + NEAR_NEUTRAL;
        let given = water.equivalents().filter(is_other);
        if let Some(given) = given {
            let [known, given] = [known.si, given].map(|acid| w.style.answer(acid, MEQ_PER_L));
            let text = format!(
                "By its streams this water holds {known} of acid, and what is given here comes to {given}, below 0 base: a stream came, went or changed. Give that of the mix."
            );
            w.add_finding(&top, "given", Severity::Caution, text);
        }
        return Ok(());
    }
    let (other, word) = if water.ph.si < 7.0 { (Class::Alkaline, "acid") } else { (Class::Acid, "alkaline") };
    let mut against = Vec::new();
    for row in w.rows(ARRIVING)? {
        if class_of(w.word(&row, "class_s")?) == other {
            against.push(row.key.to_string());
        }
    }
    if !against.is_empty() {
        let text = format!(
            "{} ({}) comes into water that is given as {word}, and the route does not know how much acid or base all of it holds: the reagent is right only if what is given here is that of the mix.",
            against.join(", "),
            other.name()
        );
        w.add_finding(&top, "given", Severity::Caution, text);
    }
    Ok(())
}

/// Water with cyanide is held where hardly any of it is gas.
fn stay_above(w: &mut Work, target: Q) -> Result<(), Stop> {
    if !carries(w, Class::Cyanide)? || target.si >= LEAST_WITH_CYANIDE {
        return Ok(());
    }
    let (top, shown) =
        (w.top(), w.style.answer(hydrogen_cyanide_share(target, w.inputs(["T"])?[0]).si, PERCENT));
    let text = format!(
        "This route carries cyanide: at pH {:.1} {shown} of what is free is hydrogen cyanide, a gas that kills. It stays above pH 11.",
        target.si
    );
    w.add_finding(&top, "pH_t", Severity::Serious, text);
    Ok(())
}

/// The reagent that pulls the right way, if it may meet what the route carries.
fn stock(w: &mut Work, (ph, target): (Q, Q)) -> Result<Stock, Stop> {
    let top = w.top();
    if (target.si - ph.si).abs() < CLOSE {
        return Err(Stop::at(
            "pH_t",
            "the water is at this pH already",
            "It takes no reagent; take another pH.",
        ));
    }
    let raises = target > ph;
    refuse_what_must_not_meet(w, if raises { Class::Alkaline } else { Class::Acid })?;
    let may_lower = TAKES_ACID.contains(&w.word(&top, "kind_r")?);
    let lowers = may_lower && w.word(&top, "way")? == LOWERED;
    let [from, to] = [ph, target].map(|q| format!("{:.2}", q.si));
    if raises == lowers {
        let reason = format!("from pH {from} to {to} it is {}", if raises { "raised" } else { "lowered" });
        if raises {
            return Err(Stop::at("way", reason, "Choose that it is raised, and take a base."));
        }
        if may_lower {
            return Err(Stop::at("way", reason, "Choose that it is lowered, and take an acid."));
        }
        let remedy = "Acid is not offered on this route. Lead the water to a route for acid and base water if its class allows that.";
        return Err(Stop::at("kind_r", reason, remedy));
    }
    Stock::read(w, if raises { "up" } else { "down" })
}

/// What falls of each metal as the pH rises, and the hydroxide that it takes along.
fn fall(w: &mut Work, target: Q, raises: bool) -> Result<Q, Stop> {
    let (mut falls, mut unknown, mut taken) = (Vec::new(), Vec::new(), Vec::new());
    for row in w.rows(metals::TABLE)? {
        let [c] = w.of(&row, ["c_m"])?;
        let none = Q::constant("0", 0.0, MG_PER_L_METAL);
        let Some(sets) = sets_of(&row.key) else {
            w.give(&row, "c_f", none)?;
            if c.si > 0.0 {
                unknown.push(row.key.to_string());
            }
            continue;
        };
        if !raises {
            w.give(&row, "c_f", none)?;
            continue;
        }
        // Of the two sets the one that lets more fall: it takes more reagent.
        let [a, b] =
            [solubility(sets[0], target).or_stop("pH_t")?, solubility(sets[1], target).or_stop("pH_t")?];
        let fallen = w.give(&row, "c_f", (c - a.min(b)).max(none))?;
        if fallen.si > 0.0 {
            falls.push(row.key.to_string());
            taken.push(hydroxide_with(fallen, molar_mass(&row.key)?, sets[0].charge));
        }
    }
    let top = w.top();
    if !falls.is_empty() {
        let text = format!(
            "At pH {:.1} {} falls as hydroxide: it takes reagent, and is sludge. See the sheet of precipitation.",
            target.si,
            falls.join(", ")
        );
        w.add_finding(&top, "pH_t", Severity::Note, text);
    }
    if !unknown.is_empty() {
        let text =
            format!("What {} takes of the reagent is not known here, and is left out.", unknown.join(", "));
        w.add_finding(&top, "n_r", Severity::Note, text);
    }
    if falls.is_empty() {
        return Ok(nothing());
    }
    w.step("C_h", "Hydroxide that falls with the metals", MOL_PER_L, taken.into_iter().sum())
}

/// The peak flow: as typed, or mean and largest dump together.
fn peak(w: &mut Work, mean: Q) -> Result<Q, Stop> {
    let top = w.top();
    if let Some(typed) = w.optional(&top, "q_p")? {
        if typed < mean {
            return Err(Stop::at(
                "q_p",
                "the peak flow is less than the mean",
                "Type the flow of the worst hour.",
            ));
        }
        return Ok(typed);
    }
    let [dump] = w.inputs(["V_1"])?;
    if dump.si <= 0.0 {
        let text = "No peak flow is typed, and no dump comes: the peak is taken to be the mean.";
        w.add_finding(&top, "q_t", Severity::Note, text);
        return Ok(mean);
    }
    match w.optional(&top, "t_1")? {
        Some(time) => w.step("q_x", "Peak flow, a dump on top of the mean", L_PER_MIN, mean + dump / time),
        None => Err(Stop::todo(
            "t_1",
            "the peak flow is still open: nobody knows how fast the largest dump runs in",
            "Type the time, or the peak flow.",
        )),
    }
}

/// How true the dosing must be.
fn band(w: &mut Work, water: &Water, stock: &Stock, (n, hydroxide, target): (Q, Q, Q)) -> Result<(), Stop> {
    let [half] = w.inputs(["δ"])?;
    let mut portions = water.portions();
    if hydroxide.si > 0.0 {
        let (substance, c) = strong(hydroxide)?;
        portions.push(Portion { substance, c });
    }
    let ions = n * stock.takes_up;
    let share = band_share(portions, (target - half, target + half), ions, water.t).or_stop("pH_t")?;
    w.answer("x_b", share)?;
    Ok(())
}

/// Heat still to come as a solution of a share by mass is diluted without end; `None` where no table knows it, or
/// it is stronger than the table goes.
fn to_come(formula: &str, share: Option<Q>) -> Option<Q> {
    let what = Heating::of(&Formula::read(formula).ok()?)?;
    heat_to_infinite_dilution(what, water_per_mole(share?, what.molar_mass()).ok()?).ok()
}

/// What heat the neutralisation gives off, and how warm that makes the water.
fn heat(w: &mut Work, water: &Water, stock: &Stock, (n, mean, strongest): (Q, Q, Q)) -> Result<(), Stop> {
    let top = w.top();
    // A mole of base gives off what its hydroxide does, and what its stock does on dilution; lime also as it dissolves.
    let known = match &*stock.substance.name {
        LIME => Some(lime::heat_of_neutralisation()),
        POTASH => w.optional(&top, "h_s")?,
        _ => to_come(stock.substance.formula, stock.share),
    };
    let Some(of_stock) = known else {
        let text = if stock.substance.name == SODA {
            "The heat of carbonate is not known here; part of it leaves with the gas."
        } else {
            "The heat of so strong a stock, or of diluting this reagent, is not known here."
        };
        w.add_finding(&top, "ΔT", Severity::Note, text);
        return Ok(());
    };
    let each = if stock.is_lime() {
        w.step("h_b", "Heat of lime that dissolves and is taken up", KJ_PER_MOL, of_stock)?
    } else {
        let of_stock = w.step("h_b", "Heat of diluting the stock", KJ_PER_MOL, of_stock)?;
        heat_of_neutralisation() * stock.takes_up + of_stock
    };
    let water_density = water::density(water.t).or_stop("T")?;
    let mut given_off = vec![n * each];
    let mut unknown = Vec::new();
    for (substance, c) in water.holds.iter().filter(|(_, c)| c.si > 0.0) {
        let share = *c * substance.molar_mass().or_stop("given")? / water_density;
        let Some(of_acid) = to_come(substance.formula, Some(share)) else {
            unknown.push(&*substance.name);
            continue;
        };
        let symbol = format!("h_a[{}]", substance.name);
        let of_acid = w.step(symbol, "Heat of diluting what is dissolved", KJ_PER_MOL, of_acid)?;
        given_off.push(*c * of_acid);
    }
    // Water that is told by its pH is so thin that diluting it further gives off next to nothing.
    if !unknown.is_empty() && w.word(&top, "given")? == BY_NAME {
        let text = format!(
            "The heat of diluting this is not known here, or not at this strength, and is left out: {}. Add it slowly, and watch the temperature.",
            unknown.join("; ")
        );
        w.add_finding(&top, "P_h", Severity::Note, text);
    }
    let power = w.answer("P_h", given_off.into_iter().sum::<Q>() * mean)?;
    let flow = (mean + n * strongest * mean / stock.strength) * water_density;
    if flow.si <= 0.0 {
        return Ok(());
    }
    let flow = w.step("m_t", "Water and reagent", KG_PER_MIN, flow)?;
    let cp = water::heat_capacity(water.t).or_stop("T")?;
    let cp = w.step("c_w", "Heat capacity of water", KJ_PER_KG_K, cp)?;
    let peak = w.step("P_x", "Heat given off at the strongest", KW, power * strongest)?;
    w.answer("ΔT", adiabatic_rise(peak, flow, cp).or_stop("x_a")?)?;
    // What is true of a litre is true of a flow.
    let warm = Warm { capacity: flow * cp, temperature: water.t };
    let reached = temperature_reached(&[warm], peak, flow * cp).or_stop("T")?;
    w.answer("T_w", reached)?;
    let [most] = w.inputs(["T_max"])?;
    w.answer("T_in", starting_temperature(most, peak, flow * cp).or_stop("T")?)?;
    w.at_most(&top, "T_w", most, Severity::Caution, "Cool it, thin it, or dose it slower into more water.");
    Ok(())
}

/// The tanks: the one that evens, and each stage.
fn tanks(w: &mut Work, is_evened: bool, is_lime: bool, through: Q, volume: Q) -> Result<(), Stop> {
    let top = w.top();
    if is_evened {
        let mut periods = Vec::new();
        for row in w.rows(PERIODS)? {
            let [t, v] = w.of(&row, ["t_e", "V_e"])?;
            periods.push((t, v));
        }
        let [dump, margin] = w.inputs(["V_1", "x_h"])?;
        let swing =
            if periods.is_empty() { dump } else { equalisation_volume(&periods).or_stop_row("t_e", "")? };
        if periods.is_empty() {
            let text = "No inflow over the day is typed: the tank takes up the largest dump, and no more.";
            w.add_finding(&top, "V_eq", Severity::Note, text);
        }
        let all = periods.iter().map(|(_, v)| v.si).sum::<f64>();
        let time = periods.iter().map(|(t, _)| t.si).sum::<f64>();
        // The periods may be those of a day, or of the hours of service.
        let day = DAYS.to_si(1.0);
        let is_near = |rate: f64| (rate / volume.si - 1.0).abs() < 0.1;
        if !periods.is_empty() && !is_near(all / time) && !is_near(all / day) {
            let text = "What runs in over the periods is not the volume a day that this sheet counts with.";
            w.add_finding(&top, "V_eq", Severity::Caution, text);
        }
        w.answer("V_eq", swing * (1.0 + margin))?;
    }
    let [residence, power, turnover] = w.inputs(["t_r", "e_v", "n_t"])?;
    if is_lime && residence.number(MINUTE) < LEAST_WITH_LIME {
        let text = "Lime dissolves slowly: 30 min or more in a stage is common practice.";
        w.add_finding(&top, "V_r", Severity::Note, text);
    }
    let stage = w.answer("V_r", through * residence)?;
    w.answer("P_s", stage * power)?;
    w.answer("q_s", stage * turnover)?;
    Ok(())
}
