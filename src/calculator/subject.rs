//! The sorts of place that a plan holds, and which of them lead to which.

use serde::{Deserialize, Serialize};

/// What sort of place it is; in the order of flow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub enum Subject {
    /// The site: calendar, room, prices, permit. Every plan has one.
    Site,
    /// A bath with its tank and chambers.
    Bath,
    /// A vessel in which something is diluted or mixed.
    Mixing,
    /// A liquid that leaves: a rinse, a dump, a bleed, samples, or one typed.
    Stream,
    /// One of the ways out.
    Route,
    /// A pipe run by gravity, with its lift station if it needs one.
    Drain,
    /// A liquid that treatment makes of a route: treated water, spent regenerant, what passes as it is.
    Treated,
    /// Where it leaves the site: a point of discharge, or a container.
    Discharge,
}

/// What the interface and the links know of a sort of place.
pub struct Sort {
    /// The sort.
    pub subject: Subject,
    /// One of them: "Bath".
    pub title: &'static str,
    /// Its heading in lists: "Baths".
    pub plural: &'static str,
    /// What the button says that makes one.
    pub add: &'static str,
    /// A place of this sort may come from one of these.
    pub comes_from: &'static [Subject],
    /// What that is called, and what it means.
    pub from_label: &'static str,
    /// A place of this sort may lead to one of these.
    pub leads_to: &'static [Subject],
    /// What that is called.
    pub to_label: &'static str,
    /// What it says while it leads nowhere.
    pub leads_nowhere: &'static str,
}

use Subject::*;

/// Every sort, in the order of flow.
pub static SORTS: &[Sort] = &[
    Sort {
        subject: Site,
        title: "Site",
        plural: "Site",
        add: "",
        comes_from: &[],
        from_label: "",
        leads_to: &[],
        to_label: "",
        leads_nowhere: "",
    },
    Sort {
        subject: Bath,
        title: "Bath",
        plural: "Baths",
        add: "Add a bath",
        comes_from: &[],
        from_label: "",
        leads_to: &[],
        to_label: "",
        leads_nowhere: "",
    },
    Sort {
        subject: Mixing,
        title: "Mixing vessel",
        plural: "Dilution and mixing",
        add: "Add a mixing vessel",
        comes_from: &[],
        from_label: "",
        leads_to: &[],
        to_label: "",
        leads_nowhere: "",
    },
    Sort {
        subject: Stream,
        title: "Stream",
        plural: "Streams",
        add: "Add a stream",
        comes_from: &[Bath, Stream],
        from_label: "Comes from",
        leads_to: &[Route],
        to_label: "Goes to",
        leads_nowhere: "no route yet",
    },
    Sort {
        subject: Route,
        title: "Route",
        plural: "Routes",
        add: "Add a route",
        comes_from: &[],
        from_label: "",
        leads_to: &[Drain],
        to_label: "Runs through",
        leads_nowhere: "nowhere yet",
    },
    Sort {
        subject: Drain,
        title: "Drain",
        plural: "Drains",
        add: "Add a drain",
        comes_from: &[Bath],
        from_label: "Tank that may be let out into it",
        leads_to: &[],
        to_label: "",
        leads_nowhere: "",
    },
    // The second generation: it comes from a route and never leads back to one.
    Sort {
        subject: Treated,
        title: "Treated stream",
        plural: "Treated streams",
        add: "Add a treated stream",
        comes_from: &[Route],
        from_label: "Comes from",
        leads_to: &[Discharge],
        to_label: "Goes to",
        leads_nowhere: "no discharge yet",
    },
    Sort {
        subject: Discharge,
        title: "Discharge",
        plural: "Discharges",
        add: "Add a discharge or a container",
        comes_from: &[],
        from_label: "",
        leads_to: &[],
        to_label: "",
        leads_nowhere: "",
    },
];

impl Sort {
    /// Whether it flows from one place to another, so that it is unfinished while it leads nowhere.
    pub fn is_flow(&self) -> bool {
        !self.comes_from.is_empty() && !self.leads_to.is_empty()
    }
}

impl Subject {
    /// What is known of this sort.
    pub fn sort(self) -> &'static Sort {
        SORTS.iter().find(|sort| sort.subject == self).unwrap_or(&SORTS[0])
    }
}
