//! The taper from the side, its axis along X, the large end on the left.

use super::{TaperInput, TaperResult};
use crate::drawing::{Beside, Drawing, Ink, Reach, words};
use crate::quantity::angle;

/// Draws an answer: by its own ends where they are known, else a piece of it that shows the angle.
pub fn draw(_: &TaperInput, result: &TaperResult) -> Drawing {
    let about = words!("A taper of {} to the axis, {} in all, {} per foot.":
        result.slide_angle, result.full_angle, result.taper_per_foot);
    let mut drawing = Drawing::new("Taper and its angle", about);
    let slope = angle::tan(result.slide_angle.degrees());
    let whole = result.large_end.zip(result.small_end).zip(result.taper_length);
    let (large, small, length) = match whole {
        Some(((large, small), length)) => (large.si() / 2.0, small.si() / 2.0, length.si()),
        // Nothing but the angle: a cone as long as it is wide at most.
        None => {
            let large = result.large_end.map_or(0.5, |end| end.si() / 2.0);
            let length = (large * 3.0).min(large * 0.7 / slope);
            (large, large - length * slope, length)
        }
    };
    let corners = vec![(0.0, large), (length, small), (length, -small), (0.0, -large)];
    drawing.closed(Ink::Outline, corners);
    drawing.line(Ink::Centre, (-length * 0.08, 0.0), (length * 1.08, 0.0));
    if whole.is_some() {
        let left = Beside { from: 0.0, by: -22.0 };
        let right = Beside { from: length, by: 22.0 };
        let below = Beside { from: -large, by: -22.0 };
        if let Some(end) = result.large_end {
            drawing.upright((0.0, -large), (0.0, large), left, end).of("large_end");
        }
        if let Some(end) = result.small_end {
            drawing.upright((length, -small), (length, small), right, end).of("small_end");
        }
        if let Some(long) = result.taper_length {
            drawing.across((0.0, -large), (length, -small), below, long).of("taper_length");
        }
    }
    // The side goes on to the axis, where the angle is.
    let point = large / slope;
    if point < length * 4.0 {
        drawing.line(Ink::Thin, (length, small), (point, 0.0));
        let degrees = result.slide_angle.degrees();
        let words = result.slide_angle;
        drawing.angle((point, 0.0), 180.0 - degrees, degrees, Reach::Model(point * 0.4), words).of("slide_angle");
    } else {
        let along = (length * 0.5, large - length * 0.5 * slope);
        drawing.line(Ink::Thin, (0.0, large), (length, large)).of("axis");
        drawing.leader(along, 70.0, words!("{}": result.slide_angle)).of("slide_angle");
    }
    drawing
}
