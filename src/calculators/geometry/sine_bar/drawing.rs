//! The bar on its rolls, the low one at zero, and the stack under the high one.

use super::{SineBarInput, SineBarResult};
use crate::drawing::{Beside, Drawing, Ink, Reach, words};
use crate::quantity::angle;

/// Draws an answer: the middle of the low roll at zero.
pub fn draw(input: &SineBarInput, result: &SineBarResult) -> Drawing {
    let length = input.bar_length.si();
    let about = words!("A sine bar of {} between its rolls at {}: the high roll stands {} higher.":
        input.bar_length, result.bar_angle, result.height);
    let mut drawing = Drawing::new("Sine bar and stack", about);
    let degrees = result.bar_angle.degrees();
    let (sin, cos) = angle::sin_cos(degrees);
    let (x, y) = (length * cos, length * sin);
    // Rolls of usual size: they only show what stands on what.
    let roll = length * 0.06;
    let low = input.low_stack.map_or(0.0, |stack| stack.si());
    let plate = -roll - low;
    drawing.line(Ink::Outline, (-roll * 2.0, plate), (x + roll * 2.5, plate)).of("plate");
    for (center, stack) in [((0.0, 0.0), low), ((x, y), low + y)] {
        drawing.circle(Ink::Outline, center, roll);
        if stack > 0.0 {
            drawing.block(Ink::Outline, (center.0 - roll, plate), (center.0 + roll, plate + stack)).of("stack");
        }
    }
    drawing.line(Ink::Centre, (0.0, 0.0), (x, y)).of("bar_length");
    let (across, along) = ((-sin * roll, cos * roll), (cos * roll, sin * roll));
    let top = |t: f64, up: f64| (t * x + across.0 * up, t * y + across.1 * up);
    let over = |at: (f64, f64), by: f64| (at.0 + along.0 * by, at.1 + along.1 * by);
    let bar =
        vec![over(top(0.0, 1.0), -1.0), over(top(1.0, 1.0), 1.0), over(top(1.0, 2.2), 1.0), over(top(0.0, 2.2), -1.0)];
    drawing.closed(Ink::Outline, bar);
    drawing.along((0.0, 0.0), (x, y), 34.0, input.bar_length).of("bar_length");
    drawing.upright((0.0, 0.0), (x, y), Beside { from: x + roll, by: 28.0 }, result.height).of("height");
    drawing.line(Ink::Thin, (0.0, 0.0), (x, 0.0));
    drawing.angle((0.0, 0.0), 0.0, degrees, Reach::Model(length * 0.45), result.bar_angle).of("bar_angle");
    drawing
}
