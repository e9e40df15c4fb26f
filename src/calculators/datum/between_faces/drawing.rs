//! Both touches from above, readings growing to the right: the faces, the tip at each, the middle.

use super::{BetweenFacesInput, BetweenFacesResult};
use crate::arithmetic::touching::{Touched, across};
use crate::drawing::{Beside, Drawing, Ink, words};

/// Draws an answer.
pub fn draw(input: &BetweenFacesInput, result: &BetweenFacesResult) -> Drawing {
    let (middle, width) = (result.center.si(), result.width.si());
    let radius = across(input.tip_diameter) / 2.0;
    let touched = input.touched;
    let (what, wide) = match touched {
        Some(Touched::Outside) => ("A block", "wide"),
        Some(Touched::Inside) => ("A slot", "wide"),
        None => ("Two faces", "apart"),
    };
    let about = words!("{} {} {}, touched at {} and {}; its middle is at {}. Set the readout to {} at the second \
     touch.":
        what, result.width, wide, input.first, input.second, result.center, result.set_here);
    let mut drawing = Drawing::new("Middle between two faces", about);

    let high = (0.3 * width).max(1.3 * radius);
    let (low, top) = (middle - width / 2.0, middle + width / 2.0);
    let wall = 0.35 * width;
    let metal = match touched {
        Some(Touched::Outside) => vec![(low, top)],
        Some(Touched::Inside) => vec![(low - wall, low), (top, top + wall)],
        None => Vec::new(),
    };
    for (from, to) in metal {
        drawing.block(Ink::Tint, (from, -high), (to, high));
    }
    for face in [low, top] {
        drawing.line(Ink::Outline, (face, -high), (face, high)).of("face");
    }
    // In a slot words stand above the tips.
    let top_end = if touched == Some(Touched::Inside) { 0.4 * high } else { high };
    drawing.line(Ink::Centre, (middle, -high), (middle, top_end));
    let (first, second) = (input.first.si(), input.second.si());
    drawing.touch((first, 0.0), radius);
    drawing.touch((second, 0.0), radius);
    let overlap = (second - first).abs() < 3.0 * radius;
    for (number, at) in [("1", first), ("2", second)] {
        // Away from the face that it touches; inside its circle where the two overlap or nearly.
        let inside = touched == Some(Touched::Inside);
        let (clear, away) = if inside && overlap { (0.0, at > middle) } else { (radius, (at > middle) != inside) };
        drawing.note_kept((at, 0.0), clear, if away { 0.0 } else { 180.0 }, number);
    }
    let below = Beside { from: -high, by: -12.0 };
    drawing.x_reading((middle, -high), below, words!("middle\n{}": result.center)).of("center");
    drawing.x_reading((first, -radius), below, words!("first\n{}": input.first)).of("first");
    drawing.x_reading((second, -radius), below, words!("second\n{}": input.second)).of("second");
    let above = Beside { from: high, by: 22.0 };
    drawing.across((low, high), (top, high), above, result.width).of("width");
    let towards = if second > middle { 75.0 } else { 105.0 };
    drawing.leader((second, radius), towards, words!("set here\n{}": result.set_here));
    drawing
}
