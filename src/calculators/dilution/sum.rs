//! The sum: stock and water, what they make together, and how hot it gets.

use super::*;
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::dilution::{self, Liquid};
use crate::science::formula::Formula;
use crate::science::heat_of_mixing::{self, Heating, Warm};
use crate::science::plastics::{FIRST_SOFTENS, plastics_soften};
use crate::science::solutions::{self, Solute, known_solute};
use crate::science::water;
use crate::units::{KJ_PER_KG_K, MASS_FRACTION};

/// Of strong sulfuric acid, above what the solution model knows, kJ/(kg·K) (from memory).
const STRONG_ACID_HEAT_CAPACITY: f64 = 1.42;

fn formula(word: &str) -> Option<&'static str> {
    Some(match word {
        SULFURIC => "H2SO4",
        HYDROCHLORIC => "HCl",
        NITRIC => "HNO3",
        PHOSPHORIC => "H3PO4",
        SODIUM => "NaOH",
        POTASSIUM => "KOH",
        _ => return None,
    })
}

/// A liquid with its volume.
struct Part {
    liquid: Liquid,
    volume: Q,
}

/// What is dissolved, as far as the science here knows it.
struct Substance {
    solute: &'static Solute,
    formula: Formula,
}

impl Substance {
    fn density(&self, w: Q, t: Q, at: &'static str) -> Result<Q, Stop> {
        solutions::density(&[(self.solute, w)], t).or_stop(at)
    }
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let what = w.word(&top, "what")?;
    let substance = match formula(what) {
        Some(text) => {
            let formula = Formula::read(text).or_stop("what")?;
            Some(Substance { solute: known_solute(&formula).or_stop("what")?, formula })
        }
        None => None,
    };
    let [t] = w.inputs(["T_v"])?;
    let both = match w.word(&top, "ask")? {
        BY_MASS => Some(by_mass(w, substance.as_ref(), t)?),
        BY_VOLUME => by_volume(w, substance.as_ref(), t)?,
        _ => Some(two_liquids(w, substance.as_ref(), t)?),
    };
    let makes = match &both {
        Some([first, second]) => together(w, what, substance.as_ref(), first, second, t)?,
        None => w.inputs(["V_2"])?[0],
    };
    order(w, what, both.as_ref(), makes)
}

/// Density as typed; asks for it if it is not.
fn typed(w: &Work, symbol: &'static str) -> Result<Q, Stop> {
    w.optional(&w.top(), symbol)?.ok_or_else(|| {
        Stop::todo(
            symbol,
            "The density of this liquid is still to be typed",
            "Type it, or choose the substance.",
        )
    })
}

/// Density at a strength and a temperature, as a step of the working; of a liquid of no known substance as typed.
fn density(
    w: &mut Work,
    substance: Option<&Substance>,
    (share, t): (Q, Q),
    at: &'static str,
    symbol: &'static str,
    label: &str,
) -> Result<Q, Stop> {
    match substance {
        Some(substance) => w.step(symbol, label, KG_PER_L, substance.density(share, t, at)?),
        None => typed(w, symbol),
    }
}

fn none() -> Q {
    Q::constant("none", 0.0, MASS_FRACTION)
}

/// The water that goes with a stock.
fn water_of(w: &mut Work, mass: Q, t: Q) -> Result<Part, Stop> {
    let density = w.step("ρ_w", "Density of water", KG_PER_L, water::density(t).or_stop("T_v")?)?;
    let volume = dilution::volume(mass, density).or_stop("T_v")?;
    Ok(Part { liquid: Liquid { mass, w: none() }, volume })
}

fn by_mass(w: &mut Work, substance: Option<&Substance>, t: Q) -> Result<[Part; 2], Stop> {
    let top = w.top();
    let [w_1, w_2] = w.inputs(["w_1", "w_2"])?;
    let is_mass = w.word(&top, "size")? == A_MASS;
    // What cannot be reached is refused before anything is asked for.
    let m_2 = if is_mass { w.inputs(["m_2"])?[0] } else { Q::constant("1 kg", 1.0, KG) };
    dilution::stock_mass(w_1, none(), w_2, m_2).or_stop("w_2")?;
    let rho_1 = density(w, substance, (w_1, t), "w_1", "ρ_1", "Density of the stock")?;
    let m_2 = if is_mass {
        m_2
    } else {
        let rho_2 = density(w, substance, (w_2, t), "w_2", "ρ_2", "Density of the finished solution")?;
        let [v] = w.inputs(["V_m"])?;
        w.step("m_2", "Mass wanted", KG, v * rho_2)?
    };
    let mass = dilution::stock_mass(w_1, none(), w_2, m_2).or_stop("w_2")?;
    let volume = w.answer("V_1", dilution::volume(mass, rho_1).or_stop("w_1")?)?;
    let water = water_of(w, m_2 - mass, t)?;
    Ok([Part { liquid: Liquid { mass, w: w_1 }, volume }, water])
}

fn by_volume(w: &mut Work, substance: Option<&Substance>, t: Q) -> Result<Option<[Part; 2]>, Stop> {
    let top = w.top();
    let in_mol = w.word(&top, "per")? == IN_MOL;
    let (symbols, at) = if in_mol { (["C_1", "C_2"], "C_2") } else { (["c_1", "c_2"], "c_2") };
    let stock_at = if in_mol { "C_1" } else { "c_1" };
    let [c_1, c_2] = w.inputs(symbols)?;
    let [v_2] = w.inputs(["V_2"])?;
    let volume = w.answer("V_1", dilution::stock_volume(c_1, c_2, v_2).or_stop(at)?)?;
    let Some(substance) = substance else {
        w.answer("V", v_2)?;
        let (rho_1, rho_2) = (w.optional(&top, "ρ_1")?, w.optional(&top, "ρ_2")?);
        if let (Some(rho_1), Some(rho_2)) = (rho_1, rho_2) {
            let mass = w.answer("m_1", volume * rho_1)?;
            let whole = w.answer("m", v_2 * rho_2)?;
            let water = whole - mass;
            if water.si < 0.0 {
                let reason = "The stock weighs more than the finished solution";
                return Err(Stop::at("ρ_2", reason, "Check the two densities."));
            }
            let water = water_of(w, water, t)?;
            w.answer("m_0", water.liquid.mass)?;
            w.answer("V_0", water.volume)?;
            w.answer("ΔV", dilution::contraction(&[volume, water.volume], v_2))?;
            w.answer("ρ", rho_2)?;
        }
        return Ok(None);
    };
    let grams = |c: Q| if in_mol { c * substance.formula.molar_mass() } else { c };
    let model = |c: Q, at| solutions::density_of_concentrations(&[(substance.solute, c)], t).or_stop(at);
    let rho_1 = w.step("ρ_1", "Density of the stock", KG_PER_L, model(grams(c_1), stock_at)?)?;
    let rho_2 = w.step("ρ_2", "Density of the finished solution", KG_PER_L, model(grams(c_2), at)?)?;
    let w_1 = w.step("w_1", "Strength of the stock", MASS_PERCENT, grams(c_1) / rho_1)?;
    let mass = volume * rho_1;
    let rest = v_2 * rho_2 - mass;
    // A stock taken as it is needs no water, but for rounding.
    let rest = if rest.si < 0.0 { 0.0 * mass } else { rest };
    let water = water_of(w, rest, t)?;
    Ok(Some([Part { liquid: Liquid { mass, w: w_1 }, volume }, water]))
}

fn two_liquids(w: &mut Work, substance: Option<&Substance>, t: Q) -> Result<[Part; 2], Stop> {
    let mut part = |[v, share]: [&'static str; 2], symbol: &'static str| {
        let [volume, share_of] = w.inputs([v, share])?;
        let density = density(w, substance, (share_of, t), share, symbol, "Density")?;
        Ok(Part { liquid: Liquid { mass: volume * density, w: share_of }, volume })
    };
    let first = part(["V_a", "w_a"], "ρ_1")?;
    let second = part(["V_k", "w_k"], "ρ_0")?;
    w.answer("V_1", first.volume)?;
    Ok([first, second])
}

/// What both make together: mass, strength, volume, heat.
fn together(
    w: &mut Work,
    what: &str,
    substance: Option<&Substance>,
    first: &Part,
    second: &Part,
    t: Q,
) -> Result<Q, Stop> {
    w.answer("m_1", first.liquid.mass)?;
    w.answer("m_0", second.liquid.mass)?;
    w.answer("V_0", second.volume)?;
    let mixed = dilution::mix(first.liquid, second.liquid).or_stop("ask")?;
    let mass = w.answer("m", mixed.mass)?;
    let share = w.answer("w", mixed.w)?;
    let density = match substance {
        Some(substance) => substance.density(share, t, "T_v")?,
        None => typed(w, "ρ_2")?,
    };
    let density = w.answer("ρ", density)?;
    let volume = w.answer("V", dilution::volume(mass, density).or_stop("ρ_2")?)?;
    w.answer("ΔV", dilution::contraction(&[first.volume, second.volume], volume))?;
    let c = w.answer("c", share * density)?;
    let Some(substance) = substance else { return Ok(volume) };
    w.answer("C", c / substance.formula.molar_mass())?;
    let Some(heating) = Heating::of(&substance.formula) else {
        if what == POTASSIUM {
            let text = "Its heat is not counted here: it heats water as strongly as sodium hydroxide.";
            let top = w.top();
            w.add_finding(&top, "what", Severity::Caution, text);
        }
        return Ok(volume);
    };
    let heat = heat_of_mixing::heat_of_mixing(heating, &[first.liquid, second.liquid]).or_stop("what")?;
    let heat = w.answer("H", heat)?;
    temperature(w, heating, substance, [first, second], mass, share, heat)?;
    Ok(volume)
}

/// Temperature that the mixture reaches if nothing cools it, and what it does to the vessel.
fn temperature(
    w: &mut Work,
    heating: Heating,
    substance: &Substance,
    [first, second]: [&Part; 2],
    mass: Q,
    share: Q,
    heat: Q,
) -> Result<(), Stop> {
    let [t_1, t_0] = w.inputs(["T_1", "T_0"])?;
    let c_1 = heat_capacity(w, "c_p1", heating, substance, first.liquid.w, t_1)?;
    let c_0 = heat_capacity(w, "c_p0", heating, substance, second.liquid.w, t_0)?;
    let c = heat_capacity(w, "c_p", heating, substance, share, t_0)?;
    w.answer("ΔT", heat_of_mixing::adiabatic_rise(heat, mass, c).or_stop("what")?)?;
    let warm = [
        Warm { capacity: second.liquid.mass * c_0, temperature: t_0 },
        Warm { capacity: first.liquid.mass * c_1, temperature: t_1 },
    ];
    let reached = heat_of_mixing::temperature_reached(&warm, heat, mass * c).or_stop("T_0")?;
    let reached = w.answer("T", reached)?;
    let top = w.top();
    let limit = |number| Q::constant("limit", number, CELSIUS);
    if reached.number(CELSIUS) > 90.0 {
        let why = "Added at once it spits. Add it in small portions, stir and cool, or dilute in two steps.";
        w.at_most(&top, "T", limit(90.0), Severity::Serious, why);
    } else {
        let why =
            concat!("Add it in portions and stop to cool at 45 °C, or start colder. ", plastics_soften!());
        w.at_most(&top, "T", limit(FIRST_SOFTENS), Severity::Caution, why);
    }
    Ok(())
}

/// Heat capacity from the solution model; where that does not hold, that of the liquid's water alone,
/// which makes the rise an upper bound.
fn heat_capacity(
    w: &mut Work,
    symbol: &str,
    heating: Heating,
    substance: &Substance,
    share: Q,
    t: Q,
) -> Result<Q, Stop> {
    let (label, c) = match solutions::heat_capacity(&[(substance.solute, share)], t) {
        Ok(c) => ("Heat capacity", c),
        Err(_) if heating == Heating::SulfuricAcid => {
            ("Heat capacity of strong acid", Q::constant("c_acid", STRONG_ACID_HEAT_CAPACITY, KJ_PER_KG_K))
        }
        Err(_) => {
            let c = (1.0 - share) * water::heat_capacity(t).or_stop("T_0")?;
            ("Heat capacity, of its water alone: an upper bound of the rise", c)
        }
    };
    w.step(symbol, label, KJ_PER_KG_K, c)
}

/// The steps, for each batch that is to be made, or once.
fn order(w: &mut Work, what: &str, both: Option<&[Part; 2]>, makes: Q) -> Result<(), Stop> {
    let is_acid = ACIDS.contains(&what);
    let into =
        if is_acid { "into the stirred water, never water into acid" } else { "into the stirred water" };
    let [first, second] = match both {
        Some([first, second]) => [Some(first), Some(second)],
        None => [None, None],
    };
    // The weaker liquid goes first: of two liquids it is the one with less of the substance.
    let is_swapped = first.zip(second).is_some_and(|(a, b)| a.liquid.w < b.liquid.w);
    let (strong, weak) = if is_swapped { (second, first) } else { (first, second) };
    let wanted = |part: Option<&Part>| part.map(|part| (part.volume, L));
    let has_water = weak.is_none_or(|weak| weak.liquid.w.si == 0.0);
    let name = if has_water { "Water" } else { "The weaker liquid" };
    let weigh = |w: &mut Work, part: Option<&Part>| {
        if let Some(part) = part {
            w.or_measured(part.liquid.mass, KG);
        }
    };
    w.instruct(None, format!("{name} into the vessel, stirrer and exhaust on."), wanted(weak));
    weigh(w, weak);
    let text =
        format!("{what}: the stronger liquid, slowly, in portions, {into}. Cool between; stop at 45 °C.");
    let text = if what == OTHER { format!("The stronger liquid, slowly, {into}.") } else { capital(&text) };
    let rows = w.rows("batches")?;
    if rows.is_empty() {
        w.instruct(None, text.clone(), wanted(strong));
        weigh(w, strong);
    }
    for row in rows {
        w.instruct(Some(&row), format!("{}. {text}", row.key), wanted(strong));
        weigh(w, strong);
        let taken = w.optional(&row, "V_added")?;
        if let (Some(taken), Some(strong)) = (taken, strong)
            && strong.volume.si > 0.0
        {
            w.give(&row, "V_got", taken / strong.volume * makes)?;
        }
    }
    let last = if has_water {
        "Cool, fill up to the mark, mix, and check the strength."
    } else {
        "Cool, mix, and check the strength."
    };
    w.instruct(None, last, None);
    Ok(())
}

fn capital(text: &str) -> String {
    let mut text = text.to_string();
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}
