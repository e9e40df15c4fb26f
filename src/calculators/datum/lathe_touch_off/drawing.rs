//! The work from above, the tool on the operator's side where it cut: as it is, and as it is wanted.

use super::{LatheTouchOffInput, LatheTouchOffResult, TurnedSurface};
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::quantity::{SiValue, TINY};

/// Draws an answer.
pub fn draw(input: &LatheTouchOffInput, result: &LatheTouchOffResult) -> Drawing {
    let (now, wanted) = (input.measured_diameter.get().si() / 2.0, input.target_diameter.get().si() / 2.0);
    let is_inside = input.surface == Some(TurnedSurface::Inside);
    let long = 3.0 * now.max(wanted);
    let mut drawing = Drawing::new("Cross slide after the trial cut", about(input, result));

    let block = |low: f64, high: f64| vec![(0.0, low), (long, low), (long, high), (0.0, high)];
    let outside = if is_inside { 1.4 * wanted } else { now };
    if is_inside {
        drawing.closed(Ink::Tint, block(now, outside));
        drawing.closed(Ink::Tint, block(-outside, -now));
    } else {
        drawing.closed(Ink::Tint, block(-now, now));
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
    drawing
        .upright((0.0, -now), (0.0, now), left, Words::of("is\nØ ").value(input.measured_diameter))
        .of("measured_diameter");
    let right = Beside { from: long, by: 18.0 };
    let words = Words::of("wanted\nØ ").value(input.target_diameter);
    drawing.upright((long, -wanted), (long, wanted), right, words).of("target_diameter");
    if (now - wanted).abs() > TINY {
        let words = Words::of("slide\n").value(result.slide_travel);
        drawing.upright(tip, (tip.0, -wanted), Beside { from: tip.0, by: 40.0 }, words).of("slide_travel");
    }
    let words = Words::of("set now ").value(result.set_reading).then("\nat size ").value(result.target_reading);
    drawing.note_near((tip.0, (-outside).min(back)), 0.0, 270.0, words);
    drawing
}

fn about(input: &LatheTouchOffInput, result: &LatheTouchOffResult) -> Words {
    Words::of("The tool stands where it turned ")
        .value(input.measured_diameter)
        .then(" in diameter: set the reading to ")
        .value(result.set_reading)
        .then(" there. At ")
        .value(result.target_reading)
        .then(" the diameter is ")
        .value(input.target_diameter)
        .then("; the slide itself moves ")
        .value(result.slide_travel)
        .then(".")
}
