//! The ball in its cut, seen along the way it goes: two passes before it on the left with their cusps, the
//! uncut work on the right. The finished surface is y = 0; a cutter that leans does so to the right.

use super::{BallNoseInput, BallNoseResult};
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::quantity::angle;

/// Draws an answer.
pub fn draw(input: &BallNoseInput, result: &BallNoseResult) -> Drawing {
    let radius = input.diameter.si() / 2.0;
    let depth = input.axial_depth.si();
    let tilt = input.tilt.map_or(0.0, |tilt| tilt.degrees());
    let step = input.stepover.map(|step| step.si()).or(result.stepover.map(|step| step.si()));
    let mut drawing = Drawing::new("Ball nose in its cut", about(input, result));

    // From straight below the middle of the ball to where the cut begins on its side.
    let contact = 2.0 * (depth / 2.0 / radius).min(0.5).sqrt().asin().to_degrees();
    let on_ball = |x: f64, from_below: f64| {
        let (sin, cos) = angle::sin_cos(from_below);
        (x + radius * sin, radius - radius * cos)
    };
    let arc = |x: f64, from: f64, to: f64| {
        (0..=16).map(move |at| on_ball(x, from + (to - from) * f64::from(at) / 16.0)).collect::<Vec<Point>>()
    };
    let right = radius * 1.35;
    let mut surface: Vec<Point> = Vec::new();
    if let Some(step) = step {
        // Where two neighboring balls cross.
        let cross = (step / 2.0 / radius).min(1.0).asin().to_degrees();
        for back in [2.0, 1.0] {
            let from = if back == 2.0 { 0.0 } else { -cross };
            surface.extend(arc(-back * step, from, cross));
        }
        surface.extend(arc(0.0, -cross, contact));
    } else {
        surface.push((-right, depth));
        surface.extend(arc(0.0, -contact, contact));
    }
    surface.push((right, depth));
    let left = surface[0].0;
    let bottom = -0.35 * radius;
    drawing.closed(Ink::Tint, [surface.clone(), vec![(right, bottom), (left, bottom)]].concat());
    drawing.path(Ink::Outline, surface).of("surface");

    let centre = (0.0, radius);
    let (sin, cos) = angle::sin_cos(tilt);
    // Along the axis upwards, and across it.
    let of = |along: f64, across: f64| (centre.0 + along * sin + across * cos, centre.1 + along * cos - across * sin);
    let top = 1.1 * radius;
    drawing.arc(Ink::Thin, centre, radius, 180.0 - tilt, 180.0).of("ball");
    for side in [-radius, radius] {
        drawing.line(Ink::Thin, of(0.0, side), of(top, side));
    }
    drawing.line(Ink::Centre, of(-radius, 0.0), of(top, 0.0));
    let wide = result.effective_diameter.si() / 2.0;
    let down = if contact + tilt >= 90.0 { 0.0 } else { -radius * angle::cos(contact + tilt) };
    drawing.line(Ink::Thin, of(down, -wide), of(down, wide)).of("effective_diameter");

    let words = Words::of("Ø ").value(input.diameter);
    drawing.along(of(top, -radius), of(top, radius), 16.0, words).of("diameter");
    let words = Words::of("cuts at Ø ").value(result.effective_diameter);
    drawing.along(of(down, -wide), of(down, wide), 16.0, words).of("effective_diameter");
    let beside = Beside { from: right, by: 18.0 };
    drawing.upright((right, depth), (0.0, 0.0), beside, input.axial_depth).of("axial_depth");
    let below = Beside { from: bottom, by: -18.0 };
    let (a, b) = (step.map_or(0.0, |step| -step), 0.0);
    let words = Words::of("stepover ");
    let stepover = match (input.stepover, result.stepover) {
        (Some(stated), _) => Some(words.value(stated)),
        (None, Some(found)) => Some(words.value(found)),
        _ => None,
    };
    if let Some(words) = stepover {
        drawing.across((a, 0.0), (b, 0.0), below, words).of("stepover");
    }
    let words = Words::of("cusp\n");
    let cusp = match (input.cusp_height, result.cusp_height) {
        (Some(stated), _) => Some((stated.si(), words.value(stated))),
        (None, Some(found)) => Some((found.si(), words.value(found))),
        _ => None,
    };
    if let (Some((height, words)), Some(step)) = (cusp, step) {
        let line = Beside { from: left, by: -18.0 };
        drawing.upright((-1.5 * step, height), (-2.0 * step, 0.0), line, words).of("cusp_height");
    }
    drawing
}

fn about(input: &BallNoseInput, result: &BallNoseResult) -> Words {
    let mut about =
        Words::of("A ball nose ").value(input.diameter).then(" in diameter, ").value(input.axial_depth).then(" deep");
    if let Some(tilt) = input.tilt {
        about = about.then(", leaning by ").value(tilt);
    }
    about = about.then("; the largest diameter that cuts is ").value(result.effective_diameter);
    if let (Some(step), Some(cusp)) = (input.stepover, result.cusp_height) {
        about = about.then("; passes ").value(step).then(" apart leave cusps of ").value(cusp);
    }
    if let (Some(step), Some(cusp)) = (result.stepover, input.cusp_height) {
        about = about.then("; passes ").value(step).then(" apart leave cusps of ").value(cusp);
    }
    about.then(".")
}
