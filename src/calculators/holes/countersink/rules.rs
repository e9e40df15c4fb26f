//! The rules between the fields of the countersink calculator.

use super::CountersinkInput;
use crate::calculators::prelude::*;
use crate::reference::threads::ThreadSystem;

const ONE: &str = "Give one of these: the diameter wanted, a flat-head screw, a thread to chamfer for, or how far the quill \
                   goes.";

rules! { check_one(CountersinkInput) {
    never(|input| is_nothing_wanted(input) && (input.head.is_some() || input.below.is_some()), Code::FieldMissing,
        screw = "M6"): "This is of a flat-head screw: say which.";
    one_of(diameter = "10 mm", screw = "M6", thread = "M8", quill_travel = "2 mm"): ONE;
    never(|input| input.head.is_some() && input.screw.is_none(), Code::Conflict, head = "leave out"):
        "The kind of head is that of a screw, and no screw is asked about.";
    never(|input| input.below.is_some() && input.screw.is_none(), Code::Conflict, below = "leave out"):
        "How far the head lies below the face is for a screw, and no screw is asked about.";
} }

fn is_nothing_wanted(input: &CountersinkInput) -> bool {
    stated!(input: diameter, screw, thread, quill_travel).iter().all(|(.., given)| !given)
}

/// One thing is wanted, and what belongs to a screw comes with one.
pub fn check_wanted(input: &CountersinkInput) -> Result<(), ValidationError> {
    let wanted = stated!(input: diameter, screw, thread, quill_travel);
    if wanted.iter().filter(|(.., given)| *given).count() > 1 {
        return Err(rule_broken(Code::Conflict, ONE, &to_leave_out(&wanted)));
    }
    if let Some(thread) = &input.thread
        && (thread.thread.is_taper() || !thread.thread.has_internal() || thread.thread.system == ThreadSystem::Npt)
    {
        let says = "The mouth of a taper thread is larger than its size. Give the diameter wanted.";
        return Err(rule_broken(Code::Conflict, says, &[("thread", "M8")]));
    }
    check_one(input)
}

rules! { pub check_tool(CountersinkInput) {
    never(|input| input.point_angle.is_some_and(|angle| !(30.0..=150.0).contains(&angle.degrees())),
        Code::ValueOutOfRange, point_angle = "90 deg"): "Countersinks have 30 to 150 degrees, most of them 60 to 120.";
    not_both(tip_flat, tip_radius): "The tip has a flat or a radius, not both.";
    smaller(hole_diameter < diameter, hole_diameter = "6 mm", diameter = "12 mm"):
        "The hole must be smaller than the countersink.";
    smaller(tip_flat < diameter, tip_flat = "0 in"): "The tip's flat must be smaller than the countersink.";
} }
