//! A plan from outside: a file, a link, a store that others too can write. It is read within limits, and
//! what comes out may be worked out and shown like any other.

use super::{Entry, FORMAT, Plan};
use std::sync::Arc;

/// The longest text that is read, in bytes: a large plan is some tens of thousands.
pub const LONGEST: usize = 1_000_000;
/// More places than any line has; the sums of so many still take less than a blink.
pub const MOST_PLACES: usize = 300;
/// More rows than any table needs.
pub const MOST_ROWS: usize = 200;
/// Longer than anything that is typed into a field, in characters.
pub const LONGEST_ENTRY: usize = 400;
/// The longest note to a plan, in characters.
pub const LONGEST_NOTES: usize = 20_000;

/// Reads a plan, or says in a clause why not. It never stops the program, whatever the text.
pub fn read(text: &str) -> Result<Plan, String> {
    if text.len() > LONGEST {
        return Err(format!("it is longer than {} kB, which no plan is.", LONGEST / 1000));
    }
    // Nesting is bounded by serde_json itself, at 128.
    let plan: Plan =
        serde_json::from_str(text).map_err(|_| "it is not a plan that this version can read.".to_string())?;
    if plan.format > FORMAT {
        return Err("it was made by a newer version of Bathbook.".into());
    }
    if plan.places.len() > MOST_PLACES {
        return Err(format!("it has more than {MOST_PLACES} places."));
    }
    let sheets = || plan.places.iter().flat_map(|place| place.sheets.values());
    if sheets().flat_map(|sheet| sheet.rows.values()).any(|rows| rows.len() > MOST_ROWS) {
        return Err(format!("a table in it has more than {MOST_ROWS} rows."));
    }
    let rows = || sheets().flat_map(|sheet| sheet.rows.values().flatten().map(|(_, entries)| entries));
    let entries = || sheets().map(|sheet| &sheet.entries).chain(rows()).flat_map(|entries| entries.values());
    let is_long = |entry: &Entry| entry.text.chars().count() > LONGEST_ENTRY;
    if entries().any(is_long) || plan.notes.chars().count() > LONGEST_NOTES {
        return Err(format!("a field in it holds more than {LONGEST_ENTRY} characters."));
    }
    Ok(cleaned(plan).mended())
}

/// Without what steers a screen in place of standing on it. Names are tidied when the plan is mended.
fn cleaned(mut plan: Plan) -> Plan {
    plan.name = line(&plan.name, 80);
    plan.notes.retain(|c| c == '\n' || !steers(c));
    for sheet in plan.places.iter_mut().flat_map(|place| place.sheets.values_mut()).map(Arc::make_mut) {
        sheet.entries.values_mut().for_each(clean);
        for rows in sheet.rows.values_mut() {
            let mut kept: Vec<(String, super::Entries)> = Vec::with_capacity(rows.len());
            for (key, mut entries) in rows.drain(..) {
                let key = line(&key, 60);
                // Rows of one name are one thing: the first stands.
                if kept.iter().all(|(known, _)| *known != key) {
                    entries.values_mut().for_each(clean);
                    kept.push((key, entries));
                }
            }
            *rows = kept;
        }
    }
    plan
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
            (&" ".repeat(LONGEST + 1), "longer than 1000 kB"),
        ] {
            assert!(read(text).unwrap_err().contains(why));
        }
        assert!(with(|plan| plan["format"] = 999.into()).unwrap_err().contains("newer version"));
    }

    #[test]
    fn more_than_any_line_has_is_refused() {
        let many = |plan: &mut serde_json::Value| {
            let place = plan["places"][0].clone();
            plan["places"] = vec![place; MOST_PLACES + 1].into();
        };
        assert!(with(many).unwrap_err().contains("300 places"));
        let long = |plan: &mut serde_json::Value| {
            plan["places"][0]["sheets"] = serde_json::json!({"site": {"entries": {"x": "9".repeat(401)}}});
        };
        assert!(with(long).unwrap_err().contains("400 characters"));
        let rows = |plan: &mut serde_json::Value| {
            let rows: Vec<_> = (0..=MOST_ROWS).map(|k| serde_json::json!([k.to_string(), {}])).collect();
            plan["places"][0]["sheets"] = serde_json::json!({"site": {"rows": {"permit": rows}}});
        };
        assert!(with(rows).unwrap_err().contains("200 rows"));
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
}
