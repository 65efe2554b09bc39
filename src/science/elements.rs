//! The elements and their weights.

/// An element's symbol and standard atomic weight, g/mol.
///
/// Source: IUPAC standard atomic weights 2021, abridged to five figures (as `periodictable` 2.1.0
/// carries them). Those that vary in nature are at their conventional value, so a molar mass may
/// differ from another table's by 2 parts in 10 000. Elements without a standard weight are left out.
#[rustfmt::skip]
static WEIGHTS: &[(&str, f64)] = &[
    ("H", 1.0080), ("He", 4.0026), ("Li", 6.94), ("Be", 9.0122), ("B", 10.81), ("C", 12.011),
    ("N", 14.007), ("O", 15.999), ("F", 18.998), ("Ne", 20.18), ("Na", 22.99), ("Mg", 24.305),
    ("Al", 26.982), ("Si", 28.085), ("P", 30.974), ("S", 32.06), ("Cl", 35.45), ("Ar", 39.95),
    ("K", 39.098), ("Ca", 40.078), ("Sc", 44.956), ("Ti", 47.867), ("V", 50.941), ("Cr", 51.996),
    ("Mn", 54.938), ("Fe", 55.845), ("Co", 58.933), ("Ni", 58.693), ("Cu", 63.546), ("Zn", 65.38),
    ("Ga", 69.723), ("Ge", 72.63), ("As", 74.922), ("Se", 78.971), ("Br", 79.904), ("Kr", 83.798),
    ("Rb", 85.468), ("Sr", 87.62), ("Y", 88.906), ("Zr", 91.224), ("Nb", 92.906), ("Mo", 95.95),
    ("Ru", 101.07), ("Rh", 102.91), ("Pd", 106.42), ("Ag", 107.87), ("Cd", 112.41), ("In", 114.82),
    ("Sn", 118.71), ("Sb", 121.76), ("Te", 127.6), ("I", 126.9), ("Xe", 131.29), ("Cs", 132.91),
    ("Ba", 137.33), ("La", 138.91), ("Ce", 140.12), ("Pr", 140.91), ("Nd", 144.24), ("Sm", 150.36),
    ("Eu", 151.96), ("Gd", 157.25), ("Tb", 158.93), ("Dy", 162.5), ("Ho", 164.93), ("Er", 167.26),
    ("Tm", 168.93), ("Yb", 173.04), ("Lu", 174.97), ("Hf", 178.49), ("Ta", 180.95), ("W", 183.84),
    ("Re", 186.21), ("Os", 190.23), ("Ir", 192.22), ("Pt", 195.08), ("Au", 196.97), ("Hg", 200.59),
    ("Tl", 204.38), ("Pb", 207.2), ("Bi", 208.98), ("Th", 232.04), ("Pa", 231.04), ("U", 238.03),
];

/// Elements that are not metals, half-metals among them: for these "of metal" has no meaning.
const NOT_METALS: [&str; 22] = [
    "H", "He", "B", "C", "N", "O", "F", "Ne", "Si", "P", "S", "Cl", "Ar", "Ge", "As", "Se", "Br", "Kr", "Sb",
    "Te", "I", "Xe",
];

/// The symbol, if it is an element's with a standard weight.
pub fn symbol(text: &str) -> Option<&'static str> {
    WEIGHTS.iter().find(|(known, _)| *known == text).map(|(known, _)| *known)
}

/// The standard atomic weight of an element, g/mol; `None` for what is not an element or has none.
pub fn weight(symbol: &str) -> Option<f64> {
    WEIGHTS.iter().find(|(known, _)| *known == symbol).map(|(_, weight)| *weight)
}

/// Whether a symbol is that of a metal.
pub fn is_metal(symbol: &str) -> bool {
    weight(symbol).is_some() && !NOT_METALS.contains(&symbol)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_are_the_standard_ones() {
        // IUPAC 2021, abridged: Cu 63.546(3), Au 196.97, Pb 207.2, Sn 118.71, H 1.0080.
        for (symbol, expected) in
            [("Cu", 63.546), ("Au", 196.97), ("Pb", 207.2), ("Sn", 118.71), ("H", 1.008), ("Ni", 58.693)]
        {
            assert_eq!(weight(symbol), Some(expected), "{symbol}");
        }
        assert_eq!(WEIGHTS.len(), 84, "the elements that have a standard weight");
        assert_eq!(weight("Tc"), None);
    }

    #[test]
    fn metals_are_told_from_the_rest() {
        assert!(["Cu", "Sn", "Au", "In", "Na"].into_iter().all(is_metal));
        assert!(!["Cl", "S", "B", "D", "", "cu"].into_iter().any(is_metal));
        assert!(NOT_METALS.into_iter().all(|symbol| weight(symbol).is_some()));
    }
}
