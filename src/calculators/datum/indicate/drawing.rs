//! The work and the axis of turning as the readings tell them, 0° to the right: the move to scale, the work's
//! size not, which the readings do not tell. What moves stands at zero.

use super::{IndicateInput, IndicateResult, TINY, Turning};
use crate::arithmetic::touching::Feature;
use crate::drawing::{Beside, Drawing, Ink, Words};
use crate::quantity::{SiValue, angle};

/// Draws an answer.
pub fn draw(input: &IndicateInput, result: &IndicateResult) -> Drawing {
    let in_chuck = input.turning == Some(Turning::Chuck);
    let feature = input.feature.unwrap_or(if in_chuck { Feature::Boss } else { Feature::Bore });
    let (x, y) = (result.r#move.x, result.r#move.y);
    let to = (x.get().si(), y.get().si());
    let off = result.eccentricity.get().si();
    let is_off = off > TINY;
    // Work that runs true is drawn at some size too.
    let radius = if is_off { 3.0 * off } else { 0.01 };
    let (work, axis) = if in_chuck { ((0.0, 0.0), to) } else { (to, (0.0, 0.0)) };
    let mut drawing = Drawing::new("Centre by indicator", about(in_chuck, input, result));

    if feature == Feature::Boss {
        drawing.circle(Ink::Tint, work, radius);
    }
    drawing.circle(Ink::Outline, work, radius);
    drawing.cross(axis, 0.3 * radius);
    drawing.dot(to).of("move");
    let name = if feature == Feature::Boss { "boss" } else { "bore" };
    let (sin, cos) = angle::sin_cos(45.0);
    let on_work = (work.0 + radius * cos, work.1 + radius * sin);
    drawing.leader(on_work, 45.0, Words::of(format!("{name}, its size\nnot to scale")));

    let readings = [input.reading_0, input.reading_90, input.reading_180, input.reading_270];
    for (at, reading) in readings.into_iter().enumerate() {
        let degrees = 90.0 * at as f64;
        let (sin, cos) = angle::sin_cos(degrees);
        // Where the tip touches: on the work, straight out from the axis.
        let (dx, dy) = (axis.0 - work.0, axis.1 - work.1);
        let along = dx * cos + dy * sin;
        let across = dx * sin - dy * cos;
        let reach = (radius * radius - across * across).max(0.0).sqrt() - along;
        let place = if in_chuck { format!("jaw {}\n", at + 1) } else { format!("{degrees}°\n") };
        let touched = (axis.0 + reach * cos, axis.1 + reach * sin);
        drawing.dot(touched);
        drawing.note_kept(touched, 0.05 * radius, degrees, Words::of(place).value(reading));
    }

    if is_off {
        drawing.leg(Ink::Thin, (0.0, 0.0), to);
        if x.get().si().abs() > TINY {
            let line = Beside { from: if to.1 > 0.0 { 0.0 } else { to.1 }, by: -22.0 };
            drawing.across((0.0, 0.0), to, line, x).of("move.x");
        }
        if y.get().si().abs() > TINY {
            // Inside the work, on the far side of its centre.
            let side = if work.0 < axis.0 { -1.0 } else { 1.0 };
            drawing.upright((0.0, 0.0), to, Beside { from: work.0, by: 22.0 * side }, y).of("move.y");
        }
    }
    // Between the centre lines, away from the centre of the work.
    let towards = f64::atan2(if axis.1 < work.1 { -1.0 } else { 1.0 }, if axis.0 < work.0 { -1.0 } else { 1.0 });
    drawing.note_near(axis, 0.1 * radius, towards.to_degrees(), Words::of("axis"));
    drawing
}

fn about(in_chuck: bool, input: &IndicateInput, result: &IndicateResult) -> Words {
    let (moves, on_x, on_y) = if in_chuck {
        ("The work goes ", " toward jaw 1 and ", " toward jaw 2")
    } else {
        ("The spindle goes ", " on X and ", " on Y")
    };
    let places = if in_chuck { ["jaw 1", "jaw 2", "jaw 3", "jaw 4"] } else { ["0°", "90°", "180°", "270°"] };
    let readings = [input.reading_0, input.reading_90, input.reading_180, input.reading_270];
    let mut about = Words::of("The indicator reads ");
    for (at, (place, reading)) in places.into_iter().zip(readings).enumerate() {
        about = about.then(if at == 0 { "" } else { ", " }).value(reading).then(format!(" at {place}"));
    }
    about = about.then(". ").then(moves).value(result.r#move.x).then(on_x).value(result.r#move.y).then(on_y);
    about
        .then("; the centre is ")
        .value(result.eccentricity)
        .then(" from the axis. The size of the work is not to scale.")
}
