//! The part from above with the direction of the rise, and the face as the front view, the side view and the section along
//! its steepest rise show it.

use super::{CompoundAngleInput, CompoundAngleResult};
use crate::drawing::{Drawing, Ink, Point, Reach, Words, words};
use crate::quantity::{FoundAngle, angle};

/// Half the side of the square part as drawn; the part has no size.
const HALF: f64 = 0.02;

/// Draws an answer: the middle of the part from above at zero.
pub fn draw(_: &CompoundAngleInput, result: &CompoundAngleResult) -> Drawing {
    let about = words!("A face that slopes {} in the front view and {} in the side view: in truth {}, towards {} from the right.":
        result.front_angle, result.side_angle, result.true_angle, result.direction);
    let mut drawing = Drawing::new("Compound angle", about);
    drawing.block(Ink::Outline, (-HALF, -HALF), (HALF, HALF)).of("part");
    let degrees = result.direction.degrees();
    let (sin, cos) = angle::sin_cos(degrees);
    drawing.leg(Ink::Thin, (0.0, 0.0), (1.9 * HALF * cos, 1.9 * HALF * sin)).of("rise");
    drawing.line(Ink::Centre, (0.0, 0.0), (1.5 * HALF, 0.0));
    if degrees.abs() > 0.5 {
        drawing.angle((0.0, 0.0), 0.0, degrees, Reach::Model(HALF * 0.7), result.direction).of("direction");
    }
    drawing.label((0.0, -2.4 * HALF), Words::of("from above"));
    let views = [
        ("front view", result.front_angle, "front_angle"),
        ("side view", result.side_angle, "side_angle"),
        ("along the rise", result.true_angle, "true_angle"),
    ];
    // From the top down, each clear of the one above.
    let (mut level, mut below) = (2.0 * HALF, 0.0);
    for (name, slope, field) in views {
        let rise = LONG * angle::sin(slope.degrees());
        level -= below + rise.max(0.0) + HALF;
        view(&mut drawing, (name, slope, field), (6.0 * HALF, level));
        below = (-rise).max(0.0);
    }
    drawing
}

/// Length of the face as drawn in each view.
const LONG: f64 = 2.4 * HALF;

/// One view of the face: the level, the face on it, and the angle between.
fn view(drawing: &mut Drawing, (name, slope, field): (&'static str, FoundAngle, &'static str), from: Point) {
    let degrees = slope.degrees();
    let (sin, cos) = angle::sin_cos(degrees);
    drawing.line(Ink::Thin, from, (from.0 + LONG, from.1));
    drawing.line(Ink::Outline, from, (from.0 + LONG * cos, from.1 + LONG * sin)).of(field);
    if degrees.abs() > 0.5 {
        drawing.angle(from, 0.0, degrees, Reach::Model(LONG * 0.6), slope).of(field);
    }
    drawing.note_kept(from, 0.0, 180.0, Words::of(name));
}
