//! What is kept on a device outlives damage to either store, and later versions of this program. The fixtures
//! were written by the versions that they are named after and are kept for ever.

use bathbook::keep::compare::{Settled, Store, settle};
use bathbook::keep::record::{NEWER, Record, decode};
use bathbook::keep::{Aside, Draft};
use bathbook::plan::foreign::read;
use bathbook::plan::{History, Plan, steps::text_of};
use serde_json::Value;
use std::slice::from_ref;

const PLAN_1: &str = include_str!("fixtures/plan-format-1.json");
const RECORD_1: &str = include_str!("fixtures/record-form-1.json");
const ID: &str = "alder0row0plan01";

fn old_record() -> Record {
    decode(ID, RECORD_1.trim_end()).expect("a record of form 1")
}

/// What starts from these two copies of one plan.
fn started(durable: Option<&str>, quick: Option<&str>) -> Settled {
    let store = |raw: Option<&str>| raw.map(|raw| (ID.to_string(), raw.to_string())).into_iter().collect();
    settle(store(durable), store(quick), 1.8e12, || "fresh".into())
}

#[test]
fn a_plan_of_format_1_opens_with_all_that_was_typed() {
    let plan = read(PLAN_1).expect("a plan");
    let (now, then) = (serde_json::to_value(&plan).unwrap(), serde_json::from_str::<Value>(PLAN_1).unwrap());
    assert_eq!(now["places"], then["places"]);
    assert_eq!((&now["name"], &now["notes"]), (&then["name"], &then["notes"]));
}

#[test]
fn a_record_of_form_1_is_read_and_its_plan_opens() {
    let record = old_record();
    assert_eq!((record.counter, record.name.as_str()), (7, "Alder Row pilot line (invented)"));
    assert_eq!(read(&record.text), read(PLAN_1));
    let settled = started(Some(RECORD_1.trim_end()), None);
    assert_eq!((settled.records, settled.aside.len()), (vec![record], 0));
}

#[test]
fn a_record_of_a_later_form_is_set_aside_untouched_and_told() {
    let later = RECORD_1.trim_end().replacen('{', r#"{"format":2,"pieces":["…"],"#, 1);
    let settled = started(Some(&later), None);
    assert_eq!(settled.records, []);
    let (store, key, aside) = &settled.aside[0];
    assert_eq!(
        (*store, key.as_str(), aside.raw.as_str(), aside.why.as_str()),
        (Store::Durable, ID, later.as_str(), NEWER)
    );
    assert!(settled.notes[0].contains("nothing was thrown away"), "{:?}", settled.notes);
}

/// Every way in which one copy can be cut, or one of its bits be turned over.
fn damaged(raw: &str) -> Vec<String> {
    let cuts = (0..raw.len()).filter_map(|at| raw.get(..at).map(String::from));
    let flips = (0..raw.len() * 8).map(|bit| {
        let mut bytes = raw.as_bytes().to_vec();
        bytes[bit / 8] ^= 1 << (bit % 8);
        // A store holds text: what is none any more comes back with marks for it.
        String::from_utf8_lossy(&bytes).into_owned()
    });
    cuts.chain(flips).collect()
}

#[test]
fn no_cut_or_turned_bit_of_a_record_harms_the_plan() {
    let text = text_of(&Plan::new("Line °"));
    let record = Draft { id: ID.into(), name: "Line °".into(), text, binned_at: None }.record(3, 1.7e12);
    let raw = record.encode();
    let (mut tried, mut aside) = (0, 0);
    for damaged in damaged(&raw) {
        for (durable, quick) in [(&damaged, &raw), (&raw, &damaged)] {
            let settled = started(Some(durable), Some(quick));
            // The whole copy is what starts, whatever became of the other.
            assert_eq!(settled.records, from_ref(&record), "{damaged}");
            let kept = |aside: &Aside| aside.raw == damaged && !aside.why.is_empty();
            assert!(settled.aside.iter().all(|(_, _, aside)| kept(aside)));
            tried += 1;
            aside += settled.aside.len();
        }
        // With no whole copy, what was found is kept; or it was no damage to what it says.
        let alone = started(Some(&damaged), None);
        assert!(alone.records == from_ref(&record) || alone.aside[0].2.raw == damaged, "{damaged}");
    }
    println!("{tried} faults in one of two copies: {aside} copies set aside, no plan lost");
    assert!(tried > 5000 && aside > tried * 9 / 10);
}

#[test]
fn values_that_are_no_record_are_set_aside_and_the_others_start() {
    let deep = "[".repeat(200_000);
    let long = "x".repeat(5 << 20);
    let swapped = RECORD_1.trim_end().replace(ID, "someone0elses001");
    let newer_plan = RECORD_1.trim_end().replace(r#"\"format\":1"#, r#"\"format\":9"#);
    let values: [&str; 20] = [
        "",
        " ",
        "null",
        "true",
        "0",
        "-1e999",
        "\"text\"",
        "[]",
        "{}",
        "{\"id\":1}",
        "undefined",
        "\u{0}\u{1}\u{2}",
        "\u{feff}{}",
        "\u{202e}}{",
        "{\"__proto__\":{\"id\":\"p\"}}",
        "{\"id\":\"alder0row0plan01\",\"counter\":-1}",
        &deep,
        &long,
        &swapped,
        &newer_plan,
    ];
    let whole = old_record();
    for value in values {
        let durable = vec![("q".to_string(), value.to_string()), (ID.to_string(), whole.encode())];
        let settled = settle(durable, vec![], 1.8e12, || "fresh".into());
        assert_eq!(settled.records, from_ref(&whole), "the whole plan starts");
        assert_eq!(settled.aside.len(), 1);
        assert_eq!((settled.aside[0].1.as_str(), settled.aside[0].2.raw.as_str()), ("q", value));
    }
}

#[test]
fn a_plan_of_a_newer_version_is_refused_by_name_and_its_text_stays() {
    let newer = text_of(&read(PLAN_1).unwrap()).replacen("\"format\":1", "\"format\":9", 1);
    let record =
        Draft { id: ID.into(), name: "n".into(), text: newer.clone(), binned_at: None }.record(8, 1.0);
    let settled = started(Some(&record.encode()), None);
    assert_eq!(settled.records[0].text, newer);
    assert!(read(&newer).unwrap_err().contains("newer version"));
}

#[test]
fn a_damaged_past_never_harms_the_plan() {
    let mut history = History::of(Plan::new("Line"));
    for name in ["one", "two", "three"] {
        history.edit("", |plan| plan.name = name.into());
    }
    let text = text_of(history.plan());
    let kept = history.kept(&text);
    for damaged in damaged(&kept) {
        let mut again = History::of(read(&text).unwrap());
        if again.take_up(&damaged) {
            assert_eq!(damaged, kept);
        }
        assert!(!again.can_undo() && !again.undo());
        assert_eq!(text_of(again.plan()), text);
    }
}
