//! One rinse: the water that it takes, what each stage holds, and what goes to the drain.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.
//!
//! Rinses that lead to routes of their own are streams of their own, each with this sheet: the second comes from
//! the first. Stages that share their water (counterflow) are one stream.

mod sum;
#[cfg(test)]
mod tests;

use super::{CLASSES, UNKNOWN};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Stop, Subject, Table, When, choice, input, output,
};
use crate::quantity::Q;
use crate::science::metals;
use crate::science::rinse::Rinse;
use crate::units::{
    G_PER_L_METAL, HOUR, L, L_PER_DAY, L_PER_H, L_PER_MIN, MG_PER_L_METAL, ML, NUMBER, PER_DAY, PERCENT,
    US_PER_CM,
};

/// Sprays, one after the other, each with fresh water.
pub const SPRAYED: &str = "sprayed";
/// A tank that is filled and let out, some times for each load.
pub const DUMPED: &str = "quick dumps";
/// How a rinse is run, with its stages; wherever that is asked for.
pub const STAGES: &[(&str, f64)] = &[
    ("one", 1.0),
    ("two in counterflow", 2.0),
    ("three in counterflow", 3.0),
    ("four in counterflow", 4.0),
    (SPRAYED, 0.0),
    (DUMPED, 0.0),
];

/// The law of a rinse: by the number of its word, and for sprays and dumps by how many times, of whose water a share
/// mixes. Refuses what is no whole number of times, at `m_x`.
pub fn rinse_of(stages: Q, times: Q, share: Q) -> Result<Rinse, Stop> {
    match stages.si {
        0.0 if times.si.fract() != 0.0 => {
            Err(Stop::at("m_x", "sprays and dumps are whole", "Type a whole number."))
        }
        0.0 => Ok(Rinse::Fresh(times.si as u8, share)),
        stages => Ok(Rinse::Counterflow(stages as u8)),
    }
}

const TABLE: &str = "stages";
const BY_DILUTION: &str = "how many times it dilutes";
const BY_LAST: &str = "metal in the last stage";
const BY_DRAIN: &str = "metal in what goes to the drain";
const TYPED: &str = "nothing: the water is typed";

const IS_SPRAYED: When = When::Is("stages", &[SPRAYED]);
const IS_DUMPED: When = When::Is("stages", &[DUMPED]);

/// What has to be said of more water.
pub const DILUTION: &str =
    "more water: dilution in place of treatment may be forbidden by your permit, 40 CFR 433.15(c)";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "rinse",
    title: "Rinse",
    question: "How much water does this rinse take, and what do its stages and the drain hold?",
    subject: Subject::Stream,
    quick: true,
    from_start: false,
    inputs: &[
        choice("class", "Class", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .group("What comes in")
            .from_origin(&[("make-up", "class"), ("rinse", "class"), ("standing-rinse", "class")])
            .help("Of the liquid on the wafers; cautions depend on it."),
        input("d_w", "Drag-out a wafer", ML, [0.0, 10_000.0], [0.1, 50.0])
            .needed()
            .group("What comes in")
            .from_origin(&[("plating", "d_w"), ("drag-out", "d_w"), ("rinse", "d_w"), ("standing-rinse", "d_w")])
            .if_known()
            .help("Liquid that one wafer and its holder carry in, on both faces, and out again."),
        input("N", "Wafers", PER_DAY, [0.0, 1e6], [1.0, 5000.0])
            .needed()
            .group("What comes in")
            .from_origin(&[("plating", "N"), ("drag-out", "N"), ("rinse", "N"), ("standing-rinse", "N")])
            .if_known()
            .help("That pass through this rinse a day."),
        input("hours", "Hours of service a day", HOUR, [0.1, 24.0], [4.0, 24.0]).usually(24.0)
            .group("What comes in")
            .from_site(&[("site", "hours")])
            .help("Rinse water runs in these hours only."),
        choice("stages", "Stages", NUMBER, STAGES)
            .group("Rinse")
            .help("Counterflow: wafers go one way, water the other. Sprays and dumps take fresh water each time."),
        input("m_x", "Sprays, one after the other", NUMBER, [1.0, 50.0], [1.0, 10.0]).usually(1.0)
            .group("Rinse")
            .help("Between two of them the water must run off.")
            .when(IS_SPRAYED),
        input("η", "Share of the spray that rinses", PERCENT, [1.0, 100.0], [30.0, 70.0])
            .needed()
            .group("Rinse")
            .help("What misses the wafer, or runs off without mixing, does not: 30 to 70 % is common practice, and no law says more. Measure the conductivity of what drips off.")
            .when(IS_SPRAYED),
        input("V_q", "Volume of a dump", L, [0.1, 10_000.0], [5.0, 200.0])
            .needed()
            .group("Rinse")
            .help("What the tank holds above its wafers’ own volume, each time.")
            .when(IS_DUMPED),
        input("n_l", "Wafers in a load", NUMBER, [1.0, 1000.0], [1.0, 100.0])
            .needed()
            .group("Rinse")
            .help("That are rinsed at once.")
            .when(IS_DUMPED),
        choice("target", "Water is found by", NUMBER, &[(BY_DILUTION, 0.0), (BY_LAST, 0.0), (BY_DRAIN, 0.0), (TYPED, 0.0)])
            .group("Target")
            .help("By the first two wafers come out clean; by the third the drain may take it."),
        input("x_t", "Times diluted", NUMBER, [1.0, 1e9], [100.0, 20_000.0])
            .needed()
            .group("Target")
            .help("1000 is a good start (Surface Finishing Guidebook 2011-12); 5000 to 20 000 after some baths.")
            .picks(&[("1000", 1000.0), ("5000", 5000.0), ("20 000", 20_000.0)])
            .when(When::Is("target", &[BY_DILUTION])),
        input("c_t", "All metals in the last stage, at most", MG_PER_L_METAL, [0.0, 1e6], [0.1, 100.0])
            .needed()
            .group("Target")
            .help("It stays on the wafers, and comes into the next bath.")
            .when(When::Is("target", &[BY_LAST])),
        input("c_x", "All metals to the drain, at most", MG_PER_L_METAL, [0.0, 1e6], [1.0, 100.0]).usually(60.0)
            .group("Target")
            .help("60 mg/L is what the dilute route takes, common practice.")
            .when(When::Is("target", &[BY_DRAIN])),
        input("v_x", "Water a wafer", L, [0.001, 1000.0], [0.05, 20.0])
            .needed()
            .group("Target")
            .help("Fresh water that runs in for one wafer, all sprays together. Of dumps the next whole one is taken.")
            .as_cure(DILUTION)
            .when(When::Is("target", &[TYPED])),
        input("c_g", "Wanted in the last stage, at most", MG_PER_L_METAL, [0.0, 1e6], [0.001, 400.0])
            .optional()
            .group("Target")
            .help("All metals together; where it is more, the sheet says so.")
            .when(When::Is("target", &[TYPED])),
        input("c_y", "Wanted at the drain, at most", MG_PER_L_METAL, [0.0, 1e6], [1.0, 100.0])
            .optional()
            .group("Target")
            .help("All metals together: 60 mg/L for the dilute route, common practice. Where it is more, the sheet says so.")
            .when(When::Not("target", &[BY_DRAIN])),
        input("κ_0", "What comes in conducts, as if diluted", US_PER_CM, [0.0, 1e8], [10.0, 3e6])
            .optional()
            .group("Check by conductivity")
            .from_origin(&[("rinse", "κ_n")])
            .if_known()
            .help("Measure a litre of water that holds a millilitre of it, less the water’s own, times 1000. The bath itself would read half or less."),
        input("κ_f", "The rinse water conducts", US_PER_CM, [0.0, 10_000.0], [0.05, 1000.0])
            .optional()
            .group("Check by conductivity")
            .help("Left out, next to nothing: DI water has 0.06 to 1 µS/cm, from memory."),
    ],
    tables: &[
        Table {
            id: metals::TABLE,
            label: "Metals",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: metals::SYMBOLS,
            presets: &[],
            columns: &[
                input("c_in", "In the liquid it comes from", G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0])
                    .needed()
                    .from_origin(&[("make-up", "c_M"), ("rinse", "c_n"), ("standing-rinse", "c_m")])
                    .help("In the bath, or in the last stage of the rinse before, as its sheet of rinse has it; in a standing rinse before, at its change."),
                input("c_f", "In the rinse water", MG_PER_L_METAL, [0.0, 10_000.0], [0.0, 10.0]).usually(0.0)
                    .help("None in fresh water; what comes back from treatment may hold some. No stage comes below it."),
            ],
            answers: &[
                output("c_d", "To the drain", MG_PER_L_METAL),
                output("c_n", "In the last stage, and on the wafers", MG_PER_L_METAL),
            ],
        },
        Table {
            id: TABLE,
            label: "Stages, in the order of the wafers",
            key_label: "Stage",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                output("c_s", "All metals together", MG_PER_L_METAL).needs("its metals"),
                output("x_s", "Times diluted up to here", NUMBER),
            ],
        },
    ],
    outputs: &[
        output("v_w", "Water a wafer", L),
        output("q", "Flow while it runs", L_PER_MIN).beside(),
        output("c_T", "To the drain, all metals together", MG_PER_L_METAL)
            .beside()
            .needs("its metals")
            .cured_by(&[("drag-out", "t_s"), ("drag-out", "n_s"), ("drag-out", "v_h"), ("rinse", "v_x")]),
        output("x", "Times diluted", NUMBER).beside(),
        output("Q_h", "Water in an hour of service", L_PER_H),
        output("Q_day", "Water a day", L_PER_DAY),
        output("c_nT", "In the last stage, all metals together", MG_PER_L_METAL)
            .needs("its metals")
            .cured_by(&[("drag-out", "t_s"), ("drag-out", "n_s"), ("drag-out", "v_h"), ("rinse", "v_x")]),
        output("r", "Water to one of drag-out", NUMBER),
        output("m_r", "Stages, sprays or dumps", NUMBER),
        output("v_r", "Water by the rule of the root, for comparison", L).needs("counterflow and a dilution"),
        output("κ_n", "Conductivity of the last stage, about", US_PER_CM).needs("what comes in to be measured"),
    ],
    picture: Some(Picture { across: "x_t", up: "v_w" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Is("target", &[BY_DRAIN])],
            text: "Water that only brings the drain below its limit is dilution in place of treatment: your permit may forbid it, 40 CFR 433.15(c). The grams of metal stay the same.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "Rinse cyanide in its own water, with its own drain and vent, and never next to acid: both give a gas that kills. A water rinse stands between, and licensed persons decide.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: "Rinse water of this bath burns too: hydrofluoric acid never without the site’s own first aid for it, and never in glass.",
        },
        Caution {
            when: &[IS_SPRAYED, When::Is("class", &["acid", "alkaline", "cyanide", "fluoride", "oxidiser", "unknown"])],
            text: "A spray makes mist of what it rinses off: closed lid, exhaust of its own class, goggles and face shield where it is opened.",
        },
        Caution {
            when: &[When::Is("class", &["solvent"])],
            text: "A solvent is not rinsed by these sums, and its vapour burns: its own safety data and a licensed person decide.",
        },
    ],
    sources: &[
        "Stage balances of stirred stages in steady state, exact; checked against numpy linalg.solve and scipy brentq.",
        "W. Yates, Ten Minutes to Better Rinsing, Products Finishing 1991; Surface Finishing Guidebook 2011-12, p. 81, for 1000 times.",
        "Share of a spray that rinses, 60 mg/L for the dilute route, rule of the root: common practice, no source.",
        "Conductivity in proportion to the dilution: limiting law of Kohlrausch, from memory; an approximation.",
        "Dilution in place of treatment: 40 CFR 433.15(c), by way of 40 CFR 403.6(d).",
    ],
    examples: &[
        Example {
            source: "numpy 2.4.6 linalg.solve and scipy brentq: 0.2 L/h of 40 g/L down to 10 mg/L in two stages: 12.54792 L/h",
            inputs: &[
                ("class", "acid"), ("d_w", "5 mL"), ("N", "960 per day"), ("hours", "24 h"),
                ("stages", "two in counterflow"), ("target", BY_LAST), ("c_t", "10 mg/L"),
            ],
            rows: &[(metals::TABLE, "Cu", &[("c_in", "40 g/L")])],
            answers: &[("Q_h", "12.54792 L/h"), ("c_nT", "10 mg/L"), ("x", "4000"), ("v_w", "0.313698 L"), ("v_r", "0.316228 L")],
            within: 3e-6,
        },
        Example {
            source: "numpy 2.4.6 linalg.solve: 0.2 L/h of 40 g/L and 8 L/h with 2 mg/L, three stages: 1001.93477, 26.9831355, 2.60934477 mg/L",
            inputs: &[
                ("d_w", "5 mL"), ("N", "960 per day"), ("stages", "three in counterflow"), ("target", TYPED), ("v_x", "0.2 L"),
            ],
            rows: &[(metals::TABLE, "Cu", &[("c_in", "40 g/L"), ("c_f", "2 mg/L")])],
            answers: &[
                ("c_s[Stage 1]", "1001.93477 mg/L"), ("c_s[Stage 2]", "26.9831355 mg/L"), ("c_s[Stage 3]", "2.60934477 mg/L"),
                ("c_d[Cu]", "1001.93477 mg/L"), ("c_n[Cu]", "2.60934477 mg/L"), ("r", "40"),
            ],
            within: 1e-8,
        },
        Example {
            source: "Yates, Ten Minutes to Better Rinsing, 1991: 1 gal/h into 99 gal/h dilutes 100 times",
            inputs: &[("d_w", "1 mL"), ("N", "100 per day"), ("x_t", "100"), ("κ_0", "147000 µS/cm")],
            rows: &[],
            answers: &[("v_w", "99 mL"), ("Q_day", "9.9 L/day"), ("κ_n", "1470 µS/cm")],
            within: 1e-9,
        },
        Example {
            source: "Python recursion, mix then withdraw: loads of 25 × 4 mL of 40 g/L in dumps of 20 L: 0.990074 mg/L after two, 99.9975 mg/L out",
            inputs: &[
                ("d_w", "4 mL"), ("N", "100 per day"), ("stages", DUMPED), ("V_q", "20 L"), ("n_l", "25"), ("target", BY_LAST), ("c_t", "5 mg/L"),
            ],
            rows: &[(metals::TABLE, "Cu", &[("c_in", "40 g/L")])],
            answers: &[("m_r", "2"), ("c_nT", "0.9900745 mg/L"), ("c_T", "99.9975248 mg/L"), ("v_w", "1.6 L"), ("Q_day", "160 L/day")],
            within: 1e-7,
        },
        Example {
            source: "Python recursion and scipy brentq: 1.5 mL of 50 g/L sprayed three times, 40 % of it mixing: 1000 times takes 0.10125 L",
            inputs: &[
                ("d_w", "1.5 mL"), ("N", "480 per day"), ("stages", SPRAYED), ("m_x", "3"), ("η", "40 %"), ("x_t", "1000"),
            ],
            rows: &[(metals::TABLE, "Cu", &[("c_in", "50 g/L")])],
            answers: &[("v_w", "0.10125 L"), ("c_nT", "50 mg/L")],
            within: 1e-9,
        },
        Example {
            source: "scipy 1.17.1 brentq over linalg.solve: 1.5 mL of 50 g/L to 60 mg/L at the drain in two stages: 1.2499982 L",
            inputs: &[
                ("d_w", "1.5 mL"), ("N", "480 per day"), ("stages", "two in counterflow"), ("target", BY_DRAIN),
            ],
            rows: &[(metals::TABLE, "Cu", &[("c_in", "50 g/L")])],
            answers: &[("v_w", "1.2499982 L"), ("c_T", "60 mg/L")],
            within: 1e-8,
        },
    ],
    work: sum::work,
};
