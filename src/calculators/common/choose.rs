//! How a sheet chooses: of the options, from the one with the least hardware on, the first that nothing speaks
//! against. What spoke against the one before it decides.

use crate::calculator::{Output, Severity, Stop, Work, verdict};

/// Nothing speaks against it, and nothing simpler does.
pub const SUITS: &str = "suits";
/// Nothing speaks against it, and something simpler suits.
pub const TOO: &str = "would do too";
/// Something speaks against it.
pub const OUT: &str = "ruled out";

/// A criterion has nothing against an option.
pub const FINE: &str = "nothing against it";
/// A criterion speaks against an option.
pub const AGAINST: &str = "against it";
/// What a criterion needs is not known.
pub const NOT_JUDGED: &str = "not known yet";

/// Nothing is planned yet: the first word of what may be planned.
pub const AS_SUITS: &str = "as suits it";

/// What no option before the one that suits spoke of.
pub const SIMPLEST: &str = "nothing speaks against the simplest";

/// One thing that may speak against options: the answer that says so, and how it reads where it decides.
pub type Criterion = (&'static str, &'static str);

/// What became of it.
pub struct Choice {
    /// The option that suits, if there is one.
    pub suits: Option<&'static str>,
    /// What decides: what spoke first against the last option before it.
    pub why: &'static str,
    /// Options that are ruled out, each with what speaks first against it.
    pub out: Vec<(&'static str, &'static str)>,
}

/// The first of the options that nothing speaks against, and what spoke against the one before it.
pub fn first(
    options: &[&'static str],
    simplest: &'static str,
    against: impl Fn(&str) -> Option<&'static str>,
) -> (Option<&'static str>, &'static str) {
    let mut why = simplest;
    for option in options {
        match against(option) {
            Some(reason) => why = reason,
            None => return (Some(option), why),
        }
    }
    (None, why)
}

/// The answer `is` of a table of options: how each stands.
pub const fn standing() -> Output {
    verdict("is", "Verdict", &[SUITS, TOO, OUT])
}

/// An answer of such a table: what a criterion has against each.
pub const fn judged(symbol: &'static str, label: &'static str) -> Output {
    verdict(symbol, label, &[FINE, AGAINST, NOT_JUDGED])
}

/// Chooses, and lays out in a table how each option stands, criterion by criterion. `speaks` says of an option and
/// a criterion whether that speaks against it; `None` if that is not known.
pub fn choose(
    w: &mut Work,
    table: &str,
    options: &[&'static str],
    criteria: &[Criterion],
    speaks: impl Fn(&str, &str) -> Option<bool>,
) -> Result<Choice, Stop> {
    let against = |option: &str| {
        let found = criteria.iter().find(|(symbol, _)| speaks(option, symbol) == Some(true));
        found.map(|(_, why)| *why)
    };
    let (suits, why) = first(options, SIMPLEST, against);
    let mut out = Vec::new();
    for option in options {
        let row = w.row(table, option)?;
        for (symbol, _) in criteria {
            let word = match speaks(option, symbol) {
                Some(true) => AGAINST,
                Some(false) => FINE,
                None => NOT_JUDGED,
            };
            w.say(&row, symbol, word)?;
        }
        let reason = against(option);
        let word = match reason {
            Some(_) => OUT,
            None if suits == Some(option) => SUITS,
            None => TOO,
        };
        w.say(&row, "is", word)?;
        out.extend(reason.map(|reason| (*option, reason)));
    }
    Ok(Choice { suits, why, out })
}

impl Choice {
    /// A caution where what is planned is ruled out; `at` is the input that plans it.
    pub fn check_plan(&self, w: &mut Work, at: &'static str) -> Result<(), Stop> {
        let (top, planned) = (w.top(), w.word(&w.top(), at)?);
        if let Some((_, why)) = self.out.iter().find(|(option, _)| *option == planned) {
            let text = format!("Planned is: {planned}. Against it speaks: {why}.");
            w.add_finding(&top, at, Severity::Caution, text);
        }
        Ok(())
    }
}
