//! The sum of the make-up, from volumes to water.

use super::ingredient::{self, Ingredient, amounts};
use super::*;
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::segregation::strong_acid_with_caustic;
use crate::science::{dilution, solution_make_up, water};

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let [v_t, v_c, v_p, v_stay] = w.inputs(["V_t", "V_c", "V_p", "V_stay"])?;
    let v = w.answer("V", v_t + v_c + v_p)?;
    if v_stay > v {
        return Err(Stop::at(
            "V_stay",
            "More stays behind than the bath holds",
            "Check the volumes of tank, chambers and pipes.",
        ));
    }
    w.answer("V_dump", v - v_stay)?;
    let [t] = w.inputs(["T_m"])?;

    let ingredients =
        w.rows(TABLE)?.into_iter().map(|row| Ingredient::read(w, row)).collect::<Result<Vec<_>, Stop>>()?;
    meets::refuse(w, &ingredients)?;
    let amounts = amounts(w, &ingredients, v, t)?;

    let parts = bath::parts(w, &ingredients, &amounts, v)?;
    let rho = bath::density(w, parts.as_deref(), &ingredients, &amounts, v, t)
        .map_err(|stop| dissolving::also_too_much(stop, &ingredients, &amounts, v, t))?;
    let rho = w.answer("ρ", rho)?;
    w.answer("m_bath", v * rho)?;
    let masses: Vec<Q> = amounts.iter().map(|amount| amount.mass).collect();
    let m_w = solution_make_up::water_mass(v, rho, &masses).or_stop("supply").map_err(|stop| {
        let most = ingredients.iter().zip(&amounts).max_by(|a, b| a.1.mass.si.total_cmp(&b.1.mass.si));
        let key = most.map_or("", |(ingredient, _)| &*ingredient.row.key);
        stop.row(key)
    })?;
    // Rounding alone may leave less than nothing.
    let m_w = if m_w.si < 0.0 { Q::constant("none", 0.0, KG) } else { m_w };
    let m_w = w.answer("m_w", m_w)?;
    let [f_1] = w.inputs(["f_1"])?;
    let m_w1 = w.answer("m_w1", f_1 * m_w)?;
    let rho_w = w.step("ρ_w", "Density of water", KG_PER_L, water::density(t).or_stop("T_m")?)?;
    let v_w = w.answer("V_w", m_w / rho_w)?;
    let liquids: Vec<Q> = amounts.iter().filter_map(|amount| amount.volume).chain([v_w]).collect();
    w.answer("V_in", liquids.iter().copied().sum())?;
    w.answer("ΔV", -dilution::contraction(&liquids, v))?;
    let hydrates = ingredients.iter().zip(&amounts).filter_map(|(ingredient, amount)| {
        let formula = ingredient.formula.as_ref().filter(|formula| formula.water_of_hydration() > 0.0)?;
        Some(solution_make_up::water_of_salt(amount.substance?, formula))
    });
    w.answer("m_h", total(hydrates, KG))?;

    bath::heat_capacity(w, parts.as_deref().ok(), rho, t)?;
    let hot = bath::heat_of_mixing(w, &ingredients, &amounts, m_w1, t)?;
    let too_much = dissolving::check(w, &ingredients, &amounts, [m_w, m_w1], (t, hot))?;
    let holds_metal = bath::metals(w, &ingredients, &amounts, v)?;
    components::list(w, &ingredients, &amounts)?;
    sort::say(w, &ingredients, holds_metal)?;
    ingredient::reached(w, &ingredients, &amounts, v)?;
    recipes::remark(w)?;

    let batch = w.optional(&top, "V_b")?;
    if let Some(v_b) = batch {
        w.answer("N_b", v / v_b)?;
        w.answer("m_wb", m_w * v_b / v)?;
        for (ingredient, amount) in ingredients.iter().zip(&amounts) {
            w.give(&ingredient.row, "m_b", amount.mass * v_b / v)?;
            if let Some(volume) = amount.volume {
                w.give(&ingredient.row, "v_b", volume * v_b / v)?;
            }
        }
    }
    if meets::has(&ingredients, &[meets::STRONG_ACID, meets::NITRIC])
        && meets::has(&ingredients, &[meets::CAUSTIC])
    {
        w.add_finding(&top, "class", Severity::Serious, strong_acid_with_caustic());
    }
    meets::check_class(w, &ingredients)?;
    if ingredients.is_empty() && w.word(&top, "recipe")? != recipes::WATER_ONLY {
        let text = format!(
            "No ingredient is listed yet: add one, or fill in from a recipe. If it is to be water alone, choose “{}” under “Usual ranges to compare with”.",
            recipes::WATER_ONLY
        );
        w.add_finding(&top, "recipe", Severity::Note, text);
        return Ok(());
    }
    let batch = batch.map(|v_b| v_b.si / v.si);
    let (is_hot, too_much) = (hot.is_some(), too_much.as_slice());
    let order = order::Order { ingredients: &ingredients, amounts: &amounts, batch, is_hot, too_much };
    order.write(w, m_w1, m_w - m_w1, t, rho_w)
}

/// A sum that reads as none where there is nothing to add up.
pub(super) fn total(terms: impl Iterator<Item = Q>, unit: &'static crate::units::Unit) -> Q {
    terms.reduce(|sum, term| sum + term).unwrap_or_else(|| Q::constant("none", 0.0, unit))
}
