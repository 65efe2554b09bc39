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

/// The share of the water that goes in before anything is added (common practice, no source).
const MOST: f64 = 0.8;

/// What a work order is written from.
pub(super) struct Order<'a> {
    pub found: &'a Correction,
    pub additions: &'a [Addition<'a>],
    /// Whether what fills up holds some of the components.
    pub has_content: bool,
    /// What the solids take of the room that the water has.
    pub room: Q,
    /// The names of components that end above what dissolves.
    pub too_much: &'a [String],
}

impl Order<'_> {
    /// Writes the steps: out, most of the water, liquids, solids, precious metals, water to the mark, mix, analyse.
    pub fn write(&self, w: &mut Work) -> Result<(), Stop> {
        if !w.has_order() {
            return Ok(());
        }
        let Order { found, has_content, .. } = *self;
        let mut additions: Vec<&Addition> =
            self.additions.iter().filter(|addition| addition.amount.si > 0.0).collect();
        if found.draw.si <= 0.0 && found.fill.si <= 0.0 && additions.is_empty() {
            return Ok(());
        }
        let text = "Stop plating in this bath. Read its label and every drum’s aloud to the second person.";
        w.instruct(None, text, None);
        if found.draw.si > 0.0 {
            let route = match class_of(w.word(&w.top(), "class_k")?) {
                Class::Unknown => "the route of this bath’s class, once that is known".to_string(),
                class => format!("the route for what is {}", class.name()),
            };
            let text = format!("Draw off into a labelled drum or to {route}, not into a rinse drain:");
            w.instruct(None, text, Some((found.draw, L)));
        }
        let with = if has_content { "the liquid that fills up" } else { "DI water" };
        let mut fill = found.fill;
        let first = (MOST * fill).min(fill - self.room);
        if first.si > 0.0 && !additions.is_empty() {
            fill = fill - first;
            let text = format!("Most of {with}, before anything is added; pump on:");
            w.instruct(None, text, Some((first, L)));
        }
        crate::order::sort_by_key(&mut additions, |addition| {
            let line = addition.line;
            (line.is_precious(), line.added_as != LIQUID)
        });
        for addition in additions {
            let text = self.how(addition);
            let unit = if addition.line.added_as == LIQUID { L } else { KG };
            w.instruct(Some(&addition.line.row), text, Some((addition.amount, unit)));
        }
        if fill.si > 0.0 {
            let text =
                format!("Fill up with {with}, to the mark: the mark decides, not the sum. It takes at most:");
            w.instruct(None, text, Some((fill, L)));
        }
        let text =
            "Mix for 30 minutes (common practice), analyse again, dose back the additives, then plate.";
        w.instruct(None, text, None);
        Ok(())
    }

    /// What is added, and how.
    fn how(&self, addition: &Addition) -> String {
        let Addition { line, .. } = addition;
        let key = &*line.row.key;
        if line.added_as == LIQUID {
            let is_acid = [meets::STRONG_ACID, meets::NITRIC].contains(&line.hazard);
            let how = if is_acid {
                "slowly, in portions, into the stirred bath; never water into acid."
            } else {
                "slowly, stirring."
            };
            return format!("Liquid for {key}, {how}");
        }
        // An element names no salt: nobody is to weigh in the metal.
        let salt = line.formula.as_ref().filter(|formula| formula.counts().len() > 1);
        let what = salt.map_or_else(|| format!("Solid for {key}"), |salt| salt.text().into());
        if self.too_much.iter().any(|known| known == key) {
            return format!(
                "{what}: more than stays dissolved at 20 °C. Settle that first; then in portions, under exhaust."
            );
        }
        format!("{what}, in portions, under exhaust; stir until clear before the next.")
    }
}
