//! Times of the reader's own clock, in words.

use web_sys::js_sys::Date;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// Now, in ms since 1970.
pub fn now() -> f64 {
    Date::now()
}

fn date(ms: f64) -> Date {
    Date::new(&ms.into())
}

fn month(date: &Date) -> &'static str {
    MONTHS.get(date.get_month() as usize).copied().unwrap_or_default()
}

/// "25 November 2026".
pub fn day(ms: f64) -> String {
    let date = date(ms);
    format!("{} {} {}", date.get_date(), month(&date), date.get_full_year())
}

/// "25 Nov", for the name of a new plan.
pub fn short_day(ms: f64) -> String {
    let date = date(ms);
    format!("{} {}", date.get_date(), month(&date).get(..3).unwrap_or_default())
}

/// "today 14:02", "yesterday 14:02", or the day.
pub fn moment(ms: f64) -> String {
    if !ms.is_finite() || ms <= 0.0 {
        return "at an unknown time".into();
    }
    let then = date(ms);
    let clock = format!("{:02}:{:02}", then.get_hours(), then.get_minutes());
    let day_of = |ms: f64| day(ms);
    if day_of(ms) == day_of(now()) {
        format!("today {clock}")
    } else if day_of(ms) == day_of(now() - 86_400_000.0) {
        format!("yesterday {clock}")
    } else {
        day_of(ms)
    }
}

/// "today 14:02", "25 November 2026 14:02".
pub fn to_the_minute(ms: f64) -> String {
    let said = moment(ms);
    if said.contains(':') {
        return said;
    }
    let then = date(ms);
    format!("{said} {:02}:{:02}", then.get_hours(), then.get_minutes())
}
