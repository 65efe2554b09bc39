//! The sum of the sheet of precipitation.

use super::{AMMONIA, CITRATE, CYANIDE, EDTA, FIRST, HIGHER, NONE, NOT_KNOWN, OTHER, PHOSPHATE, SULFITE};
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::calculators::reagent::{Stock, Water, gypsum, molar_mass, refuse_what_must_not_meet};
use crate::calculators::{routes, rules};
use crate::quantity::Q;
use crate::science::neutralisation::hydroxide_with;
use crate::science::precipitation::sludge::{dry_solid, sludge_volume, wet_sludge};
use crate::science::precipitation::{Set, Together, best_common_ph, least_soluble, sets_of, solubility};
use crate::science::regulation::limit_on;
use crate::science::segregation::Class;
use crate::science::{metals, water};
use crate::units::{CELSIUS, G_PER_DAY_METAL, KG_PER_DAY, L_PER_DAY, MG_PER_L_METAL, MOL_PER_L, NUMBER};

/// Above it water is lowered before it leaves: common practice, no source.
const HIGH: f64 = 9.5;

/// One metal of the water.
struct Metal {
    row: Row,
    sets: [&'static Set; 2],
    /// As it comes.
    c: Q,
    /// That stays dissolved, by the set that counts.
    dissolved: Q,
    limit: Option<Q>,
    /// That falls in a time, and what it falls as.
    fallen: Q,
    dry: Q,
}

impl Metal {
    /// The limit, if more comes in than it allows: what is within it needs no pH.
    fn too_much(&self) -> Option<Q> {
        self.limit.filter(|limit| self.c > *limit)
    }
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    refuse_what_binds(w)?;
    refuse_what_must_not_meet(w, Class::Alkaline)?;
    let [volume, t, ph] = w.inputs(["Q", "T", "pH"])?;
    let water = Water::read(w, t)?;
    if ph <= water.ph {
        let reason =
            format!("the water comes at pH {:.1} and would have to be lowered to {:.1}", water.ph.si, ph.si);
        let remedy = "Metal that was to fall has fallen already. Hold a pH above it, or see the sheet of neutralisation.";
        return Err(Stop::at("pH", reason, remedy));
    }
    let stock = Stock::read(w, "up")?;
    let mut all = Vec::new();
    for row in w.rows(metals::TABLE)? {
        all.push(metal(w, row, ph)?);
    }
    if all.is_empty() {
        return Err(Stop::todo("c_m", "no metal is in the water yet", "Add a metal."));
    }

    remarks(w, &all, ph, t);

    let hydroxide = w.step("C_h", "Hydroxide that falls with the metals", MOL_PER_L, hydroxide(&all)?)?;
    let n = water.reagent(w, &stock, hydroxide, ph, "pH")?;
    let n = w.answer("n_r", n)?;
    let dosed = w.answer("V_d", n * volume / stock.strength)?;
    w.answer("a_r", n * stock.takes_up * volume)?;
    w.answer("m_d", n * volume * stock.molar_mass)?;
    let wetted = w.step("Q_b", "Water with the reagent", L_PER_DAY, volume + dosed)?;

    // The reagent thins the water: what is left, and what falls, by the whole of it.
    for metal in &mut all {
        let (row, loaded) = (metal.row.clone(), metal.c * volume);
        let stays = (metal.dissolved * wetted).min(loaded);
        let stays = w.step_in(&row, "m_r", "Stays dissolved", G_PER_DAY_METAL, stays)?;
        metal.fallen = w.step_in(&row, "m_p", "Falls", G_PER_DAY_METAL, loaded - stays)?;
        if wetted.si > 0.0 {
            metal.dissolved = stays / wetted;
        }
        metal.dry = dry_solid(metal.fallen, metal.sets[0].solid, metal.sets[0].metal).or_stop("pH")?;
        metal.dry = w.give(&row, "m_h", metal.dry)?;
    }
    let [other] = w.inputs(["m_o"])?;
    let fallen: Q = all.iter().map(|metal| metal.dry).sum();
    let gypsum = match gypsum(w, &water, &stock, n)? {
        Some((falls, _)) => w.answer("m_g", falls * wetted)?,
        None => Q::constant("0", 0.0, KG_PER_DAY),
    };
    let dry = w.step("m_s", "Dry solid that falls", KG_PER_DAY, fallen + other + gypsum)?;
    let besides = left(w, &all, wetted, dry)?;
    common(w, &all, &besides)?;
    let carried =
        w.optional(&top, "s_c")?.map_or(Q::constant("0", 0.0, KG_PER_DAY), |solids| solids * wetted);
    let settled = w.answer("m_T", dry - carried)?;
    sludge(w, settled, wetted, t)
}

/// What is easily overlooked.
fn remarks(w: &mut Work, all: &[Metal], ph: Q, t: Q) {
    let top = w.top();
    if ph.si > HIGH {
        let text = "So high a pH is lowered again as a rule before the water leaves, and not before its solids are out: they would dissolve.";
        w.add_finding(&top, "pH", Severity::Note, text);
    }
    if (t.number(CELSIUS) - 25.0).abs() > 15.0 {
        let text = "What stays dissolved is known for 25 °C: at this temperature a pH means another share of hydroxide.";
        w.add_finding(&top, "T", Severity::Note, text);
    }
    for metal in all.iter().filter(|metal| metal.c.si > 0.0) {
        let rises = |set: &'static Set| {
            let (best, least) = least_soluble(set);
            ph > best && solubility(set, ph).is_ok_and(|here| here > 2.0 * least)
        };
        if metal.sets.into_iter().all(rises) {
            let [low, high] = metal.sets.map(|set| least_soluble(set).0.si);
            let text = format!(
                "{} dissolves again here: it is amphoteric, and least of it stays dissolved at pH {:.1} to {:.1}.",
                metal.row.key,
                low.min(high),
                low.max(high)
            );
            w.add_finding(&metal.row, "S_1", Severity::Note, text);
        }
    }
    if let Some(chromium) = all.iter().find(|metal| metal.sets[0].metal == "Cr" && metal.c.si > 0.0) {
        let text = "Chromium is counted as chromium(III). Chromate does not fall at any pH: it is reduced first, in acid and under exhaust, by a treatment made for it.";
        w.add_finding(&chromium.row, "S_1", Severity::Caution, text);
    }
    if let Some(tin) = all.iter().find(|metal| metal.sets[0].metal == "Sn") {
        let text = "Tin is counted as tin(II); air turns it into tin(IV), which falls at a much lower pH.";
        w.add_finding(&tin.row, "S_1", Severity::Note, text);
    }
}

/// What keeps metal dissolved is named, and no number is given.
fn refuse_what_binds(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let kind = w.word(&top, "kind_r")?;
    let bound = w.word(&top, "bound")?;
    let of_route = match kind {
        routes::CYANIDE => Some(CYANIDE),
        routes::AMMONIA => Some(AMMONIA),
        routes::SULFITE => Some(SULFITE),
        _ => None,
    };
    let (bound, at) = match of_route {
        Some(by_route) if [NOT_KNOWN, NONE].contains(&bound) => (by_route, "kind_r"),
        _ => (bound, "bound"),
    };
    let remedy = match bound {
        NONE => return Ok(()),
        NOT_KNOWN => {
            let text = "Nobody has said that nothing binds metal here: ammonia, citrate, EDTA, cyanide or sulfite would keep it dissolved, and these numbers would not hold.";
            w.add_finding(&top, "bound", Severity::Caution, text);
            return Ok(());
        }
        AMMONIA => "Lead it apart, to ion exchange, or strip the ammonia under exhaust first.",
        CITRATE | EDTA | PHOSPHATE => {
            "Lead it apart: sulfide or a carbamate, ion exchange, or breaking it first. Jar tests decide."
        }
        CYANIDE => {
            "The cyanide is destroyed first, alkaline, by a treatment made for it; a licensed person decides. No acid."
        }
        SULFITE => {
            "Lead it to reclaim or ion exchange, or oxidise the sulfite first while it is alkaline. No acid."
        }
        _ => "Find out what it is and how it is broken; lead it apart until then.",
    };
    let bound = if bound == OTHER { "what binds it" } else { bound };
    let reason =
        format!("hydroxide does not bring metal down beside {bound}: it stays dissolved whatever the pH");
    Err(Stop::at(at, reason, remedy))
}

/// Which sets count, by the choice.
fn counted(w: &Work, sets: [&'static Set; 2]) -> Result<Vec<&'static Set>, Stop> {
    Ok(match w.word(&w.top(), "set")? {
        HIGHER => sets.to_vec(),
        FIRST => vec![sets[0]],
        _ => vec![sets[1]],
    })
}

/// What each set says of a metal, and which limit counts.
fn metal(w: &mut Work, row: Row, ph: Q) -> Result<Metal, Stop> {
    let [c] = w.of(&row, ["c_m"])?;
    let key = row.key.to_string();
    let Some(sets) = sets_of(&key) else {
        let remedy = if metals::is_valuable(&key) {
            "It is reclaimed, and not drained: lead it to a reclaim route."
        } else {
            "Take it out of this sheet, and ask for jar tests."
        };
        return Err(Stop::at("c_m", format!("no published curve of {key} is known here"), remedy).row(&key));
    };
    let first = w.give(&row, "S_1", solubility(sets[0], ph).or_stop("pH")?)?;
    let second = w.give(&row, "S_2", solubility(sets[1], ph).or_stop("pH")?)?;
    w.give(&row, "r_S", first.max(second) / first.min(second))?;
    for (set, at, least) in [(sets[0], "pH_1", "L_1"), (sets[1], "pH_2", "L_2")] {
        let (best, dissolved) = least_soluble(set);
        w.give(&row, at, best)?;
        w.give(&row, least, dissolved)?;
    }
    let dissolved = match w.word(&w.top(), "set")? {
        HIGHER => first.max(second),
        FIRST => first,
        _ => second,
    };
    let limit = limit(w, &row)?;
    let none = Q::constant("0", 0.0, KG_PER_DAY);
    Ok(Metal { row, sets, c, dissolved, limit, fallen: none, dry: none })
}

/// The strictest of the permit; else the published one on average, or else a day.
fn limit(w: &mut Work, row: &Row) -> Result<Option<Q>, Stop> {
    let typed = [w.optional(row, "l_d")?, w.optional(row, "l_m")?];
    let typed = typed.into_iter().flatten().reduce(Q::min);
    let limit = match (typed, limit_on(rules::chosen(w)?, &row.key)) {
        (Some(typed), _) => typed,
        (None, Some(published)) => {
            let strictest = published.average.unwrap_or(published.daily);
            Q::constant("published", strictest, MG_PER_L_METAL)
        }
        (None, None) => return Ok(None),
    };
    if limit.si <= 0.0 {
        let remedy = "Hydroxide leaves some of every metal: lead it to a route without a discharge.";
        return Err(Stop::at("l_d", "nothing at all may be left", remedy).row(&row.key));
    }
    Ok(Some(w.give(row, "lim", limit)?))
}

/// Hydroxide that what falls takes along, of each litre as it comes.
fn hydroxide(all: &[Metal]) -> Result<Q, Stop> {
    let of = |metal: &Metal| {
        let none = Q::constant("0", 0.0, MG_PER_L_METAL);
        let fallen = (metal.c - metal.dissolved).max(none);
        Ok(hydroxide_with(fallen, molar_mass(metal.sets[0].metal)?, metal.sets[0].charge))
    };
    Ok(all.iter().map(of).collect::<Result<Vec<Q>, Stop>>()?.into_iter().sum())
}

/// What is left of each metal, dissolved and in solids that do not settle; gives the latter.
fn left(w: &mut Work, all: &[Metal], wetted: Q, dry: Q) -> Result<Vec<Q>, Stop> {
    let top = w.top();
    let solids = w.optional(&top, "s_c")?;
    match solids {
        None => {
            let text = "Solids that do not settle are not counted: they are metal too, and often most of what is left.";
            w.add_finding(&top, "c_T", Severity::Note, text);
        }
        Some(solids) if (solids * wetted).si > dry.si => {
            let reason = "more solids are left in the water than fall";
            return Err(Stop::at(
                "s_c",
                reason,
                "Type those of the hydroxides alone, and other dry solids a day below.",
            ));
        }
        Some(_) => (),
    }
    let (mut all_left, mut besides) = (Vec::new(), Vec::new());
    for metal in all {
        let none = Q::constant("0", 0.0, MG_PER_L_METAL);
        let carried = match solids {
            Some(solids) if dry.si > 0.0 => solids * metal.fallen / dry,
            _ => none,
        };
        let carried = w.give(&metal.row, "c_s", carried)?;
        let left = w.give(&metal.row, "c_l", metal.dissolved + carried)?;
        w.give(&metal.row, "m_l", left * wetted)?;
        w.give(&metal.row, "m_f", metal.fallen - carried * wetted)?;
        all_left.push(left);
        besides.push(carried);
        if let Some(limit) = metal.limit {
            let why = "Another pH, a better filter, or a step behind this one, such as ion exchange.";
            w.at_most(&metal.row, "c_l", limit, Severity::Serious, why);
        }
        if metal.c.si > 0.0 && metal.fallen.si <= 0.0 {
            let text = format!("{} does not fall at this pH: all of it stays dissolved.", metal.row.key);
            w.add_finding(&metal.row, "c_l", Severity::Note, text);
        }
    }
    w.answer("c_T", all_left.into_iter().sum())?;
    Ok(besides)
}

/// The pH that suits all, or why there is none.
fn common(w: &mut Work, all: &[Metal], besides: &[Q]) -> Result<(), Stop> {
    let mut sets = Vec::new();
    for metal in all {
        sets.push(counted(w, metal.sets)?);
    }
    let together = |pick: &dyn Fn(usize) -> bool| -> Vec<Together<'_>> {
        let of = |(k, metal): (usize, &Metal)| {
            let limit = metal.too_much().filter(|_| pick(k))?;
            Some(Together { sets: &sets[k], besides: besides[k], limit })
        };
        all.iter().enumerate().filter_map(of).collect()
    };
    let limited = together(&|_| true);
    if limited.is_empty() {
        return Ok(());
    }
    let found = best_common_ph(&limited).or_stop("pH")?;
    if let Some((from, to)) = found.window {
        w.answer("pH_b", found.ph)?;
        w.answer("pH_lo", from)?;
        w.answer("pH_hi", to)?;
        return Ok(());
    }
    for (k, metal) in all.iter().enumerate() {
        let alone = together(&|other| other == k);
        let Some(limit) = metal.too_much().filter(|_| !alone.is_empty()) else { continue };
        let best = best_common_ph(&alone).or_stop("pH")?;
        if best.window.is_some() {
            continue;
        }
        let key = &metal.row.key;
        let [least, limit] = [limit * best.share, limit].map(|q| w.style.answer(q.si, MG_PER_L_METAL));
        let reason = format!(
            "no pH brings {key} to its limit: at best {least} are left, at pH {:.1}, and {limit} may be",
            best.ph.si
        );
        let remedy = match &**key {
            "Ag" => {
                "Silver falls as chloride, goes onto resin or is reduced; hydroxide is not the way for it."
            }
            _ if besides[k].si > 0.0 => {
                "Filter better, or put a step behind this one, such as ion exchange; or count by the other set once jar tests bear it out."
            }
            _ => {
                "Put a step behind this one, such as ion exchange or sulfide; or count by the other set once jar tests bear it out."
            }
        };
        return Err(Stop::at("c_m", reason, remedy).row(key));
    }
    let names: Vec<_> = limited_names(all);
    let reason = format!("no one pH keeps {} within their limits together", names.join(", "));
    let remedy = "Let them fall one after the other, each at its own pH with a filter between, or lead them to routes of their own.";
    Err(Stop::at("pH", reason, remedy))
}

fn limited_names(all: &[Metal]) -> Vec<&str> {
    all.iter().filter(|metal| metal.too_much().is_some()).map(|metal| &*metal.row.key).collect()
}

/// Settled sludge and pressed cake, and the water that leaves.
fn sludge(w: &mut Work, dry: Q, wetted: Q, t: Q) -> Result<(), Stop> {
    let top = w.top();
    let [solid] = w.inputs(["ρ_s"])?;
    let water = water::density(t).or_stop("T")?;
    let one = Q::constant("1", 1.0, NUMBER);
    let mut taken = None;
    for (x, mass, volume, moisture) in [("x_w", "m_w", "V_w", "y_w"), ("x_c", "m_c", "V_c", "y_c")] {
        let Some(solids) = w.optional(&top, x)? else { continue };
        let wet = w.answer(mass, wet_sludge(dry, solids).or_stop(x)?)?;
        let found = w.answer(volume, sludge_volume(wet, solids, solid, water).or_stop(x)?)?;
        w.answer(moisture, one - solids)?;
        // What the press lets go comes back to the water.
        taken = Some((found, x));
    }
    let out = match taken {
        Some((volume, x)) if volume > wetted => {
            let reason = "the sludge would be more than the water that it comes from";
            return Err(Stop::at(x, reason, "Type a higher share of solids: so thin, nothing has settled."));
        }
        Some((volume, _)) => wetted - volume,
        None => wetted,
    };
    w.answer("Q_out", out)?;
    Ok(())
}
