//! The address of every screen, as it stands behind the `#` of the page's address. So back, forward,
//! reload and bookmarks work on any static host, in any folder.

use crate::calculator::Calculator;
use crate::calculators::find;
use crate::plan::Id;

/// One screen.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Address {
    /// Plans, examples and quick sums.
    #[default]
    Home,
    /// What this is, how numbers are checked, where plans are kept.
    About,
    /// The line of a plan: map, streams, balances, findings.
    Line(String),
    /// The plan on paper.
    Report(String),
    /// What the plan asks of the building, on one page.
    Building(String),
    /// The ways to hand the plan on.
    Share(String),
    /// What the plan was before.
    Earlier(String),
    /// A whole plan within the address.
    Link(String),
    /// One sheet of a plan.
    Sheet {
        /// The plan.
        plan: String,
        /// The place.
        place: Id,
        /// The calculator.
        calculator: &'static str,
    },
    /// One calculator by itself.
    Quick(&'static str),
}

impl Address {
    /// Reads the part behind `#`; what leads nowhere is home.
    pub fn read(fragment: &str) -> Address {
        let parts: Vec<_> = fragment.trim_start_matches(['#', '/']).split('/').collect();
        match parts.as_slice() {
            ["about"] => Address::About,
            ["plan", plan] | ["plan", plan, "line"] if is_id(plan) => Address::Line((*plan).into()),
            ["plan", plan, "building"] if is_id(plan) => Address::Building((*plan).into()),
            ["plan", plan, "report"] if is_id(plan) => Address::Report((*plan).into()),
            ["plan", plan, "share"] if is_id(plan) => Address::Share((*plan).into()),
            ["plan", plan, "earlier"] if is_id(plan) => Address::Earlier((*plan).into()),
            ["link", carried] => Address::Link(tidied(carried)),
            ["plan", plan, place, calculator] if is_id(plan) => match (place.parse(), find(calculator)) {
                (Ok(place), Some(Calculator { id, .. })) => {
                    Address::Sheet { plan: (*plan).into(), place, calculator: id }
                }
                _ => Address::Line((*plan).into()),
            },
            ["quick", calculator] => match find(calculator).filter(|c| c.quick) {
                Some(calculator) => Address::Quick(calculator.id),
                None => Address::Home,
            },
            _ => Address::Home,
        }
    }

    /// Whether it is a screen of a plan, with the rail of its places beside it.
    pub fn is_of_plan(&self) -> bool {
        matches!(
            self,
            Address::Line(_)
                | Address::Report(_)
                | Address::Building(_)
                | Address::Share(_)
                | Address::Earlier(_)
                | Address::Sheet { .. }
        )
    }

    /// The part from `#` on.
    pub fn text(&self) -> String {
        match self {
            Address::Home => "#/".into(),
            Address::About => "#/about".into(),
            Address::Line(plan) => format!("#/plan/{plan}/line"),
            Address::Report(plan) => format!("#/plan/{plan}/report"),
            Address::Building(plan) => format!("#/plan/{plan}/building"),
            Address::Share(plan) => format!("#/plan/{plan}/share"),
            Address::Earlier(plan) => format!("#/plan/{plan}/earlier"),
            Address::Link(carried) => format!("#/link/{carried}"),
            Address::Sheet { plan, place, calculator } => format!("#/plan/{plan}/{place}/{calculator}"),
            Address::Quick(calculator) => format!("#/quick/{calculator}"),
        }
    }
}

/// A link's text without what mail and chat put into it: blanks and breaks within, marks behind it.
fn tidied(text: &str) -> String {
    let marks = ["%20", "%0A", "%0D", "%09", "%C2%A0", "%3E", "%22"];
    let plain = marks.iter().fold(text.to_string(), |text, mark| text.replace(mark, ""));
    let plain: String = plain.chars().filter(|c| !c.is_whitespace()).collect();
    plain.trim_end_matches(|c: char| !c.is_ascii_alphanumeric() && c != '-' && c != '_').into()
}

fn is_id(text: &str) -> bool {
    !text.is_empty() && text.len() <= 64 && text.chars().all(|c| c.is_ascii_alphanumeric() || c == '-')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_screen_has_an_address_that_leads_back_to_it() {
        let sheet = Address::Sheet { plan: "p-1a2b".into(), place: 3, calculator: "site" };
        for address in [
            Address::Home,
            Address::About,
            Address::Line("p-1a2b".into()),
            Address::Report("p-1a2b".into()),
            Address::Building("p-1a2b".into()),
            Address::Share("p-1a2b".into()),
            Address::Earlier("p-1a2b".into()),
            Address::Link("1.024d0127.3.YWJj".into()),
            sheet,
        ] {
            assert_eq!(Address::read(&address.text()), address);
        }
        for nowhere in ["", "#", "#/plan", "#/plan/<b>", "#/quick/none", "#/quick/site", "#/else/1"] {
            assert_eq!(Address::read(nowhere), Address::Home, "{nowhere}");
        }
        assert_eq!(Address::read("#/plan/p/9/none"), Address::Line("p".into()));
    }

    #[test]
    fn what_mail_adds_to_a_link_is_no_damage() {
        let link = "2.50ad8a3c.15.YWJjZGVmZ2hpamtsbW5v-_".to_string();
        let (front, back) = link.split_at(20);
        for changed in [
            format!("{front}%0D%0A%20{back}"),
            format!("{front} {back}"),
            format!("{link}%3E"),
            format!("{link}>."),
            format!("{link}),"),
        ] {
            assert_eq!(tidied(&changed), link);
        }
        assert_eq!(Address::read(&format!("#/link/{front}%0A{back}")), Address::Link(link.clone()));
    }
}
