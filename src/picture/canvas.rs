//! Paints a chart on a canvas, sharp on every screen.

use std::ops::Range;

use plotters::coord::Shift;
use plotters::coord::ranged1d::{KeyPointHint, NoDefaultFormatting, Ranged, ValueFormatter};
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use super::axis::{Axis, Tick};
use super::chart::{Chart, Frame};
use super::fine::{FINE, FineCanvas};

/// The colours of a chart; the page's own, whatever its theme.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Palette {
    /// Text and axes.
    pub ink: RGBColor,
    /// Lesser text.
    pub ink_2: RGBColor,
    /// The grid.
    pub line: RGBColor,
    /// The curve.
    pub accent: RGBColor,
    /// What is touched.
    pub link: RGBColor,
    /// The ground.
    pub sheet: RGBColor,
}

impl Palette {
    /// Colours given in any form that CSS knows; what the browser can't read becomes grey.
    pub fn of(canvas: &HtmlCanvasElement, css: impl Fn(&str) -> String) -> Palette {
        let colour = |name: &str| colour(canvas, &css(name)).unwrap_or(RGBColor(128, 128, 128));
        Palette {
            ink: colour("--ink"),
            ink_2: colour("--ink-2"),
            line: colour("--line"),
            accent: colour("--accent"),
            link: colour("--link"),
            sheet: colour("--sheet"),
        }
    }
}

/// Lets the browser itself turn every form of a colour into numbers.
fn colour(canvas: &HtmlCanvasElement, css: &str) -> Option<RGBColor> {
    let context = context(canvas)?;
    context.set_fill_style_str("#808080");
    context.set_fill_style_str(css);
    // A plain colour comes back as #rrggbb; one of a wider space as it was given.
    let text = context.fill_style().as_string()?;
    let part = |at: usize| u8::from_str_radix(text.strip_prefix('#')?.get(at..at + 2)?, 16).ok();
    let plain = || Some(RGBColor(part(0)?, part(2)?, part(4)?));
    plain().or_else(|| painted(&text))
}

/// Paints one pixel apart and looks at it.
fn painted(css: &str) -> Option<RGBColor> {
    let apart = web_sys::window()?.document()?.create_element("canvas").ok()?;
    let apart: HtmlCanvasElement = apart.dyn_into().ok()?;
    apart.set_width(1);
    apart.set_height(1);
    let context = context(&apart)?;
    context.set_fill_style_str(css);
    context.fill_rect(0.0, 0.0, 1.0, 1.0);
    let pixel = context.get_image_data(0.0, 0.0, 1.0, 1.0).ok()?.data();
    Some(RGBColor(*pixel.first()?, *pixel.get(1)?, *pixel.get(2)?))
}

fn context(canvas: &HtmlCanvasElement) -> Option<CanvasRenderingContext2d> {
    canvas.get_context("2d").ok()??.dyn_into().ok()
}

/// Paints `chart`, with a cross at the `touched` point.
pub fn paint(
    canvas: &HtmlCanvasElement,
    chart: &Chart,
    palette: &Palette,
    touched: Option<usize>,
) -> Result<(), String> {
    let density = web_sys::window().map_or(1.0, |window| window.device_pixel_ratio()).clamp(0.5, 8.0);
    let (width, height) = (f64::from(canvas.client_width()), f64::from(canvas.client_height()));
    let Some(frame) = Frame::of(chart, width, height) else { return Ok(()) };
    // Setting the size clears the canvas, so it is done only once per painting.
    canvas.set_width((width * density).round() as u32);
    canvas.set_height((height * density).round() as u32);
    let backend = CanvasBackend::with_canvas_object(canvas.clone()).ok_or("no canvas to draw on")?;
    let context = context(canvas).ok_or("no canvas to draw on")?;
    context.scale(1.0 / FINE, 1.0 / FINE).map_err(|_| "the canvas can't be scaled")?;
    let area = FineCanvas(backend).into_drawing_area();
    Painter { area, chart, palette, frame, density: density * FINE }
        .paint(touched)
        .map_err(|error| error.to_string())
}

type Area = DrawingArea<FineCanvas, Shift>;
type Failure = Box<dyn std::error::Error>;

struct Painter<'a> {
    area: Area,
    chart: &'a Chart,
    palette: &'a Palette,
    frame: Frame,
    /// Steps of the canvas in a pixel of the page.
    density: f64,
}

impl Painter<'_> {
    fn px(&self, size: f64) -> i32 {
        (size * self.density).round() as i32
    }

    fn stroke(&self, colour: &RGBColor, width: f64) -> ShapeStyle {
        colour.stroke_width(self.px(width).max(1) as u32)
    }

    fn letters(&self, colour: &RGBColor, h: HPos, v: VPos) -> TextStyle<'static> {
        let font = (FontFamily::SansSerif, self.frame.letter * self.density).into_font();
        font.color(colour).pos(Pos::new(h, v))
    }

    fn paint(&self, touched: Option<usize>) -> Result<(), Failure> {
        let (chart, frame, palette) = (self.chart, &self.frame, self.palette);
        self.area.fill(&palette.sheet)?;
        let scale = |axis: &Axis, count| Scale { axis: axis.clone(), ticks: axis.ticks(count, &chart.style) };
        let mut plane = ChartBuilder::on(&self.area)
            .set_label_area_size(LabelAreaPosition::Left, self.px(frame.left))
            .set_label_area_size(LabelAreaPosition::Bottom, self.px(frame.bottom))
            .margin_top(self.px(frame.top))
            .margin_right(self.px(frame.right))
            .build_cartesian_2d(scale(&chart.x, frame.x_ticks), scale(&chart.y, frame.y_ticks))?;
        plane
            .configure_mesh()
            .x_labels(frame.x_ticks)
            .y_labels(frame.y_ticks)
            .max_light_lines(0)
            .bold_line_style(self.stroke(&palette.line, 1.0))
            .light_line_style(TRANSPARENT)
            .axis_style(self.stroke(&palette.ink_2, 1.0))
            .label_style((FontFamily::SansSerif, frame.letter * self.density, &palette.ink_2))
            .set_all_tick_mark_size(self.px(4.0))
            .draw()?;
        for piece in chart.pieces() {
            if let [alone] = piece[..] {
                plane.draw_series([Circle::new(alone, self.px(2.0), palette.accent.filled())])?;
            }
            plane.draw_series(LineSeries::new(piece, self.stroke(&palette.accent, 2.5)))?;
        }
        self.names()?;
        self.gaps()?;
        if let Some((x, y)) = chart.marker {
            self.spot(x, y, &palette.ink, touched.is_none())?;
        }
        match touched.and_then(|at| chart.points.get(at)) {
            Some((x, Some(y))) => {
                self.cross(*x, Some(*y))?;
                self.spot(*x, *y, &palette.link, true)?;
            }
            Some((x, None)) => self.cross(*x, None)?,
            None => {}
        }
        self.area.present()?;
        Ok(())
    }

    /// The axes' names: the vertical one's above its numbers, so that nobody has to turn the head.
    fn names(&self) -> Result<(), Failure> {
        let name = |axis: &Axis| match axis.unit.as_str() {
            "" => axis.label.clone(),
            unit => format!("{}, {unit}", axis.label),
        };
        let (frame, ink) = (&self.frame, &self.palette.ink);
        let above = self.letters(ink, HPos::Left, VPos::Top);
        self.area.draw_text(&name(&self.chart.y), &above, (self.px(4.0), self.px(2.0)))?;
        let below = self.letters(ink, HPos::Right, VPos::Bottom);
        let at = (frame.left + frame.width, frame.top + frame.height + frame.bottom - 3.0);
        self.area.draw_text(&name(&self.chart.x), &below, (self.px(at.0), self.px(at.1)))?;
        Ok(())
    }

    /// "No answer" over each stretch without one, where it fits.
    fn gaps(&self) -> Result<(), Failure> {
        let style = self.letters(&self.palette.ink_2, HPos::Center, VPos::Center);
        for (from, to) in self.chart.gaps() {
            let at = |x: Option<f64>, end: f64| x.and_then(|x| self.chart.x.fraction(x)).unwrap_or(end);
            let (from, to) = (at(from, 0.0), at(to, 1.0));
            if (to - from) * self.frame.width > self.frame.letter * 6.0 {
                let (x, y) = self.place((from + to) / 2.0, 0.5);
                self.area.draw_text("no answer", &style, (x, y))?;
            }
        }
        Ok(())
    }

    /// A dot and, on demand, its value beside it: where there is room.
    fn spot(&self, x: f64, y: f64, colour: &RGBColor, text: bool) -> Result<(), Failure> {
        let (Some(along), Some(up)) = (self.chart.x.fraction(x), self.chart.y.fraction(y)) else {
            return Ok(());
        };
        let at = self.place(along, up);
        self.area.draw(&Circle::new(at, self.px(6.0), self.palette.sheet.filled()))?;
        self.area.draw(&Circle::new(at, self.px(4.5), colour.filled()))?;
        if !text {
            return Ok(());
        }
        // Beside the curve and not on it, and within the picture.
        let left = if self.chart.rises_at(x) { along > 0.25 } else { along > 0.75 };
        let (h, aside) = if left { (HPos::Right, -10.0) } else { (HPos::Left, 10.0) };
        let (v, lift) = if up < 0.85 { (VPos::Bottom, -8.0) } else { (VPos::Top, 10.0) };
        let place = (at.0 + self.px(aside), at.1 + self.px(lift));
        self.area.draw_text(&self.chart.y_text(y), &self.letters(colour, h, v), place)?;
        Ok(())
    }

    /// Lines from a point to both axes.
    fn cross(&self, x: f64, y: Option<f64>) -> Result<(), Failure> {
        let style = self.stroke(&self.palette.link, 1.0);
        let Some(along) = self.chart.x.fraction(x) else { return Ok(()) };
        self.area.draw(&PathElement::new([self.place(along, 0.0), self.place(along, 1.0)], style))?;
        if let Some(up) = y.and_then(|y| self.chart.y.fraction(y)) {
            self.area.draw(&PathElement::new([self.place(0.0, up), self.place(along, up)], style))?;
        }
        Ok(())
    }

    /// Where in the canvas a place of the curve's area is.
    fn place(&self, along: f64, up: f64) -> (i32, i32) {
        let frame = &self.frame;
        (self.px(frame.left + frame.width * along), self.px(frame.top + frame.height * (1.0 - up)))
    }
}

/// Our axis, as plotters wants it: so that the marks and their texts are ours.
struct Scale {
    axis: Axis,
    ticks: Vec<Tick>,
}

impl Ranged for Scale {
    type FormatOption = NoDefaultFormatting;
    type ValueType = f64;

    fn map(&self, value: &f64, (from, to): (i32, i32)) -> i32 {
        // What is beyond the axis is drawn at its end.
        let end = if *value > self.axis.high { 1.0 } else { 0.0 };
        let fraction = self.axis.fraction(*value).unwrap_or(end);
        from + (f64::from(to - from) * fraction).round() as i32
    }

    fn key_points<Hint: KeyPointHint>(&self, _: Hint) -> Vec<f64> {
        self.ticks.iter().map(|tick| tick.at).collect()
    }

    fn range(&self) -> Range<f64> {
        self.axis.low..self.axis.high
    }
}

impl ValueFormatter<f64> for Scale {
    fn format_ext(&self, value: &f64) -> String {
        self.ticks.iter().find(|tick| tick.at == *value).map(|tick| tick.text.clone()).unwrap_or_default()
    }
}
