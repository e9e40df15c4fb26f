//! How firmly touches hold a circle's centre: the covariance of the least squares center, and the
//! arc that the touches span.

use super::steps::{Seen, WAYS};
use crate::arithmetic::touching::Pair;
use crate::declared::step;
use crate::quantity::{FoundAngle, FoundExtent, Size, Unit, angle};
use crate::working::Record;

/// Beyond so many times the error of a touch the hold on the center is called weak.
const WEAK: f64 = 3.0;

/// Uncertainty of the center, angle and height of the arc; `None` where nothing holds the center. Where the radius is
/// known, the touches need not tell it.
pub fn find_hold(
    seen: &Seen,
    path: FoundExtent,
    error: Size,
    radius_known: bool,
    record: &mut Record,
) -> Option<(FoundExtent, FoundAngle, FoundExtent)> {
    let count = seen.distances.len() as f64;
    let of = ["spread.x", "spread.y"];
    // Against their mean, since the radius takes up what all touches have in common; a known radius takes up nothing.
    let spread = [0, 1].map(|on| {
        if radius_known {
            return seen.ways[on].clone();
        }
        let mean = seen.ways[on].iter().sum::<f64>() / count;
        let spread: Vec<f64> = seen.ways[on].iter().map(|way| way - mean).collect();
        record
            .step(
                ["Directions against their mean, X part", "Directions against their mean, Y part"][on],
                "p = u - sum(u) / n",
            )
            .with("u", WAYS[on], seen.ways[on].clone())
            .with("n", "count", count)
            .gives(of[on], spread.clone());
        spread
    });
    let product = |a: usize, b: usize| spread[a].iter().zip(&spread[b]).map(|(a, b)| a * b).sum::<f64>();
    let (pp, qq, pq) = (product(0, 0), product(1, 1), product(0, 1));
    let least = (pp + qq) / 2.0 - ((pp - qq) / 2.0).hypot(pq);
    if least.is_nan() || least <= 0.0 {
        return None;
    }
    record
        .step(
            "How firmly the touches hold the center in its worst direction: least eigenvalue of the spread of \
             directions",
            "λ = (sum(p^2) + sum(q^2)) / 2 - √(((sum(p^2) - sum(q^2)) / 2)^2 + sum(p × q)^2)",
        )
        .with_pair(["p", "q"], &Pair { of: if radius_known { WAYS } else { of }, on: spread })
        .gives("hold", least);
    let uncertainty: FoundExtent = step!(record, "How far the error of the touches moves the center that way",
        U: center_uncertainty = E / root(λ), E = touch_error: error, λ = hold: least);
    record.source("jcgm_100", "5.1.2: what each touch's error does to the center, root-sum-square");
    let arc_angle = FoundAngle::stated(arc(&seen.ways), Unit::Degree);
    record
        .look_up("Arc that the touches span", "a full turn less the widest gap between neighbors")
        .gives("arc_angle", arc_angle);
    // The height over the chord by the sine of the quarter angle, which keeps the digits of a short arc.
    let height = FoundExtent::of(2.0 * path.get() * angle::sin(arc_angle.degrees() / 4.0).powi(2));
    record
        .step("Rise of that arc over its chord", "h = 2 × R × sin(θ / 4)^2")
        .with("R", "path_radius", path)
        .with("θ", "arc_angle", arc_angle)
        .gives("arc_height", height);
    let factor = 1.0 / least.sqrt();
    if factor > WEAK {
        record.note(
            "short_arc",
            format!(
                "The touches span a short arc that rises little over its chord: an error of the touches moves the \
                 center {} times as far. Touch farther round if the work lets you.",
                crate::quantity::text::fixed(factor, if factor < 10.0 { 1 } else { 0 })
            ),
        );
    }
    if height.get() < 10.0 * error.get() {
        record.note(
            "arc_lost",
            "The arc rises by less than ten times the error of one touch, so these touches hardly tell a circle from \
             a straight line. Its center and diameter are little more than a guess.",
        );
    }
    Some((uncertainty, arc_angle, height))
}

/// The arc in degrees that holds all directions.
fn arc([us, vs]: &[Vec<f64>; 2]) -> f64 {
    let mut angles: Vec<f64> = us.iter().zip(vs).map(|(u, v)| v.atan2(*u).to_degrees()).collect();
    angles.sort_by(f64::total_cmp);
    let last = angles.last().zip(angles.first()).map_or(0.0, |(last, first)| first + 360.0 - last);
    360.0 - angles.windows(2).map(|pair| pair[1] - pair[0]).fold(last, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_arc_leaves_out_the_widest_gap() {
        let arc_of = |ways: &[(f64, f64)]| arc(&ways.iter().copied().unzip().into());
        assert_eq!(arc_of(&[(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)]), 270.0);
        assert_eq!(arc_of(&[(1.0, 0.0), (0.0, 1.0), (0.0, -1.0)]), 180.0);
        assert_eq!(arc_of(&[(0.0, -1.0), (-1.0, 0.0), (0.0, 1.0)]), 180.0);
    }
}
