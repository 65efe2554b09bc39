//! Starting and stopping a bath: first fill, water test, change of bath, idle: litres, hours, and what drains.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::{bath_inputs, routes};
use crate::calculator::{
    Calculator, Caution, Example, Picture, Subject, Table, When, choice, input, output, verdict,
};
use crate::science::metals;
use crate::units::{
    AH_PER_L, AMPERE, CELSIUS, G_METAL, G_PER_L_METAL, HOUR, KG_PER_L, KJ_PER_KG_K, KW, KWH, L, L_PER_DAY,
    L_PER_MIN, MG_PER_L_METAL, MINUTE, NUMBER, PERCENT,
};

const TESTED: &str = "filled with water first";
const UNTESTED: &str = "not tested";
const FILLED: &str = "filled and drained";
const FLUSHED: &str = "filled, then overflowing";
const COOLS: &str = "letting it cool";
const HOLDS: &str = "holding it warm";

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "start-stop",
    title: "Start and stop",
    question: "How long and how much water do the first fill, a change of bath and an idle time take?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        bath_inputs::volume()
            .needed()
            .group("Bath")
            .help("All that circulates: tank, chambers, filters and pipes."),
        input("V_d", "Volume of a dump", L, [0.1, 1e6], [5.0, 20_000.0])
            .needed()
            .group("Bath")
            .follows(&[("make-up", "V_dump")])
            .help("What stays behind is not in it."),
        input("V_w", "Water of the make-up", L, [0.0, 1e6], [0.0, 20_000.0])
            .optional()
            .group("Bath")
            .follows(&[("make-up", "V_w")])
            .if_known()
            .help("Left out, the whole volume is counted."),
        bath_inputs::class()
            .group("Bath")
            .help("What it is by hazard; it decides where rinse water of a change goes."),
        input("q_f", "Water runs in at", L_PER_MIN, [0.01, 10_000.0], [1.0, 200.0])
            .needed()
            .group("Supply and drain")
            .help("What the supply gives at the tank; the building is asked for it."),
        input("q_d", "The tank drains at", L_PER_MIN, [0.01, 10_000.0], [1.0, 500.0])
            .needed()
            .group("Supply and drain")
            .help("In the mean, by pump or valve: no more than the drain and its end take."),
        choice("test", "Before the first make-up it is", NUMBER, &[(TESTED, 0.0), (UNTESTED, 0.0)])
            .group("First fill")
            .help("Leaks, levels, pumps and interlocks are found with water, not with acid."),
        input("t_s", "The water of the test stands", HOUR, [0.0, 1000.0], [1.0, 100.0])
            .usually(24.0)
            .group("First fill")
            .help("With pumps running and heater watched: a day, common practice.")
            .when(When::Is("test", &[TESTED])),
        input("n_1", "Rinses before the first make-up", NUMBER, [0.0, 50.0], [0.0, 6.0])
            .usually(2.0)
            .group("First fill")
            .help("They take out chips, oil and dust of building."),
        input("t_m", "Hours to add and mix", HOUR, [0.0, 1000.0], [0.2, 48.0])
            .needed()
            .group("Make-up")
            .help("Weighing, adding, dissolving and cooling between."),
        input("t_up", "Time to heat up", MINUTE, [0.0, 1e6], [0.0, 1440.0])
            .optional()
            .group("Make-up")
            .follows(&[("heat-up", "t_up")])
            .if_known()
            .help("Left out, none is counted."),
        input("t_a", "Hours to analyse and correct", HOUR, [0.0, 1000.0], [0.0, 48.0])
            .needed()
            .group("Make-up")
            .help("Until the bath is released."),
        input("L_c", "Conditioning charge", AH_PER_L, [0.0, 1000.0], [0.0, 20.0])
            .usually(0.0)
            .group("Make-up")
            .help("Plated on dummies for each litre of fresh bath, from its data sheet; 0 for none."),
        input("I_c", "Current while it conditions", AMPERE, [0.01, 1e5], [1.0, 2000.0])
            .needed()
            .group("Make-up")
            .help("Of all chambers at once.")
            .when(When::Above("L_c", 0.0)),
        input("t_h", "Work by hand on the empty tank", HOUR, [0.0, 1000.0], [0.0, 48.0])
            .usually(0.0)
            .group("Change of bath")
            .help("Filters, anodes, bags, cleaning."),
        choice("by", "Each rinse is", NUMBER, &[(FILLED, 0.0), (FLUSHED, 0.0)])
            .group("Change of bath")
            .help("Several small fills clean better than one flush of as much water."),
        input("n_r", "Rinses at a change", NUMBER, [0.0, 50.0], [0.0, 6.0])
            .usually(2.0)
            .group("Change of bath")
            .help("Of the tank, drained each time.")
            .when(When::Is("by", &[FILLED])),
        input("f_r", "A rinse fills the tank to", PERCENT, [1.0, 100.0], [10.0, 100.0])
            .usually(100.0)
            .group("Change of bath")
            .help("Share of the volume; what it does not reach is not rinsed."),
        input("t_o", "A rinse overflows for", MINUTE, [0.0, 10_000.0], [5.0, 240.0])
            .needed()
            .group("Change of bath")
            .help("Once it is full, with water still running in.")
            .when(When::Is("by", &[FLUSHED])),
        input("n_y", "Changes a year", NUMBER, [0.0, 10_000.0], [0.0, 100.0])
            .optional()
            .group("Change of bath")
            .follows(&[("ageing", "n_y")])
            .if_known()
            .help("From the sheet of ageing, if that knows a life."),
        input("t_i", "The bath stands idle for", HOUR, [0.0, 10_000.0], [1.0, 400.0])
            .usually(60.0)
            .group("Idle")
            .help("A weekend, say."),
        input("q_e", "Water that evaporates", L_PER_DAY, [-1e5, 1e6], [0.0, 1000.0])
            .usually(0.0)
            .group("Idle")
            .follows(&[("evaporation", "q_water")])
            .if_known()
            .help("At temperature; from the sheet of evaporation."),
        input("q_i", "Water that runs all the time", L_PER_MIN, [0.0, 1000.0], [0.0, 20.0])
            .usually(0.0)
            .group("Idle")
            .help("Trickle of its rinses against germs."),
        input("Q_h", "Heat to hold it", KW, [-10_000.0, 10_000.0], [-500.0, 500.0])
            .optional()
            .group("Idle")
            .follows(&[("heat-up", "Q_hold")])
            .if_known()
            .help("From the sheet of heat-up."),
        input("T", "Bath temperature", CELSIUS, [0.0, 100.0], [10.0, 80.0])
            .optional()
            .group("Idle")
            .follows(&[("heat-up", "T")])
            .if_known()
            .help("As it is held in service."),
        bath_inputs::room_temperature().group("Idle"),
        input("ρ", "Density of the bath", KG_PER_L, [0.7, 2.5], [0.95, 1.6])
            .optional()
            .group("Idle")
            .follows(&[("make-up", "ρ")])
            .if_known()
            .help("Of the bath itself."),
        input("c_p", "Heat capacity of the bath", KJ_PER_KG_K, [1.0, 5.0], [2.5, 4.25])
            .optional()
            .group("Idle")
            .follows(&[("make-up", "c_p")])
            .if_known()
            .help("Of the bath itself per mass."),
    ],
    tables: &[Table {
        id: metals::TABLE,
        label: "Metals",
        key_label: "Metal",
        add: Some("Add a metal"),
        suggest: metals::SYMBOLS,
        presets: &[],
        columns: &[input("c_M", "In the old bath", G_PER_L_METAL, [0.0, 1000.0], [0.0, 200.0])
            .usually(0.0)
            .follows(&[("make-up", "c_M")])
            .if_known()
            .help("As made up or as analysed.")],
        answers: &[
            output("m_d", "In the dump", G_METAL),
            output("m_r", "In the rinse water of a change", G_METAL),
            output("c_r", "In that rinse water, by volume", MG_PER_L_METAL).needs("rinse water"),
            output("c_l", "Left in what stays behind", MG_PER_L_METAL).needs("something that stays behind"),
        ],
    }],
    outputs: &[
        output("t_1", "First fill, until it is released", HOUR),
        output("D_1", "Let out before the first make-up", L).beside(),
        output("t_x", "Change of bath, until it is released", HOUR).beside(),
        output("D_x", "Let out by a change", L).beside(),
        output("W_1", "Water of the first fill, in all", L),
        output("W_x", "Water of a change, in all", L),
        output("D_r", "Rinse water of a change", L),
        verdict("route", "Its rinse water belongs to", routes::ALL),
        output("t_f", "Filling takes", MINUTE),
        output("t_d", "Draining takes", MINUTE),
        output("t_c", "Conditioning takes", HOUR),
        output("t_y", "Out of service for changes a year", HOUR).needs("changes a year"),
        output("D_y", "Let out by changes a year", L).needs("changes a year"),
        output("W_i", "Water while it stands idle", L),
        output("E_h", "Heat to hold it meanwhile", KWH).needs("the heat to hold it"),
        output("E_u", "Heat to warm it again from the room’s", KWH)
            .needs("density and heat capacity, and a bath warmer than the room"),
        verdict("less", "Less heat takes", &[COOLS, HOLDS]).needs("both heats"),
    ],
    picture: Some(Picture { across: "q_f", up: "t_1" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "The first fill is water: leaks, levels, pumps, heaters and interlocks are found with it. Look at every joint before anything hazardous goes in.",
        },
        Caution {
            when: &[When::Above("V_d", 0.0)],
            text: "Before a tank is drained: heater and rectifier locked out, the way free, the end with room for all of it, gloves, apron and face shield. The site’s rules and trained persons decide; nobody climbs into a tank without its permit for confined spaces.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "No acid cleans the tank of a cyanide bath, and its test and rinse water go to the cyanide route alone: cyanide and acid give a gas that kills. Licensed persons only.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: "Rinse water of a fluoride bath is still hydrofluoric acid: its own route, the site’s own first aid for it, no glass.",
        },
        Caution {
            when: &[When::Is("class", &["unknown"])],
            text: "The class of the bath is not known: find it out before anything of it is let out.",
        },
    ],
    sources: &[
        "Volumes over flows, and hours added up: arithmetic.",
        "Rinsing a tank: balance of a stirred tank, fill by fill or overflowing; checked against scipy solve_ivp.",
        "Where rinse water belongs: as the sheet of a stream. How long water stands: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "By hand: 200 L at 10 L/min take 20 min, 190 at 19 drain in 10; 24.5 h of test, two rinses of 29 min, 10 h 20 min of make-up",
            inputs: &[
                ("V", "200 L"),
                ("V_d", "190 L"),
                ("q_f", "10 L/min"),
                ("q_d", "19 L/min"),
                ("t_m", "6 h"),
                ("t_a", "4 h"),
                ("t_s", "24 h"),
                ("n_1", "2"),
            ],
            rows: &[],
            answers: &[
                ("t_f", "20 min"),
                ("t_d", "10 min"),
                ("D_1", "570 L"),
                ("W_1", "780 L"),
                ("t_1", "35.8 h"),
            ],
            within: 1e-9,
        },
        Example {
            source: "By hand: 10 L stay behind; 90 L of water leave a tenth each time, so three rinses a thousandth of 40 g/L, with 399.6 g in 270 L",
            inputs: &[
                ("V", "200 L"),
                ("V_d", "190 L"),
                ("q_f", "10 L/min"),
                ("q_d", "10 L/min"),
                ("t_m", "6 h"),
                ("t_a", "4 h"),
                ("class", "acid"),
                ("n_r", "3"),
                ("f_r", "45 %"),
                ("n_y", "4"),
                ("t_h", "2 h"),
            ],
            rows: &[("metals", "Cu", &[("c_M", "40 g/L")])],
            answers: &[
                ("m_d[Cu]", "7600 g of metal"),
                ("m_r[Cu]", "399.6 g of metal"),
                ("c_r[Cu]", "1480 mg/L"),
                ("c_l[Cu]", "40 mg/L"),
                ("D_r", "270 L"),
                ("D_x", "460 L"),
                ("D_y", "1840 L"),
                ("t_x", "13.5500 h"),
                ("route", routes::CONCENTRATE),
            ],
            within: 1e-9,
        },
        Example {
            source: "scipy 1.17.1 solve_ivp of the overflow: 40 g/L in 10 L made up to 200 L, 10 L/min for 40 min: 270.6706 mg/L",
            inputs: &[
                ("V", "200 L"),
                ("V_d", "190 L"),
                ("q_f", "10 L/min"),
                ("q_d", "10 L/min"),
                ("t_m", "6 h"),
                ("t_a", "4 h"),
                ("class", "acid"),
                ("by", FLUSHED),
                ("t_o", "40 min"),
            ],
            rows: &[("metals", "Cu", &[("c_M", "40 g/L")])],
            answers: &[("c_l[Cu]", "270.6706 mg/L"), ("D_r", "590 L")],
            within: 1e-6,
        },
        Example {
            source: "By hand: 2 kW for 60 h are 120 kWh; 200 L of 1.2 kg/L and 3.5 kJ/(kg·K) from 20 to 50 °C take 7 kWh; 24 L a day and 0.1 L/min are 60 and 360 L; 400 A·h at 100 A take 4 h",
            inputs: &[
                ("V", "200 L"),
                ("V_d", "200 L"),
                ("q_f", "10 L/min"),
                ("q_d", "10 L/min"),
                ("t_m", "6 h"),
                ("t_a", "4 h"),
                ("Q_h", "2 kW"),
                ("T", "50 °C"),
                ("T_room", "20 °C"),
                ("ρ", "1.2 kg/L"),
                ("c_p", "3.5 kJ/(kg·K)"),
                ("q_e", "24 L/day"),
                ("q_i", "0.1 L/min"),
                ("L_c", "2 A·h/L"),
                ("I_c", "100 A"),
            ],
            rows: &[("metals", "Cu", &[("c_M", "40 g/L")])],
            answers: &[
                ("E_h", "120 kWh"),
                ("E_u", "7 kWh"),
                ("less", COOLS),
                ("W_i", "420 L"),
                ("t_c", "4 h"),
            ],
            within: 1e-9,
        },
    ],
    work: sum::work,
};
