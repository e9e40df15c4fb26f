//! The polygon with a flat at the bottom, in the circle through its corners.

use super::{PolygonInput, PolygonResult};
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, on_circle, words};

/// Draws an answer: the center at zero.
pub fn draw(input: &PolygonInput, result: &PolygonResult) -> Drawing {
    let sides = input.sides.get();
    let about = words!("A regular polygon of {} sides of {}, {} inside and {} through the corners.":
        sides, result.side, result.inside_diameter, result.corner_diameter);
    let mut drawing = Drawing::new("Regular polygon", about);
    let (inside, corner) = (result.inside_diameter.si() / 2.0, result.corner_diameter.si() / 2.0);
    let turn = 360.0 / f64::from(sides);
    let first = 270.0 + turn / 2.0;
    let corners: Vec<Point> =
        (0..sides).map(|at| on_circle((0.0, 0.0), corner, first + turn * f64::from(at))).collect();
    drawing.closed(Ink::Outline, corners.clone());
    drawing.circle(Ink::Thin, (0.0, 0.0), corner).of("corner_diameter");
    drawing.circle(Ink::Dashed, (0.0, 0.0), inside).of("inside_diameter");
    drawing.cross((0.0, 0.0), inside * 0.1);
    let half = result.side.si() / 2.0;
    let below = |by: f64| Beside { from: -corner, by: -by };
    drawing.across((-half, -inside), (half, -inside), below(18.0), result.side).of("side");
    drawing.across((-corner, 0.0), (corner, 0.0), below(44.0), result.corner_diameter).of("corner_diameter");
    let top = result.caliper.si() - inside;
    drawing.upright((0.0, -inside), (0.0, top), Beside { from: corner, by: 22.0 }, result.caliper).of("caliper");
    if sides <= 12 {
        let from = 270.0 - turn / 2.0;
        drawing.angle((0.0, 0.0), from, turn, Reach::Model(inside * 0.55), result.turn).of("turn");
    }
    drawing
}
