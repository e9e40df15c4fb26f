//! The work from above, the tool on the operator's side where it cut: as it is, and as it is wanted.

use super::{LatheTouchOffInput, LatheTouchOffResult, TurnedSurface};
use crate::drawing::{Beside, Drawing, Ink, Point, words};
use crate::quantity::TINY;

/// Draws an answer.
pub fn draw(input: &LatheTouchOffInput, result: &LatheTouchOffResult) -> Drawing {
    let (now, wanted) = (input.measured_diameter.si() / 2.0, input.target_diameter.si() / 2.0);
    let is_inside = input.surface == Some(TurnedSurface::Inside);
    let long = 3.0 * now.max(wanted);
    let about = words!("The tool stands where it turned {} in diameter: set the dial to {} there. At {} the diameter \
        is {}; the slide itself moves {}.": input.measured_diameter, result.set_reading, result.target_reading,
        input.target_diameter, result.slide_travel);
    let mut drawing = Drawing::new("Cross slide after the trial cut", about);

    let outside = if is_inside { 1.4 * wanted } else { now };
    if is_inside {
        drawing.block(Ink::Tint, (0.0, now), (long, outside));
        drawing.block(Ink::Tint, (0.0, -outside), (long, -now));
    } else {
        drawing.block(Ink::Tint, (0.0, -now), (long, now));
    }
    for side in [-1.0, 1.0] {
        drawing.line(Ink::Outline, (0.0, side * now), (long, side * now)).of("measured_diameter");
        if (now - wanted).abs() > TINY {
            drawing.line(Ink::Dashed, (0.0, side * wanted), (long, side * wanted)).of("target_diameter");
        }
    }
    drawing.line(Ink::Centre, (0.0, 0.0), (long, 0.0));

    let tip: Point = (0.5 * long, -now);
    let back = -now + if is_inside { 0.5 } else { -0.5 } * now;
    drawing.closed(Ink::Outline, vec![tip, (tip.0 - 0.2 * now, back), (tip.0 + 0.2 * now, back)]).of("tool");

    let left = Beside { from: 0.0, by: -18.0 };
    let words = words!("is\nØ {}": input.measured_diameter);
    drawing.upright((0.0, -now), (0.0, now), left, words).of("measured_diameter");
    let right = Beside { from: long, by: 18.0 };
    let words = words!("wanted\nØ {}": input.target_diameter);
    drawing.upright((long, -wanted), (long, wanted), right, words).of("target_diameter");
    if (now - wanted).abs() > TINY {
        let words = words!("slide\n{}": result.slide_travel);
        drawing.upright(tip, (tip.0, -wanted), Beside { from: tip.0, by: 40.0 }, words).of("slide_travel");
    }
    let words = words!("set now {}\nat size {}": result.set_reading, result.target_reading);
    drawing.note_near((tip.0, (-outside).min(back)), 0.0, 270.0, words);
    drawing
}
