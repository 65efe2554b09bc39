//! Gas, water and power for the whole line.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::electricity::*;
use bathbook::science::exchange::coolant_flow;
use bathbook::science::gas::*;
use bathbook::science::water;
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("T.normal-to-actual", |row| {
            let normal = reading(row.text("q")?, NORMAL_L_PER_MIN)?;
            Ok(Found::Quantity(actual_flow(normal, row.q("T", CELSIUS)?, row.q("p", KPA)?)?, L_PER_MIN))
        }),
        ("T.normal-to-standard", |row| {
            let normal = reading(row.text("q")?, NORMAL_L_PER_MIN)?;
            let to = match row.inputs.split("standard at ").nth(1).unwrap_or_default() {
                "70 degF, 14.696 psia" => GAS_L_PER_MIN_70F,
                "20 degC, 101.325 kPa" => STANDARD_L_PER_MIN,
                "15 degC, 101.325 kPa" => GAS_L_PER_MIN_15,
                other => return Err(Problem::Unread(format!("no reference {other}"))),
            };
            Ok(Found::Number(normal.number(to)))
        }),
        ("T.scfm-to-normal", |row| {
            // Of the references in these rows one has a unit of its own; the other is read as it stands.
            let text = row.text("q")?;
            let normal = if text.contains("60 degF, 14.696 psia") {
                reading(text, STANDARD_FT3_PER_MIN)?
            } else {
                let q = reading(text, CUBIC_FOOT_PER_MIN)?;
                amount_flow(q, Q::constant("T", 68.0, FAHRENHEIT), Q::constant("p", 14.7, PSI))?
            };
            Ok(Found::Number(normal.number(NORMAL_L_PER_MIN)))
        }),
        ("T.standard-to-actual", |row| {
            let hourly = |number| Q::constant("q", number, CUBIC_FOOT_PER_MIN) / 60.0;
            let atm = |number| Q::constant("p", number, ATMOSPHERE);
            // The source takes 492 and 745 °R, with absolute zero at −460 °F and not −459.67.
            let degrees = |number: f64| Q::constant("T", (number + 460.0) / 1.8, KELVIN);
            let amount = amount_flow(hourly(row.number_before("ft3/h")?), degrees(32.0), atm(1.0))?;
            Ok(Found::Number(
                actual_flow(amount, degrees(285.0), atm(1.30))?.number(CUBIC_FOOT_PER_MIN) * 60.0,
            ))
        }),
        ("T.free-air", |row| {
            let psi = |number| Q::constant("p", number, PSI);
            let degrees = |number| Q::constant("T", number, FAHRENHEIT);
            let flow = reading(row.text("flow")?, CUBIC_FOOT_PER_MIN)?;
            let gauge = row.number_before("psig")?;
            let amount = amount_flow(flow, degrees(90.0), psi(gauge) + psi(14.7))?;
            Ok(Found::Quantity(actual_flow(amount, degrees(70.0), psi(14.7))?, CUBIC_FOOT_PER_MIN))
        }),
        ("T.compressor-power", |row| {
            let (flow, inlet, unit) = match number_after(row, "inlet") {
                Ok(inlet) => {
                    let normal = Q::constant("n", row.number_before("NL/min")?, NORMAL_L_PER_MIN);
                    let inlet = Q::constant("p1", inlet, KPA);
                    let degrees = Q::constant("T", number_after(row, "absolute")?, CELSIUS);
                    (actual_flow(normal, degrees, inlet)?, inlet, KPA)
                }
                Err(_) => {
                    let free = Q::constant("q", row.number_before("ft3/min")?, CUBIC_FOOT_PER_MIN);
                    (free, Q::constant("p1", number_after(row, "at")?, PSI), PSI)
                }
            };
            let efficiency =
                row.number("isentropic efficiency").or_else(|_| row.number("overall efficiency"))?;
            let outlet = Q::constant("p2", number_after(row, "outlet")?, unit);
            let power = compressor_power(flow, inlet, outlet, Q::from(efficiency))?;
            Ok(Found::Quantity(power, KW))
        }),
        ("T.receiver-time", |row| {
            let (p1, p2) = pressures(row, KPA)?;
            let n = reading(row.text("net demand")?, NORMAL_L_PER_MIN)?;
            let t = Q::constant("T", 20.0, CELSIUS);
            Ok(Found::Quantity(receiver_time(row.q("receiver", L)?, p1, p2, n, t)?, MINUTE))
        }),
        ("T.receiver-volume", |row| {
            let (p1, p2) = pressures(row, PSI)?;
            let t = Q::constant("T", 20.0, CELSIUS);
            let free = reading(row.text("net demand")?, CUBIC_FOOT_PER_MIN)?;
            let n = amount_flow(free, t, Q::constant("p", row.number_before("psia")?, PSI))?;
            Ok(Found::Number(receiver_volume(row.q("t", MINUTE)?, p1, p2, n, t)?.number(GALLON)))
        }),
        ("T.three-phase-current", |row| {
            let (p, u) = (row.q("P", KW)?, row.q("U", VOLT)?);
            Ok(Found::Quantity(three_phase_current(p, u, Q::from(row.number("pf")?))?, AMPERE))
        }),
        ("T.three-phase-power", |row| {
            let (i, u) = (row.q("I", AMPERE)?, row.q("U", VOLT)?);
            Ok(Found::Quantity(three_phase_power(i, u, Q::from(row.number("pf")?)), KW))
        }),
        ("T.apparent-power", |row| {
            Ok(Found::Quantity(apparent_power(row.q("I", AMPERE)?, row.q("U", VOLT)?), KVA))
        }),
        ("T.rectifier-input", |row| Ok(Found::Quantity(rectifier(row)?, KW))),
        ("T.rectifier-line-current", |row| {
            let text = row.inputs.split("three phase ").nth(1).unwrap_or_default();
            let u = Q::named("U", value(text, VOLT)?);
            Ok(Found::Quantity(three_phase_current(rectifier(row)?, u, Q::from(row.number("pf")?))?, AMPERE))
        }),
        ("T.connected-load", |row| {
            let all: f64 = numbers(row.text("loads kW")?)?.iter().sum();
            Ok(Found::Quantity(demand(Q::constant("P", all, KW), Q::from(row.number("demand factor")?)), KW))
        }),
        ("T.water-total", |row| {
            let flows = numbers(row.text("rinses L/min")?)?;
            let shares = numbers(row.text("share of time")?)?;
            let each =
                flows.iter().zip(shares).map(|(q, s)| demand(Q::constant("q", *q, L_PER_MIN), Q::from(s)));
            Ok(Found::Quantity(each.sum(), M3_PER_DAY))
        }),
        ("T.cooling-water-flow", |row| {
            let t = Q::constant("T", 20.0, CELSIUS);
            let rise = Q::constant("ΔT", row.number("rise")?, KELVINS);
            let flow = coolant_flow(row.q("heat", KW)?, water::density(t)?, water::heat_capacity(t)?, rise);
            Ok(Found::Quantity(flow, L_PER_MIN))
        }),
    ]
}

/// A flow whose reference stands behind it in brackets or words, which its unit says already.
fn reading(text: &str, unit: &'static Unit) -> Result<Q, Problem> {
    let number = text.split_whitespace().next().and_then(|text| text.parse().ok());
    let number = number.ok_or_else(|| Problem::Unread(format!("no number in “{text}”")))?;
    Ok(Q::constant("q", number, unit))
}

/// `p 800->600 kPa gauge`.
fn pressures(row: &Row, unit: &'static Unit) -> Result<(Q, Q), Problem> {
    let unread = || Problem::Unread(format!("no fall in “{}”", row.inputs));
    let (before, after) = row.inputs.split_once("->").ok_or_else(unread)?;
    let last = before.split([' ', '=']).next_back().and_then(|text| text.parse().ok());
    let first = after.split(' ').next().and_then(|text| text.parse().ok());
    let pressure = |number: f64| Q::constant("p", number, unit);
    Ok((pressure(last.ok_or_else(unread)?), pressure(first.ok_or_else(unread)?)))
}

/// `dc 200 A at 6 V`.
fn rectifier(row: &Row) -> Result<Q, Problem> {
    let (i, u) = (row.number_before("A")?, row.number_before("V")?);
    let (i, u) = (Q::constant("I", i, AMPERE), Q::constant("U", u, VOLT));
    Ok(rectifier_input(i, u, Q::from(row.number("efficiency")?))?)
}

/// `12+6+4.5+3`.
fn numbers(text: &str) -> Result<Vec<f64>, Problem> {
    let read =
        |part: &str| part.trim().parse().map_err(|_| Problem::Unread(format!("“{part}” is no number")));
    text.split('+').map(read).collect()
}

/// The number that stands behind a word: 801.325 in "outlet 801.325 kPa".
fn number_after(row: &Row, word: &str) -> Result<f64, Problem> {
    let words: Vec<_> = row.inputs.split([' ', ';']).collect();
    let found = words.windows(2).find(|pair| pair[0] == word).and_then(|pair| pair[1].parse().ok());
    found.ok_or_else(|| Problem::Unread(format!("no number behind {word} in “{}”", row.inputs)))
}
