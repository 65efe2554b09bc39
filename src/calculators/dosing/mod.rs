//! Additive dosing: what is used and by what, doses in whole steps, where it settles, how long bottles last.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum, additive by additive.

mod sum;
#[cfg(test)]
mod tests;

use super::bath_inputs;
use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Subject, Table, When, choice, input, output, verdict,
};
use crate::units::{
    A_H, DAYS, HOUR, KA_H, L, L_PER_DAY, MINUTE, ML, ML_PER_AH, ML_PER_DAY, ML_PER_L, NUMBER, PER_DAY,
    PERCENT, PERCENT_PER_DAY,
};

const TABLE: &str = "additives";
const BY_CHARGE: &str = "charge";
const BY_WAFERS: &str = "wafers";
const BY_TIME: &str = "time";
const BY_MINUTES: &str = "plating minutes";
const WATER: &str = "water";
const FRESH: &str = "fresh bath with additives";
const NEXT: &str = "it is the next";
const LATER: &str = "later";

const fn every(
    symbol: &'static str,
    unit: &'static crate::units::Unit,
    usual: [f64; 2],
    word: &'static [&'static str],
) -> Input {
    input(symbol, "Dosed every", unit, [1e-6, 1e7], usual)
        .optional()
        .help("What the counter of the tool is set to. Left out, whenever a step of the pump is due.")
        .when(When::Is("counter", word))
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "dosing",
    title: "Additive dosing",
    question: "How much of each additive, how often, and when is the next bottle?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        bath_inputs::volume().needed().group("Bath").help("All that circulates."),
        bath_inputs::class().group("Bath").help("What it is by hazard."),
        bath_inputs::wafers().group("Bath"),
        bath_inputs::charge().group("Bath"),
        input("t_w", "Plating time of a wafer", MINUTE, [0.0, 10_000.0], [0.0, 300.0])
            .needed()
            .group("Bath")
            .follows(&[("plating", "t_w")])
            .if_known()
            .help("For a counter that counts plating minutes."),
        bath_inputs::drag_out()
            .group("Bath")
            .help("It takes additive along. Water that evaporates takes none: it is not drag-out."),
        bath_inputs::bleed()
            .group("Bath")
            .follows(&[("ageing", "q_b")])
            .if_known()
            .help("Bath drawn off a day on purpose and replaced, as its sheet of ageing has it."),
        choice("feed", "Bleed is replaced by", NUMBER, &[(WATER, 0.0), (FRESH, 0.0)])
            .group("Bath")
            .help("Fresh bath is taken to bring the full dose with it.")
            .when(When::Above("q_b", 0.0)),
        bath_inputs::hours()
            .group("Bath")
            .help("A counter of time runs in these. A day is a working day."),
        bath_inputs::days().group("Bath"),
        input("v_s", "Step of the pump", ML, [0.001, 1000.0], [0.05, 20.0]).usually(1.0)
            .group("Dosing and analysis")
            .help("The smallest dose; every dose is whole steps, and the remainder is carried to the next."),
        input("t_a", "Days between analyses", DAYS, [0.01, 10_000.0], [0.1, 60.0]).usually(7.0)
            .group("Dosing and analysis")
            .help("Working days until somebody looks again."),
        input("off", "Use may be off by", PERCENT, [0.0, 500.0], [0.0, 50.0]).usually(20.0)
            .group("Dosing and analysis")
            .help("How well you know what is used. The first weeks of a new bath 50 % is no exaggeration."),
    ],
    tables: &[Table {
        id: TABLE,
        label: "Additives",
        key_label: "Additive",
        add: Some("Add an additive"),
        suggest: &["Suppressor", "Brightener", "Leveller", "Wetting agent", "Grain refiner", "Complexer"],
        presets: &[],
        columns: &[
            input("C", "Dose to hold", ML_PER_L, [0.0001, 1000.0], [0.1, 100.0])
            .needed()
                .help("What a litre of the bath is to hold of it, from its data sheet or from your own tests."),
            input("k_q", "Used by charge", ML_PER_AH, [0.0, 1000.0], [0.0, 5.0])
            .optional()
                .help("Not counted where left out, if it is used by wafers or time or decays. The data sheet says it, per A·h or kA·h: some tens to hundreds of mL/(kA·h) is common practice. Other plants use ten times more or less."),
            input("k_w", "Used by a wafer", ML, [0.0, 1000.0], [0.0, 10.0]).usually(0.0)
                .help("Besides charge and drag-out, such as what a wetting step takes."),
            input("k_t", "Used by time", ML_PER_DAY, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
                .help("Whatever is plated: by anodes, carbon, air."),
            input("k", "Decays by", PERCENT_PER_DAY, [0.0, 1000.0], [0.0, 20.0]).usually(0.0)
                .help("Share of what is there that is gone a day, plating or not: it rises with temperature and with idle copper anodes."),
            choice("counter", "Dosed by", NUMBER, &[(BY_CHARGE, 0.0), (BY_WAFERS, 0.0), (BY_TIME, 0.0), (BY_MINUTES, 0.0)])
                .help("The counter that triggers a dose: choose what uses most of it."),
            every("x_q", A_H, [0.1, 1000.0], &[BY_CHARGE]),
            every("x_w", NUMBER, [0.1, 1000.0], &[BY_WAFERS]),
            every("x_t", HOUR, [0.01, 168.0], &[BY_TIME]),
            every("x_m", MINUTE, [0.1, 10_000.0], &[BY_MINUTES]),
            input("v_t", "Dose set in the tool", ML, [0.0, 1e6], [0.0, 1000.0])
                .optional()
                .help("At each trigger, if it is not what is needed: the sheet then says where it settles."),
            input("v_c", "Remainder carried", ML, [0.0, 1e6], [0.0, 1000.0])
                .optional()
                .help("What earlier triggers left over; the tool shows it."),
            input("C_low", "Least allowed", ML_PER_L, [0.0, 1000.0], [0.0, 100.0])
                .optional()
                .help("Below it plating suffers."),
            input("C_high", "Most allowed", ML_PER_L, [0.0, 1000.0], [0.1, 200.0])
                .optional()
                .help("Above it plating suffers."),
            input("v_b", "Volume of a bottle", L, [0.01, 2000.0], [0.25, 20.0]).usually(1.0)
                .help("What a full one holds that the pump can draw."),
            input("n_b", "Bottles connected", NUMBER, [1.0, 100.0], [1.0, 3.0]).usually(1.0)
                .help("Of this additive, one drawn after the other."),
            input("v_l", "Left in the bottle in use", L, [0.0, 2000.0], [0.0, 20.0])
                .optional()
                .help("Left out, it is full."),
            input("t_o", "An opened bottle keeps", DAYS, [0.1, 10_000.0], [7.0, 1000.0])
                .optional()
                .help("Working days that an opened bottle may stand, from its label."),
        ],
        answers: &[
            output("u", "Used a day at the dose to hold", ML_PER_DAY),
            output("g", "Pumped a day", ML_PER_DAY),
            output("i_q", "A step is due every", A_H).needs("dosing by charge"),
            output("i_w", "A step is due every, in wafers", NUMBER).needs("dosing by wafers"),
            output("i_t", "A step is due every, in time", HOUR).needs("dosing by time"),
            output("i_m", "A step is due every, in plating minutes", MINUTE).needs("dosing by plating minutes"),
            output("n_d", "Doses a day", PER_DAY),
            output("v_n", "Needed at a trigger", ML),
            output("v_now", "Whole steps at the next trigger", ML),
            output("v_10", "Dosed after ten triggers", ML),
            output("saw", "Saw-tooth of a dose", ML_PER_L),
            output("C_s", "Settles at", ML_PER_L).needs("drag-out, a bleed or decay"),
            output("τ", "Time constant", DAYS).needs("drag-out, a bleed or decay"),
            output("C_min", "Lowest by the next analysis", ML_PER_L).needs("enough of it to last until then"),
            output("C_max", "Highest by the next analysis", ML_PER_L).needs("enough of it to last until then"),
            output("t_low", "Without dosing it is at the least allowed after", DAYS)
                .needs("the least that is allowed"),
            output("t_out", "Without dosing it is used up after", DAYS).needs("a use that does not stop"),
            output("t_b", "Bottles last, working days", DAYS),
            output("t_n", "Next change of bottle in, working days", DAYS),
            verdict("order", "Order of change", &[NEXT, LATER]),
            output("v_y", "Pumped a year", L),
        ],
    }],
    outputs: &[
        output("t_next", "Next change of bottle in, working days", DAYS),
        output("u_all", "All additives pumped a day", ML_PER_DAY).beside(),
        output("n_year", "Changes of bottle a year", NUMBER).beside(),
        output("D", "Drag-out a day", L_PER_DAY),
        output("Q_a", "Charge until the next analysis", KA_H),
    ],
    picture: Some(Picture { across: "N", up: "u_all" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Above("u", 0.0)],
            text: "Additives are organics, some in acid: gloves and goggles at every change of bottle, skin washed at once, the maker’s safety data at hand. They are never poured by hand into a running bath.",
        },
        Caution {
            when: &[When::Above("u", 0.0)],
            text: "Never to the wrong bath: each bottle and line labelled for its bath, couplings that do not fit another, and a second person who reads the label.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "No acid additive may come near this bath: cyanide and acid give a gas that kills.",
        },
        Caution {
            when: &[When::Is("class", &["oxidiser"])],
            text: "Organics and oxidisers set fire and gas: only additives that the maker of this bath names.",
        },
    ],
    sources: &[
        "Stirred bath: balance with constant and proportional losses, exact; checked against scipy 1.17.1 solve_ivp.",
        "Whole steps with the remainder carried: arithmetic in millionths of a millilitre.",
        "Usual consumption and decay: common practice, no source; the data sheet rules.",
    ],
    examples: &[
        Example {
            source: "By hand: 0.35 mL/(A·h) × 2000 A·h + 0.02 mL × 480 + 0.72 L × 4.2 mL/L + 1.5 % × 250 L × 4.2 mL/L = 728.374 mL a day",
            inputs: &[("V", "250 L"), ("N", "480 per day"), ("q_w", "4.1666666667 A·h"), ("d_w", "1.5 mL"), ("hours", "24 h")],
            rows: &[(TABLE, "Brightener", &[
                ("C", "4.2 mL/L"), ("k_q", "0.35 mL/(A·h)"), ("k_w", "0.02 mL"), ("k", "1.5 %/day"), ("v_b", "4 L"),
            ])],
            answers: &[
                ("u[Brightener]", "728.3740 mL/day"), ("t_b[Brightener]", "5.4916842 days"), ("C_s[Brightener]", "4.2 mL/L"),
                ("saw[Brightener]", "0.004 mL/L"),
            ],
            within: 1e-7,
        },
        Example {
            source: "By hand: 1 mL at 120 mL/(kA·h) is due every 8.33333 A·h; 12 wafers an hour of 0.5 A·h are 144 A·h in a day",
            inputs: &[("V", "200 L"), ("N", "288 per day"), ("q_w", "0.5 A·h"), ("t_a", "1 day")],
            rows: &[(TABLE, "Suppressor", &[("C", "10 mL/L"), ("k_q", "120 mL/(kA·h)")])],
            answers: &[("i_q[Suppressor]", "8.3333333 A·h"), ("Q_a", "144 A·h"), ("u[Suppressor]", "17.28 mL/day")],
            within: 1e-7,
        },
        Example {
            source: "Exact fractions: 0.4 mL at each trigger in whole steps of 1 mL: none now, 4 mL after ten",
            inputs: &[("V", "200 L"), ("N", "100 per day"), ("q_w", "0 A·h")],
            rows: &[(TABLE, "Leveller", &[("C", "6 mL/L"), ("k_q", "0 mL/(A·h)"), ("k_w", "0.4 mL"), ("counter", BY_WAFERS), ("x_w", "1")])],
            answers: &[("v_now[Leveller]", "0 mL"), ("v_10[Leveller]", "4 mL"), ("i_w[Leveller]", "2.5")],
            within: 1e-9,
        },
        Example {
            source: "scipy 1.17.1 solve_ivp: 6 mL/L in 200 L with 1.2 mL/h dosed, 0.9 used and 0.4 L/h carried out: 5.519436 mL/L after 48 h",
            inputs: &[("V", "200 L"), ("N", "24 per day"), ("d_w", "400 mL"), ("t_a", "48 h"), ("off", "0 %"), ("q_w", "0 A·h")],
            rows: &[(TABLE, "Suppressor", &[
                ("C", "6 mL/L"), ("k_q", "0 mL/(A·h)"), ("k_w", "0.9 mL"), ("counter", BY_TIME), ("x_t", "1 h"), ("v_t", "1.2 mL"),
            ])],
            answers: &[("C_s[Suppressor]", "0.75 mL/L"), ("C_min[Suppressor]", "5.519436 mL/L"), ("τ[Suppressor]", "500 h"), ("n_d[Suppressor]", "24 per day")],
            within: 1e-6,
        },
    ],
    work: sum::work,
};
