//! What a request for single-point threading must not contradict.

use super::{CutThread, PassLaw, SinglePointInput, ThreadInfeed};
use crate::calculators::prelude::*;
use crate::threading::check_class;

// A taper thread needs more than a depth, and a side has to exist.
rules! { pub check_thread(SinglePointInput) {
    never(|input| input.thread.thread.is_taper(), Code::NotOffered, thread = "G 1/2 A"):
        "A taper thread is cut with a taper attachment or the tailstock set over, and its depth changes along it: \
         parallel threads only.";
    never(|input| !input.thread.thread.has_external() && input.side == Some(CutThread::External), Code::Conflict,
        thread = "G 1/2 A", side = "internal"): "Rp is an internal thread only.";
} }

const TWO_AIMS: &str = "A class has its own pitch diameter: state one of the two.";

rules! { check_classes(SinglePointInput) {
    never(|input| input.cuts() == CutThread::External && input.internal_class.is_some(), Code::Conflict,
        internal_class = "leave out", side = "internal"): "internal_class is the class of the side that is not cut.";
    never(|input| input.cuts() == CutThread::Internal && input.external_class.is_some(), Code::Conflict,
        external_class = "leave out", side = "external"): "external_class is the class of the side that is not cut.";
    not_both(external_class, pitch_diameter): TWO_AIMS;
    not_both(internal_class, pitch_diameter): TWO_AIMS;
} }

/// The class has to belong to the side that is cut and to the thread.
pub fn check_side(input: &SinglePointInput) -> Result<(), ValidationError> {
    check_classes(input)?;
    let thread = ("thread", &input.thread.thread);
    check_class(thread, ("external_class", input.external_class.as_ref()))?;
    check_class(thread, ("internal_class", input.internal_class.as_ref()))
}

rules! { pub check_tip(SinglePointInput) {
    not_both(tip_flat, tip_radius): "A tip is flat or rounded: state one of the two; a sharp one has a flat of 0.";
    never(|input| input.law == Some(PassLaw::EqualArea) && input.tip_radius.is_some(), Code::NotOffered,
        law = "square_root", tip_radius = "leave out"): FLAT_ONLY;
} }

/// Why a rounded tip has no passes of equal area.
pub const FLAT_ONLY: &str = "Passes of equal area are worked out for a flat or a sharp tip.";

/// The compound's angle belongs to the compound, and is no steeper than the flank.
pub fn check_infeed(input: &SinglePointInput) -> Result<(), ValidationError> {
    let Some(angle) = input.compound_angle else { return Ok(()) };
    if input.infeed == Some(ThreadInfeed::CrossSlide) {
        let says = "compound_angle is for feeding with the compound slide.";
        return Err(rule_broken(Code::Conflict, says, &[("compound_angle", "leave out"), ("infeed", "compound")]));
    }
    let half = input.thread.thread.system.flank_angle() / 2.0;
    if angle.degrees() > half + 1e-9 {
        let says = format!(
            "From the cross slide's direction the compound goes no farther than half the angle between the flanks, {half} \
             degrees, or the trailing flank comes out in steps. A scale that starts at the lathe's axis shows 90 degrees \
             less this."
        );
        let good = format!("{} deg", half - 0.5);
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("compound_angle", &good)]));
    }
    Ok(())
}

const DEPTHS_TWICE: &str =
    "The number of passes fixes the depth of each: state it, or what the first and the least may be.";

rules! { pub check_passes(SinglePointInput) {
    never(|input| input.passes.is_some() && input.first_depth.is_some() && input.least_depth.is_some(), Code::Conflict,
        passes = "leave out", first_depth = "leave out", least_depth = "leave out"): DEPTHS_TWICE;
    not_both(passes, first_depth): DEPTHS_TWICE;
    not_both(passes, least_depth): DEPTHS_TWICE;
} }
