//! Several plans in one readable file, and what opening a file brings: plans beside those that are here. What is the
//! same is left, and nothing that is here is replaced.

use crate::plan::Plan;
use crate::plan::foreign;
use crate::results::count;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeSet;

/// The version of the archive's format that this code writes.
pub const FORMAT: u32 = 1;
/// The longest archive that is read, in bytes.
pub const LONGEST: usize = 30_000_000;
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
}

/// Reads a file, which may be a plan or an archive whatever it is called; or says in a clause why not.
pub fn open(text: &str) -> Result<Opened, String> {
    // Programs for texts may put this mark in front.
    let text = text.trim_start_matches('\u{feff}');
    if text.len() > LONGEST {
        return Err(format!("it is longer than {} MB.", LONGEST / 1_000_000));
    }
    if !serde_json::from_str::<Sort>(text).is_ok_and(|sort| sort.plans.is_some()) {
        let plan = foreign::read(text)?;
        return Ok(Opened { plans: vec![Found { plan, in_bin: false }], refused: Vec::new() });
    }
    let archive: Archive = serde_json::from_str(text)
        .map_err(|_| "it is not an archive that this version can read.".to_string())?;
    if archive.format > FORMAT {
        return Err("it was made by a newer version of Bathbook.".into());
    }
    if archive.plans.len() > MOST_PLANS {
        return Err(format!("it holds more than {MOST_PLANS} plans."));
    }
    let mut opened = Opened::default();
    for Kept { name, in_bin, plan, .. } in archive.plans {
        match foreign::read(&plan.to_string()) {
            Ok(plan) => opened.plans.push(Found { plan, in_bin }),
            Err(why) => opened.refused.push((foreign::line(&name, 80), why)),
        }
    }
    Ok(opened)
}

/// What of `there` is to be put beside `here`: all that is not here already. One that is here under the same name
/// and reads otherwise comes under a name that says so. A plan that is here only in the bin comes again.
pub fn merge(here: &[Found], there: Vec<Found>) -> Vec<Found> {
    let mut added: Vec<Found> = Vec::new();
    let mut names: BTreeSet<String> = here.iter().map(|found| found.plan.name.clone()).collect();
    for mut found in there {
        if here.iter().chain(&added).any(|known| is_same(known, &found)) {
            continue;
        }
        while !names.insert(found.plan.name.clone()) {
            found.plan.name = super::record::marked_name(&found.plan.name);
        }
        added.push(found);
    }
    added
}

/// What came of opening files, for the page's corner: so many plans added, so many here already, and those refused
/// by name with a clause why.
pub fn told(added: usize, same: usize, refused: &[(String, String)]) -> String {
    let mut parts = Vec::new();
    if added > 0 {
        parts.push(format!("{} put beside the others.", count(added, "plan")));
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

/// Whether a plan here is the one that was found, perhaps under the name that it was given when it came before.
fn is_same(here: &Found, there: &Found) -> bool {
    let (ours, theirs) = (&here.plan, &there.plan);
    let end = ours.name.strip_prefix(theirs.name.as_str());
    let is_named_so = end.is_some_and(|end| end.is_empty() || end.starts_with(" (other copy"));
    is_named_so && (there.in_bin || !here.in_bin) && ours.is_same_but_for_its_name(theirs)
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
        assert!(open(r#"{"plans":7}"#).unwrap_err().contains("not an archive"));
        assert!(open(r#"{"format":2,"plans":[]}"#).unwrap_err().contains("newer version"));
    }

    #[test]
    fn one_plan_that_cannot_be_read_does_not_hold_the_others_back() {
        let text = archive(&[found(Plan::new("Good")), found(Plan::new("Bad"))]);
        let mut value: Value = serde_json::from_str(&text).unwrap();
        value["plans"][1]["plan"]["format"] = 999.into();
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
        assert_eq!(merge(&here, vec![found(ours.clone())]), []);
        let added = merge(&here, vec![found(theirs.clone())]);
        assert_eq!(added[0].plan.name, "Line (other copy)");
        // The same archive once more brings nothing.
        let here = [found(ours.clone()), added[0].clone()];
        assert_eq!(merge(&here, vec![found(theirs)]), []);
        // What was thrown away here and not there comes back; the other way round it stays in use.
        let binned = Found { plan: ours.clone(), in_bin: true };
        assert_eq!(merge(std::slice::from_ref(&binned), vec![found(ours.clone())]).len(), 1);
        assert_eq!(merge(&[found(ours)], vec![binned]), []);
    }

    #[test]
    fn what_came_of_it_is_told() {
        let refused = [("a.json".to_string(), "it is not a plan.".to_string())];
        assert_eq!(told(0, 0, &refused), "“a.json” was not opened: it is not a plan. Nothing was changed.");
        assert_eq!(
            told(2, 1, &[]),
            "2 plans put beside the others. 1 plan is here already and stayed as before."
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
            after.extend(merge(&here, there.clone()));
            prop_assert_eq!(&after[..here.len()], &here[..]);
            for wanted in &there {
                prop_assert!(after.iter().any(|known| is_same(known, wanted)), "{wanted:?} is lost");
            }
            prop_assert_eq!(merge(&after, there), []);
        }
    }
}
