//! Items of the user's own, of every sort.

use super::follow::{SUPPLY, THREE};
use crate::calculator::{Input, Refuse, Row, Stop, When, Work, choice, input};
use crate::quantity::Q;
use crate::science::electricity::three_phase_power;
use crate::science::gas::amount_flow;
use crate::units::{AMPERE, CELSIUS, KPA, KW, L_PER_MIN, M, M3_PER_H, NORMAL_L_PER_MIN, NUMBER, PERCENT};

/// Electrical power.
pub const ELECTRIC: &str = "electrical load";
/// Compressed air.
pub const AIR: &str = "compressed air";
/// Nitrogen.
pub const NITROGEN: &str = "nitrogen";
/// Deionised water.
pub const DI: &str = "DI water";
/// Hot water.
pub const HOT: &str = "hot water";
/// Cold water.
pub const COLD: &str = "cold water";
/// Exhaust.
pub const EXHAUST: &str = "exhaust";
/// Floor.
pub const FLOOR: &str = "floor";

const BY_POWER: &str = "power";
const BY_CURRENT: &str = "current on the nameplate";
const NAMED: &str = "normal or standard litres";
const ACTUAL: &str = "actual litres in the pipe";
/// It runs in the hours of service.
const IN_SERVICE: &str = "in the hours of service";
/// It runs day and night.
pub const ALWAYS: &str = "day and night";

const IS_GAS: When = When::Is("sort", &[AIR, NITROGEN]);
const IS_POWER: When = When::Is("sort", &[ELECTRIC]);
const IN_PIPE: When = When::Is("given", &[ACTUAL]);
const IS_FLOOR: When = When::Is("sort", &[FLOOR]);
const RUNS: When = When::Not("sort", &[FLOOR]);

/// What is asked of an item.
pub const COLUMNS: &[Input] = &[
    choice(
        "sort",
        "It takes",
        NUMBER,
        &[
            (ELECTRIC, 0.0),
            (AIR, 0.0),
            (NITROGEN, 0.0),
            (DI, 0.0),
            (HOT, 0.0),
            (COLD, 0.0),
            (EXHAUST, 0.0),
            (FLOOR, 0.0),
        ],
    )
    .help("What takes several things is a row for each."),
    input("n", "How many", NUMBER, [0.0, 10_000.0], [1.0, 100.0]).usually(1.0).help("Alike."),
    choice("by", "Load is given as", NUMBER, &[(BY_POWER, 0.0), (BY_CURRENT, 0.0)])
        .help("A nameplate says amperes of the line, not the direct current of a rectifier.")
        .when(IS_POWER),
    input("P", "Power of one", KW, [0.0, 10_000.0], [0.01, 500.0])
        .needed()
        .help("Connected, from the nameplate.")
        .when(When::Is("by", &[BY_POWER])),
    input("I", "Current of one", AMPERE, [0.0, 10_000.0], [0.1, 1000.0])
        .needed()
        .help("In a line, from the nameplate; the voltage between two lines is needed for it.")
        .when(When::Is("by", &[BY_CURRENT])),
    choice("supply_i", "It runs on", NUMBER, SUPPLY).help("For the load of each line.").when(IS_POWER),
    input("φ_i", "Its power factor", NUMBER, [0.1, 1.0], [0.6, 1.0])
        .usually(0.9)
        .help("1 for heaters, 0.8 to 0.95 for motors and rectifiers, common practice.")
        .when(IS_POWER),
    input("f_r", "Share of it that warms the room", PERCENT, [0.0, 100.0], [0.0, 100.0])
        .usually(100.0)
        .help("All of it, but for what water or exhaust carries off.")
        .when(IS_POWER),
    choice("given", "Gas is given as", NUMBER, &[(NAMED, 0.0), (ACTUAL, 0.0)])
        .help("Normal and standard litres are told by their unit; actual ones need pressure and temperature.")
        .when(IS_GAS),
    input("q_g", "Gas of one", NORMAL_L_PER_MIN, [0.0, 1e6], [0.1, 10_000.0])
        .needed()
        .help("Look what “standard” means in the data sheet: up to 11 % lie between the references.")
        .when(When::Is("given", &[NAMED])),
    input("q_l", "Gas of one, in the pipe", L_PER_MIN, [0.0, 1e6], [0.01, 10_000.0])
        .needed()
        .help("At the pressure and temperature below.")
        .when(IN_PIPE),
    input("p_g", "Its pressure, gauge", KPA, [0.0, 10_000.0], [0.0, 1000.0])
        .needed()
        .help("As a gauge reads it; 0 for litres of the room’s air.")
        .when(IN_PIPE),
    input("T_g", "Its temperature", CELSIUS, [-40.0, 200.0], [5.0, 60.0])
        .usually(20.0)
        .help("In the pipe.")
        .when(IN_PIPE),
    input("q_w", "Water of one", L_PER_MIN, [0.0, 1e5], [0.1, 500.0])
        .needed()
        .help("While it runs.")
        .when(When::Is("sort", &[DI, HOT, COLD])),
    input("q_e", "Exhaust of one", M3_PER_H, [0.0, 1e6], [1.0, 20_000.0])
        .needed()
        .help("Open area times face velocity: 0.4 to 0.5 m/s for a cabinet, from memory.")
        .when(When::Is("sort", &[EXHAUST])),
    input("b", "Width", M, [0.0, 100.0], [0.1, 20.0]).needed().help("Of one, as it stands.").when(IS_FLOOR),
    input("t", "Depth", M, [0.0, 100.0], [0.1, 20.0]).needed().help("Of one, as it stands.").when(IS_FLOOR),
    input("c", "Service clearance all round", M, [0.0, 10.0], [0.0, 2.0])
        .usually(0.0)
        .help("From the maker; where two share an aisle it is counted twice, so the sum is an upper bound.")
        .when(IS_FLOOR),
    input("d", "Share in use", PERCENT, [0.0, 100.0], [1.0, 100.0])
        .usually(100.0)
        .help("Mean over connected while it is on: the demand factor.")
        .when(RUNS),
    choice("on", "It is on", NUMBER, &[(IN_SERVICE, 0.0), (ALWAYS, 0.0)])
        .help("For what it takes in a day.")
        .when(RUNS),
];

/// Power of one, from its nameplate.
pub fn power(w: &Work, row: &Row) -> Result<Q, Stop> {
    if w.word(row, "by")? == BY_POWER {
        return Ok(w.of::<1>(row, ["P"])?[0]);
    }
    let [current, factor] = w.of(row, ["I", "φ_i"])?;
    let Some(voltage) = w.optional(&w.top(), "U")? else {
        let reason = format!("{}: amperes become power by the voltage, which is still to be typed", row.key);
        return Err(Stop::todo("U", reason, "Type the voltage between two lines."));
    };
    let power = three_phase_power(current, voltage, factor);
    // One line and neutral is a third of three lines with that current.
    Ok(if w.word(row, "supply_i")? == THREE { power } else { power / 3.0 })
}

/// Gas of one, as an amount in a time, whichever litres it was typed in.
pub fn gas(w: &Work, row: &Row, room: Q) -> Result<Q, Stop> {
    if w.word(row, "given")? == NAMED {
        return Ok(w.of::<1>(row, ["q_g"])?[0]);
    }
    let [q, gauge, t] = w.of(row, ["q_l", "p_g", "T_g"])?;
    amount_flow(q, t, gauge + room).or_stop_row("p_g", &row.key)
}
