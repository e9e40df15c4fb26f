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
            "Where the corner or the ball cuts depends on the depth of cut: without it, the speed is for the whole diameter.",
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
        "The cut is within the corner radius: the speed is calculated for the largest diameter that cuts, and the chip is \
         thinner than the thicknesses given, which are for a straight edge.",
    );
    CutDiameter { of: FIELD, size }
}
