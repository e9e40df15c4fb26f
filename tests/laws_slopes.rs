//! Faces that slope two ways: the turns of an answer bring the upright of the face up, whichever way it was asked; and the
//! compound slide, whose moves in and along are the travel of the slide.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;

fn answer(id: &str, query: &str) -> Value {
    asked(find(id).expect("the calculator"), query).unwrap_or_else(|refusal| panic!("{id}?{query}: {refusal:?}"))
}

fn value(answer: &Value, field: &str) -> f64 {
    answer["result"][field]["value"].as_f64().unwrap_or_else(|| panic!("{field}: {answer}"))
}

type Vector = [f64; 3];

fn about(axis: usize, degrees: f64, v: Vector) -> Vector {
    let (sin, cos) = degrees.to_radians().sin_cos();
    let (a, b) = ((axis + 1) % 3, (axis + 2) % 3);
    let mut turned = v;
    turned[a] = v[a] * cos - v[b] * sin;
    turned[b] = v[a] * sin + v[b] * cos;
    turned
}

/// The upright of a plane by its slopes to the right and to the back.
fn upright(front: f64, side: f64) -> Vector {
    let (a, b) = (front.to_radians().tan(), side.to_radians().tan());
    let size = (a * a + b * b + 1.0).sqrt();
    [-a / size, -b / size, 1.0 / size]
}

fn is_up(v: Vector) -> bool {
    v[0].abs() < 1e-12 && v[1].abs() < 1e-12 && (v[2] - 1.0).abs() < 1e-12
}

proptest! {
    #[test]
    fn turn_and_tilt_and_two_tilts_bring_the_face_level(front in -80.0..80.0f64, side in -80.0..80.0f64) {
        prop_assume!(front.abs() + side.abs() > 0.01);
        let n = upright(front, side);
        let views = answer("geometry/compound-angle", &format!("front_angle={front} deg&side_angle={side} deg"));
        // The part is turned from above, then its right side goes down.
        let turned = about(2, value(&views, "turn"), n);
        prop_assert!(is_up(about(1, value(&views, "true_angle"), turned)), "{turned:?}");
        let tilts = |answer: &Value| (value(answer, "lower_tilt"), value(answer, "upper_tilt"));
        let (lower, upper) = tilts(&views);
        prop_assert!(is_up(about(1, lower, about(0, -upper, n))));
        let (true_angle, direction) = (value(&views, "true_angle"), value(&views, "direction"));
        let query = format!("true_angle={true_angle} deg&direction={direction} deg&lower=side");
        let back = answer("geometry/compound-angle", &query);
        prop_assert!((value(&back, "front_angle") - front).abs() < 1e-9 && (value(&back, "side_angle") - side).abs() < 1e-9);
        let (lower, upper) = tilts(&back);
        prop_assert!(is_up(about(0, -lower, about(1, upper, n))));
    }

    #[test]
    fn what_the_slide_moves_in_and_along_is_its_travel(part in 0.02..0.98f64, step in 0.05..1.0f64, across in any::<bool>()) {
        let zero = if across { "across_bed" } else { "along_bed" };
        let query = format!("dial=0.1 mm&infeed={} mm&scale_step={step} deg&scale_zero={zero}&units=metric", 0.1 * part);
        let answer = answer("geometry/compound-feed", &query);
        let (infeed, along) = (value(&answer, "feeds_in"), value(&answer, "along"));
        prop_assert!((infeed.hypot(along) - 0.1).abs() < 1e-12);
        let exact = value(&answer, if across { "cross_angle" } else { "bed_angle" });
        prop_assert!((value(&answer, "scale_setting") - exact).abs() <= step / 2.0 + 1e-9);
        prop_assert!((value(&answer, "cross_angle") + value(&answer, "bed_angle") - 90.0).abs() < 1e-9);
    }
}
