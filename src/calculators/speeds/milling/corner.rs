//! The diameter at the depth of cut of a cutter with a rounded corner or a ball nose: plane geometry.

use super::MillingInput;
use crate::calculators::prelude::*;
use crate::machine::CutDiameter;

/// The step and the result field of that diameter.
pub const FIELD: &str = "effective_diameter";

/// The diameter at which the cutting speed counts; records the step that gives `effective_diameter`
/// where the corner makes it smaller than the cutter's.
pub fn cut_diameter(input: &MillingInput, record: &mut Record) -> CutDiameter {
    let Some(corner) = input.corner_radius.filter(|corner| input.axial_depth.get() < corner.get()) else {
        return input.diameter.into();
    };
    let (across, radius, depth) = (input.diameter.get().si(), corner.get().si(), input.axial_depth.get().si());
    let found = across - 2.0 * radius + 2.0 * (depth * (2.0 * radius - depth)).sqrt();
    let unit = input.diameter.quantity().unit;
    let size = Size::stated(unit.of_si(found), unit);
    record
        .step("Diameter at the depth of cut", "De = D - 2 × r + 2 × √(ap × (2 × r - ap))")
        .with("D", "diameter", input.diameter)
        .with("r", "corner_radius", corner)
        .with("ap", "axial_depth", input.axial_depth)
        .gives(FIELD, size.found());
    record.note(
        "corner_thins_chip",
        "The cut lies within the corner's radius: the speed is reckoned at the diameter where the cut is deepest, and the \
         chip is thinner than the thicknesses given, which are those of a straight edge.",
    );
    CutDiameter { of: FIELD, size }
}
