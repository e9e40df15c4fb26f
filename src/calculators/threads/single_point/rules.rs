//! What a request for single-point threading must not contradict.

use super::{CutThread, PassLaw, SinglePointInput, ThreadInfeed};
use crate::reference::threads::{ExternalClass, InternalClass};
use crate::refusal::{Code, rule_broken};
use validator::ValidationError;

/// A taper thread needs more than a depth, and a side has to exist.
pub fn check_thread(input: &SinglePointInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    if thread.is_taper() {
        let says = "A taper thread is cut with a taper attachment or the tailstock set over, and its depth changes along it: \
            parallel threads only.";
        return Err(rule_broken(Code::NotOffered, says, &[("thread", "G 1/2 A")]));
    }
    if !thread.has_external() && input.side == Some(CutThread::External) {
        let says = "Rp is an internal thread only.";
        return Err(rule_broken(Code::Conflict, says, &[("thread", "G 1/2 A"), ("side", "internal")]));
    }
    Ok(())
}

/// The class has to belong to the side that is cut and to the thread.
pub fn check_side(input: &SinglePointInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    let external = input.cuts() == CutThread::External;
    let (other, field) = if external {
        (input.internal_class.is_some(), "internal_class")
    } else {
        (input.external_class.is_some(), "external_class")
    };
    if other {
        let says = format!("{field} is the class of the side that is not cut.");
        let side = if external { "internal" } else { "external" };
        return Err(rule_broken(Code::Conflict, says, &[(field, "leave out"), ("side", side)]));
    }
    let (class, field): (bool, _) = if external {
        (input.external_class.is_some(), "external_class")
    } else {
        (input.internal_class.is_some(), "internal_class")
    };
    if class && input.pitch_diameter.is_some() {
        let says = "A class has its own pitch diameter: state one of the two.";
        return Err(rule_broken(Code::Conflict, says, &[(field, "leave out"), ("pitch_diameter", "leave out")]));
    }
    let clash = if external {
        ExternalClass::clash(thread, input.external_class.as_ref())
    } else {
        InternalClass::clash(thread, input.internal_class.as_ref())
    };
    match clash {
        None => Ok(()),
        Some(clash) => {
            let fields = [("thread", clash.thread.as_str()), (field, clash.class.as_str())];
            Err(rule_broken(Code::Conflict, clash.says, &fields))
        }
    }
}

/// A tip is flat or round.
pub fn check_tip(input: &SinglePointInput) -> Result<(), ValidationError> {
    if input.tip_flat.is_some() && input.tip_radius.is_some() {
        let says = "A tip is flat or rounded: state one of the two; a sharp one has a flat of 0.";
        return Err(rule_broken(Code::Conflict, says, &[("tip_flat", "leave out"), ("tip_radius", "leave out")]));
    }
    if input.law == Some(PassLaw::EqualArea) && input.tip_radius.is_some() {
        let says = "Passes of equal area are worked out for a flat or a sharp tip.";
        return Err(rule_broken(Code::NotOffered, says, &[("law", "square_root"), ("tip_radius", "leave out")]));
    }
    Ok(())
}

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

/// A number of passes fixes every depth.
pub fn check_passes(input: &SinglePointInput) -> Result<(), ValidationError> {
    let stated = [("first_depth", input.first_depth.is_some()), ("least_depth", input.least_depth.is_some())];
    let stated = stated.iter().filter(|(_, is)| *is).map(|(field, _)| (*field, "leave out"));
    if input.passes.is_none() || stated.clone().next().is_none() {
        return Ok(());
    }
    let fields: Vec<_> = std::iter::once(("passes", "leave out")).chain(stated).collect();
    let says = "The number of passes fixes the depth of each: state it, or what the first and the least may be.";
    Err(rule_broken(Code::Conflict, says, &fields))
}
