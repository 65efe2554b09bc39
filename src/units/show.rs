//! Showing numbers: decimal sign, preferred units, and enough figures.

use super::{Kind, Unit, Use};

/// The decimal sign that numbers are shown with. Both are always read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Decimal {
    /// 1.5
    #[default]
    Point,
    /// 1,5
    Comma,
}

/// What a plain "gal" means.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Gallon {
    /// 3.785411784 L.
    #[default]
    Us,
    /// 4.54609 L.
    Imperial,
}

/// Which units answers are shown in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum System {
    /// Litres, kilograms, °C.
    #[default]
    Metric,
    /// US gallons, pounds, °F.
    Us,
}

/// A name or sign of money; only the first 16 bytes of it, so that it is copied with the style.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Currency {
    bytes: [u8; 16],
    length: usize,
}

impl Currency {
    /// A currency by the name that its user gives it; what is longer is cut at a whole letter.
    pub fn named(text: &str) -> Currency {
        let mut found = Currency::default();
        for letter in text.trim().chars() {
            let end = found.length + letter.len_utf8();
            let Some(room) = found.bytes.get_mut(found.length..end) else { break };
            letter.encode_utf8(room);
            found.length = end;
        }
        found
    }

    /// Its name; empty if nobody gave it one.
    pub fn name(&self) -> &str {
        self.bytes.get(..self.length).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or_default()
    }
}

/// How numbers are read and shown; the plan's choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Style {
    /// Decimal sign.
    pub decimal: Decimal,
    /// What "gal" means.
    pub gallon: Gallon,
    /// Preferred units.
    pub system: System,
    /// Significant digits of what is shown.
    pub digits: usize,
    /// What stands behind sums of money, and before “per kg” in prices.
    pub currency: Currency,
}

impl Default for Style {
    fn default() -> Style {
        let currency = Currency::default();
        Style { decimal: Decimal::Point, gallon: Gallon::Us, system: System::Metric, digits: 3, currency }
    }
}

/// Groups of three are set apart by this: a narrow space that does not break.
pub const GROUP: char = '\u{202f}';

impl Style {
    /// The same style with more digits, for whoever wants to check a sum.
    pub fn with_digits(self, digits: usize) -> Style {
        Style { digits, ..self }
    }

    /// A bare number: `14.8`, `12 300`, `1.23 × 10⁻⁶`; zero is `0`. More figures than three are shown as
    /// far as they say something: `0.250`, not `0.250000`.
    pub fn number(&self, number: f64) -> String {
        let most = self.digits.clamp(1, 15);
        let round = |digits: usize| format!("{number:.*e}", digits - 1).parse::<f64>().ok();
        let digits = (most.min(3)..most).find(|&fewer| round(fewer) == round(most)).unwrap_or(most);
        self.with_digits(digits).exact(number)
    }

    /// The same with all its figures, for numbers that stand below one another.
    pub fn exact(&self, number: f64) -> String {
        let is_none = number.abs() < 1e-300;
        if is_none || !number.is_finite() {
            return if is_none { "0".into() } else { "–".into() };
        }
        // The figures, rounded once; this settles which power of ten 999.7 belongs to. From here on only the
        // point moves.
        let rounded = format!("{:.*e}", self.digits.clamp(1, 15) - 1, number.abs());
        let (figures, power) = rounded.split_once('e').unwrap_or((&rounded, "0"));
        let (figures, power) = (figures.replace('.', ""), power.parse::<i32>().unwrap_or(0));
        let thousands = if (-3..6).contains(&power) { 0 } else { power.div_euclid(3) * 3 };
        let mut text = grouped(&with_point(&figures, power - thousands));
        if thousands != 0 {
            text = text + " × 10" + &superscript(thousands);
        }
        if number < 0.0 {
            text.insert(0, '−');
        }
        if self.decimal == Decimal::Comma { text.replace('.', ",") } else { text }
    }

    /// The end of a range: three figures of whatever is not whole, and never a power of ten.
    pub fn plain(&self, number: f64) -> String {
        let rounded: f64 = format!("{number:.2e}").parse().unwrap_or(number);
        let number =
            if (number - number.round()).abs() < 1e-9 * number.abs() { number.round() } else { rounded };
        let text = grouped(&format!("{number}")).replace('-', "−");
        if self.decimal == Decimal::Comma { text.replace('.', ",") } else { text }
    }

    /// A number in a message: as [`Style::show`], and without a power of ten unless it is out of all proportion.
    pub fn echo(&self, si: f64, unit: &Unit) -> String {
        let (text, number) = (self.show(si, unit), unit.from_si(si));
        let has_power = text.contains('×') && (1e-9..1e12).contains(&number.abs());
        if has_power { joined(self.plain(number), unit) } else { text }
    }

    /// A number that somebody typed, said back: up to six figures, and none that was not typed.
    pub fn said_back(&self, si: f64, unit: &Unit) -> String {
        let number = unit.from_si(si);
        let rounded: f64 = format!("{number:.5e}").parse().unwrap_or(number);
        if number != 0.0 && !(1e-4..1e9).contains(&number.abs()) {
            return self.echo(si, unit);
        }
        let text = grouped(&format!("{rounded}")).replace('-', "−");
        joined(if self.decimal == Decimal::Comma { text.replace('.', ",") } else { text }, unit)
    }

    /// Two numbers in a message, with as many figures as it takes to tell them apart.
    pub fn told_apart(&self, pair: [f64; 2], unit: &Unit) -> [String; 2] {
        let figures = |digits: usize| pair.map(|si| self.with_digits(digits).echo(si, unit));
        let differing = (self.digits..=9).map(figures).find(|[one, other]| one != other);
        differing.unwrap_or_else(|| figures(self.digits))
    }

    /// A literal of a formula, with all its figures and no more: `0.5`, `8`.
    pub fn literal(&self, number: f64) -> String {
        let text = format!("{number}").replace('-', "−");
        if self.decimal == Decimal::Comma { text.replace('.', ",") } else { text }
    }

    /// An SI value in exactly this unit: `14.8 L`.
    pub fn show(&self, si: f64, unit: &Unit) -> String {
        let (number, symbol) = self.with_currency(self.number(unit.from_si(si)), unit);
        if symbol.is_empty() { number } else { format!("{number}\u{a0}{symbol}") }
    }

    /// A number and the symbol behind it: of money, the number has the currency with it if that has a name.
    pub fn with_currency(&self, number: String, unit: &Unit) -> (String, &'static str) {
        match (self.currency.name(), unit.kind) {
            ("", _) => (number, unit.symbol),
            (name, Kind::Money) => (format!("{number}\u{a0}{name}"), ""),
            (name, kind) if kind.is_price() => (format!("{number}\u{a0}{name}"), unit.symbol),
            _ => (number, unit.symbol),
        }
    }

    /// What stands for a unit beside a number: its symbol, or the currency: `cr per kg`.
    pub fn symbol(&self, unit: &Unit) -> String {
        let (name, symbol) = self.with_currency(String::new(), unit);
        match name.trim_start_matches('\u{a0}') {
            "" => symbol.into(),
            name if symbol.is_empty() => name.into(),
            name => format!("{name} {symbol}"),
        }
    }

    /// The unit in which an answer declared in `unit` reads best: of the preferred system, and near 1.
    pub fn best(&self, si: f64, unit: &'static Unit) -> &'static Unit {
        let wanted = match self.system {
            System::Metric => Use::Metric,
            System::Us => Use::Us,
        };
        let offered = |used: Use| used == wanted || used == Use::All;
        let has_own = unit.kind.units().any(|other| other.used == wanted);
        let start = if offered(unit.used) || !has_own { unit } else { self.counterpart(unit, wanted) };
        let size = start.from_si(si).abs();
        if si == 0.0 || (0.1..10_000.0).contains(&size) || start.kind == Kind::Temperature {
            return start;
        }
        // Off by how many powers of ten the number is from a comfortable one.
        let discomfort = |unit: &&'static Unit| {
            let power = unit.from_si(si).abs().log10();
            if (0.0..3.0).contains(&power) { 0.0 } else { (power - 1.5).abs() }
        };
        let rivals = unit.kind.units().filter(|other| offered(other.used) && same_sort(start, other));
        rivals.min_by(|a, b| discomfort(a).total_cmp(&discomfort(b))).unwrap_or(start)
    }

    /// An SI value in the unit in which it reads best.
    pub fn answer(&self, si: f64, unit: &'static Unit) -> String {
        self.show(si, self.best(si, unit))
    }

    /// The preferred system's unit nearest in size to `unit`; of those about as near, the one listed first.
    fn counterpart(&self, unit: &'static Unit, wanted: Use) -> &'static Unit {
        let one = unit.to_si(1.0) - unit.to_si(0.0);
        let distance = |other: &&'static Unit| {
            let theirs = other.to_si(1.0) - other.to_si(0.0);
            (theirs / one).abs().log10().abs().round()
        };
        let own = unit.kind.units().filter(|other| other.used == wanted);
        own.min_by(|a, b| distance(a).total_cmp(&distance(b))).unwrap_or(unit)
    }

    /// Three digits, rounded up (`more`) or down, so that a cure is on the safe side.
    pub fn show_beyond(&self, si: f64, unit: &Unit, more: bool) -> String {
        let number = unit.from_si(si);
        let digit = 10f64.powf(number.abs().max(1e-300).log10().floor() - 2.0);
        // What is a rounding error away from a digit is that digit.
        let [up, down] = [(number / digit - 1e-9).ceil(), (number / digit + 1e-9).floor()];
        self.with_digits(3).show(unit.to_si(digit * if more { up } else { down }), unit)
    }
}

/// A number and its unit as one text.
pub fn joined(number: String, unit: &Unit) -> String {
    match unit.symbol {
        "" => number,
        "%" => format!("{number}\u{a0}%"),
        symbol => format!("{number}\u{a0}{symbol}"),
    }
}

/// Whether an answer may move between two units without changing what it says: g/L to mg/L, but
/// never kg/L to °Bé, or minutes to a rate.
fn same_sort(a: &Unit, b: &Unit) -> bool {
    // A flow per day beside one per minute would read as a contradiction.
    let per = |unit: &Unit| {
        unit.symbol.trim_end_matches(" of metal").rsplit_once('/').map(|(_, per)| per.to_string())
    };
    let keeps_time = !matches!(a.kind, Kind::Flow | Kind::MassFlow | Kind::MetalFlow) || per(a) == per(b);
    a.kind == b.kind
        && keeps_time
        && !matches!(a.kind, Kind::Slope | Kind::VolumePerVolume | Kind::Density | Kind::MassFraction)
}

/// Figures with a point behind the first, moved by so many places: `148` by 1 is `14.8`.
fn with_point(figures: &str, places: i32) -> String {
    let noughts = |many: i32| "0".repeat(many.max(0) as usize);
    let whole = (places + 1).max(0);
    match figures.split_at_checked(whole as usize) {
        Some(("", part)) => format!("0.{}{part}", noughts(-1 - places)),
        Some((whole, "")) => whole.into(),
        Some((whole, part)) => format!("{whole}.{part}"),
        None => figures.to_string() + &noughts(whole - figures.len() as i32),
    }
}

fn grouped(plain: &str) -> String {
    let (whole, rest) = plain.split_at(plain.find('.').unwrap_or(plain.len()));
    let digits = whole.trim_start_matches('-');
    if digits.len() < 5 {
        return plain.into();
    }
    let mut text = String::from(&whole[..whole.len() - digits.len()]);
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(GROUP);
        }
        text.push(digit);
    }
    text + rest
}

/// `-6` as `⁻⁶`.
pub fn superscript(power: i32) -> String {
    let raise = |c: char| match c {
        '-' => '⁻',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        digit => char::from_u32('⁰' as u32 + digit.to_digit(10).unwrap_or(0)).unwrap_or(digit),
    };
    power.to_string().chars().map(raise).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    #[test]
    fn messages_and_ranges_have_no_powers_of_ten() {
        let style = Style::default();
        for (number, plain) in [
            (0.000165, "0.000165"),
            (1e5, "100\u{202f}000"),
            (2.5e-7, "0.00000025"),
            (12.0, "12"),
            (0.05, "0.05"),
        ] {
            assert_eq!(style.plain(number), plain);
        }
        assert_eq!(style.plain(26417.205), "26\u{202f}400", "three figures");
        assert_eq!(Style { decimal: Decimal::Comma, ..style }.plain(-0.5), "−0,5");
        assert_eq!(style.echo(60.0e-3, MG_PER_L), style.show(60.0e-3, MG_PER_L));
        assert_eq!(style.echo(1e7, M), "10\u{202f}000\u{202f}000\u{a0}m");
        assert_eq!(style.echo(1e30, M), style.show(1e30, M), "out of all proportion");
    }

    #[test]
    fn what_was_typed_is_said_back_as_it_was_typed() {
        let style = Style::default();
        let said = |number: f64, unit| style.said_back(Unit::to_si(unit, number), unit);
        assert_eq!(said(2416.0, HOUR), "2416\u{a0}h");
        assert_eq!(said(-3.5, L), "−3.5\u{a0}L");
        assert_eq!(said(0.0, L), "0\u{a0}L");
        assert_eq!(said(123_456.7, L), "123\u{202f}457\u{a0}L");
    }

    #[test]
    fn a_number_above_a_limit_never_reads_as_the_limit_itself() {
        let style = Style::default();
        assert_eq!(style.told_apart([1.002, 1.0], PERCENT), ["100.2\u{a0}%", "100\u{a0}%"]);
        assert_eq!(style.told_apart([1.5, 1.0], PERCENT), ["150\u{a0}%", "100\u{a0}%"]);
    }

    /// 30.3 billionths of a gram are 0.0303 µg.
    #[test]
    fn a_trace_of_metal_a_day_needs_no_power_of_ten() {
        let si = MG_PER_DAY_METAL.to_si(30.3e-6);
        assert_eq!(Style::default().answer(si, MG_PER_DAY_METAL), "0.0303\u{a0}µg/day of metal");
    }

    /// What is dosed is measured in millilitres everywhere; a tank is not.
    #[test]
    fn millilitres_stay_in_us_style() {
        let style = Style { system: System::Us, ..Style::default() };
        assert_eq!(style.answer(ML_PER_DAY.to_si(863.0), ML_PER_DAY), "863\u{a0}mL/day");
        assert_eq!(style.best(L.to_si(200.0), L).symbol, "US gal");
    }

    #[test]
    fn three_digits_read_well_at_every_size() {
        let style = Style::default();
        for (number, text) in [
            (8.1633, "8.16"),
            (999.7, "1000"),
            (12345.0, "12\u{202f}300"),
            (0.04567, "0.0457"),
            (0.0000123, "12.3 × 10⁻⁶"),
            (-2.0, "−2.00"),
            (1.5e7, "15.0 × 10⁶"),
            (0.0, "0"),
            (999_999.0, "1.00 × 10⁶"),
            (f64::NAN, "–"),
        ] {
            assert_eq!(style.number(number), text);
        }
        let comma = Style { decimal: Decimal::Comma, ..style };
        assert_eq!(comma.number(14.82), "14,8");
        assert_eq!(comma.with_digits(6).number(14.8214), "14,8214");
    }

    #[test]
    fn more_figures_add_no_noughts() {
        let fine = Style::default().with_digits(6);
        for (number, text) in [
            (0.25, "0.250"),
            (8.0, "8.00"),
            (63.546, "63.546"),
            (31.40, "31.4"),
            (1.0 / 3.0, "0.333333"),
            (200.5, "200.5"),
            (12_345.0, "12\u{202f}345"),
            (1.5e-7, "150 × 10⁻⁹"),
        ] {
            assert_eq!(fine.number(number), text);
        }
    }

    #[test]
    fn an_answer_moves_to_the_unit_in_which_it_reads_well() {
        let style = Style::default();
        assert_eq!(style.answer(0.0292e-3, L), "29.2\u{a0}mL");
        assert_eq!(style.answer(1.23e-9, L), "0.00123\u{a0}mL");
        assert_eq!(style.answer(0.2, L), "200\u{a0}L");
        assert_eq!(style.answer(1.23e-6, G_PER_L_METAL), "1.23\u{a0}µg/L of metal");
    }

    #[test]
    fn us_units_stand_in_for_metric_ones() {
        let style = Style { system: System::Us, ..Style::default() };
        assert_eq!(style.answer(0.2, L), "52.8\u{a0}US gal");
        assert_eq!(style.answer(323.15, CELSIUS), "122\u{a0}°F");
        assert_eq!(style.answer(0.06, MG_PER_L_METAL), "60.0\u{a0}mg/L of metal");
        assert_eq!(style.answer(10.0, KELVINS), "18.0\u{a0}°F difference");
        assert_eq!(style.answer(3600.0, MINUTE), "60.0\u{a0}min");
    }

    /// A pump's or a line's pressure is told in psi (common practice, no source): 100 kPa are 14.5 psi.
    #[test]
    fn pressure_of_pumps_and_lines_is_in_psi() {
        let style = Style { system: System::Us, ..Style::default() };
        assert_eq!(style.answer(100e3, KPA), "14.5\u{a0}psi");
        assert_eq!(style.answer(6e5, BAR), "87.0\u{a0}psi");
        assert_eq!(style.answer(250.0, PASCAL), "1.00\u{a0}in of water", "a draught");
    }

    #[test]
    fn money_has_the_currency_of_its_user_behind_it() {
        let style = Style { currency: Currency::named(" cr "), ..Style::default() };
        assert_eq!(style.answer(8064.0, MONEY), "8060\u{a0}cr");
        assert_eq!(style.show(12.0, PER_M3), "12.0\u{a0}cr\u{a0}per m³");
        assert_eq!(style.symbol(PER_KG), "cr per kg");
        assert_eq!(style.symbol(MONEY), "cr");
        assert_eq!((style.symbol(L), style.symbol(NUMBER)), ("L".into(), String::new()));
        assert_eq!(style.answer(0.2, L), "200\u{a0}L");
        let typed = crate::units::read("12 cr per m³", PER_L, &style).unwrap();
        assert_eq!((typed.si, typed.unit), (12.0, PER_M3), "as shown, so typed");
        assert_eq!(crate::units::read("12 cr", PER_L, &style).unwrap().si, 12e3);
        assert!(crate::units::read("12 cr", L, &style).is_err(), "no volume is money");
        assert_eq!(Style::default().answer(8064.0, MONEY), "8060\u{a0}of your currency");
        assert_eq!(Currency::named("ааааааааа").name(), "аааааааа", "cut at a whole letter");
    }

    #[test]
    fn a_cure_is_rounded_to_the_safe_side() {
        let style = Style::default();
        let shown = [(0.0071301, true), (0.0071399, false), (0.00713, true)]
            .map(|(si, more)| style.show_beyond(si, L, more));
        assert_eq!(shown, ["7.14\u{a0}L", "7.13\u{a0}L", "7.13\u{a0}L"]);
        assert_eq!(style.show_beyond(0.0, L, true), "0\u{a0}L");
    }
}
