//! One answer against one number: the curve, the value now, and the same in words.

use super::axis::Axis;
use crate::sentence::within;
use crate::units::Style;

/// What is to be drawn, as the sums give it, in the units shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Curve {
    /// What is varied: "Bath temperature".
    pub x_label: String,
    /// Its unit's symbol.
    pub x_unit: String,
    /// What follows: "Heat-up time".
    pub y_label: String,
    /// Its unit's symbol.
    pub y_unit: String,
    /// Each value tried, and its answer; none where there is no answer.
    pub points: Vec<(f64, Option<f64>)>,
    /// The value that stands in the plan, and its answer.
    pub now: Option<(f64, f64)>,
}

/// A chart, ready to draw and to read.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// "Heat-up time against bath temperature".
    pub title: String,
    /// What is varied.
    pub x: Axis,
    /// What follows.
    pub y: Axis,
    /// In rising order of x, all finite; none where there is no answer.
    pub points: Vec<(f64, Option<f64>)>,
    /// The value that stands in the plan, and its answer.
    pub marker: Option<(f64, f64)>,
    /// How numbers are shown.
    pub style: Style,
}

impl Chart {
    /// A chart of this curve. What is not finite, or of no size that a quantity has, counts as no answer.
    pub fn new(curve: Curve, style: Style) -> Chart {
        let shown = curve.points.into_iter().filter_map(|(x, y)| Some((sane(x)?, y.and_then(sane))));
        let mut points: Vec<(f64, Option<f64>)> = shown.collect();
        crate::order::sort(&mut points, |a, b| a.0.total_cmp(&b.0));
        let marker = curve.now.and_then(|(x, y)| Some((sane(x)?, sane(y)?)));
        let low = points.first().map_or(0.0, |point| point.0);
        let high = points.last().map_or(1.0, |point| point.0);
        let x = Axis::over(&curve.x_label, &curve.x_unit, low, high);
        let marker_shown = marker.filter(|(at, _)| x.fraction(*at).is_some());
        let values = points.iter().filter_map(|(_, y)| *y).chain(marker_shown.map(|(_, y)| y));
        let y = Axis::around(&curve.y_label, &curve.y_unit, values);
        let title = match curve.x_label.as_str() {
            "" => curve.y_label,
            x => format!("{} against {}", curve.y_label, within(x)),
        };
        Chart { title, x, y, points, marker, style }
    }

    /// Whether there is nothing to draw.
    pub fn is_empty(&self) -> bool {
        self.points.iter().all(|(_, y)| y.is_none())
    }

    /// The unbroken pieces of the curve.
    pub fn pieces(&self) -> Vec<Vec<(f64, f64)>> {
        let runs = self.points.split(|(_, y)| y.is_none());
        let pieces = runs.map(|run| run.iter().filter_map(|(x, y)| Some((*x, (*y)?))).collect::<Vec<_>>());
        pieces.filter(|piece| !piece.is_empty()).collect()
    }

    /// Where there is no answer: the last x with one before, and the first after; none at an end.
    pub fn gaps(&self) -> Vec<(Option<f64>, Option<f64>)> {
        let mut gaps: Vec<(Option<f64>, Option<f64>)> = vec![];
        let (mut before, mut inside) = (None, false);
        for (x, y) in &self.points {
            match (y, inside) {
                (None, false) => gaps.push((before, None)),
                (Some(_), true) => {
                    if let Some(gap) = gaps.last_mut() {
                        gap.1 = Some(*x);
                    }
                }
                _ => {}
            }
            inside = y.is_none();
            before = y.map(|_| *x).or(before);
        }
        gaps
    }

    /// The point nearest to this fraction of the width; none without points.
    pub fn nearest(&self, fraction: f64) -> Option<usize> {
        let away = |x: f64| self.x.fraction(x).map_or(f64::INFINITY, |at| (at - fraction).abs());
        let points = self.points.iter().enumerate();
        points.min_by(|a, b| away(a.1.0).total_cmp(&away(b.1.0))).map(|(at, _)| at)
    }

    /// The point nearest to the value that stands in the plan; else the middle one.
    pub fn start(&self) -> Option<usize> {
        self.nearest(self.marker.and_then(|(x, _)| self.x.fraction(x)).unwrap_or(0.5))
    }

    /// Whether the curve goes up around this x, so that there is room above and to the left.
    pub fn rises_at(&self, x: f64) -> bool {
        let answered = || self.points.iter().filter_map(|(x, y)| Some((*x, (*y)?)));
        let before = answered().rfind(|(at, _)| *at <= x).or_else(|| answered().next());
        let after = answered().find(|(at, _)| *at > x).or_else(|| answered().next_back());
        matches!((before, after), (Some(before), Some(after)) if after.1 > before.1)
    }

    /// One point in words: "45 °C: 63 min".
    pub fn reading(&self, at: usize) -> Option<String> {
        let (x, y) = self.points.get(at)?;
        let value = y.map_or("no answer".into(), |y| self.y_text(y));
        Some(format!("{}: {value}", self.x_text(*x)))
    }

    /// A value of the horizontal axis with its unit.
    pub fn x_text(&self, value: f64) -> String {
        self.x.text(value, &self.style)
    }

    /// A value of the vertical axis with its unit.
    pub fn y_text(&self, value: f64) -> String {
        self.y.text(value, &self.style)
    }

    /// The chart in words, for who can't see it.
    pub fn in_words(&self) -> String {
        let answered: Vec<(f64, f64)> = self.points.iter().filter_map(|(x, y)| Some((*x, (*y)?))).collect();
        let (Some(first), Some(last)) = (answered.first(), answered.last()) else {
            return format!("{}: no answer in this range.", self.title);
        };
        let place = |(x, y): &(f64, f64)| format!("{} at {}", self.y_text(*y), self.x_text(*x));
        let label = &self.y.label;
        let mut parts = vec![match shape(&answered) {
            Shape::Level => {
                format!(
                    "{label} stays at {} from {} to {}",
                    self.y_text(first.1),
                    self.x_text(first.0),
                    self.x_text(last.0)
                )
            }
            Shape::Rises => format!("{label} rises from {} to {}", place(first), place(last)),
            Shape::Falls => format!("{label} falls from {} to {}", place(first), place(last)),
            Shape::Turns(lowest, highest) => format!(
                "{label} goes from {} to {}, lowest {}, highest {}",
                place(first),
                place(last),
                place(&lowest),
                place(&highest)
            ),
        }];
        if let Some((x, y)) = self.marker {
            parts.push(format!("at the present {} it is {}", self.x_text(x), self.y_text(y)));
        }
        parts.extend(self.gaps().into_iter().filter_map(|gap| match gap {
            (Some(last), None) => Some(format!("no answer above {}", self.x_text(last))),
            (None, Some(first)) => Some(format!("no answer below {}", self.x_text(first))),
            (Some(from), Some(to)) => {
                Some(format!("no answer between {} and {}", self.x_text(from), self.x_text(to)))
            }
            (None, None) => None,
        }));
        parts.join("; ") + "."
    }
}

/// Finite, and of a size with which the spans and ratios of an axis stay finite too.
fn sane(value: f64) -> Option<f64> {
    let value = if value.abs() < 1e-100 { 0.0 } else { value };
    (value.abs() < 1e100).then_some(value)
}

enum Shape {
    Level,
    Rises,
    Falls,
    Turns((f64, f64), (f64, f64)),
}

fn shape(points: &[(f64, f64)]) -> Shape {
    let by_y = |a: &&(f64, f64), b: &&(f64, f64)| a.1.total_cmp(&b.1);
    let (Some(lowest), Some(highest)) = (points.iter().min_by(by_y), points.iter().max_by(by_y)) else {
        return Shape::Level;
    };
    // Rounding errors are no turns.
    let small = 1e-9 * highest.1.abs().max(lowest.1.abs());
    if highest.1 - lowest.1 <= small {
        return Shape::Level;
    }
    let all = |sign: f64| points.windows(2).all(|pair| sign * (pair[1].1 - pair[0].1) >= -small);
    match (all(1.0), all(-1.0)) {
        (true, _) => Shape::Rises,
        (_, true) => Shape::Falls,
        _ => Shape::Turns(*lowest, *highest),
    }
}

/// Where the curve's area lies within the picture, in the page's pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Left of the area: the numbers of the vertical axis.
    pub left: f64,
    /// Above it: the vertical axis's name.
    pub top: f64,
    /// Right of it: half of the last number below.
    pub right: f64,
    /// Below it: the numbers and the name of the horizontal axis.
    pub bottom: f64,
    /// Width of the area.
    pub width: f64,
    /// Height of the area.
    pub height: f64,
    /// How many marks the horizontal axis has room for.
    pub x_ticks: usize,
    /// How many marks the vertical axis has room for.
    pub y_ticks: usize,
    /// Size of letters.
    pub letter: f64,
}

impl Frame {
    /// The frame for a picture of this size; none if it is too small to show anything.
    pub fn of(chart: &Chart, width: f64, height: f64) -> Option<Frame> {
        let letter = if width < 480.0 { 13.0 } else { 14.0 };
        let y_ticks = ((height / 45.0) as usize).clamp(2, 7);
        // A figure of a sans-serif face is about 0.6 of its height wide.
        let wide = |axis: &Axis, ticks| {
            let ticks = axis.ticks(ticks, &chart.style);
            let longest = ticks.iter().map(|tick| tick.text.chars().count()).max().unwrap_or(1);
            longest as f64 * letter * 0.6
        };
        let left = wide(&chart.y, y_ticks) + 16.0;
        let x_wide = wide(&chart.x, 5);
        let right = (x_wide / 2.0 + 4.0).max(12.0);
        let (top, bottom) = (letter * 1.8, letter * 3.4);
        let (inner, high) = (width - left - right, height - top - bottom);
        if !(inner >= 40.0 && high >= 40.0) {
            return None;
        }
        let x_ticks = ((inner / (x_wide + 24.0)) as usize).clamp(2, 8);
        Some(Frame { left, top, right, bottom, width: inner, height: high, x_ticks, y_ticks, letter })
    }

    /// Which fraction of the curve's width a touch at this distance from the picture's left edge means.
    pub fn fraction(&self, from_left: f64) -> f64 {
        ((from_left - self.left) / self.width).clamp(0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn heat_up() -> Chart {
        let time = |t: f64| (t <= 57.0).then_some(12.0 + (t - 20.0) * 2.0);
        let points = (0..=20).map(|n| 20.0 + 2.0 * f64::from(n)).map(|t| (t, time(t)));
        let curve = Curve {
            x_label: "Bath temperature".into(),
            x_unit: "°C".into(),
            y_label: "Heat-up time".into(),
            y_unit: "min".into(),
            points: points.collect(),
            now: Some((45.0, 62.0)),
        };
        Chart::new(curve, Style::default())
    }
    fn plain(text: String) -> String {
        text.replace('\u{a0}', " ")
    }
    fn of(points: &[(f64, Option<f64>)]) -> Chart {
        let curve =
            Curve { x_label: "X".into(), y_label: "Y".into(), points: points.into(), ..Curve::default() };
        Chart::new(curve, Style::default())
    }

    #[test]
    fn the_chart_in_words_says_how_it_goes_where_it_stands_and_where_it_ends() {
        let chart = heat_up();
        assert_eq!(chart.title, "Heat-up time against bath temperature");
        assert_eq!(
            plain(chart.in_words()),
            "Heat-up time rises from 12.0 min at 20.0 °C to 84.0 min at 56.0 °C; \
             at the present 45.0 °C it is 62.0 min; no answer above 56.0 °C."
        );
        let turns =
            of(&[(0.0, Some(3.0)), (1.0, Some(1.0)), (2.0, None), (3.0, Some(5.0)), (4.0, Some(4.0))]);
        assert_eq!(
            turns.in_words(),
            "Y goes from 3.00 at 0 to 4.00 at 4.00, lowest 1.00 at 1.00, highest 5.00 at 3.00; \
             no answer between 1.00 and 3.00."
        );
        assert_eq!([0.5, 3.0].map(|x| turns.rises_at(x)), [false, false]);
        assert!(turns.rises_at(2.0));
        let level = of(&[(0.0, None), (1.0, Some(2.0)), (2.0, Some(2.0))]);
        assert_eq!(level.in_words(), "Y stays at 2.00 from 1.00 to 2.00; no answer below 1.00.");
        assert_eq!(of(&[(0.0, None)]).in_words(), "Y against X: no answer in this range.");
    }

    #[test]
    fn a_touch_reads_the_nearest_point() {
        let chart = heat_up();
        let frame = Frame::of(&chart, 600.0, 300.0).expect("room enough");
        let touch = |from_left| chart.nearest(frame.fraction(from_left)).and_then(|at| chart.reading(at));
        assert_eq!(touch(0.0).map(plain), Some("20.0 °C: 12.0 min".into()));
        assert_eq!(touch(frame.left + frame.width / 2.0).map(plain), Some("40.0 °C: 52.0 min".into()));
        assert_eq!(touch(600.0).map(plain), Some("60.0 °C: no answer".into()));
        assert_eq!(
            chart.start().and_then(|at| chart.reading(at)).map(plain),
            Some("44.0 °C: 60.0 min".into())
        );
    }

    #[test]
    fn the_curve_breaks_where_there_is_no_answer() {
        let chart = of(&[(0.0, Some(1.0)), (1.0, None), (2.0, Some(f64::NAN)), (3.0, Some(2.0))]);
        assert_eq!(chart.pieces(), [vec![(0.0, 1.0)], vec![(3.0, 2.0)]]);
        assert_eq!(chart.gaps(), [(Some(0.0), Some(3.0))]);
    }

    #[test]
    fn the_last_number_has_room_and_a_tiny_picture_is_none() {
        let chart = heat_up();
        let frame = Frame::of(&chart, 390.0, 240.0).expect("room enough");
        assert!(frame.right >= frame.letter * 0.6 && frame.x_ticks >= 3);
        assert_eq!(Frame::of(&chart, 60.0, 240.0), None);
        assert_eq!(Frame::of(&chart, f64::NAN, 240.0), None);
    }

    proptest! {
        #[test]
        fn any_curve_has_words_and_a_frame(points in prop::collection::vec((any::<f64>(), any::<Option<f64>>()), 0..9), now: Option<(f64, f64)>, at in 0.0..1.0f64) {
            let chart = Chart::new(Curve { points, now, ..Curve::default() }, Style::default());
            let words = chart.in_words();
            prop_assert!(!words.contains("NaN") && !words.contains("inf"));
            Frame::of(&chart, 390.0, 240.0);
            let reading = chart.nearest(at).and_then(|at| chart.reading(at));
            prop_assert_eq!(reading.is_none(), chart.points.is_empty());
        }
    }
}
