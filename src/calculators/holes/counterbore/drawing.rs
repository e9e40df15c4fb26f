//! The counterbore in section, with the head in it.

use super::{CounterboreInput, CounterboreResult};
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::quantity::SiValue;

/// Draws an answer.
pub fn draw(input: &CounterboreInput, result: &CounterboreResult) -> Drawing {
    let about = Words::of(format!("A counterbore for {}: ", input.hole.screw.text()))
        .value(result.diameter)
        .then(" in diameter and ")
        .value(result.depth)
        .then(" deep, with a hole of ")
        .value(result.hole.hole_diameter)
        .then(" through.");
    let mut drawing = Drawing::new("Counterbore in section", about);
    let (wide, hole) = (result.diameter.get().si() / 2.0, result.hole.hole_diameter.get().si() / 2.0);
    let depth = result.depth.get().si();
    let edge = wide * 1.7;
    let bottom = input.thickness.map_or(depth + wide * 1.2, |thickness| thickness.get().si());
    for side in [-1.0, 1.0] {
        let at = |x: f64, y: f64| -> Point { (side * x, -y) };
        let wall = vec![at(edge, 0.0), at(wide, 0.0), at(wide, depth), at(hole, depth), at(hole, bottom)];
        drawing.closed(Ink::Tint, [wall.clone(), vec![at(edge, bottom)]].concat());
        drawing.path(Ink::Outline, wall).of("counterbore");
        if input.thickness.is_some() {
            drawing.line(Ink::Outline, at(hole, bottom), at(edge, bottom)).of("far_face");
        }
    }
    drawing.line(Ink::Centre, (0.0, wide * 0.15), (0.0, -bottom));
    let above = Beside { from: 0.0, by: 24.0 };
    drawing.across((-wide, 0.0), (wide, 0.0), above, Words::of("Ø ").value(result.diameter)).of("diameter");
    let right = |by: f64| Beside { from: edge, by };
    drawing.upright((wide, 0.0), (wide, -depth), right(18.0), result.depth).of("depth");
    let below = Beside { from: -bottom, by: -24.0 };
    let words = Words::of("hole Ø ").value(result.hole.hole_diameter);
    drawing.across((-hole, -bottom), (hole, -bottom), below, words).of("hole_diameter");
    if let (Some(thickness), Some(left)) = (input.thickness, result.left_under_head) {
        drawing.upright((-edge, 0.0), (-edge, -bottom), Beside { from: -edge, by: -18.0 }, thickness).of("thickness");
        drawing.upright((wide, -depth), (wide, -bottom), right(18.0), left).of("left_under_head");
    }
    drawing
}
