//! Plans, places, sheets and entries, as they stand in a file.

use crate::calculator::Subject;
use crate::calculators::{from_start, site};
use crate::units::Style;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The version of the file format that this code writes.
pub const FORMAT: u32 = 1;

/// A stable name of a place in this plan; never used again after the place is deleted.
pub type Id = u32;

/// The largest id that a file may bring: far above any plan, and with room above it for new places.
const LARGEST_ID: Id = Id::MAX / 2;

/// The longest name of a place or a row, in characters.
const LONGEST_NAME: usize = 60;

/// A whole plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Plan {
    /// Version of the format.
    pub format: u32,
    /// As the user calls it.
    pub name: String,
    /// What the user wants to remember about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// The id that the next place gets.
    pub(super) next: Id,
    /// The site first, then in the order in which they were made.
    pub places: Vec<Place>,
}

/// One place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Place {
    /// Stable id.
    pub id: Id,
    /// What sort of place it is.
    pub subject: Subject,
    /// As the user calls it; no two places of a plan have the same name.
    pub name: String,
    /// The place that it comes from: a rinse from its bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Id>,
    /// The place that it leads to: a stream to its route. One at most, so that nothing counts twice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<Id>,
    /// What was typed, by calculator id.
    // Plans share the sheets in which they do not differ: each edit looks at the plan before it.
    #[serde(default)]
    pub sheets: BTreeMap<String, Arc<Sheet>>,
}

/// What was typed into one calculator, at one place.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Sheet {
    /// The single inputs.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub entries: Entries,
    /// By table: the rows in order, each under its key.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub rows: BTreeMap<String, Vec<(String, Entries)>>,
    /// The steps of the work order that are done, by name, with the amount that was wanted then.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub ticks: BTreeMap<String, String>,
}

/// By symbol. What is absent has its default, or follows its declared link.
pub type Entries = BTreeMap<String, Entry>;

/// One thing that the user entered.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "Written", into = "Written")]
#[cfg_attr(test, derive(schemars::JsonSchema), schemars(with = "Written"))]
pub struct Entry {
    /// As typed, with its unit: `12 gal`, `CuSO4·5H2O`, or a word of a choice. Empty where only a unit was
    /// chosen: the default or the link stands.
    pub text: String,
    /// Where the text cannot be read: the last good text, which stands.
    pub stands: Option<String>,
    /// The unit that the field shows it in, if another than typed.
    pub show: Option<String>,
}

/// An entry in a file: a plain text, unless there is more to say.
#[derive(Clone, Serialize, Deserialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
#[serde(untagged)]
enum Written {
    /// As typed, with its unit.
    Plain(String),
    /// The same with more to say.
    Full {
        /// As typed, with its unit; empty where only a unit was chosen.
        text: String,
        /// The last good text, where the text cannot be read.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        stands: Option<String>,
        /// The unit that the field shows it in.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        show: Option<String>,
    },
}

impl From<Written> for Entry {
    fn from(written: Written) -> Entry {
        match written {
            Written::Plain(text) => Entry { text, ..Entry::default() },
            Written::Full { text, stands, show } => Entry { text, stands, show },
        }
    }
}

impl From<Entry> for Written {
    fn from(Entry { text, stands, show }: Entry) -> Written {
        if stands.is_none() && show.is_none() {
            Written::Plain(text)
        } else {
            Written::Full { text, stands, show }
        }
    }
}

impl Entry {
    /// Whether nothing is typed, and only a unit chosen.
    pub fn is_unit_only(&self) -> bool {
        self.text.is_empty()
    }
}

impl Sheet {
    /// Whether anything was typed, chosen or ticked here.
    pub fn is_touched(&self) -> bool {
        *self != Sheet::default()
    }
}

impl Place {
    /// Whether this place leads to `other`. Every place leads to the site.
    pub fn is_feeding(&self, other: &Place) -> bool {
        self.id != other.id && (other.subject == Subject::Site || self.to == Some(other.id))
    }
}

impl Plan {
    /// Whether a place comes from another, directly or by others.
    pub fn comes_from(&self, place: &Place, other: Id) -> bool {
        let mut from = place.from;
        // A file may go round in a circle until it is mended.
        for _ in 0..self.places.len() {
            match from {
                Some(id) if id == other => return true,
                Some(id) => from = self.place(id).and_then(|place| place.from),
                None => return false,
            }
        }
        false
    }

    /// An empty plan: a site and nothing else.
    pub fn new(name: &str) -> Plan {
        let mut plan =
            Plan { format: FORMAT, name: name.into(), notes: String::new(), next: 0, places: Vec::new() };
        plan.add(Subject::Site, "Site");
        plan
    }

    /// One calculator by itself, at a place of its own.
    /// The site keeps its settings; what else stands there is out of sight, so nothing waits for it.
    pub fn quick(calculator: &str, title: &str, subject: Subject) -> Plan {
        let mut plan = Plan::new(title);
        let own = match plan.site().filter(|_| subject == Subject::Site) {
            Some(site) => site.id,
            None => plan.add(subject, subject.sort().title),
        };
        plan.add_sheet(own, calculator);
        for place in &mut plan.places {
            place.sheets.retain(|id, _| {
                id == calculator || (place.subject == Subject::Site && id == site::CALCULATOR.id)
            });
        }
        plan
    }

    /// Adds a place with the sheets that it has from the start, and gives its id.
    pub fn add(&mut self, subject: Subject, name: &str) -> Id {
        let id = self.fresh_id();
        // One by one: collected, they would be sorted first, and a sort is 5 kB of code.
        let mut sheets = BTreeMap::new();
        sheets.extend(from_start(subject).map(|c| (c.id.to_string(), Arc::default())));
        let name = self.free_name(name, None);
        self.places.push(Place { id, subject, name, from: None, to: None, sheets });
        id
    }

    /// An id that no place has or had.
    fn fresh_id(&mut self) -> Id {
        let id = self.next;
        self.next = self.next.saturating_add(1);
        id
    }

    /// The name itself, or with a number behind it if another place has it.
    pub fn free_name(&self, wanted: &str, except: Option<Id>) -> String {
        let wanted = tidy(wanted);
        let taken = |name: &str| self.places.iter().any(|p| p.name == name && Some(p.id) != except);
        numbered(&wanted, taken)
    }

    /// The place of this id.
    pub fn place(&self, id: Id) -> Option<&Place> {
        self.places.iter().find(|place| place.id == id)
    }

    /// The same, to change it.
    pub fn place_mut(&mut self, id: Id) -> Option<&mut Place> {
        self.places.iter_mut().find(|place| place.id == id)
    }

    /// The places in which this plan and another differ, each with the first of its sheets that does.
    pub fn differences<'a>(&'a self, other: &'a Plan) -> Vec<(&'a Place, Option<&'a str>)> {
        let changed = self.places.iter().filter_map(|here| {
            let Some(there) = other.place(here.id) else { return Some((here, None)) };
            let sheet = here.sheets.keys().find(|id| there.sheets.get(*id) != here.sheets.get(*id));
            (here != there).then_some((here, sheet.map(String::as_str)))
        });
        let gone = other.places.iter().filter(|there| self.place(there.id).is_none());
        changed.chain(gone.map(|there| (there, None))).collect()
    }

    /// Whether another plan holds the same, whatever it is called.
    pub fn is_same_but_for_its_name(&self, other: &Plan) -> bool {
        let all = |plan: &Plan| (plan.format, plan.next);
        all(self) == all(other) && self.notes == other.notes && self.places == other.places
    }

    /// The site.
    pub fn site(&self) -> Option<&Place> {
        self.places.iter().find(|place| place.subject == Subject::Site)
    }

    /// How this plan reads and shows numbers, as chosen at its site.
    pub fn style(&self) -> Style {
        let entries =
            self.site().and_then(|place| place.sheets.get(site::CALCULATOR.id)).map(|sheet| &sheet.entries);
        let word = |symbol: &str| entries.and_then(|e| e.get(symbol)).map_or("", |entry| entry.text.as_str());
        site::style(word("decimal"), word("gallon"), word("units"), word("currency"))
    }

    /// Makes a plan that came from outside whole again: one site at least, ids that are unique and leave
    /// room for more, names that are unique and may stand in a plan, and each place coming from and
    /// leading to places that there are, of the sorts allowed, and none of them in a circle. Entries and sheets stay as they are; what
    /// is not known of them is not read.
    pub fn mended(mut self) -> Plan {
        if self.next > LARGEST_ID || self.places.iter().any(|place| place.id > LARGEST_ID) {
            self.renumber();
        }
        let next = self.places.iter().map(|place| place.id + 1).max().unwrap_or(0);
        self.next = self.next.max(next);
        for k in 0..self.places.len() {
            let (before, rest) = self.places.split_at(k);
            if before.iter().any(|place| place.id == rest[0].id) {
                self.places[k].id = self.fresh_id();
            }
        }
        if self.site().is_none() {
            let id = self.add(Subject::Site, "Site");
            let last = self.places.iter().position(|place| place.id == id).unwrap_or(0);
            self.places[..=last].rotate_right(1);
        }
        for k in 0..self.places.len() {
            let (id, name) = (self.places[k].id, self.places[k].name.clone());
            self.places[k].name = self.free_name(&name, Some(id));
            let sort = self.places[k].subject.sort();
            let of = |target: Option<Id>, allowed: &[Subject]| {
                target.filter(|t| *t != id && self.place(*t).is_some_and(|p| allowed.contains(&p.subject)))
            };
            let (from, to) = (of(self.places[k].from, sort.comes_from), of(self.places[k].to, sort.leads_to));
            (self.places[k].from, self.places[k].to) = (from, to);
        }
        for k in 0..self.places.len() {
            if self.comes_round(self.places[k].id, self.places[k].from) {
                self.places[k].from = None;
            }
        }
        self
    }

    /// Whether a place that came from `from` would come from itself in the end.
    pub(super) fn comes_round(&self, id: Id, from: Option<Id>) -> bool {
        let next = |from: &Id| self.place(*from).and_then(|place| place.from);
        let all = std::iter::successors(from, next).take(self.places.len() + 1);
        all.into_iter().any(|from| from == id)
    }

    /// Numbers the places from 0, and what they come from and lead to with them.
    fn renumber(&mut self) {
        let old: Vec<Id> = self.places.iter().map(|place| place.id).collect();
        let new = |id: Option<Id>| old.iter().position(|known| Some(*known) == id).map(|k| k as Id);
        // Places of one id keep one id here, and are told apart like any others.
        for place in &mut self.places {
            place.id = new(Some(place.id)).unwrap_or_default();
            (place.from, place.to) = (new(place.from), new(place.to));
        }
        self.next = self.places.len() as Id;
    }
}

/// A name as it may stand in a plan: no control characters, no brackets (they mark rows), not too long.
pub(super) fn tidy(name: &str) -> String {
    let kept: String = name.chars().filter(|c| !super::foreign::steers(*c) && !"[]".contains(*c)).collect();
    let short: String = kept.trim().chars().take(LONGEST_NAME).collect();
    if short.trim().is_empty() { "Unnamed".into() } else { short.trim().into() }
}

/// A name that is [`tidy`], or with a number behind it where it is taken: no longer than it may be, so that it is the
/// same when it is read again.
pub(super) fn numbered(wanted: &str, taken: impl Fn(&str) -> bool) -> String {
    let with = |number: usize| {
        let end = format!(" {number}");
        let begin: String = wanted.chars().take(LONGEST_NAME - end.len()).collect();
        begin.trim_end().to_string() + &end
    };
    let all = std::iter::once(wanted.to_string()).chain((2..).map(with));
    all.into_iter().find(|name| !taken(name)).unwrap_or_else(|| wanted.into())
}
