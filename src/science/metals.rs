//! The metals that plating lines hold, by symbol and name.

/// The id of every table whose rows are metals: their keys are chemical symbols.
pub const TABLE: &str = "metals";

/// Symbol, name, and whether it is reclaimed rather than drained for its worth (common practice).
pub const METALS: &[(&str, &str, bool)] = &[
    ("Cu", "copper", false),
    ("Ni", "nickel", false),
    ("Sn", "tin", false),
    ("Ag", "silver", false),
    ("Au", "gold", true),
    ("Pd", "palladium", true),
    ("Pt", "platinum", true),
    ("Rh", "rhodium", true),
    ("Ru", "ruthenium", true),
    ("In", "indium", false),
    ("Co", "cobalt", false),
    ("Zn", "zinc", false),
    ("Fe", "iron", false),
    ("Cr", "chromium", false),
    ("Pb", "lead", false),
    ("Cd", "cadmium", false),
    ("Bi", "bismuth", false),
    ("Mn", "manganese", false),
    ("W", "tungsten", false),
    ("Al", "aluminium", false),
];

/// The symbols alone, to pick from.
pub const SYMBOLS: &[&str] = &[
    "Cu", "Ni", "Sn", "Ag", "Au", "Pd", "Pt", "Rh", "Ru", "In", "Co", "Zn", "Fe", "Cr", "Pb", "Cd", "Bi",
    "Mn", "W", "Al",
];

/// The symbol of a metal typed by name or in any case; other text as it is.
pub fn symbol_of(text: &str) -> String {
    let text = text.trim();
    let metal = METALS.iter().find(|(symbol, name, _)| {
        symbol.eq_ignore_ascii_case(text)
            || name.eq_ignore_ascii_case(text)
            || (*name == "aluminium" && text.eq_ignore_ascii_case("aluminum"))
    });
    metal.map_or_else(|| text.to_string(), |(symbol, ..)| (*symbol).to_string())
}

/// Whether a metal is a precious one, by its symbol.
pub fn is_precious(symbol: &str) -> bool {
    ["Au", "Ag", "Pd", "Pt", "Rh", "Ru"].contains(&symbol)
}

/// Whether a metal is reclaimed for its worth, by common practice (no source).
pub fn is_valuable(symbol: &str) -> bool {
    METALS.iter().any(|(known, _, valuable)| *known == symbol && *valuable)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_metal_typed_by_name_is_its_symbol() {
        assert_eq!(symbol_of(" copper "), "Cu");
        assert_eq!(symbol_of("NI"), "Ni");
        assert_eq!(symbol_of("unobtainium"), "unobtainium");
        assert!(METALS.iter().map(|(symbol, ..)| symbol).eq(SYMBOLS));
    }
}
