//! The arc of a tool's nose over one feed: its height and the mean deviation from its mean line, which follow from
//! the areas of circular segments.

use crate::arithmetic::roots::root_between;
use crate::calculators::prelude::*;
use crate::working::formula::Symbol;
use uom::si::f64::Length;

/// What the step of the mean deviation says.
pub const MEAN: &str = "Mean deviation Ra";

/// An angle less its sine, which a difference would lose for small angles.
fn less_sine(angle: f64) -> f64 {
    if angle > 0.5 {
        return angle - angle.sin();
    }
    let square = angle * angle;
    let (mut term, mut sum, mut at) = (angle * square / 6.0, 0.0, 3.0);
    while term.abs() > f64::EPSILON * 1e-3 * f64::abs(sum) {
        sum += term;
        term *= -square / ((at + 1.0) * (at + 2.0));
        at += 2.0;
    }
    sum
}

/// The height of the arc over half a feed: r - √(r² - f²/4), without the difference.
pub fn height(radius: f64, feed: f64) -> f64 {
    let half = feed / 2.0;
    half * half / (radius + (radius * radius - half * half).max(0.0).sqrt())
}

/// How far the mean line lies above the lowest point.
fn mean_height(radius: f64, feed: f64) -> f64 {
    let sine = (feed / 2.0 / radius).min(1.0);
    let half_angle = sine.asin();
    radius * ((half_angle / 2.0).sin().powi(2) - less_sine(half_angle) / (2.0 * sine))
}

/// The angle on the arc at which it crosses its mean line.
fn mean_angle(radius: f64, mean: f64) -> f64 {
    (mean * (2.0 * radius - mean)).sqrt().atan2(radius - mean)
}

/// The mean deviation from the mean line.
fn mean_deviation(radius: f64, feed: f64) -> f64 {
    radius * radius / feed * less_sine(2.0 * mean_angle(radius, mean_height(radius, feed)))
}

/// The feed that leaves a mean deviation; none where even a feed of the whole nose leaves less.
pub fn feed_for(radius: f64, mean: f64) -> Option<f64> {
    // A parabola of the same nose is flatter, so its feed is too great.
    let widest = (18.0 * 3f64.sqrt() * radius * mean).sqrt().min(2.0 * radius);
    root_between(|feed| mean_deviation(radius, feed) - mean, widest * 0.5, widest)
}

/// The steps to the mean deviation.
pub fn tell_mean_deviation(
    (nose_radius, feed_per_rev): (Size, impl Symbol<Value = Length> + Into<Shown> + Copy),
    record: &mut Record,
) -> FoundRoughness {
    let (radius, feed) = (nose_radius.si(), feed_per_rev.symbol().si());
    let found = |si: f64| FoundRoughness::of(SiValue::from_si(si));
    let mean = found(mean_height(radius, feed));
    record
        .step(
            "Height of the mean line above the lowest point",
            "m = r - √(r × r - f × f / 4) / 2 - r × r / f × asin(f / (2 × r))",
        )
        .with("r", "nose_radius", nose_radius)
        .with("f", "feed_per_rev", feed_per_rev)
        .gives("mean_line_height", mean);
    let degrees = mean_angle(radius, mean.si()).to_degrees();
    let angle = FoundAngle::stated(text::tidy(degrees), Unit::Degree);
    record
        .step("Angle at which the arc crosses it", "ψ = 2 × asin(√(m / (2 × r)))")
        .with("m", "mean_line_height", mean)
        .with("r", "nose_radius", nose_radius)
        .gives("mean_line_angle", angle);
    let deviation = found(mean_deviation(radius, feed));
    record
        .step(MEAN, "Ra = r × r / f × (2 × ψ - sin(2 × ψ))")
        .with("r", "nose_radius", nose_radius)
        .with("f", "feed_per_rev", feed_per_rev)
        .with("ψ", "mean_line_angle", angle)
        .gives("roughness_ra", deviation);
    deviation
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_circle_and_a_shallow_arc_are_as_geometry_has_them() {
        // A half circle's mean line lies at (1 - π/4) r.
        assert!((mean_height(1.0, 2.0) - (1.0 - PI / 4.0)).abs() < 1e-15);
        // A shallow arc is a parabola: f²/24r and f²/(18√3 r).
        for feed in [1e-6, 1e-4] {
            assert!((mean_height(1.0, feed) * 24.0 / (feed * feed) - 1.0).abs() < 1e-8);
            assert!((mean_deviation(1.0, feed) * 18.0 * 3f64.sqrt() / (feed * feed) - 1.0).abs() < 1e-8);
        }
        // Summed over a million strips.
        let (radius, feed, strips) = (1.0, 1.0, 1_000_000);
        let rise = |at: i32| height(radius, 2.0 * (f64::from(at) + 0.5) / f64::from(strips) * feed / 2.0);
        let mean = (0..strips).map(rise).sum::<f64>() / f64::from(strips);
        let deviation = (0..strips).map(|at| (rise(at) - mean).abs()).sum::<f64>() / f64::from(strips);
        assert!((deviation - mean_deviation(radius, feed)).abs() < 1e-12, "{deviation}");
    }

    #[test]
    fn a_feed_is_found_back_from_its_mean_deviation() {
        for feed in [1e-5, 0.01, 0.3, 1.0, 1.9, 2.0] {
            let back = feed_for(1.0, mean_deviation(1.0, feed)).expect("a feed");
            assert!((back / feed - 1.0).abs() < 1e-9, "{feed} {back}");
        }
        assert!(feed_for(1.0, 0.19).is_none());
    }
}
