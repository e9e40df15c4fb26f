//! The central angles at which an arc has two stated sizes: every one above 0 and below a full
//! turn, smallest first, from the relations of chord, height, length and area on a circle of
//! radius one (plane geometry).

use super::ArcSizes;
use crate::arithmetic::roots;
use crate::quantity::{Size, angle, text};
use std::f64::consts::{PI, TAU};

/// Below this angle in radians θ - sin θ is taken from its series.
const SHALLOW: f64 = 0.5;

/// An angle so small that nothing bounded as the inputs are can have it.
const LEAST: f64 = 1e-40;

/// Ratios nearer than this to the limit of what exists are taken to be at it: the rounding of the
/// units' conversions.
const NOISE: f64 = 4.0 * f64::EPSILON;

/// θ - sin θ without the loss of digits of the subtraction.
pub fn excess(radians: f64) -> f64 {
    if radians.abs() >= SHALLOW {
        return radians - radians.sin();
    }
    let square = radians * radians;
    let mut sum = 1.0;
    for order in [14.0, 12.0, 10.0, 8.0, 6.0, 4.0] {
        sum = 1.0 - square / (order * (order + 1.0)) * sum;
    }
    radians * square / 6.0 * sum
}

/// Chord over radius.
pub fn chord(degrees: f64) -> f64 {
    2.0 * angle::sin(degrees / 2.0)
}

/// Height over radius.
pub fn height(degrees: f64) -> f64 {
    2.0 * angle::sin(degrees / 4.0).powi(2)
}

/// Segment area over the square of the radius. Exact trigonometry in degrees serves all but shallow
/// arcs.
pub fn area(degrees: f64) -> f64 {
    let radians = degrees.to_radians();
    if radians < SHALLOW { excess(radians) / 2.0 } else { (radians - angle::sin(degrees)) / 2.0 }
}

/// Two lengths in one unit: as stated where they share one, so that 2 in and 4 in are exactly 1 to 2.
fn in_one_unit(a: Size, b: Size) -> (f64, f64) {
    let (first, second) = (a.quantity(), b.quantity());
    if first.unit == second.unit { (first.value, second.value) } else { (a.si(), b.si()) }
}

/// The central angles in degrees; none where no arc has both sizes.
pub fn angles(input: &ArcSizes) -> Vec<f64> {
    let ArcSizes { radius, chord, height, arc_length, angle, segment_area } = *input;
    let area_over_square = |length: Size| segment_area.map_or(0.0, |area| area.si() / length.si().powi(2));
    let degrees: Vec<f64> = if let Some(angle) = angle {
        vec![angle.degrees()]
    } else {
        match (radius, chord, height, arc_length, segment_area) {
            (Some(r), Some(c), ..) => by_radius_and_chord(in_one_unit(r, c)),
            (Some(r), _, Some(h), ..) => by_radius_and_height(in_one_unit(r, h)),
            (Some(r), _, _, Some(l), _) => {
                let (r, l) = in_one_unit(r, l);
                vec![l / r]
            }
            (Some(r), _, _, _, Some(_)) => by_radius_and_area(area_over_square(r)),
            (_, Some(c), Some(h), ..) => {
                let (c, h) = in_one_unit(c, h);
                vec![4.0 * (2.0 * h).atan2(c)]
            }
            (_, Some(c), _, Some(l), _) => by_chord_and_length(in_one_unit(c, l)),
            (_, Some(c), _, _, Some(_)) => by_chord_and_area(area_over_square(c)),
            (_, _, Some(h), Some(l), _) => by_height_and_length(in_one_unit(h, l)),
            (_, _, Some(h), _, Some(_)) => by_height_and_area(area_over_square(h)),
            (_, _, _, Some(l), Some(_)) => by_length_and_area(area_over_square(l)),
            _ => Vec::new(),
        }
        .into_iter()
        .map(f64::to_degrees)
        .collect()
    };
    // As printed: what cannot be told from a full turn is one.
    let exists = |degrees: &f64| *degrees > 0.0 && text::tidy(*degrees) < 360.0;
    degrees.into_iter().filter(exists).collect()
}

fn by_radius_and_chord((r, c): (f64, f64)) -> Vec<f64> {
    let rest = 2.0 * r - c;
    if rest.abs() <= NOISE * c {
        return vec![PI];
    }
    if rest < 0.0 {
        return Vec::new();
    }
    let minor = 2.0 * c.atan2((rest * (2.0 * r + c)).sqrt());
    vec![minor, TAU - minor]
}

fn by_radius_and_height((r, h): (f64, f64)) -> Vec<f64> {
    let rest = 2.0 * r - h;
    if rest > NOISE * h { vec![4.0 * h.sqrt().atan2(rest.sqrt())] } else { Vec::new() }
}

/// θ - sin θ = 2 A / r², which grows all the way to 2 π.
fn by_radius_and_area(ratio: f64) -> Vec<f64> {
    roots::root_between(|t| excess(t) - 2.0 * ratio, LEAST, TAU).into_iter().collect()
}

/// sin(x) / x = c / l with x = θ / 2, which falls all the way from 1 to 0. Where chord and length
/// are nearly equal their difference is what counts.
fn by_chord_and_length((c, l): (f64, f64)) -> Vec<f64> {
    let rest = (l - c) / l;
    if rest <= 0.0 {
        return Vec::new();
    }
    let off = |x: f64| if rest < 0.5 { excess(x) - rest * x } else { c / l * x - x.sin() };
    roots::root_between(off, LEAST, PI).into_iter().map(|x| 2.0 * x).collect()
}

/// (θ - sin θ) / (8 sin²(θ / 2)) = A / c², which grows from 0 without end.
fn by_chord_and_area(ratio: f64) -> Vec<f64> {
    let off = |t: f64| excess(t) - 8.0 * ratio * (t / 2.0).sin().powi(2);
    roots::root_between(off, LEAST, TAU).into_iter().collect()
}

/// θ / (2 sin²(θ / 4)) = l / h, which falls to its least near 267° and grows again to π at 360°.
fn by_height_and_length((h, l): (f64, f64)) -> Vec<f64> {
    let ratio = l / h;
    let off = |t: f64| t - 2.0 * ratio * (t / 4.0).sin().powi(2);
    let Some(turning) = turning_angle() else { return Vec::new() };
    if (ratio / least_length_over_height() - 1.0).abs() <= NOISE {
        return vec![turning];
    }
    let first = roots::root_between(off, LEAST, turning);
    let second = if ratio < PI { roots::root_between(off, turning, TAU) } else { None };
    first.into_iter().chain(second).collect()
}

/// The angle of the shortest arc of a height: tan(θ / 4) = θ / 2.
fn turning_angle() -> Option<f64> {
    roots::root_between(|t| (t / 4.0).tan() - t / 2.0, 4.0, 5.0)
}

/// The length of that arc over its height.
pub fn least_length_over_height() -> f64 {
    turning_angle().map_or(f64::NAN, |t| t / (2.0 * (t / 4.0).sin().powi(2)))
}

/// (θ - sin θ) / (8 sin⁴(θ / 4)) = A / h², which falls all the way to π / 4.
fn by_height_and_area(ratio: f64) -> Vec<f64> {
    roots::root_between(|t| excess(t) - 8.0 * ratio * (t / 4.0).sin().powi(4), LEAST, TAU).into_iter().collect()
}

/// (θ - sin θ) / (2 θ²) = A / l², which grows to the half circle's 1 / (2 π) and falls to 1 / (4 π).
fn by_length_and_area(ratio: f64) -> Vec<f64> {
    let greatest = 1.0 / TAU;
    if (ratio / greatest - 1.0).abs() <= NOISE {
        return vec![PI];
    }
    let off = |t: f64| excess(t) - 2.0 * ratio * t * t;
    let first = roots::root_between(off, LEAST, PI);
    let second = if ratio > greatest / 2.0 { roots::root_between(off, PI, TAU) } else { None };
    first.into_iter().chain(second).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_series_meets_the_difference() {
        for radians in [0.3f64, 0.45, 0.4999] {
            let plain = radians - radians.sin();
            assert!((excess(radians) / plain - 1.0).abs() < 1e-14, "{radians}");
        }
        assert!((excess(1e-5) / (1e-15 / 6.0) - 1.0).abs() < 1e-11);
    }

    #[test]
    fn the_shortest_arc_of_a_height_is_where_calculus_puts_it() {
        let ratio = |degrees: f64| degrees.to_radians() / height(degrees);
        let least = (1..3600).map(|step| ratio(f64::from(step) / 10.0)).fold(f64::INFINITY, f64::min);
        assert!((least_length_over_height() - 2.760_100).abs() < 5e-7);
        assert!((0.0..1e-6).contains(&(least - least_length_over_height())), "{least}");
        let turning = turning_angle().unwrap().to_degrees();
        assert!((turning - 267.1269).abs() < 5e-5, "{turning}");
    }

    #[test]
    fn the_limits_of_what_exists_are_kept() {
        assert_eq!(by_radius_and_chord((2.0, 4.0)), [PI]);
        assert!(by_radius_and_chord((2.0, 4.001)).is_empty());
        assert!(by_radius_and_height((2.0, 4.0)).is_empty());
        assert!(by_chord_and_length((10.0, 9.0)).is_empty());
        assert!(by_chord_and_length((10.0, 10.0)).is_empty());
        assert_eq!(by_length_and_area(1.0 / TAU), [PI]);
        assert!(by_length_and_area(0.16).is_empty());
        assert_eq!(by_length_and_area(0.1).len(), 2);
        assert_eq!(by_length_and_area(0.07).len(), 1);
        assert!(by_height_and_length((1.0, 2.76)).is_empty());
        assert_eq!(by_height_and_length((1.0, 2.77)).len(), 2);
        assert_eq!(by_height_and_length((1.0, 3.15)).len(), 1);
        assert_eq!(by_height_and_length((1.0, least_length_over_height())).len(), 1);
        assert!(by_height_and_area(0.785).is_empty());
        assert_eq!(by_height_and_area(0.786).len(), 1);
        assert!(by_radius_and_area(PI + 1e-4).is_empty());
        assert_eq!(by_radius_and_area(PI - 1e-4).len(), 1);
        assert_eq!(by_chord_and_area(1e6).len(), 1);
    }
}
