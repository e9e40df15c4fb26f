//! The lathe from above: the bed along X, the slide's line at its angle, and what one move gives in and along.

use super::{CompoundFeedInput, CompoundFeedResult};
use crate::drawing::{Beside, Drawing, Ink, Reach, Words, words};

/// Draws an answer: the tool before the move at zero, the work above, as set.
pub fn draw(_: &CompoundFeedInput, result: &CompoundFeedResult) -> Drawing {
    let about = words!("A compound slide at {} to the bed: a move feeds the tool in by {} on the radius.":
        result.bed_angle, result.feeds_in);
    let (along, infeed) = (result.along.si(), result.feeds_in.si());
    let mut drawing = Drawing::new("Compound slide from above", about);
    let size = along.hypot(infeed);
    // The tool goes in toward the work, and along the bed to the left, toward the chuck.
    let tip = (-along, infeed);
    drawing.line(Ink::Centre, (-1.25 * size, 0.0), (0.3 * size, 0.0)).of("bed");
    drawing.leg(Ink::Outline, (0.0, 0.0), tip).of("slide");
    drawing.line(Ink::Thin, (tip.0, 0.0), tip);
    drawing
        .across((tip.0, 0.0), (0.0, 0.0), Beside { from: 0.0, by: -26.0 }, Words::of("along\n").value(result.along))
        .of("along");
    drawing
        .upright((tip.0, 0.0), tip, Beside { from: tip.0, by: -26.0 }, Words::of("in\n").value(result.feeds_in))
        .of("feeds_in");
    let stands = infeed.atan2(along).to_degrees();
    if stands > 2.0 && (stands - result.bed_angle.degrees()).abs() < 1e-9 {
        drawing.angle((0.0, 0.0), 180.0, -stands, Reach::Sheet(90.0), result.bed_angle).of("bed_angle");
    }
    drawing
}
