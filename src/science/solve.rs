//! Roots, integrals and paths of plain numbers, for laws that have no closed form.

use super::Refusal;

/// Where `f` falls through zero between `low` (positive) and `high` (negative), to the last figure.
///
/// Bisection: never leaves the bracket and needs no derivative. An infinite `f` counts by its sign.
/// Without a change of sign it ends at one of the two. Source: common numerical practice.
pub fn bisect(f: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if middle <= low.min(high) || middle >= low.max(high) {
            break;
        }
        if f(middle) > 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// Where a smooth `f` falls through zero between `low` (not negative) and `high`, to `tolerance`.
///
/// False position with the weight of a side that stays halved (“Illinois”): never leaves the bracket
/// and takes a fifth of the steps of bisection. Source: Dowell and Jarratt, BIT 11 (1971) 168.
pub fn bracket(f: impl Fn(f64) -> f64, low: f64, high: f64, tolerance: f64) -> f64 {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (f(a), f(b));
    let mut stayed = 0.0;
    for _ in 0..100 {
        if fa <= 0.0 || fb >= 0.0 || b - a <= tolerance {
            break;
        }
        let c = (a * fb - b * fa) / (fb - fa);
        let fc = f(c);
        if fc.abs() <= tolerance {
            return c;
        }
        let again = if stayed == fc.signum() { 0.5 } else { 1.0 };
        if fc > 0.0 {
            (a, fa, fb) = (c, fc, again * fb);
        } else {
            (b, fb, fa) = (c, fc, again * fa);
        }
        stayed = fc.signum();
    }
    if fa.abs() <= fb.abs() { a } else { b }
}

/// The integral of `f` from `a` to `b`, by adaptive Simpson's rule, to a relative tolerance.
///
/// Halves an interval until two estimates agree, at most 24 times; a pole gives a large number, not
/// an endless loop. Refuses what `f` refuses. Source: common numerical practice.
pub fn integral(
    f: impl Fn(f64) -> Result<f64, Refusal>,
    a: f64,
    b: f64,
    tolerance: f64,
) -> Result<f64, Refusal> {
    let middle = 0.5 * (a + b);
    let [fa, fm, fb] = [f(a)?, f(middle)?, f(b)?];
    let whole = (b - a) / 6.0 * (fa + 4.0 * fm + fb);
    part(&f, [a, middle, b], [fa, fm, fb], whole, tolerance * whole.abs(), 24)
}

fn part(
    f: &impl Fn(f64) -> Result<f64, Refusal>,
    [a, m, b]: [f64; 3],
    [fa, fm, fb]: [f64; 3],
    whole: f64,
    tolerance: f64,
    depth: u8,
) -> Result<f64, Refusal> {
    let (l, r) = (0.5 * (a + m), 0.5 * (m + b));
    let (fl, fr) = (f(l)?, f(r)?);
    let left = (m - a) / 6.0 * (fa + 4.0 * fl + fm);
    let right = (b - m) / 6.0 * (fm + 4.0 * fr + fb);
    let error = left + right - whole;
    if depth == 0 || error.abs() <= 15.0 * tolerance {
        return Ok(left + right + error / 15.0);
    }
    let half = 0.5 * tolerance;
    Ok(part(f, [a, l, m], [fa, fl, fm], left, half, depth - 1)?
        + part(f, [m, r, b], [fm, fr, fb], right, half, depth - 1)?)
}

/// Where `y` comes to after `time`, when `dy/dt = rate(y)`: Runge–Kutta of the fourth order.
///
/// The number of steps is doubled until two runs agree to `tolerance`, at most to 65 536 steps.
/// Refuses what `rate` refuses. Source: common numerical practice.
pub fn follow(
    rate: impl Fn(f64) -> Result<f64, Refusal>,
    start: f64,
    time: f64,
    tolerance: f64,
) -> Result<f64, Refusal> {
    let run = |steps: u32| -> Result<f64, Refusal> {
        let (mut y, h) = (start, time / f64::from(steps));
        for _ in 0..steps {
            let k1 = rate(y)?;
            let k2 = rate(y + 0.5 * h * k1)?;
            let k3 = rate(y + 0.5 * h * k2)?;
            let k4 = rate(y + h * k3)?;
            y += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
        }
        Ok(y)
    };
    let (mut steps, mut last) = (16, run(16));
    loop {
        steps *= 2;
        let next = run(steps);
        // A coarse run may leave the range of `rate` where the true path stays in it.
        let is_done = match (&last, &next) {
            (Ok(last), Ok(next)) => (next - last).abs() <= tolerance,
            (Err(_), Err(_)) => steps >= 256,
            _ => false,
        };
        if is_done || steps >= 1 << 16 {
            return next;
        }
        last = next;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The golden ratio solves x² = x + 1; ∫₀¹ eˣ dx = e − 1; dy/dt = −y falls to 1/e: by calculus.
    #[test]
    fn known_answers_of_calculus() {
        assert!((bisect(|x| x + 1.0 - x * x, 1.0, 2.0) - 0.5 * (1.0 + 5f64.sqrt())).abs() < 1e-14);
        assert!((bracket(|x| x + 1.0 - x * x, 0.0, 3.0, 1e-13) - 0.5 * (1.0 + 5f64.sqrt())).abs() < 1e-12);
        let e = std::f64::consts::E;
        assert!((integral(|x| Ok(x.exp()), 0.0, 1.0, 1e-10).unwrap() - (e - 1.0)).abs() < 1e-10);
        assert!((follow(|y| Ok(-y), 1.0, 1.0, 1e-10).unwrap() - 1.0 / e).abs() < 1e-9);
    }
}
