//! Examples of single-point threading.

use crate::calculators::Example;

/// Set in the demonstration shop.
pub const EXAMPLES: &[Example] = crate::examples! {
    "A 1/2-13 stud for a winch on a blank of 0.498 in, by the compound at 29.5 degrees, sharp tip, 12 passes.":
        thread = "1/2-13 UNC", external_class = "2A", blank_diameter = "0.498 in", tip_flat = "0 in",
        infeed = "compound", compound_angle = "29.5 deg", passes = "12", spring_passes = "2";
    "An M24 nut of a pump, bored to 20.9 mm, straight in with a rounded tip; the first pass 0.3 mm deep, none below 0.05 mm.":
        thread = "M24x3", side = "internal", internal_class = "6H", blank_diameter = "20.9 mm", tip_radius = "0.2 mm",
        first_depth = "0.3 mm", least_depth = "0.05 mm", dial = "diameter";
    "A left-hand two-start Acme spindle of a mill gear to a pitch diameter, the chips of equal area.":
        thread = "1-5 Acme-LH (2 STARTS)", pitch_diameter = "0.890 in", law = "equal_area", passes = "20";
};
