//! What is kept on a device outlives damage to either store, and later versions of this program. The fixtures
//! were written by the versions that they are named after and are kept for ever.

use bathbook::calculator::Subject;
use bathbook::keep::archive::{self, Archive, Found};
use bathbook::keep::compare::{Settled, Store, settle};
use bathbook::keep::record::{NEWER, Record, decode};
use bathbook::keep::{Aside, Draft};
use bathbook::plan::foreign::{LONGEST, read};
use bathbook::plan::limits::{LARGEST, LONGEST_ENTRY, MOST_ROWS, TooMuch};
use bathbook::plan::steps::{Kept, text_of};
use bathbook::plan::{Entries, Entry, History, Plan};
use serde_json::Value;
use std::slice::from_ref;

const PLAN_1: &str = include_str!("fixtures/plan-format-1.json");
const RECORD_1: &str = include_str!("fixtures/record-form-1.json");
const STEPS_1: &str = include_str!("fixtures/steps-form-1.txt");
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

/// Three steps that were kept beside the record of the other fixture: two are done, the third was taken back.
#[test]
fn steps_of_form_1_lead_from_the_text_of_their_record_and_back() {
    let kept = Kept::read(STEPS_1.trim_end()).expect("steps of form 1");
    let now = old_record().text;
    assert!(kept.is_of(&now) && kept.done == 2 && kept.steps.len() == 3);
    let earlier = kept.steps[1].back(&now).expect("one step back");
    assert!(now.contains("\"V_t\":\"40 L\"") && earlier.contains("\"V_t\":\"35 L\""));
    let first = read(&kept.steps[0].back(&earlier).expect("two steps back")).expect("a plan");
    assert_eq!(first.name, "Before (invented)");
    let later = read(&kept.steps[2].forward(&now).expect("made again")).expect("a plan");
    assert_eq!(later.notes, "After (invented)");
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
        history.edit("", |plan| plan.name = name.into()).1.unwrap();
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

/// A plan of so many rows that all hold the same, in tables as long as they may be.
fn of_rows(many: usize, row: &Entries) -> Plan {
    let mut plan = Plan::new("Largest");
    let all: Vec<(String, Entries)> = (0..many).map(|k| ((k % MOST_ROWS).to_string(), row.clone())).collect();
    for (table, rows) in all.chunks(MOST_ROWS).enumerate() {
        if table % 20 == 0 {
            plan.add(Subject::Stream, "Stream");
        }
        let place = plan.places.last().expect("a stream").id;
        let sheet = plan.sheet_mut(place, "ageing").expect("a sheet");
        sheet.rows.insert(table.to_string(), rows.to_vec());
    }
    plan
}

/// Plans about as large as they may be, of what takes most room when it is written.
fn largest() -> Vec<Plan> {
    let texts = ["\"".repeat(LONGEST_ENTRY), "\\\"".repeat(LONGEST_ENTRY / 2), "槽".repeat(LONGEST_ENTRY)];
    let mut rows: Vec<Entries> = vec![Entries::new()];
    let full = Entry { stands: Some(String::new()), show: Some(String::new()), ..Entry::default() };
    rows.push([("x".to_string(), full)].into());
    rows.extend(texts.map(|text| [("x".to_string(), Entry { text, ..Entry::default() })].into()));
    let largest = |row: &Entries| {
        let sample = text_of(&of_rows(10 * MOST_ROWS, row)).len();
        let plan = of_rows(LARGEST / 100 * 97 * 10 * MOST_ROWS / sample, row);
        assert_eq!(TooMuch::of(&plan), None);
        plan
    };
    rows.iter().map(largest).collect()
}

#[test]
fn the_largest_plan_is_opened_from_its_record_its_file_and_an_archive() {
    for plan in largest() {
        let text = text_of(&plan);
        assert!(text.len() <= LARGEST && text.len() > LARGEST * 9 / 10, "{}", text.len());
        let draft = Draft { id: "p".into(), name: "n".into(), text: text.clone(), binned_at: None };
        assert!(decode("p", &draft.record(1, 1.7e12).encode()).is_ok());
        assert_eq!(read(&text).as_ref(), Ok(&plan));
        let found = vec![Found { plan: plan.clone(), in_bin: false }];
        let file = serde_json::to_string_pretty(&plan).unwrap();
        assert_eq!(archive::open(&file).unwrap().plans, found, "{} of {LONGEST}", file.len());
        let kept = archive::Kept {
            name: "n".into(),
            changed: String::new(),
            in_bin: false,
            plan: serde_json::to_value(&plan).unwrap(),
        };
        let several = Archive { format: archive::FORMAT, made: String::new(), plans: vec![kept] };
        assert_eq!(archive::open(&several.file()).unwrap().plans, found);
    }
}

#[test]
fn more_than_a_plan_holds_in_all_is_refused_however_short_its_text() {
    let plan = of_rows(600 * MOST_ROWS, &Entries::new());
    let text = text_of(&plan);
    assert!(text.len() < LONGEST / 2);
    assert_eq!(read(&text), Err("it holds more than 1000 kB.".into()));
}
