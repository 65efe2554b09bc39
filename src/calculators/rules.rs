//! The published limits on discharge that a sheet may compare with.

use crate::calculator::{Input, input};
use crate::science::regulation::Rule;
use crate::units::MG_PER_L_METAL;

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

/// The rule that a word of [`ALL`] names.
pub fn rule(word: &str) -> Rule {
    match ALL.iter().position(|(known, _)| *known == word) {
        Some(1) => Rule::Existing433,
        Some(2) => Rule::JobShop413,
        Some(3) => Rule::SmallJobShop413,
        Some(4) => Rule::Semiconductor469,
        _ => Rule::New433,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_names_the_section_of_its_rule() {
        for (word, _) in ALL {
            assert!(word.starts_with(rule(word).section()), "{word}");
        }
        assert!(PLATING.iter().all(|(word, _)| rule(word).covers_electroplating()));
    }
}
