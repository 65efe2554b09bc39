//! How liquids get to a bath: poured, by a dip tube, from a cabinet with a pump, or by a bulk line.
//!
//! - this file: the declaration;
//! - [`rule`]: which way suits a liquid, and why: common practice, no source;
//! - [`sum`]: the sum, liquid by liquid.

mod rule;
mod sum;
#[cfg(test)]
mod tests;

use super::make_up::meets::{self, HAZARDS};
use super::{CLASSES, UNKNOWN};
use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Subject, Table, When, choice, input, output, verdict,
};
use crate::units::{DAYS, KG, KG_PER_L, L, L_PER_DAY, M, ML_PER_DAY, NUMBER, PERCENT};
use rule::{A_DAY, AT_ONCE, BULK, CABINET, CHANGES, DIP, FAR, HAZARD, NO_LIQUID, NOTHING, POUR, SIMPLEST};

const LIQUIDS: &str = "liquids";
const WAYS: &str = "ways";

const BY_NAME: &str = "as its name says";
const AS_SUITS: &str = "as suits it";
const SHARED: &str = "the cabinet of this bath";
const ALONE: &str = "a cabinet of its own";

/// How a liquid is handled: by its name, or one of the words of the make-up.
const HANDLED: &[(&str, f64)] = &{
    let mut words = [(BY_NAME, 0.0); HAZARDS.len() + 1];
    let mut k = 0;
    while k < HAZARDS.len() {
        words[k + 1] = (HAZARDS[k], 0.0);
        k += 1;
    }
    words
};

/// Usual sizes of containers, in litres.
const SIZES: [f64; 8] = [1.0, 2.5, 5.0, 10.0, 20.0, 60.0, 208.0, 1000.0];

const RULE: &str = "The rule";

const fn limit(
    symbol: &'static str,
    label: &'static str,
    unit: &'static crate::units::Unit,
    usual: f64,
) -> Input {
    input(symbol, label, unit, [0.0, 10_000.0], [usual / 10.0, usual * 10.0]).usually(usual).group(RULE)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "supply",
    title: "Supply",
    question: "How should each liquid come to the bath, and how often is its container changed?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        choice("class", "Class of the bath", NUMBER, CLASSES)
            .starts_at(UNKNOWN)
            .group("Bath")
            .follows(&[("make-up", "class")])
            .help("What it is by hazard. What must not meet it is refused."),
        input("l", "Distance to the containers", M, [0.0, 2000.0], [0.5, 100.0])
            .needed()
            .group("Bath")
            .help("Along the way of a line, from where containers can stand to the bath."),
        input("z", "Rise from the containers", M, [-100.0, 100.0], [-10.0, 15.0])
            .needed()
            .group("Bath")
            .help("Bath above the lowest level in a container; a floor below is 4 to 6 m, negative from above."),
        input("t_m", "Days of service between make-ups", DAYS, [0.1, 10_000.0], [5.0, 1000.0])
            .optional()
            .group("Bath")
            .follows(&[("ageing", "t_full")])
            .if_known()
            .help("Left out, a make-up counts as poured in at one time, and not in the volume a day."),
        input("t_k", "Days of service between corrections", DAYS, [0.01, 10_000.0], [1.0, 1000.0])
            .optional()
            .group("Bath")
            .help("Left out, a correction counts at one time only."),
        input("q_w", "Water that evaporates", L_PER_DAY, [-1e6, 1e6], [0.0, 2000.0]).usually(0.0)
            .group("Bath")
            .follows(&[("evaporation", "q_water")])
            .if_known()
            .help("It comes from the line of DI water, and never from a container."),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0]).usually(350.0)
            .group("Bath")
            .from_site(&[("site", "days")])
            .help("Working days; shutdowns are not among them."),
        limit("q_p", "Poured by hand up to, a day", L_PER_DAY, 1.0)
            .help("Common practice: small amounts of what is harmless, by trained persons."),
        limit("v_p", "Poured by hand up to, at one time", L, 5.0)
            .help("Common practice: what one person holds and pours without a splash."),
        limit("v_d", "Largest container beside the bath", L, 20.0)
            .help("For a dip tube. Common practice; the fire code may allow less."),
        limit("l_d", "A dip tube reaches", M, 5.0)
            .help("Along the tube; the sheet of the delivery line says whether its pump sucks it."),
        limit("z_d", "A dip tube lifts", M, 3.0)
            .help("Common practice for a small pump and a light liquid; a heavy one is lifted less."),
        limit("v_k", "Largest container in the cabinet", L, 208.0)
            .help("A drum is common practice; a bulk container of 1000 L where the fire code allows it."),
        limit("l_k", "A cabinet serves up to", M, 60.0)
            .help("Along its line. Common practice; farther, a house line is usual."),
        limit("t_w", "A container lasts at least", DAYS, 7.0)
            .help("Days of service. Changed once a week is common practice: each change is a chance to spill or mistake."),
        input("f_u", "Usable part of a container", PERCENT, [10.0, 100.0], [80.0, 99.0]).usually(95.0)
            .group(RULE)
            .help("What a dip tube or pump can draw."),
    ],
    tables: &[
        Table {
            id: LIQUIDS,
            label: "Liquids",
            key_label: "Liquid",
            add: Some("Add a liquid"),
            suggest: &["Sulfuric acid", "Hydrochloric acid", "Copper sulfate", "Suppressor", "Brightener", "Leveller"],
            presets: &[],
            columns: &[
                input("u", "Dosed", ML_PER_DAY, [0.0, 1e9], [0.0, 1e5])
                    .optional()
                    .follows(&[("dosing", "g")])
                    .if_known()
                    .help("A day of service, from the sheet of dosing."),
                input("v_m", "For a make-up", L, [0.0, 1e6], [0.0, 5000.0])
                    .optional()
                    .follows(&[("make-up", "v")])
                    .if_known()
                    .help("Of the liquid as it is bought."),
                input("v_c", "For a correction", L, [0.0, 1e6], [0.0, 1000.0])
                    .optional()
                    .follows(&[("correction", "v")])
                    .if_known()
                    .help("Of the liquid as it is bought."),
                input("q_o", "Used besides", L_PER_DAY, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
                    .help("On a mean working day: replenishment, bleed-and-feed, pH."),
                choice("as", "Handled as", NUMBER, HANDLED)
                    .help("Its hazard decides first. An acid whose name is not known counts as a strong one."),
                choice("store", "It stands in", NUMBER, &[(SHARED, 0.0), (ALONE, 0.0)])
                    .help("What must not meet must not share a cabinet, its containment or its exhaust."),
                choice("plan", "It is to come", NUMBER, &[(AS_SUITS, 0.0), (POUR, 0.0), (DIP, 0.0), (CABINET, 0.0), (BULK, 0.0)])
                    .help("Choose another way to see what speaks against it."),
                input("v_b", "Volume of its container", L, [0.01, 50_000.0], [0.5, 1200.0])
                    .optional()
                    .picks(&[("1 L", 1.0), ("5 L", 5.0), ("20 L", 20.0), ("60 L", 60.0), ("208 L", 208.0), ("1000 L", 1000.0)])
                    .help("What it is bought in, by its brim."),
                input("ρ", "Density", KG_PER_L, [0.6, 2.5], [0.8, 1.9])
                    .optional()
                    .follows(&[("make-up", "ρ_k")])
                    .if_known()
                    .help("For the mass of a full container."),
                input("t_o", "An opened container keeps", DAYS, [0.1, 10_000.0], [7.0, 1000.0])
                    .optional()
                    .help("Calendar days that an opened container may stand, from its label."),
            ],
            answers: &[
                verdict("way", "Suits it", &[NOTHING, POUR, DIP, CABINET, BULK]),
                verdict("why", "What decides", &[NO_LIQUID, SIMPLEST, HAZARD, AT_ONCE, A_DAY, CHANGES, FAR]),
                output("q_d", "Used a day", L_PER_DAY),
                output("v_1", "Most at one time", L),
                verdict("hz", "Handle it as", HAZARDS),
                output("t_c", "A container lasts", DAYS).needs("the size of its container, and a use"),
                output("n_c", "Changes a year", NUMBER).needs("the size of its container, and a use"),
                output("v_r", "Least usual container that lasts long enough", L)
                    .needs("a use that some usual container covers for so long"),
                output("m_c", "Mass of what a full container holds", KG).needs("its density and its container"),
            ],
        },
        Table {
            id: WAYS,
            label: "Ways",
            key_label: "Way",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                output("n_w", "Liquids that come so", NUMBER),
                output("Q_w", "Of these a day", L_PER_DAY),
                output("n_ok", "Liquids that nothing speaks against", NUMBER),
            ],
        },
    ],
    outputs: &[
        verdict("most", "Most that a liquid here asks for", &[NOTHING, POUR, DIP, CABINET, BULK]),
        output("Q_all", "All liquids a day", L_PER_DAY).beside(),
        output("n_all", "Changes of container a year", NUMBER).beside(),
        output("t_min", "The container changed most often lasts", DAYS).beside().needs("the size of a container, and a use"),
        output("Q_DI", "Water from the line a day", L_PER_DAY),
    ],
    picture: Some(Picture { across: "t_k", up: "Q_all" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "Never to the wrong bath: each container, line and coupling labelled for one liquid, couplings that fit no other, and a second person who reads the label aloud. Fire code and licensed practice decide what may stand where, and how much.",
        },
        Caution {
            when: &[When::Is("way", &[POUR])],
            text: "Poured only by trained persons, with the bath at rest: goggles, face shield, gloves and apron, eyewash and shower within reach. Cheap is no reason to pour.",
        },
        Caution {
            when: &[When::Is("way", &[DIP, CABINET, BULK])],
            text: "Pumped liquid: double containment, leak detection, exhaust, and a stop within reach; drain a line before it is opened.",
        },
        Caution {
            when: &[When::Is("hz", &[meets::STRONG_ACID, meets::NITRIC, meets::CAUSTIC])],
            text: "Strong acid and caustic: face shield, apron and gloves at each change of container, two persons; acid and caustic in cabinets of their own.",
        },
        Caution {
            when: &[When::Is("hz", &[meets::OXIDISER])],
            text: "Oxidisers gas: vented containers and lines, never between two closed valves, no organic matter near.",
        },
        Caution {
            when: &[When::Is("hz", &[meets::CYANIDE])],
            text: "Cyanide: only persons trained and licensed for it, never alone, in a locked cabinet of its own with no acid near; the site’s own first aid ready.",
        },
        Caution {
            when: &[When::Is("hz", &[meets::FLUORIDE])],
            text: "Hydrofluoric acid never without the site’s own first aid for it, and never in glass.",
        },
    ],
    sources: &[
        "Which way suits: a rule of the trade, stated with its limits above: common practice, no source. Hazard goes before volume, volume before distance.",
        "Volumes and times: arithmetic.",
        "Lifting: NIOSH Publication 94-110, 23 kg at best.",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest from memory.",
    ],
    examples: &[
        Example {
            source: "By hand: 4 L × 0.95 at 0.728374 L/day last 5.217100 days; a week takes 5.0986 L, so 10 L",
            inputs: &[("l", "3 m"), ("z", "1 m"), ("days", "350")],
            rows: &[
                (LIQUIDS, "Brightener", &[("u", "728.3740 mL/day"), ("v_b", "4 L")]),
                (LIQUIDS, "Leveller", &[("u", "120 mL/day"), ("v_m", "4 L")]),
            ],
            answers: &[
                ("t_c[Brightener]", "5.2171000 days"), ("v_r[Brightener]", "10 L"), ("way[Brightener]", POUR),
                ("why[Brightener]", SIMPLEST), ("most", POUR), ("way[Leveller]", POUR), ("n_all", "67.0870789"),
            ],
            within: 1e-6,
        },
        Example {
            source: "By hand: 40 L every 80 days and 3 L/day are 3.5 L/day; 24.5 L a week are more than 20 L × 0.95 beside the bath",
            inputs: &[("l", "3 m"), ("z", "1 m"), ("t_m", "80 days")],
            rows: &[(LIQUIDS, "Sulfuric acid", &[("v_m", "40 L"), ("q_o", "3 L/day"), ("ρ", "1.84 kg/L"), ("v_b", "60 L")])],
            answers: &[
                ("q_d[Sulfuric acid]", "3.5 L/day"), ("v_1[Sulfuric acid]", "40 L"), ("way[Sulfuric acid]", CABINET),
                ("why[Sulfuric acid]", CHANGES), ("hz[Sulfuric acid]", meets::STRONG_ACID), ("m_c[Sulfuric acid]", "110.4 kg"),
            ],
            within: 1e-9,
        },
    ],
    work: sum::work,
};
