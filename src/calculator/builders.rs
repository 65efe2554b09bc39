//! The words that a declaration is written with: `input`, `choice`, `output`, and what stands behind them.

use super::{Follows, Form, Input, Missing, Output, Over, Role, Severity, Source, When};
use crate::units::{NUMBER, Unit};

/// Declares a number: symbol, label, unit, hard range, usual range. Behind it stands how it starts: `usually`,
/// `needed` or `optional` (or `only_followed`).
pub const fn input(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    hard: [f64; 2],
    usual: [f64; 2],
) -> Input {
    Input {
        symbol,
        label,
        unit,
        form: Form::Number,
        hard,
        usual,
        default: f64::NAN,
        optional: false,
        only_followed: false,
        help: "",
        takes_on: None,
        begins_as: &[],
        as_cure: "",
        picks: &[],
        group: "",
        when: None,
        follows: None,
        role: None,
    }
}

/// Declares a choice: symbol, label, and words with the numbers that they carry (in `unit`).
pub const fn choice(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    words: &'static [(&'static str, f64)],
) -> Input {
    let range = [0.0, words.len() as f64 - 1.0];
    Input { form: Form::Choice(words), default: 0.0, ..input(symbol, label, unit, range, range) }
}

/// Declares a text: symbol and label. It may be empty.
pub const fn note(symbol: &'static str, label: &'static str) -> Input {
    Input { form: Form::Text, default: 0.0, ..input(symbol, label, NUMBER, [0.0, 0.0], [0.0, 0.0]) }
}

/// Declares an answer: symbol, label, unit.
pub const fn output(symbol: &'static str, label: &'static str, unit: &'static Unit) -> Output {
    Output {
        symbol,
        label,
        unit,
        words: &[],
        beside: false,
        missing: None,
        above: None,
        below: None,
        cures: &[],
        role: None,
    }
}

/// Declares an answer that is one of some words.
pub const fn verdict(symbol: &'static str, label: &'static str, words: &'static [&'static str]) -> Output {
    Output { words, ..output(symbol, label, NUMBER) }
}

impl Input {
    /// What to enter, and where to find it.
    pub const fn help(self, help: &'static str) -> Input {
        assert!(self.help.is_empty(), "an input has one help");
        Input { help, ..self }
    }

    /// Has this value, in its unit, until something else is typed: only what is usual practice everywhere.
    pub const fn usually(self, default: f64) -> Input {
        Input { default, ..self.not_started() }
    }

    /// May be left out.
    pub const fn optional(self) -> Input {
        Input { optional: true, ..self.not_started() }
    }

    const fn not_started(self) -> Input {
        let is_open = self.default.is_nan() && !self.optional;
        assert!(is_open, "an input starts in one way: usually, needed, optional or only_followed");
        self
    }

    /// Has no default, as no two plants share it: there is no answer until it is typed.
    pub const fn needed(self) -> Input {
        self.optional()
    }

    /// Starts at this word of its list.
    pub const fn starts_at(self, position: usize) -> Input {
        Input { default: position as f64, ..self }
    }

    /// Is left out unless it follows something.
    pub const fn only_followed(self) -> Input {
        Input { only_followed: true, ..self.optional() }
    }

    /// Starts, at a new place that is made for another to lead to, with an answer of that other one.
    pub const fn takes_on(self, calculator: &'static str, symbol: &'static str) -> Input {
        assert!(self.takes_on.is_none(), "an input takes on one answer");
        Input { takes_on: Some((calculator, symbol)), ..self }
    }

    /// Begins with one of these words, at a new place that is made of a sheet of its calculator to come from its
    /// place. Made of the last one listed, it begins as the first whose sheet that place has.
    pub const fn begins_as(self, words: &'static [(&'static str, &'static str)]) -> Input {
        assert!(self.begins_as.is_empty(), "an input begins by one list");
        Input { begins_as: words, ..self }
    }

    /// Says something where a change of it is offered as a cure.
    pub const fn as_cure(self, remark: &'static str) -> Input {
        Input { as_cure: remark, ..self }
    }

    /// Named values to pick from.
    pub const fn picks(self, picks: &'static [(&'static str, f64)]) -> Input {
        Input { picks, ..self }
    }

    /// Stands under a heading.
    pub const fn group(self, group: &'static str) -> Input {
        assert!(self.group.is_empty(), "an input has one heading");
        Input { group, ..self }
    }

    /// Asked only when a condition on a choice holds.
    pub const fn when(self, when: When) -> Input {
        assert!(self.when.is_none(), "an input has one condition");
        Input { when: Some(when), ..self }
    }

    /// Is taken for this by the line map.
    pub const fn role(self, role: Role) -> Input {
        assert!(self.role.is_none(), "an input has one role");
        Input { role: Some(role), ..self }
    }

    /// Follows, at the same place, the first of these that is there.
    pub const fn follows(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Here)
    }

    /// Follows the first of these at the place that this one comes from.
    pub const fn from_origin(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Origin)
    }

    /// Follows the site.
    pub const fn from_site(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Site)
    }

    /// Sums these over the places that lead here; rows of the same key add up.
    pub const fn sums(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Sum)
    }

    /// Takes the largest of these over the places that lead here.
    pub const fn largest(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Largest)
    }

    /// Takes a row for each place that leads here.
    pub const fn each(self, from: &'static [Source]) -> Input {
        self.over(from, Over::Each)
    }

    /// Takes a row for each place that comes from this one, directly or by others.
    pub const fn each_from_here(self, from: &'static [Source]) -> Input {
        self.over(from, Over::EachFromHere)
    }

    const fn over(self, from: &'static [Source], over: Over) -> Input {
        assert!(self.follows.is_none(), "an input follows in one way");
        Input { follows: Some(Follows { from, over, if_known: false }), ..self }
    }

    /// Does not wait for what it follows: it is left out, or has its usual value, until that has an answer.
    pub const fn if_known(self) -> Input {
        match self.follows {
            Some(follows) => Input { follows: Some(Follows { if_known: true, ..follows }), ..self },
            None => panic!("if_known stands behind what the input follows"),
        }
    }
}

impl Output {
    /// Stands beside the headline.
    pub const fn beside(self) -> Output {
        Output { beside: true, ..self }
    }

    /// May be missing while something is not there: a thing, as in “needs a coil or a jacket”.
    pub const fn needs(self, what: &'static str) -> Output {
        self.may_be_missing(Missing::Needs(what))
    }

    /// May be missing, and says so in these words: “type the volume”, “only liquids are measured”.
    pub const fn missing(self, why: &'static str) -> Output {
        self.may_be_missing(Missing::Because(why))
    }

    const fn may_be_missing(self, why: Missing) -> Output {
        assert!(self.missing.is_none(), "an answer is missing for one reason");
        Output { missing: Some(why), ..self }
    }

    /// A finding when the answer is above a limit.
    pub const fn above(self, most: f64, severity: Severity, why: &'static str) -> Output {
        assert!(self.above.is_none(), "an answer has one limit above");
        Output { above: Some((most, severity, why)), ..self }
    }

    /// A finding when the answer is below a limit.
    pub const fn below(self, least: f64, severity: Severity, why: &'static str) -> Output {
        assert!(self.below.is_none(), "an answer has one limit below");
        Output { below: Some((least, severity, why)), ..self }
    }

    /// Is taken for this by the line map.
    pub const fn role(self, role: Role) -> Output {
        assert!(self.role.is_none(), "an answer has one role");
        Output { role: Some(role), ..self }
    }

    /// What would bring it back within its limits.
    pub const fn cured_by(self, cures: &'static [Source]) -> Output {
        assert!(self.cures.is_empty(), "the cures of an answer are one list");
        Output { cures, ..self }
    }
}
