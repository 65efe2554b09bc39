//! Capacity: chambers, uptime, counters, doses in whole steps.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::bath_balance::time_to_limit;
use bathbook::science::dosing::*;
use bathbook::science::throughput::*;
use bathbook::units::*;

/// What one chamber plates in an hour.
fn each(row: &Row) -> Result<Q, Problem> {
    let (plating, handling) = (row.q("plating", MINUTE)?, row.q("handling", MINUTE)?);
    Ok(one_chamber(1.0.into(), plating, handling, row.q("uptime", SHARE)?)?)
}

fn wafers_an_hour(row: &Row) -> Result<Q, Problem> {
    Ok(Q::constant("N", row.number_before("wafer/h")?, PER_HOUR))
}

/// "Cu:4 chambers 22 min 3 min handling": wafers an hour of each station, and the robot last.
fn stations(row: &Row) -> Result<(Vec<Q>, Vec<String>), Problem> {
    let uptime = row.q("uptime", SHARE)?;
    let unread = || Problem::Unread(format!("stations of “{}”", row.inputs));
    let (mut rates, mut names) = (Vec::new(), Vec::new());
    for text in row.text("stations")?.split('+') {
        let (name, rest) = text.split_once(':').ok_or_else(unread)?;
        let mut numbers = rest.split(' ').filter_map(|word| word.parse::<f64>().ok());
        let mut next = || numbers.next().ok_or_else(unread);
        let (chambers, plating, handling) = (next()?, next()?, next()?);
        let [plating, handling] = [plating, handling].map(|number| Q::constant("t", number, MINUTE));
        rates.push(wafers_per_time(chambers.into(), 1.0.into(), plating, handling, uptime)?);
        names.push(name.to_string());
    }
    rates.push(Q::constant("robot", row.number_before("wafer/h")?, PER_HOUR) * uptime);
    names.push("robot".into());
    Ok((rates, names))
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("U.wafers-per-hour", |row| {
            let (plating, handling) = (row.q("plating", MINUTE)?, row.q("handling", MINUTE)?);
            let chambers = row.number("chambers")?.into();
            let rate = wafers_per_time(chambers, 1.0.into(), plating, handling, row.q("uptime", SHARE)?)?;
            Ok(Found::Number(rate.number(PER_HOUR)))
        }),
        ("U.chambers-needed", |row| {
            let wanted = Q::constant("N", row.number("wanted")?, PER_HOUR);
            Ok(Found::Number(whole_chambers(chambers_before_rounding(wanted, each(row)?)?).si))
        }),
        ("U.line-rate", |row| Ok(Found::Number(line_rate(&stations(row)?.0)?.0.number(PER_HOUR)))),
        ("U.uptime", |row| {
            let stops = if row.given("planned stops").is_some() { "planned stops" } else { "stops" };
            let share = uptime(row.q("calendar", HOUR)?, row.q(stops, HOUR)?, row.q("failures", HOUR)?)?;
            Ok(Found::Quantity(share, NUMBER))
        }),
        ("U.whole-dose", |row| {
            Ok(Found::Number(dose_now(row.q("wanted", ML)?, row.q("step", ML)?)?.number(ML)))
        }),
        ("U.doses-in-steps", |row| {
            let step = Q::constant("step", 1.0, ML);
            Ok(Found::Number(dosed_after(row.q("need", ML)?, step, row.number("triggers")?)?.number(ML)))
        }),
        ("U.trigger-interval", |row| {
            let step = row.q("step", ML)?;
            if row.unit == "wafer" {
                let each = Q::constant("use", row.number("consumption")?, ML);
                return Ok(Found::Number(trigger_interval(step, each)?.si));
            }
            let rate = Q::constant("use", row.number("consumption")?, ML_PER_KAH);
            Ok(Found::Quantity(trigger_interval(step, rate)?, A_H))
        }),
        ("U.counter-charge", |row| {
            let each = Q::constant("q", row.number("charge")?, A_H);
            Ok(Found::Quantity(counter_after(wafers_an_hour(row)?, each, row.q("t", HOUR)?), A_H))
        }),
        ("U.hours-to-limit", |row| {
            let each = Q::constant("q", row.number("charge")?, A_H);
            let limit = row.q("limit", A_H)?;
            Ok(Found::Quantity(time_to_limit(limit, wafers_an_hour(row)? * each)?, HOUR))
        }),
    ]
}
