//! Links, files and records from anywhere: whatever they hold, what comes of them is a message in words, or a plan
//! that is worked out, shown and written like any other, in bounded time.
//!
//! A short run of seeded cases is part of every test. `BATHBOOK_HOSTILE=1000000 cargo test --release --test hostile`
//! runs as many, and `BATHBOOK_SEED` starts elsewhere. A case that fails names its seed and is left as a file
//! in `target/hostile/`: once mended, it goes into `tests/corpus/`, which is run each time.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use bathbook::keep::link::{self, Packed};
use bathbook::keep::{archive, record};
use bathbook::plan::{Plan, examples, foreign, limits};
use bathbook::report;
use bathbook::results::Results;
use bathbook_extras::packed;
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::decompress_to_vec_with_limit;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// No single case may take as long, in a build without optimisation.
const LONGEST_CASE: Duration = Duration::from_secs(20);

/// How many cases a plain test runs.
const SHORT_RUN: u64 = 160;

/// SplitMix64. Source: G. Steele, D. Lea, C. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014
/// (constants from memory).
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, end: usize) -> usize {
        (self.next() % end.max(1) as u64) as usize
    }

    fn pick<'a, T: ?Sized>(&mut self, from: &[&'a T]) -> &'a T {
        from[self.below(from.len())]
    }
}

/// What a stranger would try in the place of a text.
const TEXTS: [&str; 40] = [
    "",
    " ",
    "__proto__",
    "constructor",
    "prototype",
    "toString",
    "1e400",
    "-1e400",
    "1e-400",
    "9e307 L",
    "-9e307 g/L",
    "NaN",
    "Infinity",
    "-inf",
    "0",
    "-0",
    "00000000000000001",
    "1.836",
    "1,836",
    "1,2,3.4",
    "= 1/0",
    "= 2^99999",
    "= ((((((((1",
    "=SUM(A1:A9)",
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "javascript:alert(1)",
    "../../etc/passwd",
    "\u{202e}txt.exe",
    "\u{2066}\u{2067}\u{2069}",
    "\u{0}\u{1}\u{7f}\u{85}",
    "\u{feff}\u{200b}\u{ad}",
    "a\u{300}\u{301}\u{302}\u{303}",
    "😀😀😀",
    "\u{10ffff}",
    "CuSO4·5H2O",
    "((((((((Cu)2)3)4)5)6)7)8)9",
    "Cu999999999999",
    "12 gal",
    "99999999999999999999999999 °F",
];

/// What a stranger would try in the place of a value of JSON.
const VALUES: [&str; 22] = [
    "null",
    "true",
    "0",
    "-1",
    "1e308",
    "1e-308",
    "4294967295",
    "4294967296",
    "18446744073709551616",
    "\"\"",
    "[]",
    "{}",
    "[[]]",
    "[[\"Cu\",{}]]",
    "[[\"Cu\",{}],[\"Cu\",{}]]",
    "{\"__proto__\":{}}",
    "{\"text\":\"1\"}",
    "{\"text\":\"1\",\"show\":\"gal\"}",
    "{\"text\":\"x\",\"stands\":\"1e300 L\"}",
    "{\"text\":\"\",\"show\":\"\\u0000\"}",
    "\"site\"",
    "\"bath\"",
];

/// Texts that a case starts from.
struct Starts {
    plans: Vec<String>,
    /// Words that stand in plans: ids, symbols, tables.
    words: Vec<String>,
}

fn starts() -> Starts {
    let plans: Vec<String> = examples::ALL
        .iter()
        .filter_map(|(id, ..)| examples::plan(id))
        .map(|plan| serde_json::to_string(&plan).expect("JSON"))
        .collect();
    let mut words = Vec::new();
    for calculator in bathbook::calculators::ALL {
        words.push(calculator.id.to_string());
        for table in calculator.all_tables() {
            words.push(table.id.to_string());
            words.extend(table.columns.iter().map(|input| input.symbol.to_string()));
        }
    }
    Starts { plans, words }
}

/// Changes the JSON in its own terms: another value, a value twice, one less, a name of another.
fn changed(random: &mut Random, starts: &Starts, value: &mut serde_json::Value, depth: usize) {
    use serde_json::Value;
    let text = |random: &mut Random| match random.below(3) {
        0 => starts.words[random.below(starts.words.len())].clone(),
        1 => random.pick(&TEXTS).repeat(1 + random.below(40) * random.below(2)),
        _ => random.pick(&TEXTS).to_string(),
    };
    // Nearly all the way down: what is changed near the top is mostly no plan any more.
    if random.below(if depth < 3 { 60 } else { 8 }) > 0 {
        let size = match value {
            Value::Array(all) => all.len(),
            Value::Object(all) => all.len(),
            _ => 0,
        };
        if size > 0 {
            let at = random.below(size);
            let within = match value {
                Value::Array(all) => all.get_mut(at),
                Value::Object(all) => all.values_mut().nth(at),
                _ => None,
            };
            return within.into_iter().for_each(|within| changed(random, starts, within, depth + 1));
        }
    }
    match (random.below(5), value) {
        (0, value) if random.below(4) == 0 => {
            *value = serde_json::from_str(random.pick(&VALUES)).unwrap_or(Value::Null)
        }
        (1, Value::Array(all)) if !all.is_empty() => {
            let again = all[random.below(all.len())].clone();
            for _ in 0..=random.below(4) {
                all.push(again.clone());
            }
        }
        (0 | 2, Value::Array(all)) if !all.is_empty() => {
            all.remove(random.below(all.len()));
        }
        (3, Value::Array(all)) if all.len() > 1 => {
            let (a, b) = (random.below(all.len()), random.below(all.len()));
            all.swap(a, b);
        }
        (1 | 2, Value::Object(all)) => {
            let key = all.keys().nth(random.below(all.len())).cloned().unwrap_or_default();
            let old = all.remove(&key).unwrap_or(Value::Null);
            all.insert(text(random), old);
        }
        (0, Value::Object(all)) => {
            all.insert(text(random), text(random).into());
        }
        (3 | 4, Value::Object(all)) => {
            let given = serde_json::from_str(random.pick(&VALUES)).unwrap_or(Value::Null);
            all.insert(text(random), given);
        }
        // Ids and what leads to them: dangling, twice, in a circle.
        (_, value @ Value::Number(_)) => *value = (random.below(14) as u64).into(),
        (_, value) => *value = text(random).into(),
    }
}

/// Changes bytes without a thought to what they mean.
fn garbled(random: &mut Random, text: &str) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..=random.below(6) {
        let at = random.below(bytes.len());
        match random.below(5) {
            0 => bytes.truncate(at),
            1 if !bytes.is_empty() => bytes[at] = random.next() as u8,
            2 => bytes
                .insert(at, random.pick(&["{", "}", "[", "]", "\"", ",", ":", "\\", "0", "e"]).as_bytes()[0]),
            3 => {
                let piece = random.pick(&TEXTS).as_bytes().to_vec();
                bytes.splice(at..at, piece);
            }
            _ => {
                let end = (at + random.below(200)).min(bytes.len());
                let piece: Vec<u8> = bytes[at..end].to_vec();
                bytes.splice(at..at, piece);
            }
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

fn hostile_plan(random: &mut Random, starts: &Starts) -> String {
    let start = &starts.plans[random.below(starts.plans.len())];
    match random.below(8) {
        0 => garbled(random, start),
        1 => {
            let [open, close] = *random.pick(&[&["[", "]"], &["{\"a\":", "}"], &["[{\"places\":", "}]"]]);
            let depth = 1 + random.below(5000);
            open.repeat(depth) + "1" + &close.repeat(random.below(2) * depth)
        }
        _ => {
            let mut value = serde_json::from_str(start).expect("an example");
            for _ in 0..=random.below(8) {
                changed(random, starts, &mut value, 0);
            }
            value.to_string()
        }
    }
}

/// A plan that was taken in comes to numbers or reasons, in every view that works without a browser.
fn worked_out(plan: &Plan) {
    let results = Results::of(plan, None);
    for (cell, outcome) in results.network.cells.iter().zip(&results.outcomes) {
        match outcome {
            Ok(outcome) => {
                for (output, si, key) in cell.calculator.answered(outcome) {
                    let is_told = si.is_nan() && output.missing.is_some();
                    assert!(
                        si.is_finite() || is_told,
                        "{} {}[{key}] is {si}",
                        cell.calculator.id,
                        output.symbol
                    );
                }
            }
            Err(stop) => assert!(!stop.reason.is_empty() && !stop.remedy.is_empty(), "{stop:?}"),
        }
    }
    results.findings();
    let figures = report::figures(plan);
    let finite =
        |amount: &report::Amount| !matches!(amount, report::Amount::Number(number) if !number.is_finite());
    assert!(figures.iter().all(|figure| finite(&figure.amount)));
    report::csv(&figures);
    assert_eq!(
        foreign::read(&serde_json::to_string(plan).expect("JSON")).as_ref(),
        Ok(plan),
        "read again, it is another"
    );
}

/// All views, among them the working of every sheet: slower, so for some cases only.
fn shown(plan: &Plan) {
    report::sheets(plan);
    report::book(plan, "2026-11-29");
}

fn of_text(text: &str, is_shown: bool) {
    match archive::open(text) {
        Ok(opened) => {
            for found in &opened.plans {
                worked_out(&found.plan);
                if is_shown {
                    shown(&found.plan);
                }
            }
            archive::merge(&opened.plans, opened.plans.clone());
            assert!(opened.refused.iter().all(|(_, why)| why.ends_with('.')));
        }
        Err(why) => assert!(why.ends_with('.') && why.len() < 200, "{why}"),
    }
}

fn of_link(text: &str) {
    match link::unwrap(text) {
        Ok(carried) => {
            let bytes = match &carried {
                Packed::Alone(packed) => decompress_to_vec_with_limit(packed, link::most(packed.len())).ok(),
                Packed::WithWords(packed) => packed::unpack(packed, link::most(packed.len())),
            };
            let Some(bytes) = bytes else { return };
            assert!(bytes.len() <= limits::LARGEST);
            String::from_utf8(bytes).into_iter().for_each(|text| of_text(&text, false));
        }
        Err(why) => assert!(why.ends_with('.') && why.len() < 300, "{why}"),
    }
}

/// A link of either version.
fn link_of(random: &mut Random, bytes: &[u8]) -> String {
    if random.below(2) == 0 {
        return link::wrap(&packed::pack(bytes).expect("packed"));
    }
    let packed = compress_to_vec(bytes, 6);
    let (sum, letters) = (adler2::adler32_slice(&packed), URL_SAFE_NO_PAD.encode(&packed));
    format!("1.{sum:08x}.{}.{letters}", packed.len())
}

fn archive_of(random: &mut Random, starts: &Starts) -> String {
    let mut plans = Vec::new();
    for _ in 0..random.below(4) {
        let text = hostile_plan(random, starts);
        let plan = serde_json::from_str(&text).unwrap_or(serde_json::Value::Null);
        plans.push(serde_json::json!({ "name": random.pick(&TEXTS), "changed": "", "plan": plan }));
    }
    let mut value = serde_json::json!({ "format": 1, "made": "", "plans": plans });
    if random.below(2) == 0 {
        changed(random, starts, &mut value, 0);
    }
    if random.below(6) == 0 { garbled(random, &value.to_string()) } else { value.to_string() }
}

/// What the case of a seed is fed with: its sort, and the text.
fn case(seed: u64, starts: &Starts) -> (&'static str, String) {
    let random = &mut Random(seed);
    match random.below(11) {
        0 => {
            let plan = hostile_plan(random, starts);
            let link = link_of(random, plan.as_bytes());
            ("link", if random.below(3) == 0 { link } else { garbled(random, &link) })
        }
        1 => {
            let spaces = vec![b' '; 1 << random.below(24)];
            ("link", link_of(random, &spaces))
        }
        2 => {
            // What is packed is damaged, and the check sum right.
            let mut packed = packed::pack(hostile_plan(random, starts).as_bytes()).expect("packed");
            for _ in 0..=random.below(4) {
                let at = random.below(packed.len());
                packed[at] = random.next() as u8;
            }
            ("link", link::wrap(&packed))
        }
        3 => {
            let draft = record::Draft {
                id: "p".into(),
                name: random.pick(&TEXTS).into(),
                text: hostile_plan(random, starts),
                binned_at: None,
            };
            let raw = draft.record(random.next() % 9, 1.7e12).encode();
            ("record", if random.below(3) == 0 { raw } else { garbled(random, &raw) })
        }
        4 => ("text", archive_of(random, starts)),
        _ => ("text", hostile_plan(random, starts)),
    }
}

fn run(sort: &str, text: &str, is_shown: bool) {
    match sort {
        "link" => of_link(text),
        "record" => match record::decode("p", text) {
            Ok(record) => of_text(&record.text, false),
            Err(why) => assert!(!why.is_empty()),
        },
        _ => of_text(text, is_shown),
    }
}

fn folder() -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("target/hostile");
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

/// Runs so many cases; a failing one is left as a file, named after its sort and seed.
fn cases(from: u64, many: u64) {
    let (starts, mut taken) = (starts(), 0);
    for seed in from..from + many {
        let (sort, text) = case(seed, &starts);
        let begun = Instant::now();
        let ended = std::panic::catch_unwind(|| run(sort, &text, seed % 16 == 0));
        if ended.is_err() || begun.elapsed() > LONGEST_CASE {
            let file = folder().join(format!("{sort}-{seed}.txt"));
            fs::write(&file, &text).expect("a file");
            panic!("case {seed} failed or took {:?}; its {sort} is in {}", begun.elapsed(), file.display());
        }
        taken += u64::from(archive::open(&text).is_ok());
    }
    // Cases that are all refused would try nothing behind the door.
    assert!(many < 100 || taken * 10 > many, "only {taken} of {many} got past the door");
}

fn number(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

#[test]
fn whatever_comes_from_outside_ends_in_a_message_or_in_a_plan_that_works() {
    let many = number("BATHBOOK_HOSTILE").unwrap_or(SHORT_RUN);
    let from = number("BATHBOOK_SEED").unwrap_or(1);
    // Each core takes its share.
    let cores = std::thread::available_parallelism().map_or(1, |n| n.get() as u64);
    let share = many.div_ceil(cores);
    std::thread::scope(|scope| {
        for core in 0..cores {
            scope.spawn(move || cases(from + core * share, share));
        }
    });
}

/// Cases that once failed.
#[test]
fn what_failed_once_does_not_fail_again() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus");
    for entry in fs::read_dir(folder).expect("tests/corpus") {
        let path = entry.expect("a file").path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if let Some((sort, _)) = name.split_once('-') {
            run(sort, &String::from_utf8_lossy(&fs::read(&path).expect("a file")), true);
        }
    }
}

/// As many places, sheets and rows as a file may hold, all leading to one route, and no two rows alike.
#[test]
fn the_largest_plan_that_is_read_is_worked_out_in_bounded_time() {
    use bathbook::calculator::Subject;
    let mut plan = Plan::new("Largest");
    let route = plan.add(Subject::Route, "Route");
    while plan.places.len() < limits::MOST_PLACES {
        let bath = plan.add(Subject::Bath, "Bath");
        let stream = plan.add(Subject::Stream, "Stream");
        plan.set_from(stream, Some(bath));
        plan.set_to(stream, Some(route));
    }
    let mut number = 0;
    let streams = plan.places.iter_mut().filter(|place| place.subject == Subject::Stream);
    for sheet in streams.flat_map(|place| place.sheets.values_mut()) {
        let rows = (0..limits::MOST_ROWS).map(|_| {
            number += 1;
            (format!("{number}"), Default::default())
        });
        Arc::make_mut(sheet).rows.insert("metals".into(), rows.collect());
    }
    let text = serde_json::to_string(&plan).expect("JSON");
    assert!(text.len() < limits::LARGEST, "{}", text.len());
    let begun = Instant::now();
    let plan = foreign::read(&text).expect("a plan");
    Results::of(&plan, None);
    assert!(begun.elapsed() < LONGEST_CASE, "it took {:?}", begun.elapsed());
}

/// Names that mean something to the language of browsers are names like any others.
#[test]
fn a_plan_of_prototype_names_is_a_plan() {
    let mut plan = Plan::new("__proto__");
    for name in ["constructor", "__proto__", "hasOwnProperty"] {
        plan.add(bathbook::calculator::Subject::Bath, name);
    }
    let text = serde_json::to_string(&plan).expect("JSON");
    assert_eq!(foreign::read(&text).as_ref(), Ok(&plan));
    worked_out(&plan);
}

/// Fixtures of files and links that were handed out: they are read for ever.
#[test]
fn files_and_links_of_every_earlier_day_are_read() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures");
    let read = |name: &str| fs::read_to_string(folder.join(name)).expect("a fixture that is kept for ever");
    let file = archive::open(&read("plan-1.bathbook.json")).expect("a plan");
    let [found] = file.plans.as_slice() else { panic!("one plan") };
    assert_eq!(found.plan.name, "Fixture of 2026-11-29 (invented)");
    let results = Results::of(&found.plan, None);
    let answer = |id: &str, symbol: &str| {
        let place = found.plan.places.iter().find(|place| place.name == "Copper bath").expect("its bath").id;
        let cell = results.network.cell_at(place, id).expect("its sheet");
        results.answer_text(cell, symbol, "", 4).map(|(number, unit)| format!("{number} {unit}"))
    };
    assert_eq!(answer("make-up", "V").as_deref(), Some("40.0 L"));
    for name in ["link-1.txt", "link-2.txt"] {
        let link = read(name);
        let bytes =
            match link::unwrap(link.trim().rsplit('/').next().unwrap_or_default()).expect("a whole link") {
                Packed::Alone(packed) => decompress_to_vec_with_limit(&packed, limits::LARGEST).ok(),
                Packed::WithWords(packed) => packed::unpack(&packed, limits::LARGEST),
            };
        let text = String::from_utf8(bytes.expect("packed by a browser")).expect("text");
        assert_eq!(foreign::read(&text).as_ref(), Ok(&found.plan), "{name}");
    }
    let all = archive::open(&read("archive-1.bathbook.json")).expect("an archive");
    assert_eq!(all.plans[0], *found);
    assert!(all.plans[1].in_bin && all.refused.is_empty());
}
