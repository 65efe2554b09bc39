//! What the line asks of the building: power, gas, water, heat, exhaust, drains and floor, summed from the sheets
//! of all places and from the user's own items, mean and peak, each with where it comes from.
//!
//! - this file: the declaration;
//! - [`follow`]: what is followed of baths, streams, drains and routes;
//! - [`request`]: what of it goes to the building's engineer;
//! - [`own`]: items of the user's own;
//! - [`basis`]: what the peak and the mean of a row are;
//! - [`baths`]: what each bath asks for;
//! - [`ways`]: what streams, drains, routes and discharges ask for;
//! - [`floor`]: the floor that all of it takes;
//! - [`gas`]: what the compressed air takes;
//! - [`sum`]: rows and totals;
//! - [`examples`]: worked examples with known answers.

mod basis;
mod baths;
mod examples;
mod floor;
mod follow;
mod gas;
mod own;
pub mod request;
mod sum;
mod ways;
#[cfg(test)]
mod tests;

use super::discharge;
use crate::calculator::{Calculator, Caution, Input, Output, Subject, Table, When, input, output, verdict};
use crate::units::{
    AMPERE, CELSIUS, HOUR, KG, KG_PER_DAY, KPA, KVA, KW, KWH, L, L_PER_DAY, L_PER_MIN, M, M2, M3_PER_H,
    MINUTE, MONEY, NORMAL_L_PER_MIN, NUMBER, PER_NORMAL_M3, PERCENT, Unit, VOLT,
};

const BATHS: &str = "baths";
const STREAMS: &str = "streams";
const DRAINS: &str = "drains";
const ROUTES: &str = "routes";
const DISCHARGES: &str = "discharges";
const ITEMS: &str = "items";

const POWER: &str = "power";
const PHASES: &str = "phases";
const AIR: &str = "air";
const NITROGEN: &str = "nitrogen";
const WATER: &str = "water";
const HOT: &str = "hot";
const COLD: &str = "cold";
const STEAM: &str = "steam";
const EXHAUST: &str = "exhaust";
const ROOM: &str = "room";
const FLOOR: &str = "floor";
const INTO_DRAINS: &str = "into-drains";
const SEWER: &str = "sewer";

const WHOLE: &str = "all that the sheets ask for";
const PART: &str = "what is known; the rest is left out";

const GAS: &str = "Compressed air";
const LINE: &str = "Electrical supply";

/// A table of rows that the sum makes: where each comes from, its mean and its peak.
const fn asked(id: &'static str, label: &'static str, answers: &'static [Output]) -> Table {
    Table { id, label, key_label: "Comes from", add: None, suggest: &[], presets: &[], columns: &[], answers }
}

const fn places(id: &'static str, label: &'static str, columns: &'static [Input]) -> Table {
    Table { columns, ..asked(id, label, &[]) }
}

/// What the peak and the mean of a row are.
const fn how(symbol: &'static str) -> Output {
    verdict(symbol, "Peak and mean are", basis::ALL)
}

const fn price(
    symbol: &'static str,
    label: &'static str,
    from: &'static [(&'static str, &'static str)],
) -> Input {
    input(symbol, label, PER_NORMAL_M3, [0.0, 1e9], [0.0, 1e6])
        .optional()
        .group("Prices, in your own currency")
        .follows(from)
        .help("Only what you type is used.")
}

const fn of_gas(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    ranges: [[f64; 2]; 2],
) -> Input {
    input(symbol, label, unit, ranges[0], ranges[1]).group(GAS)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "utilities",
    title: "Utilities",
    question: "What does the line ask of the building, in the mean and at its peak?",
    subject: Subject::Site,
    quick: false,
    from_start: false,
    inputs: &[
        input("hours", "Hours of service a day", HOUR, [0.1, 24.0], [4.0, 24.0])
            .usually(24.0)
            .group("Site")
            .follows(&[("site", "hours")])
            .help("Means are those of these hours."),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0])
            .usually(350.0)
            .group("Site")
            .follows(&[("site", "days")])
            .help("Working days; shutdowns are not among them."),
        input("T_room", "Room temperature", CELSIUS, [-20.0, 60.0], [15.0, 30.0])
            .usually(21.0)
            .group("Site")
            .follows(&[("site", "T_room")])
            .help("Of the air around the baths."),
        input("z_site", "Height above sea level", M, [-400.0, 5000.0], [0.0, 2500.0])
            .usually(0.0)
            .group("Site")
            .follows(&[("site", "z_site")])
            .help("It sets the pressure of the air."),
        input("U", "Voltage between two lines", VOLT, [50.0, 1000.0], [190.0, 500.0])
            .optional()
            .group(LINE)
            .picks(&[("200 V", 200.0), ("208 V", 208.0), ("400 V", 400.0), ("480 V", 480.0)])
            .help("Not from line to neutral, which is 1.73 times less."),
        input("φ", "Power factor of rectifiers and pumps", NUMBER, [0.1, 1.0], [0.7, 1.0])
            .usually(0.9)
            .group(LINE)
            .help("0.8 to 0.95, common practice; heaters have 1."),
        input("η_m", "Efficiency of stirrers", PERCENT, [10.0, 100.0], [50.0, 95.0])
            .usually(75.0)
            .group(LINE)
            .help("Of their motors and gears: 60 to 85 %, common practice."),
        of_gas("p_s", "Pressure supplied, gauge", KPA, [[10.0, 5000.0], [300.0, 1000.0]])
            .optional()
            .help("As a gauge reads it: above the room’s air."),
        of_gas("η_c", "Efficiency of the compressor", PERCENT, [[10.0, 100.0], [50.0, 85.0]])
            .usually(70.0)
            .help("Against the isentropic, one stage: 60 to 75 %, common practice."),
        of_gas("p_l", "Least pressure that tools bear, gauge", KPA, [[1.0, 5000.0], [200.0, 900.0]])
            .optional()
            .help("From their makers; it says how long a receiver lasts."),
        of_gas("V_k", "Volume of the receiver", L, [[1.0, 1e6], [20.0, 20_000.0]])
            .optional()
            .help("Volume of compressed air at hand."),
        of_gas(
            "t_k",
            "The receiver must last without the compressor",
            MINUTE,
            [[0.01, 10_000.0], [0.5, 60.0]],
        )
        .optional()
        .help("Until all valves are safe."),
        price("p_air", "Compressed air", &[("site", "p_air")]),
        price("p_N2", "Nitrogen", &[("site", "p_N2")]),
    ],
    tables: &[
        Table {
            id: ITEMS,
            label: "Items of your own",
            key_label: "Item",
            add: Some("Add an item"),
            suggest: &[
                "Robot and controls",
                "Chiller",
                "Spin dryer",
                "Drying gun",
                "Agitation",
                "Bench",
                "Cabinet",
                "Drums",
                "Tool",
            ],
            presets: &[],
            columns: own::COLUMNS,
            answers: &[],
        },
        places(BATHS, "Baths", follow::BATHS),
        places(STREAMS, "Streams", follow::STREAMS),
        places(DRAINS, "Drains", follow::DRAINS),
        places(ROUTES, "Routes", follow::ROUTES),
        places(DISCHARGES, "Discharges", follow::DISCHARGES),
        asked(
            POWER,
            "Electrical load",
            &[
                output("P_1", "Connected", KW),
                output("P_2", "Mean", KW),
                output("f_1", "Demand factor", NUMBER).needs("a load"),
                how("P_y"),
            ],
        ),
        asked(
            PHASES,
            "Electrical load by line",
            &[
                output("P_3", "Connected", KW),
                output("P_4", "Mean", KW),
                output("f_3", "Demand factor", NUMBER).needs("a load"),
                output("I_3", "Current, all connected", AMPERE).needs("the voltage between two lines"),
            ],
        ),
        asked(
            AIR,
            "Compressed air",
            &[output("a_1", "Peak", NORMAL_L_PER_MIN), output("a_2", "Mean", NORMAL_L_PER_MIN), how("a_y")],
        ),
        asked(
            NITROGEN,
            "Nitrogen",
            &[output("g_1", "Peak", NORMAL_L_PER_MIN), output("g_2", "Mean", NORMAL_L_PER_MIN), how("g_y")],
        ),
        asked(
            WATER,
            "DI water",
            &[output("w_1", "Peak", L_PER_MIN), output("w_2", "Mean", L_PER_MIN), how("w_y")],
        ),
        asked(
            HOT,
            "Hot water",
            &[
                output("h_1", "Peak", L_PER_MIN),
                output("h_2", "Mean", L_PER_MIN),
                output("H_1", "Heat, peak", KW).missing("an item of your own gives water alone"),
                output("H_2", "Heat, mean", KW).missing("an item of your own gives water alone"),
                how("h_y"),
            ],
        ),
        asked(
            COLD,
            "Cold water",
            &[
                output("k_1", "Peak", L_PER_MIN)
                    .missing("a stream so large that it stays as cold has no flow here"),
                output("k_2", "Mean", L_PER_MIN)
                    .missing("a stream so large that it stays as cold has no flow here"),
                output("K_1", "Cooling, peak", KW).missing("an item of your own gives water alone"),
                output("K_2", "Cooling, mean", KW).missing("an item of your own gives water alone"),
                how("k_y"),
            ],
        ),
        asked(
            STEAM,
            "Steam",
            &[output("S_1", "Heat, peak", KW), output("S_2", "Heat, mean", KW), how("S_y")],
        ),
        asked(
            EXHAUST,
            "Exhaust",
            &[output("e_1", "Peak", M3_PER_H), output("e_2", "Mean", M3_PER_H), how("e_y")],
        ),
        asked(ROOM, "Heat to the room", &[output("r_1", "Peak", KW), output("r_2", "Mean", KW), how("r_y")]),
        asked(
            FLOOR,
            "Floor",
            &[output("F_1", "Taken", M2), output("F_2", "With service clearance", M2), how("F_y")],
        ),
        asked(
            INTO_DRAINS,
            "Into the drains",
            &[output("d_1", "Peak", L_PER_MIN), output("d_2", "Mean", L_PER_MIN), how("d_y")],
        ),
        asked(
            SEWER,
            "Leaves as treated water, or is taken away",
            &[
                output("x_1", "A day", L_PER_DAY),
                verdict("x_y", "By way of", &[discharge::POINT, discharge::CONTAINER]),
            ],
        ),
    ],
    outputs: &[
        output("P_c", "Electrical load, connected", KW),
        output("P_m", "Electrical load, mean in service", KW).beside(),
        verdict("known", "Counted is", &[WHOLE, PART]).beside(),
        output("e_p", "Exhaust, peak", M3_PER_H).beside(),
        output("w_p", "DI water, peak", L_PER_MIN).beside(),
        output("a_p", "Compressed air, peak", NORMAL_L_PER_MIN).beside(),
        output("f_c", "Demand factor", NUMBER).needs("a load"),
        output("W_d", "Electrical energy a day", KWH),
        output("I_f", "Current of the fullest line, all connected", AMPERE)
            .needs("the voltage between two lines"),
        output("S_f", "Apparent power to be supplied for it", KVA).needs("the voltage between two lines"),
        output("a_m", "Compressed air, mean", NORMAL_L_PER_MIN),
        output("a_r", "Its peak as litres of the room’s air", L_PER_MIN),
        output("a_s", "Its peak as litres in the pipe", L_PER_MIN).needs("the pressure supplied"),
        output("P_k", "Power of a compressor for its peak", KW)
            .needs("the pressure supplied, and compressed air"),
        output("t_l", "The receiver lasts", MINUTE).needs("the receiver, both pressures, and compressed air"),
        output("V_n", "Receiver that lasts as long as it must", L)
            .needs("the time that it must last, both pressures, and compressed air"),
        output("g_p", "Nitrogen, peak", NORMAL_L_PER_MIN),
        output("g_m", "Nitrogen, mean", NORMAL_L_PER_MIN),
        output("w_m", "DI water, mean", L_PER_MIN),
        output("w_d", "DI water a day", L_PER_DAY),
        output("h_p", "Hot water, peak", L_PER_MIN),
        output("h_m", "Hot water, mean", L_PER_MIN),
        output("H_p", "Heat of hot water, peak", KW),
        output("H_m", "Heat of hot water, mean", KW),
        output("k_p", "Cold water, peak", L_PER_MIN),
        output("k_m", "Cold water, mean", L_PER_MIN),
        output("K_p", "Cooling by cold water, peak", KW),
        output("K_m", "Cooling by cold water, mean", KW),
        output("S_p", "Heat by steam, peak", KW),
        output("S_m", "Heat by steam, mean", KW),
        output("e_m", "Exhaust, mean", M3_PER_H),
        output("E_h", "Heat for the air that replaces it", KW),
        output("r_p", "Heat to the room, peak", KW),
        output("r_m", "Heat to the room, mean", KW),
        output("n_d", "Drains", NUMBER),
        output("n_l", "Drains with a lift station", NUMBER),
        output("n_r", "Routes out", NUMBER),
        output("n_o", "Routes with a pipe of their own to the end", NUMBER),
        output("d_p", "To all drains, peak", L_PER_MIN),
        output("d_m", "To all drains, mean", L_PER_MIN),
        output("x_d", "Treated water and what is taken away, a day", L_PER_DAY),
        output("n_k", "Containers that stand", NUMBER),
        output("m_k", "Mass of these when full", KG),
        output("m_s", "Dry sludge a day", KG_PER_DAY),
        output("F_a", "Floor taken", M2),
        output("F_s", "Floor with service clearance", M2),
        output("c_a", "Compressed air costs a year", MONEY).needs("its price"),
        output("c_n", "Nitrogen costs a year", MONEY).needs("its price"),
    ],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "This asks the building, it designs nothing: a licensed electrician, a ventilation engineer, a licensed plumber and the local codes decide on supply, protection, ducts and drains.",
        },
        Caution {
            when: &[When::Above("g_p", 0.0)],
            text: "Nitrogen that leaves in a room takes the place of air: below 19.5 % of oxygen (from memory) a person falls without warning. An oxygen alarm and the site’s safety officer decide.",
        },
        Caution {
            when: &[When::Above("a_p", 0.0)],
            text: "Compressed air and its receiver burst: the pressure code decides on vessel, relief valve and tests. Never at skin or clothes.",
        },
        Caution {
            when: &[When::Above("F_a", 0.0)],
            text: "Clearances here are for service: exits, eyewash and shower within reach, and the spacing before electrical panels are set by local codes.",
        },
    ],
    sources: &[
        "Sums of the sheets; power on three phases and rectifiers: definitions.",
        "Gas: ideal gas; normal litres are of 0 °C and 101.325 kPa, and standard litres of the reference that their unit names.",
        "Compressor: isentropic work of one stage, as in fluids 1.3.1. Receiver: ideal gas at constant temperature.",
        "Power factors, efficiencies: common practice, no source. 19.5 % of oxygen: from memory.",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest from memory.",
    ],
    examples: examples::LIST,
    work: sum::work,
};
