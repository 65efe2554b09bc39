//! A plan from outside: a file, a link, a store that others too can write. It is read within limits, and
//! what comes out may be worked out and shown like any other.

use super::document::{numbered, tidy};
use super::limits::{LARGEST, LONGEST_ENTRY, TooMuch};
use super::{Entry, FORMAT, Plan, Sheet, ticks};
use serde::Deserialize;
use std::collections::BTreeSet;
use std::sync::Arc;

/// The longest text that is read, in bytes. What a plan may hold is counted without the lines and spaces of a file,
/// which can make ten times as much of the smallest rows.
pub const LONGEST: usize = 10 * LARGEST;

/// What a plan or an archive of any version says of itself, however else it looks.
#[derive(Deserialize)]
struct Head {
    format: u64,
}

/// Why a newer version's plan or archive is not read.
pub const NEWER: &str = "it was made by a newer version of Bathbook.";

/// Whether a text says that its format is a later one than `known`.
pub(crate) fn is_newer(text: &str, known: u32) -> bool {
    serde_json::from_str(text).is_ok_and(|Head { format }| format > known.into())
}

/// Reads a plan, or says in a clause why not. It never stops the program, whatever the text.
pub fn read(text: &str) -> Result<Plan, String> {
    if text.len() > LONGEST {
        return Err(format!("it is longer than {} MB, which no plan is.", LONGEST / 1_000_000));
    }
    // A newer plan may look like none that is known here.
    if is_newer(text, FORMAT) {
        return Err(NEWER.into());
    }
    // Nesting is bounded by serde_json itself, at 128.
    let plan: Plan =
        serde_json::from_str(text).map_err(|_| "it is not a plan that this version can read.".to_string())?;
    within(&plan)?;
    let mut plan = cleaned(plan).mended();
    // Read, it is one of today's, and the same as another that says the same.
    plan.format = FORMAT;
    // Mending may have brought a site.
    within(&plan)?;
    Ok(plan)
}

fn within(plan: &Plan) -> Result<(), String> {
    TooMuch::of(plan).map_or(Ok(()), |much| Err(much.found()))
}

/// Without what steers a screen in place of standing on it. Names are tidied when the plan is mended.
fn cleaned(mut plan: Plan) -> Plan {
    plan.name = line(&plan.name, 80);
    plan.notes.retain(|c| c == '\n' || !steers(c));
    for sheet in plan.places.iter_mut().flat_map(|place| place.sheets.values_mut()).map(Arc::make_mut) {
        clean_sheet(sheet);
    }
    plan
}

fn clean_sheet(sheet: &mut Sheet) {
    sheet.entries.values_mut().for_each(clean);
    for rows in sheet.rows.values_mut() {
        let mut kept: Vec<(String, super::Entries)> = Vec::with_capacity(rows.len());
        let mut known: BTreeSet<String> = BTreeSet::new();
        for (key, mut entries) in rows.drain(..) {
            // Rows of one name are one thing: the first stands.
            if known.insert(key.clone()) {
                entries.values_mut().for_each(clean);
                let taken = |name: &str| kept.iter().any(|(known, _)| known == name);
                kept.push((numbered(&tidy(&key), taken), entries));
            }
        }
        *rows = kept;
    }
    let ticks = std::mem::take(&mut sheet.ticks).into_iter();
    sheet.ticks.extend(ticks.map(|(step, at)| (ticks::clean_name(&step), line(&at, LONGEST_ENTRY))));
}

fn clean(entry: &mut Entry) {
    for text in [Some(&mut entry.text), entry.stands.as_mut(), entry.show.as_mut()].into_iter().flatten() {
        text.retain(|c| !steers(c));
    }
}

pub(crate) fn line(text: &str, longest: usize) -> String {
    let kept: String = text.chars().filter(|c| !steers(*c)).take(longest).collect();
    kept.trim().into()
}

/// Control characters, and those that turn the direction of what follows: with them a name can read as
/// another. Source: The Unicode Standard, UAX #9, "Explicit Directional Formatting Characters".
pub(super) fn steers(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{200e}' | '\u{200f}' | '\u{061c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::limits::{LONGEST_NOTES, MOST_PLACES, MOST_ROWS, MOST_TICKS};

    fn with(change: impl FnOnce(&mut serde_json::Value)) -> Result<Plan, String> {
        let mut value = serde_json::to_value(Plan::new("Line")).unwrap();
        change(&mut value);
        read(&value.to_string())
    }

    #[test]
    fn what_is_no_plan_says_why() {
        for (text, why) in [
            ("", "not a plan"),
            ("null", "not a plan"),
            ("[[[[", "not a plan"),
            (r#"{"format":1}"#, "not a plan"),
            (&"[".repeat(100_000), "not a plan"),
            (&" ".repeat(LONGEST + 1), "longer than 10 MB"),
        ] {
            assert!(read(text).unwrap_err().contains(why));
        }
    }

    #[test]
    fn a_newer_plan_is_told_as_such_whatever_its_shape() {
        for newer in [
            r#"{"format":2,"title":"Line","site":{"baths":[]}}"#,
            r#"{"lines":{"places":7},"format":18446744073709551615}"#,
            r#"{"format":2,"name":{"en":"Line"},"next":null,"places":{}}"#,
        ] {
            assert_eq!(read(newer), Err(NEWER.into()), "{newer}");
        }
        assert_eq!(with(|plan| plan["format"] = 999.into()), Err(NEWER.into()));
    }

    #[test]
    fn an_older_plan_is_one_of_today_once_it_is_read() {
        let older = with(|plan| plan["format"] = (FORMAT - 1).into());
        assert_eq!(older, Ok(Plan::new("Line")));
    }

    #[test]
    fn more_than_any_line_has_is_refused() {
        let many = |plan: &mut serde_json::Value| {
            let place = plan["places"][0].clone();
            plan["places"] = vec![place; MOST_PLACES + 1].into();
        };
        assert!(with(many).unwrap_err().contains("300 places"));
        let without_site = |plan: &mut serde_json::Value| {
            let place = serde_json::json!({"id": 1, "subject": "bath", "name": "Bath"});
            plan["places"] = vec![place; MOST_PLACES].into();
        };
        assert!(with(without_site).unwrap_err().contains("300 places"), "a site makes one more of them");
        let long = |plan: &mut serde_json::Value| {
            plan["places"][0]["sheets"] = serde_json::json!({"site": {"entries": {"x": "9".repeat(401)}}});
        };
        assert!(with(long).unwrap_err().contains("400 characters"));
        let rows = |plan: &mut serde_json::Value| {
            let rows: Vec<_> = (0..=MOST_ROWS).map(|k| serde_json::json!([k.to_string(), {}])).collect();
            plan["places"][0]["sheets"] = serde_json::json!({"site": {"rows": {"permit": rows}}});
        };
        assert!(with(rows).unwrap_err().contains("200 rows"));
        let ticks = |plan: &mut serde_json::Value, many: usize, at: &str| {
            let ticks: serde_json::Map<_, _> = (0..many).map(|k| (format!("[{k}]"), at.into())).collect();
            plan["places"][0]["sheets"] = serde_json::json!({"site": {"ticks": ticks}});
        };
        assert!(with(|plan| ticks(plan, MOST_TICKS + 1, "")).unwrap_err().contains("400 ticks"));
        assert!(with(|plan| ticks(plan, 1, &"9".repeat(401))).unwrap_err().contains("400 characters"));
        let remarks = |plan: &mut serde_json::Value| plan["notes"] = "9".repeat(LONGEST_NOTES + 1).into();
        assert_eq!(with(remarks), Err("its remarks hold more than 20000 characters.".into()));
    }

    #[test]
    fn rows_of_one_name_become_one_and_nothing_turns_the_direction_of_text() {
        let plan = with(|plan| {
            plan["name"] = "Line\u{202e}txt\u{0}".into();
            plan["places"][0]["sheets"] =
                serde_json::json!({"site": {"rows": {"permit": [["Cu", {"a": "1\u{2066}"}], ["Cu", {"a": "2"}]]}}});
        })
        .unwrap();
        assert_eq!(plan.name, "Linetxt");
        let rows = &plan.places[0].sheets["site"].rows["permit"];
        assert_eq!((rows.len(), rows[0].1["a"].text.as_str()), (1, "1"));
    }

    #[test]
    fn rows_and_ticks_of_a_file_are_named_as_those_of_the_page_are_and_none_is_lost() {
        let plan = with(|plan| {
            let rows = serde_json::json!([["[Cu]", {"a": "1"}], ["Cu", {"a": "2"}], ["N\u{202e}i", {}]]);
            let ticks = serde_json::json!({"[[Cu]]": "5 g\u{2066}", "Water\u{202e} at": "", "[Ni]": "7 g"});
            plan["places"][0]["sheets"] =
                serde_json::json!({"site": {"rows": {"permit": rows}, "ticks": ticks}});
        })
        .unwrap();
        let sheet = &plan.places[0].sheets["site"];
        let rows: Vec<_> = sheet.rows["permit"].iter().map(|(key, _)| key.as_str()).collect();
        assert_eq!(rows, ["Cu", "Cu 2", "Ni"]);
        let ticks: Vec<_> = sheet.ticks.iter().map(|(step, at)| (step.as_str(), at.as_str())).collect();
        assert_eq!(ticks, [("Water at", ""), ("[Cu]", "5 g"), ("[Ni]", "7 g")]);
    }

    #[test]
    fn names_as_long_as_they_may_be_stay_apart_when_they_are_read_again() {
        let mut plan = Plan::new("Line");
        let long = "x".repeat(60);
        let bath = plan.add(crate::calculator::Subject::Bath, &long);
        plan.add(crate::calculator::Subject::Bath, &long);
        for _ in 0..3 {
            plan.add_row(bath, "make-up", "ingredients", &long);
        }
        let last = plan.place(bath).unwrap().sheets["make-up"].rows["ingredients"][2].0.clone();
        plan.move_row(bath, "make-up", "ingredients", &last, false);
        plan.places.swap(1, 2);
        assert_eq!(read(&serde_json::to_string(&plan).unwrap()), Ok(plan));
    }
}
