//! How a bath is analysed: by hand, on the bench, by an analyser on a slipstream, or in a closed loop.
//!
//! - this file: the declaration;
//! - [`sum`]: how often each component is due, and the rule: common practice, no source.

mod sum;
#[cfg(test)]
mod tests;

use super::choose::{self, AS_SUITS, SIMPLEST};
use super::make_up::sort;
use super::{bath_inputs, cautions};
use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Subject, Table, When, choice, input, output, verdict,
};
use crate::units::{
    DAYS, G_PER_DAY_METAL, G_PER_L, HOUR, L_PER_DAY, MINUTE, ML, ML_PER_DAY, ML_PER_L, NUMBER, PER_DAY,
    PERCENT, PERCENT_METAL, Unit,
};

const TABLE: &str = "components";
const LEVELS: &str = "levels";

pub const BY_HAND: &str = "by hand";
pub const BENCH: &str = "instrument on the bench";
pub const AUTOMATIC: &str = "analyser on a slipstream";
pub const LOOP: &str = "closed loop that doses";
/// The levels, the least hardware first.
const ORDER: [&str; 4] = [BY_HAND, BENCH, AUTOMATIC, LOOP];
const NONE: &str = "none of them";

const AS_USUAL: &str = "as is usual";
const TITRATED: &str = "titration, pH or density";
const TEST_CELL: &str = "plating test cell";
const INSTRUMENT: &str = "voltammetry or another instrument";

const METHODS: &str = "what the components take";
const OFTEN: &str = "how often it is due";
const PEOPLE: &str = "the time that people have";
const NOBODY: &str = "nobody who can analyse is there when it is due";
const VOLUME: &str = "samples would take too much of the bath";

const DRIFT: &str = "its drift";
const LATEST: &str = "the longest that is usual";
const NOT_KNOWN: &str = "its use is not known";
const READ_DAILY: &str = "the pH is read each day";

const RULE: &str = "The rule";

const fn rule(symbol: &'static str, label: &'static str, unit: &'static Unit, usual: f64) -> Input {
    input(symbol, label, unit, [0.0, 10_000.0], [usual / 10.0, usual * 10.0]).usually(usual).group(RULE)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "analysis-level",
    title: "Level of analysis",
    question: "By hand, on the bench, automatic or in a closed loop: how should this bath be analysed?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        bath_inputs::volume()
            .needed()
            .group("Bath")
            .help("A small bath drifts sooner, and gives less to samples."),
        bath_inputs::hours().group("Bath").help("Times below are hours of service."),
        input("D", "Drag-out a day", L_PER_DAY, [0.0, 1e6], [0.0, 1000.0])
            .usually(0.0)
            .group("Bath")
            .follows(&[("plating", "D_day")])
            .if_known()
            .help("It carries out all components alike."),
        input("off", "Doses may be off by", PERCENT, [0.0, 500.0], [0.0, 50.0])
            .usually(20.0)
            .group("Bath")
            .follows(&[("dosing", "off")])
            .help("Of what is dosed by count only this part drifts."),
        input("t_s", "Hours of service with somebody who can analyse", HOUR, [0.0, 24.0], [1.0, 24.0])
            .needed()
            .group("People")
            .help("A day. A day shift on a line that never stops is 8 h."),
        input("t_p", "Time that they have for this bath", MINUTE, [0.0, 10_000.0], [5.0, 600.0])
            .needed()
            .group("People")
            .help("A day of service, for sampling, analysis and writing it down."),
        input("v_s", "A sample, flush included", ML, [0.1, 10_000.0], [5.0, 500.0])
            .usually(50.0)
            .group("Samples")
            .help("What the bath loses each time."),
        choice(
            "plan",
            "Planned is",
            NUMBER,
            &[(AS_SUITS, 0.0), (BY_HAND, 0.0), (BENCH, 0.0), (AUTOMATIC, 0.0), (LOOP, 0.0)],
        )
        .group("Samples")
        .help("Choose a level to see what speaks against it."),
        rule("t_x", "Each component at the latest every", DAYS, 7.0)
            .help("Days of service, however little it drifts."),
        rule("t_pH", "The pH at the latest every", DAYS, 1.0)
            .help("Where acid or base holds it. Common practice, no source."),
        rule("n_h", "By hand up to so many components", NUMBER, 5.0)
            .help("More are too many burettes and too many slips."),
        rule("t_h", "By hand no more often than every", HOUR, 8.0).help("Once a shift."),
        rule("t_b", "On the bench no more often than every", HOUR, 4.0).help("Twice a shift."),
        rule("t_c", "A person corrects no more often than every", HOUR, 2.0)
            .help("Below that an analyser that only reports is no help."),
        rule("m_h", "A determination by hand takes", MINUTE, 20.0).help("Of a person’s time, with cleaning."),
        rule("m_b", "On the bench", MINUTE, 8.0).help("Of a person’s time: sample, fill, write down."),
        rule("m_a", "An analyser takes a day", MINUTE, 20.0)
            .help("Of a person’s time: reagents, standards, a check against the bench."),
        rule("x_m", "Samples may take of the bath a day", PERCENT, 1.0)
            .help("More has to be made up again."),
    ],
    tables: &[
        Table {
            id: TABLE,
            label: "Components",
            key_label: "Component",
            add: Some("Add a component"),
            suggest: &["Cu", "H2SO4", "Cl", sort::PH, "Suppressor", "Brightener", "Leveller"],
            presets: &[],
            columns: &[
                choice(
                    "method",
                    "Found by",
                    NUMBER,
                    &[(AS_USUAL, 0.0), (TITRATED, 0.0), (TEST_CELL, 0.0), (INSTRUMENT, 0.0)],
                )
                .help(
                    "As is usual, an additive takes an instrument, and all else is titrated.",
                ),
                input("b", "May be off by", PERCENT, [0.01, 100.0], [1.0, 50.0])
                    .usually(10.0)
                    .help("Of what is wanted, to either side, before it is corrected. Common practice."),
                input("x", "Drifts a day, if known", PERCENT, [0.0, 1e5], [0.0, 100.0])
                    .optional()
                    .help("Of what is wanted, in a day of service: from your log. It goes before all that is followed."),
                input("c_C", "Wanted", G_PER_L, [0.0, 2000.0], [0.0, 300.0])
                    .only_followed()
                    .follows(&[("make-up", "c_C")])
                    .if_known()
                    .help("In the bath."),
                input("m_r", "Metal to be replaced", G_PER_DAY_METAL, [-1e9, 1e9], [-1e6, 1e6])
                    .only_followed()
                    .follows(&[("plating", "m_rep")])
                    .if_known()
                    .help("What the anode does not give back."),
                input("C", "Dose to hold", ML_PER_L, [0.0001, 1000.0], [0.1, 100.0])
                    .only_followed()
                    .follows(&[("dosing", "C")])
                    .if_known()
                    .help("Of an additive."),
                input("u", "Used at that dose", ML_PER_DAY, [0.0, 1e9], [0.0, 1e5])
                    .only_followed()
                    .follows(&[("dosing", "u")])
                    .if_known()
                    .help("A day of service; it is dosed by count."),
                Input {
                    optional: true,
                    only_followed: true,
                    default: f64::NAN,
                    ..choice("is_b", "What it is", NUMBER, sort::SORT_WORDS)
                        .help("What the make-up lists besides what is wanted in g/L.")
                }
                .follows(&[("make-up", "is_D")])
                .if_known(),
            ],
            answers: &[
                output("t_k", "Due every", DAYS),
                verdict("why_k", "What decides", &[DRIFT, LATEST, NOT_KNOWN, READ_DAILY]),
                output("x_k", "Drifts a day, of what is wanted", PERCENT).needs("a use of it, or drag-out"),
                output("n_k", "Determinations", PER_DAY),
                output("b_C", "It may be off by", G_PER_L).needs("what is wanted in g/L"),
            ],
        },
        Table {
            id: LEVELS,
            label: "Levels, and what speaks against each",
            key_label: "Level",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                choose::standing(),
                choose::judged("by_m", "Components"),
                choose::judged("by_f", "Frequency"),
                choose::judged("by_p", "People’s time"),
                choose::judged("by_n", "Hours with somebody there"),
                choose::judged("by_v", "Volume"),
                output("m_l", "People’s time a day", MINUTE),
            ],
        },
    ],
    outputs: &[
        verdict("level", "Suits it", &[BY_HAND, BENCH, AUTOMATIC, LOOP, NONE]),
        verdict("why", "What decides", &[SIMPLEST, METHODS, OFTEN, PEOPLE, NOBODY, VOLUME]).beside(),
        output("t_n", "A sample is due every, hours of service", HOUR).beside(),
        output("n_d", "Determinations", PER_DAY).beside(),
        output("x_s", "Samples take of the bath a day", PERCENT),
    ],
    picture: Some(Picture { across: "V", up: "t_n" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution { when: &[], text: cautions::SAMPLE_TEXT },
        Caution {
            when: &[When::Is("level", &[LOOP])],
            text: "A loop that doses on a wrong result spoils the bath or overfills it: limit each dose and the doses a day, stop on an implausible result, and let a level switch of its own stop the pumps.",
        },
    ],
    sources: &[
        "Which level suits: a rule of the trade, stated with its limits above: common practice, no source. What the components take goes before frequency, frequency before people, people before volume.",
        "How often: what it may be off by over its drift; arithmetic.",
    ],
    examples: &[
        Example {
            source: "By hand: 240 mL/day of 50 L × 4 mL/L are 120 % a day, of which 20 % drift; 10 % last 0.4166667 days of 24 h",
            inputs: &[("V", "50 L"), ("hours", "24 h"), ("off", "20 %"), ("t_s", "24 h"), ("t_p", "60 min")],
            rows: &[
                (TABLE, "Brightener", &[("C", "4 mL/L"), ("u", "240 mL/day")]),
                (TABLE, "Cu", &[("c_C", "40 g/L")]),
            ],
            answers: &[
                ("x_k[Brightener]", "24 %"),
                ("t_k[Brightener]", "0.4166667 days"),
                ("t_n", "10 h"),
                ("level", BENCH),
                ("why", METHODS),
                ("t_k[Cu]", "7 days"),
                ("why_k[Cu]", NOT_KNOWN),
                ("b_C[Cu]", "4 g/L"),
                ("x_s", "0.24 %"),
            ],
            within: 1e-6,
        },
        Example {
            source: "By hand: a drag-out of 2 L/day from 200 L is 1 % a day; 5 % last 5 days of 16 h; twice 0.2 determinations are 8 min",
            inputs: &[("V", "200 L"), ("hours", "16 h"), ("D", "2 L/day"), ("t_s", "8 h"), ("t_p", "30 min")],
            rows: &[(TABLE, "Cu", &[("b", "5 %")]), (TABLE, "H2SO4", &[("b", "5 %")])],
            answers: &[
                ("t_k[Cu]", "5 days"),
                ("t_n", "80 h"),
                ("n_d", "0.4 per day"),
                ("m_l[by hand]", "8 min"),
                ("level", BY_HAND),
                ("why", SIMPLEST),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: nickel at the latest after 7 days of 24 h and pH each day are 1.142857 determinations, 22.857143 min",
            inputs: &[("V", "100 L"), ("hours", "24 h"), ("t_s", "24 h"), ("t_p", "60 min")],
            rows: &[(TABLE, "Ni", &[("c_C", "80 g/L")]), (TABLE, sort::PH, &[("method", TITRATED)])],
            answers: &[
                ("t_k[pH]", "1 day"),
                ("why_k[pH]", READ_DAILY),
                ("t_n", "24 h"),
                ("m_l[by hand]", "22.857143 min"),
                ("level", BY_HAND),
            ],
            within: 1e-6,
        },
    ],
    work: sum::work,
};
