//! The root of a function between two numbers, to the last digits of a double: interpolation while
//! it helps, halving where it does not (R. P. Brent, Algorithms for Minimization without
//! Derivatives, 1973, chapter 4). What is bracketed stays bracketed, so the search cannot run away.

/// Steps after which the best number so far is given; halving alone needs about half as many.
const MOST_STEPS: usize = 200;

/// The number between `low` and `high` at which `f` is zero; `None` where `f` does not have
/// opposite signs at the two ends, is not finite, or changes its sign at a pole.
pub fn root_between(f: impl Fn(f64) -> f64, low: f64, high: f64) -> Option<f64> {
    let ((mut last, mut at_last), (mut best, mut at_best)) = narrowed(&f, low, high)?;
    let greatest = at_last.abs().max(at_best.abs());
    // The root lies between `best` and `other`.
    let (mut other, mut at_other) = (last, at_last);
    let mut step = best - last;
    let mut step_before = step;
    for _ in 0..MOST_STEPS {
        if at_other.abs() < at_best.abs() {
            (last, best, other) = (best, other, best);
            (at_last, at_best, at_other) = (at_best, at_other, at_best);
        }
        let least_step = f64::EPSILON * best.abs() + f64::MIN_POSITIVE;
        let half = (other - best) / 2.0;
        if at_best == 0.0 || half.abs() <= least_step {
            break;
        }
        let guess = (step_before.abs() >= least_step && at_last.abs() > at_best.abs())
            .then(|| interpolated(best - last, half, at_last, at_best, at_other, last == other))
            .filter(|guess| {
                let inside = 1.5 * half.abs() - least_step / 2.0;
                guess * half >= 0.0 && guess.abs() < inside && guess.abs() < step_before.abs() / 2.0
            });
        match guess {
            Some(guess) => (step_before, step) = (step, guess),
            None => (step_before, step) = (half, half),
        }
        (last, at_last) = (best, at_best);
        best += if step.abs() > least_step { step } else { least_step.copysign(half) };
        at_best = f(best);
        if !at_best.is_finite() {
            return None;
        }
        if (at_best > 0.0) == (at_other > 0.0) {
            (other, at_other) = (last, at_last);
            step = best - last;
            step_before = step;
        }
    }
    // Towards a root the values shrink, towards a pole they grow.
    (at_best.abs() <= greatest).then_some(best)
}

/// The step from the best number by a line through two points, or by a parabola lying on its side
/// through three.
fn interpolated(back: f64, half: f64, at_last: f64, at_best: f64, at_other: f64, two_points: bool) -> f64 {
    let s = at_best / at_last;
    if two_points {
        return 2.0 * half * s / (1.0 - s);
    }
    let (q, r) = (at_last / at_other, at_best / at_other);
    let top = s * (2.0 * half * q * (q - r) - back * (r - 1.0));
    -top / ((q - 1.0) * (r - 1.0) * (s - 1.0))
}

/// A bracket whose ends are of like size, each with what the function has there. One that spans many powers of ten is halved by its
/// geometric mean first, which finds a root near 1e-20 as soon as one near 1.
fn narrowed(f: &impl Fn(f64) -> f64, low: f64, high: f64) -> Option<((f64, f64), (f64, f64))> {
    let (mut low, mut high) = if low <= high { (low, high) } else { (high, low) };
    let (mut at_low, mut at_high) = (f(low), f(high));
    if !at_low.is_finite() || !at_high.is_finite() {
        return None;
    }
    if at_low == 0.0 {
        return Some(((low, at_low), (low, at_low)));
    }
    if at_high == 0.0 {
        return Some(((high, at_high), (high, at_high)));
    }
    if (at_low > 0.0) == (at_high > 0.0) {
        return None;
    }
    while low > 0.0 && high / low > 4.0 {
        let middle = low.sqrt() * high.sqrt();
        let at_middle = f(middle);
        if !at_middle.is_finite() {
            return None;
        }
        if (at_middle > 0.0) == (at_low > 0.0) {
            (low, at_low) = (middle, at_middle)
        } else {
            (high, at_high) = (middle, at_middle)
        }
    }
    Some(((low, at_low), (high, at_high)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: Option<f64>, expected: f64) {
        let found = found.unwrap();
        assert!((found - expected).abs() <= 2.0 * f64::EPSILON * expected.abs(), "{found} is not {expected}");
    }

    #[test]
    fn known_roots_are_found_to_the_last_digits() {
        close(root_between(|x| x * x - 2.0, 0.0, 2.0), std::f64::consts::SQRT_2);
        close(root_between(|x| 2.0 - x * x, 2.0, 0.0), std::f64::consts::SQRT_2);
        // The fixed point of the cosine, and the first of tan x = x (OEIS A003957, A115365).
        close(root_between(|x| x.cos() - x, 0.0, 1.0), 0.739_085_133_215_160_6);
        close(root_between(|x| x.tan() - x, 4.4, 4.6), 4.493_409_457_909_064);
        close(root_between(|x| x.exp() - 10.0, -50.0, 50.0), std::f64::consts::LN_10);
    }

    #[test]
    fn a_flat_a_steep_and_a_stepped_function_are_solved() {
        let cube_root = root_between(|x: f64| (x - 0.3).powi(9), 0.0, 1.0).unwrap();
        assert!((cube_root - 0.3).abs() < 1e-15, "{cube_root}");
        close(root_between(|x| if x < 0.7 { -1.0 } else { 1.0 }, 0.0, 1.0), 0.7);
    }

    #[test]
    fn a_pole_is_no_root() {
        assert_eq!(root_between(|x| 1.0 / (0.7 - x), 0.0, 1.0), None);
        assert_eq!(root_between(|x: f64| x.tan(), 1.0, 2.0), None);
    }

    #[test]
    fn tiny_roots_keep_their_digits() {
        close(root_between(|x| x - 3e-30, 1e-60, 6.0), 3e-30);
        close(root_between(|x| x.powi(3) - 1e-45, 1e-40, 6.0), 1e-15);
    }

    #[test]
    fn a_root_at_an_end_is_found_and_no_bracket_is_none() {
        assert_eq!(root_between(|x| x, 0.0, 1.0), Some(0.0));
        assert_eq!(root_between(|x| x - 1.0, 0.0, 1.0), Some(1.0));
        assert_eq!(root_between(|x| x * x + 1.0, -1.0, 1.0), None);
        assert_eq!(root_between(|x| 1.0 / x, 0.0, 1.0), None);
        assert_eq!(root_between(|_| f64::NAN, 0.0, 1.0), None);
    }
}
