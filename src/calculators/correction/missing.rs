//! Components of which there is no result yet.

use super::sum::Line;
use crate::calculator::{Severity, Stop, Work};
use crate::calculators::make_up::components::{NOTHING, as_part};

/// Which results are missing is told row by row; the others are corrected without them, unless what would be
/// added of one of them brings another that is wanted too.
pub(super) fn check(w: &mut Work, lines: &[Line]) -> Result<(), Stop> {
    let missing: Vec<&Line> = lines.iter().filter(|line| line.found.is_none()).collect();
    let names: Vec<&str> = missing.iter().map(|line| &*line.row.key).collect();
    if let Some(first) = missing.first().filter(|_| missing.len() == lines.len()) {
        let reason = format!("there is no result yet of {}", listed(&names));
        let remedy = "Type what the analysis found, or a run on its own sheet.";
        return Err(Stop::todo("c", reason, remedy).row(&first.row.key));
    }
    for line in &missing {
        let key = &*line.row.key;
        let is_added = line.is_wanted && line.added_as != NOTHING;
        let with = line.brings.iter().filter_map(|(of, _)| lines.get(*of));
        if let Some(with) = with.filter(|other| other.target.is_some()).find(|_| is_added) {
            let reason = format!(
                "{key} has no result yet, and what is added of it brings {} too: the two are worked out together",
                with.row.key
            );
            let remedy = format!("Type what the analysis found of {key}, or add nothing of it.");
            return Err(Stop::todo("c", reason, remedy).row(key));
        }
        let is_part = |other: &&Line| other.target.is_some() && as_part(&other.row.key).is_some();
        if let Some(with) = lines.iter().find(is_part).filter(|_| is_added && line.is_unknown) {
            let reason = format!(
                "{key} has no result yet, and what it is added as is not known: it may bring {} too",
                with.row.key
            );
            return Err(Stop::todo("salt", reason, "Type the formula of the solid.").row(key));
        }
        let text = format!(
            "{key}: no result yet. It is left out: nothing of it is added, and the draw-off does not count it."
        );
        w.add_finding(&line.row, "c", Severity::Note, text);
    }
    if !lines.iter().any(|line| line.target.is_some()) {
        let known = lines.iter().find(|line| line.found.is_some());
        let key = known.map_or("", |line| &*line.row.key);
        let reason = "nothing that has a result is wanted yet";
        return Err(Stop::todo("c_t", reason, "Type what one of the components is to come to.").row(key));
    }
    Ok(())
}

/// Cu, H2SO4 and Cl.
fn listed(names: &[&str]) -> String {
    match names {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        _ => names.join(""),
    }
}
