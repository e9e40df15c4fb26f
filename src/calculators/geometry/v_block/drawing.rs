//! The bar in its vee, the vertex at zero.

use super::{VBlockInput, VBlockResult};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Reach, words};

/// Draws an answer.
pub fn draw(input: &VBlockInput, result: &VBlockResult) -> Drawing {
    let vee = input.vee_angle(&mut Record::of_result_alone());
    let half = vee.degrees() / 2.0;
    let (radius, center, top) = (result.diameter.si() / 2.0, result.center_height.si(), result.top_height.si());
    let about = words!("A bar {} in diameter in a vee of {}, its center {} above the vertex.":
        result.diameter, vee, result.center_height);
    let mut drawing = Drawing::new("Bar in a vee", about);
    // Without a face the flanks go a little past the contact.
    let face = result.groove_depth.map_or(center, |depth| depth.si());
    let wide = face * angle::tan(half);
    let (edge, low) = (wide + 0.8 * radius, -0.6 * radius);
    let outline = vec![(-edge, face), (-wide, face), (0.0, 0.0), (wide, face), (edge, face)];
    drawing.closed(Ink::Tint, [outline.clone(), vec![(edge, low), (-edge, low)]].concat());
    drawing.path(Ink::Outline, outline).of("vee");
    drawing.circle(Ink::Outline, (0.0, center), radius).of("diameter");
    drawing.cross((0.0, center), radius);
    let left = |by: f64| Beside { from: -edge.max(radius), by: -by };
    let right = |by: f64| Beside { from: edge.max(radius), by };
    drawing.upright((0.0, 0.0), (0.0, center), left(18.0), result.center_height).of("center_height");
    drawing.upright((0.0, 0.0), (0.0, top), left(44.0), result.top_height).of("top_height");
    if let Some(width) = result.groove_width {
        let above = Beside { from: top.max(face), by: 24.0 };
        drawing.across((-wide, face), (wide, face), above, width).of("groove_width");
    }
    if let Some(depth) = result.groove_depth {
        drawing.upright((0.0, 0.0), (edge, face), right(44.0), depth).of("groove_depth");
    }
    if let Some(out) = result.stands_out.filter(|out| out.si().abs() > 0.02 * radius) {
        drawing.upright((edge, face), (0.0, top), right(18.0), out).of("stands_out");
    }
    drawing.angle((0.0, 0.0), 90.0 - half, 2.0 * half, Reach::Model(0.45 * face.min(center)), vee).of("vee_angle");
    let words = words!("Ø {}": result.diameter);
    let at = crate::drawing::on_circle((0.0, center), radius, 60.0);
    drawing.leader(at, 60.0, words).of("diameter");
    drawing
}
