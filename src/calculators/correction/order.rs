//! What must never meet in a correction, and the order of work.

use super::sum::Line;
use crate::calculator::{Stop, Work};
use crate::calculators::class_of;
use crate::calculators::make_up::components::{LIQUID, NOTHING};
use crate::calculators::make_up::meets;
use crate::calculators::ph::bottles::why_no_acid;
use crate::quantity::Q;
use crate::science::correction::Correction;
use crate::science::formula::Formula;
use crate::science::segregation::{Class, must_not_meet};
use crate::units::{KG, L};

/// Something that is added.
pub(super) struct Addition<'a> {
    pub line: &'a Line,
    pub amount: Q,
}

/// Acid and cyanide, and silver and chloride, are refused, whatever the amounts.
pub(super) fn refuse(w: &Work, lines: &[Line]) -> Result<(), Stop> {
    let class = class_of(w.word(&w.top(), "class_k")?);
    let added = || lines.iter().filter(|line| line.added_as != NOTHING);
    let formulas = |line: &'_ Line| [line.formula.clone(), line.also.clone()];
    let is_acid = |line: &&Line| {
        let all = formulas(line);
        let is_said = [meets::STRONG_ACID, meets::NITRIC].contains(&line.hazard);
        line.hazard != meets::CYANIDE && (is_said || meets::may_be_acid(&line.row.key, all.iter().flatten()))
    };
    let cyanide = lines.iter().find(|line| line.hazard == meets::CYANIDE);
    let true_class = if cyanide.is_some() { Class::Cyanide } else { class };
    let is_own = |line: &&Line| class == Class::Fluoride && line.hazard == meets::FLUORIDE;
    if let Some(why) = why_no_acid(true_class)
        && let Some(acid) = added().filter(|line| !is_own(line)).find(is_acid)
    {
        let reason = format!("{} is an acid, and {why}", acid.row.key);
        let remedy = "Nothing is worked out for this. Choose the bath’s true class; the maker of the bath says how it is corrected.";
        return Err(Stop::at("added_as", reason, remedy).row(&acid.row.key));
    }
    if let Some(cyanide) = cyanide.filter(|_| must_not_meet(class, Class::Cyanide).is_some()) {
        let consequence = must_not_meet(class, Class::Cyanide).map_or("", |met| met.consequence);
        let reason = format!(
            "{} is a cyanide, and the bath’s class is {}: {consequence}",
            cyanide.row.key,
            class.name()
        );
        return Err(Stop::at("class_k", reason, "If it is a cyanide bath, choose the class cyanide."));
    }
    let holds = |line: &Line, element: &str| {
        formulas(line).iter().flatten().any(|formula: &Formula| formula.contains(element))
    };
    let silver = lines.iter().find(|line| holds(line, "Ag"));
    let chloride = added().find(|line| holds(line, "Cl"));
    if let (Some(silver), Some(chloride)) = (silver, chloride) {
        let reason = format!(
            "{} brings chloride into a bath with {}: silver chloride falls out as a white solid",
            chloride.row.key, silver.row.key
        );
        return Err(Stop::at("added_as", reason, "Leave the chloride out.").row(&chloride.row.key));
    }
    Ok(())
}

/// Writes the steps in their order: out, solids, liquids, water, mix, analyse.
pub(super) fn write(w: &mut Work, found: &Correction, additions: &[Addition], has_content: bool) {
    let is_wanted = |addition: &&Addition| addition.amount.si > 0.0;
    if found.draw.si <= 0.0 && found.fill.si <= 0.0 && !additions.iter().any(|a| a.amount.si > 0.0) {
        return;
    }
    w.instruct(
        None,
        "Stop plating in this bath. Read its label and every drum’s aloud to the second person.",
        None,
    );
    if found.draw.si > 0.0 {
        let text = "Draw off into a labelled drum or the route of this bath’s class, not into a rinse drain:";
        w.instruct(None, text, Some((found.draw, L)));
    }
    for solid in additions.iter().filter(is_wanted).filter(|addition| addition.line.added_as != LIQUID) {
        // An element names no salt: nobody is to weigh in the metal.
        let salt = solid.line.formula.as_ref().filter(|formula| formula.counts().len() > 1);
        let what =
            salt.map_or_else(|| format!("Solid for {}", solid.line.row.key), |salt| salt.text().into());
        let text = format!("{what}, in portions, under exhaust; stir until clear before the next.");
        w.instruct(Some(&solid.line.row), text, Some((solid.amount, KG)));
    }
    for liquid in additions.iter().filter(is_wanted).filter(|addition| addition.line.added_as == LIQUID) {
        let is_acid = [meets::STRONG_ACID, meets::NITRIC].contains(&liquid.line.hazard);
        let how = if is_acid {
            "slowly, in portions, into the stirred bath; never water into acid."
        } else {
            "slowly, stirring."
        };
        let text = format!("Liquid for {}, {how}", liquid.line.row.key);
        w.instruct(Some(&liquid.line.row), text, Some((liquid.amount, L)));
    }
    if found.fill.si > 0.0 {
        let with = if has_content { "the liquid that fills up" } else { "deionised water" };
        let text = format!("Fill up with {with}, to the mark: the mark decides, not the sum.");
        w.instruct(None, text, Some((found.fill, L)));
    }
    w.instruct(
        None,
        "Mix for 30 minutes (common practice), analyse again, dose back the additives, then plate.",
        None,
    );
}
