//! The touch from above, readings growing to the right: the tip, the shim and the face at their readings.

use super::{TouchOffInput, TouchOffResult};
use crate::arithmetic::touching::ReadingWas;
use crate::drawing::{Beside, Drawing, Ink, Words};
use crate::quantity::{Extent, SiValue};

/// Draws an answer.
pub fn draw(input: &TouchOffInput, result: &TouchOffResult) -> Drawing {
    let (face, axis) = (result.over_face.get().si(), result.set_reading.get().si());
    let (radius, shim) = (input.tip_diameter.get().si() / 2.0, input.shim.map_or(0.0, |shim: Extent| shim.get().si()));
    let (ahead, did) = match input.reading_was {
        ReadingWas::Growing => (1.0, "grew"),
        ReadingWas::Falling => (-1.0, "fell"),
    };
    let about = Words::of("A tip ")
        .value(input.tip_diameter)
        .then(format!(" in diameter came up to the face while the reading {did}. Its middle is "))
        .value(result.spindle_from_face)
        .then(" from the face: set ")
        .value(result.set_reading)
        .then(" now, and the face is at ")
        .value(result.over_face)
        .then(".");
    let mut drawing = Drawing::new("Touching a face", about);

    // A tip without a width still touches something that can be seen.
    let size = if radius + shim > 0.0 { radius.max(0.6 * shim) } else { 0.005 };
    let high = 1.4 * size;
    let inside = face + ahead * 1.5 * size;
    drawing.closed(Ink::Tint, vec![(face, -high), (inside, -high), (inside, high), (face, high)]);
    drawing.line(Ink::Outline, (face, -high), (face, high)).of("face");
    if shim > 0.0 {
        let (near, tall) = (face - ahead * shim, 0.75 * size);
        drawing.closed(Ink::Thin, vec![(face, -tall), (near, -tall), (near, tall), (face, tall)]).of("shim");
    }
    if radius > 0.0 {
        drawing.circle(Ink::Outline, (axis, 0.0), radius).of("tip_diameter");
    }
    drawing.dot((axis, 0.0));
    drawing.cross((axis, 0.0), radius);
    let towards = if ahead > 0.0 { 0.0 } else { 180.0 };
    let from = (axis - ahead * 1.7 * size, 1.2 * high);
    drawing.direction(from, towards, Words::of(format!("the reading\n{did}")));
    let below = Beside { from: -high, by: -12.0 };
    drawing.x_reading((axis, -radius), below, Words::of("set here\n").value(result.set_reading)).of("set_reading");
    drawing.x_reading((face, -high), below, Words::of("the face\n").value(result.over_face)).of("over_face");
    if radius > 0.0 {
        let words = Words::of("Ø ").value(input.tip_diameter);
        let beside = Beside { from: axis - ahead * radius, by: -18.0 * ahead };
        drawing.upright((axis, -radius), (axis, radius), beside, words).of("tip_diameter");
    }
    let above = |by: f64| Beside { from: 1.25 * high, by };
    if radius + shim > 0.0 {
        drawing.across((axis, 0.0), (face, high), above(18.0), result.spindle_from_face).of("spindle_from_face");
    }
    if let Some(stated) = input.shim.filter(|_| shim > 0.0) {
        let words = Words::of("shim ").value(stated);
        drawing.across((face - ahead * shim, 0.75 * size), (face, high), above(42.0), words).of("shim");
    }
    drawing
}
