//! The sum of the evaporation sheet.

use super::{
    BEYOND, FORMS, HIGHEST, LOWER, NOT, PLATE, POOL, RATIO, SPILL, STILL, TABLE, TAKE_POOL, TAKE_RATIO,
    TAKE_SPILL, WITHIN,
};
use crate::calculator::{Refuse, Severity, Stop, Work};
use crate::quantity::Q;
use crate::science::evaporation::{
    Film, evaporation_by_ratio, evaporation_heat, evaporation_in_still_air, evaporation_of_plate,
    evaporation_of_spill, heat_of_evaporation, make_up_water, open_area, rise_without_water,
    time_to_concentrate, water_evaporated,
};
use crate::science::{air, water};
use crate::units::{CELSIUS, DAYS, KG_PER_H, KG_PER_L, KJ_PER_KG, KPA, M_PER_S, NUMBER, SHARE};

/// The air over the bath, and the surface.
struct Over {
    film: Film,
    latent: Q,
    speed: Q,
}

pub fn work(w: &mut Work) -> Result<(), Stop> {
    let over = over(w)?;
    let forms = forms(w, &over)?;
    let pool = forms.iter().find(|(name, _)| *name == POOL).map(|(_, found)| *found);
    let lowest = forms.iter().map(|(_, found)| *found).reduce(Q::min);
    let highest = forms.iter().map(|(_, found)| *found).reduce(Q::max);
    let (Some(lowest), Some(highest)) = (lowest, highest) else {
        return Err(Stop::at("T", "no published form holds here", "Type what was measured."));
    };
    let lowest = w.answer("w_low", lowest)?;
    let highest = w.answer("w_top", highest)?;
    if lowest.si > 0.0 {
        w.answer("k_s", highest / lowest)?;
    }
    let counted = counted(w, &forms)?;
    let counted = w.answer("w", counted)?;
    if let Some(pool) = pool.filter(|pool| pool.si > 0.0 && counted.si > 0.0) {
        w.answer("φ_e", counted / pool)?;
    }
    w.answer("Q_wet", heat_of_evaporation(counted, over.latent))?;
    make_up(w, counted)?;
    remarks(w, counted)
}

/// Pressures and surface, as all forms take them.
fn over(w: &mut Work) -> Result<Over, Stop> {
    let [area, covered, t] = w.inputs(["A_t", "f_c", "T"])?;
    let held_back =
        if covered.si > 0.0 { w.inputs::<1>(["k_c"])?[0] } else { Q::constant("none", 0.0, SHARE) };
    let area = w.answer("A_o", open_area(area, covered, held_back))?;
    let [activity, speed, humidity, room, height] = w.inputs(["a_w", "v_air", "RH", "T_room", "z_site"])?;
    let pressure = air::pressure(height).or_stop("z_site")?;
    let pressure = w.step("p", "Pressure of the air", KPA, pressure)?;
    let in_room = air::vapour_pressure(room, humidity).or_stop("T_room")?;
    let in_room = w.step("p_a", "Pressure of water vapour in the room", KPA, in_room)?;
    let at_surface = activity * water::vapour_pressure(t).or_stop("T")?;
    let at_surface = w.step("p_w", "The same at the surface of the bath", KPA, at_surface)?;
    if at_surface >= pressure {
        return Err(Stop::at("T", "the bath boils here", "Choose a temperature below boiling."));
    }
    let latent = water::heat_of_vaporisation(t).or_stop("T")?;
    let latent = w.step("h", "Heat of vaporisation at the temperature of the bath", KJ_PER_KG, latent)?;
    Ok(Over { film: Film { area, surface: t, room, at_surface, in_room, pressure }, latent, speed })
}

/// What each form comes to, of those that hold here.
fn forms(w: &mut Work, over: &Over) -> Result<Vec<(&'static str, Q)>, Stop> {
    let Over { film, latent, speed } = over;
    let Film { area, surface: t, at_surface, in_room, pressure, .. } = *film;
    let xs = air::humidity_ratio_over(at_surface, pressure).or_stop("T")?;
    let xs = w.step("x_s", "Water in air that the bath has filled", NUMBER, xs)?;
    let x = air::humidity_ratio_over(in_room, pressure).or_stop("T_room")?;
    let x = w.step("x", "Water in the air of the room", NUMBER, x)?;
    let degrees = t.number(CELSIUS);
    let mut found = Vec::new();
    for name in FORMS {
        let row = w.row(TABLE, name)?;
        let (rate, fit) = match *name {
            POOL => {
                let heat = evaporation_heat(area, at_surface, in_room, *speed);
                (
                    Ok(water_evaporated(heat, *latent)),
                    if (25.0..=30.0).contains(&degrees) { WITHIN } else { BEYOND },
                )
            }
            RATIO => {
                (Ok(evaporation_by_ratio(area, xs, x, *speed)), if degrees < 50.0 { WITHIN } else { BEYOND })
            }
            SPILL => {
                let fit = if speed.number(M_PER_S) >= 1.5 { WITHIN } else { BEYOND };
                (evaporation_of_spill(area, at_surface, t, *speed), fit)
            }
            PLATE => (evaporation_of_plate(film, *speed), LOWER),
            _ => (evaporation_in_still_air(film), if speed.si > 0.0 { LOWER } else { WITHIN }),
        };
        // A form that does not hold here is said not to; the others stand.
        let Ok(rate) = rate else {
            w.say(&row, "fit", NOT)?;
            continue;
        };
        w.say(&row, "fit", fit)?;
        let rate = w.give(&row, "w_f", rate)?;
        if area.si > 0.0 {
            w.give(&row, "n_f", rate / area)?;
        }
        found.push((*name, rate));
    }
    Ok(found)
}

/// What counts: as measured, or by the form chosen.
fn counted(w: &mut Work, forms: &[(&'static str, Q)]) -> Result<Q, Stop> {
    let top = w.top();
    if let Some(measured) = w.optional(&top, "w_m")? {
        return Ok(measured);
    }
    let of = |name: &str| forms.iter().find(|(known, _)| *known == name).map(|(_, rate)| *rate);
    let chosen = match w.word(&top, "form")? {
        HIGHEST => [POOL, RATIO].into_iter().filter_map(of).reduce(Q::max),
        TAKE_POOL => of(POOL),
        TAKE_RATIO => of(RATIO),
        TAKE_SPILL => of(SPILL),
        _ => of(STILL),
    };
    chosen.ok_or_else(|| {
        Stop::at(
            "form",
            "the form chosen does not hold here",
            "Choose another form, or type what was measured.",
        )
    })
}

/// Water to make up, and what happens without it.
fn make_up(w: &mut Work, rate: Q) -> Result<(), Stop> {
    let top = w.top();
    let [hours, days, may_rise, time] = w.inputs(["h_d", "d_y", "s", "t_x"])?;
    let rho = water::density(Q::constant("20 °C", 20.0, CELSIUS)).or_stop("T")?;
    let rho = w.step("ρ_20", "Density of make-up water", KG_PER_L, rho)?;
    let a_day = make_up_water(rate, hours, rho);
    let day = Q::constant("1 day", 1.0, DAYS);
    let flow = w.answer("q_water", a_day / day)?;
    w.answer("V_y", flow * day * days)?;
    let Some(volume) = w.optional(&top, "V")? else { return Ok(()) };
    if let Ok(after) = time_to_concentrate(volume, may_rise, rho, rate) {
        w.answer("t_s", after)?;
    }
    match rise_without_water(volume, rate, time, rho) {
        Ok(rise) => drop(w.answer("s_x", rise)?),
        Err(_) => {
            let text = "Without water it would have dried up by then: a dry heater sets fire, so level and heater are watched.";
            w.add_finding(&top, "t_x", Severity::Serious, text);
        }
    }
    Ok(())
}

/// What is easily overlooked.
fn remarks(w: &mut Work, counted: Q) -> Result<(), Stop> {
    let top = w.top();
    let [t] = w.inputs(["T"])?;
    if counted.number(KG_PER_H) > 0.0 {
        let text = "Replace it with DI water alone: salts stay behind, and tap water’s would build up. Drag-out is another matter: it takes bath along, and is replaced by bath.";
        w.add_finding(&top, "q_water", Severity::Note, text);
    }
    let class = w.word(&top, "class")?;
    if class == "ammonia or complexed" {
        let text = "Ammonia leaves with the water, and faster: the exhaust carries it and the pH falls. This sum counts water alone.";
        w.add_finding(&top, "class", Severity::Caution, text);
    }
    if t.number(CELSIUS) > 50.0 {
        let text = "All forms are stretched above 50 °C, and that of humidity ratios grows without bound towards boiling: a measured loss of level is better.";
        w.add_finding(&top, "T", Severity::Note, text);
    }
    let [speed] = w.inputs(["v_air"])?;
    if speed.number(M_PER_S) > 0.5 {
        let text =
            "More exhaust dries the bath faster: what evaporates here loads the exhaust and its make-up air.";
        w.add_finding(&top, "v_air", Severity::Note, text);
    }
    Ok(())
}
