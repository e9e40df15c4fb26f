//! Both touches from above, readings growing to the right: the faces, the tip at each, the middle.

use super::{BetweenFacesInput, BetweenFacesResult};
use crate::arithmetic::touching::{Touched, across};
use crate::drawing::{Beside, Drawing, Ink, Words};
use crate::quantity::SiValue;

/// Draws an answer.
pub fn draw(input: &BetweenFacesInput, result: &BetweenFacesResult) -> Drawing {
    let (middle, width) = (result.center.get().si(), result.width.get().si());
    let radius = across(input.tip_diameter) / 2.0;
    let touched = input.touched;
    let what = match touched {
        Some(Touched::Outside) => "A block ",
        Some(Touched::Inside) => "A slot ",
        None => "Two faces ",
    };
    let about = Words::of(what)
        .value(result.width)
        .then(if touched.is_none() { " apart" } else { " wide" })
        .then(", touched at ")
        .value(input.first)
        .then(" and ")
        .value(input.second)
        .then("; its middle is at ")
        .value(result.center)
        .then(". Set ")
        .value(result.set_here)
        .then(" at the second touch.");
    let mut drawing = Drawing::new("Middle between two faces", about);

    let high = (0.3 * width).max(1.3 * radius);
    let (low, top) = (middle - width / 2.0, middle + width / 2.0);
    let block = |a: f64, b: f64| vec![(a, -high), (b, -high), (b, high), (a, high)];
    match touched {
        Some(Touched::Outside) => {
            drawing.closed(Ink::Tint, block(low, top));
        }
        Some(Touched::Inside) => {
            let wall = 0.35 * width;
            drawing.closed(Ink::Tint, block(low - wall, low));
            drawing.closed(Ink::Tint, block(top, top + wall));
        }
        None => {}
    }
    for face in [low, top] {
        drawing.line(Ink::Outline, (face, -high), (face, high)).of("face");
    }
    // In a slot words stand above the tips.
    let top_end = if touched == Some(Touched::Inside) { 0.4 * high } else { high };
    drawing.line(Ink::Centre, (middle, -high), (middle, top_end));
    let touches = [(1, input.first.get().si()), (2, input.second.get().si())];
    for (_, at) in touches {
        if radius > 0.0 {
            drawing.circle(Ink::Thin, (at, 0.0), radius).of("tip_diameter");
        }
        drawing.dot((at, 0.0));
    }
    let overlap = (touches[1].1 - touches[0].1).abs() < 3.0 * radius;
    for (number, at) in touches {
        // Away from the face that it touches; inside its circle where the two overlap or nearly.
        let inside = touched == Some(Touched::Inside);
        let (clear, away) = if inside && overlap { (0.0, at > middle) } else { (radius, (at > middle) != inside) };
        drawing.note_kept((at, 0.0), clear, if away { 0.0 } else { 180.0 }, Words::of(number.to_string()));
    }
    let below = Beside { from: -high, by: -12.0 };
    drawing.x_reading((middle, -high), below, Words::of("middle\n").value(result.center)).of("center");
    drawing.x_reading((touches[0].1, -radius), below, Words::of("first\n").value(input.first)).of("first");
    drawing.x_reading((touches[1].1, -radius), below, Words::of("second\n").value(input.second)).of("second");
    let above = Beside { from: high, by: 22.0 };
    drawing.across((low, high), (top, high), above, result.width).of("width");
    let towards = if touches[1].1 > middle { 75.0 } else { 105.0 };
    drawing.leader((touches[1].1, radius), towards, Words::of("set here\n").value(result.set_here));
    drawing
}
