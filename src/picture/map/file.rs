//! The map as a file of its own: SVG that any browser or drawing program opens and prints, in the colours of paper.

use super::layout::{Drawing, LEADING, PAD, SMALL, TITLE};
use super::{Map, Quantity, Sign, Way};
use crate::picture::svg::escaped;
use crate::results::Results;

/// The width that the file is laid out in, in its pixels: a page of A4 on its side at 96 to the inch.
const WIDTH: f64 = 1060.0;
/// Above the map, for what it is of; and below it, for what its lines say.
const ABOVE: f64 = 34.0;
const BELOW: f64 = 44.0;

const STYLE: &str = "text{font-family:sans-serif;fill:#000}.small,.head{fill:#333}.bold{font-weight:650}\
rect{fill:#fff;stroke:#555;stroke-width:1.2}path{fill:none;stroke:#5b8f97}.metal{stroke:#a06a45}\
.nowhere{stroke-dasharray:7 5}.tank{stroke:#333;stroke-dasharray:2 4}.stop rect{stroke:#8a1816;stroke-width:3}\
.caution rect{stroke:#6b4600;stroke-width:2.4}.stop .sign{fill:#8a1816}.caution .sign{fill:#6b4600}\
.empty rect{fill:none;stroke-dasharray:6 5}";

fn text(class: &str, size: f64, x: f64, y: f64, text: &str) -> String {
    format!(
        "<text class=\"{class}\" font-size=\"{size}\" x=\"{x:.1}\" y=\"{y:.1}\">{}</text>\n",
        escaped(text)
    )
}

impl Map {
    /// The map as the text of an SVG file. `heading` says what it is of, `legend` what the lines say.
    pub fn file(&self, results: &Results, quantity: &Quantity, heading: &str, legend: &str) -> String {
        let drawing = self.lay_out(WIDTH, quantity);
        let (width, height) = (drawing.width, drawing.height + ABOVE + BELOW);
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height:.0}\" viewBox=\"0 0 {width} {height:.0}\">\n\
             <title>{}</title>\n<desc>{}</desc>\n<style>{STYLE}</style>\n<rect width=\"100%\" height=\"100%\" style=\"stroke:none\"/>\n",
            escaped(heading),
            escaped(&self.summary()),
        );
        svg += &text("bold", TITLE + 1.0, 1.0, 20.0, heading);
        svg += &format!("<g transform=\"translate(0 {ABOVE})\">\n");
        for head in &drawing.heads {
            svg += &text("head", SMALL, head.x, head.y, head.text);
        }
        svg += &self.runs_of_file(results, &drawing, quantity);
        svg += &self.boxes_of_file(&drawing);
        svg += "</g>\n";
        let lines = super::text::wrap(legend, SMALL, width, 2);
        for (at, line) in lines.iter().enumerate() {
            svg += &text("small", SMALL, 1.0, height - 22.0 + LEADING * at as f64, line);
        }
        svg + "</svg>\n"
    }

    fn runs_of_file(&self, results: &Results, drawing: &Drawing, quantity: &Quantity) -> String {
        let one = |run: &super::layout::Run| {
            let edge = self.edges.get(run.edge)?;
            let way = match edge.way {
                Way::From | Way::To => "",
                Way::Nowhere => "nowhere",
                Way::Tank => "tank",
            };
            let metal = if matches!(quantity, Quantity::Metal(_)) { "metal " } else { "" };
            let title = escaped(&self.edge_text(results, edge, quantity));
            let (path, width) = (&run.path, run.width);
            Some(format!(
                "<path class=\"{metal}{way}\" d=\"{path}\" stroke-width=\"{width:.2}\"><title>{title}</title></path>\n"
            ))
        };
        drawing.runs.iter().filter_map(one).collect()
    }

    fn boxes_of_file(&self, drawing: &Drawing) -> String {
        let mut svg = String::new();
        for shape in &drawing.shapes {
            let Some(node) = self.nodes.get(shape.node) else { continue };
            let class = match &node.sign {
                _ if node.place.is_none() => "empty",
                Some((Sign::Stop, _)) => "stop",
                Some((Sign::Caution, _)) => "caution",
                _ => "",
            };
            svg += &format!(
                "<g class=\"{class}\"><rect x=\"{:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"{:.1}\" rx=\"9\"/>\n",
                shape.x, shape.y, shape.w, shape.h
            );
            let mut y = shape.y + PAD + TITLE - 2.0;
            let mut line = |class: &str, size: f64, words: &str| {
                let one = text(class, size, shape.x + PAD, y, words);
                y += LEADING;
                one
            };
            for words in &shape.title {
                svg += &line("bold", TITLE, words);
            }
            for words in &shape.lines {
                svg += &line("small", SMALL, words);
            }
            if let Some((_, words)) = &node.sign {
                svg += &line("bold sign", SMALL, words);
            }
            svg += "</g>\n";
        }
        svg
    }
}
