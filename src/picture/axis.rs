//! One axis of a chart: its range, where a value stands on it, and round numbers to mark it with.

use crate::units::Style;

/// From here on a range of positive values is shown by powers of ten: what is small would not be seen.
const WIDE: f64 = 1000.0;

/// One axis, in the units shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// What it shows: "Bath temperature".
    pub label: String,
    /// The unit's symbol; empty for a bare number.
    pub unit: String,
    /// Lower end; finite.
    pub low: f64,
    /// Upper end; finite and above `low`.
    pub high: f64,
    /// Whether equal steps are equal ratios.
    pub log: bool,
}

/// A marked value of an axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// The value.
    pub at: f64,
    /// Its text, without the unit.
    pub text: String,
}

impl Axis {
    /// An axis over exactly this range. Ends that are equal, swapped or no numbers are mended.
    pub fn over(label: &str, unit: &str, low: f64, high: f64) -> Axis {
        let [low, high] = [low, high].map(|end| if end.is_finite() { end } else { 0.0 });
        let (mut low, mut high) = (low.min(high), low.max(high));
        if high - low <= 1e-9 * high.abs().max(low.abs()) {
            // One value only: room around it, so that it stands in the middle.
            let room = if high == 0.0 { 1.0 } else { high.abs() * 0.1 };
            (low, high) = (low - room, high + room);
        }
        let log = low > 0.0 && high / low >= WIDE;
        Axis { label: label.into(), unit: unit.into(), low, high, log }
    }

    /// An axis with some room around these values, from zero if that is near, ending on round numbers.
    pub fn around(label: &str, unit: &str, values: impl Iterator<Item = f64>) -> Axis {
        let ends = values.filter(|value| value.is_finite()).fold(None, |ends: Option<(f64, f64)>, value| {
            let (low, high) = ends.unwrap_or((value, value));
            Some((low.min(value), high.max(value)))
        });
        let (low, high) = ends.unwrap_or((0.0, 1.0));
        let mut axis = Axis::over(label, unit, low, high);
        if axis.log {
            axis.low = power(axis.low.log10().floor());
            axis.high = power(axis.high.log10().ceil());
            return axis;
        }
        if low >= 0.0 && low < 0.5 * high {
            axis.low = 0.0;
        } else if high <= 0.0 && high > 0.5 * low {
            axis.high = 0.0;
        }
        let step = step(axis.high - axis.low, 5);
        let outward =
            |end: f64, whole: fn(f64) -> f64| if end == 0.0 { 0.0 } else { whole(end / step) * step };
        (axis.low, axis.high) =
            (outward(axis.low, |x| (x + 1e-9).floor()), outward(axis.high, |x| (x - 1e-9).ceil()));
        axis
    }

    /// Where a value stands: 0 at the low end, 1 at the high end; none if it is beyond either.
    pub fn fraction(&self, value: f64) -> Option<f64> {
        let fraction = if self.log {
            (value / self.low).ln() / (self.high / self.low).ln()
        } else {
            (value - self.low) / (self.high - self.low)
        };
        (-1e-9..=1.0 + 1e-9).contains(&fraction).then(|| fraction.clamp(0.0, 1.0))
    }

    /// The value that stands at this fraction of the axis.
    pub fn value(&self, fraction: f64) -> f64 {
        if self.log {
            self.low * (self.high / self.low).powf(fraction)
        } else {
            self.low + (self.high - self.low) * fraction
        }
    }

    /// This many values, evenly over the axis as it is drawn: where to ask for a curve's points.
    pub fn spread(&self, count: usize) -> Vec<f64> {
        let last = count.max(2) - 1;
        (0..=last).map(|at| self.value(at as f64 / last as f64)).collect()
    }

    /// About `count` round values within the axis, with as many figures as they need.
    pub fn ticks(&self, count: usize, style: &Style) -> Vec<Tick> {
        let count = count.max(2);
        if self.log {
            return self.log_ticks(count, style);
        }
        let span = self.high - self.low;
        let inside = |step: f64| ((self.low / step - 1e-9).ceil(), (self.high / step + 1e-9).floor());
        // One mark alone tells no scale: then the next finer step.
        let finer = (count..=3 * count).map(|count| step(span, count));
        let steps = finer.map(|step| (step, inside(step))).find(|(_, (first, last))| last - first >= 1.0);
        let Some((step, (first, last))) = steps else { return vec![] };
        let steps = ((last - first) as usize).min(50);
        let ticks = (0..=steps).map(|n| {
            let at = (first + n as f64) * step;
            // Enough figures to tell one step from the next, and no more.
            let figures = if at == 0.0 { 1.0 } else { power_of(at) - power_of(step) + 1.0 };
            let figures = figures.max(1.0) as usize;
            Tick { at, text: style.with_digits(figures).exact(at) }
        });
        ticks.collect()
    }

    fn log_ticks(&self, count: usize, style: &Style) -> Vec<Tick> {
        let decades = (self.high / self.low).log10();
        let within: &[f64] = if decades * 3.0 <= count as f64 { &[1.0, 2.0, 5.0] } else { &[1.0] };
        let apart = (decades / count as f64).ceil().max(1.0) as usize;
        let (first, last) = (self.low.log10().floor() as i32, self.high.log10().ceil() as i32);
        let powers = (first..=last).step_by(apart);
        let values = powers.flat_map(|n| within.iter().map(move |figure| figure * power(f64::from(n))));
        let inside = values.filter(|at| self.fraction(*at).is_some());
        inside.map(|at| Tick { at, text: style.with_digits(1).number(at) }).collect()
    }

    /// A value with its unit, for a person to read.
    pub fn text(&self, value: f64, style: &Style) -> String {
        with_unit(style.number(value), &self.unit)
    }
}

/// Which power of ten a value begins with; a rounding error below a power is that power.
fn power_of(value: f64) -> f64 {
    (value.abs() * (1.0 + 1e-9)).log10().floor()
}

/// A whole power of ten.
fn power(of_ten: f64) -> f64 {
    10f64.powi(of_ten as i32)
}

/// A round step (1, 2 or 5 and a power of ten) that divides `span` into about `count` parts.
fn step(span: f64, count: usize) -> f64 {
    let rough = span / count as f64;
    let base = power(rough.log10().floor());
    let factors = [1.0, 2.0, 5.0, 10.0];
    let factor = factors.into_iter().find(|factor| factor * base >= rough * (1.0 - 1e-9)).unwrap_or(10.0);
    factor * base
}

fn with_unit(number: String, unit: &str) -> String {
    if unit.is_empty() { number } else { format!("{number}\u{a0}{unit}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Decimal;
    use proptest::prelude::*;

    fn texts(axis: &Axis, count: usize) -> Vec<String> {
        axis.ticks(count, &Style::default()).into_iter().map(|tick| tick.text).collect()
    }

    #[test]
    fn ticks_are_round_and_carry_the_figures_they_need() {
        let over = |low, high| Axis::over("", "", low, high);
        assert_eq!(texts(&over(20.0, 55.0), 4), ["20", "30", "40", "50"]);
        assert_eq!(texts(&over(0.0, 1.0), 5), ["0", "0.2", "0.4", "0.6", "0.8", "1.0"]);
        assert_eq!(texts(&over(99.0, 101.0), 4), ["99.0", "99.5", "100.0", "100.5", "101.0"]);
        assert_eq!(texts(&over(-10.0, 10.0), 4), ["−10", "−5", "0", "5", "10"]);
        let comma = Style { decimal: Decimal::Comma, ..Style::default() };
        assert_eq!(over(0.0, 0.1).ticks(2, &comma)[1].text, "0,05");
    }

    #[test]
    fn a_wide_range_is_shown_by_powers_of_ten() {
        let axis = Axis::over("", "", 0.1, 1000.0);
        assert!(axis.log);
        assert_eq!(texts(&axis, 5), ["0.1", "1", "10", "100", "1000"]);
        assert_eq!(axis.fraction(10.0), Some(0.5));
    }

    #[test]
    fn a_range_around_values_begins_at_zero_where_that_is_near() {
        let around = |values: &[f64]| {
            let axis = Axis::around("", "", values.iter().copied());
            (axis.low, axis.high)
        };
        assert_eq!(around(&[12.0, 95.0]), (0.0, 100.0));
        assert_eq!(around(&[96.0, 104.0]), (96.0, 104.0));
        assert_eq!(around(&[-3.0, 7.0]), (-4.0, 8.0));
        assert_eq!(around(&[]), (0.0, 1.0));
        assert_eq!(around(&[0.5, 4000.0]), (0.1, 10_000.0));
    }

    proptest! {
        #[test]
        fn any_range_gives_a_few_ticks_inside_it(low in -1e12..1e12f64, span in 0.0..1e12f64, count in 2usize..9) {
            let axis = Axis::over("", "", low, low + span);
            let ticks = axis.ticks(count, &Style::default());
            prop_assert!((1..=count + 4).contains(&ticks.len()), "{axis:?} {ticks:?}");
            for tick in &ticks {
                prop_assert!(axis.fraction(tick.at).is_some());
            }
            for pair in ticks.windows(2) {
                prop_assert!(pair[0].at < pair[1].at && pair[0].text != pair[1].text);
            }
            for value in axis.spread(7) {
                let back = axis.fraction(value).map(|fraction| axis.value(fraction));
                prop_assert!(back.is_some_and(|back| (back - value).abs() <= 1e-6 * (axis.high - axis.low)));
            }
        }

        #[test]
        fn no_value_breaks_an_axis(values in prop::collection::vec(any::<f64>(), 0..5)) {
            let axis = Axis::around("", "", values.into_iter());
            prop_assert!(axis.low < axis.high || !(axis.high - axis.low).is_finite());
            axis.ticks(5, &Style::default());
        }
    }
}
