//! What is dissolved, held against the class of the bath: what must not meet is refused, not computed.

use crate::calculator::{Key, Severity, Stop, Work};
use crate::calculators::make_up::meets::{class_by, hazard};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::ph::{Role, SUBSTANCES, Substance, hydrogen_cyanide_share};
use crate::science::segregation::{Class, acid_frees, must_not_meet};
use crate::units::PERCENT;

/// Acids that a gold bath is made with, and that no list of strong ones holds.
const WEAK: &[&str] = &[
    "Citric acid",
    "Boric acid",
    "Boric acid, single borate only",
    "Acetic acid",
    "Formic acid",
    "Tartaric acid",
];
/// An acid whose first pKa is below this counts as strong: as phosphoric acid does, pKa 2.15.
const STRONG_BELOW: f64 = 2.5;
/// From memory: with more of the free cyanide as gas than this, at about pH 10.5, a cyanide bath is in danger.
const MOST_GAS: f64 = 5.0;
/// From memory: below it sulfur dioxide begins to leave a sulfite bath (second pKa of sulfurous acid 7.2).
const SULFITE_LEAST: f64 = 7.0;

/// The class of a substance by itself; `None` for salts and weak acids. `typed` is the first pKa of an acid of
/// the user's own, none of it where it is strong.
pub fn class_of_substance(key: &str, substance: &Substance, typed: Option<Option<f64>>) -> Option<Class> {
    let name = key.trim();
    let listed = SUBSTANCES.iter().find(|known| known.name.eq_ignore_ascii_case(name)).unwrap_or(substance);
    let formula = Formula::read(listed.formula).ok();
    if let Some(class) = class_by(hazard(name, formula.as_ref(), None, "")) {
        return Some(class);
    }
    let is_strong = match typed {
        Some(first) => first.is_none_or(|pka| pka < STRONG_BELOW),
        None => listed.role == Role::Acid && !WEAK.contains(&&*listed.name),
    };
    is_strong.then_some(Class::Acid)
}

/// Refuses what the bath of this class must never meet, as the make-up does, by the same table.
pub fn refuse(class: Class, held: &[(Key, Option<Class>)]) -> Result<(), Stop> {
    let cyanide = held.iter().find(|(_, other)| *other == Some(Class::Cyanide));
    let class_is_wrong = must_not_meet(class, Class::Cyanide);
    if let (Some((key, _)), Some(conflict)) = (cyanide, class_is_wrong) {
        let reason =
            format!("{key} is a cyanide, and the bath’s class is {}: {}", class.name(), conflict.consequence);
        return Err(Stop::at("class_p", reason, "If the bath is alkaline, choose the class cyanide."));
    }
    let class = if cyanide.is_some() { Class::Cyanide } else { class };
    for (key, other) in held {
        let Some(other) = *other else { continue };
        let consequence = match class {
            Class::Cyanide | Class::Sulfite | Class::Solvent => {
                must_not_meet(class, other).map(|conflict| conflict.consequence)
            }
            Class::Unknown if other != Class::Alkaline => {
                acid_frees(class).map(|(consequence, _)| consequence)
            }
            _ => None,
        };
        if let Some(consequence) = consequence {
            let kind = match class {
                Class::Unknown => "A bath of unknown class".into(),
                class => format!("A {} bath", class.name()),
            };
            let remedy = "Nothing is worked out for this. Take it out, or choose the bath’s true class.";
            return Err(Stop::at("class_p", format!("{kind} must never meet {key}: {consequence}"), remedy));
        }
    }
    Ok(())
}

/// What a pH means where there is free cyanide, or sulfite.
pub fn at_this_ph(w: &mut Work, class: Class, ph: Q, t: Q) -> Result<(), Stop> {
    let top = w.top();
    if class == Class::Sulfite && ph.si < SULFITE_LEAST {
        let text = "At this pH sulfur dioxide, a choking gas, leaves a sulfite bath: the maker’s safety data and a licensed person rule.";
        w.add_finding(&top, "pH", Severity::Serious, text);
    }
    if class != Class::Cyanide {
        return Ok(());
    }
    let share = w.answer("f_HCN", hydrogen_cyanide_share(ph, t))?;
    let shown = w.style.answer(share.si, PERCENT);
    let text = format!(
        "Of any free cyanide {shown} would be hydrogen cyanide at this pH, a gas that kills; that in a gold complex does not count. The maker’s safety data and a licensed person rule."
    );
    let is_much = share.number(PERCENT) > MOST_GAS;
    w.add_finding(&top, "f_HCN", if is_much { Severity::Serious } else { Severity::Note }, text);
    Ok(())
}
