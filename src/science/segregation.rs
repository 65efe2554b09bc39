//! What must never meet on one route, container, lift station, vent or exhaust duct.
//!
//! Whatever is not listed here is not thereby safe: the plant's chemist and the local code decide.

/// What a stream is, by hazard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// Acid: mineral or organic, and rinses after it.
    Acid,
    /// Alkaline, without cyanide.
    Alkaline,
    /// Any cyanide, gold and silver baths on it included.
    Cyanide,
    /// Hydrofluoric acid and fluorides.
    Fluoride,
    /// Solvents, alcohols and other organics that burn.
    Solvent,
    /// Oxidisers: nitric acid, peroxide, persulfate, hypochlorite.
    Oxidiser,
    /// Sulfite baths.
    Sulfite,
    /// Ammonia, amines and what is complexed by them.
    Ammonia,
    /// Not known.
    Unknown,
}

use Class::*;

impl Class {
    /// Every class.
    pub const ALL: [Class; 9] =
        [Acid, Alkaline, Cyanide, Fluoride, Solvent, Oxidiser, Sulfite, Ammonia, Unknown];

    /// In words.
    pub fn name(self) -> &'static str {
        match self {
            Acid => "acid",
            Alkaline => "alkaline",
            Cyanide => "cyanide",
            Fluoride => "fluoride",
            Solvent => "solvent",
            Oxidiser => "oxidiser",
            Sulfite => "sulfite",
            Ammonia => "ammonia or complexed",
            Unknown => "unknown",
        }
    }
}

/// Two classes that must not meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conflict {
    /// The two, in either order.
    pub pair: (Class, Class),
    /// What happens, in words.
    pub consequence: &'static str,
    /// Where it says so.
    pub source: &'static str,
}

const CHART: &str = "EPA-600/2-80-076, compatibility chart";
const APP_V: &str = "40 CFR 264 and 265, appendix V";
const MEMORY: &str = "from memory";

const fn never(a: Class, b: Class, consequence: &'static str, source: &'static str) -> Conflict {
    Conflict { pair: (a, b), consequence, source }
}

/// Every pair that must not meet. Acid and alkaline is not among them: they are brought together on
/// purpose and slowly where they are neutralised, with a caution ([`strong_acid_with_caustic`]).
pub static CONFLICTS: &[Conflict] = &[
    never(
        Cyanide,
        Acid,
        "hydrogen cyanide, a gas that kills within minutes and burns",
        "EPA-600/2-80-076, chart groups 11 with 1, 2 and 3; 40 CFR 264 and 265, appendix V, groups 5-A with 1-B",
    ),
    never(
        Cyanide,
        Fluoride,
        "hydrogen cyanide: fluoride streams are acid as a rule",
        "EPA-600/2-80-076, chart groups 11 with 1",
    ),
    never(
        Cyanide,
        Oxidiser,
        "hydrogen cyanide with nitric acid, cyanogen chloride with hypochlorite at low pH, and heat",
        "EPA-600/2-80-076, chart groups 11 with 2; cyanogen chloride from memory",
    ),
    never(Cyanide, Sulfite, "hydrogen cyanide once the sulfite turns acid", MEMORY),
    never(
        Cyanide,
        Solvent,
        "a waste that nobody takes, and hydrogen cyanide where the solvent is acid",
        MEMORY,
    ),
    never(
        Cyanide,
        Ammonia,
        "ammonium salts lower the pH, and hydrogen cyanide leaves; complexes keep the cyanide from being destroyed",
        MEMORY,
    ),
    never(
        Cyanide,
        Unknown,
        "hydrogen cyanide, if the unknown stream is acid: what is not known counts as acid here",
        CHART,
    ),
    never(
        Fluoride,
        Acid,
        "hydrogen fluoride, a gas that burns lungs and skin",
        "EPA-600/2-80-076, chart groups 15 with 1 and 2",
    ),
    never(
        Fluoride,
        Alkaline,
        "heat and spray with concentrated caustic; fluoride must have a drain of its own",
        MEMORY,
    ),
    never(
        Fluoride,
        Oxidiser,
        "hydrogen fluoride and, with nitric acid, nitrogen oxides",
        "EPA-600/2-80-076, chart groups 15 with 2",
    ),
    never(Fluoride, Sulfite, "sulfur dioxide and hydrogen fluoride", MEMORY),
    never(Fluoride, Solvent, "hydrogen fluoride in a waste that burns", MEMORY),
    never(
        Fluoride,
        Ammonia,
        "hydrogen fluoride and ammonia drive each other out: white fume that blocks ducts",
        MEMORY,
    ),
    never(Fluoride, Unknown, "hydrogen fluoride, if the unknown stream is acid", CHART),
    never(
        Oxidiser,
        Solvent,
        "fire or explosion",
        "EPA-600/2-80-076, chart groups 2 with 4 and 13; 40 CFR 264 and 265, appendix V, groups 6-A and 6-B",
    ),
    never(Oxidiser, Sulfite, "heat and sulfur dioxide", MEMORY),
    never(
        Oxidiser,
        Ammonia,
        "chloramines with hypochlorite, which are poisonous and explosive; heat and gas with peroxide",
        MEMORY,
    ),
    never(
        Oxidiser,
        Unknown,
        "fire, gas or pressure, if the unknown stream holds organics or metal salts",
        APP_V,
    ),
    never(Sulfite, Acid, "sulfur dioxide, a choking gas", MEMORY),
    never(
        Solvent,
        Acid,
        "heat and vapour that burns; fire with oxidising acid",
        "EPA-600/2-80-076, chart groups 4 with 2",
    ),
    never(Solvent, Alkaline, "vapour that burns in a drain that is not built for it", MEMORY),
    never(Solvent, Sulfite, "vapour that burns in a drain that is not built for it", MEMORY),
    never(Solvent, Ammonia, "vapour that burns in a drain that is not built for it", MEMORY),
    never(Solvent, Unknown, "fire, if the unknown stream oxidises", APP_V),
    never(Sulfite, Unknown, "sulfur dioxide, if the unknown stream is acid", MEMORY),
];

/// Whether two classes must not meet, in either order, and why. A class may meet itself; two unknown
/// streams are each other's risk and are left to the sheet's caution.
pub fn must_not_meet(a: Class, b: Class) -> Option<&'static Conflict> {
    CONFLICTS.iter().find(|conflict| conflict.pair == (a, b) || conflict.pair == (b, a))
}

/// Why acid is not added to treat a liquid of a class, and where it says so; `None` where it may be.
///
/// What must not meet acid; what is not known; and oxidisers: one that is alkaline may be hypochlorite.
pub fn acid_frees(class: Class) -> Option<(&'static str, &'static str)> {
    match class {
        Unknown => Some(("an unknown liquid may hold cyanide, whose gas kills", CHART)),
        Oxidiser => Some(("chlorine, a gas that kills, from an oxidiser that is hypochlorite", MEMORY)),
        _ => must_not_meet(class, Acid).map(|conflict| (conflict.consequence, conflict.source)),
    }
}

/// The caution where acid and caustic are brought together on purpose.
/// Source: EPA-600/2-80-076, chart groups 10 with 1 and 2; 40 CFR 264 and 265, appendix V, groups 1-A and 1-B.
pub const fn strong_acid_with_caustic() -> &'static str {
    "Strong acid and caustic heat violently and spit. They meet only in a neutralisation built for it, \
     diluted, stirred and dosed slowly."
}

/// What the chart says of two groups, in its codes: H heat, F fire, G gas, GT toxic gas, GF gas that burns,
/// P violent polymerisation.
static CHART_CODES: &[(u8, u8, &str)] = &[
    (1, 4, "H"),
    (1, 10, "H"),
    (1, 11, "GT GF"),
    (1, 15, "GT"),
    (2, 4, "H F"),
    (2, 10, "H"),
    (2, 11, "GT GF"),
    (2, 13, "H F"),
    (2, 15, "GT"),
    (3, 4, "H P"),
    (3, 10, "H"),
    (3, 11, "GT GF"),
    (3, 15, "GT"),
];

/// What happens when two groups of the compatibility chart meet, in the chart's codes, in either
/// order. `None` where it was not read: that is not a promise that they may.
///
/// Source: A Method for Determining the Compatibility of Chemical Mixtures, EPA-600/2-80-076, chart.
pub fn chart_code(a: u8, b: u8) -> Option<&'static str> {
    let (low, high) = (a.min(b), a.max(b));
    CHART_CODES.iter().find(|row| (row.0, row.1) == (low, high)).map(|row| row.2)
}

/// The groups of the chart that a class may hold: acids, alcohols and esters, caustics, cyanides, fluorides.
fn groups(class: Class) -> &'static [u8] {
    match class {
        Acid => &[1, 2, 3],
        Alkaline => &[10],
        Cyanide => &[11],
        Fluoride => &[15],
        Solvent => &[4, 13],
        Oxidiser => &[2],
        Sulfite | Ammonia | Unknown => &[],
    }
}

/// What the compatibility chart says of two classes, in words: the worst of the groups that they may hold, such
/// as “heat, fire”. `None` where the chart was not read for them. Source: [`chart_code`].
pub fn chart_says(a: Class, b: Class) -> Option<String> {
    let pairs =
        groups(a).iter().flat_map(|one| groups(b).iter().filter_map(|other| chart_code(*one, *other)));
    let codes: Vec<&str> = pairs.flat_map(|code| code.split(' ')).collect();
    let words = [
        ("H", "heat"),
        ("F", "fire"),
        ("GT", "toxic gas"),
        ("GF", "gas that burns"),
        ("P", "violent polymerisation"),
    ];
    let said: Vec<&str> =
        words.iter().filter(|(code, _)| codes.contains(code)).map(|(_, word)| *word).collect();
    (!said.is_empty()).then(|| said.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Chart of EPA-600/2-80-076: groups 11 with 1, 2 and 3 give toxic and flammable gas.
    #[test]
    fn cyanide_meets_nothing_but_alkaline_and_its_own() {
        for class in Class::ALL {
            let alone = must_not_meet(Cyanide, class).is_some();
            assert_eq!(alone, ![Cyanide, Alkaline].contains(&class), "{class:?}");
        }
        assert_eq!(chart_code(1, 11), Some("GT GF"));
    }

    /// EPA-600/2-80-076, chart: 11 with 1, 2 and 3 GT GF; 4 with 2 H F; 10 with 1 and 2 H; 15 with 1 GT.
    #[test]
    fn the_chart_says_what_happens() {
        let says = |a, b| chart_says(a, b).unwrap_or_default();
        assert_eq!(says(Cyanide, Acid), "toxic gas, gas that burns");
        assert_eq!(says(Acid, Cyanide), says(Cyanide, Acid));
        assert_eq!(says(Oxidiser, Solvent), "heat, fire");
        assert_eq!(says(Acid, Alkaline), "heat");
        assert_eq!(says(Fluoride, Acid), "toxic gas");
        assert_eq!(chart_says(Sulfite, Acid), None);
    }

    #[test]
    fn acid_is_added_to_acid_alkaline_and_ammonia_alone() {
        for class in Class::ALL {
            assert_eq!(acid_frees(class).is_none(), [Acid, Alkaline, Ammonia].contains(&class), "{class:?}");
        }
    }

    #[test]
    fn the_order_does_not_matter_and_no_pair_stands_twice() {
        for a in Class::ALL {
            assert_eq!(must_not_meet(a, a), None);
            for b in Class::ALL {
                assert_eq!(must_not_meet(a, b), must_not_meet(b, a));
                let same = |c: &&Conflict| c.pair == (a, b) || c.pair == (b, a);
                assert!(CONFLICTS.iter().filter(same).count() <= 1, "{a:?} {b:?}");
            }
        }
    }
}
