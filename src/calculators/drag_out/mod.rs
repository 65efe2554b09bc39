//! Drag-out: what a wafer and its holder carry out of the bath, from the bath and the wafers alone.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::bath_inputs;
use crate::calculator::{
    Calculator, Caution, Example, Picture, Severity, Source, Subject, Table, When, choice, input, output,
};
use crate::science::{metals, rinse};
use crate::units::{
    CM2, G_PER_DAY_METAL, G_PER_H_METAL, GALLON_PER_1000_FT2, GRAM, KG_METAL, KG_PER_L, L_PER_DAY, L_PER_H,
    MG_METAL, ML, MM, MPAS, NUMBER, PER_DAY, PER_MINUTE, PERCENT, SECOND, UM,
};

const SPUN: &str = "film that spinning leaves";
const DRAINED: &str = "wafer that drains, by a published table";
const PART: &str = "another part that drains, by a published table";
const WEIGHED: &str = "weighed";
const ONE_FACE: &str = "one face";
const BOTH_FACES: &str = "both faces";

const IS_SPUN: When = When::Is("how", &[SPUN]);
const NOT_WEIGHED: When = When::Not("how", &[WEIGHED]);
const PATTERNED: When = When::Above("d_p", 0.0);
const CURES: &[Source] = &[("drag-out", "t_s"), ("drag-out", "n_s"), ("drag-out", "v_h")];

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "drag-out",
    title: "Drag-out",
    question: "How much of the bath does a wafer carry out, and how much metal is that a day?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        choice("how", "Drag-out is found by", NUMBER, &[(SPUN, 0.0), (DRAINED, 0.0), (PART, 0.0), (WEIGHED, 0.0)])
            .group("How")
            .help("Weighing is best: nobody has published what spun wafers really carry."),
        bath_inputs::class()
            .group("How")
            .help("What it is by hazard; cautions depend on it."),
        input("D", "Wafer diameter", MM, [10.0, 600.0], [50.0, 300.0])
            .needed()
            .group("Wafers")
            .from_site(&[("wafers", "D")])
            .help("If the plating load has another, type it here too.")
            .when(When::Is("how", &[SPUN, DRAINED])),
        input("N", "Wafers a day", PER_DAY, [0.0, 1e6], [1.0, 20_000.0])
            .optional()
            .group("Wafers")
            .from_site(&[("wafers", "N")])
            .if_known()
            .help("That this bath plates on a mean working day; of other parts, how many of them. If the plating load has another number, type it here too."),
        bath_inputs::hours()
            .group("Wafers")
            .help("A day is a working day of these hours."),
        bath_inputs::days().group("Wafers"),
        input("n_s", "Spin speed", PER_MINUTE, [1.0, 10_000.0], [100.0, 3000.0])
            .needed()
            .group("Spin over the bath")
            .help("Turns a minute of the last step before the wafer leaves the cup.")
            .when(IS_SPUN),
        input("t_s", "Spin time", SECOND, [0.1, 600.0], [1.0, 60.0])
            .needed()
            .group("Spin over the bath")
            .help("At that speed. What flies off must run back into the bath, or it is lost too.")
            .when(IS_SPUN),
        input("h_0", "Film at the start", UM, [1.0, 5000.0], [50.0, 1000.0])
            .optional()
            .group("Spin over the bath")
            .help("Left out, the most that can be left is given: after a second or two the start is forgotten.")
            .when(IS_SPUN),
        input("μ", "Viscosity of the bath", MPAS, [0.2, 1000.0], [0.8, 10.0])
            .needed()
            .group("Spin over the bath")
            .help("At its temperature, by viscometer or data sheet. Water has 1.0 mPa·s at 20 °C; salts and acid make a bath thicker.")
            .when(IS_SPUN),
        input("ρ", "Density of the bath", KG_PER_L, [0.7, 3.0], [0.95, 1.6])
            .needed()
            .group("Bath")
            .follows(&[("make-up", "ρ")])
            .if_known()
            .help("Of the bath itself: a gram of it is less than a millilitre.")
            .when(When::Is("how", &[SPUN, WEIGHED])),
        input("d_p", "Depth of the pattern", UM, [0.0, 1000.0], [1.0, 200.0])
            .optional()
            .group("What the film leaves out")
            .help("Openings in resist hold liquid that spinning does not reach. Left out, none.")
            .when(IS_SPUN),
        input("open", "Open area", PERCENT, [0.001, 100.0], [1.0, 100.0])
            .needed()
            .group("What the film leaves out")
            .from_site(&[("wafers", "open")])
            .if_known()
            .help("Share of the face inside the seal that resist leaves open.")
            .when(PATTERNED),
        input("e", "Edge exclusion", MM, [0.0, 50.0], [0.0, 10.0]).usually(3.0)
            .group("What the film leaves out")
            .from_site(&[("wafers", "e")])
            .if_known()
            .help("Width of the ring at the edge that the seal covers.")
            .when(PATTERNED),
        input("v_b", "Left on edge and back side", ML, [0.0, 1000.0], [0.0, 20.0])
            .optional()
            .group("What the film leaves out")
            .help("A bead at the edge, and a back side that was wetted: weigh it, or judge it by drops of 0.05 mL.")
            .when(IS_SPUN),
        input("v_h", "Left in holder, seal or rack", ML, [0.0, 10_000.0], [0.0, 50.0])
            .optional()
            .group("What the film leaves out")
            .help("What drips off the holder or cup in the rinse; often more than the wafer’s own.")
            .when(NOT_WEIGHED),
        choice("part", "How it drains", GALLON_PER_1000_FT2, rinse::DRAG_OUT)
            .group("Drained")
            .help("A table of a cleaner’s drag-out on parts and racks: a thicker bath carries more. Of barrels it says nothing: weigh.")
            .when(When::Is("how", &[DRAINED, PART])),
        choice("faces", "The wafer is wet on", NUMBER, &[(BOTH_FACES, 2.0), (ONE_FACE, 1.0)])
            .group("Drained")
            .help("One face only where a holder seals off the back.")
            .when(When::Is("how", &[DRAINED])),
        input("A_p", "Its wet surface", CM2, [0.01, 1e6], [10.0, 10_000.0])
            .needed()
            .group("Drained")
            .help("Of one part or rack with all that hangs on it; both faces of a sheet count.")
            .when(When::Is("how", &[PART])),
        input("m_g", "Heavier when it leaves, by", GRAM, [0.0, 1e5], [0.05, 1000.0])
            .needed()
            .group("Weighed")
            .help("All weighed together, wet with holder less dry with holder. Weigh in a closed bag: water dries off.")
            .when(When::Is("how", &[WEIGHED])),
        input("n_g", "Wafers weighed", NUMBER, [1.0, 10_000.0], [1.0, 100.0]).usually(1.0)
            .group("Weighed")
            .help("One after the other into the same bag, the more the better.")
            .when(When::Is("how", &[WEIGHED])),
        input("d_max", "Drag-out wanted, at most", ML, [0.001, 10_000.0], [0.1, 50.0])
            .optional()
            .group("Wanted")
            .help("A wafer. Where it is more, the sheet says what would do."),
    ],
    tables: &[Table {
        id: metals::TABLE,
        label: "Metals carried out",
        key_label: "Metal",
        add: Some("Add a metal"),
        suggest: metals::SYMBOLS,
        presets: &[],
        columns: &[
            input("c_M", "In the bath", crate::units::G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0])
                .needed()
                .follows(&[("make-up", "c_M")])
                .if_known()
                .help("As made up or as analysed."),
        ],
        answers: &[
            output("m_day", "Carried out a day", G_PER_DAY_METAL).needs("the number of wafers"),
            output("m_w", "By a wafer", MG_METAL),
            output("m_h", "In an hour of service", G_PER_H_METAL).needs("the number of wafers"),
            output("m_y", "In a year", KG_METAL).needs("the number of wafers"),
        ],
    }],
    outputs: &[
        output("d_w", "Drag-out a wafer", ML)
            .above(50.0, Severity::Note, "That is more than the 10 to 50 mL of a wafer that is not spun, common practice: weigh some.")
            .cured_by(CURES),
        output("D_day", "Drag-out a day", L_PER_DAY).beside().needs("the number of wafers"),
        output("D_h", "In an hour of service", L_PER_H).beside().needs("the number of wafers"),
        output("m_T", "Metal a day, all together", G_PER_DAY_METAL).beside().needs("the number of wafers, and metals"),
        output("h_f", "Film", UM).needs("a wafer or part that is not weighed"),
        output("v_f", "Of it in the film", ML).needs("a wafer or part that is not weighed"),
        output("v_p", "In the pattern", ML).needs("the depth of the pattern on a wafer that is spun"),
    ],
    picture: Some(Picture { across: "t_s", up: "d_w" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[IS_SPUN],
            text: "A wafer that breaks while it spins throws splinters and bath: lid shut and interlocked, hands out until it stands.",
        },
        Caution {
            when: &[When::Is("how", &[WEIGHED])],
            text: "What drips from wafer and holder is the bath itself: gloves, goggles and apron, a tray beneath, and never over another bath.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "Drag-out carries cyanide along: no acid in the rinse after it, nor in its drain or vent, as they give a gas that kills. Weighing is for persons trained and licensed for cyanide.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: "What a wafer carries out of this bath burns deep and may kill: hydrofluoric acid never without the site’s own first aid for it.",
        },
    ],
    sources: &[
        "Spun film: Emslie, Bonner & Peck, J. Appl. Phys. 29, 858 (1958); a flat wafer, Newtonian liquid, no evaporation, from one turn on. Checked against scipy solve_ivp. No measured wafer data were found.",
        "Below 2 µm the spun film is refused: there evaporation and the pattern rule it, common practice, no source.",
        "Parts that drain: Metal Finishing Guide Book 2012-13, p. 103, table II, Typical Cleaner Dragout.",
        "0.1 to 5 mL of a spun wafer, 10 to 50 mL of one that is not: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "scipy 1.17.1 solve_ivp (Emslie, Bonner & Peck 1958): 200 µm of water on 300 mm, 500 a minute for 5 s: 7.405837 µm, 0.5234878 mL",
            inputs: &[
                ("D", "300 mm"), ("n_s", "500 /min"), ("t_s", "5 s"), ("h_0", "200 µm"), ("μ", "1.0020 mPa·s"), ("ρ", "998.2 kg/m³"),
            ],
            rows: &[],
            answers: &[("h_f", "7.405837 µm"), ("d_w", "0.5234878 mL")],
            within: 1e-5,
        },
        Example {
            source: "scipy 1.17.1 solve_ivp of the same from 50 mm: 23.16589511 µm; by hand on 200 mm with 2 mL in the holder, 0.7277781 + 2 mL",
            inputs: &[
                ("D", "200 mm"), ("n_s", "300 /min"), ("t_s", "3 s"), ("μ", "2.5 mPa·s"), ("ρ", "1180 kg/m³"), ("v_h", "2 mL"),
            ],
            rows: &[],
            answers: &[("h_f", "23.16589511 µm"), ("d_w", "2.7277781 mL")],
            within: 1e-5,
        },
        Example {
            source: "Metal Finishing Guide Book 2012-13, p. 103, table II: 0.4 gal/1000 ft², 16.298 mL/m²; by hand, both faces of 300 mm: 2.304092 mL",
            inputs: &[("how", DRAINED), ("D", "300 mm"), ("part", "vertical, well drained"), ("N", "100 per day")],
            rows: &[],
            answers: &[("d_w", "2.304092 mL"), ("D_day", "230.4092 mL/day")],
            within: 1e-4,
        },
        Example {
            source: "By hand: 25 wafers take 75 g of 1.2 kg/L along, 2.5 mL each; 480 a day are 1.2 L, with 50 g/L 60 g; a sixteenth of that an hour in 16 h",
            inputs: &[
                ("how", WEIGHED), ("m_g", "75 g"), ("n_g", "25"), ("ρ", "1.2 kg/L"), ("N", "480 per day"), ("hours", "16 h"), ("days", "250"),
            ],
            rows: &[(metals::TABLE, "Cu", &[("c_M", "50 g/L")])],
            answers: &[
                ("d_w", "2.5 mL"), ("D_day", "1.2 L/day"), ("D_h", "75 mL/h"), ("m_w[Cu]", "125 mg of metal"), ("m_day[Cu]", "60 g/day"),
                ("m_h[Cu]", "3.75 g/h"), ("m_y[Cu]", "15 kg of metal"), ("m_T", "60 g/day"),
            ],
            within: 1e-9,
        },
    ],
    work: sum::work,
};
