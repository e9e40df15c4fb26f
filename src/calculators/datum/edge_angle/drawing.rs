//! The edge from above, X to the right and Y up: both touches, the axis it is to lie along, and which way
//! the end of a jaw is to be tapped.

use super::{EdgeAngleInput, EdgeAngleResult};
use crate::arithmetic::touching::{Axis, metres};
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, on_circle, words};
use crate::quantity::angle;

/// Draws an answer.
pub fn draw(input: &EdgeAngleInput, result: &EdgeAngleResult) -> Drawing {
    let touches = [metres(&input.first), metres(&input.second)];
    let (dx, dy) = (touches[1].0 - touches[0].0, touches[1].1 - touches[0].1);
    let along = input.along.unwrap_or_else(|| Axis::nearer(dx, dy));
    let (axis, name) = if along == Axis::XAxis { (0.0, "X") } else { (90.0, "Y") };
    let turned = result.angle.degrees();
    let mut about = words!("The edge through two touches {} apart is turned by {} from the {} axis":
        result.distance, result.angle, name);
    if let Some(tap) = result.tap {
        about = about.then(words!("; the end of the jaw is off by {}": tap));
    }
    let mut drawing = Drawing::new("Angle of an edge", about.then("."));

    // The end with the smaller readings along the axis is the pivot, as for tap_toward.
    let (sin, cos) = angle::sin_cos(axis + turned);
    let of = |point: Point| point.0 * cos + point.1 * sin;
    let (low, high) = if of(touches[0]) <= of(touches[1]) { (0, 1) } else { (1, 0) };
    let distance = result.distance.si();
    let jaw = input.jaw_length.map(|jaw| jaw.si());
    let length = jaw.unwrap_or(1.12 * distance);
    // The touches in the middle of the jaw, or of what is shown of the edge.
    let pivot = on_circle(touches[low], -(length - distance) / 2.0, axis + turned);
    let (end, true_end) = (on_circle(pivot, length, axis + turned), on_circle(pivot, length, axis));
    drawing.line(Ink::Outline, pivot, end).of("jaw_length");
    drawing.dot(touches[0]).of("first");
    drawing.dot(touches[1]).of("second");
    let side = if turned < 0.0 { -1.0 } else { 1.0 };
    if turned != 0.0 && jaw.is_some() {
        drawing.direction(end, axis - side * 90.0, "this way");
    }
    for at in [low, high] {
        drawing.note_near(touches[at], 0.0, axis - side * 90.0, at + 1);
    }
    if turned != 0.0 {
        drawing.line(Ink::Centre, pivot, true_end).of("along");
        drawing.angle(pivot, axis, turned, Reach::Model(0.55 * length), result.angle).of("angle");
    }
    drawing.along(touches[low], touches[high], side * 34.0, result.distance).of("distance");
    let (Some(tap), Some(stated)) = (result.tap, input.jaw_length) else { return drawing };
    drawing.along(pivot, end, -side * 34.0, words!("jaw {}": stated)).of("jaw_length");
    if turned == 0.0 {
        return drawing;
    }
    let words = words!("tap {}": tap);
    if along == Axis::XAxis {
        drawing.upright(end, true_end, Beside { from: end.0.max(true_end.0), by: 24.0 }, words).of("tap");
    } else {
        drawing.across(end, true_end, Beside { from: end.1.max(true_end.1), by: 24.0 }, words).of("tap");
    }
    drawing.note_near(pivot, 0.0, axis + 180.0, "pivot");
    drawing
}
