//! An answer over a range of an input, for a picture.

use crate::network::{Network, Spot};

/// The answer over a range of an input (both SI). Where the calculator refuses there is a gap.
pub fn sweep(
    network: &Network,
    input: &Spot,
    range: [f64; 2],
    answer: &Spot,
    steps: usize,
) -> Vec<(f64, Option<f64>)> {
    let mut network = network.clone();
    let mut at = |x: f64| {
        network.set(input, x);
        (x, network.value(answer).ok())
    };
    points(range, steps).into_iter().map(&mut at).collect()
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
