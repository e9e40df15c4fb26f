//! The part's band and the gauges' bands below it, sizes growing to the right. Only the way across is to scale.

use super::{GaugeMakersInput, GaugeMakersResult};
use crate::arithmetic::measured::HoleOrShaft;
use crate::drawing::{Beside, Drawing, Ink, words};

/// Draws an answer.
pub fn draw(input: &GaugeMakersInput, result: &GaugeMakersResult) -> Drawing {
    let (least, greatest) = (input.least.si(), input.greatest.si());
    let high = 0.16 * (greatest - least);
    let (what, gauge) = match input.feature {
        HoleOrShaft::Hole => ("hole", "plug"),
        HoleOrShaft::Shaft => ("shaft", "ring"),
    };
    let about = words!("Sizes allowed for the {}, {} to {}; a go {} of {} to {} and a no-go {} of {} to {}, both inside \
     of them. Only sizes are to scale.":
        what, input.least, input.greatest, gauge, result.go_least, result.go_greatest, gauge, result.no_go_least,
        result.no_go_greatest);
    let mut drawing = Drawing::new("Gauges inside the part's limits", about);
    drawing.block(Ink::Tint, (least, 0.0), (greatest, high)).of("part");
    for edge in [least, greatest] {
        drawing.line(Ink::Outline, (edge, -high), (edge, high));
    }
    drawing.label(((least + greatest) / 2.0, high / 2.0), what);
    let go = (result.go_least.si(), result.go_greatest.si());
    let no_go = (result.no_go_least.si(), result.no_go_greatest.si());
    for ((from, to), field) in [(go, "go"), (no_go, "no_go")] {
        drawing.block(Ink::Outline, (from, -high), (to, 0.0)).of(field);
    }
    let below = Beside { from: -high, by: -16.0 };
    drawing.x_reading((least, -high), below, words!("least\n{}": input.least)).of("least");
    drawing.x_reading((greatest, -high), below, words!("greatest\n{}": input.greatest)).of("greatest");
    let beside = |(from, to): (f64, f64)| ((from + to) / 2.0, -0.5 * high);
    // Each stands on the free side of its band, inside of the part's limits.
    let (left, right) = if go.0 < no_go.0 { ("go", "no-go") } else { ("no-go", "go") };
    let (low, top) = if go.0 < no_go.0 { (go, no_go) } else { (no_go, go) };
    drawing.note_kept(beside(low), (low.1 - low.0) / 2.0, 0.0, left);
    drawing.note_kept(beside(top), (top.1 - top.0) / 2.0, 180.0, right);
    drawing
}
