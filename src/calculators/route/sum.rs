//! Flows, metals, limits and worth of a route.

use super::{DISCHARGED, ELSEWHERE, HAS_WORTH, IN_ORDER, TOO_RICH, meets};
use crate::calculator::Severity::{self, Serious};
use crate::calculator::{Stop, Work};
use crate::calculators::routes::{self, fits};
use crate::calculators::{rules, stream};
use crate::quantity::Q;
use crate::science::cost::cost_of;
use crate::science::metals;
use crate::units::{DAYS, G_METAL, G_PER_DAY_METAL, MG_PER_L_METAL};

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let kind = w.word(&top, "kind")?;
    let streams = w.rows("streams")?;
    meets::refuse_what_must_not_meet(w, kind, &streams)?;

    let [q, q_run, v_1, days] = w.inputs(["Q", "q_run", "V_1", "days"])?;
    let q = w.answer("Q_day", q)?;
    w.answer("q_mean", q_run)?;
    let v_1 = w.answer("V_dump", v_1)?;
    let one_day = Q::constant("1 day", 1.0, DAYS);
    w.answer("Q_p", q + v_1 / one_day)?;
    if v_1.si <= 0.0 {
        w.answer("q_peak", q_run)?;
    } else if let Some(within) = w.optional(&top, "t_1")? {
        w.answer("q_peak", q_run + v_1 / within)?;
    }
    let by_kind = w.inputs::<1>(["kind"])?[0];
    let limit = w.optional(&top, "c_max")?.unwrap_or(by_kind);
    let mut worst = Q::constant("none", 0.0, MG_PER_L_METAL);
    for row in &streams {
        let [c_t] = w.of(row, ["c_T"])?;
        let c_s = w.give(row, "c_s", c_t)?;
        worst = worst.max(c_s);
        let belongs = w.word(row, "belongs")?;
        let is_rich = c_s.si > limit.si * (1.0 + 1e-9);
        let verdict = if is_rich {
            TOO_RICH
        } else if fits(kind, belongs) {
            IN_ORDER
        } else {
            ELSEWHERE
        };
        w.say(row, "verdict", verdict)?;
        if let Some(acid) = w.optional(row, "e_s")? {
            let [volume] = w.of(row, ["Q_s"])?;
            w.give(row, "a_s", acid * volume)?;
        }
        let why = why_too_rich(kind, w.word(row, "what")?);
        w.at_most(row, "c_s", limit, too_rich(kind), why);
        if verdict == ELSEWHERE {
            let (severity, why) = misplaced(kind, belongs);
            w.add_finding(row, "verdict", severity, format!("{}: {why}", row.key));
        }
    }
    w.answer("c_worst", worst)?;

    let is_discharged = w.word(&top, "ends")? == DISCHARGED;
    let rule = if is_discharged { Some(rules::chosen(w)?) } else { None };
    let (mut sum, mut worth, mut goes_by_rule) = (Q::constant("none", 0.0, G_PER_DAY_METAL), None, false);
    for row in w.rows(metals::TABLE)? {
        let [m] = w.of(&row, ["m"])?;
        let m_1 = w.optional(&row, "m_1")?.unwrap_or(Q::constant("0", 0.0, G_METAL));
        sum = sum + m;
        let nothing = Q::constant("0", 0.0, MG_PER_L_METAL);
        let is_dry = q.si <= 0.0;
        w.give(&row, "c_mean", if is_dry { nothing } else { m / q })?;
        w.give(&row, "c_peak", if is_dry { nothing } else { (m + m_1 / one_day) / (q + v_1 / one_day) })?;
        w.give(&row, "m_year", m * days * one_day)?;
        let price = if HAS_WORTH.contains(&kind) { w.optional(&row, "p_M")? } else { None };
        if let Some(price) = price {
            let value = w.give(&row, "w_d", cost_of(m * one_day, price))?;
            w.give(&row, "w_y", value * days)?;
            worth = Some(worth.map_or(value, |worth: Q| worth + value));
        }
        if let Some(rule) = rule {
            goes_by_rule |= rules::hold_to_limits(w, &row, rule, ["c_peak", "c_mean"])?;
        }
    }
    if let Some(worth) = worth {
        let worth = w.answer("w_D", worth)?;
        w.answer("w_Y", worth * days)?;
    }
    if let Some(rule) = rule {
        rules::explain(w, rule, goes_by_rule, q);
    }
    let sum = w.answer("m_T", sum)?;
    let mixed = if q.si > 0.0 { sum / q } else { Q::constant("0", 0.0, MG_PER_L_METAL) };
    w.answer("c_mix", mixed)?;
    meets::mixed_ph(w, &streams, is_discharged)?;
    meets::mixed_metals(w, kind)?;
    meets::watered_down(w, &streams)?;
    meets::acid_and_alkaline(w, &streams)
}

fn misplaced(kind: &str, belongs: &str) -> (Severity, String) {
    match belongs {
        routes::RECLAIM => (
            Serious,
            "it holds valuable metal, which is reclaimed and not drained, however dilute it is. Lead it to a reclaim route.".into(),
        ),
        routes::FIND_OUT => (Severity::Caution, "its class is not known. Choose it on the stream’s sheet before it is led anywhere.".into()),
        _ => (Serious, format!("it belongs on the route “{belongs}”, not on “{kind}”.")),
    }
}

fn too_rich(kind: &str) -> Severity {
    if kind == routes::DILUTE { Severity::Caution } else { Serious }
}

/// What to do with a stream that is too rich: less drag-out cures a rinse, and nothing else.
fn why_too_rich(kind: &str, what: &str) -> &'static str {
    match (kind, what) {
        (routes::DILUTE, stream::RINSE) => {
            "Each stream counts before it is mixed. Less drag-out by a longer or faster spin, or the concentrate route, would do; best for a first rinse of its own."
        }
        (routes::DILUTE, stream::DUMP) => {
            "A dump holds what the bath holds, however it is mixed: lead it to the concentrate route."
        }
        (routes::DILUTE, stream::BLEED) => {
            "A bleed holds what the bath holds, however it is mixed: lead it to the concentrate route."
        }
        (routes::DILUTE, stream::DRAW) => {
            "What is drawn off holds what the bath holds, however it is mixed: lead it to the concentrate route."
        }
        (routes::DILUTE, stream::SAMPLES) => {
            "Samples hold what the bath holds, however they are mixed: lead them to the concentrate route."
        }
        (routes::DILUTE, _) => "Each stream counts before it is mixed. The concentrate route would do.",
        (routes::ACID_BASE, _) => "Metal belongs on the dilute or the concentrate route.",
        _ => "It is too rich for this route.",
    }
}
