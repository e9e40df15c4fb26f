//! What a request for single-point threading must not contradict.

use super::{CutThread, PassLaw, SinglePointInput, ThreadInfeed};
use crate::calculators::prelude::*;
use crate::threading::check_class;

// A taper thread needs more than a depth, and a side has to exist.
rules! { pub check_thread(SinglePointInput) {
    never(|input| input.thread.thread.is_taper(), Code::NotOffered, thread = "G 1/2 A"):
        "Give a parallel thread. A taper thread needs a taper attachment or the tailstock set over, and its depth \
         changes along it.";
    never(|input| !input.thread.thread.has_external() && input.side == Some(CutThread::External), Code::Conflict,
        thread = "G 1/2 A", side = "internal"): "Rp is an internal thread: no screw has it.";
} }

const TWO_AIMS: &str = "Give a class or a pitch diameter, not both: a class has its own pitch diameter.";

rules! { check_classes(SinglePointInput) {
    never(|input| input.cuts() == CutThread::External && input.internal_class.is_some(), Code::Conflict,
        internal_class = "leave out", side = "internal"): "A screw is cut here: leave out the class of the nut, or cut \
            the nut.";
    never(|input| input.cuts() == CutThread::Internal && input.external_class.is_some(), Code::Conflict,
        external_class = "leave out", side = "external"): "A nut is cut here: leave out the class of the screw, or cut \
            the screw.";
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
    not_both(tip_flat, tip_radius): "Give a flat or a radius for the tip, not both; a sharp tip has a flat of 0.";
    never(|input| input.law == Some(PassLaw::EqualArea) && input.tip_radius.is_some(), Code::NotOffered,
        law = "square_root", tip_radius = "leave out"): FLAT_ONLY;
} }

/// Why a rounded tip has no passes of equal area.
pub const FLAT_ONLY: &str = "Passes of equal area need a sharp tip or a flat one.";

/// The compound's angle belongs to the compound, and is no steeper than the flank.
pub fn check_infeed(input: &SinglePointInput) -> Result<(), ValidationError> {
    let Some(angle) = input.compound_angle else { return Ok(()) };
    if input.infeed == Some(ThreadInfeed::CrossSlide) {
        let says =
            "The compound angle has no use where the cross slide feeds: leave it out, or feed with the compound.";
        return Err(rule_broken(Code::Conflict, says, &[("compound_angle", "leave out"), ("infeed", "compound")]));
    }
    let half = input.thread.thread.system.flank_angle() / 2.0;
    if angle.degrees() > half + 1e-9 {
        let says = format!(
            "Set the compound at most {half} degrees, half the flank angle, from the direction of the cross slide, or \
             the trailing flank comes out in steps. A scale that counts from the axis of the lathe shows 90 degrees \
             less that."
        );
        let good = format!("{} deg", half - 0.5);
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("compound_angle", &good)]));
    }
    Ok(())
}

const DEPTHS_TWICE: &str = "Give the number of passes, or the depth of the first pass and the least depth, not both.";

rules! { pub check_passes(SinglePointInput) {
    never(|input| input.passes.is_some() && input.first_depth.is_some() && input.least_depth.is_some(), Code::Conflict,
        passes = "leave out", first_depth = "leave out", least_depth = "leave out"): DEPTHS_TWICE;
    not_both(passes, first_depth): DEPTHS_TWICE;
    not_both(passes, least_depth): DEPTHS_TWICE;
} }
