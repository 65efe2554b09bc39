//! Chemical formulas: what is in a compound, and how much of it.

use super::elements::{self, is_metal};
use super::{Refusal, solution_make_up};
use crate::quantity::Q;
use crate::units::{G_PER_MOL, G_PER_MOL_METAL, MASS_FRACTION, Value};
use std::collections::BTreeMap;

/// Longer than any formula on a bottle; what is longer is refused unread.
const LONGEST: usize = 120;
/// More brackets in brackets than any formula has.
const DEEPEST: usize = 8;
/// No count in a formula is larger.
const MOST: f64 = 100_000.0;

/// Atoms of each element in one formula unit.
pub type Counts = BTreeMap<&'static str, f64>;

/// A compound as its formula says.
#[derive(Clone, Debug, PartialEq)]
pub struct Formula {
    text: String,
    counts: Counts,
    water: f64,
}

impl Formula {
    /// Reads a formula: `CuSO4`, `CuSO4·5H2O`, `CuSO4.5H2O`, `CuSO4(H2O)5`, `Ni(SO3NH2)2·4H2O`,
    /// `[Cu(NH3)4]SO4`, with figures on the line or below it.
    ///
    /// Refuses what it cannot read, with the place.
    pub fn read(text: &str) -> Result<Formula, Refusal> {
        let text = text.trim();
        if text.chars().count() > LONGEST {
            return Err(wrong(format!("the formula is longer than {LONGEST} characters")));
        }
        let marks: Vec<char> = text.chars().map(plain).collect();
        if marks.iter().all(|mark| mark.is_whitespace()) {
            return Err(wrong("the formula is empty"));
        }
        let mut reader = Reader { marks: &marks, at: 0, water: 0.0 };
        let counts = reader.parts()?;
        let formula = Formula { text: text.into(), counts, water: reader.water };
        let most = formula.counts.values().fold(0.0, |most: f64, count| most.max(*count));
        if !most.is_finite() || most > MOST {
            return Err(wrong(format!("“{text}” counts more than {MOST} atoms of one element")));
        }
        Ok(formula)
    }

    /// As it was written.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Atoms of each element in one formula unit, water of hydration included.
    pub fn counts(&self) -> &Counts {
        &self.counts
    }

    /// Molecules of water of hydration in one formula unit: those written `·nH2O` or `(H2O)n`.
    pub fn water_of_hydration(&self) -> f64 {
        self.water
    }

    /// Atoms of each element without the water of hydration.
    pub fn anhydrous(&self) -> Counts {
        // Water written as "H2O" alone is not a hydrate of nothing.
        let mut counts = self.counts.clone();
        for (element, each) in [("H", 2.0), ("O", 1.0)] {
            if let Some(count) = counts.get_mut(element) {
                *count -= each * self.water;
            }
        }
        counts.retain(|_, count| *count > 1e-9);
        if counts.is_empty() { self.counts.clone() } else { counts }
    }

    /// Whether the compound has atoms of an element.
    pub fn contains(&self, element: &str) -> bool {
        self.counts.contains_key(element)
    }

    /// The metals in it, in alphabetical order.
    pub fn metals(&self) -> Vec<&'static str> {
        self.counts.keys().copied().filter(|element| is_metal(element)).collect()
    }

    /// Molar mass.
    ///
    /// `M = Σ n_k·A_k`, water of hydration included.
    ///
    /// `n_k` atoms of element k in a formula unit, `A_k` its standard atomic weight.
    ///
    /// Holds for every compound of elements that have a standard atomic weight.
    ///
    /// Trust: 2 parts in 10 000, as weights vary in nature.
    ///
    /// Source: IUPAC standard atomic weights 2021, abridged.
    pub fn molar_mass(&self) -> Q {
        Q::named(format!("M({})", self.text), Value::new(mass(&self.counts), G_PER_MOL))
    }

    /// Molar mass without the water of hydration; otherwise as [`Formula::molar_mass`].
    pub fn anhydrous_molar_mass(&self) -> Q {
        let name = format!("M({} without water)", self.text);
        Q::named(name, Value::new(mass(&self.anhydrous()), G_PER_MOL))
    }

    /// Mass fraction of a metal, as kg of metal per kg of compound.
    ///
    /// `x = n·A/M`.
    ///
    /// `n` atoms of the metal in a formula unit, `A` its atomic weight, `M` the molar mass, water of
    /// hydration included.
    ///
    /// Holds for the pure compound: purity comes on top.
    ///
    /// Trust: 3 parts in 10 000.
    ///
    /// Source: IUPAC standard atomic weights 2021, abridged.
    pub fn metal_fraction(&self, metal: &str) -> Result<Q, Refusal> {
        if !is_metal(metal) {
            return Err(Refusal::new(
                format!("“{metal}” is not the symbol of a metal"),
                "give a metal's symbol, such as Cu or Ni",
            ));
        }
        let part = Formula::read(metal)?;
        let count = self.whole(&part)?;
        let atom = Q::named(format!("M({metal})"), Value::new(mass(&part.counts), G_PER_MOL_METAL));
        Ok(times(count, atom) / self.molar_mass())
    }

    /// Mass fraction of a part of the compound that is not counted as metal: Cl, SO4, H2O, CN.
    ///
    /// `w = n·M(part)/M`.
    ///
    /// `n` whole parts in a formula unit, by the element of which there is least.
    ///
    /// Holds for the pure compound. Which atoms belong together is not known from counts: of
    /// CuSO4·5H2O two O2 would be found as well.
    ///
    /// Trust: 3 parts in 10 000.
    ///
    /// Source: IUPAC standard atomic weights 2021, abridged.
    pub fn part_fraction(&self, part: &str) -> Result<Q, Refusal> {
        let read = Formula::read(part)?;
        let count = self.whole(&read)?;
        let of_part = Q::named(format!("M({part})"), Value::new(mass(&read.counts), G_PER_MOL));
        Ok(times(count, of_part) / self.molar_mass())
    }

    /// Mass fraction of the water of hydration; nought for an anhydrous compound.
    ///
    /// `w = n·M(H2O)/M`, otherwise as [`Formula::part_fraction`].
    pub fn water_fraction(&self) -> Q {
        let share = self.water * solution_make_up::WATER_G_PER_MOL / mass(&self.counts);
        Q::named(format!("w(water in {})", self.text), Value::new(share, MASS_FRACTION))
    }

    /// How many of a part there are in a formula unit.
    fn whole(&self, part: &Formula) -> Result<f64, Refusal> {
        let ratio = |(element, each): (&&str, &f64)| self.counts.get(*element).unwrap_or(&0.0) / each;
        let whole = part.counts.iter().map(ratio).fold(f64::INFINITY, f64::min);
        // A single element need not come in whole parts; a group must.
        let whole = if part.counts.len() == 1 { whole } else { (whole + 1e-9).floor() };
        if !whole.is_finite() || whole <= 0.0 {
            return Err(Refusal::new(
                format!("{} contains no {}", self.text, part.text),
                format!("choose a compound that contains {}, or another part", part.text),
            ));
        }
        Ok(whole)
    }
}

fn times(count: f64, q: Q) -> Q {
    if count == 1.0 { q } else { count * q }
}

/// Mass of counted atoms, g/mol.
fn mass(counts: &Counts) -> f64 {
    counts.iter().map(|(element, count)| count * elements::weight(element).unwrap_or(0.0)).sum()
}

fn wrong(reason: impl Into<String>) -> Refusal {
    Refusal::new(reason, "write it as on the label, for example CuSO4·5H2O or Ni(SO3NH2)2·4H2O")
}

/// Subscript figures as figures, every sort of dot as one.
fn plain(mark: char) -> char {
    match mark {
        '₀'..='₉' => char::from_digit(mark as u32 - '₀' as u32, 10).unwrap_or(mark),
        '·' | '•' | '∙' | '⋅' | '*' | '・' | '.' => '·',
        '[' | '{' => '(',
        ']' | '}' => ')',
        mark => mark,
    }
}

struct Reader<'a> {
    marks: &'a [char],
    at: usize,
    water: f64,
}

impl Reader<'_> {
    fn peek(&self) -> Option<char> {
        self.marks.get(self.at).copied()
    }

    fn skip_spaces(&mut self) {
        while self.peek().is_some_and(char::is_whitespace) {
            self.at += 1;
        }
    }

    /// Parts between dots, each with a count before it.
    fn parts(&mut self) -> Result<Counts, Refusal> {
        let mut all = Counts::new();
        let mut first = true;
        loop {
            self.skip_spaces();
            let times = self.leading_count()?;
            self.skip_spaces();
            let (start, before) = (self.at, self.water);
            let part = self.group(0)?;
            if self.at == start {
                let what = if first { "the formula starts with" } else { "after a dot there is" };
                return Err(match self.peek() {
                    Some(mark) => wrong(format!("{what} “{mark}”, which is no element")),
                    None => wrong("the formula ends where an element should stand"),
                });
            }
            let waters = if !first && is_water(&part) { 1.0 } else { self.water - before };
            self.water = before + waters * times;
            add(&mut all, &part, times);
            self.skip_spaces();
            match self.peek() {
                None => return Ok(all),
                Some('·') => self.at += 1,
                Some(')') => return Err(wrong("a bracket is closed that was never opened")),
                Some(mark) => return Err(self.not_read(mark)),
            }
            first = false;
        }
    }

    /// Elements and bracketed groups, each with a count behind it.
    fn group(&mut self, depth: usize) -> Result<Counts, Refusal> {
        if depth > DEEPEST {
            return Err(wrong(format!("the formula has more than {DEEPEST} brackets in one another")));
        }
        let mut counts = Counts::new();
        loop {
            match self.peek() {
                Some('(') => {
                    self.at += 1;
                    let start = self.at;
                    let inner = self.group(depth + 1)?;
                    if self.peek() != Some(')') {
                        return Err(match self.peek() {
                            None | Some('·') => wrong("a bracket is opened and never closed"),
                            Some(mark) => self.not_read(mark),
                        });
                    }
                    if self.at == start {
                        return Err(wrong("a pair of brackets is empty"));
                    }
                    self.at += 1;
                    let times = self.count()?.unwrap_or(1.0);
                    if depth == 0 && is_water(&inner) {
                        self.water += times;
                    }
                    add(&mut counts, &inner, times);
                }
                Some(mark) if mark.is_ascii_uppercase() => {
                    let element = self.element()?;
                    let times = self.count()?.unwrap_or(1.0);
                    *counts.entry(element).or_default() += times;
                }
                _ => return Ok(counts),
            }
        }
    }

    fn element(&mut self) -> Result<&'static str, Refusal> {
        let first = self.peek().unwrap_or_default();
        let second = self.marks.get(self.at + 1).filter(|mark| mark.is_ascii_lowercase());
        let symbol: String = std::iter::once(first).chain(second.copied()).collect();
        self.at += symbol.len();
        elements::symbol(&symbol)
            .ok_or_else(|| wrong(format!("“{symbol}” is not an element with a standard atomic weight")))
    }

    /// Figures behind an element or a group.
    fn count(&mut self) -> Result<Option<f64>, Refusal> {
        let start = self.at;
        while self.peek().is_some_and(|mark| mark.is_ascii_digit()) {
            self.at += 1;
        }
        let digits: String = self.marks.get(start..self.at).unwrap_or_default().iter().collect();
        if digits.is_empty() {
            return Ok(None);
        }
        match digits.parse::<f64>() {
            Ok(count) if count > 0.0 && count <= MOST => Ok(Some(count)),
            _ => Err(wrong(format!("“{digits}” is no count of atoms"))),
        }
    }

    /// The count before a part: `5` in `·5H2O`, and `0.5`, `1/2` or `½` of a molecule.
    fn leading_count(&mut self) -> Result<f64, Refusal> {
        if self.peek() == Some('½') {
            self.at += 1;
            return Ok(0.5);
        }
        let Some(whole) = self.digits() else { return Ok(1.0) };
        let mark = self.peek();
        let joined = matches!(mark, Some('·' | ',' | '/'));
        let followed = self.marks.get(self.at + 1).is_some_and(char::is_ascii_digit);
        let text = if joined && followed {
            self.at += 1;
            let part = self.digits().unwrap_or_default();
            if mark == Some('/') {
                let number = |text: &str| text.parse::<f64>().unwrap_or(0.0);
                (number(&whole) / number(&part)).to_string()
            } else {
                format!("{whole}.{part}")
            }
        } else {
            whole
        };
        match text.parse::<f64>() {
            Ok(count) if count > 0.0 && count <= MOST => Ok(count),
            _ => Err(wrong(format!("“{text}” is no count of molecules"))),
        }
    }

    fn digits(&mut self) -> Option<String> {
        let start = self.at;
        while self.peek().is_some_and(|mark| mark.is_ascii_digit()) {
            self.at += 1;
        }
        (self.at > start).then(|| self.marks.get(start..self.at).unwrap_or_default().iter().collect())
    }

    fn not_read(&self, mark: char) -> Refusal {
        let place = self.at + 1;
        let reason = match mark {
            '+' | '-' | '^' | '⁺' | '⁻' => {
                "a charge cannot be read: give the compound, not the ion".to_string()
            }
            mark if mark.is_ascii_lowercase() => {
                format!("“{mark}” at place {place} is a small letter: elements start with a capital")
            }
            mark => format!("“{mark}” at place {place} cannot be read"),
        };
        wrong(reason)
    }
}

fn add(all: &mut Counts, part: &Counts, times: f64) {
    for (element, count) in part {
        *all.entry(element).or_default() += count * times;
    }
}

fn is_water(counts: &Counts) -> bool {
    counts.len() == 2 && counts.get("H") == Some(&2.0) && counts.get("O") == Some(&1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Formula {
        Formula::read(text).unwrap_or_else(|refusal| panic!("{text}: {}", refusal.reason))
    }

    fn why(text: &str) -> String {
        Formula::read(text).map(|f| panic!("{text} was read as {f:?}")).unwrap_err().reason.clone()
    }

    #[test]
    fn a_hydrate_is_read_however_it_is_written() {
        let blue = read("CuSO4·5H2O");
        for text in
            ["CuSO4.5H2O", "CuSO4(H2O)5", "CuSO₄·5H₂O", "CuSO4 * 5 H2O", "[Cu(H2O)5]SO4", "CuSO4.5(H2O)"]
        {
            assert_eq!(read(text).counts(), blue.counts(), "{text}");
        }
        for text in ["CuSO4.5H2O", "CuSO4(H2O)5", "CuSO₄·5H₂O", "CuSO4 • 5 H2O"] {
            assert_eq!(read(text).water_of_hydration(), 5.0, "{text}");
        }
        assert_eq!(blue.anhydrous(), *read("CuSO4").counts());
        assert_eq!(read("CaSO4.0.5H2O").water_of_hydration(), 0.5);
        assert_eq!(read("CaSO4·1/2H2O").water_of_hydration(), 0.5);
        assert_eq!(read("CaSO4.½H2O").counts(), read("CaSO4·0,5H2O").counts());
        assert_eq!(read("H2O").anhydrous(), *read("H2O").counts());
    }

    #[test]
    fn molar_masses_are_the_published_ones() {
        // periodictable 2.1.0.
        for (text, expected) in [
            ("CuSO4·5H2O", 249.677),
            ("Ni(SO3NH2)2·4H2O", 322.9134),
            ("KAu(CN)2", 288.1009),
            ("H2SO4", 98.072),
            ("CH4O3S", 96.1),
            ("[Cu(NH3)4]SO4", 63.546 + 4.0 * (14.007 + 3.0 * 1.008) + 32.06 + 4.0 * 15.999),
        ] {
            let got = read(text).molar_mass().number(G_PER_MOL);
            assert!((got / expected - 1.0).abs() < 1e-4, "{text}: {got}");
        }
    }

    #[test]
    fn a_metals_share_is_of_metal_and_a_salts_is_not() {
        // molmass 2026.1.8: Cu 0.2545048 of CuSO4·5H2O.
        let copper = read("CuSO4·5H2O").metal_fraction("Cu").unwrap();
        assert!((copper.si - 0.2545048).abs() < 1e-4);
        let (shown, fault) = crate::quantity::with_tape(Some(Default::default()), || {
            let x = read("CuSO4·5H2O").metal_fraction("Cu").unwrap();
            x.shown().unwrap()
        });
        assert_eq!((shown.dim, fault), (crate::units::Kind::MetalFraction.dim(), None));
        let sulfate = read("CuSO4·5H2O").part_fraction("SO4").unwrap();
        assert!((sulfate.si - 96.056 / 249.677).abs() < 1e-5);
        // Five waters of 18.015 g/mol: 0.361 kg of water in a kilogram of the salt.
        assert!((read("CuSO4·5H2O").water_fraction().si - 0.3608).abs() < 1e-4);
        assert!((read("NiCl2").part_fraction("Cl").unwrap().si - 70.9 / 129.593).abs() < 1e-4);
        assert!(read("CuSO4").metal_fraction("Ni").is_err() && read("CuSO4").part_fraction("PO4").is_err());
        assert!(read("CuSO4").metal_fraction("S").is_err());
    }

    #[test]
    fn what_is_wrong_is_said() {
        assert_eq!(why(""), "the formula is empty");
        assert_eq!(why("Cuso4"), "“s” at place 3 is a small letter: elements start with a capital");
        assert_eq!(why("Xx2"), "“Xx” is not an element with a standard atomic weight");
        assert_eq!(why("Cu(SO4"), "a bracket is opened and never closed");
        assert_eq!(why("CuSO4)"), "a bracket is closed that was never opened");
        assert_eq!(why("CuSO4·"), "the formula ends where an element should stand");
        assert_eq!(why("Cu()2"), "a pair of brackets is empty");
        assert_eq!(why("Cu0"), "“0” is no count of atoms");
        assert!(why("SO4-").contains("a charge cannot be read"));
        assert!(why(&"Cu".repeat(200)).contains("longer than"));
        assert!(why(&"(".repeat(60)).contains("brackets"));
        assert!(why("Cu99999(H99999)99999").contains("more than"));
    }

    #[test]
    fn any_text_is_read_or_refused() {
        let pieces =
            ["Cu", "S", "O", "4", "(", ")", "·", ".", "5", "H2O", " ", "½", "/", "₂", "é", "0", "[", "-"];
        let mut state = 11usize;
        for _ in 0..50_000 {
            let mut text = String::new();
            for _ in 0..state % 10 {
                state = state.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
                text += pieces[(state >> 33) % pieces.len()];
            }
            state = state.wrapping_add(1);
            if let Ok(formula) = Formula::read(&text) {
                let mass = formula.molar_mass().si;
                assert!(mass.is_finite() && mass > 0.0, "{text}");
                assert!((0.0..=1.0 + 1e-6).contains(&formula.water_fraction().si), "{text}");
            }
        }
    }
}
