//! Where the boxes and lines of a map stand: from left to right on a wide page, from top to bottom on a
//! narrow one. Both are laid out in the pixels of the page, so that text is never scaled.

mod wide;
mod narrow;

use super::text::wrap;
use super::{Edge, Map, Quantity};

/// At this width and below, the map runs from top to bottom.
pub const NARROW: f64 = 600.0;
/// The size of a box's title, in pixels.
pub const TITLE: f64 = 15.0;
/// The size of a box's other lines, in pixels.
pub const SMALL: f64 = 13.0;
/// The width of a line for what is little or not known.
pub const HAIR: f64 = 1.5;
/// From a box's edge to its text.
pub const PAD: f64 = 12.0;
/// The height of a line of text.
pub const LEADING: f64 = 18.0;

const HEAD: f64 = 26.0;
const GAP: f64 = 12.0;

/// A box where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Which of the map's nodes.
    pub node: usize,
    /// Left.
    pub x: f64,
    /// Top.
    pub y: f64,
    /// Width.
    pub w: f64,
    /// Height.
    pub h: f64,
    /// As much of the title as fits, in one or two lines.
    pub title: Vec<String>,
    /// As much of the other lines as fits, each broken once at most.
    pub lines: Vec<String>,
}

/// A line where it runs.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Which of the map's edges.
    pub edge: usize,
    /// The path, as SVG writes it.
    pub path: String,
    /// Its width, to scale but for a hairline.
    pub width: f64,
}

/// A heading over a column or a group.
#[derive(Clone, Debug, PartialEq)]
pub struct Head {
    /// Left.
    pub x: f64,
    /// The line that the text stands on.
    pub y: f64,
    /// What it says.
    pub text: &'static str,
}

/// A map, laid out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// In pixels.
    pub width: f64,
    /// In pixels.
    pub height: f64,
    /// Whether it runs from top to bottom.
    pub is_narrow: bool,
    /// Headings.
    pub heads: Vec<Head>,
    /// Boxes.
    pub shapes: Vec<Shape>,
    /// Lines, to be drawn below the boxes.
    pub runs: Vec<Run>,
}

impl Map {
    /// Lays the map out on a page of this width.
    pub fn lay_out(&self, width: f64, quantity: &Quantity) -> Drawing {
        let width = if width.is_finite() { width.clamp(240.0, 4000.0) } else { 800.0 };
        if width <= NARROW {
            return narrow::lay_out(self, width, quantity);
        }
        wide::lay_out(self, width, quantity).unwrap_or_else(|| narrow::lay_out(self, width, quantity))
    }

    /// The boxes of a column, from the top.
    fn column(&self, column: usize) -> Vec<usize> {
        (0..self.nodes.len()).filter(|at| self.nodes[*at].column == column).collect()
    }

    /// The lines that meet a box.
    fn edges_at(&self, node: usize) -> impl Iterator<Item = (usize, &Edge)> {
        self.edges.iter().enumerate().filter(move |(_, edge)| edge.from == node || edge.to == node)
    }

    /// A box of this width with its texts, at no particular place: high enough for its text and for the
    /// lines that meet it.
    fn shape(&self, node: usize, w: f64, room_for_flow: f64) -> Shape {
        let found = &self.nodes[node];
        let room = w - 2.0 * PAD;
        // Titles are set bold, which takes a little more.
        let title = wrap(&found.title, TITLE * 1.06, room, 2);
        let lines: Vec<String> = found.lines.iter().flat_map(|line| wrap(line, SMALL, room, 2)).collect();
        let rows = title.len() + lines.len() + usize::from(found.sign.is_some());
        let text = 2.0 * PAD - 4.0 + LEADING * rows as f64;
        let flow = room_for_flow + HAIR * self.edges_at(node).count() as f64 + 8.0;
        Shape { node, x: 0.0, y: 0.0, w, h: text.max(flow).max(48.0), title, lines }
    }

    /// Every box at this width.
    fn shapes(&self, w: f64, room_for_flow: f64) -> Vec<Shape> {
        (0..self.nodes.len()).map(|node| self.shape(node, w, room_for_flow)).collect()
    }
}

/// The widths of lines that share a side of a box: stacked around its middle, in the order given.
/// Gives the middle of each.
fn stacked(widths: &[f64], middle: f64) -> Vec<f64> {
    let total: f64 = widths.iter().sum();
    let mut top = middle - total / 2.0;
    let place = |width: &f64| {
        let at = top + width / 2.0;
        top += width;
        at
    };
    widths.iter().map(place).collect()
}
