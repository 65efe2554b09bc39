use super::*;
use proptest::prelude::*;

type Stored = BTreeMap<String, Record>;

/// What the durable store does with a job.
fn write(stored: &mut Stored, job: &Job) -> Outcome {
    let there = stored.get(&job.record.id).cloned();
    match (decide(there.as_ref(), job), there) {
        (Verdict::Same, Some(there)) => Outcome::Written(there.mark()),
        (Verdict::Part, Some(there)) => {
            stored.insert(job.apart.id.clone(), job.apart.clone());
            Outcome::Parted(Box::new(there))
        }
        _ => {
            stored.insert(job.record.id.clone(), job.record.clone());
            Outcome::Written(job.record.mark())
        }
    }
}
fn draft(text: &str) -> Draft {
    Draft { id: "p".into(), name: "Line 1".into(), text: text.into(), binned_at: None }
}
fn state(state: SaveState) -> Vec<Event> {
    vec![Event::State { id: "p".into(), state }]
}

#[test]
fn saved_is_said_only_when_the_newest_text_is_stored() {
    let (mut queue, mut stored) = (Queue::default(), Stored::new());
    assert_eq!(queue.ask(draft("a"), 1.0).1, state(SaveState::Unsaved));
    let (job, said) = queue.take("p", "x".into(), 1.0).expect("a job");
    assert_eq!(said, state(SaveState::Saving));
    // Two more edits while the first is under way make one more write.
    queue.ask(draft("b"), 2.0);
    queue.ask(draft("c"), 3.0);
    assert!(queue.take("p", "x".into(), 3.0).is_none());
    let outcome = write(&mut stored, &job);
    assert_eq!(queue.done("p", outcome, 4.0), state(SaveState::Unsaved));
    let (job, _) = queue.take("p", "x".into(), 4.0).expect("a job");
    assert_eq!(job.record.text, "c");
    let outcome = write(&mut stored, &job);
    assert_eq!(queue.done("p", outcome, 5.0), state(SaveState::Saved { at: 5.0 }));
    assert!(!queue.busy());
}

#[test]
fn a_failed_write_is_told_and_tried_again() {
    let (mut queue, mut stored) = (Queue::default(), Stored::new());
    queue.ask(draft("a"), 1.0);
    queue.take("p", "x".into(), 1.0);
    let told = queue.done("p", Outcome::Failed(Trouble::Full), 2.0);
    assert_eq!(told, state(SaveState::Failed(Trouble::Full)));
    assert_eq!((queue.busy(), queue.waiting()), (true, vec!["p".to_string()]));
    let (job, _) = queue.take("p", "x".into(), 3.0).expect("the same text again");
    assert_eq!(write(&mut stored, &job), Outcome::Written(job.record.mark()));
}

#[test]
fn a_window_that_fell_behind_keeps_its_text_apart() {
    let (mut one, mut two, mut stored) = (Queue::default(), Queue::default(), Stored::new());
    let start = draft("start").record(1, 0.0);
    stored.insert("p".into(), start.clone());
    one.known(&start);
    two.known(&start);
    for (queue, text) in [(&mut one, "one"), (&mut two, "two")] {
        queue.ask(draft(text), 1.0);
        let (job, _) = queue.take("p", format!("new {text}"), 1.0).expect("a job");
        if text == "two" {
            queue.ask(draft("two, later"), 1.0);
        }
        let outcome = write(&mut stored, &job);
        let told = queue.done("p", outcome, 2.0);
        assert_eq!(matches!(told[0], Event::Parted { .. }), text == "two");
    }
    assert_eq!(stored["p"].text, "one");
    assert_eq!(
        (stored["new two"].text.as_str(), stored["new two"].name.as_str()),
        ("two", "Line 1 (other copy)")
    );
    // What was typed since goes on under the new id.
    let (job, _) = two.take("new two", "y".into(), 3.0).expect("a job");
    assert_eq!((job.record.id.as_str(), job.record.text.as_str()), ("new two", "two, later"));
    assert!(matches!(write(&mut stored, &job), Outcome::Written(_)));
    // Should the window go on under the old id all the same, nothing is overwritten.
    two.ask(draft("two, stubborn"), 4.0);
    let (job, _) = two.take("p", "z".into(), 4.0).expect("a job");
    assert!(matches!(write(&mut stored, &job), Outcome::Parted(_)));
    assert_eq!(stored["p"].text, "one");
}

#[test]
fn a_window_that_starts_amid_anothers_typing_parts_nothing() {
    let (mut one, mut stored) = (Queue::default(), Stored::new());
    let start = draft("start").record(1, 0.0);
    one.known(&start);
    let (second_copy, _) = one.ask(draft("typed"), 1.0);
    // The other window starts now, finds the second copy newer and brings the durable store up to it.
    stored.insert("p".into(), second_copy);
    one.ask(draft("typed on"), 2.0);
    let (job, _) = one.take("p", "x".into(), 2.0).expect("a job");
    assert_eq!(write(&mut stored, &job), Outcome::Written(job.record.mark()));
}

#[test]
fn another_windows_change_is_told_once_it_is_news() {
    let mut queue = Queue::default();
    let start = draft("start").record(1, 0.0);
    queue.known(&start);
    assert_eq!(queue.heard("p", &start.mark()), []);
    let theirs = draft("theirs").record(2, 1.0);
    let told = |unsaved| vec![Event::ChangedElsewhere { id: "p".into(), unsaved }];
    assert_eq!(queue.heard("p", &theirs.mark()), told(false));
    queue.ask(draft("mine"), 2.0);
    assert_eq!(queue.heard("p", &theirs.mark()), told(true));
}

#[test]
fn a_second_copy_that_this_window_cannot_read_is_set_aside_untouched_before_it_is_written_over() {
    let mut queue = Queue::default();
    let start = draft("start").record(1, 0.0);
    queue.known(&start);
    queue.ask(draft("mine"), 1.0);
    let becomes = |found: Option<&str>| queue.second_copy("p", found.map(String::from), 2.0);
    let newer = start.encode().replacen('{', r#"{"format":2,"#, 1);
    for (found, why) in
        [(newer.as_str(), crate::keep::record::NEWER), ("{cut", "it can't be read"), ("", "it can't be read")]
    {
        let SecondCopy::IsSetAside(aside) = becomes(Some(found)) else { panic!("{found} is written over") };
        assert_eq!((aside.raw.as_str(), aside.why.as_str()), (found, why));
    }
    assert_eq!(becomes(None), SecondCopy::GivesWay);
    assert_eq!(becomes(Some(&start.encode())), SecondCopy::GivesWay);
    assert_eq!(becomes(Some(&draft("theirs").record(2, 1.0).encode())), SecondCopy::Stays);
}

proptest! {
    /// Two windows, edits, writes that succeed, fail, or arrive although the answer is lost.
    #[test]
    fn no_window_loses_its_text(steps in prop::collection::vec((any::<bool>(), 0u8..5), 0..60)) {
        let mut stored = Stored::new();
        let start = draft("start").record(1, 0.0);
        stored.insert("p".into(), start.clone());
        let mut windows = [Queue::default(), Queue::default()];
        let mut open = ["p".to_string(), "p".to_string()];
        let mut jobs: [Option<Job>; 2] = [None, None];
        let mut last: [Option<String>; 2] = [None, None];
        for window in &mut windows { window.known(&start); }
        let finish: Vec<(bool, u8)> = (0..8).flat_map(|_| [(false, 1), (false, 2), (true, 1), (true, 2)]).collect();
        for (n, (second, what)) in steps.into_iter().chain(finish).enumerate() {
            let at = usize::from(second);
            let (window, id) = (&mut windows[at], open[at].clone());
            match what {
                0 => {
                    let text = format!("{at} {n}");
                    window.ask(Draft { id, ..draft(&text) }, 0.0);
                    last[at] = Some(text);
                }
                1 => {
                    let job = window.take(&id, format!("new {at} {n}"), 0.0);
                    prop_assert!(job.is_none() || jobs[at].is_none(), "two writes at a time");
                    jobs[at] = job.map(|(job, _)| job).or(jobs[at].take());
                }
                _ => if let Some(job) = jobs[at].take() {
                    let outcome = match what {
                        2 => write(&mut stored, &job),
                        3 => { write(&mut stored, &job); Outcome::Failed(Trouble::Gone) }
                        _ => Outcome::Failed(Trouble::Full),
                    };
                    for event in window.done(&job.record.id, outcome, 1.0) {
                        match event {
                            Event::Parted { kept_as, .. } => open[at] = kept_as.id.clone(),
                            Event::State { id, state: SaveState::Saved { .. } } =>
                                prop_assert!(stored.values().any(|r| r.id == id && Some(&r.text) == last[at].as_ref())),
                            _ => {}
                        }
                    }
                }
            }
        }
        for (at, text) in last.into_iter().enumerate() {
            prop_assert!(!windows[at].busy());
            if let Some(text) = text {
                prop_assert!(stored.values().any(|record| record.text == text), "{text} in {stored:?}");
            }
        }
    }
}
