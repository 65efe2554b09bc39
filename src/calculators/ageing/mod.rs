//! Ageing of a bath: breakdown products and impurities, the bleed that holds them, how long the bath lasts,
//! and what a dump is.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::{bath_inputs, cautions, routes};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Subject, Table, When, input, output, verdict,
};
use crate::science::metals;
use crate::units::{
    AH_PER_L, DAYS, G_PER_DAY, G_PER_KAH, G_PER_L, G_PER_L_METAL, KA_H, KG_METAL, L, L_PER_DAY, MG, MONEY,
    NUMBER, PER_KG, PER_L, PERCENT_PER_DAY,
};

const PRODUCTS: &str = "products";
const A_PRODUCT: &str = "a product at its limit";
const CHARGE: &str = "charge";
const WAFERS: &str = "wafers";
const TIME: &str = "time";
const ENDS: &str = "it ends the bath";
const REACHES: &str = "it reaches its limit later";
const STAYS: &str = "it stays below its limit";
const NO_LIMIT: &str = "no limit is given";
const ENDINGS: &[&str] = &[A_PRODUCT, CHARGE, WAFERS, TIME, STAYS, NO_LIMIT];

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "ageing",
    title: "Ageing and bath life",
    question: "What builds up in the bath, when is it worn out, and how much bleed would keep it?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        bath_inputs::volume().needed().group("Bath").help("All that circulates."),
        input("V_dump", "Volume of a dump", L, [0.1, 1e6], [5.0, 20_000.0])
            .needed()
            .group("Bath")
            .follows(&[("make-up", "V_dump")])
            .help("What stays behind is not in it, and ages the next bath."),
        bath_inputs::class()
            .group("Bath")
            .help("What it is by hazard: it decides where a dump goes."),
        bath_inputs::wafers().group("Bath"),
        bath_inputs::charge().group("Bath"),
        bath_inputs::drag_out()
            .group("Bath")
            .help("It carries products out too, so a bath with little drag-out ages faster. Evaporation carries none out."),
        bath_inputs::bleed()
            .group("Bath")
            .help("Bath drawn off a day and replaced by fresh. Make it a stream of the plan too, a bleed from this bath, so that its metal is counted."),
        bath_inputs::days().group("Bath"),
        input("t_x", "Days to look ahead", DAYS, [0.0, 100_000.0], [0.04, 1000.0]).usually(30.0)
            .group("Bath")
            .help("Working days from now: the sheet says what is in the bath by then."),
        input("L_q", "Dumped at charge", AH_PER_L, [0.001, 1e6], [1.0, 10_000.0])
            .optional()
            .group("Ends by count")
            .help("Charge for each litre of bath after which it is dumped, from experience or the data sheet."),
        input("L_w", "Dumped at wafers", NUMBER, [1.0, 1e9], [10.0, 1e7])
            .optional()
            .group("Ends by count")
            .help("Wafers after which it is dumped."),
        input("L_t", "Dumped after days", DAYS, [0.01, 100_000.0], [5.0, 2000.0])
            .optional()
            .group("Ends by count")
            .help("Working days after which it is dumped."),
        input("Q_0", "Charge so far", KA_H, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
            .group("State today")
            .help("Since it was made up."),
        input("N_0", "Wafers so far", NUMBER, [0.0, 1e9], [0.0, 1e7]).usually(0.0)
            .group("State today")
            .help("Since it was made up."),
        input("t_0", "Days so far", DAYS, [0.0, 100_000.0], [0.0, 2000.0]).usually(0.0)
            .group("State today")
            .help("Working days since it was made up."),
        input("p_f", "Fresh bath costs", PER_L, [0.0, 1e9], [0.0, 1e6])
            .optional()
            .group("Prices, in your own currency")
            .help("Chemicals of a litre; only what you type is used."),
        input("p_o", "Taking it away costs", PER_L, [0.0, 1e9], [0.0, 1e6])
            .optional()
            .group("Prices, in your own currency")
            .help("For a litre of spent bath, work included; only what you type is used."),
    ],
    tables: &[
        Table {
            id: PRODUCTS,
            label: "Breakdown products and impurities",
            key_label: "Product",
            add: Some("Add a product"),
            suggest: &["Organic carbon", "Breakdown of brightener", "Tin(IV)", "Sulfate", "Iron", "Copper", "Zinc", "Chloride"],
            presets: &[],
            columns: &[
                input("g_q", "Made by charge", G_PER_KAH, [0.0, 1e6], [0.0, 10_000.0]).usually(0.0)
                    .help("From two analyses and the charge between them."),
                input("g_w", "Brought by a wafer", MG, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
                    .help("From resist, seed and the steps before."),
                input("g_t", "Made by time", G_PER_DAY, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
                    .help("Whatever is plated: air that oxidises tin, water that brings chloride, parts that dissolve."),
                input("k", "Removed or decays", PERCENT_PER_DAY, [0.0, 1000.0], [0.0, 50.0]).usually(0.0)
                    .help("Share of what is there, a day: by carbon, dummy plating or itself."),
                input("C_f", "In fresh bath", G_PER_L, [0.0, 1000.0], [0.0, 200.0]).usually(0.0)
                    .help("As made up; what replaces a bleed brings it too."),
                input("C_0", "In the bath today", G_PER_L, [0.0, 1000.0], [0.0, 200.0])
                    .optional()
                    .help("By analysis. Left out, as in fresh bath."),
                input("C_l", "Limit", G_PER_L, [1e-6, 1000.0], [0.0001, 300.0])
                    .optional()
                    .help("Above it plating suffers: from the data sheet, or from the day on which it did."),
            ],
            answers: &[
                output("t_l", "At its limit in", DAYS).needs("a limit that it reaches"),
                verdict("what", "What it does", &[ENDS, REACHES, STAYS, NO_LIMIT]),
                output("g", "Made a day", G_PER_DAY),
                output("C_s", "Settles at", G_PER_L).needs("drag-out, a bleed or removal"),
                output("τ", "Time constant", DAYS).needs("drag-out, a bleed or removal"),
                output("C_x", "After the days to look ahead", G_PER_L),
                output("b", "Bleed that holds the limit", L_PER_DAY).needs("a limit above what fresh bath holds"),
            ],
        },
        Table {
            id: metals::TABLE,
            label: "Metals of a dump",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: metals::SYMBOLS,
            presets: &[],
            columns: &[
                input("c_M", "In the bath", G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0]).usually(0.0)
                    .follows(&[("make-up", "c_M")])
                    .help("As made up or as analysed."),
                input("p_M", "Price", PER_KG, [0.0, 1e9], [0.0, 1e6])
                    .optional()
                    .from_site(&[("site", "p_metal")])
                    .help("What a kilogram of the metal costs you."),
            ],
            answers: &[
                output("m_D", "In a dump", KG_METAL),
                output("worth", "Worth of it in a dump", MONEY).needs("a price of the metal"),
            ],
        },
    ],
    outputs: &[
        output("t_left", "The bath lasts, from today", DAYS).needs("a limit that is reached, or a count that ends it"),
        output("t_full", "A fresh bath lasts", DAYS)
            .beside()
            .needs("a limit that is reached, or a count that ends it"),
        verdict("ends", "What ends it", ENDINGS).beside(),
        output("b_need", "Bleed that holds all limits", L_PER_DAY).beside(),
        verdict("route", "A dump and a bleed belong to", routes::ALL).beside(),
        output("Q_full", "Charge that a fresh bath lasts", KA_H).needs("a life"),
        output("A_full", "That is, for a litre", AH_PER_L).needs("a life"),
        output("N_full", "Wafers that a fresh bath lasts", NUMBER).needs("a life"),
        output("n_y", "Dumps a year", NUMBER).needs("a life"),
        output("V_y", "Dumped a year", L).needs("a life"),
        output("V_b", "Bled a year, with the bleed given", L),
        output("V_n", "Bled a year, with the bleed that holds all limits", L),
        output("cost", "A dump costs", MONEY).needs("the prices of fresh bath and of taking it away"),
        output("cost_y", "Dumps cost a year", MONEY).needs("a life, and both prices"),
        output("cost_b", "In place of it, the bleed that holds all limits costs a year", MONEY).needs("both prices"),
    ],
    picture: Some(Picture { across: "N", up: "b_need" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Above("V_dump", 0.0)],
            text: "A dump lets out all metal and acid of the bath at once: to its own route only, cooled, with the valve watched, gloves, apron and face shield, and the container large enough. The site’s rules and its time limits for stored waste decide.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "A cyanide bath is dumped to the cyanide route alone, by licensed persons: any acid in pipe, container or vent gives a gas that kills.",
        },
        Caution {
            when: &[When::Is("class", &["sulfite"])],
            text: "Sulfite with acid gives sulfur dioxide, which chokes: no acid in the container or pipe that takes the dump.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: cautions::FLUORIDE_TEXT,
        },
        Caution {
            when: &[When::Is("class", &["unknown"])],
            text: "The class of the bath is not known: find it out before anything of it is let out.",
        },
    ],
    sources: &[
        "Stirred bath: balance with constant and proportional losses, exact; checked against scipy 1.17.1 solve_ivp.",
        "Counters and costs: arithmetic. Where a dump belongs: as the sheet of a stream.",
        "What builds up and where it hurts differs from bath to bath: no source but your own analyses and the data sheet.",
    ],
    examples: &[
        Example {
            source: "scipy 1.17.1 solve_ivp: 5 g/h into 200 L with 2 L/h: 1.580301 g/L after 100 h, 95 % of 2.5 g/L after 299.5732 h",
            inputs: &[("V", "200 L"), ("V_dump", "200 L"), ("N", "1 per day"), ("q_w", "0 A·h"), ("q_b", "2 L/h"), ("t_x", "100 h"), ("class", "acid")],
            rows: &[(PRODUCTS, "Organic carbon", &[("g_t", "120 g/day"), ("C_l", "2.3750 g/L")])],
            answers: &[
                ("C_x[Organic carbon]", "1.580301 g/L"), ("C_s[Organic carbon]", "2.5 g/L"),
                ("t_l[Organic carbon]", "299.5732 h"), ("t_full", "299.5732 h"), ("ends", A_PRODUCT),
            ],
            within: 1e-5,
        },
        Example {
            source: "By hand: 900 A·h at 12 wafers an hour of 0.5 A·h are over in 150 h",
            inputs: &[("V", "200 L"), ("V_dump", "180 L"), ("N", "288 per day"), ("q_w", "0.5 A·h"), ("L_q", "4.5 A·h/L"), ("days", "250")],
            rows: &[("metals", "Cu", &[("c_M", "50 g/L")])],
            answers: &[
                ("t_full", "150 h"), ("ends", CHARGE), ("Q_full", "900 A·h"), ("N_full", "1800"), ("n_y", "40"),
                ("V_y", "7200 L"), ("m_D[Cu]", "9 kg of metal"),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: 12 g a day at 3 g/L take 4 L a day; half a litre is dragged out, so 3.5 are bled",
            inputs: &[
                ("V", "200 L"), ("N", "100 per day"), ("q_w", "1 A·h"), ("d_w", "5 mL"), ("class", "acid"), ("days", "250"), ("p_f", "2 per L"), ("p_o", "1 per L"),
                ("V_dump", "200 L"), ("L_t", "100 days"),
            ],
            rows: &[(PRODUCTS, "Iron", &[("g_w", "120 mg"), ("C_l", "3 g/L")]), ("metals", "Ni", &[("c_M", "80 g/L")])],
            answers: &[
                ("b_need", "3.5 L/day"), ("V_n", "875 L"), ("cost_b", "2625"), ("cost", "600"),
                ("route", routes::CONCENTRATE), ("g[Iron]", "12 g/day"), ("C_s[Iron]", "24 g/L"),
            ],
            within: 1e-9,
        },
    ],
    work: sum::work,
};
