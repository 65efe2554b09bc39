//! The published limits on discharge that a sheet may compare with, and the permit that goes before them.

use crate::calculator::Severity::{Caution, Note, Serious};
use crate::calculator::{Input, Row, Stop, Work, input};
use crate::quantity::Q;
use crate::science::regulation::{LARGE_JOB_SHOP_L_PER_DAY, Limit, Rule, limit_on};
use crate::units::{L_PER_DAY, MG_PER_L_METAL};

/// Why a published limit is missing.
pub const NONE_PUBLISHED: &str = "none published";

/// The words for them: those on plating, and last one that leaves it out.
pub const ALL: &[(&str, f64)] = &[
    ("40 CFR 433.17, new source", 0.0),
    ("40 CFR 433.15, existing source", 1.0),
    ("40 CFR 413, job shop, 38 000 L/day and more", 2.0),
    ("40 CFR 413, job shop, less", 3.0),
    ("40 CFR 469.18, semiconductors", 4.0),
];

/// Those on plating.
pub const PLATING: &[(&str, f64)] = ALL.split_at(4).0;

const fn permit(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, MG_PER_L_METAL, [0.0, 1e5], [0.0, 1e5]).optional()
}

/// The permit's daily limit on a metal, as typed at the site.
pub const fn permit_daily() -> Input {
    permit("lim_d", "Permit, daily").from_site(&[("site", "daily")]).help("From the site.")
}

/// The permit's monthly limit on a metal, as typed at the site.
pub const fn permit_monthly() -> Input {
    permit("lim_m", "Permit, monthly").from_site(&[("site", "monthly")]).help("From the site.")
}

/// What the words of [`ALL`] name, in its order.
const RULES: [Rule; ALL.len()] =
    [Rule::New433, Rule::Existing433, Rule::JobShop413, Rule::SmallJobShop413, Rule::Semiconductor469];

/// The rule that was chosen at `rule`.
pub fn chosen(w: &Work) -> Result<Rule, Stop> {
    let word = w.word(&w.top(), "rule")?;
    let at = ALL.iter().position(|(known, _)| *known == word);
    at.map(|at| RULES[at]).ok_or_else(|| Stop::fault(format!("“{word}” is no rule")))
}

/// Holds a metal to the permit, or to the published limits where it has none, and gives the latter as `pub_d` and
/// `pub_m`; says whether it went by them. `at` the answers of the peak day and of the mean.
pub fn hold_to_limits(w: &mut Work, row: &Row, rule: Rule, at: [&str; 2]) -> Result<bool, Stop> {
    let [peak, mean] = at;
    let constant = |number: f64| Q::constant("limit", number, MG_PER_L_METAL);
    let published = limit_on(rule, &row.key);
    if let Some(Limit { daily, average, .. }) = published {
        w.give(row, "pub_d", constant(*daily))?;
        if let Some(average) = average {
            w.give(row, "pub_m", constant(*average))?;
        }
    }
    let (daily, monthly) = (w.optional(row, "lim_d")?, w.optional(row, "lim_m")?);
    if let Some(limit) = daily {
        w.at_most(row, peak, limit, Serious, "The permit’s daily limit counts on the peak day.");
    }
    if let Some(limit) = monthly {
        w.at_most(row, mean, limit, Serious, "The permit’s monthly limit counts for the mean.");
    }
    if daily.is_some() || monthly.is_some() {
        return Ok(false);
    }
    let Some(limit) = published else { return Ok(false) };
    let why = |which: &str| {
        format!("That is the published {which} ({}); type your permit’s own at the site.", rule.section())
    };
    w.at_most(row, peak, constant(limit.daily), Caution, &why("daily limit"));
    if let Some(average) = limit.average {
        w.at_most(row, mean, constant(average), Caution, &why("limit on the average"));
    }
    Ok(true)
}

/// Whom the published rule binds, where it counts or covers no plating; and whether the water of a day is that of
/// the other part for job shops.
pub fn explain(w: &mut Work, rule: Rule, goes_by_it: bool, volume: Q) {
    let top = w.top();
    let text = format!("{}: {}", rule.section(), rule.applies());
    if !rule.covers_electroplating() {
        let more = "Compare with a rule that covers plating.";
        w.add_finding(&top, "rule", Caution, format!("{text} {more}"));
    } else if goes_by_it {
        let more =
            "Semiconductor making, part 469, leaves electroplating out. Your permit goes before all of it.";
        w.add_finding(&top, "rule", Note, format!("{text} {more}"));
    }
    let is_large = volume.number(L_PER_DAY) >= LARGE_JOB_SHOP_L_PER_DAY;
    if (rule == Rule::JobShop413 && !is_large) || (rule == Rule::SmallJobShop413 && is_large) {
        let text = "By the water that leaves here a day the other part of 40 CFR 413 would apply; all plating wastewater of the plant counts.";
        w.add_finding(&top, "rule", Note, text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_names_the_section_of_its_rule() {
        for ((word, _), rule) in ALL.iter().zip(RULES) {
            assert!(word.starts_with(rule.section()), "{word}");
        }
        assert!(RULES[..PLATING.len()].iter().all(|rule| rule.covers_electroplating()));
    }
}
