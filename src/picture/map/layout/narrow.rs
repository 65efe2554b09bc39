//! From top to bottom: a group for each sort of place, with the lines in lanes at both sides. What comes
//! from a place and what runs through a drain is at the left, what leads to a route or a discharge at the right.

use super::super::{COLUMNS, Map, Quantity, Way};
use super::{Drawing, GAP, HAIR, HEAD, Head, Run, stacked};
use crate::calculator::Subject;

/// The widest that all lines of a side are together, in pixels.
const MOST: f64 = 22.0;
/// Between two lanes.
const APART: f64 = 5.0;
/// The share of the page that the lanes of one side may take.
const SHARE: f64 = 0.2;

/// Lines that share an end and so run in one lane.
struct Bundle {
    /// The edges, and where in the lane each runs, from its near side.
    edges: Vec<(usize, f64)>,
    width: f64,
    /// From where to where it runs, from the top.
    span: [f64; 2],
    /// From the boxes to the lane's near side.
    offset: f64,
}

/// Lays the map out.
pub fn lay_out(map: &Map, width: f64, quantity: &Quantity) -> Drawing {
    // The lanes depend on the order of the boxes alone, so they are settled before the boxes have heights.
    let order: Vec<f64> = stack(map, &vec![100.0; map.nodes.len()]).0;
    let amount = |edge: usize| map.edges[edge].amount(quantity).map_or(0.0, |(si, _)| si);
    let is_right = |edge: usize| {
        let found = &map.edges[edge];
        let is_drain = COLUMNS.get(map.nodes[found.to].column) == Some(&Subject::Drain);
        matches!(found.way, Way::To | Way::Nowhere) && !is_drain
    };
    let (right, left): (Vec<usize>, Vec<usize>) = (0..map.edges.len()).partition(|edge| is_right(*edge));
    let total = |edges: &[usize]| edges.iter().map(|edge| amount(*edge)).sum::<f64>();
    let most = total(&right).max(total(&left));
    let line = |edge: usize| if most > 0.0 { (amount(edge) / most * MOST).max(HAIR) } else { HAIR };

    let mut sides = [left, right].map(|edges| bundles(map, &edges, &order, &line));
    let [left_room, right_room] = sides.each_mut().map(|side| settle(side, width * SHARE));
    let (x, w) = (left_room + 1.0, width - left_room - right_room - 2.0);
    let mut shapes = map.shapes(w, MOST);
    let heights: Vec<f64> = shapes.iter().map(|shape| shape.h).collect();
    let (tops, heads, height) = stack(map, &heights);
    let middles: Vec<f64> = tops.iter().zip(&heights).map(|(top, height)| top + height / 2.0).collect();

    let mut ends = vec![[0.0; 2]; map.edges.len()];
    for side in &sides {
        for (node, middle) in middles.iter().enumerate() {
            let mut here: Vec<usize> =
                side.iter().flat_map(|b| b.edges.iter().map(|(edge, _)| *edge)).collect();
            here.retain(|edge| map.edges[*edge].from == node || map.edges[*edge].to == node);
            let other = |edge: &usize| {
                let edge = &map.edges[*edge];
                middles[if edge.from == node { edge.to } else { edge.from }]
            };
            crate::order::sort(&mut here, |a, b| other(a).total_cmp(&other(b)));
            // Hairlines lie on each other here as in their lane, but for those that say something else.
            let room = |edge: &usize| match map.edges[*edge].way {
                Way::Tank => 4.0 * HAIR,
                _ if line(*edge) > HAIR => line(*edge),
                _ => 0.0,
            };
            let widths: Vec<f64> = here.iter().map(room).collect();
            for (edge, y) in here.iter().zip(stacked(&widths, *middle)) {
                ends[*edge][usize::from(map.edges[*edge].to == node)] = y;
            }
        }
    }
    let mut drawing = Drawing { width, height, is_narrow: true, ..Drawing::default() };
    drawing.heads = heads.into_iter().map(|(y, text)| Head { x, y, text }).collect();
    for (shape, top) in shapes.iter_mut().zip(&tops) {
        (shape.x, shape.y) = (x, *top);
    }
    drawing.shapes = shapes;
    for (side, bundles) in sides.iter().enumerate() {
        let (from, sign) = if side == 0 { (x, -1.0) } else { (x + w, 1.0) };
        for bundle in bundles {
            for (edge, within) in &bundle.edges {
                let at = from + sign * (bundle.offset + within + line(*edge) / 2.0);
                let [y1, y2] = ends[*edge];
                let path = format!("M{from:.1} {y1:.1}H{at:.1}V{y2:.1}H{from:.1}");
                drawing.runs.push(Run { edge: *edge, path, width: line(*edge) });
            }
        }
    }
    drawing
}

/// The tops of boxes of these heights, a group for each sort of place; the headings; the height of all.
fn stack(map: &Map, heights: &[f64]) -> (Vec<f64>, Vec<(f64, &'static str)>, f64) {
    let (mut tops, mut heads, mut y) = (vec![0.0; heights.len()], Vec::new(), 0.0);
    for (column, subject) in COLUMNS.iter().enumerate() {
        let nodes = map.column(column);
        if nodes.is_empty() {
            continue;
        }
        heads.push((y + HEAD - 10.0, subject.sort().plural));
        y += HEAD;
        for node in nodes {
            tops[node] = y;
            y += heights[node] + GAP;
        }
    }
    (tops, heads, (y - GAP).max(0.0) + 2.0)
}

/// Lines that lead to the same place, or come from the same one, share a lane. Hairlines lie on each other.
fn bundles(map: &Map, edges: &[usize], middles: &[f64], line: &impl Fn(usize) -> f64) -> Vec<Bundle> {
    let shared = |edge: usize| {
        let found = &map.edges[edge];
        if found.way == Way::From { (Way::From, found.from) } else { (Way::To, found.to) }
    };
    let mut bundles: Vec<((Way, usize), Bundle)> = Vec::new();
    for &edge in edges {
        let found = &map.edges[edge];
        let [a, b] = [middles[found.from], middles[found.to]];
        let at = bundles.iter().position(|(end, _)| *end == shared(edge)).unwrap_or_else(|| {
            let fresh = Bundle { edges: Vec::new(), width: 0.0, span: [a.min(b), a.max(b)], offset: 0.0 };
            bundles.push((shared(edge), fresh));
            bundles.len() - 1
        });
        let bundle = &mut bundles[at].1;
        bundle.span = [bundle.span[0].min(a).min(b), bundle.span[1].max(a).max(b)];
        let is_hair = line(edge) <= HAIR;
        bundle.edges.push((edge, if is_hair { 0.0 } else { bundle.width }));
        bundle.width = if is_hair { bundle.width.max(HAIR) } else { bundle.width + line(edge) };
    }
    bundles.into_iter().map(|(_, bundle)| bundle).collect()
}

/// Gives each bundle the nearest lane that is free along it, and says how much room the lanes take.
/// Where that is more than there is, the lanes move together.
fn settle(bundles: &mut [Bundle], room: f64) -> f64 {
    crate::order::sort(bundles, |a, b| (a.span[1] - a.span[0]).total_cmp(&(b.span[1] - b.span[0])));
    let mut lanes: Vec<(f64, Vec<[f64; 2]>)> = Vec::new();
    let mut chosen = Vec::new();
    for bundle in bundles.iter() {
        let free = |(_, taken): &(f64, Vec<[f64; 2]>)| {
            taken.iter().all(|span| span[1] + GAP < bundle.span[0] || bundle.span[1] + GAP < span[0])
        };
        let at = lanes.iter().position(free).unwrap_or_else(|| {
            lanes.push((0.0, Vec::new()));
            lanes.len() - 1
        });
        lanes[at].0 = lanes[at].0.max(bundle.width);
        lanes[at].1.push(bundle.span);
        chosen.push(at);
    }
    let (mut offsets, mut next) = (Vec::new(), APART);
    for (width, _) in &lanes {
        offsets.push(next);
        next += width + APART;
    }
    let needed = if lanes.is_empty() { 0.0 } else { next };
    let tight = if needed > room { room / needed } else { 1.0 };
    for (bundle, lane) in bundles.iter_mut().zip(chosen) {
        bundle.offset = offsets[lane] * tight;
    }
    needed.min(room)
}
