//! The work and the axis of turning as the readings tell them, 0° to the right: the move to scale, the work's
//! size not, which the readings do not tell. What moves stands at zero.

use super::{IndicateInput, IndicateResult, TINY, Turning};
use crate::arithmetic::touching::Feature;
use crate::drawing::{Beside, Drawing, Ink, Words, direction, on_circle, words};
use crate::quantity::angle;

/// Draws an answer.
pub fn draw(input: &IndicateInput, result: &IndicateResult) -> Drawing {
    let in_chuck = input.turning == Some(Turning::Chuck);
    let feature = input.feature.unwrap_or(if in_chuck { Feature::Boss } else { Feature::Bore });
    let (x, y) = (result.r#move.x, result.r#move.y);
    let to = (x.si(), y.si());
    let off = result.eccentricity.si();
    let is_off = off > TINY;
    // Work that runs true is drawn at some size too.
    let radius = if is_off { 3.0 * off } else { 0.01 };
    let (work, axis) = if in_chuck { ((0.0, 0.0), to) } else { (to, (0.0, 0.0)) };
    let mut drawing = Drawing::new("Center by indicator", about(in_chuck, input, result));

    if feature == Feature::Boss {
        drawing.circle(Ink::Tint, work, radius);
    }
    drawing.circle(Ink::Outline, work, radius);
    drawing.cross(axis, 0.3 * radius);
    drawing.dot(to).of("move");
    let name = if feature == Feature::Boss { "boss" } else { "bore" };
    drawing.leader(on_circle(work, radius, 45.0), 45.0, words!("{}, its size\nnot to scale": name));

    let readings = [input.reading_0, input.reading_90, input.reading_180, input.reading_270];
    for (at, reading) in readings.into_iter().enumerate() {
        let degrees = 90.0 * at as f64;
        let (sin, cos) = angle::sin_cos(degrees);
        // Where the tip touches: on the work, straight out from the axis.
        let (dx, dy) = (axis.0 - work.0, axis.1 - work.1);
        let along = dx * cos + dy * sin;
        let across = dx * sin - dy * cos;
        let reach = (radius * radius - across * across).max(0.0).sqrt() - along;
        let touched = on_circle(axis, reach, degrees);
        drawing.dot(touched);
        drawing.note_kept(touched, 0.05 * radius, degrees, words!("{}\n{}": places(in_chuck)[at], reading));
    }

    if is_off {
        drawing.leg(Ink::Thin, (0.0, 0.0), to);
        if to.0.abs() > TINY {
            let line = Beside { from: if to.1 > 0.0 { 0.0 } else { to.1 }, by: -22.0 };
            drawing.across((0.0, 0.0), to, line, x).of("move.x");
        }
        if to.1.abs() > TINY {
            // Inside the work, on the far side of its center.
            let side = if work.0 < axis.0 { -1.0 } else { 1.0 };
            drawing.upright((0.0, 0.0), to, Beside { from: work.0, by: 22.0 * side }, y).of("move.y");
        }
    }
    // Between the center lines, away from the center of the work.
    let towards = (if axis.0 < work.0 { -1.0 } else { 1.0 }, if axis.1 < work.1 { -1.0 } else { 1.0 });
    drawing.note_near(axis, 0.1 * radius, direction((0.0, 0.0), towards), "axis");
    drawing
}

fn places(in_chuck: bool) -> [&'static str; 4] {
    if in_chuck { ["jaw 1", "jaw 2", "jaw 3", "jaw 4"] } else { ["0°", "90°", "180°", "270°"] }
}

fn about(in_chuck: bool, input: &IndicateInput, result: &IndicateResult) -> Words {
    let (moves, on_x, on_y) =
        if in_chuck { ("The work goes", "toward jaw 1", "toward jaw 2") } else { ("The spindle goes", "on X", "on Y") };
    let [a, b, c, d] = places(in_chuck);
    words!("The indicator reads {} at {}, {} at {}, {} at {}, {} at {}. {} {} {} and {} {}; the center is {} from the \
        axis. The size of the work is not to scale.": input.reading_0, a, input.reading_90, b, input.reading_180, c,
        input.reading_270, d, moves, result.r#move.x, on_x, result.r#move.y, on_y, result.eccentricity)
}
