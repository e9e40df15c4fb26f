//! The circle that points lie on: exact through three, geometric least squares for more, by
//! Levenberg and Marquardt's damping and Newton's steps from Taubin's algebraic circle.

use crate::budget::go_on;
use crate::refusal::Refusal;

/// A point.
pub type Xy = (f64, f64);

/// A circle in a plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// X of the center.
    pub x: f64,
    /// Y of the center.
    pub y: f64,
    /// Radius.
    pub r: f64,
}

/// How many times the points' spread a radius may be; beyond it they lie as good as on a line.
const FLATTEST: f64 = 1e4;

/// The circle through three points; `None` if they lie on a line, or as good as.
pub fn through(points: [Xy; 3]) -> Option<Circle> {
    let [(x, y), b, c] = points;
    let (p, q, s, t) = (b.0 - x, b.1 - y, c.0 - x, c.1 - y);
    let twice = 2.0 * (p * t - q * s);
    let (b2, c2) = (p * p + q * q, s * s + t * t);
    let (u, v) = ((t * b2 - q * c2) / twice, (p * c2 - s * b2) / twice);
    let circle = Circle { x: x + u, y: y + v, r: u.hypot(v) };
    // Points that coincide divide by zero, too.
    let spread = (b2 + c2).sqrt();
    (circle.r.is_finite() && circle.r <= FLATTEST * spread).then_some(circle)
}

/// The circle from which the points' distances have the least sum of squares; `None` if they lie on
/// a line, or as good as, or in fewer than three places.
pub fn fit(points: &[Xy]) -> Result<Option<Circle>, Refusal> {
    let count = points.len() as f64;
    let mean = |of: fn(&Xy) -> f64| points.iter().map(of).sum::<f64>() / count;
    let (mx, my) = (mean(|p| p.0), mean(|p| p.1));
    let spread = (points.iter().map(|p| (p.0 - mx).powi(2) + (p.1 - my).powi(2)).sum::<f64>() / count).sqrt();
    if spread.is_nan() || spread <= 0.0 {
        return Ok(None);
    }
    // Centerd and of unit spread, so that neither the place nor the size costs digits.
    let points: Vec<Xy> = points.iter().map(|p| ((p.0 - mx) / spread, (p.1 - my) / spread)).collect();
    let Some(start) = taubin(&points) else { return Ok(None) };
    let Some((a, b)) = settle(&points, start)? else { return Ok(None) };
    let r = Around::new(&points, a, b).r;
    Ok((r <= FLATTEST).then_some(Circle { x: mx + spread * a, y: my + spread * b, r: spread * r }))
}

/// The center of Taubin's algebraic circle (1991) through centerd points.
fn taubin(points: &[Xy]) -> Option<Xy> {
    let count = points.len() as f64;
    let moment =
        |of: fn(f64, f64, f64) -> f64| points.iter().map(|&(x, y)| of(x, y, x * x + y * y)).sum::<f64>() / count;
    let (xx, yy, xy) = (moment(|x, _, _| x * x), moment(|_, y, _| y * y), moment(|x, y, _| x * y));
    let (xz, yz, zz) = (moment(|x, _, z| x * z), moment(|_, y, z| y * z), moment(|_, _, z| z * z));
    let z = xx + yy;
    let covariance = xx * yy - xy * xy;
    if covariance <= 1e-14 * z * z {
        return None;
    }
    let variance = zz - z * z;
    let third = 4.0 * z;
    let second = -3.0 * z * z - zz;
    let first = variance * z + 4.0 * covariance * z - xz * xz - yz * yz;
    let zeroth = xz * (xz * yy - yz * xy) + yz * (yz * xx - xz * xy) - variance * covariance;
    // Newton from 0 comes up to the least root from below.
    let (mut root, mut value) = (0.0, zeroth);
    for _ in 0..50 {
        let next: f64 = root - value / (first + root * (2.0 * second + 3.0 * third * root));
        let there = zeroth + next * (first + next * (second + next * third));
        if !next.is_finite() || there.abs() >= value.abs() {
            break;
        }
        (root, value) = (next, there);
    }
    let twice = 2.0 * (root * root - root * z + covariance);
    let centre = ((xz * (yy - root) - yz * xy) / twice, (yz * (xx - root) - xz * xy) / twice);
    (centre.0.is_finite() && centre.1.is_finite()).then_some(centre)
}

/// The points as seen from a center.
struct Around {
    r: f64,
    squares: f64,
    gradient: Xy,
    /// Second derivatives xx, xy, yy without and with the part of the distances left over.
    near: [f64; 3],
    full: [f64; 3],
}

impl Around {
    fn new(points: &[Xy], a: f64, b: f64) -> Self {
        let count = points.len() as f64;
        let seen: Vec<(f64, f64, f64)> = points
            .iter()
            .map(|&(x, y)| {
                let d = (x - a).hypot(y - b);
                if d > 0.0 { (d, (x - a) / d, (y - b) / d) } else { (1.0, 0.0, 0.0) }
            })
            .collect();
        let mean = |of: fn(&(f64, f64, f64)) -> f64| seen.iter().map(of).sum::<f64>() / count;
        let (r, mu, mv) = (mean(|s| s.0), mean(|s| s.1), mean(|s| s.2));
        let mut out = Self { r, squares: 0.0, gradient: (0.0, 0.0), near: [0.0; 3], full: [0.0; 3] };
        for (d, u, v) in seen {
            let (e, p, q) = (d - r, u - mu, v - mv);
            out.squares += e * e;
            // The deviations of the directions in place of the directions: the distances sum to zero.
            out.gradient.0 -= e * p;
            out.gradient.1 -= e * q;
            for (at, (near, far)) in [(p * p, v * v), (p * q, -u * v), (q * q, u * u)].into_iter().enumerate() {
                out.near[at] += near;
                out.full[at] += near + e * far / d;
            }
        }
        out
    }

    fn steepness(&self) -> f64 {
        self.gradient.0.hypot(self.gradient.1)
    }

    /// The step to where the gradient would vanish.
    fn step(&self, [xx, xy, yy]: [f64; 3], damping: f64) -> Option<Xy> {
        let (xx, yy) = (xx + damping, yy + damping);
        let determinant = xx * yy - xy * xy;
        let (gx, gy) = self.gradient;
        let step = ((xy * gy - yy * gx) / determinant, (xy * gx - xx * gy) / determinant);
        (determinant > 0.0 && xx > 0.0 && step.0.is_finite() && step.1.is_finite()).then_some(step)
    }
}

/// Goes down from a center to the least sum of squares.
fn settle(points: &[Xy], (mut a, mut b): Xy) -> Result<Option<Xy>, Refusal> {
    let mut here = Around::new(points, a, b);
    let mut damping = 1e-3 * (here.near[0] + here.near[2]);
    for _ in 0..300 {
        go_on()?;
        let Some((da, db)) = here.step(here.near, damping) else {
            damping *= 10.0;
            continue;
        };
        let there = Around::new(points, a + da, b + db);
        if there.squares <= here.squares {
            (a, b, here) = (a + da, b + db, there);
            damping /= 10.0;
        } else {
            damping *= 10.0;
        }
        if da.hypot(db) <= 1e-9 * here.r || here.r > 100.0 * FLATTEST {
            break;
        }
    }
    // The sum is flat to half its digits at the bottom; its slope is not.
    for _ in 0..50 {
        go_on()?;
        let Some((da, db)) = here.step(here.full, 0.0) else { break };
        let there = Around::new(points, a + da, b + db);
        if there.steepness() >= here.steepness() {
            break;
        }
        (a, b, here) = (a + da, b + db, there);
    }
    // What is left of the slope must be rounding, not a descent cut short towards a line.
    let rounding = 1e-12 * points.len() as f64 * (here.squares.sqrt() + f64::EPSILON * here.r);
    Ok((here.steepness() <= rounding.max(1e-13) && here.r.is_finite()).then_some((a, b)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_circle_through_three_points_is_exact() {
        let circle = through([(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)]).expect("a circle");
        assert_eq!(circle, Circle { x: 0.0, y: 0.0, r: 1.0 });
        assert_eq!(through([(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]), None);
        assert_eq!(through([(0.0, 0.0), (1.0, 1.0), (1.0, 1.0)]), None);
    }

    #[test]
    fn the_algebraic_start_is_the_published_one() {
        // Six points of Gander, Golub and Strebel (BIT 34, 1994) with Taubin's circle as Chernov
        // quotes it: center 4.613933, 2.795209.
        let points = [(1.0, 7.0), (2.0, 6.0), (5.0, 8.0), (7.0, 7.0), (9.0, 5.0), (3.0, 7.0)];
        let centred: Vec<Xy> = points.iter().map(|p| (p.0 - 4.5, p.1 - 20.0 / 3.0)).collect();
        let (x, y) = taubin(&centred).expect("a circle");
        assert!((x + 4.5 - 4.613933).abs() < 5e-7 && (y + 20.0 / 3.0 - 2.795209).abs() < 5e-7, "{x} {y}");
    }

    #[test]
    fn points_on_a_line_have_no_circle() {
        let line: Vec<Xy> = (0..7).map(|n| (f64::from(n) * 0.3, f64::from(n) * 0.7 - 2.0)).collect();
        assert_eq!(fit(&line), Ok(None));
        assert_eq!(fit(&[(1.0, 2.0); 5]), Ok(None));
        // A zigzag lies nearest to a line.
        let zigzag: Vec<Xy> = (0..8).map(|n| (f64::from(n), f64::from(n % 2) * 0.1)).collect();
        assert_eq!(fit(&zigzag), Ok(None));
    }

    proptest! {
        #[test]
        fn no_centre_nearby_has_a_smaller_sum_of_squares(
            noise in proptest::collection::vec(-0.01..0.01f64, 4..40),
            from in 0.0..6.0f64, span in 1.0..6.2f64, x in -1e3..1e3f64, r in 0.1..100.0f64,
        ) {
            let count = noise.len() as f64;
            let points: Vec<Xy> = noise
                .iter()
                .enumerate()
                .map(|(n, off)| {
                    let (sin, cos) = (from + span * n as f64 / count).sin_cos();
                    (x + r * (1.0 + off) * cos, -x + r * (1.0 + off) * sin)
                })
                .collect();
            let found = fit(&points).unwrap().expect("a circle");
            let squares = |a: f64, b: f64| Around::new(&points, a, b).squares;
            let least = squares(found.x, found.y);
            for turn in 0..12 {
                let (sin, cos) = (f64::from(turn) * 0.53).sin_cos();
                for step in [1e-3 * r, 1e-4 * r] {
                    prop_assert!(squares(found.x + step * cos, found.y + step * sin) > least);
                }
            }
        }

        #[test]
        fn points_of_a_circle_give_it_back(
            from in 0.0..6.0f64, span in 0.5..6.2f64, x in -1e3..1e3f64, r in 0.1..100.0f64, count in 3usize..20,
        ) {
            let points: Vec<Xy> = (0..count)
                .map(|n| {
                    let (sin, cos) = (from + span * n as f64 / count as f64).sin_cos();
                    (x + r * cos, -x + r * sin)
                })
                .collect();
            for found in [fit(&points).unwrap(), through([points[0], points[1], points[2]])] {
                let found = found.expect("a circle");
                // Coordinates of that size keep so many digits, and a short arc loses some of them.
                let within = 1e-13 * (x.abs() + r) / (span / count as f64).powi(2).min(1.0) * 100.0;
                prop_assert!((found.x - x).abs() < within && (found.y + x).abs() < within, "{found:?}");
                prop_assert!((found.r - r).abs() < within, "{found:?}");
            }
        }
    }
}
