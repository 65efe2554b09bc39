//! What a route is for, and which liquid it takes, wherever that is asked or said.

use crate::calculator::{Key, Stop, Work};
use crate::calculators::class_of;
use crate::science::segregation::{Class, chart_says, must_not_meet, strong_acid_with_caustic};

/// Acid and base water, without metal.
pub const ACID_BASE: &str = "acid and base water";
/// Rinse water with a little metal.
pub const DILUTE: &str = "dilute metal";
/// Liquid rich in metal, for recovery.
pub const CONCENTRATE: &str = "concentrate for recovery";
/// Valuable metal, on its way back.
pub const RECLAIM: &str = "reclaim of valuable metal";
/// Segregated, one route for each class.
pub const CYANIDE: &str = "segregated: cyanide";
/// Hydrofluoric acid and fluoride.
pub const FLUORIDE: &str = "segregated: fluoride";
/// Solvents.
pub const SOLVENTS: &str = "segregated: solvents";
/// Oxidisers and nitric acid.
pub const OXIDISERS: &str = "segregated: oxidisers";
/// Ammonia and complexed metal.
pub const AMMONIA: &str = "segregated: ammonia or complexed";
/// Sulfite.
pub const SULFITE: &str = "segregated: sulfite";
/// A route that the user defines.
pub const OWN: &str = "a route of your own";
/// What is said of a liquid whose class is not known.
pub const FIND_OUT: &str = "find out its class first";

/// Every word, in the order of the lists.
pub const ALL: &[&str] = &[
    ACID_BASE,
    DILUTE,
    CONCENTRATE,
    RECLAIM,
    CYANIDE,
    FLUORIDE,
    SOLVENTS,
    OXIDISERS,
    AMMONIA,
    SULFITE,
    OWN,
    FIND_OUT,
];

/// What a route says of a liquid: it is the one that suits it.
pub const SHOULD: &str = "should take it";
/// It is no worse there.
pub const MAY: &str = "may take it";
/// It harms or is too rich there.
pub const MUST_NOT: &str = "must not take it";

/// The routes that there are, each with the most that it takes, all metals together, in mg/L: common
/// practice, no source; no limit where a class or its worth decides.
pub const KINDS: &[(&str, f64)] = &[
    (ACID_BASE, 1.0),
    (DILUTE, 60.0),
    (CONCENTRATE, 200_000.0),
    (RECLAIM, 1e9),
    (CYANIDE, 1e9),
    (FLUORIDE, 1e9),
    (SOLVENTS, 1e9),
    (OXIDISERS, 1e9),
    (AMMONIA, 1e9),
    (SULFITE, 1e9),
    (OWN, 1e9),
];

/// The most that a kind of route takes, all metals together, in mg/L.
pub fn limit(kind: &str) -> f64 {
    KINDS.iter().find(|(known, _)| *known == kind).map_or(0.0, |(_, limit)| *limit)
}

/// The class that a route is there to carry, whatever else leads there today: acid water on the metal and
/// acid routes, its own class on a segregated one; `None` where its streams alone say it.
pub fn carries(kind: &str) -> Option<Class> {
    match kind {
        ACID_BASE | DILUTE | CONCENTRATE => Some(Class::Acid),
        CYANIDE => Some(Class::Cyanide),
        FLUORIDE => Some(Class::Fluoride),
        SOLVENTS => Some(Class::Solvent),
        OXIDISERS => Some(Class::Oxidiser),
        AMMONIA => Some(Class::Ammonia),
        SULFITE => Some(Class::Sulfite),
        _ => None,
    }
}

/// The water that a route is there to carry, as a liquid beside those that lead there.
pub fn own_water(kind: &str) -> Option<(Key, Class)> {
    carries(kind).map(|class| (format!("the {} water of this route", class.name()).into(), class))
}

/// The liquids that stand in the rows of a table, each with its class, which the choice `class` says.
pub fn liquids(w: &Work, table: &str, class: &str) -> Result<Vec<(Key, Class)>, Stop> {
    let rows = w.rows(table)?.into_iter();
    rows.map(|row| Ok((row.key.clone(), class_of(w.word(&row, class)?)))).collect()
}

/// Why two liquids must not meet, each with its name and class; `None` where nothing says so.
pub fn conflict((name, class): (&str, Class), (other, other_class): (&str, Class)) -> Option<String> {
    let conflict = must_not_meet(class, other_class)?;
    let chart =
        chart_says(class, other_class).map_or(String::new(), |said| format!("; the chart says {said}"));
    Some(format!(
        "{name} ({}) must not meet {other} ({}): {} ({}{chart})",
        class.name(),
        other_class.name(),
        conflict.consequence,
        conflict.source
    ))
}

/// Why a liquid must not come to a bath of a class: by the same table, but for what that bath is made of on purpose.
pub fn bath_conflict(liquid: (&str, Class), bath: Class) -> Option<String> {
    conflict(liquid, ("the bath", bath)).filter(|_| !is_made_with(bath, liquid.1))
}

/// Whether baths of a class are made up with such a liquid on purpose, under exhaust, though the two must not meet in
/// a drain: etches of fluoride or of oxidiser, with acid, alkali or ammonia.
pub fn is_made_with(bath: Class, liquid: Class) -> bool {
    let parts = [Class::Acid, Class::Alkaline, Class::Ammonia, Class::Fluoride, Class::Oxidiser];
    [Class::Fluoride, Class::Oxidiser].contains(&bath) && parts.contains(&liquid)
}

/// What is said where acid and alkaline liquids meet, which is no conflict and yet heats. `what` names them.
pub fn acid_with_alkaline(what: &str) -> String {
    format!(
        "{what}: {}, by the compatibility chart. {}",
        chart_says(Class::Acid, Class::Alkaline).unwrap_or_default(),
        strong_acid_with_caustic()
    )
}

/// The route that suits a liquid: its class first, then its worth, then how much metal it holds.
pub fn suggestion(class: Class, is_valuable: bool, mg_per_l: f64) -> &'static str {
    match class {
        Class::Cyanide => CYANIDE,
        Class::Fluoride => FLUORIDE,
        Class::Solvent => SOLVENTS,
        Class::Oxidiser => OXIDISERS,
        Class::Unknown => FIND_OUT,
        _ if is_valuable => RECLAIM,
        Class::Ammonia => AMMONIA,
        Class::Sulfite => SULFITE,
        Class::Acid | Class::Alkaline if mg_per_l > limit(DILUTE) => CONCENTRATE,
        Class::Acid | Class::Alkaline if mg_per_l > 0.0 => DILUTE,
        Class::Acid | Class::Alkaline => ACID_BASE,
    }
}

/// Whether a liquid that suits one route is in order on another, if it is not too rich for it.
pub fn fits(kind: &str, belongs: &str) -> bool {
    kind == belongs
        || kind == OWN
        || matches!(
            (kind, belongs),
            // A weaker stream is in order on a route for stronger ones, at the price of its volume; a stronger one
            // on a route for weaker ones, as long as that route's limit on metals holds.
            (CONCENTRATE, DILUTE | ACID_BASE)
                | (DILUTE, ACID_BASE)
                | (ACID_BASE, DILUTE)
                | (DILUTE, CONCENTRATE)
                | (RECLAIM, DILUTE | CONCENTRATE | SULFITE)
        )
}

/// What a kind of route says of a liquid of a class, which suits `belongs` and holds so much metal.
pub fn takes(kind: &str, class: Class, belongs: &str, mg_per_l: f64) -> &'static str {
    let is_refused = carries(kind).is_some_and(|carried| must_not_meet(class, carried).is_some());
    match belongs {
        FIND_OUT => FIND_OUT,
        _ if is_refused || mg_per_l > limit(kind) || !fits(kind, belongs) => MUST_NOT,
        _ if kind == belongs => SHOULD,
        _ => MAY,
    }
}
