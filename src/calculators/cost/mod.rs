//! What a bath costs to run: chemicals, metal, additives, water, energy and waste, a year and a wafer, by the
//! user's own prices alone.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::{bath_inputs, stream};
use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Subject, Table, When, choice, input, output, verdict,
};
use crate::science::metals;
use crate::units::{
    HOUR, KA_H, KG, KG_METAL, KW, KWH, L, L_PER_DAY, M3, MONEY, NUMBER, PER_KG, PER_KG_BOUGHT, PER_KWH,
    PER_L, PER_M3, PERCENT,
};

const CHEMICALS: &str = "chemicals";
const ADDITIVES: &str = "additives";
const WASTE: &str = "waste";
const ITEMS: &str = "items";

const CHEMICAL: &str = "Chemicals";
const METAL: &str = "Metal plated";
const ADDITIVE: &str = "Additives";
const WATER: &str = "Water";
const ENERGY: &str = "Energy";
const DUMPS: &str = "Dumps and bleed taken away";
const STREAMS: &str = "Rinses and other waste";

const WHOLE: &str = "everything that is used";
const PART: &str = "what has a price; the rest is left out";

const PRICES: &str = "Prices, in your own currency";

const fn price(symbol: &'static str, label: &'static str, unit: &'static crate::units::Unit) -> Input {
    input(symbol, label, unit, [0.0, 1e9], [0.0, 1e6]).optional().group(PRICES)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "cost",
    title: "Cost of running",
    question: "What does the bath cost a year and a wafer, and what is most of it?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        bath_inputs::wafers().group("Year"),
        bath_inputs::days().group("Year"),
        bath_inputs::class()
            .group("Bath replaced")
            .help("What it is by hazard; it decides which waste may be saved at all."),
        bath_inputs::volume()
            .optional()
            .group("Bath replaced")
            .if_known()
            .help("What one make-up fills."),
        input("V_d", "Dumped a year", L, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
            .group("Bath replaced")
            .follows(&[("ageing", "V_y")])
            .if_known()
            .help("From the sheet of ageing."),
        input("V_b", "Bled a year", L, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
            .group("Bath replaced")
            .follows(&[("ageing", "V_b")])
            .if_known()
            .help("From the sheet of ageing, with the bleed given there."),
        input("D", "Drag-out a day", L_PER_DAY, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
            .group("Bath replaced")
            .follows(&[("plating", "D_day")])
            .if_known()
            .help("What wafers carry out is replaced too."),
        input("Q_y", "Charge a year", KA_H, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
            .group("Energy")
            .follows(&[("plating", "Q_year")])
            .if_known()
            .help("From the sheet of plating."),
        bath_inputs::voltage("U_v").group("Energy"),
        input("η_r", "Efficiency of the rectifier", PERCENT, [10.0, 100.0], [60.0, 98.0]).usually(85.0)
            .group("Energy")
            .help("Direct current out over power in: 80 to 92 %, common practice."),
        input("Q_h", "Heat to hold the bath, negative to cool", KW, [-10_000.0, 10_000.0], [-500.0, 500.0]).usually(0.0)
            .group("Energy")
            .follows(&[("heat-up", "Q_hold")])
            .if_known()
            .help("From the sheet of heat-up, with what evaporates and what plating and pumps bring."),
        input("COP", "Cooling for each kWh", NUMBER, [0.5, 50.0], [2.0, 6.0]).usually(3.0)
            .group("Energy")
            .help("Heat that the chiller carries off over its electricity: 2.5 to 5, common practice."),
        input("P_e", "Pumps, filters, exhaust", KW, [0.0, 10_000.0], [0.0, 200.0]).usually(0.0)
            .group("Energy")
            .help("Electric power that this bath takes besides."),
        input("d_e", "Share of it in use", PERCENT, [0.0, 100.0], [10.0, 100.0]).usually(100.0)
            .group("Energy")
            .help("Mean over connected power."),
        input("h_d", "Hours a day", HOUR, [0.1, 24.0], [4.0, 24.0]).usually(24.0)
            .group("Energy")
            .follows(&[("evaporation", "h_d")])
            .if_known()
            .help("That the bath is kept at temperature and pumped."),
        input("d_y", "Days a year", NUMBER, [1.0, 366.0], [100.0, 366.0]).usually(350.0)
            .group("Energy")
            .follows(&[("evaporation", "d_y")])
            .if_known()
            .help("That the bath is kept at temperature and pumped; weekends too, if it is."),
        input("V_w", "Water that evaporates a year", M3, [-1e6, 1e6], [0.0, 10_000.0]).usually(0.0)
            .group("Water")
            .follows(&[("evaporation", "V_y")])
            .if_known()
            .help("From the sheet of evaporation; a cold bath that gains water costs none."),
        input("V_o", "Rinses and other water a year", M3, [0.0, 1e9], [0.0, 1e6])
            .optional()
            .group("Water")
            .help("Left out, DI water of the rinses listed below."),
        price("p_kWh", "Electricity", PER_KWH)
            .from_site(&[("site", "p_kWh")])
            .help("Only what you type is used, as a number alone: the currency is named at the sheet Site. Heat is counted as electric: type what a kWh of heat costs you, if another."),
        price("p_water", "DI water", PER_M3).from_site(&[("site", "p_water")]).help("Only what you type is used."),
        price("p_o", "Taking away spent bath", PER_L)
            .follows(&[("ageing", "p_o")])
            .if_known()
            .help("For a litre of dump or bleed, work included; only what you type is used."),
    ],
    tables: &[
        Table {
            id: CHEMICALS,
            label: "Chemicals of a make-up",
            key_label: "Ingredient",
            add: Some("Add a chemical"),
            suggest: &["Copper sulfate", "Sulfuric acid", "Nickel sulfamate", "Boric acid"],
            presets: &[],
            columns: &[
                input("m_c", "In a make-up", KG, [0.0, 1e6], [0.0, 1e4]).usually(0.0)
                    .follows(&[("make-up", "m")])
                    .if_known()
                    .help("As weighed, for the whole volume."),
                input("p_c", "Price", PER_KG_BOUGHT, [0.0, 1e9], [0.0, 1e6])
                    .optional()
                    .help("For a kilogram of what is bought, not of its metal; only what you type is used."),
            ],
            answers: &[
                output("c_c", "In a make-up", MONEY).needs("its price"),
                output("c_cy", "A year", MONEY).needs("its price and the volume of the bath"),
            ],
        },
        Table {
            id: metals::TABLE,
            label: "Metals plated",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: metals::SYMBOLS,
            presets: &[],
            columns: &[
                input("m_M", "Plated a year", KG_METAL, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
                    .follows(&[("plating", "m_year")])
                    .if_known()
                    .help("On the wafers alone: what is dragged out or dumped is in the chemicals."),
                input("p_M", "Price", PER_KG, [0.0, 1e9], [0.0, 1e6])
                    .optional()
                    .from_site(&[("site", "p_metal")])
                    .help("What a kilogram of the metal costs you as you buy it: as anode or in its salt."),
            ],
            answers: &[output("c_M", "A year", MONEY).needs("its price")],
        },
        Table {
            id: ADDITIVES,
            label: "Additives",
            key_label: "Additive",
            add: Some("Add an additive"),
            suggest: &["Suppressor", "Brightener", "Leveller", "Wetting agent", "Grain refiner", "Complexer"],
            presets: &[],
            columns: &[
                input("v_a", "Dosed a year", L, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
                    .follows(&[("dosing", "v_y")])
                    .if_known()
                    .help("From the sheet of dosing, with what is dragged out and bled."),
                input("p_a", "Price", PER_L, [0.0, 1e9], [0.0, 1e6])
                    .optional()
                    .help("For a litre; only what you type is used."),
            ],
            answers: &[output("c_a", "A year", MONEY).needs("its price")],
        },
        Table {
            id: WASTE,
            label: "Rinses and other waste of this bath",
            key_label: "Stream",
            add: Some("Add a stream that is not in the plan"),
            suggest: &["First rinse", "Second rinse", "Samples"],
            presets: &[],
            columns: &[
                choice("what", "What it is", NUMBER, stream::KINDS)
                    .starts_at(stream::OTHER_AT)
                    .each_from_here(&[("stream", "kind")])
                    .if_known()
                    .help("A dump or a bleed that is counted above is not counted here again."),
                input("Q_r", "Volume a day", L_PER_DAY, [0.0, 1e9], [0.0, 1e6]).usually(0.0)
                    .each_from_here(&[("stream", "Q_day")])
                    .if_known()
                    .help("On a mean working day, as the sheet of the stream has it."),
                input("p_r", "Price", PER_M3, [0.0, 1e9], [0.0, 1e6])
                    .optional()
                    .help("For a cubic metre treated or taken away by the route that it leads to; only what you type is used."),
            ],
            answers: &[
                output("c_r", "Costs a year", MONEY).needs("its price, and not to be counted above"),
                output("V_r", "A year", L),
            ],
        },
        Table {
            id: ITEMS,
            label: "What it is made of",
            key_label: "Item",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                output("c_i", "A year", MONEY),
                output("c_w", "A wafer", MONEY).needs("a price, and wafers"),
                output("s_i", "Share", PERCENT).needs("a price"),
            ],
        },
    ],
    outputs: &[
        output("c_year", "A year", MONEY),
        output("c_wafer", "A wafer", MONEY).beside().needs("wafers"),
        verdict("whole", "Counted is", &[WHOLE, PART]).beside(),
        output("c_make", "Chemicals of one make-up", MONEY).needs("prices of chemicals"),
        output("N_y", "Wafers a year", NUMBER),
        output("V_rep", "Bath replaced a year", L),
        output("W_y", "Energy a year", KWH),
        output("V_wy", "Water a year", L),
    ],
    picture: Some(Picture { across: "N", up: "c_year" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Above("V_rep", 0.0)],
            text: "A cheaper way out is no reason for another route: permit, class and the site’s rules decide where waste goes, and what must never meet stays apart.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide", "fluoride"])],
            text: "Waste of this bath goes to its own route and licensed persons only, whatever it costs.",
        },
    ],
    sources: &[
        "Amounts times prices: arithmetic. Prices are yours alone; the sheet has none.",
        "Energy: power, share in use and hours of service; charge times voltage over the rectifier’s efficiency.",
        "Efficiencies of rectifier and chiller: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "Power, demand and hours of service: 12 kW × 0.6 × 8000 h at 0.14 is 8064 a year (price invented)",
            inputs: &[("N", "100 per day"), ("days", "320"), ("P_e", "12 kW"), ("d_e", "60 %"), ("h_d", "24 h"), ("d_y", "333.3333333333"), ("p_kWh", "0.14 per kWh")],
            rows: &[],
            answers: &[("c_year", "8064"), ("W_y", "57600 kWh"), ("c_wafer", "0.252"), ("whole", WHOLE)],
            within: 1e-9,
        },
        Example {
            source: "By hand: 2 make-ups of 20 kg at 5 and 10 kg at 2 in 400 L of dumps, 8 L of drag-out; 3 kg of metal at 10; 4 L of additive at 25 (prices invented)",
            inputs: &[
                ("N", "10 per day"), ("days", "100"), ("V", "200 L"), ("V_d", "400 L"), ("D", "0.08 L/day"), ("p_o", "1 per L"),
            ],
            rows: &[
                (CHEMICALS, "Copper sulfate", &[("m_c", "20 kg"), ("p_c", "5 per kg")]),
                (CHEMICALS, "Sulfuric acid", &[("m_c", "10 kg"), ("p_c", "2 per kg")]),
                ("metals", "Cu", &[("m_M", "3 kg"), ("p_M", "10 per kg")]),
                (ADDITIVES, "Brightener", &[("v_a", "4 L"), ("p_a", "25 per L")]),
            ],
            answers: &[
                ("c_make", "120"), ("V_rep", "408 L"), ("c_i[Chemicals]", "244.8"), ("c_i[Metal plated]", "30"),
                ("c_i[Additives]", "100"), ("c_i[Dumps and bleed taken away]", "400"), ("c_year", "774.8"),
                ("c_wafer", "0.7748"), ("whole", PART),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: 10 kA·h at 3 V over 75 % are 40 kWh; 2 kW of cooling at 4 to 1 for 1000 h are 500; at 0.1 that is 54; 60 L a day for 100 days at 12 are 72 (prices invented)",
            inputs: &[
                ("N", "10 per day"), ("days", "100"), ("Q_y", "10 kA·h"), ("U_v", "3 V"), ("η_r", "75 %"), ("Q_h", "-2 kW"), ("COP", "4"),
                ("h_d", "10 h"), ("d_y", "100"), ("p_kWh", "0.1 per kWh"),
            ],
            rows: &[(WASTE, "Second rinse", &[("what", stream::RINSE), ("Q_r", "60 L/day"), ("p_r", "12 per m³")])],
            answers: &[("W_y", "540 kWh"), ("c_i[Energy]", "54"), ("V_wy", "6 m³"), ("c_i[Rinses and other waste]", "72"), ("c_year", "126")],
            within: 1e-9,
        },
    ],
    work: sum::work,
};
