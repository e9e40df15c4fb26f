//! The stack on its plate, each block to its thickness.

use super::{GaugeBlocksInput, GaugeBlocksResult};
use crate::drawing::{Beside, Drawing, Ink, words};

/// Draws an answer: the plate at zero.
pub fn draw(_: &GaugeBlocksInput, result: &GaugeBlocksResult) -> Drawing {
    let height = result.stack.stack_height.si();
    let about = words!("A stack of gauge blocks {} high.": result.stack.stack_height);
    let mut drawing = Drawing::new("Stack of gauge blocks", about);
    let half = (height * 0.25).max(0.009);
    drawing.line(Ink::Outline, (-half * 1.6, 0.0), (half * 1.6, 0.0)).of("plate");
    let mut from = 0.0;
    for block in &result.stack.blocks {
        let to = from + block.size.si();
        drawing.block(Ink::Outline, (-half, from), (half, to)).of("blocks");
        let middle = (half, (from + to) / 2.0);
        drawing.note_beside(middle, 0.0, 0.0, block.size).number(block.number);
        from = to;
    }
    drawing
        .upright((-half, 0.0), (-half, height), Beside { from: -half, by: -24.0 }, result.stack.stack_height)
        .of("stack_height");
    drawing
}
