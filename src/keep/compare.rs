//! Start: two stores are read, and each plan's newest whole copy is taken. What is damaged is set aside.

use std::collections::BTreeMap;

use super::record::{Aside, Draft, Record, decode, marked_name};

/// One plan's copy as it was found: whole, or its raw text and what is wrong.
pub type Found = Result<Record, (String, String)>;

/// What became of one plan's two copies.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Chosen {
    /// The copy to go on with; none if no whole one was found.
    pub record: Option<Record>,
    /// A second text of the same age: kept as a plan of its own, with its name marked.
    pub other: Option<Draft>,
    /// What the user should know; none if all is in order.
    pub note: Option<String>,
    /// Raw texts to set aside, each with what is wrong and the store it came from.
    pub damaged: Vec<(Store, String, String)>,
}

/// Which of the two stores.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Store {
    /// The one that "saved" refers to.
    Durable,
    /// The second copy.
    Quick,
}

/// The newest whole copy of one plan. The counter tells which is newer; the clock is not asked.
pub fn compare(durable: Option<Found>, quick: Option<Found>) -> Chosen {
    let mut chosen = Chosen::default();
    let mut whole = |store, found: Option<Found>| match found? {
        Ok(record) => Some(record),
        Err((raw, why)) => {
            chosen.damaged.push((store, raw, why));
            None
        }
    };
    let (durable, quick) = (whole(Store::Durable, durable), whole(Store::Quick, quick));
    let (record, other) = match (durable, quick) {
        (Some(durable), Some(quick)) if quick.counter > durable.counter => {
            if !quick.same_plan(&durable) {
                let name = &quick.name;
                chosen.note = Some(format!(
                    "The last changes to “{name}” were in the second copy only. They are back; look at them once."
                ));
            }
            (Some(quick), None)
        }
        (Some(durable), Some(quick)) if quick.counter == durable.counter && !quick.same_plan(&durable) => {
            let name = marked_name(&quick.name);
            chosen.note = Some(format!(
                "Two texts of “{}” were found and none is newer. Both are kept; the second is “{name}”.",
                durable.name
            ));
            let other = Draft { name, ..quick.draft() };
            (Some(durable), Some(other))
        }
        (durable, quick) => (durable.or(quick), None),
    };
    if !chosen.damaged.is_empty() {
        chosen.note = Some(match &record {
            Some(whole) => format!(
                "One of the two copies of “{}” is damaged. The whole one is used, as saved last; it may miss the latest changes. The damaged one is set aside and can be got as a file.",
                whole.name
            ),
            None => "A plan could not be read. What was found is set aside and can be got as a file; nothing was thrown away."
                .into(),
        });
    }
    Chosen { record, other, ..chosen }
}

/// What lies aside and can be read after all, as by a newer version of the app than the one that set it aside:
/// the plan itself, or one of its own beside what stands in its place by now. None if that says the same.
pub fn readable(aside: &Aside, known: &[Record], fresh_id: String) -> Option<Option<Record>> {
    let (id, _) = aside.key.rsplit_once(' ')?;
    let record = decode(id, &aside.raw).ok()?;
    if known.iter().any(|known| known.id == id && known.same_plan(&record)) {
        return Some(None);
    }
    if known.iter().all(|known| known.id != id) {
        return Some(Some(record));
    }
    let draft = Draft { id: fresh_id, name: marked_name(&record.name), ..record.draft() };
    Some(Some(draft.record(1, record.saved_at)))
}

/// What the start has found, and what is to be written so that both stores agree.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Settled {
    /// Every plan, those in the bin too; newest first.
    pub records: Vec<Record>,
    /// What the user should know.
    pub notes: Vec<String>,
    /// Raw texts to set aside, each with the store and the key to clear once that is done.
    pub aside: Vec<(Store, String, Aside)>,
    /// Records that the durable store lacks or has older.
    pub to_durable: Vec<Record>,
    /// Records that the quick store lacks or has older.
    pub to_quick: Vec<Record>,
}

/// Compares all copies of both stores, each given as key and raw text. `random_id` gives a fresh id.
pub fn settle(
    durable: Vec<(String, String)>,
    quick: Vec<(String, String)>,
    now: f64,
    mut random_id: impl FnMut() -> String,
) -> Settled {
    let read = |key: &str, raw: String| decode(key, &raw).map_err(|why| (raw, why));
    let mut pairs: BTreeMap<String, (Option<Found>, Option<Found>)> = BTreeMap::new();
    for (key, raw) in durable {
        let found = read(&key, raw);
        pairs.entry(key).or_default().0 = Some(found);
    }
    for (key, raw) in quick {
        let found = read(&key, raw);
        pairs.entry(key).or_default().1 = Some(found);
    }
    let mut settled = Settled::default();
    for (key, (durable, quick)) in pairs {
        let lacks = |copy: &Option<Found>, taken: &Record| !matches!(copy, Some(Ok(copy)) if copy == taken);
        let chosen = compare(durable.clone(), quick.clone());
        settled.notes.extend(chosen.note);
        for (store, raw, why) in chosen.damaged {
            settled.aside.push((store, key.clone(), Aside::new(&key, raw, why, now)));
        }
        if let Some(other) = chosen.other {
            let other = Draft { id: random_id(), ..other }.record(1, now);
            settled.to_durable.push(other.clone());
            settled.to_quick.push(other.clone());
            settled.records.push(other);
        }
        if let Some(record) = chosen.record {
            if lacks(&durable, &record) {
                settled.to_durable.push(record.clone());
            }
            // The bin does not take up the small store's room.
            if record.binned_at.is_none() && lacks(&quick, &record) {
                settled.to_quick.push(record.clone());
            }
            settled.records.push(record);
        }
    }
    crate::order::sort(&mut settled.records, |a, b| {
        b.saved_at.total_cmp(&a.saved_at).then_with(|| a.id.cmp(&b.id))
    });
    settled
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn copy(text: &str, counter: u64) -> Record {
        let draft = Draft { id: "p".into(), name: "Line 1".into(), text: text.into(), binned_at: None };
        draft.record(counter, 1.7e12)
    }
    fn found(record: &Record) -> Option<Found> {
        Some(Ok(record.clone()))
    }
    fn broken() -> Option<Found> {
        Some(Err(("{".into(), "it can't be read".into())))
    }

    #[test]
    fn the_newer_copy_wins_whatever_the_clock_says() {
        let (old, new) = (copy("old", 3), Record { saved_at: 0.0, ..copy("new", 4) });
        let chosen = compare(found(&old), found(&new));
        assert_eq!(chosen.record, Some(new.clone()));
        assert!(chosen.note.is_some_and(|note| note.contains("second copy only")));
        assert_eq!(compare(found(&new), found(&old)), Chosen { record: Some(new), ..Chosen::default() });
    }

    #[test]
    fn two_texts_of_one_age_are_both_kept() {
        let chosen = compare(found(&copy("mine", 4)), found(&copy("theirs", 4)));
        assert_eq!(chosen.record.map(|record| record.text), Some("mine".into()));
        assert_eq!(
            chosen.other.map(|other| (other.name, other.text)),
            Some(("Line 1 (other copy)".into(), "theirs".into()))
        );
    }

    #[test]
    fn a_damaged_copy_is_set_aside_and_never_used() {
        let whole = copy("whole", 2);
        for chosen in [compare(broken(), found(&whole)), compare(found(&whole), broken())] {
            assert_eq!(chosen.record.as_ref(), Some(&whole));
            assert_eq!(chosen.damaged.len(), 1);
            assert!(chosen.note.is_some_and(|note| note.contains("set aside")));
        }
        let none = compare(broken(), broken());
        assert_eq!((none.record, none.damaged.len()), (None, 2));
    }

    #[test]
    fn both_stores_are_brought_to_the_same_state() {
        let (old, new) = (copy("old", 3), copy("new", 4));
        let stores = |a: &Record, b: &Record| {
            settle(vec![("p".into(), a.encode())], vec![("p".into(), b.encode())], 1.8e12, String::new)
        };
        let healed = stores(&old, &new);
        assert_eq!((healed.to_durable, healed.to_quick), (vec![new.clone()], vec![]));
        let settled = stores(&new, &new);
        assert_eq!(settled, Settled { records: vec![new], ..Settled::default() });
    }

    #[test]
    fn one_damaged_value_does_not_keep_the_others_from_starting() {
        let whole = copy("whole", 1);
        let durable = vec![("q".into(), "\u{0}rubbish".into()), ("p".into(), whole.encode())];
        let settled = settle(durable, vec![], 1.8e12, String::new);
        assert_eq!(settled.records, [whole]);
        assert_eq!(
            settled
                .aside
                .iter()
                .map(|(_, key, aside)| (key.as_str(), aside.raw.as_str()))
                .collect::<Vec<_>>(),
            [("q", "\u{0}rubbish")]
        );
    }

    #[test]
    fn what_lies_aside_is_taken_up_once_it_can_be_read() {
        let (whole, other) = (copy("whole", 1), copy("other", 2));
        let aside = Aside::new("p", whole.encode(), "made by a newer version".into(), 0.0);
        assert_eq!(readable(&aside, &[], "new".into()), Some(Some(whole.clone())));
        assert_eq!(readable(&aside, std::slice::from_ref(&whole), "new".into()), Some(None));
        let beside = readable(&aside, &[other], "new".into()).flatten().unwrap();
        assert_eq!(
            (beside.id.as_str(), beside.text, beside.name.as_str()),
            ("new", whole.text, "Line 1 (other copy)")
        );
        let damaged = Aside::new("p", "{".into(), String::new(), 0.0);
        assert_eq!(readable(&damaged, &[], "new".into()), None);
    }

    proptest! {
        #[test]
        fn no_text_is_lost_at_start(copies in prop::collection::vec((0u8..3, any::<bool>(), 0u64..3, "[ab]?", any::<bool>()), 0..8)) {
            let (mut durable, mut quick) = (BTreeMap::new(), BTreeMap::new());
            for (id, in_durable, counter, text, damage) in copies {
                let draft = Draft { id: id.to_string(), name: "n".into(), text, binned_at: None };
                let raw = if damage { "{".to_string() } else { draft.record(counter, 0.0).encode() };
                if in_durable { &mut durable } else { &mut quick }.insert(id.to_string(), raw);
            }
            let mut fresh = 0;
            let settled = settle(durable.clone().into_iter().collect(), quick.clone().into_iter().collect(), 1.0, || { fresh += 1; format!("new{fresh}") });
            for (id, raw) in durable.iter().chain(&quick) {
                let kept = match decode(id, raw) {
                    Err(_) => settled.aside.iter().any(|(_, key, aside)| key == id && aside.raw == *raw),
                    Ok(found) => settled.records.iter().any(|record| record.same_plan(&found) || (record.id == *id && record.counter > found.counter))
                        || settled.records.iter().any(|record| record.text == found.text),
                };
                prop_assert!(kept, "{id} {raw}");
            }
        }
    }
}
