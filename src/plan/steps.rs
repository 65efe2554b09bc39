//! The steps of a plan's past and future, each as the piece of its text that it changed: some tens of bytes
//! where a whole plan has thousands, so that hundreds of them can be kept beside it.

use super::Plan;
use serde::{Deserialize, Serialize};

/// One step: where in the plan's JSON it begins, in bytes, what stood there and what stands there since.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step(usize, String, String);

impl Step {
    /// What leads from one text to another.
    pub fn between(before: &str, after: &str) -> Step {
        let same = |pair: &(u8, u8)| pair.0 == pair.1;
        let mut at = before.bytes().zip(after.bytes()).take_while(same).count();
        while !(before.is_char_boundary(at) && after.is_char_boundary(at)) {
            at -= 1;
        }
        let (old, new) = (&before[at..], &after[at..]);
        let mut tail = old.bytes().rev().zip(new.bytes().rev()).take_while(same).count();
        let ends = |text: &str, tail: usize| text.is_char_boundary(text.len() - tail);
        while !(ends(old, tail) && ends(new, tail)) {
            tail -= 1;
        }
        Step(at, old[..old.len() - tail].into(), new[..new.len() - tail].into())
    }

    /// The text after this step; none if it does not belong to `before`.
    pub fn forward(&self, before: &str) -> Option<String> {
        exchange(before, self.0, &self.1, &self.2)
    }

    /// The text before this step; none if it does not belong to `after`.
    pub fn back(&self, after: &str) -> Option<String> {
        exchange(after, self.0, &self.2, &self.1)
    }

    /// About as many bytes as it takes up when kept.
    fn size(&self) -> usize {
        self.1.len() + self.2.len() + 16
    }
}

fn exchange(text: &str, at: usize, out: &str, put: &str) -> Option<String> {
    let (before, rest) = text.split_at_checked(at)?;
    let rest = rest.strip_prefix(out)?;
    Some([before, put, rest].concat())
}

/// The plan as it is kept, and as steps are counted in.
pub fn text_of(plan: &Plan) -> String {
    // A plan is texts and numbers of our own; writing it out cannot fail.
    serde_json::to_string(plan).unwrap_or_default()
}

/// The steps of one plan as they are kept beside it, in the same write.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Kept {
    /// Length and check sum of the plan's text where these steps stand.
    of: (usize, u32),
    /// So many of them are done; those after lead to what was taken back.
    pub done: usize,
    /// In the order in which they were made.
    pub steps: Vec<Step>,
}

/// More than this, in bytes, is not kept of one plan's steps: the oldest go first.
pub const MOST: usize = 200_000;

/// A longer text was not written here: JSON escapes make less than this of [`MOST`].
const LONGEST: usize = 4 * MOST;

/// The form of what is kept.
const VERSION: &str = "1";

impl Kept {
    /// The steps of a plan whose text is `text` after the first `done` of them.
    pub fn new(text: &str, done: usize, steps: Vec<Step>) -> Kept {
        Kept { of: mark(text), done, steps }
    }

    /// Whether these steps stand at this text.
    pub fn is_of(&self, text: &str) -> bool {
        self.of == mark(text)
    }

    /// As it is written: `1.CHECK.JSON`.
    pub fn write(mut self) -> String {
        let mut size = 0;
        let fits = |step: &&Step| {
            size += step.size();
            size <= MOST
        };
        let kept = self.steps.iter().rev().take_while(fits).count();
        let gone = self.steps.len() - kept;
        if gone > self.done {
            // What could be made again alone is too much: without its beginning it leads nowhere.
            self.steps.clear();
        } else {
            self.steps.drain(..gone);
        }
        self.done = self.done.saturating_sub(gone);
        let json = serde_json::to_string(&self).unwrap_or_default();
        format!("{VERSION}.{:08x}.{json}", adler2::adler32_slice(json.as_bytes()))
    }

    /// Reads what [`Kept::write`] wrote; none if it is damaged or of another form. The plan itself does
    /// without.
    pub fn read(text: &str) -> Option<Kept> {
        if text.len() > LONGEST {
            return None;
        }
        let mut parts = text.splitn(3, '.');
        let [version, sum, json] = [parts.next()?, parts.next()?, parts.next()?];
        let whole = version == VERSION && sum == format!("{:08x}", adler2::adler32_slice(json.as_bytes()));
        let kept: Kept = serde_json::from_str(json).ok().filter(|_| whole)?;
        (kept.done <= kept.steps.len()).then_some(kept)
    }

    /// What was kept beside `before`, led on to `after` by one more step: for a text that was saved without
    /// its steps.
    pub fn carried(kept: &str, before: &str, after: &str) -> Option<String> {
        let mut kept = Kept::read(kept).filter(|kept| kept.is_of(before))?;
        kept.steps.truncate(kept.done);
        kept.steps.push(Step::between(before, after));
        Some(Kept::new(after, kept.steps.len(), kept.steps).write())
    }
}

fn mark(text: &str) -> (usize, u32) {
    (text.len(), adler2::adler32_slice(text.as_bytes()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_step_is_the_piece_that_changed() {
        let step = Step::between(r#"{"V":"200 L","T":"45"}"#, r#"{"V":"250 L","T":"45"}"#);
        assert_eq!(step, Step(7, "0".into(), "5".into()));
        // Letters of several bytes that share some of them stay whole.
        assert_eq!(Step::between("a é b", "a è b"), Step(2, "é".into(), "è".into()));
    }

    #[test]
    fn a_step_of_another_text_leads_nowhere() {
        let step = Step::between("abc", "abXc");
        for text in ["", "ab", "aXbc", "é"] {
            assert_eq!(step.back(text), None, "{text}");
        }
    }

    #[test]
    fn no_cut_or_changed_byte_of_kept_steps_goes_unnoticed() {
        let steps = vec![Step::between("aé", "aé1"), Step::between("aé1", "b")];
        let whole = Kept::new("b", 2, steps).write();
        assert!(Kept::read(&whole).is_some());
        for at in 0..whole.len() {
            if let Some(cut) = whole.get(..at) {
                assert_eq!(Kept::read(cut), None, "cut at {at}");
            }
            for bit in 0..8 {
                let mut bytes = whole.clone().into_bytes();
                bytes[at] ^= 1 << bit;
                let found = String::from_utf8(bytes).ok().and_then(|text| Kept::read(&text));
                assert_eq!(found, None, "bit {bit} at {at}");
            }
        }
    }

    #[test]
    fn the_oldest_steps_go_where_there_are_too_many() {
        let step = |k: usize| Step(k, "x".repeat(1000), String::new());
        let kept = Kept::read(&Kept::new("t", 300, (0..310).map(step).collect()).write()).unwrap();
        assert!(kept.steps.len() < 200 && kept.steps.len() > 190);
        assert_eq!((kept.steps.len() - kept.done, kept.steps[kept.done].0), (10, 300));
        let none = Kept::read(&Kept::new("t", 3, (0..310).map(step).collect()).write()).unwrap();
        assert_eq!((none.done, none.steps.len()), (0, 0));
    }

    proptest! {
        #[test]
        fn steps_lead_there_and_back(before in "[aé{}\"0-2 ]{0,30}", after in "[aé{}\"0-2 ]{0,30}") {
            let step = Step::between(&before, &after);
            prop_assert_eq!(step.forward(&before), Some(after.clone()));
            prop_assert_eq!(step.back(&after), Some(before));
        }

        #[test]
        fn foreign_text_is_no_steps_and_never_panics(text in ".{0,60}") {
            prop_assert_eq!(Kept::read(&text), None);
            let sum = adler2::adler32_slice(text.as_bytes());
            prop_assert_eq!(Kept::read(&format!("1.{sum:08x}.{text}")), None);
        }
    }
}
