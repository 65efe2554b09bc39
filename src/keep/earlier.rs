//! Which earlier versions of a plan are kept: the last ones all, then one an hour, one a day, one a month.

use super::record::decode;
use crate::plan::{Plan, foreign};

/// An earlier version of a plan, as it was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Version {
    /// When it was saved, in ms since 1970.
    pub saved_at: f64,
    /// The plan, or what is wrong and the text as it is kept.
    pub plan: Result<Plan, (String, String)>,
}

/// The versions of a plan, newest first, each found as key and raw text in the order of the keys. What cannot be read is
/// among them.
pub fn versions(id: &str, found: Vec<(String, String)>) -> Vec<Version> {
    let version = |(key, raw): (String, String)| match decode(id, &raw) {
        Ok(record) => {
            let plan = foreign::read(&record.text).map_err(|why| (why, record.text));
            Version { saved_at: record.saved_at, plan }
        }
        Err(why) => Version { saved_at: time(&key).unwrap_or(0.0), plan: Err((why, raw)) },
    };
    found.into_iter().rev().map(version).collect()
}

/// So many of the newest are always kept, however close together.
pub const ALWAYS: usize = 20;

/// Two versions are this far apart, in ms: what lies between is what undo is for.
pub const APART: f64 = 60_000.0;

const HOUR: f64 = 3_600_000.0;
const DAY: f64 = 24.0 * HOUR;
const MONTH: f64 = 30.0 * DAY;

/// Where a version is kept. Keys of one plan stand in the order of their times.
pub fn key(id: &str, saved_at: f64) -> String {
    format!("{id} {saved_at:015.0}")
}

/// The first and last key that a plan's versions can have.
pub fn keys_of(id: &str) -> [String; 2] {
    [key(id, 0.0), key(id, 999_999_999_999_999.0)]
}

/// When the version of a key was saved, in ms since 1970.
pub fn time(key: &str) -> Option<f64> {
    key.rsplit_once(' ')?.1.parse().ok()
}

/// Whether what was stored at `stored` is to be kept as a version, now that it is replaced: if it stood
/// for a while, or the last version is a while old. `times` are those of the versions, oldest first.
pub fn is_due(times: &[f64], stored: f64, now: f64) -> bool {
    // A clock that was put back is no reason to keep none.
    let is_apart = |a: f64, b: f64| (a - b).abs() >= APART;
    is_apart(now, stored) || times.last().is_none_or(|last| is_apart(stored, *last))
}

/// The versions to let go, of those saved at `times`, oldest first: beyond the newest [`ALWAYS`], the last
/// of each hour is kept for a day, the last of each day for a month, and the last of each month.
pub fn thinned(times: &[f64], now: f64) -> Vec<f64> {
    let older = times.len().saturating_sub(ALWAYS);
    let part = |time: f64| {
        let age = now - time;
        let length =
            [(DAY, HOUR), (MONTH, DAY)].iter().find(|(most, _)| age < *most).map_or(MONTH, |it| it.1);
        (length, (time / length).floor())
    };
    let is_followed = |at: usize| {
        let next = times.get(at + 1).filter(|_| at + 1 < older);
        next.is_some_and(|next| part(*next) == part(times[at]))
    };
    (0..older).filter(|at| is_followed(*at)).map(|at| times[at]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::keep::record::{Draft, NEWER};
    use crate::plan::steps::text_of;
    use proptest::prelude::*;

    const MINUTE: f64 = 60_000.0;

    /// A plan that is changed every so many ms: what is kept after so many changes.
    fn kept(every: f64, changes: usize) -> Vec<f64> {
        let mut times: Vec<f64> = Vec::new();
        let start = 20_000.0 * DAY;
        for k in 0..changes {
            let (stored, now) = (start + k as f64 * every, start + (k + 1) as f64 * every);
            if is_due(&times, stored, now) {
                times.push(stored);
            }
            let gone = thinned(&times, now);
            times.retain(|time| !gone.contains(time));
        }
        times
    }

    #[test]
    fn typing_makes_one_version_a_minute() {
        let times = kept(1000.0, 10 * 60);
        assert_eq!(times.len(), 10);
        assert!(times.windows(2).all(|pair| pair[1] - pair[0] >= APART));
    }

    #[test]
    fn what_stood_before_a_pause_is_a_version_whenever_the_last_one_was() {
        assert!(!is_due(&[0.0], 30_000.0, 31_000.0));
        assert!(is_due(&[0.0], 30_000.0, 30_000.0 + 5.0 * HOUR));
        assert!(is_due(&[9.0 * HOUR], HOUR, HOUR + 1.0), "the clock was put back");
    }

    #[test]
    fn a_year_of_daily_work_leaves_the_last_twenty_and_some_of_each_age() {
        let times = kept(15.0 * MINUTE, 365 * 96);
        let newest = times.last().copied().unwrap();
        let within = |age: f64| times.iter().filter(|time| newest - **time < age).count();
        assert!(within(5.0 * HOUR) >= 20, "{}", within(5.0 * HOUR));
        assert!((30..=45).contains(&within(DAY)), "{}", within(DAY));
        assert!((58..=76).contains(&within(MONTH)), "{}", within(MONTH));
        assert!((68..=92).contains(&times.len()), "{}", times.len());
    }

    #[test]
    fn keys_stand_in_the_order_of_time_and_tell_it() {
        let [first, last] = keys_of("p");
        let (early, late) = (key("p", 1.7e12), key("p", 1.75e12));
        assert!(first < early && early < late && late < last && !last.starts_with("p2"));
        assert_eq!(time(&late), Some(1.75e12));
        assert_eq!(time("p"), None);
    }

    #[test]
    fn a_version_that_cannot_be_read_is_among_the_others_as_it_is_kept() {
        let plan = Plan::new("Line");
        let record = |text: &str, at: f64| {
            let (id, name, text) = ("p".into(), "Line".into(), text.into());
            Draft { id, name, text, binned_at: None }.record(1, at).encode()
        };
        let newer_plan = r#"{"format":9,"title":"Line"}"#;
        let raw = [
            record(&text_of(&plan), 1e12),
            record(newer_plan, 2e12),
            "{cut".to_string(),
            record("", 4e12).replacen('{', r#"{"format":2,"#, 1),
        ];
        let found = raw.iter().zip(1..).map(|(raw, at)| (key("p", f64::from(at) * 1e12), raw.clone()));
        let wrong = |why: &str, raw: &str| Err((why.to_string(), raw.to_string()));
        let wanted = [
            Version { saved_at: 4e12, plan: wrong(NEWER, &raw[3]) },
            Version { saved_at: 3e12, plan: wrong("it can't be read", &raw[2]) },
            Version { saved_at: 2e12, plan: wrong(foreign::NEWER, newer_plan) },
            Version { saved_at: 1e12, plan: Ok(plan) },
        ];
        assert_eq!(versions("p", found.collect()), wanted);
    }

    proptest! {
        #[test]
        fn the_newest_twenty_and_the_oldest_of_all_ages_stay(ages in prop::collection::vec(0.0..1e11f64, 0..200)) {
            let now = 2e12;
            let mut times: Vec<f64> = ages.iter().map(|age| now - age).collect();
            times.sort_by(f64::total_cmp);
            let gone = thinned(&times, now);
            let newest = &times[times.len().saturating_sub(ALWAYS)..];
            prop_assert!(newest.iter().all(|time| !gone.contains(time)));
            let left: Vec<f64> = times.iter().copied().filter(|time| !gone.contains(time)).collect();
            prop_assert!(thinned(&left, now).is_empty(), "thinning again takes no more");
            prop_assert!(left.len() <= ALWAYS + 25 + 31 + 41);
        }
    }
}
