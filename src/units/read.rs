//! Reading numbers as people type them: `12 gal`, `1,5`, `1 500`, `1/4 in/ft`, `= 3 * 40`.
//!
//! The rule that matters: nothing is ever guessed. One separator followed by exactly three figures
//! may be a decimal sign or a thousands mark, so it is asked back; everything else is read in the
//! one way that it can be read, or refused with the reason.

use super::sum::Sum;
use super::{Decimal, Gallon, Kind, Style, UNITS, Unit, Value};

/// Why a text is not (yet) a value.
#[derive(Clone, Debug, PartialEq)]
pub enum Unread {
    /// Nothing was typed.
    Empty,
    /// It can be read in two ways; each is a text to take in its place, the likelier first.
    Ambiguous([String; 2]),
    /// It cannot be read: what is wrong, in a sentence.
    Wrong(String),
}

/// The number and the unit of a text, as they were typed: `12 gal` is `12` and `gal`.
pub fn split(text: &str) -> (String, String) {
    let text = plain(text);
    let text = text.trim();
    let is_number = |c: char| c.is_ascii_digit() || " .,+-*/()=".contains(c);
    // The unit starts at the first other character; "2e-3 m" keeps its exponent.
    let start = text.char_indices().find(|&(at, c)| !is_number(c) && !is_exponent(text, at));
    let (digits, symbol) = text.split_at(start.map_or(text.len(), |(at, _)| at));
    // "1 /day": the stroke belongs to the unit, unless a figure follows it.
    match digits.trim_end().strip_suffix('/') {
        Some(before) if !symbol.is_empty() => (before.trim().into(), format!("/{}", symbol.trim())),
        _ => (digits.trim().into(), symbol.trim().into()),
    }
}

/// Longer than any number with its unit; what is longer is refused unread.
pub(super) const LONGEST: usize = 80;

/// Reads a text in which a bare number is in `unit`.
pub fn read(text: &str, unit: &'static Unit, style: &Style) -> Result<Value, Unread> {
    if let Some(number) = bare(text) {
        return Ok(Value::new(number, unit));
    }
    if let Some(value) = bare_with_unit(text, unit, style) {
        return Ok(value);
    }
    if text.chars().count() > LONGEST {
        return Err(Unread::Wrong(format!(
            "this is longer than {LONGEST} characters, too long for a number"
        )));
    }
    let (digits, symbol) = split(text);
    if digits.is_empty() && symbol.is_empty() {
        return Err(Unread::Empty);
    }
    let symbol = without_currency(symbol, unit, style);
    let unit = find_unit(&symbol, &digits, unit, style)?;
    let with_unit = |number: String| match symbol.as_str() {
        "" => number,
        symbol => format!("{number} {symbol}"),
    };
    let number = match digits.strip_prefix('=') {
        Some(sum) => Sum::of(sum, style).whole(),
        None => quotient(&digits, style),
    };
    let number = number.map_err(|unread| match unread {
        Unread::Ambiguous(readings) => Unread::Ambiguous(readings.map(with_unit)),
        other => other,
    })?;
    let value = Value::new(number, unit);
    if !value.si.is_finite() {
        return Err(Unread::Wrong(format!("“{}” is too large to be a number here", text.trim())));
    }
    Ok(value)
}

/// Money may be typed with the currency that it is shown with: `12 cr per kg`.
fn without_currency(symbol: String, unit: &Unit, style: &Style) -> String {
    let is_money = unit.kind == Kind::Money || unit.kind.is_price();
    match symbol.strip_prefix(style.currency.name()) {
        Some(rest) if is_money => rest.trim_start().into(),
        _ => symbol,
    }
}

/// The most frequent text at once: figures, with a point that is not followed by three of them. A plan is
/// read anew at every key.
fn bare(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
    let is_plain =
        |figures: &str| (1..=15).contains(&figures.len()) && figures.bytes().all(|b| b.is_ascii_digit());
    if is_plain(whole) && is_plain(part) && part.len() != 3 { text.parse().ok() } else { None }
}

/// The next most frequent: the same, a space, and a unit that is known here.
fn bare_with_unit(text: &str, unit: &'static Unit, style: &Style) -> Option<Value> {
    let (figures, symbol) = text.split_once(' ')?;
    let number = bare(figures).filter(|_| symbol.starts_with(char::is_alphabetic))?;
    Some(Value::new(number, find_unit(symbol, figures, unit, style).ok()?))
}

/// Spaces of every width as one, and the typographic minus as the one on the keyboard.
fn plain(text: &str) -> String {
    let one = |c: char| match c {
        c if c.is_whitespace() => ' ',
        '\u{2212}' | '\u{2012}' | '\u{2013}' => '-',
        '×' | '·' => '*',
        c => c,
    };
    // A middle dot or cross inside a unit (A·h) is not a product.
    let first_letter = text.find(|c: char| c.is_alphabetic() || "°µ%".contains(c)).unwrap_or(text.len());
    let keep = |(at, c): (usize, char)| {
        if at > first_letter && "×·".contains(c) { c } else { one(c) }
    };
    text.char_indices().map(keep).collect()
}

fn is_exponent(text: &str, at: usize) -> bool {
    let Some(after) = text.get(at + 1..) else { return false };
    text[at..].starts_with(['e', 'E'])
        && text[..at].ends_with(|c: char| c.is_ascii_digit())
        && after.trim_start_matches(['-', '+']).starts_with(|c: char| c.is_ascii_digit())
}

fn find_unit(
    symbol: &str,
    digits: &str,
    unit: &'static Unit,
    style: &Style,
) -> Result<&'static Unit, Unread> {
    if symbol.is_empty() || symbol == unit.symbol {
        return Ok(unit);
    }
    if symbol.contains("gal") && !symbol.contains("imp") && !symbol.contains("US") && !symbol.contains("UK") {
        let named = match style.gallon {
            Gallon::Us => symbol.replace("gallons", "gal").replace("gallon", "gal").replace("gal", "US gal"),
            Gallon::Imperial => {
                symbol.replace("gallons", "gal").replace("gallon", "gal").replace("gal", "imperial gal")
            }
        };
        let minute = named.replace("gpm", "gal/min");
        if let Some(unit) = unit.kind.units().find(|u| u.is_called(&minute)) {
            return Ok(unit);
        }
        if style.gallon == Gallon::Imperial && unit.kind.units().any(|u| u.is_called(symbol)) {
            let reason = format!("“{symbol}” is not known here with the imperial gallon");
            return Err(Unread::Wrong(format!("{reason}; use {}", offered(unit))));
        }
    }
    let close = |u: &&'static Unit| u.is_called(symbol);
    // "70 f" is °F: among temperatures no two units are told apart by the case of their letters.
    let is_degrees = matches!(unit.kind, Kind::Temperature | Kind::TemperatureDifference);
    let loose = |u: &&'static Unit| {
        u.symbol.eq_ignore_ascii_case(symbol)
            || is_degrees && u.aliases.iter().any(|alias| alias.eq_ignore_ascii_case(symbol))
    };
    if let Some(unit) = unit.kind.units().find(close) {
        return Ok(unit);
    }
    let mut same_but_for_case = unit.kind.units().filter(loose);
    if let (Some(unit), None) = (same_but_for_case.next(), same_but_for_case.next()) {
        return Ok(unit);
    }
    if ["O", "o"].contains(&symbol) && !digits.is_empty() {
        return Err(Unread::Wrong(format!(
            "“{digits}{symbol}” is not a number: it ends in the letter {symbol}"
        )));
    }
    if digits.is_empty() {
        return Err(Unread::Wrong(format!("“{symbol}” is not a number")));
    }
    if symbol.starts_with("ppm") {
        let reason = "ppm is mass per mass and does not fit here";
        return Err(Unread::Wrong(format!(
            "{reason}: 60 ppm in a bath of 1.2 kg/L are 72 mg/L. Use {}",
            offered(unit)
        )));
    }
    let known = UNITS.iter().find(|u| u.is_called(symbol));
    Err(Unread::Wrong(match known {
        Some(other) => {
            let (theirs, ours) = (other.kind.called(), unit.kind.called());
            format!("“{symbol}” measures {theirs}; here goes {ours}, in {}", offered(unit))
        }
        None if unit.kind == Kind::Money || unit.kind.is_price() => {
            format!("“{symbol}” is not a unit here: type the number alone; the currency is named at Site")
        }
        None => format!("“{symbol}” is not a unit here; use {}", offered(unit)),
    }))
}

/// The units of a field, as a message lists them.
fn offered(unit: &'static Unit) -> String {
    let all: Vec<_> = unit.kind.units().map(|u| u.symbol).filter(|symbol| !symbol.is_empty()).collect();
    match all.as_slice() {
        [] => "a plain number".into(),
        [only] => (*only).into(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}

/// `1/4`, `1 1/4`, or one number.
fn quotient(text: &str, style: &Style) -> Result<f64, Unread> {
    let not_a_number = || Unread::Wrong(format!("“{text}” is not a number"));
    if text.contains(['*', '(', ')', '=']) {
        let reason = format!("“{text}” is a sum; start it with = to have it worked out");
        return Err(Unread::Wrong(reason));
    }
    let Some((above, below)) = text.split_once('/') else { return number(text, style) };
    let below = number(below.trim(), style)?;
    if below == 0.0 {
        return Err(Unread::Wrong(format!("“{text}” divides by zero")));
    }
    // "1 1/4" is one and a quarter, as on a tape measure.
    match above.trim().rsplit_once(' ') {
        Some((whole, above)) => {
            let whole = number(whole.trim(), style)?;
            let part = number(above, style)? / below;
            if whole.fract() != 0.0 || !(0.0..1.0).contains(&part) {
                return Err(not_a_number());
            }
            Ok(if whole < 0.0 { whole - part } else { whole + part })
        }
        None => Ok(number(above.trim(), style)? / below),
    }
}

/// One number: sign, figures with at most one decimal sign, groups of three, exponent.
pub(super) fn number(text: &str, style: &Style) -> Result<f64, Unread> {
    let wrong = |why: &str| Err(Unread::Wrong(format!("“{text}” is not a number{why}")));
    let (sign, rest) = match text.strip_prefix('-') {
        Some(rest) => ("-", rest.trim_start()),
        None => ("", text.strip_prefix('+').unwrap_or(text).trim_start()),
    };
    let (mantissa, exponent) = match rest.split_once(['e', 'E']) {
        Some((mantissa, exponent)) => (mantissa, format!("e{}", exponent.trim())),
        None => (rest, String::new()),
    };
    if mantissa.contains(['+', '-']) {
        return wrong("; start it with = to have it worked out");
    }
    if !mantissa.contains(|c: char| c.is_ascii_digit()) {
        return wrong("");
    }
    let Some(mantissa) = without_spaces(mantissa.trim()) else {
        return wrong(": the spaces do not part it into groups of three");
    };
    let points = mantissa.matches('.').count();
    let commas = mantissa.matches(',').count();
    let decimal = match (points, commas) {
        (0, 0) => mantissa.clone(),
        // Two sorts of separator: the last one is the decimal sign, the other one groups.
        (_, 1..) if points >= 1 => {
            let last = if mantissa.rfind('.') > mantissa.rfind(',') { '.' } else { ',' };
            let other = if last == '.' { ',' } else { '.' };
            let Some((whole, part)) = mantissa.split_once(last) else { return wrong("") };
            if part.contains([',', '.']) || !is_grouped(whole, other) {
                return wrong(": the separators do not part it into groups of three");
            }
            format!("{}.{part}", whole.replace(other, ""))
        }
        // One sort, several times: it can only group.
        (0, 2..) | (2.., 0) => {
            let mark = if points > 0 { '.' } else { ',' };
            if !is_grouped(&mantissa, mark) {
                return wrong(": the separators do not part it into groups of three");
            }
            mantissa.replace(mark, "")
        }
        _ => {
            let mark = if points > 0 { '.' } else { ',' };
            let Some((whole, part)) = mantissa.split_once(mark) else { return wrong("") };
            let may_group = part.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0');
            if may_group {
                return Err(Unread::Ambiguous(readings(sign, whole, part, &exponent, style)));
            }
            format!("{whole}.{part}")
        }
    };
    match format!("{sign}{decimal}{exponent}").parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(number),
        Ok(_) => Err(Unread::Wrong(format!("“{text}” is too large to be a number here"))),
        Err(_) => wrong(""),
    }
}

/// Takes out spaces that group figures by three; `None` if a space does anything else.
fn without_spaces(text: &str) -> Option<String> {
    if !text.contains(' ') {
        return Some(text.into());
    }
    let end = text.find(['.', ',']).unwrap_or(text.len());
    let (whole, part) = text.split_at(end);
    let fits = is_grouped(whole.trim(), ' ') && !part.contains(' ');
    fits.then(|| whole.replace(' ', "") + part)
}

fn is_grouped(text: &str, mark: char) -> bool {
    let mut groups = text.split(mark);
    let first = groups.next().unwrap_or_default();
    let digits = |group: &str| group.chars().all(|c| c.is_ascii_digit());
    (1..=3).contains(&first.len()) && digits(first) && groups.all(|group| group.len() == 3 && digits(group))
}

/// The two readings of "1.234", as texts that can be read in one way only.
fn readings(sign: &str, whole: &str, part: &str, exponent: &str, style: &Style) -> [String; 2] {
    let mark = if style.decimal == Decimal::Comma { ',' } else { '.' };
    // Figures behind the sign other than three leave no doubt.
    let part_alone = match part.trim_end_matches('0') {
        "" => "0".to_string(),
        short if short.len() < 3 => short.to_string(),
        _ => format!("{part}0"),
    };
    let decimal = format!("{sign}{whole}{mark}{part_alone}{exponent}");
    let grouped = format!("{sign}{whole}{part}{exponent}");
    [decimal, grouped]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn si(text: &str, unit: &'static Unit) -> Result<f64, Unread> {
        read(text, unit, &Style::default()).map(|value| value.si)
    }

    #[test]
    fn reads_what_people_type() {
        for (text, unit, expected) in [
            ("12 gal", L, 0.045424941408),
            ("12gal", L, 0.045424941408),
            ("12 imp gal", L, 0.05455308),
            ("5 gal/min", L_PER_MIN, 5.0 * 3.785411784e-3 / 60.0),
            ("200", L, 0.2),
            ("0,5", L, 0.0005),
            ("0.125", L, 0.000125),
            ("1 500 L", L, 1.5),
            ("1\u{a0}500\u{202f}000 mL", L, 1.5),
            ("1,234.5", L, 1.2345),
            ("1.234,5", L, 1.2345),
            ("1.234.567", L, 1234.567),
            ("2.5e-3 m³", L, 0.0025),
            ("2,5E-3 m3", L, 0.0025),
            ("1/4 in/ft", PERCENT_SLOPE, 0.25 / 12.0),
            ("1 1/4 in", MM, 0.03175),
            ("1 500,5 mL", L, 0.0015005),
            ("77 °F", CELSIUS, 298.15),
            ("77 F", CELSIUS, 298.15),
            ("77 f", CELSIUS, 298.15),
            ("77f", CELSIUS, 298.15),
            ("77 degf", CELSIUS, 298.15),
            ("25 c", FAHRENHEIT, 298.15),
            ("298.15 k", CELSIUS, 298.15),
            ("9 f", KELVINS, 5.0),
            ("-5", CELSIUS, 268.15),
            ("\u{2212}5", CELSIUS, 268.15),
            ("  20 ", L, 0.02),
            ("= 3*40", L, 0.12),
            ("=(2 + 3)*4,5 L", L, 0.0225),
            ("60 ppm", MASS_PERCENT, 60e-6),
            ("500 /day", PER_DAY, 500.0 / 86400.0),
            ("1.2 A·h", A_MIN, 4320.0),
            ("SG 20/4", KG_PER_L, f64::NAN),
            ("40 g/L", G_PER_L_METAL, 40.0),
            ("1,5", L, 0.0015),
        ] {
            let read = si(text, unit);
            if expected.is_nan() {
                assert!(read.is_err(), "{text}");
                continue;
            }
            let read = read.unwrap_or_else(|unread| panic!("{text}: {unread:?}"));
            assert!((read - expected).abs() < 1e-12 * expected.abs().max(1.0), "{text}: {read}");
        }
    }

    /// What "70 f" rests on: no spelling of one is, but for case, a spelling of another.
    #[test]
    fn units_of_temperature_are_not_told_apart_by_case() {
        for kind in [Kind::Temperature, Kind::TemperatureDifference] {
            for unit in kind.units() {
                for spelling in unit.aliases.iter().chain([&unit.symbol]) {
                    let lower = spelling.to_ascii_lowercase();
                    let is_so = |u: &&Unit| {
                        u.aliases.iter().chain([&u.symbol]).any(|other| other.to_ascii_lowercase() == lower)
                    };
                    assert_eq!(kind.units().filter(|u| is_so(u)).count(), 1, "{spelling}");
                }
            }
        }
    }

    #[test]
    fn one_separator_and_three_figures_is_asked_back() {
        let asked = |text: &str| match read(text, L, &Style::default()) {
            Err(Unread::Ambiguous(readings)) => readings,
            other => panic!("{text}: {other:?}"),
        };
        assert_eq!(asked("1,500"), ["1.5", "1500"]);
        assert_eq!(asked("12.345 gal"), ["12.3450 gal", "12345 gal"]);
        assert_eq!(asked("-1.000"), ["-1.0", "-1000"]);
        for text in ["1,500", "12.345 gal", "-1.000", "2.500e-3"] {
            for reading in asked(text) {
                assert!(si(&reading, L).is_ok(), "{reading} leaves no doubt");
            }
        }
    }

    #[test]
    fn the_plans_gallon_is_the_one_that_counts() {
        let imperial = Style { gallon: Gallon::Imperial, ..Style::default() };
        assert_eq!(read("1 gal", L, &imperial).unwrap().si, 4.54609e-3);
        assert_eq!(read("1 gal", L, &imperial).unwrap().unit.symbol, "imperial gal");
        assert_eq!(read("1 US gal", L, &imperial).unwrap().si, 3.785411784e-3);
        assert!(read("1 oz/gal", G_PER_L, &imperial).is_err(), "which gallon would be a guess");
    }

    #[test]
    fn refuses_what_it_would_have_to_guess_and_says_why() {
        let why = |text: &str, unit| match si(text, unit) {
            Err(Unread::Wrong(why)) => why,
            other => panic!("{text}: {other:?}"),
        };
        assert_eq!(why("0,02O", KW_PER_K), "“0,02O” is not a number: it ends in the letter O");
        assert!(why("12 kg", L).starts_with("“kg” measures a mass; here goes a volume, in L, mL"));
        assert!(why("60 ppm", MG_PER_L_METAL).contains("72 mg/L"));
        for text in [
            "twelve", "1,2,3", "1 5", "1/0", "12 24", "1,23.456", "1..2", "5-3", "3*40", "= 3*", "= 1/0",
            "--5", "1e999",
        ] {
            assert!(matches!(si(text, L), Err(Unread::Wrong(_))), "{text}: {:?}", si(text, L));
        }
        assert_eq!(si("", L), Err(Unread::Empty));
        assert!(si("157 g/L of salt", G_PER_L_METAL).is_err());
        assert!(si("40 g/L of metal", G_PER_L).is_err());
    }

    #[test]
    fn any_text_is_read_or_refused() {
        let pieces = [
            "1", "0", ",", ".", "e", "E", "-", "±", "/", " ", "µ", "gal", "°C", "\u{202f}", "9", "(", "=",
            "*", "é",
        ];
        let mut state = 7usize;
        for _ in 0..50_000 {
            let mut text = String::new();
            for _ in 0..state % 9 {
                state = state.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
                text += pieces[(state >> 33) % pieces.len()];
            }
            state = state.wrapping_add(1);
            if let Ok(number) = si(&text, L) {
                assert!(number.is_finite(), "{text}");
            }
        }
    }
}
