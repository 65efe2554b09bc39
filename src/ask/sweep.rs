//! An answer over a range of an input, for a picture.

use crate::network::{Network, Spot};

/// A jump from point to point is looked into where it is more than this share of the whole curve's height…
const JUMP: f64 = 0.04;
/// …as far as points are not closer than this share of a step.
const CLOSEST: f64 = 1.0 / 64.0;

/// The answer over a range of an input (both SI), in `steps`, and up to `finer` points more where it jumps most.
/// Where the calculator refuses there is a gap.
pub fn sweep(
    network: &Network,
    input: &Spot,
    range: [f64; 2],
    answer: &Spot,
    (steps, finer): (usize, usize),
) -> Vec<(f64, Option<f64>)> {
    let mut network = network.clone();
    let mut at = |x: f64| {
        network.set(input, x);
        (x, network.value(answer).ok())
    };
    let mut found: Vec<_> = points(range, steps).into_iter().map(&mut at).collect();
    refine(&mut found, finer, &mut at);
    found
}

/// Puts up to `most` points more into a curve, each into the middle of its greatest jump.
fn refine(found: &mut Vec<(f64, Option<f64>)>, most: usize, at: &mut dyn FnMut(f64) -> (f64, Option<f64>)) {
    let known = || found.iter().filter_map(|(_, y)| *y);
    let height = known().fold(f64::NEG_INFINITY, f64::max) - known().fold(f64::INFINITY, f64::min);
    let widest = found.windows(2).map(|pair| pair[1].0 - pair[0].0).fold(0.0, f64::max);
    for _ in 0..most {
        let jump = |pair: &[(f64, Option<f64>)]| match (pair[0].1, pair[1].1) {
            (Some(a), Some(b)) if pair[1].0 - pair[0].0 > CLOSEST * widest => (b - a).abs(),
            _ => 0.0,
        };
        let jumps = found.windows(2).map(jump).enumerate();
        let Some((k, largest)) = jumps.max_by(|a, b| a.1.total_cmp(&b.1)) else { return };
        if largest <= JUMP * height.max(0.0) {
            return;
        }
        let middle = 0.5 * (found[k].0 + found[k + 1].0);
        found.insert(k + 1, at(middle));
    }
}

/// Points over a range: in equal ratios if it is wide and positive, else in equal steps.
pub fn points([low, high]: [f64; 2], steps: usize) -> Vec<f64> {
    let ratio = low > 0.0 && high / low > 100.0;
    let at = |k: usize| {
        let share = k as f64 / steps.max(1) as f64;
        if ratio { low * (high / low).powf(share) } else { low + (high - low) * share }
    };
    (0..=steps.max(1)).map(at).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a curve that goes from 4 to 10 within a thousandth of its width shows points on the way, and a
    /// straight line gets none.
    #[test]
    fn a_jump_gets_points_of_its_own_and_a_straight_line_none() {
        let mut jump = |x: f64| (x, Some(7.0 + 3.0 * ((x - 0.503) * 1000.0).tanh()));
        let mut found: Vec<_> = points([0.0, 1.0], 50).into_iter().map(&mut jump).collect();
        refine(&mut found, 30, &mut jump);
        assert!(found.len() > 51 && found.len() <= 81, "{}", found.len());
        assert!(found.windows(2).all(|pair| pair[0].0 < pair[1].0));
        let on_the_way = found.iter().filter(|(_, y)| y.is_some_and(|y| (4.5..9.5).contains(&y))).count();
        assert!(on_the_way >= 2, "{on_the_way}");
        let mut line = |x: f64| (x, (x > 0.2).then_some(x));
        let mut found: Vec<_> = points([0.0, 1.0], 50).into_iter().map(&mut line).collect();
        refine(&mut found, 30, &mut line);
        assert_eq!(found.len(), 51);
    }
}
