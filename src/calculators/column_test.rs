//! A test in a small column: the capacity, the depth that is not used, and the rate constant of this water
//! and this resin.

use crate::calculator::Severity::{Caution as Look, Note};
use crate::calculator::{Calculator, Example, Refuse, Stop, Subject, Table, Work, input, note, output};
use crate::quantity::Q;
use crate::science::column_test::{Test, break_of_depth, unused_depth};
use crate::science::ion_exchange::{contact_time, equivalents, metal_charge, metal_molar_mass};
use crate::science::metals;
use crate::units::{
    CM, EQ_PER_L, L_PER_EQ_H, MEQ_PER_L, MG_PER_L_METAL, MINUTE, ML, ML_PER_MIN, NUMBER, PERCENT,
};

/// The table of readings.
const TABLE: &str = "readings";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "column-test",
    title: "Column test",
    question: "What do the readings of a small column say of this resin and this water?",
    subject: Subject::Route,
    quick: true,
    from_start: false,
    inputs: &[
        note("metal", "Metal")
            .help("By its symbol: the one that is read at the outlet, and that loads the resin."),
        input("z", "Charge of its ion", NUMBER, [1.0, 4.0], [1.0, 3.0])
            .optional()
            .help("Left out, as in acid water: copper 2, silver 1."),
        input("c_0", "Metal that runs in", MG_PER_L_METAL, [1e-3, 1e5], [1.0, 1000.0])
            .needed()
            .help("The same for the whole test."),
        input("q", "Flow through the test column", ML_PER_MIN, [1e-4, 1e6], [0.1, 1000.0])
            .needed()
            .help("Through the test column; at the velocity of the full bed if depths are to be compared."),
        input("V_b", "Resin in the test column", ML, [1e-3, 1e7], [1.0, 10_000.0])
            .needed()
            .help("Settled resin in the test column."),
        input("ε", "Void between the beads", PERCENT, [10.0, 90.0], [33.0, 45.0])
            .usually(38.0)
            .help("Of the settled bed."),
        input("c_b", "Outlet that counts as the break", MG_PER_L_METAL, [1e-4, 1e5], [0.05, 50.0])
            .usually(1.0)
            .help("The outlet at which the bed would be changed; 1 mg/L is common practice, no source."),
        input("H", "Depth of the test bed", CM, [0.1, 1e4], [5.0, 200.0])
            .optional()
            .help("For the depth that is not used."),
        input("H_2", "Depth of the full bed", CM, [0.1, 1e4], [60.0, 400.0])
            .optional()
            .help("Run at the same velocity."),
    ],
    tables: &[Table {
        id: TABLE,
        label: "Readings of the outlet",
        key_label: "Reading",
        add: Some("Add a reading"),
        suggest: &["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"],
        presets: &[],
        columns: &[
            input("t", "Time since the start", MINUTE, [0.0, 1e7], [0.0, 1e5])
                .needed()
                .help("From the first drop in."),
            input("c", "Metal at the outlet", MG_PER_L_METAL, [0.0, 1e5], [0.0, 1000.0])
                .needed()
                .help("Read until it is near what runs in."),
        ],
        answers: &[output("x", "Outlet, of what runs in", PERCENT)],
    }],
    outputs: &[
        output("k", "Rate constant", L_PER_EQ_H),
        output("N", "Held when full", EQ_PER_L).beside(),
        output("u_b", "Share used at the break", PERCENT).beside(),
        output("t_b", "Break after", MINUTE),
        output("t_t", "Time that stands for all of it", MINUTE),
        output("r", "Share of the scatter that the curve explains", PERCENT).below(
            90.0,
            Note,
            "The readings lie off the curve: take the rate constant as rough.",
        ),
        output("x_m", "Last reading, of what runs in", PERCENT)
            .below(90.0, Look, "The bed was not full at the end: what it holds is more than this.")
            .cured_by(&[("column-test", "c_0")]),
        output("H_u", "Depth that is not used at the break", CM).needs("the depth of the test bed"),
        output("t_2", "Break of the full bed after", MINUTE).needs("the depths of both beds"),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[],
    sources: &[
        "Integral of the curve and depth that is not used: Geankoplis, Transport Processes and Separation Process Principles.",
        "Rate constant: least squares of the logistic curve, Thomas (1944).",
    ],
    examples: &[
        Example {
            source: "Breakthrough table of copper on strong acid resin, after a problem of Geankoplis; numpy trapezoid: 650.2583 s, break at 1 % after 452.7273 s, 9.272758 cm unused; of 100 cm by hand",
            inputs: &[
                ("metal", "Cu"),
                ("c_0", "18.0 mg/L"),
                ("q", "82.2 mL/min"),
                ("V_b", "160.7 mL"),
                ("c_b", "0.18 mg/L"),
                ("H", "30.5 cm"),
            ],
            rows: &[
                (TABLE, "1", &[("t", "420 s"), ("c", "0")]),
                (TABLE, "2", &[("t", "480 s"), ("c", "0.33")]),
                (TABLE, "3", &[("t", "510 s"), ("c", "0.75")]),
                (TABLE, "4", &[("t", "540 s"), ("c", "1.57")]),
                (TABLE, "5", &[("t", "600 s"), ("c", "5.27")]),
                (TABLE, "6", &[("t", "660 s"), ("c", "10.63")]),
                (TABLE, "7", &[("t", "720 s"), ("c", "14.33")]),
                (TABLE, "8", &[("t", "780 s"), ("c", "16.34")]),
                (TABLE, "9", &[("t", "810 s"), ("c", "17.22")]),
                (TABLE, "10", &[("t", "870 s"), ("c", "17.63")]),
                (TABLE, "11", &[("t", "900 s"), ("c", "18.0")]),
            ],
            answers: &[
                ("t_t", "650.2583 s"),
                ("t_b", "452.7273 s"),
                ("u_b", "69.59751 %"),
                ("H_u", "9.272758 cm"),
            ],
            within: 1e-4,
        },
        Example {
            source: "By hand: readings of 1/(1 + exp(0.8·(20 − t/h))) with 31.773 mg/L of copper: 0.8 per h over 1 meq/L",
            inputs: &[("metal", "Cu"), ("c_0", "31.7730 mg/L"), ("q", "10 mL/min"), ("V_b", "100 mL")],
            rows: &[
                (TABLE, "a", &[("t", "17 h"), ("c", "2.6426461 mg/L")]),
                (TABLE, "b", &[("t", "20 h"), ("c", "15.8865 mg/L")]),
                (TABLE, "c", &[("t", "23 h"), ("c", "29.130354 mg/L")]),
            ],
            answers: &[("k", "800 L/(eq·h)"), ("r", "100 %")],
            within: 1e-5,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let symbol = metals::symbol_of(&w.text(&top, "metal")?);
    if symbol.is_empty() {
        return Err(Stop::todo("metal", "“Metal” is still to be typed", "Type its symbol, as Cu."));
    }
    let z = w.optional(&top, "z")?.or_else(|| metal_charge(&symbol));
    let z = z.ok_or_else(|| Stop::todo("z", "the charge of this ion is not known here", "Type it."))?;
    let [inlet, flow, bed, void, at] = w.inputs(["c_0", "q", "V_b", "ε", "c_b"])?;
    let mut readings = Vec::new();
    for row in w.rows(TABLE)? {
        let [t, c] = w.of(&row, ["t", "c"])?;
        w.give(&row, "x", c / inlet)?;
        readings.push((t, c));
    }
    let test = Test::new(inlet, readings).or_stop("c_0")?;
    let total = w.answer("t_t", test.total())?;
    w.answer("x_m", test.ends_at())?;
    let breaks = w.answer("t_b", test.reaches(at).or_stop("c_b")?)?;
    let until = w.step("t_u", "Of that time, used at the break", MINUTE, test.until(breaks))?;
    w.answer("u_b", until / total)?;

    let m = metal_molar_mass(&symbol).or_stop("metal")?;
    let inlet =
        w.step("C_0", "Runs in, in equivalents", MEQ_PER_L, equivalents(inlet, z, m).or_stop("z")?)?;
    let contact =
        w.step("τ", "Contact time of the empty bed", MINUTE, contact_time(bed, flow).or_stop("q")?)?;
    let held = inlet * (total / contact - void);
    if held.si <= 0.0 {
        let reason = "the outlet rises as soon as the water between the beads has run out: nothing is held";
        return Err(Stop::at("V_b", reason, "Check flow, bed and readings."));
    }
    w.answer("N", held)?;
    let slope = test.slope().or_stop("c_0")?;
    w.answer("r", slope.fit)?;
    w.answer("k", slope.rate / inlet)?;

    let Some(depth) = w.optional(&top, "H")? else { return Ok(()) };
    let unused: Q = w.answer("H_u", unused_depth(depth, until, total))?;
    if let Some(full) = w.optional(&top, "H_2")? {
        w.answer("t_2", break_of_depth(breaks, depth, unused, full).or_stop("H_2")?)?;
    }
    Ok(())
}
