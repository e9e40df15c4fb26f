//! What facing and parting take of the machine where the cut begins.

use super::{FacingCut, FacingInput};
use crate::machine::{CutPower, ProcessFactor, Removal, TurnSet, cut_power};
use crate::quantity::{FoundChipThickness, FoundRemovalRate, SiValue};
use crate::working::{Record, Shown};
use std::f64::consts::PI;

/// Facing is cut like outside turning.
const FACING: ProcessFactor = ProcessFactor {
    of: "constant:process_factor",
    value: 1.0,
    source: "process_factor_memory",
    place: "outside turning is the base of the factors",
};

/// A chip in a groove is pressed from both sides.
const PARTING: ProcessFactor = ProcessFactor {
    of: "constant:process_factor",
    value: 1.3,
    source: "process_factor_memory",
    place: "factor of parting and grooving",
};

/// The metal removed where the cut begins; needs the depth of cut.
pub fn removal_rate(input: &FacingInput, set: &TurnSet, record: &mut Record) -> Option<FoundRemovalRate> {
    let depth = input.depth_of_cut?;
    let rate = FoundRemovalRate::of(PI * input.outer_diameter.get() * depth.get() * set.feed_rate.get());
    record
        .step("Metal removed where the cut begins", "Q = π × D × ap × vf")
        .with("D", "outer_diameter", input.outer_diameter)
        .with("ap", "depth_of_cut", depth)
        .with("vf", "feed_rate", set.feed_rate)
        .gives("removal_rate", rate);
    Some(rate)
}

/// Power where the cut begins; needs a material.
pub fn find(
    input: &FacingInput,
    (cut, rate): (FacingCut, FoundRemovalRate),
    set: &TurnSet,
    held: &mut Vec<(&'static str, &'static str, Shown)>,
    record: &mut Record,
) -> Option<CutPower> {
    let process = if cut == FacingCut::Parting { &PARTING } else { &FACING };
    let chip = FoundChipThickness::of(set.feed_per_rev.get());
    record
        .step("Thickness of the chip", "h = f")
        .with("f", "feed_per_rev", set.feed_per_rev)
        .gives("chip_thickness", chip);
    let removal = Removal {
        rate,
        feed_of: "feed_per_rev",
        feed: set.feed_per_rev.into(),
        feed_si: set.feed_per_rev.get().si(),
        wear: "turning_rough",
    };
    let work = (input.material.as_ref(), &input.drive());
    cut_power(work, &removal, ("chip_thickness", chip, process), set.spindle_speed, held, record)
}
