//! The sum of a pH.

use super::bottles::{Bottle, Bottles, LOWERS, NEITHER, RAISES};
use super::{ACID, BASE, BY_MASS, COUNTED, TABLE, YES, meets};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::calculators::class_of;
use crate::calculators::reagent::strong;
use crate::quantity::Q;
use crate::science::ph::{
    Activities, Portion, Solution, Substance, least_dead_band, neutral_ph, ph_after, reagent_to_reach,
};
use crate::units::{MOL_PER_L, NUMBER};
use std::borrow::Cow;

/// Below this the strength of a strong acid is half a mole in a litre and more.
const STRONGEST: f64 = 0.5;

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let class = class_of(w.word(&top, "class_p")?);
    let [t] = w.inputs(["T"])?;
    let activities =
        if w.word(&top, "activity")? == COUNTED { Activities::Counted } else { Activities::LeftOut };
    let (mut held, mut classes) = (Vec::new(), Vec::new());
    for row in w.rows(TABLE)? {
        let (substance, c, first_pka) = solute(w, &row)?;
        if c.si > 0.0 {
            let by_itself = meets::class_of_substance(&row.key, &substance, first_pka);
            classes.push((row.key.clone(), by_itself));
        }
        held.push((substance, c));
    }
    meets::refuse(class, &classes)?;
    if held.is_empty() {
        return Err(Stop::todo("C", "nothing is dissolved yet", "Add an acid, a base or a salt."));
    }
    let solution = |more: &[(&'static Substance, Q)]| {
        // What is added by the sum itself is a strong acid or base.
        let portions = held.iter().map(|(substance, c)| Portion { substance: substance.as_ref(), c: *c });
        let more = more.iter().map(|(substance, c)| Portion { substance, c: *c });
        portions.chain(more).collect::<Vec<_>>()
    };
    let bare = Solution::new(solution(&[]), t, activities).or_stop("T")?;
    let worked_out = w.answer("pH_c", bare.ph())?;
    let measured = w.optional(&top, "pH_m")?;
    let ph = w.answer("pH", measured.unwrap_or(worked_out))?;
    if ph.si < STRONGEST {
        let reason = "this strong an acid is not told by its pH: it is below 0.5";
        let remedy =
            "Take it by its amount: titrate it, and correct the bath by the sheets Analysis and Correction.";
        return Err(Stop::at("C", reason, remedy));
    }
    w.answer("pH_n", neutral_ph(t).or_stop("T")?)?;
    let mut made_up = Vec::new();
    if measured.is_some() {
        let missed = w.answer("b_0", bare.base_to(ph))?;
        made_up.push(strong(-missed)?);
    }
    let bath = Solution::new(solution(&made_up), t, activities).or_stop("T")?;
    let strength = w.answer("I", bath.ionic_strength())?;
    if strength.si > 0.1 * MOL_PER_L.to_si(1.0)
        && strength.si <= 0.5 * MOL_PER_L.to_si(1.0)
        && measured.is_none()
    {
        w.add_finding(
            &top,
            "I",
            Severity::Note,
            "Above 0.1 mol/L a pH that is worked out is good to about 0.1.",
        );
    }
    w.answer("β", bath.buffer_capacity(ph))?;
    meets::at_this_ph(w, class, ph, t)?;

    let bottles = Bottles::read(w)?;
    let is_held = w.word(&top, "hold")? == YES;
    let volume = w.optional(&top, "V")?;
    let wanted = w.optional(&top, "pH_w")?;
    change(w, &bath, &bottles, (ph, wanted), volume)?;
    if let Some(volume) = volume {
        let bottle = bottles.chosen(w)?;
        let [tried] = w.inputs(["V_try"])?;
        let n = bottle.strength * tried / volume;
        w.answer("pH_try", ph_after(&bath, bottle.reagent(), n).or_stop("V_try")?)?;
    }
    if let Some(volume) = volume.filter(|_| is_held) {
        let [dose] = w.inputs(["v_d"])?;
        let set = wanted.unwrap_or(ph);
        let more = strong(-bath.base_to(set))?;
        let mut at_set = made_up.clone();
        at_set.push(more);
        let held_there = Solution::new(solution(&at_set), t, activities).or_stop("T")?;
        hold(w, &held_there, &bottles, (set, volume, dose))?;
    }
    Ok(())
}

/// What it is, how much of it there is, and the first pKa of an acid whose own are typed, if it has any.
type Solute = (Cow<'static, Substance>, Q, Option<Option<f64>>);

/// A row of what is dissolved.
fn solute(w: &mut Work, row: &Row) -> Result<Solute, Stop> {
    let key = row.key.to_string();
    let mut first_pka = None;
    let known_as = w.word(row, "known_as")?;
    let substance = match known_as {
        ACID => {
            let typed = [w.optional(row, "pK_1")?, w.optional(row, "pK_2")?, w.optional(row, "pK_3")?];
            let typed: Vec<f64> = typed.into_iter().flatten().map(|pka| pka.si).collect();
            if typed.windows(2).any(|pair| pair[0] > pair[1]) {
                let reason = format!("the pKa of {key} do not rise from the first to the last");
                return Err(Stop::at("pK_1", reason, "Type the smallest first.").row(&key));
            }
            first_pka = Some(typed.first().copied());
            Cow::Owned(Substance::typed(&key, &typed))
        }
        BASE => Cow::Owned(Substance::typed_base(&key, w.optional(row, "pK_1")?.map(|pka| pka.si))),
        _ => {
            let name = key.trim();
            let found =
                crate::science::ph::SUBSTANCES.iter().find(|known| known.name.eq_ignore_ascii_case(name));
            let found = found.ok_or_else(|| {
                let remedy = "Take a name of the list, or say that it is an acid or a base and type its pKa.";
                Stop::at("known_as", format!("“{name}” is not known by its name"), remedy).row(&key)
            })?;
            Cow::Borrowed(found)
        }
    };
    let c = if known_as == BY_MASS {
        let [c] = w.of(row, ["c_s"])?;
        c / substance.molar_mass().or_stop_row("c_s", &key)?
    } else {
        w.of(row, ["C"])?[0]
    };
    let c = w.give(row, "C_s", c)?;
    w.say(row, "from", substance.source)?;
    Ok((substance, c, first_pka))
}

/// How much of which bottle brings the bath to the pH wanted.
fn change(
    w: &mut Work,
    bath: &Solution,
    bottles: &Bottles,
    (ph, wanted): (Q, Option<Q>),
    volume: Option<Q>,
) -> Result<(), Stop> {
    let top = w.top();
    let Some(wanted) = wanted else { return w.say(&top, "bottle", NEITHER) };
    if (wanted.si - ph.si).abs() < 5e-4 {
        return w.say(&top, "bottle", NEITHER);
    }
    let raises = wanted.si > ph.si;
    let bottle = bottles.that(raises, "pH_w")?;
    w.say(&top, "bottle", if raises { RAISES } else { LOWERS })?;
    let n = w.answer("n_r", reagent_to_reach(bath, bottle.reagent(), wanted).or_stop("pH_w")?)?;
    if let Some(volume) = volume {
        let of_bottle = w.answer("V_r", n * volume / bottle.strength)?;
        w.answer("s_r", of_bottle / volume)?;
        let molar_mass = bottle.substance.molar_mass().or_stop(if raises { "up" } else { "down" })?;
        w.answer("m_r", n * volume * molar_mass)?;
    }
    Ok(())
}

/// What one dose does at the set point, the dead band that it takes, and how much a day.
fn hold(
    w: &mut Work,
    bath: &Solution,
    bottles: &Bottles,
    (set, volume, dose): (Q, Q, Q),
) -> Result<(), Stop> {
    let top = w.top();
    let after =
        |bottle: Bottle| ph_after(bath, bottle.reagent(), bottle.strength * dose / volume).or_stop("v_d");
    let up = w.answer("Δ_up", after(bottles.up)? - set)?;
    let down = match &bottles.down {
        Ok(bottle) => Ok(w.answer("Δ_down", set - after(*bottle)?)?),
        Err(why) => Err(why),
    };
    let [t_mix, t_d, probe, band] = w.inputs(["t_mix", "t_d", "δ", "b"])?;
    let one = Q::constant("1", 1.0, NUMBER);
    let unseen = w.step("k", "Doses before the probe shows one", NUMBER, (t_mix / t_d).max(one))?;
    // Where nothing may lower it, the one bottle is all that doses.
    let least = w.answer("b_least", least_dead_band(up, *down.as_ref().unwrap_or(&up), unseen, probe))?;
    w.answer("b_x", band - least)?;
    let Some(drift) = w.optional(&top, "d")? else { return Ok(()) };
    let step = match (drift.si > 0.0, down) {
        (true, Ok(down)) => down,
        (false, _) => up,
        (true, Err(why)) => {
            w.add_finding(
                &top,
                "d",
                Severity::Serious,
                format!("A pH that rises would be held with acid, and {why}."),
            );
            return Ok(());
        }
    };
    if step.si <= 0.0 {
        return Err(Stop::at(
            "v_d",
            "a dose of this bottle moves the pH the wrong way",
            "Take another bottle.",
        ));
    }
    let much = if drift.si < 0.0 { -drift } else { drift };
    w.answer("V_day", dose * much / step)?;
    Ok(())
}
