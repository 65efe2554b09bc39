//! What is followed of the places: a row for each, and only what its sheets know.

use crate::calculator::{Input, Source, choice, input};
use crate::calculators::{
    CLASSES, UNKNOWN, coil, collection, delivery_line, discharge, drain, exhaust, heat_up, ion_exchange,
    neutralisation, precipitation, rinse, routes, stream,
};
use crate::units::{
    AMPERE, BED_VOLUMES_PER_HOUR, CELSIUS, HOUR, KG, KG_PER_DAY, KPA, KW, L, L_PER_DAY, L_PER_MIN, M, M2,
    M3_PER_H, MG_PER_L_METAL, NORMAL_L_PER_MIN, NUMBER, PERCENT, Unit, VOLT, W_PER_K,
};

const BATH: &str = "Follows the bath.";

const fn of(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    from: &'static [Source],
) -> Input {
    input(symbol, label, unit, [-1e9, 1e9], [-1e9, 1e9])
        .only_followed()
        .each(from)
        .if_known()
        .help("Follows the place that it stands for.")
}

/// A side of the floor that a place takes.
const fn side(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, M, [0.0, 100.0], [0.1, 20.0]).optional().help("As it stands.")
}

/// The clearance round it.
const fn clearance(symbol: &'static str) -> Input {
    input(symbol, "Floor, service clearance all round", M, [0.0, 10.0], [0.0, 2.0])
        .usually(0.0)
        .help("From the maker; where two share an aisle it is counted twice, so the sum is an upper bound.")
}

/// A choice of a sheet that is known whether or not that has an answer: it says that the sheet is there.
const fn word(
    symbol: &'static str,
    label: &'static str,
    words: &'static [(&'static str, f64)],
    from: &'static [Source],
) -> Input {
    Input { optional: true, only_followed: true, default: f64::NAN, ..choice(symbol, label, NUMBER, words) }
        .each(from)
        .if_known()
        .help("Follows the place that it stands for.")
}

/// On which line a load of one phase runs.
pub const SUPPLY: &[(&str, f64)] = &[(THREE, 0.0), (L1, 1.0), (L2, 2.0), (L3, 3.0)];
/// All three lines alike.
pub const THREE: &str = "three phases";
/// The first line and neutral.
pub const L1: &str = "line 1 and neutral";
/// The second.
pub const L2: &str = "line 2 and neutral";
/// The third.
pub const L3: &str = "line 3 and neutral";

/// Of each bath.
pub const BATHS: &[Input] = &[
    choice("class", "Class", NUMBER, CLASSES)
        .starts_at(UNKNOWN)
        .each(&[("make-up", "class")])
        .if_known()
        .help(BATH),
    choice("supply", "Heater and rectifier run on", NUMBER, SUPPLY)
        .help("For the load of each line; large loads are on three phases."),
    word(
        "source",
        "What heats or cools it",
        &[(heat_up::COIL, 0.0), (heat_up::STEADY, 0.0), (heat_up::ELECTRIC, 0.0)],
        &[("heat-up", "source")],
    ),
    of("P_0", "Heat from the source at the start", KW, &[("heat-up", "Q_0")]),
    of("P_t", "The same at the target", KW, &[("heat-up", "Q_top")]),
    of("P_h", "Heat to hold the target", KW, &[("heat-up", "Q_hold")]),
    of("q_c", "Flow through its coil", L_PER_MIN, &[("heat-up", "q")]),
    of("L_b", "Dry loss to the room", W_PER_K, &[("heat-up", "L")]),
    input("T_b", "Bath temperature", CELSIUS, [0.0, 100.0], [0.0, 100.0])
        .only_followed()
        .each(&[("heat-up", "T")])
        .if_known()
        .help(BATH),
    word("use", "Its coil", &[(coil::COOL, 0.0), (coil::HEAT, 0.0)], &[("coil", "use")]),
    of("q_k", "Flow of the medium in it", L_PER_MIN, &[("coil", "q")]),
    of("Q_k", "Heat that it carries", KW, &[("coil", "Q_need")]),
    of("t_p", "Hours a day that it plates", HOUR, &[("plating", "hours")]),
    of("I_b", "Current, mean in service", AMPERE, &[("plating", "I_bath")]),
    of("I_1", "Peak current of a wafer", AMPERE, &[("plating", "I_top")]),
    of("n_c", "Chambers there", NUMBER, &[("chambers", "n")]),
    input("U_b", "Voltage at the tank", VOLT, [0.0, 100.0], [0.0, 12.0])
        .usually(3.0)
        .each(&[("heat-up", "U")])
        .if_known()
        .help("While it plates, at the highest current."),
    input("η_b", "Efficiency of its rectifier", PERCENT, [10.0, 100.0], [60.0, 98.0])
        .usually(85.0)
        .each(&[("cost", "η_r")])
        .if_known()
        .help("80 to 92 %, common practice; the rest warms the room."),
    of("P_e", "Pumps, filters and the rest", KW, &[("cost", "P_e")]),
    of("d_e", "Share of it in use", PERCENT, &[("cost", "d_e")]),
    of("h_b", "Hours a day at temperature", HOUR, &[("evaporation", "h_d")]),
    of("q_v", "Water that evaporates", L_PER_DAY, &[("evaporation", "q_water")]),
    of("q_f", "Water runs in at, when it is filled", L_PER_MIN, &[("start-stop", "q_f")]),
    word(
        "h2",
        "Hydrogen is counted",
        &[(exhaust::ALL_CURRENT, 0.0), (exhaust::AS_PLATED, 0.0)],
        &[("exhaust", "h2")],
    ),
    of("Q_e", "Exhaust, all open", M3_PER_H, &[("exhaust", "Q_t")]),
    of("Q_o", "Exhaust, mean", M3_PER_H, &[("exhaust", "Q_m")]),
    of("H_e", "Heat for the air that replaces it", KW, &[("exhaust", "H_air")]),
    of("duct", "Number of its duct", NUMBER, &[("exhaust", "n_d")]),
    of("P_f", "Power of the fan", KW, &[("exhaust", "P_f")]),
    word(
        "line",
        "Its delivery line",
        &[(delivery_line::TYPED, 0.0), (delivery_line::MODEL, 0.0)],
        &[("delivery-line", "by")],
    ),
    of("V_l", "Stands in that line", L, &[("delivery-line", "V_l")]),
    of("p_d", "Pressure there is for it", KPA, &[("delivery-line", "p_av")]),
    of("q_d", "Flow in it", L_PER_MIN, &[("delivery-line", "q")]),
    of("a_k", "Air of its pump", NORMAL_L_PER_MIN, &[("delivery-line", "air")]),
    of("P_d", "Power of its pump", KW, &[("delivery-line", "P")]),
    of("Q_l", "All liquids of its supply a day", L_PER_DAY, &[("supply", "Q_all")]),
    side("b_b", "Floor, width"),
    side("t_b", "Floor, depth"),
    clearance("c_b"),
];

/// Of each stream: what is a rinse takes water in.
pub const STREAMS: &[Input] = &[
    choice("kind", "What it is", NUMBER, stream::KINDS)
        .starts_at(stream::OTHER_AT)
        .each(&[("stream", "kind")])
        .if_known()
        .help("Follows the stream."),
    word(
        "water",
        "Water is given as",
        &[(stream::BY_WAFER, 0.0), (stream::BY_FLOW, 0.0)],
        &[("stream", "water")],
    ),
    of("Q_s", "Volume a day", L_PER_DAY, &[("stream", "Q_day")]),
    of("q_s", "Flow in the hours of service", L_PER_MIN, &[("stream", "q_run")]),
    word("rinses", "Its stages", rinse::STAGES, &[("rinse", "stages")]),
    of("Q_r", "Water of its rinse a day", L_PER_DAY, &[("rinse", "Q_day")]),
    of("q_r", "Flow of its rinse", L_PER_MIN, &[("rinse", "q")]),
];

/// Of each drain.
pub const DRAINS: &[Input] = &[
    word(
        "station",
        "Lift station",
        &[(drain::NONE_PLANNED, 0.0), (drain::PLANNED, 0.0)],
        &[("drain", "station")],
    ),
    of("q_m", "Mean flow that arrives", L_PER_MIN, &[("drain", "q_m")]),
    of("q_p", "Peak flow", L_PER_MIN, &[("drain", "q_p")]),
    of("q_t", "Peak when a tank is let out", L_PER_MIN, &[("drain", "q_d")]),
    of("q_n", "Flow of its pump", L_PER_MIN, &[("drain", "q_lift")]),
    input("P_l", "Power of its pump, if it is electric", KW, [0.0, 10_000.0], [0.05, 20.0])
        .optional()
        .help("Of the lift station’s, from its plate."),
    of("q_a", "Air of its pump, as the room’s air", L_PER_MIN, &[("drain", "air")]),
    of("A_s", "Floor of its station", M2, &[("drain", "A_s")]),
    clearance("c_d"),
];

/// Of each route: what collects and treats it.
pub const ROUTES: &[Input] = &[
    choice("route", "What it is for", MG_PER_L_METAL, routes::KINDS)
        .starts_at(10)
        .each(&[("route", "kind")])
        .if_known()
        .help("Follows the route."),
    word(
        "arr",
        "Containers in use",
        &[(collection::SINGLE, 1.0), (collection::DUAL, 2.0)],
        &[("collection", "arr")],
    ),
    of("n_b", "Others that wait beside", NUMBER, &[("collection", "n_s")]),
    of("m_f", "Mass of a full one", KG, &[("collection", "m_f")]),
    word(
        "even",
        "Neutralised",
        &[(neutralisation::AS_IT_COMES, 0.0), (neutralisation::EVENED, 0.0)],
        &[("neutralisation", "even")],
    ),
    of("N_s", "Stirred stages", NUMBER, &[("neutralisation", "N_s")]),
    of("P_s", "Stirring power of each", KW, &[("neutralisation", "P_s")]),
    word(
        "set",
        "Precipitated, by the set",
        &[(precipitation::HIGHER, 0.0), (precipitation::FIRST, 0.0), (precipitation::SECOND, 0.0)],
        &[("precipitation", "set")],
    ),
    of("m_d", "Dry solid that precipitates a day", KG_PER_DAY, &[("precipitation", "m_T")]),
    word(
        "resin",
        "The full resin is",
        &[(ion_exchange::EXCHANGE, 0.0), (ion_exchange::HERE, 0.0)],
        &[("ion-exchange", "service")],
    ),
    of("V_b", "Bed of one column", L, &[("ion-exchange", "V_b")]),
    of("s_2", "Fast rinse runs at", BED_VOLUMES_PER_HOUR, &[("ion-exchange", "s_2")]),
    of("Q_g", "Spent regenerant and rinses a day", L_PER_DAY, &[("ion-exchange", "Q_s")]),
    side("b_r", "Floor, width"),
    side("t_r", "Floor, depth"),
    clearance("c_r"),
];

/// Of each place where treated water leaves.
pub const DISCHARGES: &[Input] = &[
    word(
        "what",
        "What it is",
        &[(discharge::POINT, 0.0), (discharge::CONTAINER, 0.0)],
        &[("discharge", "what")],
    ),
    of("Q_x", "Volume a day", L_PER_DAY, &[("discharge", "Q")]),
];
