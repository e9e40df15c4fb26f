//! The diameter at the depth of cut of a cutter with a rounded corner or a ball nose: plane geometry.

use super::MillingInput;
use crate::calculators::prelude::*;
use crate::machine::CutDiameter;

/// The step and the result field of that diameter.
pub const FIELD: &str = "effective_diameter";

/// The diameter at which the cutting speed counts; records the step that gives `effective_diameter`
/// where the corner makes it smaller than the cutter's.
pub fn cut_diameter(input: &MillingInput, record: &mut Record) -> CutDiameter {
    let Some(corner) = input.corner_radius else { return input.diameter.into() };
    let Some(depth) = input.axial_depth else {
        record.note(
            "corner_needs_depth",
            "Where the corner or the ball cuts depends on axial_depth: without it the speed is that of the whole diameter.",
        );
        return input.diameter.into();
    };
    if depth.get() >= corner.get() {
        return input.diameter.into();
    }
    let found: FoundSize = step!(record, "Diameter at the depth of cut",
        De: (FIELD) = D - 2.0 * r + 2.0 * root(ap * (2.0 * r - ap)),
        D = diameter: input.diameter, r = corner_radius: corner, ap = axial_depth: depth);
    let unit = input.diameter.quantity().unit;
    let size = Size::stated(unit.of_si(found.get().si()), unit);
    record.note(
        "corner_thins_chip",
        "The cut lies within the corner's radius: the speed is reckoned at the diameter where the cut is deepest, and the \
         chip is thinner than the thicknesses given, which are those of a straight edge.",
    );
    CutDiameter { of: FIELD, size }
}
