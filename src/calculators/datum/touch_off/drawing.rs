//! The touch from above, readings growing to the right: the tip, the shim and the face at their readings.

use super::{TouchOffInput, TouchOffResult};
use crate::arithmetic::touching::ReadingWas;
use crate::drawing::{Beside, Drawing, Ink, words};

/// Draws an answer.
pub fn draw(input: &TouchOffInput, result: &TouchOffResult) -> Drawing {
    let (face, axis) = (result.over_face.si(), result.set_reading.si());
    let (radius, shim) = (input.tip_diameter.si() / 2.0, input.shim.map_or(0.0, |shim| shim.si()));
    let (ahead, did, towards) = match input.reading_was {
        ReadingWas::Growing => (1.0, "grew", 0.0),
        ReadingWas::Falling => (-1.0, "fell", 180.0),
    };
    let about = words!("A tip {} in diameter came up to the face while the reading {}. Its center is {} from the \
        face: set the readout to {} now, and the face is at {}.":
        input.tip_diameter, did, result.spindle_from_face, result.set_reading, result.over_face);
    let mut drawing = Drawing::new("Touching a face", about);

    // A tip without a width still touches something that can be seen.
    let size = if radius + shim > 0.0 { radius.max(0.6 * shim) } else { 0.005 };
    let high = 1.4 * size;
    drawing.block(Ink::Tint, (face, -high), (face + ahead * 1.5 * size, high));
    drawing.line(Ink::Outline, (face, -high), (face, high)).of("face");
    if shim > 0.0 {
        let tall = 0.75 * size;
        drawing.block(Ink::Thin, (face, -tall), (face - ahead * shim, tall)).of("shim");
    }
    if radius > 0.0 {
        drawing.circle(Ink::Outline, (axis, 0.0), radius).of("tip_diameter");
    }
    drawing.dot((axis, 0.0));
    drawing.cross((axis, 0.0), radius);
    drawing.direction((axis - ahead * 1.7 * size, 1.2 * high), towards, words!("the reading\n{}": did));
    let below = Beside { from: -high, by: -12.0 };
    drawing.x_reading((axis, -radius), below, words!("set here\n{}": result.set_reading)).of("set_reading");
    drawing.x_reading((face, -high), below, words!("the face\n{}": result.over_face)).of("over_face");
    if radius > 0.0 {
        let beside = Beside { from: axis - ahead * radius, by: -18.0 * ahead };
        let words = words!("Ø {}": input.tip_diameter);
        drawing.upright((axis, -radius), (axis, radius), beside, words).of("tip_diameter");
    }
    let above = |by: f64| Beside { from: 1.25 * high, by };
    if radius + shim > 0.0 {
        drawing.across((axis, 0.0), (face, high), above(18.0), result.spindle_from_face).of("spindle_from_face");
    }
    if let Some(stated) = input.shim.filter(|_| shim > 0.0) {
        let near = (face - ahead * shim, 0.75 * size);
        drawing.across(near, (face, high), above(42.0), words!("shim {}": stated)).of("shim");
    }
    drawing
}
