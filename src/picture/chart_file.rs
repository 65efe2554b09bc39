//! A chart as a file of its own: SVG that any browser or drawing program opens and prints, in the colours of paper.

use super::axis::Axis;
use super::chart::{Chart, Frame};
use super::svg::escaped;

/// Its size, in its pixels.
const SIZE: [f64; 2] = [720.0, 420.0];
/// Above the curve's frame, for what the chart is of.
const ABOVE: f64 = 34.0;

const STYLE: &str = "text{font-family:sans-serif;font-size:14px;fill:#333}.title,.now,.name{fill:#000}.title{font-weight:650}\
.end{text-anchor:end}.mid{text-anchor:middle}path{fill:none}.grid{stroke:#ccc}.axis{stroke:#555}\
.curve{stroke:#0a6b8a;stroke-width:2.5;stroke-linejoin:round}.dot{fill:#0a6b8a}.now-dot{fill:#000;stroke:#fff;stroke-width:1.5}";

fn text(class: &str, x: f64, y: f64, words: &str) -> String {
    format!("<text class=\"{class}\" x=\"{x:.1}\" y=\"{y:.1}\">{}</text>\n", escaped(words))
}

fn line(class: &str, [x1, y1]: [f64; 2], [x2, y2]: [f64; 2]) -> String {
    format!("<path class=\"{class}\" d=\"M{x1:.1} {y1:.1}L{x2:.1} {y2:.1}\"/>\n")
}

fn name(axis: &Axis) -> String {
    if axis.unit.is_empty() { axis.label.clone() } else { format!("{}, {}", axis.label, axis.unit) }
}

impl Chart {
    /// The chart as the text of an SVG file; none if there is nothing to draw. `heading` says of which plan it is.
    pub fn file(&self, heading: &str) -> Option<String> {
        let [width, height] = SIZE;
        let frame = Frame::of(self, width, height).filter(|_| !self.is_empty())?;
        let (left, top) = (frame.left, frame.top + ABOVE);
        let (right, bottom) = (left + frame.width, top + frame.height);
        // What is beyond an axis is drawn at its end.
        let share = |axis: &Axis, value: f64| {
            axis.fraction(value).unwrap_or(if value > axis.high { 1.0 } else { 0.0 })
        };
        let at = |x: f64, y: f64| {
            [left + frame.width * share(&self.x, x), bottom - frame.height * share(&self.y, y)]
        };
        let whole = height + ABOVE;
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{whole}\" viewBox=\"0 0 {width} {whole}\">\n\
             <title>{}</title>\n<desc>{}</desc>\n<style>{STYLE}</style>\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
            escaped(heading),
            escaped(&self.in_words()),
        );
        svg += &text("title", 4.0, 20.0, heading);
        svg += &text("name", 4.0, ABOVE + 16.0, &name(&self.y));
        svg += &text("name end", right, whole - 6.0, &name(&self.x));
        for tick in self.y.ticks(frame.y_ticks, &self.style) {
            let [_, y] = at(self.x.low, tick.at);
            svg += &line("grid", [left, y], [right, y]);
            svg += &text("end", left - 7.0, y + 5.0, &tick.text);
        }
        for tick in self.x.ticks(frame.x_ticks, &self.style) {
            let [x, _] = at(tick.at, self.y.low);
            svg += &line("grid", [x, top], [x, bottom]);
            svg += &text("mid", x, bottom + 18.0, &tick.text);
        }
        svg += &line("axis", [left, top], [left, bottom]);
        svg += &line("axis", [left, bottom], [right, bottom]);
        for piece in self.pieces() {
            let points = piece.iter().map(|(x, y)| at(*x, *y));
            if let [alone] = piece[..] {
                let [x, y] = at(alone.0, alone.1);
                svg += &format!("<circle class=\"dot\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"2.5\"/>\n");
            } else {
                let path: Vec<String> = points.map(|[x, y]| format!("{x:.1} {y:.1}")).collect();
                svg += &format!("<path class=\"curve\" d=\"M{}\"/>\n", path.join("L"));
            }
        }
        for (from, to) in self.gaps() {
            let share = |x: Option<f64>, end: f64| x.and_then(|x| self.x.fraction(x)).unwrap_or(end);
            let (from, to) = (share(from, 0.0), share(to, 1.0));
            if (to - from) * frame.width > frame.letter * 6.0 {
                let x = left + frame.width * (from + to) / 2.0;
                svg += &text("mid", x, (top + bottom) / 2.0, "no answer");
            }
        }
        let marker =
            self.marker.filter(|(x, y)| self.x.fraction(*x).is_some() && self.y.fraction(*y).is_some());
        if let Some((x, y)) = marker {
            let ([cx, cy], is_left) = (at(x, y), at(x, y)[0] > left + frame.width / 2.0);
            svg += &format!("<circle class=\"now-dot\" cx=\"{cx:.1}\" cy=\"{cy:.1}\" r=\"5\"/>\n");
            let (class, aside) = if is_left { ("now end", -10.0) } else { ("now", 10.0) };
            let lift = if cy - top > 24.0 { -9.0 } else { 22.0 };
            svg += &text(class, cx + aside, cy + lift, &self.y_text(y));
        }
        Some(svg + "</svg>\n")
    }
}

#[cfg(test)]
mod tests {
    use crate::picture::{Chart, Curve};
    use crate::units::Style;

    fn chart(points: &[(f64, Option<f64>)]) -> Chart {
        let curve = Curve {
            x_label: "Bath <temperature>".into(),
            x_unit: "°C".into(),
            y_label: "Heat-up time".into(),
            y_unit: "min".into(),
            points: points.into(),
            now: Some((30.0, 20.0)),
        };
        Chart::new(curve, Style::default())
    }

    #[test]
    fn the_file_has_the_curve_its_axes_and_the_value_now() {
        let points = [(20.0, Some(10.0)), (30.0, Some(20.0)), (40.0, Some(40.0)), (50.0, None)];
        let svg = chart(&points).file("Line & more").expect("a picture");
        assert_eq!(svg.matches("class=\"curve\"").count(), 1);
        let curve = svg.split("class=\"curve\" d=\"M").nth(1).unwrap().split('"').next().unwrap();
        assert_eq!(curve.split('L').count(), 3);
        assert!(svg.contains(">Line &amp; more<") && svg.contains(">Bath &lt;temperature&gt;, °C<"));
        assert!(svg.contains(">Heat-up time, min<") && svg.contains(">20.0\u{a0}min<"), "{svg}");
        for number in svg.split(" x=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
            let number: f64 = number.parse().expect("a number");
            assert!((0.0..=720.0).contains(&number), "{number} lies outside");
        }
        // Every tag is closed: as many open as close, or close themselves.
        let [opened, closed, alone] = ["<", "</", "/>"].map(|sign| svg.matches(sign).count());
        assert_eq!(opened - closed, closed + alone);
    }

    #[test]
    fn without_a_curve_there_is_no_file() {
        assert_eq!(chart(&[(20.0, None)]).file(""), None);
    }
}
