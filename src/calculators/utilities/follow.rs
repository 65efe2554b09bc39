//! What is followed of the places: a row for each, and only what its sheets know.

use crate::calculator::{Input, Source, choice, input};
use crate::calculators::{CLASSES, UNKNOWN, coil, drain, exhaust, heat_up, routes, stream};
use crate::units::{
    AMPERE, CELSIUS, HOUR, KW, L_PER_DAY, L_PER_MIN, M3_PER_H, MG_PER_L_METAL, NUMBER, PERCENT, Unit, VOLT,
    W_PER_K,
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
        .help(BATH)
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
    input("T_b", "Its temperature", CELSIUS, [0.0, 100.0], [0.0, 100.0])
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
    of("q_a", "Air of its pump, as the room’s air", L_PER_MIN, &[("drain", "air")]),
];

/// Of each route.
pub const ROUTES: &[Input] = &[choice("route", "What it is for", MG_PER_L_METAL, routes::KINDS)
    .starts_at(10)
    .each(&[("route", "kind")])
    .if_known()
    .help("Follows the route.")];
