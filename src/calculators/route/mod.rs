//! One of the ways out: what arrives on it, whether it may, and what it carries away.
//!
//! - this file: the declaration;
//! - [`sum`]: flows, metals, limits and worth;
//! - [`meets`]: what meets there, and the pH that it comes to.

mod meets;
mod sum;
#[cfg(test)]
mod tests;

use super::routes::{self, KINDS};
use super::{CLASSES, UNKNOWN, rules, stream};
use crate::calculator::{
    Calculator, Caution, Example, Role, Subject, Table, When, choice, input, output, verdict,
};
use crate::science::metals;
use crate::science::segregation::strong_acid_with_caustic;
use crate::units::{
    EQ_PER_DAY, G_METAL, G_PER_DAY_METAL, KG_METAL, L, L_PER_DAY, L_PER_MIN, MEQ_PER_L, MG_PER_L_METAL,
    MINUTE, MONEY, NUMBER, PER_KG,
};

/// What arrives has still to go somewhere.
pub const HELD: &str = "is collected or treated first";
const DISCHARGED: &str = "leaves the site as it is";
/// What becomes of what arrives.
pub const ENDS: &[(&str, f64)] = &[(HELD, 0.0), (DISCHARGED, 0.0)];
const IN_ORDER: &str = "in order";
const TOO_RICH: &str = "too rich for this route";
const ELSEWHERE: &str = "belongs on another route";

const NOT_KNOWN: &str = "not known";
const NOTHING_WEAK: &str = "none, as the makers of the baths say";
const SOME: &str = "some";
/// Routes whose metal goes back to where it is worth something.
const HAS_WORTH: &[&str] = &[routes::RECLAIM, routes::CONCENTRATE, routes::OWN];
const NEEDS_PRICE: &str = "a price of the metal, on a route for reclaim or recovery";
const NEEDS_ACIDITY: &str =
    "give the acid or base of every stream, and say that nothing weak, buffering or binding is in them";

const BELONGS: &[(&str, f64)] = &[
    (routes::ACID_BASE, 0.0),
    (routes::DILUTE, 0.0),
    (routes::CONCENTRATE, 0.0),
    (routes::RECLAIM, 0.0),
    (routes::CYANIDE, 0.0),
    (routes::FLUORIDE, 0.0),
    (routes::SOLVENTS, 0.0),
    (routes::OXIDISERS, 0.0),
    (routes::AMMONIA, 0.0),
    (routes::SULFITE, 0.0),
    (routes::OWN, 0.0),
    (routes::FIND_OUT, 0.0),
];

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "route",
    title: "Route",
    question: "What arrives on this route, may it, and what does it carry away?",
    subject: Subject::Route,
    quick: false,
    from_start: true,
    inputs: &[
        choice("kind", "What it is for", MG_PER_L_METAL, KINDS)
            .starts_at(1)
            .takes_on("stream", "belongs")
            .help("Segregated liquids have a route for each class; gold and its like are reclaimed."),
        input("c_max", "Limit on all metals together", MG_PER_L_METAL, [0.0, 1e9], [0.0, 1e6])
            .optional()
            .help("Left out: 1 mg/L for acid and base water, 60 mg/L for dilute, 200 g/L for concentrate, all common practice. Each stream is held to it before it is mixed."),
        choice("ends", "What arrives", NUMBER, ENDS)
            .help("The permit of the site counts where water leaves it."),
        choice("rule", "Published limits to compare with", NUMBER, rules::PLATING)
            .help("Your permit rules. Which part binds you is for the control authority; the semiconductor part, 40 CFR 469, leaves electroplating out.")
            .when(When::Is("ends", &[DISCHARGED])),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0]).usually(350.0)
            .from_site(&[("site", "days")])
            .help("For the year’s sum."),
        input("Q", "Volume a day", L_PER_DAY, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
            .sums(&[("stream", "Q_day")])
            .help("All streams that lead here."),
        input("q_run", "Flow in the hours of service", L_PER_MIN, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
            .sums(&[("stream", "q_run")])
            .help("All streams that lead here, dumps spread out."),
        input("V_1", "Largest dump", L, [0.0, 1e6], [0.0, 5000.0]).usually(0.0)
            .largest(&[("stream", "V_once")])
            .help("The largest dump that leads here."),
        input("t_1", "The largest dump runs in within", MINUTE, [0.1, 10_000.0], [1.0, 480.0])
            .optional()
            .help("The peak flow follows from it.")
            .when(When::Above("V_1", 0.0)),
        choice("weak", "Weak acids, buffers or complexants", NUMBER, &[(NOT_KNOWN, 0.0), (NOTHING_WEAK, 0.0), (SOME, 0.0)])
            .help("Boric, phosphoric, citric or hydrofluoric acid, ammonia, carbonate and their salts. With any of them the pH of the mix is measured, not worked out."),
    ],
    tables: &[
        Table {
            id: "streams",
            label: "Streams that lead here",
            key_label: "Stream",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                choice("what", "What it is", NUMBER, stream::KINDS).starts_at(stream::OTHER_AT).each(&[("stream", "kind")]).help("Follows the stream."),
                choice("class", "Class", NUMBER, CLASSES).starts_at(UNKNOWN).each(&[("stream", "class")]).help("Follows the stream."),
                input("Q_s", "Volume a day", L_PER_DAY, [0.0, 1e9], [0.0, 1e9]).usually(0.0).each(&[("stream", "Q_day")]).help("Follows the stream."),
                input("c_T", "All metals in it", MG_PER_L_METAL, [0.0, 1e9], [0.0, 1e9]).usually(0.0).each(&[("stream", "c_T")]).help("Follows the stream."),
                choice("belongs", "Route that suits it", NUMBER, BELONGS).starts_at(11).each(&[("stream", "belongs")]).help("Follows the stream."),
                input("e_s", "Strong acid in it, below 0 base", MEQ_PER_L, [-50_000.0, 50_000.0], [-5000.0, 5000.0]).optional().each(&[("stream", "e")]).if_known().help("Follows the stream, if it says so."),
            ],
            answers: &[
                output("c_s", "Held against the limit", MG_PER_L_METAL).cured_by(&[
                    ("drag-out", "t_s"),
                    ("drag-out", "n_s"),
                    ("drag-out", "v_h"),
                    ("plating", "d_w"),
                    ("stream", "d_w"),
                    ("stream", "v_w"),
                    ("stream", "q"),
                ]),
                verdict("verdict", "On this route", &[IN_ORDER, TOO_RICH, ELSEWHERE]),
                output("a_s", "Strong acid a day, below 0 base", EQ_PER_DAY).missing("its acid or base is not known"),
            ],
        },
        Table {
            id: metals::TABLE,
            label: "Metals on this route",
            key_label: "Metal",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                input("m", "Metal a day", G_PER_DAY_METAL, [0.0, 1e9], [0.0, 1e9]).usually(0.0)
                    .role(Role::Load)
                    .sums(&[("stream", "m_w")])
                    .help("All streams that lead here."),
                input("m_1", "Most in one dump", G_METAL, [0.0, 1e12], [0.0, 1e12])
                    .optional()
                    .largest(&[("stream", "m_once")])
                    .help("Of the dumps that lead here."),
                rules::permit_daily(),
                rules::permit_monthly(),
                input("p_M", "Price", PER_KG, [0.0, 1e9], [0.0, 1e6])
                    .optional()
                    .from_site(&[("site", "p_metal")])
                    .help("What a kilogram of the metal in this liquid is worth to you, after the refiner’s share.")
                    .when(When::Is("kind", HAS_WORTH)),
            ],
            answers: &[
                output("c_mean", "Mean", MG_PER_L_METAL),
                output("c_peak", "On the day of the largest dump", MG_PER_L_METAL),
                output("m_year", "In a year of service", KG_METAL),
                output("w_d", "Worth of it a day", MONEY).needs(NEEDS_PRICE),
                output("w_y", "Worth of it in a year of service", MONEY).needs(NEEDS_PRICE),
                output("pub_d", "Published, daily", MG_PER_L_METAL).missing(rules::NONE_PUBLISHED),
                output("pub_m", "Published, average", MG_PER_L_METAL).missing(rules::NONE_PUBLISHED),
            ],
        },
    ],
    outputs: &[
        output("Q_day", "Volume a day", L_PER_DAY).role(Role::Flow),
        output("m_T", "Metal a day, all together", G_PER_DAY_METAL).beside(),
        output("c_mix", "All metals together, mixed", MG_PER_L_METAL).beside(),
        output("c_worst", "Richest stream", MG_PER_L_METAL),
        output("q_mean", "Flow in the hours of service", L_PER_MIN),
        output("q_peak", "Peak flow, the largest dump on top", L_PER_MIN).missing("type how fast the largest dump runs in"),
        output("V_dump", "Largest dump", L),
        output("Q_p", "Volume on the day of the largest dump", L_PER_DAY),
        output("pH_m", "pH of the mix, an indication", NUMBER).missing(NEEDS_ACIDITY),
        output("e_m", "Strong acid in the mix, below 0 base", MEQ_PER_L).missing(NEEDS_ACIDITY),
        output("w_D", "Worth of the metal a day", MONEY).needs(NEEDS_PRICE),
        output("w_Y", "Worth of the metal in a year of service", MONEY).needs(NEEDS_PRICE),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Is("kind", &[routes::CYANIDE])],
            text: "No acid ever reaches this route, its lift station, its container or its vent. It has a pipe of its own to the end.",
        },
        Caution {
            when: &[When::Is("kind", &[routes::FLUORIDE])],
            text: "Hydrofluoric acid: no glass, no metal; the site’s own first aid for it stands ready.",
        },
        Caution {
            when: &[When::Is("kind", &[routes::OXIDISERS])],
            text: "No organic matter, no resin, no closed cap: oxidisers gas and set fire.",
        },
        Caution {
            when: &[When::Is("kind", &[routes::ACID_BASE])],
            text: strong_acid_with_caustic(),
        },
    ],
    sources: &[
        "Conservation of mass. Limits of 1 mg/L, 60 mg/L and 200 g/L: common practice, no source.",
        "pH of the mix: strong acid and base alone at 25 °C, charge balance with activities; checked against PHREEQC 3.8.6.",
        "Published limits: 40 CFR 433.15, 433.17 and 413; dilution in place of treatment: 433.15(c).",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest from memory.",
    ],
    examples: &[
        Example {
            source: "By hand: 480 L/day with 36 g/day are 75 mg/L; 0.036 kg × 350 days = 12.6 kg",
            inputs: &[("Q", "480 L/day"), ("days", "350")],
            rows: &[("metals", "Cu", &[("m", "36 g/day")])],
            answers: &[("c_mean[Cu]", "75 mg/L"), ("m_T", "36 g/day"), ("m_year[Cu]", "12.6 kg of metal")],
            within: 1e-9,
        },
        Example {
            source: "By hand: 2 g/day at 30 000 a kg are 60 a day, 21 000 in 350 days; 1 L/min and 240 L in 30 min are 9 L/min",
            inputs: &[
                ("kind", routes::RECLAIM),
                ("Q", "1440 L/day"),
                ("q_run", "1 L/min"),
                ("V_1", "240 L"),
                ("t_1", "30 min"),
                ("days", "350"),
            ],
            rows: &[("metals", "Au", &[("m", "2 g/day"), ("p_M", "30000")])],
            answers: &[
                ("w_d[Au]", "60"),
                ("w_y[Au]", "21000"),
                ("w_D", "60"),
                ("w_Y", "21000"),
                ("q_peak", "9 L/min"),
                ("Q_p", "1680 L/day"),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: 100 L of 30 and 200 L of −5 meq/L are 6.6667 meq/L; PHREEQC 3.8.6, phreeqc.dat: that much HCl is pH 2.21045",
            inputs: &[("Q", "300 L/day"), ("weak", NOTHING_WEAK)],
            rows: &[
                (
                    "streams",
                    "Acid rinse",
                    &[("class", "acid"), ("Q_s", "100 L/day"), ("e_s", "30 meq/L"), ("belongs", routes::DILUTE)],
                ),
                (
                    "streams",
                    "Alkaline rinse",
                    &[("class", "alkaline"), ("Q_s", "200 L/day"), ("e_s", "-5 meq/L"), ("belongs", routes::DILUTE)],
                ),
            ],
            answers: &[("e_m", "6.666667 meq/L"), ("pH_m", "2.21045")],
            within: 2e-3,
        },
    ],
    work: sum::work,
};
