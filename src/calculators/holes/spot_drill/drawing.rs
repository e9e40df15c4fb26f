//! The spot in section, with the hole of the drill that follows.

use super::{SpotDrillInput, SpotDrillResult};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, Words};
use crate::quantity::angle::tan;

/// Draws an answer: the face at y = 0, the axis at x = 0.
pub fn draw(input: &SpotDrillInput, result: &SpotDrillResult) -> Drawing {
    let angle = input.spot_angle(&mut Record::of_result_alone());
    let mut about = Words::of("A spot of ")
        .value(angle)
        .then(" with a mouth of ")
        .value(result.mouth_diameter)
        .then(", ")
        .value(result.spot_depth)
        .then(" deep");
    if let Some(drill) = input.drill {
        about = about.then(", for a drill of ").value(drill.size);
    }
    let mut drawing = Drawing::new("Spot in section", about.then("."));
    let mouth = result.mouth_diameter.get().si() / 2.0;
    let depth = result.spot_depth.get().si();
    let flat = input.tip_flat.map_or(0.0, |flat| flat.get().si()) / 2.0;
    let drill = input.drill.map(|drill| drill.size.get().si() / 2.0);
    let edge = mouth.max(drill.unwrap_or(0.0)) * 1.9;
    let bottom = depth + 1.3 * mouth;
    let spot: Vec<Point> = vec![(-mouth, 0.0), (-flat, -depth), (flat, -depth), (mouth, 0.0)];
    let outside = vec![(edge, 0.0), (edge, -bottom), (-edge, -bottom), (-edge, 0.0)];
    drawing.closed(Ink::Tint, [spot.clone(), outside].concat());
    drawing.path(Ink::Outline, spot).of("spot");
    for side in [-1.0, 1.0] {
        drawing.line(Ink::Outline, (side * mouth, 0.0), (side * edge, 0.0)).of("face");
    }
    drawing.line(Ink::Centre, (0.0, 0.0), (0.0, -bottom));
    let above = |by: f64| Beside { from: 0.0, by };
    drawing
        .across((-mouth, 0.0), (mouth, 0.0), above(22.0), Words::of("Ø ").value(result.mouth_diameter))
        .of("mouth_diameter");
    let right = Beside { from: edge, by: 16.0 };
    drawing.upright((edge, 0.0), (flat, -depth), right, result.spot_depth).of("spot_depth");
    if let (Some(radius), Some(drill)) = (drill, input.drill) {
        for side in [-1.0, 1.0] {
            drawing.line(Ink::Dashed, (side * radius, 0.0), (side * radius, -bottom)).of("drill_side");
        }
        let below = Beside { from: -bottom, by: -22.0 };
        drawing
            .across((-radius, -bottom), (radius, -bottom), below, Words::of("drill Ø ").value(drill.size))
            .of("drill");
    }
    // The flanks meet below a flat tip.
    let half = angle.degrees() / 2.0;
    let apex = if half < 90.0 { flat / tan(half) } else { 0.0 };
    if apex > 0.0 {
        drawing.path(Ink::Thin, vec![(-flat, -depth), (0.0, -depth - apex), (flat, -depth)]);
    }
    drawing.angle((0.0, -depth - apex), 90.0 - half, 2.0 * half, Reach::Sheet(34.0), angle).of("spot_angle");
    drawing
}
