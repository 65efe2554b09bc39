//! What must never meet in a bath, and which caution an ingredient calls for.

use super::ingredient::Ingredient;
use super::words::KNOWN;
use crate::calculator::{Severity, Stop, Work};
use crate::calculators::class_of;
use crate::science::formula::{Counts, Formula};
use crate::science::segregation::{Class, must_not_meet};
use std::sync::OnceLock;

pub const NONE: &str = "as its safety data says";
pub const STRONG_ACID: &str = "strong acid";
pub const NITRIC: &str = "nitric acid";
pub const CAUSTIC: &str = "caustic";
pub const NICKEL: &str = "nickel or cobalt salt";
pub const CYANIDE: &str = "cyanide";
pub const FLUORIDE: &str = "fluoride";
pub const OXIDISER: &str = "oxidiser";

/// Every word, in the order of the list.
pub const HAZARDS: &[&str] = &[NONE, STRONG_ACID, NITRIC, CAUSTIC, NICKEL, CYANIDE, FLUORIDE, OXIDISER];

/// The same as the words of a choice.
pub const HAZARD_WORDS: &[(&str, f64)] = &{
    let mut words = [("", 0.0); HAZARDS.len()];
    let mut k = 0;
    while k < HAZARDS.len() {
        words[k].0 = HAZARDS[k];
        k += 1;
    }
    words
};

/// Substances by hazard. Common knowledge, no source.
const BY_FORMULA: &[(&str, &str)] = &[
    ("H2SO4", STRONG_ACID),
    ("HCl", STRONG_ACID),
    ("H3PO4", STRONG_ACID),
    ("CH4O3S", STRONG_ACID),
    ("NaHSO4", STRONG_ACID),
    ("KHSO4", STRONG_ACID),
    ("HNO3", NITRIC),
    ("H2O2", OXIDISER),
    ("Na2S2O8", OXIDISER),
    ("K2S2O8", OXIDISER),
    ("(NH4)2S2O8", OXIDISER),
    ("KMnO4", OXIDISER),
    ("NaClO", OXIDISER),
    ("NaOH", CAUSTIC),
    ("KOH", CAUSTIC),
];

/// Acids that no list of strong ones holds.
const WEAK_ACIDS: &[&str] = &["CH3COOH", "C6H8O7", "C2H2O4", "CH2O2", "C4H6O6", "C4H6O5", "C3H6O3"];

fn known() -> &'static [(Counts, &'static str)] {
    static LISTED: OnceLock<Vec<(Counts, &'static str)>> = OnceLock::new();
    LISTED.get_or_init(|| {
        let weak = WEAK_ACIDS.iter().map(|formula| (*formula, NONE));
        let all = BY_FORMULA.iter().copied().chain(weak);
        all.filter_map(|(formula, hazard)| Some((Formula::read(formula).ok()?.anhydrous(), hazard))).collect()
    })
}

/// The word of a substance that is listed by its formula.
fn listed(formula: &Formula) -> Option<&'static str> {
    let counts = formula.anhydrous();
    known().iter().find(|(other, _)| *other == counts).map(|(_, hazard)| *hazard)
}

/// Whether a formula holds cyanide: C and N side by side, as on a label.
fn holds_cyanide(formula: &Formula) -> bool {
    let marks: Vec<char> = formula.text().chars().filter(|mark| !mark.is_whitespace()).collect();
    let is_cyanide = |k: usize| {
        marks.get(k..k + 2) == Some(&['C', 'N'])
            && marks.get(k + 2).is_none_or(|mark| !mark.is_ascii_lowercase())
    };
    (0..marks.len()).any(is_cyanide)
}

/// The caution that an ingredient calls for, from its name and from what it and its concentrate hold.
pub fn hazard(
    key: &str,
    formula: Option<&Formula>,
    carried: Option<&Formula>,
    species: &str,
) -> &'static str {
    let name = key.to_ascii_lowercase();
    let holds = |element: &str| [formula, carried].into_iter().flatten().any(|f| f.contains(element));
    if [formula, carried].into_iter().flatten().any(holds_cyanide) || name.contains("cyanide") {
        return CYANIDE;
    }
    if holds("F") || name.contains("fluor") {
        return FLUORIDE;
    }
    let is_nickel = ["Ni", "Co"].into_iter().any(|metal| holds(metal) || species == metal);
    if is_nickel {
        return NICKEL;
    }
    [formula, carried].into_iter().flatten().filter_map(listed).find(|hazard| *hazard != NONE).unwrap_or(NONE)
}

/// Whether any ingredient calls for one of these cautions.
pub fn has(ingredients: &[Ingredient], hazards: &[&str]) -> bool {
    ingredients.iter().any(|ingredient| hazards.contains(&ingredient.hazard))
}

/// The caution that a liquid calls for by its name alone; what is called an acid and is not known counts as a
/// strong one.
pub fn hazard_by_name(name: &str) -> &'static str {
    let known = KNOWN.iter().find(|(known, _)| known.eq_ignore_ascii_case(name.trim()));
    let formula = known.and_then(|(_, formula)| Formula::read(formula).ok());
    let lower = name.to_ascii_lowercase();
    match hazard(name, formula.as_ref(), None, "") {
        NONE if known.is_some() => NONE,
        NONE if lower.split_whitespace().any(|word| word == "acid") => STRONG_ACID,
        NONE if lower.contains("peroxide") || lower.contains("persulfate") => OXIDISER,
        NONE if lower.contains("hydroxide") || lower.contains("caustic") => CAUSTIC,
        hazard => hazard,
    }
}

/// The class of a liquid that is nothing but this.
pub fn class_by(hazard: &str) -> Option<Class> {
    match hazard {
        STRONG_ACID => Some(Class::Acid),
        NITRIC | OXIDISER => Some(Class::Oxidiser),
        CAUSTIC => Some(Class::Alkaline),
        CYANIDE => Some(Class::Cyanide),
        FLUORIDE => Some(Class::Fluoride),
        _ => None,
    }
}

/// Whether it is, or may be, an acid: by its formula, by what it carries, or by its name.
fn is_acid(ingredient: &Ingredient) -> bool {
    let carried = ingredient.carries.as_ref().map(|(formula, _)| formula);
    may_be_acid(&ingredient.row.key, [ingredient.formula.as_ref(), carried].into_iter().flatten())
}

/// Whether something of this name, that holds these, is or may be an acid.
pub fn may_be_acid<'a>(name: &str, mut formulas: impl Iterator<Item = &'a Formula>) -> bool {
    let by_formula = |formula: &Formula| match listed(formula) {
        Some(hazard) => hazard != CAUSTIC && formula.text().trim() != "H2O2",
        // A label writes the hydrogen that an acid gives off first.
        None => formula.text().trim().starts_with('H') && formula.text().trim() != "H2O",
    };
    formulas.any(by_formula) || name.to_ascii_lowercase().split_whitespace().any(|word| word == "acid")
}

/// Whether it holds boric acid, or another acid that no list of strong ones has.
pub fn holds_weak_acid(ingredient: &Ingredient) -> bool {
    let carried = ingredient.carries.as_ref().map(|(formula, _)| formula);
    let is_weak = |formula: &Formula| formula.contains("B") || listed(formula) == Some(NONE);
    [ingredient.formula.as_ref(), carried].into_iter().flatten().any(is_weak)
        || ingredient.row.key.to_ascii_lowercase().contains("boric")
}

/// Whether it brings silver (`Ag`), chloride (`Cl`) …
fn brings(ingredient: &Ingredient, element: &str) -> bool {
    let carried = ingredient.carries.as_ref().map(|(formula, _)| formula);
    ingredient.species == element
        || [ingredient.formula.as_ref(), carried].into_iter().flatten().any(|f| f.contains(element))
}

/// What must never meet is refused, not computed.
pub fn refuse(w: &Work, ingredients: &[Ingredient]) -> Result<(), Stop> {
    let class = class_of(w.word(&w.top(), "class")?);
    let first = |is: &dyn Fn(&Ingredient) -> bool| ingredients.iter().find(|i| is(i));
    let is_cyanide = |i: &Ingredient| i.hazard == CYANIDE;
    let cyanide = first(&is_cyanide);
    let never = |name: &str, other: &str, a: Class, b: Class| {
        let consequence = must_not_meet(a, b).map_or("", |conflict| conflict.consequence);
        format!("{name} must never meet {other}: {consequence}")
    };
    if cyanide.is_some() || class == Class::Cyanide {
        let what = cyanide.map_or("cyanide", |i| &*i.row.key);
        if let Some(acid) = first(&is_acid).filter(|acid| !is_cyanide(acid)) {
            let reason = never(what, &acid.row.key, Class::Cyanide, Class::Acid);
            let remedy = "Nothing is worked out for this. Take out the acid, or the cyanide.";
            return Err(Stop::at("formula", reason, remedy).row(&acid.row.key));
        }
        let oxidises = |i: &Ingredient| [NITRIC, OXIDISER].contains(&i.hazard);
        if let Some(oxidiser) = first(&oxidises) {
            let reason = never(what, &oxidiser.row.key, Class::Cyanide, Class::Oxidiser);
            let remedy = "Nothing is worked out for this. Take out the oxidiser, or the cyanide.";
            return Err(Stop::at("formula", reason, remedy).row(&oxidiser.row.key));
        }
    }
    if let Some(cyanide) = cyanide.filter(|_| must_not_meet(class, Class::Cyanide).is_some()) {
        let reason = format!(
            "{} is a cyanide, and the bath’s class is {}: {}",
            cyanide.row.key,
            class.name(),
            must_not_meet(class, Class::Cyanide).map_or("", |conflict| conflict.consequence)
        );
        return Err(Stop::at("class", reason, "If the bath is alkaline, choose the class cyanide."));
    }
    if [Class::Cyanide, Class::Sulfite, Class::Solvent].contains(&class) {
        for ingredient in ingredients {
            let other = class_by(ingredient.hazard);
            if let Some(conflict) = other.and_then(|other| must_not_meet(class, other)) {
                let (name, key) = (class.name(), &ingredient.row.key);
                let reason = format!("A {name} bath must never meet {key}: {}", conflict.consequence);
                let remedy = "Take it out, or choose the bath’s true class.";
                return Err(Stop::at("class", reason, remedy));
            }
        }
    }
    let silver = first(&|i| brings(i, "Ag"));
    let chloride = first(&|i| brings(i, "Cl"));
    if let (Some(silver), Some(chloride)) = (silver, chloride) {
        let reason = format!(
            "{} holds silver and {} holds chloride: silver chloride falls out as a white solid",
            silver.row.key, chloride.row.key
        );
        let remedy = "Leave the chloride out, also from the rinse and the tank before.";
        return Err(Stop::at("formula", reason, remedy).row(&chloride.row.key));
    }
    Ok(())
}

/// Remarks on a class that what goes in speaks against.
pub fn check_class(w: &mut Work, ingredients: &[Ingredient]) -> Result<(), Stop> {
    let top = w.top();
    let class = class_of(w.word(&top, "class")?);
    let (acid, caustic) = (has(ingredients, &[STRONG_ACID, NITRIC]), has(ingredients, &[CAUSTIC]));
    let against = match class {
        Class::Acid if caustic && !acid => Some("caustic"),
        Class::Alkaline if acid && !caustic => Some("strong acid"),
        _ => None,
    };
    if let Some(what) = against {
        let text = format!("The class is {}, and {what} goes in: check the class.", class.name());
        w.add_finding(&top, "class", Severity::Caution, text);
    }
    Ok(())
}
