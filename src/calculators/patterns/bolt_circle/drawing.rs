//! The holes on their circle.

use super::{BoltCircleInput, BoltCircleResult};
use crate::drawing::Drawing;
use crate::hole_pattern::{CircleView, draw_circle};

/// Draws an answer.
pub fn draw(input: &BoltCircleInput, result: &BoltCircleResult) -> Drawing {
    draw_circle(&CircleView {
        title: "Bolt circle",
        diameter: input.diameter,
        holes: input.holes.get(),
        center: (input.center_x, input.center_y),
        start_angle: input.start_angle,
        hole_diameter: input.hole_diameter,
        words: input.words,
        positions: &result.positions,
        step_angle: result.step_angle,
        adjacent_chord: result.distances.adjacent_chord,
    })
}
