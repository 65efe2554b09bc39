//! Inputs that several sheets of a bath ask for, in the same words. How one starts, its heading, and whether
//! it can do without what it follows is said where it stands.

use crate::calculator::{Input, Severity, Stop, Work, choice, input};
use crate::calculators::{CLASSES, UNKNOWN};
use crate::quantity::Q;
use crate::units::{
    A_H, CELSIUS, HOUR, KG_PER_L, KJ_PER_KG_K, L, L_PER_DAY, M, M_PER_S, ML, NUMBER, PER_DAY, PERCENT, Unit,
    VOLT, WATT,
};

/// All that circulates, as made up.
pub const fn volume() -> Input {
    input("V", "Volume in circulation", L, [0.01, 100_000.0], [1.0, 5000.0]).follows(&[("make-up", "V")])
}

/// What the bath is by hazard, as made up.
pub const fn class() -> Input {
    choice("class", "Class", NUMBER, CLASSES).starts_at(UNKNOWN).follows(&[("make-up", "class")])
}

/// Wafers a day, of the plating load.
pub const fn wafers() -> Input {
    input("N", "Wafers a day", PER_DAY, [0.0, 1e6], [0.0, 20_000.0])
        .needed()
        .follows(&[("plating", "N")])
        .help("That this bath plates on a mean working day.")
}

/// Charge of a wafer, of the plating load.
pub const fn charge() -> Input {
    input("q_w", "Charge of a wafer", A_H, [0.0, 1e5], [0.0, 200.0])
        .needed()
        .follows(&[("plating", "Q_w")])
        .help("Plating minutes times amperes; 60 A·min are 1 A·h.")
}

/// Drag-out of a wafer, of the plating load, which passes on what the sheet of drag-out finds.
pub const fn drag_out() -> Input {
    input("d_w", "Drag-out a wafer", ML, [0.0, 10_000.0], [0.0, 50.0])
        .usually(0.0)
        .follows(&[("plating", "d_w"), ("drag-out", "d_w")])
}

/// Bath drawn off steadily.
pub const fn bleed() -> Input {
    input("q_b", "Bleed", L_PER_DAY, [0.0, 1e6], [0.0, 1000.0]).usually(0.0)
}

/// Hours of service, of the site.
pub const fn hours() -> Input {
    input("hours", "Hours of service a day", HOUR, [0.1, 24.0], [4.0, 24.0])
        .usually(24.0)
        .from_site(&[("site", "hours")])
}

/// Days of service, of the site.
pub const fn days() -> Input {
    input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0])
        .usually(350.0)
        .from_site(&[("site", "days")])
        .help("Working days; shutdowns are not among them.")
}

/// The air of the room: how warm.
pub const fn room_temperature() -> Input {
    input("T_room", "Room temperature", CELSIUS, [-20.0, 60.0], [15.0, 30.0])
        .usually(21.0)
        .from_site(&[("site", "T_room")])
        .help("Of the air around the bath.")
}

/// The air of the room: how humid.
pub const fn humidity() -> Input {
    input("RH", "Relative humidity of the room", PERCENT, [0.0, 100.0], [20.0, 80.0])
        .usually(45.0)
        .from_site(&[("site", "RH")])
}

/// The air over the bath: how fast.
pub const fn air_speed() -> Input {
    input("v_air", "Air speed at the surface", M_PER_S, [0.0, 5.0], [0.05, 0.5])
        .usually(0.2)
        .from_site(&[("site", "v_air")])
        .help("Exhaust sets it: 0.2 to 0.5 m/s over a tank with lip exhaust, common practice.")
}

/// How high the site lies.
pub const fn height() -> Input {
    input("z_site", "Height above sea level", M, [-400.0, 5000.0], [0.0, 2500.0])
        .usually(0.0)
        .from_site(&[("site", "z_site")])
}

/// Voltage at the tank, under the symbol that is free on the sheet.
pub const fn voltage(symbol: &'static str) -> Input {
    input(symbol, "Voltage at the tank", VOLT, [0.0, 100.0], [0.0, 12.0]).usually(3.0).help(
        "In the mean while it plates, at the tank and not at the rectifier; nearly all of it becomes heat.",
    )
}

/// Heat of the pumps that circulate the bath.
pub const fn pump_heat() -> Input {
    input("P_pump", "Heat from pumps", WATT, [0.0, 1e5], [0.0, 3000.0]).usually(0.0).help(
        "About the shaft power of the pumps that circulate the bath; on a small bath it is most of the heat.",
    )
}

/// Density of the bath, `ρ`: as known; where it is not, that of a usual acid copper bath, which is said
/// (common practice, no source).
pub fn density_or_usual(w: &mut Work) -> Result<Q, Stop> {
    or_usual(w, "ρ", "Density", 1.18, KG_PER_L)
}

/// Heat capacity of the bath, `c_p`: as known; where it is not, that of a usual acid copper
/// bath, which is said (common practice, no source).
pub fn heat_capacity_or_usual(w: &mut Work) -> Result<Q, Stop> {
    or_usual(w, "c_p", "Heat capacity", 3.45, KJ_PER_KG_K)
}

fn or_usual(w: &mut Work, symbol: &str, label: &str, usual: f64, unit: &'static Unit) -> Result<Q, Stop> {
    let top = w.top();
    if let Some(known) = w.optional(&top, symbol)? {
        return Ok(known);
    }
    let taken = Q::constant(symbol, usual, unit);
    let text = format!(
        "{label} not known; {} assumed, that of a usual acid copper bath. Type the bath’s own.",
        w.style.show(taken.si, unit)
    );
    w.add_finding(&top, symbol, Severity::Note, text);
    Ok(taken)
}
