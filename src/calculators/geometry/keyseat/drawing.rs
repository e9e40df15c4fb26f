//! The shaft in section with its keyseat on top.

use super::{KeyseatInput, KeyseatResult};
use crate::drawing::{Beside, Drawing, Ink, words};

/// Draws an answer: the middle of the shaft at zero.
pub fn draw(input: &KeyseatInput, result: &KeyseatResult) -> Drawing {
    let diameter = input.measured_diameter.unwrap_or(input.shaft_diameter);
    let about = words!("A shaft of {} with a keyseat {} wide and {} deep from the top; {} remain to the far side.":
        diameter, result.key_width, result.depth_from_top, result.to_far_side);
    let mut drawing = Drawing::new("Keyseat", about);
    let (radius, half) = (diameter.si() / 2.0, result.key_width.si() / 2.0);
    let corner = radius - result.chord_height.si();
    let bottom = radius - result.depth_from_top.si();
    let opening = half.atan2(corner).to_degrees();
    drawing.arc(Ink::Outline, (0.0, 0.0), radius, 90.0 + opening, 360.0 - 2.0 * opening);
    drawing.arc(Ink::Thin, (0.0, 0.0), radius, 90.0 - opening, 2.0 * opening);
    drawing.cross((0.0, 0.0), radius * 0.1);
    for side in [-1.0, 1.0] {
        drawing.line(Ink::Outline, (side * half, corner), (side * half, bottom)).of("depth_at_side");
    }
    drawing.line(Ink::Outline, (-half, bottom), (half, bottom)).of("key_width");

    let right = |by: f64| Beside { from: radius, by };
    drawing.upright((half, bottom), (half, corner), right(20.0), result.depth_at_side).of("depth_at_side");
    drawing.upright((half, bottom), (0.0, radius), right(46.0), result.depth_from_top).of("depth_from_top");
    let left = Beside { from: -radius, by: -20.0 };
    drawing.upright((0.0, -radius), (-half, bottom), left, result.to_far_side).of("to_far_side");
    let above = Beside { from: radius, by: 20.0 };
    drawing.across((-half, corner), (half, corner), above, result.key_width).of("key_width");
    let field = if input.measured_diameter.is_some() { "measured_diameter" } else { "shaft_diameter" };
    let below = Beside { from: -radius, by: -22.0 };
    drawing.across((-radius, 0.0), (radius, 0.0), below, words!("Ø {}": diameter)).of(field);
    drawing
}
