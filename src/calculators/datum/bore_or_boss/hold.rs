//! How firmly touches hold a circle's centre: the covariance of the least squares centre, and the
//! arc that the touches span.

use super::seen::{Seen, extent};
use crate::quantity::{FoundAngle, FoundExtent, SiValue, Size, Unit, angle};
use crate::working::Record;

/// Beyond so many times the error of a touch the hold on the centre is called weak.
const WEAK: f64 = 3.0;

/// Uncertainty of the centre, angle and height of the arc; `None` where nothing holds the centre.
pub fn find_hold(seen: &Seen, error: Size, record: &mut Record) -> Option<(FoundExtent, FoundAngle, FoundExtent)> {
    let count = seen.directions.len() as f64;
    let (us, vs): (Vec<f64>, Vec<f64>) = seen.directions.iter().copied().unzip();
    // Against their mean, since the radius takes up what all touches have in common.
    let centred = |list: &[f64]| -> Vec<f64> {
        let mean = list.iter().sum::<f64>() / count;
        list.iter().map(|value| value - mean).collect()
    };
    let (ps, qs) = (centred(&us), centred(&vs));
    let product = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let (pp, qq, pq) = (product(&ps, &ps), product(&qs, &qs), product(&ps, &qs));
    let half = (pp - qq) / 2.0;
    let least = (pp + qq) / 2.0 - half.hypot(pq);
    if least.is_nan() || least <= 0.0 {
        return None;
    }
    for (what, of, list, field, found) in [
        ("Directions against their mean, X part", "ways.x", us, "spread.x", &ps),
        ("Directions against their mean, Y part", "ways.y", vs, "spread.y", &qs),
    ] {
        record
            .step(what, "p = u - sum(u) / n")
            .with("u", of, list)
            .with("n", "count", count)
            .gives(field, found.clone());
    }
    record
        .step(
            "Hold on the centre in its weakest direction: least eigenvalue of the directions' scatter",
            "λ = (sum(p^2) + sum(q^2)) / 2 - √(((sum(p^2) - sum(q^2)) / 2)^2 + sum(p × q)^2)",
        )
        .with("p", "spread.x", ps)
        .with("q", "spread.y", qs)
        .gives("hold", least);
    let uncertainty = extent(error.get().si() / least.sqrt());
    record
        .step("How far the touches' error moves the centre in that direction", "U = E / √(λ)")
        .with("E", "touch_error", error)
        .with("λ", "hold", least)
        .gives("center_uncertainty", uncertainty);
    record.source("jcgm_100", "5.1.2: what each touch's error does to the centre, root-sum-square");
    let degrees = arc(&seen.directions);
    let arc_angle = FoundAngle::stated(degrees, Unit::Degree);
    record
        .look_up("Arc that the touches span", "a full turn less the widest gap between neighbours")
        .gives("arc_angle", arc_angle);
    // The height over the chord by the sine of the quarter angle, which keeps the digits of a short arc.
    let height = 2.0 * seen.circle.r * angle::sin(degrees / 4.0).powi(2);
    record
        .step("How far it rises over its chord", "h = 2 × R × sin(θ / 4)^2")
        .with("R", "path_radius", extent(seen.circle.r))
        .with("θ", "arc_angle", arc_angle)
        .gives("arc_height", extent(height));
    let factor = 1.0 / least.sqrt();
    if factor > WEAK {
        record.note(
            "short_arc",
            format!(
                "The touches span a short arc, which rises over its chord only by arc_height; errors of the touches move \
                 the centre {} times as far. Touch farther round if the work lets you.",
                crate::quantity::text::fixed(factor, if factor < 10.0 { 1 } else { 0 })
            ),
        );
    }
    if height < 10.0 * error.get().si() {
        record.note(
            "arc_lost",
            "The arc rises by less than ten times touch_error: these touches hardly tell a circle from a straight line, \
             and its centre and diameter are little more than a guess.",
        );
    }
    Some((uncertainty, arc_angle, extent(height)))
}

/// The arc in degrees that holds all directions.
fn arc(directions: &[(f64, f64)]) -> f64 {
    let mut angles: Vec<f64> = directions.iter().map(|(u, v)| v.atan2(*u).to_degrees()).collect();
    angles.sort_by(f64::total_cmp);
    let last = angles.last().zip(angles.first()).map_or(0.0, |(last, first)| first + 360.0 - last);
    360.0 - angles.windows(2).map(|pair| pair[1] - pair[0]).fold(last, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_arc_leaves_out_the_widest_gap() {
        assert_eq!(arc(&[(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)]), 270.0);
        assert_eq!(arc(&[(1.0, 0.0), (0.0, 1.0), (0.0, -1.0)]), 180.0);
        assert_eq!(arc(&[(0.0, -1.0), (-1.0, 0.0), (0.0, 1.0)]), 180.0);
    }
}
