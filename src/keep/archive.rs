//! Several plans in one readable file, and what opening a file brings: plans beside those that are here. What is the
//! same is left, and nothing that is here is replaced.

use super::record::{marked_name, plain_name};
use crate::plan::Plan;
use crate::plan::foreign;
use crate::results::count;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use serde_json::value::RawValue;
use std::collections::BTreeSet;

/// The version of the archive's format that this code writes.
pub const FORMAT: u32 = 1;
/// The longest archive that is read, in bytes: it is written with lines and spaces, and each plan in it may hold what any
/// plan may.
pub const LONGEST: usize = 80_000_000;
/// More plans than anybody keeps in one browser.
pub const MOST_PLANS: usize = 2000;

/// Several plans as they stand in a file.
#[derive(Serialize, Deserialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Archive {
    /// Version of the format.
    pub format: u32,
    /// When it was made, in universal time: 2026-11-29T13:24:00Z.
    #[serde(default)]
    pub made: String,
    /// The plans.
    pub plans: Vec<Kept>,
}

/// A plan of an archive.
#[derive(Serialize, Deserialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Kept {
    /// As the list of plans shows it.
    pub name: String,
    /// When it was last changed, in universal time.
    #[serde(default)]
    pub changed: String,
    /// Whether it lay in the bin.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub in_bin: bool,
    /// The plan, as a file of its own holds it.
    #[cfg_attr(test, schemars(with = "Plan"))]
    pub plan: Value,
}

/// A plan with where it lies.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The plan.
    pub plan: Plan,
    /// Whether it lies in the bin.
    pub in_bin: bool,
}

/// What a file holds.
#[derive(Debug, Default, PartialEq)]
pub struct Opened {
    /// The plans that can be read.
    pub plans: Vec<Found>,
    /// Those that cannot: name, and why in a clause.
    pub refused: Vec<(String, String)>,
}

/// An archive as it is read: the plans stay as they are until their turn comes, so that they take no memory of their own.
#[derive(Deserialize)]
struct Unopened<'a> {
    #[serde(borrow)]
    plans: Vec<UnopenedPlan<'a>>,
}

#[derive(Deserialize)]
struct UnopenedPlan<'a> {
    name: String,
    #[serde(default)]
    in_bin: bool,
    #[serde(borrow)]
    plan: &'a RawValue,
}

/// Only as much as tells an archive from a plan.
#[derive(Deserialize)]
struct Sort {
    plans: Option<serde::de::IgnoredAny>,
}

impl Archive {
    /// The archive as a file: readable, with a line for each thing.
    pub fn file(&self) -> String {
        // Texts and numbers always have a JSON form.
        serde_json::to_string_pretty(self).unwrap_or_default()
    }

    /// The file, or what to say in its place: it is larger than what is opened again.
    pub fn file_that_opens(&self) -> Result<String, String> {
        let file = self.file();
        if file.len() <= LONGEST && self.plans.len() <= MOST_PLANS {
            return Ok(file);
        }
        Err(format!(
            "A file holds up to {MOST_PLANS} plans and {} MB, and this would be more. None was saved. Leave plans out, and save them as a second file.",
            LONGEST / 1_000_000
        ))
    }
}

/// Reads a file, which may be a plan or an archive whatever it is called; or says in a clause why not.
pub fn open(text: &str) -> Result<Opened, String> {
    // Programs for texts may put this mark in front.
    let text = text.trim_start_matches('\u{feff}');
    if text.len() > LONGEST {
        return Err(format!("it is longer than {} MB.", LONGEST / 1_000_000));
    }
    let sort = serde_json::from_str::<Sort>(text);
    if sort.as_ref().is_err_and(serde_json::Error::is_eof) {
        return Err("its end is missing. Copy it once more from where it came from.".into());
    }
    if !sort.is_ok_and(|sort| sort.plans.is_some()) {
        let plan = foreign::read(text)?;
        return Ok(Opened { plans: vec![Found { plan, in_bin: false }], refused: Vec::new() });
    }
    // A newer archive may look like none that is known here.
    if foreign::is_newer(text, FORMAT) {
        return Err(foreign::NEWER.into());
    }
    let archive: Unopened = serde_json::from_str(text)
        .map_err(|_| "it is not an archive that this version can read.".to_string())?;
    if archive.plans.len() > MOST_PLANS {
        return Err(format!("it holds more than {MOST_PLANS} plans."));
    }
    let mut opened = Opened::default();
    for UnopenedPlan { name, in_bin, plan } in archive.plans {
        match foreign::read(plan.get()) {
            Ok(plan) => opened.plans.push(Found { plan, in_bin }),
            Err(why) => opened.refused.push((foreign::line(&name, 80), why)),
        }
    }
    Ok(opened)
}

/// What is to be put beside the plans that are here.
#[derive(Debug, Default, PartialEq)]
pub struct Merged {
    /// The plans.
    pub added: Vec<Found>,
    /// The names that some of them were given, as others have their own.
    pub named: Vec<String>,
}

/// What of `there` is to be put beside `here`: all that is not here already. One that is here under the same name
/// and reads otherwise comes under a name that says so. A plan that is here only in the bin comes again.
pub fn merge(here: &[Found], there: Vec<Found>) -> Merged {
    let mut merged = Merged::default();
    let mut names: BTreeSet<String> = here.iter().map(|found| found.plan.name.clone()).collect();
    for mut found in there {
        if here.iter().chain(&merged.added).any(|known| is_same(known, &found)) {
            continue;
        }
        let name = &mut found.plan.name;
        let is_taken = names.contains(name);
        while !names.insert(name.clone()) {
            *name = marked_name(name);
        }
        if is_taken {
            merged.named.push(name.clone());
        }
        merged.added.push(found);
    }
    merged
}

/// What came of opening files, for the page's corner: the plans added, so many here already, and those refused by name
/// with a clause why.
pub fn told(merged: &Merged, same: usize, refused: &[(String, String)]) -> String {
    let (mut parts, added) = (Vec::new(), merged.added.len());
    if added > 0 {
        parts.push(format!("{} put beside the others.", count(added, "plan")));
    }
    match &merged.named[..] {
        [] => (),
        [name] => parts.push(format!("Another plan here has the name, so it is called “{name}”.")),
        [name, rest @ ..] => parts.push(format!(
            "Other plans here have the names, so they are called “{name}” and the like, {} in all.",
            rest.len() + 1
        )),
    }
    if same > 0 {
        let are = if same == 1 { "is" } else { "are" };
        parts.push(format!("{} {are} here already and stayed as before.", count(same, "plan")));
    }
    parts.extend(refused.iter().take(3).map(|(name, why)| format!("“{name}” was not opened: {why}")));
    if refused.len() > 3 {
        parts.push(format!("Nor were {} others.", refused.len() - 3));
    }
    if added == 0 {
        parts.push("Nothing was changed.".into());
    }
    parts.join(" ")
}

/// Whether a plan here is the one that was found, perhaps under the name that it was given when it came, here or there.
fn is_same(here: &Found, there: &Found) -> bool {
    let (ours, theirs) = (&here.plan, &there.plan);
    plain_name(&ours.name) == plain_name(&theirs.name)
        && (there.in_bin || !here.in_bin)
        && ours.is_same_but_for_its_name(theirs)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::examples;
    use proptest::prelude::*;

    fn archive(plans: &[Found]) -> String {
        let kept = |found: &Found| Kept {
            name: found.plan.name.clone(),
            changed: "2026-11-29T13:24:00Z".into(),
            in_bin: found.in_bin,
            plan: serde_json::to_value(&found.plan).unwrap(),
        };
        let plans = plans.iter().map(kept).collect();
        Archive { format: FORMAT, made: "2026-11-29T13:24:00Z".into(), plans }.file()
    }

    fn found(plan: Plan) -> Found {
        Found { plan, in_bin: false }
    }

    #[test]
    fn a_file_is_told_by_what_it_holds() {
        let all: Vec<Found> =
            examples::ALL.iter().filter_map(|(id, ..)| examples::plan(id)).map(found).collect();
        assert_eq!(open(&archive(&all)), Ok(Opened { plans: all.clone(), refused: Vec::new() }));
        let one = serde_json::to_string(&all[0].plan).unwrap();
        assert_eq!(open(&format!("\u{feff}{one}")).unwrap().plans, all[..1]);
        assert!(open("{}").unwrap_err().contains("not a plan"));
        for cut in [&archive(&all)[..20_000], &one[..one.len() - 1], ""] {
            assert!(open(cut).unwrap_err().contains("end is missing"), "{cut}");
        }
        assert!(open(r#"{"plans":7}"#).unwrap_err().contains("not an archive"));
    }

    #[test]
    fn a_newer_archive_is_told_as_such_whatever_its_shape() {
        for newer in [
            r#"{"format":2,"plans":[]}"#,
            r#"{"format":2,"plans":{"Line":{"text":"..."}}}"#,
            r#"{"format":7,"plans":[{"title":"Line"}]}"#,
            r#"{"format":2,"lines":[{"format":9}]}"#,
        ] {
            assert_eq!(open(newer), Err(foreign::NEWER.into()), "{newer}");
        }
    }

    #[test]
    fn a_plan_of_an_older_format_is_the_same_as_the_one_that_is_here() {
        let here = found(Plan::new("Line"));
        let mut value: Value = serde_json::from_str(&archive(std::slice::from_ref(&here))).unwrap();
        value["plans"][0]["plan"]["format"] = 0.into();
        let opened = open(&value.to_string()).unwrap();
        assert_eq!(merge(&[here], opened.plans), Merged::default());
    }

    #[test]
    fn an_archive_that_could_not_be_opened_again_is_not_saved() {
        let mut all = Archive { format: FORMAT, made: String::new(), plans: Vec::new() };
        assert!(all.file_that_opens().is_ok());
        let kept = |plan: Value| Kept { name: "n".into(), changed: String::new(), in_bin: false, plan };
        all.plans = vec![kept("x".repeat(LONGEST).into())];
        assert!(all.file_that_opens().unwrap_err().contains("second file"));
        all.plans = (0..=MOST_PLANS).map(|_| kept(Value::Null)).collect();
        assert!(all.file_that_opens().unwrap_err().contains("2000 plans"));
    }

    #[test]
    fn one_plan_that_cannot_be_read_does_not_hold_the_others_back() {
        let text = archive(&[found(Plan::new("Good")), found(Plan::new("Bad"))]);
        let mut value: Value = serde_json::from_str(&text).unwrap();
        value["plans"][1]["plan"] = serde_json::json!({ "format": 999, "title": "Bad" });
        let opened = open(&value.to_string()).unwrap();
        assert_eq!(opened.plans, [found(Plan::new("Good"))]);
        assert_eq!(opened.refused[0].0, "Bad");
        assert!(opened.refused[0].1.contains("newer version"));
    }

    #[test]
    fn what_is_the_same_is_left_and_what_differs_comes_beside() {
        let (ours, mut theirs) = (Plan::new("Line"), Plan::new("Line"));
        theirs.notes = "changed elsewhere".into();
        let here = [found(ours.clone())];
        assert_eq!(merge(&here, vec![found(ours.clone())]), Merged::default());
        let merged = merge(&here, vec![found(theirs.clone())]);
        let added = merged.added;
        assert_eq!(
            (&added[0].plan.name, &merged.named[..]),
            (&merged.named[0], &["Line (other copy)".to_string()][..])
        );
        // The same archive once more brings nothing, nor does that of a device to which both came before.
        let here = [found(ours.clone()), added[0].clone()];
        assert_eq!(merge(&here, vec![found(theirs.clone())]), Merged::default());
        let there = [found(theirs.clone())];
        let all = [there.to_vec(), merge(&there, here.to_vec()).added].concat();
        assert_eq!(all.len(), 2, "{all:?}");
        assert_eq!(merge(&here, all), Merged::default());
        // What was thrown away here and not there comes back; the other way round it stays in use.
        let binned = Found { plan: ours.clone(), in_bin: true };
        assert_eq!(merge(std::slice::from_ref(&binned), vec![found(ours.clone())]).added.len(), 1);
        assert_eq!(merge(&[found(ours)], vec![binned]), Merged::default());
    }

    #[test]
    fn what_came_of_it_is_told() {
        let refused = [("a.json".to_string(), "it is not a plan.".to_string())];
        assert_eq!(
            told(&Merged::default(), 0, &refused),
            "“a.json” was not opened: it is not a plan. Nothing was changed."
        );
        let added = vec![found(Plan::new("Line (other copy)")), found(Plan::new("Other"))];
        let merged = Merged { added, named: vec!["Line (other copy)".into()] };
        assert_eq!(
            told(&merged, 1, &[]),
            "2 plans put beside the others. Another plan here has the name, so it is called “Line (other copy)”. 1 plan is here already and stayed as before."
        );
    }

    fn some_plans() -> impl Strategy<Value = Vec<Found>> {
        let one = ("[ab]", 0..3u8, any::<bool>()).prop_map(|(name, notes, in_bin)| {
            let mut plan = Plan::new(&name);
            plan.notes = notes.to_string();
            Found { plan, in_bin }
        });
        prop::collection::vec(one, 0..6)
    }

    proptest! {
        #[test]
        fn a_merge_never_loses_either_side(here in some_plans(), there in some_plans()) {
            let there = open(&archive(&there)).expect("an archive").plans;
            let mut after = here.clone();
            after.extend(merge(&here, there.clone()).added);
            prop_assert_eq!(&after[..here.len()], &here[..]);
            for wanted in &there {
                prop_assert!(after.iter().any(|known| is_same(known, wanted)), "{wanted:?} is lost");
            }
            prop_assert_eq!(merge(&after, there), Merged::default());
        }
    }
}
