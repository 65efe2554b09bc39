//! Where each unit stands: beside the line, on a floor below, or above.
//!
//! - this file: the declaration;
//! - [`sum`]: the rule: common practice, no source.

mod sum;
#[cfg(test)]
mod tests;

use super::choose::FINE as NOTHING;
use super::heating_unit::{IN_TANK, INLINE, NEITHER};
use crate::calculator::{
    Calculator, Caution, Example, Output, Subject, Table, When, choice, input, output, verdict,
};
use crate::units::{KG, KG_PER_L, M, MM, NUMBER};

const DRAINS: &str = "drains";
const UNITS: &str = "units";

pub const SUPPLY: &str = "Supply cabinet";
pub const TREATMENT: &str = "Treatment";
pub const LIFT: &str = "Lift station";
pub const COLLECTION: &str = "Collection";
pub const HEAT: &str = "Heat unit";

pub const BESIDE: &str = "beside";
pub const BEHIND: &str = "beside, behind a lift station";
pub const BELOW: &str = "below";
pub const ABOVE: &str = "above";
pub const NONE: &str = "none needed";
const NOWHERE: &str = "nowhere as it stands";
const NOT_KNOWN: &str = "not known yet";

const SHORTEST: &str = "the shortest line, on the same floor";
const FALLS: &str = "waste falls into it by itself";
const NO_FLOOR: &str = "there is no floor below";
const NO_ROOM: &str = "there is no room beside the line";
const NO_TOP: &str = "there is no room above";
const PUMP: &str = "its pumps do not lift so high";
const NO_WAY: &str = "full containers cannot be brought out from there";
const RUNS: &str = "the bath would run down into it when its pump stops";
const LEAK: &str = "what leaks would fall on the line";
const UPHILL: &str = "waste does not run uphill";
const SHORT: &str = "a drain does not fall far enough";
const ENOUGH: &str = "every drain falls far enough";
const NO_DRAIN: &str = "the fall of no drain is known yet";

const TO_TREATMENT: &str = "treatment or the house drain";
const TO_COLLECTION: &str = "collection";
const BY_GRAVITY: &str = "by gravity";
const BY_LIFT: &str = "through a lift station, or to a floor below";

const FLOOR: &str = "one for units";
const NO_FLOOR_THERE: &str = "none";
const YES: &str = "yes";
const NO: &str = "no";
const FOR_ALL: &str = "for all units";
const FOR_SUPPLY: &str = "for supply and heat alone";
const FOR_NONE: &str = "for none";

const fn against(symbol: &'static str, label: &'static str) -> Output {
    verdict(symbol, label, &[NOTHING, NO_FLOOR, NO_ROOM, NO_TOP, PUMP, NO_WAY, RUNS, LEAK, UPHILL])
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "placement",
    title: "Above, below or beside",
    question: "Where does each unit stand: beside the line, on a floor below, or above?",
    subject: Subject::Site,
    quick: true,
    from_start: false,
    inputs: &[
        choice("floor", "Floor below the line", NUMBER, &[(NO_FLOOR_THERE, 0.0), (FLOOR, 0.0)])
            .group("Building")
            .help("One that may hold chemicals, by fire code and load."),
        input("z", "The floor below lies lower by", M, [0.5, 100.0], [3.0, 12.0])
            .needed()
            .group("Building")
            .help("From its floor to the tanks: 4 to 6 m is usual.")
            .when(When::Is("floor", &[FLOOR])),
        choice("way", "Full containers can be brought out from there", NUMBER, &[(YES, 0.0), (NO, 0.0)])
            .group("Building")
            .help("By a goods lift or a dock, with a truck.")
            .when(When::Is("floor", &[FLOOR])),
        choice("room", "Room beside the line", NUMBER, &[(FOR_ALL, 0.0), (FOR_SUPPLY, 0.0), (FOR_NONE, 0.0)])
            .group("Building")
            .help("With service clearance, containment and a way for containers."),
        choice("top", "Room above the line", NUMBER, &[(NO, 0.0), (YES, 0.0)])
            .group("Building")
            .help("A mezzanine or a floor that carries it. Never for what burns skin."),
        choice(
            "heat",
            "Baths are heated and cooled by",
            NUMBER,
            &[(IN_TANK, 0.0), (INLINE, 0.0), (NEITHER, 0.0)],
        )
        .group("Units")
        .largest(&[("heating-unit", "way")])
        .if_known()
        .help("A unit that the bath runs through stands at its level; one of a water loop need not."),
        input("ρ", "Heaviest liquid of the supply", KG_PER_L, [0.6, 2.5], [0.9, 1.9])
            .usually(1.84)
            .group("Units")
            .largest(&[("delivery-line", "ρ")])
            .if_known()
            .help("Left out, that of concentrated sulfuric acid."),
        input("h_p", "Pumps of the supply lift, as water", M, [0.0, 200.0], [3.0, 60.0])
            .usually(20.0)
            .group("Units")
            .help("Common practice of pumps driven by air; a heavy liquid is lifted less."),
        input("m", "Heaviest full container", KG, [0.0, 1e5], [1.0, 2000.0])
            .optional()
            .group("Units")
            .largest(&[("collection", "m_f")])
            .if_known()
            .help("Left out, it counts as too heavy to be carried."),
    ],
    tables: &[
        Table {
            id: DRAINS,
            label: "Drains",
            key_label: "Drain",
            add: Some("Add a drain"),
            suggest: &["Dilute drain", "Concentrate drain"],
            presets: &[],
            columns: &[
                input("h", "Fall to spare", MM, [-1e5, 1e5], [-5000.0, 5000.0])
                    .needed()
                    .each(&[("drain", "spare")])
                    .if_known()
                    .help("Negative where it is short: from the sheet of the drain, on the same floor."),
                choice("to", "The drain runs to", NUMBER, &[(TO_TREATMENT, 0.0), (TO_COLLECTION, 0.0)])
                    .help("Where its route ends."),
            ],
            answers: &[verdict("runs", "The drain runs", &[BY_GRAVITY, BY_LIFT])],
        },
        Table {
            id: UNITS,
            label: "Units, and what speaks against each place",
            key_label: "Unit",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                verdict("where", "It stands", &[BESIDE, BEHIND, BELOW, ABOVE, NONE, NOWHERE, NOT_KNOWN]),
                verdict(
                    "why",
                    "What decides",
                    &[
                        SHORTEST, FALLS, NO_FLOOR, NO_ROOM, NO_TOP, PUMP, NO_WAY, RUNS, LEAK, UPHILL, SHORT,
                        ENOUGH, NO_DRAIN,
                    ],
                ),
                against("by_s", "Beside"),
                against("by_b", "Below"),
                against("by_a", "Above"),
            ],
        },
    ],
    outputs: &[
        output("n_s", "Units beside the line", NUMBER),
        output("n_b", "Units below", NUMBER).beside(),
        output("n_a", "Units above", NUMBER).beside(),
        output("n_d", "Drains that do not fall far enough", NUMBER).beside(),
        output("h_z", "Lift from the floor below, as water", M).needs("a floor below"),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "Containment, leak detection and exhaust under and over each unit; ways out, eyewash and shower within reach of each. Fire and building codes say what may stand on which floor, and how much.",
        },
        Caution {
            when: &[When::Is("floor", &[FLOOR])],
            text: "On a floor below, a leak from above falls on people, and gas heavier than air gathers: containment over it, gas alarm, exhaust, and nobody works there alone.",
        },
        Caution {
            when: &[When::Is("where", &[BEHIND])],
            text: "A lift station is sealed, vented to its own exhaust, and of one route only; its high level stops the line.",
        },
    ],
    sources: &[
        "Where each unit stands: a rule of the trade: common practice, no source. Waste goes where it falls by itself, supply and heat where their lines are shortest, and nothing that burns skin above people.",
        "What one person lifts: NIOSH Publication 94-110, 23 kg at best.",
        "Lift as metres of water: height times density over that of water.",
    ],
    examples: &[
        Example {
            source: "By hand: on one floor a drain 283 mm short takes a lift station; the other has 20 mm to spare",
            inputs: &[],
            rows: &[
                (DRAINS, "Dilute drain", &[("h", "-283 mm")]),
                (DRAINS, "Concentrate drain", &[("h", "20 mm"), ("to", TO_COLLECTION)]),
            ],
            answers: &[
                ("n_s", "5"),
                ("n_b", "0"),
                ("n_d", "1"),
                ("where[Treatment]", BEHIND),
                ("where[Collection]", BESIDE),
                ("runs[Dilute drain]", BY_LIFT),
            ],
            within: 1e-12,
        },
        Example {
            source: "By hand: 5 m of 1.5 kg/L are 7.5 m of water; waste falls to the floor below, supply and heat stay beside",
            inputs: &[("floor", FLOOR), ("z", "5 m"), ("ρ", "1.5 kg/L"), ("m", "200 kg")],
            rows: &[(DRAINS, "Dilute drain", &[("h", "-283 mm")])],
            answers: &[
                ("h_z", "7.5 m"),
                ("n_s", "2"),
                ("n_b", "2"),
                ("where[Lift station]", NONE),
                ("why[Lift station]", FALLS),
                ("where[Collection]", BELOW),
            ],
            within: 1e-12,
        },
    ],
    work: sum::work,
};
