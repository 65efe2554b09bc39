//! Whether a bath is heated and cooled by a coil or heater in its tank, or by a unit that it is pumped through.
//!
//! - this file: the declaration;
//! - [`sum`]: the rule: common practice, no source.

mod sum;
#[cfg(test)]
mod tests;

use super::choose::{self, AS_SUITS, SIMPLEST};
use super::{bath_inputs, heat_up};
use crate::calculator::{Calculator, Caution, Example, Subject, Table, When, choice, input, output, verdict};
use crate::units::{KELVINS, KG_PER_L, KJ_PER_KG_K, KW, L_PER_MIN, M2, NUMBER};

const WAYS: &str = "ways";

pub const IN_TANK: &str = "coil or heater in the tank";
pub const INLINE: &str = "inline unit";
/// The ways, the one with less hardware first.
const ORDER: [&str; 2] = [IN_TANK, INLINE];
pub const NEITHER: &str = "neither as it stands";

const YES: &str = "yes";
const NO: &str = "no";

const ATTACK: &str = "the liquid attacks every usual coil";
const BURNS: &str = "the liquid burns";
const ROOM: &str = "there is no room for it";
const FLOW: &str = "too little of the bath is pumped through it";
const FOULS: &str = "what fouls it cannot be wiped off";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "heating-unit",
    title: "Coil or inline unit",
    question: "Should the bath be heated and cooled in its tank, or by a unit that it is pumped through?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        bath_inputs::class().group("Liquid").help("What it is by hazard. What burns is heated outside of its tank."),
        choice("eats", "Some usual coil stands it", NUMBER, &[(YES, 0.0), (NO, 0.0)])
            .group("Liquid")
            .help("Of titanium, steel, PFA or PVDF, by the maker’s data: fluoride eats titanium, solvents swell plastics."),
        choice("fouls", "Sludge or scale settles on it", NUMBER, &[(NO, 0.0), (YES, 0.0)])
            .group("Liquid")
            .help("A coil is lifted out and wiped; a unit outside has to be flushed or taken apart."),
        choice("source", "What heats or cools it", NUMBER, &[
            (heat_up::COIL, 0.0), (heat_up::STEADY, 0.0), (heat_up::ELECTRIC, 0.0),
        ])
            .group("Heat")
            .follows(&[("heat-up", "source")])
            .help("As on the sheet of heat-up."),
        input("Q", "Heat that it carries", KW, [-10_000.0, 10_000.0], [-500.0, 500.0])
            .needed()
            .group("Heat")
            .follows(&[("coil", "Q_need"), ("heat-up", "Q_hold")])
            .if_known()
            .help("To hold the bath; negative to cool."),
        input("A", "Area of a coil that carries it", M2, [0.0, 1000.0], [0.02, 50.0])
            .optional()
            .group("Heat")
            .follows(&[("coil", "A_n"), ("coil", "A")])
            .if_known()
            .help("From the sheet of the coil. Left out, room in the tank is not judged.")
            .when(When::Is("source", &[heat_up::COIL, heat_up::STEADY])),
        input("A_f", "Room in the tank for a coil of", M2, [0.0, 1000.0], [0.02, 50.0])
            .needed()
            .group("Room")
            .help("Area of tube that hangs free of anodes, wafers, eductors and level switches, and always under the liquid.")
            .when(When::Above("A", 0.0)),
        choice("beside", "Room beside the tank for a unit", NUMBER, &[(YES, 0.0), (NO, 0.0)])
            .group("Room")
            .help("With its pump, valves, containment and somebody to service it."),
        input("q_l", "Bath that a pump sends round", L_PER_MIN, [0.0, 5000.0], [1.0, 500.0])
            .optional()
            .group("Room")
            .help("Through filter or chambers; a unit stands in that line. Left out, its flow is not judged."),
        input("ΔT_l", "Bath may change by, in the unit", KELVINS, [0.1, 50.0], [1.0, 20.0])
            .usually(5.0)
            .group("Room")
            .help("Common practice: more overheats additives on the wall."),
        input("ρ", "Density of the bath", KG_PER_L, [0.7, 2.5], [0.95, 1.6])
            .optional()
            .group("Liquid")
            .follows(&[("make-up", "ρ")])
            .if_known()
            .help("Left out, 1.18 kg/L is assumed, a usual acid copper bath."),
        input("c_p", "Heat capacity of the bath", KJ_PER_KG_K, [1.0, 5.0], [2.5, 4.25])
            .optional()
            .group("Liquid")
            .follows(&[("make-up", "c_p")])
            .if_known()
            .help("Left out, 3.45 kJ/(kg·K) is assumed, a usual acid copper bath."),
        choice("plan", "Planned is", NUMBER, &[(AS_SUITS, 0.0), (IN_TANK, 0.0), (INLINE, 0.0)])
            .group("Room")
            .help("Choose one to see what speaks against it."),
    ],
    tables: &[Table {
        id: WAYS,
        label: "Ways, and what speaks against each",
        key_label: "Way",
        add: None,
        suggest: &[],
        presets: &[],
        columns: &[],
        answers: &[
            choose::standing(),
            choose::judged("by_b", "Fire"),
            choose::judged("by_a", "Attack"),
            choose::judged("by_r", "Room"),
            choose::judged("by_q", "Flow"),
            choose::judged("by_f", "Cleaning"),
        ],
    }],
    outputs: &[
        verdict("way", "Suits it", &[IN_TANK, INLINE, NEITHER]),
        verdict("why", "What decides", &[SIMPLEST, BURNS, ATTACK, ROOM, FLOW, FOULS]).beside(),
        output("q_n", "Bath flow that a unit needs", L_PER_MIN).beside(),
        output("A_s", "Room in the tank to spare", M2).needs("the area of a coil"),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "Low-level and over-temperature cut-outs independent of the controller shut the source off.",
        },
        Caution {
            when: &[When::Is("way", &[INLINE])],
            text: "A heated unit without flow boils and bursts: a flow switch and an over-temperature cut-out of its own, a relief that cannot be shut, and containment under it, as the whole bath can run out there.",
        },
        Caution {
            when: &[When::Is("class", &["solvent"])],
            text: "Vapour of solvents burns: no electric heater in the tank, nothing hotter than the fire code allows, exhaust that is proven on before heat is.",
        },
    ],
    sources: &[
        "Which suits: a rule of the trade: common practice, no source. Fire goes before attack, attack before room, room before flow, flow before cleaning.",
        "Flow that a unit needs: heat over density, heat capacity and change of temperature.",
    ],
    examples: &[
        Example {
            source: "By hand: 3.45 kW over 1.2 kg/L × 3.45 kJ/(kg·K) × 5 K is 0.1666667 L/s; 0.9 m² of coil do not fit where 0.5 m² do",
            inputs: &[("class", "acid"), ("Q", "3.45 kW"), ("A", "0.9 m²"), ("A_f", "0.5 m²"), ("q_l", "40 L/min"), ("ρ", "1.2 kg/L"), ("c_p", "3.45 kJ/(kg·K)")],
            rows: &[],
            answers: &[("q_n", "10 L/min"), ("A_s", "-0.4 m²"), ("way", INLINE), ("why", ROOM)],
            within: 1e-9,
        },
        Example {
            source: "By hand: 0.9 m² of coil leave 0.3 m² of 1.2 m² free, and nothing speaks against the coil",
            inputs: &[("class", "acid"), ("Q", "-3.45 kW"), ("A", "0.9 m²"), ("A_f", "1.2 m²"), ("ρ", "1.2 kg/L"), ("c_p", "3.45 kJ/(kg·K)")],
            rows: &[],
            answers: &[("q_n", "10 L/min"), ("A_s", "0.3 m²"), ("way", IN_TANK), ("why", SIMPLEST)],
            within: 1e-9,
        },
    ],
    work: sum::work,
};
