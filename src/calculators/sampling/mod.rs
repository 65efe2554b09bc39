//! What is sampled of a bath, how often, and how that is done safely: a checklist to tick.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum and the work order.

mod sum;
#[cfg(test)]
mod tests;

use super::{bath_inputs, cautions};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Severity, Subject, Table, When, WorkOrder, choice, input, note,
    output, verdict,
};
use crate::units::{CELSIUS, DAYS, L_PER_DAY, ML, NUMBER, PER_DAY, PERCENT};

const TABLE: &str = "samples";

const CLOSED: &str = "closed port in the circulation";
const DIPPED: &str = "dipped out of the open tank";

const WASTED: &str = "is caught as waste";
const GOES_BACK: &str = "goes back into the bath";

const PLASTIC: &str = "plastic, never glass";
const EITHER: &str = "plastic or glass, as the method asks";
const VENTED: &str = "vented, never closed tight";
const APART: &str = "marked cyanide, kept apart from all acid";
const EARTHED: &str = "closed, away from any spark, metal ones earthed";

/// Above this a sample cools before it is carried. Common practice, no source.
const CARRIED: f64 = 40.0;

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "sampling",
    title: "Sampling checklist",
    question: "What is sampled of this bath, how often, and how is it done safely?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        bath_inputs::class()
            .group("Bath")
            .help("What it is by hazard: it decides bottle, protection and who may do it."),
        bath_inputs::volume().optional().if_known().group("Bath").help("To see what samples take of it."),
        input("T", "Bath temperature", CELSIUS, [0.0, 100.0], [10.0, 80.0])
            .needed()
            .group("Bath")
            .follows(&[("evaporation", "T"), ("heat-up", "T")])
            .if_known()
            .help("What is hotter than 40 °C cools down before it is carried."),
        choice("port", "Samples are taken at", NUMBER, &[(CLOSED, 0.0), (DIPPED, 0.0)])
            .group("Port")
            .help("Behind pump and filter, where the bath is mixed; never from a dead leg."),
        input("v_0", "Held by the port and its line", ML, [0.0, 100_000.0], [1.0, 1000.0])
            .needed()
            .group("Port")
            .help("From the circulation to the outlet; for 6 mm bore 28 mL a metre.")
            .when(When::Is("port", &[CLOSED])),
        input("k_f", "Flushed how many times", NUMBER, [1.0, 20.0], [2.0, 5.0])
            .usually(3.0)
            .group("Port")
            .help("Three volumes are common practice.")
            .when(When::Is("port", &[CLOSED])),
        choice("flush", "What flushes it", NUMBER, &[(WASTED, 0.0), (GOES_BACK, 0.0)])
            .group("Port")
            .help("A port in a loop sends it back; else it is caught, and goes to the route of the bath.")
            .when(When::Is("port", &[CLOSED])),
    ],
    tables: &[Table {
        id: TABLE,
        label: "Samples",
        key_label: "For",
        add: Some("Add a sample"),
        suggest: &["Cu", "Ni", "H2SO4", "Cl", "pH", "Brightener", "Suppressor", "Particles"],
        presets: &[],
        columns: &[
            input("t_k", "Every", DAYS, [0.001, 10_000.0], [0.04, 90.0])
                .needed()
                .follows(&[("analysis-level", "t_k")])
                .if_known()
                .help("Days of service. From its drift, as the level of analysis has it; not from habit."),
            input("v_n", "Needed for it", ML, [0.01, 10_000.0], [1.0, 500.0])
                .usually(20.0)
                .help("As its method asks, with one repeat."),
            input("taken", "Taken", ML, [0.0, 100_000.0], [0.0, 1000.0])
                .optional()
                .help("To be typed in at the bath."),
            note("bottle_n", "Number of the bottle").help("From its label."),
            note("initials", "Taken by").help("Initials of who took it."),
            note("checked", "Checked by")
                .help("Initials of a second person, who read bath and bottle aloud."),
        ],
        answers: &[output("n_k", "Samples", PER_DAY), output("n_y", "In 30 days of service", NUMBER)],
    }],
    outputs: &[
        output("t_n", "A sample is due every", DAYS),
        verdict("bottle", "Bottle", &[EITHER, PLASTIC, VENTED, APART, EARTHED]).beside(),
        output("v_f", "Flush before it", ML).beside(),
        output("Q_s", "Leaves the bath", L_PER_DAY).beside(),
        output("x_s", "Of the bath a day", PERCENT)
            .needs("the volume of the bath")
            .above(
                1.0,
                Severity::Note,
                "So much has to be made up again: flush back into the bath, or take less.",
            )
            .cured_by(&[("sampling", "v_0"), ("sampling", "k_f")]),
    ],
    picture: Some(Picture { across: "v_0", up: "Q_s" }),
    work_order: Some(WorkOrder {
        table: TABLE,
        added: "taken",
        signed: &["bottle_n", "initials", "checked"],
        done_by: "Sampled by",
    }),
    recipes: &[],
    cautions: &[
        Caution { when: &[], text: cautions::SAMPLE_TEXT },
        Caution {
            when: &[When::Is("class", &["acid", "oxidiser", "unknown"])],
            text: "Acid on skin or in the eyes: water at once, and long; never alone with strong acid. Oxidisers gas: their bottle is vented, and no organic matter is near.",
        },
        Caution { when: &[When::Is("class", &["cyanide"])], text: cautions::CYANIDE_SAMPLE_TEXT },
        Caution { when: &[When::Is("class", &["fluoride"])], text: cautions::FLUORIDE_TEXT },
        Caution {
            when: &[When::Is("class", &["solvent"])],
            text: "Vapour burns: exhaust on, no spark, a metal bottle earthed before it is filled.",
        },
        Caution {
            when: &[When::Above("T", CARRIED)],
            text: "Hot liquid scalds and sprays: open the port slowly, face shield and heat-proof gloves, never pipette or carry it hot.",
        },
    ],
    sources: &[
        "How often: as the level of analysis has it. Flush of three volumes, cooling below 40 °C, second vessel, two persons: common practice, no source.",
        "Protection and eyewash: 29 CFR 1910.132, 1910.133, 1910.138 and 1910.151(c); sampling of liquids in general: ASTM E300. Named from memory; the site’s rules decide.",
        "Glass and fluoride, cyanide and acid: EPA-600/2-80-076, compatibility chart; from memory.",
    ],
    examples: &[Example {
        source: "By hand: 20 mL every 0.5 days and 50 mL every 2 days are 65 mL/day; 3 × 30 mL of flush twice a day are 180; 245 mL of 49 L are 0.5 %",
        inputs: &[("class", "acid"), ("V", "49 L"), ("T", "25 °C"), ("v_0", "30 mL")],
        rows: &[
            (TABLE, "Brightener", &[("t_k", "0.5 days")]),
            (TABLE, "Cu", &[("t_k", "2 days"), ("v_n", "50 mL")]),
        ],
        answers: &[
            ("t_n", "0.5 days"),
            ("v_f", "90 mL"),
            ("Q_s", "0.245 L/day"),
            ("x_s", "0.5 %"),
            ("bottle", EITHER),
            ("n_k[Brightener]", "2 per day"),
            ("n_y[Cu]", "15"),
        ],
        within: 1e-9,
    }],
    work: sum::work,
};
