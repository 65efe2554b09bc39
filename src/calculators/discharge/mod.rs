//! Where treated streams leave the site: what arrives there, and whether each metal keeps the limits.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::{CLASSES, UNKNOWN, rules, treated};
use crate::calculator::Severity::Serious;
use crate::calculator::{
    Calculator, Caution, Example, Role, Subject, Table, When, choice, input, output, verdict,
};
use crate::science::metals;
use crate::science::regulation::SEWER_LEAST_PH;
use crate::units::{DAYS, G_PER_DAY_METAL, KG_METAL, L_PER_DAY, MG_PER_L_METAL, NUMBER};

pub(super) const POINT: &str = "a point of discharge, to a public sewer";
pub(super) const CONTAINER: &str = "a container that is taken away";
const IN_ORDER: &str = "in order";
const ELSEWHERE: &str = "belongs in a container";
const IS_POINT: When = When::Is("what", &[POINT]);
const NOT_413: &str = "only for a larger job shop, 40 CFR 413";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "discharge",
    title: "Discharge",
    question: "What leaves the site here, and does each metal keep its limits?",
    subject: Subject::Discharge,
    quick: false,
    from_start: true,
    inputs: &[
        choice("what", "What it is", NUMBER, &[(POINT, 0.0), (CONTAINER, 0.0)])
            .help("Limits count at a point of discharge; a container is for whoever takes it."),
        choice("rule", "Published limits to compare with", NUMBER, rules::ALL)
            .help("Your permit rules; type it at the site. Parts 413 and 433 cover electroplating; part 469, semiconductors, leaves it out (469.10). The control authority decides.")
            .when(IS_POINT),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0])
            .usually(350.0)
            .from_site(&[("site", "days")])
            .help("For the year’s sum."),
        input("Q", "Volume a day", L_PER_DAY, [0.0, 1e12], [0.0, 1e9])
            .usually(0.0)
            .sums(&[("treated", "Q_day")])
            .help("All treated streams that lead here."),
    ],
    tables: &[
        Table {
            id: metals::TABLE,
            label: "Metals that leave here",
            key_label: "Metal",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                input("m", "Metal a day", G_PER_DAY_METAL, [0.0, 1e12], [0.0, 1e9])
                    .usually(0.0)
                    .role(Role::Load)
                    .sums(&[("treated", "m_w")])
                    .help("All treated streams that lead here."),
                input("m_p", "Metal on the peak day", G_PER_DAY_METAL, [0.0, 1e12], [0.0, 1e9])
                    .usually(0.0)
                    .sums(&[("treated", "m_p")])
                    .help("All treated streams that lead here, each on its own peak day, all at once."),
                input("Q_e", "Water that peaks bring", L_PER_DAY, [0.0, 1e12], [0.0, 1e9])
                    .usually(0.0)
                    .sums(&[("treated", "Q_e")])
                    .help("Beyond a mean day, of streams whose peak holds this metal."),
                rules::permit_daily(),
                rules::permit_monthly(),
            ],
            answers: &[
                output("c_m", "Mean", MG_PER_L_METAL),
                output("c_p", "On the peak day", MG_PER_L_METAL),
                output("pub_d", "Published, daily", MG_PER_L_METAL).missing(rules::NONE_PUBLISHED),
                output("pub_m", "Published, average", MG_PER_L_METAL).missing(rules::NONE_PUBLISHED),
                output("m_y", "In a year of service", KG_METAL),
            ],
        },
        Table {
            id: "streams",
            label: "Treated streams that lead here",
            key_label: "Treated stream",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                choice("kind", "What it is", NUMBER, treated::KINDS)
                    .starts_at(treated::OTHER_AT)
                    .each(&[("treated", "what")])
                    .help("Follows the treated stream."),
                choice("class", "Class", NUMBER, CLASSES)
                    .starts_at(UNKNOWN)
                    .each(&[("treated", "class")])
                    .help("Follows the treated stream."),
                input("Q_s", "Volume a day", L_PER_DAY, [0.0, 1e12], [0.0, 1e9])
                    .usually(0.0)
                    .each(&[("treated", "Q_day")])
                    .help("Follows the treated stream."),
                input("pH_s", "pH", NUMBER, [0.0, 14.0], [0.0, 14.0])
                    .optional()
                    .each(&[("treated", "pH")])
                    .help("Follows the treated stream."),
            ],
            answers: &[verdict("goes", "Here", &[IN_ORDER, ELSEWHERE])],
        },
    ],
    outputs: &[
        output("Q_day", "Volume a day", L_PER_DAY).role(Role::Flow),
        output("m_T", "Metal a day, all together", G_PER_DAY_METAL).beside(),
        output("c_T", "All metals together, mixed", MG_PER_L_METAL).beside(),
        output("pH_m", "pH of the mix, without buffers", NUMBER)
            .missing("type the pH of every treated stream that leads to a point of discharge")
            .below(SEWER_LEAST_PH, Serious, "Nothing below pH 5 may go to a public sewer, 40 CFR 403.5(b)(2)."),
        output("c_4", "Cu, Ni, Cr and Zn on the peak day", MG_PER_L_METAL).missing(NOT_413),
        output("c_4m", "Cu, Ni, Cr and Zn, mean", MG_PER_L_METAL).missing(NOT_413),
        output("t_y", "Days that this is for", DAYS),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[Caution {
        when: &[IS_POINT],
        text: "Water that does not keep the permit is held and told to the control authority; it is not thinned until it does. The permit and local codes rule over what is shown here.",
    }],
    sources: &[
        "Conservation of mass. Published limits: 40 CFR 433.15, 433.17, 413 and 469.18; what no sewer takes: 403.5.",
        "pH of the mix: strong acid and base alone, water of 25 °C; buffers and metals that fall out move it.",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest from memory.",
    ],
    examples: &[Example {
        source: "By hand: 5 g/day in 5000 L/day are 1 mg/L; 22 g with 500 L more are 4 mg/L; 5 g × 350 days are 1.75 kg",
        inputs: &[("Q", "5000 L/day")],
        rows: &[("metals", "Cu", &[("m", "5 g/day"), ("m_p", "22 g/day"), ("Q_e", "500 L/day")])],
        answers: &[
            ("c_m[Cu]", "1 mg/L"),
            ("c_p[Cu]", "4 mg/L"),
            ("pub_d[Cu]", "3.38 mg/L"),
            ("pub_m[Cu]", "2.07 mg/L"),
            ("m_y[Cu]", "1.75 kg of metal"),
        ],
        within: 1e-9,
    }],
    work: sum::work,
};
