//! Several runs that join a shared pipe: the fall of each, the flow after each junction, whether it cleans itself, its
//! cleanouts and its vent.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.
//!
//! The sheet of the drain follows the run that decides, and the flow of all.

mod sum;
#[cfg(test)]
mod tests;

use super::{CLASSES, UNKNOWN};
use crate::calculator::{Calculator, Caution, Example, Severity, Subject, Table, choice, input, output};
use crate::units::{INCH_PER_FOOT, L_PER_MIN, M, M_PER_S, MM, NUMBER, ROUGHNESS, SHARE};

const RUNS: &str = "runs";

/// The rules of [`PIPE_RULES`](crate::science::plumbing::PIPE_RULES), in its order.
const RULES: &[(&str, f64)] = &[
    ("each 100 ft, and above 135° in sum; vent within 2 1/2 to 10 ft", 0.0),
    ("each 50 to 150 ft, and at turns above 45°; vent within 5 to 16 ft", 1.0),
];

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "drain-runs",
    title: "Runs that join",
    question: "Which run decides the fall, what does the shared pipe carry, and where do cleanouts and vents go?",
    subject: Subject::Drain,
    quick: true,
    from_start: false,
    inputs: &[
        input("S", "Slope", INCH_PER_FOOT, [0.005, 6.0], [0.0625, 1.0]).usually(0.25)
            .group("All runs")
            .picks(&[("1/4 in/ft", 0.25), ("1/8 in/ft", 0.125), ("1 %", 0.12), ("2 %", 0.24)])
            .help("Fall per run; 1/4 in/ft is 2.083 %."),
        input("n", "Manning’s n", ROUGHNESS, [0.005, 0.05], [0.008, 0.02]).usually(0.009)
            .group("All runs")
            .help("0.009 is smooth plastic, from memory."),
        choice("rule", "Cleanouts and vents by code", NUMBER, RULES)
            .group("All runs")
            .help("Codes differ, and the local one rules."),
        input("D", "Bore of the shared pipe", MM, [5.0, 1000.0], [30.0, 300.0])
            .needed()
            .group("Shared pipe")
            .help("Inside, from the first junction to the end. Where the bore grows, the bottoms of both pipes are in line or the wider one lies lower."),
        input("m_90", "Turns of 90° in it", NUMBER, [0.0, 100.0], [0.0, 10.0]).usually(0.0)
            .group("Shared pipe")
            .help("For its cleanouts, as those of the runs."),
        input("m_45", "Turns of 45° in it", NUMBER, [0.0, 100.0], [0.0, 10.0]).usually(0.0)
            .group("Shared pipe")
            .help("For its cleanouts."),
    ],
    tables: &[Table {
        id: RUNS,
        label: "Runs",
        key_label: "Run",
        add: Some("Add a run"),
        suggest: &[],
        presets: &[],
        columns: &[
            choice("class", "Class", NUMBER, CLASSES)
                .starts_at(UNKNOWN)
                .help("Of what runs in it, by hazard: what must not meet is refused."),
            input("l_b", "Run to the junction", M, [0.0, 5000.0], [0.5, 200.0])
                .needed()
                .help("Its own pipe, along the way, bends included."),
            input("x", "Shared run from there", M, [0.0, 5000.0], [0.0, 200.0])
                .needed()
                .help("From its junction to where the shared pipe ends; 0 if it joins at the end."),
            input("h", "Fall available", MM, [-20_000.0, 50_000.0], [0.0, 5000.0])
                .needed()
                .help("Height of its outlet above the end of the shared pipe."),
            input("o", "Trap and vertical offsets", MM, [0.0, 20_000.0], [0.0, 2000.0]).usually(0.0)
                .help("Drops that take height and give no slope."),
            input("q", "Peak flow", L_PER_MIN, [0.0, 1e6], [0.5, 1000.0])
                .needed()
                .help("All that this run may bring at one time."),
            input("D_b", "Bore", MM, [5.0, 1000.0], [30.0, 300.0])
                .needed()
                .help("Inside, of its own pipe."),
            input("n_90", "Turns of 90°", NUMBER, [0.0, 100.0], [0.0, 10.0]).usually(0.0)
                .help("Long sweeps, or two of 45° with a straight between; never a sharp elbow lying flat, common practice."),
            input("n_45", "Turns of 45°", NUMBER, [0.0, 100.0], [0.0, 10.0]).usually(0.0)
                .help("Each junction by a branch of 45° in the direction of flow counts too."),
            input("l_v", "Trap to its vent", M, [0.0, 100.0], [0.1, 5.0])
                .optional()
                .help("Along the pipe; left out, nothing is said of it."),
        ],
        answers: &[
            output("spare", "Fall to spare", MM)
                .below(0.0, Severity::Note, "It does not run off by gravity: the sheet of the drain says what to do.")
                .cured_by(&[("drain-runs", "l_b"), ("drain-runs", "x"), ("drain-runs", "h"), ("drain-runs", "S")]),
            output("L", "Whole run", M),
            output("need", "Fall that it uses", MM),
            output("z_j", "Height at its junction, above the end", MM),
            output("v_b", "Velocity in it at its peak", M_PER_S)
                .needs("a flow that its pipe carries")
                .below(0.6, Severity::Note, "Below that, 2 ft/s in plumbing texts, solids settle: it wants a smaller bore, more slope, or rinsing through its cleanout.")
                .cured_by(&[("drain-runs", "S"), ("drain-runs", "D_b"), ("drain-runs", "q")]),
            output("q_j", "Shared flow from there on", L_PER_MIN),
            output("y_j", "Depth there, share of the bore", SHARE)
                .needs("a flow that the shared pipe carries")
                .above(0.8, Severity::Caution, "So full a pipe runs in waves that fill it. Take a larger bore or more slope.")
                .cured_by(&[("drain-runs", "D"), ("drain-runs", "S")]),
            output("v_j", "Velocity there", M_PER_S).needs("a flow that the shared pipe carries"),
            output("k", "Cleanouts that it needs", NUMBER),
            output("l_vm", "Furthest that its vent may be", M),
            output("D_v", "Least bore of its vent", MM),
        ],
    }],
    outputs: &[
        output("least", "Least fall to spare", MM),
        output("l_d", "Run that decides", M).beside(),
        output("q_T", "Flow of all together", L_PER_MIN).beside(),
        output("k_T", "Cleanouts in all", NUMBER).beside(),
        output("k_s", "Of these in the shared pipe", NUMBER),
        output("h_d", "Fall available to the run that decides", MM),
        output("o_d", "Taken by its trap and offsets", MM),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "The local plumbing code and a licensed plumber decide on traps, vents and cleanouts. What opens at a cleanout is acid, or worse: flushed, drained, goggles and gloves first.",
        },
    ],
    sources: &[
        "Fall: geometry. Flow and depth: Manning with the exact circular segment; checked against fluids 1.3.1.",
        "First rule: Uniform Plumbing Code 2012, 707.4, and Table 1002.2. Second: Municipal Code of Chicago, 18-29-708.3.1 and 708.3.3; International Plumbing Code, Table 909.1, from memory.",
        "A vent of half the bore and 32 mm at least, a fall to the vent of no more than the bore: both model codes, from memory.",
        "0.6 m/s: 2 ft/s in plumbing texts. Peaks of all runs at one time, depth of 0.8, no sharp turns: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "By hand: 10 and 4 m at 1 in 48; flows add up; Manning by fluids 1.3.1: 60 L/min in 50 mm at 0.552257, 20 at 0.300556",
            inputs: &[("D", "50 mm")],
            rows: &[
                (RUNS, "Copper rinse", &[
                    ("class", "acid"), ("l_b", "6 m"), ("x", "4 m"), ("h", "300 mm"), ("q", "20 L/min"), ("D_b", "50 mm"), ("n_90", "3"),
                ]),
                (RUNS, "Nickel rinse", &[
                    ("class", "acid"), ("l_b", "2 m"), ("x", "2 m"), ("h", "250 mm"), ("o", "100 mm"), ("q", "40 L/min"), ("D_b", "50 mm"),
                ]),
            ],
            answers: &[
                ("need[Copper rinse]", "208.3333 mm"), ("spare[Copper rinse]", "91.66667 mm"), ("spare[Nickel rinse]", "66.66667 mm"),
                ("z_j[Copper rinse]", "175 mm"), ("q_j[Copper rinse]", "20 L/min"), ("q_j[Nickel rinse]", "60 L/min"),
                ("y_j[Nickel rinse]", "0.552257"), ("y_j[Copper rinse]", "0.300556"), ("least", "66.66667 mm"), ("l_d", "4 m"),
                ("q_T", "60 L/min"), ("k[Copper rinse]", "2"), ("l_vm[Copper rinse]", "5 ft"), ("D_v[Copper rinse]", "32 mm"),
            ],
            within: 2e-6,
        },
    ],
    work: sum::work,
};
