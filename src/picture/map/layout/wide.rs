//! From left to right: a column for each sort of place.

use super::super::{COLUMNS, Map, Quantity, Way};
use super::{Drawing, GAP, HAIR, HEAD, Head, Run, Shape, stacked};

/// The widest that the lines at one side of a box are together, in pixels.
const MOST: f64 = 34.0;
/// A box is at least and at most this wide.
const BOX: [f64; 2] = [122.0, 230.0];
/// At least this much between two columns.
const BETWEEN: f64 = 52.0;
/// From one lane round the map to the next.
const LANE: f64 = 7.0;
/// More lanes than this lie on each other.
const LANES: usize = 8;

/// Which side of a box a line meets.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Side {
    Left,
    Right,
}

/// Lays the map out, or `None` if the page is too narrow for its columns.
pub fn lay_out(map: &Map, width: f64, quantity: &Quantity) -> Option<Drawing> {
    let all = (0..COLUMNS.len()).map(|column| (column, map.column(column)));
    let columns: Vec<(usize, Vec<usize>)> = all.filter(|(_, nodes)| !nodes.is_empty()).collect();
    let tanks: Vec<usize> = (0..map.edges.len()).filter(|e| map.edges[*e].way == Way::Tank).collect();
    let gutter = if tanks.is_empty() { 0.0 } else { 6.0 + LANE * tanks.len().min(LANES) as f64 };
    let n = columns.len().max(1) as f64;
    let room = width - 2.0 * gutter - 2.0;
    let w = ((room - BETWEEN * (n - 1.0)) / n).min(BOX[1]);
    if w < BOX[0] {
        return None;
    }
    let step = if n > 1.0 { (room - w) / (n - 1.0) } else { 0.0 };
    let mut shapes = map.shapes(w, MOST);
    let heights: Vec<f64> = shapes.iter().map(|shape| shape.h).collect();
    let tops = tops(map, &columns, &heights);

    let mut drawing = Drawing { width, ..Drawing::default() };
    for (at, (column, nodes)) in columns.iter().enumerate() {
        let x = 1.0 + gutter + step * at as f64;
        drawing.heads.push(Head { x, y: HEAD - 10.0, text: COLUMNS[*column].sort().plural });
        for node in nodes {
            (shapes[*node].x, shapes[*node].y) = (x, tops[*node]);
        }
    }
    drawing.shapes = shapes;
    let bottom = drawing.shapes.iter().map(|shape| shape.y + shape.h).fold(HEAD, f64::max);
    drawing.height = bottom + gutter + 2.0;
    drawing.runs = runs(map, &drawing, quantity, step - w, &tanks, bottom);
    Some(drawing)
}

/// The top of every box. The tallest column is stacked; outward from it, each box stands at the middle of
/// what it is joined to, as far as the others leave room.
fn tops(map: &Map, columns: &[(usize, Vec<usize>)], heights: &[f64]) -> Vec<f64> {
    let tall = |at: usize| columns[at].1.iter().map(|node| heights[*node] + GAP).sum::<f64>() - GAP;
    let mut middles: Vec<Option<f64>> = vec![None; map.nodes.len()];
    let Some(tallest) = (0..columns.len()).max_by(|a, b| tall(*a).total_cmp(&tall(*b))) else {
        return Vec::new();
    };
    let floor = HEAD + tall(tallest);
    let outward = std::iter::once(tallest).chain((0..tallest).rev()).chain(tallest + 1..columns.len());
    for at in outward {
        let wanted = |node: usize| {
            let others =
                map.edges_at(node).map(|(_, edge)| if edge.from == node { edge.to } else { edge.from });
            let known: Vec<f64> = others.filter_map(|other| middles[other]).collect();
            (!known.is_empty()).then(|| known.iter().sum::<f64>() / known.len() as f64)
        };
        let mut column: Vec<(usize, Option<f64>)> = columns[at].1.iter().map(|n| (*n, wanted(*n))).collect();
        // Streams keep their order, which follows the baths; all behind them follow the streams.
        if columns[at].0 >= 2 {
            crate::order::sort(&mut column, |a, b| {
                a.1.unwrap_or(f64::MAX).total_cmp(&b.1.unwrap_or(f64::MAX))
            });
        }
        for (node, top) in spread(&column, heights, floor) {
            middles[node] = Some(top + heights[node] / 2.0);
        }
    }
    middles.iter().zip(heights).map(|(middle, height)| middle.unwrap_or(HEAD) - height / 2.0).collect()
}

/// Boxes of a column near their wanted middles, without overlap, between the heading and the floor.
fn spread(column: &[(usize, Option<f64>)], heights: &[f64], floor: f64) -> Vec<(usize, f64)> {
    let mut next = HEAD;
    let mut placed: Vec<(usize, f64)> = Vec::new();
    for (node, wanted) in column {
        let top = wanted.map_or(next, |middle| (middle - heights[*node] / 2.0).max(next));
        placed.push((*node, top));
        next = top + heights[*node] + GAP;
    }
    let mut limit = floor;
    for (node, top) in placed.iter_mut().rev() {
        *top = top.min(limit - heights[*node]).max(HEAD);
        limit = *top - GAP;
    }
    placed
}

fn runs(
    map: &Map,
    drawing: &Drawing,
    quantity: &Quantity,
    gap: f64,
    tanks: &[usize],
    bottom: f64,
) -> Vec<Run> {
    let shape = |node: usize| drawing.shapes.iter().find(|shape| shape.node == node);
    let sides = |edge: usize| {
        let edge = &map.edges[edge];
        let is_same = map.nodes[edge.from].column == map.nodes[edge.to].column;
        [(edge.from, if is_same { Side::Left } else { Side::Right }), (edge.to, Side::Left)]
    };
    let flowing: Vec<usize> = (0..map.edges.len()).filter(|edge| !tanks.contains(edge)).collect();
    let amount = |edge: usize| map.edges[edge].amount(quantity).map_or(0.0, |(si, _)| si);
    let at_side = |node: usize, side: Side| -> Vec<usize> {
        flowing.iter().copied().filter(|edge| sides(*edge).contains(&(node, side))).collect()
    };
    let every = || (0..map.nodes.len()).flat_map(|node| [(node, Side::Left), (node, Side::Right)]);
    let sums = every().map(|(node, side)| at_side(node, side).into_iter().map(amount).sum::<f64>());
    let fullest = sums.fold(0.0, f64::max);
    let width = |edge: usize| if fullest > 0.0 { (amount(edge) / fullest * MOST).max(HAIR) } else { HAIR };

    // Where each line meets each of its boxes.
    let mut ends: Vec<[f64; 2]> = vec![[0.0; 2]; map.edges.len()];
    for (node, side) in every() {
        let Some(here) = shape(node) else { continue };
        let middle = |edge: &usize| {
            let other = sides(*edge).into_iter().find(|(other, _)| *other != node);
            other.and_then(|(other, _)| shape(other)).map_or(0.0, |other: &Shape| other.y + other.h / 2.0)
        };
        let mut edges = at_side(node, side);
        crate::order::sort(&mut edges, |a, b| middle(a).total_cmp(&middle(b)));
        let widths: Vec<f64> = edges.iter().map(|edge| width(*edge)).collect();
        for (edge, y) in edges.iter().zip(stacked(&widths, here.y + here.h / 2.0)) {
            ends[*edge][usize::from(map.edges[*edge].to == node)] = y;
        }
    }
    let run = |edge: usize| {
        let found = &map.edges[edge];
        let (from, to, [y1, y2]) = (shape(found.from)?, shape(found.to)?, ends[edge]);
        let (x2, bend) = (to.x, gap / 2.0);
        let path = if sides(edge)[0].1 == Side::Left {
            let out = x2 - bend * 0.9;
            format!("M{x2:.1} {y1:.1}C{out:.1} {y1:.1} {out:.1} {y2:.1} {x2:.1} {y2:.1}")
        } else {
            let x1 = from.x + from.w;
            let (a, b) = (x1 + bend, x2 - bend);
            format!("M{x1:.1} {y1:.1}C{a:.1} {y1:.1} {b:.1} {y2:.1} {x2:.1} {y2:.1}")
        };
        Some(Run { edge, path, width: width(edge) })
    };
    // A tank that is let out runs round the outside, so that it crosses no box.
    let lane = |(at, edge): (usize, &usize)| {
        let found = &map.edges[*edge];
        let (from, to) = (shape(found.from)?, shape(found.to)?);
        let out = LANE * (at % LANES) as f64 + 6.0;
        let down = 8.0 + 3.0 * (at % LANES) as f64;
        let (x1, y1, x2, y2) = (from.x, from.y + down, to.x + to.w, to.y + to.h - down);
        let (left, right, low) = (x1 - out, x2 + out, bottom + out);
        let path = format!("M{x1:.1} {y1:.1}H{left:.1}V{low:.1}H{right:.1}V{y2:.1}H{x2:.1}");
        Some(Run { edge: *edge, path, width: HAIR })
    };
    flowing.iter().filter_map(|edge| run(*edge)).chain(tanks.iter().enumerate().filter_map(lane)).collect()
}
