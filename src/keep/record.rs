//! One kept plan: its text, what tells two copies apart, and what tells a whole copy from a damaged one.

use serde::{Deserialize, Serialize};

/// The longest text that is taken from a store; more is foreign or damaged and is set aside unread.
pub const LONGEST: usize = 4 << 20;

/// A plan as it is kept. Its text is not looked into here.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Record {
    /// Names the plan for ever, see [`new_id`].
    pub id: String,
    /// As the list of plans shows it. Where it differs from a name in the text, this one holds.
    pub name: String,
    /// The plan as JSON.
    pub text: String,
    /// When it was written, in ms since 1970 by the device's clock. Shown, never compared: clocks go back.
    pub saved_at: f64,
    /// Goes up by one with every change, so the higher of two copies is the newer.
    pub counter: u64,
    /// When it was put in the bin; `None` is a plan in use.
    #[serde(default)]
    pub binned_at: Option<f64>,
    /// [`digest`] of all the rest, in 16 hexadecimal figures.
    pub digest: String,
}

/// What tells one state of a plan from another without its text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mark {
    /// The record's counter.
    pub counter: u64,
    /// The record's digest.
    pub digest: String,
}

/// What the app wants kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// Which plan.
    pub id: String,
    /// Its name.
    pub name: String,
    /// The plan as JSON.
    pub text: String,
    /// When it was put in the bin, if it is there.
    pub binned_at: Option<f64>,
}

/// A copy that could not be trusted, kept as it was found until the user throws it away.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Aside {
    /// Under which it is kept.
    pub key: String,
    /// What was found, to be got as a file.
    pub raw: String,
    /// What is wrong with it.
    pub why: String,
    /// When it was set aside, in ms since 1970.
    pub at: f64,
}

/// One line of the list of plans.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Which plan.
    pub id: String,
    /// Its name.
    pub name: String,
    /// When it was last saved, in ms since 1970.
    pub saved_at: f64,
    /// Whether it is in the bin.
    pub binned: bool,
}

impl Aside {
    /// What was found under `id`. The same find always has the same key, so it is kept once.
    pub fn new(id: &str, raw: String, why: String, at: f64) -> Aside {
        Aside { key: format!("{id} {:016x}", fnv1a(raw.bytes())), raw, why, at }
    }

    /// As it lies in a store; if even that was damaged, what is there.
    pub fn read(key: String, raw: String) -> Aside {
        serde_json::from_str(&raw).unwrap_or(Aside { key, raw, why: String::new(), at: 0.0 })
    }
}

impl Draft {
    /// This draft as a record, with its digest.
    pub fn record(self, counter: u64, now: f64) -> Record {
        let Draft { id, name, text, binned_at } = self;
        // Whole ms up to here (the year 30 000) are read back from JSON exactly as written, a nought behind
        // the point included; a fraction may not be, and NaN has no form.
        let whole = |ms: f64| if ms.is_finite() { ms.round().clamp(0.0, 9e14) } else { 0.0 };
        let record = Record {
            id,
            name,
            text,
            saved_at: whole(now),
            counter,
            binned_at: binned_at.map(whole),
            digest: String::new(),
        };
        Record { digest: digest(&record), ..record }
    }
}

impl Record {
    /// What tells this state of the plan from others.
    pub fn mark(&self) -> Mark {
        Mark { counter: self.counter, digest: self.digest.clone() }
    }

    /// Its line in the list of plans.
    pub fn entry(&self) -> Entry {
        let binned = self.binned_at.is_some();
        Entry { id: self.id.clone(), name: self.name.clone(), saved_at: self.saved_at, binned }
    }

    /// What would be written to keep it as it is.
    pub fn draft(&self) -> Draft {
        let Record { id, name, text, binned_at, .. } = self.clone();
        Draft { id, name, text, binned_at }
    }

    /// The same plan put in the bin: kept, and out of the list.
    pub fn binned(&self, now: f64) -> Draft {
        Draft { binned_at: Some(now), ..self.draft() }
    }

    /// The same plan back in the list.
    pub fn restored(&self) -> Draft {
        Draft { binned_at: None, ..self.draft() }
    }

    /// Whether both say the same, whenever and however often they were written.
    pub fn same_plan(&self, other: &Record) -> bool {
        self.name == other.name
            && self.text == other.text
            && self.binned_at.is_some() == other.binned_at.is_some()
    }

    /// As it is written to a store.
    pub fn encode(&self) -> String {
        // A record holds only texts and finite numbers, which always have a JSON form.
        serde_json::to_string(self).unwrap_or_default()
    }
}

/// What tells the form of a record. Form 1, which is written and read here, names none; each later form names itself.
#[derive(Deserialize)]
struct Head {
    format: Option<serde::de::IgnoredAny>,
}

/// What [`decode`] says of a record of a later form.
pub const NEWER: &str = "it was kept by a newer version of Bathbook";

/// Reads what [`Record::encode`] wrote and [`digest`] vouches for; else says what is wrong.
pub fn decode(key: &str, raw: &str) -> Result<Record, String> {
    if raw.len() > LONGEST {
        return Err(format!("it is longer than {} MB", LONGEST >> 20));
    }
    if serde_json::from_str(raw).is_ok_and(|Head { format }| format.is_some()) {
        return Err(NEWER.into());
    }
    let record: Record = serde_json::from_str(raw).map_err(|_| "it can't be read".to_string())?;
    if record.digest != digest(&record) {
        return Err("parts of it were changed or lost".into());
    }
    if record.id != key {
        return Err("it is another plan than its place says".into());
    }
    Ok(record)
}

/// FNV-1a in 64 bits over all fields but the digest. It finds damage, not ill will.
///
/// Source: G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, "The FNV Non-Cryptographic Hash Algorithm"
/// (offset basis 14695981039346656037, prime 1099511628211; from memory).
pub fn digest(record: &Record) -> String {
    let binned = record.binned_at.map(f64::to_bits);
    let marks = format!("{} {} {binned:?}", record.counter, record.saved_at.to_bits());
    // A byte that UTF-8 never uses keeps "ab" + "c" apart from "a" + "bc".
    let parts = [&record.id, &record.name, &marks, &record.text];
    let bytes = parts.iter().flat_map(|part| part.bytes().chain([0xff]));
    format!("{:016x}", fnv1a(bytes))
}

fn fnv1a(bytes: impl Iterator<Item = u8>) -> u64 {
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3))
}

/// Whether a write may take the place of `stored`: only if the writer knew what it replaces.
///
/// `base` is the state that the writer's text grew from, `own` what the writer itself made of it since
/// (one may have arrived though the answer was lost, or by way of the second copy).
pub fn may_replace(stored: &Mark, base: Option<&Mark>, own: &[Mark]) -> bool {
    let grew_from = |known: &Mark| known == stored || known.counter > stored.counter;
    base.is_some_and(grew_from) || own.contains(stored)
}

/// An id from random bytes: 16 letters and figures, without those that look alike.
pub fn new_id(random: [u8; 16]) -> String {
    const LETTERS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
    random.iter().map(|byte| char::from(LETTERS[usize::from(byte % 32)])).collect()
}

/// The name of the text that came second where two windows changed one plan.
pub fn marked_name(name: &str) -> String {
    match marked(name).and_then(|(plain, number)| Some((plain, number.checked_add(1)?))) {
        Some((plain, number)) => format!("{plain} (other copy {number})"),
        None => format!("{name} (other copy)"),
    }
}

/// A name without what [`marked_name`] has added.
pub fn plain_name(name: &str) -> &str {
    marked(name).map_or(name, |(plain, _)| plain)
}

/// The name before it was marked, and which copy it is.
fn marked(name: &str) -> Option<(&str, u32)> {
    let (plain, number) = name.strip_suffix(')')?.rsplit_once(" (other copy")?;
    match number.trim() {
        "" => Some((plain, 1)),
        number => Some((plain, number.parse().ok()?)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    pub fn a_record(name: &str, text: &str, counter: u64) -> Record {
        let draft = Draft { id: "p".into(), name: name.into(), text: text.into(), binned_at: None };
        draft.record(counter, 1.7e12)
    }

    #[test]
    fn the_digest_is_the_published_one() {
        // Published test vectors of FNV-1a, 64 bits (from memory).
        for (text, hash) in
            [("", 0xcbf2_9ce4_8422_2325), ("a", 0xaf63_dc4c_8601_ec8c), ("foobar", 0x8594_4171_f739_67e8)]
        {
            assert_eq!(fnv1a(text.bytes()), hash);
        }
    }

    #[test]
    fn a_second_copy_is_named_as_such() {
        let names = ["Line 1", "Line 1 (other copy)", "Line 1 (other copy 9)", "Line (other copy x)"];
        let wanted = [
            "Line 1 (other copy)",
            "Line 1 (other copy 2)",
            "Line 1 (other copy 10)",
            "Line (other copy x) (other copy)",
        ];
        assert_eq!(names.map(marked_name), wanted);
    }

    #[test]
    fn only_who_knew_the_stored_state_replaces_it() {
        let [old, seen, theirs] =
            [("a", 3), ("b", 4), ("c", 5)].map(|(text, n)| a_record("n", text, n).mark());
        assert!(may_replace(&seen, Some(&seen), &[]));
        assert!(may_replace(&old, Some(&seen), &[]), "an older one, left by a write that failed");
        assert!(!may_replace(&theirs, Some(&seen), &[]));
        assert!(!may_replace(&a_record("n", "other", 4).mark(), Some(&seen), &[]), "as old, but another");
        assert!(
            may_replace(&theirs, Some(&seen), std::slice::from_ref(&theirs)),
            "my own, whose answer was lost"
        );
        assert!(!may_replace(&seen, None, &[]), "a new plan never takes another's place");
    }

    #[test]
    fn the_bin_keeps_the_plan_and_gives_it_back() {
        let plan = a_record("Line 1", "{}", 4);
        let binned = plan.binned(1.8e12).record(5, 1.8e12);
        assert!(binned.entry().binned && binned.text == plan.text && !binned.same_plan(&plan));
        assert!(binned.restored().record(6, 1.9e12).same_plan(&plan));
    }

    #[test]
    fn a_record_of_a_later_form_is_told_from_a_damaged_one() {
        for later in [
            a_record("n", "t", 1).encode().replacen('{', "{\"format\":2,", 1),
            r#"{"format":2,"id":"p","pieces":["t"]}"#.into(),
            r#"{"format":"2b","of":{"id":"p"}}"#.into(),
        ] {
            assert_eq!(decode("p", &later), Err(NEWER.into()));
        }
    }

    #[test]
    fn what_lies_aside_is_there_though_it_was_damaged_once_more() {
        let aside = Aside::new("p", "{".into(), "it can't be read".into(), 1.0);
        let text = serde_json::to_string(&aside).unwrap();
        assert_eq!(Aside::read(aside.key.clone(), text.clone()), aside);
        let cut = text[..20].to_string();
        let found = Aside::read(aside.key.clone(), cut.clone());
        assert_eq!((found.key, found.raw), (aside.key, cut));
    }

    proptest! {
        #[test]
        fn what_was_written_is_read_back(name: String, text: String, counter: u64, at: f64, bin: Option<f64>) {
            let draft = Draft { id: "p".into(), name, text, binned_at: bin };
            let record = draft.record(counter, at);
            prop_assert_eq!(decode("p", &record.encode()), Ok(record));
        }

        #[test]
        fn a_changed_or_lost_character_is_noticed(text in "[ -~]{1,60}", at in 0usize..400, with in 0u8..95, cut: bool) {
            let record = a_record("Line 1", &text, 7);
            let mut raw = record.encode().into_bytes();
            let at = at % raw.len();
            if cut { raw.remove(at); } else { raw[at] = b' ' + with; }
            let raw = String::from_utf8_lossy(&raw).into_owned();
            // A blank between two JSON words is no damage: then the very same record is read.
            if let Ok(read) = decode("p", &raw) {
                prop_assert_eq!(read, record);
            }
        }

        #[test]
        fn foreign_text_is_refused_and_never_panics(raw: String) {
            prop_assert!(decode("p", &raw).is_err());
        }

        #[test]
        fn ids_differ_where_their_bytes_do(a: [u8; 16], b: [u8; 16]) {
            prop_assert_eq!(new_id(a).len(), 16);
            let same = a.iter().zip(b).all(|(a, b)| a % 32 == b % 32);
            prop_assert_eq!(new_id(a) == new_id(b), same);
        }
    }
}
