//! The taper in section on its axis: a plug on the plate with its rolls low and high, or a hole with its two balls.

use super::{RollsAndBallsInput, RollsAndBallsResult, Tapered};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Reach, words};

/// Draws an answer.
pub fn draw(input: &RollsAndBallsInput, result: &RollsAndBallsResult) -> Drawing {
    let about = words!("A taper of {} to its axis, {} at its end.": result.half_angle, result.end_diameter);
    let mut drawing = Drawing::new("Taper over rolls or balls", about);
    match input.taper {
        Tapered::Plug => plug(&mut drawing, input, result),
        Tapered::Hole => hole(&mut drawing, input, result),
    }
    drawing
}

fn plug(drawing: &mut Drawing, input: &RollsAndBallsInput, result: &RollsAndBallsResult) {
    let fields = (input.roll_diameter, input.over_low, input.over_high, input.blocks);
    let (Some(roll), Some(low), Some(high), Some(blocks)) = fields else { return };
    let (end, radius, lift) = (result.end_diameter.si() / 2.0, roll.si() / 2.0, blocks.si());
    let tall = lift + 3.0 * radius;
    let wide = end + tall * angle::tan(result.half_angle.degrees());
    drawing.closed(Ink::Tint, vec![(-end, 0.0), (end, 0.0), (wide, tall), (-wide, tall)]);
    drawing.closed(Ink::Outline, vec![(-end, 0.0), (end, 0.0), (wide, tall), (-wide, tall)]).of("plug");
    let edge = high.si() / 2.0 + radius;
    drawing.line(Ink::Outline, (-edge, 0.0), (edge, 0.0));
    drawing.line(Ink::Centre, (0.0, -radius), (0.0, tall + radius));
    for side in [-1.0, 1.0] {
        let at = (side * (low.si() / 2.0 - radius), radius);
        drawing.circle(Ink::Outline, at, radius).of("roll_diameter");
        let at = (side * (high.si() / 2.0 - radius), lift + radius);
        drawing.circle(Ink::Dashed, at, radius).of("roll_diameter");
    }
    let (low_half, high_half) = (low.si() / 2.0, high.si() / 2.0);
    let below = |by: f64| Beside { from: 0.0, by };
    drawing.across((-end, 0.0), (end, 0.0), below(-24.0), result.end_diameter).of("end_diameter");
    drawing.across((-low_half, radius), (low_half, radius), below(-50.0), low).of("over_low");
    let above = Beside { from: tall, by: 28.0 };
    drawing.across((-high_half, lift + radius), (high_half, lift + radius), above, high).of("over_high");
    let right = Beside { from: edge, by: 24.0 };
    drawing.upright((edge, 0.0), (high_half - radius, lift), right, blocks).of("blocks");
    flank(drawing, result, (end, 0.0), tall);
}

/// The half angle at the foot of a flank, between it and a line along the axis.
fn flank(drawing: &mut Drawing, result: &RollsAndBallsResult, foot: (f64, f64), tall: f64) {
    let degrees = result.half_angle.degrees();
    drawing.line(Ink::Thin, foot, (foot.0, foot.1 + tall));
    drawing.angle(foot, 90.0 - degrees, degrees, Reach::Model(0.8 * tall), result.half_angle).of("half_angle");
}

fn hole(drawing: &mut Drawing, input: &RollsAndBallsInput, result: &RollsAndBallsResult) {
    let fields = (input.small_ball, input.large_ball, input.small_ball_depth, input.large_ball_depth);
    let (Some(small), Some(large), Some(deep), Some(high)) = fields else { return };
    let (mouth, degrees) = (result.end_diameter.si() / 2.0, result.half_angle.degrees());
    let (small_radius, large_radius) = (small.si() / 2.0, large.si() / 2.0);
    let bottom = deep.si() + small.si() * 1.2;
    let narrow = mouth - bottom * angle::tan(degrees);
    let edge = mouth * 1.6;
    for side in [-1.0, 1.0] {
        let corners = [(mouth, 0.0), (edge, 0.0), (edge, -bottom), (narrow, -bottom)];
        let wall: Vec<(f64, f64)> = corners.into_iter().map(|(x, y)| (side * x, y)).collect();
        drawing.closed(Ink::Tint, wall.clone());
        drawing.path(Ink::Outline, vec![wall[3], wall[0], wall[1]]).of("wall");
    }
    drawing.line(Ink::Centre, (0.0, large_radius), (0.0, -bottom));
    drawing.circle(Ink::Dashed, (0.0, -(high.si() + large_radius)), large_radius).of("large_ball");
    drawing.circle(Ink::Outline, (0.0, -(deep.si() + small_radius)), small_radius).of("small_ball");
    let top = Beside { from: large_radius.min((-high.si()).max(0.0)), by: 26.0 };
    drawing.across((-mouth, 0.0), (mouth, 0.0), top, result.end_diameter).of("end_diameter");
    let left = Beside { from: -edge, by: -22.0 };
    let right = Beside { from: edge, by: 22.0 };
    drawing.upright((edge, 0.0), (0.0, -deep.si()), right, deep).of("small_ball_depth");
    if high.si() != 0.0 {
        drawing.upright((-edge, 0.0), (0.0, -high.si()), left, high).of("large_ball_depth");
    }
    flank(drawing, result, (narrow, -bottom), bottom);
}
